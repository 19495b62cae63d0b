//! The quick way for many observations: shared out over a lattice that is fine beside the kernel by
//! B-splines, which spread every place alike, then smoothed by a kernel that is narrower by just that spread.
//!
//! 1. A point goes to 3 × 3 nodes by the quadratic spline: variance 1/4 of a step squared in each direction.
//! 2. A square goes by its corners: its density is the difference of four corners of half planes, so each
//!    corner is shared over 4 × 4 nodes by the cubic spline, and sums along rows and columns fill the square.
//!    That sum spreads an edge by the spline of one order less, again with variance 1/4.
//! 3. Every node then has a Gaussian of variance `h² − Δ²/4`, cut at 5 standard deviations, whose means over
//!    (or values in) the pixels multiply east and north.
//!
//! What is left is the third moment of the spline, at most 0.048 Δ³, hence at most 0.011 (Δ/h)³ of a single
//! kernel's peak in each direction; with five steps to a standard deviation 9e-5, and less for many points,
//! whose errors differ in sign.

use rayon::prelude::*;

use super::line::{mean_over, normal};
use super::spline::{cubic, quadratic};
use super::{At, Frame, Kernel, Observations, Sides, parts};

/// Steps of the lattice to a standard deviation.
const STEPS: f64 = 5.0;

/// Where a node's Gaussian is cut.
const CUT_SD: f64 = 5.0;

/// Most nodes along a side.
const MOST: f64 = 4_608.0;

/// Squares with a side under this many steps are points: their corners would cancel.
const LEAST_SIDE: f64 = 1e-3;

/// One direction: the lattice, and the Gaussians of its nodes in the pixels.
struct Axis {
    /// Where node 0 lies, metres from the raster's edge.
    start: f64,
    /// Metres between nodes.
    step: f64,
    nodes: usize,
    /// Nodes that each pixel sees.
    taps: usize,
    /// The first of them.
    first: Vec<usize>,
    /// Mean density of each of them over the pixel, per metre: pixel by pixel.
    means: Vec<f64>,
    /// The same at the pixel's centre, where that is asked for.
    values: Option<Vec<f64>>,
}

impl Axis {
    fn nodes(h: f64, length: f64) -> f64 {
        (length + 2.0 * (CUT_SD + 1.0) * h) / (h / STEPS) + 8.0
    }

    fn new(h: f64, pixel: f64, count: usize, at: At) -> Self {
        let step = h / STEPS;
        let start = -(CUT_SD + 1.0) * h - 3.0 * step;
        let nodes = Self::nodes(h, pixel * count as f64).ceil() as usize;
        let narrowed = (h * h - step * step / 4.0).sqrt();
        let reach = CUT_SD * narrowed + pixel / 2.0;
        let taps = ((2.0 * reach / step).ceil() as usize + 1).min(nodes);
        let middle = |i: usize| (i as f64 + 0.5) * pixel;
        let first: Vec<usize> = (0..count)
            .map(|i| (((middle(i) - reach - start) / step).ceil().max(0.0) as usize).min(nodes - taps))
            .collect();
        let place = |i: usize, k: usize| start + (first[i] + k) as f64 * step;
        let each = |i: usize| (0..taps).map(move |k| (i, k));
        let mean = |i: usize, k: usize| {
            let at = place(i, k);
            mean_over(i as f64 * pixel, (i + 1) as f64 * pixel, at, at, narrowed)
        };
        let means =
            (0..count).into_par_iter().flat_map_iter(|i| (0..taps).map(move |k| mean(i, k))).collect();
        let values = (at == At::Centre).then(|| {
            let value = |(i, k): (usize, usize)| normal((middle(i) - place(i, k)) / narrowed) / narrowed;
            (0..count).flat_map(each).map(value).collect()
        });
        Self { start, step, nodes, taps, first, means, values }
    }

    fn shown(&self) -> &[f64] {
        self.values.as_deref().unwrap_or(&self.means)
    }
}

pub(super) struct Lattice<'a> {
    observations: Observations<'a>,
    frame: Frame,
    east: Axis,
    north: Axis,
    /// Whether some side is more than a point's.
    squares: bool,
}

/// Rows of the raster that are worked out together.
const TOGETHER: usize = 8;

impl<'a> Lattice<'a> {
    /// Whether a lattice for this kernel would stay small enough.
    pub fn fits(kernel: Kernel, frame: &Frame) -> bool {
        let nodes = |h: f64, count: usize| Axis::nodes(h, frame.pixel_m * count as f64);
        nodes(kernel.east_m, frame.columns) <= MOST && nodes(kernel.north_m, frame.rows) <= MOST
    }

    /// What a surface costs, roughly, in multiplications.
    pub fn cost(n: usize, largest_side: f64, kernel: Kernel, frame: &Frame) -> f64 {
        let nodes = |h: f64, count: usize| Axis::nodes(h, frame.pixel_m * count as f64);
        let (across, up) = (nodes(kernel.east_m, frame.columns), nodes(kernel.north_m, frame.rows));
        let taps = 2.0 * CUT_SD * STEPS;
        let (columns, rows) = (frame.columns as f64, frame.rows as f64);
        let each = if largest_side > 0.0 { 100.0 } else { 15.0 };
        across * up + taps * rows * (across + columns) + n as f64 * each
    }

    pub fn new(observations: Observations<'a>, kernel: Kernel, frame: Frame, at: At) -> Self {
        let east = Axis::new(kernel.east_m, frame.pixel_m, frame.columns, at);
        let north = Axis::new(kernel.north_m, frame.pixel_m, frame.rows, at);
        let squares = observations.largest_side() > LEAST_SIDE * east.step.min(north.step);
        Self { observations, frame, east, north, squares }
    }

    /// Pieces per square metre.
    pub fn surface(&self, weights: Option<&[f64]>) -> Vec<f64> {
        let masses = self.shared_out(weights);
        self.smoothed(&masses)
    }

    fn points(&self) -> bool {
        matches!(self.observations.side_m, Sides::Each(_)) || !self.squares
    }

    /// The weights of all observations, node by node.
    fn shared_out(&self, weights: Option<&[f64]>) -> Vec<f64> {
        let (n, size) = (self.observations.len(), self.east.nodes * self.north.nodes);
        let part = n.div_ceil(parts(n, size)).max(1);
        let ranges = || (0..n.div_ceil(part)).into_par_iter().map(|p| p * part..((p + 1) * part).min(n));
        let weight = |i: usize| weights.map_or(1.0, |weights| weights.get(i).copied().unwrap_or(0.0));
        let mut all = if self.points() {
            let sums = ranges().map(|range| {
                let mut sums = vec![0.0; size];
                self.each_point(range, |i, index, x, y| {
                    let weight = weight(i);
                    for (k, y) in y.iter().enumerate() {
                        let wy = weight * y;
                        if let Some([a, b, c]) = sums.get_mut(index + k * self.east.nodes..).and_then(three) {
                            *a += wy * x[0];
                            *b += wy * x[1];
                            *c += wy * x[2];
                        }
                    }
                });
                sums
            });
            added_up(sums.collect(), size)
        } else {
            vec![0.0; size]
        };
        if self.squares {
            let sums = ranges().map(|range| {
                let mut sums = vec![0.0; size];
                self.each_corner(range, |i, index, share, x, y| {
                    let weight = weight(i) * share;
                    for (k, y) in y.iter().enumerate() {
                        let line = sums[index + k * self.east.nodes..].iter_mut();
                        line.zip(x).for_each(|(sum, x)| *sum += weight * y * x);
                    }
                });
                sums
            });
            let mut sums = added_up(sums.collect(), size);
            fill(&mut sums, self.east.nodes);
            all.iter_mut().zip(&sums).for_each(|(sum, more)| *sum += more);
        }
        all
    }

    /// Calls back with each point near the raster: its number, first node, and weights east and north.
    #[inline(always)]
    fn each_point(
        &self,
        range: std::ops::Range<usize>,
        mut to: impl FnMut(usize, usize, &[f64; 3], &[f64; 3]),
    ) {
        let o = &self.observations;
        let (across, up) = (1.0 / self.east.step, 1.0 / self.north.step);
        let (west, south) = (self.frame.west_m + self.east.start, self.frame.south_m + self.north.start);
        let (right, top) = (self.east.nodes as f64 - 2.0, self.north.nodes as f64 - 2.0);
        let least = LEAST_SIDE * self.east.step.min(self.north.step);
        let sides = match o.side_m {
            Sides::Alike(_) => None,
            Sides::Each(sides) => Some(&sides[range.start..range.end]),
        };
        let places = o.x_m[range.clone()].iter().zip(&o.y_m[range.clone()]);
        for (k, (x, y)) in places.enumerate() {
            let (u, v) = ((x - west) * across, (y - south) * up);
            let near = (u >= 1.0) & (u < right) & (v >= 1.0) & (v < top);
            if near && sides.is_none_or(|sides| sides[k] <= least) {
                let ((i, x), (j, y)) = (quadratic(u), quadratic(v));
                to(range.start + k, j * self.east.nodes + i, &x, &y);
            }
        }
    }

    /// Calls back with each corner of each square, its share of the square's weight (with its sign), and its
    /// weights east and north. Corners off the lattice are moved to its edge: what lies between is the same.
    fn each_corner(
        &self,
        range: std::ops::Range<usize>,
        mut to: impl FnMut(usize, usize, f64, &[f64; 4], &[f64; 4]),
    ) {
        let o = &self.observations;
        let least = LEAST_SIDE * self.east.step.min(self.north.step);
        for index in range {
            let side = o.side(index);
            if side <= least {
                continue;
            }
            let ends = |axis: &Axis, centre: f64| {
                let end = |place: f64| {
                    // Half a step on: see the head of the module.
                    let u = (place - axis.start) / axis.step + 0.5;
                    cubic(u.clamp(1.0, axis.nodes as f64 - 3.0))
                };
                [(1.0, end(centre - side / 2.0)), (-1.0, end(centre + side / 2.0))]
            };
            let share = self.east.step * self.north.step / (side * side);
            for (sign, (j, y)) in ends(&self.north, o.y_m[index] - self.frame.south_m) {
                for (other, (i, x)) in ends(&self.east, o.x_m[index] - self.frame.west_m) {
                    to(index, j * self.east.nodes + i, sign * other * share, &x, &y);
                }
            }
        }
    }

    /// `Σ_J Σ_K north(r, J) east(i, K) masses(J, K)` for every pixel: north first, then east, for eight rows
    /// at once, in the same order whatever the number of threads.
    fn smoothed(&self, masses: &[f64]) -> Vec<f64> {
        let (columns, rows, across) = (self.frame.columns, self.frame.rows, self.east.nodes);
        let (taps, up) = (self.east.taps, self.north.shown());
        let mut values = vec![0.0; columns * rows];
        values.par_chunks_mut((columns * TOGETHER).max(1)).enumerate().for_each_init(
            || (vec![[0.0; TOGETHER]; across], vec![[0.0; TOGETHER]; columns]),
            |(along, done), (block, lines)| {
                let row = block * TOGETHER;
                let together = TOGETHER.min(rows - row);
                along.fill([0.0; TOGETHER]);
                let last = self.north.first[row + together - 1] + self.north.taps;
                let by_row = |node: usize| -> [f64; TOGETHER] {
                    std::array::from_fn(|l| {
                        let k = node.wrapping_sub(self.north.first[(row + l).min(rows - 1)]);
                        let seen = l < together && k < self.north.taps;
                        if seen { up[(row + l) * self.north.taps + k] } else { 0.0 }
                    })
                };
                let mut node = self.north.first[row];
                while node < last {
                    // Two lattice rows at once, for fewer trips to memory.
                    let weights = [by_row(node), by_row(node + 1)];
                    let here = &masses[node * across..][..across];
                    let next = if node + 1 < last { &masses[(node + 1) * across..][..across] } else { here };
                    let second = if node + 1 < last { weights[1] } else { [0.0; TOGETHER] };
                    for ((sums, a), b) in along.iter_mut().zip(here).zip(next) {
                        for l in 0..TOGETHER {
                            sums[l] += weights[0][l] * a + second[l] * b;
                        }
                    }
                    node += 2;
                }
                for ((done, first), weights) in
                    done.iter_mut().zip(&self.east.first).zip(self.east.shown().chunks_exact(taps))
                {
                    let mut sums = [0.0; TOGETHER];
                    for (weight, along) in weights.iter().zip(&along[*first..]) {
                        for l in 0..TOGETHER {
                            sums[l] += weight * along[l];
                        }
                    }
                    *done = sums;
                }
                for (l, line) in lines.chunks_exact_mut(columns).enumerate() {
                    line.iter_mut().zip(done.iter()).for_each(|(value, done)| *value = done[l]);
                }
            },
        );
        values
    }

    /// How much of a node's Gaussian lies in the window: the same sums the other way round.
    fn seen(&self, window: &[f64]) -> Vec<f64> {
        let (columns, rows, across) = (self.frame.columns, self.frame.rows, self.east.nodes);
        let taps = self.east.taps;
        let mut along = vec![0.0; rows * across];
        along.par_chunks_mut(across * TOGETHER).enumerate().for_each_init(
            || vec![[0.0; TOGETHER]; across],
            |sums, (block, lines)| {
                let row = block * TOGETHER;
                let together = TOGETHER.min(rows - row);
                sums.fill([0.0; TOGETHER]);
                for ((i, first), weights) in
                    self.east.first.iter().enumerate().zip(self.east.means.chunks_exact(taps))
                {
                    let shares: [f64; TOGETHER] =
                        std::array::from_fn(
                            |l| {
                                if l < together { window[(row + l) * columns + i] } else { 0.0 }
                            },
                        );
                    if shares == [0.0; TOGETHER] {
                        continue;
                    }
                    for (weight, sums) in weights.iter().zip(&mut sums[*first..]) {
                        for l in 0..TOGETHER {
                            sums[l] += weight * shares[l];
                        }
                    }
                }
                for (l, line) in lines.chunks_exact_mut(across).enumerate() {
                    line.iter_mut().zip(sums.iter()).for_each(|(value, sums)| *value = sums[l]);
                }
            },
        );
        let area = self.frame.pixel_m * self.frame.pixel_m;
        let mut seen = vec![0.0; across * self.north.nodes];
        seen.par_chunks_mut(across).enumerate().for_each(|(node, sums)| {
            // Pixels see nodes in order, so those that see this one follow each other.
            let from = self.north.first.partition_point(|first| first + self.north.taps <= node);
            let to = self.north.first.partition_point(|first| *first <= node);
            for row in from..to {
                let weight = area * self.north.means[row * self.north.taps + node - self.north.first[row]];
                let line = &along[row * across..][..across];
                sums.iter_mut().zip(line).for_each(|(sum, value)| *sum += weight * value);
            }
        });
        seen
    }

    /// The share of each observation's kernel inside the window.
    pub fn shares_inside(&self, window: &[f64]) -> Vec<f64> {
        let seen = self.seen(window);
        let n = self.observations.len();
        let mut shares = vec![0.0; n];
        let part = n.div_ceil(parts(n, 1)).max(1);
        if self.points() {
            shares.par_chunks_mut(part).enumerate().for_each(|(p, shares)| {
                let start = p * part;
                self.each_point(start..start + shares.len(), |i, index, x, y| {
                    let line = |k: usize| {
                        let line = seen.get(index + k * self.east.nodes..).unwrap_or_default();
                        line.iter().zip(x).map(|(seen, x)| seen * x).sum::<f64>()
                    };
                    shares[i - start] = y[0] * line(0) + y[1] * line(1) + y[2] * line(2);
                });
            });
        }
        if self.squares {
            let mut sums = seen;
            // A corner stands for all that lies north-east of it.
            sums.reverse();
            fill(&mut sums, self.east.nodes);
            sums.reverse();
            shares.par_chunks_mut(part).enumerate().for_each(|(p, shares)| {
                let start = p * part;
                self.each_corner(start..start + shares.len(), |i, index, share, x, y| {
                    for (k, y) in y.iter().enumerate() {
                        let line = sums[index + k * self.east.nodes..].iter();
                        let sum: f64 = line.zip(x).map(|(sum, x)| sum * x).sum();
                        shares[i - start] += share * y * sum;
                    }
                });
            });
        }
        shares
    }

    /// The share inside the window of the kernel at each pixel's centre.
    pub fn masses_of_pixels(&self, window: &[f64]) -> Vec<f64> {
        let seen = self.seen(window);
        let middle = |axis: &Axis, i: usize| {
            quadratic(((i as f64 + 0.5) * self.frame.pixel_m - axis.start) / axis.step)
        };
        let east: Vec<_> = (0..self.frame.columns).map(|i| middle(&self.east, i)).collect();
        let mut masses = vec![0.0; self.frame.columns * self.frame.rows];
        let width = self.frame.columns.max(1);
        masses.par_chunks_mut(width).enumerate().for_each_init(
            || vec![0.0; self.east.nodes],
            |line, (row, masses)| {
                let (first, y) = middle(&self.north, row);
                let rows = seen[first * self.east.nodes..].chunks_exact(self.east.nodes);
                line.fill(0.0);
                for (y, row) in y.iter().zip(rows) {
                    line.iter_mut().zip(row).for_each(|(sum, seen)| *sum += y * seen);
                }
                for (mass, (first, x)) in masses.iter_mut().zip(&east) {
                    *mass = line[*first..].iter().zip(x).map(|(seen, x)| seen * x).sum();
                }
            },
        );
        masses
    }
}

/// The first three of a slice.
#[inline(always)]
fn three(slice: &mut [f64]) -> Option<&mut [f64; 3]> {
    slice.first_chunk_mut()
}

/// Sums along rows, then along columns.
fn fill(values: &mut [f64], width: usize) {
    values.par_chunks_mut(width).for_each(|line| {
        let mut sum = 0.0;
        for value in line {
            sum += *value;
            *value = sum;
        }
    });
    for row in 1..values.len() / width {
        let (below, line) = values.split_at_mut(row * width);
        let below = &below[(row - 1) * width..];
        line.iter_mut().zip(below).for_each(|(value, below)| *value += below);
    }
}

/// The parts of a sum added up in their order.
pub(super) fn added_up(parts: Vec<Vec<f64>>, size: usize) -> Vec<f64> {
    let mut parts = parts.into_iter();
    let mut all = parts.next().unwrap_or_else(|| vec![0.0; size]);
    for part in parts {
        all.iter_mut().zip(&part).for_each(|(sum, more)| *sum += more);
    }
    all
}
