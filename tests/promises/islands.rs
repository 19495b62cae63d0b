//! Invented islands for the promises about places: random ground with islets, a beach, parishes, parcels and
//! walked fields, and an agreement drawn at random.

use std::fs;
use std::path::Path;

use geo::{BooleanOps, Buffer, Coord, LineString, MultiPolygon, Polygon, Rect};
use rand::{Rng, SeedableRng};
use rand_chacha::ChaCha8Rng;

/// Where islands lie, British grid: open water on this map.
pub const CENTRE: (f64, f64) = (555_000.0, 545_000.0);

/// An island and what was agreed.
pub struct Island {
    pub land: MultiPolygon<f64>,
    pub beach: MultiPolygon<f64>,
    pub parishes: Vec<(String, MultiPolygon<f64>)>,
    pub parcels: Vec<MultiPolygon<f64>>,
    pub walked: Vec<MultiPolygon<f64>>,
    /// Whether walked ground is public.
    pub walked_is_public: bool,
    /// The text of the study file.
    pub study: String,
    /// The smallest area agreed, square metres.
    pub smallest_area_m2: f64,
    /// The smallest number of places agreed.
    pub smallest_places: u32,
    /// The box round it all.
    pub bounds: Rect<f64>,
}

/// Draws an island whose radius is about `radius_m`.
pub fn island(seed: u64, radius_m: f64) -> Island {
    let mut random = ChaCha8Rng::seed_from_u64(seed);
    let land = coast(&mut random, radius_m);
    let beach = {
        let wide: MultiPolygon<f64> = land.buffer(random.random_range(15.0..60.0));
        wide.difference(&land)
    };
    let reach = radius_m * 2.2;
    let bounds = Rect::new((CENTRE.0 - reach, CENTRE.1 - reach), (CENTRE.0 + reach, CENTRE.1 + reach));
    let parishes = parishes(&mut random, bounds);
    let parcels = parcels(&mut random, radius_m);
    let walked = (0..random.random_range(1..5))
        .map(|_| {
            let (x, y) = near_centre(&mut random, radius_m);
            let (w, h) = (random.random_range(40.0..400.0), random.random_range(40.0..400.0));
            MultiPolygon(vec![Rect::new((x, y), (x + w, y + h)).to_polygon()])
        })
        .collect();
    let walked_is_public = random.random_bool(0.3);
    let (study, smallest_area_m2, smallest_places) = agreement(&mut random, walked_is_public);
    Island {
        land,
        beach,
        parishes,
        parcels,
        walked,
        walked_is_public,
        study,
        smallest_area_m2,
        smallest_places,
        bounds,
    }
}

fn near_centre(random: &mut ChaCha8Rng, radius_m: f64) -> (f64, f64) {
    let mut at = |centre: f64| centre + random.random_range(-radius_m..radius_m);
    (at(CENTRE.0), at(CENTRE.1))
}

/// A crooked island with islets about it.
fn coast(random: &mut ChaCha8Rng, radius_m: f64) -> MultiPolygon<f64> {
    let waves: Vec<(f64, f64, f64)> = (2..9)
        .map(|n| {
            (f64::from(n), random.random_range(0.0..0.12), random.random_range(0.0..std::f64::consts::TAU))
        })
        .collect();
    let blob = |x: f64, y: f64, radius: f64, points: u32| {
        let ring = (0..points).map(|i| {
            let angle = std::f64::consts::TAU * f64::from(i) / f64::from(points);
            let swell: f64 = waves.iter().map(|(n, size, phase)| size * (n * angle + phase).sin()).sum();
            let r = radius * (1.0 + swell);
            Coord { x: x + r * angle.cos(), y: y + r * angle.sin() }
        });
        Polygon::new(LineString(ring.collect()), Vec::new())
    };
    let mut whole = MultiPolygon(vec![blob(CENTRE.0, CENTRE.1, radius_m, 160)]);
    for _ in 0..random.random_range(0..5) {
        let angle: f64 = random.random_range(0.0..std::f64::consts::TAU);
        let far = radius_m * random.random_range(1.1..2.0);
        let size = random.random_range(10.0..radius_m / 5.0);
        let islet = blob(CENTRE.0 + far * angle.cos(), CENTRE.1 + far * angle.sin(), size, 40);
        whole = whole.union(&MultiPolygon(vec![islet]));
    }
    whole
}

/// Strips of country with slanting borders, sea and all; one may be narrow.
fn parishes(random: &mut ChaCha8Rng, bounds: Rect<f64>) -> Vec<(String, MultiPolygon<f64>)> {
    const NAMES: [&str; 6] = ["Ashwick", "Brunnet", "Corleigh", "Dunmere", "Elsby", "Farrow"];
    let count = random.random_range(2..6);
    let (south, north) = (bounds.min().y, bounds.max().y);
    let mut cuts: Vec<f64> =
        (1..count).map(|_| random.random_range(bounds.min().x + 400.0..bounds.max().x - 400.0)).collect();
    cuts.sort_by(f64::total_cmp);
    let slants: Vec<f64> = cuts.iter().map(|_| random.random_range(-15.0..15.0)).collect();
    let edge = |index: usize, top: bool| match index {
        0 => bounds.min().x,
        index if index > cuts.len() => bounds.max().x,
        index => cuts[index - 1] + if top { slants[index - 1] } else { -slants[index - 1] },
    };
    (0..=cuts.len())
        .map(|index| {
            let ring = vec![
                (edge(index, false), south),
                (edge(index + 1, false), south),
                (edge(index + 1, true), north),
                (edge(index, true), north),
                (edge(index, false), south),
            ];
            (NAMES[index].to_owned(), MultiPolygon(vec![Polygon::new(ring.into(), Vec::new())]))
        })
        .collect()
}

fn parcels(random: &mut ChaCha8Rng, radius_m: f64) -> Vec<MultiPolygon<f64>> {
    let step = random.random_range(120.0..400.0);
    let count = (2.0 * radius_m / step) as i32 + 1;
    let mut parcels = Vec::new();
    for column in 0..count {
        for row in 0..count {
            let (x, y) =
                (CENTRE.0 - radius_m + f64::from(column) * step, CENTRE.1 - radius_m + f64::from(row) * step);
            parcels.push(MultiPolygon(vec![Rect::new((x, y), (x + step, y + step)).to_polygon()]));
        }
    }
    parcels
}

fn agreement(random: &mut ChaCha8Rng, walked_is_public: bool) -> (String, f64, u32) {
    let (precision, side_m) =
        [("100 m", 100.0_f64), ("200 m", 200.0), ("500 m", 500.0)][random.random_range(0..3)];
    let share = [0.5, 0.5, 0.3, 0.9, 1.6][random.random_range(0..5)];
    let smallest_area_m2 = (side_m * side_m * share / 100.0).round() * 100.0;
    let smallest_places = [0, 0, 2][random.random_range(0..3)];
    let near = match random.random_range(0..3) {
        0 => {
            "[[agreement.public.stricter]]\nnear = { file = \"protected.geojson\", distance = \"120 m\" }\nprecision = \"1 km\"\n"
        }
        1 => {
            "[[agreement.public.stricter]]\nnear = { file = \"protected.geojson\", distance = \"120 m\" }\nprecision = \"parish\"\n"
        }
        _ => "",
    };
    let study = format!(
        "[study]\ntitle = \"An island for a test\"\ndate = 2026-10-01\n\
         [register]\nfiles = [\"finds.csv\"]\n\
         [ground]\n\
         parishes = {{ file = \"parishes.geojson\", name = \"parish\" }}\n\
         land = {{ file = \"land.geojson\" }}\n\
         shore = {{ file = \"shore.geojson\" }}\n\
         beach = {{ file = \"beach.geojson\", public = true, strip = \"300 m\" }}\n\
         parcels = {{ file = \"parcels.geojson\", public = true }}\n\
         walked = {{ file = \"walked.geojson\", public = {walked_is_public} }}\n\
         [sheets]\ndpi = 72\n\
         [agreement.public]\nprecision = \"{precision}\"\nsmallest_area = \"{} km2\"\n\
         smallest_places = {smallest_places}\n\
         show = [\"class\", \"period\", \"count\", \"strength\", \"parish\", \"stated-parish\", \"setting\", \"number\"]\n\
         give = [\"maps\", \"tables\", \"report\", \"layers\"]\n\
         [[agreement.public.stricter]]\nclass = [\"arrowhead\"]\nprecision = \"1 km\"\n\
         [[agreement.public.stricter]]\nsetting = \"garden\"\nprecision = \"parish\"\n{near}",
        smallest_area_m2 / 1e6
    );
    (study, smallest_area_m2, smallest_places)
}

impl Island {
    /// Writes the study file and the layers into a folder.
    pub fn write(&self, folder: &Path) {
        let put = |name: &str, text: String| fs::write(folder.join(name), text).unwrap();
        put("study.toml", self.study.clone());
        put("land.geojson", collection([("", &self.land)].into_iter().map(polygons)));
        put("beach.geojson", collection([("", &self.beach)].into_iter().map(polygons)));
        let named = self.parishes.iter().map(|(name, shape)| polygons((name, shape)));
        put("parishes.geojson", collection(named));
        put("parcels.geojson", collection(self.parcels.iter().map(|shape| polygons(("", shape)))));
        put("walked.geojson", collection(self.walked.iter().map(|shape| polygons(("", shape)))));
        let lines: Vec<String> = self.land.iter().map(|polygon| ring(polygon.exterior())).collect();
        let shore = format!(
            r#"{{"type":"Feature","properties":{{}},"geometry":{{"type":"MultiLineString","coordinates":[{}]}}}}"#,
            lines.join(",")
        );
        put("shore.geojson", collection([shore]));
        let (x, y) = (CENTRE.0 + 137.0, CENTRE.1 + 61.0);
        let protected = MultiPolygon(vec![Rect::new((x, y), (x + 30.0, y + 40.0)).to_polygon()]);
        put("protected.geojson", collection([polygons(("", &protected))]));
    }
}

fn ring(line: &LineString<f64>) -> String {
    let places: Vec<String> = line.0.iter().map(|c| format!("[{:.3},{:.3}]", c.x, c.y)).collect();
    format!("[{}]", places.join(","))
}

fn polygons((name, shape): (&str, &MultiPolygon<f64>)) -> String {
    let parts: Vec<String> = shape
        .iter()
        .map(|polygon| {
            let rings: Vec<String> =
                std::iter::once(polygon.exterior()).chain(polygon.interiors()).map(ring).collect();
            format!("[{}]", rings.join(","))
        })
        .collect();
    format!(
        r#"{{"type":"Feature","properties":{{"parish":"{name}"}},"geometry":{{"type":"MultiPolygon","coordinates":[{}]}}}}"#,
        parts.join(",")
    )
}

fn collection(features: impl IntoIterator<Item = String>) -> String {
    let features: Vec<String> = features.into_iter().collect();
    format!(
        r#"{{"type":"FeatureCollection","crs":{{"type":"name","properties":{{"name":"urn:ogc:def:crs:EPSG::27700"}}}},"features":[{}]}}"#,
        features.join(",")
    )
}
