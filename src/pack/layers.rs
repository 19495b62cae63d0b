//! The layers of a pack for mapping programs, as far as the agreement gives them.

use geo::{Area as _, MultiPolygon};

use super::counts::Counts;
use super::records::{Column, Datum, Kind, Record, Records};
use super::{Contents, Pack, geojson, geopackage, kml, raster};
use crate::analyse::told_densities;
use crate::coordinates::notation::reference;
use crate::fault::Result;
use crate::study::{Attribute, Giving};
use crate::words::Words;

/// Adds the layers that the agreement gives.
pub(super) fn add(pack: &mut Pack, contents: &Contents<'_>) -> Result<()> {
    let mut inside = Vec::new();
    if contents.gives(Giving::Layers) {
        let cells = cells(contents);
        pack.add("layers/cells.geojson", geojson::write(&cells, contents)?);
        pack.add("layers/cells.kml", kml::write(&cells, contents)?);
        inside.push(cells);
    }
    if contents.gives(Giving::Concentrations) {
        let concentrations = concentrations(contents);
        pack.add("layers/concentrations.geojson", geojson::write(&concentrations, contents)?);
        inside.push(concentrations);
    }
    if let (true, Some(surface)) = (contents.gives(Giving::Density), contents.surface) {
        pack.add("layers/density.tif", raster::density(surface, contents)?);
        pack.add("layers/contours.geojson", geojson::contours(surface, contents)?);
    }
    if contents.gives(Giving::Layers) {
        if contents.study.agreement.show.contains(&Attribute::Parish) {
            inside.extend(parishes(contents));
        }
        pack.add("layers/strew.gpkg", geopackage::write(&inside, contents)?);
    }
    Ok(())
}

/// The layers of records that the agreement gives, in the order of the pack.
pub(super) fn given(contents: &Contents<'_>) -> Vec<Records> {
    let mut given = Vec::new();
    if contents.gives(Giving::Layers) {
        given.push(cells(contents));
    }
    if contents.gives(Giving::Concentrations) {
        given.push(concentrations(contents));
    }
    if contents.gives(Giving::Layers) && contents.study.agreement.show.contains(&Attribute::Parish) {
        given.extend(parishes(contents));
    }
    given
}

/// Every shown cell with what may be said of it.
pub(super) fn cells(contents: &Contents<'_>) -> Records {
    let words = Words::of(contents.study.language);
    let counts = Counts::of(contents);
    let show = &contents.study.agreement.show;
    let mut columns = vec![Column::new("reference", Kind::Text), Column::new("side_m", Kind::Whole)];
    if show.contains(&Attribute::Count) {
        columns.push(Column::new("pieces", if counts.exact() { Kind::Whole } else { Kind::Text }));
    }
    if counts.exact() {
        columns.push(Column::new("out_of_place", Kind::Whole));
    }
    if show.contains(&Attribute::Class) {
        columns.push(Column::new("classes", Kind::Text));
    }
    if show.contains(&Attribute::Period) {
        columns.push(Column::new("periods", Kind::Text));
    }
    let rows = contents.published.cells().iter().map(|summary| {
        let cell = summary.cell;
        let values = columns.iter().map(|column| match column.name {
            "reference" => Datum::Text(reference(&contents.study.grid, cell)),
            "side_m" => Datum::Whole(i64::from(cell.side_m)),
            "pieces" => counts.cell(summary.pieces),
            "out_of_place" => counts.cell(summary.out_of_place),
            "classes" => counts.present(&summary.by_class),
            _ => counts.present(&summary.by_period),
        });
        Record { shape: Some(square(cell)), values: values.collect() }
    });
    Records {
        name: "cells",
        title: words.say("pack-layer-cells"),
        caution: words.say("pack-layer-cells-caution"),
        rows: rows.collect(),
        columns: columns.clone(),
    }
    .marked(contents)
}

/// A cell's outline in its grid, counter-clockwise from the south-west corner.
pub(super) fn square(cell: crate::coordinates::Cell) -> MultiPolygon<f64> {
    let (west, south, east, north) = (cell.west_m(), cell.south_m(), cell.east_m(), cell.north_m());
    let ring = vec![(west, south), (east, south), (east, north), (west, north), (west, south)];
    MultiPolygon::new(vec![geo::Polygon::new(ring.into(), Vec::new())])
}

/// Each concentration with its outline along cell edges.
fn concentrations(contents: &Contents<'_>) -> Records {
    let words = Words::of(contents.study.language);
    let counts = Counts::of(contents);
    let mut columns = vec![Column::new("letter", Kind::Text), Column::new("hectares", Kind::Real)];
    if contents.study.agreement.show.contains(&Attribute::Count) {
        columns.push(Column::new("pieces", Kind::Text));
        columns.push(Column::new("may_hold", Kind::Text));
        columns.push(Column::new("per_hectare", Kind::Real));
        columns.push(Column::new("greatest_density", Kind::Real));
    }
    if contents.study.concentrations.resamples > 0 {
        columns.push(Column::new("firm", Kind::Real));
    }
    if contents.even.is_some() {
        columns.push(Column::new("p_global", Kind::Real));
        columns.push(Column::new("p_pointwise", Kind::Real));
    }
    columns.push(Column::new("classes", Kind::Text));
    columns.push(Column::new("periods", Kind::Text));
    let rows = contents.concentrations.iter().map(|patch| {
        let densities = told_densities(patch, contents.published.cells(), contents.study);
        let density =
            |which: usize| densities.map_or(Datum::Nothing, |told| Datum::Real(told[which].0, told[which].1));
        let values = columns.iter().map(|column| match column.name {
            "letter" => Datum::Text(patch.letter.clone()),
            "hectares" => Datum::Real(patch.hectares, 2),
            "pieces" => Datum::text(counts.patch(patch, patch.pieces)),
            "may_hold" => Datum::text(counts.patch(patch, patch.may_hold)),
            "per_hectare" => density(0),
            "greatest_density" => density(1),
            "firm" => Datum::real(patch.firm(), 2),
            "p_global" => Datum::real(patch.chance.map(|chance| chance.global), 3),
            "p_pointwise" => Datum::real(patch.chance.map(|chance| chance.pointwise), 3),
            "classes" => counts.present(&patch.by_class),
            _ => counts.present(&patch.by_period),
        });
        Record { shape: Some(patch.outline.clone()), values: values.collect() }
    });
    let mut caution = words.say("pack-layer-concentrations-caution");
    if contents.published.in_bands_only() {
        caution = format!("{caution} {}", words.say("tables-note-from-bands"));
    }
    Records {
        name: "concentrations",
        title: words.say("pack-layer-concentrations"),
        caution,
        rows: rows.collect(),
        columns: columns.clone(),
    }
    .marked(contents)
}

/// Each parish with its pieces. `None` without a parish layer.
fn parishes(contents: &Contents<'_>) -> Option<Records> {
    let words = Words::of(contents.study.language);
    if contents.ground.parishes.is_empty() {
        return None;
    }
    let counts = crate::analyse::finds_by_parish(contents.published, contents.partition);
    let shown = contents.study.agreement.show.contains(&Attribute::Count);
    let mut columns = vec![Column::new("parish", Kind::Text), Column::new("square_km", Kind::Real)];
    if shown {
        columns.push(Column::new("pieces", Kind::Whole));
    }
    let rows = contents.ground.parishes.iter().map(|parish| {
        let pieces = counts.iter().find(|(name, _)| *name == parish.name).map(|(_, pieces)| *pieces);
        let mut values =
            vec![Datum::Text(parish.name.clone()), Datum::Real(parish.shape.unsigned_area() / 1e6, 2)];
        if shown {
            values.push(pieces.map_or(Datum::Nothing, |pieces| Datum::Whole(pieces as i64)));
        }
        Record { shape: Some(parish.shape.clone()), values }
    });
    let mut caution = words.say("pack-layer-parishes-caution");
    if contents.published.in_bands_only() {
        caution = format!("{caution} {}", words.say("tables-note-from-bands"));
    }
    let records = Records {
        name: "parishes",
        title: words.say("pack-layer-parishes"),
        caution,
        rows: rows.collect(),
        columns: columns.clone(),
    };
    Some(records.marked(contents))
}
