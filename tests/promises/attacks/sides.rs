//! What the side of a square may tell: how near an edge a find lies, and which class was withheld.

use std::fmt::Write as _;

use geo::{BooleanOps, Contains, Point};
use rand::Rng;
use strew::coordinates::Cell;
use strew::exact::ReleasedPlace;
use strew::study::vocabulary::Setting;
use strew::study::{Agreement, Attribute};

use super::super::islands::island;
use super::lattice::{betrayed, lattice};
use super::{Bench, Rate, Stump, judge, seeded};

/// Sides of a release whose rows are numbered from 0, in order of their numbers.
fn sides(bench: &Bench, of: usize) -> Vec<u32> {
    let release = bench.open("public").release();
    let mut sides = vec![0; of];
    for find in &release.finds {
        let number: usize = find.details.as_ref().unwrap().number.clone().unwrap().parse().unwrap();
        let ReleasedPlace::Cell(cell) = find.place else { panic!("a square") };
        sides[number] = cell.side_m;
    }
    sides
}

/// Edge strip: whether the side tells that the circle of uncertainty crosses an edge.
#[test]
fn edge_strip_from_uncertainty() {
    let mut random = seeded(2);
    let bench =
        Bench::bare("[agreement.public]\nprecision = \"100 m\"\nshow = [\"class\", \"count\", \"number\"]\n");
    let mut text = String::from("No,Easting,Northing,Uncertainty (m),Class\n");
    let mut finds = Vec::new();
    for index in 0..800 {
        let uncertainty_m = [5.0, 12.0, 20.0, 30.0, 49.0, 60.0, 200.0][random.random_range(0..7)];
        let near = index % 2 == 0;
        let (x, y, cell) = loop {
            let (x, y) = (
                555_000.0 + random.random_range(0.0..2_000.0_f64).floor(),
                545_000.0 + random.random_range(0.0..2_000.0_f64).floor(),
            );
            let cell = Cell::holding(x, y, 100).unwrap();
            let off = |v: f64, low: f64| (v - low).min(low + 100.0 - v);
            let edge_m = off(x, cell.west_m()).min(off(y, cell.south_m()));
            // The strip is as wide as the uncertainty, as far as a square has room for both answers.
            let within = f64::min(uncertainty_m, 15.0);
            if (edge_m < within) == near {
                break (x, y, edge_m);
            }
        };
        writeln!(text, "{index},{x:.0},{y:.0},{uncertainty_m},flake").unwrap();
        // The twin takes the larger square where the circle leaves the agreed one.
        finds.push((near, if cell < uncertainty_m { 1_000 } else { 100 }));
    }
    bench.register(&text);
    let sides = sides(&bench, finds.len());
    assert!(sides.contains(&100) && sides.contains(&1_000));
    let one = |side: u32, near: bool| (vec![f64::from(side)], near);
    let twin: Vec<_> = finds.iter().map(|(near, side)| one(*side, *near)).collect();
    let real: Vec<_> = finds.iter().zip(&sides).map(|((near, _), side)| one(*side, *near)).collect();
    judge("2 edge strip from uncertainty", 0.5, Stump::tried(&twin), Stump::tried(&real));
}

const RULE: &str = "[[agreement.public.stricter]]\nclass = [\"arrowhead\"]\nprecision = \"1 km\"\n";

/// A class that is not shown: the side must not tell it, so that a rule keyed on it is refused; and where the class is
/// shown, the side says nothing more.
#[test]
fn a_withheld_class_from_the_side() {
    let mut random = seeded(8);
    let agreed = |show: &str| format!("[agreement.public]\nprecision = \"100 m\"\nshow = [{show}]\n");
    let hidden = Bench::bare(&format!("{}{RULE}", agreed("\"count\", \"number\"")));
    let refused = strew::study::Study::load(&hidden.file()).err().unwrap();
    assert_eq!(refused.id, "study-stricter-hidden");
    let hidden = Bench::bare(&agreed("\"count\", \"number\""));
    let shown = Bench::bare(&format!("{}{RULE}", agreed("\"class\", \"count\", \"number\"")));
    let mut text = String::from("No,Easting,Northing,Uncertainty (m),Class\n");
    let mut strict = Vec::new();
    for index in 0..2_000 {
        let is = index % 2 == 0;
        let class = if is { "leaf arrowhead" } else { ["flake", "blade", "core"][random.random_range(0..3)] };
        let uncertainty_m = [5, 20, 60][random.random_range(0..3)];
        let mut at = |from: u32| f64::from(from + random.random_range(0..9_000));
        writeln!(text, "{index},{:.0},{:.0},{uncertainty_m},{class}", at(555_000), at(545_000)).unwrap();
        strict.push((is, uncertainty_m));
    }
    hidden.register(&text);
    shown.register(&text);
    let (of_hidden, of_shown) = (sides(&hidden, strict.len()), sides(&shown, strict.len()));
    let examples = |sides: &[u32]| -> Vec<(Vec<f64>, bool)> {
        sides.iter().zip(&strict).map(|(side, (is, _))| (vec![f64::from(*side)], *is)).collect()
    };
    // The twin is the release of the rule, its class withheld afterwards.
    let (twin, real) = (Stump::tried(&examples(&of_shown)), Stump::tried(&examples(&of_hidden)));
    judge("8 a withheld class from the side", 0.5, twin, real);
    // Shown: among finds of one class the side goes by the uncertainty alone.
    for is in [true, false] {
        for uncertain in [5, 20, 60] {
            let mut alike: Vec<u32> = of_shown
                .iter()
                .zip(&strict)
                .filter(|(_, s)| **s == (is, uncertain))
                .map(|(side, _)| *side)
                .collect();
            alike.sort_unstable();
            alike.dedup();
            assert_eq!(alike.len(), 1);
        }
    }
    let release = shown.open("public");
    let agreement: &Agreement = &release.public.agreement;
    assert!(agreement.show.contains(&Attribute::Class));
}

/// A setting that is shown but masked in squares with little beach: a stricter rule keyed on it tells it by the side all
/// the same, unless the ground of that answer is as large as agreed.
#[test]
fn a_masked_setting_from_the_side() {
    let (mut twin, mut real) = (Rate::default(), Rate::default());
    for (seed, area_m2) in [(60, 8_000.0), (61, 9_000.0), (62, 10_000.0)] {
        let island = island(seed, 450.0);
        let bench = Bench { folder: tempfile::tempdir().unwrap() };
        island.write(bench.path());
        let head = island.study.split("[agreement.public]").next().unwrap();
        let head = head.replace("parcels =", "#").replace("walked =", "#").replace("300 m", "80 m");
        bench.study(&format!(
            "{head}[agreement.public]\nprecision = \"100 m\"\nsmallest_area = \"{} km2\"\n\
             show = [\"class\", \"count\", \"setting\", \"number\"]\ngive = [\"tables\"]\n\
             [[agreement.public.stricter]]\nsetting = \"beach\"\nprecision = \"200 m\"\n",
            area_m2 / 1e6
        ));
        let places = lattice(&island, &island.land.union(&island.beach));
        let mut text = String::from("No,Easting,Northing,Class,Setting\n");
        let mut on_beach = Vec::new();
        for (index, (x, y, _)) in places.iter().enumerate() {
            let beach = island.beach.contains(&Point::new(*x, *y));
            let setting = if beach { "beach" } else { "ploughland" };
            writeln!(text, "{index},{x:.0},{y:.0},flake,{setting}").unwrap();
            on_beach.push(beach);
        }
        bench.register(&text);
        if let Err(refused) = strew::study::Study::load(&bench.file()) {
            assert_eq!(refused.id, "study-stricter-hidden");
            return;
        }
        let release = bench.open("public").release();
        let mut told: Vec<Option<(ReleasedPlace, Option<Setting>)>> = vec![None; places.len()];
        for find in &release.finds {
            let number: usize = find.details.as_ref().unwrap().number.clone().unwrap().parse().unwrap();
            told[number] = Some((find.place.clone(), find.setting));
        }
        // Edges of the beach count whole pixels.
        let least_m2 = area_m2 * 0.95 - 200.0;
        let outputs: Vec<_> = told.into_iter().zip(&places).map(|(told, place)| (told, place.2)).collect();
        let one = betrayed(&outputs, least_m2);
        real = Rate { hits: real.hits + one.hits, of: real.of + one.of };
        // The twin tells every setting, and masks none.
        let unmasked: Vec<_> = places
            .iter()
            .zip(&on_beach)
            .map(|((x, y, area), beach)| {
                ((Cell::holding(*x, *y, if *beach { 200 } else { 100 }), *beach), *area)
            })
            .collect();
        let one = betrayed(&unmasked, least_m2);
        twin = Rate { hits: twin.hits + one.hits, of: twin.of + one.of };
    }
    judge("8 a masked setting from the side", 0.0, twin, real);
}

/// A setting that no layer measures is never told: a stricter rule keyed on it must not tell it by the side.
#[test]
fn a_setting_never_told_from_the_side() {
    let mut random = seeded(88);
    let agreed =
        "[agreement.public]\nprecision = \"100 m\"\nshow = [\"class\", \"count\", \"number\", \"setting\"]\n";
    let rule = "[[agreement.public.stricter]]\nsetting = \"garden\"\nprecision = \"1 km\"\n";
    let (ruled, plain) = (Bench::bare(&format!("{agreed}{rule}")), Bench::bare(agreed));
    let mut text = String::from("No,Easting,Northing,Class,Setting\n");
    let mut gardens = Vec::new();
    for index in 0..600 {
        let garden = random.random_bool(0.5);
        let mut at = |from: u32| f64::from(from + random.random_range(0..9_000));
        let setting = if garden { "garden" } else { "ploughland" };
        writeln!(text, "{index},{:.0},{:.0},flake,{setting}", at(555_000), at(545_000)).unwrap();
        gardens.push(garden);
    }
    let tried = |sides: &[u32]| {
        let each = sides.iter().zip(&gardens).map(|(side, garden)| (vec![f64::from(*side)], *garden));
        Stump::tried(&each.collect::<Vec<_>>())
    };
    plain.register(&text);
    ruled.register(&text);
    // The twin has the larger squares of gardens, and no more about them.
    let larger: Vec<u32> = gardens.iter().map(|garden| if *garden { 1_000 } else { 100 }).collect();
    if let Err(refused) = strew::study::Study::load(&ruled.file()) {
        assert_eq!(refused.id, "study-stricter-hidden");
        return judge("8 a setting never told", 0.5, tried(&larger), tried(&sides(&plain, gardens.len())));
    }
    let release = ruled.open("public").release();
    assert!(release.finds.iter().all(|find| find.setting == Some(Setting::Unknown)), "no setting is told");
    judge("8 a setting never told, from the side", 0.5, tried(&larger), tried(&sides(&ruled, gardens.len())));
}
