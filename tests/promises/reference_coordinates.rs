//! A hundred thousand random places a system, there and back, and as many references, beside
//! general-purpose libraries that know nothing of this program: pyproj, `convertbng` (which carries
//! OSTN15) and `mgrs` from PyPI. This side carries the places and writes what came of them to a folder;
//! `tests/reference/coordinates.py` works the same out by those libraries, or by a few lines of its own,
//! prints the largest difference of each system, and fails where one is too large.

use std::collections::BTreeMap;
use std::path::Path;
use std::process::Command;

use rand::{Rng, SeedableRng};
use rand_chacha::ChaCha8Rng;
use strew::coordinates::notation::{self, Written};
use strew::coordinates::{Cell, Converter, Position, System, convert_many};

use super::common::{python, root};

const PLACES: usize = 100_000;

/// Name, system, and the box of longitudes and latitudes to draw places from: the system's area of use
/// in the EPSG dataset, or the part of it that the other library takes.
const SYSTEMS: &[(&str, &str, [f64; 4])] = &[
    // What `convertbng` takes for Britain is narrower than OSTN15.
    ("british-grid", "british-grid", [-7.55, 49.97, 1.77, 60.83]),
    ("irish-grid", "irish-grid", [-10.56, 51.39, -5.34, 55.43]),
    ("itm", "itm", [-10.56, 51.39, -5.34, 55.43]),
    ("lambert-93", "lambert-93", [-9.86, 41.15, 10.38, 51.56]),
    ("cc42", "conic-conformal-42", [-1.06, 41.31, 9.63, 43.07]),
    ("cc43", "conic-conformal-43", [-1.79, 42.33, 7.65, 44.01]),
    ("cc44", "conic-conformal-44", [-1.79, 42.92, 7.71, 45.0]),
    ("cc45", "conic-conformal-45", [-1.46, 44.0, 7.71, 46.0]),
    ("cc46", "conic-conformal-46", [-2.21, 45.0, 7.16, 47.0]),
    ("cc47", "conic-conformal-47", [-4.77, 46.0, 7.63, 48.0]),
    ("cc48", "conic-conformal-48", [-4.87, 47.0, 8.23, 49.0]),
    ("cc49", "conic-conformal-49", [-4.87, 48.0, 8.23, 50.0]),
    ("cc50", "conic-conformal-50", [-2.03, 49.0, 8.08, 51.14]),
    // The old French grids, all within IGN's shift grid.
    ("lambert-zone-1", "lambert-zone-1", [-4.86, 48.15, 8.22, 51.13]),
    ("lambert-2-extended", "lambert-2-extended", [-4.86, 41.32, 9.62, 51.13]),
    ("lambert-zone-3", "lambert-zone-3", [-1.79, 42.33, 7.71, 45.45]),
    ("lambert-zone-4", "lambert-zone-4", [8.5, 41.32, 9.62, 43.06]),
    ("utm-28n", "utm-28n", [-18.0, 0.0, -12.0, 84.0]),
    ("utm-29n", "utm-29n", [-12.0, 0.0, -6.0, 84.0]),
    ("utm-30n", "utm-30n", [-6.0, 0.0, 0.0, 84.0]),
    ("utm-31n", "utm-31n", [0.0, 0.0, 6.0, 84.0]),
    ("utm-32n", "utm-32n", [6.0, 0.0, 12.0, 84.0]),
    ("utm-33n", "utm-33n", [12.0, 0.0, 18.0, 84.0]),
    // Where ETRS89 is used: the projection's own area reaches further.
    ("european", "EPSG:3035", [-16.0, 33.3, 38.0, 84.7]),
    ("jersey", "EPSG:3109", [-2.56, 48.87, -1.81, 49.44]),
    ("guernsey", "EPSG:3108", [-3.06, 49.21, -2.03, 49.94]),
    ("dutch", "EPSG:28992", [3.2, 50.75, 7.22, 53.7]),
    ("belgian-1972", "EPSG:31370", [2.5, 49.5, 6.4, 51.51]),
    ("belgian-2008", "EPSG:3812", [2.5, 49.5, 6.4, 51.51]),
    ("swiss-1995", "EPSG:2056", [5.96, 45.82, 10.49, 47.81]),
    ("swiss-1903", "EPSG:21781", [5.96, 45.82, 10.49, 47.81]),
    ("etrs89-utm-32n", "EPSG:25832", [6.0, 36.53, 12.01, 84.0]),
    ("etrs89-utm-33n", "EPSG:25833", [12.0, 34.79, 18.01, 84.0]),
    ("german-2", "EPSG:31466", [5.86, 49.11, 7.51, 53.81]),
    ("german-3", "EPSG:31467", [7.5, 47.27, 10.51, 55.09]),
    ("german-4", "EPSG:31468", [10.5, 47.39, 13.51, 54.59]),
    ("german-5", "EPSG:31469", [13.5, 48.51, 13.84, 48.98]),
];

fn compare(what: &str, folder: &Path) {
    let status = Command::new(python())
        .arg(root().join("tests/reference/coordinates.py"))
        .arg(what)
        .arg(folder)
        .arg(root().join("data/ntf_r93.gsb"))
        .status()
        .expect("Python runs");
    assert!(status.success(), "answers differ: see what coordinates.py printed above");
}

fn write_numbers(folder: &Path, name: &str, columns: &[&[f64]]) {
    let bytes: Vec<u8> =
        columns.iter().flat_map(|column| column.iter()).flat_map(|x| x.to_le_bytes()).collect();
    std::fs::write(folder.join(name), bytes).unwrap();
}

/// What is told of the operation at each place, as numbers into a list.
fn operations(from: &System, to: &System, xs: &[f64], ys: &[f64]) -> (Vec<String>, Vec<f64>) {
    let converter = Converter::new(from, to).unwrap();
    let mut known = BTreeMap::new();
    let mut list = Vec::new();
    let told = xs.iter().zip(ys).map(|(x, y)| {
        converter.convert_xy(*x, *y).unwrap();
        let told = converter.operation().description;
        let next = known.len();
        let index = *known.entry(told.clone()).or_insert(next);
        if index == list.len() {
            list.push(told);
        }
        index as f64
    });
    let told = told.collect();
    (list, told)
}

#[test]
fn a_hundred_thousand_places_a_system_there_and_back() {
    let folder = tempfile::tempdir().unwrap();
    let mut listed = Vec::new();
    for (index, (name, system, [west, south, east, north])) in SYSTEMS.iter().enumerate() {
        let mut chance = ChaCha8Rng::seed_from_u64(index as u64);
        let system: System = system.parse().unwrap();
        let mut draw =
            |from: f64, to: f64| -> Vec<f64> { (0..PLACES).map(|_| chance.random_range(from..to)).collect() };
        let (longitudes, latitudes) = (draw(*west, *east), draw(*south, *north));
        let (mut es, mut ns) = (longitudes.clone(), latitudes.clone());
        let refused_there = convert_many(&System::Wgs84, &system, &mut es, &mut ns).unwrap();
        let (mut xs, mut ys) = (es.clone(), ns.clone());
        let refused_back = convert_many(&system, &System::Wgs84, &mut xs, &mut ys).unwrap();
        assert_eq!((refused_there, refused_back), (0, 0), "{name}: places of its own area refused");
        let (there, by_there) = operations(&System::Wgs84, &system, &longitudes, &latitudes);
        let (back, by_back) = operations(&system, &System::Wgs84, &es, &ns);
        write_numbers(
            folder.path(),
            &format!("{name}.f64"),
            &[&longitudes, &latitudes, &es, &ns, &xs, &ys, &by_there, &by_back],
        );
        listed.push(serde_json::json!({
            "name": name, "epsg": system.epsg(), "there": there, "back": back,
        }));
    }
    std::fs::write(folder.path().join("systems.json"), serde_json::to_string(&listed).unwrap()).unwrap();
    compare("systems", folder.path());
}

fn corner(written: &Written) -> (f64, f64) {
    match written.corner {
        Some(Position::Projected { easting_m, northing_m }) => (easting_m, northing_m),
        _ => panic!("{written:?}"),
    }
}

/// Places all over the part of the world that UTM serves, a fifth of them where zones are not 6° wide
/// (south-west Norway, Svalbard), with their references at every precision, and what those read back as.
#[test]
fn military_references_of_a_hundred_thousand_places() {
    let folder = tempfile::tempdir().unwrap();
    let mut chance = ChaCha8Rng::seed_from_u64(1);
    let mut converters: BTreeMap<u32, Converter> = BTreeMap::new();
    let (mut latitudes, mut longitudes, mut es, mut ns) = (vec![], vec![], vec![], vec![]);
    let mut references: Vec<String> = vec![String::new(); 6];
    let mut read: Vec<Vec<f64>> = vec![vec![]; 6];
    for index in 0..PLACES {
        let ([south, north], [west, east]) = match index % 10 {
            0 => ([55.5, 64.5], [-1.0, 13.0]),
            1 => ([71.5, 84.0], [-1.0, 43.0]),
            _ => ([-80.0, 84.0], [-180.0, 180.0]),
        };
        let latitude: f64 = chance.random_range(south..north);
        let longitude: f64 = chance.random_range(west..east);
        let zone = notation::zone_of(latitude, longitude);
        let code = zone + if latitude < 0.0 { 32_700 } else { 32_600 };
        let converter = converters
            .entry(code)
            .or_insert_with(|| Converter::new(&System::Wgs84, &System::from_epsg(code)).unwrap());
        let (e, n) = converter.convert_xy(longitude, latitude).unwrap();
        latitudes.push(latitude);
        longitudes.push(longitude);
        es.push(e);
        ns.push(n);
        for figures in 0..=5 {
            let reference = notation::mgrs(zone, latitude, e, n, figures).unwrap();
            let written = notation::read(&reference, None, false).unwrap();
            let (west, south) = corner(&written);
            let side = written.square_m;
            assert_eq!(side, 10_f64.powi(5 - figures as i32), "{reference}");
            assert_eq!(written.system, System::from_epsg(code), "{reference}");
            assert!(
                (west..west + side).contains(&e) && (south..south + side).contains(&n),
                "{reference}: {e} {n}"
            );
            references[figures].push_str(&reference);
            references[figures].push('\n');
            read[figures].extend([west, south, f64::from(zone), f64::from(code >= 32_700)]);
        }
    }
    write_numbers(folder.path(), "places.f64", &[&latitudes, &longitudes, &es, &ns]);
    for figures in 0..=5 {
        std::fs::write(folder.path().join(format!("{figures}.txt")), &references[figures]).unwrap();
        write_numbers(folder.path(), &format!("{figures}.f64"), &[&read[figures]]);
    }
    compare("military", folder.path());
}

/// British and Irish references: every lettered square, and random places at every precision, written
/// and read; then random references in many spellings, which the other side reads by itself.
#[test]
fn letter_references_by_hand() {
    let folder = tempfile::tempdir().unwrap();
    let mut chance = ChaCha8Rng::seed_from_u64(2);
    let mut lines = String::new();
    let irish: System = "irish-grid".parse().unwrap();
    for (grid, system, columns, rows, width, height) in [
        ("british", &System::BritishGrid, 7, 13, 700_000.0, 1_250_000.0),
        ("irish", &irish, 5, 5, 500_000.0, 500_000.0),
    ] {
        for square in 0..columns * rows {
            let cell = Cell { side_m: 100_000, column: square % columns, row: square / columns };
            let reference = notation::reference(system, cell);
            lines += &format!("square\t{grid}\t{}\t{}\t{reference}\n", cell.west_m(), cell.south_m());
        }
        for index in 0..PLACES / 2 {
            let side = [1, 10, 100, 1000, 10_000, 2, 5, 50, 200, 500, 2000, 5000][index % 12];
            let (e, n) = (chance.random_range(0.0..width), chance.random_range(0.0..height));
            let reference = notation::reference(system, Cell::holding(e, n, side).unwrap());
            let written = notation::read(&reference, Some(system), false).unwrap();
            assert_eq!(&written.system, system, "{reference}");
            let (west, south) = corner(&written);
            let read = written.square_m;
            lines += &format!(
                "written\t{grid}\t{side}\t{e:?}\t{n:?}\t{reference}\t{west:?}\t{south:?}\t{read:?}\n"
            );
        }
        // Letters and figures by chance, with and without spaces, in both cases.
        for _ in 0..PLACES / 2 {
            let letters = b"ABCDEFGHJKLMNOPQRSTUVWXYZ";
            let mut text = String::new();
            for _ in 0..if grid == "irish" { 1 } else { 2 } {
                text.push(char::from(letters[chance.random_range(0..25)]));
            }
            let figures = chance.random_range(1..=6);
            let space = if chance.random_bool(0.5) { " " } else { "" };
            for _ in 0..2 {
                text += space;
                for _ in 0..figures {
                    text.push(char::from(b'0' + chance.random_range(0..10)));
                }
            }
            if chance.random_bool(0.3) {
                text = text.to_lowercase();
            }
            let read = match notation::read(&text, Some(system), false) {
                Ok(written) => {
                    let (west, south) = corner(&written);
                    format!("{west:?}\t{south:?}\t{:?}", written.square_m)
                }
                Err(fault) => fault.id.to_owned(),
            };
            lines += &format!("read\t{grid}\t{text}\t{read}\n");
        }
    }
    std::fs::write(folder.path().join("letters.tsv"), lines).unwrap();
    compare("letters", folder.path());
}
