//! How many pairs lie how far apart, lag by lag: the spectrum's power taken back.

use rayon::prelude::*;
use rustfft::FftPlanner;
use rustfft::num_complex::Complex64;

use super::Frame;
use super::spectrum::{Spectrum, backward, forward, sinc};

/// How many pairs lie how far apart, lag by lag of the lattice.
pub(super) struct Lags {
    size: usize,
    values: Vec<f64>,
    /// Metres between lags.
    pub step: f64,
}

impl Lags {
    /// The overlap of a window with itself moved by a lag, up to half its longer side: exact for shares of
    /// pixels at whole pixels, and between them by straight lines, as squares overlap.
    pub fn of_raster(window: &[f64], frame: &Frame) -> Self {
        let size = (frame.columns.max(frame.rows) * 3 / 2 + 2).next_power_of_two();
        let mut lattice = vec![0.0; size * size];
        let rows = window.chunks_exact(frame.columns.max(1));
        lattice
            .chunks_exact_mut(size)
            .zip(rows)
            .for_each(|(to, from)| to[..from.len()].copy_from_slice(from));
        let mut waves = forward(lattice, size, &FftPlanner::new().plan_fft_forward(size));
        waves.par_iter_mut().for_each(|wave| *wave = Complex64::new(wave.norm_sqr(), 0.0));
        let mut values = backward(waves, size);
        let scale = frame.pixel_m.powi(4) / (size as f64).powi(2);
        values.par_iter_mut().for_each(|value| *value *= scale);
        Self { size, values, step: frame.pixel_m }
    }

    /// Pairs at a lag, in steps.
    pub fn at(&self, east: i64, north: i64) -> f64 {
        let size = self.size as i64;
        if east.abs() >= size / 2 || north.abs() >= size / 2 {
            return 0.0;
        }
        let place = |lag: i64| lag.rem_euclid(size) as usize;
        self.values.get(place(north) * self.size + place(east)).copied().unwrap_or(0.0)
    }

    /// Pairs per square metre of lag, between lags by straight lines.
    pub fn density_at(&self, dx: f64, dy: f64) -> f64 {
        let (u, v) = (dx / self.step, dy / self.step);
        let (i, j) = (u.floor(), v.floor());
        let (s, t) = (u - i, v - j);
        let (i, j) = (i as i64, j as i64);
        let low = (1.0 - s) * self.at(i, j) + s * self.at(i + 1, j);
        let high = (1.0 - s) * self.at(i, j + 1) + s * self.at(i + 1, j + 1);
        ((1.0 - t) * low + t * high) / (self.step * self.step)
    }
}

impl Spectrum {
    /// Numbers of pairs of distinct records by lag, spread over neighbouring lags as the spline spreads two
    /// places.
    pub fn lags(&self) -> Lags {
        let boxes: Vec<Vec<f64>> = self
            .sides
            .iter()
            .map(|(side, _)| {
                let square = |j| sinc(self.wave_number(j, self.east.step) * side / 2.0).powi(2);
                (0..self.size).map(square).collect()
            })
            .collect();
        let mut waves = vec![Complex64::default(); self.waves.len()];
        waves.par_chunks_mut(self.size).zip(self.waves.par_chunks(self.size)).enumerate().for_each(
            |(i, (to, from))| {
                let kx = self.wave_number(i, self.east.step);
                for (j, (to, from)) in to.iter_mut().zip(from).enumerate() {
                    let own: f64 =
                        self.sides.iter().zip(&boxes).map(|((_, w), square)| w * square[i] * square[j]).sum();
                    let spread = self.spline(kx, self.wave_number(j, self.north.step)).powi(2);
                    *to = Complex64::new((from.norm_sqr() - own) * spread, 0.0);
                }
            },
        );
        let scale = 1.0 / (self.size as f64).powi(2);
        let mut values = backward(waves, self.size);
        values.par_iter_mut().for_each(|value| *value *= scale);
        Lags { size: self.size, values, step: self.east.step }
    }
}
