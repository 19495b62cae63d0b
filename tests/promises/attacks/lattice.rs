//! Lattice preimage: which places of a 10 m lattice give the same release, and how much ground that leaves.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use geo::MultiPolygon;
use strew::coordinates::{Cell, Converter, System};
use strew::exact::ReleasedPlace;
use strew::ground::cover::{Frame, shares};

use super::super::islands::{Island, island};
use super::{Bench, Rate, judge};

const STEP_M: f64 = 10.0;

/// Places of a lattice on an island, each with the ground that its pixel holds, square metres.
pub fn lattice(island: &Island, ground: &MultiPolygon<f64>) -> Vec<(f64, f64, f64)> {
    let frame = Frame {
        west_m: (island.bounds.min().x / 1_000.0).floor() * 1_000.0,
        south_m: (island.bounds.min().y / 1_000.0).floor() * 1_000.0,
        pixel_m: STEP_M,
        columns: ((island.bounds.width() / 1_000.0).ceil() as usize + 1) * 100,
        rows: ((island.bounds.height() / 1_000.0).ceil() as usize + 1) * 100,
    };
    let on = |share: f64, index: usize| {
        let (column, row) = (index % frame.columns, index / frame.columns);
        let at = |origin: f64, step: usize| origin + (step as f64 + 0.5) * STEP_M;
        (at(frame.west_m, column), at(frame.south_m, row), share * STEP_M * STEP_M)
    };
    let all = shares(ground, &frame).into_iter().enumerate();
    all.filter(|(_, share)| share * 100.0 > 1.0).map(|(index, share)| on(share, index)).collect()
}

/// How many places of the lattice are told so that less than `least_m2` is left to them.
pub fn betrayed<T: Ord>(told: &[(T, f64)], least_m2: f64) -> Rate {
    let mut left: BTreeMap<&T, (f64, usize)> = BTreeMap::new();
    for (output, area_m2) in told {
        let group = left.entry(output).or_default();
        group.0 += area_m2;
        group.1 += 1;
    }
    let hits = left.values().filter(|group| group.0 < least_m2 * 0.999).map(|group| group.1).sum();
    Rate { hits, of: told.len() }
}

#[test]
fn lattice_preimage() {
    let (mut twin, mut real) = (Rate::default(), Rate::default());
    let to_degrees = Converter::new(&System::BritishGrid, &System::Wgs84).unwrap();
    for (seed, side_m, share) in [(40, 100_u32, 0.5), (41, 200, 0.6), (42, 100, 0.9), (43, 500, 0.3)] {
        let island = island(seed, 450.0);
        let least_m2 = (f64::from(side_m).powi(2) * share).round();
        let bench = Bench { folder: tempfile::tempdir().unwrap() };
        island.write(bench.path());
        let head = island.study.split("[agreement.public]").next().unwrap();
        let head = head.replace("parcels =", "#").replace("beach =", "#").replace("walked =", "#");
        bench.study(&format!(
            "{head}[agreement.public]\nprecision = \"{side_m} m\"\nsmallest_area = \"{} km2\"\n\
             show = [\"class\", \"count\", \"number\"]\ngive = [\"tables\"]\n",
            least_m2 / 1e6
        ));
        let places = lattice(&island, &island.land);
        // Written as finders write: metres, a grid reference of eight figures, degrees.
        let mut text = String::from("No,Grid ref,Easting,Northing,Latitude,Longitude,Class\n");
        for (index, (x, y, _)) in places.iter().enumerate() {
            match index % 3 {
                0 => writeln!(text, "{index},,{x:.0},{y:.0},,,flake").unwrap(),
                1 => {
                    let tens = |v: &f64| *v as i64 % 100_000 / 10;
                    writeln!(text, "{index},OV {:04} {:04},,,,,flake", tens(x), tens(y)).unwrap();
                }
                _ => {
                    let (lon, lat) = to_degrees.convert_xy(*x, *y).unwrap();
                    writeln!(text, "{index},,,,{lat:.6},{lon:.6},flake").unwrap();
                }
            }
        }
        bench.register(&text);
        let release = bench.open("public").release();
        let mut told: BTreeMap<usize, ReleasedPlace> = BTreeMap::new();
        for find in &release.finds {
            let number = find.details.as_ref().unwrap().number.clone().unwrap();
            told.insert(number.parse().unwrap(), find.place.clone());
        }
        assert_eq!(release.tally.read as usize, places.len());
        let add = |rate: &mut Rate, one: Rate| {
            *rate = Rate { hits: rate.hits + one.hits, of: rate.of + one.of };
        };
        let outputs: Vec<(Option<&ReleasedPlace>, f64)> =
            places.iter().enumerate().map(|(index, place)| (told.get(&index), place.2)).collect();
        add(&mut real, betrayed(&outputs, least_m2));
        // The twin cuts to the agreed square and knows of no coast.
        let cut: Vec<(Option<Cell>, f64)> =
            places.iter().map(|(x, y, area)| (Cell::holding(*x, *y, side_m), *area)).collect();
        add(&mut twin, betrayed(&cut, least_m2));
    }
    judge("1 lattice preimage", 0.0, twin, real);
}
