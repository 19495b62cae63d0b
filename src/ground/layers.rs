//! What the land looks like, in the working grid.

use geo::{MultiLineString, MultiPolygon, Point};

use crate::coordinates::System;
use crate::words::Words;

/// The ground of one study, every layer carried into one projected grid. A layer that the study does
/// not give is empty (`None` for relief).
#[derive(Debug, Clone)]
pub struct Ground {
    /// The grid of every coordinate here, metres.
    pub system: System,
    /// Parishes, in order of name.
    pub parishes: Vec<Parish>,
    /// Land.
    pub land: MultiPolygon<f64>,
    /// The shore.
    pub shore: MultiLineString<f64>,
    /// Ground walked.
    pub walked: Vec<Walked>,
    /// Heights.
    pub relief: Option<Relief>,
    /// Roads.
    pub roads: MultiLineString<f64>,
    /// Streams.
    pub streams: MultiLineString<f64>,
    /// Standing water.
    pub water: MultiPolygon<f64>,
    /// Named places.
    pub places: Vec<NamedPlace>,
    /// Protected sites.
    pub protected: MultiPolygon<f64>,
    /// The beach.
    pub beach: MultiPolygon<f64>,
    /// The beach as far from the shore as the study states that finds of the beach may lie; `None` where it
    /// states nothing.
    pub beach_strip: Option<MultiPolygon<f64>>,
    /// Parcels, which count as places.
    pub parcels: Vec<MultiPolygon<f64>>,
    /// For each `near` rule of the agreement, in the order of its stricter rules, its shapes.
    pub near: Vec<MultiPolygon<f64>>,
    /// Wider land, for the inset that shows where the study lies.
    pub around: MultiPolygon<f64>,
    /// Whom to credit for the layers, without repeats.
    pub credits: Vec<Credit>,
}

/// Whom to credit for a layer, and under which licence.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Credit {
    /// Whom.
    pub whom: String,
    /// The licence and its number.
    pub licence: Option<String>,
}

impl Credit {
    /// As printed: "Hernsey Survey (licence 12)".
    pub fn said(&self, words: &Words) -> String {
        match &self.licence {
            Some(licence) => words.say_with(
                "ground-credit-licence",
                &[("whom", self.whom.clone().into()), ("licence", licence.clone().into())],
            ),
            None => self.whom.clone(),
        }
    }
}

impl From<&str> for Credit {
    fn from(whom: &str) -> Self {
        Self { whom: whom.to_owned(), licence: None }
    }
}

/// A parish, commune or townland.
#[derive(Debug, Clone)]
pub struct Parish {
    /// Its name; both names where two are told as one.
    pub name: String,
    /// Where several are told as one, the name of each.
    pub also: Vec<String>,
    /// Its ground.
    pub shape: MultiPolygon<f64>,
}

/// A piece of walked ground.
#[derive(Debug, Clone)]
pub struct Walked {
    /// Its name, where the layer has one.
    pub name: Option<String>,
    /// Its extent.
    pub shape: MultiPolygon<f64>,
    /// Share of it that was looked at, 0 to 1.
    pub cover: Option<f64>,
}

/// A named point.
#[derive(Debug, Clone)]
pub struct NamedPlace {
    /// Its name.
    pub name: String,
    /// Where.
    pub at: Point<f64>,
}

/// Heights on a square raster, row 0 the northernmost. A pixel without a height is NaN, which never
/// leaves this type (see `height`).
#[derive(Debug, Clone)]
pub struct Relief {
    /// Easting of the west edge, metres.
    pub west_m: f64,
    /// Northing of the north edge, metres.
    pub north_m: f64,
    /// Side of a pixel, metres.
    pub pixel_m: f64,
    /// Pixels across.
    pub columns: usize,
    /// Pixels down.
    pub rows: usize,
    /// Heights in metres, row by row.
    pub(in crate::ground) heights: Vec<f32>,
}

impl Relief {
    /// Heights from the north-western corner, row by row. `None` when they do not fill the raster.
    pub fn new(west_m: f64, north_m: f64, pixel_m: f64, columns: usize, heights: Vec<f32>) -> Option<Self> {
        let rows = heights.len().checked_div(columns)?;
        let whole = rows * columns == heights.len() && pixel_m > 0.0 && pixel_m.is_finite();
        whole.then_some(Self { west_m, north_m, pixel_m, columns, rows, heights })
    }

    /// The height of one pixel, metres.
    pub fn height(&self, column: usize, row: usize) -> Option<f32> {
        let height = *self.heights.get(row * self.columns + column)?;
        (column < self.columns && !height.is_nan()).then_some(height)
    }
}
