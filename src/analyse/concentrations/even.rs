//! Even scatter: where each record could as well lie, if finds lay evenly over the ground.

use std::collections::BTreeMap;

use rand::Rng;
use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::SeedableRng;

use super::blur::{Blur, Weights};
use super::field::Lattice;
use crate::analyse::Surface;
use crate::analyse::spots::wanted;
use crate::coordinates::Cell;
use crate::exact::{Published, ReleasedFind, ReleasedPlace};
use crate::fault::{Fault, Result};
use crate::ground::Ground;
use crate::ground::cover::shares;
use crate::study::PublicStudy;

/// One row of the register that the surface is made from: its square and its pieces.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Record {
    pub cell: Cell,
    pub pieces: u32,
}

/// The records that a surface holds, in order of what is told of them.
pub(super) fn records<'p>(
    published: &'p Published,
    study: &PublicStudy,
    surface: &Surface,
) -> Vec<(Record, &'p ReleasedFind)> {
    let wanted = wanted(published, study);
    let held = published.finds().iter().filter(|find| find.count > 0 && wanted(find));
    held.filter_map(|find| match find.place {
        ReleasedPlace::Cell(cell) if surface.made.cells.contains(&cell) => {
            Some((Record { cell, pieces: find.count }, find))
        }
        _ => None,
    })
    .collect()
}

/// The ground over which an even scatter falls.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Over {
    /// Public walked ground, by its cover where that is known.
    Walked,
    /// Land.
    Land,
}

/// Hectares over which finds may fall in each square of a lattice: walked ground where there is a public
/// layer of it (each hectare by the share that was looked at), else land. A square that holds finds and has
/// none of it is ground all the same: finds come from there.
pub(super) fn evenly_over(
    lattice: &Lattice,
    ground: &Ground,
    records: &[Record],
) -> Result<(Over, Vec<f64>)> {
    let frame = lattice.frame();
    let mut hectares = vec![0.0; lattice.len()];
    let mut add = |shares: Vec<f64>, cover: f64| {
        for (sum, share) in hectares.iter_mut().zip(shares) {
            *sum += share * cover * lattice.hectares();
        }
    };
    let over = if !ground.walked.is_empty() {
        for walked in &ground.walked {
            add(shares(&walked.shape, &frame), walked.cover.unwrap_or(1.0).clamp(0.0, 1.0));
        }
        Over::Walked
    } else if !ground.land.0.is_empty() {
        add(shares(&ground.land, &frame), 1.0);
        Over::Land
    } else {
        return Err(Fault::new("analyse-no-ground-for-envelope"));
    };
    for hectares in &mut hectares {
        // Ground that was walked twice is looked at once.
        *hectares = hectares.min(lattice.hectares());
    }
    for record in records {
        let within = squares_in(lattice, record.cell);
        if within.iter().all(|at| hectares[*at] <= 0.0) {
            within.into_iter().for_each(|at| hectares[at] = lattice.hectares());
        }
    }
    Ok((over, hectares))
}

/// The squares of a lattice whose centre lies in a cell, or the one that the cell lies in.
fn squares_in(lattice: &Lattice, cell: Cell) -> Vec<usize> {
    if cell.side_m <= lattice.side_m {
        return lattice.holding(cell).into_iter().collect();
    }
    let inside = Lattice::over(lattice.side_m, cell.west_m(), cell.south_m(), cell.east_m(), cell.north_m());
    let centred = |at: &usize| {
        let centre = inside.cell(*at).rect().center();
        Cell::holding(centre.x, centre.y, cell.side_m) == Some(cell)
    };
    (0..inside.len()).filter(centred).filter_map(|at| lattice.index(inside.cell(at))).collect()
}

/// Where records of one side may fall.
struct Choice {
    side: u32,
    /// Running sums of ground over the squares of the side.
    sums: Vec<f64>,
    /// The pieces of each record of the side, in order.
    pieces: Vec<f64>,
}

/// Scatters the records evenly, again and again.
pub(super) struct Scatter {
    choices: Vec<Choice>,
    seed: u64,
}

impl Scatter {
    /// A record falls in a square of its own side, each as likely as it has ground: a finder's square of
    /// another side stays of that side, and a bag of 300 pieces falls as one.
    pub fn new(blur: &Blur, lattice: &Lattice, hectares: &[f64], records: &[Record], seed: u64) -> Self {
        let mut pieces: BTreeMap<u32, Vec<u32>> = BTreeMap::new();
        for record in records {
            pieces.entry(record.cell.side_m.max(lattice.side_m)).or_default().push(record.pieces);
        }
        let mut choices = Vec::new();
        for (side, squares) in blur.lattices() {
            let Some(mut pieces) = pieces.remove(&side) else { continue };
            // The order of rows tells nothing.
            pieces.sort_unstable();
            let mut ground = vec![0.0; squares.len()];
            for (at, hectares) in hectares.iter().enumerate() {
                if let Some(square) = squares.holding(lattice.cell(at)) {
                    ground[square] += hectares;
                }
            }
            let mut sum = 0.0;
            let sums = ground.iter().map(|hectares| {
                sum += hectares;
                sum
            });
            choices.push(Choice {
                side,
                sums: sums.collect(),
                pieces: pieces.into_iter().map(f64::from).collect(),
            });
        }
        Self { choices, seed }
    }

    /// The weights of one scatter. Each has a stream of random numbers of its own, so that it is the same
    /// whichever thread makes it.
    pub fn throw(&self, number: u64, weights: &mut Weights) {
        let mut random = ChaCha8Rng::seed_from_u64(self.seed);
        random.set_stream(number);
        for choice in &self.choices {
            let Some(weights) = weights.get_mut(&choice.side) else { continue };
            weights.fill(0.0);
            let all = choice.sums.last().copied().unwrap_or(0.0);
            for pieces in &choice.pieces {
                let at = random.random::<f64>() * all;
                let square = choice.sums.partition_point(|sum| *sum <= at);
                if let Some(weight) = weights.get_mut(square) {
                    *weight += pieces;
                }
            }
        }
    }

    /// Mean and variance of the density in every square under even scatter, in closed form: places are
    /// chosen one by one alike, so that means add up, and variances of record by record.
    pub fn moments(&self, blur: &Blur) -> (Vec<f64>, Vec<f64>) {
        let (mut mean, mut variance) = (Vec::new(), Vec::new());
        for choice in &self.choices {
            let all = choice.sums.last().copied().unwrap_or(0.0);
            let mut before = 0.0;
            let chance: Vec<f64> = choice
                .sums
                .iter()
                .map(|sum| {
                    let share = (sum - before) / all;
                    before = *sum;
                    share
                })
                .collect();
            let second = blur.squared(choice.side, &chance);
            let mut alone = blur.nothing();
            alone.insert(choice.side, chance);
            let first = blur.density(&alone);
            mean.resize(first.len(), 0.0);
            variance.resize(first.len(), 0.0);
            let pieces: f64 = choice.pieces.iter().sum();
            let squares: f64 = choice.pieces.iter().map(|pieces| pieces * pieces).sum();
            for at in 0..first.len() {
                mean[at] += pieces * first[at];
                variance[at] += squares * (second[at] - first[at] * first[at]).max(0.0);
            }
        }
        (mean, variance)
    }
}

#[cfg(test)]
mod tests {
    use super::{Blur, Cell, Lattice, Record, Scatter};
    use crate::analyse::concentrations::field::Field;
    use crate::analyse::kde::{Edge, Kernel};

    #[test]
    fn moments_agree_with_many_throws() {
        let lattice = Lattice { side_m: 100, west: 0, south: 0, columns: 10, rows: 8 };
        let ground: Vec<f64> = (0..80).map(|at| [1.0, 0.4, 0.0][at % 3]).collect();
        let field = Field { lattice, density: vec![0.0; 80], ground_ha: ground.clone() };
        let blur = Blur::new(&field, [100, 500].into_iter(), Kernel::round(110.0), Edge::Diggle);
        let of = |side_m, pieces| Record { cell: Cell { side_m, column: 0, row: 0 }, pieces };
        let records = [of(100, 1), of(100, 9), of(100, 2), of(500, 4)];
        let scatter = Scatter::new(&blur, &lattice, &ground, &records, 7);
        let (mean, variance) = scatter.moments(&blur);
        let (mut sum, mut squares) = (vec![0.0; 80], vec![0.0; 80]);
        let mut weights = blur.nothing();
        let n = 20_000;
        for number in 0..n {
            scatter.throw(number, &mut weights);
            assert_eq!(weights.values().flatten().sum::<f64>(), 16.0);
            for (at, density) in blur.density(&weights).into_iter().enumerate() {
                sum[at] += density;
                squares[at] += density * density;
            }
        }
        for at in (0..80).filter(|at| ground[*at] > 0.0) {
            let m = sum[at] / n as f64;
            let v = squares[at] / n as f64 - m * m;
            assert!((m - mean[at]).abs() < 5.0 * (variance[at] / n as f64).sqrt(), "{at}: {m} {}", mean[at]);
            assert!((v / variance[at] - 1.0).abs() < 0.15, "{at}: {v} {}", variance[at]);
        }
    }
}
