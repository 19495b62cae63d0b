//! Streams: where enough land drains through one place, from the spring to the sea.

use geo::LineString;

use crate::raster::{COLUMNS, ROWS};
use crate::routes::smooth_line;
use crate::terrain::Terrain;

/// Land that a spring drains, square metres; and the shortest stream that is drawn, in pixels.
const SPRING_M2: f64 = 210_000.0;
const SHORTEST: usize = 22;

pub struct Stream {
    pub name: Option<&'static str>,
    pub line: LineString<f64>,
    /// Its pixels, from the spring down.
    pub pixels: Vec<usize>,
}

const NAMES: [&str; 6] =
    ["Fennick Beck", "Oxmer Beck", "Sallowgill", "Thrum Water", "Withen Sike", "Hob Runnel"];

/// Streams, the longest first: each runs to the sea, or to a longer one.
pub fn streams(terrain: &Terrain) -> Vec<Stream> {
    let wet = |pixel: usize| terrain.is_land(pixel) && terrain.drained[pixel] >= SPRING_M2;
    let mut fed = vec![false; COLUMNS * ROWS];
    for pixel in 0..COLUMNS * ROWS {
        if wet(pixel) {
            fed[terrain.downhill[pixel]] = true;
        }
    }
    let mut ways: Vec<Vec<usize>> = (0..COLUMNS * ROWS)
        .filter(|pixel| wet(*pixel) && !fed[*pixel])
        .map(|spring| {
            let mut way = vec![spring];
            let mut at = spring;
            while terrain.is_land(at) && terrain.downhill[at] != at {
                at = terrain.downhill[at];
                way.push(at);
            }
            way
        })
        .collect();
    ways.sort_by_key(|way| (std::cmp::Reverse(way.len()), way[0]));
    let mut taken = vec![false; COLUMNS * ROWS];
    let mut streams: Vec<Stream> = Vec::new();
    for way in ways {
        let end = way.iter().position(|pixel| taken[*pixel]).map_or(way.len(), |i| i + 1);
        let own = way[..end].to_vec();
        if own.len() < SHORTEST {
            continue;
        }
        for pixel in &own {
            taken[*pixel] = true;
        }
        let name = NAMES.get(streams.len()).copied();
        streams.push(Stream { name, line: smooth_line(&own, 3.0), pixels: own });
    }
    streams
}
