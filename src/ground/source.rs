//! One vector layer out of a file: its shapes with their names, and the system it states.

use std::path::{Path, PathBuf};

use gdal::spatial_ref::SpatialRef;
use gdal::vector::{Feature as RawFeature, Geometry as RawGeometry, LayerAccess, OGRwkbGeometryType as Kind};
use gdal::{Dataset, DatasetOptions, GdalOpenFlags};
use geo::{Geometry, LineString, Point, Polygon};

use crate::coordinates::System;
use crate::fault::{Fault, Result};
use crate::study::vocabulary::fold;
use crate::study::{LayerKind, LayerSpec};

/// The vector formats that are built in, by the names GDAL has for them.
const VECTOR_FORMATS: [&str; 4] = ["GeoJSON", "GPKG", "ESRI Shapefile", "FlatGeobuf"];

/// Attributes that commonly hold a name, folded, the likeliest first.
const NAME_ATTRIBUTES: [&str; 8] =
    ["name", "nom", "parish", "commune", "townland", "label", "title", "place"];

/// One row of a layer, flattened to simple shapes.
#[derive(Debug, Clone, Default)]
pub(super) struct Row {
    pub name: Option<String>,
    /// Share of ground looked at, 0 to 1.
    pub cover: Option<f64>,
    pub polygons: Vec<Polygon<f64>>,
    pub lines: Vec<LineString<f64>>,
    pub points: Vec<Point<f64>>,
}

/// A layer as read, in its own system.
#[derive(Debug)]
pub(super) struct Source {
    pub system: System,
    pub rows: Vec<Row>,
}

/// The file of a layer, which must be there. Checked before GDAL is asked, whose own names for things
/// that are no files (archives, addresses) are not wanted here.
pub(super) fn locate(spec: &LayerSpec, root: &Path) -> Result<PathBuf> {
    let path = root.join(&spec.file);
    match std::fs::metadata(&path) {
        Ok(meta) if meta.is_file() => Ok(path),
        Ok(_) => Err(Fault::new("ground-not-a-file").in_file(&spec.file)),
        Err(_) => Err(Fault::new("ground-no-file").with("layer", spec.kind.name()).in_file(&spec.file)),
    }
}

/// Opens a file with the named formats alone.
pub(super) fn open(spec: &LayerSpec, root: &Path, formats: &[&str], kind: GdalOpenFlags) -> Result<Dataset> {
    crate::coordinates::start();
    let path = locate(spec, root)?;
    let options = DatasetOptions {
        open_flags: GdalOpenFlags::GDAL_OF_READONLY | kind,
        allowed_drivers: Some(formats),
        ..DatasetOptions::default()
    };
    Dataset::open_ex(&path, options)
        .map_err(|_| Fault::new("ground-format").with("formats", formats.join(", ")).in_file(&spec.file))
}

/// Reads the layer that `spec` names.
pub(super) fn read(spec: &LayerSpec, root: &Path) -> Result<Source> {
    let dataset = open(spec, root, &VECTOR_FORMATS, GdalOpenFlags::GDAL_OF_VECTOR)?;
    let geojson = dataset.driver().short_name() == "GeoJSON";
    let mut layer = choose_layer(&dataset, spec)?;
    let attributes: Vec<String> = layer.defn().fields().map(|field| field.name()).collect();
    let name = name_attribute(spec, &attributes)?;
    let cover = match &spec.cover {
        Some(cover) => Some(attribute(spec, &attributes, cover)?),
        None => None,
    };
    let stated = layer.spatial_ref().and_then(|reference| system_of(&reference));
    let mut rows = Vec::new();
    for (index, feature) in layer.features().enumerate() {
        let number = index as u64 + 1;
        let mut row = Row::default();
        if let Some(index) = name {
            row.name = text(&feature, index);
        }
        if let Some(index) = cover {
            row.cover = share(&feature, index).map_err(|f| f.at_row(number).in_file(&spec.file))?;
        }
        if let Some(geometry) = feature.geometry() {
            flatten(geometry, &mut row).map_err(|fault| fault.at_row(number).in_file(&spec.file))?;
        }
        rows.push(row);
    }
    let system = settle_system(spec, stated, geojson, &rows)?;
    Ok(Source { system, rows })
}

fn choose_layer<'a>(dataset: &'a Dataset, spec: &LayerSpec) -> Result<gdal::vector::Layer<'a>> {
    let names: Vec<String> = dataset.layers().map(|layer| layer.name()).collect();
    let known = names.join(", ");
    let fault = |id| Fault::new(id).with("known", &known).in_file(&spec.file);
    let index = match &spec.layer {
        Some(wanted) => names
            .iter()
            .position(|name| name == wanted)
            .ok_or_else(|| fault("ground-no-layer").with("name", wanted))?,
        None if names.len() > 1 => return Err(fault("ground-which-layer")),
        None => 0,
    };
    dataset.layer(index).map_err(|_| fault("ground-empty").with("layer", spec.kind.name()))
}

/// Which attribute names the shapes: the one the study names, or one that commonly does.
fn name_attribute(spec: &LayerSpec, attributes: &[String]) -> Result<Option<usize>> {
    if let Some(name) = &spec.name {
        return attribute(spec, attributes, name).map(Some);
    }
    if !matches!(spec.kind, LayerKind::Parishes | LayerKind::Places | LayerKind::Walked) {
        return Ok(None);
    }
    let usual = NAME_ATTRIBUTES
        .iter()
        .find_map(|usual| attributes.iter().position(|attribute| fold(attribute) == *usual));
    match (usual, spec.kind) {
        (None, LayerKind::Parishes | LayerKind::Places) => Err(Fault::new("ground-which-name")
            .with("layer", spec.kind.name())
            .with("known", attributes.join(", "))
            .in_file(&spec.file)),
        _ => Ok(usual),
    }
}

fn attribute(spec: &LayerSpec, attributes: &[String], wanted: &str) -> Result<usize> {
    attributes.iter().position(|attribute| attribute == wanted).ok_or_else(|| {
        let nearest = attributes
            .iter()
            .map(|attribute| {
                (strsim::jaro_winkler(&attribute.to_lowercase(), &wanted.to_lowercase()), attribute)
            })
            .filter(|(likeness, _)| *likeness > 0.75)
            .max_by(|a, b| a.0.total_cmp(&b.0).then_with(|| b.1.cmp(a.1)));
        let fault = match nearest {
            Some((_, nearest)) => Fault::new("ground-no-attribute-near").with("nearest", nearest),
            None => Fault::new("ground-no-attribute"),
        };
        fault.with("name", wanted).with("known", attributes.join(", ")).in_file(&spec.file)
    })
}

fn text(feature: &RawFeature<'_>, index: usize) -> Option<String> {
    let text = feature.field_as_string(index).ok().flatten()?;
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    (!text.is_empty()).then_some(text)
}

/// A share from 0 to 1, also written with a decimal comma or as a percentage.
fn share(feature: &RawFeature<'_>, index: usize) -> Result<Option<f64>> {
    let Some(written) = text(feature, index) else { return Ok(None) };
    let (number, divisor) = match written.strip_suffix('%') {
        Some(number) => (number.trim(), 100.0),
        None => (written.as_str(), 1.0),
    };
    match number.replace(',', ".").parse::<f64>().map(|value| value / divisor) {
        Ok(value) if (0.0..=1.0).contains(&value) => Ok(Some(value)),
        _ => Err(Fault::new("ground-cover").with("text", written)),
    }
}

/// Takes collections apart, drops heights, and leaves out what is empty.
fn flatten(geometry: &RawGeometry, row: &mut Row) -> Result<()> {
    if geometry.is_empty() {
        return Ok(());
    }
    let mut flat = geometry.clone();
    flat.flatten_to_2d();
    match flat.geometry_type() {
        Kind::wkbPoint | Kind::wkbLineString | Kind::wkbPolygon => {
            let shape = flat.to_geo().map_err(|_| Fault::new("ground-shape"))?;
            if geo::CoordsIter::coords_iter(&shape).any(|c| !(c.x.is_finite() && c.y.is_finite())) {
                return Err(Fault::new("ground-not-finite"));
            }
            match shape {
                Geometry::Point(point) => row.points.push(point),
                Geometry::LineString(line) => row.lines.push(line),
                Geometry::Polygon(polygon) => row.polygons.push(polygon),
                _ => return Err(Fault::new("ground-shape")),
            }
        }
        Kind::wkbMultiPoint
        | Kind::wkbMultiLineString
        | Kind::wkbMultiPolygon
        | Kind::wkbGeometryCollection => {
            for index in 0..flat.geometry_count() {
                flatten(&flat.get_geometry(index), row)?;
            }
        }
        _ => return Err(Fault::new("ground-shape")),
    }
    Ok(())
}

/// The system that a spatial reference states, by its code where it has or can be given one.
pub(super) fn system_of(reference: &SpatialRef) -> Option<System> {
    if reference.is_local() {
        return None;
    }
    let code = |reference: &SpatialRef| match (reference.auth_name()?.as_str(), reference.auth_code()) {
        ("EPSG", Ok(code)) => u32::try_from(code).ok(),
        _ => None,
    };
    if reference.authority().is_ok_and(|authority| authority == "OGC:CRS84") {
        return Some(System::Wgs84);
    }
    // A system with heights: the ground plan is what counts here.
    let in_plan = || {
        let node = if reference.is_projected() { "PROJCS|AUTHORITY" } else { "GEOGCS|AUTHORITY" };
        reference.get_attr_value(node, 1).ok().flatten()?.parse().ok()
    };
    let found = if reference.is_compound() { in_plan() } else { code(reference) };
    let found = found.or_else(|| {
        let mut copy = reference.clone();
        copy.auto_identify_epsg().ok()?;
        code(&copy)
    });
    match found {
        // WGS84 with ellipsoidal heights.
        Some(4979) => Some(System::Wgs84),
        Some(code) => Some(System::from_epsg(code)),
        None => reference.to_wkt().ok().filter(|wkt| !wkt.is_empty()).map(System::Stated),
    }
}

/// The file's word first, then the study's. GeoJSON without a word of its own is WGS84; numbers that
/// cannot be degrees show that its maker meant something else.
fn settle_system(spec: &LayerSpec, stated: Option<System>, geojson: bool, rows: &[Row]) -> Result<System> {
    let system = stated
        .or_else(|| spec.system.clone())
        .ok_or_else(|| Fault::new("ground-no-system").with("layer", spec.kind.name()).in_file(&spec.file))?;
    if system == System::Wgs84 && !rows.iter().all(in_degrees) {
        return match &spec.system {
            Some(system) if geojson && *system != System::Wgs84 => Ok(system.clone()),
            _ => Err(Fault::new("ground-not-degrees").with("layer", spec.kind.name()).in_file(&spec.file)),
        };
    }
    Ok(system)
}

fn in_degrees(row: &Row) -> bool {
    use geo::CoordsIter;
    let fits = |c: geo::Coord<f64>| c.x.abs() <= 360.0 && c.y.abs() <= 90.0;
    row.points.iter().all(|p| fits(p.0))
        && row.lines.iter().all(|l| l.coords_iter().all(fits))
        && row.polygons.iter().all(|p| p.coords_iter().all(fits))
}
