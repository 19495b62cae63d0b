//! Small maps side by side: their numbers add up, they share one scale, like audiences alone stand beside each
//! other; symbols that find no room are counted.

use std::fs;
use std::path::{Path, PathBuf};

use strew::run::{self, Opened, Wanted, maps, pair_of_maps};
use strew::sheet::{Each, MapKind, Sheet, Thing};
use strew::study::{Attribute, Giving, PublicStudy};

use super::common::{Silent, copy, demo, files};
use super::sheet_files::many;
use super::sheets_boxes::{faults, picture};

pub const EACH: [Each; 3] = [Each::Period, Each::Class, Each::ClassAndPeriod];

pub struct Case {
    pub opened: Opened,
    pub release: strew::exact::Release,
}

impl Case {
    pub fn of(study: &Path, audience: &str) -> Self {
        let opened = run::open(study, audience, &Silent).unwrap();
        let release = run::release(&opened, &Silent).unwrap();
        Self { opened, release }
    }

    pub fn demo(audience: &str) -> Self {
        Self::of(&demo(), audience)
    }

    pub fn with(mut self, change: impl Fn(&mut PublicStudy)) -> Self {
        change(&mut self.opened.public);
        self
    }

    fn try_maps(&self, wanted: &Wanted) -> strew::fault::Result<Vec<Sheet>> {
        maps(&self.opened.public, &self.opened.ground, &self.release, wanted, &Silent)
    }

    pub fn maps(&self, wanted: &Wanted, what: &str) -> Vec<Sheet> {
        let sheets = self.try_maps(wanted).unwrap_or_else(|why| panic!("{what}: {}", why.id));
        for (number, sheet) in sheets.iter().enumerate() {
            picture(sheet, &format!("{what}-{}", number + 1));
            assert_eq!(faults(sheet), Vec::<String>::new(), "{what}");
        }
        sheets
    }

    /// Pieces shown.
    pub fn pieces(&self) -> u64 {
        self.release.publish(&self.opened.public.agreement).pieces().near
    }
}

pub fn wanted(kind: MapKind, each: Option<Each>, paper: Option<&str>) -> Wanted {
    Wanted { kind: Some(kind), each, paper: paper.map(str::to_owned), ..Wanted::default() }
}

/// Every line of text on a sheet.
fn texts(sheet: &Sheet) -> impl Iterator<Item = &str> {
    sheet.placed.iter().filter(|one| one.thing == Thing::Text).map(|one| one.name.as_str())
}

/// All that stands in one block of the panel, as one text.
fn block(sheet: &Sheet, id: &str) -> String {
    let inside = |one: &&strew::sheet::Placed| one.group.split('/').any(|group| group == id);
    let lines = sheet.placed.iter().filter(|one| one.thing == Thing::Text).filter(inside);
    lines.map(|one| one.name.as_str()).collect::<Vec<_>>().join(" ")
}

/// From where to where the numbers above the small maps of a sheet lie: pieces, and those by parish alone.
fn ranges(sheet: &Sheet) -> Vec<[u64; 2]> {
    let told = regex::Regex::new(
        r"(no|[\d,]+)(?:–([\d,]+))? pieces?(?:, ([\d,]+)(?:–([\d,]+))? more by parish)?(?: \([\d,–]+ out of place\))?\.",
    );
    let told = told.unwrap();
    told.captures_iter(&sheet.description)
        .map(|found| {
            let number =
                |at: usize| found.get(at).map(|text| text.as_str().replace(',', "").parse().unwrap_or(0));
            let part = |at: usize| {
                let least = number(at).unwrap_or(0);
                [least, number(at + 1).unwrap_or(least)]
            };
            let (shown, by_parish) = (part(1), part(3));
            [shown[0] + by_parish[0], shown[1] + by_parish[1]]
        })
        .collect()
}

/// The same where each is told exactly.
fn numbers(sheet: &Sheet) -> Vec<u64> {
    let exact = |[least, most]: [u64; 2]| {
        assert_eq!(least, most, "{}", sheet.description);
        least
    };
    ranges(sheet).into_iter().map(exact).collect()
}

/// One scale, and frames of one size, over all sheets.
fn alike(sheets: &[Sheet], what: &str) {
    let first = sheets[0].maps[0];
    for map in sheets.iter().flat_map(|sheet| &sheet.maps) {
        assert_eq!(map.metres_per_mm, first.metres_per_mm, "{what}");
        assert!((map.at.width() - first.at.width()).abs() < 1e-6, "{what}");
        assert!((map.at.height() - first.at.height()).abs() < 1e-6, "{what}");
    }
}

#[test]
fn small_maps_add_up_to_the_release_and_share_one_scale() {
    let case = Case::demo("office");
    for kind in [MapKind::Cells, MapKind::Symbols, MapKind::Parishes] {
        for each in EACH {
            for (paper, style) in [("a4", "colour"), ("a3", "contrast"), ("110x162", "ink")] {
                let what = format!("{}-{}-{paper}", kind.file_name(), each.name());
                let wanted =
                    Wanted { style: Some(style.to_owned()), ..wanted(kind, Some(each), Some(paper)) };
                let sheets = case.maps(&wanted, &what);
                alike(&sheets, &what);
                let told: Vec<u64> = sheets.iter().flat_map(numbers).collect();
                let count: usize = sheets.iter().map(|sheet| sheet.maps.len()).sum();
                assert_eq!(told.len(), count, "{what}: a number for each map");
                assert_eq!(told.iter().sum::<u64>(), case.pieces(), "{what}");
                for (number, sheet) in sheets.iter().enumerate() {
                    assert!(sheet.svg.len() < 300_000, "{what}: {} bytes", sheet.svg.len());
                    let several = sheets.len() > 1;
                    assert_eq!(sheet.name.ends_with(&format!("-{}", number + 1)), several, "{what}");
                    assert_eq!(sheet.title.contains(&format!("sheet {}", number + 1)), several, "{what}");
                }
            }
        }
    }
}

#[test]
fn small_maps_keep_to_words_and_paper() {
    let case = Case::demo("public").with(|study| {
        study.language = serde_json::from_value("fr".into()).unwrap();
    });
    for (each, paper) in [
        (Each::Period, "a4"),
        (Each::Class, "170x105"),
        (Each::Period, "80x120"),
        (Each::ClassAndPeriod, "a4"),
        (Each::ClassAndPeriod, "a2"),
    ] {
        let what = format!("fr-{}-{paper}", each.name());
        let sheets = case.maps(&wanted(MapKind::Cells, Some(each), Some(paper)), &what);
        alike(&sheets, &what);
    }
    let small = case.try_maps(&wanted(MapKind::Cells, Some(Each::Period), Some("60x60"))).unwrap_err();
    assert_eq!(small.id, "sheet-paper-too-small");
}

#[test]
fn within_one_period_each_has_a_map() {
    let case = Case::demo("office");
    let mesolithic = strew::study::vocabulary::Period::Mesolithic;
    let whole = Wanted { period: Some(mesolithic), ..Wanted::default() };
    let parts = Wanted { each: Some(Each::Period), ..whole.clone() };
    let sheets = case.maps(&parts, "within-mesolithic");
    assert_eq!(sheets.len(), 1);
    let names: Vec<&str> = texts(&sheets[0]).collect();
    assert!(names.contains(&"Mesolithic") && names.contains(&"Late Mesolithic"), "{names:?}");
    assert!(!sheets[0].description.contains("Neolithic:"));
    let finds = case.release.publish(&case.opened.public.agreement);
    let country = case.opened.public.country;
    let shown = finds.finds().iter().filter(|find| find.period.is_some_and(|p| p.is(mesolithic, country)));
    assert_eq!(numbers(&sheets[0]).iter().sum::<u64>(), shown.map(|find| u64::from(find.count)).sum::<u64>());
}

#[test]
fn one_square_alone_is_told_by_its_band() {
    // Each small map of the public says no exact number of pieces that lie in one square.
    let case = Case::demo("public");
    let sheets = case.maps(&wanted(MapKind::Cells, Some(Each::ClassAndPeriod), None), "public-both");
    let published = case.release.publish(&case.opened.public.agreement);
    assert!(published.cells().len() > 50);
    let banded = regex::Regex::new(r"(1–2|3–9|10–49|50\+) pieces").unwrap();
    let count: usize = sheets.iter().map(|sheet| banded.find_iter(&sheet.description).count()).sum();
    assert!(count > 3, "{count}");
}

#[test]
fn what_the_agreement_does_not_show_has_no_small_maps() {
    let without = |attribute: Attribute| {
        Case::demo("public").with(|study| {
            study.agreement.show.remove(&attribute);
        })
    };
    let refused = |case: &Case, wanted: &Wanted| case.try_maps(wanted).unwrap_err().id;
    let each = |each| wanted(MapKind::Cells, Some(each), None);
    assert_eq!(refused(&without(Attribute::Period), &each(Each::Period)), "run-not-shown");
    assert_eq!(refused(&without(Attribute::Period), &each(Each::ClassAndPeriod)), "run-not-shown");
    assert_eq!(refused(&without(Attribute::Class), &each(Each::Class)), "run-not-shown");
    let public = Case::demo("public");
    let year = Wanted { split_year: Some(2010), ..Wanted::default() };
    assert_eq!(refused(&public, &year), "run-not-shown", "the public is not shown dates");
    let density = wanted(MapKind::Density, Some(Each::Period), None);
    assert_eq!(refused(&public, &density), "sheet-not-side-by-side");
    let concentrations = wanted(MapKind::Concentrations, Some(Each::Class), None);
    assert_eq!(refused(&public, &concentrations), "sheet-not-side-by-side");
    let maps = Case::demo("public").with(|study| {
        study.agreement.give.remove(&Giving::Maps);
    });
    assert_eq!(refused(&maps, &each(Each::Period)), "run-not-given");
    // And the pack follows the agreement.
    for (attribute, name) in [(Attribute::Period, "each-period"), (Attribute::Class, "each-class")] {
        let case = without(attribute);
        let pack = run::pack(&case.opened.public, &case.opened.ground, &case.release, &Silent).unwrap();
        let other = if name == "each-period" { "each-class" } else { "each-period" };
        assert!(!pack.files().keys().any(|file| file.contains(name)));
        assert!(pack.files().keys().any(|file| file.contains(other)));
    }
}

#[test]
fn before_and_after_a_year_add_up_with_what_has_no_year() {
    let mut case = Case::demo("office");
    // Some dates are not known, and some reach over many years.
    for (index, find) in case.release.finds.iter_mut().enumerate() {
        let details = find.details.as_mut().unwrap();
        match index % 10 {
            3 => details.date = None,
            7 => details.date = Some("1998–2019".to_owned()),
            _ => {}
        }
    }
    for (kind, year) in [(MapKind::Cells, 2012), (MapKind::Symbols, 2005), (MapKind::Parishes, 2012)] {
        let wanted = Wanted { split_year: Some(year), ..wanted(kind, None, None) };
        let sheets = case.maps(&wanted, &format!("{}-{year}", kind.file_name()));
        assert_eq!(sheets.len(), 1);
        alike(&sheets, "years");
        let told = numbers(&sheets[0]);
        assert_eq!(told.len(), 2);
        let said = &sheets[0].description;
        let neither = regex::Regex::new(r"([\d,]+) pieces have no year").unwrap();
        let neither: u64 = neither.captures(said).unwrap()[1].replace(',', "").parse().unwrap();
        assert_eq!(told.iter().sum::<u64>() + neither, case.pieces(), "{said}");
        assert!(told[0] > 0 && told[1] > 0);
    }
    // Nothing is on the first map before there were finds.
    let wanted = Wanted { split_year: Some(1500), ..Wanted::default() };
    assert_eq!(numbers(&case.maps(&wanted, "year-1500")[0])[0], 0);
}

/// The demo with some of its registers alone and a change to its study file.
pub fn part_of_demo(folder: &Path, registers: &[&str], change: impl Fn(String) -> String) -> PathBuf {
    copy(demo().parent().unwrap(), folder);
    let list: Vec<String> = registers.iter().map(|name| format!("\"{name}\"")).collect();
    let text = fs::read_to_string(demo()).unwrap();
    let text = text.replace(r#"files = ["finds-*.csv"]"#, &format!("files = [{}]", list.join(", ")));
    let study = folder.join("study.toml");
    fs::write(&study, change(text)).unwrap();
    study
}

#[test]
fn two_registers_stand_side_by_side_each_counted_by_itself() {
    let (one, two) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let society = Case::of(&part_of_demo(one.path(), &["finds-society.csv"], |text| text), "public");
    let other = part_of_demo(two.path(), &["finds-phone.csv", "finds-visitor.csv"], |text| {
        text.replace("Worked flint from Hernsey", "Two members’ finds")
            .replace("Hernsey base map", "Another base map of Hernsey")
    });
    let members = Case::of(&other, "public");
    let pair = |wanted: &Wanted| {
        pair_of_maps(
            [&society.opened, &members.opened],
            [&society.release, &members.release],
            wanted,
            &Silent,
        )
        .unwrap()
    };
    for kind in [MapKind::Cells, MapKind::Symbols, MapKind::Parishes, MapKind::Density] {
        let sheets = pair(&wanted(kind, None, None));
        assert_eq!(sheets, pair(&wanted(kind, None, None)), "the same bytes");
        assert_eq!(sheets.len(), 1);
        let sheet = &sheets[0];
        picture(sheet, &format!("pair-{}", kind.file_name()));
        assert_eq!(faults(sheet), Vec::<String>::new());
        alike(&sheets, "pair");
        assert_eq!(sheet.maps.len(), 2);
        let told = ranges(sheet);
        assert_eq!(told.len(), 2);
        for ([least, most], case) in told.iter().zip([&society, &members]) {
            let pieces = case.pieces();
            assert!(*least <= pieces && pieces <= *most && most - least < pieces / 4, "{told:?} {pieces}");
        }
        let counts = block(sheet, "counts");
        assert!(counts.contains("Worked flint from Hernsey:") && counts.contains("Two members’ finds:"));
        assert!(block(sheet, "sources").contains("Another base map of Hernsey"), "both are credited");
    }
    // Squares with finds on both maps and on one alone, as they are drawn, counted here by hand.
    let drawn = pair(&Wanted::default());
    let side = regex::Regex::new(r"joined into squares of (\d+)\sm").unwrap();
    let side_m: u32 = side.captures(&drawn[0].description).map_or(100, |found| found[1].parse().unwrap());
    assert!(side_m > 100, "the demo's squares are joined on this paper, or nothing is tested");
    let cells = |case: &Case| -> std::collections::BTreeSet<strew::coordinates::Cell> {
        let published = case.release.publish(&case.opened.public.agreement);
        // Squares of 200 m lie across those of 500 m, and are joined into squares of 1 km.
        let joined = |cell: strew::coordinates::Cell| {
            cell.within(side_m).or_else(|| cell.within(1_000)).unwrap_or(cell)
        };
        published.cells().iter().map(|summary| joined(summary.cell)).collect()
    };
    let (a, b) = (cells(&society), cells(&members));
    let both = a.intersection(&b).count();
    let told = format!(
        "on both maps: {both}; on the first alone: {}; on the second alone: {}.",
        a.len() - both,
        b.len() - both
    );
    let cautions = block(&drawn[0], "cautions");
    assert!(cautions.contains(&told), "{cautions}\n{told}");
}

/// A parish's page has a key of what lies on its map, and not of squares elsewhere.
#[test]
fn a_parish_map_has_a_key_of_what_is_drawn_on_it() {
    let study = super::analysis::study("");
    let shape = geo::wkt!(MULTIPOLYGON(((1000. 1000.,2000. 1000.,2000. 2000.,1000. 2000.,1000. 1000.))));
    let parish = strew::ground::Parish { name: "Ash".to_owned(), also: Vec::new(), shape };
    let ground =
        strew::ground::Ground { parishes: vec![parish.clone()], ..strew::ground::Ground::empty(&study) };
    let key_with_a_larger_square_at = |column: i32| -> String {
        let larger = strew::coordinates::Cell { side_m: 200, column, row: 7 };
        let finds = vec![
            super::analysis::find(super::analysis::cell(12, 12), 4),
            super::analysis::find(strew::exact::ReleasedPlace::Cell(larger), 30),
        ];
        let published = super::analysis::published(&study, finds);
        let scene = strew::sheet::Scene {
            study: &study,
            ground: &ground,
            published: &published,
            parishes: &[],
            surface: None,
            concentrations: &[],
            even: None,
            ladder: None,
            class: None,
            period: None,
        };
        let sheet = strew::sheet::parish_map(&scene, &parish, 182.0, 142.0).unwrap();
        sheet.placed.iter().map(|one| one.name.as_str()).collect::<Vec<_>>().join(" ")
    };
    let (here, elsewhere) = (key_with_a_larger_square_at(7), key_with_a_larger_square_at(70));
    assert!(here.contains("200\u{a0}m square") && here.contains("10–49"), "{here}");
    assert!(!elsewhere.contains("200\u{a0}m square") && !elsewhere.contains("10–49"), "{elsewhere}");
    assert!(elsewhere.contains("3–9"), "{elsewhere}");
}

#[test]
fn unlike_audiences_are_not_set_side_by_side() {
    let folder = tempfile::tempdir().unwrap();
    let plain = Case::demo("public");
    type Change = fn(String) -> String;
    let changes: [(&str, Change); 5] = [
        ("precision", |text| text.replacen("precision = \"100 m\"", "precision = \"200 m\"", 1)),
        ("show", |text| text.replace("\"count\", \"strength\", \"parish\"]", "\"count\"]")),
        ("stricter", |text| text.replace("\"arrowhead\", \"axehead\", \"dagger\"", "\"dagger\"")),
        ("smallest_area", |text| text.replace("0.005 km2", "0.004 km2")),
        ("country", |text| text.replace("england-wales", "scotland")),
    ];
    for (key, change) in changes {
        let study = part_of_demo(&folder.path().join(key), &["finds-society.csv"], change);
        let other = Case::of(&study, "public");
        let fault = pair_of_maps(
            [&plain.opened, &other.opened],
            [&plain.release, &other.release],
            &Wanted::default(),
            &Silent,
        )
        .unwrap_err();
        assert_eq!(fault.id, "run-pair-unlike", "{key}");
        assert!(fault.message(strew::words::Language::English).contains(&format!("\"{key}\"")), "{key}");
    }
}

/// The sum of the "+N" of a sheet, those of the legend left out.
fn plus(sheet: &Sheet) -> usize {
    let on_maps = sheet.placed.iter().filter(|one| one.thing == Thing::Text && one.map.is_some());
    on_maps.filter_map(|one| one.name.strip_prefix('+')?.parse::<usize>().ok()).sum()
}

#[test]
fn symbols_without_room_are_counted_where_they_are_missing_and_in_words() {
    let folder = tempfile::tempdir().unwrap();
    let demo = Case::demo("public");
    let many = Case::of(&many(folder.path(), 100_000), "public");
    for (name, case) in [("demo", &demo), ("many", &many)] {
        for (style, paper) in
            [("colour", "a4"), ("ink", "170x105"), ("ink", "80x120"), ("contrast", "a3"), ("colour", "a2")]
        {
            let what = format!("crowd-{name}-{style}-{paper}");
            let wanted = Wanted { style: Some(style.into()), ..wanted(MapKind::Symbols, None, Some(paper)) };
            let sheet = &case.maps(&wanted, &what)[0];
            let left_out = plus(sheet);
            let cautions = block(sheet, "cautions");
            let told = regex::Regex::new(r"(One|[\d,]+) symbols? found no room").unwrap();
            if let Some(found) = told.captures(&cautions) {
                let n = if &found[1] == "One" { 1 } else { found[1].replace(',', "").parse().unwrap() };
                assert_eq!(left_out, n, "{what}");
            }
            let in_legend = block(sheet, "legend-sizes").contains("found no room in that square");
            let words_went = block(sheet, "left-out").contains("For want of room");
            assert!(!in_legend || left_out > 0, "{what}");
            assert!(left_out == 0 || in_legend || words_went, "{what}");
        }
    }
}

#[test]
fn the_command_numbers_its_sheets() {
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("each.svg");
    let arguments = ["map", demo().to_str().unwrap(), "--each", "class,period", "--paper", "110x162"]
        .into_iter()
        .map(str::to_owned)
        .chain(["--out".to_owned(), out.to_str().unwrap().to_owned()])
        .collect::<Vec<_>>();
    let arguments: Vec<&str> = arguments.iter().map(String::as_str).collect();
    let output = super::common::run(&arguments);
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    let written: Vec<String> =
        files(folder.path()).into_iter().map(|path| path.to_string_lossy().into_owned()).collect();
    assert!(written.len() > 1 && written[0] == "each-1.svg", "{written:?}");
    // The same agreement on both sides is alike.
    let study = demo();
    let beside = ["map", study.to_str().unwrap(), "--beside", study.to_str().unwrap(), "--out"];
    let pair = folder.path().join("pair.png");
    let output = super::common::run(&[&beside[..], &[pair.to_str().unwrap()]].concat());
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    assert!(pair.exists());
}

#[test]
fn contours_of_the_land_lie_behind_the_finds_and_their_interval_is_told() {
    let case = Case::demo("public");
    let sheet = &case.maps(&Wanted::default(), "contours")[0];
    let at = |id: &str| sheet.svg.find(&format!("<g id=\"{id}\"")).unwrap_or(usize::MAX);
    assert!(at("relief") < at("land-contours") && at("land-contours") < at("squares"));
    assert!(at("squares") < usize::MAX);
    let told = regex::Regex::new(r"Contours of the land every (\d+)\sm\.").unwrap();
    let interval: u32 = told.captures(&block(sheet, "sources")).unwrap()[1].parse().unwrap();
    let lead = f64::from(interval) / 10f64.powf(f64::from(interval).log10().floor());
    assert!([1.0, 2.0, 5.0].contains(&lead), "{interval}");
    // Where the land is shaded all over there are none, and nothing is said of them.
    for kind in [MapKind::Parishes, MapKind::Ladder] {
        let wanted = Wanted { kind: Some(kind), ..Wanted::default() };
        let sheet = &case.maps(&wanted, "contours")[0];
        assert!(!sheet.svg.contains("\"relief\"") && !sheet.svg.contains("land-contours"), "{kind:?}");
        assert!(!told.is_match(&block(sheet, "sources")), "{kind:?}");
    }
}
