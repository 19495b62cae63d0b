//! Release to published: small counts are suppressed once, for all that follows.

use std::collections::BTreeMap;

use super::{Release, ReleasedFind, ReleasedPlace, Tally};
use crate::coordinates::Cell;
use crate::study::Agreement;
use crate::study::vocabulary::{Class, Period};

/// What all later stages see of a register.
#[derive(Debug, Clone, PartialEq)]
pub struct Published {
    finds: Vec<ReleasedFind>,
    cells: Vec<CellSummary>,
    tally: Tally,
    withheld_pieces: u64,
    withheld_cells: u64,
}

/// The finds of one cell together.
#[derive(Debug, Clone, PartialEq)]
pub struct CellSummary {
    /// The cell.
    pub cell: Cell,
    /// Pieces, those out of place included.
    pub pieces: u64,
    /// Pieces out of place (derived, brought in).
    pub out_of_place: u64,
    /// Pieces by class (`None`: not shown).
    pub by_class: BTreeMap<Option<Class>, u64>,
    /// Pieces by period.
    pub by_period: BTreeMap<Option<Period>, u64>,
}

impl Release {
    /// Suppresses cells with fewer pieces than the agreement's smallest count. The finds of such a cell
    /// are in no cell, table or layer; how many there are is told in one figure for the whole study.
    pub fn publish(&self, agreement: &Agreement) -> Published {
        let mut pieces: BTreeMap<&ReleasedPlace, u64> = BTreeMap::new();
        for find in &self.finds {
            *pieces.entry(&find.place).or_default() += u64::from(find.count);
        }
        let hidden = |place: &ReleasedPlace| pieces[place] < u64::from(agreement.smallest_count);
        let (withheld, finds): (Vec<_>, Vec<_>) =
            self.finds.iter().cloned().partition(|find| hidden(&find.place));
        let cells = summaries(&finds);
        Published {
            finds,
            cells,
            tally: self.tally.clone(),
            withheld_pieces: withheld.iter().map(|find| u64::from(find.count)).sum(),
            withheld_cells: pieces.iter().filter(|(place, _)| hidden(place)).count() as u64,
        }
    }
}

/// The finds of each cell together, in order of cell.
fn summaries(finds: &[ReleasedFind]) -> Vec<CellSummary> {
    let mut cells: BTreeMap<Cell, CellSummary> = BTreeMap::new();
    for find in finds {
        let ReleasedPlace::Cell(cell) = find.place else { continue };
        let summary = cells.entry(cell).or_insert_with(|| CellSummary {
            cell,
            pieces: 0,
            out_of_place: 0,
            by_class: BTreeMap::new(),
            by_period: BTreeMap::new(),
        });
        let count = u64::from(find.count);
        summary.pieces += count;
        summary.out_of_place += if find.out_of_place { count } else { 0 };
        *summary.by_class.entry(find.class).or_default() += count;
        *summary.by_period.entry(find.period).or_default() += count;
    }
    cells.into_values().collect()
}

impl Published {
    /// The finds in several parts: `part` says which a find belongs to, if any. Each part is published in its
    /// turn; what was read, set aside and withheld stays that of all of them.
    pub fn parted(&self, parts: usize, part: impl Fn(&ReleasedFind) -> Option<usize>) -> Vec<Self> {
        let mut finds: Vec<Vec<ReleasedFind>> = vec![Vec::new(); parts];
        for find in &self.finds {
            if let Some(into) = part(find).and_then(|index| finds.get_mut(index)) {
                into.push(find.clone());
            }
        }
        let one = |finds: Vec<ReleasedFind>| Self {
            cells: summaries(&finds),
            finds,
            tally: self.tally.clone(),
            withheld_pieces: self.withheld_pieces,
            withheld_cells: self.withheld_cells,
        };
        finds.into_iter().map(one).collect()
    }

    /// Every find that is shown, in order of what is told of it.
    pub fn finds(&self) -> &[ReleasedFind] {
        &self.finds
    }

    /// Every shown cell with its finds, in order of cell.
    pub fn cells(&self) -> &[CellSummary] {
        &self.cells
    }

    /// Rows read, used and set aside.
    pub fn tally(&self) -> &Tally {
        &self.tally
    }

    /// Pieces in cells that hold too few to be shown.
    pub fn withheld_pieces(&self) -> u64 {
        self.withheld_pieces
    }

    /// Places (cells, parishes) that hold too few pieces to be shown.
    pub fn withheld_cells(&self) -> u64 {
        self.withheld_cells
    }

    /// Pieces shown, by cell and by parish together.
    pub fn pieces(&self) -> u64 {
        self.finds.iter().map(|find| u64::from(find.count)).sum()
    }

    /// Pieces shown by their parish alone.
    pub fn pieces_by_parish_only(&self) -> u64 {
        self.finds
            .iter()
            .filter(|find| matches!(find.place, ReleasedPlace::Parish(_)))
            .map(|find| u64::from(find.count))
            .sum()
    }
}

/// The band that a cell's count is shown as: 1–2, 3–9, 10–49, 50 and more.
pub fn band(pieces: u64) -> &'static str {
    match pieces {
        0 => "0",
        1..=2 => "1–2",
        3..=9 => "3–9",
        10..=49 => "10–49",
        _ => "50+",
    }
}
