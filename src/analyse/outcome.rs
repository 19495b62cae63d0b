//! The shapes that analyses give.

use std::collections::{BTreeMap, BTreeSet};

use geo::MultiPolygon;

use super::kde::Kernel;
use crate::coordinates::Cell;
use crate::exact::Figure;
use crate::study::vocabulary::{Class, Period};
use crate::study::{EdgeCorrection, Effort};

/// A density surface on a square raster, row 0 the southernmost: finds per hectare, each value the mean
/// over its whole pixel, so that the values times the area of a pixel add up to the pieces. Pixels
/// outside the window hold 0 and are not `inside`. See [`Surface::on_ground`] for what to draw.
#[derive(Debug, Clone, PartialEq)]
pub struct Surface {
    /// Easting of the west edge, metres.
    pub west_m: f64,
    /// Northing of the south edge, metres.
    pub south_m: f64,
    /// Side of a pixel, metres.
    pub pixel_m: f64,
    /// Pixels across.
    pub columns: usize,
    /// Pixels up.
    pub rows: usize,
    /// Pieces per hectare, row by row from the south.
    pub per_hectare: Vec<f64>,
    /// Share of each pixel inside the window (land, ground walked, or ground looked at), 0 to 1.
    pub inside: Vec<f64>,
    /// Standard deviation of the kernel, metres.
    pub bandwidth_m: f64,
    /// How the bandwidth was chosen, as a message of `words/` (`bandwidth-fixed`, `bandwidth-rule`, …).
    pub bandwidth_method: &'static str,
    /// Pieces that the surface holds: the sum of density times area.
    pub pieces: f64,
    /// The finds that it is made from.
    pub held: Figure,
    /// Pieces left out because they are out of place (derived, brought in).
    pub left_out_of_place: Figure,
    /// Pieces left out because they are shown by their parish alone.
    pub left_out_by_parish: Figure,
    /// How it was made.
    pub made: Made,
}

/// How a surface was made, besides its bandwidth, and what it left out.
#[derive(Debug, Clone, PartialEq)]
pub struct Made {
    /// The kernel; `Surface::bandwidth_m` is the root of the ground that it takes.
    pub kernel: Kernel,
    /// What was done at the edge of the ground.
    pub edge: EdgeCorrection,
    /// What the density is per.
    pub effort: Effort,
    /// Where each find has a bandwidth of its own.
    pub varying: Option<Varying>,
    /// The cells whose finds it holds.
    pub cells: BTreeSet<Cell>,
    /// What to doubt, as messages of `words/`.
    pub doubts: Vec<&'static str>,
    /// Pieces left out by their setting.
    pub left_by_setting: Figure,
    /// Pieces left out because their squares lie wholly off the land.
    pub left_off_land: Figure,
    /// Pieces left out because their squares lie wholly off walked ground.
    pub left_unwalked: Figure,
}

impl Default for Made {
    fn default() -> Self {
        Self {
            kernel: Kernel::round(0.0),
            edge: EdgeCorrection::None,
            effort: Effort::None,
            varying: None,
            cells: BTreeSet::new(),
            doubts: Vec::new(),
            left_by_setting: Figure::default(),
            left_off_land: Figure::default(),
            left_unwalked: Figure::default(),
        }
    }
}

/// Bandwidths of an adaptive surface, metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Varying {
    /// The pilot's.
    pub pilot_m: f64,
    /// The narrowest of any find.
    pub narrowest_m: f64,
    /// The widest of any find.
    pub widest_m: f64,
}

impl Surface {
    /// The pieces that it holds, as far as they may be told.
    pub fn pieces_told(&self) -> Figure {
        match self.held.exact() {
            // What falls off the ground, uncorrected, is not held.
            Some(_) => Figure::certain(self.pieces.round().max(0.0) as u64),
            None => self.held,
        }
    }

    /// Pieces per hectare of ground: the mean over the part of a pixel that is inside the window, which
    /// does not fall away along a coast. `None` outside the window.
    pub fn on_ground(&self, column: usize, row: usize) -> Option<f64> {
        let index = row.checked_mul(self.columns)?.checked_add(column)?;
        let inside = *self.inside.get(index)?;
        let density = *self.per_hectare.get(index)?;
        (column < self.columns && inside > 0.0).then(|| density / inside)
    }

    /// The greatest density over the ground of a pixel, pieces per hectare.
    pub fn peak(&self) -> f64 {
        let all = self.per_hectare.iter().zip(&self.inside).filter(|(_, inside)| **inside > 0.0);
        all.map(|(density, inside)| density / inside).fold(0.0, f64::max)
    }
}

/// A patch where finds lie thick. Its outline follows cell edges and is no site boundary.
#[derive(Debug, Clone, PartialEq)]
pub struct Concentration {
    /// Its letter: A, B, … by pieces, the richest first; ties from west to east, then south to north.
    pub letter: String,
    /// Its cells.
    pub cells: Vec<Cell>,
    /// Their outline.
    pub outline: MultiPolygon<f64>,
    /// Hectares of its cells (land and sea).
    pub hectares: f64,
    /// Pieces whose cell lies wholly in it.
    pub pieces: u64,
    /// Pieces in larger squares that overlap it: some may lie in it.
    pub may_hold: u64,
    /// Greatest density in it, pieces per hectare.
    pub peak_per_hectare: f64,
    /// Pieces by class, of those whose cell lies wholly in it.
    pub by_class: BTreeMap<Option<Class>, u64>,
    /// Pieces by period, likewise.
    pub by_period: BTreeMap<Option<Period>, u64>,
    /// In how many of how many resamples it stays; `None` where none were drawn.
    pub stays: Option<(u32, u32)>,
    /// How likely an even scatter is to lie as thick; `None` where none was simulated.
    pub chance: Option<Chance>,
}

impl Concentration {
    /// The share of resamples in which it stays, 0 to 1.
    pub fn firm(&self) -> Option<f64> {
        self.stays.filter(|(_, of)| *of > 0).map(|(stays, of)| f64::from(stays) / f64::from(of))
    }
}

/// The least p of the squares of a concentration against an even scatter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Chance {
    /// Each square by itself.
    pub pointwise: f64,
    /// All squares at once.
    pub global: f64,
}

/// From where to where, metres.
pub type Range = (f64, f64);

/// Kilometres along the shore, and what lies near each stretch.
#[derive(Debug, Clone, PartialEq)]
pub struct ShoreProfile {
    /// Length of the shore as measured, metres, after simplification.
    pub length_m: f64,
    /// The tolerance of that simplification, metres: a coast has no one length.
    pub simplify_m: f64,
    /// Whether it closes on itself (an island).
    pub closed: bool,
    /// Lines of the shore layer that do not join the one measured (islets, lagoons), left out.
    pub others: usize,
    /// Stretches in order along the shore.
    pub stretches: Vec<Stretch>,
    /// Each released cell within reach: its cell, the range of metres along the shore it may lie at
    /// (the end below the start where it passes the start of a closed shore), and the range of
    /// distance from the shore.
    pub cells: Vec<(Cell, Range, Range)>,
    /// Pieces within the study's limit of the shore.
    pub within: Figure,
    /// Pieces further from the shore than that.
    pub beyond: Figure,
    /// Pieces shown by their parish alone.
    pub by_parish_only: Figure,
}

/// A stretch of the shore. Pieces whose range covers several stretches are shared evenly along it.
#[derive(Debug, Clone, PartialEq)]
pub struct Stretch {
    /// Metres along the shore where it starts.
    pub from_m: f64,
    /// Where it ends.
    pub to_m: f64,
    /// Pieces.
    pub pieces: f64,
    /// By class.
    pub by_class: BTreeMap<Option<Class>, f64>,
    /// By period.
    pub by_period: BTreeMap<Option<Period>, f64>,
}

/// A value in a table.
#[derive(Debug, Clone, PartialEq)]
pub enum Value {
    /// Nothing to say.
    Empty,
    /// Words.
    Text(String),
    /// A whole number.
    Whole(u64),
    /// A number, with the decimals it is shown with.
    Number(f64, usize),
}

impl From<Figure> for Value {
    fn from(figure: Figure) -> Self {
        figure.exact().map_or_else(|| Self::Text(figure.text()), Self::Whole)
    }
}

/// A table ready to be written in any form: words are in the language of the study.
#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    /// Its file name without ending, the same in every language: `class-by-period`.
    pub name: String,
    /// Its caption.
    pub title: String,
    /// Headings; the first is that of the row labels.
    pub headings: Vec<String>,
    /// Rows, each as long as the headings.
    pub rows: Vec<Vec<Value>>,
    /// The row of totals, where there is one.
    pub totals: Option<Vec<Value>>,
    /// Notes printed under it.
    pub notes: Vec<String>,
}
