//! From one system to another, with the operation and its accuracy told each time.
//!
//! Whatever touches OSGB36 goes by OSTN15, over ETRS89, and whatever leaves NTF by IGN's grid, over RGF93;
//! every other way is PROJ's, which may have several operations and choose among them by place. A
//! "ballpark" operation of PROJ's (one that ignores the datum) is refused: it is up to hundreds of metres
//! off and says so nowhere in its result.

use std::cell::OnceCell;

use proj_start::Finer;

use super::area::Bounds;
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
    from: End,
    to: End,
    route: Route,
    /// The answer of [`Converter::finer`], which takes milliseconds to find.
    finer: OnceCell<Option<Finer>>,
}

/// A system at one end of a way, looked at.
struct End {
    system: System,
    kind: Kind,
    bounds: Option<Bounds>,
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
    Another { out: Box<Way>, back: Box<Way> },
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
const WGS84: &str = "EPSG:4326";
const ETRS89: &str = "EPSG:4258";

impl Converter {
    /// Prepares the way from one system to another. Fails where there is none.
    pub fn new(from: &System, to: &System) -> Result<Self> {
        super::start();
        let (from, to) = (End::of(from)?, End::of(to)?);
        let route = match (from.kind.osgb36, to.kind.osgb36) {
            _ if from.system == to.system => Route::Same,
            (true, true) => Route::Within(Side::of(&from)?, Side::of(&to)?),
            (true, false) => Route::FromBritish(Side::of(&from)?, Other::of(&to, true)?),
            (false, true) => Route::ToBritish(Other::of(&from, false)?, Side::of(&to)?),
            (false, false) if from.kind.ntf != to.kind.ntf => {
                Route::Proj(Way::over_rgf93(&from.kind.definition, &to.kind.definition)?)
            }
            (false, false) => Route::Proj(Way::new(&from.kind.definition, &to.kind.definition)?),
        };
        Ok(Self { from, to, route, finer: OnceCell::new() })
    }

    /// Carries one place. Never NaN or infinity: a place that cannot be carried is a fault.
    pub fn convert(&self, position: Position) -> Result<Position> {
        let (x, y) = match (position, self.from.kind.geographic) {
            (Position::Geographic { latitude_deg, longitude_deg }, true) => (longitude_deg, latitude_deg),
            (Position::Projected { easting_m, northing_m }, false) => (easting_m, northing_m),
            _ => return Err(Fault::new("place-other-kind").with("system", &self.from.system)),
        };
        let (x, y) = self.convert_xy(x, y)?;
        Ok(if self.to.kind.geographic {
            Position::Geographic { latitude_deg: y, longitude_deg: x }
        } else {
            Position::Projected { easting_m: x, northing_m: y }
        })
    }

    /// Carries one place given as (easting or longitude, northing or latitude), and returns the same
    /// order. For layers, whose vertices come in that order. Angles are degrees, whatever the unit of
    /// the system.
    pub fn convert_xy(&self, x: f64, y: f64) -> Result<(f64, f64)> {
        self.from.check(x, y)?;
        let (from, to) = (self.from.kind.unit_deg, self.to.kind.unit_deg);
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
        self.to.check(x, y)?;
        Ok((x, y))
    }

    /// Carries places as [`Self::convert_xy`] does, in place; what cannot be carried becomes NaN. Answers
    /// how many could not.
    pub fn convert_block(&self, xs: &mut [f64], ys: &mut [f64]) -> u64 {
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
        let (from, to) = (self.from.kind.unit_deg, self.to.kind.unit_deg);
        if !way.is_steady() || !xs.iter().zip(&*ys).all(|(x, y)| self.from.holds(*x, *y)) {
            return false;
        }
        let into = |values: &[f64]| -> Vec<f64> {
            if from == 1.0 { values.to_vec() } else { values.iter().map(|value| value / from).collect() }
        };
        let (mut carried_xs, mut carried_ys) = (into(xs), into(ys));
        if !way.carry_all(&mut carried_xs, &mut carried_ys) {
            return false;
        }
        if to != 1.0 {
            carried_xs.iter_mut().chain(&mut carried_ys).for_each(|value| *value *= to);
        }
        if !carried_xs.iter().zip(&carried_ys).all(|(x, y)| self.to.holds(*x, *y)) {
            return false;
        }
        xs.copy_from_slice(&carried_xs);
        ys.copy_from_slice(&carried_ys);
        true
    }

    /// Whether every place goes by the same operation, so that what was done to one was done to all.
    pub fn is_steady(&self) -> bool {
        let steady = |side: &Side| match side {
            Side::Another { out, back } => out.is_steady() && back.is_steady(),
            Side::Grid | Side::Degrees => true,
        };
        let other_steady = |other: &Other| match other {
            Other::Proj(way) => way.is_steady(),
            Other::Etrs89 | Other::Wgs84 => true,
        };
        match &self.route {
            Route::Same => true,
            Route::Proj(way) => way.is_steady(),
            Route::Within(start, end) => steady(start) && steady(end),
            Route::FromBritish(side, other) | Route::ToBritish(other, side) => {
                steady(side) && other_steady(other)
            }
        }
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

    /// The best way between the two systems that needs a shift grid which this program does not carry, where
    /// it is published to be finer than the operation of the last conversion.
    pub fn finer(&self) -> Option<Finer> {
        // OSTN15 and IGN's grid are carried, and are the finest there are.
        let carried = self.from.kind.ntf || self.to.kind.ntf || !matches!(self.route, Route::Proj(_));
        if carried {
            return None;
        }
        let used_m = self.operation().accuracy_m?;
        let found = self.finer.get_or_init(|| {
            let ask = |from: &str, to: &str| proj_start::finer(from, to);
            let (from, to) = (self.from.kind.definition.as_str(), self.to.kind.definition.as_str());
            // Surveys publish their grids toward ETRS89, which WGS 84 is taken as.
            let european =
                |definition: &str| if definition == WGS84 { ETRS89 } else { definition }.to_owned();
            [ask(from, to), ask(&european(from), &european(to))]
                .into_iter()
                .flatten()
                .min_by(|a, b| a.accuracy_m.total_cmp(&b.accuracy_m))
        });
        found.clone().filter(|finer| finer.accuracy_m < used_m)
    }
}

impl End {
    fn of(system: &System) -> Result<Self> {
        let system = system.epsg().map_or_else(|| system.clone(), System::from_epsg);
        let kind = Kind::of(&system)?;
        let bounds = system.bounds();
        Ok(Self { system, kind, bounds })
    }

    /// Whether numbers are sound and inside what the system is made for.
    fn holds(&self, x: f64, y: f64) -> bool {
        let sound = x.is_finite() && y.is_finite();
        let angles = !self.kind.geographic || (y.abs() <= 90.0 && x.abs() <= 540.0);
        let inside = self.bounds.is_none_or(|((west, east), (south, north))| {
            (west..=east).contains(&x) && (south..=north).contains(&y)
        });
        sound && angles && inside
    }

    /// Refuses what is not a number, no latitude, or outside what the system is made for.
    fn check(&self, x: f64, y: f64) -> Result<()> {
        if self.holds(x, y) {
            return Ok(());
        }
        Err(if !(x.is_finite() && y.is_finite()) {
            Fault::new("place-not-carried").with("system", &self.system)
        } else if self.kind.geographic && !(y.abs() <= 90.0 && x.abs() <= 540.0) {
            Fault::new("place-no-latitude")
        } else {
            Fault::new("place-outside").with("system", &self.system)
        })
    }
}

impl Side {
    fn of(End { system, kind, .. }: &End) -> Result<Self> {
        Ok(match system {
            System::BritishGrid => Self::Grid,
            System::Epsg(4277) => Self::Degrees,
            _ => Self::Another {
                out: Box::new(Way::new(GRID, &kind.definition)?),
                back: Box::new(Way::new(&kind.definition, GRID)?),
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
    fn of(End { system, kind, .. }: &End, from: bool) -> Result<Self> {
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
