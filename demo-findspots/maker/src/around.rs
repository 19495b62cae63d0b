//! The invented islands round Hernsey, roughly, for the inset that shows where it lies.

use geo::{LineString, Polygon, Simplify};
use rand::{Rng, SeedableRng};
use rand_chacha::ChaCha12Rng;

use crate::noise::Noise;
use crate::raster::{COLUMNS, PIXEL_M, Place, ROWS, SOUTH_M, WEST_M, distance};

/// How many islands are tried, and where: metres from Hernsey's middle.
const TRIED: usize = 60;
const NEAREST_M: f64 = 17_000.0;
const FURTHEST_M: f64 = 58_000.0;
/// Hernsey itself is given as roughly as the rest.
const TOLERANCE_M: f64 = 60.0;
const VERTICES: usize = 120;

/// Hernsey and the islands round it.
pub fn around(land: &[Polygon<f64>], seed: u64) -> Vec<Polygon<f64>> {
    // Dice of its own, so that nothing else of the demo moves.
    let mut dice = ChaCha12Rng::seed_from_u64(seed ^ 0xa401);
    let middle =
        Place { x: WEST_M + COLUMNS as f64 * PIXEL_M / 2.0, y: SOUTH_M + ROWS as f64 * PIXEL_M / 2.0 };
    let mut islands: Vec<(Place, f64)> = vec![(middle, 6_500.0)];
    for _ in 0..TRIED {
        // An arc of islands from the south-west round to the north-east, larger to the west.
        let turn: f64 = dice.random_range(0.6..4.6);
        let far: f64 = dice.random_range(NEAREST_M..FURTHEST_M);
        let size = 700.0 * 14f64.powf(dice.random::<f64>()) * (1.0 - 0.35 * turn.cos());
        let at = Place { x: middle.x + far * turn.cos(), y: middle.y + 0.75 * far * turn.sin() };
        if islands.iter().all(|(other, radius)| distance(*other, at) > 1.45 * (radius + size) + 1_500.0) {
            islands.push((at, size));
        }
    }
    let rough = |island: &Polygon<f64>| island.simplify(TOLERANCE_M);
    let hernsey = land.iter().take(1).map(rough);
    let others =
        islands[1..].iter().enumerate().map(|(number, (at, size))| island(number as u32, *at, *size));
    hernsey.chain(others).collect()
}

/// A ragged oval.
fn island(number: u32, at: Place, size: f64) -> Polygon<f64> {
    let noise = Noise::new(0x51_0000 + number);
    let lean = f64::from(number) * 0.7;
    let ring = (0..VERTICES).map(|vertex| {
        let turn = vertex as f64 / VERTICES as f64 * std::f64::consts::TAU;
        let (sin, cos) = turn.sin_cos();
        let ragged = 1.0 + 0.62 * noise.octaves(cos * 1.3 + 5.0, sin * 1.3 + 5.0, 5, 0.6);
        let (x, y) = (1.25 * ragged * size * cos, 0.8 * ragged * size * sin);
        let (sin, cos) = lean.sin_cos();
        Place { x: at.x + x * cos - y * sin, y: at.y + x * sin + y * cos }
    });
    let mut ring: Vec<Place> = ring.collect();
    ring.push(ring[0]);
    Polygon::new(LineString(ring), Vec::new())
}
