//! Ways of writing a place, read and written.
//!
//! A place is understood or refused, never guessed: a text with two readings is a fault that says so.
//! No fault of this room carries the figures themselves, so that it can be listed anywhere.

mod cells;
mod cut;
mod degrees;
mod extras;
mod figures;
mod iso6709;
mod letters;
mod plain;
mod scan;
mod tidy;
mod wkt;
mod zones;

use super::names;
use super::{Cell, Position, System};
use crate::fault::{Fault, Result};

pub use super::names::EUROPEAN_GRID;
pub use cut::cut_places;
pub use plain::{Plain, read_plain};
pub use zones::{mgrs, zone_of};

use extras::Extras;

/// A place as understood from what was written.
#[derive(Debug, Clone, PartialEq)]
pub struct Written {
    /// How it was understood, as a message of `words/coordinates.ftl`: `notation-letter-reference`,
    /// `notation-decimal-degrees`, `notation-degrees-minutes-seconds`, `notation-all-figures`, …
    pub understood_as: &'static str,
    /// The system it is written in.
    pub system: System,
    /// Its nominal place: the centre of the square for a reference, the place itself otherwise.
    pub position: Position,
    /// South-west corner of the square, for a reference.
    pub corner: Option<Position>,
    /// Side of the square it names or implies, metres, from the way it is written alone (figures,
    /// decimals by a fixed table at the equator), never from where it lies.
    pub square_m: f64,
    /// Height as it was given beside the place, metres: kept, never carried to another height system.
    pub height_m: Option<f64>,
    /// How far off the place may be as its writer states beside it ("± 12 m", `u=` of a geo URI), metres.
    pub stated_m: Option<f64>,
}

impl Written {
    /// The same with what stood behind it.
    fn with(self, Extras { height_m, stated_m, side_m }: Extras) -> Result<Self> {
        let mut found =
            Self { height_m: height_m.or(self.height_m), stated_m: stated_m.or(self.stated_m), ..self };
        let Some(side_m) = side_m else { return Ok(found) };
        let Some(Position::Projected { easting_m, northing_m }) = found.corner else {
            // "E 652000 N 6860000 (2 km)": figures that name the corner of a square.
            return match found.position {
                Position::Projected { easting_m, northing_m } => {
                    found.take_square(easting_m, northing_m, side_m)?;
                    Ok(found)
                }
                Position::Geographic { .. } => Err(Fault::new("place-unreadable")),
            };
        };
        found.take_square(easting_m, northing_m, side_m)?;
        Ok(found)
    }

    /// Takes the square of a side whose south-west corner is stated. A corner that no square of that side
    /// has, or a side smaller than the figures name, is a slip.
    fn take_square(&mut self, west_m: f64, south_m: f64, side_m: f64) -> Result<()> {
        if side_m < self.square_m || west_m % side_m != 0.0 || south_m % side_m != 0.0 {
            return Err(Fault::new("place-unreadable-side"));
        }
        let at =
            |offset: f64| Position::Projected { easting_m: west_m + offset, northing_m: south_m + offset };
        self.corner = Some(at(0.0));
        self.position = at(side_m / 2.0);
        self.square_m = side_m;
        Ok(())
    }
}

/// What two columns hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pair {
    /// Easting, then northing.
    EastingNorthing,
    /// Latitude, then longitude.
    LatitudeLongitude,
}

/// Reads a place from one text. `system` is that of eastings and northings that say none themselves.
/// `decimal_comma`: whether "651409,9" has a decimal comma (where the text leaves it open).
///
/// Faults: `place-unreadable…`, `place-ambiguous…` and `place-outside…`, each name going on with what
/// exactly is wrong.
pub fn read(text: &str, system: Option<&System>, decimal_comma: bool) -> Result<Written> {
    let text = tidy::tidy(text);
    if text.is_empty() {
        return Err(Fault::new("place-empty"));
    }
    let (place, extras) = extras::split(&text);
    if extras == Extras::default() {
        return read_bare(&text, system, decimal_comma);
    }
    // What only looks like something behind the place ("651409, 313177 m") is part of it.
    match read_bare(place, system, decimal_comma) {
        Ok(found) => found.with(extras),
        Err(why) => read_bare(&text, system, decimal_comma).map_err(|_| why),
    }
}

/// Reads a tidied place with nothing behind it.
fn read_bare(text: &str, system: Option<&System>, decimal_comma: bool) -> Result<Written> {
    if let Some(rest) = text.to_lowercase().strip_prefix("geo:") {
        return degrees::read_uri(rest);
    }
    let (named, rest) = match trailing_system(text) {
        Some((named, rest)) => (named, rest.to_owned()),
        None => leading_system(text)?,
    };
    let system = named.as_ref().or(system);
    if let Some(found) = wkt::read(&rest, system) {
        return found;
    }
    let own = [zones::read_mgrs(&rest), zones::read_utm(&rest), cells::read(&rest), iso6709::read(&rest)];
    if let Some(found) = own.into_iter().flatten().next().or_else(|| letters::read(&rest, system)) {
        return found;
    }
    if letters::zero_for_o(&rest, system) {
        return Err(Fault::new("place-unreadable-zero"));
    }
    let in_degrees = system.is_some_and(System::in_degrees);
    let doubt = match degrees::read(&rest, system, decimal_comma) {
        Some(Ok(found)) => return Ok(found),
        Some(Err(fault)) if in_degrees || rest.contains('°') => return Err(fault),
        Some(Err(fault)) => Some(fault),
        None if in_degrees => return Err(Fault::new("place-unreadable")),
        None => None,
    };
    // What is no metres either keeps the better reason.
    figures::read(&rest, system, decimal_comma).map_err(|fault| match doubt {
        Some(doubt) if fault.id == "place-unreadable" => doubt,
        _ => fault,
    })
}

/// Reads a place from two columns.
pub fn read_pair(
    first: &str,
    second: &str,
    pair: Pair,
    system: &System,
    decimal_comma: bool,
) -> Result<Written> {
    let (first, second) = (tidy::tidy(first), tidy::tidy(second));
    if first.is_empty() && second.is_empty() {
        return Err(Fault::new("place-empty"));
    }
    if first.is_empty() || second.is_empty() {
        return Err(Fault::new("place-half"));
    }
    // A reference cut in two: "OV 523" and "412". Figures alone are none, and are most of a long table.
    let lettered = first.contains(char::is_alphabetic);
    if lettered && let Some(Ok(found)) = letters::read(&format!("{first} {second}"), Some(system)) {
        return Ok(found);
    }
    match (pair, system.in_degrees()) {
        (Pair::LatitudeLongitude, _) => degrees::read_pair(&first, &second, system, decimal_comma),
        (Pair::EastingNorthing, true) => degrees::read_pair(&second, &first, system, decimal_comma),
        (Pair::EastingNorthing, false) => figures::read_pair(&first, &second, system, decimal_comma),
    }
}

/// The reference of a cell in its grid: "OV 52 41" for a letter grid (of its south-west corner, to the
/// figures that its side allows, so that a square of 2 km is written by the kilometre of its corner, with
/// its side beside it: "OV 52 40 (2 km)"); "1kmN2599E4695" for Europe's reference grid; east and north of its south-west corner in metres
/// ("E 652000 N 6861000 (1 km)") for a grid without letters. Whatever the figures
/// do not say of the side stands beside them, since a reference is copied away from what stood around it.
pub fn reference(system: &System, cell: Cell) -> String {
    let lettered = system.has_letters();
    let own = match system {
        System::Epsg(EUROPEAN_GRID) => cells::reference(cell),
        _ if lettered => letters::reference(system, cell),
        _ => None,
    };
    // A reference by letters says the sides that are powers of ten, and the European one every side.
    let says_side = 10_u32.pow(cell.side_m.max(1).ilog10()) == cell.side_m || !lettered;
    match own {
        Some(reference) if says_side => reference,
        Some(reference) => format!("{reference} ({})", side(cell.side_m)),
        None => format!("E {:.0} N {:.0} ({})", cell.west_m(), cell.south_m(), side(cell.side_m)),
    }
}

/// A side for a person: "2 km", "500 m".
fn side(side_m: u32) -> String {
    if side_m.is_multiple_of(1000) { format!("{} km", side_m / 1000) } else { format!("{side_m} m") }
}

/// A system named in front of the place: "EPSG:2154 652760 6861000", "Lambert 93 652760 6861000".
fn leading_system(text: &str) -> Result<(Option<System>, String)> {
    let lower = text.to_lowercase();
    if let Some(rest) = lower.strip_prefix("epsg:").or_else(|| lower.strip_prefix("epsg ")) {
        let rest = rest.trim_start();
        let end = rest.find(|c: char| !c.is_ascii_digit()).unwrap_or(rest.len());
        let code = rest[..end].parse().map_err(|_| Fault::new("place-unreadable"))?;
        let rest = rest[end..].trim_start_matches([':', ';', ',', ' ']);
        return Ok((Some(System::from_epsg(code)), rest.to_owned()));
    }
    // A name as the program writes it: "utm-30n 699582 5709431".
    let end = lower.find([' ', ':', ';', ',']).unwrap_or(lower.len());
    if let (Some(code), Some(rest)) = (names::code(&lower[..end]), text.get(end..)) {
        return Ok((Some(System::from_epsg(code)), rest.trim_start_matches([':', ';', ',', ' ']).to_owned()));
    }
    for (name, system) in NAMES {
        if let Some(rest) = lower.strip_prefix(name)
            && !rest.starts_with(|c: char| c.is_alphanumeric())
        {
            let rest = rest.trim_start_matches([':', ';', ',', ')', ' ']);
            // The same rest with its capitals, unless folding has changed the text's length.
            let start = text.len().checked_sub(rest.len());
            let rest = start.and_then(|start| text.get(start..)).unwrap_or(rest);
            return Ok((Some(system.clone()), rest.to_owned()));
        }
    }
    Ok((None, text.to_owned()))
}

/// A system, or the word that a receiver gave it, named after the place: "52.658, 1.716 (WGS84)", "OV 523
/// 412 (GPS)".
fn trailing_system(text: &str) -> Option<(Option<System>, &str)> {
    let (place, name) = match text.strip_suffix(')') {
        Some(open) => open.rsplit_once('(')?,
        None => text.rsplit_once(' ')?,
    };
    let name = name.trim().to_lowercase();
    let system = match name.as_str() {
        "gps" => None,
        _ => Some(
            NAMES
                .iter()
                .find(|(known, _)| *known == name)
                .map(|(_, system)| system.clone())
                .or_else(|| names::code(&name).map(System::from_epsg))?,
        ),
    };
    Some((system, place.trim_end_matches([' ', ',', ';'])))
}

/// Names of systems as people write them beside a place, longest first.
const NAMES: &[(&str, System)] = &[
    ("british national grid", System::BritishGrid),
    ("irish grid", System::Epsg(names::IRISH_GRID)),
    ("lambert 93", System::Lambert93),
    ("lambert93", System::Lambert93),
    ("osgb 36", System::BritishGrid),
    ("osgb36", System::BritishGrid),
    ("wgs 84", System::Wgs84),
    ("osgb", System::BritishGrid),
    ("l93", System::Lambert93),
    ("bng", System::BritishGrid),
];

#[cfg(test)]
mod properties;
#[cfg(test)]
mod tests;
