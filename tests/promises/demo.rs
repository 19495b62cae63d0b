//! The demo: every fault planted in its registers is found at its row, and nothing else is; its ground
//! holds together.

use std::collections::BTreeSet;
use std::fs;

use geo::{Area, Contains, Validation};
use strew::ground::Ground;
use strew::study::Study;

use super::common::{demo, root, run};

/// File, row, and `set-aside:REASON` or `doubt:NAME`.
type Found = BTreeSet<(String, u64, String)>;

fn planted() -> Found {
    let text = fs::read_to_string(root().join("tests/expected/hernsey-faults.toml")).unwrap();
    let list: toml::Table = toml::from_str(&text).unwrap();
    let faults = list["fault"].as_array().unwrap();
    faults
        .iter()
        .map(|fault| {
            let text = |key: &str| fault[key].as_str().unwrap().to_owned();
            (text("file"), fault["row"].as_integer().unwrap() as u64, text("found-as"))
        })
        .collect()
}

fn reported() -> Found {
    let output = run(&["check", demo().to_str().unwrap(), "--json", "--quiet"]);
    // Rows were set aside, and so `check` ends with 3.
    assert_eq!(output.status.code(), Some(3), "{}", String::from_utf8_lossy(&output.stderr));
    let report: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
    assert_eq!(report["not_listed"], 0);
    let problems = report["problems"].as_array().unwrap();
    problems
        .iter()
        .map(|problem| {
            let text = |key: &str| problem[key].as_str().unwrap().to_owned();
            let found_as = format!("{}:{}", text("kind"), text("reason"));
            (text("file"), problem["row"].as_u64().unwrap(), found_as)
        })
        .collect()
}

#[test]
fn every_planted_fault_is_found_and_nothing_else() {
    let (planted, reported) = (planted(), reported());
    let missed: Vec<_> = planted.difference(&reported).collect();
    assert!(missed.is_empty(), "planted and not found: {missed:#?}");
    // A row set aside as far away may be doubted too: with its figures swapped it would lie on the land.
    let more: Vec<_> = reported
        .difference(&planted)
        .filter(|(file, row, found_as)| {
            let far = (file.clone(), *row, "set-aside:far-away".to_owned());
            found_as != "doubt:maybe-swapped" || !planted.contains(&far)
        })
        .collect();
    assert!(more.is_empty(), "found and not planted: {more:#?}");
}

#[test]
fn every_ordinary_fault_is_planted() {
    let text = fs::read_to_string(root().join("tests/expected/hernsey-faults.toml")).unwrap();
    for kind in [
        "letters-lost",
        "easting-northing-swapped",
        "latitude-longitude-swapped",
        "wrong-parish",
        "one-reference-for-a-field",
        "bag-and-its-tool",
        "range-became-date",
        "centimetres",
        "place-in-note",
        "natural-flint",
        "total-line",
        "year-heading",
    ] {
        assert!(text.contains(&format!("kind = \"{kind}\"")), "{kind}");
    }
}

#[test]
fn every_row_is_used_or_set_aside() {
    let output = run(&["check", demo().to_str().unwrap(), "--json", "--quiet"]);
    let report: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
    let tally = &report["tally"];
    let set_aside: u64 = tally["set_aside"].as_object().unwrap().values().filter_map(|n| n.as_u64()).sum();
    let (read, used) = (tally["read"].as_u64().unwrap(), tally["used"].as_u64().unwrap());
    assert_eq!(read, used + set_aside);
    assert!((1_450..1_650).contains(&used), "{used}");
}

#[test]
fn the_island_holds_together() {
    strew::coordinates::start();
    let study = Study::load(&demo()).unwrap();
    let public = study.audience("public").unwrap();
    let ground = Ground::read_with_private(public, &study.private).unwrap();
    assert_eq!(ground.parishes.len(), 4);
    assert!(ground.land.is_valid());
    // Degrees are written to six decimals, seven centimetres here: over 70 km of coast that is little.
    let parishes: f64 = ground.parishes.iter().map(|parish| parish.shape.unsigned_area()).sum();
    assert!((parishes - ground.land.unsigned_area()).abs() < 10.0);
    assert!(ground.parishes.iter().all(|parish| parish.shape.is_valid()));
    assert!((60..=90).contains(&ground.walked.len()));
    assert!(ground.relief.is_some());
    assert!(!ground.roads.0.is_empty() && !ground.streams.0.is_empty() && !ground.protected.0.is_empty());
    for place in &ground.places {
        let near = ground.land.contains(&place.at) || ground.beach.contains(&place.at);
        // A beach is named at the line between land and shore.
        assert!(near || place.name.ends_with("Sand"), "{}", place.name);
    }
}
