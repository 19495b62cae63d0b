//! Beaches: smooth, low stretches of the coast, each with a strip of sand and shingle below it.

use geo::{Coord, LineString, Polygon};

use crate::raster::{Place, distance, pixel};
use crate::terrain::Terrain;

pub struct Beach {
    pub name: &'static str,
    /// The coast behind it.
    pub back: Vec<Place>,
    pub shape: Polygon<f64>,
}

const NAMES: [&str; 3] = ["Mell Sand", "Drift Sand", "Cobble Hythe"];
const STEP_M: f64 = 20.0;

/// The coast as points every twenty metres.
pub fn paced(coast: &LineString<f64>) -> Vec<Place> {
    let mut paced = Vec::new();
    let mut left = 0.0;
    for line in coast.lines() {
        let length = distance(line.start, line.end);
        while left < length {
            paced.push(along(line.start, line.end, left / length));
            left += STEP_M;
        }
        left -= length;
    }
    paced
}

fn along(a: Place, b: Place, share: f64) -> Place {
    Coord { x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share }
}

/// The place `out_m` to the right of the coast (out to sea: land lies on the left).
fn seaward(coast: &[Place], i: usize, out_m: f64) -> Place {
    let n = coast.len();
    let (a, b) = (coast[(i + n - 3) % n], coast[(i + 3) % n]);
    let length = distance(a, b).max(1.0);
    Coord {
        x: coast[i % n].x + (b.y - a.y) / length * out_m,
        y: coast[i % n].y - (b.x - a.x) / length * out_m,
    }
}

/// Three beaches, the best first: 640, 520 and 440 m long, well apart.
pub fn beaches(terrain: &Terrain, coast: &LineString<f64>) -> Vec<Beach> {
    let paced = paced(coast);
    let n = paced.len();
    let mut beaches: Vec<Beach> = Vec::new();
    for (name, length_m) in NAMES.into_iter().zip([640.0, 520.0, 440.0]) {
        let steps = (length_m / STEP_M) as usize;
        let worth = |start: usize| {
            let arc = |i: usize| paced[(start + i) % n];
            let chord = distance(arc(0), arc(steps)) / length_m;
            let quarter = distance(arc(steps / 4), arc(3 * steps / 4)) / length_m * 2.0;
            let height =
                (0..=steps).map(|i| terrain.height[pixel(seaward(&paced, start + i, -60.0))]).sum::<f64>()
                    / (steps + 1) as f64;
            chord + quarter - height / 25.0
        };
        let start = (0..n)
            .filter(|start| {
                let at = paced[(start + steps / 2) % n];
                beaches.iter().all(|b| distance(b.back[b.back.len() / 2], at) > 2_200.0)
            })
            .max_by(|a, b| worth(*a).total_cmp(&worth(*b)))
            .expect("the coast is longer than its beaches");
        let back: Vec<Place> = (0..=steps).map(|i| paced[(start + i) % n]).collect();
        let mut ring = back.clone();
        for i in (0..=steps).rev() {
            let share = i as f64 / steps as f64;
            let out = 12.0 + 48.0 * (share * std::f64::consts::PI).sin().sqrt();
            ring.push(seaward(&paced, start + i, out));
        }
        ring.push(ring[0]);
        beaches.push(Beach { name, back, shape: Polygon::new(LineString(ring), vec![]) });
    }
    beaches
}

/// A place on a beach: `along_m` from its start, `down_m` below the top of the shore.
pub fn on_beach(beach: &Beach, along_m: f64, down_m: f64) -> Place {
    let i = ((along_m / STEP_M) as usize).clamp(3, beach.back.len() - 5);
    let at = seaward(&beach.back, i, down_m);
    let next = seaward(&beach.back, i + 1, down_m);
    along(at, next, (along_m / STEP_M).fract())
}
