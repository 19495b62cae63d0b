//! Plug-in bandwidths in two dimensions: functionals of the density are estimated with pilot bandwidths, and
//! put into the asymptotic mean integrated squared error (Wand and Jones 1994, Computational Statistics 9:
//! 97–116). Two stages; sums over pairs come from the spectrum.

use std::f64::consts::PI;

use super::power::Power;
use super::search::least_near;
use super::spectrum::Spread;

/// `E[u^m v^n]` for a normal pair with variances `a`, `c` and covariance `b` (Isserlis 1918).
fn normal_moment(m: u32, n: u32, a: f64, b: f64, c: f64) -> f64 {
    match (m, n) {
        (0, 0) => 1.0,
        (0, 1) | (1, 0) => 0.0,
        (0, n) => f64::from(n - 1) * c * normal_moment(0, n - 2, a, b, c),
        (1, n) => f64::from(n) * b * normal_moment(0, n - 1, a, b, c),
        (m, n) => {
            let own = f64::from(m - 1) * a * normal_moment(m - 2, n, a, b, c);
            let across = if n > 0 { f64::from(n) * b * normal_moment(m - 1, n - 1, a, b, c) } else { 0.0 };
            own + across
        }
    }
}

/// `φ_Σ^(m, n)(0)`, the derivative of the normal density at its peak.
fn derivative_at_peak(m: u32, n: u32, spread: Spread) -> f64 {
    let det = spread.det();
    let sign = if (m + n) % 4 == 2 { -1.0 } else { 1.0 };
    sign * spread.peak() * normal_moment(m, n, spread.yy / det, -spread.xy / det, spread.xx / det)
}

const ROUND: Spread = Spread { xx: 1.0, xy: 0.0, yy: 1.0 };

/// Observations seen in coordinates in which they are standard: `x = root · y`.
struct Standard<'p> {
    power: &'p Power,
    root: Spread,
    /// Variance in the standard coordinates.
    left: Spread,
}

/// The symmetric root of a positive matrix.
fn root(s: Spread) -> Spread {
    let det = s.det().max(0.0).sqrt();
    let t = (s.xx + s.yy + 2.0 * det).sqrt();
    Spread { xx: (s.xx + det) / t, xy: s.xy / t, yy: (s.yy + det) / t }
}

impl Standard<'_> {
    /// `ψ_r(g) = 1/n² Σ_ij φ_g^(r)(y_i − y_j)` for several `r` of one even order. `None` when `g` is too narrow
    /// for the lattice.
    fn psi<const N: usize>(&self, g: f64, orders: [(i32, i32); N]) -> Option<[f64; N]> {
        let r = self.root;
        let square =
            Spread { xx: r.xx * r.xx + r.xy * r.xy, xy: r.xy * (r.xx + r.yy), yy: r.yy * r.yy + r.xy * r.xy };
        let spread = square.times(g * g);
        let narrowest = {
            let mean = (spread.xx + spread.yy) / 2.0;
            let apart = ((spread.xx - spread.yy) / 2.0).hypot(spread.xy);
            (mean - apart).max(0.0).sqrt()
        };
        if g.is_nan() || narrowest < self.power.least() {
            return None;
        }
        let sums = self.power.moments(spread, |kx, ky| {
            let (u, v) = (r.xx * kx + r.xy * ky, r.xy * kx + r.yy * ky);
            orders.map(|(m, n)| u.powi(m) * v.powi(n))
        });
        let order = orders.first().map_or(0, |(m, n)| m + n);
        let sign = if order % 4 == 2 { -1.0 } else { 1.0 };
        Some(sums.map(|sum| sign * sum * r.det() / self.power.n.powi(2)))
    }

    /// `ψ_r` of the normal density with the observations' variance.
    fn normal_scale(&self, m: u32, n: u32) -> f64 {
        derivative_at_peak(m, n, self.left.times(2.0))
    }

    /// The pilot for `ψ_r`, `r` even in both, that has the least asymptotic mean squared error, from the sum
    /// of the two functionals of the next order.
    fn pilot(&self, m: u32, n: u32, next: f64) -> f64 {
        let order = f64::from(m + n);
        (-2.0 * derivative_at_peak(m, n, ROUND) / (next * self.power.n)).powf(1.0 / (4.0 + order))
    }

    /// One pilot for all functionals of an order: that with the least sum of asymptotic mean squared errors
    /// (Duong and Hazelton 2003, Journal of Nonparametric Statistics 15: 17–30). `next[i]` belongs to `r[i]`.
    fn joint_pilot(&self, orders: &[(u32, u32)], next: &[f64]) -> f64 {
        let order = orders.first().map_or(0.0, |(m, n)| f64::from(m + n));
        let (mut a1, mut a2, mut a3) = (0.0, 0.0, 0.0);
        for ((m, n), psi) in orders.iter().zip(next) {
            let k = derivative_at_peak(*m, *n, ROUND);
            a1 += k * k;
            a2 += k * psi;
            a3 += psi * psi;
        }
        let (b1, b2, b3) = ((2.0 * order + 4.0) * a1, order * a2, a3);
        let gamma = (-b2 + (b2 * b2 + 4.0 * b1 * b3).sqrt()) / (2.0 * b1);
        (gamma * self.power.n).powf(-1.0 / (order + 4.0))
    }
}

/// The diagonal bandwidth, standard deviations east and north, for observations of a variance.
pub(super) fn diagonal(power: &Power, variance: Spread) -> Option<(f64, f64)> {
    let (east, north) = (variance.xx.sqrt(), variance.yy.sqrt());
    let left = Spread { xx: 1.0, xy: variance.xy / (east * north), yy: 1.0 };
    let standard = Standard { power, root: Spread::along(east, north), left };
    let sixth = |m: u32, n: u32| {
        let next = standard.normal_scale(m + 2, n) + standard.normal_scale(m, n + 2);
        Some(standard.psi(standard.pilot(m, n, next), [(m as i32, n as i32)])?[0])
    };
    let six = [sixth(6, 0)?, sixth(4, 2)?, sixth(2, 4)?, sixth(0, 6)?];
    let fourth = |m: u32, n: u32, next: f64| {
        // A sum of the wrong sign says nothing: the normal's own is used.
        let normal = || {
            let of = |m, n| standard.normal_scale(m, n);
            of(m + 2, n) + of(m, n + 2)
        };
        let next = if next < 0.0 { next } else { normal() };
        Some(standard.psi(standard.pilot(m, n, next), [(m as i32, n as i32)])?[0])
    };
    let psi40 = fourth(4, 0, six[0] + six[1])?;
    let psi22 = fourth(2, 2, six[1] + six[2])?;
    let psi04 = fourth(0, 4, six[2] + six[3])?;
    let rough = 1.0 / (4.0 * PI);
    let h = (psi04.powf(0.75) * rough / (psi40.powf(0.75) * ((psi40 * psi04).sqrt() + psi22) * power.n))
        .powf(1.0 / 6.0);
    let pair = (east * h, north * h * (psi40 / psi04).powf(0.25));
    (pair.0.is_finite() && pair.1.is_finite() && pair.0 > 0.0 && pair.1 > 0.0).then_some(pair)
}

/// The full bandwidth matrix.
pub(super) fn full(power: &Power, variance: Spread) -> Option<Spread> {
    let root = root(variance);
    let standard = Standard { power, root, left: ROUND };
    let even = [(6, 0), (4, 2), (2, 4), (0, 6)];
    let next: Vec<f64> = even
        .iter()
        .map(|(m, n)| standard.normal_scale(m + 2, *n) + standard.normal_scale(*m, n + 2))
        .collect();
    let six = standard.psi(standard.joint_pilot(&even, &next), [(6, 0), (4, 2), (2, 4), (0, 6)])?;
    let even = [(4, 0), (2, 2), (0, 4)];
    let g = standard.joint_pilot(&even, &[six[0] + six[1], six[1] + six[2], six[2] + six[3]]);
    let psi = standard.psi(g, [(4, 0), (3, 1), (2, 2), (1, 3), (0, 4)])?;
    let error = |l: &[f64; 3]| {
        // H = L L' with L of positive diagonal.
        let (a, b, c) = (libm::exp(l[0]), l[1], libm::exp(l[2]));
        let (xx, xy, yy) = (a * a, a * b, b * b + c * c);
        let bias = psi[0] * xx * xx
            + 4.0 * psi[1] * xx * xy
            + psi[2] * (2.0 * xx * yy + 4.0 * xy * xy)
            + 4.0 * psi[3] * xy * yy
            + psi[4] * yy * yy;
        1.0 / (4.0 * PI * power.n * a * c) + bias / 4.0
    };
    // By the rule for normal density to begin with.
    let start = libm::log(power.n) / -6.0;
    let (l, _) = least_near([start, 0.0, start], 0.3, error);
    let (a, b, c) = (libm::exp(l[0]), l[1], libm::exp(l[2]));
    let h = Spread { xx: a * a, xy: a * b, yy: b * b + c * c };
    let found = within(root, h);
    (found.det() > 0.0 && found.xx.is_finite() && found.yy.is_finite()).then_some(found)
}

/// `r h r`, `r` symmetric.
fn within(r: Spread, h: Spread) -> Spread {
    let (p, q) = (r.xx * h.xx + r.xy * h.xy, r.xx * h.xy + r.xy * h.yy);
    let (s, t) = (r.xy * h.xx + r.yy * h.xy, r.xy * h.xy + r.yy * h.yy);
    Spread { xx: p * r.xx + q * r.xy, xy: p * r.xy + q * r.yy, yy: s * r.xy + t * r.yy }
}

#[cfg(test)]
mod tests {
    use super::{Spread, derivative_at_peak, root, within};

    #[test]
    fn derivatives_of_the_standard_normal_at_its_peak() {
        let round = Spread::round(1.0);
        let peak = round.peak();
        assert!((derivative_at_peak(4, 0, round) - 3.0 * peak).abs() < 1e-12);
        assert!((derivative_at_peak(6, 0, round) + 15.0 * peak).abs() < 1e-12);
        assert!((derivative_at_peak(2, 2, round) - peak).abs() < 1e-12);
        assert!((derivative_at_peak(4, 2, round) + 3.0 * peak).abs() < 1e-12);
    }

    #[test]
    fn a_root_twice_is_the_matrix() {
        let s = Spread { xx: 9.0, xy: -2.0, yy: 4.0 };
        let back = within(root(s), Spread::round(1.0));
        assert!(
            (back.xx - 9.0).abs() < 1e-12 && (back.xy + 2.0).abs() < 1e-12 && (back.yy - 4.0).abs() < 1e-12
        );
    }
}
