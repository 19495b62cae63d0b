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
    let read: Gpx = gpx::read(bytes).map_err(|why| broken(&why))?;
    if read.waypoints.is_empty() {
        return Err(Fault::new("register-no-waypoints"));
    }
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer.write_record(HEADINGS).map_err(|why| broken(&why))?;
    for waypoint in &read.waypoints {
        writer.write_record(row(waypoint)).map_err(|why| broken(&why))?;
    }
    let written = writer.into_inner().map_err(|why| broken(&why))?;
    let text = String::from_utf8(written).map_err(|why| broken(&why))?;
    Ok(TextTable { sheet: None, text, encoding: "GPX" })
}

/// A receiver asks for a name first, and a hurried finder writes there what it is; a careful one numbers it and
/// says what it is in the type, the description or the comment.
fn row(waypoint: &Waypoint) -> [String; 6] {
    let said = |text: &Option<String>| {
        text.as_deref().map(|text| text.split_whitespace().collect::<Vec<_>>().join(" ")).unwrap_or_default()
    };
    let name = said(&waypoint.name);
    let told: Vec<String> = [&waypoint.type_, &waypoint.description, &waypoint.comment]
        .into_iter()
        .map(said)
        .filter(|text| !text.is_empty())
        .collect();
    let class = told.first().unwrap_or(&name).clone();
    let mut note: Vec<String> = told.into_iter().skip(1).collect();
    note.dedup();
    let point = waypoint.point();
    let date = waypoint.time.and_then(|time| time.format().ok());
    // The day alone: "2024-03-05T14:21:07Z".
    let date = date.and_then(|moment| moment.get(..10).map(str::to_owned)).unwrap_or_default();
    [name, degrees(point.y()), degrees(point.x()), class, date, note.join("; ")]
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
        assert_eq!(table(b"<gpx").map(|_| ()).unwrap_err().id, "register-waypoints");
        let none = r#"<gpx version="1.1" creator="x" xmlns="http://www.topografix.com/GPX/1/1"></gpx>"#;
        assert_eq!(table(none.as_bytes()).map(|_| ()).unwrap_err().id, "register-no-waypoints");
    }
}
