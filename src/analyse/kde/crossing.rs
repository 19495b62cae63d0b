//! Cross-validation: by least squares and by likelihood.

use std::f64::consts::PI;

use rayon::prelude::*;

use super::line::mean_over;
use super::search::{least_near, least_on_line};
use super::spectrum::{PERIOD, Power, Spectrum, Spread};
use super::{Frame, Observations, Sides};

/// The score of least-squares cross-validation: `∫f̂² − 2/n Σ f̂₋ᵢ(x_i)`, by sums over pairs (Rudemo 1982,
/// Scandinavian Journal of Statistics 9: 65–78; Bowman 1984, Biometrika 71: 353–360).
fn least_squares_score(power: &Power, spread: Spread) -> f64 {
    let n = power.n;
    let twice = power.pairs(spread.times(2.0)) / (n * n);
    let once = (power.pairs(spread) - n * spread.peak()) / (n * (n - 1.0));
    twice - 2.0 * once
}

/// One bandwidth for all directions, with whether the search ended at an end of its range.
pub(super) fn least_squares(power: &Power, low: f64, high: f64) -> (f64, bool) {
    least_on_line(low.max(power.least()), high, 40, |h| least_squares_score(power, Spread::round(h * h)))
}

/// One bandwidth east and one north.
pub(super) fn least_squares_diagonal(power: &Power, low: f64, rule: (f64, f64)) -> ((f64, f64), bool) {
    let low = low.max(power.least());
    let score = |l: &[f64; 2]| {
        let (east, north) = (libm::exp(l[0]), libm::exp(l[1]));
        if east.min(north) < low || east > 10.0 * rule.0 || north > 10.0 * rule.1 {
            return f64::INFINITY;
        }
        least_squares_score(power, Spread::along(east * east, north * north))
    };
    let starts = [1.0, 0.5, 0.2, 0.08];
    let best = starts
        .iter()
        .map(|part| {
            let at = |h: f64| libm::log((h * part).max(1.05 * low));
            least_near([at(rule.0), at(rule.1)], 0.2, score)
        })
        .min_by(|a, b| a.1.total_cmp(&b.1));
    let found = best.map_or(rule, |(l, _)| (libm::exp(l[0]), libm::exp(l[1])));
    let at_end = found.0.min(found.1) < 1.02 * low || found.0 > 9.8 * rule.0 || found.1 > 9.8 * rule.1;
    (found, at_end)
}

/// Bandwidth of greatest cross-validated likelihood, `Σ log λ̂₋ᵢ(x_i) − ∫λ̂` (Loader 1999, *Local Regression
/// and Likelihood*, section 5.3), each intensity divided by the part of the kernel inside the window.
pub(super) fn likelihood(
    observations: Observations<'_>,
    records: Option<&[f64]>,
    window: Option<(&Frame, &[f64])>,
    size: usize,
    low: f64,
    high: f64,
) -> Option<(f64, bool)> {
    let room = super::spectrum::extent(observations);
    let all = Spectrum::new(observations, records, size, Some(room), PERIOD)?;
    // The window's pixels are squares with their ground as weight.
    let (mut xs, mut ys, mut grounds) = (Vec::new(), Vec::new(), Vec::new());
    if let Some((frame, window)) = window {
        for (i, share) in window.iter().enumerate().filter(|(_, share)| **share > 0.0) {
            xs.push(frame.west_m + ((i % frame.columns) as f64 + 0.5) * frame.pixel_m);
            ys.push(frame.south_m + ((i / frame.columns) as f64 + 0.5) * frame.pixel_m);
            grounds.push(share * frame.pixel_m * frame.pixel_m);
        }
    }
    let pixel = window.map_or(0.0, |(frame, _)| frame.pixel_m);
    let ground = Observations { x_m: &xs, y_m: &ys, side_m: Sides::Alike(pixel) };
    let ground = Spectrum::new(ground, Some(&grounds), size, Some(room), PERIOD);
    let score = |h: f64| {
        let spread = Spread::round(h * h);
        let density = all.smoothed(spread, 0.0);
        let inside = ground.as_ref().map(|ground| ground.smoothed(spread, 0.0));
        let share = |x: f64, y: f64| inside.as_ref().map_or(1.0, |inside| inside.at(x, y).max(1e-6));
        let own = |side: f64| {
            if side <= 0.0 {
                return 1.0 / (2.0 * PI * h * h);
            }
            mean_over(-side / 2.0, side / 2.0, -side / 2.0, side / 2.0, h).powi(2)
        };
        let terms: Vec<f64> = (0..observations.len())
            .into_par_iter()
            .map(|i| {
                let weight = records.map_or(1.0, |records| records.get(i).copied().unwrap_or(0.0));
                let (x, y) = (observations.x_m[i], observations.y_m[i]);
                let others = density.at(x, y) - own(observations.side(i));
                // What is left of a sum after its own term, where there is nothing else: rounding.
                let least = 1e-9 / (2.0 * PI * h * h);
                weight * libm::log(others.max(least) / share(x, y))
            })
            .collect();
        let integral: f64 = if inside.is_some() {
            let parts: Vec<f64> = (0..xs.len())
                .into_par_iter()
                .map(|i| grounds[i] * density.at(xs[i], ys[i]).max(0.0) / share(xs[i], ys[i]))
                .collect();
            parts.iter().sum()
        } else {
            all.n
        };
        integral - terms.iter().sum::<f64>()
    };
    let low = low.max(super::spectrum::LEAST_STEPS * all.step());
    Some(least_on_line(low, high, 14, score))
}
