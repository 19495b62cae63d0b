//! How wide the kernel is: always the standard deviation of the Gaussian, in metres.

use std::collections::BTreeMap;

use super::kde::{Frame, Kernel, Selector, choose_bandwidth};
use super::spots::{Places, Spot};
use crate::study::Bandwidth;

/// A kernel, how it came about and what to doubt, as messages of `words/`.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Choice {
    pub kernel: Kernel,
    pub method: &'static str,
    pub doubts: Vec<&'static str>,
}

/// The kernel for these spots. Ways of choosing that ask for the ground look at it in `window`.
pub(super) fn bandwidth(
    settings: Bandwidth,
    spots: &[Spot],
    window: impl FnOnce() -> Option<(Frame, Vec<f64>)>,
) -> Choice {
    let (selector, method) = match settings {
        Bandwidth::Fixed(metres) => return Choice::new(Kernel::round(metres), "bandwidth-fixed", spots),
        Bandwidth::Along { east_m, north_m } => {
            return Choice::new(Kernel::along_axes(east_m, north_m), "bandwidth-fixed-two", spots);
        }
        Bandwidth::Bearing { along_m, across_m, bearing_deg } => {
            let kernel = Kernel::along_bearing(along_m, across_m, bearing_deg);
            return Choice::new(kernel, "bandwidth-fixed-two", spots);
        }
        Bandwidth::Rule => return Choice::new(Kernel::round(rule(spots)), "bandwidth-rule", spots),
        Bandwidth::PlugIn => (Selector::PlugIn, "bandwidth-plug-in"),
        Bandwidth::PlugInFull => (Selector::PlugInFull, "bandwidth-plug-in-full"),
        Bandwidth::LeastSquares => (Selector::LeastSquares, "bandwidth-least-squares"),
        Bandwidth::Likelihood => (Selector::Likelihood, "bandwidth-likelihood"),
        Bandwidth::Diggle => (Selector::Diggle, "bandwidth-diggle"),
    };
    let places = Places::of(spots);
    let records: Vec<f64> = spots.iter().map(|spot| spot.records as f64).collect();
    let window = if matches!(selector, Selector::Likelihood | Selector::Diggle) { window() } else { None };
    let window = window.as_ref().map(|(frame, shares)| (frame, &shares[..]));
    match choose_bandwidth(places.observations(), Some(&records), window, selector) {
        Some(chosen) => {
            let mut choice = Choice::new(chosen.kernel, method, spots);
            if chosen.at_end {
                choice.doubts.push("bandwidth-doubt-at-end");
            }
            choice
        }
        None => {
            let mut choice = Choice::new(Kernel::round(rule(spots)), "bandwidth-rule", spots);
            choice.doubts.push("bandwidth-doubt-too-few");
            choice
        }
    }
}

impl Choice {
    fn new(kernel: Kernel, method: &'static str, spots: &[Spot]) -> Self {
        let under = kernel.east_m.min(kernel.north_m) < commonest_side(spots);
        let doubts = if under { vec!["bandwidth-doubt-under-square"] } else { Vec::new() };
        Self { kernel, method, doubts }
    }
}

/// Scott's rule in two dimensions (Scott 1992, Multivariate Density Estimation, 6.3): `σ n^(−1/6)`, with `σ²` the
/// mean of the variances east and north; never under the commonest side. `n` counts records, since a bag of 300
/// pieces is one observation of a place. The variance of a place within its square, `side² / 12` each way, is part
/// of `σ²`.
pub(super) fn rule(spots: &[Spot]) -> f64 {
    rule_of_thumb(spots).max(commonest_side(spots))
}

fn rule_of_thumb(spots: &[Spot]) -> f64 {
    let n: u64 = spots.iter().map(|spot| spot.records).sum();
    let Some(first) = spots.first() else { return 0.0 };
    let origin = first.cell.rect().center();
    let (mut sum, mut squares, mut within) = ((0.0, 0.0), 0.0, 0.0);
    for spot in spots {
        let centre = spot.cell.rect().center() - origin;
        let weight = spot.records as f64;
        sum = (sum.0 + weight * centre.x, sum.1 + weight * centre.y);
        squares += weight * (centre.x * centre.x + centre.y * centre.y);
        within += weight * f64::from(spot.cell.side_m).powi(2) / 12.0;
    }
    let n = n as f64;
    let about_mean = (squares - (sum.0 * sum.0 + sum.1 * sum.1) / n).max(0.0);
    let between = if n > 1.0 { about_mean / (2.0 * (n - 1.0)) } else { 0.0 };
    (between + within / n).sqrt() * n.powf(-1.0 / 6.0)
}

/// The side that most records are shown at; the larger of two equally common. A narrower kernel would
/// show the squares and not the finds.
fn commonest_side(spots: &[Spot]) -> f64 {
    let mut records: BTreeMap<u32, u64> = BTreeMap::new();
    for spot in spots {
        *records.entry(spot.cell.side_m).or_default() += spot.records;
    }
    records
        .into_iter()
        .max_by_key(|(side, records)| (*records, *side))
        .map_or(1.0, |(side, _)| f64::from(side))
}

#[cfg(test)]
mod tests {
    use super::{Choice, Spot, bandwidth};
    use crate::coordinates::Cell;
    use crate::study::Bandwidth;

    fn spot(column: i32, row: i32, records: u64) -> Spot {
        Spot { cell: Cell { side_m: 100, column, row }, pieces: 1, records }
    }

    fn choose(settings: Bandwidth, spots: &[Spot]) -> Choice {
        bandwidth(settings, spots, || None)
    }

    #[test]
    fn by_hand() {
        // Eight records, four at each end of 12 km: variance east 8·6000²/7, north 0; within 100²/12.
        let spots = [spot(0, 0, 4), spot(120, 0, 4)];
        let sigma2 = 8.0 * 6000.0_f64.powi(2) / 7.0 / 2.0 + 1e4 / 12.0;
        let expected = sigma2.sqrt() * 8.0_f64.powf(-1.0 / 6.0);
        let chosen = choose(Bandwidth::Rule, &spots);
        assert!((chosen.kernel.east_m - expected).abs() < 1e-6);
        assert_eq!((chosen.method, chosen.doubts.len()), ("bandwidth-rule", 0));
        let fixed = choose(Bandwidth::Fixed(250.0), &spots);
        assert_eq!((fixed.kernel.north_m, fixed.method), (250.0, "bandwidth-fixed"));
    }

    #[test]
    fn never_narrower_than_the_squares() {
        assert_eq!(choose(Bandwidth::Rule, &[spot(0, 0, 1)]).kernel.east_m, 100.0);
        assert_eq!(choose(Bandwidth::Rule, &[spot(0, 0, 500), spot(1, 0, 500)]).kernel.east_m, 100.0);
    }

    #[test]
    fn a_kernel_under_the_square_is_doubted_and_one_record_gives_no_choice() {
        let narrow = choose(Bandwidth::Fixed(60.0), &[spot(0, 0, 4), spot(12, 0, 4)]);
        assert_eq!(narrow.doubts, ["bandwidth-doubt-under-square"]);
        let alone = choose(Bandwidth::PlugIn, &[spot(0, 0, 1)]);
        assert_eq!((alone.method, alone.doubts[0]), ("bandwidth-rule", "bandwidth-doubt-too-few"));
    }

    /// Records of one square lie evenly in it for every way of choosing: many of them break none.
    #[test]
    fn records_that_share_squares_break_no_way_of_choosing() {
        let spots: Vec<Spot> = (0..60)
            .map(|i| spot((i * i) % 23 + (i % 3) * 10, (i * 7) % 19 + (i % 3) * 8, 1 + (i as u64 * 13) % 40))
            .collect();
        for settings in Bandwidth::SELECTORS {
            let chosen = choose(settings, &spots);
            let h = chosen.kernel.mean_m();
            assert!(h > 20.0 && h < 2_000.0, "{settings:?}: {h}");
        }
    }
}
