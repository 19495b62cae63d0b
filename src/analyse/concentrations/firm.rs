//! How firm each concentration is: whether it comes again when the finds are drawn anew.
//!
//! A bootstrap (Efron 1979, The Annals of Statistics 7: 1–26) by units, never by pieces: a unit is one day's
//! walk of one finder where the audience is shown both, or else one record. A concentration stays in a resample
//! when some concentration of the resample shares with it at least half of the squares that the two cover
//! together: a Jaccard coefficient of a half, under which a cluster counts as dissolved (Hennig 2007,
//! Computational Statistics and Data Analysis 52: 258–271).

use std::collections::BTreeMap;

use rand::Rng;
use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::SeedableRng;
use rayon::prelude::*;

use super::blur::Blur;
use super::even::Record;
use super::field::Field;
use crate::exact::ReleasedFind;

/// Streams of random numbers from here on are for resamples; those before, for simulated scatters.
const FIRST_STREAM: u64 = 1 << 32;

/// Records that were found together: side, place among the squares of that side, and pieces of each.
type Unit = Vec<(u32, usize, u32)>;

/// All units.
pub(super) struct Units(Vec<Unit>);

impl Units {
    /// Units of records in order of what is told of them.
    pub fn of(blur: &Blur, records: &[(Record, &ReleasedFind)]) -> Self {
        let mut walks: BTreeMap<(&str, &str), Unit> = BTreeMap::new();
        let mut units = Vec::new();
        for (record, find) in records {
            let Some((side, at)) = blur.place(record.cell) else { continue };
            let one = (side, at, record.pieces);
            let details = find.details.as_ref();
            match details.and_then(|d| Some((d.date.as_deref()?, d.finder.as_deref()?))) {
                Some(walk) => walks.entry(walk).or_default().push(one),
                None => units.push(vec![one]),
            }
        }
        units.extend(walks.into_values());
        // The order of rows tells nothing.
        units.iter_mut().for_each(|unit| unit.sort_unstable());
        units.sort_unstable();
        Self(units)
    }

    /// As many units as there are, drawn with replacement.
    fn resample(&self, blur: &Blur, seed: u64, number: u64) -> Field {
        let mut random = ChaCha8Rng::seed_from_u64(seed);
        random.set_stream(FIRST_STREAM + number);
        let mut weights = blur.nothing();
        for _ in 0..self.0.len() {
            for (side, at, pieces) in &self.0[random.random_range(0..self.0.len())] {
                if let Some(weight) = weights.get_mut(side).and_then(|weights| weights.get_mut(*at)) {
                    *weight += f64::from(*pieces);
                }
            }
        }
        blur.field(&weights)
    }
}

/// In how many of `resamples` each patch stays. `find` finds the patches of a field.
pub(super) fn stays(
    patches: &[Vec<usize>],
    blur: &Blur,
    units: &Units,
    resamples: u32,
    seed: u64,
    find: impl Fn(&Field) -> Vec<Vec<usize>> + Sync,
) -> Vec<u32> {
    if patches.is_empty() || units.0.is_empty() {
        return vec![0; patches.len()];
    }
    (0..resamples)
        .into_par_iter()
        .map(|number| {
            let field = units.resample(blur, seed, u64::from(number));
            recovered(patches, &find(&field), field.lattice.len())
        })
        .reduce(
            || vec![0; patches.len()],
            |mut sums, more| {
                sums.iter_mut().zip(more).for_each(|(sum, n)| *sum += n);
                sums
            },
        )
}

/// For each patch 1 where one of `others` overlaps it by a Jaccard coefficient of at least a half, or 0.
fn recovered(patches: &[Vec<usize>], others: &[Vec<usize>], squares: usize) -> Vec<u32> {
    let mut of = vec![usize::MAX; squares];
    for (number, other) in others.iter().enumerate() {
        other.iter().for_each(|at| of[*at] = number);
    }
    let stays = |patch: &Vec<usize>| {
        let mut shared: BTreeMap<usize, usize> = BTreeMap::new();
        patch
            .iter()
            .filter(|at| of[**at] != usize::MAX)
            .for_each(|at| *shared.entry(of[*at]).or_default() += 1);
        // shared / (both − shared) ≥ 1/2
        shared.into_iter().any(|(other, shared)| 3 * shared >= patch.len() + others[other].len())
    };
    patches.iter().map(|patch| u32::from(stays(patch))).collect()
}

#[cfg(test)]
mod tests {
    use super::recovered;

    #[test]
    fn half_of_both_by_hand() {
        let patch = vec![0, 1, 2, 3];
        for (others, stays) in [
            (vec![vec![0, 1, 2, 3]], 1),
            (vec![vec![0, 1]], 1),                      // 2 of 4
            (vec![vec![0]], 0),                         // 1 of 4
            (vec![vec![0, 1, 2, 3, 4, 5, 6, 7]], 1),    // 4 of 8
            (vec![vec![0, 1, 2, 3, 4, 5, 6, 7, 8]], 0), // 4 of 9
            (vec![vec![0], vec![1], vec![2, 3, 4]], 0), // 2 of 5
            (vec![], 0),
        ] {
            assert_eq!(recovered(std::slice::from_ref(&patch), &others, 9), [stays], "{others:?}");
        }
    }
}
