//! Straddling scatter: a tight scatter split over the edges of squares is located by maximum likelihood, its spread
//! known, from the counts of squares alone.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;

use rand::Rng;
use rand_chacha::ChaCha8Rng;
use strew::coordinates::Cell;
use strew::exact::{Release, ReleasedPlace};
use strew::study::vocabulary::Class;

use super::{Bench, Rate, seeded};

const SIDE_M: u32 = 1_000;
const SPREAD_M: f64 = 60.0;
const FINDS: usize = 100;
/// Less ground than this is a place to dig: a quarter of a square.
const LITTLE_M2: f64 = 250_000.0;
/// Step of the lattice of centres, metres, and how many of them lie along three squares.
const STEP_M: f64 = 25.0;
const STEPS: usize = 120;
/// Scatters lie this far apart, so that none meets another.
const APART_M: f64 = 10_000.0;

/// Two normal figures (Box and Muller 1958, from memory).
fn normal(random: &mut ChaCha8Rng) -> (f64, f64) {
    let (a, b): (f64, f64) = (random.random_range(f64::MIN_POSITIVE..1.0), random.random_range(0.0..1.0));
    let (reach, angle) = ((-2.0 * a.ln()).sqrt(), std::f64::consts::TAU * b);
    (reach * angle.cos(), reach * angle.sin())
}

fn scatter(random: &mut ChaCha8Rng, centre: (f64, f64)) -> Vec<(f64, f64)> {
    (0..FINDS)
        .map(|_| {
            let (x, y) = normal(random);
            (centre.0 + SPREAD_M * x, centre.1 + SPREAD_M * y)
        })
        .collect()
}

/// Counts of squares, by column and row.
type Counts = BTreeMap<(i32, i32), u64>;

fn counts(places: &[(f64, f64)]) -> Counts {
    let mut counts = Counts::new();
    for (x, y) in places {
        let cell = Cell::holding(*x, *y, SIDE_M).unwrap();
        *counts.entry((cell.column, cell.row)).or_default() += 1;
    }
    counts
}

/// What of the scatter falls in each of three squares in a line, for each centre of the lattice.
fn lines() -> Vec<[f64; 3]> {
    let below = |edge: f64| libm::erf(edge / (SPREAD_M * std::f64::consts::SQRT_2));
    (0..STEPS)
        .map(|step| {
            let centre = (step as f64 + 0.5) * STEP_M;
            [0.0, 1.0, 2.0].map(|square| {
                let edge = f64::from(SIDE_M) * square;
                (0.5 * (below(edge + f64::from(SIDE_M) - centre) - below(edge - centre))).max(1e-12)
            })
        })
        .collect()
}

/// The smallest ground that holds the centre with 95% of its posterior weight, square metres, and whether `truth` is in
/// it. The squares are the fullest and those about it.
fn located(counts: &Counts, lines: &[[f64; 3]], truth: (f64, f64)) -> (f64, bool) {
    let (fullest, _) = counts.iter().max_by_key(|(cell, count)| (**count, **cell)).unwrap();
    let corner = (fullest.0 - 1, fullest.1 - 1);
    let mut weights: Vec<(f64, usize)> = Vec::with_capacity(STEPS * STEPS);
    for (y, down) in lines.iter().enumerate() {
        for (x, across) in lines.iter().enumerate() {
            let mut sum = 0.0;
            for ((column, row), count) in counts {
                let (Ok(i), Ok(j)) = (usize::try_from(column - corner.0), usize::try_from(row - corner.1))
                else {
                    continue;
                };
                if let (Some(across), Some(down)) = (across.get(i), down.get(j)) {
                    sum += *count as f64 * (across * down).ln();
                }
            }
            weights.push((sum, y * STEPS + x));
        }
    }
    weights.sort_by(|a, b| b.0.total_cmp(&a.0));
    let most = weights[0].0;
    let total: f64 = weights.iter().map(|(log, _)| (log - most).exp()).sum();
    let side = f64::from(SIDE_M);
    let at = |v: f64, corner: i32| ((v - f64::from(corner) * side) / STEP_M) as usize;
    let here = at(truth.1, corner.1) * STEPS + at(truth.0, corner.0);
    let (mut sum, mut held, mut found) = (0.0, 0, false);
    for (log, at) in &weights {
        sum += (log - most).exp() / total;
        held += 1;
        found |= *at == here;
        if sum >= 0.95 {
            break;
        }
    }
    (held as f64 * STEP_M * STEP_M, found)
}

/// Where scatter `index` may lie: a square of its own, the sixth of a row of scatters.
fn square(index: usize) -> (f64, f64) {
    (300_000.0 + (index % 12) as f64 * APART_M, 300_000.0 + (index / 12) as f64 * APART_M)
}

fn of_release(release: &Release, index: usize) -> Counts {
    let (west, south) = square(index);
    let mut counts = Counts::new();
    for find in &release.finds {
        let ReleasedPlace::Cell(cell) = find.place else { continue };
        assert_eq!(cell.side_m, SIDE_M);
        if (cell.west_m() - west).abs() < 4_000.0 && (cell.south_m() - south).abs() < 4_000.0 {
            *counts.entry((cell.column, cell.row)).or_default() += u64::from(find.count);
        }
    }
    counts
}

const AGREED: &str =
    "[agreement.public]\nprecision = \"1 km\"\nshow = [\"class\", \"count\"]\ngive = [\"tables\"]\n";

/// The figure that the design names: how often such a scatter is located to under a quarter of a square.
#[test]
fn a_straddling_scatter_is_located_about_as_often_as_not() {
    let mut random = seeded(5);
    let lines = lines();
    let (mut little, mut told) = (Rate::default(), Rate::default());
    for _ in 0..4_000 {
        let centre = (
            300_000.0 + random.random_range(0.0..f64::from(SIDE_M)),
            300_000.0 + random.random_range(0.0..f64::from(SIDE_M)),
        );
        let counts = counts(&scatter(&mut random, centre));
        let (area_m2, found) = located(&counts, &lines, centre);
        little.add(area_m2 < LITTLE_M2);
        told.add(found);
    }
    println!(
        "5 straddling scatter: under 0.25 km² in {}; the ground held the centre in {}",
        little.said(),
        told.said()
    );
    // The lattice of centres is coarser than the strip along an edge: a little is lost by that.
    assert!(told.interval().0 > 0.9, "the attacker's sum is right: {}", told.said());
    assert!(little.interval().0 > 0.45 && little.interval().1 > 0.5, "{}", little.said());
}

#[test]
fn straddling_scatters() {
    const SCATTERS: usize = 84;
    let mut random = seeded(55);
    let (mut loose, mut tied) = (String::from("No,Easting,Northing,Class,Site\n"), String::new());
    tied.push_str(&loose);
    let mut centres = Vec::new();
    for index in 0..SCATTERS {
        let (west, south) = square(index);
        let centre = (west + random.random_range(0.0..1_000.0), south + random.random_range(0.0..1_000.0));
        for (part, (x, y)) in scatter(&mut random, centre).into_iter().enumerate() {
            writeln!(loose, "{index}-{part},{x:.0},{y:.0},flake,").unwrap();
            writeln!(tied, "{index}-{part},{x:.0},{y:.0},flake,Scatter {index}").unwrap();
        }
        centres.push(centre);
    }
    let bench = Bench::bare(AGREED);
    let lines = lines();
    // Find by find: the twin is a program that knows no scatters.
    bench.register(&loose);
    let open = bench.open("public");
    let release = open.release();
    let told: Vec<Counts> = (0..SCATTERS).map(|index| of_release(&release, index)).collect();
    let betrayed: BTreeSet<(i32, i32)> = release
        .betrayed(&open.public.agreement)
        .into_iter()
        .flat_map(|one| one.cells.into_iter().map(|cell| (cell.column, cell.row)))
        .collect();
    let (mut twin, mut warned, mut false_alarms) = (Rate::default(), Rate::default(), Rate::default());
    for (counts, centre) in told.iter().zip(&centres) {
        let (area_m2, _) = located(counts, &lines, *centre);
        let warning = counts.keys().any(|cell| betrayed.contains(cell));
        twin.add(area_m2 < LITTLE_M2);
        if area_m2 < LITTLE_M2 {
            warned.add(warning);
        } else {
            false_alarms.add(warning);
        }
    }
    // The owner who does not ask for protection is warned; one who asks is refused, and nothing is written down.
    println!("5 warnings: of those located {}; of the others {}", warned.said(), false_alarms.said());
    // With a site each scatter is told in one square, which tells what any one find of it would.
    bench.register(&tied);
    let release = bench.open("public").release();
    let mut real = Rate::default();
    for (index, centre) in centres.iter().enumerate() {
        let counts = of_release(&release, index);
        assert_eq!(counts.len(), 1, "one square");
        assert_eq!(counts.values().sum::<u64>(), FINDS as u64);
        real.add(located(&counts, &lines, *centre).0 < LITTLE_M2);
    }
    super::judge("5 straddling scatter", 0.0, twin, real);
    assert!(release.betrayed(&open.public.agreement).is_empty());
    assert!(warned.hits * 10 >= warned.of * 9, "{}", warned.said());
}

#[test]
fn protected_scatters_are_refused_and_even_ones_let_pass() {
    let mut random = seeded(56);
    let bench = Bench::bare(&format!("{AGREED}protect_scatters = true\n"));
    let straddling: Vec<(f64, f64)> = scatter(&mut random, (301_000.0, 301_030.0));
    let register = |places: &[(f64, f64)]| {
        let mut text = String::from("No,Easting,Northing,Class\n");
        for (index, (x, y)) in places.iter().enumerate() {
            writeln!(text, "{index},{x:.0},{y:.0},flake").unwrap();
        }
        bench.register(&text);
    };
    register(&straddling);
    let open = bench.open("public");
    assert_eq!(open.remembering().err().unwrap().id, "exact-scatters-betrayed");
    let mut warned = Rate::default();
    for _ in 0..40 {
        let even: Vec<(f64, f64)> = (0..300)
            .map(|_| (random.random_range(300_000.0..306_000.0), random.random_range(300_000.0..306_000.0)))
            .collect();
        register(&even);
        warned.add(!open.release().betrayed(&open.public.agreement).is_empty());
    }
    println!("5 warnings of even finds: {}", warned.said());
    assert!(warned.hits * 10 <= warned.of, "{}", warned.said());
}

/// A site that is told in one square, and of which more is found beyond the edge: it is still told in one square, or who
/// knows its finds by their numbers knows which edge it lies across.
#[test]
fn a_site_that_grows_over_an_edge() {
    let mut random = seeded(57);
    let mut across = Rate::default();
    for _ in 0..20 {
        let bench = Bench::bare(&AGREED.replace("\"count\"", "\"count\", \"number\""));
        let edge = 301_000.0;
        let mut text = String::from("No,Easting,Northing,Class,Site\n");
        let mut add = |text: &mut String, from: usize, of: usize, side: f64| {
            for index in from..from + of {
                let x = edge + side * random.random_range(2.0..90.0_f64);
                writeln!(text, "S-{index},{x:.0},301500,flake,Hill Field").unwrap();
            }
        };
        add(&mut text, 0, 12, -1.0);
        add(&mut text, 12, 8, 1.0);
        let mut squares = BTreeSet::new();
        for edition in 0..2 {
            if edition > 0 {
                add(&mut text, 20, 12, 1.0);
            }
            bench.register(&text);
            // A refusal until the owner settles it would do too.
            let Ok(release) = bench.open("public").remembering() else { continue };
            squares.extend(release.finds.iter().map(|find| find.place.clone()));
        }
        across.add(squares.len() > 1);
    }
    println!("5 a site that grows over an edge: told on both sides in {}", across.said());
    assert_eq!(across.hits, 0);
}

/// A tight scatter of one class, straddling an edge, among many finds of another that lie evenly: the thief counts the one
/// class, and the owner must be warned as he would be of the scatter alone.
#[test]
fn a_scatter_of_one_class_among_others() {
    let mut random = seeded(58);
    let lines = lines();
    let bench = Bench::bare(AGREED);
    let (mut located_so, mut warned) = (Rate::default(), Rate::default());
    for _ in 0..12 {
        let centre =
            (301_000.0 + random.random_range(-40.0..40.0), 301_000.0 + random.random_range(200.0..800.0));
        let mut text = String::from("No,Easting,Northing,Class\n");
        for (index, (x, y)) in scatter(&mut random, centre).into_iter().enumerate() {
            writeln!(text, "S{index},{x:.0},{y:.0},microlith").unwrap();
        }
        for index in 0..3_000 {
            let mut at = || random.random_range(299_000.0..303_000.0_f64);
            writeln!(text, "F{index},{:.0},{:.0},flake", at(), at()).unwrap();
        }
        bench.register(&text);
        let open = bench.open("public");
        let release = open.release();
        let mut counts = Counts::new();
        for find in
            release.finds.iter().filter(|find| find.class.is_some_and(|class| class.is(Class::Microlith)))
        {
            let ReleasedPlace::Cell(cell) = find.place else { panic!("a square") };
            *counts.entry((cell.column, cell.row)).or_default() += u64::from(find.count);
        }
        let little = located(&counts, &lines, centre).0 < LITTLE_M2;
        located_so.add(little);
        if little {
            warned.add(!release.betrayed(&open.public.agreement).is_empty());
        }
    }
    println!(
        "5 a scatter of one class among others: located {}; warned of those {}",
        located_so.said(),
        warned.said()
    );
    assert!(located_so.interval().0 > 0.5);
    assert!(warned.hits * 10 >= warned.of * 9, "{}", warned.said());
}
