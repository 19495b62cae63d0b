//! The Monte Carlo envelope: where finds lie thicker than an even scatter would put them by chance.
//!
//! Each simulated scatter is smoothed like the finds. A square is judged by itself (pointwise), or by the
//! greatest excess of each scatter over all squares (global), an excess being counted in standard deviations
//! of its own square so that squares near an edge and far from it count alike: the studentised maximum of
//! Myllymäki, Mrkvička, Grabarnik, Seijo and Hahn 2017, Journal of the Royal Statistical Society B 79:
//! 381–404. Means and deviations are those of the even scatter itself, in closed form, so the finds and the
//! simulations are alike in every way and the test is exact (Besag and Diggle 1977, Applied Statistics 26:
//! 327–333): p = (1 + b) / (1 + N), b of N simulations reaching as far as the finds.

use rayon::prelude::*;

use super::blur::{Blur, Weights};
use super::even::Scatter;

/// What the simulations say.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Envelope {
    /// For each square, p by itself; 1 where no finds may fall.
    pub pointwise: Vec<f64>,
    /// For each square, p against the greatest excess anywhere; 1 where no finds may fall.
    pub global: Vec<f64>,
    /// For each square, the density above which it stands out.
    pub limit: Vec<f64>,
}

impl Envelope {
    /// Judges the density of `observed` weights where `hectares` says that finds may fall. `at_once`:
    /// whether the limit is that over all squares at once.
    pub fn new(
        blur: &Blur,
        scatter: &Scatter,
        observed: &Weights,
        hectares: &[f64],
        simulations: u32,
        level: f64,
        at_once: bool,
    ) -> Self {
        let (mean, variance) = scatter.moments(blur);
        let spread: Vec<f64> = variance.iter().map(|v| v.sqrt()).collect();
        let most = spread.iter().copied().fold(0.0, f64::max);
        let judged: Vec<usize> =
            (0..hectares.len()).filter(|at| hectares[*at] > 0.0 && spread[*at] > 1e-9 * most).collect();
        let excess = |density: &[f64], at: usize| (density[at] - mean[at]) / spread[at];
        let seen = blur.density(observed);

        // Of each scatter: its greatest excess, and where it reaches as far as the finds. Counts are whole
        // numbers, which add up to the same in any order.
        let (mut greatest, reaching) = (0..simulations)
            .into_par_iter()
            .fold(
                || (Vec::new(), vec![0u32; judged.len()], blur.nothing()),
                |(mut greatest, mut reaching, mut weights), number| {
                    scatter.throw(u64::from(number) + 1, &mut weights);
                    let density = blur.density(&weights);
                    let mut top = f64::NEG_INFINITY;
                    for (count, at) in reaching.iter_mut().zip(&judged) {
                        *count += u32::from(reaches(density[*at], seen[*at]));
                        top = top.max(excess(&density, *at));
                    }
                    greatest.push(top);
                    (greatest, reaching, weights)
                },
            )
            .map(|(greatest, reaching, _)| (greatest, reaching))
            .reduce(
                || (Vec::new(), vec![0; judged.len()]),
                |(mut a, mut counts), (b, more)| {
                    a.extend(b);
                    counts.iter_mut().zip(more).for_each(|(sum, n)| *sum += n);
                    (a, counts)
                },
            );
        greatest.sort_by(f64::total_cmp);

        let p = |reaching: usize| (1 + reaching) as f64 / f64::from(1 + simulations);
        let mut envelope = Self {
            pointwise: vec![1.0; seen.len()],
            global: vec![1.0; seen.len()],
            limit: vec![f64::INFINITY; seen.len()],
        };
        for (at, count) in judged.iter().copied().zip(reaching) {
            envelope.pointwise[at] = p(count as usize);
            let mine = excess(&seen, at);
            let below = greatest.partition_point(|top| !reaches(*top, mine));
            envelope.global[at] = p(greatest.len() - below);
        }
        // The most simulations that may reach the finds: (1 + b) / (1 + N) is still at the level.
        let may = (level * f64::from(1 + simulations) + 1e-9).floor() as usize;
        let limits = if at_once {
            let top = greatest.len().checked_sub(may).and_then(|at| greatest.get(at)).copied();
            judged.iter().map(|at| mean[*at] + top.unwrap_or(f64::INFINITY) * spread[*at]).collect()
        } else {
            pointwise_limits(blur, scatter, &judged, simulations, may)
        };
        for (at, limit) in judged.into_iter().zip(limits) {
            envelope.limit[at] = limit;
        }
        envelope
    }

    /// The least p over all squares at once: that of the whole scatter.
    pub fn p(&self) -> f64 {
        self.global.iter().copied().fold(1.0, f64::min)
    }
}

/// Whether a value reaches another, but for rounding.
fn reaches(value: f64, other: f64) -> bool {
    value >= other - 1e-9 * other.abs()
}

/// For each square, the `may`-th greatest density of the simulations. They are made again, a few squares'
/// worth of memory at a time.
fn pointwise_limits(
    blur: &Blur,
    scatter: &Scatter,
    judged: &[usize],
    simulations: u32,
    may: usize,
) -> Vec<f64> {
    // Only the greatest `may` of each square are kept.
    let kept = (0..simulations)
        .into_par_iter()
        .fold(
            || (vec![Vec::new(); judged.len()], blur.nothing()),
            |(mut kept, mut weights): (Vec<Vec<f64>>, Weights), number| {
                scatter.throw(u64::from(number) + 1, &mut weights);
                let density = blur.density(&weights);
                for (top, at) in kept.iter_mut().zip(judged) {
                    keep(top, density[*at], may);
                }
                (kept, weights)
            },
        )
        .map(|(kept, _)| kept)
        .reduce(
            || vec![Vec::new(); judged.len()],
            |mut a, b| {
                for (top, more) in a.iter_mut().zip(b) {
                    more.into_iter().for_each(|value| keep(top, value, may));
                }
                a
            },
        );
    kept.into_iter().map(|top| top.last().copied().unwrap_or(f64::INFINITY)).collect()
}

/// Keeps the greatest `most` values, greatest first.
fn keep(top: &mut Vec<f64>, value: f64, most: usize) {
    let at = top.partition_point(|other| *other >= value);
    if at < most {
        top.insert(at, value);
        top.truncate(most);
    }
}

#[cfg(test)]
mod tests {
    use super::{Blur, Envelope, Scatter};
    use crate::analyse::concentrations::even::Record;
    use crate::analyse::concentrations::field::{Field, Lattice};
    use crate::analyse::kde::{Edge, Kernel};
    use crate::coordinates::Cell;

    /// One simulation after another, as the definitions say it.
    #[test]
    fn p_agrees_with_counting_one_by_one() {
        let lattice = Lattice { side_m: 100, west: 0, south: 0, columns: 8, rows: 7 };
        let ground: Vec<f64> =
            (0..56).map(|at| if at % 9 == 4 { 0.0 } else { 0.2 + (at % 3) as f64 / 3.0 }).collect();
        let field = Field { lattice, density: vec![0.0; 56], ground_ha: ground.clone() };
        let blur = Blur::new(&field, [100].into_iter(), Kernel::round(80.0), Edge::Diggle);
        let records: Vec<Record> = [(1, 1, 3), (1, 1, 2), (2, 1, 4), (6, 5, 1), (3, 3, 1), (0, 6, 1)]
            .map(|(column, row, pieces)| Record { cell: Cell { side_m: 100, column, row }, pieces })
            .into();
        let scatter = Scatter::new(&blur, &lattice, &ground, &records, 11);
        let mut observed = blur.nothing();
        for record in &records {
            let (side, at) = blur.place(record.cell).unwrap();
            observed.get_mut(&side).unwrap()[at] += f64::from(record.pieces);
        }
        let (n, level) = (199, 0.1);
        for at_once in [true, false] {
            let envelope = Envelope::new(&blur, &scatter, &observed, &ground, n, level, at_once);
            let (mean, variance) = scatter.moments(&blur);
            let seen = blur.density(&observed);
            let excess = |d: &[f64], at: usize| (d[at] - mean[at]) / variance[at].sqrt();
            let judged: Vec<usize> = (0..56).filter(|at| ground[*at] > 0.0).collect();
            let simulated: Vec<Vec<f64>> = (1..=u64::from(n))
                .map(|number| {
                    let mut weights = blur.nothing();
                    scatter.throw(number, &mut weights);
                    blur.density(&weights)
                })
                .collect();
            let tops: Vec<f64> = simulated
                .iter()
                .map(|d| judged.iter().map(|at| excess(d, *at)).fold(f64::MIN, f64::max))
                .collect();
            let p = |b: usize| (1 + b) as f64 / 200.0;
            for at in 0..56 {
                if !judged.contains(&at) {
                    assert_eq!((envelope.pointwise[at], envelope.global[at]), (1.0, 1.0));
                    continue;
                }
                let alone = simulated.iter().filter(|d| d[at] >= seen[at]).count();
                let together = tops.iter().filter(|top| **top >= excess(&seen, at)).count();
                assert_eq!(envelope.pointwise[at], p(alone), "{at}");
                assert_eq!(envelope.global[at], p(together), "{at}");
                // The limit says the same as p.
                let told = if at_once { envelope.global[at] } else { envelope.pointwise[at] };
                assert_eq!(seen[at] > envelope.limit[at], told <= level, "{at}");
            }
            let least = judged.iter().map(|at| envelope.global[*at]).fold(1.0, f64::min);
            assert_eq!(envelope.p(), least);
            assert!(least < 0.3, "the cluster in the corner stands out: {least}");
        }
    }
}
