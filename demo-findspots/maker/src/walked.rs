//! Walked fields: parcels split out of a gently bent lattice, and those of them that the society chose.

use geo::{Area, Centroid, Coord, LineString, Polygon};
use rand::Rng;
use rand_chacha::ChaCha12Rng;

use crate::noise::Noise;
use crate::raster::{Place, SOUTH_M, WEST_M, distance, pixel};
use crate::settlement::Road;
use crate::terrain::Terrain;

#[derive(Clone)]
pub struct Field {
    pub shape: Polygon<f64>,
    pub middle: Place,
    pub hectares: f64,
}

/// A box of the unbent lattice, metres.
#[derive(Clone, Copy)]
struct Parcel {
    west: f64,
    south: f64,
    east: f64,
    north: f64,
}

const BLOCK_M: f64 = 560.0;

/// Every parcel that a plough could work: dry, gentle, inland of the cliff, off the roads.
pub fn fields(terrain: &Terrain, roads: &[Road], villages: &[Place], rng: &mut ChaCha12Rng) -> Vec<Field> {
    let bend = (Noise::new(901), Noise::new(902), Noise::new(903));
    let bent = |x: f64, y: f64| -> Place {
        let turn = 0.35 + 0.25 * bend.2.at(x / 6_000.0, y / 6_000.0);
        let (sin, cos) = turn.sin_cos();
        let x2 = x + 120.0 * bend.0.octaves(x / 900.0, y / 900.0, 2, 0.5);
        let y2 = y + 120.0 * bend.1.octaves(x / 900.0, y / 900.0, 2, 0.5);
        Coord { x: WEST_M + 6_000.0 + x2 * cos - y2 * sin, y: SOUTH_M + 5_000.0 + x2 * sin + y2 * cos }
    };
    let mut road = vec![false; crate::raster::COLUMNS * crate::raster::ROWS];
    for pixel in roads.iter().flat_map(|r| &r.pixels) {
        road[*pixel] = true;
    }
    let mut fields = Vec::new();
    for row in -13i32..13 {
        for column in -14i32..14 {
            let west = f64::from(column) * BLOCK_M;
            let south = f64::from(row) * BLOCK_M;
            let block = Parcel { west, south, east: west + BLOCK_M, north: south + BLOCK_M };
            split(block, rng, &mut |parcel| {
                let field = outline(parcel, &bent);
                if workable(&field, terrain, &road, villages) {
                    fields.push(field);
                }
            });
        }
    }
    fields
}

/// Splits a parcel across its longer side until it is of a field's size.
fn split(parcel: Parcel, rng: &mut ChaCha12Rng, keep: &mut impl FnMut(Parcel)) {
    let (wide, tall) = (parcel.east - parcel.west, parcel.north - parcel.south);
    let hectares = wide * tall / 1e4;
    if hectares < 2.2 || hectares < 7.0 && rng.random_bool(0.34) {
        keep(parcel);
        return;
    }
    let share = rng.random_range(0.36..0.64);
    if wide > tall {
        let middle = parcel.west + wide * share;
        split(Parcel { east: middle, ..parcel }, rng, keep);
        split(Parcel { west: middle, ..parcel }, rng, keep);
    } else {
        let middle = parcel.south + tall * share;
        split(Parcel { north: middle, ..parcel }, rng, keep);
        split(Parcel { south: middle, ..parcel }, rng, keep);
    }
}

/// The parcel bent into the land, a hedge's width inside its bounds.
fn outline(parcel: Parcel, bent: &impl Fn(f64, f64) -> Place) -> Field {
    const HEDGE_M: f64 = 4.0;
    const PER_SIDE: usize = 3;
    let p = Parcel {
        west: parcel.west + HEDGE_M,
        south: parcel.south + HEDGE_M,
        east: parcel.east - HEDGE_M,
        north: parcel.north - HEDGE_M,
    };
    let corners = [(p.west, p.south), (p.east, p.south), (p.east, p.north), (p.west, p.north)];
    let mut ring = Vec::new();
    for (i, (x, y)) in corners.iter().enumerate() {
        let (next_x, next_y) = corners[(i + 1) % 4];
        for step in 0..PER_SIDE {
            let share = step as f64 / PER_SIDE as f64;
            ring.push(bent(x + (next_x - x) * share, y + (next_y - y) * share));
        }
    }
    let shape = Polygon::new(LineString(ring), vec![]);
    let middle = shape.centroid().map_or(shape.exterior().0[0], Coord::from);
    let hectares = shape.unsigned_area() / 1e4;
    Field { shape, middle, hectares }
}

fn workable(field: &Field, terrain: &Terrain, road: &[bool], villages: &[Place]) -> bool {
    if !(1.0..=8.0).contains(&field.hectares) {
        return false;
    }
    let ring = &field.shape.exterior().0;
    // Samples of the field: its edge, and points between the edge and the middle.
    let samples = ring.iter().flat_map(|v| {
        [1.0, 0.8, 0.6, 0.4, 0.2].map(|share| Coord {
            x: field.middle.x + (v.x - field.middle.x) * share,
            y: field.middle.y + (v.y - field.middle.y) * share,
        })
    });
    let mut steep = 0.0;
    let mut count = 0.0;
    for sample in samples {
        let at = pixel(sample);
        if terrain.inland[at] < 45.0 || terrain.drained[at] > 150_000.0 || road[at] {
            return false;
        }
        steep += terrain.slope(at);
        count += 1.0;
    }
    steep / count < 0.13 && villages.iter().all(|village| distance(*village, field.middle) > 150.0)
}
