//! Ways of writing a place, read and written.

use super::{Cell, Position, System};
use crate::fault::Result;

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
/// Faults: `place-unreadable`, `place-ambiguous`, `place-outside` among others, see [`reason`].
pub fn read(_text: &str, _system: Option<&System>, _decimal_comma: bool) -> Result<Written> {
    todo!("helper: coordinates")
}

/// Reads a place from two columns.
pub fn read_pair(
    _first: &str,
    _second: &str,
    _pair: Pair,
    _system: &System,
    _decimal_comma: bool,
) -> Result<Written> {
    todo!("helper: coordinates")
}

/// The reference of a cell in its grid: "OV 52 41" for a letter grid; east and north of its south-west
/// corner in metres ("E 652000 N 6861000") for a grid without letters.
pub fn reference(_system: &System, _cell: Cell) -> String {
    todo!("helper: coordinates")
}

/// A note with everything that reads as a place cut out and replaced by `[…]`: references with letters,
/// degrees, pairs of five to seven figures, postcodes, web addresses and what-three-word forms.
pub fn cut_places(_text: &str) -> String {
    todo!("helper: coordinates")
}
