//! Kernels whose axes lean: smoothed by Fourier transform, since they do not part into east and north.

use rayon::prelude::*;

use super::spectrum::{LEAST_STEPS, Spectrum};
use super::{At, Frame, Kernel, Observations, Sides};

pub(super) struct Turned<'a> {
    pub observations: Observations<'a>,
    pub kernel: Kernel,
    pub frame: Frame,
    pub at: At,
}

impl Turned<'_> {
    /// The raster and the reach of a kernel round it: west, south, width, height.
    fn room(&self) -> (f64, f64, f64, f64) {
        let (f, reach) = (&self.frame, 6.0 * self.kernel.east_m.max(self.kernel.north_m));
        let length = |count: usize| count as f64 * f.pixel_m + 2.0 * reach;
        (f.west_m - reach, f.south_m - reach, length(f.columns), length(f.rows))
    }

    /// Nodes each way, for three steps or more to the narrowest standard deviation where 4,096 nodes do that.
    fn nodes(&self) -> usize {
        let room = self.room();
        let spread = self.kernel.spread();
        let mean = (spread.xx + spread.yy) / 2.0;
        let apart = ((spread.xx - spread.yy) / 2.0).hypot(spread.xy);
        let narrowest = (mean - apart).max(0.0).sqrt();
        let wanted = room.2.max(room.3) * 2.3 * LEAST_STEPS / narrowest;
        if wanted.is_finite() { (wanted as usize).clamp(256, 4_096).next_power_of_two() } else { 256 }
    }

    fn spectrum(&self, observations: Observations<'_>, weights: Option<&[f64]>) -> Option<Spectrum> {
        Spectrum::new(observations, weights, self.nodes(), Some(self.room()), 1.0)
    }

    fn read_off(&self, spectrum: Option<&Spectrum>, side_m: f64) -> Vec<f64> {
        let f = &self.frame;
        let Some(spectrum) = spectrum else { return vec![0.0; f.columns * f.rows] };
        let nodes = spectrum.smoothed(self.kernel.spread(), side_m);
        let value = |i: usize| {
            let (column, row) = (i % f.columns, i / f.columns);
            let centre = |start: f64, k: usize| start + (k as f64 + 0.5) * f.pixel_m;
            // A transform leaves ripples of rounding about nought.
            nodes.at(centre(f.west_m, column), centre(f.south_m, row)).max(0.0)
        };
        (0..f.columns * f.rows).into_par_iter().map(value).collect()
    }

    /// Pieces per square metre.
    pub fn surface(&self, weights: Option<&[f64]>) -> Vec<f64> {
        let side = if self.at == At::Mean { self.frame.pixel_m } else { 0.0 };
        self.read_off(self.spectrum(self.observations, weights).as_ref(), side)
    }

    fn ground(&self, window: &[f64]) -> Option<Spectrum> {
        let f = &self.frame;
        let centre = |start: f64, k: usize| start + (k as f64 + 0.5) * f.pixel_m;
        let xs: Vec<f64> = (0..window.len()).map(|i| centre(f.west_m, i % f.columns)).collect();
        let ys: Vec<f64> = (0..window.len()).map(|i| centre(f.south_m, i / f.columns)).collect();
        let grounds: Vec<f64> = window.iter().map(|share| share * f.pixel_m * f.pixel_m).collect();
        let pixels = Observations { x_m: &xs, y_m: &ys, side_m: Sides::Alike(f.pixel_m) };
        self.spectrum(pixels, Some(&grounds))
    }

    pub fn shares_inside(&self, window: &[f64]) -> Vec<f64> {
        let o = &self.observations;
        let Some(ground) = self.ground(window) else { return vec![0.0; o.len()] };
        let mut sides: Vec<f64> = (0..o.len()).map(|i| o.side(i)).collect();
        sides.sort_by(f64::total_cmp);
        sides.dedup();
        let mut shares = vec![0.0; o.len()];
        for side in sides {
            let nodes = ground.smoothed(self.kernel.spread(), side);
            shares.par_iter_mut().enumerate().filter(|(i, _)| o.side(*i) == side).for_each(|(i, share)| {
                *share = nodes.at(o.x_m[i], o.y_m[i]).clamp(0.0, 1.0);
            });
        }
        shares
    }

    pub fn masses_of_pixels(&self, window: &[f64]) -> Vec<f64> {
        let side = if self.at == At::Mean { self.frame.pixel_m } else { 0.0 };
        self.read_off(self.ground(window).as_ref(), side)
    }
}
