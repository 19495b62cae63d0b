//! Ways of PROJ's from a system to another.

use proj::Proj;

use super::Operation;
use crate::fault::{Fault, Result};

/// RGF93, latitude and longitude.
const RGF93: &str = "EPSG:4171";

/// PROJ's way between two systems, straight or over others. Not `Send`, as PROJ's objects are not.
pub struct Way {
    steps: Vec<Step>,
    /// Refuse a place for which no shift grid serves.
    by_grid: bool,
}

/// PROJ's way between two systems next to one another.
struct Step {
    proj: Proj,
    /// PROJ has one operation only, so that it need not be asked again and again which it took.
    single: Option<Operation>,
}

impl Way {
    /// The way between two systems as PROJ is told of them.
    pub fn new(from: &str, to: &str) -> Result<Self> {
        Ok(Self { steps: vec![Step::new(from, to)?], by_grid: false })
    }

    /// The way over RGF93 between NTF and what lies on another datum. IGN's grid ties those two, and from
    /// elsewhere PROJ would choose three constants; a place off the grid is refused.
    pub fn over_rgf93(from: &str, to: &str) -> Result<Self> {
        let stops = [from, RGF93, to];
        let steps = stops.windows(2).filter(|pair| pair[0] != pair[1]);
        Ok(Self {
            steps: steps.map(|pair| Step::new(pair[0], pair[1])).collect::<Result<_>>()?,
            by_grid: true,
        })
    }

    /// Carries (east, north) in the systems' own units.
    pub fn carry(&self, x: f64, y: f64) -> Result<(f64, f64)> {
        let carried = self.steps.iter().try_fold((x, y), |(x, y), step| step.carry(x, y));
        // Off the grid PROJ takes three constants, or a guess that is refused: either way the grid does not serve.
        let guessed = matches!(&carried, Err(fault) if fault.id == "convert-ballpark");
        if self.by_grid && (guessed || carried.is_ok() && !self.steps.iter().any(Step::grid_used)) {
            return Err(Fault::new("place-outside-ntf"));
        }
        carried
    }

    /// Carries many places in one call, where PROJ has one operation only. Answers whether it did: where
    /// not (a choice by place, a place that fails), none has changed and each is to be carried by itself.
    pub fn carry_all(&self, places: &mut Vec<(f64, f64)>) -> bool {
        match &self.steps[..] {
            [step] if step.single.is_some() && !self.by_grid => {
                let mut carried = places.clone();
                let whole = step.proj.convert_array(&mut carried).is_ok();
                if whole {
                    *places = carried;
                }
                whole
            }
            _ => false,
        }
    }

    /// What was done to the last place carried.
    pub fn operation(&self) -> Operation {
        self.steps
            .iter()
            .map(Step::operation)
            .reduce(Operation::then)
            .unwrap_or_else(|| Operation::exact("none"))
    }
}

impl Step {
    fn new(from: &str, to: &str) -> Result<Self> {
        let none = || Fault::new("convert-no-way").with("from", from).with("to", to);
        let proj = Proj::new_known_crs(from, to, None).map_err(|_| none())?;
        let info = proj.proj_info();
        // Before the first place is carried, PROJ describes a choice among several as "unavailable until …".
        // The words are its own: its version is pinned, and tests carry places by a choice.
        let told = |text: Option<String>| {
            text.is_some_and(|text| !text.trim().is_empty() && !text.starts_with("unavailable"))
        };
        let single = told(info.definition) && told(info.description);
        let mut step = Self { proj, single: None };
        if single {
            step.refuse_ballpark()?;
            step.single = Some(step.taken());
        }
        Ok(step)
    }

    fn carry(&self, x: f64, y: f64) -> Result<(f64, f64)> {
        let carried = self.proj.convert((x, y)).map_err(|_| Fault::new("place-not-carried-at-all"))?;
        if self.single.is_none() {
            self.refuse_ballpark()?;
        }
        Ok(carried)
    }

    fn operation(&self) -> Operation {
        self.single.clone().unwrap_or_else(|| self.taken())
    }

    /// What PROJ says that it did to the last place, or will do to every one.
    fn taken(&self) -> Operation {
        let info = self.proj.proj_info();
        Operation {
            description: plain(&info.description.unwrap_or_default()),
            // PROJ says −1 where it knows none.
            accuracy_m: (info.accuracy >= 0.0).then_some(info.accuracy),
            grid_used: self.grid_used(),
        }
    }

    fn grid_used(&self) -> bool {
        if let Some(operation) = &self.single {
            return operation.grid_used;
        }
        self.proj.proj_info().definition.is_some_and(|definition| definition.contains("grids="))
    }

    fn refuse_ballpark(&self) -> Result<()> {
        let description = self.proj.proj_info().description.unwrap_or_default();
        if description.to_lowercase().contains("ballpark") {
            return Err(Fault::new("convert-ballpark"));
        }
        Ok(())
    }
}

/// PROJ's description without the turns of axes, which are no part of what is done to a place.
fn plain(description: &str) -> String {
    let told: Vec<&str> =
        description.split(" + ").filter(|part| !part.starts_with("axis order change")).collect();
    if told.is_empty() { "none".to_owned() } else { told.join(" + ") }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn turns_of_axes_are_not_told() {
        assert_eq!(plain("axis order change (2D) + UTM zone 31N"), "UTM zone 31N");
        assert_eq!(plain("A to B (1) + axis order change (2D)"), "A to B (1)");
        assert_eq!(plain("axis order change (2D)"), "none");
    }
}
