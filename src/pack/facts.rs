//! How a surface and its concentrations were made, as plain keys and values: the metadata of their layers.
//! Keys are the same in every language; numbers have a decimal point.

use super::Contents;
use crate::analyse::{Over, Surface};
use crate::study::{Bound, EdgeCorrection, Effort, Prominence};
use crate::words::Words;

/// The statistics of a surface.
pub(super) fn surface(surface: &Surface, contents: &Contents<'_>) -> Vec<(&'static str, String)> {
    let words = Words::of(contents.study.language);
    let made = &surface.made;
    let ground = if made.effort == Effort::None { "land" } else { "walked ground" };
    let edge = match made.edge {
        EdgeCorrection::Diggle => format!("kept on {ground}, each find by itself (Jones-Diggle)"),
        EdgeCorrection::Uniform => format!("divided by the part of a kernel on {ground} (uniform)"),
        EdgeCorrection::None => "none".to_owned(),
    };
    let per = match made.effort {
        Effort::None => "hectare",
        Effort::Walked => "hectare walked",
        Effort::Covered => "hectare looked at",
    };
    let kernel = made.kernel;
    let covariance = kernel.lean * kernel.east_m * kernel.north_m;
    let mut sides: Vec<u32> = contents.published.cells().iter().map(|summary| summary.cell.side_m).collect();
    sides.sort_unstable();
    sides.dedup();
    let sides: Vec<String> = sides.iter().map(u32::to_string).collect();
    vec![
        ("UNITS", words.say("pack-density-units")),
        ("KERNEL", "gaussian".to_owned()),
        ("BANDWIDTH_M", format!("{}", surface.bandwidth_m)),
        ("BANDWIDTH", words.say("pack-density-bandwidth-meaning")),
        ("BANDWIDTH_METHOD", words.say(surface.bandwidth_method)),
        ("BANDWIDTH_EAST_M", format!("{}", kernel.east_m)),
        ("BANDWIDTH_NORTH_M", format!("{}", kernel.north_m)),
        ("BANDWIDTH_COVARIANCE_M2", format!("{covariance}")),
        ("BANDWIDTH_VARIES", if made.varying.is_some() { "each find (Abramson)" } else { "no" }.to_owned()),
        ("EDGE", edge),
        ("PER", per.to_owned()),
        ("PIXEL_M", format!("{}", surface.pixel_m)),
        ("CELL_SIDES_M", sides.join(" ")),
        ("PIECES", surface.pieces_told().text()),
        ("PIECES_OUT_OF_PLACE_LEFT_OUT", surface.left_out_of_place.text()),
        ("PIECES_BY_PARISH_LEFT_OUT", surface.left_out_by_parish.text()),
    ]
}

/// How concentrations were bounded, parted and tried.
pub(super) fn concentrations(contents: &Contents<'_>) -> Vec<(&'static str, String)> {
    let settings = &contents.study.concentrations;
    let mut facts = vec![match settings.prominence {
        Prominence::OfPeak(share) => ("PROMINENCE_SHARE_OF_PEAK", share.to_string()),
        Prominence::PerHectare(pieces) => ("PROMINENCE_PIECES_PER_HECTARE", pieces.to_string()),
    }];
    match (settings.bound, contents.even) {
        (Bound::Envelope { simulations, level, pointwise }, Some(test)) => facts.extend([
            ("BOUND", if pointwise { "pointwise envelope" } else { "global envelope" }.to_owned()),
            ("SIMULATIONS", simulations.to_string()),
            ("LEVEL", level.to_string()),
            ("SCATTERED_OVER", if test.over == Over::Walked { "walked ground" } else { "land" }.to_owned()),
            ("P_OF_THE_WHOLE", format!("{:.4}", test.p)),
        ]),
        _ => facts.extend([("BOUND", "share".to_owned()), ("SHARE", settings.share.to_string())]),
    }
    facts.extend([
        ("SMALLEST_PIECES", settings.smallest.to_string()),
        ("RESAMPLES", settings.resamples.to_string()),
        ("SEED", settings.seed.to_string()),
    ]);
    facts
}
