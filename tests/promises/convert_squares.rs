//! A square in another system, heights, stated doubt, named systems: what `strew convert` tells beside a place.

use serde_json::Value;

use super::common::{run, said};

fn told(arguments: &[&str]) -> Value {
    let output = run(&[&["convert", "--json"], arguments].concat());
    let (out, err) = said(&output);
    serde_json::from_str(out.lines().next().unwrap_or_default())
        .unwrap_or_else(|why| panic!("{why}: {out}{err}"))
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("{value} is no number"))
}

/// The reference of the holding square names, read back, a square there that has all four corners in it; the
/// next smaller side has none such.
#[test]
fn a_square_in_another_grid_lies_in_the_square_told() {
    for (place, from, to) in [
        ("NX 12 45", "british-grid", "irish-grid"),
        ("TR 3 4", "british-grid", "utm-31n"),
        ("TR 345 412", "british-grid", "lambert-93"),
        ("NX 2345 6789", "british-grid", "irish-grid"),
        ("J 123 456", "irish-grid", "british-grid"),
        ("1kmN3134E3771", "EPSG:3035", "british-grid"),
    ] {
        let line = told(&[place, "--from", from, "--to", to]);
        if line.get("error").is_some() {
            panic!("{line}");
        }
        let corners = line["outline"].as_array().unwrap();
        assert_eq!(corners.len(), 4);
        let axis = |name: &str| corners.iter().map(|corner| number(&corner[name])).collect::<Vec<_>>();
        let (east, north) = (axis("easting"), axis("northing"));
        let side = number(&line["held_by_side_m"]);
        assert!(side > number(&line["square_m"]), "larger: {line}");
        let low = |values: &[f64]| values.iter().copied().fold(f64::INFINITY, f64::min);
        let high = |values: &[f64]| values.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        // By hand: the square of that side that has the south-west end has the north-east end too.
        let same = |side: f64| {
            (low(&east) / side).floor() == (high(&east) / side).floor()
                && (low(&north) / side).floor() == (high(&north) / side).floor()
        };
        assert!(same(side), "{line}");
        let smaller =
            [1.0, 2.0, 5.0].iter().flat_map(|lead| (0..6).map(move |power| lead * 10_f64.powi(power)));
        for smaller in smaller.filter(|smaller| *smaller < side && *smaller >= number(&line["square_m"])) {
            assert!(!same(smaller), "{smaller}: {line}");
        }
        // The reference reads back as that very square.
        let back = told(&[line["held_by"].as_str().unwrap(), "--from", to, "--to", to, "--corner"]);
        assert_eq!(number(&back["square_m"]), side, "{line} {back}");
        assert_eq!((number(&back["easting"]) / side).floor(), (low(&east) / side).floor());
        assert_eq!((number(&back["northing"]) / side).floor(), (low(&north) / side).floor());
    }
}

#[test]
fn the_same_grid_gives_the_same_square_and_words_say_when_it_is_larger() {
    let line = told(&["OV 52 41", "--to", "british-grid"]);
    assert_eq!((&line["held_by"], &line["held_by_side_m"]), (&"OV 52 41".into(), &1000.into()));
    let tetrad = told(&["OV 52 40 (2 km)", "--to", "british-grid"]);
    assert_eq!((&tetrad["held_by"], &tetrad["square_m"]), (&"OV 52 40 (2 km)".into(), &2000.0.into()));
    let (out, _) = said(&run(&["convert", "TR 345 412", "--to", "lambert-93"]));
    assert!(
        out.contains("smallest square there that holds it") && out.contains("larger than the 100 m given"),
        "{out}"
    );
    let (out, _) = said(&run(&["convert", "TR 345 412", "--to", "lambert-93", "--language", "fr"]));
    assert!(out.contains("le plus petit carré qui le contient"), "{out}");
    // A point is no square, and degrees have none.
    assert!(told(&["52.65801, 1.71607", "--to", "british-grid"]).get("outline").is_none());
    let degrees = told(&["OV 52 41", "--to", "wgs84"]);
    assert!(degrees["outline"][2]["latitude"].is_f64() && degrees.get("held_by").is_none());
    // A corner that no square of 2 km has.
    assert!(
        told(&["OV 53 41 (2 km)", "--to", "british-grid"])["error"].as_str().unwrap().contains("brackets")
    );
}

/// A reference through any system and back names the same square.
#[test]
fn references_come_back_through_every_system() {
    for (reference, from, over) in [
        ("TR 345 412", "british-grid", "lambert-93"),
        ("TR 345 412", "british-grid", "utm"),
        ("SU 4321 1234", "british-grid", "wgs84"),
        ("NX 23456 67891", "british-grid", "irish-grid"),
        ("SZ 57", "british-grid", "EPSG:3035"),
        ("J 345 412", "irish-grid", "british-grid"),
        ("J 345 412", "irish-grid", "itm"),
    ] {
        let there = told(&[reference, "--from", from, "--to", over]);
        let system = there["system"].as_str().unwrap();
        let place = match there.get("easting") {
            Some(easting) => format!("E {easting} N {}", there["northing"]),
            None => format!("{}, {}", there["latitude"], there["longitude"]),
        };
        let back = told(&[&place, "--from", system, "--to", from]);
        // As fine as the figures there are written: cut to the square given, it is the same.
        let own = told(&[reference, "--from", from, "--to", from]);
        for axis in ["easting", "northing"] {
            assert!(
                (number(&back[axis]) - number(&own[axis])).abs() < 0.01,
                "{reference} {over}: {back} {own}"
            );
        }
        let precision = format!("{} m", number(&own["square_m"]));
        let output =
            run(&["coarsen", "--json", &place, "--from", system, "--to", from, "--precision", &precision]);
        let cut: Value = serde_json::from_str(said(&output).0.trim()).unwrap();
        assert_eq!(cut["reference"], own["reference"], "{reference} over {over}");
    }
}

#[test]
fn heights_are_kept_and_not_invented() {
    for place in [
        "geo:52.65801,1.71607,24.7",
        "+52.65801+001.71607+24.7/",
        "52.65801, 1.71607, 24.7 m",
        "52.65801 1.71607 alt 24,7 m",
    ] {
        assert_eq!(told(&[place, "--to", "british-grid"])["height_m"], 24.7, "{place}");
    }
    assert!(told(&["52.65801, 1.71607", "--to", "british-grid"]).get("height_m").is_none());
    let (out, _) = said(&run(&["convert", "OV 523 412 h=31", "--to", "wgs84"]));
    assert!(out.contains("31 m as given"), "{out}");
}

/// Chapman and Wieczorek 2020: what each source of doubt amounts to adds up.
#[test]
fn uncertainty_adds_up() {
    let of = |arguments: &[&str]| number(&told(arguments)["uncertainty_m"]);
    let place = "52.65801, 1.71607";
    let plain = of(&[place, "--to", "british-grid"]);
    // Five decimals: a square of 1.1132 m, and the metre of EPSG's transformation 7710.
    assert!((plain - (1.1132 / 2_f64.sqrt() + 1.0)).abs() < 1e-3, "{plain}");
    assert!((of(&[place, "--to", "british-grid", "--uncertainty", "12 m"]) - plain - 12.0).abs() < 1e-6);
    assert!(
        (of(&["52.65801, 1.71607 ± 8 m", "--to", "british-grid", "--uncertainty", "12 m"]) - plain - 8.0)
            .abs()
            < 1e-6
    );
    assert!((of(&["geo:52.65801,1.71607;u=35", "--to", "british-grid"]) - plain - 35.0).abs() < 1e-6);
    // Degrees off a map of nobody knows which datum: OSGB36 taken as WGS84 is 62 to 137 m off in Britain.
    let unknown = of(&[place, "--to", "british-grid", "--datum-unknown"]) - plain;
    assert!((62.0..250.0).contains(&unknown), "{unknown}");
    // Where no datum of the list was in use, the worst there is.
    let far = of(&["-20.00000, 130.00000", "--to", "utm", "--datum-unknown"]);
    assert!((5359.0..5363.0).contains(&far), "{far}");
    // A reference says its grid, and with it its datum.
    assert_eq!(of(&["OV 523 412", "--to", "wgs84", "--datum-unknown"]), of(&["OV 523 412", "--to", "wgs84"]));
    // A pair that begins with a minus is a place and no option; the wrong way round it is told so.
    assert!(told(&["-4.5, 50.4", "--to", "british-grid"])["error"].as_str().unwrap().contains("swapped"));
    assert_eq!(told(&["-20.5, 130.5", "--to", "utm"])["input"], "-20.5, 130.5");
    assert_eq!(run(&["convert", place, "--to", "utm", "--uncertainty", "far"]).status.code(), Some(2));
}

/// Each named system takes a place of its own country (town halls and stations, from memory, to a few hundred
/// metres: it is the name, the axes and the bounds that are looked at) and refuses one of another.
#[test]
fn systems_by_name_with_the_area_they_are_made_for() {
    for (system, place, easting, northing) in [
        ("jersey-grid", "49.1838, -2.1070", 42_000.0, 65_400.0),
        ("guernsey-grid", "49.4560, -2.5360", 38_300.0, 45_100.0),
        ("dutch-grid", "52.1551, 5.3872", 155_000.0, 463_000.0),
        ("belgian-lambert-1972", "50.8467, 4.3525", 149_000.0, 170_900.0),
        ("belgian-lambert-2008", "50.8467, 4.3525", 649_000.0, 670_900.0),
        ("swiss-lv95", "46.9511, 7.4386", 2_600_000.0, 1_200_000.0),
        ("swiss-lv03", "46.9511, 7.4386", 600_000.0, 200_000.0),
        ("gauss-kruger-3", "53.5511, 9.9937", 3_565_900.0, 5_936_000.0),
        ("etrs89-utm-32n", "55.6761, 12.5683", 724_300.0, 6_175_700.0),
    ] {
        let line = told(&[place, "--to", system]);
        assert_eq!(line["system"], system, "{line}");
        let off = (number(&line["easting"]) - easting).hypot(number(&line["northing"]) - northing);
        assert!(off < 1_000.0, "{line}");
        // Wick lies in none of them.
        let refused = told(&["58.4389, -3.0937", "--to", system]);
        assert!(refused["error"].as_str().unwrap().contains(system), "{refused}");
    }
    assert!(told(&["56.1, 8.9", "--to", "danish-grid-1"]).get("easting").is_some());
}

/// Systems on older datums whose surveys have a grid that is not carried: the answer says how coarse it is, and
/// that a finer way exists.
#[test]
fn a_finer_way_that_is_not_carried_is_told() {
    for (place, to) in [
        ("52.1551, 5.3872", "dutch-grid"),
        ("50.8467, 4.3525", "belgian-lambert-1972"),
        ("53.5511, 9.9937", "gauss-kruger-3"),
        ("46.9511, 7.4386", "swiss-lv03"),
    ] {
        let line = told(&[place, "--to", to]);
        assert_eq!(line["grid_used"], false);
        assert!(number(&line["finer_accuracy_m"]) < number(&line["accuracy_m"]), "{line}");
        assert!(line["finer_grid"].is_string(), "{line}");
        let (out, _) = said(&run(&["convert", place, "--to", to]));
        assert!(out.contains("which is not carried here"), "{out}");
    }
    assert!(told(&["52.65801, 1.71607", "--to", "british-grid"]).get("finer_grid").is_none());
    assert!(told(&["48.8582, 2.2945", "--to", "lambert-93"]).get("finer_grid").is_none());
}
