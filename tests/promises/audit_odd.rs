//! Places written oddly, in the ways of letters, tables and word processors, are found all the same; and figures that
//! only look like places give no alarm.

use std::fmt::Write as _;
use std::fs;

use strew::run::audit;

use super::audit::{EASTING, NORTHING, study};
use super::audit_plants::{Spot, zip};
use super::common::Silent;

/// A workbook: each row's cells as text.
fn workbook(rows: &[&[&str]]) -> Vec<u8> {
    let mut book = rust_xlsxwriter::Workbook::new();
    let sheet = book.add_worksheet();
    for (row, cells) in rows.iter().enumerate() {
        for (column, text) in cells.iter().enumerate() {
            sheet.write_string(row as u32, column as u16, *text).unwrap();
        }
    }
    book.save_to_buffer().unwrap()
}

fn odd() -> Vec<(&'static str, Vec<u8>)> {
    let spot = Spot::at(EASTING, NORTHING);
    let (e, n) = (format!("{EASTING:.0}"), format!("{NORTHING:.0}"));
    let (ge, gn) = (&e[1..5], &n[1..5]);
    let (lat, lon) = (format!("{:.6}", spot.latitude), format!("{:.6}", spot.longitude));
    let parts = |value: f64| {
        let seconds = value * 3_600.0;
        ((value).floor(), (seconds / 60.0 % 60.0).floor(), seconds % 60.0)
    };
    let ((ld, lm, ls), (od, om, os)) = (parts(spot.latitude), parts(spot.longitude));
    let comma = |seconds: f64| format!("{seconds:.2}").replace('.', ",");
    let word = |runs: &str| {
        let text =
            format!("<?xml version=\"1.0\"?><w:document><w:body><w:p>{runs}</w:p></w:body></w:document>");
        zip("word/document.xml", text.as_bytes(), "")
    };
    let run = |text: &str| format!("<w:r><w:rPr><w:b/></w:rPr><w:t>{text}</w:t></w:r>");
    let far = "no;when;easting;class;period;count;strength;note;seen by;kept at;northing\n";
    vec![
        ("tabs.txt", format!("flake\tOV\t{ge}\t{gn}\n").into()),
        ("quotes.csv", format!("\"flake\",\"OV\",\"{ge}\",\"{gn}\"\n").into()),
        ("thin.txt", format!("OV\u{2009}{ge}\u{2009}{gn}").into()),
        ("dash.txt", format!("OV {ge}\u{2013}{gn}").into()),
        ("soft.txt", format!("OV {}\u{ad}{} {gn}", &ge[..2], &ge[2..]).into()),
        ("wrapped.txt", format!("the find at OV\n{ge}\n{gn} by the gate").into()),
        ("named.txt", format!("square OV, easting {ge}, northing {gn}").into()),
        ("bold.md", format!("at OV **{ge}** **{gn}**").into()),
        ("metres.txt", format!("E {e}m, N {n}m").into()),
        ("tenths.txt", format!("OV {}.{} {}.{}", &e[1..5], &e[5..], &n[1..5], &n[5..]).into()),
        ("run-in.txt", format!("see findOV{}{} there", &e[1..], &n[1..]).into()),
        ("letter.eml", format!("Subject: x\n\nfound at OV {}=\r\n{} {gn}\n", &ge[..2], &ge[2..]).into()),
        ("bold.html", format!("<p>OV <b>{}</b>{}&nbsp;{gn}</p>", &ge[..2], &ge[2..]).into()),
        ("part.html", format!("OV {ge}<br>{gn}").into()),
        ("thousands.txt", format!("at {}'{} {}'{}", &e[..3], &e[3..], &n[..3], &n[3..]).into()),
        ("cells.html", format!("<table><tr><td>OV</td><td>{ge}</td><td>{gn}</td></tr></table>").into()),
        ("signs.html", format!("<p>{ld}&deg;{lm}'{ls:.2}&quot;N {od}&deg;{om}'{os:.2}&quot;E</p>").into()),
        ("camera.txt", format!("{ld} deg {lm}' {ls:.2}\" N, {od} deg {om}' {os:.2}\" E").into()),
        ("words.txt", format!("{ld} degrees {lm} minutes {ls:.2} seconds north, {od} degrees {om} minutes {os:.2} seconds east").into()),
        ("virgule.txt", format!("{ld}°{lm}'{}\"N {od}°{om}'{}\"E", comma(ls), comma(os)).into()),
        ("raised.txt", format!("{} {}", lat.replace('.', "\u{b7}"), lon.replace('.', "\u{b7}")).into()),
        ("runs.docx", word(&(run(&format!("OV {}", &ge[..2])) + &run(&ge[2..]) + "<w:r><w:tab/></w:r>" + &run(gn)))),
        ("far.csv", format!("{far}1;2019;{e};flake;;3;strong;by the gate;A. Tern;at home;{n}\n").into()),
        ("cells.xlsx", workbook(&[&["square", "e", "what", "n"], &["OV", ge, gn, "flake"]])),
        ("far.xlsx", workbook(&[&["easting", "a", "b", "c", "d", "e", "northing"], &[&e, "1", "2", "3", "4", "5", &n]])),
    ]
}

#[test]
fn places_written_oddly_are_found() {
    let (_folder, study) = study("", 11, 30);
    let out = tempfile::tempdir().unwrap();
    let mut missed = Vec::new();
    for (name, bytes) in odd() {
        let file = out.path().join(name);
        fs::write(&file, bytes).unwrap();
        let audited = audit(&file, &study, Some("public"), &Silent).unwrap();
        if audited.exact.is_empty() {
            missed.push(name);
        }
    }
    assert!(missed.is_empty(), "{missed:?}");
}

/// Corners of squares and their degrees in lists, and figures that are no place.
#[test]
fn lists_of_corners_and_other_figures_give_no_alarm() {
    let (_folder, study) = study("", 12, 30);
    let out = tempfile::tempdir().unwrap();
    let corners: Vec<(f64, f64)> = (0..40)
        .map(|at| (551_000.0 + 100.0 * f64::from(at * 7 % 40), 543_000.0 + 100.0 * f64::from(at)))
        .collect();
    let (mut metres, mut degrees) = (String::new(), String::new());
    for (x, y) in &corners {
        writeln!(metres, "{x:.0},{y:.0}").unwrap();
        let spot = Spot::at(*x, *y);
        writeln!(degrees, "{:.6},{:.6}", spot.latitude, spot.longitude).unwrap();
    }
    let json = format!("[[{}]]", metres.trim().replace('\n', "],["));
    let listed = format!("Squares begin at {}.", degrees.trim().replace(',', ", ").replace('\n', "; "));
    let clean: [(&str, String); 7] = [
        ("listed.txt", listed),
        ("corners.csv", metres),
        ("corners.json", json),
        ("degrees.csv", degrees),
        ("members.txt", "Members paid: 570112 and 555299. Tel. 01632 960112, 1998-2003.".to_owned()),
        // Where a picture lies on the ground, pixels of 5 m.
        ("relief.tfw", "5.0\n0.0\n0.0\n-5.0\n573502.5\n534997.5\n".to_owned()),
        ("square.txt", "OV 543 431, found 1998, and OV 5434".to_owned()),
    ];
    for (name, text) in clean {
        let file = out.path().join(name);
        fs::write(&file, text).unwrap();
        let audited = audit(&file, &study, Some("public"), &Silent).unwrap();
        assert!(audited.is_clean(), "{name}: {audited:#?}");
    }
}

#[test]
fn a_folder_without_files_is_no_success() {
    let (_folder, study) = study("", 13, 5);
    let out = tempfile::tempdir().unwrap();
    let fault = audit(out.path(), &study, Some("public"), &Silent).unwrap_err();
    assert_eq!(fault.id, "audit-nothing-there");
}
