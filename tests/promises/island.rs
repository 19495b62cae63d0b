//! An invented island made by formula, and studies of it: what sheets are tested on.

use geo::{Area, BooleanOps, Coord, LineString, MultiLineString, MultiPolygon, Point, Polygon};
use std::path::PathBuf;
use strew::coordinates::System;
use strew::ground::{Ground, NamedPlace, Parish, Relief};
use strew::study::{PublicStudy, Study};

pub(super) const WEST: f64 = 552_300.0;
pub(super) const SOUTH: f64 = 541_200.0;
pub(super) const RADIUS: f64 = 4_300.0;

/// A small generator of its own (a linear congruence), so that the island never changes.
pub(super) struct Dice(pub u64);

impl Dice {
    pub fn roll(&mut self) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) as f64 / (1u64 << 31) as f64
    }
}

pub(super) fn coast() -> Polygon<f64> {
    let mut dice = Dice(11);
    let waves: Vec<(f64, f64, f64)> = (2..110)
        .map(|k| {
            let k = f64::from(k);
            (k, 0.40 / k.powf(1.05) * dice.roll(), dice.roll() * 6.3)
        })
        .collect();
    let ring: Vec<Coord<f64>> = (0..1440)
        .map(|i| {
            let a = f64::from(i) / 1440.0 * std::f64::consts::TAU;
            let r =
                RADIUS * (1.0 + waves.iter().map(|(k, size, turn)| size * (k * a + turn).cos()).sum::<f64>());
            Coord { x: WEST + 5_000.0 + 1.2 * r * a.cos(), y: SOUTH + 4_600.0 + 0.85 * r * a.sin() }
        })
        .collect();
    Polygon::new(LineString::new(ring), Vec::new())
}

/// A corner of the net that parishes are cut by: a little off true, the same for all that share it.
pub(super) fn corner(i: usize, j: usize, w: f64, h: f64) -> (f64, f64) {
    let (a, b) = ((i * 7 + j * 3) as f64, (i * 5 + j * 11) as f64);
    (WEST - 2_000.0 + i as f64 * w + w * 0.12 * a.sin(), SOUTH - 1_500.0 + j as f64 * h + h * 0.12 * b.cos())
}

pub(super) fn parishes(land: &MultiPolygon<f64>, across: usize, down: usize, long: bool) -> Vec<Parish> {
    let names = ["Hernsey St Mary", "Oldwick", "Scarhaven", "Northmere"];
    let (w, h) = (14_000.0 / across as f64, 12_000.0 / down as f64);
    let mut out = Vec::new();
    for i in 0..across {
        for j in 0..down {
            let ring: Vec<(f64, f64)> = [(i, j), (i + 1, j), (i + 1, j + 1), (i, j + 1)]
                .into_iter()
                .map(|(i, j)| {
                    // The net reaches well past the land.
                    let (x, y) = corner(i, j, w, h);
                    let out = |n: usize, all: usize| {
                        if n == 0 {
                            -4_000.0
                        } else if n == all {
                            4_000.0
                        } else {
                            0.0
                        }
                    };
                    (x + out(i, across), y + out(j, down))
                })
                .collect();
            let shape =
                land.intersection(&MultiPolygon::new(vec![Polygon::new(LineString::from(ring), vec![])]));
            if shape.unsigned_area() > 1.0 {
                let n = out.len();
                let name = if long {
                    format!("Saint Bartholomew-under-the-Long-Barrow with Easter and Wester Inchbrae {n}")
                } else if n < names.len() {
                    names[n].to_owned()
                } else {
                    format!("Parish {n}")
                };
                out.push(Parish { name, also: Vec::new(), shape });
            }
        }
    }
    out.sort_by(|a, b| a.name.cmp(&b.name));
    out
}

pub(super) fn hill(x: f64, y: f64) -> f64 {
    let (u, v) = ((x - WEST) / 1000.0, (y - SOUTH) / 1000.0);
    let bump =
        |cx: f64, cy: f64, s: f64, h: f64| h * (-((u - cx).powi(2) + (v - cy).powi(2)) / (2.0 * s * s)).exp();
    let folds = 9.0 * ((u * 1.9 + v * 0.8).sin() * (v * 2.3 - u * 0.6).cos());
    bump(4.0, 5.2, 1.1, 150.0) + bump(7.4, 3.6, 1.4, 95.0) + bump(2.0, 3.4, 0.8, 60.0) + 18.0 + folds
}

pub(super) fn ground(across: usize, down: usize, long: bool) -> Ground {
    let land = MultiPolygon::new(vec![coast()]);
    let (columns, rows, pixel) = (260usize, 220usize, 50.0);
    let (west, north) = (WEST - 1_500.0, SOUTH + 10_000.0);
    let mut heights = Vec::new();
    use geo::Contains;
    for row in 0..rows {
        for column in 0..columns {
            let (x, y) = (west + (column as f64 + 0.5) * pixel, north - (row as f64 + 0.5) * pixel);
            let dry = land.contains(&Point::new(x, y));
            heights.push(if dry { hill(x, y) as f32 } else { f32::NAN });
        }
    }
    let wander = |x: f64, y: f64, turn: f64| -> LineString<f64> {
        let mut at = (x, y);
        let mut line = vec![at];
        for i in 0..60 {
            let a = turn + 0.5 * (f64::from(i) * 0.31).sin();
            at = (at.0 + 75.0 * a.cos(), at.1 + 75.0 * a.sin());
            line.push(at);
        }
        LineString::from(line)
    };
    let streams = MultiLineString::new(vec![
        wander(WEST + 4_000.0, SOUTH + 5_200.0, 3.9),
        wander(WEST + 7_300.0, SOUTH + 3_800.0, 0.6),
    ]);
    let roads = MultiLineString::new(vec![
        wander(WEST + 2_200.0, SOUTH + 3_200.0, 0.35),
        wander(WEST + 5_000.0, SOUTH + 4_300.0, 1.4),
    ]);
    let shared = MultiPolygon::new(vec![coast()]);
    let dry = |lines: &MultiLineString<f64>| shared.clip(lines, false);
    let places = [
        ("Skerry Point", 0.9, 3.6),
        ("Hern Haven", 8.9, 4.2),
        ("Great Howe", 4.0, 5.2),
        ("Mill Leat", 3.1, 2.7),
        ("Ottersgill", 6.6, 6.0),
        ("The Whins", 7.3, 3.5),
    ];
    Ground {
        system: System::BritishGrid,
        parishes: if across == 0 { Vec::new() } else { parishes(&land, across, down, long) },
        shore: MultiLineString::new(vec![coast().exterior().clone()]),
        walked: Vec::new(),
        relief: Relief::new(west, north, pixel, columns, heights),
        roads: dry(&roads),
        streams: dry(&streams),
        water: MultiPolygon::new(vec![]),
        places: places
            .iter()
            .map(|(name, u, v)| NamedPlace {
                name: if long { format!("{name} of the Seven Sleeping Kings") } else { (*name).to_owned() },
                at: Point::new(WEST + u * 1000.0, SOUTH + v * 1000.0),
            })
            .collect(),
        protected: MultiPolygon::new(vec![]),
        beach: MultiPolygon::new(vec![]),
        beach_strip: None,
        parcels: Vec::new(),
        near: Vec::new(),
        around: MultiPolygon::new(vec![]),
        credits: vec!["Hernsey Survey 2024, invented".into()],
        land,
    }
}

pub(super) fn study(language: &str, precision: &str, publication: bool, title: &str) -> PublicStudy {
    let text = format!(
        r#"
[study]
title = "{title}"
grid = "british-grid"
language = "{language}"
date = 2026-10-01
compiler = "Hernsey Field Society"
edition = "2"
[register]
files = ["finds.csv"]
[agreement.public]
precision = "{precision}"
publication = {publication}
recipient = "Hernsey Heritage Record"
give = ["maps", "density", "concentrations"]
"#
    );
    Study::parse(&text, PathBuf::from(".")).unwrap().audience("public").unwrap().clone()
}
