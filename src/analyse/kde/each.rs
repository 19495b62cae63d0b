//! The plain way: every observation by itself.

use rayon::prelude::*;

use super::line::{REACH_SD, mean_over, value_at};
use super::{At, Frame, Kernel, Observations, parts};

/// Where the kernel is cut here: 1e-8 of its peak.
const CUT_SD: f64 = 6.0;

pub(super) struct Each<'a> {
    pub observations: Observations<'a>,
    pub kernel: Kernel,
    pub frame: Frame,
    pub at: At,
}

/// The pixels that one observation reaches in one direction, with its density per metre in each.
fn along(at: At, low: f64, side: f64, h: f64, pixel: f64, count: usize, into: &mut Vec<f64>) -> usize {
    into.clear();
    let (high, reach) = (low + side, CUT_SD.min(REACH_SD) * h);
    let from = (((low - reach) / pixel).floor().max(0.0) as usize).min(count);
    let to = (((high + reach) / pixel).ceil().max(0.0) as usize).clamp(from, count);
    into.extend((from..to).map(|i| {
        let edge = i as f64 * pixel;
        match at {
            At::Mean => mean_over(edge, edge + pixel, low, high, h),
            At::Centre => value_at(edge + pixel / 2.0, low, high, h),
        }
    }));
    from
}

impl Each<'_> {
    fn both(&self, index: usize, at: At, x: &mut Vec<f64>, y: &mut Vec<f64>) -> (usize, usize) {
        let (o, frame) = (&self.observations, &self.frame);
        let half = o.side(index) / 2.0;
        let (west, south) = (o.x_m[index] - frame.west_m - half, o.y_m[index] - frame.south_m - half);
        let from = along(at, west, 2.0 * half, self.kernel.east_m, frame.pixel_m, frame.columns, x);
        (from, along(at, south, 2.0 * half, self.kernel.north_m, frame.pixel_m, frame.rows, y))
    }

    pub fn shares_inside(&self, window: &[f64]) -> Vec<f64> {
        let area = self.frame.pixel_m * self.frame.pixel_m;
        let share = |(x, y): &mut (Vec<f64>, Vec<f64>), index: usize| {
            let (column, row) = self.both(index, At::Mean, x, y);
            let line = |(j, y): (usize, &f64)| {
                let window = &window[(row + j) * self.frame.columns + column..];
                y * x.iter().zip(window).map(|(x, share)| x * share).sum::<f64>()
            };
            area * y.iter().enumerate().map(line).sum::<f64>()
        };
        (0..self.observations.len()).into_par_iter().map_init(Default::default, share).collect()
    }

    /// Pieces per square metre.
    pub fn surface(&self, weights: Option<&[f64]>) -> Vec<f64> {
        let (n, pixels) = (self.observations.len(), self.frame.columns * self.frame.rows);
        let part = n.div_ceil(parts(n, pixels)).max(1);
        let sums: Vec<Vec<f64>> = (0..n.div_ceil(part))
            .into_par_iter()
            .map(|p| {
                let mut sums = vec![0.0; pixels];
                let (mut x, mut y) = (Vec::new(), Vec::new());
                for index in p * part..((p + 1) * part).min(n) {
                    let weight = weights.map_or(1.0, |weights| weights.get(index).copied().unwrap_or(0.0));
                    if weight == 0.0 {
                        continue;
                    }
                    let (column, row) = self.both(index, self.at, &mut x, &mut y);
                    for (j, y) in y.iter().enumerate() {
                        let line = &mut sums[(row + j) * self.frame.columns + column..];
                        for (sum, x) in line.iter_mut().zip(&x) {
                            *sum += weight * y * x;
                        }
                    }
                }
                sums
            })
            .collect();
        super::lattice::added_up(sums, pixels)
    }
}
