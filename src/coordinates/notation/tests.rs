//! What is understood, what is doubted, and what the writing of a place promises.

#![allow(clippy::panic)] // a test's way to fail

use super::*;

fn bng() -> Option<&'static System> {
    Some(&System::BritishGrid)
}

#[track_caller]
fn degrees(text: &str, latitude: f64, longitude: f64, square_m: f64, understood_as: &str) {
    let written = read(text, bng(), false).unwrap_or_else(|fault| panic!("{text}: {fault:?}"));
    let Position::Geographic { latitude_deg, longitude_deg } = written.position else { panic!("{text}") };
    assert!(
        (latitude_deg - latitude).abs() < 1e-9 && (longitude_deg - longitude).abs() < 1e-9,
        "{text}: {latitude_deg} {longitude_deg}"
    );
    assert!((written.square_m / square_m - 1.0).abs() < 0.01, "{text}: {}", written.square_m);
    assert_eq!(written.understood_as, understood_as, "{text}");
    assert_eq!(written.system, System::Wgs84);
}

#[track_caller]
fn metres(text: &str, system: Option<&System>, easting: f64, northing: f64, square_m: f64) {
    let written = read(text, system, false).unwrap_or_else(|fault| panic!("{text}: {fault:?}"));
    let place = written.corner.unwrap_or(written.position);
    let Position::Projected { easting_m, northing_m } = place else { panic!("{text}") };
    assert!(
        (easting_m - easting).abs() < 1e-6 && (northing_m - northing).abs() < 1e-6,
        "{text}: {easting_m} {northing_m}"
    );
    assert!((written.square_m / square_m - 1.0).abs() < 1e-9, "{text}: {}", written.square_m);
}

#[track_caller]
fn refused(text: &str, system: Option<&System>, id: &str) {
    match read(text, system, false) {
        Err(fault) => assert_eq!(fault.id, id, "{text}"),
        Ok(written) => panic!("{text}: {written:?}"),
    }
}

#[test]
fn decimal_degrees() {
    let is = |text, square| degrees(text, 52.658, -1.716, square, "notation-decimal-degrees");
    for text in [
        "52.658, -1.716",
        "52.658 -1.716",
        "52.658,-1.716",
        "52.658; -1.716",
        "(52.658, -1.716)",
        "52,658 -1,716",
        "52,658; -1,716",
        "52,658, -1,716",
        "52,658,-1,716",
        "52.658N 1.716W",
        "52.658° N, 1.716° W",
        "N52.658 W1.716",
        "N 52.658° W 1.716°",
        "1.716W 52.658N",
        "52.658n 1.716w",
        "52.658 N 1.716 O",
        "52,658° N, 1,716° O",
        "lat 52.658 lon -1.716",
        "Latitude: 52.658, Longitude: -1.716",
        "lat=52.658 lng=-1.716",
        "Lon -1.716 Lat 52.658",
        "52.658 −1.716",
        "+52.658 -1.716",
        "WGS84 52.658 -1.716",
        "52.658\u{a0}-1.716",
        "52.658/-1.716",
        "52.658 nord 1.716 ouest",
        "52.658 1.716W",
        "52.658, -1.716 (WGS84)",
        "52.658 N 1.716 W WGS84",
        "geo:52.658,-1.716",
        "geo:52.658,-1.716;u=10",
    ] {
        is(text, 111.32);
    }
    degrees("52.65801, -1.71607", 52.65801, -1.71607, 1.1132, "notation-decimal-degrees");
    // The finer of the two: spreadsheets drop a last zero.
    degrees("52.658, -1.71607", 52.658, -1.71607, 1.1132, "notation-decimal-degrees");
    degrees("52° N 2° W", 52.0, -2.0, 111_320.0, "notation-decimal-degrees");
}

#[test]
fn degrees_and_minutes() {
    let (latitude, longitude) = (52.0 + 39.48 / 60.0, -(1.0 + 42.96 / 60.0));
    for text in [
        "52°39.48'N 1°42.96'W",
        "52° 39.48′ N, 1° 42.96′ W",
        "N 52° 39.48 W 1° 42.96",
        "52 39.48N 1 42.96W",
        "52 39.48 -1 42.96",
        "52° 39,48' N 1° 42,96' O",
        "52º39.48' -1º42.96'",
        "52°39.48 -1°42.96",
        "52deg 39.48min N 1deg 42.96min W",
        "52:39.48N 1:42.96W",
        "N52 39.48 W001 42.96",
    ] {
        degrees(text, latitude, longitude, 18.55, "notation-degrees-minutes");
    }
    degrees("52°39'N 1°43'W", 52.65, -(1.0 + 43.0 / 60.0), 1855.0, "notation-degrees-minutes");
}

#[test]
fn degrees_minutes_and_seconds() {
    let (latitude, longitude) = (52.0 + 39.0 / 60.0 + 28.8 / 3600.0, -(1.0 + 42.0 / 60.0 + 57.8 / 3600.0));
    for text in [
        "52°39'28.8\"N 1°42'57.8\"W",
        "52° 39′ 28.8″ N, 1° 42′ 57.8″ W",
        "52°39’28.8”N 1°42’57.8”W",
        "52°39'28.8''N 1°42'57.8''W",
        "N52°39'28.8\" W1°42'57.8\"",
        "52 39 28.8 N 1 42 57.8 W",
        "52 39 28.8 -1 42 57.8",
        "52d39m28.8s N 1d42m57.8s W",
        "52°39'28,8\"N 1°42'57,8\"O",
        "52°39'28,8\" N; 1°42'57,8\" O",
        "W 1 42 57.8, N 52 39 28.8",
        "52:39:28.8N 1:42:57.8W",
        "52º 39ʹ 28.8ʺ N 1º 42ʹ 57.8ʺ W",
        "52-39-28.8N 1-42-57.8W",
        "N52-39-28.8 W1-42-57.8",
        "52°39'28.8\" -1°42'57.8\"",
        "52° 39 28.8 N 1° 42 57.8 W",
        "52 39' 28.8 -1 42' 57.8",
    ] {
        degrees(text, latitude, longitude, 3.092, "notation-degrees-minutes-seconds");
    }
    degrees(
        "52°39'29\"S 1°42'58\"E",
        -(52.0 + 39.0 / 60.0 + 29.0 / 3600.0),
        1.0 + 42.0 / 60.0 + 58.0 / 3600.0,
        30.92,
        "notation-degrees-minutes-seconds",
    );
}

#[test]
fn degrees_doubted() {
    refused("52.658N 1.716", None, "place-ambiguous-hemisphere");
    refused("120.5 45.2", None, "place-ambiguous-swapped");
    refused("52.658N -1.716W", None, "place-ambiguous-sign");
    refused("52°61'N 1°42'W", None, "place-unreadable-sixty");
    refused("52°39'N", None, "place-unreadable");
    refused("in the big field", None, "place-unreadable");
    refused("", None, "place-empty");
    refused("NaN inf", None, "place-unreadable");
    // Letters that grow when they are folded.
    refused("wgs84 İİİİİİİİİİİİİİ", None, "place-unreadable");
    refused("1.2.3 4.5.6", None, "place-unreadable");
}

#[test]
fn letter_references() {
    for (text, easting, northing, side) in [
        ("OV 5 4", 550_000.0, 540_000.0, 10_000.0),
        ("OV 52 41", 552_000.0, 541_000.0, 1000.0),
        ("OV5241", 552_000.0, 541_000.0, 1000.0),
        ("OV 523 412", 552_300.0, 541_200.0, 100.0),
        ("ov523412", 552_300.0, 541_200.0, 100.0),
        ("O V 523 412", 552_300.0, 541_200.0, 100.0),
        ("OV 5234 4123", 552_340.0, 541_230.0, 10.0),
        ("OV-5234-4123", 552_340.0, 541_230.0, 10.0),
        ("OV 52 34 41 23", 552_340.0, 541_230.0, 10.0),
        ("OV 52341 41234", 552_341.0, 541_234.0, 1.0),
        ("OV5234141234", 552_341.0, 541_234.0, 1.0),
        ("OV 523417 412345", 552_341.7, 541_234.5, 0.1),
        ("NGR OV 523 412", 552_300.0, 541_200.0, 100.0),
        ("Grid ref: OV523412.", 552_300.0, 541_200.0, 100.0),
        ("OSGB36 OV 523 412", 552_300.0, 541_200.0, 100.0),
        // Ordnance Survey, national grid: NY 215 072 and its finer forms; SV is the false origin.
        ("NY 215 072", 321_500.0, 507_200.0, 100.0),
        ("NY 21544 07210", 321_544.0, 507_210.0, 1.0),
        ("SV 00000 00000", 0.0, 0.0, 1.0),
        // Tetrads and quadrants (common practice of recorders).
        ("SP39A", 430_000.0, 290_000.0, 2000.0),
        ("SP 39 J", 432_000.0, 298_000.0, 2000.0),
        ("SP39P", 434_000.0, 298_000.0, 2000.0),
        ("SP39Z", 438_000.0, 298_000.0, 2000.0),
        ("sp39ne", 435_000.0, 295_000.0, 5000.0),
        ("HP 6213", 462_000.0, 1_213_000.0, 1000.0),
    ] {
        metres(text, None, easting, northing, side);
    }
    let written = read("OV 523 412", None, false).unwrap();
    assert_eq!(written.position, Position::Projected { easting_m: 552_350.0, northing_m: 541_250.0 });
    assert_eq!(written.system, System::BritishGrid);
}

#[test]
fn letter_references_refused() {
    refused("SP39O", None, "place-unreadable");
    refused("OV 523 41", None, "place-unreadable-odd");
    refused("OV 52 3412", None, "place-unreadable-halves");
    refused("OI 523 412", None, "place-unreadable-letter-i");
    refused("OV 5234567 4123456", None, "place-unreadable-long");
    refused("AA 523 412", None, "place-outside-letters");
    refused("ZZ 523 412", None, "place-outside-letters");
}

/// Figures of a length that no grid on the Earth has, in a system without bounds of its own.
#[test]
fn figures_off_the_earth() {
    let unbounded = Some(&System::Epsg(EUROPEAN_GRID));
    refused("E 999999999999999999999999 N 1000", unbounded, "place-outside");
    refused("4461544615 4461544615", unbounded, "place-outside");
}

#[test]
fn all_figures() {
    for text in [
        "651409.903 313177.270",
        "651409.903, 313177.270",
        "651409.903,313177.270",
        "651409,903 313177,270",
        "E 651409.903 N 313177.270",
        "651409.903E 313177.270N",
        "Easting: 651409.903 Northing: 313177.270",
        "N 313177.270 E 651409.903",
        "x=651409.903 y=313177.270",
        "651 409.903 313 177.270",
        "651,409.903 313,177.270",
        "651409.903 m E, 313177.270 m N",
        "BNG 651409.903 313177.270",
        "EPSG:27700 651409.903 313177.270",
        "651409.903-313177.270",
        "651409.903 313177.270 (GPS)",
        "651409.903, 313177.270 (OSGB36)",
    ] {
        metres(text, bng(), 651_409.903, 313_177.270, 0.001);
    }
    metres("651409 313177", bng(), 651_409.0, 313_177.0, 1.0);
    metres("651409,313177", bng(), 651_409.0, 313_177.0, 1.0);
    metres("651 409 313 177", bng(), 651_409.0, 313_177.0, 1.0);
    metres("651,409 313,177", bng(), 651_409.0, 313_177.0, 1.0);
    // Ordnance Survey, OSTN15 test point 01, in Scilly: five figures each, and decimals.
    metres("91492.146 11318.804", bng(), 91_492.146, 11_318.804, 0.001);
    metres("E 91492 N 11318", bng(), 91_492.0, 11_318.0, 1.0);
    metres("091492 011318", bng(), 91_492.0, 11_318.0, 1.0);
    // Test point 31, St Kilda.
    metres("9587.909 899448.996", bng(), 9587.909, 899_448.996, 0.001);
    let lambert = Some(&System::Lambert93);
    metres("652760 6861000", lambert, 652_760.0, 6_861_000.0, 1.0);
    metres("652 760 6 861 000", lambert, 652_760.0, 6_861_000.0, 1.0);
    metres("652 760,5 6 861 000,5", lambert, 652_760.5, 6_861_000.5, 0.1);
    metres("EPSG:2154 652760 6861000", None, 652_760.0, 6_861_000.0, 1.0);
    metres("Lambert 93 : X 652760 Y 6861000", None, 652_760.0, 6_861_000.0, 1.0);
    metres("L93 652760 6861000", bng(), 652_760.0, 6_861_000.0, 1.0);
    metres("EPSG:32630 699582 5709431", bng(), 699_582.0, 5_709_431.0, 1.0);
}

#[test]
fn figures_doubted() {
    refused("5234 4123", bng(), "place-ambiguous-letters");
    refused("52341 41234", bng(), "place-ambiguous-letters");
    refused("523 412", bng(), "place-unreadable");
    refused("651409 313177", None, "place-ambiguous-system");
    refused("65140 313177", bng(), "place-ambiguous-digit");
    let lambert = Some(&System::Lambert93);
    refused("6861000 652760", lambert, "place-ambiguous-swapped");
    refused("65276 6861000", lambert, "place-ambiguous-digit");
    refused("652760 686100", lambert, "place-outside");
    refused("313177 1651409", bng(), "place-outside");
}

#[test]
fn two_columns() {
    let place = |first, second, pair, system: &System| read_pair(first, second, pair, system, true).unwrap();
    let (en, ll) = (Pair::EastingNorthing, Pair::LatitudeLongitude);
    let grid = place("651409,9", "313177,3", en, &System::BritishGrid);
    assert_eq!(grid.position, Position::Projected { easting_m: 651_409.9, northing_m: 313_177.3 });
    assert_eq!(grid.square_m, 0.1);
    let grid = place("651 409", "313 177", en, &System::BritishGrid);
    assert_eq!(grid.position, Position::Projected { easting_m: 651_409.0, northing_m: 313_177.0 });
    let place_deg = Position::Geographic { latitude_deg: 52.658, longitude_deg: -1.716 };
    assert_eq!(place("52,658", "-1,716", ll, &System::BritishGrid).position, place_deg);
    assert_eq!(place("52.658 N", "1.716 W", ll, &System::Wgs84).position, place_deg);
    assert_eq!(place("-1.716", "52.658", en, &System::Wgs84).position, place_deg);
    assert_eq!(place("OV 523", "412", en, &System::BritishGrid).square_m, 100.0);
    let id =
        |first, second, pair, system: &System| read_pair(first, second, pair, system, false).unwrap_err().id;
    assert_eq!(id("5234", "4123", en, &System::BritishGrid), "place-ambiguous-letters");
    assert_eq!(id("", "4123", en, &System::BritishGrid), "place-half");
    assert_eq!(id("1.7W", "52.6N", ll, &System::Wgs84), "place-ambiguous-swapped");
    assert_eq!(id("120.5", "45.2", ll, &System::Wgs84), "place-ambiguous-swapped");
    assert_eq!(id("6861000", "652760", en, &System::Lambert93), "place-ambiguous-swapped");
}

/// Irish Grid: references and their metres as public guides to it print them (Ordnance Survey of Ireland
/// and of Northern Ireland, *The Irish Grid*; quoted in libraries' tests).
#[test]
fn irish_references() {
    let irish: System = "irish-grid".parse().unwrap();
    for (text, easting, northing, side) in [
        ("O1590434671", 315_904.0, 234_671.0, 1.0),
        ("F632251", 63_200.0, 325_100.0, 100.0),
        ("X622997", 262_200.0, 99_700.0, 100.0),
        ("W0225", 102_000.0, 25_000.0, 1000.0),
        ("A 034 434", 3400.0, 443_400.0, 100.0),
    ] {
        metres(text, Some(&irish), easting, northing, side);
        metres(&format!("irish-grid {text}"), bng(), easting, northing, side);
        refused(text, bng(), "place-ambiguous-one-letter");
        let cell = Cell::holding(easting, northing, side as u32).unwrap();
        let written = reference(&irish, cell);
        metres(&written, Some(&irish), easting, northing, side);
    }
    assert_eq!(reference(&irish, Cell { side_m: 100, column: 3159, row: 2346 }), "O 159 346");
    refused("I 159 346", Some(&irish), "place-unreadable-letter-i");
    // What follows is Irish even where the register's own system is British.
    metres("OV 523 412", Some(&irish), 552_300.0, 541_200.0, 100.0);
}

#[test]
fn zones() {
    for text in [
        "30N 699582 5709431",
        "UTM 30N 699582 5709431",
        "utm zone 30 N 699582 5709431",
        "30U 699582 5709431",
        "30U 699582mE 5709431mN",
        "UTM 30U 0699582 5709431",
        "UTM 30N E 699582 N 5709431",
        "utm-30n 699582 5709431",
    ] {
        let written = read(text, bng(), false).unwrap_or_else(|fault| panic!("{text}: {fault:?}"));
        assert_eq!(written.system, System::Epsg(32630), "{text}");
        metres(text, bng(), 699_582.0, 5_709_431.0, 1.0);
    }
    refused("30S 500000 3900000", None, "place-ambiguous-band");
    refused("30P 699582 5709431", None, "place-outside-band");
    refused("30N 999582 5709431", None, "place-outside");
    refused("61N 699582 5709431", None, "place-unreadable");
}

/// GeographicLib (sources): 38N 444180 3684790 at 100 m is 38SMB441847, cut and not rounded, and the corner
/// of 38SMB4484; a public library's issue list: 11SPA7234911844; 0, 0 is 31NAA6602100000; by PROJ, 48.8582,
/// 2.2945 is 31UDQ4825111932.
#[test]
fn military_references() {
    assert_eq!(mgrs(38, 33.3, 444_180.0, 3_684_790.0, 3).unwrap(), "38SMB441847");
    assert_eq!(mgrs(11, 36.236, 672_349.27, 4_011_844.97, 5).unwrap(), "11SPA7234911844");
    assert_eq!(mgrs(31, 0.0, 166_021.443, 0.0, 5).unwrap(), "31NAA6602100000");
    assert_eq!(mgrs(31, 48.8582, 448_251.796, 5_411_932.678, 5).unwrap(), "31UDQ4825111932");
    metres("38SMB4484", None, 444_000.0, 3_684_000.0, 1000.0);
    metres("38S MB 441 847", None, 444_100.0, 3_684_700.0, 100.0);
    metres("11SPA7234911844", None, 672_349.0, 4_011_844.0, 1.0);
    metres("31NAA6602100000", None, 166_021.0, 0.0, 1.0);
    metres("31U DQ 48251 11932", None, 448_251.0, 5_411_932.0, 1.0);
    let written = read("31UDQ4825111932", None, false).unwrap();
    assert_eq!((written.system, written.understood_as), (System::Epsg(32631), "notation-mgrs"));
    refused("31UDQ482511193", None, "place-unreadable-odd");
    refused("31UZZ4825111932", None, "place-unreadable");
    // South of the equator by its band, and north of it by its figures.
    refused("31MAA6602100000", None, "place-outside-band");
}

#[test]
fn zones_of_places() {
    for (latitude, longitude, zone) in [
        (48.8582, 2.2945, 31),
        (51.5, -0.12, 30),
        (0.0, 0.0, 31),
        (60.4, 5.3, 32),
        (78.2, 15.6, 33),
        (-33.9, 18.4, 34),
        (10.0, 180.0, 1),
        (10.0, -180.0, 1),
        (10.0, 179.99, 60),
    ] {
        assert_eq!(zone_of(latitude, longitude), zone, "{latitude} {longitude}");
    }
}

#[test]
fn european_cells() {
    let system = System::Epsg(EUROPEAN_GRID);
    for (text, easting, northing, side) in [
        ("1kmN2599E4695", 4_695_000.0, 2_599_000.0, 1000.0),
        ("100mN25991E46952", 4_695_200.0, 2_599_100.0, 100.0),
        ("10kmN259E469", 4_690_000.0, 2_590_000.0, 10_000.0),
        ("CRS3035RES1000mN2599000E4695000", 4_695_000.0, 2_599_000.0, 1000.0),
    ] {
        metres(text, None, easting, northing, side);
        let cell = Cell::holding(easting, northing, side as u32).unwrap();
        metres(&reference(&system, cell), None, easting, northing, side);
    }
    assert_eq!(reference(&system, Cell { side_m: 1000, column: 4695, row: 2599 }), "1kmN2599E4695");
    refused("2kmN2546998E4694", None, "place-unreadable");
}

/// ISO 6709, annex H: signed degrees, with minutes, with seconds.
#[test]
fn iso_6709() {
    degrees("+52.6580-001.7160/", 52.658, -1.716, 11.132, "notation-decimal-degrees");
    let (latitude, longitude) = (52.0 + 39.48 / 60.0, -(1.0 + 42.96 / 60.0));
    degrees("+5239.48-00142.96/", latitude, longitude, 18.55, "notation-degrees-minutes");
    let (latitude, longitude) = (52.0 + 39.0 / 60.0 + 28.8 / 3600.0, -(1.0 + 42.0 / 60.0 + 57.8 / 3600.0));
    degrees("+523928.8-0014257.8/", latitude, longitude, 3.092, "notation-degrees-minutes-seconds");
    degrees("+523928.8-0014257.8+15.3/", latitude, longitude, 3.092, "notation-degrees-minutes-seconds");
}

#[test]
fn references_written() {
    let cell = |side_m, column, row| Cell { side_m, column, row };
    let grid = |cell| reference(&System::BritishGrid, cell);
    assert_eq!(grid(cell(1000, 552, 541)), "OV 52 41");
    assert_eq!(grid(cell(2000, 276, 270)), "OV 52 40 (2 km)");
    assert_eq!(grid(cell(100, 5523, 5412)), "OV 523 412");
    assert_eq!(grid(cell(1, 552_341, 541_234)), "OV 52341 41234");
    assert_eq!(grid(cell(10_000, 0, 0)), "SV 0 0");
    assert_eq!(grid(cell(100_000, 5, 5)), "OV");
    assert_eq!(grid(cell(50, 11_047, 10_825)), "OV 5235 4125 (50 m)");
    // Truncation, never rounding: 439145, 274187 lies in SP 391 741 (public coordinate library, report 1).
    let holding = Cell::holding(439_145.0, 274_187.0, 100).unwrap();
    assert_eq!(grid(holding), "SP 391 741");
    assert_eq!(reference(&System::Lambert93, cell(1000, 652, 6861)), "E 652000 N 6861000 (1 km)");
}

#[test]
fn zero_for_o_is_told_and_points_of_map_programs_are_read() {
    for text in ["0V 523 412", "0V5234 4123", "0v52344123"] {
        let fault = read(text, None, false).unwrap_err();
        assert_eq!(fault.id, "place-unreadable-zero", "{text}");
    }
    let point = read("POINT(1.716 52.658)", None, false).unwrap();
    assert_eq!(point.understood_as, "notation-wkt-point");
    assert_eq!(point.position, Position::Geographic { latitude_deg: 52.658, longitude_deg: 1.716 });
    let point = read("POINT Z (651409.5 313177.25 24.7)", Some(&System::BritishGrid), false).unwrap();
    assert_eq!(point.position, Position::Projected { easting_m: 651_409.5, northing_m: 313_177.25 });
    assert_eq!(point.height_m, Some(24.7));
    let point = read("POINT(1.716 52.658)", Some(&System::BritishGrid), false).unwrap();
    assert_eq!(point.position, Position::Geographic { latitude_deg: 52.658, longitude_deg: 1.716 });
    assert!(read("POINT(1.716)", None, false).is_err());
}

/// Figures without a system are told which of the usual ones they fit.
#[test]
fn figures_without_a_system_are_told_what_they_fit() {
    let fault = read("651409 313177", None, false).unwrap_err();
    assert_eq!(fault.id, "place-ambiguous-system");
    let text = fault.to_string();
    assert!(text.contains("british-grid") && !text.contains("lambert-93"), "{text}");
    let text = read("615904 734697", None, false).unwrap_err().to_string();
    assert!(text.contains("british-grid, itm,"), "{text}");
    let text = read("652760 6861000", None, false).unwrap_err().to_string();
    assert!(text.contains("lambert-93") && !text.contains("british-grid"), "{text}");
    assert_eq!(read("E 9300000 N 9400000", None, false).unwrap_err().id, "place-ambiguous-no-system");
}
