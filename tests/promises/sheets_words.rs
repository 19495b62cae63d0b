//! What sheets say in words: the same as the tables, with the base's credit to the last.

use strew::analyse::{Dimension, Value, cross};
use strew::exact::{Published, Release, Tally};
use strew::ground::Partition;
use strew::sheet::{MapKind, Sheet, Thing, map, small_maps};
use strew::study::vocabulary::Strength;

use super::island::{ground, study};
use super::island_finds::{Case, finds};

/// The words of a sheet, one after the other.
fn words(sheet: &Sheet) -> String {
    let texts = sheet.placed.iter().filter(|one| one.thing == Thing::Text);
    texts.map(|one| one.name.as_str()).collect::<Vec<_>>().join(" ")
}

/// The usual island, every fifth find out of place and every third doubtful.
fn case() -> Case {
    let mut finds = finds(900, 100, 1_000);
    for (index, find) in finds.iter_mut().enumerate() {
        find.out_of_place = index % 5 == 0;
        find.strength = (index % 3 == 0).then_some(Strength::Weak);
    }
    let mut study = study("en", "100 m", true, "Worked flint from Hernsey");
    // Where numbers stand in for the true ones, parts and totals are estimated apart.
    study.agreement.exact_counts = true;
    Case::new(study, ground(2, 2, false), finds)
}

fn number(text: &str, before: &str) -> u64 {
    let end = text.find(before).unwrap_or_else(|| panic!("{before} in {text}"));
    let start = text[..end].trim_end().rfind(' ').map_or(0, |at| at + 1);
    text[start..end].trim().replace(',', "").parse().unwrap_or_else(|_| panic!("{before} in {text}"))
}

#[test]
fn sheets_and_tables_count_alike_what_is_out_of_place_and_what_is_doubtful() {
    let case = case();
    let partition = Partition::fix(&case.study, &case.ground).unwrap();
    let table = cross(&case.published, &case.study, &partition, &[], Dimension::Class, Dimension::Strength);
    let totals = table.totals.clone().unwrap();
    let total = |heading: &str| {
        let at = table.headings.iter().position(|known| known.to_lowercase().starts_with(heading)).unwrap();
        match totals[at] {
            Value::Whole(pieces) => pieces,
            _ => panic!("{heading}"),
        }
    };
    for kind in [MapKind::Cells, MapKind::Symbols] {
        let told = words(&map(kind, &case.scene(), None, None).unwrap());
        assert_eq!(number(&told, "of all pieces are out of place"), total("out of place"), "{told}");
        assert_eq!(number(&told, "of all pieces are doubtful"), total("weak"), "{told}");
    }
}

#[test]
fn periods_stand_in_one_order_on_maps_and_in_tables() {
    let case = case();
    let partition = Partition::fix(&case.study, &case.ground).unwrap();
    let table = cross(&case.published, &case.study, &partition, &[], Dimension::Class, Dimension::Period);
    let sheets =
        small_maps(MapKind::Cells, strew::sheet::Each::Period, &case.scene(), &partition, None, None)
            .unwrap();
    let told = &sheets[0].description;
    let found: Vec<usize> = table
        .headings
        .iter()
        .filter_map(|heading| told.to_lowercase().find(&format!(" {}:", heading.to_lowercase())))
        .collect();
    assert!(found.len() >= 3, "{told} / {:?}", table.headings);
    assert!(found.is_sorted(), "{told} / {:?}", table.headings);
}

#[test]
fn the_credit_of_the_base_goes_after_all_other_notes() {
    let case = case();
    let lesser = ["No symbol does not mean", "pieces are shown", "Entry to land", "Grid: "];
    let mut gone = 0;
    for kind in [MapKind::Cells, MapKind::Symbols, MapKind::Density, MapKind::Parishes] {
        for paper in ["a4", "a5", "105x148", "80x120", "85x60", "120x80", "80x80", "170x90"] {
            let Ok(sheet) = map(kind, &case.scene(), None, Some(paper)) else { continue };
            let told = words(&sheet);
            if !told.contains("Base: ") {
                gone += 1;
                for note in lesser {
                    assert!(!told.contains(note), "{kind:?} on {paper} keeps {note} and no credit");
                }
            }
        }
    }
    assert!(gone < 8, "{gone} sheets without a credit");
}

#[test]
fn the_key_names_the_lines_of_the_ground_where_there_is_room() {
    let case = case();
    let told = words(&map(MapKind::Cells, &case.scene(), None, Some("a4")).unwrap());
    for line in ["Parish boundary", "Road", "Stream"] {
        assert!(told.contains(line), "{line}: {told}");
    }
    // Without them on the ground, without them in the key.
    let bare = Case {
        ground: strew::ground::Ground {
            land: case.ground.land.clone(),
            ..strew::ground::Ground::empty(&case.study)
        },
        ..case
    };
    let told = words(&map(MapKind::Cells, &bare.scene(), None, Some("a4")).unwrap());
    assert!(!told.contains("Road") && !told.contains("Stream") && !told.contains("Parish boundary"));
}

/// A key of every class and period is too long for a small sheet that says for whom it is: what can be drawn is, and
/// the rest is counted.
#[test]
fn a_key_too_long_for_the_paper_leaves_out_classes_and_counts_them() {
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("map.svg");
    let study = super::common::demo();
    let drawn = super::common::run(&[
        "map",
        study.to_str().unwrap(),
        "--for",
        "members",
        "--by",
        "symbols",
        "--paper",
        "80x120",
        "--out",
        out.to_str().unwrap(),
    ]);
    assert!(drawn.status.success(), "{}", super::common::said(&drawn).1);
    let svg = std::fs::read_to_string(out).unwrap();
    let told: String = regex::Regex::new("<[^>]*>").unwrap().replace_all(&svg, " ").into_owned();
    let told = told.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(told.contains("other classes are counted, not drawn."), "{told}");
    assert!(svg.contains(">+"), "symbols without room are counted: {told}");
}

/// Kept so that the fixtures of the island stay those of a release.
#[test]
fn a_release_without_finds_says_so() {
    let study = study("en", "100 m", true, "Worked flint from Hernsey");
    let tally = Tally { read: 0, used: 0, set_aside: Default::default() };
    let release = Release { audience: "public".to_owned(), tally, finds: Vec::new(), withdrawn: Vec::new() };
    let published: Published = release.publish(&study.agreement);
    assert_eq!(published.pieces(), 0);
    let case = Case::new(study, ground(2, 2, false), Vec::new());
    assert!(words(&map(MapKind::Cells, &case.scene(), None, None).unwrap()).contains("No finds to show."));
}
