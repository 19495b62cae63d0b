//! What a density surface was made with and what it shows, as a table.

use super::{Surface, Table, Value};
use crate::study::{EdgeCorrection, Effort, PublicStudy};
use crate::words::Words;

/// Bandwidth, pixel, pieces and densities of a surface, a row each.
pub fn surface_table(surface: &Surface, study: &PublicStudy) -> Table {
    let words = Words::of(study.language);
    let made = &surface.made;
    let pixel_ha = surface.pixel_m * surface.pixel_m / 1e4;
    let ground_ha: f64 = surface.inside.iter().sum::<f64>() * pixel_ha;
    let peak = surface.per_hectare.iter().copied().fold(0.0, f64::max);
    let mean = if ground_ha > 0.0 { surface.pieces / ground_ha } else { 0.0 };
    let mut rows = vec![("surface-bandwidth", Value::Number(surface.bandwidth_m, 0))];
    if made.kernel.east_m != made.kernel.north_m || made.kernel.lean != 0.0 {
        rows.push(("surface-bandwidth-east", Value::Number(made.kernel.east_m, 0)));
        rows.push(("surface-bandwidth-north", Value::Number(made.kernel.north_m, 0)));
        rows.push(("surface-bandwidth-lean", Value::Number(made.kernel.lean, 2)));
    }
    rows.push(("surface-method", Value::Text(words.say(surface.bandwidth_method))));
    if let Some(varying) = made.varying {
        rows.push(("surface-pilot", Value::Number(varying.pilot_m, 0)));
        rows.push(("surface-narrowest", Value::Number(varying.narrowest_m, 0)));
        rows.push(("surface-widest", Value::Number(varying.widest_m, 0)));
    }
    let edge = match made.edge {
        EdgeCorrection::Diggle => "surface-edge-diggle",
        EdgeCorrection::Uniform => "surface-edge-uniform",
        EdgeCorrection::None => "surface-edge-none",
    };
    let (mean_id, ground_id, note) = match made.effort {
        Effort::None => ("surface-mean", "surface-hectares", "surface-note"),
        Effort::Walked => ("surface-mean-walked", "surface-hectares-walked", "surface-note-walked"),
        Effort::Covered => ("surface-mean-covered", "surface-hectares-covered", "surface-note-covered"),
    };
    rows.extend([
        ("surface-edge", Value::Text(words.say(edge))),
        ("surface-pixel", Value::Number(surface.pixel_m, 0)),
        ("surface-pieces", surface.pieces_told().into()),
        ("surface-peak", Value::Number(peak, 2)),
        (mean_id, Value::Number(mean, 3)),
        (ground_id, Value::Number(ground_ha, 0)),
    ]);
    for (id, pieces) in [
        ("surface-out-of-place", surface.left_out_of_place),
        ("surface-by-parish", surface.left_out_by_parish),
        ("surface-by-setting", made.left_by_setting),
        ("surface-off-land", made.left_off_land),
        ("surface-unwalked", made.left_unwalked),
    ] {
        if !pieces.is_nothing() {
            rows.push((id, pieces.into()));
        }
    }
    let doubts = made.doubts.iter().copied();
    let bands = (!study.agreement.exact_counts).then_some("surface-note-from-bands");
    Table {
        name: "density-surface".to_owned(),
        title: words.say("table-density-surface"),
        headings: vec![words.say("surface-what"), words.say("surface-value")],
        rows: rows.into_iter().map(|(id, value)| vec![Value::Text(words.say(id)), value]).collect(),
        totals: None,
        notes: [note].into_iter().chain(bands).chain(doubts).map(|id| words.say(id)).collect(),
    }
}
