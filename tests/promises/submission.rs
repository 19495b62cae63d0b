//! The submission: everything that an office enters has its place in the CSV, the GeoPackage and the printed
//! sheet, in order, whatever language the register is kept in; and nothing is told more finely than agreed.

use std::fs;
use std::path::Path;
use std::process::{Command, Output};

use super::common::{files, said, strew};

/// A heading in English, in French, and what is written under it: invented words that stand nowhere else.
const ROW: [(&str, &str, &str); 38] = [
    ("Number", "N°", "K.7"),
    ("How found", "Mode de découverte", "quernwalk"),
    ("Depth (cm)", "Profondeur (cm)", "17"),
    ("Date found", "Date de découverte", "2019-03-04"),
    ("Found by", "Inventeur", "A. Ternlow"),
    ("Class", "Désignation", "scraper"),
    ("Period", "Datation", "Mesolithic"),
    ("Count", "Nombre", "3"),
    ("Length (mm)", "Longueur (mm)", "41.3"),
    ("Breadth (mm)", "Largeur (mm)", "23.7"),
    ("Thickness (mm)", "Épaisseur (mm)", "9.2"),
    ("Weight (g)", "Poids (g)", "12.6"),
    ("Material", "Matière", "greyling flint"),
    ("Condition", "État", "rolledish"),
    ("Marks", "Stigmates", "bulb"),
    ("Looked at by", "Examiné par", "M. Rookby"),
    ("In hand or from a photograph", "Examiné en main ou sur photo", "in handish"),
    ("Kept at", "Lieu de conservation", "Tallow room"),
    ("Owner", "Propriétaire de l'objet", "Ploverton Trust"),
    ("Landowner", "Propriétaire du terrain", "Snipe Holding"),
    ("Landowner's permission", "Accord du propriétaire", "yes, spokenly"),
    ("Grid ref", "Référence grille", "OV 52341 41733"),
    ("How the place was read", "Mode de localisation", "phonefix"),
    ("Parish", "Commune", "Eastwelling"),
    ("Field name", "Lieu-dit", "Curlew Acre"),
    ("Commune code", "Code INSEE", "29887"),
    ("Section", "Section cadastrale", "ZQ"),
    ("Parcel", "Parcelle", "0451"),
    ("Year of plan", "Année du cadastre", "1987"),
    ("Authorisation no.", "N° d'autorisation", "2018/0456"),
    ("Declaration", "Déclaration", "2019-06-05"),
    ("Photographs", "Photographies", "IMG_2034.jpg"),
    ("Kept or left", "Conservé ou laissé", "leftover chips"),
    ("Earlier publication", "Publication antérieure", "Nowhere Letters 4"),
    ("Consent to hold names", "Accord pour conserver les noms", "oui, letterly"),
    ("Embargo until", "Embargo jusqu'au", "2031-02-03"),
    ("Setting", "Contexte", "beach"),
    ("Note", "Remarques", "sandish"),
];

/// What stands in the pack where it differs from what was written.
fn told(written: &str) -> &str {
    match written {
        "OV 52341 41733" => "OV 5234 4173",
        "17" => "17 cm",
        "bulb" => "bulb of percussion",
        other => other,
    }
}

const STUDY: &str = r#"[study]
title = "Flint of Nowhere"
edition = "Third editing"
date = 2026-10-01
[register]
files = ["finds.csv"]
[agreement.public]
precision = "1 km"
[agreement.office]
recipient = "Record of Nowhere"
precision = "10 m"
reason = "houses closely by"
review = 2033-01-02
may_publish = "kilometres onlyish"
[[fieldwork]]
ground = "Whimbrel Piece"
by = "D. Dunlinson"
dates = [2019-03-04, 2019-03-11]
visits = 2
people-hours = 5.5
method = "lines walkedly"
line-spacing = "12 m"
cover = 0.35
visibility = "clearish"
light = "lowly sun"
crop = "beetling seedlings"
hectares = 2.7
pieces = 9
kept = "tools"
left = "natural lumpings"
note = "windyish"
[[fieldwork]]
ground = "Godwit Leas"
by = "D. Dunlinson"
hectares = 1.5
pieces = 0
"#;

/// A study in a folder of its own, and the register's rows by columns.
fn study(text: &str, columns: &[(&str, &str)]) -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("study.toml"), text).unwrap();
    let mut writer = csv::Writer::from_path(folder.path().join("finds.csv")).unwrap();
    writer.write_record(columns.iter().map(|(heading, _)| heading)).unwrap();
    writer.write_record(columns.iter().map(|(_, cell)| cell)).unwrap();
    writer.flush().unwrap();
    folder
}

fn run(folder: &Path, command: &str, out: &str) -> Output {
    let (study, out) = (folder.join("study.toml"), folder.join(out));
    let mut all = vec![command, study.to_str().unwrap(), "--out", out.to_str().unwrap()];
    if command == "report" {
        all.extend(["--for", "public"]);
    }
    let done = strew(&all).output().unwrap();
    assert!(done.status.success(), "{}", said(&done).1);
    done
}

/// The words of a PDF, as a reader takes them off the page, in one line.
fn words(pdf: &Path) -> String {
    let done = Command::new("pdftotext").args(["-raw", pdf.to_str().unwrap(), "-"]).output();
    let text = String::from_utf8(done.expect("pdftotext is missing: run make test-tools").stdout).unwrap();
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Every cell of every layer, as text.
fn layers(geopackage: &Path) -> String {
    use gdal::vector::LayerAccess as _;
    let dataset = gdal::Dataset::open(geopackage).unwrap();
    let mut all = String::new();
    for mut layer in dataset.layers() {
        for feature in layer.features() {
            for index in 0..feature.fields().count() {
                if let Ok(Some(text)) = feature.field_as_string(index) {
                    all += &format!("{text}\n");
                }
            }
        }
    }
    all
}

#[test]
fn all_that_an_office_enters_is_in_csv_geopackage_and_sheet() {
    for french in [false, true] {
        let columns: Vec<(&str, &str)> =
            ROW.map(|(en, fr, cell)| (if french { fr } else { en }, cell)).to_vec();
        let folder = study(STUDY, &columns);
        run(folder.path(), "submit", "office");
        let office = folder.path().join("office");
        let csv = fs::read_to_string(office.join("finds.csv")).unwrap();
        let (layers, sheet) = (layers(&office.join("finds.gpkg")), words(&office.join("submission.pdf")));
        for (heading, _, written) in ROW {
            for (place, text) in [("finds.csv", &csv), ("finds.gpkg", &layers), ("submission.pdf", &sheet)] {
                assert!(
                    text.contains(told(written)),
                    "{heading}: {:?} is not in {place} ({french})",
                    told(written)
                );
            }
        }
        // What was agreed, on every row and on the sheet.
        for (cell, spoken) in [
            ("kilometres onlyish", "Kilometres onlyish"),
            ("houses closely by", "Houses closely by"),
            ("2033-01-02", "2 January 2033"),
            ("Third editing", "Third editing"),
        ] {
            assert!(csv.contains(cell) && layers.contains(cell) && sheet.contains(spoken), "{cell}");
        }
        // Precision given and held, and the uncertainty.
        let mut rows = csv::Reader::from_reader(csv.trim_start_matches('\u{feff}').as_bytes());
        let headings = rows.headers().unwrap().clone();
        let row = rows.records().next().unwrap().unwrap();
        let cell = |heading: &str| &row[headings.iter().position(|other| other == heading).unwrap()];
        assert_eq!(
            (cell("Side (m)"), cell("Precision held (m)"), cell("Uncertainty (m)")),
            ("10", "1.0", "7.1")
        );
        assert_eq!(cell("Square in the system of the record (reference or centre)"), "OV 5234 4173");
        assert!(sheet.contains("square of 10 m, held to 1 m, ± 7"), "{sheet}");
        // In the order in which an office enters it.
        let order = [
            "Number",
            "How found",
            "Depth",
            "Date found",
            "Class",
            "Period",
            "Pieces",
            "Length (mm)",
            "Material",
            "Condition",
            "Marks of human work",
            "Strength of marks",
            "Looked at by",
            "Looked at how",
            "Kept at",
            "Owner",
            "Landowner's permission",
            "Square",
            "Side (m)",
            "Precision held (m)",
            "Place-name",
            "Commune code",
            "Section",
            "Parcel",
            "Year of the plan",
            "Authorisation",
            "Declaration",
            "Photographs",
            "Kept or left",
            "Earlier publication",
            "Consent to hold names",
            "May be published",
            "Why no more",
            "Review",
            "Embargo until",
            "Edition",
        ];
        let places: Vec<usize> = order
            .iter()
            .map(|name| headings.iter().position(|other| other == *name).unwrap_or_else(|| panic!("{name}")))
            .collect();
        assert!(places.is_sorted(), "{places:?}");
    }
}

#[test]
fn the_fieldwork_comes_first_with_the_ground_that_gave_nothing() {
    let columns = [("No", "1"), ("Grid ref", "OV 52341 41733"), ("Class", "flake")];
    let folder = study(STUDY, &columns);
    run(folder.path(), "submit", "office");
    let office = folder.path().join("office");
    let csv = fs::read_to_string(office.join("fieldwork.csv")).unwrap();
    let (layers, sheet) = (layers(&office.join("finds.gpkg")), words(&office.join("submission.pdf")));
    for value in [
        "Whimbrel Piece",
        "D. Dunlinson",
        "2019-03-04",
        "2019-03-11",
        "5.5",
        "lines walkedly",
        "12",
        "35%",
        "clearish",
        "lowly sun",
        "beetling seedlings",
        "2.7",
        "natural lumpings",
        "windyish",
        "Godwit Leas",
        "nothing",
    ] {
        assert!(csv.contains(value) && layers.contains(value), "{value}");
        assert!(sheet.contains(value), "{value} is not on the sheet: {sheet}");
    }
    assert!(sheet.contains("One of them gave nothing: Godwit Leas."), "{sheet}");
    let html = fs::read_to_string(office.join("submission.html")).unwrap();
    let at = |id: &str| html.find(&format!("id=\"{id}\"")).unwrap_or_else(|| panic!("{id}"));
    assert!(at("cover") < at("terms") && at("terms") < at("fieldwork") && at("fieldwork") < at("finds"));
}

/// Every file of a folder, for a search.
fn everything(folder: &Path) -> String {
    let read = |file: &Path| String::from_utf8_lossy(&fs::read(folder.join(file)).unwrap()).into_owned();
    let pages = words(&folder.join("submission.pdf"));
    files(folder).iter().map(|file| read(file)).chain([pages]).collect::<Vec<_>>().join("\n")
}

#[test]
fn a_reference_is_never_finer_than_agreed() {
    for (precision, square) in [("10 m", "OV 5234 4173"), ("100 m", "OV 523 417"), ("1 km", "OV 52 41")] {
        let text = STUDY.replace("precision = \"10 m\"", &format!("precision = \"{precision}\""));
        let mut packs = Vec::new();
        // The same square of each precision, and places in it that differ.
        for written in ["OV 52341 41733", "OV 52342 41736"] {
            let folder = study(&text, &[("No", "1"), ("Grid ref", written), ("Class", "flake")]);
            run(folder.path(), "submit", "office");
            let all = everything(&folder.path().join("office"));
            assert!(all.contains(square), "{precision}");
            for finer in ["52341", "41733", "52342", "41736", "552341", "541733"] {
                assert!(!all.contains(finer), "{precision}: {finer}");
            }
            let office = folder.path().join("office");
            packs.push(
                files(&office).iter().map(|file| fs::read(office.join(file)).unwrap()).collect::<Vec<_>>(),
            );
        }
        assert!(packs[0] == packs[1], "{precision}: nothing tells where in the square");
    }
    // Recorded in degrees: the square's own centre in degrees, whatever was written.
    let mut cells = Vec::new();
    for (latitude, longitude) in [("54.658054", "0.613772"), ("54.658058", "0.613776")] {
        let columns = [("No", "1"), ("Latitude", latitude), ("Longitude", longitude), ("Class", "flake")];
        let folder = study(STUDY, &columns);
        run(folder.path(), "submit", "office");
        let csv = fs::read_to_string(folder.path().join("office/finds.csv")).unwrap();
        assert!(csv.contains("(WGS84)") && !csv.contains(latitude) && !csv.contains(longitude), "{csv}");
        cells.push(csv);
    }
    assert_eq!(cells[0], cells[1]);
}

#[test]
fn a_place_written_under_another_heading_is_cut() {
    let text = STUDY.replace("precision = \"10 m\"", "precision = \"100 m\"");
    let headings = [
        "How found",
        "Depth (cm)",
        "Condition",
        "Owner",
        "Field name",
        "How the place was read",
        "In hand or from a photograph",
        "Commune code",
        "Section",
        "Parcel",
        "Year of plan",
        "Authorisation no.",
        "Declaration",
        "Photographs",
        "Kept or left",
        "Earlier publication",
        "Consent to hold names",
        "Embargo until",
        "Note",
    ];
    for planted in ["OV 52341 41733", "at 552341 541733", "54.658054, 0.613772", "see OV5234141733.jpg"] {
        let mut columns = vec![("No", "1"), ("Grid ref", "OV 52341 41733"), ("Class", "flake")];
        columns.extend(headings.map(|heading| (heading, planted)));
        let folder = study(&text, &columns);
        run(folder.path(), "submit", "office");
        let office = folder.path().join("office");
        let all = everything(&office) + &layers(&office.join("finds.gpkg"));
        for finer in ["52341", "41733", "54.658054", "0.613772"] {
            assert!(!all.contains(finer), "{planted}: {finer}");
        }
    }
}

#[test]
fn a_parcel_is_told_only_where_it_tells_no_more_than_the_square() {
    let columns: Vec<(&str, &str)> = ROW.map(|(en, _, cell)| (en, cell)).to_vec();
    let coarse = STUDY.replace("precision = \"10 m\"", "precision = \"1 km\"");
    let stricter =
        format!("{STUDY}[[agreement.office.stricter]]\nclass = \"scraper\"\nprecision = \"1 km\"\n");
    for text in [coarse, stricter] {
        let folder = study(&text, &columns);
        run(folder.path(), "submit", "office");
        let office = folder.path().join("office");
        let csv = fs::read_to_string(office.join("finds.csv")).unwrap();
        assert!(!csv.contains("Curlew Acre") && !csv.contains("0451") && !csv.contains("ZQ"), "{csv}");
        assert!(csv.contains("29887"), "a commune is no finer than its parish");
        let sheet = words(&office.join("submission.pdf"));
        assert!(sheet.contains("would tell more than the square: in 1."), "{sheet}");
    }
}

#[test]
fn names_go_only_where_those_named_agreed() {
    let names = ["A. Ternlow", "M. Rookby", "Ploverton Trust", "Snipe Holding"];
    let mut columns: Vec<(&str, &str)> = ROW.map(|(en, _, cell)| (en, cell)).to_vec();
    for column in &mut columns {
        match column.0 {
            "Consent to hold names" => column.1 = "no",
            "Note" => column.1 = "shown by A. Ternlow",
            "Kept at" => column.1 = "with a. ternlow",
            _ => {}
        }
    }
    let folder = study(STUDY, &columns);
    run(folder.path(), "submit", "office");
    let all = everything(&folder.path().join("office")) + &layers(&folder.path().join("office/finds.gpkg"));
    for name in names {
        assert!(!all.to_lowercase().contains(&name.to_lowercase()), "{name}");
    }
    let sheet = words(&folder.path().join("office/submission.pdf"));
    assert!(sheet.contains("did not agree: in 1."), "{sheet}");
    // Where the register does not ask, names are told as before.
    columns.retain(|(heading, _)| *heading != "Consent to hold names");
    let folder = study(STUDY, &columns);
    run(folder.path(), "submit", "office");
    assert!(names.iter().all(|name| everything(&folder.path().join("office")).contains(name)));
}

#[test]
fn the_public_is_told_none_of_it() {
    let columns: Vec<(&str, &str)> = ROW.map(|(en, _, cell)| (en, cell)).to_vec();
    let folder = study(STUDY, &columns);
    run(folder.path(), "report", "public");
    let public = folder.path().join("public");
    let pages = words(&public.join("report.pdf"));
    let all: String = files(&public)
        .iter()
        .map(|file| String::from_utf8_lossy(&fs::read(public.join(file)).unwrap()).into_owned())
        .chain([pages])
        .collect();
    // What is public, and what is so short that a picture's bytes may hold it by chance.
    let hidden =
        |written: &str| written.len() >= 6 && !["scraper", "Mesolithic", "Eastwelling"].contains(&written);
    for (heading, _, written) in ROW.into_iter().filter(|(_, _, written)| hidden(written)) {
        assert!(!all.contains(written), "{heading}: {written}");
    }
    for kept in ["kilometres onlyish", "Whimbrel", "Dunlinson", "beetling"] {
        assert!(!all.contains(kept), "{kept}");
    }
}

/// A row that was taken out of the register since the last submission: named on the cover, and a row of its own with
/// nothing but its number and its state in the CSV and in the GeoPackage, in both languages.
#[test]
fn a_row_that_was_taken_out_is_withdrawn_wherever_the_next_submission_speaks_of_rows() {
    for (language, state, cover, counted) in [
        (
            "en",
            "withdrawn",
            "Withdrawn since the edition before, to be struck out: 7 and K.12.",
            "2 withdrawn",
        ),
        ("fr", "retirée", "Retirées depuis l’édition précédente, à rayer : 7 et K.12.", "2 retirées"),
    ] {
        let folder = tempfile::tempdir().unwrap();
        let text = STUDY.replace("[study]", &format!("[study]\nlanguage = \"{language}\""));
        fs::write(folder.path().join("study.toml"), text).unwrap();
        let row = |number: &str, at: &str| format!("{number},scraper,Mesolithic,3,OV {at}\n");
        let head = "Number,Class,Period,Count,Grid ref\n";
        let kept = row("3", "52341 41733") + &row("20", "52441 41833");
        let first = format!("{head}{kept}{}{}", row("K.12", "52541 41533"), row("7", "52641 41433"));
        let submit = |rows: &str, out: &str| {
            fs::write(folder.path().join("finds.csv"), rows).unwrap();
            run(folder.path(), "submit", out);
            folder.path().join(out)
        };
        submit(&first, "one");
        let out = submit(&format!("{head}{kept}"), "two");
        let text = fs::read_to_string(out.join("finds.csv")).unwrap();
        let text = text.trim_start_matches('\u{feff}');
        let separator = if text.lines().next().unwrap().contains(';') { b';' } else { b',' };
        let mut reader =
            csv::ReaderBuilder::new().has_headers(false).delimiter(separator).from_reader(text.as_bytes());
        let rows: Vec<Vec<String>> =
            reader.records().map(|row| row.unwrap().iter().map(str::to_owned).collect()).collect();
        let gone: Vec<&Vec<String>> = rows.iter().filter(|row| row[1] == state).collect();
        assert_eq!(gone.iter().map(|row| row[0].as_str()).collect::<Vec<_>>(), ["7", "K.12"], "{text}");
        let last = rows[0].len() - 1;
        for row in &gone {
            // The mark of what may not be published stands in the last column of every row.
            assert!(row[2..last].iter().all(String::is_empty), "{row:?}");
        }
        let html =
            fs::read_to_string(out.join("submission.html")).unwrap().replace(['\u{a0}', '\u{202f}'], " ");
        let told = html.split("7 ").next().unwrap_or_default();
        let near: String = told.chars().rev().take(300).collect::<Vec<_>>().into_iter().rev().collect();
        assert!(html.contains(cover), "{language}: {near}");
        assert!(html.contains(counted), "{language}: {near}");
        let layer = layers(&out.join("finds.gpkg"));
        assert!(layer.contains(state), "{layer}");
    }
}
