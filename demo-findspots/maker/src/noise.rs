//! Seeded gradient noise: the island's crinkles, without a library whose next version would move them.

/// A field of smooth noise about 0, between −1 and 1.
#[derive(Clone, Copy)]
pub struct Noise {
    seed: u32,
}

impl Noise {
    pub fn new(seed: u32) -> Self {
        Self { seed }
    }

    /// Mixes a lattice corner into a well-spread number.
    fn mix(self, column: i32, row: i32) -> u32 {
        let mut h =
            self.seed ^ (column as u32).wrapping_mul(0x9e37_79b1) ^ (row as u32).wrapping_mul(0x85eb_ca77);
        h = (h ^ (h >> 15)).wrapping_mul(0x2c1b_3c6d);
        h = (h ^ (h >> 12)).wrapping_mul(0x297a_2d39);
        h ^ (h >> 15)
    }

    fn slope(self, column: i32, row: i32, dx: f64, dy: f64) -> f64 {
        let angle = f64::from(self.mix(column, row)) / f64::from(u32::MAX) * std::f64::consts::TAU;
        angle.cos() * dx + angle.sin() * dy
    }

    /// Noise with features about one unit across.
    pub fn at(self, x: f64, y: f64) -> f64 {
        let (column, row) = (x.floor(), y.floor());
        let (dx, dy) = (x - column, y - row);
        let (column, row) = (column as i32, row as i32);
        let ease = |t: f64| t * t * t * (t * (t * 6.0 - 15.0) + 10.0);
        let (u, v) = (ease(dx), ease(dy));
        let south =
            self.slope(column, row, dx, dy) * (1.0 - u) + self.slope(column + 1, row, dx - 1.0, dy) * u;
        let north = self.slope(column, row + 1, dx, dy - 1.0) * (1.0 - u)
            + self.slope(column + 1, row + 1, dx - 1.0, dy - 1.0) * u;
        (south * (1.0 - v) + north * v) * 1.4
    }

    /// Octaves of noise, each half as large and `gain` as strong as the one before.
    pub fn octaves(self, x: f64, y: f64, octaves: u32, gain: f64) -> f64 {
        let (mut sum, mut size, mut strength) = (0.0, 1.0, 1.0);
        for octave in 0..octaves {
            let layer = Self { seed: self.seed.wrapping_add(octave.wrapping_mul(0x632b_e5ab)) };
            sum += layer.at(x * size, y * size) * strength;
            size *= 2.0;
            strength *= gain;
        }
        sum
    }
}
