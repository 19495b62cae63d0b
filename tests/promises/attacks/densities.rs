//! Density deconvolution: from the raster of a pack and its known kernel, the pieces of each square by least squares.
//! Linear programming over every table is `publishing`'s own judge.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use gdal::Dataset;
use rand::Rng;
use strew::coordinates::Cell;
use strew::exact::{Release, ReleasedFind, ReleasedPlace};

use super::super::common::least_squares;
use super::{Bench, Open, Rate, judge, seeded};

fn bench(counts: &str) -> Bench {
    Bench::bare(&format!(
        "[agreement.public]\nprecision = \"100 m\"\nshow = [\"class\", \"count\"]\n\
         give = [\"tables\", \"layers\", \"density\"]\ncounts = \"{counts}\"\n\
         [density]\nbandwidth = \"60 m\"\npixel = \"25 m\"\n"
    ))
}

/// The raster of a pack, in order of its file.
fn raster(pack: &BTreeMap<String, Vec<u8>>) -> Vec<f64> {
    let file = tempfile::Builder::new().suffix(".tif").tempfile().unwrap();
    std::fs::write(file.path(), &pack["layers/density.tif"]).unwrap();
    let dataset = Dataset::open(file.path()).unwrap();
    let size = dataset.raster_size();
    let band = dataset.rasterband(1).unwrap();
    band.read_as::<f64>((0, 0), size, size, None).unwrap().data().to_vec()
}

/// What the attacker makes himself: the raster of any release, with exact counts, by the program that he has.
fn of_release(exact: &Open, release: &Release) -> Vec<f64> {
    let pack =
        strew::run::pack(&exact.public, &exact.ground, release, &super::super::common::Silent).unwrap();
    raster(pack.files())
}

/// Pieces of each square by least squares: the raster is a sum of one known raster a square.
fn deconvolved(exact: &Open, told: &Release, seen: &[f64]) -> Vec<(Cell, f64)> {
    let mut squares: BTreeMap<Cell, ReleasedFind> = BTreeMap::new();
    for find in &told.finds {
        let ReleasedPlace::Cell(cell) = find.place else { panic!("a square") };
        squares.insert(cell, ReleasedFind { count: 100, ..find.clone() });
    }
    let ones: Vec<ReleasedFind> = squares.values().cloned().collect();
    let base = of_release(exact, &Release { finds: ones.clone(), ..told.clone() });
    let kernels: Vec<Vec<f64>> = (0..ones.len())
        .map(|at| {
            let mut more = ones.clone();
            more[at].count = 10_100;
            let raster = of_release(exact, &Release { finds: more, ..told.clone() });
            raster.iter().zip(&base).map(|(more, base)| (more - base) / 10_000.0).collect()
        })
        .collect();
    let seen: Vec<f64> = seen.iter().map(|value| value.max(0.0)).collect();
    squares.into_keys().zip(least_squares(&kernels, &seen)).collect()
}

#[test]
fn density_deconvolution() {
    let (banded, exact) = (bench("bands"), bench("exact"));
    let (of_bands, of_exact) = (banded.open("public"), exact.open("public"));
    let mut random = seeded(7);
    let (mut twin, mut real) = (Rate::default(), Rate::default());
    for _ in 0..8 {
        let mut truth: BTreeMap<Cell, u32> = BTreeMap::new();
        let mut text = String::from("No,Easting,Northing,Class,Count\n");
        for at in rand::seq::index::sample(&mut random, 36, 12) {
            let (column, row) = ((at % 6) as i32, (at / 6) as i32);
            let cell = Cell { side_m: 100, column: 5_550 + column, row: 5_450 + row };
            // Of the band of three to nine, each as likely as another: who knows the band is right once in seven.
            let count = random.random_range(3..10);
            truth.insert(cell, count);
            let (x, y) = (cell.west_m() + 37.0, cell.south_m() + 61.0);
            writeln!(text, "{at},{x:.0},{y:.0},flake,{count}").unwrap();
        }
        for bench in [&banded, &exact] {
            bench.register(&text);
        }
        for (open, rate) in [(&of_bands, &mut real), (&of_exact, &mut twin)] {
            let release = open.release();
            let seen = raster(&open.pack());
            for (cell, pieces) in deconvolved(&of_exact, &release, &seen) {
                rate.add((pieces - f64::from(truth[&cell])).abs() < 0.5);
            }
        }
    }
    judge("7 density deconvolution", 1.0 / 7.0, twin, real);
}
