//! The bandwidth of least mean square error for a stationary Cox process, from the observations' K function
//! (Diggle 1985, Applied Statistics 34: 138–147; Berman and Diggle 1989, Journal of the Royal Statistical
//! Society B 51: 81–92). The theory's kernel is a disc of radius r; a Gaussian of standard deviation r/2 has
//! the same variance east and north.

use std::f64::consts::PI;

use super::lags::Lags;
use super::spectrum::{Spectrum, extent};
use super::{Frame, Observations};

/// Steps of the K function.
const STEPS: usize = 512;

/// Observations up to which all pairs are looked at one by one.
const FEW: usize = 6_000;

/// Area common to two unit discs whose centres are `t` apart.
fn overlap(t: f64) -> f64 {
    if t >= 2.0 {
        return 0.0;
    }
    2.0 * libm::acos(t / 2.0) - t * (1.0 - t * t / 4.0).sqrt()
}

/// The bandwidth and whether it is at an end of its range. `records` are whole numbers.
pub(super) fn diggle(
    observations: Observations<'_>,
    records: Option<&[f64]>,
    window: Option<(&Frame, &[f64])>,
    low: f64,
) -> Option<(f64, bool)> {
    let weight = |i: usize| records.map_or(1.0, |records| records.get(i).copied().unwrap_or(0.0));
    let n: f64 = (0..observations.len()).map(weight).sum();
    let whole = extent(observations);
    let (area, shorter) = match window {
        Some((frame, window)) => {
            let area = window.iter().sum::<f64>() * frame.pixel_m * frame.pixel_m;
            (area, frame.pixel_m * frame.columns.min(frame.rows) as f64)
        }
        None => (whole.2 * whole.3, whole.2.min(whole.3)),
    };
    if n < 2.0 || area.is_nan() || area <= 0.0 {
        return None;
    }
    // As far as a thousand neighbours in even ground, and a quarter of the shorter side.
    let most = (shorter / 4.0).min((1000.0 * area / (PI * n)).sqrt());
    let step = most / (STEPS - 1) as f64;
    // The window's own overlap with itself moved by a lag, for the translation correction (Ohser 1983).
    let overlap = window.map(|(frame, window)| Lags::of_raster(window, frame));
    let common = |dx: f64, dy: f64| match &overlap {
        Some(lags) => lags.density_at(dx, dy),
        None => (whole.2 - dx.abs()).max(0.0) * (whole.3 - dy.abs()).max(0.0),
    };
    let least_common = 0.01 * area;
    // Per pair of distinct records.
    let scale = area * area / (n * (n - 1.0));
    let first = (2.0 * low / step).ceil().max(1.0) as usize;
    let answer = |rings: &[f64]| {
        let best = least_error(rings, scale, n / area, step, first)?;
        Some((step * best as f64 / 2.0, best == first || best + 1 == STEPS / 2))
    };
    if observations.largest_side() <= 0.0 && observations.len() <= FEW {
        return answer(&by_pairs(observations, &weight, &common, least_common, most, step));
    }
    let period = 1.0 + (1.1 * most / whole.2.max(whole.3)).min(1.2);
    // Many observations settle on narrow kernels.
    let mut size = if n < 20_000.0 { 1_024 } else { 2_048 };
    loop {
        let lags = Spectrum::new(observations, records, size, None, period)?.lags();
        let found = answer(&by_lags(&lags, &common, least_common, most, step))?;
        // Finer while the disc is of the lattice's own size.
        if 2.0 * found.0 > 3.0 * lags.step || size >= 4_096 {
            return Some(found);
        }
        size *= 2;
    }
}

/// The step of the radius with the least error.
fn least_error(rings: &[f64], scale: f64, lambda: f64, step: f64, first: usize) -> Option<usize> {
    let sums = rings.iter().scan(0.0, |sum, value| {
        *sum += value * scale;
        Some(*sum)
    });
    let k: Vec<f64> = sums.collect();
    let error = |i: usize| {
        let r = step * i as f64;
        let disc = PI * r * r;
        // Pairs between two steps lie half-way.
        let both: f64 =
            (1..STEPS.min(2 * i + 1)).map(|j| overlap(step * (j as f64 - 0.5) / r) * (k[j] - k[j - 1])).sum();
        (1.0 / lambda - 2.0 * k[i]) / disc + both * r * r / (disc * disc)
    };
    let errors: Vec<f64> = (first..STEPS / 2).map(error).collect();
    (0..errors.len()).min_by(|a, b| errors[*a].total_cmp(&errors[*b])).map(|i| first + i)
}

/// Weighted numbers of pairs by distance, every pair of places.
fn by_pairs(
    o: Observations<'_>,
    weight: &impl Fn(usize) -> f64,
    common: &impl Fn(f64, f64) -> f64,
    least: f64,
    most: f64,
    step: f64,
) -> Vec<f64> {
    let mut order: Vec<usize> = (0..o.len()).collect();
    order.sort_by(|a, b| o.x_m[*a].total_cmp(&o.x_m[*b]).then(o.y_m[*a].total_cmp(&o.y_m[*b])));
    let mut rings = vec![0.0; STEPS];
    for (place, a) in order.iter().enumerate() {
        // Records of one place are at distance nought of each other.
        rings[0] += weight(*a) * (weight(*a) - 1.0) / common(0.0, 0.0).max(least);
        for b in &order[place + 1..] {
            let dx = o.x_m[*b] - o.x_m[*a];
            if dx > most {
                break;
            }
            let dy = o.y_m[*b] - o.y_m[*a];
            // The first ring that holds the pair.
            let ring = (dx.hypot(dy) / step).ceil() as usize;
            if ring < STEPS {
                rings[ring] += 2.0 * weight(*a) * weight(*b) / common(dx, dy).max(least);
            }
        }
    }
    rings
}

/// The same from the numbers of pairs by lag on a lattice, each lag parted into sixteen.
fn by_lags(lags: &Lags, common: &impl Fn(f64, f64) -> f64, least: f64, most: f64, step: f64) -> Vec<f64> {
    let mut rings = vec![0.0; STEPS];
    let reach = (most / lags.step).ceil() as i64 + 1;
    for j in 0..=reach {
        for i in -reach..=reach {
            if j == 0 && i < 0 {
                continue;
            }
            let pairs = lags.at(i, j);
            let (dx, dy) = (i as f64 * lags.step, j as f64 * lags.step);
            let twice = if i == 0 && j == 0 { 1.0 } else { 2.0 };
            let value = twice * pairs / common(dx, dy).max(least) / 16.0;
            for part in 0..16 {
                let shift = |k: i32| (f64::from(k) - 1.5) / 4.0 * lags.step;
                let r = (dx + shift(part % 4)).hypot(dy + shift(part / 4));
                let ring = (r / step).ceil() as usize;
                if ring < STEPS {
                    rings[ring] += value;
                }
            }
        }
    }
    rings
}

#[cfg(test)]
mod tests {
    use super::{STEPS, by_lags, by_pairs};
    use crate::analyse::kde::spectrum::Spectrum;
    use crate::analyse::kde::{Observations, Sides};

    #[test]
    fn pairs_on_a_lattice_are_the_pairs() {
        // Clusters along a crooked line.
        let place = |i: usize| {
            let t = i as f64 * 0.618_033_988_75 % 1.0;
            let spread = 120.0 * ((i * i % 97) as f64 / 97.0 - 0.5);
            (
                5_000.0 * t + spread,
                1_500.0 * (7.0 * t).sin() + 2_000.0 + spread * ((i % 13) as f64 - 6.0) / 6.0,
            )
        };
        let (x, y): (Vec<f64>, Vec<f64>) = (0..3_000).map(place).unzip();
        let o = Observations { x_m: &x, y_m: &y, side_m: Sides::Alike(0.0) };
        let (most, step) = (600.0, 600.0 / (STEPS - 1) as f64);
        let even = |_: f64, _: f64| 1.0;
        let slow = by_pairs(o, &|_| 1.0, &even, 1e-9, most, step);
        let lags = Spectrum::new(o, None, 1_024, None, 1.2).unwrap().lags();
        let quick = by_lags(&lags, &even, 1e-9, most, step);
        let (mut a, mut b) = (0.0, 0.0);
        for i in 0..STEPS {
            a += slow[i];
            b += quick[i];
            let r = step * i as f64;
            if r > 10.0 * lags.step {
                assert!((b / a - 1.0).abs() < 0.02, "{r}: {a} {b}");
            }
        }
    }
}
