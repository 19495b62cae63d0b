//! The attack of the straddling scatter, run on each release before it is written.
//!
//! Many finds of one tight scatter, split over the edges of squares, tell its centre to far less than a square: how
//! many fall on either side of an edge says how near to the edge the middle lies. Here the thief's sum is done: for
//! every four squares about a corner that hold most of what lies around them, the counts of the sixteen squares
//! about the corner are a round normal scatter of unknown centre and spread, and a thin even scatter. The smallest
//! ground that holds the centre with 95% of its posterior weight is what he would dig.

use std::collections::BTreeMap;

use crate::coordinates::Cell;
use crate::study::Agreement;
use crate::study::vocabulary::{Class, Period};

use super::{Release, ReleasedPlace};

/// A scatter whose centre a release tells to less ground than was agreed.
#[derive(Debug, Clone, PartialEq)]
pub struct Betrayed {
    /// The squares it lies across, the fullest first.
    pub cells: Vec<Cell>,
    /// Pieces in them.
    pub pieces: u64,
    /// The ground that a thief would look in, hectares.
    pub hectares: f64,
}

/// What is looked at together.
#[derive(PartialEq, Eq, PartialOrd, Ord)]
enum Line {
    All,
    Class(Class),
    Period(Period),
}

/// Fewer pieces than this tell no centre.
const FEWEST: u64 = 20;
/// Four squares hold one scatter when they hold this share of the sixteen about them.
const SHARE: f64 = 0.6;
/// Centres tried along a side of the four squares.
const STEPS: usize = 40;
/// Spreads tried, as shares of the squares' side.
const SPREADS: [f64; 10] = [0.02, 0.035, 0.05, 0.075, 0.1, 0.15, 0.2, 0.3, 0.45, 0.7];
/// Shares of the pieces that lie evenly about.
const EVEN: [f64; 5] = [0.0, 0.05, 0.15, 0.3, 0.5];
/// Posterior weight of the ground that is looked in.
const WEIGHT: f64 = 0.95;

impl Release {
    /// The scatters that this release betrays, the smallest ground first.
    pub fn betrayed(&self, agreement: &Agreement) -> Vec<Betrayed> {
        if !agreement.protects_ground() {
            return Vec::new();
        }
        // All finds together, and those of each class and each period that are told: a thief looks at each.
        let mut lines: BTreeMap<(Line, u32), BTreeMap<(i32, i32), u64>> = BTreeMap::new();
        for find in self.finds.iter().filter(|find| !find.out_of_place) {
            let ReleasedPlace::Cell(cell) = find.place else { continue };
            let told = [Some(Line::All), find.class.map(Line::Class), find.period.map(Line::Period)];
            for line in told.into_iter().flatten() {
                let cells = lines.entry((line, cell.side_m)).or_default();
                *cells.entry((cell.column, cell.row)).or_default() += u64::from(find.count);
            }
        }
        let mut betrayed: Vec<Betrayed> = Vec::new();
        for ((_, side_m), cells) in &lines {
            // Each corner of the squares that hold anything, once: named by the square south-west of it.
            let corners: std::collections::BTreeSet<(i32, i32)> = cells
                .keys()
                .flat_map(|(column, row)| {
                    [(0, 0), (1, 0), (0, 1), (1, 1)].map(|(west, south)| (column - west, row - south))
                })
                .collect();
            for corner in corners {
                betrayed.extend(about(corner, *side_m, cells, agreement.smallest_area_m2));
            }
        }
        betrayed.sort_by(|a, b| a.hectares.total_cmp(&b.hectares).then_with(|| a.cells.cmp(&b.cells)));
        // One scatter is met at several corners, and in several classes: the one that tells most of it stands for
        // them.
        let mut kept: Vec<Betrayed> = Vec::new();
        for one in betrayed {
            let told = |other: &Betrayed| {
                let first = other.cells.first() == one.cells.first();
                first || one.cells.iter().all(|cell| other.cells.contains(cell))
            };
            if !kept.iter().any(told) {
                kept.push(one);
            }
        }
        kept
    }
}

/// The scatter about one corner, where it is told to less than `smallest_m2`.
fn about(
    (column, row): (i32, i32),
    side_m: u32,
    cells: &BTreeMap<(i32, i32), u64>,
    smallest_m2: f64,
) -> Option<Betrayed> {
    let count = |across: i32, up: i32| cells.get(&(column + across, row + up)).copied().unwrap_or(0);
    let mut counts = [[0_u64; 4]; 4];
    for (up, line) in (-1..3).zip(&mut counts) {
        for (across, held) in (-1..3).zip(line.iter_mut()) {
            *held = count(across, up);
        }
    }
    let all: u64 = counts.iter().flatten().sum();
    let inner: u64 =
        [(1, 1), (1, 2), (2, 1), (2, 2)].iter().map(|(y, x): &(usize, usize)| counts[*y][*x]).sum();
    let several = [(0, 0), (1, 0), (0, 1), (1, 1)].iter().filter(|(x, y)| count(*x, *y) > 0).count() > 1;
    if inner < FEWEST || !several || (inner as f64) < SHARE * all as f64 {
        return None;
    }
    let side = f64::from(side_m);
    let weights = posterior(&counts);
    // The smallest ground with so much of the weight, on the lattice of centres.
    let mut sorted = weights;
    sorted.sort_by(|a, b| b.total_cmp(a));
    let mut sum = 0.0;
    let held = sorted.iter().take_while(|weight| {
        let more = sum < WEIGHT;
        sum += **weight;
        more
    });
    let area_m2 = held.count() as f64 * (2.0 * side / STEPS as f64).powi(2);
    if area_m2 >= smallest_m2 {
        return None;
    }
    let mut holding: Vec<Cell> = [(0, 0), (1, 0), (0, 1), (1, 1)]
        .iter()
        .filter(|(x, y)| count(*x, *y) > 0)
        .map(|(x, y)| Cell { side_m, column: column + x, row: row + y })
        .collect();
    holding.sort_by_key(|cell| (std::cmp::Reverse(count(cell.column - column, cell.row - row)), *cell));
    Some(Betrayed { cells: holding, pieces: inner, hectares: area_m2 / 1e4 })
}

/// The posterior weight of each centre over the four inner squares, row by row: an even prior of centre, spread and
/// share that lies evenly, the counts multinomial over the sixteen squares.
fn posterior(counts: &[[u64; 4]; 4]) -> Vec<f64> {
    let centre = |step: usize| 1.0 + 2.0 * (step as f64 + 0.5) / STEPS as f64;
    let mut logs = vec![f64::NEG_INFINITY; STEPS * STEPS];
    for spread in SPREADS {
        // What of a normal scatter falls into each of four squares in a line, for each centre.
        let lines: Vec<[f64; 4]> = (0..STEPS)
            .map(|step| {
                let below =
                    |edge: f64| libm::erf((edge - centre(step)) / (spread * std::f64::consts::SQRT_2));
                let mut line = [0.0; 4];
                for (edge, part) in (0..4).zip(line.iter_mut()) {
                    *part = (below(f64::from(edge) + 1.0) - below(f64::from(edge))) / 2.0;
                }
                line
            })
            .collect();
        for (y, down) in lines.iter().enumerate() {
            for (x, across) in lines.iter().enumerate() {
                let Some(log) = logs.get_mut(y * STEPS + x) else { continue };
                for even in EVEN {
                    let mut sum = 0.0;
                    for (line, held) in down.iter().zip(counts) {
                        for (part, held) in across.iter().zip(held) {
                            if *held > 0 {
                                // Never quite nothing: a stray find far off rules no centre out.
                                let share = (1.0 - even) * line * part + even / 16.0 + 1e-6;
                                sum += *held as f64 * share.ln();
                            }
                        }
                    }
                    // log(e^a + e^b), without losing either.
                    let (high, low) = if *log > sum { (*log, sum) } else { (sum, *log) };
                    *log = high + (low - high).exp().ln_1p();
                }
            }
        }
    }
    let most = logs.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let weights: Vec<f64> = logs.iter().map(|log| (log - most).exp()).collect();
    let total: f64 = weights.iter().sum();
    weights.into_iter().map(|weight| weight / total).collect()
}
