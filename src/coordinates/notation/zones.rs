//! Places in zones of the Universal Transverse Mercator: "30N 699582 5709431", and the references made
//! from them: "31U DQ 48251 11932".
//!
//! Sources: NGA.SIG.0012 (2014), *Universal grids and the transverse Mercator and polar stereographic map
//! projections* (zones, bands and the lettering of squares; figures are cut off, never rounded), checked
//! against references printed by public libraries, named beside each test.

use super::scan::{Comma, Token, scan};
use super::{Position, System, Written};
use crate::fault::{Fault, Result};

/// Bands of latitude, 8° each from 80° S (the last of 12°).
const BANDS: &[u8; 20] = b"CDEFGHJKLMNPQRSTUVWX";
/// Letters of columns: three sets of eight, by zone.
const COLUMNS: &[u8; 24] = b"ABCDEFGHJKLMNPQRSTUVWXYZ";
/// Letters of rows: twenty, which repeat every 2000 km.
const ROWS: &[u8; 20] = b"ABCDEFGHJKLMNPQRSTUV";
/// The rows of even zones begin five letters on.
const EVEN_ROW_OFFSET: usize = 5;
const SQUARE_M: f64 = 100_000.0;
const ROW_CYCLE_M: f64 = 2_000_000.0;

/// The UTM zone of a place, with the exceptions of south-west Norway and of Svalbard.
pub fn zone_of(latitude_deg: f64, longitude_deg: f64) -> u32 {
    let longitude = (longitude_deg + 180.0).rem_euclid(360.0) - 180.0;
    if (56.0..64.0).contains(&latitude_deg) && (3.0..12.0).contains(&longitude) {
        return 32;
    }
    if (72.0..84.0).contains(&latitude_deg) && (0.0..42.0).contains(&longitude) {
        return match longitude {
            l if l < 9.0 => 31,
            l if l < 21.0 => 33,
            l if l < 33.0 => 35,
            _ => 37,
        };
    }
    ((longitude + 180.0) / 6.0) as u32 % 60 + 1
}

/// The military reference of a place on its UTM zone, cut to squares of 10^(5 − `figures`) metres;
/// `None` beyond 80° S and 84° N.
pub fn mgrs(zone: u32, latitude_deg: f64, easting_m: f64, northing_m: f64, figures: usize) -> Option<String> {
    let band = band_of(latitude_deg)?;
    let column = (easting_m / SQUARE_M).floor();
    if !(1.0..=8.0).contains(&column) {
        return None;
    }
    let column = COLUMNS[(zone as usize - 1) % 3 * 8 + column as usize - 1];
    let row = (northing_m.rem_euclid(ROW_CYCLE_M) / SQUARE_M).floor() as usize;
    let row = ROWS[(row + if zone.is_multiple_of(2) { EVEN_ROW_OFFSET } else { 0 }) % 20];
    let figures = figures.min(5);
    let cut = |metres: f64| (metres.rem_euclid(SQUARE_M) / 10_f64.powi(5 - figures as i32)).floor() as u32;
    let letters: String = [band, column, row].into_iter().map(char::from).collect();
    if figures == 0 {
        return Some(format!("{zone:02}{letters}"));
    }
    Some(format!("{zone:02}{letters}{:0figures$}{:0figures$}", cut(easting_m), cut(northing_m)))
}

fn band_of(latitude_deg: f64) -> Option<u8> {
    if !(-80.0..=84.0).contains(&latitude_deg) {
        return None;
    }
    Some(BANDS[(((latitude_deg + 80.0) / 8.0) as usize).min(19)])
}

/// South and north edges of a band on the central meridian, metres of northing, near enough to tell bands
/// apart (110.6 to 111.7 km a degree, with the scale of 0.9996).
fn band_edges_m(band: usize) -> (f64, f64) {
    let south = band as f64 * 8.0 - 80.0;
    let north = if band == 19 { 84.0 } else { south + 8.0 };
    let metres = |latitude: f64| {
        let arc = latitude * 111_000.0 * 0.9996;
        if south < 0.0 { 10_000_000.0 + arc } else { arc }
    };
    (metres(south), metres(north))
}

/// How far a northing may lie outside those edges: the parallels bend, and a degree is not everywhere the
/// same.
const BAND_SLACK_M: f64 = 150_000.0;

fn system(zone: u32, south: bool) -> System {
    System::Epsg(if south { 32700 } else { 32600 } + zone)
}

/// Reads a military reference; `None` where the text does not have its shape.
pub fn read_mgrs(text: &str) -> Option<Result<Written>> {
    let upper = text.to_uppercase();
    let upper = upper.strip_prefix("MGRS").map_or(upper.as_str(), |rest| rest.trim_start_matches([':', ' ']));
    let digits = upper.find(|c: char| !c.is_ascii_digit()).filter(|digits| (1..=2).contains(digits))?;
    let (zone, rest) = upper.split_at(digits);
    let zone: u32 = zone.parse().ok().filter(|zone| (1..=60).contains(zone))?;
    let rest: Vec<u8> = rest.bytes().filter(|byte| *byte != b' ').collect();
    let [band, column, row, figures @ ..] = &rest[..] else { return None };
    if ![band, column, row].iter().all(|byte| byte.is_ascii_alphabetic())
        || !figures.iter().all(u8::is_ascii_digit)
    {
        return None;
    }
    Some(square(zone, [*band, *column, *row], figures))
}

fn square(zone: u32, [band, column, row]: [u8; 3], figures: &[u8]) -> Result<Written> {
    let unreadable = || Fault::new("place-unreadable");
    if figures.len() % 2 == 1 {
        return Err(Fault::new("place-unreadable-odd"));
    }
    let half = figures.len() / 2;
    if half > 5 {
        return Err(Fault::new("place-unreadable-long"));
    }
    let band = BANDS.iter().position(|known| *known == band).ok_or_else(unreadable)?;
    let set = (zone as usize - 1) % 3 * 8;
    let column = COLUMNS[set..set + 8].iter().position(|known| *known == column).ok_or_else(unreadable)? + 1;
    let row = ROWS.iter().position(|known| *known == row).ok_or_else(unreadable)?;
    let row = (row + 20 - if zone.is_multiple_of(2) { EVEN_ROW_OFFSET } else { 0 }) % 20;
    let side_m = 10_f64.powi(5 - half as i32);
    let steps = |figures: &[u8]| figures.iter().fold(0.0, |sum, digit| sum * 10.0 + f64::from(digit - b'0'));
    let easting_m = column as f64 * SQUARE_M + steps(&figures[..half]) * side_m;
    let mut northing_m = row as f64 * SQUARE_M + steps(&figures[half..]) * side_m;
    let (south_m, north_m) = band_edges_m(band);
    while northing_m < south_m - BAND_SLACK_M {
        northing_m += ROW_CYCLE_M;
    }
    let system = system(zone, band < 10);
    // The bands beside the equator have no slack across it: their figures would lie off the hemisphere's grid.
    let inside = system.holds(easting_m + side_m, northing_m + side_m).unwrap_or(true);
    if northing_m > north_m + BAND_SLACK_M || !inside {
        return Err(Fault::new("place-outside-band"));
    }
    let at =
        |offset: f64| Position::Projected { easting_m: easting_m + offset, northing_m: northing_m + offset };
    Ok(Written {
        understood_as: "notation-mgrs",
        system,
        position: at(side_m / 2.0),
        corner: Some(at(0.0)),
        square_m: side_m,
        height_m: None,
        stated_m: None,
    })
}

/// Reads zone, easting and northing: "30N 699582 5709431", "UTM 30 N E 699582 N 5709431", "30U 699582
/// 5709431"; `None` where the text does not have that shape.
pub fn read_utm(text: &str) -> Option<Result<Written>> {
    let lower = text.to_lowercase();
    let mut rest = lower.as_str();
    for word in ["utm", "wgs84", "zone", "fuseau"] {
        rest = rest.strip_prefix(word).unwrap_or(rest).trim_start_matches([':', ' ', ',']);
    }
    let tokens: Vec<Token> = scan(rest, Comma::Between)?
        .into_iter()
        .filter(|token| !matches!(token, Token::Space | Token::Between(_)))
        .collect();
    let [Token::Number(zone), Token::Word(band), figures @ ..] = &tokens[..] else { return None };
    let zone: u32 = (zone.sign.is_none() && zone.fraction.is_empty())
        .then(|| zone.whole.parse().ok())
        .flatten()
        .filter(|zone| (1..=60).contains(zone))?;
    let (mut numbers, mut labels) = (Vec::new(), Vec::new());
    for token in figures {
        match token {
            Token::Number(number) => numbers.push(number),
            Token::Word(word) => match word.as_str() {
                "e" | "me" | "x" | "east" | "easting" => labels.push('e'),
                "n" | "mn" | "y" | "north" | "northing" => labels.push('n'),
                "m" => {}
                _ => return None,
            },
            _ => return None,
        }
    }
    let [easting, northing] = numbers[..] else { return None };
    if easting.whole.trim_start_matches('0').len() != 6 || !(1..=8).contains(&northing.whole.len()) {
        return None;
    }
    if labels == ['n', 'e'] {
        return Some(Err(Fault::new("place-ambiguous-swapped")));
    }
    let band = match band.as_str() {
        "n" | "north" | "nord" => Hemisphere::North,
        "south" | "sud" => Hemisphere::South,
        letter => {
            let &[letter] = letter.to_uppercase().as_bytes() else { return None };
            Hemisphere::Band(BANDS.iter().position(|known| *known == letter)?)
        }
    };
    Some(in_zone(zone, band, easting.value(), northing.value()).map(|position| Written {
        understood_as: "notation-utm",
        system: system(zone, band.is_south()),
        position,
        corner: None,
        square_m: 10_f64.powi(-(easting.fraction.len().max(northing.fraction.len()).min(4) as i32)),
        height_m: None,
        stated_m: None,
    }))
}

/// What the letter beside a zone says.
#[derive(Debug, Clone, Copy)]
enum Hemisphere {
    North,
    South,
    /// A band of latitude, by its index.
    Band(usize),
}

impl Hemisphere {
    fn is_south(self) -> bool {
        matches!(self, Self::South | Self::Band(0..10))
    }
}

fn in_zone(zone: u32, band: Hemisphere, easting_m: f64, northing_m: f64) -> Result<Position> {
    let position = Position::Projected { easting_m, northing_m };
    if !system(zone, band.is_south()).holds(easting_m, northing_m).unwrap_or(true) {
        return Err(Fault::new("place-outside").with("system", system(zone, band.is_south())));
    }
    if let Hemisphere::Band(band) = band {
        let (south_m, north_m) = band_edges_m(band);
        let within = (south_m - BAND_SLACK_M..=north_m + BAND_SLACK_M).contains(&northing_m);
        return match (BANDS[band], within) {
            // Band S of the north, or "south".
            (b'S', _) => Err(Fault::new("place-ambiguous-band")),
            (_, true) => Ok(position),
            (_, false) => Err(Fault::new("place-outside-band")),
        };
    }
    Ok(position)
}
