//! `strew convert` and `strew coarsen`, as a person or a script uses them.

use std::io::Write;
use std::process::{Output, Stdio};

use serde_json::Value;

use super::common::{run, said, strew};

/// One JSON object a line.
fn lines(output: &Output) -> Vec<Value> {
    let (out, _) = said(output);
    out.lines().map(|line| serde_json::from_str(line).unwrap_or_else(|e| panic!("{line}: {e}"))).collect()
}

fn piped(arguments: &[&str], input: &[u8]) -> Output {
    let mut child =
        strew(arguments).stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    child.stdin.take().unwrap().write_all(input).unwrap();
    child.wait_with_output().unwrap()
}

#[test]
fn each_place_is_told_with_operation_and_accuracy() {
    let output = run(&["convert", "OV 523 412", "--to", "wgs84", "--json"]);
    assert!(output.status.success());
    let line = &lines(&output)[0];
    assert_eq!(line["input"], "OV 523 412");
    assert_eq!(line["understood_as"], "letter-reference");
    assert_eq!(line["from"], "british-grid");
    assert_eq!(line["system"], "wgs84");
    assert_eq!(line["point"], "centre");
    assert_eq!(line["square_m"], 100.0);
    assert_eq!(line["accuracy_m"], 1.0);
    // Half the diagonal of the square, and the accuracy.
    assert!((line["uncertainty_m"].as_f64().unwrap() - 71.7107).abs() < 1e-3);
    assert!(line["operation"].as_str().unwrap().contains("OSTN15"));
    assert!(line["latitude"].is_f64() && line["longitude"].is_f64() && line.get("easting").is_none());
}

#[test]
fn the_corner_is_taken_when_asked() {
    let at = |arguments: &[&str]| lines(&run(arguments))[0].clone();
    let centre = at(&["convert", "OV 523 412", "--to", "british-grid", "--json"]);
    assert_eq!((&centre["easting"], &centre["northing"]), (&552_350.0.into(), &541_250.0.into()));
    let corner = at(&["convert", "OV 523 412", "--to", "british-grid", "--json", "--corner"]);
    assert_eq!((&corner["easting"], &corner["northing"]), (&552_300.0.into(), &541_200.0.into()));
    assert_eq!(corner["point"], "corner");
    assert_eq!(corner["reference"], "OV 523 412");
}

#[test]
fn a_reference_is_never_finer_than_the_place_was_given() {
    let reference = |place: &str| {
        lines(&run(&["convert", place, "--to", "british-grid", "--json"]))[0]["reference"].clone()
    };
    assert_eq!(reference("52.65801, 1.71607"), "TG 5140 1317");
    assert_eq!(reference("52.658, 1.716"), "TG 51 13");
    assert_eq!(reference("52°39'29\"N 1°42'58\"E"), "TG 514 131");
}

#[test]
fn places_come_on_standard_input_too_and_unreadable_ones_keep_their_line() {
    let input = "OV 523 412\n\nnowhere\n52°39′28,8″ N 1°42′57,8″ E\n".as_bytes();
    let output = piped(&["convert", "--to", "lambert-93", "--json"], input);
    assert_eq!(output.status.code(), Some(3));
    let lines = lines(&output);
    assert_eq!(lines.len(), 3);
    assert_eq!(lines[1]["input"], "nowhere");
    assert!(lines[1]["error"].as_str().is_some() && lines[1]["hint"].as_str().is_some());
    // Norfolk lies outside Lambert-93: said, not carried somewhere.
    assert!(lines[2]["error"].as_str().unwrap().contains("lambert-93"));
}

#[test]
fn a_person_is_told_in_words() {
    let output = run(&["convert", "OV", "523", "412", "--to", "wgs84"]);
    let (out, err) = said(&output);
    assert!(output.status.success(), "{err}");
    for words in ["OV 523 412", "grid reference", "centre of its square", "OSTN15", "accuracy", "1 m"] {
        assert!(out.contains(words), "{words} is missing: {out}");
    }
    let output = run(&["convert", "5234 4123", "--from", "british-grid", "--to", "wgs84"]);
    let (out, err) = said(&output);
    assert_eq!((output.status.code(), out.as_str()), (Some(3), ""));
    assert!(err.contains("letters"), "{err}");
    let (out, _) = said(&run(&["convert", "OV 523 412", "--to", "wgs84", "--language", "fr"]));
    assert!(out.contains("exactitude"), "{out}");
}

#[test]
fn wrong_usage_is_code_2() {
    assert_eq!(run(&["convert", "OV 523 412"]).status.code(), Some(2));
    assert_eq!(run(&["convert", "OV 523 412", "--to", "nonsense"]).status.code(), Some(2));
    assert_eq!(run(&["coarsen", "OV 523 412", "--precision", "3 m"]).status.code(), Some(2));
    assert_eq!(run(&["convert", "OV 523 412", "--to", "EPSG:999999"]).status.code(), Some(1));
}

#[test]
fn zones_and_cells_are_chosen_by_place() {
    let at = |to: &str| lines(&run(&["convert", "48.85820, 2.29450", "--to", to, "--json"]))[0].clone();
    let utm = at("utm");
    assert_eq!(utm["system"], "utm-31n");
    assert!((utm["easting"].as_f64().unwrap() - 448_251.796).abs() < 0.001, "{utm}");
    assert!((utm["northing"].as_f64().unwrap() - 5_411_932.678).abs() < 0.001, "{utm}");
    // Five decimals are a metre and a bit: the reference stops at ten metres.
    assert_eq!(at("mgrs")["reference"], "31UDQ48251193");
    let cell = at("inspire-1km");
    assert_eq!(cell["system"], "EPSG:3035");
    assert!(cell["reference"].as_str().unwrap().starts_with("1kmN"), "{cell}");
}

#[test]
fn a_table_keeps_its_columns_and_order() {
    let folder = tempfile::tempdir().unwrap();
    let table = folder.path().join("finds.csv");
    // Semicolons, Windows-1252, a quoted line break, a short row, a column that is there already.
    let text = b"no;NGR;note;error\r\n1;OV 523 412;\"two\nlines\";\r\n2;5234 4123;gr\xe8s;x\r\n3;\"52,65801 1,71607\"\r\n4;;;\r\n";
    std::fs::write(&table, text).unwrap();
    let name = table.to_str().unwrap();
    let output = run(&["convert", "--table", name, "--from", "british-grid", "--to", "wgs84"]);
    let (out, err) = said(&output);
    assert_eq!(output.status.code(), Some(3), "{err}");
    assert!(err.contains("4 rows read, 2 converted, 2 not"), "{err}");
    let mut reader = csv::ReaderBuilder::new().delimiter(b';').from_reader(out.as_bytes());
    let headings: Vec<String> = reader.headers().unwrap().iter().map(str::to_owned).collect();
    assert_eq!(
        headings,
        [
            "no",
            "NGR",
            "note",
            "error",
            "latitude",
            "longitude",
            "reference",
            "understood_as",
            "square_m",
            "uncertainty_m",
            "operation",
            "accuracy_m",
            "held_by",
            "held_by_side_m",
            "error wgs84"
        ]
    );
    let rows: Vec<csv::StringRecord> = reader.records().map(Result::unwrap).collect();
    assert_eq!(rows.len(), 4);
    assert_eq!((&rows[0][0], &rows[0][2], &rows[0][14]), ("1", "two\nlines", ""));
    assert!((rows[0][4].parse::<f64>().unwrap() - 54.743_131_07).abs() < 1e-8);
    assert_eq!((&rows[1][2], &rows[1][3], &rows[1][4]), ("grès", "x", ""));
    assert!(rows[1][14].contains("letters"));
    assert_eq!(&rows[2][4], "52.65801");
    assert!(!rows[3][14].is_empty());
}

#[test]
fn a_table_of_two_columns_and_a_file_to_write() {
    let folder = tempfile::tempdir().unwrap();
    let (table, out) = (folder.path().join("walk.csv"), folder.path().join("out.csv"));
    std::fs::write(&table, "\u{feff}Lon,Lat,what\n1.716073973,52.658007833,core\n").unwrap();
    let (table, name) = (table.to_str().unwrap(), out.to_str().unwrap());
    let output = run(&["convert", "--table", table, "--to", "british-grid", "--out", name, "--quiet"]);
    assert!(output.status.success());
    assert_eq!(said(&output), (String::new(), String::new()));
    let text = std::fs::read_to_string(&out).unwrap();
    assert!(text.starts_with("Lon,Lat,what,easting,northing,reference,"), "{text}");
    assert!(text.contains("core,651409.804,313177.45,TG 51409 13177,"), "{text}");
    // Named columns, and a heading that is not there.
    let named = ["--column", "Lon", "--column", "Lat"];
    let again = [&["convert", "--table", table, "--to", "british-grid"][..], &named[..]].concat();
    let (printed, _) = said(&run(&again));
    assert_eq!(printed, text);
    let output = run(&["convert", "--table", table, "--to", "wgs84", "--column", "place"]);
    assert_eq!(output.status.code(), Some(1));
    assert!(said(&output).1.contains("Lon, Lat, what"));
}

#[test]
fn coarsening_truncates_and_never_refines() {
    let output = run(&[
        "coarsen",
        "OV 5239 4189",
        "52.658007833, 1.716073973",
        "OV 52 41",
        "EPSG:2154 652760 6861000",
        "45.00000, 12.00000",
        "--precision",
        "100 m",
        "--json",
    ]);
    assert_eq!(output.status.code(), Some(3));
    let lines = lines(&output);
    assert_eq!(lines[0]["reference"], "OV 523 418");
    assert_eq!(lines[0]["square_m"], 100);
    assert_eq!((&lines[0]["easting"], &lines[0]["centre_easting"]), (&552_300.0.into(), &552_350.0.into()));
    assert_eq!(lines[1]["reference"], "TG 514 131");
    assert_eq!((&lines[2]["reference"], &lines[2]["square_m"]), (&"OV 52 41".into(), &1000.into()));
    assert_eq!(lines[2]["coarser_than_asked"], true);
    assert_eq!(lines[3]["reference"], "E 652700 N 6861000 (100 m)");
    assert!(lines[4]["hint"].as_str().unwrap().contains("--to"));
    let (out, _) = said(&run(&["coarsen", "OV 53 41", "--precision", "2 km"]));
    assert!(out.contains("OV 52 40 (2 km)"), "{out}");
}

/// A coarsened table keeps every other column and row in order, and loses the columns that gave the place finer.
#[test]
fn a_coarsened_table_gives_nothing_finer_away() {
    let folder = tempfile::tempdir().unwrap();
    let table = folder.path().join("finds.csv");
    let out = folder.path().join("coarse.csv");
    let mut text = String::from("no,easting,northing,class\n");
    // More rows than a worker takes at a time, so that the order of blocks is seen too.
    for number in 0..10_000 {
        text.push_str(&format!("{number},{},{},flake\n", 572_345 + number % 7, 531_267 + number % 5));
    }
    text.push_str("last,here,there,core\n");
    std::fs::write(&table, text).unwrap();
    let output = run(&[
        "coarsen",
        "--table",
        table.to_str().unwrap(),
        "--precision",
        "100 m",
        "--from",
        "british-grid",
        "--out",
        out.to_str().unwrap(),
    ]);
    assert_eq!(output.status.code(), Some(3), "{:?}", said(&output));
    let coarse = std::fs::read_to_string(&out).unwrap();
    let mut lines = coarse.lines();
    assert_eq!(
        lines.next().unwrap(),
        "no,class,reference,square_m,easting coarsened,northing coarsened,system,error"
    );
    for number in 0..10_000 {
        assert_eq!(
            lines.next().unwrap(),
            format!("{number},flake,OV 723 312,100,572300,531200,british-grid,")
        );
    }
    let last = lines.next().unwrap();
    assert!(last.starts_with("last,core,,,,,,") && last.len() > 30, "{last}");
    assert!(lines.next().is_none());
    for fine in ["572345", "531267"] {
        assert!(!coarse.contains(fine));
    }
}
