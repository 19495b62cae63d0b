//! Layers for mapping programs: GeoJSON, KML, shapefiles, GeoPackages and other databases of the same kind.

use std::sync::LazyLock;
use std::sync::atomic::{AtomicU64, Ordering};

use gdal::vector::{LayerAccess, sql::Dialect};
use gdal::{Dataset, DatasetOptions, GdalOpenFlags};
use geo::CoordsIter;
use regex::Regex;
use serde_json::Value;

use super::opening::{Here, Opened};
use super::{Form, Part, Vertex, encoded};
use crate::coordinates::System;

const METRES_OF_A_DEGREE: f64 = 111_320.0;
const KIND: &str = "audit-kind-layer";

/// What a shape is.
#[derive(Clone, Copy, PartialEq)]
enum Shape {
    /// Each vertex is a place by itself.
    Points,
    /// A line has no inside: contours are lines, and may be small.
    Line,
    Ring,
}

/// Adds a shape's vertices.
fn shape(opened: &mut Opened, here: &Here, system: Option<&System>, points: &[(f64, f64)], kind: Shape) {
    let fold = |all: &mut dyn Iterator<Item = f64>| {
        all.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), v| (low.min(v), high.max(v)))
    };
    let (west, east) = fold(&mut points.iter().map(|p| p.0));
    let (south, north) = fold(&mut points.iter().map(|p| p.1));
    let degrees = match system {
        Some(system) => system.in_degrees(),
        None => west >= -180.0 && east <= 180.0 && south >= -90.0 && north <= 90.0,
    };
    let times = if degrees { METRES_OF_A_DEGREE } else { 1.0 };
    let extent_m = (east - west).max(north - south) * times;
    let part = match kind {
        Shape::Line if points.len() > 1 => Part::Edge { extent_m: f64::INFINITY },
        _ if points.len() < 3 => Part::Place,
        Shape::Points | Shape::Line => Part::Place,
        Shape::Ring => Part::Edge { extent_m },
    };
    // Trailing noughts are lost in numbers: the finest vertex says how all are written.
    let decimals = points.iter().flat_map(|(x, y)| [decimals(*x), decimals(*y)]).max().unwrap_or(0).min(9);
    let unit = 10f64.powi(-decimals);
    for (x, y) in points {
        opened.vertices.push(Vertex {
            within: here.within.clone(),
            kind: KIND,
            system: system.cloned(),
            x: *x,
            y: *y,
            unit,
            part,
        });
    }
}

fn decimals(value: f64) -> i32 {
    let text = value.to_string();
    text.split_once('.').map_or(0, |(_, decimals)| decimals.len() as i32)
}

/// Opens GeoJSON; `false` where the text is none.
pub(super) fn geojson(opened: &mut Opened, here: &Here, text: &str) -> bool {
    const TYPES: [&str; 9] = [
        "FeatureCollection",
        "Feature",
        "Point",
        "MultiPoint",
        "LineString",
        "MultiLineString",
        "Polygon",
        "MultiPolygon",
        "GeometryCollection",
    ];
    let Ok(value) = serde_json::from_str::<Value>(text) else { return false };
    if !value.get("type").and_then(Value::as_str).is_some_and(|kind| TYPES.contains(&kind)) {
        return false;
    }
    // A member that stands twice is seen in the whole.
    opened.layer(here, Form::Drawing, text.as_bytes().to_vec());
    let named = value.pointer("/crs/properties/name").and_then(Value::as_str);
    let code = named.and_then(|name| name.rsplit(':').next()).and_then(|code| code.parse().ok());
    let system = code.map(System::from_epsg);
    let mut words = String::new();
    member(opened, here, system.as_ref(), &value, &mut words, 0);
    encoded::unwrap(opened, here, &words);
    opened.layer(here, Form::Text, words.into_bytes());
    true
}

fn member(
    opened: &mut Opened,
    here: &Here,
    system: Option<&System>,
    value: &Value,
    words: &mut String,
    depth: usize,
) {
    if depth > 64 {
        return opened.shut(here, "audit-not-too-deep");
    }
    match value {
        Value::Object(members) => {
            let kind = members.get("type").and_then(Value::as_str).unwrap_or("");
            for (name, value) in members {
                if name == "coordinates" && value.is_array() {
                    // RFC 7946 has degrees; figures larger than that are some other grid's.
                    let shape = match kind {
                        "Point" | "MultiPoint" => Shape::Points,
                        "LineString" | "MultiLineString" => Shape::Line,
                        _ => Shape::Ring,
                    };
                    coordinates(opened, here, system, value, shape, 0);
                    continue;
                }
                words.push_str(name);
                words.push('\t');
                member(opened, here, system, value, words, depth + 1);
            }
            words.push('\n');
        }
        Value::Array(all) => {
            all.iter().for_each(|value| member(opened, here, system, value, words, depth + 1))
        }
        Value::String(text) => {
            words.push_str(text);
            words.push('\t');
        }
        Value::Number(number) => {
            words.push_str(&number.to_string());
            words.push('\t');
        }
        Value::Bool(_) | Value::Null => {}
    }
}

fn coordinates(
    opened: &mut Opened,
    here: &Here,
    system: Option<&System>,
    value: &Value,
    kind: Shape,
    depth: usize,
) {
    let position = |value: &Value| match value.as_array()?.as_slice() {
        [x, y, ..] => x.as_f64().zip(y.as_f64()),
        _ => None,
    };
    let Some(all) = value.as_array().filter(|_| depth < 16) else { return };
    if let Some(place) = position(value) {
        return shape(opened, here, system, &[place], Shape::Points);
    }
    let points: Vec<(f64, f64)> = all.iter().filter_map(position).collect();
    if points.is_empty() {
        all.iter().for_each(|value| coordinates(opened, here, system, value, kind, depth + 1));
    } else {
        shape(opened, here, system, &points, kind);
    }
}

static COORDINATES: LazyLock<Option<Regex>> =
    LazyLock::new(|| Regex::new(r"(?s)<(?:\w+:)?coordinates\b[^>]*>(.*?)</(?:\w+:)?coordinates>").ok());

/// Opens the coordinates of a KML.
pub(super) fn kml(opened: &mut Opened, here: &Here, text: &str) {
    for captures in COORDINATES.iter().flat_map(|form| form.captures_iter(text)) {
        let Some(inside) = captures.get(1) else { continue };
        let points: Vec<(f64, f64)> = inside
            .as_str()
            .split_whitespace()
            .filter_map(|tuple| {
                let mut parts = tuple.split(',').map(str::parse);
                Some((parts.next()?.ok()?, parts.next()?.ok()?))
            })
            .collect();
        shape(opened, here, Some(&System::Wgs84), &points, Shape::Ring);
    }
}

/// Opens a shapefile's shapes (ESRI Shapefile Technical Description, 1998).
pub(super) fn shapefile(opened: &mut Opened, here: &Here, bytes: &[u8]) {
    let whole = |at: usize, big: bool| -> Option<i32> {
        let part = bytes.get(at..at.checked_add(4)?)?.try_into().ok()?;
        Some(if big { i32::from_be_bytes(part) } else { i32::from_le_bytes(part) })
    };
    let double = |at: usize| Some(f64::from_le_bytes(bytes.get(at..at.checked_add(8)?)?.try_into().ok()?));
    let mut at = 100;
    while let (Some(words), Some(kind)) = (whole(at + 4, true), whole(at + 8, false)) {
        let content = at + 8;
        let pairs = |from: usize, count: usize| -> Vec<(f64, f64)> {
            (0..count).map_while(|i| double(from + i * 16).zip(double(from + i * 16 + 8))).collect()
        };
        match kind % 10 {
            1 => shape(opened, here, None, &pairs(content + 4, 1), Shape::Points),
            8 => {
                let count = whole(content + 36, false).unwrap_or(0).max(0) as usize;
                shape(opened, here, None, &pairs(content + 40, count), Shape::Points);
            }
            line @ (3 | 5) => {
                let parts = whole(content + 36, false).unwrap_or(0).max(0) as usize;
                let count = whole(content + 40, false).unwrap_or(0).max(0) as usize;
                let from = content.saturating_add(44).saturating_add(parts.saturating_mul(4));
                let kind = if line == 3 { Shape::Line } else { Shape::Ring };
                shape(opened, here, None, &pairs(from, count), kind);
            }
            _ => {}
        }
        let Some(next) = usize::try_from(words).ok().and_then(|words| content.checked_add(words * 2)) else {
            break;
        };
        at = next;
    }
}

/// Names of files that stand in memory while a database is read.
static NUMBER: AtomicU64 = AtomicU64::new(0);

/// Opens a GeoPackage or another SQLite database: its shapes, and the rows of every table.
pub(super) fn database(opened: &mut Opened, here: &Here, bytes: &[u8]) {
    crate::coordinates::start();
    let path = format!("/vsimem/audit-{}.gpkg", NUMBER.fetch_add(1, Ordering::Relaxed));
    // Lent and not given away: GDAL would hand the memory back to the C library's allocator, which did not give it.
    let mut lent = bytes.to_vec();
    let Ok(_file) = gdal::vsi::create_mem_file_from_ref(&path, &mut lent) else {
        return opened.shut(here, "audit-not-damaged");
    };
    let options = DatasetOptions {
        open_flags: GdalOpenFlags::GDAL_OF_READONLY | GdalOpenFlags::GDAL_OF_VECTOR,
        allowed_drivers: Some(&["GPKG"]),
        ..DatasetOptions::default()
    };
    match Dataset::open_ex(&path, options) {
        Ok(dataset) => rows(opened, here, &dataset),
        Err(_) => opened.shut(here, "audit-not-format"),
    }
}

fn rows(opened: &mut Opened, here: &Here, dataset: &Dataset) {
    let mut words = String::new();
    // The format's own tables hold the extents of layers, whose corners are nobody's place.
    let mut about = String::new();
    let mut seen = Vec::new();
    for mut layer in dataset.layers() {
        seen.push(layer.name());
        let code = layer.spatial_ref().and_then(|reference| reference.auth_code().ok());
        let system = code.and_then(|code| u32::try_from(code).ok()).map(System::from_epsg);
        let fields = layer.defn().fields().count();
        for feature in layer.features() {
            for index in 0..fields {
                if let Ok(Some(text)) = feature.field_as_string(index) {
                    words.push_str(&text);
                    words.push('\t');
                }
            }
            words.push('\n');
            let Some(geometry) = feature.geometry().and_then(|geometry| geometry.to_geo().ok()) else {
                continue;
            };
            let kind = match geometry {
                geo::Geometry::Point(_) | geo::Geometry::MultiPoint(_) => Shape::Points,
                geo::Geometry::LineString(_) | geo::Geometry::MultiLineString(_) => Shape::Line,
                _ => Shape::Ring,
            };
            let points: Vec<(f64, f64)> = geometry.coords_iter().map(|c| (c.x, c.y)).collect();
            shape(opened, here, system.as_ref(), &points, kind);
        }
    }
    let mut names = Vec::new();
    if let Ok(Some(mut all)) =
        dataset.execute_sql("SELECT name FROM sqlite_master WHERE type = 'table'", None, Dialect::DEFAULT)
    {
        names.extend(all.features().filter_map(|row| row.field_as_string(0).ok().flatten()));
    }
    for name in names.iter().filter(|name| !seen.contains(name) && !name.starts_with("rtree_")) {
        let query = format!("SELECT * FROM \"{}\"", name.replace('"', "\"\""));
        let Ok(Some(mut table)) = dataset.execute_sql(query, None, Dialect::DEFAULT) else { continue };
        let fields = table.defn().fields().count();
        let own = name.starts_with("gpkg_") && !name.starts_with("gpkg_metadata");
        let into = if own { &mut about } else { &mut words };
        for row in table.features() {
            for index in 0..fields {
                if let Ok(Some(text)) = row.field_as_string(index) {
                    into.push_str(&text);
                    into.push('\t');
                }
            }
            into.push('\n');
        }
    }
    encoded::unwrap(opened, here, &words);
    opened.layer(here, Form::Text, words.into_bytes());
    opened.layer(here, Form::Hidden, about.into_bytes());
}
