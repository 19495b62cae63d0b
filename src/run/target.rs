//! What places are converted to: a system, or a scheme that chooses one by place.

use std::fmt;
use std::str::FromStr;

use crate::coordinates::{System, notation};
use crate::fault::Fault;

/// What to convert to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Target {
    /// A system.
    System(System),
    /// The UTM zone that each place lies in.
    Utm,
    /// The same, with a military reference.
    Mgrs,
    /// Cells of Europe's reference grid, of this side in metres.
    Cells(u32),
}

impl Target {
    /// Whether the result is latitude and longitude.
    pub fn in_degrees(&self) -> bool {
        matches!(self, Self::System(system) if system.in_degrees())
    }

    /// The system, where it is the same for all places.
    pub fn system(&self) -> Option<System> {
        match self {
            Self::System(system) => Some(system.clone()),
            Self::Cells(_) => Some(System::from_epsg(notation::EUROPEAN_GRID)),
            Self::Utm | Self::Mgrs => None,
        }
    }
}

impl FromStr for Target {
    type Err = Fault;

    fn from_str(text: &str) -> Result<Self, Fault> {
        let folded = text.trim().to_lowercase();
        match folded.as_str() {
            "utm" => return Ok(Self::Utm),
            "mgrs" => return Ok(Self::Mgrs),
            _ => {}
        }
        let unknown = || Fault::new("coordinates-unknown-system").with("text", text.trim());
        if let Some(side) = folded.strip_prefix("inspire-") {
            let split = side.find(|c: char| !c.is_ascii_digit()).ok_or_else(unknown)?;
            let (number, unit) = side.split_at(split);
            let unit = match unit {
                "m" => 1,
                "km" => 1000,
                _ => return Err(unknown()),
            };
            let side = number.parse::<u32>().ok().and_then(|number| number.checked_mul(unit));
            return match side {
                Some(side @ (1 | 10 | 100 | 1000 | 10_000 | 100_000)) => Ok(Self::Cells(side)),
                _ => Err(unknown()),
            };
        }
        text.parse().map(Self::System)
    }
}

impl fmt::Display for Target {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::System(system) => system.fmt(f),
            Self::Utm => f.write_str("utm"),
            Self::Mgrs => f.write_str("mgrs"),
            Self::Cells(side) if side % 1000 == 0 => write!(f, "inspire-{}km", side / 1000),
            Self::Cells(side) => write!(f, "inspire-{side}m"),
        }
    }
}
