//! KML 2.2 (OGC 12-007r2) for those who look at squares in an earth viewer.
//!
//! Built from plain elements rather than the library's typed ones: those put the geometry before the
//! style, which the schema does not allow, and several inner rings into one boundary.

use kml::types::Element;
use kml::{Kml, KmlWriter};

use super::Contents;
use super::geojson::to_wgs84;
use super::records::{Datum, Records};
use crate::coordinates::{Converter, System};
use crate::fault::{Fault, Result};
use crate::words::Words;

// An element's attributes are kept without order; each here has one at most, so the bytes repeat.

/// Fill of squares by how many pieces they hold, as KML writes colours (alpha, blue, green, red).
const FILLS: [(&str, &str); 4] =
    [("few", "80b4dcf0"), ("some", "9978b4e6"), ("many", "a63c78c8"), ("most", "b3204690")];
const EDGE: &str = "ff30465a";

/// The records as one document.
pub(super) fn write(records: &Records, contents: &Contents<'_>) -> Result<Vec<u8>> {
    let words = Words::of(contents.study.language);
    let converter = Converter::new(&contents.study.grid, &System::Wgs84)?;
    let caution = match contents.handling() {
        Some(mark) => format!("{mark}. {}", records.caution),
        None => records.caution.clone(),
    };
    let mut inside = vec![
        leaf("name", &format!("{}: {}", contents.study.title, records.title)),
        leaf("description", &caution),
    ];
    inside.extend(FILLS.iter().map(|(id, fill)| style(id, fill)));
    for row in &records.rows {
        let name = row.values.first().map(Datum::plain).unwrap_or_default();
        let mut balloon: Vec<String> = records
            .columns
            .iter()
            .zip(&row.values)
            .filter(|(_, value)| !matches!(value, Datum::Nothing))
            .map(|(column, value)| format!("{}: {}", column.heading(words), value.said(words)))
            .collect();
        balloon.push(caution.clone());
        let pieces = records
            .columns
            .iter()
            .position(|column| column.name == "pieces")
            .and_then(|index| row.values.get(index));
        let mut placemark = vec![
            leaf("name", &name),
            leaf("description", &balloon.join("\n")),
            leaf("styleUrl", &format!("#{}", style_of(pieces))),
        ];
        if let Some(shape) = &row.shape {
            let shape = to_wgs84(shape, &converter, None)?;
            placemark.push(node("MultiGeometry", shape.0.iter().map(polygon).collect()));
        }
        inside.push(node("Placemark", placemark));
    }
    let mut root = node("kml", vec![node("Document", inside)]);
    root.attrs.insert("xmlns".to_owned(), "http://www.opengis.net/kml/2.2".to_owned());
    let mut bytes = b"<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n".to_vec();
    KmlWriter::<_, f64>::from_writer(&mut bytes)
        .write(&Kml::Element(root))
        .map_err(|why| Fault::new("pack-layer").with("name", records.name).with("why", why))?;
    bytes.push(b'\n');
    Ok(bytes)
}

/// The style of a square by its count or band.
fn style_of(pieces: Option<&Datum>) -> &'static str {
    let band = match pieces {
        Some(Datum::Whole(n)) => crate::exact::band(u64::try_from(*n).unwrap_or_default()),
        Some(Datum::Text(band)) => band,
        _ => return "some",
    };
    match band {
        "1–2" => "few",
        "3–9" => "some",
        "10–49" => "many",
        _ => "most",
    }
}

fn style(id: &str, fill: &str) -> Element {
    let mut style = node(
        "Style",
        vec![
            node("LineStyle", vec![leaf("color", EDGE), leaf("width", "1")]),
            node("PolyStyle", vec![leaf("color", fill), leaf("fill", "1"), leaf("outline", "1")]),
        ],
    );
    style.attrs.insert("id".to_owned(), id.to_owned());
    style
}

fn polygon(polygon: &geo::Polygon<f64>) -> Element {
    let ring = |ring: &geo::LineString<f64>| {
        let corners: Vec<String> = ring.coords().map(|c| format!("{},{}", c.x, c.y)).collect();
        node("LinearRing", vec![leaf("coordinates", &corners.join(" "))])
    };
    let mut inside = vec![node("outerBoundaryIs", vec![ring(polygon.exterior())])];
    inside.extend(polygon.interiors().iter().map(|hole| node("innerBoundaryIs", vec![ring(hole)])));
    node("Polygon", inside)
}

fn node(name: &str, children: Vec<Element>) -> Element {
    Element { name: name.to_owned(), children, ..Element::default() }
}

fn leaf(name: &str, text: &str) -> Element {
    // XML 1.0 knows no control characters, escaped or not.
    let text = text.chars().filter(|c| !c.is_control() || matches!(c, '\n' | '\t')).collect();
    Element { name: name.to_owned(), content: Some(text), ..Element::default() }
}
