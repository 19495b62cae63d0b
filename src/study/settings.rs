//! Settings, complete: every default filled in. What passes the wall and what does not are two types.

use std::collections::{BTreeMap, BTreeSet};
use std::path::PathBuf;

use serde::{Deserialize, Serialize};

use super::agreement::{Agreement, named};
use super::file::{Columns, Fieldwork};
use super::vocabulary::{Country, Setting};
use crate::coordinates::System;
use crate::units::Date;
use crate::words::Language;

named! {
    /// What a ground layer holds. The names are the keys of `[ground]`.
    LayerKind {
        /// Parishes, communes or townlands: polygons with names.
        Parishes = "parishes",
        /// Land: polygons.
        Land = "land",
        /// The shore: lines.
        Shore = "shore",
        /// Ground walked: polygons, with cover.
        Walked = "walked",
        /// Height of the ground: a raster.
        Relief = "relief",
        /// Roads: lines, for orientation.
        Roads = "roads",
        /// Streams and rivers: lines, for orientation.
        Streams = "streams",
        /// Standing water: polygons, for orientation.
        Water = "water",
        /// Named places: points, for orientation.
        Places = "places",
        /// Protected sites: polygons.
        Protected = "protected",
        /// The beach: polygons.
        Beach = "beach",
        /// Parcels of land, which count as places: polygons.
        Parcels = "parcels",
        /// Wider land, for the inset that shows where the study lies: polygons.
        Around = "around",
    }
}

impl LayerKind {
    /// Whether a layer of this kind is public unless the study says otherwise.
    pub(super) fn public_by_default(self) -> bool {
        matches!(self, Self::Parishes | Self::Land | Self::Shore)
    }
}

/// A layer of the ground and how to read it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LayerSpec {
    /// What it holds.
    pub kind: LayerKind,
    /// The file, relative to the study file's folder.
    pub file: String,
    /// The layer inside a file of several.
    pub layer: Option<String>,
    /// The attribute that names each shape.
    pub name: Option<String>,
    /// The attribute with the share of ground looked at.
    pub cover: Option<String>,
    /// Whom to credit on sheets.
    pub credit: Option<String>,
    /// The licence and its number.
    pub licence: Option<String>,
    /// What kind of boundaries the parishes have, as printed.
    pub boundaries: Option<String>,
    /// The year, or the day, that the boundaries are of.
    pub dated: Option<Dated>,
    /// How far from the shore finds of the beach may lie, metres; of the beach alone.
    #[serde(default)]
    pub strip_m: Option<f64>,
    /// The system, where the file states none.
    pub system: Option<System>,
}

/// What a boundary's date says.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Dated {
    /// A year.
    Year(i32),
    /// A day.
    Day(Date),
}

/// Kernel density settings.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct DensitySettings {
    /// How the bandwidth is chosen.
    pub bandwidth: Bandwidth,
    /// Side of the surface's pixels, metres; chosen from the bandwidth and the cells when absent.
    pub pixel_m: Option<f64>,
    /// What is done about the kernel that falls off the ground.
    pub edge: EdgeCorrection,
    /// What the density is per; where the study does not say, hectares walked if walked ground is public.
    pub effort: Option<Effort>,
    /// Finds of these settings alone, where settings are shown.
    pub settings: Option<BTreeSet<Setting>>,
    /// Whether squares wholly off the land share a surface with those on it.
    pub off_land: bool,
    /// Whether each find has a bandwidth of its own (Abramson).
    pub adaptive: bool,
    /// The pilot's bandwidth, metres; the bandwidth itself when absent.
    pub pilot_m: Option<f64>,
}

named! {
    /// What is done about the kernel that falls off the ground.
    EdgeCorrection {
        /// Each find's kernel is divided by its part on ground, so that the pieces add up.
        Diggle = "diggle",
        /// The surface is divided by the part on ground of a kernel at each place.
        Uniform = "uniform",
        /// Nothing: the surface runs on over the edge.
        None = "none",
    }
}

named! {
    /// What the density is per.
    Effort {
        /// Hectares of land.
        None = "none",
        /// Hectares of walked ground.
        Walked = "walked",
        /// Hectares of walked ground that were looked at.
        Covered = "covered",
    }
}

/// How the bandwidth (the standard deviation of the kernel) is chosen.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Bandwidth {
    /// Fixed, metres.
    Fixed(f64),
    /// Fixed, one east and one north.
    Along {
        /// East and west, metres.
        east_m: f64,
        /// North and south, metres.
        north_m: f64,
    },
    /// Fixed, one along a bearing and one across it.
    Bearing {
        /// Along the bearing, metres.
        along_m: f64,
        /// Across it, metres.
        across_m: f64,
        /// Degrees from grid north, clockwise.
        bearing_deg: f64,
    },
    /// Scott's rule of thumb for two dimensions, never under the side of the cells.
    Rule,
    /// Plug-in, one east and one north.
    PlugIn,
    /// Plug-in, a full matrix.
    PlugInFull,
    /// Least-squares cross-validation.
    LeastSquares,
    /// Likelihood cross-validation.
    Likelihood,
    /// Least mean square error of a Cox process.
    Diggle,
}

impl Bandwidth {
    /// Every way of choosing a bandwidth from the release.
    pub const SELECTORS: [Self; 6] =
        [Self::Rule, Self::PlugIn, Self::PlugInFull, Self::LeastSquares, Self::Likelihood, Self::Diggle];

    /// How a way of choosing is called in a study file; nothing for a fixed one.
    pub fn name(self) -> Option<&'static str> {
        match self {
            Self::Fixed(_) | Self::Along { .. } | Self::Bearing { .. } => None,
            Self::Rule => Some("rule"),
            Self::PlugIn => Some("plug-in"),
            Self::PlugInFull => Some("plug-in-full"),
            Self::LeastSquares => Some("least-squares"),
            Self::Likelihood => Some("likelihood"),
            Self::Diggle => Some("diggle"),
        }
    }
}

/// Settings of concentrations.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ConcentrationSettings {
    /// Share of the surface's mass that they hold together, 0 to 1, where that bounds them.
    pub share: f64,
    /// A patch with fewer pieces is not listed.
    pub smallest: u32,
    /// A peak less prominent than this is part of its neighbour.
    pub prominence: Prominence,
    /// What bounds them.
    pub bound: Bound,
    /// Bootstrap resamples that say how firm each is; 0 for none.
    pub resamples: u32,
    /// Where random numbers start.
    pub seed: u64,
}

/// How far a peak must rise above its meeting with a higher one.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Prominence {
    /// A share of its own height, 0 to 1.
    OfPeak(f64),
    /// Pieces per hectare.
    PerHectare(f64),
}

/// What bounds concentrations.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Bound {
    /// The smallest ground that holds a share of the mass.
    Share,
    /// What an even scatter would hardly reach.
    Envelope {
        /// Simulated scatters.
        simulations: u32,
        /// Level of significance, 0 to 1.
        level: f64,
        /// Whether each square is judged by itself.
        pointwise: bool,
    },
}

/// Settings of the shore analysis.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ShoreSettings {
    /// Finds further from the shore than this are left out, metres.
    pub within_m: f64,
    /// Length of a stretch, metres.
    pub stretch_m: f64,
    /// Tolerance by which the shoreline is simplified before it is measured, metres.
    pub simplify_m: f64,
    /// Where kilometre 0 lies, easting and northing in metres; the line's own start when absent.
    pub start: Option<(f64, f64)>,
}

/// Settings of sheets: looks, never thresholds.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct SheetSettings {
    /// The style's name (a file in `styles/`, carried inside the program).
    pub style: String,
    /// The paper's name, or `WIDTHxHEIGHT` in millimetres.
    pub paper: String,
    /// Dots an inch of PNG pictures.
    pub dpi: u32,
    /// Which files each sheet of a pack is written as, in order.
    pub forms: BTreeSet<SheetForm>,
}

named! {
    /// A form that a sheet can be written in. The names are those of `forms`, and file endings.
    SheetForm {
        /// A drawing for the screen.
        Svg = "svg",
        /// Dots for the screen, at `dpi`.
        Png = "png",
        /// For print, its fonts inside.
        Pdf = "pdf",
        /// Dots for a journal's printer: 600 an inch, or `dpi` where that is more.
        Tif = "tif",
    }
}

/// Settings of tables that are files.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct TableSettings {
    /// Whether CSV has decimal commas, and so semicolons between columns; by the language where it is not stated.
    pub decimal_comma: Option<bool>,
}

/// All that passes the wall, for one audience.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct PublicStudy {
    /// Title.
    pub title: String,
    /// The working grid: the audience's agreed grid, in which all is measured.
    pub grid: System,
    /// The language of sheets, tables and report.
    pub language: Language,
    /// Whose periods and legal cautions apply.
    pub country: Country,
    /// The date printed on sheets (no clock is ever read).
    pub date: Option<Date>,
    /// Who compiled it, as printed.
    pub compiler: Option<String>,
    /// The edition, as printed.
    pub edition: Option<String>,
    /// The years in which finds were collected, as stated and printed.
    pub collected: Option<String>,
    /// Public layers of the ground, in the order of [`LayerKind::ALL`].
    pub layers: Vec<LayerSpec>,
    /// The agreement with this audience.
    pub agreement: Agreement,
    /// Fieldwork, where the agreement shows it.
    pub fieldwork: Vec<Fieldwork>,
    /// Density settings.
    pub density: DensitySettings,
    /// Concentration settings.
    pub concentrations: ConcentrationSettings,
    /// Shore settings.
    pub shore: ShoreSettings,
    /// Sheet settings.
    pub sheets: SheetSettings,
    /// Table settings.
    pub tables: TableSettings,
}

named! {
    /// What a find is known by from one publication to the next, where number and row disagree.
    KnownBy {
        /// The register's own number.
        Number = "number",
        /// What the row says.
        Content = "content",
    }
}

/// What stays with the register's owner.
#[derive(Clone)]
pub struct PrivateStudy {
    /// The study file's folder.
    pub root: PathBuf,
    /// Register files, as typed (globs allowed), relative to `root`.
    pub files: Vec<String>,
    /// Columns named by hand.
    pub columns: Columns,
    /// The system of eastings and northings that say none themselves.
    pub system: System,
    /// How sure an undescribed place is, metres.
    pub uncertainty_m: Option<f64>,
    /// Whether a comma is the decimal mark, where the files leave it open.
    pub decimal_comma: Option<bool>,
    /// The private ledger's folder, relative to `root`.
    pub ledger: String,
    /// What settles which find is which after rows were changed and renumbered at once.
    pub known_by: Option<KnownBy>,
    /// The keys, or files of keys, that an audience's submission is sealed to.
    pub seal_to: BTreeMap<String, Vec<String>>,
    /// Layers that are not public: seen by `check` alone.
    pub layers: Vec<LayerSpec>,
}
