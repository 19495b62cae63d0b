//! Patches where finds lie thick: the highest-density region of the surface (Hyndman 1996), by whole
//! squares, in connected pieces.

use std::collections::{BTreeMap, BTreeSet};

use geo::{Coord, MapCoords, MultiPolygon, Rect, unary_union};

use super::{Concentration, Surface};
use crate::coordinates::Cell;
use crate::exact::{CellSummary, Published, ReleasedPlace};
use crate::study::{Precision, PublicStudy};

/// The concentrations of a surface, richest first. None where the audience is shown parishes alone.
pub fn concentrations(published: &Published, study: &PublicStudy, surface: &Surface) -> Vec<Concentration> {
    let Precision::Square { side_m } = study.agreement.precision else { return Vec::new() };
    // Where a pixel is a whole number of agreed sides, it is the finest square that the surface tells.
    let side_m = if surface.pixel_m > f64::from(side_m) { surface.pixel_m as u32 } else { side_m };
    let region = densest(&squares(surface, side_m), study.concentrations.share);
    let mut found: Vec<Concentration> = patches(region)
        .into_iter()
        .map(|cells| describe(cells, side_m, published, surface))
        .filter(|patch| patch.pieces >= u64::from(study.concentrations.smallest))
        .collect();
    found.sort_by_key(|patch| {
        let west = patch.cells.iter().map(|cell| cell.column).min();
        let south = patch.cells.iter().map(|cell| cell.row).min();
        (std::cmp::Reverse(patch.pieces), west, south)
    });
    for (index, patch) in found.iter_mut().enumerate() {
        patch.letter = letter(index);
    }
    found
}

/// Whether all finds of a patch lie in one square: its count is then that square's, and told as its band to an
/// audience that is told bands.
pub fn in_one_square(patch: &Concentration, squares: &[CellSummary]) -> bool {
    let cells: BTreeSet<&Cell> = patch.cells.iter().collect();
    squares.iter().filter(|summary| cells.contains(&summary.cell)).count() <= 1
}

/// What the surface holds of one square.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
struct Square {
    /// Pieces.
    mass: f64,
    /// Hectares inside the window.
    ground_ha: f64,
}

fn squares(surface: &Surface, side_m: u32) -> BTreeMap<Cell, Square> {
    let pixel_ha = surface.pixel_m * surface.pixel_m / 1e4;
    let mut squares: BTreeMap<Cell, Square> = BTreeMap::new();
    for row in 0..surface.rows {
        for column in 0..surface.columns {
            let index = row * surface.columns + column;
            let inside = surface.inside[index];
            if inside <= 0.0 {
                continue;
            }
            let Some(cell) = holding(surface, column, row, side_m) else { continue };
            let square = squares.entry(cell).or_default();
            square.mass += surface.per_hectare[index] * pixel_ha;
            square.ground_ha += inside * pixel_ha;
        }
    }
    squares
}

/// The square that a pixel's centre lies in.
fn holding(surface: &Surface, column: usize, row: usize, side_m: u32) -> Option<Cell> {
    let centre = |start: f64, index: usize| start + (index as f64 + 0.5) * surface.pixel_m;
    Cell::holding(centre(surface.west_m, column), centre(surface.south_m, row), side_m)
}

/// The squares of highest mean density over their ground that together hold `share` of the mass: the
/// smallest ground that does. Squares as dense as the last one are all taken.
fn densest(squares: &BTreeMap<Cell, Square>, share: f64) -> BTreeSet<Cell> {
    let mut order: Vec<(f64, Cell, f64)> = squares
        .iter()
        .filter(|(_, square)| square.mass > 0.0)
        .map(|(cell, square)| (square.mass / square.ground_ha, *cell, square.mass))
        .collect();
    order.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(&b.1)));
    let wanted = share * order.iter().map(|(_, _, mass)| mass).sum::<f64>();
    let mut held = 0.0;
    let mut level = f64::INFINITY;
    for (density, _, mass) in &order {
        if held >= wanted {
            break;
        }
        held += mass;
        level = *density;
    }
    // A hair of tolerance, so that squares alike by symmetry are treated alike.
    let level = level * (1.0 - 1e-9);
    order.into_iter().take_while(|(density, _, _)| *density >= level).map(|(_, cell, _)| cell).collect()
}

/// Parts a set of squares into pieces that hang together by their sides.
fn patches(mut left: BTreeSet<Cell>) -> Vec<BTreeSet<Cell>> {
    let mut patches = Vec::new();
    while let Some(first) = left.pop_first() {
        let mut patch = BTreeSet::from([first]);
        let mut waiting = vec![first];
        while let Some(cell) = waiting.pop() {
            for (east, north) in [(1, 0), (-1, 0), (0, 1), (0, -1)] {
                let next = Cell { column: cell.column + east, row: cell.row + north, ..cell };
                if left.remove(&next) {
                    patch.insert(next);
                    waiting.push(next);
                }
            }
        }
        patches.push(patch);
    }
    patches
}

fn describe(cells: BTreeSet<Cell>, side_m: u32, published: &Published, surface: &Surface) -> Concentration {
    let mut patch = Concentration {
        letter: String::new(),
        outline: outline(&cells),
        hectares: cells.iter().map(|cell| cell.hectares()).sum(),
        pieces: 0,
        may_hold: 0,
        peak_per_hectare: peak(surface, &cells, side_m),
        by_class: BTreeMap::new(),
        by_period: BTreeMap::new(),
        cells: cells.into_iter().collect(),
    };
    let held = Held::by(&patch.cells);
    for find in published.finds() {
        let ReleasedPlace::Cell(cell) = find.place else { continue };
        // Finds out of place say nothing of where things lie thick.
        if find.out_of_place {
            continue;
        }
        let count = u64::from(find.count);
        match held.of(cell) {
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
pub(super) enum Extent {
    /// All of it.
    Whole,
    /// Some of it.
    Part,
    /// Nothing.
    Nothing,
}

/// Answers how much of any released square lies in a patch, whatever its side.
pub(super) struct Held {
    side_m: u32,
    cells: BTreeSet<Cell>,
    west: i32,
    east: i32,
    south: i32,
    north: i32,
}

impl Held {
    /// For a patch of squares of one side.
    pub(super) fn by(cells: &[Cell]) -> Self {
        let ends = |index: fn(&Cell) -> i32| {
            let all = cells.iter().map(index);
            (all.clone().min().unwrap_or(0), all.max().unwrap_or(0))
        };
        let ((west, east), (south, north)) = (ends(|cell| cell.column), ends(|cell| cell.row));
        let side_m = cells.first().map_or(1, |cell| cell.side_m);
        Self { side_m, cells: cells.iter().copied().collect(), west, east, south, north }
    }

    pub(super) fn of(&self, cell: Cell) -> Extent {
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

fn peak(surface: &Surface, cells: &BTreeSet<Cell>, side_m: u32) -> f64 {
    let mut peak: f64 = 0.0;
    for row in 0..surface.rows {
        for column in 0..surface.columns {
            let Some(density) = surface.on_ground(column, row).filter(|density| *density > peak) else {
                continue;
            };
            if holding(surface, column, row, side_m).is_some_and(|cell| cells.contains(&cell)) {
                peak = density;
            }
        }
    }
    peak
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
fn letter(index: usize) -> String {
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

    use super::{BTreeMap, BTreeSet, Cell, Extent, Held, Square, densest, letter, outline, patches};

    fn cell(column: i32, row: i32) -> Cell {
        Cell { side_m: 100, column, row }
    }

    #[test]
    fn letters_go_on_after_z() {
        let some: Vec<String> = [0, 25, 26, 51, 52, 701, 702].map(letter).into();
        assert_eq!(some, ["A", "Z", "AA", "AZ", "BA", "ZZ", "AAA"]);
    }

    #[test]
    fn the_densest_squares_by_hand() {
        // Densities 10, 8, 4, 1 pieces a hectare; the second has half a hectare of ground.
        let squares = BTreeMap::from([
            (cell(0, 0), Square { mass: 10.0, ground_ha: 1.0 }),
            (cell(1, 0), Square { mass: 4.0, ground_ha: 0.5 }),
            (cell(2, 0), Square { mass: 4.0, ground_ha: 1.0 }),
            (cell(3, 0), Square { mass: 1.0, ground_ha: 1.0 }),
        ]);
        let names = |share| densest(&squares, share).iter().map(|c| c.column).collect::<Vec<_>>();
        assert_eq!(names(0.5), [0]);
        assert_eq!(names(0.6), [0, 1]);
        assert_eq!(names(0.9), [0, 1, 2]);
        assert_eq!(names(0.999), [0, 1, 2, 3]);
    }

    #[test]
    fn corners_do_not_join() {
        let parts = patches(BTreeSet::from([cell(0, 0), cell(1, 1), cell(1, 0), cell(5, 5)]));
        assert_eq!(parts.len(), 2);
        let parts = patches(BTreeSet::from([cell(0, 0), cell(1, 1)]));
        assert_eq!(parts.len(), 2);
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
