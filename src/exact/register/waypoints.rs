//! Waypoints that a phone or a hand-held receiver saved (GPX 1.0 and 1.1): each is a find, its place in WGS84. Tracks
//! and routes are where somebody walked, not finds, and are left alone.

use gpx::{Gpx, Waypoint};

use super::decode::TextTable;
use crate::fault::{Fault, Result};

/// The headings of the table that waypoints become: words that registers use.
const HEADINGS: [&str; 6] = ["Number", "Latitude", "Longitude", "Class", "Date", "Note"];

/// The waypoints as a text table. Row numbers are those of a table with one row of headings: waypoint 1 is row 2.
pub(super) fn table(bytes: &[u8]) -> Result<TextTable> {
    let broken = |why: &dyn std::fmt::Display| Fault::new("register-waypoints").with("why", why);
    let rows: Vec<[String; 6]> = match gpx::read(bytes) {
        Ok(Gpx { waypoints, .. }) => waypoints.iter().map(row).collect(),
        // One waypoint that the library refuses stops it; as rows they are used or set aside one by one.
        Err(why) => each(bytes).ok_or_else(|| broken(&why))?,
    };
    if rows.is_empty() {
        return Err(Fault::new("register-no-waypoints"));
    }
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer.write_record(HEADINGS).map_err(|why| broken(&why))?;
    for row in &rows {
        writer.write_record(row).map_err(|why| broken(&why))?;
    }
    let written = writer.into_inner().map_err(|why| broken(&why))?;
    let text = String::from_utf8(written).map_err(|why| broken(&why))?;
    Ok(TextTable { sheet: None, text, encoding: "GPX" })
}

/// A waypoint as a row.
fn row(waypoint: &Waypoint) -> [String; 6] {
    let told = [&waypoint.name, &waypoint.type_, &waypoint.description, &waypoint.comment];
    let point = waypoint.point();
    let date = waypoint.time.and_then(|time| time.format().ok()).unwrap_or_default();
    said(told.map(|text| text.as_deref().unwrap_or_default()), degrees(point.y()), degrees(point.x()), &date)
}

/// The waypoints of a file of which the library will not have one: each as written, the bad ones too, which are set
/// aside as rows are. `None` where the file is no XML of waypoints.
fn each(bytes: &[u8]) -> Option<Vec<[String; 6]>> {
    let text = std::str::from_utf8(bytes).ok()?;
    let tree = roxmltree::Document::parse(text).ok()?;
    let root = tree.root_element();
    if root.tag_name().name() != "gpx" {
        return None;
    }
    let one = |waypoint: roxmltree::Node<'_, '_>| {
        let part = |name: &str| {
            let found = waypoint.children().find(|child| child.tag_name().name() == name);
            found.and_then(|child| child.text()).unwrap_or_default()
        };
        let place = |name: &str| waypoint.attribute(name).unwrap_or_default().trim().to_owned();
        said(["name", "type", "desc", "cmt"].map(part), place("lat"), place("lon"), part("time").trim())
    };
    Some(root.children().filter(|child| child.tag_name().name() == "wpt").map(one).collect())
}

/// A receiver asks for a name first, and a hurried finder writes there what it is; a careful one numbers it and
/// says what it is in the type, the description or the comment.
fn said(
    [name, kind, description, comment]: [&str; 4],
    latitude: String,
    longitude: String,
    time: &str,
) -> [String; 6] {
    let one_line = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
    let name = one_line(name);
    let told: Vec<String> =
        [kind, description, comment].into_iter().map(one_line).filter(|text| !text.is_empty()).collect();
    let class = told.first().unwrap_or(&name).clone();
    let mut note: Vec<String> = told.into_iter().skip(1).collect();
    note.dedup();
    // The day alone: "2024-03-05T14:21:07Z".
    let date = time.get(..10).unwrap_or(time).to_owned();
    [name, latitude, longitude, class, date, note.join("; ")]
}

/// The shortest figures that give the same number, so that no more is claimed than the receiver wrote.
fn degrees(value: f64) -> String {
    value.to_string()
}

#[cfg(test)]
mod tests {
    use super::table;

    #[test]
    fn waypoints_become_rows_and_tracks_do_not() {
        let gpx = r#"<?xml version="1.0"?>
            <gpx version="1.1" creator="a phone" xmlns="http://www.topografix.com/GPX/1/1">
            <wpt lat="49.50001" lon="-7.25"><time>2024-03-05T14:21:07Z</time><name>scraper</name></wpt>
            <wpt lat="49.5" lon="-7.2"><name>14</name><cmt>by the gate</cmt><desc>blade, broken</desc></wpt>
            <trk><trkseg><trkpt lat="1" lon="2"/></trkseg></trk></gpx>"#;
        let expected = "Number,Latitude,Longitude,Class,Date,Note\n\
                        scraper,49.50001,-7.25,scraper,2024-03-05,\n\
                        14,49.5,-7.2,\"blade, broken\",,by the gate\n";
        assert_eq!(table(gpx.as_bytes()).map(|table| table.text).unwrap(), expected);
        // One that cannot be stays a row, as written.
        let bad = gpx.replace("lon=\"-7.2\"", "lon=\"west\"");
        let expected = expected.replace("49.5,-7.2,", "49.5,west,");
        assert_eq!(table(bad.as_bytes()).map(|table| table.text).unwrap(), expected);
        assert_eq!(table(b"<gpx").map(|_| ()).unwrap_err().id, "register-waypoints");
        let none = r#"<gpx version="1.1" creator="x" xmlns="http://www.topografix.com/GPX/1/1"></gpx>"#;
        assert_eq!(table(none.as_bytes()).map(|_| ()).unwrap_err().id, "register-no-waypoints");
    }
}
