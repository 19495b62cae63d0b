//! Kernel density of cells: each find's count spread evenly over its cell, then a Gaussian kernel, as
//! exact means over pixels, kept on land. `docs/method.md` gives the formulas.

use std::collections::{BTreeMap, BTreeSet};

use rayon::prelude::*;

use super::Surface;
use super::bandwidth::bandwidth;
use super::frame::frame;
use super::kernel::{REACH_SD, mean_over};
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

    let columns = Profiles::of(spots.iter().map(|s| (s.cell.side_m, s.cell.column)), &frame, h, Axis::East);
    let rows = Profiles::of(spots.iter().map(|s| (s.cell.side_m, s.cell.row)), &frame, h, Axis::North);
    let mut on_land = masses(&spots, &columns, &rows, &inside, &frame);
    let beached: BTreeSet<Cell> =
        spots.iter().zip(&on_land).filter(|(_, m)| **m < LEAST_ON_LAND).map(|(s, _)| s.cell).collect();
    if !beached.is_empty() {
        add_squares(&mut inside, &frame, &beached);
        on_land = masses(&spots, &columns, &rows, &inside, &frame);
    }
    let weights: Vec<f64> = spots
        .iter()
        .zip(&on_land)
        .map(|(spot, mass)| if *mass > 0.0 { spot.pieces as f64 / mass } else { 0.0 })
        .collect();
    let per_hectare = surface(&spots, &weights, &columns, &rows, &inside, &frame);
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

/// Which way a profile runs.
#[derive(Clone, Copy)]
enum Axis {
    East,
    North,
}

/// For each row or column of cells, its kernel along the raster: the first pixel it reaches, and the
/// mean density per metre over that pixel and those after it.
struct Profiles {
    list: Vec<(usize, Vec<f64>)>,
    number: BTreeMap<(u32, i32), usize>,
}

impl Profiles {
    fn of(cells: impl Iterator<Item = (u32, i32)>, frame: &Frame, h: f64, axis: Axis) -> Self {
        let wanted: BTreeSet<(u32, i32)> = cells.collect();
        let (start, count) = match axis {
            Axis::East => (frame.west_m, frame.columns),
            Axis::North => (frame.south_m, frame.rows),
        };
        let wanted: Vec<(u32, i32)> = wanted.into_iter().collect();
        let list =
            wanted.par_iter().map(|&(side, index)| profile(side, index, start, count, frame.pixel_m, h));
        let list = list.collect();
        Self { list, number: wanted.into_iter().enumerate().map(|(i, key)| (key, i)).collect() }
    }

    fn get(&self, side_m: u32, index: i32) -> (usize, &(usize, Vec<f64>)) {
        let number = self.number[&(side_m, index)];
        (number, &self.list[number])
    }
}

fn profile(side_m: u32, index: i32, start: f64, count: usize, pixel: f64, h: f64) -> (usize, Vec<f64>) {
    let side = f64::from(side_m);
    // From the raster's edge, so that large coordinates cost no digits.
    let low = f64::from(index) * side - start;
    let high = low + side;
    let from = (((low - REACH_SD * h) / pixel).floor().max(0.0) as usize).min(count);
    let to = (((high + REACH_SD * h) / pixel).ceil().max(0.0) as usize).min(count);
    let mean = |i: usize| mean_over(i as f64 * pixel, (i + 1) as f64 * pixel, low, high, h);
    (from, (from..to).map(mean).collect())
}

/// How much of each cell's kernel lies in the window: `Σ X(i) Y(j) inside(i, j)`, in pixel areas.
fn masses(spots: &[Spot], columns: &Profiles, rows: &Profiles, inside: &[f64], frame: &Frame) -> Vec<f64> {
    // For every column of cells at once: the window under its profile, row by row.
    let under: Vec<Vec<f64>> = columns
        .list
        .par_iter()
        .map(|(from, profile)| {
            let line = |row: usize| {
                let window = &inside[row * frame.columns + from..][..profile.len()];
                profile.iter().zip(window).map(|(x, share)| x * share).sum()
            };
            (0..frame.rows).map(line).collect()
        })
        .collect();
    let area = frame.pixel_m * frame.pixel_m;
    spots
        .iter()
        .map(|spot| {
            let under = &under[columns.get(spot.cell.side_m, spot.cell.column).0];
            let (from, profile) = rows.get(spot.cell.side_m, spot.cell.row).1;
            area * profile.iter().zip(&under[*from..]).map(|(y, u)| y * u).sum::<f64>()
        })
        .collect()
}

/// The surface, pieces per hectare. The cells of one column are first added up along it; then each row of
/// the raster is the sum over columns, always in the same order, whatever the number of threads.
fn surface(
    spots: &[Spot],
    weights: &[f64],
    columns: &Profiles,
    rows: &Profiles,
    inside: &[f64],
    frame: &Frame,
) -> Vec<f64> {
    let mut along = vec![vec![0.0; frame.rows]; columns.list.len()];
    for (spot, weight) in spots.iter().zip(weights) {
        let line = &mut along[columns.get(spot.cell.side_m, spot.cell.column).0];
        let (from, profile) = rows.get(spot.cell.side_m, spot.cell.row).1;
        for (sum, y) in line[*from..].iter_mut().zip(profile) {
            *sum += weight * y;
        }
    }
    let mut values = vec![0.0; frame.columns * frame.rows];
    values.par_chunks_mut(frame.columns).enumerate().for_each(|(row, line)| {
        for ((from, profile), along) in columns.list.iter().zip(&along) {
            let v = along[row];
            if v > 0.0 {
                for (sum, x) in line[*from..].iter_mut().zip(profile) {
                    *sum += v * x;
                }
            }
        }
        let window = &inside[row * frame.columns..][..frame.columns];
        for (value, share) in line.iter_mut().zip(window) {
            *value *= share * 1e4;
        }
    });
    values
}
