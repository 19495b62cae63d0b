//! What can be made of a pack without its register: a hidden part of a place, from every byte; a place from releases
//! made again and again; and a place within its square from marks on a sheet.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use rand::{Rng, seq::SliceRandom};
use rand_chacha::ChaCha8Rng;
use sha2::{Digest as _, Sha256};
use strew::coordinates::Cell;
use strew::exact::ReleasedPlace;

use super::super::factoring::write_ground;
use super::{Bench, Rate, Stump, judge, seeded};

type Files = BTreeMap<String, Vec<u8>>;

const AGREED: &str = "[agreement.public]\nprecision = \"100 m\"\nshow = [\"class\", \"period\", \"count\"]\n\
                      give = [\"tables\", \"layers\"]\n";
const CLASSES: [&str; 5] = ["flake", "blade", "core", "scraper", "waste"];

/// Figures of every file: its length, bits of its digest, its bytes' mean, and how far into it each class is first named.
fn figures(files: &Files) -> Vec<f64> {
    let mut figures = Vec::new();
    for bytes in files.values() {
        figures.push(bytes.len() as f64);
        figures.push(bytes.iter().map(|byte| f64::from(*byte)).sum::<f64>() / bytes.len().max(1) as f64);
        let digest = Sha256::digest(bytes);
        figures.extend((0..24).map(|bit| f64::from(digest[bit / 8] >> (bit % 8) & 1)));
        let text = String::from_utf8_lossy(bytes).to_lowercase();
        for class in CLASSES.iter().chain(&["microlith"]) {
            figures.push(text.find(class).map_or(-1.0, |at| at as f64 / text.len() as f64));
        }
    }
    figures
}

/// Finds of four squares about one; the microlith lies in the first, in the half asked for. Entered from west to east,
/// as somebody who walked so writes them.
fn register(random: &mut ChaCha8Rng, east: bool) -> (String, Vec<(f64, f64, &'static str)>) {
    let half = if east { 50.0 } else { 0.0 };
    let mut at = |from: f64, to: f64| (from + random.random_range(0.0..to)).floor();
    let mut finds = vec![(at(555_000.0 + half, 50.0), at(545_000.0, 100.0), "microlith")];
    for index in 0..24 {
        let (column, row) = (f64::from(index % 4 % 2), f64::from(index % 4 / 2));
        let place = (at(555_000.0 + column * 100.0, 100.0), at(545_000.0 + row * 100.0, 100.0));
        finds.push((place.0, place.1, CLASSES[index as usize % 5]));
    }
    finds.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut text = String::from("No,Easting,Northing,Class,Count\n");
    for (index, (x, y, class)) in finds.iter().enumerate() {
        writeln!(text, "{index},{x:.0},{y:.0},{class},1").unwrap();
    }
    (text, finds)
}

#[test]
fn rebuild_without_the_register() {
    let bench = Bench::bare(AGREED);
    let open = bench.open("public");
    let mut random = seeded(3);
    let (mut twins, mut real) = (Vec::new(), Vec::new());
    // The squares' other finds are drawn anew too, so that files differ for reasons of their own.
    let mut halves: Vec<bool> = (0..160).map(|index| index % 2 == 0).collect();
    halves.shuffle(&mut random);
    for east in halves {
        let (text, finds) = register(&mut random, east);
        // How many finds there are of a class differs from study to study, so that packs do.
        let more = random.random_range(0..12);
        let class = CLASSES[random.random_range(0..5)];
        let extra: String = (0..more).map(|index| format!("x{index},555350,545350,{class},1\n")).collect();
        bench.register(&format!("{text}{extra}"));
        real.push((figures(&open.pack()), east));
        // The twin writes what may be told, in the order of the register.
        let rows: String = finds
            .iter()
            .filter(|(x, y, _)| Cell::holding(*x, *y, 100) == Cell::holding(555_000.0, 545_000.0, 100))
            .fold(String::new(), |rows, (_, _, class)| rows + "OV 550 450," + class + "\n");
        twins.push((figures(&Files::from([("finds.csv".to_owned(), rows.into_bytes())])), east));
    }
    assert!(real.iter().any(|(figures, _)| *figures != real[0].0), "packs differ");
    judge("3 rebuild without the register", 0.5, Stump::tried(&twins), Stump::tried(&real));
}

#[test]
fn resampling_within_the_release() {
    const EDITIONS: usize = 20;
    let bench = Bench::bare(AGREED);
    let open = bench.open("public");
    let mut random = seeded(4);
    let (mut twin, mut real, mut alike) = (Rate::default(), Rate::default(), Rate::default());
    let mut first: BTreeMap<bool, Files> = BTreeMap::new();
    for trial in 0..80 {
        let east = trial % 2 == 0;
        let (text, finds) = register(&mut random, east);
        bench.register(&text);
        let (x, ..) = finds.iter().find(|find| find.2 == "microlith").unwrap();
        // The twin moves a place at random, anew for each edition.
        let jittered =
            (0..EDITIONS).map(|_| x + random.random_range(-100.0..100.0)).sum::<f64>() / EDITIONS as f64;
        twin.add((jittered > 555_050.0) == east);
        let editions: Vec<f64> = (0..3)
            .map(|_| {
                let release = open.release();
                let find = release.finds.iter().find(|find| {
                    find.class.is_some_and(|class| class.is(strew::study::vocabulary::Class::Microlith))
                });
                let ReleasedPlace::Cell(cell) = find.unwrap().place else { panic!("a square") };
                f64::midpoint(cell.west_m(), cell.east_m())
            })
            .collect();
        let mean = editions.iter().sum::<f64>() / editions.len() as f64;
        real.add((mean > 555_050.0) == east);
        if trial < 16 {
            let pack = open.pack();
            alike.add(*first.entry(true).or_insert_with(|| pack.clone()) == pack);
        }
    }
    judge("4 resampling within the release", 0.5, twin, real);
    println!("4 packs of registers re-drawn that are the first byte for byte: {}", alike.said());
    assert_eq!(alike.hits, alike.of);
}

/// Every number in a drawing, in order.
fn numbers(svg: &str) -> Vec<f64> {
    let part = |c: char| !(c.is_ascii_digit() || c == '.' || c == '-');
    svg.split(part).filter_map(|text| text.parse().ok()).collect()
}

/// Numbers of the twin's drawing, numbers of ours, and for each find whether it lies in the east of its square.
type Drawn = (Vec<f64>, Vec<f64>, Vec<bool>);

#[test]
fn marks_within_their_squares() {
    const FINDS: usize = 20;
    const PAIRS: usize = 11;
    let bench = Bench { folder: tempfile::tempdir().unwrap() };
    write_ground(bench.path(), "");
    let text = std::fs::read_to_string(bench.file()).unwrap();
    let (head, _) = text.split_once("[agreement.office]").unwrap();
    bench.study(&format!(
        "{head}[agreement.public]\nprecision = \"100 m\"\ngive = [\"maps\", \"layers\", \"density\", \"concentrations\"]\n\
         [density]\nbandwidth = \"150 m\"\n"
    ));
    let mut random = seeded(11);
    let cells: Vec<(f64, f64)> = (0..FINDS)
        .map(|_| {
            let mut at = |from: f64| from + 100.0 * f64::from(random.random_range(0..8));
            (at(555_000.0), at(545_000.0))
        })
        .collect();
    let open = bench.open("public");
    // Drawings, and for each find whether it lies in the east of its square: each draw with its mirror image.
    let mut draws: Vec<Drawn> = Vec::new();
    for _ in 0..PAIRS {
        let offsets: Vec<(f64, f64)> = cells
            .iter()
            .map(|_| (random.random_range(1.0..99.0_f64).floor(), random.random_range(1.0..99.0_f64).floor()))
            .collect();
        for mirrored in [false, true] {
            let mut register = String::from("No,Easting,Northing,Class,Count\n");
            let (mut east, mut marks) = (Vec::new(), String::new());
            for (index, ((west, south), (x, y))) in cells.iter().zip(&offsets).enumerate() {
                let (x, y) = if mirrored { (99.0 - x, 99.0 - y) } else { (*x, *y) };
                let class = CLASSES[index % 5];
                writeln!(register, "{index},{:.0},{:.0},{class},1", west + x, south + y).unwrap();
                east.push(x > 49.5);
                // The twin's symbol: at the place, in hundredths of a millimetre on a sheet of 1 : 10 000.
                let on = |v: f64| (v / 10.0 * 100.0).round() / 100.0;
                write!(
                    marks,
                    "<circle cx=\"{}\" cy=\"{}\" r=\"1\"/>",
                    on(west + x - 554_000.0),
                    on(south + y - 544_000.0)
                )
                .unwrap();
            }
            bench.register(&register);
            let pack = open.pack();
            let mut drawn = Vec::new();
            for (name, bytes) in &pack {
                let drawing = [".svg", ".geojson", ".kml"].iter().any(|ending| name.ends_with(ending));
                if drawing {
                    drawn.extend(numbers(&String::from_utf8_lossy(bytes)));
                }
            }
            assert!(drawn.len() > 500, "sheets are drawn: {}", drawn.len());
            draws.push((numbers(&marks), drawn, east));
        }
    }
    let learnt = draws.len() - 6;
    let tried = |of: &dyn Fn(&Drawn) -> Vec<f64>| {
        let mut rate = Rate::default();
        for find in 0..FINDS {
            let examples: Vec<(Vec<f64>, bool)> = draws.iter().map(|draw| (of(draw), draw.2[find])).collect();
            let stump = Stump::learn(&examples[..learnt]);
            for (figures, east) in &examples[learnt..] {
                rate.add(stump.says(figures) == *east);
            }
        }
        rate
    };
    let (twin, real) = (tried(&|draw| draw.0.clone()), tried(&|draw| draw.1.clone()));
    judge("11 marks within their squares", 0.5, twin, real);
    assert!(draws.iter().all(|draw| draw.1 == draws[0].1), "every draw is drawn alike");
}
