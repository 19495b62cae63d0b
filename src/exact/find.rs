//! One recorded find with its exact place. Its fields can be read in `exact` alone; it cannot be
//! serialised, printed, ordered, hashed or dereferenced.

use std::fmt;

use crate::coordinates::System;
use crate::study::vocabulary::{Class, Marks, Period, Setting, Standing};

/// A find as recorded.
#[derive(Clone)]
pub struct ExactFind {
    /// Which register file, as an index into the register's list of files.
    pub(in crate::exact) file: u32,
    /// The row of the file, as an editor or spreadsheet counts it.
    pub(in crate::exact) row: u64,
    /// The register's own number.
    pub(in crate::exact) number: Option<String>,
    pub(in crate::exact) place: ExactPlace,
    /// The parish as stated.
    pub(in crate::exact) parish: Option<String>,
    pub(in crate::exact) class: Class,
    pub(in crate::exact) period: Period,
    pub(in crate::exact) count: u32,
    /// The count was written as "c. 20", "several", "12+".
    pub(in crate::exact) count_is_rough: bool,
    pub(in crate::exact) marks: Marks,
    pub(in crate::exact) setting: Setting,
    pub(in crate::exact) standing: Standing,
    /// The rest, as written; boxed, since most rows have little of it.
    pub(in crate::exact) more: Option<Box<More>>,
}

/// What else a row says, as written (trimmed).
#[derive(Clone, Default, PartialEq)]
pub struct More {
    pub(in crate::exact) class_as_written: Option<String>,
    pub(in crate::exact) period_as_written: Option<String>,
    pub(in crate::exact) material: Option<String>,
    /// Greatest length, millimetres.
    pub(in crate::exact) length_mm: Option<f64>,
    /// Weight, grams.
    pub(in crate::exact) weight_g: Option<f64>,
    pub(in crate::exact) date: Option<String>,
    pub(in crate::exact) finder: Option<String>,
    pub(in crate::exact) looked_at_by: Option<String>,
    pub(in crate::exact) kept_at: Option<String>,
    pub(in crate::exact) landowner: Option<String>,
    pub(in crate::exact) permission: Option<String>,
    /// The site that it belongs to with others.
    pub(in crate::exact) site: Option<String>,
    pub(in crate::exact) note: Option<String>,
    pub(in crate::exact) how_found: Option<String>,
    /// With its unit where the cell or the heading states one.
    pub(in crate::exact) depth: Option<String>,
    /// Breadth, millimetres.
    pub(in crate::exact) breadth_mm: Option<f64>,
    /// Thickness, millimetres.
    pub(in crate::exact) thickness_mm: Option<f64>,
    pub(in crate::exact) condition: Option<String>,
    /// In hand, or from a photograph.
    pub(in crate::exact) examined: Option<String>,
    pub(in crate::exact) owner: Option<String>,
    pub(in crate::exact) place_name: Option<String>,
    pub(in crate::exact) commune_code: Option<String>,
    /// How the place was read: by which instrument, off which map.
    pub(in crate::exact) how_placed: Option<String>,
    pub(in crate::exact) section: Option<String>,
    pub(in crate::exact) parcel: Option<String>,
    pub(in crate::exact) plan_year: Option<String>,
    pub(in crate::exact) authorisation: Option<String>,
    pub(in crate::exact) declaration: Option<String>,
    pub(in crate::exact) photographs: Option<String>,
    pub(in crate::exact) kept_or_left: Option<String>,
    pub(in crate::exact) publication: Option<String>,
    /// Whether those who are named agreed that the office holds their names.
    pub(in crate::exact) names_consent: Option<String>,
    pub(in crate::exact) embargo: Option<String>,
}

/// Where a find was picked up.
#[derive(Clone)]
pub enum ExactPlace {
    /// A place, in the system it was written in.
    Point {
        /// The system as written.
        system: System,
        /// Its nominal place (the centre of the square for a grid reference): easting or longitude.
        x: f64,
        /// Northing or latitude.
        y: f64,
        /// Side of the square it was given with, metres, from the way it was written alone (a letter
        /// reference's figures, the decimals of degrees by a fixed table), never from where it lies.
        square_m: f64,
        /// Uncertainty, metres, where stated.
        uncertainty_m: Option<f64>,
        /// The place as written.
        written: Box<str>,
    },
    /// Placed by its parish alone (see [`ExactFind::parish`]).
    ParishOnly,
}

impl ExactFind {
    /// Whether it has a place of its own, and not its parish alone.
    pub(in crate::exact) fn has_place(&self) -> bool {
        matches!(self.place, ExactPlace::Point { .. })
    }

    /// Whether the square it was given with, and twice its uncertainty, are smaller than `side_m`: then a square of
    /// that side was asked for by something else.
    pub(in crate::exact) fn is_given_finer_than(&self, side_m: u32) -> bool {
        match &self.place {
            ExactPlace::Point { square_m, uncertainty_m, .. } => {
                square_m.max(2.0 * uncertainty_m.unwrap_or(0.0)) < f64::from(side_m)
            }
            ExactPlace::ParishOnly => false,
        }
    }
}

impl More {
    /// Whether the row says nothing more.
    pub(in crate::exact) fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

impl fmt::Debug for ExactFind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("withheld")
    }
}

impl fmt::Debug for ExactPlace {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("withheld")
    }
}

impl fmt::Debug for More {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("withheld")
    }
}
