//! What a thief would read out of files that somebody is about to hand on. Knows no register.
//!
//! ```text
//! opening     a file becomes layers: what it holds, and what is packed or written inside that
//! archives, pictures, documents, vectors, markup, encoded   how each kind of file is opened
//! drawing, pages, plane   drawings of SVG and PDF, taken back to the ground
//! reading     the places in a layer: figures, notations, bytes; plainly: odd forms made usual
//! frames      the systems that figures without a name may be in, round the study's ground
//! finer       the judge that needs no register: is a place finer than what was agreed?
//! photographs copies of pictures without what a camera writes into them
//! ```
//!
//! The other judge, which knows the exact places, is `exact::Hunt`; `run::audit` lets both look.

mod archives;
mod bytes;
mod documents;
mod drawing;
mod encoded;
mod figures;
mod finer;
mod frames;
mod markup;
mod notations;
mod opening;
mod pages;
mod photographs;
mod pictures;
mod plainly;
mod plane;
mod reading;
mod sheets;
mod tags;
mod vectors;

pub use finer::Agreed;
pub use frames::Frames;
pub use opening::{Opened, open};
pub use photographs::clean;
pub use reading::read;

use crate::coordinates::System;

/// What a layer is, and so how its figures are to be taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Form {
    /// Words and figures for people or programs.
    Text,
    /// Words that were turned round, unspaced or otherwise hidden: its places count when they are exact.
    Hidden,
    /// Drawing instructions and other long runs of small figures: its places count when they are exact.
    Drawing,
    /// Bytes of no known meaning, or records of a database.
    Bytes,
    /// The name of a file or a folder.
    Name,
}

/// One thing that a file holds.
#[derive(Debug, Clone, PartialEq)]
pub struct Layer {
    /// The files that it lies in, inside the one looked at: `["inner.tar", "notes.txt"]`.
    pub within: Vec<String>,
    /// How it was hidden: names of messages, `audit-through-…`.
    pub through: Vec<&'static str>,
    /// What it is.
    pub form: Form,
    /// It.
    pub bytes: Vec<u8>,
}

/// A place that a file's own shape says is one: a vertex, a camera's position, a picture's corner.
#[derive(Debug, Clone, PartialEq)]
pub struct Vertex {
    /// As [`Layer::within`].
    pub within: Vec<String>,
    /// The kind of finding, as a message `audit-kind-…`.
    pub kind: &'static str,
    /// The system; where the file does not say, whichever holds it.
    pub system: Option<System>,
    /// Easting or longitude.
    pub x: f64,
    /// Northing or latitude.
    pub y: f64,
    /// The last figure written of each, in its own unit.
    pub unit: f64,
    /// How it is to be judged.
    pub part: Part,
}

/// What a vertex is part of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Part {
    /// A place by itself, or a shape so small that it is one.
    Place,
    /// The edge of something larger.
    Edge {
        /// How large, metres.
        extent_m: f64,
    },
    /// A mark drawn on a map.
    Mark {
        /// It lies in a group that has a name.
        named: bool,
    },
    /// The position of a camera: told wherever it lies.
    Camera,
}

/// A place read out of a file, in the working grid.
#[derive(Debug, Clone, PartialEq)]
pub struct Sight {
    /// As [`Layer::within`].
    pub within: Vec<String>,
    /// As [`Layer::through`].
    pub through: Vec<&'static str>,
    /// The kind of finding, as a message `audit-kind-…`.
    pub kind: &'static str,
    /// Easting, metres; of the south-west corner for a square.
    pub easting_m: f64,
    /// Northing, metres.
    pub northing_m: f64,
    /// How far east the place may lie from it, as written, metres.
    pub east_m: f64,
    /// How far north.
    pub north_m: f64,
    /// Side, for the reference of a square.
    pub side_m: Option<f64>,
    /// Whether the judge without a register is to look at it: a place to anybody's eyes.
    pub plain: bool,
    /// What it is part of.
    pub part: Part,
    /// Whether its longitude is counted westward, so that figures cut off leave it too far east.
    pub westward: bool,
    /// Whether it is in the name of a file.
    pub in_name: bool,
}
