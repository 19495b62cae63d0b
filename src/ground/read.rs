//! Reads a study's layers, beside one another, into the working grid.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use geo::{Buffer, LineString, MultiLineString, MultiPolygon, Polygon};
use rayon::prelude::*;

use super::carry::carry;
use super::disclosed::crossing;
use super::ladder::Needed;
use super::mend::mend;
use super::relief;
use super::source::{self, Row};
use super::{Credit, Ground, NamedPlace, Parish, Walked};
use crate::coordinates::System;
use crate::fault::{Fault, Result};
use crate::study::{LayerKind, LayerSpec, PrivateStudy, PublicStudy, StricterRule};

impl Ground {
    /// Ground of which nothing is known, in the study's grid.
    pub fn empty(study: &PublicStudy) -> Self {
        Self {
            system: study.grid.clone(),
            parishes: Vec::new(),
            land: MultiPolygon(Vec::new()),
            shore: MultiLineString(Vec::new()),
            walked: Vec::new(),
            relief: None,
            roads: MultiLineString(Vec::new()),
            streams: MultiLineString(Vec::new()),
            water: MultiPolygon(Vec::new()),
            places: Vec::new(),
            protected: MultiPolygon(Vec::new()),
            beach: MultiPolygon(Vec::new()),
            beach_strip: None,
            parcels: Vec::new(),
            near: Vec::new(),
            around: MultiPolygon(Vec::new()),
            credits: Vec::new(),
        }
    }

    /// Reads the public layers of a study (and the shapes of its `near` rules) into its working grid.
    /// `root` is the study file's folder. Faults name the layer's file and say what to do.
    pub fn read(study: &PublicStudy, root: &Path) -> Result<Self> {
        let mut ground = Self::empty(study);
        ground.add(&study.layers, root)?;
        for stricter in &study.agreement.stricter {
            if let StricterRule::Near { layer, .. } = &stricter.rule {
                let shapes = near_shapes(layer, root, &ground).map_err(|fault| fault.in_file(&layer.file))?;
                ground.near.push(shapes);
            }
        }
        let strip =
            study.layers.iter().find(|spec| spec.kind == LayerKind::Beach).and_then(|spec| spec.strip_m);
        ground.beach_strip = strip.map(|strip_m| crossing(&ground.beach, &ground.shore.buffer(strip_m)));
        ground.join_small_parishes(Needed::of(&study.agreement));
        Ok(ground)
    }

    /// Reads private layers besides, for `check` alone.
    pub fn read_with_private(study: &PublicStudy, private: &PrivateStudy) -> Result<Self> {
        let mut ground = Self::read(study, &private.root)?;
        ground.add(&private.layers, &private.root)?;
        Ok(ground)
    }

    /// Reads layers beside one another, and takes them in their order. Relief is cut to what the others show.
    fn add(&mut self, specs: &[LayerSpec], root: &Path) -> Result<()> {
        let system = &self.system;
        let read: Vec<Option<Result<Layer>>> =
            specs.par_iter().map(|spec| Layer::read(spec, root, system)).collect();
        for (spec, layer) in specs.iter().zip(read) {
            let taken = match layer {
                Some(layer) => layer.map(|layer| self.take(spec.kind, layer)),
                None => relief::read(spec, root, self).map(|relief| self.relief = Some(relief)),
            };
            taken.map_err(|fault| fault.in_file(&spec.file))?;
            if let Some(whom) = &spec.credit {
                let credit = Credit { whom: whom.clone(), licence: spec.licence.clone() };
                if !self.credits.contains(&credit) {
                    self.credits.push(credit);
                }
            }
        }
        Ok(())
    }

    fn take(&mut self, kind: LayerKind, layer: Layer) {
        match layer {
            Layer::Parishes(parishes) => self.parishes = parishes,
            Layer::Parcels(parcels) => self.parcels = parcels,
            Layer::Walked(walked) => self.walked = walked,
            Layer::Places(places) => self.places = places,
            Layer::Area(area) => match kind {
                LayerKind::Land => self.land = area,
                LayerKind::Water => self.water = area,
                LayerKind::Protected => self.protected = area,
                LayerKind::Beach => self.beach = area,
                _ => self.around = area,
            },
            Layer::Lines(lines) => match kind {
                LayerKind::Shore => self.shore = lines,
                LayerKind::Roads => self.roads = lines,
                _ => self.streams = lines,
            },
        }
    }
}

/// What a layer holds, in the working grid.
enum Layer {
    Parishes(Vec<Parish>),
    Parcels(Vec<MultiPolygon<f64>>),
    Walked(Vec<Walked>),
    Places(Vec<NamedPlace>),
    Area(MultiPolygon<f64>),
    Lines(MultiLineString<f64>),
}

impl Layer {
    /// Reads a layer that stands by itself; `None` for relief, which does not.
    fn read(spec: &LayerSpec, root: &Path, system: &System) -> Option<Result<Self>> {
        let rows = || carry(source::read(spec, root)?, system);
        Some(match spec.kind {
            LayerKind::Relief => return None,
            LayerKind::Parishes => rows().and_then(|rows| parishes(spec, rows)).map(Self::Parishes),
            LayerKind::Parcels => rows().and_then(|rows| parcels(spec, rows)).map(Self::Parcels),
            LayerKind::Walked => rows().and_then(|rows| walked(spec, rows)).map(Self::Walked),
            LayerKind::Places => rows().and_then(|rows| places(spec, rows)).map(Self::Places),
            LayerKind::Land
            | LayerKind::Water
            | LayerKind::Protected
            | LayerKind::Beach
            | LayerKind::Around => rows().and_then(|rows| area(spec, rows)).map(Self::Area),
            LayerKind::Shore | LayerKind::Roads | LayerKind::Streams => {
                rows().and_then(|rows| lines(spec, rows)).map(Self::Lines)
            }
        })
    }
}

/// The fault for a layer that holds nothing of the kind it should: empty, or of other shapes.
fn nothing(spec: &LayerSpec, rows: &[Row], wanted: &str) -> Fault {
    let mut held = BTreeSet::new();
    for row in rows {
        held.extend((!row.polygons.is_empty()).then_some("polygons"));
        held.extend((!row.lines.is_empty()).then_some("lines"));
        held.extend((!row.points.is_empty()).then_some("points"));
    }
    let fault = if held.is_empty() {
        Fault::new("ground-empty")
    } else {
        let held: Vec<&str> = held.into_iter().collect();
        Fault::new("ground-wrong-shapes").with("wanted", wanted).with("held", held.join(", "))
    };
    fault.with("layer", spec.kind.name())
}

fn area(spec: &LayerSpec, rows: Vec<Row>) -> Result<MultiPolygon<f64>> {
    let nothing = nothing(spec, &rows, "polygons");
    let whole = mend(rows.into_iter().flat_map(|row| row.polygons).collect())?;
    if whole.0.is_empty() { Err(nothing) } else { Ok(whole) }
}

/// Lines; the rims of polygons serve too, since a coast is often given as land.
fn lines(spec: &LayerSpec, rows: Vec<Row>) -> Result<MultiLineString<f64>> {
    let nothing = nothing(spec, &rows, "lines");
    let mut lines = Vec::new();
    for row in rows {
        lines.extend(row.lines);
        for polygon in row.polygons {
            let (exterior, interiors) = polygon.into_inner();
            lines.push(exterior);
            lines.extend(interiors);
        }
    }
    lines.retain(|line| line.lines().any(|edge| edge.start != edge.end));
    if lines.is_empty() { Err(nothing) } else { Ok(MultiLineString(lines)) }
}

/// Parishes in order of name, those of one name merged.
fn parishes(spec: &LayerSpec, rows: Vec<Row>) -> Result<Vec<Parish>> {
    let nothing = nothing(spec, &rows, "polygons");
    let mut by_name: BTreeMap<String, Vec<Polygon<f64>>> = BTreeMap::new();
    for (index, row) in rows.into_iter().enumerate() {
        if row.polygons.is_empty() {
            continue;
        }
        let name = row.name.ok_or_else(|| Fault::new("ground-unnamed").at_row(index as u64 + 1))?;
        by_name.entry(name).or_default().extend(row.polygons);
    }
    let mut parishes = Vec::new();
    for (name, polygons) in by_name {
        let shape = mend(polygons)?;
        if !shape.0.is_empty() {
            parishes.push(Parish { name, also: Vec::new(), shape });
        }
    }
    if parishes.is_empty() { Err(nothing) } else { Ok(parishes) }
}

fn walked(spec: &LayerSpec, rows: Vec<Row>) -> Result<Vec<Walked>> {
    let nothing = nothing(spec, &rows, "polygons");
    let mut walked = Vec::new();
    for row in rows {
        let shape = mend(row.polygons)?;
        if !shape.0.is_empty() {
            walked.push(Walked { name: row.name, shape, cover: row.cover });
        }
    }
    if walked.is_empty() { Err(nothing) } else { Ok(walked) }
}

/// Parcels, each whatever its row holds.
fn parcels(spec: &LayerSpec, rows: Vec<Row>) -> Result<Vec<MultiPolygon<f64>>> {
    let nothing = nothing(spec, &rows, "polygons");
    let mut parcels = Vec::new();
    for row in rows {
        let shape = mend(row.polygons)?;
        if !shape.0.is_empty() {
            parcels.push(shape);
        }
    }
    if parcels.is_empty() { Err(nothing) } else { Ok(parcels) }
}

/// Named points, in order of name and place; points without a name are left out.
fn places(spec: &LayerSpec, rows: Vec<Row>) -> Result<Vec<NamedPlace>> {
    let nothing = nothing(spec, &rows, "points");
    let mut places = Vec::new();
    for row in rows {
        if let Some(name) = row.name {
            places.extend(row.points.into_iter().map(|at| NamedPlace { name: name.clone(), at }));
        }
    }
    places.sort_by(|a, b| {
        a.name.cmp(&b.name).then(a.at.x().total_cmp(&b.at.x())).then(a.at.y().total_cmp(&b.at.y()))
    });
    if places.is_empty() { Err(nothing) } else { Ok(places) }
}

/// The shapes of a `near` rule. A point or a line is kept as a polygon without area: distances to it
/// are what the rule asks for.
fn near_shapes(spec: &LayerSpec, root: &Path, ground: &Ground) -> Result<MultiPolygon<f64>> {
    let rows = carry(source::read(spec, root)?, &ground.system)?;
    let nothing = nothing(spec, &rows, "polygons");
    let mut thin = Vec::new();
    let mut polygons = Vec::new();
    for row in rows {
        polygons.extend(row.polygons);
        thin.extend(row.lines.into_iter().map(|line| {
            let back = line.0.iter().rev().skip(1).copied();
            Polygon::new(LineString(line.0.iter().copied().chain(back).collect()), Vec::new())
        }));
        thin.extend(row.points.into_iter().map(|p| Polygon::new(LineString(vec![p.0; 4]), Vec::new())));
    }
    let mut shapes = mend(polygons)?;
    shapes.0.extend(thin);
    if shapes.0.is_empty() { Err(nothing) } else { Ok(shapes) }
}
