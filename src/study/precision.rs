//! The precision an audience has agreed: a square of a stated side, or a parish.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Serialize};

use crate::fault::Fault;
use crate::units::Length;

/// How finely a place may be shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub enum Precision {
    /// A square of the agreed grid.
    Square {
        /// Its side, metres: 1, 2 or 5 times a power of ten, 1 m to 100 km.
        side_m: u32,
    },
    /// The parish (or commune, or townland) alone.
    Parish,
}

/// Sides that places step through when they must be shown more coarsely, metres. Those that are no
/// multiple of the agreed side are passed over, so that squares always nest. A step of twice the side is among
/// them wherever it nests, so that a square that leaves too little ground takes only three others with it.
pub const LADDER_M: [u32; 12] = [1, 2, 5, 10, 20, 100, 200, 1_000, 2_000, 5_000, 10_000, 100_000];

impl Precision {
    /// The side in metres, where it is a square.
    pub fn side_m(self) -> Option<u32> {
        match self {
            Self::Square { side_m } => Some(side_m),
            Self::Parish => None,
        }
    }

    /// The coarser of two. A parish counts as coarser than any square.
    #[must_use]
    pub fn coarser(self, other: Self) -> Self {
        match (self, other) {
            (Self::Square { side_m: a }, Self::Square { side_m: b }) => Self::Square { side_m: a.max(b) },
            _ => Self::Parish,
        }
    }
}

/// The sides an agreed side may step up through, the agreed one first, each a multiple of the last.
pub fn ladder(agreed_m: u32) -> Vec<u32> {
    let mut sides = vec![agreed_m];
    for side in LADDER_M {
        let last = sides[sides.len() - 1];
        if side > last && side.is_multiple_of(last) {
            sides.push(side);
        }
    }
    sides
}

impl FromStr for Precision {
    type Err = Fault;

    fn from_str(text: &str) -> Result<Self, Fault> {
        let wrong = || Fault::new("study-precision").with("text", text);
        if matches!(text.trim().to_lowercase().as_str(), "parish" | "commune") {
            return Ok(Self::Parish);
        }
        let length: Length = text.parse().map_err(|_| wrong())?;
        let side_m = length.metres as u32;
        let mut lead = side_m;
        while lead >= 10 && lead.is_multiple_of(10) {
            lead /= 10;
        }
        if f64::from(side_m) != length.metres || !matches!(lead, 1 | 2 | 5) || side_m > 100_000 {
            return Err(wrong());
        }
        Ok(Self::Square { side_m })
    }
}

impl fmt::Display for Precision {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Square { side_m } => Length { metres: f64::from(*side_m) }.fmt(f),
            Self::Parish => f.write_str("parish"),
        }
    }
}

impl TryFrom<String> for Precision {
    type Error = Fault;

    fn try_from(text: String) -> Result<Self, Fault> {
        text.parse()
    }
}

impl From<Precision> for String {
    fn from(precision: Precision) -> Self {
        precision.to_string()
    }
}

#[cfg(test)]
mod tests {
    use super::ladder;

    #[test]
    fn ladder_sides_nest() {
        assert_eq!(ladder(1), [1, 2, 10, 20, 100, 200, 1_000, 2_000, 10_000, 100_000]);
        assert_eq!(ladder(100), [100, 200, 1_000, 2_000, 10_000, 100_000]);
        assert_eq!(ladder(5_000), [5_000, 10_000, 100_000]);
        assert_eq!(ladder(20), [20, 100, 200, 1_000, 2_000, 10_000, 100_000]);
    }
}
