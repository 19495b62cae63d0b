//! The study file: every key known, every default filled, every slip named with its row.

use std::path::PathBuf;

use strew::fault::Fault;
use strew::study::{Attribute, Bandwidth, Dated, Giving, LayerKind, Precision, StricterRule, Study};
use strew::units::{Area, Length};

const WHOLE: &str = r#"
[study]
title = "Worked flint from Hernsey"
grid = "british-grid"
language = "en"
date = 2026-10-01

[register]
files = ["finds.csv", "walks/*.csv"]

[ground]
parishes = { file = "ground/parishes.geojson", name = "parish" }
land     = { file = "ground/land.geojson" }
walked   = { file = "ground/walked.geojson", cover = "share", public = false }
relief   = { file = "ground/relief.tif" }

[agreement.office]
recipient = "Hernsey Heritage Record"
precision = "10 m"

[agreement.public]
precision = "1 km"
smallest_area = "0.25 km2"
reason = "open fields near houses"
review = 2028-01-01

[[agreement.public.stricter]]
class = ["arrowhead", "axehead", "dagger"]
precision = "2 km"
[[agreement.public.stricter]]
setting = "garden"
precision = "parish"
[[agreement.public.stricter]]
near = { file = "ground/protected-sites.geojson", distance = "500 m" }
precision = "2 km"
"#;

fn parse(text: &str) -> Result<Study, Fault> {
    Study::parse(text, PathBuf::from("."))
}

fn fault(text: &str) -> Fault {
    parse(text).err().expect("a fault")
}

#[test]
fn a_whole_study_file_is_understood() {
    let study = parse(WHOLE).unwrap();
    let public = study.audience("public").unwrap();
    assert_eq!(public.agreement.precision, Precision::Square { side_m: 1000 });
    assert_eq!(public.agreement.smallest_area_m2, 250_000.0);
    assert_eq!(public.agreement.stricter.len(), 3);
    assert!(matches!(public.agreement.stricter[2].rule, StricterRule::Near { distance_m: 500.0, .. }));
    assert_eq!(public.density.bandwidth, Bandwidth::Rule);
    assert!(public.agreement.for_publication);
    // Layers are public when they are parishes, land or shore; every other is private unless said public.
    let kinds: Vec<_> = public.layers.iter().map(|layer| layer.kind.name()).collect();
    assert_eq!(kinds, ["parishes", "land"]);
    let kinds: Vec<_> = study.private.layers.iter().map(|layer| layer.kind.name()).collect();
    assert_eq!(kinds, ["walked", "relief"]);
}

#[test]
fn defaults_are_careful() {
    let study = parse(WHOLE).unwrap();
    let public = &study.audience("public").unwrap().agreement;
    for hidden in [Attribute::Date, Attribute::Finder, Attribute::Note, Attribute::Number, Attribute::Setting]
    {
        assert!(!public.show.contains(&hidden));
    }
    assert_eq!(
        public.give.iter().copied().collect::<Vec<_>>(),
        [Giving::Maps, Giving::Tables, Giving::Report]
    );
    let office = &study.audience("office").unwrap().agreement;
    assert_eq!(office.show.len(), Attribute::ALL.len());
    assert_eq!(office.smallest_area_m2, 0.0);
    assert!(!office.for_publication);
}

#[test]
fn a_mistyped_key_is_named_with_the_nearest_and_its_row() {
    let fault = fault(&WHOLE.replace("smallest_area", "smalest_area"));
    let text = fault.to_string();
    assert!(text.contains("smalest_area") && text.contains("smallest_area"), "{text}");
    assert_eq!(fault.spot.row, Some(23), "{text}");
    for (right, wrong) in [
        ("title =", "titel ="),
        ("files =", "file ="),
        ("reason =", "raison ="),
        ("parishes =", "parish ="),
        ("\"arrowhead\"", "\"arowhead\""),
        ("\"garden\"", "\"gardn\""),
    ] {
        let text = self::fault(&WHOLE.replacen(right, wrong, 1)).to_string();
        assert!(text.contains(right.trim_matches(['"', ' ', '='])), "{wrong}: {text}");
    }
}

#[test]
fn units_are_text() {
    assert_eq!("100 m".parse::<Length>().unwrap().metres, 100.0);
    assert_eq!("1 km".parse::<Length>().unwrap().metres, 1000.0);
    assert_eq!("2,5 km".parse::<Length>().unwrap().metres, 2500.0);
    assert_eq!("0.25 km2".parse::<Area>().unwrap().square_metres, 250_000.0);
    assert_eq!("4 ha".parse::<Area>().unwrap().square_metres, 40_000.0);
    for wrong in ["100", "m", "-5 m", "0 m", "1 mile", "", "1e3 m", "NaN m"] {
        assert!(wrong.parse::<Length>().is_err(), "{wrong}");
    }
    // A thousand or one: a metre would give places away.
    for ambiguous in ["1,000 m", "1.000 m", "1,000 km"] {
        assert!(
            ambiguous.parse::<Length>().is_err() && ambiguous.parse::<Precision>().is_err(),
            "{ambiguous}"
        );
    }
    assert_eq!("0,1 km".parse::<Precision>().unwrap(), Precision::Square { side_m: 100 });
    assert_eq!("0.005 km2".parse::<Area>().unwrap().square_metres, 5_000.0);
    for wrong in ["300 m", "0.5 m", "200 km", "parisch", "15 m"] {
        assert!(wrong.parse::<Precision>().is_err(), "{wrong}");
    }
}

#[test]
fn what_cannot_be_agreed_is_refused() {
    let degrees = WHOLE.replacen("\"british-grid\"", "\"wgs84\"", 1);
    assert_eq!(fault(&degrees).id, "study-grid-in-degrees");
    // A stricter square keyed on something that is not shown would tell it.
    let hidden = WHOLE.replace("precision = \"parish\"", "precision = \"2 km\"");
    assert_eq!(fault(&hidden).id, "study-stricter-hidden");
    let two = WHOLE.replace("setting = \"garden\"", "setting = \"garden\"\nclass = \"core\"");
    assert_eq!(fault(&two).id, "study-stricter-one-key");
    let nothing = WHOLE.replace("precision = \"10 m\"", "");
    assert_eq!(fault(&nothing).id, "study-missing-key");
    assert!(parse("").is_err());
    assert!(parse("[study\n").is_err());
}

/// A rule that would do nothing, a square as good as the place, a name that is nearly one of an agreement's.
#[test]
fn slips_that_would_give_places_away_are_told() {
    let finer = WHOLE.replacen("precision = \"2 km\"", "precision = \"100 m\"", 1);
    assert_eq!(fault(&finer).id, "study-stricter-not");
    let same = WHOLE.replacen("precision = \"2 km\"", "precision = \"1 km\"", 1);
    assert!(fault(&same).to_string().contains("1 km"));
    let close = parse(&WHOLE.replace("precision = \"1 km\"", "precision = \"10 m\"")).unwrap();
    assert!(close.audience("public").unwrap().agreement.publishes_closely());
    // The office's squares are as small, and no publication.
    assert!(!close.audience("office").unwrap().agreement.publishes_closely());
    let named = parse(WHOLE).unwrap().audience("pubic").err().unwrap().to_string();
    assert!(named.contains("\"public\""), "{named}");
}

#[test]
fn what_the_base_is_and_when_finds_were_collected_is_told() {
    let text = WHOLE.replace("[register]", "collected = \"1994–2026\"\n[register]").replace(
        "[agreement.office]",
        "around = { file = \"ground/around.geojson\", public = true, credit = \"County survey\", licence = \"no. 12\" }\n\
         [agreement.office]",
    );
    let with = |key: &str| {
        text.replace("file = \"ground/parishes.geojson\"", &format!("file = \"p.geojson\", {key}"))
    };
    let study = parse(&with("kind = \"civil parishes\", dated = 2024")).unwrap();
    let public = study.audience("public").unwrap();
    assert_eq!(public.collected.as_deref(), Some("1994–2026"));
    let layer = |kind: LayerKind| public.layers.iter().find(|layer| layer.kind == kind).unwrap();
    let parishes = layer(LayerKind::Parishes);
    assert_eq!(parishes.boundaries.as_deref(), Some("civil parishes"));
    assert_eq!(parishes.dated, Some(Dated::Year(2024)));
    assert_eq!(layer(LayerKind::Around).licence.as_deref(), Some("no. 12"));
    let study = parse(&with("dated = 2024-04-01")).unwrap();
    let dated = study.audience("public").unwrap().layers[0].dated;
    assert!(matches!(dated, Some(Dated::Day(day)) if (day.year, day.month, day.day) == (2024, 4, 1)));
    // Boundaries are those of parishes; a licence is somebody's.
    let wrong = text.replace("licence = \"no. 12\"", "kind = \"islands\"");
    assert_eq!(fault(&wrong).id, "study-boundaries-of-parishes");
    let wrong = text.replace("credit = \"County survey\", ", "");
    assert_eq!(fault(&wrong).id, "study-licence-of-nobody");
    assert!(parse(&with("licence_number = 4")).is_err());
}
