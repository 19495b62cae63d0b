//! What one concentration is made of: its outline along the edges of squares, what it holds, its letter.

use std::collections::{BTreeMap, BTreeSet};

use geo::{Coord, MapCoords, MultiPolygon, Rect, unary_union};

use super::even::Record;
use super::field::{Field, holding};
use crate::analyse::{Concentration, Surface};
use crate::coordinates::Cell;
use crate::exact::{CellSummary, ReleasedFind};
use crate::study::{Attribute, PublicStudy};

/// Whether all finds of a patch lie in one square: its count is then that square's, and told as its band to an
/// audience that is told bands.
pub fn in_one_square(patch: &Concentration, squares: &[CellSummary]) -> bool {
    let cells: BTreeSet<&Cell> = patch.cells.iter().collect();
    squares.iter().filter(|summary| cells.contains(&summary.cell)).count() <= 1
}

/// What may be told of how thick a patch lies: its pieces per hectare and its greatest density, each with
/// the decimals of two figures. `None` where its count is told as a band: a density would tell the count.
pub fn told_densities(
    patch: &Concentration,
    squares: &[CellSummary],
    study: &PublicStudy,
) -> Option<[(f64, usize); 2]> {
    let banded = !study.agreement.exact_counts && in_one_square(patch, squares);
    let counted = study.agreement.show.contains(&Attribute::Count);
    let mean = patch.pieces as f64 / patch.hectares;
    (counted && !banded).then(|| [mean, patch.peak_per_hectare].map(two_figures))
}

/// A density is good to two figures, and no more are told: the number, and its decimals.
fn two_figures(value: f64) -> (f64, usize) {
    if !(value > 0.0 && value.is_finite()) {
        return (0.0, 0);
    }
    let power = value.log10().floor() as i32;
    let scale = 10f64.powi(1 - power);
    ((value * scale).round() / scale, (1 - power).max(0) as usize)
}

/// Describes the squares of a patch, without letter and without what simulations say.
pub(super) fn describe(patch: &[usize], field: &Field, records: &[(Record, &ReleasedFind)]) -> Concentration {
    let cells: BTreeSet<Cell> = patch.iter().map(|at| field.lattice.cell(*at)).collect();
    let mut patch = Concentration {
        letter: String::new(),
        outline: outline(&cells),
        hectares: cells.iter().map(|cell| cell.hectares()).sum(),
        pieces: 0,
        may_hold: 0,
        peak_per_hectare: 0.0,
        by_class: BTreeMap::new(),
        by_period: BTreeMap::new(),
        stays: None,
        chance: None,
        cells: cells.into_iter().collect(),
    };
    let held = Held::by(&patch.cells);
    // Finds that the surface does not hold say nothing of where things lie thick on it.
    for (record, find) in records {
        let count = u64::from(record.pieces);
        match held.of(record.cell) {
            Extent::Whole => {
                patch.pieces += count;
                *patch.by_class.entry(find.class).or_default() += count;
                *patch.by_period.entry(find.period).or_default() += count;
            }
            Extent::Part => patch.may_hold += count,
            Extent::Nothing => {}
        }
    }
    patch
}

/// How much of a square lies in a patch.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::analyse) enum Extent {
    /// All of it.
    Whole,
    /// Some of it.
    Part,
    /// Nothing.
    Nothing,
}

/// Answers how much of any released square lies in a patch, whatever its side.
pub(in crate::analyse) struct Held {
    side_m: u32,
    cells: BTreeSet<Cell>,
    west: i32,
    east: i32,
    south: i32,
    north: i32,
}

impl Held {
    /// For a patch of squares of one side.
    pub(in crate::analyse) fn by(cells: &[Cell]) -> Self {
        let ends = |index: fn(&Cell) -> i32| {
            let all = cells.iter().map(index);
            (all.clone().min().unwrap_or(0), all.max().unwrap_or(0))
        };
        let ((west, east), (south, north)) = (ends(|cell| cell.column), ends(|cell| cell.row));
        let side_m = cells.first().map_or(1, |cell| cell.side_m);
        Self { side_m, cells: cells.iter().copied().collect(), west, east, south, north }
    }

    pub(in crate::analyse) fn of(&self, cell: Cell) -> Extent {
        if let Some(within) = cell.within(self.side_m) {
            return if self.cells.contains(&within) { Extent::Whole } else { Extent::Nothing };
        }
        // A larger square: count the patch's squares in it, looking no further than the patch reaches.
        let times = (cell.side_m / self.side_m).max(1) as i32;
        let clip = |index: i32, low: i32, high: i32| {
            (
                index.saturating_mul(times).max(low),
                (index.saturating_add(1)).saturating_mul(times).min(high + 1),
            )
        };
        let (from, to) = clip(cell.column, self.west, self.east);
        let (low, high) = clip(cell.row, self.south, self.north);
        let inside = (from..to)
            .flat_map(|column| (low..high).map(move |row| Cell { side_m: self.side_m, column, row }))
            .filter(|square| self.cells.contains(square))
            .count();
        match inside {
            0 => Extent::Nothing,
            n if n as i64 == i64::from(times) * i64::from(times) => Extent::Whole,
            _ => Extent::Part,
        }
    }
}

/// The greatest density of the surface in each patch, pieces per hectare of ground.
pub(super) fn peaks(surface: &Surface, field: &Field, patches: &[Vec<usize>]) -> Vec<f64> {
    let mut of = vec![usize::MAX; field.lattice.len()];
    for (number, patch) in patches.iter().enumerate() {
        patch.iter().for_each(|at| of[*at] = number);
    }
    let mut peaks = vec![0.0f64; patches.len()];
    for row in 0..surface.rows {
        for column in 0..surface.columns {
            let Some(density) = surface.on_ground(column, row) else { continue };
            let Some(square) = holding(surface, column, row, &field.lattice) else { continue };
            if let Some(peak) = peaks.get_mut(of[square]) {
                *peak = peak.max(density);
            }
        }
    }
    peaks
}

/// The union of squares: runs along each row first, then the runs joined. The corners are put back on
/// the grid exactly, since joining works on a fine lattice of its own.
fn outline(cells: &BTreeSet<Cell>) -> MultiPolygon<f64> {
    let mut by_row: BTreeMap<i32, Vec<Cell>> = BTreeMap::new();
    for cell in cells {
        by_row.entry(cell.row).or_default().push(*cell);
    }
    let mut runs: Vec<Rect<f64>> = Vec::new();
    for row in by_row.values() {
        let mut last: Option<Rect<f64>> = None;
        for cell in row {
            match &mut last {
                Some(run) if run.max().x == cell.west_m() => {
                    run.set_max(Coord { x: cell.east_m(), y: run.max().y });
                }
                _ => {
                    runs.extend(last.take());
                    last = Some(cell.rect());
                }
            }
        }
        runs.extend(last);
    }
    let runs: Vec<_> = runs.iter().map(|run| run.to_polygon()).collect();
    let side = cells.first().map_or(1.0, |cell| f64::from(cell.side_m));
    let on_grid = |value: f64| (value / side).round() * side;
    unary_union(&runs).map_coords(|c| Coord { x: on_grid(c.x), y: on_grid(c.y) })
}

/// A, B, … Z, AA, AB, …
pub(super) fn letter(index: usize) -> String {
    let mut left = index + 1;
    let mut letters = Vec::new();
    while left > 0 {
        letters.push(char::from(b'A' + ((left - 1) % 26) as u8));
        left = (left - 1) / 26;
    }
    letters.iter().rev().collect()
}

#[cfg(test)]
mod tests {
    use geo::Area;

    use super::{BTreeSet, Cell, Extent, Held, letter, outline};

    fn cell(column: i32, row: i32) -> Cell {
        Cell { side_m: 100, column, row }
    }

    #[test]
    fn letters_go_on_after_z() {
        let some: Vec<String> = [0, 25, 26, 51, 52, 701, 702].map(letter).into();
        assert_eq!(some, ["A", "Z", "AA", "AZ", "BA", "ZZ", "AAA"]);
    }

    #[test]
    fn the_outline_follows_the_grid_and_keeps_holes() {
        let ring: BTreeSet<Cell> = (0..3)
            .flat_map(|c| (0..3).map(move |r| cell(c + 5000, r + 5000)))
            .filter(|c| (c.column, c.row) != (5001, 5001))
            .collect();
        let outline = outline(&ring);
        assert_eq!(outline.unsigned_area(), 80_000.0);
        assert_eq!(outline.0.len(), 1);
        assert_eq!(outline.0[0].interiors().len(), 1);
        for c in geo::CoordsIter::coords_iter(&outline) {
            assert!(c.x % 100.0 == 0.0 && c.y % 100.0 == 0.0);
        }
    }

    #[test]
    fn how_much_of_a_square_a_patch_holds() {
        let held = Held::by(&[cell(0, 0), cell(1, 0), cell(0, 1), cell(1, 1), cell(2, 1)]);
        let of = |side_m, column, row| held.of(Cell { side_m, column, row });
        assert_eq!(of(100, 2, 1), Extent::Whole);
        assert_eq!(of(50, 3, 1), Extent::Whole);
        assert_eq!(of(100, 2, 0), Extent::Nothing);
        assert_eq!(of(200, 0, 0), Extent::Whole);
        assert_eq!(of(200, 1, 0), Extent::Part);
        assert_eq!(of(1000, 0, 0), Extent::Part);
        assert_eq!(of(1000, -1, 0), Extent::Nothing);
        assert_eq!(of(100_000, i32::MAX / 1000, 0), Extent::Nothing);
    }
}
