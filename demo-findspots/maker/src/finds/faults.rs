//! The ordinary faults of a register kept by people, planted on purpose and listed for the test.

use rand::Rng;
use rand::seq::IndexedRandom;
use rand_chacha::ChaCha12Rng;

use super::Find;

/// A fault in a row, and what `check` should say of it.
#[derive(Clone)]
pub struct Fault {
    /// The row as a spreadsheet counts it.
    pub row: u64,
    /// What the keeper did.
    pub kind: &'static str,
    /// `set-aside:REASON` or `doubt:NAME`.
    pub found_as: &'static str,
}

/// A line of a register.
#[derive(Clone, Default)]
pub struct Line {
    pub cells: Vec<String>,
    pub find: Option<Find>,
    /// Kind and how it is found.
    pub faults: Vec<(&'static str, &'static str)>,
}

/// A register being written: lines below the headings.
pub struct Lines {
    pub lines: Vec<Line>,
}

impl Lines {
    /// Some line without a fault whose find answers; the plan has enough of every kind.
    pub fn pick(&self, rng: &mut ChaCha12Rng, fits: impl Fn(&Find, &[String]) -> bool) -> usize {
        let fitting: Vec<usize> = (0..self.lines.len())
            .filter(|i| {
                let line = &self.lines[*i];
                line.faults.is_empty() && line.find.as_ref().is_some_and(|find| fits(find, &line.cells))
            })
            .collect();
        *fitting.choose(rng).expect("the register has a row for every fault")
    }

    /// Overwrites one cell of some fitting line, and lists the fault.
    pub fn spoil(
        &mut self,
        rng: &mut ChaCha12Rng,
        (kind, found_as): (&'static str, &'static str),
        column: usize,
        fits: impl Fn(&Find, &[String]) -> bool,
        text: impl FnOnce(&str, &Find) -> String,
    ) -> usize {
        let line = self.pick(rng, fits);
        let row = &mut self.lines[line];
        if let Some(find) = &row.find {
            row.cells[column] = text(&row.cells[column], find);
        }
        row.faults.push((kind, found_as));
        line
    }

    /// Inserts a copy of a line at some later place nearby.
    pub fn copy(&mut self, line: usize, rng: &mut ChaCha12Rng) -> usize {
        let at = (line + rng.random_range(1..=3)).min(self.lines.len());
        let copy = self.lines[line].clone();
        self.lines.insert(at, copy);
        at
    }

    /// The faults with their rows; `above` rows stand over the first line.
    pub fn faults(&self, above: u64) -> Vec<Fault> {
        self.lines
            .iter()
            .enumerate()
            .flat_map(|(i, line)| {
                line.faults.iter().map(move |(kind, found_as)| Fault {
                    row: above + 1 + i as u64,
                    kind,
                    found_as,
                })
            })
            .collect()
    }
}
