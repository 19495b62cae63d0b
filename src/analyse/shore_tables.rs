//! The shore in tables: finds per kilometre by stretch, and where each shown cell lies along it.

use std::collections::{BTreeMap, BTreeSet};

use super::{Dimension, ShoreProfile, Stretch, Table, Value};
use crate::coordinates::notation::reference;
use crate::study::PublicStudy;
use crate::study::vocabulary::Term;
use crate::words::{Value as Word, Words};

/// Pieces per kilometre of shore, a row a stretch and a column a class or period.
pub fn shore_by(profile: &ShoreProfile, study: &PublicStudy, dimension: Dimension) -> Table {
    match dimension {
        Dimension::Class => by(profile, study, "shore-by-class", |stretch| &stretch.by_class),
        _ => by(profile, study, "shore-by-period", |stretch| &stretch.by_period),
    }
}

fn by<K: Ord + Copy + Term>(
    profile: &ShoreProfile,
    study: &PublicStudy,
    name: &str,
    share: impl Fn(&Stretch) -> &BTreeMap<Option<K>, f64>,
) -> Table {
    let words = Words::of(study.language);
    let kinds: BTreeSet<K> =
        profile.stretches.iter().flat_map(|stretch| share(stretch).keys().flatten().copied()).collect();
    let mut headings = vec![words.say("shore-stretch")];
    headings.extend(kinds.iter().map(|kind| kind.label(study.language)));
    headings.push(words.say("shore-all"));
    let per_km = |pieces: f64, stretch: &Stretch| {
        Value::Number(pieces / ((stretch.to_m - stretch.from_m) / 1000.0), 1)
    };
    let rows = profile
        .stretches
        .iter()
        .map(|stretch| {
            let mut row = vec![Value::Text(format!(
                "{}–{} km",
                words.number(stretch.from_m / 1000.0, 1),
                words.number(stretch.to_m / 1000.0, 1)
            ))];
            row.extend(kinds.iter().map(|kind| {
                share(stretch).get(&Some(*kind)).map_or(Value::Empty, |pieces| per_km(*pieces, stretch))
            }));
            row.push(per_km(stretch.pieces, stretch));
            row
        })
        .collect();
    Table {
        name: name.to_owned(),
        title: words.say(&format!("table-{name}")),
        headings,
        rows,
        totals: None,
        notes: notes(profile, study),
    }
}

/// Where each shown cell lies: a range of kilometres along the shore and of metres from it.
pub fn shore_cells(profile: &ShoreProfile, study: &PublicStudy) -> Table {
    let words = Words::of(study.language);
    let rows = profile
        .cells
        .iter()
        .map(|(cell, (from_m, to_m), (near_m, far_m))| {
            vec![
                Value::Text(reference(&study.grid, *cell)),
                Value::Whole(u64::from(cell.side_m)),
                Value::Number(from_m / 1000.0, 1),
                Value::Number(to_m / 1000.0, 1),
                Value::Number((near_m / 10.0).floor() * 10.0, 0),
                Value::Number((far_m / 10.0).ceil() * 10.0, 0),
            ]
        })
        .collect();
    Table {
        name: "cells-along-the-shore".to_owned(),
        title: words.say("table-cells-along-the-shore"),
        headings: ["cell-square", "cell-side", "cell-km-from", "cell-km-to", "cell-near", "cell-far"]
            .iter()
            .map(|id| words.say(&format!("shore-{id}")))
            .collect(),
        rows,
        totals: None,
        notes: notes(profile, study),
    }
}

fn notes(profile: &ShoreProfile, study: &PublicStudy) -> Vec<String> {
    let words = Words::of(study.language);
    let mut notes = vec![words.say_with(
        "shore-note-length",
        &[
            ("length", words.number(profile.length_m / 1000.0, 1).into()),
            ("tolerance", words.number(profile.simplify_m, 0).into()),
        ],
    )];
    if profile.others > 0 {
        notes.push(words.say_with("shore-note-others", &[("n", profile.others.into())]));
    }
    notes.push(words.say("shore-note-shared"));
    if !study.agreement.exact_counts {
        notes.push(words.say("tables-note-from-bands"));
    }
    if !profile.beyond.is_nothing() {
        let within = words.number(study.shore.within_m, 0);
        notes.push(
            words.say_with(
                "shore-note-beyond",
                &[("n", Word::from(profile.beyond)), ("within", within.into())],
            ),
        );
    }
    if !profile.by_parish_only.is_nothing() {
        notes.push(words.say_with("shore-note-parish", &[("n", profile.by_parish_only.into())]));
    }
    notes
}
