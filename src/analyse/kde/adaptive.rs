//! A bandwidth for each observation, wide where observations lie thin (Abramson 1982, Annals of Statistics 10:
//! 1217–1223).
//!
//! 1. A pilot surface of one bandwidth is read off at each observation and at each pixel.
//! 2. The bandwidth there is `h₀ f^(−1/2) / γ`, `γ` the geometric mean of `f^(−1/2)` over the observations
//!    (Silverman 1986, section 5.3), and no more than five times `h₀`.
//! 3. Bandwidths are parted into levels a factor `e^0.2` apart, and observations are smoothed level by level
//!    (the partition of Davies and Baddeley 2018, Statistics and Computing 28: 937–956). Where they count an
//!    observation in the level that holds its bandwidth, here its weight is shared among the four nearest
//!    levels by Lagrange's polynomial in the logarithm of the bandwidth, so that what a level stands for is
//!    interpolated and not rounded: the error falls with the fourth power of the distance of levels, and is
//!    under 1e-3 of the maximum. Shares inside the window, of observations and of pixels, are interpolated in
//!    the same way, so that the correction by observation keeps the sum exactly here too.

use rayon::prelude::*;

use super::{At, Edge, Frame, Kernel, LEAST_INSIDE, Observations, Sides, Smoother, masses_of_frame};

/// Distance of levels in the logarithm of the bandwidth.
const APART: f64 = 0.2;

/// Bandwidths are at most this many times the one asked for.
const WIDEST: f64 = 5.0;

/// What an adaptive surface is made with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Adaptive {
    /// The bandwidth asked for, of which each observation's is a multiple, metres.
    pub h0_m: f64,
    /// The pilot's bandwidth, metres.
    pub pilot_m: f64,
}

/// An adaptive surface and the bandwidths that it was made with.
#[derive(Debug, Clone, PartialEq)]
pub struct Varied {
    /// Pieces per hectare over each whole pixel, row by row from the south.
    pub per_hectare: Vec<f64>,
    /// Each observation's bandwidth, metres.
    pub bandwidths_m: Vec<f64>,
}

/// The surface with a bandwidth for each observation. `records` weigh the pilot and the scale of the
/// bandwidths (a bag is one record), `weights` the surface itself.
#[allow(clippy::too_many_arguments)]
pub fn adaptive_surface(
    observations: Observations<'_>,
    weights: Option<&[f64]>,
    records: Option<&[f64]>,
    adaptive: Adaptive,
    frame: Frame,
    window: Option<&[f64]>,
    edge: Edge,
    at: At,
) -> Varied {
    let n = observations.len();
    let window = window.filter(|window| window.len() == frame.columns * frame.rows);
    let kernel = Kernel::round(adaptive.pilot_m);
    let pilot = Smoother::new(observations, kernel, frame, window, edge, at).surface(records);
    // On ground, and nowhere nothing: beyond the pilot's reach there is only the widest kernel.
    let peak = pilot.iter().copied().fold(0.0, f64::max);
    let ground = |i: usize| window.map_or(1.0, |window| window[i]);
    let pilot: Vec<f64> = (0..pilot.len())
        .map(|i| if ground(i) > 0.0 { (pilot[i] / ground(i)).max(1e-12 * peak) } else { 0.0 })
        .collect();
    let read = |i: usize| read_off(&pilot, &frame, observations.x_m[i], observations.y_m[i]);
    let roots: Vec<f64> =
        (0..n).into_par_iter().map(|i| read(i).max(1e-12 * peak).max(f64::MIN_POSITIVE).powf(-0.5)).collect();
    let record = |i: usize| records.map_or(1.0, |records| records.get(i).copied().unwrap_or(0.0));
    let (mut sum, mut count) = (0.0, 0.0);
    for (i, root) in roots.iter().enumerate() {
        sum += record(i) * libm::log(*root);
        count += record(i);
    }
    let scale = if count > 0.0 { libm::exp(sum / count) } else { 1.0 };
    let bandwidth = |root: f64| adaptive.h0_m * (root / scale).min(WIDEST);
    let bandwidths: Vec<f64> = roots.iter().map(|root| bandwidth(*root)).collect();
    let of_pixels: Option<Vec<f64>> = (edge == Edge::Uniform).then(|| {
        pilot.iter().map(|f| bandwidth(if *f > 0.0 { f.powf(-0.5) } else { f64::INFINITY })).collect()
    });
    let per_hectare =
        by_levels(observations, weights, &bandwidths, of_pixels.as_deref(), frame, window, edge, at);
    Varied { per_hectare, bandwidths_m: bandwidths }
}

/// Lagrange's weights at `t` of values at 0, 1, 2 and 3.
fn lagrange(t: f64) -> [f64; 4] {
    let (a, b, c, d) = (t, t - 1.0, t - 2.0, t - 3.0);
    [-b * c * d / 6.0, a * c * d / 2.0, -a * b * d / 2.0, a * b * c / 6.0]
}

/// The pilot at a place: by cubics through the four times four pixels round it where all are on ground, else
/// between the four nearest, those on ground alone.
fn read_off(pilot: &[f64], frame: &Frame, x: f64, y: f64) -> f64 {
    let u = (x - frame.west_m) / frame.pixel_m - 0.5;
    let v = (y - frame.south_m) / frame.pixel_m - 0.5;
    let (i, j) = (u.floor(), v.floor());
    let (columns, rows) = (frame.columns as f64, frame.rows as f64);
    if i >= 1.0 && j >= 1.0 && i + 2.0 < columns && j + 2.0 < rows {
        let (east, north) = (lagrange(u - i + 1.0), lagrange(v - j + 1.0));
        let first = (j as usize - 1) * frame.columns + i as usize - 1;
        let line = |k: usize| &pilot[first + k * frame.columns..][..4];
        if (0..4).all(|k| line(k).iter().all(|value| *value > 0.0)) {
            let row = |k: usize| line(k).iter().zip(east).map(|(value, x)| value * x).sum::<f64>();
            let value: f64 = (0..4).map(|k| north[k] * row(k)).sum();
            if value > 0.0 {
                return value;
            }
        }
    }
    let (mut sum, mut weight) = (0.0, 0.0);
    for (di, dj) in [(0.0, 0.0), (1.0, 0.0), (0.0, 1.0), (1.0, 1.0)] {
        let (column, row) = (i + di, j + dj);
        if column < 0.0 || row < 0.0 || column >= columns || row >= rows {
            continue;
        }
        let value = pilot[row as usize * frame.columns + column as usize];
        if value > 0.0 {
            let share = (1.0 - (u - column).abs()) * (1.0 - (v - row).abs()) + 1e-9;
            sum += share * value;
            weight += share;
        }
    }
    if weight > 0.0 { sum / weight } else { 0.0 }
}

/// Where a bandwidth lies among the levels: the first of four, and Lagrange's weights.
fn among(h: f64, low: f64, levels: usize) -> (usize, [f64; 4]) {
    let u = (libm::log(h / low) / APART).max(0.0);
    let first = ((u.floor() as usize).max(1) - 1).min(levels.saturating_sub(4));
    (first, lagrange(u - first as f64))
}

#[allow(clippy::too_many_arguments)]
fn by_levels(
    o: Observations<'_>,
    weights: Option<&[f64]>,
    bandwidths: &[f64],
    of_pixels: Option<&[f64]>,
    frame: Frame,
    window: Option<&[f64]>,
    edge: Edge,
    at: At,
) -> Vec<f64> {
    let low = bandwidths.iter().copied().fold(f64::INFINITY, f64::min);
    let high = bandwidths.iter().copied().fold(0.0, f64::max);
    let mut values = vec![0.0; frame.columns * frame.rows];
    if o.is_empty() || !(low > 0.0 && high.is_finite()) {
        return values;
    }
    // Pixels may call for bandwidths that no observation has.
    let ground = |i: usize| window.is_none_or(|window| window[i] > 0.0);
    let of_pixels: Option<Vec<f64>> = of_pixels.map(|all| all.to_vec());
    let ends = of_pixels.iter().flatten().enumerate().filter(|(i, _)| ground(*i));
    let (low, high) = ends.fold((low, high), |(low, high), (_, h)| (low.min(*h), high.max(*h)));
    let levels = ((libm::log(high / low) / APART).ceil() as usize + 1).max(4);
    let level = |k: usize| low * libm::exp(APART * k as f64);
    let place: Vec<(usize, [f64; 4])> = bandwidths.par_iter().map(|h| among(*h, low, levels)).collect();
    // Who is in a level, and with what weight.
    let mut members: Vec<Vec<(u32, f64)>> = vec![Vec::new(); levels];
    for (i, (first, share)) in place.iter().enumerate() {
        for (k, share) in share.iter().enumerate().filter(|(_, share)| **share != 0.0) {
            members[first + k].push((i as u32, *share));
        }
    }
    let part = |members: &[(u32, f64)]| -> (Vec<f64>, Vec<f64>, Vec<f64>) {
        let of = |i: &(u32, f64)| i.0 as usize;
        let x = members.iter().map(|m| o.x_m[of(m)]).collect();
        let y = members.iter().map(|m| o.y_m[of(m)]).collect();
        (x, y, members.iter().map(|m| o.side(of(m))).collect())
    };
    let whole;
    let shown = match window {
        Some(window) => window,
        None => {
            whole = vec![1.0; values.len()];
            &whole
        }
    };
    let mut inside = vec![if edge == Edge::Diggle { 0.0 } else { 1.0 }; o.len()];
    if edge == Edge::Diggle {
        for (k, members) in members.iter().enumerate().filter(|(_, members)| !members.is_empty()) {
            let (x, y, side) = part(members);
            let here = Observations { x_m: &x, y_m: &y, side_m: Sides::Each(&side) };
            let way = Smoother::new(here, Kernel::round(level(k)), frame, Some(shown), Edge::None, at);
            for ((i, share), mass) in members.iter().zip(way.shares_inside()) {
                inside[*i as usize] += share * mass;
            }
        }
    }
    let mut masses = vec![0.0; if edge == Edge::Uniform { values.len() } else { 0 }];
    let places: Option<Vec<(usize, [f64; 4])>> =
        of_pixels.as_ref().map(|all| all.par_iter().map(|h| among(h.min(high), low, levels)).collect());
    for (k, members) in members.iter().enumerate() {
        let (x, y, side) = part(members);
        let here = Observations { x_m: &x, y_m: &y, side_m: Sides::Each(&side) };
        let way = Smoother::new(here, Kernel::round(level(k)), frame, None, Edge::None, at);
        if !members.is_empty() {
            let weight = |(i, share): &(u32, f64)| {
                let weight = weights.map_or(1.0, |weights| weights.get(*i as usize).copied().unwrap_or(0.0));
                let inside = inside[*i as usize];
                if inside > LEAST_INSIDE { weight * share / inside } else { 0.0 }
            };
            let weights: Vec<f64> = members.iter().map(weight).collect();
            let more = way.surface(Some(&weights));
            values.par_iter_mut().zip(&more).for_each(|(value, more)| *value += more);
        }
        if let Some(places) = &places {
            let kernel = Kernel::round(level(k));
            let here = match window {
                Some(window) => way.masses_in(window, kernel),
                None => masses_of_frame(&frame, kernel, at).unwrap_or_default(),
            };
            masses.par_iter_mut().zip(&here).zip(places).for_each(|((mass, here), (first, share))| {
                if let Some(share) = k.checked_sub(*first).and_then(|k| share.get(k)) {
                    *mass += share * here;
                }
            });
        }
    }
    values.par_iter_mut().enumerate().for_each(|(i, value)| {
        let share = window.map_or(1.0, |window| window[i]);
        // Interpolation may leave a hair below nought far from everything.
        *value = value.max(0.0) * share;
        if edge == Edge::Uniform {
            *value = if masses[i] > LEAST_INSIDE { *value / masses[i] } else { 0.0 };
        }
    });
    if edge == Edge::Diggle {
        // What stood a hair below nought is given back, so that the sum is kept to rounding.
        let weight = |i: usize| weights.map_or(1.0, |weights| weights.get(i).copied().unwrap_or(0.0));
        let kept: f64 = (0..o.len()).filter(|i| inside[*i] > LEAST_INSIDE).map(weight).sum();
        let sum = values.iter().sum::<f64>() * frame.pixel_m * frame.pixel_m / 1e4;
        if sum > 0.0 && at == At::Mean {
            values.par_iter_mut().for_each(|value| *value *= kept / sum);
        }
    }
    values
}
