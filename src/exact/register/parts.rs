//! A long table read in parts, side by side, as if it had been read from its first row to its last.
//!
//! Few rows need those above them: a ditto, an entry that goes on, a bare figure that may be a sum. Each part is read
//! without knowing the rows before it; one that would have needed them is read again, knowing them. So the outcome
//! is that of reading in order, whatever the number of threads.

use std::collections::BTreeMap;

use rayon::prelude::*;

use super::Context;
use super::problem::Problems;
use super::records::Records;
use super::row::{Before, Read, Rows};
use super::sniff::Sheet;
use crate::exact::{ExactFind, Reason};

/// Rows of a part: enough that parts cost little, few enough that a middling register has several.
const ROWS: u64 = 4_096;

/// What rows came to.
#[derive(Default)]
pub(super) struct Outcome {
    pub finds: Vec<ExactFind>,
    /// Rows that say anything.
    pub read: u64,
    pub set_aside: BTreeMap<Reason, u64>,
    /// Rows set aside that state whose land they are off.
    pub aside_by_land: BTreeMap<(String, Reason), u64>,
    pub problems: Problems,
    /// The last row, as a spreadsheet counts it; 0 where there is none.
    pub last_row: u64,
}

/// Reads the rows below the headings.
pub(super) fn read(context: &Context, sheet: &Sheet, file: u32, decimal_comma: bool, text: &str) -> Outcome {
    let starts = sheet.records(text).parted(ROWS);
    let one = |number: usize, records: &Records<'_>, before: Option<Before>| {
        let rows = Rows::new(context, sheet, file, decimal_comma, before);
        part(rows, records.clone(), if number + 1 < starts.len() { ROWS } else { u64::MAX })
    };
    // The first part has nothing before it, and knows it.
    let first = |number: usize| (number == 0).then(Before::default);
    let parts: Vec<_> =
        starts.par_iter().enumerate().map(|(number, records)| one(number, records, first(number))).collect();
    let (mut whole, mut before) = (Outcome::default(), Before::default());
    for ((number, records), (outcome, rows)) in starts.iter().enumerate().zip(parts) {
        let (outcome, rows) =
            if rows.leant { one(number, records, Some(before.clone())) } else { (outcome, rows) };
        before.go_on(rows);
        whole.append(outcome);
    }
    whole
}

/// Reads so many rows.
fn part<'a>(mut rows: Rows<'a>, mut records: Records<'_>, most: u64) -> (Outcome, Rows<'a>) {
    let mut outcome = Outcome::default();
    let mut cells = Vec::new();
    for _ in 0..most {
        let Some(record) = records.next(&mut cells) else { break };
        outcome.last_row = record.row;
        if cells.iter().all(|cell| cell.trim().is_empty()) {
            continue;
        }
        outcome.read += 1;
        match rows.read(record, &mut cells, &mut outcome.problems) {
            Read::Find(find) => outcome.finds.push(*find),
            Read::SetAside(reason) => {
                *outcome.set_aside.entry(reason).or_default() += 1;
                if let Some(land) = rows.land_of_aside.take() {
                    *outcome.aside_by_land.entry((land, reason)).or_default() += 1;
                }
            }
        }
    }
    (outcome, rows)
}

impl Outcome {
    /// Adds what came of the rows that follow.
    fn append(&mut self, mut other: Self) {
        self.finds.append(&mut other.finds);
        self.read += other.read;
        for (reason, rows) in other.set_aside {
            *self.set_aside.entry(reason).or_default() += rows;
        }
        for (land, rows) in other.aside_by_land {
            *self.aside_by_land.entry(land).or_default() += rows;
        }
        self.problems.append(other.problems);
        self.last_row = self.last_row.max(other.last_row);
    }
}
