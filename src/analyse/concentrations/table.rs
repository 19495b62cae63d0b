//! Concentrations as a table: a row each.

use super::{Concentrations, Over, in_one_square, told_densities};
use crate::analyse::{Table, Value};
use crate::exact::{Published, band};
use crate::study::{Attribute, Bound, PublicStudy};
use crate::words::Words;

/// Area, pieces, densities, firmness and chance of each concentration, with notes on how they were found.
///
/// Where all finds of one lie in a single square and the audience is told bands, its count is a band and its
/// densities are left out: they would tell the count.
pub fn concentration_table(found: &Concentrations, published: &Published, study: &PublicStudy) -> Table {
    let words = Words::of(study.language);
    let counted = study.agreement.show.contains(&Attribute::Count);
    let (firm, tested) = (study.concentrations.resamples > 0, found.test.is_some());
    let richer = study.agreement.precision.side_m().is_some_and(|side| side > 100);
    let called = if richer { "richer-squares" } else { "concentration" };
    let mut headings = vec![words.say(&format!("tables-{called}")), words.say("patches-hectares")];
    if counted {
        let ids = ["patches-pieces", "patches-may-hold", "patches-per-hectare", "patches-peak"];
        headings.extend(ids.map(|id| words.say(id)));
    }
    if firm {
        headings.push(words.say("patches-firm"));
    }
    if tested {
        headings.extend(["patches-p-global", "patches-p-pointwise"].map(|id| words.say(id)));
    }
    let rows = found.list.iter().map(|patch| {
        let banded = !study.agreement.exact_counts && in_one_square(patch, published.cells());
        let count = |n: u64| if banded { Value::Text(band(n).to_owned()) } else { Value::Whole(n) };
        let densities = told_densities(patch, published.cells(), study);
        let mut row = vec![Value::Text(patch.letter.clone()), Value::Number(patch.hectares, 2)];
        if counted {
            row.extend([count(patch.pieces), count(patch.may_hold)]);
            match densities {
                Some(told) => row.extend(told.map(|(value, decimals)| Value::Number(value, decimals))),
                None => row.extend([Value::Empty, Value::Empty]),
            }
        }
        if firm {
            // As the sheet's per cent rounds it.
            let firm = patch.firm().map(|share| (share * 100.0).round() / 100.0);
            row.push(firm.map_or(Value::Empty, |share| Value::Number(share, 2)));
        }
        if let (true, Some(chance)) = (tested, patch.chance) {
            row.extend([Value::Number(chance.global, 3), Value::Number(chance.pointwise, 3)]);
        }
        row
    });
    Table {
        name: "concentrations".to_owned(),
        title: words.say(&format!("patches-title-{called}")),
        headings,
        rows: rows.collect(),
        totals: None,
        notes: notes(found, study, words),
    }
}

fn notes(found: &Concentrations, study: &PublicStudy, words: &Words) -> Vec<String> {
    let settings = &study.concentrations;
    let mut notes = vec![match (settings.bound, found.test) {
        (Bound::Envelope { simulations, level, pointwise }, Some(test)) => {
            let over = match test.over {
                Over::Walked => "patches-over-walked",
                Over::Land => "patches-over-land",
            };
            let id = if pointwise { "patches-by-pointwise-envelope" } else { "patches-by-envelope" };
            let values = [
                ("simulations", simulations.into()),
                ("over", words.say(over).into()),
                ("level", words.number(level, 3).trim_end_matches('0').to_owned().into()),
                ("p", words.number(test.p, 3).into()),
                ("seed", words.number(settings.seed as f64, 0).into()),
            ];
            words.say_with(id, &values)
        }
        _ => {
            let share = words.number(settings.share * 100.0, 0);
            words.say_with("patches-by-share", &[("share", share.into())])
        }
    }];
    if settings.resamples > 0 {
        notes.push(words.say_with("patches-firm-note", &[("n", settings.resamples.into())]));
    }
    if !study.agreement.exact_counts {
        notes.push(words.say("tables-note-from-bands"));
    }
    notes.push(words.say("patches-no-boundary"));
    notes
}
