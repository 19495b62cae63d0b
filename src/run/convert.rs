//! Converting places: what was written is understood, carried, and told with operation and accuracy.

use std::collections::BTreeMap;
use std::collections::btree_map::Entry;

use super::target::Target;
use crate::coordinates::notation::{self, Pair, Written};
use crate::coordinates::{Cell, Converter, Operation, Position, System};
use crate::fault::{Fault, Result};

/// What to convert to, and how to take what is written.
#[derive(Debug, Clone)]
pub struct Asked {
    /// The system of eastings and northings that say none themselves.
    pub from: Option<System>,
    /// What to carry to.
    pub to: Target,
    /// Take the south-west corner of a reference's square, not its centre.
    pub corner: bool,
    /// A comma between figures is a decimal mark where the text leaves it open.
    pub decimal_comma: bool,
}

/// Which point of what was written was carried.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Point {
    /// The centre of the square that a reference names.
    Centre,
    /// Its south-west corner.
    Corner,
    /// The place as given.
    AsGiven,
}

impl Point {
    /// Its name in machine-readable output.
    pub fn name(self) -> &'static str {
        match self {
            Self::Centre => "centre",
            Self::Corner => "corner",
            Self::AsGiven => "as-given",
        }
    }
}

/// A place, converted.
#[derive(Debug, Clone)]
pub struct Converted {
    /// What was understood.
    pub written: Written,
    /// The point carried.
    pub point: Point,
    /// The system it was carried to.
    pub system: System,
    /// Where it lies there.
    pub position: Position,
    /// Its reference there, no finer than the place was given; for a grid with letters.
    pub reference: Option<String>,
    /// How far the place may lie from the point given, metres: the far corner of the square that the
    /// writing names, and the accuracy of the operation. `None` where that accuracy is not known.
    pub uncertainty_m: Option<f64>,
    /// What was done.
    pub operation: Operation,
}

/// Converts places one after another; keeps the way from each system it meets.
pub struct Places {
    asked: Asked,
    ways: BTreeMap<(System, System), Converter>,
}

impl Places {
    /// Ready to convert as asked. Fails where the system asked for is unknown.
    pub fn new(asked: Asked) -> Result<Self> {
        // A wrong code is said once, before any place is read.
        let to = asked.to.system().unwrap_or(System::Wgs84);
        Converter::new(asked.from.as_ref().unwrap_or(&to), &to)?;
        Ok(Self { asked, ways: BTreeMap::new() })
    }

    /// Reads and converts a place.
    pub fn convert(&mut self, text: &str) -> Result<Converted> {
        let written = notation::read(text, self.asked.from.as_ref(), self.asked.decimal_comma)?;
        self.carry(written)
    }

    /// Reads and converts a place in two columns.
    pub fn convert_pair(&mut self, first: &str, second: &str, pair: Pair) -> Result<Converted> {
        let from = self.asked.from.as_ref();
        let written = read_pair(first, second, pair, from, self.asked.decimal_comma)?;
        self.carry(written)
    }

    fn carry(&mut self, written: Written) -> Result<Converted> {
        let (point, from) = match written.corner {
            Some(corner) if self.asked.corner => (Point::Corner, corner),
            Some(_) => (Point::Centre, written.position),
            None => (Point::AsGiven, written.position),
        };
        let to = match self.asked.to.system() {
            Some(system) => system,
            None => self.zone(&written.system, from)?,
        };
        let way = self.way(&written.system, &to)?;
        let position = way.convert(from)?;
        let operation = way.operation();
        let far = match point {
            Point::Corner => written.square_m * std::f64::consts::SQRT_2,
            Point::Centre | Point::AsGiven => written.square_m * std::f64::consts::FRAC_1_SQRT_2,
        };
        Ok(Converted {
            reference: self.reference(&to, position, written.square_m)?,
            uncertainty_m: operation.accuracy_m.map(|accuracy| far + accuracy),
            system: to,
            written,
            point,
            position,
            operation,
        })
    }

    fn way(&mut self, from: &System, to: &System) -> Result<&Converter> {
        Ok(match self.ways.entry((from.clone(), to.clone())) {
            Entry::Occupied(known) => known.into_mut(),
            Entry::Vacant(new) => new.insert(Converter::new(from, to)?),
        })
    }

    /// The UTM zone of a place.
    fn zone(&mut self, system: &System, place: Position) -> Result<System> {
        let on_earth = self.way(system, &System::Wgs84)?.convert(place)?;
        let Position::Geographic { latitude_deg, longitude_deg } = on_earth else {
            return Err(Fault::new("place-not-carried-at-all"));
        };
        let first = if latitude_deg < 0.0 { 32700 } else { 32600 };
        Ok(System::from_epsg(first + notation::zone_of(latitude_deg, longitude_deg)))
    }

    /// The reference of a place in a scheme that has references, of the smallest power of ten of metres
    /// that is not finer than the place was given.
    fn reference(&mut self, system: &System, position: Position, square_m: f64) -> Result<Option<String>> {
        let Position::Projected { easting_m, northing_m } = position else { return Ok(None) };
        let least = if let Target::Cells(side) = self.asked.to { side } else { 1 };
        // A hair of tolerance, so that a square of 100 m does not become one of 1 km by rounding.
        let side = (0..=5)
            .map(|power| 10_u32.pow(power))
            .find(|side| *side >= least && f64::from(*side) >= square_m * 0.999_999);
        let Some(side) = side else { return Ok(None) };
        // To the tenth of a millimetre first: a place on a line must not fall into the next square by an
        // error of 10⁻¹⁰ m on its way through another system.
        let round = |metres: f64| (metres * 1e4).round() / 1e4;
        let (easting_m, northing_m) = (round(easting_m), round(northing_m));
        if self.asked.to == Target::Mgrs {
            let on_earth = self.way(system, &System::Wgs84)?.convert(position)?;
            let Position::Geographic { latitude_deg, .. } = on_earth else { return Ok(None) };
            let zone = system.epsg().unwrap_or_default() % 100;
            let figures = 5 - side.ilog10() as usize;
            return Ok(notation::mgrs(zone, latitude_deg, easting_m, northing_m, figures));
        }
        if !system.has_letters() && !matches!(self.asked.to, Target::Cells(_)) {
            return Ok(None);
        }
        Ok(Cell::holding(easting_m, northing_m, side).map(|cell| notation::reference(system, cell)))
    }
}

/// Reads a place in two columns. Eastings and northings without a system are doubted as they are in one text.
pub(super) fn read_pair(
    first: &str,
    second: &str,
    pair: Pair,
    from: Option<&System>,
    decimal_comma: bool,
) -> Result<Written> {
    match (from, pair) {
        (Some(system), _) => notation::read_pair(first, second, pair, system, decimal_comma),
        (None, Pair::LatitudeLongitude) => {
            notation::read_pair(first, second, pair, &System::Wgs84, decimal_comma)
        }
        (None, Pair::EastingNorthing) => {
            notation::read(&format!("E {first} N {second}"), None, decimal_comma)
        }
    }
}
