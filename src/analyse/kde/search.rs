//! Least values: along a line, and in a few dimensions.

/// The least value of `f` on `[low, high]`: first `steps` + 1 places evenly in the logarithm, then golden
/// sections between the neighbours of the best. With whether the best is the first or the last place.
pub(super) fn least_on_line(low: f64, high: f64, steps: usize, f: impl Fn(f64) -> f64) -> (f64, bool) {
    if low.is_nan() || high.is_nan() || low >= high {
        return (low, true);
    }
    let place = |i: usize| low * libm::exp(libm::log(high / low) * i as f64 / steps as f64);
    let values: Vec<f64> = (0..=steps).map(|i| finite(f(place(i)))).collect();
    let best = (0..=steps).min_by(|a, b| values[*a].total_cmp(&values[*b])).unwrap_or(0);
    let (mut a, mut b) = (libm::log(place(best.max(1) - 1)), libm::log(place((best + 1).min(steps))));
    let golden = (5f64.sqrt() - 1.0) / 2.0;
    let at = |t: f64| finite(f(libm::exp(t)));
    let (mut c, mut d) = (b - golden * (b - a), a + golden * (b - a));
    let (mut fc, mut fd) = (at(c), at(d));
    while b - a > 4e-3 {
        if fc <= fd {
            (b, d, fd) = (d, c, fc);
            c = b - golden * (b - a);
            fc = at(c);
        } else {
            (a, c, fc) = (c, d, fd);
            d = a + golden * (b - a);
            fd = at(d);
        }
    }
    let found = libm::exp((a + b) / 2.0);
    (found, best == 0 || best == steps)
}

fn finite(value: f64) -> f64 {
    if value.is_nan() { f64::INFINITY } else { value }
}

/// The least value near `start`, by the simplex of Nelder and Mead 1965 (The Computer Journal 7: 308–313).
pub(super) fn least_near<const N: usize>(
    start: [f64; N],
    size: f64,
    f: impl Fn(&[f64; N]) -> f64,
) -> ([f64; N], f64) {
    let f = |x: &[f64; N]| finite(f(x));
    let mut simplex: Vec<([f64; N], f64)> = (0..=N)
        .map(|i| {
            let mut x = start;
            if i > 0 {
                x[i - 1] += size;
            }
            (x, f(&x))
        })
        .collect();
    for _ in 0..150 * N {
        simplex.sort_by(|a, b| a.1.total_cmp(&b.1));
        let (low, high) = (simplex[0].1, simplex[N].1);
        let wide = (0..N).any(|i| (simplex[N].0[i] - simplex[0].0[i]).abs() > 1e-4);
        if !wide && (high - low).abs() <= 1e-10 * low.abs() {
            break;
        }
        let middle: [f64; N] =
            std::array::from_fn(|i| simplex[..N].iter().map(|(x, _)| x[i]).sum::<f64>() / N as f64);
        let worst = simplex[N];
        let along = |t: f64| {
            let x: [f64; N] = std::array::from_fn(|i| middle[i] + t * (worst.0[i] - middle[i]));
            (x, f(&x))
        };
        let mirrored = along(-1.0);
        let next = if mirrored.1 < low {
            let further = along(-2.0);
            if further.1 < mirrored.1 { Some(further) } else { Some(mirrored) }
        } else if mirrored.1 < simplex[N - 1].1 {
            Some(mirrored)
        } else {
            let nearer = along(if mirrored.1 < worst.1 { -0.5 } else { 0.5 });
            (nearer.1 < worst.1.min(mirrored.1)).then_some(nearer)
        };
        match next {
            Some(next) => simplex[N] = next,
            None => {
                let best = simplex[0].0;
                for (x, value) in &mut simplex[1..] {
                    *x = std::array::from_fn(|i| (x[i] + best[i]) / 2.0);
                    *value = f(x);
                }
            }
        }
    }
    simplex.sort_by(|a, b| a.1.total_cmp(&b.1));
    simplex[0]
}

#[cfg(test)]
mod tests {
    use super::{least_near, least_on_line};

    #[test]
    fn finds_the_least_of_two_valleys_and_says_when_there_is_none() {
        let f = |h: f64| ((h.ln() - 1.0).powi(2) - 1.0).powi(2) + 0.1 * h.ln();
        let (h, end) = least_on_line(0.3, 30.0, 40, f);
        assert!((h.ln() + 0.01236).abs() < 4e-3 && !end, "{}", h.ln());
        assert!(least_on_line(1.0, 9.0, 20, |h| h).1);
    }

    #[test]
    fn walks_down_a_bent_valley() {
        let f = |x: &[f64; 2]| 100.0 * (x[1] - x[0] * x[0]).powi(2) + (1.0 - x[0]).powi(2);
        let (x, _) = least_near([-1.2, 1.0], 0.5, f);
        assert!((x[0] - 1.0).abs() < 1e-3 && (x[1] - 1.0).abs() < 1e-3, "{x:?}");
    }
}
