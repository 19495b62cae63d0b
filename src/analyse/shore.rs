//! Finds along the shore: where each released square may lie along it, and what lies near each stretch.

use std::collections::{BTreeMap, BTreeSet};

use geo::Coord;
use rayon::prelude::*;

use super::shoreline::Shoreline;
use super::{ShoreProfile, Stretch};
use crate::coordinates::Cell;
use crate::exact::{CellSummary, Published, ReleasedPlace};
use crate::fault::{Fault, Result};
use crate::ground::Ground;
use crate::study::PublicStudy;

/// Most steps of the lattice over a cell, each way.
const MOST_STEPS: f64 = 10.0;

/// Least steps: corners, middles of the sides and the centre.
const LEAST_STEPS: f64 = 2.0;

/// Where the published cells lie along the shore. Faults when the study has no public shore.
///
/// A find may lie anywhere in its cell, so each cell has a range of metres along the shore and a range
/// of distances from it, over a lattice of places in the cell and the shore's own places inside it.
/// Pieces are shared evenly along the range. Finds out of place are where they were found, and count.
pub fn shore(published: &Published, study: &PublicStudy, ground: &Ground) -> Result<ShoreProfile> {
    if ground.shore.0.is_empty() {
        return Err(Fault::new("shore-missing"));
    }
    let line = Shoreline::of(&ground.shore, &study.shore).ok_or_else(|| Fault::new("shore-too-short"))?;
    let placed: Vec<Option<Placed>> =
        published.cells().par_iter().map(|summary| place(summary.cell, &line, study)).collect();
    let mut stretches = stretches(line.length_m(), study.shore.stretch_m);
    let mut cells = Vec::new();
    for (summary, placed) in published.cells().iter().zip(placed) {
        if let Some(placed) = placed {
            share(summary, placed.along, line.length_m(), &mut stretches);
            cells.push((summary.cell, placed.along, placed.distance));
        }
    }
    let near: BTreeSet<Cell> = cells.iter().map(|(cell, ..)| *cell).collect();
    let pieces = |along: bool| {
        published.total(|find| match find.place {
            ReleasedPlace::Cell(cell) => near.contains(&cell) == along,
            ReleasedPlace::Parish(_) => false,
        })
    };
    Ok(ShoreProfile {
        length_m: line.length_m(),
        simplify_m: study.shore.simplify_m,
        closed: line.closed,
        others: line.others,
        stretches,
        cells,
        within: pieces(true),
        beyond: pieces(false),
        by_parish_only: published.pieces_by_parish_only(),
    })
}

/// The ranges of one cell.
struct Placed {
    along: (f64, f64),
    distance: (f64, f64),
}

/// Where a cell lies; `None` when no part of it comes within the study's limit.
fn place(cell: Cell, line: &Shoreline, study: &PublicStudy) -> Option<Placed> {
    let rect = cell.rect();
    let nearest_m = line.distance_to(rect);
    if nearest_m > study.shore.within_m {
        return None;
    }
    let side = f64::from(cell.side_m);
    let steps = (side / study.shore.simplify_m).ceil().clamp(LEAST_STEPS, MOST_STEPS);
    let mut places = line.places_at(rect, nearest_m);
    let mut farthest_m = nearest_m;
    for i in 0..=steps as u32 {
        for j in 0..=steps as u32 {
            let x = rect.min().x + side * f64::from(i) / steps;
            let y = rect.min().y + side * f64::from(j) / steps;
            let (along, distance) = line.nearest(Coord { x, y })?;
            places.push(along);
            farthest_m = farthest_m.max(distance);
        }
    }
    places.sort_by(f64::total_cmp);
    let along = if line.closed { arc(&places, line.length_m()) } else { (places[0], *places.last()?) };
    Some(Placed { along, distance: (nearest_m, farthest_m) })
}

/// The shortest arc of a ring that holds all of some sorted places: the ring without their widest gap.
fn arc(places: &[f64], length: f64) -> (f64, f64) {
    let count = places.len();
    let gap = |index: usize| {
        let next = places[(index + 1) % count];
        if index + 1 == count { next + length - places[index] } else { next - places[index] }
    };
    // The last of gaps alike, so that a range that need not pass the start does not.
    let widest = (0..count).max_by(|a, b| gap(*a).total_cmp(&gap(*b))).unwrap_or(0);
    (places[(widest + 1) % count], places[widest])
}

/// Stretches of a stated length; a last one of less than half of it joins the one before.
fn stretches(length_m: f64, stretch_m: f64) -> Vec<Stretch> {
    let count = (length_m / stretch_m).floor().max(1.0);
    let count = if length_m - count * stretch_m >= stretch_m / 2.0 { count + 1.0 } else { count };
    (0..count as usize)
        .map(|index| Stretch {
            from_m: index as f64 * stretch_m,
            to_m: if (index + 1) as f64 == count { length_m } else { (index + 1) as f64 * stretch_m },
            pieces: 0.0,
            by_class: BTreeMap::new(),
            by_period: BTreeMap::new(),
        })
        .collect()
}

/// Shares a cell's pieces evenly along its range.
fn share(cell: &CellSummary, (from, to): (f64, f64), length_m: f64, stretches: &mut [Stretch]) {
    let parts = if to < from { vec![(from, length_m), (0.0, to)] } else { vec![(from, to)] };
    let whole: f64 = parts.iter().map(|(from, to)| to - from).sum();
    let last = stretches.len().saturating_sub(1);
    for (index, stretch) in stretches.iter_mut().enumerate() {
        let share = if whole > 0.0 {
            let overlap =
                |(from, to): &(f64, f64)| (to.min(stretch.to_m) - from.max(stretch.from_m)).max(0.0);
            parts.iter().map(overlap).sum::<f64>() / whole
        } else {
            // A single place lies in one stretch.
            let holds = from >= stretch.from_m && (from < stretch.to_m || index == last);
            f64::from(u8::from(holds))
        };
        if share <= 0.0 {
            continue;
        }
        stretch.pieces += share * cell.pieces as f64;
        for (class, pieces) in &cell.by_class {
            *stretch.by_class.entry(*class).or_default() += share * *pieces as f64;
        }
        for (period, pieces) in &cell.by_period {
            *stretch.by_period.entry(*period).or_default() += share * *pieces as f64;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{arc, stretches};

    #[test]
    fn the_shortest_arc_may_pass_the_start() {
        assert_eq!(arc(&[10.0, 20.0, 30.0], 100.0), (10.0, 30.0));
        assert_eq!(arc(&[5.0, 10.0, 95.0], 100.0), (95.0, 10.0));
        assert_eq!(arc(&[40.0], 100.0), (40.0, 40.0));
        assert_eq!(arc(&[25.0, 75.0], 100.0), (25.0, 75.0), "alike: the one that does not pass it");
    }

    #[test]
    fn a_short_last_stretch_joins_the_one_before() {
        let ends = |length, stretch| stretches(length, stretch).iter().map(|s| s.to_m).collect::<Vec<_>>();
        assert_eq!(ends(2400.0, 1000.0), [1000.0, 2400.0]);
        assert_eq!(ends(2600.0, 1000.0), [1000.0, 2000.0, 2600.0]);
        assert_eq!(ends(300.0, 1000.0), [300.0]);
        assert_eq!(ends(700.0, 1000.0), [700.0]);
        assert_eq!(ends(2000.0, 1000.0), [1000.0, 2000.0]);
    }
}
