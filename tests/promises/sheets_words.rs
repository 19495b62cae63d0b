//! What sheets say in words: the same as the tables, with the base's credit to the last.

use strew::analyse::{Dimension, Table, Value, cross};
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
    Case::new(study("en", "100 m", true, "Worked flint from Hernsey"), ground(2, 2, false), finds)
}

/// The number, or the numbers, that stand before some words.
fn number(text: &str, before: &str) -> String {
    let end = text.find(before).unwrap_or_else(|| panic!("{before} in {text}"));
    let start = text[..end].trim_end().rfind(' ').map_or(0, |at| at + 1);
    text[start..end].trim().replace(',', "")
}

/// What a table says in its last row, under a heading.
fn total(table: &Table, heading: &str) -> String {
    let at = table.headings.iter().position(|known| known.to_lowercase().starts_with(heading)).unwrap();
    match &table.totals.as_ref().unwrap()[at] {
        Value::Whole(pieces) => pieces.to_string(),
        Value::Text(range) => range.clone(),
        _ => panic!("{heading}"),
    }
}

/// For bands, as the public is told, and for exact counts.
#[test]
fn sheets_and_tables_count_alike_what_is_out_of_place_and_what_is_doubtful() {
    for exact in [false, true] {
        let usual = case();
        let mut study = usual.study.clone();
        study.agreement.exact_counts = exact;
        let mut finds = finds(900, 100, 1_000);
        for (index, find) in finds.iter_mut().enumerate() {
            find.out_of_place = index % 5 == 0;
            find.strength = (index % 3 == 0).then_some(Strength::Weak);
        }
        let case = Case::new(study, usual.ground, finds);
        let partition = Partition::fix(&case.study, &case.ground).unwrap();
        let table =
            cross(&case.published, &case.study, &partition, &[], Dimension::Class, Dimension::Strength);
        for kind in [MapKind::Cells, MapKind::Symbols] {
            let told = words(&map(kind, &case.scene(), None, None).unwrap());
            assert_eq!(
                number(&told, "of all pieces are out of place"),
                total(&table, "out of place"),
                "{told}"
            );
            assert_eq!(number(&told, "of all pieces are doubtful"), total(&table, "weak"), "{told}");
        }
    }
}

/// One figure, wherever the demo's public pack prints it: on every sheet, in every table, in the report's words and in
/// the manifest; and parishes have one figure on the map, in the layer and in both tables.
#[test]
fn the_demos_public_pack_says_each_number_once() {
    let out = tempfile::tempdir().unwrap();
    let folder = out.path().join("public");
    let demo = super::common::demo();
    let made = super::common::run(&["report", demo.to_str().unwrap(), "--out", folder.to_str().unwrap()]);
    assert!(made.status.success(), "{}", super::common::said(&made).1);
    let read = |path: &str| std::fs::read_to_string(folder.join(path)).unwrap();
    let plain = |text: &str| {
        let text = regex::Regex::new("<[^>]*>").unwrap().replace_all(text, " ").into_owned();
        text.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    // The pack's own pictures have outlines for letters: the same sheets, as text.
    let drawn = |sheet: &str| {
        let by =
            ["cells", "symbols", "parishes"][["finds-by-cell", "classes-and-periods", "finds-by-parish"]
                .iter()
                .position(|known| *known == sheet)
                .unwrap()];
        let file = out.path().join(format!("{sheet}.svg"));
        let arguments = ["map", demo.to_str().unwrap(), "--by", by, "--out", file.to_str().unwrap()];
        let made = super::common::run(&arguments);
        assert!(made.status.success(), "{}", super::common::said(&made).1);
        plain(&std::fs::read_to_string(file).unwrap())
    };
    let manifest: serde_json::Value = serde_json::from_str(&read("MANIFEST.json")).unwrap();
    let all = manifest["pieces"]["shown"].as_u64().unwrap();
    let table = |path: &str| -> Vec<Vec<String>> {
        let text = read(path).trim_start_matches('\u{feff}').to_owned();
        let mut reader =
            csv::ReaderBuilder::new().has_headers(false).flexible(true).from_reader(text.as_bytes());
        reader.records().map(|row| row.unwrap().iter().map(str::to_owned).collect()).collect()
    };
    let last = |path: &str| {
        let rows = table(path);
        let total = rows.iter().find(|row| row[0] == "total").unwrap().clone();
        let out = rows[0].iter().position(|heading| heading == "out of place").unwrap();
        (total[out].clone(), total.last().unwrap().clone())
    };
    let (out_of_place, _) = last("tables/class-by-strength.csv");
    for path in ["tables/class-by-period.csv", "tables/class-by-strength.csv", "tables/parish-by-period.csv"]
    {
        assert_eq!(last(path), (out_of_place.clone(), all.to_string()), "{path}");
    }
    for sheet in ["finds-by-cell", "classes-and-periods", "finds-by-parish"] {
        let told = drawn(sheet);
        assert_eq!(number(&told, "of all pieces are out of place"), out_of_place, "{sheet}");
    }
    assert_eq!(number(&drawn("finds-by-parish"), "pieces are shown"), all.to_string());
    let report = plain(&read("report.html"));
    assert_eq!(number(&report, "pieces of worked stone"), all.to_string());
    assert_eq!(number(&report, "pieces lay out of place"), out_of_place);
    // By parish.
    let by_parish = |path: &str| -> Vec<(String, String)> {
        let rows = table(path).into_iter().skip(1).take_while(|row| row[0] != "total");
        rows.map(|row| (row[0].clone(), row.last().unwrap().clone())).collect()
    };
    let parishes = by_parish("tables/parish-by-period.csv");
    assert_eq!(parishes, by_parish("tables/parish-by-class.csv"));
    let map = drawn("finds-by-parish");
    assert!(parishes.len() >= 4);
    for (parish, pieces) in &parishes {
        assert!(map.contains(&format!("{parish} {pieces} ")), "{parish} {pieces}: {map}");
        assert!(report.contains(&format!("{pieces} pieces")), "{parish} {pieces}");
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
    let lesser = ["No symbol and no shading does not mean", "pieces are shown", "Entry to land", "Grid: "];
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
    assert!(published.pieces().is_nothing());
    let case = Case::new(study, ground(2, 2, false), Vec::new());
    assert!(words(&map(MapKind::Cells, &case.scene(), None, None).unwrap()).contains("No finds to show."));
}
