//! The pack: the same bytes each time, harmless files, nothing overwritten, nothing beyond what was
//! agreed.

use std::collections::BTreeMap;
use std::fs;
use std::path::PathBuf;

use geo::{Area as _, MultiLineString, MultiPolygon, orient::Direction, orient::Orient as _};
use strew::analyse::{Concentration, Surface, Table, Value};
use strew::coordinates::Cell;
use strew::exact::{Details, Reason, Release, ReleasedFind, ReleasedPlace, RowState, Tally};
use strew::ground::{Ground, Partition};
use strew::pack::{Contents, Pack, Readers};
use strew::study::vocabulary::{Class, Mark, Marks, Period, Setting, Standing, Strength};
use strew::study::{PublicStudy, Study};

/// An agreement, in the words of the study file.
const PUBLIC: &str = r#"[agreement.public]
precision = "1 km"
give = ["tables", "report", "layers", "density", "concentrations"]
reason = "open fields & houses <near>"
review = 2028-01-01
"#;
const OFFICE: &str = "[agreement.office]\nrecipient = \"Record of Nowhere\"\nprecision = \"10 m\"\n";

/// A study in which nothing is read from disk.
fn study(language: &str, agreement: &str) -> PublicStudy {
    let text = format!(
        "[study]\ntitle = \"Flint of \\\"Nowhere\\\" & sea\"\ngrid = \"british-grid\"\nlanguage = \"{language}\"\n\
         date = 2026-10-01\n[register]\nfiles = [\"finds.csv\"]\n{agreement}\n\
         [[fieldwork]]\nground = \"Long Acre\"\nby = \"walkers\"\ndates = [2020-01-01]\ncover = 0.2\nkept = \"all\"\n"
    );
    let study = Study::parse(&text, PathBuf::from(".")).unwrap();
    let audience = study.audiences().next().unwrap().to_owned();
    study.audience(&audience).unwrap().clone()
}

fn ground(study: &PublicStudy) -> Ground {
    Ground {
        system: study.grid.clone(),
        parishes: Vec::new(),
        land: MultiPolygon::new(Vec::new()),
        shore: MultiLineString::new(Vec::new()),
        walked: Vec::new(),
        relief: None,
        roads: MultiLineString::new(Vec::new()),
        streams: MultiLineString::new(Vec::new()),
        water: MultiPolygon::new(Vec::new()),
        places: Vec::new(),
        protected: MultiPolygon::new(Vec::new()),
        beach: MultiPolygon::new(Vec::new()),
        beach_strip: None,
        parcels: Vec::new(),
        near: Vec::new(),
        around: MultiPolygon::new(Vec::new()),
        credits: vec!["An invented base map".into()],
    }
}

fn find(place: ReleasedPlace, class: Class, period: Period, count: u32) -> ReleasedFind {
    ReleasedFind {
        place,
        class: Some(class),
        period: Some(period),
        count,
        strength: Some(Strength::Strong),
        out_of_place: false,
        stated_parish: None,
        setting: None,
        details: None,
    }
}

fn cell(side_m: u32, column: i32, row: i32) -> ReleasedPlace {
    ReleasedPlace::Cell(Cell { side_m, column, row })
}

/// What the public may see: two kilometre squares and a piece known by its parish.
fn public_release() -> Release {
    Release {
        audience: "public".to_owned(),
        tally: Tally { read: 6, used: 4, set_aside: BTreeMap::from([(Reason::NoPlace, 2)]) },
        finds: vec![
            find(cell(1000, 552, 541), Class::Flake, Period::Undated, 23),
            find(cell(1000, 552, 541), Class::Blade, Period::Mesolithic, 4),
            find(cell(1000, 553, 541), Class::Scraper, Period::Prehistoric, 2),
            find(ReleasedPlace::Parish("Northby".to_owned()), Class::Core, Period::Undated, 1),
        ],
        withdrawn: Vec::new(),
    }
}

/// What an office may see, with everything a spreadsheet could be made to run.
fn office_release() -> Release {
    let details = |number: &str, note: &str| {
        Some(Box::new(Details {
            number: Some(number.to_owned()),
            standing: Some(Standing::Disturbed),
            marks: Some(Marks::default().with(Mark::Platform).with(Mark::Bulb)),
            class_as_written: Some("=cmd|' /C calc'!A0".to_owned()),
            material: Some("@flint, grey; \"good\"".to_owned()),
            length_mm: Some(31.5),
            finder: Some("+44".to_owned()),
            note: Some(note.to_owned()),
            operation: Some("OSTN15".to_owned()),
            held_m: Some(1.0),
            uncertainty_m: Some(7.07),
            ..Details::default()
        }))
    };
    let mut finds = Vec::new();
    for (number, note) in [("10", "-1+1"), ("2", "\tfirst\r\nsecond <b> & #"), ("1b", "plain")] {
        let mut one = find(cell(10, 55_212, 54_105), Class::Flake, Period::Undated, 3);
        one.setting = Some(Setting::Ploughland);
        one.stated_parish = Some("Northby".to_owned());
        one.details = details(number, note);
        finds.push(one);
    }
    let mut last = find(ReleasedPlace::Parish("Southby".to_owned()), Class::Core, Period::Undated, 1);
    last.details = details("3", "by parish");
    finds.push(last);
    Release { audience: "office".to_owned(), tally: Tally { read: 4, used: 4, ..Tally::default() }, finds, withdrawn: Vec::new() }
}

fn table(title: &str) -> Table {
    Table {
        name: "class-by-period".to_owned(),
        title: title.to_owned(),
        headings: vec!["Class".to_owned(), "=Meso|lithic".to_owned(), "Share".to_owned()],
        rows: vec![
            vec![Value::Text("=1+1".to_owned()), Value::Whole(1234), Value::Number(12.5, 1)],
            vec![Value::Text("Flake, \"struck\"".to_owned()), Value::Empty, Value::Number(0.25, 1)],
        ],
        totals: Some(vec![Value::Text("Total".to_owned()), Value::Whole(1234), Value::Empty]),
        notes: vec!["A note.".to_owned()],
    }
}

fn surface() -> Surface {
    Surface {
        west_m: 552_000.0,
        south_m: 541_000.0,
        pixel_m: 500.0,
        columns: 4,
        rows: 2,
        per_hectare: vec![0.1, 0.2, 0.3, 0.0, 0.123_456, 0.02, 0.0, 0.0],
        inside: vec![1.0, 1.0, 0.5, 0.0, 1.0, 1.0, 1.0, 1.0],
        bandwidth_m: 2_000.0,
        bandwidth_method: "bandwidth-fixed",
        pieces: 29.0,
        left_out_of_place: 0,
        left_out_by_parish: 1,
        made: Default::default(),
    }
}

fn concentration() -> Concentration {
    let one = Cell { side_m: 1000, column: 552, row: 541 };
    Concentration {
        letter: "A".to_owned(),
        cells: vec![one],
        outline: MultiPolygon::new(vec![one.rect().to_polygon()]),
        hectares: 100.0,
        pieces: 27,
        may_hold: 0,
        peak_per_hectare: 0.3,
        by_class: BTreeMap::from([(Some(Class::Flake), 23), (Some(Class::Blade), 4)]),
        by_period: BTreeMap::from([(Some(Period::Undated), 23), (Some(Period::Mesolithic), 4)]),
        stays: Some((180, 200)),
        chance: None,
    }
}

/// Makes something of the contents for one study and release.
fn made<T>(study: &PublicStudy, release: &Release, make: impl Fn(&Contents<'_>) -> T) -> T {
    let ground = ground(study);
    let partition = Partition::fix(study, &ground).unwrap();
    let published = release.publish(&study.agreement);
    let (surface, concentrations, tables) = (surface(), [concentration()], [table("Classes by period")]);
    make(&Contents {
        study,
        ground: &ground,
        partition: &partition,
        published: &published,
        surface: Some(&surface),
        concentrations: &concentrations,
        even: None,
        shore: None,
        tables: &tables,
        sheets: &[],
        plates: &[],
        others: &[],
    })
}

fn public(language: &str) -> Pack {
    made(&study(language, PUBLIC), &public_release(), |c| strew::pack::compose(c).unwrap())
}

fn office(language: &str) -> Pack {
    made(&study(language, OFFICE), &office_release(), |c| strew::pack::submission(c).unwrap())
}

fn text<'a>(pack: &'a Pack, path: &str) -> &'a str {
    std::str::from_utf8(&pack.files()[path]).unwrap()
}

#[test]
fn the_same_bytes_twice() {
    for language in ["en", "fr"] {
        for (one, two) in [(public(language), public(language)), (office(language), office(language))] {
            for (path, bytes) in one.files() {
                assert!(two.files()[path] == *bytes, "{language}: {path} differs from itself");
            }
            assert_eq!(one, two);
        }
    }
}

#[test]
fn the_pack_holds_what_the_agreement_gives() {
    let pack = public("en");
    let paths: Vec<&str> = pack.files().keys().map(String::as_str).collect();
    assert_eq!(
        paths,
        [
            "MANIFEST.json",
            "README.txt",
            "layers/cells.geojson",
            "layers/cells.kml",
            "layers/concentrations.geojson",
            "layers/contours.geojson",
            "layers/density.tif",
            "layers/fields.csv",
            "layers/strew.gpkg",
            "report.html",
            "report.pdf",
            "tables/class-by-period.csv",
            "tables/class-by-period.md",
            "tables/tables.xlsx",
        ]
    );
    let bare = study("en", "[agreement.public]\nprecision = \"1 km\"\ngive = [\"tables\"]\n");
    let pack = made(&bare, &public_release(), |c| strew::pack::compose(c).unwrap());
    assert!(pack.files().keys().all(|path| !path.starts_with("layers/") && !path.starts_with("report")));
}

#[test]
fn geojson_keeps_the_standard() {
    // RFC 7946: §4 no `crs`; §3.1.6 right-hand rule; §5 and §4 longitude first, WGS84.
    let pack = public("en");
    for path in ["layers/cells.geojson", "layers/concentrations.geojson"] {
        let read: geojson::FeatureCollection =
            text(&pack, path).parse::<geojson::GeoJson>().unwrap().try_into().unwrap();
        assert!(!text(&pack, path).contains("\"crs\""));
        assert!(!read.features.is_empty());
        for (index, feature) in read.features.iter().enumerate() {
            assert_eq!(feature.id, Some(geojson::feature::Id::Number((index + 1).into())));
            let shape: geo::Polygon<f64> = feature.geometry.clone().unwrap().try_into().unwrap();
            assert!(shape.signed_area() > 0.0, "counter-clockwise");
            assert_eq!(shape, shape.orient(Direction::Default));
            for corner in shape.exterior().coords() {
                assert!((-1.0..3.0).contains(&corner.x) && (54.0..57.0).contains(&corner.y), "{corner:?}");
                assert!((corner.x * 1e5 - (corner.x * 1e5).round()).abs() < 1e-6, "five decimals");
            }
        }
    }
    let cells = text(&pack, "layers/cells.geojson");
    assert!(cells.contains("10–49") && !cells.contains("27"), "bands, not counts");
    assert!(cells.contains("flake (10–49); blade (3–9)"), "{cells}");
}

#[test]
fn gdal_reads_the_layers_back() {
    use gdal::vector::LayerAccess as _;
    let pack = public("en");
    let path = "/vsimem/promise-pack.gpkg";
    gdal::vsi::create_mem_file(path, pack.files()["layers/strew.gpkg"].clone()).unwrap();
    let dataset = gdal::Dataset::open(path).unwrap();
    let mut cells = dataset.layer_by_name("cells").unwrap();
    assert_eq!(cells.spatial_ref().unwrap().auth_code().unwrap(), 27700);
    let read: Vec<_> = cells.features().collect();
    assert_eq!(read.len(), 2);
    let envelope = read[0].geometry().unwrap().envelope();
    assert_eq!((envelope.MinX, envelope.MinY, envelope.MaxX, envelope.MaxY), (552e3, 541e3, 553e3, 542e3));
    let pieces = read[0].field_index("pieces").unwrap();
    assert_eq!(read[0].field_as_string(pieces).unwrap().unwrap(), "10–49");
    assert_eq!(dataset.layer_by_name("concentrations").unwrap().feature_count(), 1);

    let path = "/vsimem/promise-pack.tif";
    gdal::vsi::create_mem_file(path, pack.files()["layers/density.tif"].clone()).unwrap();
    let dataset = gdal::Dataset::open(path).unwrap();
    assert_eq!(dataset.geo_transform().unwrap(), [552e3, 500.0, 0.0, 542e3, 0.0, -500.0]);
    let band = dataset.rasterband(1).unwrap();
    let values = band.read_band_as::<f32>().unwrap();
    // Row 0 is the northernmost here, the southernmost in the surface; four figures are kept.
    assert_eq!(values.data(), [0.1235, 0.02, 0.0, 0.0, 0.1, 0.2, 0.3, -1.0]);
    assert_eq!(band.no_data_value(), Some(-1.0));
    use gdal::Metadata as _;
    assert_eq!(dataset.metadata_item("BANDWIDTH_M", "").as_deref(), Some("2000"));
}

#[test]
fn kml_reads_back_in_the_order_of_its_schema() {
    let pack = public("en");
    let kml: kml::Kml = text(&pack, "layers/cells.kml").parse().unwrap();
    let kml::Kml::KmlDocument(document) = kml else { panic!("a kml document") };
    let kml::Kml::Document { elements, .. } = &document.elements[0] else { panic!("a document") };
    let marks: Vec<_> = elements
        .iter()
        .filter_map(|e| if let kml::Kml::Placemark(mark) = e { Some(mark) } else { None })
        .collect();
    assert_eq!(marks.len(), 2);
    for mark in marks {
        assert!(mark.description.as_deref().unwrap().contains("Nothing in it says where"));
        assert!(mark.geometry.is_some() && mark.style_url.is_some());
    }
    let written = text(&pack, "layers/cells.kml");
    assert!(written.find("<styleUrl>").unwrap() < written.find("<MultiGeometry>").unwrap());
}

/// The cells of a CSV file.
fn rows(csv: &str, delimiter: u8) -> Vec<Vec<String>> {
    let body = csv.strip_prefix('\u{feff}').expect("a byte-order mark");
    csv::ReaderBuilder::new()
        .delimiter(delimiter)
        .has_headers(false)
        .from_reader(body.as_bytes())
        .records()
        .map(|row| row.unwrap().iter().map(str::to_owned).collect())
        .collect()
}

#[test]
fn no_spreadsheet_runs_what_a_register_says() {
    let (public, office) = (public("en"), office("en"));
    for (pack, path) in
        [(&public, "tables/class-by-period.csv"), (&office, "finds.csv"), (&office, "fieldwork.csv")]
    {
        for row in rows(text(pack, path), b',') {
            for cell in row {
                let first = cell.chars().next().unwrap_or(' ');
                assert!(!"=+-@\t\r\n".contains(first), "{path}: {cell:?} would be run");
            }
        }
    }
    // A workbook's text is text: no cell holds a formula.
    let mut archive =
        zip::ZipArchive::new(std::io::Cursor::new(&public.files()["tables/tables.xlsx"])).unwrap();
    for index in 0..archive.len() {
        let mut file = archive.by_index(index).unwrap();
        if file.name().starts_with("xl/worksheets/") {
            let mut sheet = String::new();
            std::io::Read::read_to_string(&mut file, &mut sheet).unwrap();
            assert!(!sheet.contains("<f>") && !sheet.contains("<f "));
        }
    }
}

#[test]
fn csv_goes_by_language() {
    let english = rows(text(&public("en"), "tables/class-by-period.csv"), b',');
    assert_eq!(english[1], ["'=1+1", "1234", "12.5"]);
    assert!(text(&public("en"), "tables/class-by-period.csv").contains("\r\n"), "RFC 4180 line ends");
    let french = rows(text(&public("fr"), "tables/class-by-period.csv"), b';');
    assert_eq!(french[1], ["'=1+1", "1234", "12,5"]);
}

#[test]
fn finds_stand_in_the_order_of_their_numbers() {
    let rows = rows(text(&office("en"), "finds.csv"), b',');
    let numbers: Vec<&str> = rows[1..].iter().map(|row| row[0].as_str()).collect();
    assert_eq!(numbers, ["1b", "2", "3", "10"]);
    let at = |heading: &str| rows[0].iter().position(|name| name == heading).unwrap();
    assert_eq!(rows[1][at("Easting of south-west corner (m)")], "552120");
    assert_eq!(rows[1][at("Northing of south-west corner (m)")], "541050");
    assert_eq!(rows[3][at("Square")], "", "a find known by its parish has no square");
    assert_eq!(rows[3][at("Parish")], "Southby");
    assert_eq!(rows[2][at("Marks of human work")], "striking platform; bulb of percussion");
}

#[test]
fn every_file_of_an_office_says_not_for_publication() {
    for (language, mark) in [("en", "Not for publication"), ("fr", "Ne pas publier")] {
        let pack = office(language);
        assert_eq!(pack.readers(), Readers::Owner);
        for (path, bytes) in pack.files() {
            // A PDF's words are compressed; its page is made from the same document as the HTML.
            if !path.ends_with(".pdf") {
                let said = String::from_utf8_lossy(bytes).to_lowercase();
                assert!(said.contains(&mark.to_lowercase()), "{path} does not say so");
            }
        }
    }
    assert_eq!(public("en").readers(), Readers::Everyone);
}

#[test]
fn the_manifest_lists_every_file_with_its_checksum() {
    use sha2::Digest as _;
    for pack in [public("en"), office("fr")] {
        let manifest: serde_json::Value = serde_json::from_str(text(&pack, "MANIFEST.json")).unwrap();
        let files = manifest["files"].as_array().unwrap();
        assert_eq!(files.len(), pack.files().len() - 1);
        for file in files {
            let bytes = &pack.files()[file["path"].as_str().unwrap()];
            assert_eq!(file["size"], bytes.len());
            let sum: String = sha2::Sha256::digest(bytes).iter().map(|b| format!("{b:02x}")).collect();
            assert_eq!(file["sha256"], sum);
        }
        let rows = &manifest["rows"];
        let aside: u64 = rows["set_aside"].as_object().unwrap().values().map(|n| n.as_u64().unwrap()).sum();
        assert_eq!(rows["read"].as_u64().unwrap(), rows["used"].as_u64().unwrap() + aside);
    }
}

#[test]
fn the_readme_fits_a_plain_window() {
    for pack in [public("en"), office("fr")] {
        let readme = text(&pack, "README.txt");
        assert!(readme.lines().all(|line| line.chars().count() <= 78));
        assert!(readme.contains("MANIFEST.json"));
    }
}

#[test]
fn the_report_is_one_page_that_fetches_nothing() {
    for language in ["en", "fr"] {
        for (pack, path) in [(public(language), "report.html"), (office(language), "submission.html")] {
            let html = text(&pack, path);
            assert_eq!(html.matches("<h1").count(), 1);
            assert!(html.contains(&format!("<html lang=\"{language}\">")));
            let fetched = regex::Regex::new(r#"(?:src|href|srcset|action)="([^"]*)""#).unwrap();
            for found in fetched.captures_iter(html) {
                assert!(found[1].starts_with('#') || found[1].starts_with("data:"), "{}", &found[1]);
            }
            assert!(!html.contains("url(") && !html.contains("@import") && !html.contains("<script"));
            for image in regex::Regex::new("<(?:img|svg)[^>]*>").unwrap().find_iter(html) {
                let described = regex::Regex::new(r#"alt="[^"]{20,}""#).unwrap();
                assert!(described.is_match(image.as_str()), "a picture without words");
            }
            // Headings step down by one.
            let mut level = 0;
            for found in regex::Regex::new("<h([1-6])").unwrap().captures_iter(html) {
                let next: u32 = found[1].parse().unwrap();
                assert!(next <= level + 1, "h{level} is followed by h{next}");
                level = next;
            }
            // Every table tells what its headings stand over.
            assert_eq!(html.matches("<table>").count(), html.matches("<caption").count());
            assert!(!html.contains("<th>"));
            // A message that was not found would stand there by its name.
            assert!(!regex::Regex::new(r">[^<]*\bpack-[a-z]+-").unwrap().is_match(html));
        }
    }
}

#[test]
fn words_of_the_register_are_no_markup() {
    let office = office("en");
    assert!(!text(&office, "submission.html").contains("<b> &"));
    let public = public("en");
    assert!(text(&public, "report.html").contains("Open fields &amp; houses &lt;near&gt;"));
    assert!(text(&public, "tables/class-by-period.md").contains("=Meso\\|lithic"));
}

/// Where a ledger tells how each row stands to what was given before, every form of the submission says so.
#[test]
fn a_submission_tells_what_is_new_amended_withdrawn_and_unchanged() {
    let mut release = office_release();
    for (find, state) in release.finds.iter_mut().zip(RowState::ALL) {
        if let Some(details) = &mut find.details {
            details.state = Some(state);
        }
    }
    let pack = made(&study("en", OFFICE), &release, |c| strew::pack::submission(c).unwrap());
    let rows = rows(text(&pack, "finds.csv"), b',');
    assert_eq!(rows[0][1], "State");
    let mut states: Vec<&str> = rows[1..].iter().map(|row| row[1].as_str()).collect();
    states.sort_unstable();
    assert_eq!(states, ["amended", "new", "unchanged", "withdrawn"]);
    let html = text(&pack, "submission.html");
    assert!(html.contains("1 new, 1 amended, 1 withdrawn, 1 unchanged."), "the cover counts them");
    assert!(!html.contains("no account was kept"));
    assert!(html.contains("withdrawn</") || html.contains("withdrawn<br"), "each row says its own");
    let untold = rows_of_states(&office("en"));
    assert!(untold.iter().all(String::is_empty), "without a ledger nothing is made up: {untold:?}");
}

fn rows_of_states(pack: &Pack) -> Vec<String> {
    rows(text(pack, "finds.csv"), b',')[1..].iter().map(|row| row[1].clone()).collect()
}

#[test]
fn a_public_pack_says_nothing_that_is_not_shown() {
    // The release holds more than the agreement shows; none of it may come out.
    let mut release = public_release();
    for find in &mut release.finds {
        find.stated_parish = None;
    }
    let study = study(
        "en",
        "[agreement.public]\nprecision = \"1 km\"\nshow = [\"class\"]\ngive = [\"layers\", \"report\", \"tables\", \"finds\"]\n",
    );
    let pack = made(&study, &release, |c| strew::pack::compose(c).unwrap());
    let cells: serde_json::Value = serde_json::from_str(text(&pack, "layers/cells.geojson")).unwrap();
    let shown: Vec<&String> = cells["features"][0]["properties"].as_object().unwrap().keys().collect();
    assert_eq!(shown, ["classes", "reference", "side_m"]);
    let finds = rows(text(&pack, "finds/finds.csv"), b',');
    assert_eq!(
        finds[0],
        [
            "Class",
            "Square",
            "Easting of south-west corner (m)",
            "Northing of south-west corner (m)",
            "Side (m)",
            "Parish"
        ]
    );
}

#[test]
fn a_folder_of_somebody_elses_is_refused_and_left_as_it_was() {
    let place = tempfile::tempdir().unwrap();
    let target = place.path().join("public");
    let pack = public("en");
    fs::create_dir(&target).unwrap();
    fs::write(target.join("notes.txt"), "mine").unwrap();
    let fault = pack.write(&target).unwrap_err();
    assert_eq!(fault.id, "pack-folder-foreign");
    assert_eq!(fs::read_to_string(target.join("notes.txt")).unwrap(), "mine");
    // Nor is a manifest of another program's a licence to remove what it lies with.
    fs::write(target.join("MANIFEST.json"), "{\"made_by\": {\"program\": \"other\"}, \"files\": []}")
        .unwrap();
    assert_eq!(pack.write(&target).unwrap_err().id, "pack-folder-foreign");
    assert_eq!(fs::read_dir(place.path()).unwrap().count(), 1, "nothing is left behind");
    let file = place.path().join("file");
    fs::write(&file, "x").unwrap();
    assert_eq!(pack.write(&file).unwrap_err().id, "pack-folder-is-file");
}

#[test]
fn an_earlier_pack_is_replaced_whole() {
    let place = tempfile::tempdir().unwrap();
    let target = place.path().join("new/public");
    public("fr").write(&target).unwrap();
    let pack = public("en");
    pack.write(&target).unwrap();
    let written = super::common::files(&target);
    assert_eq!(written.len(), pack.files().len());
    for path in written {
        let name = path.to_string_lossy().replace('\\', "/");
        assert!(fs::read(target.join(&path)).unwrap() == pack.files()[&name]);
    }
    assert_eq!(fs::read_dir(target.parent().unwrap()).unwrap().count(), 1, "nothing is left behind");
    // Something that a person put there is not thrown away with the old pack.
    fs::write(target.join("notes.txt"), "mine").unwrap();
    assert_eq!(pack.write(&target).unwrap_err().id, "pack-folder-additions");
    assert!(target.join("notes.txt").exists() && target.join("report.html").exists());
}

#[test]
fn a_fault_on_the_way_leaves_nothing_behind() {
    let place = tempfile::tempdir().unwrap();
    let mut pack = Pack::default();
    pack.add("a", "file");
    pack.add("a/b", "a file inside a file");
    assert_eq!(pack.write(&place.path().join("new/pack")).unwrap_err().id, "pack-not-written");
    let mut pack = Pack::default();
    pack.add("../outside", "elsewhere");
    assert_eq!(pack.write(&place.path().join("pack")).unwrap_err().id, "pack-path");
    assert_eq!(fs::read_dir(place.path()).unwrap().count(), 0, "nothing is left behind");
    // An earlier pack stays when the new one cannot be written.
    public("en").write(&place.path().join("pack")).unwrap();
    assert!(pack.write(&place.path().join("pack")).is_err());
    assert!(place.path().join("pack/report.html").exists());
}

#[cfg(unix)]
#[test]
fn a_pack_not_for_publication_is_its_owners_alone() {
    use std::os::unix::fs::PermissionsExt as _;
    let place = tempfile::tempdir().unwrap();
    let mode = |path: PathBuf| fs::metadata(path).unwrap().permissions().mode() & 0o777;
    public("en").write(&place.path().join("public")).unwrap();
    assert_eq!(mode(place.path().join("public")), 0o755);
    assert_eq!(mode(place.path().join("public/layers/cells.kml")), 0o644);
    office("en").write(&place.path().join("office")).unwrap();
    assert_eq!(mode(place.path().join("office")), 0o700);
    assert_eq!(mode(place.path().join("office/finds.csv")), 0o600);
}

#[test]
fn one_file_is_written_whole_or_refused() {
    let place = tempfile::tempdir().unwrap();
    let path = place.path().join("map.svg");
    strew::pack::write_file(&path, b"one", Readers::Everyone).unwrap();
    strew::pack::write_file(&path, b"two", Readers::Everyone).unwrap();
    assert_eq!(fs::read(&path).unwrap(), b"two");
    let fault = strew::pack::write_new_file(&path, b"three", Readers::Everyone).unwrap_err();
    assert_eq!(fault.id, "pack-file-exists");
    assert_eq!(fs::read(&path).unwrap(), b"two");
    assert_eq!(
        strew::pack::write_file(place.path(), b"x", Readers::Everyone).unwrap_err().id,
        "pack-file-is-folder"
    );
    assert_eq!(fs::read_dir(place.path()).unwrap().count(), 1);
}
