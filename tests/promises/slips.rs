//! What a new user does wrong is told in words that help, in the language of the study.

use std::fs;
use std::path::{Path, PathBuf};

use strew::exact::{Reason, Register};
use strew::study::Study;
use strew::words::Language;

use super::common::{demo, run, said};

const STUDY: &str = "[study]\ntitle = \"T\"\nlanguage = \"LANGUAGE\"\n[register]\nfiles = [\"finds.csv\"]\n\
                     [agreement.public]\nprecision = \"1 km\"\n";

/// The fault of the study with a change, in a language.
fn fault(language: &str, from: &str, to: &str) -> strew::fault::Fault {
    let text = STUDY.replace("LANGUAGE", language).replace(from, to);
    Study::parse(&text, PathBuf::from(".")).err().unwrap_or_else(|| panic!("{to} is refused"))
}

#[test]
fn what_refused_a_value_says_what_to_do() {
    let kept = "precision = \"1 km\"";
    for (wrong, id, hint) in [
        ("precision = \"300 m\"", "study-precision", "\"100 m\""),
        ("precision = 1000", "study-wants-length", "precision = \"1000 m\""),
        ("precision = \"1 km\"\nsmallest_area = 4", "study-wants-area", "smallest_area = \"4 km2\""),
        ("precision = \"1 km\"\nreview = \"soon\"", "units-date", "2026-10-01"),
        ("precision = \"1 km\"\nlanguages = []", "study-list-empty", "take the line out"),
        ("precision = \"1 km\"\n[sheets]\nforms = []", "study-list-empty", "take the line out"),
        ("precision = \"1 km\"\n[density]\nbandwidth = 250", "study-bandwidth", "\"250 m\""),
        ("precision = \"1 km\"\n[concentrations]\nprominence = true", "study-prominence", "per hectare"),
        (
            "precision = \"1 km\"\n[ground]\nland = { file = \"a\\parishes.gpkg\" }",
            "study-backslash",
            "slashes",
        ),
    ] {
        let fault = fault("en", kept, wrong);
        assert_eq!(fault.id, id, "{wrong}");
        let told = fault.hint(Language::English).unwrap();
        assert!(told.contains(hint), "{wrong}: {told}");
        assert!(!fault.to_string().contains("untagged") && !fault.to_string().contains("study-"), "{fault}");
    }
    assert_eq!(
        fault("en", "title = \"T\"", "title = \"T\"\ngrid = \"moon\"").id,
        "coordinates-unknown-system"
    );
}

#[test]
fn a_french_study_gets_french_faults() {
    for (from, to) in [
        ("precision = \"1 km\"", "precision = \"300 m\""),
        ("precision = \"1 km\"", "precison = \"1 km\""),
        ("title = \"T\"", "title = \"\""),
    ] {
        assert_eq!(fault("fr", from, to).language, Some(Language::French), "{to}");
        assert_eq!(fault("en", from, to).language, Some(Language::English), "{to}");
    }
    let folder = tempfile::tempdir().unwrap();
    let study = folder.path().join("study.toml");
    fs::write(&study, STUDY.replace("LANGUAGE", "fr")).unwrap();
    // Its register is not there; its audience is misnamed.
    for arguments in [vec!["check"], vec!["map"], vec!["map", "--for", "pubic"]] {
        let mut all = arguments.clone();
        all.insert(1, study.to_str().unwrap());
        let (_, told) = said(&run(&all));
        assert!(told.contains('«'), "{arguments:?}: {told}");
    }
}

#[test]
fn folders_given_as_files_are_named_as_such() {
    let folder = tempfile::tempdir().unwrap();
    let (_, told) = said(&run(&["check", folder.path().to_str().unwrap()]));
    assert!(told.contains("this is a folder") && !told.contains("os error"), "{told}");
    fs::create_dir(folder.path().join("lists")).unwrap();
    let text = STUDY.replace("LANGUAGE", "en").replace("finds.csv", "lists");
    let study = Study::parse(&text, folder.path().to_path_buf()).unwrap();
    let fault = Register::read(&study).err().unwrap();
    assert_eq!(fault.id, "register-is-folder");
    assert!(fault.hint(Language::English).unwrap().contains("lists/*.csv"));
    // Backslashes are taken for slashes.
    fs::write(folder.path().join("lists/finds.csv"), "No,Grid ref\n1,OV 52 41\n").unwrap();
    let text = STUDY.replace("LANGUAGE", "en").replace("finds.csv", "lists\\\\finds.csv");
    let study = Study::parse(&text, folder.path().to_path_buf()).unwrap();
    assert_eq!(Register::read(&study).unwrap().tally().used, 1);
    // A fault of the disk names the path that was asked for and no other.
    let out = folder.path().join("none/map.svg");
    let (_, told) = said(&run(&["map", demo().to_str().unwrap(), "--out", out.to_str().unwrap()]));
    assert!(told.contains("none/map.svg") && !told.contains(".strew-"), "{told}");
}

#[test]
fn one_bad_waypoint_is_one_row_set_aside() {
    let folder = tempfile::tempdir().unwrap();
    let gpx = r#"<?xml version="1.0"?><gpx version="1.1" creator="x" xmlns="http://www.topografix.com/GPX/1/1">
        <wpt lat="49.5" lon="-7.2"><name>scraper</name></wpt>
        <wpt lat="49.6" lon="west"><name>blade</name></wpt>
        <wpt lat="149.6" lon="-7.2"><name>core</name></wpt>
        <wpt lat="49.51" lon="-7.21"><time>yesterday</time><name>flake</name></wpt></gpx>"#;
    fs::write(folder.path().join("walk.gpx"), gpx).unwrap();
    let text = STUDY.replace("LANGUAGE", "en").replace("finds.csv", "walk.gpx");
    let study = Study::parse(&text, folder.path().to_path_buf()).unwrap();
    let register = Register::read(&study).unwrap();
    assert_eq!((register.tally().read, register.tally().used), (4, 2));
    let rows: Vec<u64> =
        register.problems().show_owner().listed().iter().map(|problem| problem.row).collect();
    assert!(rows.contains(&3) && rows.contains(&4), "{rows:?}");
}

/// A part of a long table that needs rows before it is read as if they had been read first.
#[test]
fn a_long_table_reads_as_it_would_row_by_row() {
    let folder = tempfile::tempdir().unwrap();
    let rows = 9_500;
    let table = |ditto: bool| {
        let mut text = "No,Grid ref,Class,Count\n".to_owned();
        for row in 1..=rows {
            let plain = !ditto || row % 4_000 == 1;
            let (place, class) = if plain { ("OV 523 417", "flake") } else { ("do.", "do.") };
            text.push_str(&format!("{row},{place},{class},2\n"));
        }
        // A bare figure is a line of totals only if it is their sum.
        text.push_str(&format!(",,,{}\n,,,7\n99,523417,core,1\n", 2 * rows));
        text
    };
    let read = |text: &str| {
        fs::write(folder.path().join("finds.csv"), text).unwrap();
        let study = Study::parse(&STUDY.replace("LANGUAGE", "en"), folder.path().to_path_buf()).unwrap();
        let register = Register::read(&study).unwrap();
        let told: Vec<(u64, String)> = register
            .problems()
            .show_owner()
            .listed()
            .iter()
            .map(|one| (one.row, one.detail.as_ref().map_or(String::new(), |why| why.to_string())))
            .collect();
        (register.tally().clone(), told)
    };
    let (plain, told) = read(&table(false));
    let (ditto, told_of_dittos) = read(&table(true));
    assert_eq!(plain, ditto);
    assert_eq!(plain.used, rows);
    assert_eq!(plain.set_aside[&Reason::TotalLine], 1);
    assert!(told.last().unwrap().1.contains("letters") && told == told_of_dittos, "{told:?}");
}

/// The demo with a change to its study file.
fn changed(folder: &Path, from: &str, to: &str) -> String {
    super::common::copy(demo().parent().unwrap(), folder);
    let study = folder.join("study.toml");
    let text = fs::read_to_string(&study).unwrap();
    assert!(text.contains(from));
    fs::write(&study, text.replace(from, to)).unwrap();
    study.to_str().unwrap().to_owned()
}

#[test]
fn check_tells_of_land_that_no_row_is_off_and_of_names_nearly_right() {
    let folder = tempfile::tempdir().unwrap();
    let land = "landowner = \"Ulverhay Grange\"";
    let study =
        changed(folder.path(), land, "landowner = [\"Ulverhay Grange\", \"Ulverhay Grang\", \"Nobody\"]");
    let (told, _) = said(&run(&["check", &study]));
    assert!(told.contains("\"Ulverhay Grang\"; is \"Ulverhay Grange\" meant?"), "{told}");
    assert!(told.contains("off \"Nobody\"."), "{told}");
    assert_eq!(told.matches("no row is stated to be off").count(), 2);
    let folder = tempfile::tempdir().unwrap();
    let study = changed(folder.path(), "agreement.public", "agreement.pubilc");
    let (told, _) = said(&run(&["check", &study, "--for", "office"]));
    assert!(told.contains("\"pubilc\" is nearly called \"public\""), "{told}");
    let (told, _) = said(&run(&["check", demo().to_str().unwrap()]));
    assert!(!told.contains("THE AGREEMENTS"), "{told}");
}

#[test]
fn a_map_of_nothing_says_so_and_a_folder_is_no_file() {
    let folder = tempfile::tempdir().unwrap();
    let demo = demo();
    let demo = demo.to_str().unwrap();
    let out = folder.path().join("m.svg");
    let out = out.to_str().unwrap();
    let (_, told) = said(&run(&["map", demo, "--period", "palaeolithic", "--out", out]));
    assert!(told.contains("the map is empty"), "{told}");
    let (_, told) = said(&run(&["map", demo, "--for", "members", "--split-year", "3000", "--out", out]));
    assert!(told.contains("No find is shown from 3000 on"), "{told}");
    let pages = folder.path().join("pages.txt");
    let refused = run(&["parish-sheet", demo, "--out", pages.to_str().unwrap()]);
    assert_eq!(refused.status.code(), Some(1));
    assert!(said(&refused).1.contains("Name a folder") && !pages.exists());
}

#[test]
fn a_spreadsheet_has_no_separator_and_a_sheet_of_notes_no_headings() {
    let folder = tempfile::tempdir().unwrap();
    let mut book = rust_xlsxwriter::Workbook::new();
    let notes = book.add_worksheet().set_name("Notes").unwrap();
    notes.write_string(0, 0, "Read me first").unwrap();
    let finds = book.add_worksheet().set_name("Finds").unwrap();
    for (column, (heading, cell)) in
        [("No", "1"), ("Grid ref", "OV 523 417"), ("Class", "flake")].iter().enumerate()
    {
        finds.write_string(0, column as u16, *heading).unwrap();
        finds.write_string(1, column as u16, *cell).unwrap();
    }
    let file = folder.path().join("finds.xlsx");
    book.save(&file).unwrap();
    let study = folder.path().join("study");
    let (_, told) = said(&run(&["new", study.to_str().unwrap(), "--register", file.to_str().unwrap()]));
    assert!(told.contains("a spreadsheet, headings in row 1") && !told.contains("separated"), "{told}");
    let (told, _) = said(&run(&["check", study.join("study.toml").to_str().unwrap()]));
    assert!(!told.contains("separated") && !told.contains("row 0"), "{told}");
    assert!(told.contains("no headings of a register") && told.contains("headings in row 1"), "{told}");
}
