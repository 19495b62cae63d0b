//! How wide the kernel is: always the standard deviation of the Gaussian, in metres.

use std::collections::BTreeMap;

use super::density::Spot;
use crate::study::Bandwidth;

/// The bandwidth, metres, and how it was chosen, as a message of `words/`.
pub(super) fn bandwidth(settings: Bandwidth, spots: &[Spot]) -> (f64, &'static str) {
    match settings {
        Bandwidth::Fixed(metres) => (metres, "bandwidth-fixed"),
        Bandwidth::Rule => (rule_of_thumb(spots).max(commonest_side(spots)), "bandwidth-rule"),
    }
}

/// Scott's rule in two dimensions (Scott 1992, Multivariate Density Estimation, 6.3): `σ n^(−1/6)`, with
/// `σ²` the mean of the variances east and north. `n` counts records, since a bag of 300 pieces is one
/// observation of a place. The variance of a place within its square, `side² / 12` each way, is part of
/// `σ²`.
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
    use super::{Spot, bandwidth};
    use crate::coordinates::Cell;
    use crate::study::Bandwidth;

    fn spot(column: i32, row: i32, records: u64) -> Spot {
        Spot { cell: Cell { side_m: 100, column, row }, pieces: 1, records }
    }

    #[test]
    fn by_hand() {
        // Eight records, four at each end of 12 km: variance east 8·6000²/7, north 0; within 100²/12.
        let spots = [spot(0, 0, 4), spot(120, 0, 4)];
        let sigma2 = 8.0 * 6000.0_f64.powi(2) / 7.0 / 2.0 + 1e4 / 12.0;
        let expected = sigma2.sqrt() * 8.0_f64.powf(-1.0 / 6.0);
        let (metres, method) = bandwidth(Bandwidth::Rule, &spots);
        assert!((metres - expected).abs() < 1e-6, "{metres} {expected}");
        assert_eq!(method, "bandwidth-rule");
        assert_eq!(bandwidth(Bandwidth::Fixed(250.0), &spots), (250.0, "bandwidth-fixed"));
    }

    #[test]
    fn never_narrower_than_the_squares() {
        assert_eq!(bandwidth(Bandwidth::Rule, &[spot(0, 0, 1)]).0, 100.0);
        assert_eq!(bandwidth(Bandwidth::Rule, &[spot(0, 0, 500), spot(1, 0, 500)]).0, 100.0);
    }
}
