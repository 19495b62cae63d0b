//! GeoJSON by RFC 7946: WGS84 longitude and latitude, right-hand rule, no `crs` member.

use geo::orient::{Direction, Orient};
use geo::{MapCoords as _, MultiPolygon};
use geojson::feature::Id;
use geojson::{Feature, FeatureCollection, Geometry, JsonObject, JsonValue};

use super::records::{Datum, Records};
use super::{Contents, facts};
use crate::analyse::{Contours, Surface, contour_levels};
use crate::coordinates::{Converter, System};
use crate::fault::{Fault, Result};
use crate::words::Words;

/// Decimals of degrees for corners in a grid of squares `side_m` wide: 5 (about 1 m) from 100 m up,
/// and 6 (about 0.1 m) under it. More would say more than a square does.
fn decimals(side_m: Option<i64>) -> i32 {
    if side_m.is_some_and(|side| side < 100) { 6 } else { 5 }
}

/// The records as a feature collection, numbered from 1 in their order.
pub(super) fn write(records: &Records, contents: &Contents<'_>) -> Result<Vec<u8>> {
    let converter = Converter::new(&contents.study.grid, &System::Wgs84)?;
    let mut features = Vec::with_capacity(records.rows.len());
    for (index, row) in records.rows.iter().enumerate() {
        let geometry = match &row.shape {
            Some(shape) => Some(geometry(&to_wgs84(shape, &converter, smallest_side(contents))?)),
            None => None,
        };
        let mut properties = JsonObject::new();
        for (column, value) in records.columns.iter().zip(&row.values) {
            properties.insert(column.name.to_owned(), json(value));
        }
        features.push(Feature {
            id: Some(Id::Number((index + 1).into())),
            geometry,
            properties: Some(properties),
            ..Feature::default()
        });
    }
    let facts = if records.name == "concentrations" { facts::concentrations(contents) } else { Vec::new() };
    collection(records.name, &records.title, &records.caution, features, facts, contents)
}

/// Contours of the density surface: one feature a level, its lines inside the window alone.
pub(super) fn contours(surface: &Surface, contents: &Contents<'_>) -> Result<Vec<u8>> {
    let words = Words::of(contents.study.language);
    let converter = Converter::new(&contents.study.grid, &System::Wgs84)?;
    // A line through means over squares is known to a tenth of their side, not to a metre; and among thousands
    // of its corners, none may agree with a find to the metre by chance.
    let scale = 10f64.powi(decimals(smallest_side(contents)) - 1);
    let drawn = Contours::new(surface);
    let mut features = Vec::new();
    for level in contour_levels([surface]) {
        let lines = drawn.lines(level).try_map_coords(|c| {
            let (longitude, latitude) = converter.convert_xy(c.x, c.y)?;
            let rounded = |degrees: f64| (degrees * scale).round() / scale;
            Ok::<_, Fault>(geo::Coord { x: rounded(longitude), y: rounded(latitude) })
        })?;
        let mut properties = JsonObject::new();
        properties.insert("pieces_per_hectare".to_owned(), level.into());
        features.push(Feature {
            id: Some(Id::Number((features.len() + 1).into())),
            geometry: Some(Geometry::new(geojson::Value::from(&lines))),
            properties: Some(properties),
            ..Feature::default()
        });
    }
    let (title, caution) = (words.say("pack-layer-contours"), words.say("pack-layer-contours-caution"));
    collection("contours", &title, &caution, features, facts::surface(surface, contents), contents)
}

/// Features with what is said of them all.
fn collection(
    name: &str,
    title: &str,
    caution: &str,
    features: Vec<Feature>,
    facts: Vec<(&str, String)>,
    contents: &Contents<'_>,
) -> Result<Vec<u8>> {
    let mut about = JsonObject::new();
    about.insert("name".to_owned(), name.into());
    about.insert("title".to_owned(), format!("{}: {title}", contents.study.title).into());
    about.insert("caution".to_owned(), caution.into());
    for (key, value) in facts {
        // Numbers are numbers here.
        let whole = value.parse::<u64>().map(JsonValue::from);
        let number = whole.ok().or_else(|| value.parse::<f64>().ok().map(JsonValue::from));
        about.insert(key.to_lowercase(), number.unwrap_or_else(|| value.into()));
    }
    if let Some(mark) = contents.handling() {
        about.insert("handling".to_owned(), mark.into());
    }
    let collection = FeatureCollection { bbox: None, features, foreign_members: Some(about) };
    let mut bytes = serde_json::to_vec(&collection)
        .map_err(|why| Fault::new("pack-layer").with("name", name).with("why", why))?;
    bytes.push(b'\n');
    Ok(bytes)
}

/// The side of the smallest shown cell, metres.
fn smallest_side(contents: &Contents<'_>) -> Option<i64> {
    contents.published.cells().iter().map(|summary| i64::from(summary.cell.side_m)).min()
}

/// A shape of the working grid in WGS84, its outer rings counter-clockwise, corners rounded.
pub(super) fn to_wgs84(
    shape: &MultiPolygon<f64>,
    converter: &Converter,
    side_m: Option<i64>,
) -> Result<MultiPolygon<f64>> {
    let scale = 10f64.powi(decimals(side_m));
    let shape = shape.try_map_coords(|corner| {
        let (longitude, latitude) = converter.convert_xy(corner.x, corner.y)?;
        let rounded = |degrees: f64| (degrees * scale).round() / scale;
        Ok::<_, Fault>(geo::Coord { x: rounded(longitude), y: rounded(latitude) })
    })?;
    Ok(shape.orient(Direction::Default))
}

/// One polygon as a Polygon, several as a MultiPolygon.
fn geometry(shape: &MultiPolygon<f64>) -> Geometry {
    match shape.0.as_slice() {
        [polygon] => Geometry::new(geojson::Value::from(polygon)),
        _ => Geometry::new(geojson::Value::from(shape)),
    }
}

fn json(value: &Datum) -> JsonValue {
    match value {
        Datum::Nothing => JsonValue::Null,
        Datum::Text(text) => text.clone().into(),
        Datum::Whole(n) => (*n).into(),
        Datum::Real(n, decimals) => {
            let scale = 10f64.powi(*decimals as i32);
            ((n * scale).round() / scale).into()
        }
    }
}
