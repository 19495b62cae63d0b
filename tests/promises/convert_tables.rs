//! Long tables: what goes out together is what goes out row by row, and oddities keep their rows.

use std::fmt::Write as _;

use super::common::{run, said};

fn random(state: &mut u64) -> f64 {
    *state ^= *state << 13;
    *state ^= *state >> 7;
    *state ^= *state << 17;
    *state as f64 / u64::MAX as f64
}

/// The same rows with bare figures, and with a mark that only the whole reader takes ("+" in front, a space),
/// come out with the same cells.
#[test]
fn rows_together_as_rows_by_themselves() {
    let folder = tempfile::tempdir().unwrap();
    for (to, from) in [
        ("lambert-93", None),
        ("british-grid", None),
        ("utm-30n", None),
        ("utm", None),
        ("irish-grid", None),
        ("inspire-1km", None),
        ("lambert-2-extended", None),
        ("wgs84", Some("british-grid")),
        ("itm", Some("lambert-93")),
    ] {
        let mut state = 88_172_645_463_325_252;
        let (mut plain, mut marked) = (String::new(), String::new());
        let headings = if from.is_some() { "id,easting,northing,note" } else { "id,lat,lon,note" };
        for text in [&mut plain, &mut marked] {
            writeln!(text, "{headings}").unwrap();
        }
        for row in 0..4000 {
            let decimals = row % 8;
            let (a, b) = match from {
                Some("british-grid") => (random(&mut state) * 700e3, random(&mut state) * 1250e3),
                Some(_) => (random(&mut state) * 1200e3, 6e6 + random(&mut state) * 1200e3),
                None => (41.0 + random(&mut state) * 20.0, random(&mut state) * 20.0 - 11.0),
            };
            // Edges, and what is no place.
            let (a, b) = match (row, from) {
                (17, None) => (90.0, 180.0),
                (18, None) => (120.0, 45.0),
                (19, None) => (0.0, -0.0),
                (20, Some(_)) => (5.0, 7.0),
                _ => (a, b),
            };
            let (a, b) = (format!("{a:.decimals$}"), format!("{b:.decimals$}"));
            writeln!(plain, "{row},{a},{b},a note").unwrap();
            writeln!(marked, "{row},{a} , {b},a note").unwrap();
        }
        let through = |text: &str, name: &str| {
            let table = folder.path().join(name);
            std::fs::write(&table, text).unwrap();
            let mut arguments = vec!["convert", "--quiet", "--to", to, "--table", table.to_str().unwrap()];
            arguments.extend(from.iter().flat_map(|from| ["--from", from]));
            said(&run(&arguments)).0
        };
        let (together, apart) = (through(&plain, "plain.csv"), through(&marked, "marked.csv"));
        assert_eq!(together.lines().count(), 4001, "{to}");
        for (row, (one, other)) in together.lines().zip(apart.lines()).enumerate().skip(1) {
            let added = |line: &str| line.splitn(5, ',').nth(4).map(str::to_owned);
            assert_eq!(added(one), added(other), "{to}, row {row}: {one} | {other}");
        }
    }
}

/// Quotes, line breaks in cells, blank lines, short and long rows, a title above the headings, no last line break.
#[test]
fn every_kind_of_row_keeps_its_place() {
    let folder = tempfile::tempdir().unwrap();
    let table = folder.path().join("walk.csv");
    let mut text = String::from("Walk of the north field\nno;Est (m);Nord (m);note\n");
    for row in 0..30_000 {
        match row % 5 {
            0 => writeln!(text, "{row};652760.5;6861000.25;plain").unwrap(),
            1 => writeln!(text, "{row};652760,5;6861000,25;\"two\nlines; \"\"quoted\"\"\"\r\n\r").unwrap(),
            2 => writeln!(text, "{row};652760.5;6861000.25").unwrap(),
            3 => writeln!(text, "{row};652760.5;6861000.25;6\" blade").unwrap(),
            _ => writeln!(text, "{row};652760.5;6861000.25;x;more").unwrap(),
        }
    }
    text.push_str("last;652760.5;6861000.25;end");
    std::fs::write(&table, &text).unwrap();
    let output = run(&[
        "convert",
        "--table",
        table.to_str().unwrap(),
        "--from",
        "lambert-93",
        "--to",
        "wgs84",
        "--quiet",
    ]);
    let (out, err) = said(&output);
    assert!(output.status.success(), "{err}");
    let (title, rest) = out.split_once('\n').unwrap();
    assert_eq!(title, "Walk of the north field");
    let mut reader = csv::ReaderBuilder::new().delimiter(b';').flexible(true).from_reader(rest.as_bytes());
    assert_eq!(&reader.headers().unwrap().clone()[4], "latitude");
    let rows: Vec<csv::StringRecord> = reader.records().map(Result::unwrap).collect();
    assert_eq!(rows.len(), 30_001);
    for (number, row) in rows.iter().enumerate().take(30_000) {
        assert_eq!(row[0], number.to_string());
        let note = ["plain", "two\nlines; \"quoted\"", "", "6\" blade", "x"][number % 5];
        assert_eq!(&row[3], note);
        let latitude: f64 = row[if number % 5 == 4 { 5 } else { 4 }].parse().unwrap();
        assert!((latitude - 48.847).abs() < 0.01, "{row:?}");
    }
    assert_eq!(&rows[30_000][0], "last");
}

/// A note that gives the place away loses it when the table is coarsened; a find's own number stays.
#[test]
fn a_coarsened_tables_notes_give_nothing_finer_away() {
    let folder = tempfile::tempdir().unwrap();
    let table = folder.path().join("finds.csv");
    std::fs::write(
        &table,
        "find no,NGR,note,also at\nSX 1234,OV 5234 4123,\"by the gate, OV 52341 41234\",\"54.74301, 2.11201\"\n2,OV 5234 4123,12 pieces,\n",
    )
    .unwrap();
    let output = run(&["coarsen", "--table", table.to_str().unwrap(), "--precision", "1 km"]);
    let (out, err) = said(&output);
    assert!(output.status.success(), "{err}");
    assert!(err.contains("2 cells of other columns"), "{err}");
    let first = out.lines().nth(1).unwrap();
    assert!(
        first.starts_with("SX 1234,")
            && first.contains("by the gate, […]")
            && first.contains(",OV 52 41,1000,"),
        "{out}"
    );
    for fine in ["52341", "5234 4123", "54.743"] {
        assert!(!out.contains(fine), "{out}");
    }
    assert!(out.lines().nth(2).unwrap().contains("12 pieces"), "{out}");
}
