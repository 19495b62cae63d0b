//! Sums over all pairs of observations, from their spectrum (Parseval).

use rayon::prelude::*;

use super::spectrum::{LEAST_STEPS, Spectrum, Spread, sinc};

impl Spectrum {
    /// `|transform|²` with each record's pair with itself at distance nought. What the waves of one half say
    /// of the other is counted in.
    pub fn power(&self) -> Power {
        let half = self.size / 2;
        let mut values = vec![0.0; self.waves.len()];
        let boxes: Vec<Vec<f64>> = self
            .sides
            .iter()
            .map(|(side, _)| {
                (0..self.size)
                    .map(|j| sinc(self.wave_number(j, self.east.step) * side / 2.0).powi(2))
                    .collect()
            })
            .collect();
        values.par_chunks_mut(self.size).zip(self.waves.par_chunks(self.size)).enumerate().for_each(
            |(i, (values, waves))| {
                let twice = if i == 0 || i == half { 1.0 } else { 2.0 };
                for (j, (value, wave)) in values.iter_mut().zip(waves).enumerate() {
                    let own: f64 =
                        self.sides.iter().zip(&boxes).map(|((_, w), square)| w * square[i] * square[j]).sum();
                    *value = twice * (wave.norm_sqr() - own + self.n);
                }
            },
        );
        let mut folded = vec![0.0; (half + 1) * (half + 1)];
        folded.par_chunks_mut(half + 1).zip(values.par_chunks(self.size)).for_each(|(folded, line)| {
            folded.copy_from_slice(&line[..=half]);
            for j in 1..half {
                folded[j] += line[self.size - j];
            }
        });
        let area = (self.size as f64).powi(2) * self.east.step * self.north.step;
        let number = |step: f64| (0..self.size).map(|j| self.wave_number(j, step)).collect();
        Power {
            size: self.size,
            values,
            folded,
            kx: number(self.east.step),
            ky: number(self.north.step),
            area,
            n: self.n,
            step: self.east.step,
        }
    }
}

/// Sums over all pairs.
pub(super) struct Power {
    size: usize,
    values: Vec<f64>,
    /// Waves north and south of one length together, for what does not lean.
    folded: Vec<f64>,
    kx: Vec<f64>,
    ky: Vec<f64>,
    area: f64,
    /// Number of observations.
    pub n: f64,
    /// Metres between nodes.
    pub step: f64,
}

impl Power {
    /// The least standard deviation that can be asked for, metres.
    pub fn least(&self) -> f64 {
        LEAST_STEPS * self.step
    }

    /// `Σ_ij φ(x_i − x_j)` over all pairs, each with itself too, for the normal density of a spread.
    pub fn pairs(&self, spread: Spread) -> f64 {
        if spread.xy != 0.0 {
            return self.moments(spread, |_, _| [1.0])[0];
        }
        let half = self.size / 2;
        let factors = |numbers: &[f64], variance: f64| -> Vec<f64> {
            let e = numbers[..=half].iter().map(|k| variance * k * k / 2.0);
            e.take_while(|t| *t < 37.0).map(|t| libm::exp(-t)).collect()
        };
        let (east, north) = (factors(&self.kx, spread.xx), factors(&self.ky, spread.yy));
        let line = |(i, ex): (usize, &f64)| {
            let line = &self.folded[i * (half + 1)..][..north.len()];
            // Four sums side by side, which the processor adds at once.
            let mut sums = [0.0; 4];
            let (values, factors) = (line.chunks_exact(4), north.chunks_exact(4));
            let rest = values.remainder().iter().zip(factors.remainder()).map(|(v, e)| v * e).sum::<f64>();
            for (values, factors) in values.zip(factors) {
                for l in 0..4 {
                    sums[l] += values[l] * factors[l];
                }
            }
            ex * (sums[0] + sums[1] + sums[2] + sums[3] + rest)
        };
        let lines: Vec<f64> = east.par_iter().enumerate().map(line).collect();
        lines.iter().sum::<f64>() / self.area
    }

    /// `1/area · Σ_k power(k) exp(−k'Σk/2) f(k)`, for several `f` at once. Sums go wave by wave east, each
    /// in one order.
    pub fn moments<const N: usize>(
        &self,
        spread: Spread,
        f: impl Fn(f64, f64) -> [f64; N] + Sync,
    ) -> [f64; N] {
        let half = self.size / 2;
        let far = |variance: f64| (74.0 / variance.max(f64::MIN_POSITIVE)).sqrt();
        // A bound on each wave number beyond which the exponential is nothing (1e-16).
        let det = spread.det();
        let (kx_most, ky_most) = (far(det / spread.yy), far(det / spread.xx));
        let last = (0..=half).take_while(|i| self.kx[*i] <= kx_most).count();
        let up = (0..=half).take_while(|j| self.ky[*j] <= ky_most).count();
        let ey: Vec<f64> = (0..up).map(|j| libm::exp(-spread.yy * self.ky[j].powi(2) / 2.0)).collect();
        let unit = spread.xy * self.ky.get(1).copied().unwrap_or(0.0);
        let lines: Vec<[f64; N]> = (0..last)
            .into_par_iter()
            .map(|i| {
                let kx = self.kx[i];
                let ex = libm::exp(-spread.xx * kx * kx / 2.0);
                let line = &self.values[i * self.size..][..self.size];
                let mut sums = [0.0; N];
                let (turn, back) = (libm::exp(-unit * kx), libm::exp(unit * kx));
                let (mut there, mut here) = (1.0, 1.0);
                for (j, ey) in ey.iter().enumerate() {
                    let ky = self.ky[j];
                    let e = ex * ey;
                    let mut add = |value: f64, ky: f64| {
                        for (sum, f) in sums.iter_mut().zip(f(kx, ky)) {
                            *sum += value * f;
                        }
                    };
                    add(line[j] * e * there, ky);
                    if j > 0 && j < half {
                        add(line[self.size - j] * e * here, -ky);
                    }
                    there *= turn;
                    here *= back;
                }
                sums
            })
            .collect();
        let mut all = [0.0; N];
        for line in lines {
            for (sum, value) in all.iter_mut().zip(line) {
                *sum += value / self.area;
            }
        }
        all
    }
}
