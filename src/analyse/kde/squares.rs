//! The exact way: squares that share columns and rows, added up along each column first.

use std::collections::BTreeMap;

use rayon::prelude::*;

use super::line::{REACH_SD, mean_over, value_at};
use super::{At, Frame, Kernel, Observations};

/// The kernel of a column (or row) of squares along the raster: the first pixel it reaches, and per metre
/// the density in that pixel and those after it.
struct Profile {
    from: usize,
    /// Means over pixels, for shares of ground.
    means: Vec<f64>,
    /// Values at centres, where those are asked for.
    values: Option<Vec<f64>>,
}

impl Profile {
    fn shown(&self) -> &[f64] {
        self.values.as_deref().unwrap_or(&self.means)
    }
}

/// The profiles, and which of them each observation has.
pub(super) struct Squares {
    frame: Frame,
    pub(super) at: At,
    columns: Vec<Profile>,
    rows: Vec<Profile>,
    place: Vec<(u32, u32)>,
}

/// A column's (or row's) side and lower edge.
type Column = (f64, f64);

/// Distinct columns (side and west edge) in order, and the number of each observation's.
fn distinct(ends: impl Iterator<Item = (f64, f64)>, most: usize) -> Option<(Vec<Column>, Vec<u32>)> {
    // Bits of non-negative numbers are in their order; an edge may lie west of the raster, so its order is
    // only that of a key, the same on every run.
    let mut numbers: BTreeMap<(u64, u64), u32> = BTreeMap::new();
    let mut list = Vec::new();
    let mut which = Vec::new();
    for (side, low) in ends {
        let next = numbers.len() as u32;
        let number = *numbers.entry((side.to_bits(), low.to_bits())).or_insert_with(|| {
            list.push((side, low));
            next
        });
        if numbers.len() > most {
            return None;
        }
        which.push(number);
    }
    // Numbers in order of key, so that no order of observations changes the order of a sum.
    let mut rank = vec![0u32; list.len()];
    let mut ordered = Vec::with_capacity(list.len());
    for (place, number) in numbers.values().enumerate() {
        rank[*number as usize] = place as u32;
        ordered.push(list[*number as usize]);
    }
    which.iter_mut().for_each(|number| *number = rank[*number as usize]);
    Some((ordered, which))
}

fn profile(side: f64, low: f64, count: usize, pixel: f64, h: f64, at: At) -> Profile {
    let high = low + side;
    let from = (((low - REACH_SD * h) / pixel).floor().max(0.0) as usize).min(count);
    let to = (((high + REACH_SD * h) / pixel).ceil().max(0.0) as usize).clamp(from, count);
    let edge = |i: usize| i as f64 * pixel;
    let means = (from..to).map(|i| mean_over(edge(i), edge(i + 1), low, high, h)).collect();
    let values = (at == At::Centre)
        .then(|| (from..to).map(|i| value_at((i as f64 + 0.5) * pixel, low, high, h)).collect());
    Profile { from, means, values }
}

impl Squares {
    /// `None` when there are more than `most` distinct columns or rows. With what one surface costs,
    /// roughly, in multiplications.
    pub fn new(
        observations: Observations<'_>,
        kernel: Kernel,
        frame: Frame,
        at: At,
        most: usize,
    ) -> Option<(Self, f64)> {
        // From the raster's edge, so that large coordinates cost no digits.
        let ends = |centres: &[f64], start: f64| {
            let low = |(i, x): (usize, &f64)| {
                let side = observations.side(i);
                (side, x - start - side / 2.0)
            };
            distinct(centres.iter().take(observations.len()).enumerate().map(low), most)
        };
        let (columns, east) = ends(observations.x_m, frame.west_m)?;
        let (rows, north) = ends(observations.y_m, frame.south_m)?;
        let profiles = |list: &[(f64, f64)], count: usize, h: f64| -> Vec<Profile> {
            list.par_iter().map(|&(side, low)| profile(side, low, count, frame.pixel_m, h, at)).collect()
        };
        let columns = profiles(&columns, frame.columns, kernel.east_m);
        let rows = profiles(&rows, frame.rows, kernel.north_m);
        let long = |list: &[Profile]| list.iter().map(|p| p.means.len() as f64).sum::<f64>();
        let cost = frame.rows as f64 * long(&columns)
            + observations.len() as f64 * long(&rows) / rows.len().max(1) as f64;
        let place = east.into_iter().zip(north).collect();
        Some((Self { frame, at, columns, rows, place }, cost))
    }

    /// How much of each kernel lies in the window: `Σ X(i) Y(j) window(i, j)`, times the area of a pixel.
    pub fn shares_inside(&self, window: &[f64]) -> Vec<f64> {
        // For every column of squares at once: the window under its profile, row by row.
        let under: Vec<Vec<f64>> = self
            .columns
            .par_iter()
            .map(|column| {
                let line = |row: usize| {
                    let window = &window[row * self.frame.columns + column.from..][..column.means.len()];
                    column.means.iter().zip(window).map(|(x, share)| x * share).sum()
                };
                (0..self.frame.rows).map(line).collect()
            })
            .collect();
        let area = self.frame.pixel_m * self.frame.pixel_m;
        let share = |&(east, north): &(u32, u32)| {
            let row = &self.rows[north as usize];
            let under = &under[east as usize][row.from..];
            area * row.means.iter().zip(under).map(|(y, u)| y * u).sum::<f64>()
        };
        self.place.par_iter().map(share).collect()
    }

    /// Pieces per square metre. Each row of the raster is the sum over columns in one order, whatever the
    /// number of threads.
    pub fn surface(&self, weights: Option<&[f64]>) -> Vec<f64> {
        let mut along = vec![0.0; self.columns.len() * self.frame.rows];
        for (index, &(east, north)) in self.place.iter().enumerate() {
            let weight = weights.map_or(1.0, |weights| weights.get(index).copied().unwrap_or(0.0));
            if weight == 0.0 {
                continue;
            }
            let row = &self.rows[north as usize];
            let line = &mut along[east as usize * self.frame.rows + row.from..];
            for (sum, y) in line.iter_mut().zip(row.shown()) {
                *sum += weight * y;
            }
        }
        let mut values = vec![0.0; self.frame.columns * self.frame.rows];
        values.par_chunks_mut(self.frame.columns.max(1)).enumerate().for_each(|(row, line)| {
            for (column, along) in self.columns.iter().zip(along.chunks_exact(self.frame.rows)) {
                let v = along[row];
                if v != 0.0 {
                    for (sum, x) in line[column.from..].iter_mut().zip(column.shown()) {
                        *sum += v * x;
                    }
                }
            }
        });
        values
    }
}

/// The share inside the window of the kernel of each pixel: of the pixel's square, or of its centre.
pub(super) fn blurred(window: &[f64], kernel: Kernel, frame: &Frame, at: At) -> Vec<f64> {
    let pixel = frame.pixel_m;
    let taps = |h: f64, count: usize| -> Vec<f64> {
        let (a, b) = if at == At::Mean { (0.0, pixel) } else { (pixel / 2.0, pixel / 2.0) };
        let reach = ((REACH_SD * h / pixel).ceil() as usize + 1).min(count.max(1) - 1);
        (0..=reach).map(|d| pixel * mean_over(d as f64 * pixel, (d + 1) as f64 * pixel, a, b, h)).collect()
    };
    let (east, north) = (taps(kernel.east_m, frame.columns), taps(kernel.north_m, frame.rows));
    let width = frame.columns;
    let mut along = vec![0.0; window.len()];
    along.par_chunks_mut(width.max(1)).zip(window.par_chunks(width.max(1))).for_each(|(sums, line)| {
        for (i, share) in line.iter().enumerate().filter(|(_, share)| **share > 0.0) {
            for (sum, tap) in sums[i..].iter_mut().zip(&east) {
                *sum += share * tap;
            }
            let before = i.min(east.len() - 1);
            for (sum, tap) in sums[i - before..i].iter_mut().zip(east[1..=before].iter().rev()) {
                *sum += share * tap;
            }
        }
    });
    let mut masses = vec![0.0; window.len()];
    masses.par_chunks_mut(width.max(1)).enumerate().for_each(|(row, sums)| {
        let reach = north.len() - 1;
        for other in row.saturating_sub(reach)..(row + reach + 1).min(frame.rows) {
            let tap = north[row.abs_diff(other)];
            for (sum, value) in sums.iter_mut().zip(&along[other * width..][..width]) {
                *sum += tap * value;
            }
        }
    });
    masses
}
