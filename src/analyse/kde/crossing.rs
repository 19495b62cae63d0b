//! Cross-validation: by least squares and by likelihood.

use std::f64::consts::PI;

use rayon::prelude::*;

use super::line::mean_over;
use super::power::Power;
use super::search::{least_near, least_on_line};
use super::spectrum::{PERIOD, Spectrum, Spread};
use super::{Frame, Observations, Sides};

/// The score of least-squares cross-validation: `∫f̂² − 2/n Σ f̂₋ᵢ(x_i)`, by sums over pairs (Rudemo 1982,
/// Scandinavian Journal of Statistics 9: 65–78; Bowman 1984, Biometrika 71: 353–360).
fn least_squares_score(power: &Power, spread: Spread) -> f64 {
    let n = power.n;
    let twice = power.pairs(spread.times(2.0)) / (n * n);
    let once = (power.pairs(spread) - n * spread.peak()) / (n * (n - 1.0));
    twice - 2.0 * once
}

/// One bandwidth for all directions, with whether the search ended at an end of its range.
pub(super) fn least_squares(power: &Power, low: f64, high: f64) -> (f64, bool) {
    least_on_line(low.max(power.least()), high, 40, |h| least_squares_score(power, Spread::round(h * h)))
}

/// One bandwidth east and one north.
pub(super) fn least_squares_diagonal(power: &Power, low: f64, rule: (f64, f64)) -> ((f64, f64), bool) {
    let low = low.max(power.least());
    let score = |l: &[f64; 2]| {
        let (east, north) = (libm::exp(l[0]), libm::exp(l[1]));
        if east.min(north) < low || east > 10.0 * rule.0 || north > 10.0 * rule.1 {
            return f64::INFINITY;
        }
        least_squares_score(power, Spread::along(east * east, north * north))
    };
    let starts = [1.0, 0.5, 0.2, 0.08];
    let best = starts
        .iter()
        .map(|part| {
            let at = |h: f64| libm::log((h * part).max(1.05 * low));
            least_near([at(rule.0), at(rule.1)], 0.2, score)
        })
        .min_by(|a, b| a.1.total_cmp(&b.1));
    let found = best.map_or(rule, |(l, _)| (libm::exp(l[0]), libm::exp(l[1])));
    let at_end = found.0.min(found.1) < 1.02 * low || found.0 > 9.8 * rule.0 || found.1 > 9.8 * rule.1;
    (found, at_end)
}

/// Bandwidths from which a lattice of long period is used, in extents: a wide kernel would meet itself round the
/// back of a short one.
const WIDE: f64 = 0.06;

/// Nodes of the two lattices.
const NODES: (usize, usize) = (1_024, 256);

/// Bandwidth of greatest cross-validated likelihood, `Σ log λ̂₋ᵢ(x_i) − ∫λ̂` (Loader 1999, *Local Regression
/// and Likelihood*, section 5.3), each intensity divided by the part of the kernel inside the window.
pub(super) fn likelihood(
    observations: Observations<'_>,
    records: Option<&[f64]>,
    window: Option<(&Frame, &[f64])>,
    least: f64,
) -> Option<(f64, bool)> {
    // The box of the observations and of the ground round them.
    let (mut west, mut south, width, height) = super::spectrum::extent(observations);
    let (mut east, mut north) = (west + width, south + height);
    if let Some((frame, _)) = window {
        west = west.min(frame.west_m);
        south = south.min(frame.south_m);
        east = east.max(frame.west_m + frame.pixel_m * frame.columns as f64);
        north = north.max(frame.south_m + frame.pixel_m * frame.rows as f64);
    }
    let extent = (east - west).max(north - south);
    let room = Some((west, south, east - west, north - south));
    let rooms = [(NODES.0, room, 1.0 + 6.0 * WIDE), (NODES.1, room, PERIOD)];
    let spectra = |o: Observations<'_>, weights: Option<&[f64]>| -> Option<Vec<Spectrum>> {
        rooms.iter().map(|(size, room, period)| Spectrum::new(o, weights, *size, *room, *period)).collect()
    };
    let all = spectra(observations, records)?;
    // The window's pixels are squares with their ground as weight.
    let (mut xs, mut ys, mut grounds) = (Vec::new(), Vec::new(), Vec::new());
    if let Some((frame, window)) = window {
        for (i, share) in window.iter().enumerate().filter(|(_, share)| **share > 0.0) {
            xs.push(frame.west_m + ((i % frame.columns) as f64 + 0.5) * frame.pixel_m);
            ys.push(frame.south_m + ((i / frame.columns) as f64 + 0.5) * frame.pixel_m);
            grounds.push(share * frame.pixel_m * frame.pixel_m);
        }
    }
    let pixel = window.map_or(0.0, |(frame, _)| frame.pixel_m);
    let ground = Observations { x_m: &xs, y_m: &ys, side_m: Sides::Alike(pixel) };
    let ground = spectra(ground, Some(&grounds));
    let each: Vec<(f64, f64, f64)> = (0..xs.len()).map(|i| (xs[i], ys[i], grounds[i])).collect();
    let blocks = Blocks::of(window);
    let neighbours = Neighbours::new(observations, records);
    let score = |h: f64| {
        let spread = Spread::round(h * h);
        let which = usize::from(h > WIDE * extent);
        let density = all[which].smoothed(spread, 0.0);
        let inside = ground.as_ref().map(|ground| ground[which].smoothed(spread, 0.0));
        let share = |x: f64, y: f64| inside.as_ref().map_or(1.0, |inside| inside.at(x, y).max(1e-6));
        let buckets = Buckets::new(observations, records, NEAR_SD * h);
        let own = |side: f64| {
            if side <= 0.0 {
                return 1.0 / (2.0 * PI * h * h);
            }
            mean_over(-side / 2.0, side / 2.0, -side / 2.0, side / 2.0, h).powi(2)
        };
        let terms: Vec<f64> = (0..observations.len())
            .into_par_iter()
            .map(|i| {
                let weight = records.map_or(1.0, |records| records.get(i).copied().unwrap_or(0.0));
                let (x, y) = (observations.x_m[i], observations.y_m[i]);
                let mut others = density.at(x, y) - own(observations.side(i));
                // Where others are few, what is left after a record's own term carries its error: they are added
                // up one by one.
                if others < 0.5 / (2.0 * PI * h * h) {
                    others = buckets.others(i, h).unwrap_or_else(|| neighbours.far_from_others(i, h));
                }
                weight * libm::log(others.max(f64::MIN_POSITIVE) / share(x, y))
            })
            .collect();
        let integral: f64 = if inside.is_some() {
            let blocks = if h >= blocks.side_m { &blocks.list } else { &each };
            let part =
                |(x, y, ground): &(f64, f64, f64)| ground * density.at(*x, *y).max(0.0) / share(*x, *y);
            let parts: Vec<f64> = blocks.par_iter().map(part).collect();
            parts.iter().sum()
        } else {
            all[which].n
        };
        integral - terms.iter().sum::<f64>()
    };
    let low = least.max(super::spectrum::LEAST_STEPS * all[0].step());
    Some(least_on_line(low, extent / 4.0, 14, score))
}

/// Ground in blocks of pixels, about 128 along the longer side: what a kernel as wide as a block is integrated
/// over. Sums of smooth values at evenly spaced places are integrals to far below what is needed here.
struct Blocks {
    side_m: f64,
    /// The centre of each, and its ground in square metres.
    list: Vec<(f64, f64, f64)>,
}

impl Blocks {
    fn of(window: Option<(&Frame, &[f64])>) -> Self {
        let Some((frame, window)) = window else { return Self { side_m: f64::INFINITY, list: Vec::new() } };
        let many = (frame.columns.max(frame.rows) / 128).max(1);
        let side_m = many as f64 * frame.pixel_m;
        let across = frame.columns.div_ceil(many).max(1);
        let mut ground = vec![0.0; across * frame.rows.div_ceil(many)];
        for (i, share) in window.iter().enumerate() {
            let (column, row) = (i % frame.columns, i / frame.columns);
            ground[row / many * across + column / many] += share * frame.pixel_m * frame.pixel_m;
        }
        let place = |(i, ground): (usize, f64)| {
            let centre = |start: f64, k: usize| start + (k as f64 + 0.5) * side_m;
            (centre(frame.west_m, i % across), centre(frame.south_m, i / across), ground)
        };
        let held = ground.into_iter().enumerate().filter(|(_, ground)| *ground > 0.0);
        Self { side_m, list: held.map(place).collect() }
    }
}

/// Others are near within this many standard deviations.
const NEAR_SD: f64 = 6.5;

/// Observations by squares as large as the reach of a kernel.
struct Buckets<'o> {
    o: Observations<'o>,
    records: Option<&'o [f64]>,
    side: f64,
    west: f64,
    south: f64,
    across: usize,
    up: usize,
    /// Where each square's observations begin in `order`.
    begin: Vec<u32>,
    order: Vec<u32>,
}

impl<'o> Buckets<'o> {
    fn new(o: Observations<'o>, records: Option<&'o [f64]>, side: f64) -> Self {
        let (west, south, width, height) = super::spectrum::extent(o);
        // Never so many squares that most stand empty.
        let side = side.max((width * height / (4.0 * o.len().max(1) as f64)).sqrt()).max(f64::MIN_POSITIVE);
        let (across, up) = ((width / side) as usize + 1, (height / side) as usize + 1);
        let mut all = Self {
            o,
            records,
            side,
            west,
            south,
            across,
            up,
            begin: vec![0; across * up + 1],
            order: vec![0; o.len()],
        };
        let place = |i: usize| {
            let (column, row) = all.square(i);
            row * across + column
        };
        let places: Vec<usize> = (0..o.len()).map(place).collect();
        for place in &places {
            all.begin[place + 1] += 1;
        }
        for i in 0..across * up {
            all.begin[i + 1] += all.begin[i];
        }
        let mut next = all.begin.clone();
        for (i, place) in places.iter().enumerate() {
            all.order[next[*place] as usize] = i as u32;
            next[*place] += 1;
        }
        all
    }

    fn square(&self, i: usize) -> (usize, usize) {
        let at = |value: f64, count: usize| ((value / self.side).max(0.0) as usize).min(count - 1);
        (at(self.o.x_m[i] - self.west, self.across), at(self.o.y_m[i] - self.south, self.up))
    }

    /// The density of the others at an observation, by the direct sum; `None` where none is near.
    fn others(&self, i: usize, h: f64) -> Option<f64> {
        let o = &self.o;
        let (column, row) = self.square(i);
        let weight = |j: usize| self.records.map_or(1.0, |records| records.get(j).copied().unwrap_or(0.0));
        let (mut sum, mut near) = (0.0, false);
        for row in row.saturating_sub(1)..(row + 2).min(self.up) {
            let (from, to) = (column.saturating_sub(1), (column + 2).min(self.across));
            let range = self.begin[row * self.across + from]..self.begin[row * self.across + to];
            for j in self.order[range.start as usize..range.end as usize].iter().map(|j| *j as usize) {
                let weight = if i == j { weight(j) - 1.0 } else { weight(j) };
                let (dx, dy) = (o.x_m[j] - o.x_m[i], o.y_m[j] - o.y_m[i]);
                let (a, b) = (o.side(i), o.side(j));
                near |= weight > 0.0 && dx * dx + dy * dy < (NEAR_SD * h).powi(2);
                sum += weight
                    * if a + b > 0.0 {
                        both_spread(dx, a, b, h) * both_spread(dy, a, b, h)
                    } else {
                        libm::exp(-(dx * dx + dy * dy) / (2.0 * h * h)) / (2.0 * PI * h * h)
                    }
                    .max(0.0);
            }
        }
        near.then_some(sum)
    }
}

/// The mean density per metre of the distance in one direction between two places that lie evenly in squares of
/// sides `a` and `b`, with a Gaussian.
fn both_spread(d: f64, a: f64, b: f64, h: f64) -> f64 {
    if b > 0.0 {
        mean_over(d - b / 2.0, d + b / 2.0, -a / 2.0, a / 2.0, h)
    } else {
        mean_over(d - a / 2.0, d + a / 2.0, 0.0, 0.0, h)
    }
}

/// Observations in order of their eastings, to be looked at one by one where they are few.
struct Neighbours<'o> {
    o: Observations<'o>,
    records: Option<&'o [f64]>,
    order: Vec<u32>,
    rank: Vec<u32>,
}

impl<'o> Neighbours<'o> {
    fn new(o: Observations<'o>, records: Option<&'o [f64]>) -> Self {
        let mut order: Vec<u32> = (0..o.len() as u32).collect();
        order.sort_by(|a, b| o.x_m[*a as usize].total_cmp(&o.x_m[*b as usize]).then(a.cmp(b)));
        let mut rank = vec![0; order.len()];
        order.iter().enumerate().for_each(|(place, i)| rank[*i as usize] = place as u32);
        Self { o, records, order, rank }
    }

    /// Every other observation from a place outwards, until `go_on` says that its distance east is too far.
    fn outwards(&self, i: usize, mut go_on: impl FnMut(usize, f64) -> bool) {
        let place = self.rank[i] as usize;
        let dx = |j: usize| (self.o.x_m[j] - self.o.x_m[i]).abs();
        for j in self.order[place + 1..].iter().map(|j| *j as usize) {
            if !go_on(j, dx(j)) {
                break;
            }
        }
        for j in self.order[..place].iter().rev().map(|j| *j as usize) {
            if !go_on(j, dx(j)) {
                break;
            }
        }
    }

    /// The density of the others at an observation that none is near: the direct sum over those that count
    /// beside the nearest. A square is there a Gaussian of its variance.
    fn far_from_others(&self, i: usize, h: f64) -> f64 {
        let o = &self.o;
        let weight = |j: usize| self.records.map_or(1.0, |records| records.get(j).copied().unwrap_or(0.0));
        let variance = |j: usize| h * h + (o.side(i).powi(2) + o.side(j).powi(2)) / 12.0;
        let distance2 = |j: usize, dx: f64| dx * dx + (o.y_m[j] - o.y_m[i]).powi(2);
        let normal = |j: usize, d2: f64| libm::exp(-d2 / (2.0 * variance(j))) / (2.0 * PI * variance(j));
        let mut nearest = f64::INFINITY;
        self.outwards(i, |j, dx| {
            nearest = nearest.min(distance2(j, dx));
            dx * dx <= nearest
        });
        let far = nearest + 40.0 * variance(i);
        let mut sum = (weight(i) - 1.0).max(0.0) * normal(i, 0.0);
        self.outwards(i, |j, dx| {
            sum += weight(j) * normal(j, distance2(j, dx));
            dx * dx <= far
        });
        sum
    }
}
