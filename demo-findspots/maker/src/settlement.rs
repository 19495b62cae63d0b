//! Where people live: villages, the roads between them, names on the land.

use geo::{Contains, LineString, Polygon};

use crate::noise::Noise;
use crate::parishes::Parish;
use crate::raster::{COLUMNS, Place, ROWS, centre, distance, neighbours, pixel};
use crate::routes::{cheapest, smooth_line};
use crate::terrain::Terrain;

pub struct Named {
    pub name: &'static str,
    pub kind: &'static str,
    pub at: Place,
}

pub struct Road {
    pub kind: &'static str,
    pub line: LineString<f64>,
    pub pixels: Vec<usize>,
}

/// One village a parish: on gentle, low ground, not far from the sea, near where the parish is widest.
pub fn villages(terrain: &Terrain, parishes: &[Parish]) -> Vec<Named> {
    let taste = Noise::new(77);
    parishes
        .iter()
        .map(|parish| {
            let main = &parish.shape.0[0];
            let middle = mean(main);
            let at = (0..COLUMNS * ROWS)
                .step_by(3)
                .filter(|p| (300.0..1_500.0).contains(&terrain.inland[*p]) && main.contains(&centre(*p)))
                .min_by(|a, b| {
                    let worth = |p: usize| {
                        let at = centre(p);
                        distance(at, middle) / 900.0
                            + 30.0 * terrain.slope(p)
                            + terrain.height[p] / 45.0
                            + (terrain.inland[p] - 600.0).abs() / 500.0
                            + taste.at(at.x / 400.0, at.y / 400.0)
                    };
                    worth(*a).total_cmp(&worth(*b))
                })
                .expect("a parish has room for a village");
            Named { name: parish.name, kind: "village", at: centre(at) }
        })
        .collect()
}

fn mean(shape: &Polygon<f64>) -> Place {
    let ring = &shape.exterior().0;
    let n = ring.len() as f64;
    Place { x: ring.iter().map(|p| p.x).sum::<f64>() / n, y: ring.iter().map(|p| p.y).sum::<f64>() / n }
}

/// Roads from village to village, a lane to the landing and one to the northern head.
pub fn roads(terrain: &Terrain, villages: &[Named], landing: Place, head: Place) -> Vec<Road> {
    let pairs = [
        ("road", villages[0].at, villages[1].at),
        ("road", villages[1].at, villages[2].at),
        ("road", villages[2].at, villages[3].at),
        ("road", villages[3].at, villages[0].at),
        ("lane", villages[3].at, landing),
        ("lane", villages[1].at, head),
    ];
    let wander = Noise::new(78);
    let mut made = vec![false; COLUMNS * ROWS];
    let mut roads = Vec::new();
    for (kind, from, to) in pairs {
        let way = cheapest(pixel(from), &[pixel(to)], |here, next, length| {
            let near_end = distance(centre(next), to) < 120.0;
            if !terrain.main[next] {
                return None;
            }
            let brink = if terrain.inland[next] < 50.0 && !near_end { 12.0 } else { 0.0 };
            if made[next] {
                return Some(length * 0.6);
            }
            // Not beside a road either: it would join it.
            let beside = neighbours(next).any(|(near, _)| made[near]);
            let climb = (terrain.height[next] - terrain.height[here]).abs() / length;
            let wet = if terrain.drained[next] > 210_000.0 { 90.0 } else { 0.0 };
            let at = centre(next);
            let ease = 1.0 + 0.8 * wander.octaves(at.x / 260.0, at.y / 260.0, 3, 0.6);
            Some(
                length * (ease.max(0.25) + 170.0 * climb * climb + if beside { 2.0 } else { 0.0 } + brink)
                    + wet,
            )
        })
        .expect("a road finds its way: the land is whole");
        // Where it runs along a road that is there already, that road serves.
        for stretch in way.chunk_by(|a, b| made[*a] == made[*b]) {
            if !made[stretch[0]] && stretch.len() > 4 {
                let first = way.iter().position(|p| *p == stretch[0]).unwrap_or(0);
                let last = first + stretch.len();
                let own = way[first.saturating_sub(1)..(last + 1).min(way.len())].to_vec();
                roads.push(Road { kind, line: smooth_line(&own, 3.0), pixels: own });
            }
        }
        for pixel in way {
            made[pixel] = true;
        }
    }
    roads
}
