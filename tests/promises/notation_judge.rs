//! What holds for every text that is read as a place. The storm beside it and the fuzz target in `fuzz/`
//! both ask it; it must not panic but to say what is broken.

use strew::coordinates::notation::{self, EUROPEAN_GRID, Pair, Written};
use strew::coordinates::{Cell, Position, System};

/// Codes of systems that a text is read with, beside none.
const HINTS: &[u32] = &[27700, 29903, 2154, 4326, 32630, EUROPEAN_GRID, 2157];

/// Reads a text under every hint, as one cell and as two columns, and checks what is understood.
/// Returns what was, with nothing twice.
pub fn judge(text: &str) -> Vec<Written> {
    let mut found: Vec<Written> = Vec::new();
    let mut take = |written: Written| {
        if !found.contains(&written) {
            check(&written);
            found.push(written);
        }
    };
    let halves = halves(text);
    for comma in [false, true] {
        if let Ok(written) = notation::read(text, None, comma) {
            take(written);
        }
        for system in HINTS.iter().map(|code| System::from_epsg(*code)) {
            if let Ok(written) = notation::read(text, Some(&system), comma) {
                take(written);
            }
            for pair in [Pair::EastingNorthing, Pair::LatitudeLongitude] {
                if let Ok(written) = notation::read_pair(halves.0, halves.1, pair, &system, comma) {
                    take(written);
                }
            }
        }
    }
    let cut = notation::cut_places(text);
    assert!(cut.len() <= text.len() * 5 + 8, "cutting makes a note longer");
    found
}

/// A text as two columns: cut at the first space or sign between that leaves something on both sides.
fn halves(text: &str) -> (&str, &str) {
    let cut = text.char_indices().find(|(at, c)| *at > 0 && matches!(c, ' ' | ',' | ';' | '|' | '/'));
    cut.map_or((text, text), |(at, c)| (&text[..at], &text[at + c.len_utf8()..]))
}

fn check(written: &Written) {
    assert!(written.square_m.is_finite() && written.square_m > 0.0, "no square: {written:?}");
    assert!(written.understood_as.starts_with("notation-"), "{written:?}");
    assert!(written.height_m.is_none_or(f64::is_finite), "{written:?}");
    assert!(written.stated_m.is_none_or(|metres| metres.is_finite() && metres >= 0.0), "{written:?}");
    match (written.position, written.corner) {
        (Position::Geographic { latitude_deg, longitude_deg }, corner) => {
            assert!(latitude_deg.abs() <= 90.0 && longitude_deg.abs() <= 180.0, "off the globe: {written:?}");
            assert!(corner.is_none(), "{written:?}");
        }
        (Position::Projected { easting_m, northing_m }, corner) => {
            assert!(easting_m.is_finite() && northing_m.is_finite(), "{written:?}");
            assert_ne!(
                written.system.holds(easting_m, northing_m),
                Some(false),
                "out of bounds: {written:?}"
            );
            let square = match corner {
                Some(Position::Projected { easting_m, northing_m }) => (easting_m, northing_m),
                Some(Position::Geographic { .. }) => panic!("a square in degrees: {written:?}"),
                None => (easting_m, northing_m),
            };
            check_square(written, (easting_m, northing_m), square);
            check_reference(written, square);
        }
    }
}

/// The nominal place lies in its square, and so does the whole square in every larger one that sides nest in.
fn check_square(written: &Written, (e, n): (f64, f64), (west, south): (f64, f64)) {
    let side = written.square_m;
    let within = |at: f64, from: f64| from <= at && at < from + side;
    assert!(within(e, west) && within(n, south), "its place lies outside its square: {written:?}");
    for larger in (0..=5).flat_map(|power| [1, 2, 5].map(|lead| lead * 10_u32.pow(power))) {
        let times = f64::from(larger) / side;
        if times < 1.0 || written.corner.is_none() || side >= 1.0 && times.fract() != 0.0 || larger > 100_000
        {
            continue;
        }
        let (from_place, from_corner) = (Cell::holding(e, n, larger), Cell::holding(west, south, larger));
        let cell = from_place.expect("a place in bounds has a cell");
        assert_eq!(from_place, from_corner, "a coarser square leaves the square: {written:?}");
        assert!(cell.west_m() <= e && e < cell.east_m(), "{written:?}");
        assert!(cell.south_m() <= n && n < cell.north_m(), "{written:?}");
    }
}

/// The reference written for what was read is read as the same square.
fn check_reference(written: &Written, (west, south): (f64, f64)) {
    let system = &written.system;
    let lettered = system.has_letters() || *system == System::Epsg(EUROPEAN_GRID);
    let power_of_ten = [1.0, 10.0, 100.0, 1000.0, 10_000.0].contains(&written.square_m);
    let side = if lettered && power_of_ten { written.square_m as u32 } else { 1 };
    let Some(cell) = Cell::holding(west, south, side) else { panic!("no cell: {written:?}") };
    // A place on the north or east bound is in the system; the square that it is a corner of is not. Codes of
    // European cells end at 10 000 km, and begin at the origin.
    let coded = |metres: f64| (0.0..1e7).contains(&metres);
    if system.holds(cell.east_m(), cell.north_m()) == Some(false)
        || *system == System::Epsg(EUROPEAN_GRID) && !(coded(west) && coded(south))
    {
        return;
    }
    let reference = notation::reference(system, cell);
    match notation::read(&reference, Some(system), false) {
        Ok(again) => {
            let got = again.corner.unwrap_or(again.position);
            let corner = Position::Projected { easting_m: cell.west_m(), northing_m: cell.south_m() };
            assert_eq!((got, again.square_m), (corner, f64::from(side)), "{reference} for {written:?}");
            assert_eq!(again.system, *system, "{reference}");
        }
        // Metres that are doubted however they are written: in the sea, for want of a figure; at the
        // bounds, where the corner of the square of a metre lies outside.
        Err(fault) => assert!(
            !lettered && matches!(fault.id, "place-ambiguous-digit" | "place-outside" | "place-unreadable"),
            "{reference}: {} for {written:?}",
            fault.id
        ),
    }
}
