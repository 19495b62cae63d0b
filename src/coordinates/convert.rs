//! From one system to another, with the operation and its accuracy told each time.

use super::{Position, System};
use crate::fault::Result;

/// What was done to carry a place from one system to another.
#[derive(Debug, Clone, PartialEq)]
pub struct Operation {
    /// In words: "OSTN15 grid, then Transverse Mercator".
    pub description: String,
    /// Published accuracy, metres; `None` where none is published.
    pub accuracy_m: Option<f64>,
    /// Whether a shift grid was used.
    pub grid_used: bool,
}

/// Carries places from one system to another. Not `Send`: make one a thread.
pub struct Converter {}

impl Converter {
    /// Prepares the way from one system to another. Fails where there is none.
    pub fn new(_from: &System, _to: &System) -> Result<Self> {
        todo!("helper: coordinates")
    }

    /// Carries one place. Never NaN or infinity: a place that cannot be carried is a fault.
    pub fn convert(&self, _position: Position) -> Result<Position> {
        todo!("helper: coordinates")
    }

    /// Carries one place given as (easting or longitude, northing or latitude), and returns the same
    /// order. For layers, whose vertices come in that order.
    pub fn convert_xy(&self, _x: f64, _y: f64) -> Result<(f64, f64)> {
        todo!("helper: coordinates")
    }

    /// The operation used by the last conversion (PROJ can choose one by place), or the only one.
    pub fn operation(&self) -> Operation {
        todo!("helper: coordinates")
    }
}
