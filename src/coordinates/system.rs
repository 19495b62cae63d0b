//! The coordinate systems the program knows by name, and any other by its EPSG code.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Serialize};

use super::names;
use crate::fault::Fault;

/// A coordinate system.
#[derive(Debug, Clone, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub enum System {
    /// Latitude and longitude on WGS84 (taken as ETRS89 in Europe; see `docs/coordinates.md`).
    Wgs84,
    /// British National Grid, by OSTN15.
    BritishGrid,
    /// Lambert-93 on RGF93, France.
    Lambert93,
    /// Any system of the EPSG register.
    Epsg(u32),
    /// A system that a layer states in full and that has no code (WKT or PROJ text).
    Stated(String),
}

/// A place in a system of degrees or of metres. Axis order is by field name, never by position.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Position {
    /// Degrees.
    Geographic {
        /// North positive.
        latitude_deg: f64,
        /// East positive.
        longitude_deg: f64,
    },
    /// Metres (or the unit of the system, see its definition).
    Projected {
        /// East.
        easting_m: f64,
        /// North.
        northing_m: f64,
    },
}

impl System {
    /// Its EPSG code, where it has one.
    pub fn epsg(&self) -> Option<u32> {
        match self {
            Self::Wgs84 => Some(4326),
            Self::BritishGrid => Some(27700),
            Self::Lambert93 => Some(2154),
            Self::Epsg(code) => Some(*code),
            Self::Stated(_) => None,
        }
    }

    /// The system of an EPSG code, by its own name where it has one here.
    pub fn from_epsg(code: u32) -> Self {
        match code {
            4326 => Self::Wgs84,
            27700 => Self::BritishGrid,
            2154 => Self::Lambert93,
            _ => Self::Epsg(code),
        }
    }
}

impl System {
    /// Whether its places are latitude and longitude. Of a system that this program knows by its code or
    /// its text alone, as its definition says; an unknown one is taken for metres, and fails where used.
    pub fn in_degrees(&self) -> bool {
        match self {
            Self::Wgs84 => true,
            Self::BritishGrid | Self::Lambert93 => false,
            Self::Epsg(_) | Self::Stated(_) => super::kind::in_degrees(self),
        }
    }

    /// Whether its references have letters.
    pub fn has_letters(&self) -> bool {
        matches!(self, Self::BritishGrid | Self::Epsg(names::IRISH_GRID | names::IRISH_GRID_1965))
    }

    /// Whether a place (easting and northing in metres, or longitude and latitude in degrees) lies where
    /// the system is made for; `None` where no bounds of it are known.
    pub fn holds(&self, easting_m: f64, northing_m: f64) -> Option<bool> {
        let ((west, east), (south, north)) = self.bounds()?;
        Some((west..=east).contains(&easting_m) && (south..=north).contains(&northing_m))
    }

    /// West and east, south and north bounds, metres (degrees for a system of angles).
    pub(super) fn bounds(&self) -> Option<((f64, f64), (f64, f64))> {
        match self {
            // The extent of OSTN15.
            Self::BritishGrid => Some(((0.0, super::ostn15::EAST_M), (0.0, super::ostn15::NORTH_M))),
            // EPSG dataset, area 1096 (41.15 to 51.56° N, 9.86° W to 10.38° E), projected, to the
            // next 10 km outward.
            Self::Lambert93 => Some(((-380_000.0, 1_330_000.0), (5_990_000.0, 7_240_000.0))),
            // The extent of the lettered squares.
            Self::Epsg(names::IRISH_GRID | names::IRISH_GRID_1965) => {
                Some(((0.0, 500_000.0), (0.0, 500_000.0)))
            }
            // EPSG dataset, area 1305 (51.39 to 55.43° N, 10.56 to 5.34° W), likewise.
            Self::Epsg(2157) => Some(((410_000.0, 790_000.0), (500_000.0, 970_000.0))),
            // A zone is 6° wide; its grid is not used outside these eastings, whatever the latitude.
            Self::Epsg(32601..=32660 | 32701..=32760) => Some(((100_000.0, 900_000.0), (0.0, 10_000_000.0))),
            Self::Wgs84 | Self::Stated(_) => None,
            Self::Epsg(code) => super::area::bounds(*code),
        }
    }
}

impl FromStr for System {
    type Err = Fault;

    fn from_str(text: &str) -> Result<Self, Fault> {
        let folded = text.trim().to_lowercase().replace([' ', '_'], "-");
        if let Some(code) = names::code(&folded) {
            return Ok(Self::from_epsg(code));
        }
        if let Some(code) =
            folded.strip_prefix("epsg:").and_then(|code| code.trim_start_matches('-').parse().ok())
        {
            return Ok(Self::from_epsg(code));
        }
        Err(Fault::new("coordinates-unknown-system").with("text", text.trim()))
    }
}

impl fmt::Display for System {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (self, self.epsg().and_then(names::name)) {
            (_, Some(name)) => f.write_str(&name),
            (Self::Stated(_), _) => f.write_str("as stated by the layer"),
            (_, None) => write!(f, "EPSG:{}", self.epsg().unwrap_or_default()),
        }
    }
}

impl TryFrom<String> for System {
    type Error = Fault;

    fn try_from(text: String) -> Result<Self, Fault> {
        text.parse()
    }
}

impl From<System> for String {
    fn from(system: System) -> Self {
        system.to_string()
    }
}
