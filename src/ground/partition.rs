//! The partition of the country for one audience: fixed by the agreement and public ground before any
//! register is read.
//!
//! Today it holds the `near` rules (whole squares), the parishes and their shares of each cell, and
//! the reach of the study. The ladder of disclosed areas has its door here: [`Partition::precision_for`]
//! is the only place where a side can grow because of the ground.

use crate::coordinates::Cell;
use crate::fault::Result;
use crate::study::{Precision, PublicStudy};

use super::Ground;

/// For one audience: which side a cell is shown at, and which parish ground belongs to.
pub struct Partition<'a> {
    #[allow(dead_code)]
    study: &'a PublicStudy,
    #[allow(dead_code)]
    ground: &'a Ground,
}

impl<'a> Partition<'a> {
    /// Fixes the partition.
    pub fn fix(study: &'a PublicStudy, ground: &'a Ground) -> Result<Self> {
        Ok(Self { study, ground })
    }

    /// The parish whose ground holds a place or comes nearest to it (parishes part the whole country,
    /// sea included, within the study's reach). `None` without a parish layer or out of reach.
    pub fn parish_at(&self, _easting_m: f64, _northing_m: f64) -> Option<&'a str> {
        todo!("helper: ground")
    }

    /// The parish of that name, as the layer spells it: case, accents and punctuation do not matter.
    pub fn parish_named(&self, _stated: &str) -> Option<&'a str> {
        todo!("helper: ground")
    }

    /// Known parish names, for hints.
    pub fn parish_names(&self) -> Vec<&'a str> {
        self.ground.parishes.iter().map(|p| p.name.as_str()).collect()
    }

    /// The parishes a cell lies in, each with its share of the cell's ground (shares add to 1), in order
    /// of name. A cell with no parish ground goes whole to the nearest. Empty without a parish layer.
    pub fn parish_shares(&self, _cell: Cell) -> Vec<(&'a str, f64)> {
        todo!("helper: ground")
    }

    /// The precision at which `cell` is shown, by ground alone: its own side, or a coarser one of the
    /// ladder (or the parish) where a `near` rule's whole square asks for it.
    pub fn precision_for(&self, _cell: Cell) -> Precision {
        todo!("helper: ground")
    }

    /// Whether a cell comes within reach of the public ground (20 km of the box round land, parishes and
    /// shore). True when the study has none of these layers.
    pub fn in_reach(&self, _cell: Cell) -> bool {
        todo!("helper: ground")
    }
}
