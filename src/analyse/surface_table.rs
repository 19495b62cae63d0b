//! What a density surface was made with and what it shows, as a table.

use super::{Surface, Table, Value};
use crate::study::PublicStudy;
use crate::words::Words;

/// Bandwidth, pixel, pieces and densities of a surface, a row each.
pub fn surface_table(surface: &Surface, study: &PublicStudy) -> Table {
    let words = Words::of(study.language);
    let pixel_ha = surface.pixel_m * surface.pixel_m / 1e4;
    let land_ha: f64 = surface.inside.iter().sum::<f64>() * pixel_ha;
    let peak = surface.per_hectare.iter().copied().fold(0.0, f64::max);
    let mean = if land_ha > 0.0 { surface.pieces / land_ha } else { 0.0 };
    let mut rows = vec![
        ("surface-bandwidth", Value::Number(surface.bandwidth_m, 0)),
        ("surface-method", Value::Text(words.say(surface.bandwidth_method))),
        ("surface-pixel", Value::Number(surface.pixel_m, 0)),
        ("surface-pieces", Value::Number(surface.pieces, 0)),
        ("surface-peak", Value::Number(peak, 2)),
        ("surface-mean", Value::Number(mean, 3)),
        ("surface-hectares", Value::Number(land_ha, 0)),
    ];
    if surface.left_out_of_place > 0 {
        rows.push(("surface-out-of-place", Value::Whole(surface.left_out_of_place)));
    }
    if surface.left_out_by_parish > 0 {
        rows.push(("surface-by-parish", Value::Whole(surface.left_out_by_parish)));
    }
    Table {
        name: "density-surface".to_owned(),
        title: words.say("table-density-surface"),
        headings: vec![words.say("surface-what"), words.say("surface-value")],
        rows: rows.into_iter().map(|(id, value)| vec![Value::Text(words.say(id)), value]).collect(),
        totals: None,
        notes: vec![words.say("surface-note")],
    }
}
