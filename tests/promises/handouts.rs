//! What each user hands over: one page that prints, headings that a register is read by, a landowner's copy that
//! holds that land and no other, a parish's page with the report's own figures.

use std::collections::BTreeSet;
use std::fs;
use std::io::Read;
use std::path::{Path, PathBuf};

use strew::exact::{Register, Release};
use strew::ground::{Ground, Partition};
use strew::pack::{BlankPage, Heading, blank};
use strew::study::vocabulary::{Class, Country, Mark, Setting, Standing, Term};
use strew::study::{Attribute, Study};
use strew::words::{Language, Words};

use super::common::{Silent, demo, files, root, run, said};

const LANGUAGES: [&[Language]; 3] =
    [&[Language::English], &[Language::French], &[Language::English, Language::French]];
const PAGES: [BlankPage; 2] = [BlankPage::RecordingSheet, BlankPage::ReplySlip];

/// The text of a PDF's objects: as it stands, with every packed stream unpacked after it.
fn unpacked(pdf: &[u8]) -> String {
    let mut all = pdf.to_vec();
    let mut from = 0;
    while let Some(at) = pdf[from..].windows(6).position(|window| window == b"stream") {
        let start = from + at + 6;
        let start = start + pdf[start..].iter().take_while(|b| matches!(b, b'\r' | b'\n')).count();
        let _ = flate2::read::ZlibDecoder::new(&pdf[start..]).read_to_end(&mut all);
        from = start;
    }
    String::from_utf8_lossy(&all).into_owned()
}

/// One page of A4, tagged, in a stated language, with every font inside.
fn one_good_page(pdf: &[u8], language: &str, name: &str) {
    let text = unpacked(pdf);
    let count = |pattern: &str| regex::Regex::new(pattern).unwrap().find_iter(&text).count();
    assert_eq!(count(r"/Type\s*/Page\b"), 1, "{name}: pages");
    assert!(text.contains("/StructTreeRoot") && count(r"/Marked\s+true") == 1, "{name}: tags");
    assert!(text.contains("pdfuaid:part"), "{name}: PDF/UA");
    assert!(count(&format!(r"/Lang\s*\({language}")) > 0, "{name}: language");
    let fonts = count(r"/Type\s*/FontDescriptor");
    assert!(fonts > 0 && count(r"/FontFile[23]?\s") == fonts, "{name}: fonts inside");
    let sides = regex::Regex::new(r"/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)").unwrap();
    let found = sides.captures(&text).unwrap_or_else(|| panic!("{name}: a page size"));
    let mut mm = [1, 2].map(|side| found[side].parse::<f64>().unwrap() / 72.0 * 25.4);
    mm.sort_by(f64::total_cmp);
    assert!((mm[0] - 210.0).abs() < 0.2 && (mm[1] - 297.0).abs() < 0.2, "{name}: A4, not {mm:?}");
}

#[test]
fn blank_pages_are_one_good_page_and_the_same_each_time() {
    let long =
        "Worked stone from the parishes of the northern half of the island, its skerries and its far shore";
    let full = Heading {
        study: Some(long.to_owned()),
        from: Some(long.to_owned()),
        office: Some(long.to_owned()),
        grid: Some(strew::coordinates::System::Epsg(2157)),
        country: None,
    };
    for page in PAGES {
        for languages in LANGUAGES {
            let mut headings = vec![Heading::default()];
            // The longest law there is, whichever that is, and the longest names.
            headings.extend(
                Country::ALL.iter().map(|country| Heading { country: Some(*country), ..full.clone() }),
            );
            for heading in headings {
                let made = blank(page, languages, &heading).unwrap();
                let name = format!("{page:?} {languages:?} {:?}", heading.country);
                one_good_page(&made, languages[0].code(), &name);
                assert!(made == blank(page, languages, &heading).unwrap(), "{name}: the same bytes");
            }
        }
    }
}

/// The headings of the recording sheet that stand in bold, as one language or both print them.
fn sheet_headings(print: impl Fn(&str) -> String) -> Vec<(String, String)> {
    let code = fs::read_to_string(root().join("src/pack/handout/recording.rs")).unwrap();
    let list = code.split("const COLUMNS").nth(1).unwrap().split("];").next().unwrap();
    let names = regex::Regex::new(r#""([a-z-]+)""#).unwrap();
    let all: Vec<_> = names
        .captures_iter(list)
        .map(|found| (found[1].to_owned(), print(&format!("pack-blank-column-{}", &found[1]))))
        .collect();
    assert_eq!(all.len(), 20);
    all
}

/// What somebody fills in under a heading, in a language.
fn filled(name: &str, language: Language) -> String {
    let label = |term: &dyn Term| term.label(language);
    let french = language == Language::French;
    match name {
        "number" => "7".to_owned(),
        "date" => "2024-03-02".to_owned(),
        "finder" => "A. Tern".to_owned(),
        "looked-at-by" => "M. Rook".to_owned(),
        "parish" => "Eastwell".to_owned(),
        "landowner" => "Long Farm".to_owned(),
        "permission" => if french { "oui, orale, 2023" } else { "yes, asked in 2023" }.to_owned(),
        "setting" => label(&Setting::CliffFall),
        "place" => "OV 5234 4173".to_owned(),
        "accuracy" => "5".to_owned(),
        "standing" => label(&Standing::Derived),
        "marks" => {
            let words = Words::of(language);
            let marks = [Mark::Platform, Mark::Bulb, Mark::Ripples, Mark::Retouch];
            let mut all: Vec<String> = marks.iter().map(|mark| label(mark)).collect();
            all.push(words.say("pack-blank-bulbar-scar"));
            all.push(words.say("pack-blank-dorsal-ridges"));
            all.join(", ")
        }
        "class" => label(&Class::LeafArrowhead),
        "period" => if french { "Néolithique ancien" } else { "Early Neolithic" }.to_owned(),
        "count" => "1".to_owned(),
        "length" => "31".to_owned(),
        "weight" => "4.5".to_owned(),
        "material" => "flint".to_owned(),
        "kept-at" => "Society room".to_owned(),
        "note" => "patinated".to_owned(),
        other => panic!("{other} is a new heading: fill it in"),
    }
}

/// Says a message as a sheet prints it.
type Print<'a> = Box<dyn Fn(&str) -> String + 'a>;

#[test]
fn a_filled_recording_sheet_is_read_without_a_mapping() {
    let (english, french) = (Words::of(Language::English), Words::of(Language::French));
    let prints: [(Language, Print<'_>); 3] = [
        (Language::English, Box::new(|id| english.say(id))),
        (Language::French, Box::new(|id| french.say(id))),
        // As both languages stand on one sheet.
        (Language::English, Box::new(|id| format!("{} / {}", english.say(id), french.say(id)))),
    ];
    for (language, print) in prints {
        let columns = sheet_headings(print);
        let folder = tempfile::tempdir().unwrap();
        let row = |cells: Vec<String>| {
            cells.iter().map(|cell| format!("\"{cell}\"")).collect::<Vec<_>>().join(",") + "\n"
        };
        let text = row(columns.iter().map(|(_, heading)| heading.clone()).collect())
            + &row(columns.iter().map(|(name, _)| filled(name, language)).collect());
        fs::write(folder.path().join("finds.csv"), &text).unwrap();
        let study = "[study]\ntitle = \"Filled sheets\"\n[register]\nfiles = [\"finds.csv\"]\n\
                     [agreement.office]\nprecision = \"10 m\"\n";
        fs::write(folder.path().join("study.toml"), study).unwrap();
        let path = folder.path().join("study.toml");

        // Every column is read, nothing is set aside and nothing doubted.
        let output = run(&["check", path.to_str().unwrap(), "--for", "office"]);
        let (out, err) = said(&output);
        assert_eq!(output.status.code(), Some(0), "{text}{out}{err}");
        let study = Study::load(&path).unwrap();
        let register = Register::read(&study).unwrap();
        let shapes = register.shapes();
        let shape = &shapes.show_owner()[0];
        let unread: Vec<_> = shape.unused().map(|(heading, _)| heading).collect();
        assert!(unread.is_empty(), "{unread:?}");
        assert_eq!(shape.columns.iter().filter(|(_, field)| field.is_some()).count(), 20);
        let problems = register.problems();
        assert_eq!(problems.show_owner().listed().len(), 0, "{text}{out}");

        // And says what was ticked.
        let public = study.audience("office").unwrap();
        let ground = Ground::read(public, folder.path()).unwrap();
        let partition = Partition::fix(public, &ground).unwrap();
        let release = register.release(public, &partition).unwrap();
        let find = &release.finds[0];
        assert_eq!(find.class, Some(Class::LeafArrowhead));
        assert_eq!(find.setting, Some(Setting::CliffFall));
        let details = find.details.as_ref().unwrap();
        assert_eq!(details.standing, Some(Standing::Derived));
        assert_eq!(details.marks.unwrap().list().count(), Mark::ALL.len());
        assert_eq!(details.landowner.as_deref(), Some("Long Farm"));
        assert!(details.permission.is_some() && details.finder.is_some() && details.kept_at.is_some());
        assert_eq!((details.length_mm, details.weight_g), (Some(31.0), Some(4.5)));
        assert_eq!(details.number.as_deref(), Some("7"));
    }
}

#[test]
fn every_choice_to_tick_is_read_back() {
    for language in [Language::English, Language::French] {
        for setting in Setting::ALL.iter().filter(|setting| **setting != Setting::Unknown) {
            assert_eq!(Setting::read(&setting.label(language)), Some(*setting), "{language:?}");
        }
        for standing in Standing::ALL.iter().filter(|standing| **standing != Standing::Unknown) {
            assert_eq!(Standing::read(&standing.label(language)), Some(*standing), "{language:?}");
        }
        for class in Class::ALL {
            assert_eq!(Class::read(&class.label(language)), Some(*class), "{language:?}");
        }
    }
}

#[test]
fn strew_blank_writes_a_page_with_a_study_and_without() {
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("sheet.pdf");
    let out = out.to_str().unwrap();
    let demo = demo();
    for arguments in [
        vec!["blank", "recording-sheet", "--out", out],
        vec!["blank", "reply-slip", "--language", "fr,en", "--out", out],
        vec!["blank", "recording-sheet", "--study", demo.to_str().unwrap(), "--out", out],
    ] {
        let output = run(&arguments);
        assert!(output.status.success(), "{:?}", said(&output));
        let language = if arguments.contains(&"fr,en") { "fr" } else { "en" };
        one_good_page(&fs::read(out).unwrap(), language, &format!("{arguments:?}"));
    }
    let refused = run(&["blank", "reply-slip", "--out", folder.path().join("slip.docx").to_str().unwrap()]);
    assert_eq!(refused.status.code(), Some(1));
    assert!(said(&refused).1.contains(".pdf"));
}

/// A study with one agreement about one landowner's land.
fn land_study(folder: &Path, finds: &str) -> PathBuf {
    let study = "[study]\ntitle = \"Land\"\ndate = 2026-10-01\n[register]\nfiles = [\"finds.csv\"]\n\
        [sheets]\ndpi = 72\n\
        [[fieldwork]]\nground = \"Long Acre\"\nlandowner = \"Long Farm\"\n\
        [[fieldwork]]\nground = \"Neighbour's Piece\"\nlandowner = \"Far Farm\"\n\
        [[fieldwork]]\nground = \"The Common\"\n\
        [agreement.long-farm]\nrecipient = \"Long Farm\"\nlandowner = [\"Long Farm\", \"J. Long\"]\n\
        precision = \"100 m\"\nshow = [\"number\", \"class\", \"period\", \"count\", \"strength\", \"kept-at\", \"fieldwork\"]\n\
        give = [\"maps\", \"tables\", \"report\", \"layers\", \"finds\"]\n";
    fs::write(folder.join("study.toml"), study).unwrap();
    fs::write(folder.join("finds.csv"), finds).unwrap();
    folder.join("study.toml")
}

const MINE: &str = "No,Grid ref,Class,Count,Landowner,Kept at,Note\n\
    1,OV 5234 4173,flake,3,Long Farm,the farm,\n\
    2,OV 5235 4175,scraper,1,long  FARM,Society room,\n\
    3,OV 5236 4171,blade,2,J. Long,,\n\
    4,,blade,2,Long Farm,,set aside: no place\n";

/// The release and the pack of the landowner.
fn copy_of(finds: &str) -> (Release, strew::pack::Pack) {
    let folder = tempfile::tempdir().unwrap();
    let study = Study::load(&land_study(folder.path(), finds)).unwrap();
    let public = study.audience("long-farm").unwrap();
    let ground = Ground::read(public, folder.path()).unwrap();
    let partition = Partition::fix(public, &ground).unwrap();
    let release = Register::read(&study).unwrap().release(public, &partition).unwrap();
    let pack = strew::run::pack(public, &ground, &release, &Silent).unwrap();
    (release, pack)
}

#[test]
fn a_landowners_copy_holds_that_land_and_no_other() {
    let others = "5,OV 6123 4567,dagger,9,Far Farm,the museum,\n\
        6,OV 6123 4568,axehead,1,,,\n\
        7,OV 6123 4568,leaf arrowhead,1,Long Farms,,\n\
        8,OV 6123 4568,core,40,Mr Long Farm,,\n\
        9,nowhere,core,40,Far Farm,,\n";
    let (alone, pack) = copy_of(MINE);
    assert_eq!(alone.finds.len(), 3);
    assert_eq!((alone.tally.read, alone.tally.used, alone.tally.set_aside_total()), (4, 3, 1));
    // With other people's finds beside them, nothing is different: not a byte, not a count.
    let (beside, second) = copy_of(&format!("{MINE}{others}"));
    assert_eq!(alone, beside);
    assert_eq!(pack.files(), second.files());
    // And with quite other ones, in another order.
    let mut lines: Vec<&str> = MINE.lines().collect();
    lines.insert(1, "90,OV 7123 4567,polished axe,400,\"Farm, Far\",somewhere,\"found at OV 5234 4173\"");
    lines.swap(2, 4);
    let (shuffled, third) = copy_of(&(lines.join("\n") + "\n"));
    assert_eq!(alone, shuffled);
    assert_eq!(pack.files(), third.files());
    // Every page says what it is, and whose walks it tells of.
    let html = String::from_utf8(pack.files()["report.html"].clone()).unwrap();
    assert!(html.contains("Not for publication") && html.contains("Long Farm"));
    assert!(html.contains("The farm") && html.contains("Society room"));
    let walks = String::from_utf8(pack.files()["finds/fieldwork.csv"].clone()).unwrap();
    assert!(walks.contains("Long Acre") && !walks.contains("Neighbour") && !walks.contains("Common"));
}

#[test]
fn a_landowners_agreement_is_never_for_everybody() {
    let study = |agreement: &str| {
        let text = format!(
            "[study]\ntitle = \"Land\"\n[register]\nfiles = [\"finds.csv\"]\n{agreement}\nprecision = \"100 m\"\n"
        );
        Study::parse(&text, PathBuf::from("."))
    };
    for refused in [
        "[agreement.public]\nlandowner = \"Long Farm\"",
        "[agreement.office]\nlandowner = \"Long Farm\"",
        "[agreement.farm]\npublication = true\nlandowner = \"Long Farm\"",
        "[agreement.farm]\nlandowner = \" \"",
        "[agreement.farm]\nlandowner = []",
    ] {
        let fault = study(refused).err().unwrap_or_else(|| panic!("{refused} is refused"));
        assert!(fault.message(Language::English).contains("landowner"), "{refused}");
    }
    let good = study("[agreement.farm]\nlandowner = \"Long Farm\"").unwrap();
    let agreement = &good.audience("farm").unwrap().agreement;
    assert!(!agreement.for_publication);
    assert!(agreement.show.contains(&Attribute::KeptAt) && !agreement.show.contains(&Attribute::Finder));
}

#[test]
fn landowner_over_answers_is_still_the_permission() {
    let taken = |cells: [&str; 3]| {
        let folder = tempfile::tempdir().unwrap();
        let rows: String = cells.iter().map(|cell| format!("OV 5234 4173,flake,\"{cell}\"\n")).collect();
        let path = land_study(folder.path(), &format!("Grid ref,Class,Landowner\n{rows}"));
        let register = Register::read(&Study::load(&path).unwrap()).unwrap();
        let shapes = register.shapes();
        shapes.show_owner()[0].columns[2].1.map(strew::exact::Field::name)
    };
    assert_eq!(taken(["yes", "", "asked 2019"]), Some("permission"));
    assert_eq!(taken(["oui", "Ferme longue", "non"]), Some("permission"));
    assert_eq!(taken(["Long Farm", "J. Long", "yes"]), Some("landowner"));
    assert_eq!(taken(["Long Farm", "\"\"", "Far Farm"]), Some("landowner"));
}

#[test]
fn the_demos_landowner_is_told_of_one_holding() {
    let folder = tempfile::tempdir().unwrap();
    let pack = folder.path().join("pack");
    let (study, out) = (demo(), pack.to_str().unwrap().to_owned());
    let output =
        run(&["report", study.to_str().unwrap(), "--for", "ulverhay-grange", "--out", &out, "--json"]);
    let (told, err) = said(&output);
    assert!(output.status.success(), "{told}{err}");
    assert!(err.contains("NOT FOR PUBLICATION"), "{err}");
    let csv = fs::read_to_string(demo().with_file_name("finds-society.csv")).unwrap();
    assert!(csv.matches("Ulverhay Grange").count() > 20 && csv.contains("Pellmarsh Home Farm"));
    for file in files(&pack) {
        let bytes = fs::read(pack.join(&file)).unwrap();
        let text = String::from_utf8_lossy(&bytes);
        for other in ["Home Farm", "Lantern House", "Pellmarsh Grange", "Skarrowby Grange"] {
            assert!(!text.contains(other), "{}: {other}", file.display());
        }
    }
    let html = fs::read_to_string(pack.join("report.html")).unwrap();
    assert!(html.contains("What came off your land") && html.contains("Society room"));
}

#[test]
fn a_parish_sheet_is_one_page_with_the_reports_figures() {
    let folder = tempfile::tempdir().unwrap();
    let (study, out) = (demo(), folder.path().join("parishes"));
    let study = study.to_str().unwrap();
    let output = run(&["parish-sheet", study, "--out", out.to_str().unwrap(), "--json"]);
    let (told, err) = said(&output);
    assert!(output.status.success(), "{told}{err}");
    let made: BTreeSet<PathBuf> = files(&out).into_iter().collect();
    let layer = fs::read_to_string(demo().with_file_name("ground/parishes.geojson"))
        .or_else(|_| fs::read_to_string(demo().parent().unwrap().join("ground/parishes.geojson")))
        .unwrap();
    let names = regex::Regex::new(r#""parish": ?"([^"]+)""#).unwrap();
    let parishes: BTreeSet<String> = names.captures_iter(&layer).map(|found| found[1].to_owned()).collect();
    assert_eq!(made.len(), parishes.len());
    for file in &made {
        one_good_page(&fs::read(out.join(file)).unwrap(), "en", &file.display().to_string());
    }
    // One parish, by a name in other letters: the same bytes.
    let first = parishes.first().unwrap();
    let one = folder.path().join("one.pdf");
    let output =
        run(&["parish-sheet", study, "--parish", &first.to_uppercase(), "--out", one.to_str().unwrap()]);
    assert!(output.status.success(), "{:?}", said(&output));
    let name = format!("{}.pdf", first.to_lowercase().replace(' ', "-"));
    assert!(fs::read(&one).unwrap() == fs::read(out.join(name)).unwrap());
    let unknown = run(&["parish-sheet", study, "--parish", "Nowhere", "--out", one.to_str().unwrap()]);
    assert_eq!(unknown.status.code(), Some(1));
    assert!(said(&unknown).1.contains(first.as_str()), "the hint names the parishes");
}

#[test]
fn a_submission_opens_with_its_cover() {
    let folder = tempfile::tempdir().unwrap();
    let pack = folder.path().join("pack");
    let output = run(&["submit", demo().to_str().unwrap(), "--out", pack.to_str().unwrap()]);
    assert!(output.status.success(), "{:?}", said(&output));
    let html = fs::read_to_string(pack.join("submission.html")).unwrap();
    let finds = fs::read_to_string(pack.join("finds.csv")).unwrap();
    let rows = csv::ReaderBuilder::new().from_reader(finds.as_bytes()).records().count();
    let grouped = Words::of(Language::English).number(rows as f64, 0);
    let cover = html.split("id=\"cover\">").nth(1).unwrap().split("</section>").next().unwrap();
    assert!(cover.contains(&format!("finds.csv ({grouped} rows)")), "{cover}");
    assert!(cover.contains(&format!("{grouped} records of")));
    assert!(cover.contains("Hernsey Heritage Record has received from Hernsey Field Society"));
    // The ledger tells how each record stands to what was given before: here nothing was.
    assert!(cover.contains("0 amended, 0 withdrawn") || cover.contains("0 new"), "{cover}");
    for file in ["fields.csv", "finds.gpkg", "README.txt", "MANIFEST.json"] {
        assert!(cover.contains(file) && pack.join(file).exists(), "{file}");
    }
}

#[test]
fn every_field_that_is_given_is_explained() {
    let pattern = regex::Regex::new(r"(?m)^pack-column-([a-z-]+) =").unwrap();
    for language in ["en", "fr"] {
        let words = fs::read_to_string(root().join("words").join(language).join("pack.ftl")).unwrap();
        for found in pattern.captures_iter(&words) {
            assert!(words.contains(&format!("\npack-field-{} =", &found[1])), "{language}: {}", &found[1]);
        }
    }
    let folder = tempfile::tempdir().unwrap();
    let pack = folder.path().join("pack");
    let output = run(&["report", demo().to_str().unwrap(), "--out", pack.to_str().unwrap()]);
    assert!(output.status.success(), "{:?}", said(&output));
    let told = fs::read_to_string(pack.join("layers/fields.csv")).unwrap();
    let layer = fs::read_to_string(pack.join("layers/cells.geojson")).unwrap();
    let layer: serde_json::Value = serde_json::from_str(&layer).unwrap();
    for name in layer["features"][0]["properties"].as_object().unwrap().keys() {
        assert!(told.contains(&format!("cells,{name},")), "{name} is explained");
    }
    assert!(told.contains("density.tif,band 1,pieces/ha,"));
    let html = fs::read_to_string(pack.join("report.html")).unwrap();
    assert!(html.contains("id=\"method\"") && html.contains("id=\"fields\""));
}
