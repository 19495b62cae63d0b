//! Kernel density of cells: each find's count spread evenly over its cell, then a Gaussian kernel, as
//! exact means over pixels, kept on land. `docs/method.md` gives the formulas.

use std::collections::{BTreeMap, BTreeSet};

use super::Surface;
use super::bandwidth::bandwidth;
use super::frame::frame;
use super::kde::{At, Edge, Kernel, Observations, Sides, Smoother};
use crate::coordinates::Cell;
use crate::exact::{Published, ReleasedPlace};
use crate::fault::Result;
use crate::ground::cover::{Frame, shares};
use crate::ground::{Edges, Ground};
use crate::study::PublicStudy;

/// The finds of one cell: what the surface is made from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Spot {
    pub cell: Cell,
    pub pieces: u64,
    /// Rows of the register: a bag of many pieces is one.
    pub records: u64,
}

/// A cell with less of its kernel on land than this is treated as lying off the land.
const LEAST_ON_LAND: f64 = 1e-6;

/// Density of the published finds. `None` when no find has a cell.
pub fn density(published: &Published, study: &PublicStudy, ground: &Ground) -> Result<Option<Surface>> {
    let (spots, left_out_of_place) = spots(published);
    if spots.is_empty() {
        return Ok(None);
    }
    let (h, bandwidth_method) = bandwidth(study.density.bandwidth, &spots);
    let land = Some(&ground.land).filter(|land| study.density.edge_correction && !land.0.is_empty());
    let afloat = land.map_or_else(BTreeSet::new, |_| off_land(&spots, ground));
    let frame = frame(&spots, h, land, &afloat, study);
    let mut inside = land.map_or_else(|| vec![1.0; frame.columns * frame.rows], |land| shares(land, &frame));
    add_squares(&mut inside, &frame, &afloat);

    let places = Places::of(&spots);
    let observations = places.observations();
    let kernel = Kernel::round(h);
    let on_land =
        Smoother::new(observations, kernel, frame, Some(&inside), Edge::None, At::Mean).shares_inside();
    let beached: BTreeSet<Cell> =
        spots.iter().zip(&on_land).filter(|(_, m)| **m < LEAST_ON_LAND).map(|(s, _)| s.cell).collect();
    add_squares(&mut inside, &frame, &beached);
    let smoother = Smoother::new(observations, kernel, frame, Some(&inside), Edge::Diggle, At::Mean);
    let weights: Vec<f64> = spots.iter().map(|spot| spot.pieces as f64).collect();
    let per_hectare = smoother.surface(Some(&weights));
    let pixel_ha = frame.pixel_m * frame.pixel_m / 1e4;
    Ok(Some(Surface {
        west_m: frame.west_m,
        south_m: frame.south_m,
        pixel_m: frame.pixel_m,
        columns: frame.columns,
        rows: frame.rows,
        pieces: per_hectare.iter().sum::<f64>() * pixel_ha,
        per_hectare,
        inside,
        bandwidth_m: h,
        bandwidth_method,
        left_out_of_place,
        left_out_by_parish: published.pieces_by_parish_only(),
    }))
}

/// The cells with their finds in place, in order of cell, and the pieces out of place.
fn spots(published: &Published) -> (Vec<Spot>, u64) {
    let mut cells: BTreeMap<Cell, Spot> = BTreeMap::new();
    let mut out_of_place = 0;
    for find in published.finds() {
        let ReleasedPlace::Cell(cell) = find.place else { continue };
        if find.out_of_place {
            out_of_place += u64::from(find.count);
            continue;
        }
        let spot = cells.entry(cell).or_insert(Spot { cell, pieces: 0, records: 0 });
        spot.pieces += u64::from(find.count);
        spot.records += 1;
    }
    (cells.into_values().filter(|spot| spot.pieces > 0).collect(), out_of_place)
}

/// Cells that lie wholly off the land: beach and sea bed, where finds have been made all the same. They
/// are ground to the surface.
fn off_land(spots: &[Spot], ground: &Ground) -> BTreeSet<Cell> {
    use geo::LinesIter;
    let edges = Edges::of([ground.land.lines_iter()]);
    let cells = spots.iter().map(|spot| spot.cell).filter(|cell| {
        let centre = cell.rect().center();
        edges.meeting(cell.rect(), 0.0).is_empty() && edges.holding(centre.x, centre.y).is_empty()
    });
    cells.collect()
}

/// Adds whole squares to the window. A square inside a larger one of the same set is there already.
fn add_squares(inside: &mut [f64], frame: &Frame, squares: &BTreeSet<Cell>) {
    let sides: BTreeSet<u32> = squares.iter().map(|cell| cell.side_m).collect();
    for cell in squares {
        let larger = sides.range(cell.side_m + 1..).filter_map(|side| cell.within(*side));
        if larger.into_iter().any(|larger| squares.contains(&larger)) {
            continue;
        }
        let span = |low: f64, high: f64, start: f64, count: usize| {
            let (low, high) = ((low - start) / frame.pixel_m, (high - start) / frame.pixel_m);
            let from = (low.floor().max(0.0) as usize).min(count);
            let to = (high.ceil().max(0.0) as usize).min(count);
            (from..to).map(move |i| (i, (high.min(i as f64 + 1.0) - low.max(i as f64)).max(0.0)))
        };
        for (row, up) in span(cell.south_m(), cell.north_m(), frame.south_m, frame.rows) {
            for (column, across) in span(cell.west_m(), cell.east_m(), frame.west_m, frame.columns) {
                let share = &mut inside[row * frame.columns + column];
                *share = (*share + up * across).min(1.0);
            }
        }
    }
}

/// The squares of spots as plain numbers.
struct Places {
    x_m: Vec<f64>,
    y_m: Vec<f64>,
    side_m: Vec<f64>,
}

impl Places {
    fn of(spots: &[Spot]) -> Self {
        let centre = |spot: &Spot| spot.cell.rect().center();
        Self {
            x_m: spots.iter().map(|spot| centre(spot).x).collect(),
            y_m: spots.iter().map(|spot| centre(spot).y).collect(),
            side_m: spots.iter().map(|spot| f64::from(spot.cell.side_m)).collect(),
        }
    }

    fn observations(&self) -> Observations<'_> {
        Observations { x_m: &self.x_m, y_m: &self.y_m, side_m: Sides::Each(&self.side_m) }
    }
}
