//! The same finds at several bandwidths side by side.

use super::{Counted, Figure, Panel};
use crate::analyse::Trial;
use crate::fault::{Fault, Result};
use crate::sheet::themes::density::level_text;
use crate::sheet::{MapKind, Scene, Sheet};
use crate::words::Words;

/// Draws the trials from the narrowest bandwidth to the widest; the study's own has the heavier frame. All are
/// shaded by the same levels.
pub fn compare_bandwidths(trials: &[Trial], scene: &Scene<'_>) -> Result<Vec<Sheet>> {
    if trials.is_empty() {
        return Err(Fault::new("sheet-no-density"));
    }
    let words = Words::of(scene.study.language);
    let panels = trials.iter().map(|trial| {
        let bandwidth = words.number(trial.surface.bandwidth_m, 0);
        let peak = level_text(trial.surface.peak(), words);
        let values = [
            ("bandwidth", bandwidth.clone().into()),
            ("why", words.say(trial.why).into()),
            ("peak", peak.into()),
        ];
        Panel {
            name: words.say_with("sheet-bandwidth", &[("bandwidth", bandwidth.into())]),
            note: words.say(trial.why),
            told: words.say_with("sheet-bandwidths-one", &values),
            scene: Scene { surface: Some(&trial.surface), ..*scene },
            chosen: trial.chosen,
        }
    });
    let figure = Figure {
        name: "bandwidths".to_owned(),
        title: words.say("sheet-kind-of-map-bandwidths"),
        study: None,
        detail: words.say("sheet-bandwidths-detail"),
        detailed: false,
        kind: MapKind::Density,
        panels: panels.collect(),
        headings: None,
        counted: Counted::Once,
        squares: false,
        frames: Some((words.say("sheet-bandwidths-chosen"), words.say("sheet-bandwidths-other"))),
        cautions: vec![words.say("sheet-bandwidths-caution")],
    };
    figure.draw(None, None)
}
