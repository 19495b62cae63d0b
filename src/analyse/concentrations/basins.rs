//! Which peak each square drains to: mode-based clustering, with lesser peaks merged by persistence.
//!
//! Squares are taken from the highest down. A square with no higher neighbour begins a peak; any other goes
//! with the neighbour that it rises to most steeply. Where squares of two peaks meet, the lower peak rises
//! above the meeting place by its prominence; when that is less than asked, it is merged into the other
//! (Edelsbrunner, Letscher and Zomorodian 2002, Discrete & Computational Geometry 28: 511–533, for
//! persistence and the union-find from the top down; Chazal, Guibas, Oudot and Skraba 2013, Journal of the
//! ACM 60(6): 41, for merging clusters by it).

use super::field::{Field, Lattice};
use crate::study::Prominence;

/// For each square the square of its peak; `None` where there is no ground or nothing on it.
pub(super) fn basins(field: &Field, prominence: Prominence) -> Vec<Option<usize>> {
    let heights = field.heights();
    let peak = field.density.iter().copied().fold(0.0, f64::max);
    // How high above a meeting place a peak must rise, in the whole numbers of the heights.
    let needed = |height: u64| match prominence {
        Prominence::OfPeak(share) => share * height as f64,
        Prominence::PerHectare(pieces) if peak > 0.0 => pieces / peak * 1e9,
        Prominence::PerHectare(_) => 0.0,
    };
    drain(&field.lattice, &heights, needed)
}

fn drain(lattice: &Lattice, heights: &[u64], needed: impl Fn(u64) -> f64) -> Vec<Option<usize>> {
    let mut order: Vec<usize> = (0..heights.len()).filter(|at| heights[*at] > 0).collect();
    // Of squares alike, the first stands as if it were higher (simulation of simplicity, Edelsbrunner and
    // Mücke 1990), so that a flat top has one peak.
    order.sort_by_key(|at| (std::cmp::Reverse(heights[*at]), *at));
    let mut seen = vec![false; heights.len()];
    // The tree of merged peaks: each square first to the one it rises to, then roots to roots.
    let mut up: Vec<usize> = (0..heights.len()).collect();
    for &here in &order {
        seen[here] = true;
        let higher = || lattice.neighbours(here, true).filter(|(next, _)| seen[*next]);
        let mut steepest: Option<(f64, usize)> = None;
        for (next, distance) in higher() {
            let slope = (heights[next] - heights[here]) as f64 / distance;
            if steepest.is_none_or(|(most, _)| slope > most) {
                steepest = Some((slope, next));
            }
        }
        let Some((_, to)) = steepest else { continue };
        up[here] = to;
        for (next, _) in higher() {
            let (one, other) = (root(&mut up, here), root(&mut up, next));
            // Roots are peaks; the lower is the one that came later.
            let above =
                |a: usize, b: usize| (heights[a], std::cmp::Reverse(a)) > (heights[b], std::cmp::Reverse(b));
            let (high, low) = if above(one, other) { (one, other) } else { (other, one) };
            if high != low && ((heights[low] - heights[here]) as f64) < needed(heights[low]) {
                up[low] = high;
            }
        }
    }
    let mut peaks = vec![None; heights.len()];
    for here in order {
        peaks[here] = Some(root(&mut up, here));
    }
    peaks
}

/// The root of a square, the way to it shortened by half each time (Tarjan and van Leeuwen 1984).
fn root(up: &mut [usize], mut at: usize) -> usize {
    while up[at] != at {
        up[at] = up[up[at]];
        at = up[at];
    }
    at
}

#[cfg(test)]
mod tests {
    use std::collections::{BTreeMap, BTreeSet};

    use rand::{Rng, SeedableRng};
    use rand_chacha::ChaCha8Rng;

    use super::{Lattice, drain};

    fn lattice(columns: usize, rows: usize) -> Lattice {
        Lattice { side_m: 100, west: 0, south: 0, columns, rows }
    }

    #[test]
    fn two_peaks_by_hand() {
        // One row: 9 3 6 5 8. Peaks 9, 6 drains to 5? No: 6 is a peak of its own between 3 and 5.
        let heights = [9, 3, 6, 5, 8];
        let at = |needed: f64| {
            let peaks = drain(&lattice(5, 1), &heights, |_| needed);
            peaks.into_iter().map(Option::unwrap).collect::<Vec<_>>()
        };
        // 3 rises to 9 (slope 6) rather than 6 (slope 3); 5 to 8 (slope 3) rather than 6 (slope 1).
        assert_eq!(at(0.0), [0, 0, 2, 4, 4]);
        // 6 stands 1 above its meeting with 8, and is merged into it once 2 is asked.
        assert_eq!(at(2.0), [0, 0, 4, 4, 4]);
        // 8 stands 5 above 3: it stays at 5 and goes at 5.5.
        assert_eq!(at(5.0), [0, 0, 4, 4, 4]);
        assert_eq!(at(5.5), [0, 0, 0, 0, 0]);
    }

    #[test]
    fn corners_are_further_than_sides() {
        // From the middle (1), the side neighbour (5, slope 4) wins over the corner (6, slope 5/√2 = 3.5).
        let heights = [0, 5, 6, 0, 1, 0, 0, 0, 0];
        let peaks = drain(&lattice(3, 3), &heights, |_| 0.0);
        assert_eq!(peaks[4], Some(2), "5 itself rises to 6");
        let heights = [0, 5, 0, 0, 1, 0, 6, 0, 0];
        let peaks = drain(&lattice(3, 3), &heights, |_| 0.0);
        assert_eq!(peaks[4], Some(1));
        assert_eq!(peaks[0], None, "nothing lies there");
    }

    #[test]
    fn a_flat_top_has_one_peak_and_it_is_the_first() {
        let peaks = drain(&lattice(4, 1), &[7, 7, 7, 7], |_| 0.0);
        assert_eq!(peaks, [Some(0); 4]);
    }

    /// Persistence the slow way: for each square higher than all round it, flood from it down, level by
    /// level, until the flood reaches higher ground: the level is its meeting place.
    fn prominences(lattice: &Lattice, heights: &[u64]) -> BTreeMap<usize, u64> {
        let above =
            |a: usize, b: usize| (heights[a], std::cmp::Reverse(a)) > (heights[b], std::cmp::Reverse(b));
        let levels: BTreeSet<u64> = heights.iter().copied().filter(|h| *h > 0).collect();
        let mut found = BTreeMap::new();
        for peak in 0..heights.len() {
            let top = lattice.neighbours(peak, true).all(|(n, _)| above(peak, n));
            if heights[peak] == 0 || !top {
                continue;
            }
            let meeting = levels.iter().rev().copied().filter(|l| *l <= heights[peak]).find(|level| {
                let mut flood = BTreeSet::from([peak]);
                let mut waiting = vec![peak];
                while let Some(at) = waiting.pop() {
                    for (next, _) in lattice.neighbours(at, true) {
                        if heights[next] >= *level && flood.insert(next) {
                            waiting.push(next);
                        }
                    }
                }
                flood.into_iter().any(|at| at != peak && above(at, peak))
            });
            // A peak that meets no higher ground keeps its whole height.
            found.insert(peak, meeting.map_or(u64::MAX, |level| heights[peak] - level));
        }
        found
    }

    #[test]
    fn persistence_agrees_with_a_slow_flood() {
        let lattice = lattice(12, 9);
        for seed in 0..200 {
            let mut random = ChaCha8Rng::seed_from_u64(seed);
            // Few heights make many ties; noughts make holes.
            let most = if seed % 2 == 0 { 12 } else { 1000 };
            let heights: Vec<u64> = (0..lattice.len()).map(|_| random.random_range(0..most)).collect();
            let slow = prominences(&lattice, &heights);
            for needed in [0.0, 1.0, 2.5, most as f64 / 3.0, most as f64 * 2.0] {
                let peaks = drain(&lattice, &heights, |_| needed);
                let left: BTreeSet<usize> = peaks.iter().flatten().copied().collect();
                let expected: BTreeSet<usize> =
                    slow.iter().filter(|(_, p)| **p as f64 >= needed).map(|(at, _)| *at).collect();
                assert_eq!(left, expected, "seed {seed}, {needed}");
                // Each peak is its own, and what drains to it hangs together.
                for peak in &left {
                    let mine: BTreeSet<usize> =
                        (0..peaks.len()).filter(|at| peaks[*at] == Some(*peak)).collect();
                    let mut reached = BTreeSet::from([*peak]);
                    let mut waiting = vec![*peak];
                    while let Some(at) = waiting.pop() {
                        for (next, _) in lattice.neighbours(at, true) {
                            if mine.contains(&next) && reached.insert(next) {
                                waiting.push(next);
                            }
                        }
                    }
                    assert_eq!(reached, mine);
                }
            }
        }
    }

    #[test]
    fn a_share_of_the_peak_is_asked_of_each_alike() {
        // Dips of a half: 8 over 4, and 80 over 40.
        let heights = [8, 4, 9, 1, 80, 40, 81];
        let peaks = |share: f64| -> BTreeSet<usize> {
            drain(&lattice(7, 1), &heights, |h| share * h as f64).into_iter().flatten().collect()
        };
        assert_eq!(peaks(0.5), BTreeSet::from([0, 2, 4, 6]));
        assert_eq!(peaks(0.51), BTreeSet::from([2, 6]));
        assert_eq!(peaks(0.9), BTreeSet::from([6]));
    }
}
