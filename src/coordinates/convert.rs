//! From one system to another, with the operation and its accuracy told each time.
//!
//! Whatever touches OSGB36 goes by OSTN15, over ETRS89, and whatever leaves NTF by IGN's grid, over RGF93;
//! every other way is PROJ's, which may have several operations and choose among them by place. A
//! "ballpark" operation of PROJ's (one that ignores the datum) is refused: it is up to hundreds of metres
//! off and says so nowhere in its result.

use super::british::{self, OSTN15_ACCURACY_M, WGS84_ACCURACY_M};
use super::kind::Kind;
use super::way::Way;
use super::{Position, System};
use crate::fault::{Fault, Result};

/// What was done to carry a place from one system to another.
#[derive(Debug, Clone, PartialEq)]
pub struct Operation {
    /// In words: "OSTN15 shifts over the Ordnance Survey's Transverse Mercator".
    pub description: String,
    /// Published accuracy, metres; `None` where none is published.
    pub accuracy_m: Option<f64>,
    /// Whether a shift grid was used.
    pub grid_used: bool,
}

impl Operation {
    /// Nothing to do, or a projection alone: exact.
    pub(super) fn exact(description: &str) -> Self {
        Self { description: description.to_owned(), accuracy_m: Some(0.0), grid_used: false }
    }

    /// This, then `other`.
    pub(super) fn then(self, other: Self) -> Self {
        Self {
            description: format!("{}; {}", self.description, other.description),
            accuracy_m: self.accuracy_m.zip(other.accuracy_m).map(|(a, b)| a + b),
            grid_used: self.grid_used || other.grid_used,
        }
    }
}

/// Carries places from one system to another. Not `Send`: make one a thread.
pub struct Converter {
    from: (System, Kind),
    to: (System, Kind),
    route: Route,
}

/// The way from one system to another. British means the national grid's easting and northing.
enum Route {
    /// The same system.
    Same,
    /// By PROJ alone.
    Proj(Way),
    /// Between two systems on OSGB36: projection alone.
    Within(Side, Side),
    /// From OSGB36 to elsewhere.
    FromBritish(Side, Other),
    /// From elsewhere to OSGB36.
    ToBritish(Other, Side),
}

/// A system on OSGB36, as seen from the national grid.
enum Side {
    /// The national grid itself.
    Grid,
    /// OSGB36 latitude and longitude.
    Degrees,
    /// Another projection of OSGB36: PROJ's way from the grid, and the way back.
    Another { out: Way, back: Way },
}

/// A system on another datum, as seen from ETRS89 latitude and longitude.
enum Other {
    /// ETRS89 itself.
    Etrs89,
    /// WGS84, taken as ETRS89.
    Wgs84,
    /// PROJ's way, toward ETRS89 or from it as the route needs.
    Proj(Way),
}

const GRID: &str = "EPSG:27700";
const ETRS89: &str = "EPSG:4258";

impl Converter {
    /// Prepares the way from one system to another. Fails where there is none.
    pub fn new(from: &System, to: &System) -> Result<Self> {
        super::start();
        let looked = |system: &System| -> Result<(System, Kind)> {
            let system = system.epsg().map_or_else(|| system.clone(), System::from_epsg);
            let kind = Kind::of(&system)?;
            Ok((system, kind))
        };
        let (from, to) = (looked(from)?, looked(to)?);
        let route = match (from.1.osgb36, to.1.osgb36) {
            _ if from.0 == to.0 => Route::Same,
            (true, true) => Route::Within(Side::of(&from)?, Side::of(&to)?),
            (true, false) => Route::FromBritish(Side::of(&from)?, Other::of(&to, true)?),
            (false, true) => Route::ToBritish(Other::of(&from, false)?, Side::of(&to)?),
            (false, false) if from.1.ntf != to.1.ntf => {
                Route::Proj(Way::over_rgf93(&from.1.definition, &to.1.definition)?)
            }
            (false, false) => Route::Proj(Way::new(&from.1.definition, &to.1.definition)?),
        };
        Ok(Self { from, to, route })
    }

    /// Carries one place. Never NaN or infinity: a place that cannot be carried is a fault.
    pub fn convert(&self, position: Position) -> Result<Position> {
        let (x, y) = match (position, self.from.1.geographic) {
            (Position::Geographic { latitude_deg, longitude_deg }, true) => (longitude_deg, latitude_deg),
            (Position::Projected { easting_m, northing_m }, false) => (easting_m, northing_m),
            _ => return Err(Fault::new("place-other-kind").with("system", &self.from.0)),
        };
        let (x, y) = self.convert_xy(x, y)?;
        Ok(if self.to.1.geographic {
            Position::Geographic { latitude_deg: y, longitude_deg: x }
        } else {
            Position::Projected { easting_m: x, northing_m: y }
        })
    }

    /// Carries one place given as (easting or longitude, northing or latitude), and returns the same
    /// order. For layers, whose vertices come in that order. Angles are degrees, whatever the unit of
    /// the system.
    pub fn convert_xy(&self, x: f64, y: f64) -> Result<(f64, f64)> {
        self.check(&self.from, x, y)?;
        let (from, to) = (self.from.1.unit_deg, self.to.1.unit_deg);
        let (x, y) = match &self.route {
            Route::Same => (x, y),
            Route::Proj(way) => {
                let (x, y) = way.carry(x / from, y / from)?;
                (x * to, y * to)
            }
            Route::Within(start, end) => {
                let (e, n) = start.reach_grid(x, y)?;
                end.leave_grid(e, n)?
            }
            Route::FromBritish(side, other) => {
                let (e, n) = side.reach_grid(x, y)?;
                let (latitude, longitude) = british::to_etrs89(e, n)?;
                let (x, y) = other.carry(longitude, latitude, 1.0)?;
                (x * to, y * to)
            }
            Route::ToBritish(other, side) => {
                let (longitude, latitude) = other.carry(x, y, from)?;
                let (e, n) = british::from_etrs89(latitude, longitude)?;
                side.leave_grid(e, n)?
            }
        };
        self.check(&self.to, x, y)?;
        Ok((x, y))
    }

    /// Carries places as [`Self::convert_xy`] does, in place; what cannot be carried becomes NaN. Answers
    /// how many could not.
    pub(super) fn convert_block(&self, xs: &mut [f64], ys: &mut [f64]) -> u64 {
        if let Route::Proj(way) = &self.route
            && self.by_proj(way, xs, ys)
        {
            return 0;
        }
        let mut failed = 0;
        for (x, y) in xs.iter_mut().zip(ys) {
            (*x, *y) = self.convert_xy(*x, *y).unwrap_or_else(|_| {
                failed += 1;
                (f64::NAN, f64::NAN)
            });
        }
        failed
    }

    /// Carries a block by one call of PROJ's; nothing changes, and the answer is no, where that does not
    /// serve every one of its places.
    fn by_proj(&self, way: &Way, xs: &mut [f64], ys: &mut [f64]) -> bool {
        let (from, to) = (self.from.1.unit_deg, self.to.1.unit_deg);
        let sound = |end: &(System, Kind), x: f64, y: f64| self.check(end, x, y).is_ok();
        if !xs.iter().zip(&*ys).all(|(x, y)| sound(&self.from, *x, *y)) {
            return false;
        }
        let mut places: Vec<_> = xs.iter().zip(&*ys).map(|(x, y)| (x / from, y / from)).collect();
        if !way.carry_all(&mut places) || !places.iter().all(|(x, y)| sound(&self.to, x * to, y * to)) {
            return false;
        }
        for ((x, y), (carried_x, carried_y)) in xs.iter_mut().zip(ys).zip(places) {
            (*x, *y) = (carried_x * to, carried_y * to);
        }
        true
    }

    /// The operation used by the last conversion (PROJ can choose one by place), or the only one.
    pub fn operation(&self) -> Operation {
        let shifts = Operation {
            description: "OSTN15 shifts over the Ordnance Survey's Transverse Mercator".to_owned(),
            accuracy_m: Some(OSTN15_ACCURACY_M),
            grid_used: true,
        };
        match &self.route {
            Route::Same => Operation::exact("none: the same system"),
            Route::Proj(way) => way.operation(),
            Route::Within(start, end) => {
                let projection = Operation::exact("the Ordnance Survey's Transverse Mercator, within OSGB36");
                end.and_then(start.and_then(projection))
            }
            Route::FromBritish(side, other) => other.and_then(side.and_then(shifts)),
            Route::ToBritish(other, side) => side.and_then(other.and_then(shifts)),
        }
    }

    /// Refuses what is not a number, no latitude, or outside what a system is made for.
    fn check(&self, (system, kind): &(System, Kind), x: f64, y: f64) -> Result<()> {
        if !(x.is_finite() && y.is_finite()) {
            return Err(Fault::new("place-not-carried").with("system", system));
        }
        if kind.geographic && !(y.abs() <= 90.0 && x.abs() <= 540.0) {
            return Err(Fault::new("place-no-latitude"));
        }
        match system.holds(x, y) {
            Some(false) => Err(Fault::new("place-outside").with("system", system)),
            _ => Ok(()),
        }
    }
}

impl Side {
    fn of((system, kind): &(System, Kind)) -> Result<Self> {
        Ok(match system {
            System::BritishGrid => Self::Grid,
            System::Epsg(4277) => Self::Degrees,
            _ => Self::Another {
                out: Way::new(GRID, &kind.definition)?,
                back: Way::new(&kind.definition, GRID)?,
            },
        })
    }

    fn reach_grid(&self, x: f64, y: f64) -> Result<(f64, f64)> {
        match self {
            Self::Grid => Ok((x, y)),
            Self::Degrees => Ok(british::from_osgb36(y, x)),
            Self::Another { back, .. } => back.carry(x, y),
        }
    }

    fn leave_grid(&self, e: f64, n: f64) -> Result<(f64, f64)> {
        match self {
            Self::Grid => Ok((e, n)),
            Self::Degrees => {
                let (latitude, longitude) = british::to_osgb36(e, n);
                Ok((longitude, latitude))
            }
            Self::Another { out, .. } => out.carry(e, n),
        }
    }

    fn and_then(&self, operation: Operation) -> Operation {
        match self {
            Self::Another { out, .. } => operation.then(out.operation()),
            Self::Grid | Self::Degrees => operation,
        }
    }
}

impl Other {
    /// The way `from` ETRS89 to a system, or from the system to ETRS89.
    fn of((system, kind): &(System, Kind), from: bool) -> Result<Self> {
        Ok(match system {
            System::Wgs84 => Self::Wgs84,
            System::Epsg(4258) => Self::Etrs89,
            _ if from && kind.ntf => Self::Proj(Way::over_rgf93(ETRS89, &kind.definition)?),
            _ if kind.ntf => Self::Proj(Way::over_rgf93(&kind.definition, ETRS89)?),
            _ if from => Self::Proj(Way::new(ETRS89, &kind.definition)?),
            _ => Self::Proj(Way::new(&kind.definition, ETRS89)?),
        })
    }

    fn carry(&self, x: f64, y: f64, unit_deg: f64) -> Result<(f64, f64)> {
        match self {
            Self::Etrs89 | Self::Wgs84 => Ok((x, y)),
            Self::Proj(way) => way.carry(x / unit_deg, y / unit_deg),
        }
    }

    fn and_then(&self, operation: Operation) -> Operation {
        match self {
            Self::Etrs89 => operation,
            // EPSG's own entry for the whole (transformation 7710) says 1 m: the two do not add up.
            Self::Wgs84 => Operation {
                description: format!("{}; WGS 84 taken as ETRS89", operation.description),
                accuracy_m: Some(WGS84_ACCURACY_M),
                ..operation
            },
            Self::Proj(way) => operation.then(way.operation()),
        }
    }
}
