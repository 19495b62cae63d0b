//! The kernel in one direction: a count spread evenly over an interval, then blurred by a Gaussian, as a
//! mean over a pixel. Two directions multiply, since squares and the Gaussian both part into them.

use std::f64::consts::{FRAC_1_SQRT_2, PI};

/// Beyond this many standard deviations the kernel is nothing in double precision (1e-17 of its peak).
pub(in crate::analyse) const REACH_SD: f64 = 8.5;

/// The distribution of the standard normal.
pub(super) fn normal_below(t: f64) -> f64 {
    0.5 * libm::erfc(-t * FRAC_1_SQRT_2)
}

/// The density of the standard normal.
pub(super) fn normal(t: f64) -> f64 {
    libm::exp(-t * t / 2.0) / (2.0 * PI).sqrt()
}

/// Share of a standard normal between two places, from the tail that is the smaller, so that nothing
/// cancels far out.
fn normal_between(from: f64, to: f64) -> f64 {
    if from > 0.0 { normal_below(-from) - normal_below(-to) } else { normal_below(to) - normal_below(from) }
}

/// `φ(t) − |t| Φ(−|t|)`: what is left of `G(t) = t Φ(t) + φ(t)` without its straight part `max(t, 0)`.
/// `φ` and `Φ` are the standard normal density and distribution.
fn bend(t: f64) -> f64 {
    let t = t.abs();
    if t > REACH_SD {
        return 0.0;
    }
    let density = libm::exp(-t * t / 2.0) / (2.0 * PI).sqrt();
    (density - t * 0.5 * libm::erfc(t * FRAC_1_SQRT_2)).max(0.0)
}

/// Mean over the pixel `[p, q]` of the density of `U + hZ`, where `U` is even on `[a, b]` and `Z` is
/// standard normal; all in metres, the result per metre.
///
/// In closed form, by integrating the normal distribution twice:
/// `h / ((b−a)(q−p)) · [G((q−a)/h) − G((p−a)/h) − G((q−b)/h) + G((p−b)/h)]`, `G(t) = t Φ(t) + φ(t)`.
/// The straight parts of the four terms add up to the overlap of the two intervals, which is taken
/// apart here so that nothing cancels far from the kernel. Good to about 1e-14 of the peak.
///
/// An interval without length is a place: `[Φ((q−a)/h) − Φ((p−a)/h)] / (q−p)`.
pub(in crate::analyse) fn mean_over(p: f64, q: f64, a: f64, b: f64, h: f64) -> f64 {
    if b - a <= 1e-6 * h {
        let place = (a + b) / 2.0;
        return normal_between((p - place) / h, (q - place) / h) / (q - p);
    }
    let overlap = (q.min(b) - p.max(a)).max(0.0);
    let bends = bend((q - a) / h) - bend((p - a) / h) - bend((q - b) / h) + bend((p - b) / h);
    ((overlap + h * bends) / ((b - a) * (q - p))).max(0.0)
}

/// The density of the same at one place `x`, per metre: `[Φ((x−a)/h) − Φ((x−b)/h)] / (b−a)`.
pub(super) fn value_at(x: f64, a: f64, b: f64, h: f64) -> f64 {
    if b - a <= 1e-6 * h {
        return normal((x - (a + b) / 2.0) / h) / h;
    }
    normal_between((x - b) / h, (x - a) / h) / (b - a)
}

#[cfg(test)]
mod tests {
    use super::{mean_over, value_at};

    /// Simpson's rule over the pixel of Simpson's rule over the interval.
    fn slow(p: f64, q: f64, a: f64, b: f64, h: f64) -> f64 {
        let simpson = |from: f64, to: f64, f: &dyn Fn(f64) -> f64| {
            let n = 400;
            let step = (to - from) / f64::from(n);
            let sum: f64 = (0..=n)
                .map(|i| {
                    let weight = if i == 0 || i == n { 1.0 } else { 2.0 + 2.0 * f64::from(i % 2) };
                    weight * f(from + f64::from(i) * step)
                })
                .sum();
            sum * step / 3.0
        };
        let normal = |x: f64| (-(x / h).powi(2) / 2.0).exp() / (h * (2.0 * std::f64::consts::PI).sqrt());
        simpson(p, q, &|x| simpson(a, b, &|u| normal(x - u)) / (b - a)) / (q - p)
    }

    #[test]
    fn agrees_with_slow_integration() {
        for (p, q, a, b, h) in [
            (0.0, 25.0, 0.0, 100.0, 60.0),
            (-75.0, -50.0, 0.0, 100.0, 60.0),
            (400.0, 425.0, 0.0, 100.0, 60.0),
            (30.0, 40.0, 0.0, 100.0, 25.0),
            (0.0, 500.0, 200.0, 210.0, 90.0),
        ] {
            let (fast, slow) = (mean_over(p, q, a, b, h), slow(p, q, a, b, h));
            assert!((fast - slow).abs() < 1e-12 + 1e-9 * slow, "{fast} {slow}");
        }
    }

    #[test]
    fn a_mean_over_a_short_interval_is_the_value_there() {
        for (x, a, b, h) in [(12.0, 0.0, 10.0, 20.0), (-40.0, 3.0, 3.0, 20.0), (5.0, 0.0, 100.0, 3.0)] {
            let mean = mean_over(x - 0.1, x + 0.1, a, b, h);
            assert!((mean - value_at(x, a, b, h)).abs() < 1e-3 * mean, "{x}");
        }
    }

    #[test]
    fn adds_up_to_one() {
        let sum: f64 = (-200..300).map(|i| mean_over(f64::from(i), f64::from(i + 1), 0.0, 10.0, 20.0)).sum();
        assert!((sum - 1.0).abs() < 1e-13, "{sum}");
    }

    #[test]
    fn without_blur_it_is_the_share_of_the_interval() {
        assert!((mean_over(5.0, 15.0, 0.0, 10.0, 1e-9) - 0.05).abs() < 1e-12);
        assert_eq!(mean_over(1e6, 1e6 + 1.0, 0.0, 10.0, 20.0), 0.0);
    }
}
