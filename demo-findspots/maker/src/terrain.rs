//! The island's shape and heights: a warped oval with a crinkled edge, hills, a cliff where the coast is
//! high, and valleys cut by running water.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use crate::noise::Noise;
use crate::raster::{COLUMNS, PIXEL_M, Place, ROWS, Raster, SOUTH_M, WEST_M, neighbours, on_edge};

/// The land before anybody lived on it.
pub struct Terrain {
    /// Above 0 on land; the coast is where it crosses 0.
    pub shape: Raster<f64>,
    /// Whether a pixel belongs to the main island, not to an islet.
    pub main: Raster<bool>,
    /// Metres above the sea; 0 at sea.
    pub height: Raster<f64>,
    /// Metres from the coast, inland positive; 0 at sea.
    pub inland: Raster<f64>,
    /// Square metres of land that drain through each pixel.
    pub drained: Raster<f64>,
    /// The pixel that each pixel drains to; itself at sea.
    pub downhill: Raster<usize>,
}

/// Rounds of erosion, and how much of the fall to the next pixel a stream that drains 1 km² takes away
/// in each.
const ROUNDS: usize = 26;
const BITE: f64 = 0.11;

impl Terrain {
    pub fn make(seed: u32) -> Self {
        let shape = fill_lakes(Raster::from_places(|place| shape(seed, place)));
        let inland = inland(&shape);
        let mut height = Raster::from_places(|place| bedrock(seed, place, inland.at(place)));
        for _ in 0..ROUNDS {
            let flow = Flow::over(&shape, &height);
            erode(&mut height, &flow);
        }
        smooth(&mut height, &shape);
        let flow = Flow::over(&shape, &height);
        // The filled heights leave no hollow without an outlet, so that every stream runs downhill.
        let main = main_island(&shape);
        Self { shape, main, height: flow.filled, inland, drained: flow.drained, downhill: flow.downhill }
    }

    /// Steepness at a pixel, metres a metre.
    pub fn slope(&self, pixel: usize) -> f64 {
        neighbours(pixel)
            .map(|(next, length)| (self.height[next] - self.height[pixel]).abs() / length)
            .fold(0.0, f64::max)
    }

    pub fn is_land(&self, pixel: usize) -> bool {
        self.shape[pixel] > 0.0
    }
}

/// Kilometres east and north of the raster's middle.
fn kilometres(place: Place) -> (f64, f64) {
    let x = place.x - WEST_M - COLUMNS as f64 * PIXEL_M / 2.0;
    let y = place.y - SOUTH_M - ROWS as f64 * PIXEL_M / 2.0;
    (x / 1_000.0, y / 1_000.0)
}

fn bump(x: f64, y: f64, at: (f64, f64), size: (f64, f64)) -> f64 {
    (-((x - at.0) / size.0).powi(2) - ((y - at.1) / size.1).powi(2)).exp()
}

/// How ragged the coast is: high on the north and west, gentle on the south-east.
fn ragged(x: f64, y: f64) -> f64 {
    (0.66 + 0.14 * (y - 0.45 * x)).clamp(0.34, 1.0)
}

fn shape(seed: u32, place: Place) -> f64 {
    let (x, y) = kilometres(place);
    let warp = (Noise::new(seed ^ 0x51), Noise::new(seed ^ 0x52));
    let wx = x + 0.75 * warp.0.octaves(x / 3.1, y / 3.1, 3, 0.5);
    let wy = y + 0.75 * warp.1.octaves(x / 3.1, y / 3.1, 3, 0.5);
    let (sin, cos) = 0.42f64.sin_cos();
    let (u, v) = (wx * cos + wy * sin, wy * cos - wx * sin);
    let oval = 1.0 - ((u / 4.7).powi(2) + (v / 3.05).powi(2)).sqrt();
    let bays = 0.75 * bump(x, y, (-3.6, -2.9), (1.25, 1.0))
        + 0.55 * bump(x, y, (0.9, 4.1), (1.0, 1.5))
        + 0.60 * bump(x, y, (3.3, -1.9), (1.5, 0.9))
        - 0.30 * bump(x, y, (4.9, -0.2), (0.8, 0.7))
        - 0.26 * bump(x, y, (-4.6, -1.0), (0.9, 0.5));
    let crinkle = Noise::new(seed ^ 0x53);
    let coarse = 0.20 * crinkle.octaves(x / 1.9, y / 1.9, 2, 0.55);
    let fine = 0.14 * crinkle.octaves(x / 0.8 + 40.0, y / 0.8, 5, 0.66) * ragged(x, y);
    oval - bays + coarse + fine
}

fn bedrock(seed: u32, place: Place, inland: f64) -> f64 {
    if inland <= 0.0 {
        return 0.0;
    }
    let (x, y) = kilometres(place);
    let rough = Noise::new(seed ^ 0x61);
    let cliff = 3.0
        + 40.0
            * ((0.5 + 0.22 * (y - 0.55 * x) + 0.5 * rough.octaves(x / 1.9, y / 1.9, 2, 0.5)).clamp(0.0, 1.0))
                .powf(1.3);
    let ridge = 95.0 * bump(x * 0.91 + y * 0.41, y * 0.91 - x * 0.41, (-0.3, 0.75), (3.2, 0.95));
    let hills = 70.0 * bump(x, y, (-2.2, -0.6), (1.2, 0.9)) + 42.0 * bump(x, y, (2.6, -0.2), (1.3, 0.8));
    let knolls = 34.0 * rough.octaves(x / 1.5 + 9.0, y / 1.5, 5, 0.5) + 16.0;
    // Small unevenness, so that water does not run in ruled lines.
    let uneven = 5.0 * Noise::new(seed ^ 0x62).octaves(x / 0.21, y / 0.21, 3, 0.6);
    let far_in = 1.0 - (-inland / 750.0).exp();
    (cliff * (1.0 - (-inland / 32.0).exp()) + (ridge + hills + knolls + uneven) * far_in).max(0.5)
}

/// Land wherever the open sea cannot reach.
fn fill_lakes(mut shape: Raster<f64>) -> Raster<f64> {
    let mut sea = Raster::filled(false);
    let mut open: Vec<usize> = (0..COLUMNS * ROWS).filter(|p| on_edge(*p)).collect();
    for pixel in &open {
        sea[*pixel] = true;
        shape[*pixel] = shape[*pixel].min(-0.01);
    }
    while let Some(pixel) = open.pop() {
        for (next, _) in neighbours(pixel) {
            if !sea[next] && shape[next] <= 0.0 {
                sea[next] = true;
                open.push(next);
            }
        }
    }
    for pixel in 0..COLUMNS * ROWS {
        if !sea[pixel] && shape[pixel] <= 0.0 {
            shape[pixel] = 0.02;
        }
    }
    shape
}

/// All land that hangs together with the middle of the raster.
fn main_island(shape: &Raster<f64>) -> Raster<bool> {
    let mut main = Raster::filled(false);
    let middle = ROWS / 2 * COLUMNS + COLUMNS / 2;
    main[middle] = true;
    let mut open = vec![middle];
    while let Some(pixel) = open.pop() {
        for (next, length) in neighbours(pixel) {
            if length == PIXEL_M && !main[next] && shape[next] > 0.0 {
                main[next] = true;
                open.push(next);
            }
        }
    }
    main
}

/// A number that can be put in order; distances and heights are never NaN.
#[derive(PartialEq, Clone, Copy)]
pub struct Ordered(pub f64);
impl Eq for Ordered {}
impl PartialOrd for Ordered {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}
impl Ord for Ordered {
    fn cmp(&self, other: &Self) -> std::cmp::Ordering {
        self.0.total_cmp(&other.0)
    }
}

fn inland(shape: &Raster<f64>) -> Raster<f64> {
    let mut far = Raster::filled(f64::INFINITY);
    let mut open = BinaryHeap::new();
    for pixel in 0..COLUMNS * ROWS {
        if shape[pixel] <= 0.0 {
            far[pixel] = 0.0;
            open.push(Reverse((Ordered(0.0), pixel)));
        }
    }
    while let Some(Reverse((Ordered(reached), pixel))) = open.pop() {
        if reached > far[pixel] {
            continue;
        }
        for (next, length) in neighbours(pixel) {
            if reached + length < far[next] {
                far[next] = reached + length;
                open.push(Reverse((Ordered(reached + length), next)));
            }
        }
    }
    far
}

struct Flow {
    filled: Raster<f64>,
    downhill: Raster<usize>,
    drained: Raster<f64>,
    /// Land pixels from the sea upward.
    order: Vec<usize>,
}

impl Flow {
    /// Fills hollows from the sea upward, and lets each pixel drain to its steepest lower neighbour.
    fn over(shape: &Raster<f64>, height: &Raster<f64>) -> Self {
        let mut filled = Raster::filled(0.0);
        let mut seen = Raster::filled(false);
        let mut open = BinaryHeap::new();
        let mut order = Vec::new();
        for pixel in 0..COLUMNS * ROWS {
            if shape[pixel] <= 0.0 {
                seen[pixel] = true;
                if neighbours(pixel).any(|(next, _)| shape[next] > 0.0) {
                    open.push(Reverse((Ordered(0.0), pixel)));
                }
            }
        }
        while let Some(Reverse((Ordered(level), pixel))) = open.pop() {
            if shape[pixel] > 0.0 {
                order.push(pixel);
            }
            for (next, _) in neighbours(pixel) {
                if !seen[next] {
                    seen[next] = true;
                    filled[next] = height[next].max(level + 0.002);
                    open.push(Reverse((Ordered(filled[next]), next)));
                }
            }
        }
        let mut downhill = Raster::filled(0);
        for pixel in 0..COLUMNS * ROWS {
            downhill[pixel] = pixel;
            let mut steepest = 0.0;
            for (next, length) in neighbours(pixel) {
                let fall = (filled[pixel] - filled[next]) / length;
                if shape[pixel] > 0.0 && fall > steepest {
                    steepest = fall;
                    downhill[pixel] = next;
                }
            }
        }
        let mut drained = Raster::filled(0.0);
        for pixel in order.iter().rev() {
            drained[*pixel] += PIXEL_M * PIXEL_M;
            let water: f64 = drained[*pixel];
            let next = downhill[*pixel];
            if next != *pixel {
                drained[next] += water;
            }
        }
        Self { filled, downhill, drained, order }
    }
}

/// One round of stream-power erosion, solved from the sea upward (after Braun and Willett 2013,
/// Geomorphology 180–181, whose implicit step is stable for any strength).
fn erode(height: &mut Raster<f64>, flow: &Flow) {
    for pixel in &flow.order {
        let next = flow.downhill[*pixel];
        if next != *pixel {
            let bite = BITE * (flow.drained[*pixel] / 1e6).sqrt();
            height[*pixel] = (flow.filled[*pixel] + bite * height[next]) / (1.0 + bite);
        }
    }
}

fn smooth(height: &mut Raster<f64>, shape: &Raster<f64>) {
    for _ in 0..2 {
        let before = height.clone();
        for pixel in 0..COLUMNS * ROWS {
            if shape[pixel] > 0.0 {
                let (mut sum, mut weight) = (4.0 * before[pixel], 4.0);
                for (next, _) in neighbours(pixel).filter(|(next, _)| shape[*next] > 0.0) {
                    sum += before[next];
                    weight += 1.0;
                }
                height[pixel] = sum / weight;
            }
        }
    }
}
