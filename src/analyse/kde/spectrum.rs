//! The Fourier transform of observations, once; from it every sum over pairs of a Gaussian or its
//! derivatives, and values of smoothed densities at places.
//!
//! Observations are shared over a periodic lattice by quadratic splines, transformed, and divided by the
//! spline's own transform (the non-uniform transform of Dutt and Rokhlin 1993, SIAM Journal on Scientific
//! Computing 14: 1368–1393, with splines for Gaussians). What is asked for is damped by `exp(−σ²k²/2)`, so it
//! is good to 1e-3 of its largest value or better once `σ` is at least [`LEAST_STEPS`] steps. The period is
//! more than twice the extent, so that no observation meets another round the back.
//!
//! A record whose place is known to a square only is taken as lying evenly in it, apart from every other: the
//! transform of the square multiplies its own, and the sum over pairs is the mean over all the places that
//! the records may have. Pairs of a record with itself are at distance nought.

use std::f64::consts::PI;
use std::sync::Arc;

use rayon::prelude::*;
use rustfft::num_complex::Complex64;
use rustfft::{Fft, FftPlanner};

use super::spline::quadratic;
use super::{Observations, parts};

/// The least standard deviation of a Gaussian, in steps.
pub(super) const LEAST_STEPS: f64 = 1.3;

/// Steps to a standard deviation where values are read off at places: shared out and read off, the spline errs
/// twice.
const READ_STEPS: f64 = 2.2;

/// Period of the lattice, in extents, for sums over pairs at any distance.
pub(super) const PERIOD: f64 = 2.4;

/// One direction of the lattice.
#[derive(Debug, Clone, Copy)]
pub(super) struct Axis {
    start: f64,
    pub step: f64,
}

/// A place's first node and weights, east and north.
type Shares = (usize, [f64; 3], usize, [f64; 3]);

fn shares(east: Axis, north: Axis, size: usize, x: f64, y: f64) -> Option<Shares> {
    let (u, v) = ((x - east.start) / east.step, (y - north.start) / north.step);
    let most = size as f64 - 2.0;
    if !(u >= 1.0 && v >= 1.0 && u < most && v < most) {
        return None;
    }
    let ((i, x), (j, y)) = (quadratic(u), quadratic(v));
    Some((i, x, j, y))
}

/// `sin(t) / t`.
pub(super) fn sinc(t: f64) -> f64 {
    if t.abs() < 1e-4 { 1.0 - t * t / 6.0 } else { libm::sin(t) / t }
}

pub(super) struct Spectrum {
    pub size: usize,
    pub east: Axis,
    pub north: Axis,
    /// For wave numbers `0..=size/2` east (major) and `0..size` north: the transform, without the spline.
    pub waves: Vec<Complex64>,
    /// Number of observations by their weights.
    pub n: f64,
    /// Sides, with the weight of observations that have them.
    pub sides: Vec<(f64, f64)>,
}

/// A symmetric matrix in two dimensions.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Spread {
    pub xx: f64,
    pub xy: f64,
    pub yy: f64,
}

impl Spread {
    pub fn round(variance: f64) -> Self {
        Self { xx: variance, xy: 0.0, yy: variance }
    }

    pub fn along(east: f64, north: f64) -> Self {
        Self { xx: east, xy: 0.0, yy: north }
    }

    pub fn det(&self) -> f64 {
        self.xx * self.yy - self.xy * self.xy
    }

    pub fn times(&self, factor: f64) -> Self {
        Self { xx: self.xx * factor, xy: self.xy * factor, yy: self.yy * factor }
    }

    /// The peak of the normal density with this variance.
    pub fn peak(&self) -> f64 {
        1.0 / (2.0 * PI * self.det().max(f64::MIN_POSITIVE).sqrt())
    }
}

/// The box round the observations: west, south, width, height.
pub(super) fn extent(observations: Observations<'_>) -> (f64, f64, f64, f64) {
    let ends = |values: &[f64]| {
        let ends = |(low, high): (f64, f64), v: &f64| (low.min(*v), high.max(*v));
        values.iter().fold((f64::INFINITY, f64::NEG_INFINITY), ends)
    };
    let ((west, east), (south, north)) = (ends(observations.x_m), ends(observations.y_m));
    let side = observations.largest_side();
    (west - side / 2.0, south - side / 2.0, east - west + side, north - south + side)
}

impl Spectrum {
    /// `None` for observations without extent. `size` (a power of two) is the number of nodes each way; `room`
    /// is a box (west, south, width, height) that places asked for later lie in, besides the observations;
    /// `period` the lattice's, in boxes.
    pub fn new(
        observations: Observations<'_>,
        weights: Option<&[f64]>,
        size: usize,
        room: Option<(f64, f64, f64, f64)>,
        period: f64,
    ) -> Option<Self> {
        let (west, south, width, height) = room.unwrap_or_else(|| extent(observations));
        let longest = width.max(height);
        if observations.is_empty() || longest.is_nan() || longest <= 0.0 || !longest.is_finite() {
            return None;
        }
        // One step both ways keeps a bandwidth's error the same in every direction.
        let step = period * longest / (size - 8) as f64;
        let axis = |start: f64| Axis { start: start - 4.0 * step, step };
        let (east, north) = (axis(west), axis(south));
        let mut sides: Vec<(f64, f64)> = Vec::new();
        let weight = |i: usize| weights.map_or(1.0, |weights| weights.get(i).copied().unwrap_or(0.0));
        let mut n = 0.0;
        let mut group = Vec::new();
        let alike = matches!(observations.side_m, super::Sides::Alike(_));
        for i in 0..observations.len() {
            n += weight(i);
            if alike && !sides.is_empty() {
                sides[0].1 += weight(i);
                continue;
            }
            let side = observations.side(i);
            let place = match sides.iter().position(|(other, _)| *other == side) {
                Some(place) => place,
                None => {
                    sides.push((side, 0.0));
                    sides.len() - 1
                }
            };
            sides[place].1 += weight(i);
            if !alike {
                group.push(place);
            }
        }
        let mut planner = FftPlanner::new();
        let fft = planner.plan_fft_forward(size);
        let mut all = Self { size, east, north, waves: Vec::new(), n, sides: sides.clone() };
        for (number, (side, _)) in sides.iter().enumerate() {
            let lattice = all.shared_out(observations, |i| {
                if group.get(i).is_none_or(|group| *group == number) { weight(i) } else { 0.0 }
            });
            let mut waves = forward(lattice, size, &fft);
            all.each_wave(&mut waves, |kx, ky, wave| {
                let box_ = sinc(kx * side / 2.0) * sinc(ky * side / 2.0);
                *wave *= box_ / all.spline(kx, ky);
            });
            if all.waves.is_empty() {
                all.waves = waves;
            } else {
                all.waves.iter_mut().zip(&waves).for_each(|(sum, wave)| *sum += wave);
            }
        }
        Some(all)
    }

    /// Metres between nodes.
    pub fn step(&self) -> f64 {
        self.east.step
    }

    fn shared_out(&self, o: Observations<'_>, weight: impl Fn(usize) -> f64 + Sync) -> Vec<f64> {
        let (n, size) = (o.len(), self.size);
        let part = n.div_ceil(parts(n, size * size)).max(1);
        let sums = (0..n.div_ceil(part)).into_par_iter().map(|p| {
            let mut sums = vec![0.0; size * size];
            for index in p * part..((p + 1) * part).min(n) {
                let weight = weight(index);
                let Some((i, x, j, y)) = self.nodes(o.x_m[index], o.y_m[index]) else { continue };
                for (k, y) in y.iter().enumerate() {
                    let line = sums[(j + k) * size + i..].iter_mut();
                    line.zip(x).for_each(|(sum, x)| *sum += weight * y * x);
                }
            }
            sums
        });
        super::lattice::added_up(sums.collect(), size * size)
    }

    fn nodes(&self, x: f64, y: f64) -> Option<Shares> {
        shares(self.east, self.north, self.size, x, y)
    }

    /// The transform of the spline.
    pub fn spline(&self, kx: f64, ky: f64) -> f64 {
        (sinc(kx * self.east.step / 2.0) * sinc(ky * self.north.step / 2.0)).powi(3)
    }

    pub fn wave_number(&self, index: usize, step: f64) -> f64 {
        let signed = if index > self.size / 2 { index as f64 - self.size as f64 } else { index as f64 };
        2.0 * PI * signed / (self.size as f64 * step)
    }

    fn each_wave(&self, waves: &mut [Complex64], act: impl Fn(f64, f64, &mut Complex64) + Sync) {
        waves.par_chunks_mut(self.size).enumerate().for_each(|(i, line)| {
            let kx = self.wave_number(i, self.east.step);
            for (j, wave) in line.iter_mut().enumerate() {
                act(kx, self.wave_number(j, self.north.step), wave);
            }
        });
    }

    /// The density smoothed by a Gaussian, and averaged over a square of side `side_m` about each place, per
    /// square metre, node by node. A wide Gaussian needs few waves: the nodes are as coarse as it allows.
    pub fn smoothed(&self, spread: Spread, side_m: f64) -> Nodes {
        let mean = (spread.xx + spread.yy) / 2.0;
        let apart = ((spread.xx - spread.yy) / 2.0).hypot(spread.xy);
        let narrowest = (mean - apart).max(0.0).sqrt();
        let (mut size, mut step) = (self.size, self.east.step);
        while size > 64 && 2.0 * step * READ_STEPS <= narrowest {
            size /= 2;
            step *= 2.0;
        }
        let half = size / 2;
        let (east, north) = (Axis { step, ..self.east }, Axis { step, ..self.north });
        let kept = |j: usize| if j > half { j + self.size - size } else { j };
        // One direction's square, spline and, where the kernel does not lean, Gaussian.
        let leans = spread.xy != 0.0;
        let factor = |k: f64, variance: f64| {
            let damped = if leans { 1.0 } else { libm::exp(-variance * k * k / 2.0) };
            damped * sinc(k * side_m / 2.0) / sinc(k * step / 2.0).powi(3)
        };
        let ky: Vec<f64> = (0..size).map(|j| self.wave_number(kept(j), self.north.step)).collect();
        let north_factors: Vec<f64> = ky.iter().map(|ky| factor(*ky, spread.yy)).collect();
        let mut waves = vec![Complex64::default(); (half + 1) * size];
        waves.par_chunks_mut(size).enumerate().for_each(|(i, to)| {
            let from = &self.waves[i * self.size..][..self.size];
            let kx = self.wave_number(i, self.east.step);
            let east_factor = factor(kx, spread.xx);
            for (j, (to, north_factor)) in to.iter_mut().zip(&north_factors).enumerate() {
                let mut factor = east_factor * north_factor;
                if leans {
                    let t = spread.xx * kx * kx + 2.0 * spread.xy * kx * ky[j] + spread.yy * ky[j] * ky[j];
                    factor *= libm::exp(-t / 2.0);
                }
                *to = from[kept(j)] * factor;
            }
        });
        let values = backward(waves, size);
        let area = (self.size as f64).powi(2) * self.east.step * self.north.step;
        Nodes { size, east, north, values, factor: 1.0 / area }
    }
}

/// Values on nodes, to be read off at places.
pub(super) struct Nodes {
    size: usize,
    east: Axis,
    north: Axis,
    values: Vec<f64>,
    factor: f64,
}

impl Nodes {
    /// The value at a place, per square metre; 0 off the lattice.
    pub fn at(&self, x: f64, y: f64) -> f64 {
        let Some((i, xs, j, ys)) = shares(self.east, self.north, self.size, x, y) else { return 0.0 };
        let row = |(k, y): (usize, &f64)| {
            let line = self.values[(j + k) * self.size + i..].iter();
            y * line.zip(xs).map(|(value, x)| value * x).sum::<f64>()
        };
        self.factor * ys.iter().enumerate().map(row).sum::<f64>()
    }
}

/// Rows two by two (one the real part, one the imaginary), then columns: the half of waves east that says all.
pub(super) fn forward(lattice: Vec<f64>, size: usize, fft: &Arc<dyn Fft<f64>>) -> Vec<Complex64> {
    let half = size / 2;
    let mut rows = vec![Complex64::default(); (half + 1) * size];
    // Row by row into `lines`, then turned.
    let lines: Vec<(Vec<Complex64>, Vec<Complex64>)> = (0..half)
        .into_par_iter()
        .map(|pair| {
            let (a, b) = lattice[2 * pair * size..][..2 * size].split_at(size);
            if a.iter().chain(b).all(|v| *v == 0.0) {
                return (Vec::new(), Vec::new());
            }
            let mut both: Vec<Complex64> = a.iter().zip(b).map(|(a, b)| Complex64::new(*a, *b)).collect();
            fft.process(&mut both);
            let part = |k: usize| {
                let (z, w) = (both[k], both[(size - k) % size].conj());
                ((z + w) * 0.5, (z - w) * Complex64::new(0.0, -0.5))
            };
            (0..=half).map(part).unzip()
        })
        .collect();
    rows.par_chunks_mut(size * 8).enumerate().for_each(|(block, columns)| {
        let first = block * 8;
        let many = columns.len() / size;
        for (pair, (a, b)) in lines.iter().enumerate().filter(|(_, (a, _))| !a.is_empty()) {
            for k in 0..many {
                columns[k * size + 2 * pair] = a[first + k];
                columns[k * size + 2 * pair + 1] = b[first + k];
            }
        }
        for column in columns.chunks_exact_mut(size) {
            fft.process(column);
        }
    });
    rows
}

/// The way back, without the factor 1/size².
pub(super) fn backward(mut waves: Vec<Complex64>, size: usize) -> Vec<f64> {
    let half = size / 2;
    let fft = FftPlanner::new().plan_fft_inverse(size);
    waves.par_chunks_mut(size).for_each(|column| fft.process(column));
    let mut values = vec![0.0; size * size];
    let i = Complex64::new(0.0, 1.0);
    // Eight rows at a time: what lies beside one another in a column is read together.
    values.par_chunks_mut(8 * size).enumerate().for_each(|(block, rows)| {
        let pairs = rows.len() / (2 * size);
        let mut both = vec![Complex64::default(); pairs * size];
        for k in 0..=half {
            let line = waves[k * size + 8 * block..][..2 * pairs].chunks_exact(2);
            for (pair, two) in line.enumerate() {
                let (za, zb) = (two[0], two[1]);
                both[pair * size + k] = za + i * zb;
                if k > 0 && k < half {
                    both[pair * size + size - k] = za.conj() + i * zb.conj();
                }
            }
        }
        for (both, rows) in both.chunks_exact_mut(size).zip(rows.chunks_exact_mut(2 * size)) {
            fft.process(both);
            let (first, second) = rows.split_at_mut(size);
            for ((z, a), b) in both.iter().zip(first).zip(second) {
                (*a, *b) = (z.re, z.im);
            }
        }
    });
    values
}
