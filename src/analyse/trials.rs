//! The same finds at other bandwidths, so that a person can see what the choice does.

use super::{Surface, Table, Value, density};
use crate::exact::Published;
use crate::fault::Result;
use crate::ground::Ground;
use crate::study::{Bandwidth, PublicStudy};
use crate::words::Words;

/// A surface at one bandwidth, and why that one is tried, as a message of `words/`.
#[derive(Debug, Clone, PartialEq)]
pub struct Trial {
    /// The surface.
    pub surface: Surface,
    /// Why.
    pub why: &'static str,
    /// Whether it is the study's own.
    pub chosen: bool,
}

/// Surfaces at the study's bandwidth, at half and twice as much, and at what every selector takes; from the
/// narrowest to the widest. Empty when no find has a cell.
pub fn trials(published: &Published, study: &PublicStudy, ground: &Ground) -> Result<Vec<Trial>> {
    let Some(chosen) = density(published, study, ground)? else { return Ok(Vec::new()) };
    let times = |factor: f64| scaled(study.density.bandwidth, &chosen, factor);
    let mut others = vec![(times(0.5), Some("bandwidth-half")), (times(2.0), Some("bandwidth-double"))];
    others.extend(Bandwidth::SELECTORS.into_iter().map(|selector| (selector, None)));
    let why = chosen.bandwidth_method;
    let mut trials = vec![Trial { surface: chosen, why, chosen: true }];
    for (bandwidth, why) in others.into_iter().filter(|(other, _)| *other != study.density.bandwidth) {
        let mut study = study.clone();
        study.density.bandwidth = bandwidth;
        if let Some(surface) = density(published, &study, ground)? {
            let why = why.unwrap_or(surface.bandwidth_method);
            // A selector that finds no answer takes the rule of thumb, which is among them once.
            if trials.iter().all(|known| known.why != why || known.surface.bandwidth_m != surface.bandwidth_m)
            {
                trials.push(Trial { surface, why, chosen: false });
            }
        }
    }
    trials.sort_by(|a, b| a.surface.bandwidth_m.total_cmp(&b.surface.bandwidth_m));
    Ok(trials)
}

/// The bandwidth of a surface times a factor: in the same proportions where the study fixes them.
fn scaled(bandwidth: Bandwidth, surface: &Surface, factor: f64) -> Bandwidth {
    match bandwidth {
        Bandwidth::Along { east_m, north_m } => {
            Bandwidth::Along { east_m: east_m * factor, north_m: north_m * factor }
        }
        Bandwidth::Bearing { along_m, across_m, bearing_deg } => {
            Bandwidth::Bearing { along_m: along_m * factor, across_m: across_m * factor, bearing_deg }
        }
        _ => Bandwidth::Fixed(surface.bandwidth_m * factor),
    }
}

/// Bandwidths tried, a row each: metres, why, pixel, and the greatest density.
pub fn trials_table(trials: &[Trial], study: &PublicStudy) -> Table {
    let words = Words::of(study.language);
    let rows = trials.iter().map(|trial| {
        let surface = &trial.surface;
        let mut why = words.say(trial.why);
        if trial.chosen {
            why = words.say_with("bandwidth-chosen", &[("why", why.into())]);
        }
        vec![
            Value::Text(why),
            Value::Number(surface.bandwidth_m, 0),
            Value::Number(surface.pixel_m, 0),
            Value::Number(surface.peak(), 2),
        ]
    });
    let headings = ["bandwidths-why", "surface-bandwidth", "surface-pixel", "surface-peak"];
    Table {
        name: "bandwidths".to_owned(),
        title: words.say("bandwidths-title"),
        headings: headings.into_iter().map(|id| words.say(id)).collect(),
        rows: rows.collect(),
        totals: None,
        notes: vec![words.say("bandwidths-note")],
    }
}
