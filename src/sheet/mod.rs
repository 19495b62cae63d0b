//! Map pages: frame, layers, symbols, furniture, styles. Draws what is published and nothing else.

use crate::analyse::{Concentration, ShoreProfile, Surface};
use crate::exact::Published;
use crate::fault::Result;
use crate::ground::Ground;
use crate::study::PublicStudy;
use crate::study::vocabulary::{Class, Period};

/// One drawn page: an SVG that PNG and PDF are made from.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// Its file name without ending, the same in every language: `finds-by-cell`.
    pub name: String,
    /// Its title.
    pub title: String,
    /// What it shows, for those who cannot see it.
    pub description: String,
    /// Width of the page, millimetres.
    pub width_mm: f64,
    /// Height of the page, millimetres.
    pub height_mm: f64,
    /// The page.
    pub svg: String,
}

/// What a map shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MapKind {
    /// Cells shaded by the band of their count (`finds-by-cell`).
    Cells,
    /// Parishes shaded by count (`finds-by-parish`).
    Parishes,
    /// Symbols by class, coloured by period, sized by count, in cells (`classes-and-periods`).
    Symbols,
    /// Density with contours (`density`).
    Density,
    /// Outlines of concentrations with their letters (`concentrations`).
    Concentrations,
}

/// All that a map is drawn from.
#[derive(Clone, Copy)]
pub struct Scene<'a> {
    /// The public study.
    pub study: &'a PublicStudy,
    /// Public ground.
    pub ground: &'a Ground,
    /// Published finds.
    pub published: &'a Published,
    /// Pieces by parish, in order of name.
    pub parishes: &'a [(String, f64)],
    /// The density surface, where the agreement gives it.
    pub surface: Option<&'a Surface>,
    /// Concentrations, where the agreement gives them.
    pub concentrations: &'a [Concentration],
    /// Draw these classes alone (and those under them).
    pub class: Option<Class>,
    /// Draw this period alone (and those within it).
    pub period: Option<Period>,
}

/// Draws one map. `style` and `paper` are names (see `styles/`); `None` takes the study's.
pub fn map(_kind: MapKind, _scene: &Scene<'_>, _style: Option<&str>, _paper: Option<&str>) -> Result<Sheet> {
    todo!("helper: sheet")
}

/// Draws the finds along the shore (`finds-along-the-shore`).
pub fn shore_figure(_profile: &ShoreProfile, _study: &PublicStudy, _style: Option<&str>) -> Result<Sheet> {
    todo!("helper: sheet")
}

/// A sheet as PNG.
pub fn png(_sheet: &Sheet, _dpi: u32) -> Result<Vec<u8>> {
    todo!("helper: sheet")
}

/// A sheet as PDF, vector, with embedded fonts. `date` goes into the file's properties.
pub fn pdf(_sheet: &Sheet, _study: &PublicStudy) -> Result<Vec<u8>> {
    todo!("helper: sheet")
}
