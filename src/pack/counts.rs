//! How counts may be told: in a cell as a band, in the study's totals exactly.
//!
//! The figure of one cell is told as a band to an audience that may publish. The same holds for a
//! concentration whose finds lie in a single cell; one of several cells is a total and told exactly.

use std::collections::BTreeMap;

use super::Contents;
use super::records::Datum;
use crate::analyse::{Concentration, in_one_square};
use crate::exact::{CellSummary, band};
use crate::study::vocabulary::Term;
use crate::study::{Attribute, PublicStudy};
use crate::words::Words;

/// What one audience may be told of counts.
#[derive(Clone, Copy)]
pub(super) struct Counts<'a> {
    study: &'a PublicStudy,
    /// Counts are shown at all.
    shown: bool,
    /// Counts of cells are shown exactly.
    exact: bool,
    cells: &'a [CellSummary],
}

impl<'a> Counts<'a> {
    pub fn of(contents: &Contents<'a>) -> Self {
        let agreement = &contents.study.agreement;
        let shown = agreement.show.contains(&Attribute::Count);
        let exact = shown && agreement.exact_counts;
        Self { study: contents.study, shown, exact, cells: contents.published.cells() }
    }

    /// Whether counts of cells are told exactly.
    pub fn exact(self) -> bool {
        self.exact
    }

    /// The pieces of one cell.
    pub fn cell(self, pieces: u64) -> Datum {
        match (self.shown, self.exact) {
            (false, _) => Datum::Nothing,
            (true, false) => Datum::Text(band(pieces).to_owned()),
            (true, true) => Datum::Whole(pieces as i64),
        }
    }

    /// The pieces of a concentration, in words: the figure, or its band where they lie in one cell.
    pub fn patch(self, patch: &Concentration, pieces: u64) -> Option<String> {
        match (self.shown, self.exact || !in_one_square(patch, self.cells)) {
            (false, _) => None,
            (true, true) => Some(Words::of(self.study.language).number(pieces as f64, 0)),
            (true, false) => Some(band(pieces).to_owned()),
        }
    }

    /// The classes or periods present, each with its pieces: "Flake (10–49); Blade (1–2)". In the order
    /// of the vocabulary, so that the order tells nothing.
    pub fn present<T: Term + Copy>(self, parts: &BTreeMap<Option<T>, u64>) -> Datum {
        let told: Vec<String> = parts
            .iter()
            .filter_map(|(term, pieces)| {
                let label = term.as_ref()?.label(self.study.language);
                Some(match self.cell(*pieces) {
                    Datum::Nothing => label,
                    count => format!("{label} ({})", count.plain()),
                })
            })
            .collect();
        if told.is_empty() { Datum::Nothing } else { Datum::Text(told.join("; ")) }
    }
}
