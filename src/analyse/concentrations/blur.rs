//! The density by squares for any weights on any squares, at the bandwidth of the surface: what envelopes and
//! resamples ask for thousands of times.
//!
//! The same estimate as the surface (the kernel of a square is a product of a function east and one north),
//! worked out as means over whole squares. A square's ground counts as spread evenly over it.

use std::collections::BTreeMap;

use super::field::{Field, Lattice};
use crate::analyse::kde::{Edge, Kernel, REACH_SD, mean_over};
use crate::coordinates::Cell;

/// Squares of one side that may hold finds, and what a piece in each does.
struct Block {
    lattice: Lattice,
    /// For each column, and each row: the first line of the field that its kernel reaches, and the mean
    /// density per metre over that line and those after it.
    east: Vec<Profile>,
    north: Vec<Profile>,
    /// For each square, the share of its kernel that falls inside the window.
    inside: Vec<f64>,
}

type Profile = (usize, Vec<f64>);

/// A square with less of its kernel inside than this adds nothing.
const LEAST_INSIDE: f64 = 1e-9;

/// Ready for any weights.
pub(super) struct Blur {
    lattice: Lattice,
    ground_ha: Vec<f64>,
    blocks: BTreeMap<u32, Block>,
    /// What each square's density is multiplied by where there is ground: 1, or what an even edge correction
    /// asks for; else 0.
    factors: Vec<f64>,
}

/// Weights by square, for each side.
pub(super) type Weights = BTreeMap<u32, Vec<f64>>;

impl Blur {
    /// For squares of these sides over a field's lattice, with the surface's kernel and edge correction.
    pub fn new(field: &Field, sides: impl Iterator<Item = u32>, kernel: Kernel, edge: Edge) -> Self {
        let (lattice, ground_ha) = (field.lattice, field.ground_ha.clone());
        let keep = edge == Edge::Diggle;
        let mut factors: Vec<f64> = ground_ha.iter().map(|ha| f64::from(u8::from(*ha > 0.0))).collect();
        if edge == Edge::Uniform {
            let own = Block::new(&lattice, &ground_ha, lattice.side_m, kernel, true);
            for (factor, inside) in factors.iter_mut().zip(own.inside) {
                *factor = if inside > LEAST_INSIDE { *factor / inside } else { 0.0 };
            }
        }
        let mut blocks = BTreeMap::new();
        for side in sides {
            let side = side.max(lattice.side_m);
            blocks.entry(side).or_insert_with(|| Block::new(&lattice, &ground_ha, side, kernel, keep));
        }
        Self { lattice, ground_ha, blocks, factors }
    }

    /// The lattices of the squares that may hold finds, by side.
    pub fn lattices(&self) -> impl Iterator<Item = (u32, &Lattice)> {
        self.blocks.iter().map(|(side, block)| (*side, &block.lattice))
    }

    /// Where a find's square stands: its side and its place in that side's lattice. Squares smaller than the
    /// field's own count as one of those.
    pub fn place(&self, cell: Cell) -> Option<(u32, usize)> {
        let side = cell.side_m.max(self.lattice.side_m);
        let lattice = self.blocks.get(&side)?.lattice;
        Some((side, if cell.side_m == side { lattice.index(cell) } else { lattice.holding(cell) }?))
    }

    /// No weight anywhere.
    pub fn nothing(&self) -> Weights {
        self.lattices().map(|(side, lattice)| (side, vec![0.0; lattice.len()])).collect()
    }

    /// Pieces per hectare of ground.
    pub fn density(&self, weights: &Weights) -> Vec<f64> {
        let mut density = vec![0.0; self.lattice.len()];
        for (side, block) in &self.blocks {
            if let Some(weights) = weights.get(side) {
                block.add(&self.lattice, weights, 1, &mut density);
            }
        }
        self.on_ground(density, 1)
    }

    /// The sum over squares of one side of weight times the square of what one piece there gives.
    pub fn squared(&self, side: u32, weights: &[f64]) -> Vec<f64> {
        let mut sum = vec![0.0; self.lattice.len()];
        if let Some(block) = self.blocks.get(&side) {
            block.add(&self.lattice, weights, 2, &mut sum);
        }
        self.on_ground(sum, 2)
    }

    /// From a power of pieces per square metre to that of pieces per hectare of ground.
    fn on_ground(&self, mut values: Vec<f64>, power: i32) -> Vec<f64> {
        for (value, factor) in values.iter_mut().zip(&self.factors) {
            *value *= (factor * 1e4).powi(power);
        }
        values
    }

    /// The field of some weights.
    pub fn field(&self, weights: &Weights) -> Field {
        Field { lattice: self.lattice, density: self.density(weights), ground_ha: self.ground_ha.clone() }
    }
}

impl Block {
    fn new(field: &Lattice, ground_ha: &[f64], side_m: u32, kernel: Kernel, keep: bool) -> Self {
        let frame = field.frame();
        let across = |start: f64, count: usize| start + count as f64 * frame.pixel_m;
        let (east_m, north_m) = (across(frame.west_m, frame.columns), across(frame.south_m, frame.rows));
        let lattice = Lattice::over(side_m, frame.west_m, frame.south_m, east_m, north_m);
        let lines = |first: i32, count: usize, start: f64, lines: usize, h: f64| -> Vec<Profile> {
            let line = |at: usize| {
                let low = (f64::from(first) + at as f64) * f64::from(side_m) - start;
                profile(low, f64::from(side_m), frame.pixel_m, lines, h)
            };
            (0..count).map(line).collect()
        };
        let east = lines(lattice.west, lattice.columns, frame.west_m, frame.columns, kernel.east_m);
        let north = lines(lattice.south, lattice.rows, frame.south_m, frame.rows, kernel.north_m);
        let mut block = Self { lattice, east, north, inside: vec![1.0; lattice.len()] };
        if keep {
            block.inside = block.shares_inside(field, ground_ha);
        }
        block
    }

    /// How much of each square's kernel falls inside the window.
    fn shares_inside(&self, field: &Lattice, ground_ha: &[f64]) -> Vec<f64> {
        let square_m2 = f64::from(field.side_m).powi(2);
        let share = |at: usize| ground_ha[at] / field.hectares();
        let mut inside = Vec::with_capacity(self.lattice.len());
        // The window under each column's kernel, row by row.
        let under: Vec<Vec<f64>> = self
            .east
            .iter()
            .map(|(from, x)| {
                let line = |row: usize| {
                    x.iter().enumerate().map(|(i, x)| x * share(row * field.columns + from + i)).sum()
                };
                (0..field.rows).map(line).collect()
            })
            .collect();
        for (from, y) in &self.north {
            for under in &under {
                inside.push(square_m2 * y.iter().zip(&under[*from..]).map(|(y, u)| y * u).sum::<f64>());
            }
        }
        inside
    }

    /// Adds up `weight × (kernel / share inside)` to a power, before units.
    fn add(&self, field: &Lattice, weights: &[f64], power: i32, sum: &mut [f64]) {
        let mut along = vec![0.0; field.rows];
        for (column, (from_x, x)) in self.east.iter().enumerate() {
            along.fill(0.0);
            let (mut low, mut high) = (field.rows, 0);
            for (row, (from, y)) in self.north.iter().enumerate() {
                let at = row * self.lattice.columns + column;
                if weights[at] == 0.0 || self.inside[at] < LEAST_INSIDE {
                    continue;
                }
                let weight = weights[at] / self.inside[at].powi(power);
                (low, high) = (low.min(*from), high.max(from + y.len()));
                for (sum, y) in along[*from..].iter_mut().zip(y) {
                    *sum += weight * y.powi(power);
                }
            }
            for row in low..high {
                let line = &mut sum[row * field.columns + from_x..];
                for (sum, x) in line.iter_mut().zip(x) {
                    *sum += along[row] * x.powi(power);
                }
            }
        }
    }
}

/// The kernel of the interval `[low, low + side]` along `count` lines of `step` metres from 0.
fn profile(low: f64, side: f64, step: f64, count: usize, h: f64) -> Profile {
    let at = |metres: f64| (metres / step).clamp(0.0, count as f64);
    let from = at(low - REACH_SD * h).floor() as usize;
    let to = at(low + side + REACH_SD * h).ceil() as usize;
    let mean = |i: usize| mean_over(i as f64 * step, (i + 1) as f64 * step, low, low + side, h);
    (from, (from..to).map(mean).collect())
}

#[cfg(test)]
mod tests {
    use super::{Blur, Cell, Edge, Field, Kernel, Lattice};

    fn field(columns: usize, rows: usize, ground: impl Fn(usize) -> f64) -> Field {
        let lattice = Lattice { side_m: 100, west: 50, south: 70, columns, rows };
        let ground_ha: Vec<f64> = (0..lattice.len()).map(ground).collect();
        Field { lattice, density: vec![0.0; lattice.len()], ground_ha }
    }

    #[test]
    fn weight_is_kept_inside_the_window() {
        let window = field(20, 14, |at| if at % 7 == 3 { 0.0 } else { 0.25 + (at % 4) as f64 / 5.0 });
        let blur = Blur::new(&window, [100, 500].into_iter(), Kernel::round(130.0), Edge::Diggle);
        let mut weights = blur.nothing();
        for (cell, pieces) in [((100, 55, 75), 3.0), ((100, 50, 70), 300.0), ((500, 12, 15), 7.0)] {
            let (side_m, column, row) = cell;
            let (side, at) = blur.place(Cell { side_m, column, row }).unwrap();
            weights.get_mut(&side).unwrap()[at] += pieces;
        }
        let made = blur.field(&weights);
        let sum: f64 = (0..made.lattice.len()).map(|at| made.mass(at)).sum();
        assert!((sum - 310.0).abs() < 1e-9, "{sum}");
        assert!(made.density.iter().zip(&made.ground_ha).all(|(d, g)| *g > 0.0 || *d == 0.0));
    }

    #[test]
    fn squares_of_the_kernel_by_one_piece_at_a_time() {
        let window = field(9, 8, |at| if at == 20 { 0.0 } else { 0.5 });
        for (edge, side) in
            [(Edge::None, 100), (Edge::Diggle, 300), (Edge::Uniform, 100), (Edge::Uniform, 300)]
        {
            let kernel = Kernel::along_axes(90.0, 70.0);
            let blur = Blur::new(&window, [100, 300].into_iter(), kernel, edge);
            let lattice = blur.lattices().find(|(s, _)| *s == side).unwrap().1;
            let weights: Vec<f64> = (0..lattice.len()).map(|at| 0.1 + (at % 5) as f64).collect();
            let fast = blur.squared(side, &weights);
            let mut slow = vec![0.0; fast.len()];
            for (at, weight) in weights.iter().enumerate() {
                let mut one = blur.nothing();
                one.get_mut(&side).unwrap()[at] = 1.0;
                for (sum, density) in slow.iter_mut().zip(blur.density(&one)) {
                    *sum += weight * density * density;
                }
            }
            assert!(fast.iter().zip(&slow).all(|(a, b)| (a - b).abs() <= 1e-12 * b.max(1e-6)), "{side}");
        }
    }

    #[test]
    fn even_ground_comes_out_even_by_the_even_correction() {
        // A piece on every square in proportion to its ground.
        let window = field(15, 12, |at| if at % 5 == 2 { 0.0 } else { 0.3 + (at % 7) as f64 / 10.0 });
        let blur = Blur::new(&window, [100].into_iter(), Kernel::round(140.0), Edge::Uniform);
        let weights = [(100, window.ground_ha.clone())].into();
        for (density, ground) in blur.density(&weights).into_iter().zip(&window.ground_ha) {
            assert!((density - f64::from(u8::from(*ground > 0.0))).abs() < 1e-12, "{density}");
        }
    }
}
