//! How wide the kernel should be, by what the observations say.

use super::spectrum::{LEAST_STEPS, PERIOD, Spectrum, Spread, extent};
use super::{Frame, Kernel, Observations, crossing, diggle, plugin};

/// A way of choosing the bandwidth.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Selector {
    /// Scott's rule for two dimensions: `σ n^(−1/6)`, `σ²` the mean of the variances east and north.
    Rule,
    /// Plug-in, one bandwidth east and one north (Wand and Jones 1994).
    PlugIn,
    /// Plug-in, a full matrix (Wand and Jones 1994; Duong and Hazelton 2003).
    PlugInFull,
    /// Least-squares cross-validation, the same in every direction (Rudemo 1982; Bowman 1984).
    LeastSquares,
    /// Least-squares cross-validation, one bandwidth east and one north.
    LeastSquaresDiagonal,
    /// Likelihood cross-validation (Loader 1999).
    Likelihood,
    /// Least mean square error for a Cox process (Diggle 1985; Berman and Diggle 1989).
    Diggle,
}

/// A chosen bandwidth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Chosen {
    /// The kernel.
    pub kernel: Kernel,
    /// Whether the search ended at an end of its range, so that the choice says little.
    pub at_end: bool,
}

/// Nodes of the lattice each way to begin with, and at most.
const NODES: (usize, usize) = (1_024, 4_096);

/// The bandwidth by a selector. `records` is the number of records at each observation (1 where `None`); a
/// record whose place is a square lies evenly in it. The window is a raster of shares; where there is none,
/// no kernel is corrected at an edge. `None` where there are fewer than two records, or they all lie at one
/// place.
pub fn choose_bandwidth(
    observations: Observations<'_>,
    records: Option<&[f64]>,
    window: Option<(&Frame, &[f64])>,
    selector: Selector,
) -> Option<Chosen> {
    let (n, variance) = moments(observations, records)?;
    let (east, north) = (variance.xx.sqrt(), variance.yy.sqrt());
    let shrink = n.powf(-1.0 / 6.0);
    let rule = ((variance.xx + variance.yy) / 2.0).sqrt() * shrink;
    // No one would smooth by less than a quarter of the squares.
    let least = observations.largest_side() / 4.0;
    let (_, _, width, height) = extent(observations);
    let round = |(h, at_end): (f64, bool)| Chosen { kernel: Kernel::round(h), at_end };
    let along = |(east, north): (f64, f64)| Kernel::along_axes(east, north);
    let fine = |h: f64, size: usize| {
        // Finer while the answer lies near what the lattice can tell apart.
        h > 1.1 * LEAST_STEPS * PERIOD * width.max(height) / size as f64 || size >= NODES.1
    };
    let mut size = NODES.0;
    if selector == Selector::Rule {
        return Some(round((rule, false)));
    }
    if selector == Selector::Diggle {
        return diggle::diggle(observations, records, window, least).map(round);
    }
    if selector == Selector::Likelihood {
        return crossing::likelihood(observations, records, window, least).map(round);
    }
    loop {
        let power = Spectrum::new(observations, records, size, None, PERIOD)?.power();
        let found = match selector {
            Selector::PlugIn => plugin::diagonal(&power, variance)
                .map(|pair| (Chosen { kernel: along(pair), at_end: false }, f64::INFINITY)),
            Selector::PlugInFull => plugin::full(&power, variance)
                .map(|spread| (Chosen { kernel: Kernel::of(spread), at_end: false }, f64::INFINITY)),
            Selector::LeastSquaresDiagonal => {
                let rule = (east * shrink, north * shrink);
                let (pair, at_end) = crossing::least_squares_diagonal(&power, least, rule);
                Some((Chosen { kernel: along(pair), at_end }, pair.0.min(pair.1)))
            }
            _ => {
                let found = crossing::least_squares(&power, least, 3.0 * rule);
                Some((round(found), found.0))
            }
        };
        match found {
            Some((chosen, narrowest)) if fine(narrowest, size) => return Some(chosen),
            None if size >= NODES.1 => return None,
            _ => size *= 2,
        }
    }
}

/// Number of records, and the variance of their places, that in their squares included.
fn moments(o: Observations<'_>, records: Option<&[f64]>) -> Option<(f64, Spread)> {
    let weight = |i: usize| records.map_or(1.0, |records| records.get(i).copied().unwrap_or(0.0));
    let n: f64 = (0..o.len()).map(weight).sum();
    if n < 2.0 {
        return None;
    }
    let (x0, y0) = (o.x_m[0], o.y_m[0]);
    let (mut sx, mut sy, mut within) = (0.0, 0.0, 0.0);
    for i in 0..o.len() {
        sx += weight(i) * (o.x_m[i] - x0);
        sy += weight(i) * (o.y_m[i] - y0);
        within += weight(i) * o.side(i).powi(2) / 12.0;
    }
    let (mx, my) = (sx / n, sy / n);
    let mut variance = Spread { xx: 0.0, xy: 0.0, yy: 0.0 };
    for i in 0..o.len() {
        let (dx, dy) = (o.x_m[i] - x0 - mx, o.y_m[i] - y0 - my);
        variance.xx += weight(i) * dx * dx;
        variance.xy += weight(i) * dx * dy;
        variance.yy += weight(i) * dy * dy;
    }
    let mut variance = variance.times(1.0 / (n - 1.0));
    variance.xx += within / n;
    variance.yy += within / n;
    (variance.xx > 0.0 && variance.yy > 0.0 && variance.det() > 0.0).then_some((n, variance))
}
