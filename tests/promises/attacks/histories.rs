//! Correction and second grid: what all editions and all audiences were told of a find, intersected.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use geo::{Area, BooleanOps, MultiPolygon};
use rand::{Rng, seq::SliceRandom};
use strew::coordinates::{Cell, Converter, System};
use strew::exact::{Release, ReleasedPlace};

use super::super::common::outline;
use super::{Bench, Rate, judge, seeded};

/// Half a square of 500 m: what both audiences are promised.
const PROMISED_M2: f64 = 125_000.0;

const AUDIENCES: &str = "[agreement.public]\nprecision = \"500 m\"\nshow = [\"class\", \"count\", \"number\"]\n\
                         give = [\"tables\"]\n\
                         [agreement.members]\ngrid = \"utm-30n\"\nprecision = \"500 m\"\n\
                         show = [\"class\", \"count\", \"number\"]\ngive = [\"tables\"]\n";

/// What was told of a find, in the British grid.
type Told = BTreeMap<String, Vec<MultiPolygon<f64>>>;

fn listen(told: &mut Told, release: &Release, carried: Option<&Converter>) {
    for find in &release.finds {
        let ReleasedPlace::Cell(cell) = find.place else { panic!("a square") };
        let number = find.details.as_ref().unwrap().number.clone().unwrap();
        told.entry(number).or_default().push(outline(cell, carried));
    }
}

/// How many finds are told to less ground than was promised. Squares that only touch tell the edge between them.
fn narrowed(told: &Told) -> Rate {
    let mut rate = Rate::default();
    for shapes in told.values() {
        let shared = shapes.iter().cloned().reduce(|a, b| a.intersection(&b)).unwrap();
        rate.add(shared.unsigned_area() < PROMISED_M2 * 0.999);
    }
    rate
}

#[test]
fn corrections_and_a_second_grid() {
    let bench = Bench::bare(AUDIENCES);
    let mut random = seeded(6);
    let carried = Converter::new(&System::Epsg(32630), &System::BritishGrid).unwrap();
    let mut finds: Vec<(usize, f64, f64)> = (0..100)
        .map(|index| {
            let mut at = |from: f64| from + random.random_range(0.0..6_000.0_f64);
            (index, at(552_000.0), at(542_000.0))
        })
        .collect();
    let (mut twin, mut real) = (Told::new(), Told::new());
    for edition in 0..3 {
        if edition > 0 {
            // Places read again on a better map; and rows in another order.
            for (_, x, y) in &mut finds {
                *x += random.random_range(-40.0..40.0);
                *y += random.random_range(-40.0..40.0);
            }
            finds.shuffle(&mut random);
        }
        let mut text = String::from("No,Easting,Northing,Class,Count\n");
        for (number, x, y) in &finds {
            writeln!(text, "{number},{x:.0},{y:.0},flake,1").unwrap();
        }
        bench.register(&text);
        for (audience, carried) in [("public", None), ("members", Some(&carried))] {
            let open = bench.open(audience);
            listen(&mut twin, &open.release(), carried);
            listen(&mut real, &open.remembering().unwrap(), carried);
        }
    }
    assert!(real.len() > 90, "most finds are told of");
    judge("6 corrections and a second grid", 0.0, narrowed(&twin), narrowed(&real));
}

/// The square that the public is told of the find of each count, edition by edition.
fn editions(first: &str, second: &str) -> Option<Vec<BTreeMap<u32, Vec<Cell>>>> {
    let bench = Bench::bare(AUDIENCES);
    let mut told = Vec::new();
    for text in [first, second] {
        bench.register(text);
        let release = bench.open("public").remembering().ok()?;
        let mut edition: BTreeMap<u32, Vec<Cell>> = BTreeMap::new();
        for find in &release.finds {
            let ReleasedPlace::Cell(cell) = find.place else { panic!("a square") };
            edition.entry(find.count).or_default().push(cell);
        }
        told.push(edition);
    }
    Some(told)
}

fn row(number: &str, place: (f64, f64), count: u32) -> String {
    format!("{number},{:.0},{:.0},flake,{count}\n", place.0, place.1)
}

const HEADINGS: &str = "No,Easting,Northing,Class,Count\n";

/// A row that is corrected over an edge of its square, and renumbered at the same time: the thief knows it again by its
/// count. Either the owner is asked whether it is the same find, or it is told in its old square.
#[test]
fn renumbered_and_corrected_at_once() {
    let mut random = seeded(66);
    let mut told = Rate::default();
    for index in 0..20 {
        let edge = (555_000.0 + 500.0 * f64::from(index % 5), 545_250.0);
        let off = random.random_range(5.0..30.0);
        let (before, after) = ((edge.0 - off, edge.1), (edge.0 + off, edge.1));
        let first = format!("{HEADINGS}{}", row("7", before, 17));
        let second = format!("{HEADINGS}{}", row("99", after, 17));
        let Some(editions) = editions(&first, &second) else {
            told.add(false);
            continue;
        };
        told.add(editions[0][&17] != editions[1][&17]);
    }
    println!("6 renumbered and corrected at once: both sides of an edge told in {}", told.said());
    assert_eq!(told.hits, 0);
}

/// A row that is taken out, and entered again later under another number and over an edge.
#[test]
fn taken_out_and_entered_anew() {
    let bench = Bench::bare(AUDIENCES);
    let row_of = |number, x| format!("{HEADINGS}{}", row(number, (x, 545_250.0), 17));
    let mut told = Vec::new();
    for text in [row_of("7", 555_480.0), HEADINGS.to_owned(), row_of("99", 555_520.0)] {
        bench.register(&text);
        // A refusal until the owner settles it would do.
        let Ok(release) = bench.open("public").remembering() else { continue };
        told.extend(release.finds.iter().map(|find| find.place.clone()));
    }
    told.dedup();
    println!("6 taken out and entered anew: told in {} squares", told.len());
    assert_eq!(told.len(), 1);
}

/// A planted row that says what a row said before it was corrected must not take that find's history with it.
#[test]
fn a_planted_row_takes_no_history() {
    let mut random = seeded(67);
    let mut told = Rate::default();
    for index in 0..20 {
        let edge = (555_000.0 + 500.0 * f64::from(index % 5), 545_250.0);
        let off = random.random_range(5.0..30.0);
        let (before, after) = ((edge.0 - off, edge.1), (edge.0 + off, edge.1));
        let first = format!("{HEADINGS}{}", row("7", before, 17));
        // Planted above the true row, under a number of its own.
        let second = format!("{HEADINGS}{}{}", row("99", before, 17), row("7", after, 17));
        let Some(editions) = editions(&first, &second) else {
            told.add(false);
            continue;
        };
        // The planter knows his own row: what is left is the true one.
        told.add(editions[1][&17].iter().any(|cell| *cell != editions[0][&17][0]));
    }
    println!("6 a planted row takes a history: the true find told anew in {}", told.said());
    assert_eq!(told.hits, 0);
}
