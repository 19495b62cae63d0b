//! The coast as closed lines: the shape's zero line, traced over the raster.

use std::collections::BTreeMap;

use geo::{Area, LineString, Polygon, Simplify};

use crate::raster::{COLUMNS, PIXEL_M, Place, ROWS, Raster, centre};

/// Islands, the largest first; islets smaller than this are left out.
const SMALLEST_M2: f64 = 4_000.0;
const TOLERANCE_M: f64 = 3.0;

/// Traces the land. Each ring runs anticlockwise.
pub fn trace(shape: &Raster<f64>) -> Vec<Polygon<f64>> {
    // Each square between four pixel middles is crossed by at most two pieces of coast. A piece joins
    // two of its sides; a side is known by the pixel at its start and whether it runs east or north.
    let mut onward: BTreeMap<Side, Side> = BTreeMap::new();
    for row in 0..ROWS - 1 {
        for column in 0..COLUMNS - 1 {
            let sw = row * COLUMNS + column;
            let corners = [sw, sw + 1, sw + COLUMNS + 1, sw + COLUMNS];
            let sides = [(sw, true), (sw + 1, false), (sw + COLUMNS, true), (sw, false)];
            let land = corners.map(|corner| shape[corner] > 0.0);
            // Walking round the square anticlockwise, the coast leaves where land turns to sea and
            // comes back where sea turns to land; so land stays on the left.
            let leaves: Vec<usize> = (0..4).filter(|i| land[*i] && !land[(i + 1) % 4]).collect();
            for leave in leaves {
                let mut back = (leave + 3) % 4;
                while land[back] || !land[(back + 1) % 4] {
                    back = (back + 3) % 4;
                }
                onward.insert(sides[leave], sides[back]);
            }
        }
    }
    let mut rings = Vec::new();
    while let Some((first, _)) = onward.first_key_value() {
        let first = *first;
        let mut ring = Vec::new();
        let mut side = first;
        while let Some(next) = onward.remove(&side) {
            ring.push(crossing(shape, side));
            side = next;
        }
        ring.push(ring[0]);
        rings.push(ring);
    }
    let mut islands: Vec<Polygon<f64>> = rings
        .into_iter()
        .map(|mut ring| {
            if signed_area(&ring) < 0.0 {
                ring.reverse();
            }
            Polygon::new(LineString(ring).simplify(TOLERANCE_M), vec![])
        })
        .filter(|island| island.unsigned_area() >= SMALLEST_M2)
        .collect();
    islands.sort_by(|a, b| b.unsigned_area().total_cmp(&a.unsigned_area()));
    islands
}

type Side = (usize, bool);

fn signed_area(ring: &[Place]) -> f64 {
    ring.windows(2).map(|w| w[0].x * w[1].y - w[1].x * w[0].y).sum::<f64>() / 2.0
}

fn crossing(shape: &Raster<f64>, (start, east): Side) -> Place {
    let end = if east { start + 1 } else { start + COLUMNS };
    let share = (shape[start] / (shape[start] - shape[end])).clamp(0.05, 0.95) * PIXEL_M;
    let at = centre(start);
    if east { Place { x: at.x + share, y: at.y } } else { Place { x: at.x, y: at.y + share } }
}
