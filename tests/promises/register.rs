//! A register as people keep it: whatever is in a file, every row is used or set aside with its reason,
//! and the reading never panics.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use proptest::prelude::*;
use strew::exact::{Doubt, Field, Matter, Reason, Register};
use strew::fault::Result;
use strew::study::Study;
use strew::study::vocabulary::{Class, Term};
use strew::words::{Language, Words};

use super::common::{run, said};

/// A study of the files in a folder.
fn study(folder: &Path, register: &str) -> Study {
    let text = format!(
        "[study]\ntitle = \"Test\"\ndate = 2026-10-01\n[register]\n{register}\n[agreement.public]\nprecision = \"1 km\"\n"
    );
    Study::parse(&text, folder.to_path_buf()).unwrap()
}

/// Reads one file, given as bytes.
fn read(bytes: &[u8]) -> Result<Register> {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("finds.csv"), bytes).unwrap();
    Register::read(&study(folder.path(), "files = [\"finds.csv\"]"))
}

/// Rows read, used, and set aside by reason.
fn tally(bytes: &[u8]) -> (u64, u64, BTreeMap<Reason, u64>) {
    let register = read(bytes).unwrap();
    let tally = register.tally();
    assert_eq!(tally.read, tally.used + tally.set_aside_total());
    (tally.read, tally.used, tally.set_aside.clone())
}

/// The row, column and matter of every problem.
fn problems(bytes: &[u8]) -> Vec<(u64, Option<String>, Matter)> {
    let register = read(bytes).unwrap();
    let problems = register.problems();
    problems.show_owner().listed().iter().map(|p| (p.row, p.column.clone(), p.matter)).collect()
}

#[test]
fn every_encoding_gives_the_same_register() {
    let text = "N°;Réf. grille;Désignation;Période\n1;OV 523 417;éclat;Néolithique\n2;;lame;\n";
    let western: Vec<u8> = text.chars().map(|c| u8::try_from(u32::from(c)).unwrap()).collect();
    let utf16 = |mark: u16, swap: bool| -> Vec<u8> {
        let units = std::iter::once(mark).chain(text.encode_utf16());
        units.flat_map(|unit| if swap { unit.to_be_bytes() } else { unit.to_le_bytes() }).collect()
    };
    let marked = [b"\xEF\xBB\xBF".as_slice(), text.as_bytes()].concat();
    let expected = problems(text.as_bytes());
    assert_eq!(expected, [(3, Some("Réf. grille".to_owned()), Matter::SetAside(Reason::NoPlace))]);
    for bytes in [western, marked, utf16(0xFEFF, false), utf16(0xFEFF, true)] {
        assert_eq!(problems(&bytes), expected);
    }
}

#[test]
fn rows_are_numbered_as_a_spreadsheet_numbers_them() {
    let text = "Finds of the society\r\n\r\nNo,Grid ref,Class,Note\r\n1,OV 52 41,flake,\"two\r\nlines\"\r\n\r\n2,,blade,\r\n";
    assert_eq!(
        problems(text.as_bytes()),
        [(7 - 1, Some("Grid ref".to_owned()), Matter::SetAside(Reason::NoPlace))]
    );
}

#[test]
fn one_register_with_every_line_that_is_no_find() {
    let text = "Register of flint,,,,\n,,,,\nNo,Grid ref,Parish,Class,Count\n1998,,,,\n1,OV 523 417,Eastwell,flakes,c. 20\n\
                2,do.,do.,scraper,1\n3,,Eastwell,blade,several\nWalk of March 2004,,,,\nNo,Grid ref,Parish,Class,Count\n\
                4,OV 52,Eastwell,natural,3\n5,OV 523 417,,core,05/03/2024\n,,,,24\nTOTAL,,,,24\n";
    let (read, used, aside) = tally(text.as_bytes());
    assert_eq!((read, used), (10, 3));
    let expected =
        [(Reason::CountUnreadable, 1), (Reason::Natural, 1), (Reason::TotalLine, 2), (Reason::Heading, 3)];
    assert_eq!(aside, expected.into());
}

#[test]
fn files_come_by_pattern_each_once_and_in_order() {
    let folder = tempfile::tempdir().unwrap();
    fs::create_dir(folder.path().join("walks")).unwrap();
    for name in ["walks/b.csv", "walks/a.csv", "finds[1].csv"] {
        fs::write(folder.path().join(name), "No,Grid ref\n1,OV 52 41\n").unwrap();
    }
    let study = study(folder.path(), "files = [\"finds[1].csv\", \"walks/*.csv\", \"walks/a.csv\"]");
    let register = Register::read(&study).unwrap();
    assert_eq!(register.tally().read, 3);
    let shapes = register.shapes();
    let names: Vec<&str> = shapes.show_owner().iter().map(|shape| shape.name.as_str()).collect();
    assert_eq!(names, ["finds[1].csv", "walks/a.csv", "walks/b.csv"]);
}

/// The fault that stops the reading of a study's register.
fn fault(files: &[(&str, &[u8])], register: &str) -> strew::fault::Fault {
    let folder = tempfile::tempdir().unwrap();
    for (name, bytes) in files {
        fs::write(folder.path().join(name), bytes).unwrap();
    }
    match Register::read(&study(folder.path(), register)) {
        Ok(_) => panic!("read, and ought to fail"),
        Err(fault) => fault,
    }
}

#[test]
fn a_file_that_cannot_be_read_says_what_to_do() {
    for (name, bytes, id) in [
        ("finds.xlsx", &b"PK\x03\x04"[..], "register-spreadsheet"),
        ("finds.ods", b"No,Grid ref\n", "register-no-spreadsheet"),
        ("finds.csv", b"PK\x03\x04", "register-not-text"),
        ("finds.pdf", b"%PDF", "register-format"),
        ("finds.csv", b" \n ", "register-empty"),
        ("finds.csv", b"1,2,3\n4,5,6\n", "register-no-headings"),
    ] {
        let fault = fault(&[(name, bytes)], &format!("files = [\"{name}\"]"));
        assert_eq!(fault.id, id);
        assert_eq!(fault.spot.file.as_deref(), Some(name));
        for language in [Language::English, Language::French] {
            assert!(fault.hint(language).is_some());
        }
    }
    assert_eq!(fault(&[], "files = [\"none*.csv\"]").id, "register-no-file");
}

#[test]
fn a_column_that_is_not_there_names_the_nearest() {
    let register =
        "files = [\"a.csv\", \"b.csv\"]\n[register.columns]\nclass = \"Type of flnt\"\nnote = \"Bemerkung\"";
    let first: &[u8] = b"No,Grid ref,Type of flint\n1,OV 52 41,flake\n";
    let second: &[u8] = b"No,Grid ref,Bemerkung\n1,OV 52 41,x\n";
    let fault = fault(&[("a.csv", first), ("b.csv", second)], register);
    assert_eq!(fault.id, "register-no-column");
    assert!(fault.text(Language::English).contains("Type of flnt"));
    assert!(fault.hint(Language::English).unwrap().contains("Type of flint"));
}

#[test]
fn columns_are_understood_and_the_others_are_told() {
    let register = read(b"No,Grid ref,Class,Moon phase\n1,OV 52 41,flake,full\n").unwrap();
    let shapes = register.shapes();
    let columns: Vec<(&str, Option<&str>)> = shapes.show_owner()[0]
        .columns
        .iter()
        .map(|(heading, field)| (heading.as_str(), field.map(|field| field.name())))
        .collect();
    let expected =
        [("No", Some("number")), ("Grid ref", Some("place")), ("Class", Some("class")), ("Moon phase", None)];
    assert_eq!(columns, expected);
}

#[test]
fn every_reason_and_doubt_has_its_words_and_says_what_to_do() {
    let doubts = Doubt::ALL.iter().map(Term::message);
    let reasons = [
        Reason::NoPlace,
        Reason::PlaceUnreadable,
        Reason::PlaceAmbiguous,
        Reason::PlaceOutside,
        Reason::FarAway,
        Reason::ParishUnknown,
        Reason::CountUnreadable,
        Reason::CountZero,
        Reason::Natural,
        Reason::TotalLine,
        Reason::Heading,
        Reason::Damaged,
    ];
    for id in doubts.chain(reasons.iter().map(Term::message)) {
        for language in [Language::English, Language::French] {
            let words = Words::of(language);
            assert_ne!(words.say(&id), id);
            assert!(words.hint(&id, &[]).is_some_and(|hint| hint.len() > 5), "{id} says nothing to do");
        }
    }
}

#[test]
fn problems_are_counted_without_end_and_kept_up_to_a_bound() {
    let mut text = "No,Grid ref,Class\n".to_owned();
    for row in 0..12_000 {
        text.push_str(&format!("{row},,flake\n"));
    }
    let register = read(text.as_bytes()).unwrap();
    let problems = register.problems();
    let problems = problems.show_owner();
    assert_eq!(register.tally().set_aside[&Reason::NoPlace], 12_000);
    assert_eq!((problems.listed().len(), problems.unlisted()), (10_000, 2_000));
}

#[test]
fn new_writes_a_study_that_check_reads_and_never_overwrites() {
    let folder = tempfile::tempdir().unwrap();
    let finds = folder.path().join("finds.csv");
    fs::write(
        &finds,
        "Finds of the society\nNo,Grid ref,Class,Moon phase\n1,OV 523 417,flake,full\n2,,blade,new\n",
    )
    .unwrap();
    let target = folder.path().join("study");
    let arguments = ["new", target.to_str().unwrap(), "--register", finds.to_str().unwrap()];
    let output = run(&arguments);
    let (_, stderr) = said(&output);
    assert!(output.status.success(), "{stderr}");
    assert!(stderr.contains("Grid ref") && stderr.contains("Moon phase"));
    let written = target.join("study.toml");
    let text = fs::read_to_string(&written).unwrap();
    assert!(text.contains("title = \"Finds of the society\"") && text.contains("files = [\"../finds.csv\"]"));
    assert!(text.contains("not used: \"Moon phase\""));
    // The study file works as it stands; one row is set aside.
    let checked = run(&["check", written.to_str().unwrap()]);
    let (stdout, stderr) = said(&checked);
    assert_eq!(checked.status.code(), Some(3), "{stdout}{stderr}");
    assert!(stdout.contains("row 4") && stdout.contains("Rows read 2 = used 1 + set aside 1"), "{stdout}");
    // A second time nothing is touched.
    let again = run(&arguments);
    assert_eq!(again.status.code(), Some(1));
    assert_eq!(fs::read_to_string(&written).unwrap(), text);
}

#[test]
fn check_lists_every_row_for_machines_too() {
    let folder = tempfile::tempdir().unwrap();
    fs::write(
        folder.path().join("finds.csv"),
        "No,Grid ref,Class,Count\n1,OV 523 417,thing,1\n2,OV 523 417,flake,03-May\n",
    )
    .unwrap();
    let study = folder.path().join("study.toml");
    fs::write(&study, "[study]\ntitle = \"T\"\n[register]\nfiles = [\"finds.csv\"]\n[agreement.public]\nprecision = \"1 km\"\n").unwrap();
    let output = run(&["check", study.to_str().unwrap(), "--json"]);
    let (stdout, stderr) = said(&output);
    assert_eq!(output.status.code(), Some(3), "{stderr}");
    let json: serde_json::Value = serde_json::from_str(&stdout).unwrap();
    assert_eq!((&json["tally"]["read"], &json["tally"]["used"]), (&2.into(), &1.into()));
    let listed: Vec<_> = json["problems"]
        .as_array()
        .unwrap()
        .iter()
        .map(|p| (p["row"].as_u64(), p["reason"].as_str(), p["column"].as_str()))
        .collect();
    assert_eq!(
        listed,
        [(Some(2), Some("class-unknown"), Some("Class")), (Some(3), Some("count-unreadable"), Some("Count"))]
    );
    assert!(json["problems"][1]["hint"].as_str().unwrap().contains("3 to 5"));
    assert_eq!(json["audiences"][0]["by_square"][0]["side_m"], 1000);
}

proptest! {
    /// Bytes of any kind end in a register or a fault.
    #[test]
    fn arbitrary_bytes_never_panic(bytes in prop::collection::vec(any::<u8>(), 0..400)) {
        let _ = read(&bytes);
    }

    /// Below a row of headings, every row is used or set aside.
    #[test]
    fn read_is_used_and_set_aside(
        body in prop::collection::vec(prop_oneof![any::<u8>(), prop::sample::select(b",,,\"\"\n\r;\t 0123456789-OV./do".to_vec())], 0..600)
    ) {
        let bytes = [&b"No,Grid ref,Parish,Class,Count,Period,Length,Note\n"[..], &body].concat();
        if let Ok(register) = read(&bytes) {
            let tally = register.tally();
            prop_assert_eq!(tally.read, tally.used + tally.set_aside_total());
        }
    }
}

#[test]
fn the_page_on_registers_names_every_field_class_reason_and_doubt() {
    let page = fs::read_to_string(super::common::root().join("docs/register.md")).unwrap();
    let classes = Class::ALL.iter().map(|class| class.name());
    let fields = Field::ALL.iter().map(|field| field.name());
    for name in classes.chain(fields).chain(Doubt::ALL.iter().map(|doubt| doubt.name())) {
        assert!(page.contains(&format!("`{name}`")), "docs/register.md does not name {name}");
    }
}

/// A slip in a heading is named with the field that was probably meant, by `new` and by `check`.
#[test]
fn a_mistyped_heading_is_named_with_the_field_it_comes_near_to() {
    let folder = tempfile::tempdir().unwrap();
    let register = folder.path().join("finds.csv");
    std::fs::write(&register, "No,Grid ref,Parrish,Class,Wind\n1,OV 723 312,Pellmarsh,flake,SW\n").unwrap();
    let study = folder.path().join("study");
    let output =
        super::common::run(&["new", study.to_str().unwrap(), "--register", register.to_str().unwrap()]);
    let (out, err) = super::common::said(&output);
    assert!(output.status.success(), "{out}{err}");
    let output = super::common::run(&["check", study.join("study.toml").to_str().unwrap()]);
    for said in [(out, err), super::common::said(&output)] {
        let said = said.0 + &said.1;
        assert!(said.contains("\"Parrish\" (if parish is meant"), "{said}");
        assert!(said.contains("\"Wind\"") && !said.contains("\"Wind\" ("), "{said}");
    }
}
