//! One way of PROJ's from a system to another.

use proj::Proj;

use super::Operation;
use crate::fault::{Fault, Result};

/// PROJ's way between two systems. Not `Send`, as PROJ's objects are not.
pub struct Way {
    proj: Proj,
    /// PROJ has one operation only, so that it need not be asked which it took.
    single: bool,
}

impl Way {
    /// The way between two systems as PROJ is told of them.
    pub fn new(from: &str, to: &str) -> Result<Self> {
        let none = || Fault::new("convert-no-way").with("from", from).with("to", to);
        let proj = Proj::new_known_crs(from, to, None).map_err(|_| none())?;
        let info = proj.proj_info();
        // Before the first place is carried, PROJ describes a choice among several by no steps.
        let single = info.definition.is_some_and(|definition| !definition.trim().is_empty());
        let way = Self { proj, single };
        if single {
            way.refuse_ballpark()?;
        }
        Ok(way)
    }

    /// Carries (east, north) in the systems' own units.
    pub fn carry(&self, x: f64, y: f64) -> Result<(f64, f64)> {
        let carried = self.proj.convert((x, y)).map_err(|_| Fault::new("place-not-carried-at-all"))?;
        if !self.single {
            self.refuse_ballpark()?;
        }
        Ok(carried)
    }

    /// What was done to the last place carried.
    pub fn operation(&self) -> Operation {
        let info = self.proj.proj_info();
        Operation {
            description: info.description.unwrap_or_else(|| "PROJ".to_owned()),
            // PROJ says −1 where it knows none.
            accuracy_m: (info.accuracy >= 0.0).then_some(info.accuracy),
            grid_used: info.definition.is_some_and(|definition| definition.contains("grids=")),
        }
    }

    fn refuse_ballpark(&self) -> Result<()> {
        let description = self.proj.proj_info().description.unwrap_or_default();
        if description.to_lowercase().contains("ballpark") {
            return Err(Fault::new("convert-ballpark"));
        }
        Ok(())
    }
}
