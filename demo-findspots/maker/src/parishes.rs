//! Four parishes that tile the land exactly: their boundaries keep to streams and watersheds, and
//! neighbours share every vertex.

use geo::{Area, BoundingRect, Contains, LineString, MultiPolygon, Polygon, Validation};

use crate::raster::{Place, Raster, centre, distance, pixel};
use crate::routes::{cheapest, smooth_line};
use crate::terrain::Terrain;
use crate::water::Stream;

pub struct Parish {
    pub name: &'static str,
    pub shape: MultiPolygon<f64>,
}

/// Parish names, anticlockwise from the east.
pub const NAMES: [&str; 4] = ["Pellmarsh", "Ulverhay", "Skarrowby", "Corranwick"];

/// Bearings (anticlockwise from east, degrees) at which boundaries leave the coast, and where the two
/// inner meeting points lie, metres from the middle.
const LEAVING_DEG: [f64; 4] = [30.0, 118.0, 200.0, 292.0];
const MEETINGS: [(f64, f64); 2] = [(1_250.0, -150.0), (-1_500.0, 350.0)];

/// Parts the land. `islands` come largest first; islets go to the nearest parish.
pub fn parishes(terrain: &Terrain, islands: &[Polygon<f64>], streams: &[Stream]) -> Vec<Parish> {
    let main = &islands[0];
    let bounds = main.bounding_rect().expect("the main island has an extent");
    let middle = bounds.center();
    let mut stream = Raster::filled(false);
    for pixel in streams.iter().flat_map(|s| &s.pixels) {
        stream[*pixel] = true;
    }
    let coast: Vec<Place> = main.exterior().0[..main.exterior().0.len() - 1].to_vec();
    let leaving: Vec<usize> = LEAVING_DEG.iter().map(|bearing| leave(&coast, middle, *bearing)).collect();
    let meeting = MEETINGS.map(|(x, y)| pixel(Place { x: middle.x + x, y: middle.y + y }));
    // A boundary may touch neither the coast nor another boundary but at its ends.
    let mut used = Raster::filled(false);
    let mut course = |from: usize, to: usize, ends: [Place; 2]| -> Vec<usize> {
        let way = cheapest(from, &[to], |_, next, length| {
            let free = ends.iter().any(|end| distance(*end, centre(next)) < 110.0);
            let barred = !terrain.main[next] || (terrain.inland[next] < 70.0 || used[next]) && !free;
            if barred {
                return None;
            }
            let worth = if stream[next] {
                0.45
            } else if terrain.drained[next] <= 800.0 {
                0.6
            } else {
                1.2
            };
            Some(length * worth)
        })
        .expect("a boundary finds its way: the land is whole");
        for pixel in &way {
            used[*pixel] = true;
            for (next, _) in crate::raster::neighbours(*pixel) {
                used[next] = true;
            }
        }
        way
    };
    let inner = {
        let way = course(meeting[0], meeting[1], meeting.map(centre));
        smooth_line(&way, 4.0).0
    };
    let mut outer = |corner: usize, hub: usize| -> Vec<Place> {
        let vertex = coast[leaving[corner]];
        let start = crate::raster::neighbours(pixel(vertex))
            .map(|(next, _)| next)
            .chain([pixel(vertex)])
            .filter(|next| terrain.main[*next])
            .max_by(|a, b| terrain.inland[*a].total_cmp(&terrain.inland[*b]))
            .expect("land lies beside the coast");
        let way = course(start, meeting[hub], [vertex, centre(meeting[hub])]);
        let mut line = vec![vertex];
        line.extend(smooth_line(&way, 4.0).0);
        line
    };
    let lines = [outer(0, 0), outer(1, 1), outer(2, 1), outer(3, 0)];
    let mut parishes = Vec::new();
    for (corner, name) in NAMES.iter().enumerate() {
        // Anticlockwise: out along the last corner's line, the coast to this corner, and home.
        let last = (corner + 3) % 4;
        let mut ring: Vec<Place> = lines[last].iter().rev().copied().collect();
        let mut at = leaving[last];
        while at != leaving[corner] {
            at = (at + 1) % coast.len();
            ring.push(coast[at]);
        }
        ring.extend(&lines[corner][1..]);
        match (hub(corner), hub(last)) {
            (0, 1) => ring.extend(&inner[1..]),
            (1, 0) => ring.extend(inner.iter().rev().skip(1)),
            _ => {}
        }
        if ring[0] != ring[ring.len() - 1] {
            ring.push(ring[0]);
        }
        parishes.push(Parish { name, shape: MultiPolygon(vec![Polygon::new(LineString(ring), vec![])]) });
    }
    for islet in &islands[1..] {
        let at = islet.exterior().0[0];
        let nearest = parishes
            .iter_mut()
            .min_by(|a, b| {
                let far = |p: &Parish| {
                    p.shape.0[0].exterior().0.iter().map(|v| distance(*v, at)).fold(f64::INFINITY, f64::min)
                };
                far(a).total_cmp(&far(b))
            })
            .expect("there are four");
        nearest.shape.0.push(islet.clone());
    }
    let whole: f64 = islands.iter().map(Area::unsigned_area).sum();
    let parts: f64 = parishes.iter().map(|p| p.shape.unsigned_area()).sum();
    assert!(islands.iter().all(Validation::is_valid), "no coast crosses itself");
    assert!(parishes.iter().all(|p| p.shape.is_valid()), "no parish boundary crosses itself");
    assert!((whole - parts).abs() < 1.0, "parishes tile the land: {parts} of {whole} square metres");
    parishes
}

/// The inner meeting point that a corner's line runs to.
fn hub(corner: usize) -> usize {
    usize::from(corner == 1 || corner == 2)
}

/// The coast vertex nearest a bearing, the outermost where the coast doubles back.
fn leave(coast: &[Place], middle: Place, bearing_deg: f64) -> usize {
    let (sin, cos) = bearing_deg.to_radians().sin_cos();
    let off = |at: Place| {
        let (x, y) = (at.x - middle.x, at.y - middle.y);
        let along = x * cos + y * sin;
        if along <= 0.0 { f64::INFINITY } else { (y * cos - x * sin).abs() - 0.02 * along }
    };
    (0..coast.len()).min_by(|a, b| off(coast[*a]).total_cmp(&off(coast[*b]))).expect("the coast has vertices")
}

/// The parish whose ground holds a place.
pub fn parish_of(parishes: &[Parish], place: Place) -> Option<&'static str> {
    parishes.iter().find(|parish| parish.shape.contains(&place)).map(|parish| parish.name)
}
