//! Releases of an invented register and the packs made of them: what tests of packs are made on.

use geo::{MultiLineString, MultiPolygon};
use std::collections::BTreeMap;
use std::path::PathBuf;
use strew::analyse::{Concentration, Surface, Table, Value};
use strew::coordinates::Cell;
use strew::exact::{Details, Figure, Reason, Release, ReleasedFind, ReleasedPlace, Tally};
use strew::ground::{Ground, Partition};
use strew::pack::{Contents, Pack};
use strew::study::vocabulary::{Class, Mark, Marks, Period, Setting, Standing, Strength};
use strew::study::{PublicStudy, Study};

/// An agreement, in the words of the study file.
pub(super) const PUBLIC: &str = r#"[agreement.public]
precision = "1 km"
give = ["tables", "report", "layers", "density", "concentrations"]
reason = "open fields & houses <near>"
review = 2028-01-01
"#;
pub(super) const OFFICE: &str =
    "[agreement.office]\nrecipient = \"Record of Nowhere\"\nprecision = \"10 m\"\n";

/// A study in which nothing is read from disk.
pub(super) fn study(language: &str, agreement: &str) -> PublicStudy {
    let text = format!(
        "[study]\ntitle = \"Flint of \\\"Nowhere\\\" & sea\"\ngrid = \"british-grid\"\nlanguage = \"{language}\"\n\
         date = 2026-10-01\n[register]\nfiles = [\"finds.csv\"]\n{agreement}\n\
         [[fieldwork]]\nground = \"Long Acre\"\nby = \"walkers\"\ndates = [2020-01-01]\ncover = 0.2\nkept = \"all\"\n"
    );
    let study = Study::parse(&text, PathBuf::from(".")).unwrap();
    let audience = study.audiences().next().unwrap().to_owned();
    study.audience(&audience).unwrap().clone()
}

pub(super) fn ground(study: &PublicStudy) -> Ground {
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

pub(super) fn find(place: ReleasedPlace, class: Class, period: Period, count: u32) -> ReleasedFind {
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

pub(super) fn cell(side_m: u32, column: i32, row: i32) -> ReleasedPlace {
    ReleasedPlace::Cell(Cell { side_m, column, row })
}

/// What the public may see: two kilometre squares and a piece known by its parish.
pub(super) fn public_release() -> Release {
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
pub(super) fn office_release() -> Release {
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
    Release {
        audience: "office".to_owned(),
        tally: Tally { read: 4, used: 4, ..Tally::default() },
        finds,
        withdrawn: Vec::new(),
    }
}

pub(super) fn table(title: &str) -> Table {
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

pub(super) fn surface() -> Surface {
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
        held: Figure::default(),
        left_out_of_place: Figure::default(),
        left_out_by_parish: Figure::certain(1),
        made: Default::default(),
    }
}

pub(super) fn concentration() -> Concentration {
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
pub(super) fn made<T>(study: &PublicStudy, release: &Release, make: impl Fn(&Contents<'_>) -> T) -> T {
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

pub(super) fn public(language: &str) -> Pack {
    made(&study(language, PUBLIC), &public_release(), |c| strew::pack::compose(c).unwrap())
}

pub(super) fn office(language: &str) -> Pack {
    made(&study(language, OFFICE), &office_release(), |c| strew::pack::submission(c).unwrap())
}

pub(super) fn text<'a>(pack: &'a Pack, path: &str) -> &'a str {
    std::str::from_utf8(&pack.files()[path]).unwrap()
}
