//! Converting places: what was written is understood, carried, and told with operation and accuracy.

use std::collections::BTreeMap;
use std::collections::btree_map::Entry;

use super::target::Target;
use crate::coordinates::notation::{self, Pair, Written};
use crate::coordinates::{Cell, Converter, Finer, Operation, Position, System, unknown_datum_m};
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
    /// How far off the places may be as their source states, metres, where a place says nothing itself.
    pub stated_m: Option<f64>,
    /// Nobody knows the datum of latitudes and longitudes.
    pub datum_unknown: bool,
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
    /// How far the place may lie from the point given, metres, after Chapman and Wieczorek 2020: the sum of
    /// what each source of doubt may amount to (the far corner of the square that the writing names, what
    /// the source states, an unknown datum, the operation). `None` where the last is not known.
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
        let position = way.convert(from).map_err(|fault| match from {
            // "-4.5, 50.4": the other way round it would lie where it is asked for.
            Position::Geographic { latitude_deg, longitude_deg }
                if fault.id.starts_with("place-outside")
                    && way
                        .convert(Position::Geographic {
                            latitude_deg: longitude_deg,
                            longitude_deg: latitude_deg,
                        })
                        .is_ok() =>
            {
                Fault::new("place-outside-swapped").with("system", &to)
            }
            _ => fault,
        })?;
        let operation = way.operation();
        let far = match point {
            Point::Corner => written.square_m * std::f64::consts::SQRT_2,
            Point::Centre | Point::AsGiven => written.square_m * std::f64::consts::FRAC_1_SQRT_2,
        };
        let stated = written.stated_m.or(self.asked.stated_m).unwrap_or_default();
        let datum = match from {
            Position::Geographic { latitude_deg, longitude_deg } if self.asked.datum_unknown => {
                unknown_datum_m(latitude_deg, longitude_deg)
            }
            _ => 0.0,
        };
        Ok(Converted {
            reference: self.reference(&to, position, written.square_m)?,
            uncertainty_m: operation.accuracy_m.map(|accuracy| far + stated + datum + accuracy),
            system: to,
            written,
            point,
            position,
            operation,
        })
    }

    pub(super) fn way(&mut self, from: &System, to: &System) -> Result<&Converter> {
        Ok(match self.ways.entry((from.clone(), to.clone())) {
            Entry::Occupied(known) => known.into_mut(),
            Entry::Vacant(new) => new.insert(Converter::new(from, to)?),
        })
    }

    /// The best way that a shift grid, not carried here, would give to a place that was converted.
    pub fn finer(&mut self, converted: &Converted) -> Option<Finer> {
        self.way(&converted.written.system, &converted.system).ok()?.finer()
    }

    /// Whether two columns of bare figures all read in the same system, so that they can go together.
    pub(super) fn reads_plain(&self, pair: Pair) -> bool {
        let in_degrees = self.asked.from.as_ref().map(System::in_degrees);
        // Where the zone is chosen by place, each place has its own way.
        !self.asked.datum_unknown
            && self.asked.to.system().is_some()
            && match pair {
                Pair::LatitudeLongitude => in_degrees != Some(false),
                Pair::EastingNorthing => in_degrees == Some(false),
            }
    }

    /// What the places are converted to.
    pub fn target(&self) -> &Target {
        &self.asked.to
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
    pub(super) fn reference(
        &mut self,
        system: &System,
        position: Position,
        square_m: f64,
    ) -> Result<Option<String>> {
        if !matches!(position, Position::Projected { .. }) {
            return Ok(None);
        }
        let least = if let Target::Cells(side) = self.asked.to { side } else { 1 };
        // A hair of tolerance, so that a square of 100 m does not become one of 1 km by rounding.
        let side = (0..=5)
            .map(|power| 10_u32.pow(power))
            .find(|side| *side >= least && f64::from(*side) >= square_m * 0.999_999);
        let Some(side) = side else { return Ok(None) };
        self.reference_of(system, position, side)
    }

    /// The reference of the square of a side that holds a place.
    pub(super) fn reference_of(
        &mut self,
        system: &System,
        place: Position,
        side_m: u32,
    ) -> Result<Option<String>> {
        let Some((easting_m, northing_m)) = on_lattice(place) else { return Ok(None) };
        if self.asked.to == Target::Mgrs {
            let on_earth = self.way(system, &System::Wgs84)?.convert(place)?;
            let Position::Geographic { latitude_deg, .. } = on_earth else { return Ok(None) };
            let zone = system.epsg().unwrap_or_default() % 100;
            let figures = 5 - side_m.ilog10() as usize;
            return Ok(notation::mgrs(zone, latitude_deg, easting_m, northing_m, figures));
        }
        if !system.has_letters() && !matches!(self.asked.to, Target::Cells(_)) {
            return Ok(None);
        }
        Ok(Cell::holding(easting_m, northing_m, side_m).map(|cell| notation::reference(system, cell)))
    }
}

/// Easting and northing to the tenth of a millimetre: a place on a line must not fall into the next square by
/// an error of 10⁻¹⁰ m on its way through another system.
pub(super) fn on_lattice(place: Position) -> Option<(f64, f64)> {
    let round = |metres: f64| (metres * 1e4).round() / 1e4;
    match place {
        Position::Projected { easting_m, northing_m } => Some((round(easting_m), round(northing_m))),
        Position::Geographic { .. } => None,
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
