//! Ways of writing a place, read and written.
//!
//! A place is understood or refused, never guessed: a text with two readings is a fault that says so.
//! No fault of this room carries the figures themselves, so that it can be listed anywhere.

mod cells;
mod cut;
mod degrees;
mod figures;
mod iso6709;
mod letters;
mod scan;
mod tidy;
mod zones;

use super::names;
use super::{Cell, Position, System};
use crate::fault::{Fault, Result};

pub use super::names::EUROPEAN_GRID;
pub use cut::cut_places;
pub use zones::{mgrs, zone_of};

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
    if let Some(rest) = text.to_lowercase().strip_prefix("geo:") {
        return degrees::read_uri(rest);
    }
    let (named, rest) = match trailing_system(&text) {
        Some((named, rest)) => (named, rest.to_owned()),
        None => leading_system(&text)?,
    };
    let system = named.as_ref().or(system);
    let own = [zones::read_mgrs(&rest), zones::read_utm(&rest), cells::read(&rest), iso6709::read(&rest)];
    if let Some(found) = own.into_iter().flatten().next().or_else(|| letters::read(&rest, system)) {
        return found;
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
/// figures that its side allows, so that a square of 2 km is written by the kilometre of its corner and
/// told apart by its side); "1kmN2599E4695" for Europe's reference grid; east and north of its south-west corner in metres
/// ("E 652000 N 6861000") for a grid without letters.
pub fn reference(system: &System, cell: Cell) -> String {
    let own = match system {
        System::Epsg(EUROPEAN_GRID) => cells::reference(cell),
        _ if system.has_letters() => letters::reference(system, cell),
        _ => None,
    };
    own.unwrap_or_else(|| format!("E {:.0} N {:.0}", cell.west_m(), cell.south_m()))
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
