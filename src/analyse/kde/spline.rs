//! B-splines on a lattice of whole numbers: how a weight at `u` is shared among the nodes near it.

/// Rounds to the nearest whole number: adding this leaves no bits for a fraction. Good for `|u| < 2⁵¹`.
const ROUND: f64 = 6_755_399_441_055_744.0;

/// The quadratic spline: the first of three nodes, and their weights. The weights add up to 1, keep the
/// place, and spread it with a variance of exactly 1/4 wherever it lies (Unser 1999, IEEE Signal Processing
/// Magazine 16(6): 22–38). `u` is at least 1.
#[inline(always)]
pub(super) fn quadratic(u: f64) -> (usize, [f64; 3]) {
    let shifted = u + ROUND;
    let nearest = shifted - ROUND;
    let t = u - nearest;
    let first = (shifted.to_bits() as u32).wrapping_sub(1) as usize;
    let (a, b) = (0.5 - t, 0.5 + t);
    (first, [0.5 * a * a, 0.75 - t * t, 0.5 * b * b])
}

/// The cubic spline: the first of four nodes, and their weights. `u` is at least 1.
pub(super) fn cubic(u: f64) -> (usize, [f64; 4]) {
    let below = u.floor();
    let (t, s) = (u - below, 1.0 - (u - below));
    let weights = [
        s * s * s / 6.0,
        (4.0 - 6.0 * t * t + 3.0 * t * t * t) / 6.0,
        (4.0 - 6.0 * s * s + 3.0 * s * s * s) / 6.0,
        t * t * t / 6.0,
    ];
    (below.max(1.0) as usize - 1, weights)
}

#[cfg(test)]
mod tests {
    use super::{cubic, quadratic};

    #[test]
    fn weights_add_up_keep_the_place_and_spread_alike() {
        for i in 0..100 {
            let u = 3.0 + f64::from(i) * 0.037;
            let (first, three) = quadratic(u);
            let (begin, four) = cubic(u);
            let moment = |first: usize, weights: &[f64], power: i32| -> f64 {
                weights.iter().enumerate().map(|(k, w)| w * ((first + k) as f64 - u).powi(power)).sum()
            };
            for (first, weights, variance) in [(first, &three[..], 0.25), (begin, &four[..], 1.0 / 3.0)] {
                assert!((moment(first, weights, 0) - 1.0).abs() < 1e-12, "{u}");
                assert!(moment(first, weights, 1).abs() < 1e-12, "{u}");
                assert!((moment(first, weights, 2) - variance).abs() < 1e-12, "{u}");
            }
        }
    }
}
