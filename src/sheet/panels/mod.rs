//! Small maps side by side: one extent, one scale, one key. Each is drawn by the base and the theme that draw
//! single maps.
//!
//! ```text
//! grid         where the maps stand, and over how many pages
//! page         one figure laid and drawn
//! bandwidths   the same finds at several bandwidths
//! each         one map a class or a period, or both
//! pair         two registers, or the finds before and after a year
//! ```

mod bandwidths;
mod each;
mod grid;
mod page;
mod pair;

use super::{MapKind, Scene, Sheet};
use crate::fault::{Fault, Result};

pub use bandwidths::compare_bandwidths;
pub use each::{Each, groups, small_maps};
pub use pair::{by_year, pair, pieces_by_year};

/// One small map.
struct Panel<'a> {
    /// In bold above it. Empty where rows and columns have headings.
    name: String,
    /// In small print under the name.
    note: String,
    /// The same for those who cannot see it.
    told: String,
    scene: Scene<'a>,
    /// Whether its frame is heavy.
    chosen: bool,
}

/// How the numbers of the maps go together.
#[derive(Clone, Copy)]
enum Counted<'a> {
    /// All show the same finds.
    Once,
    /// Each shows finds of its own, of one release: these together.
    Together(Scene<'a>),
    /// Each shows a release of its own.
    Each,
}

/// Small maps that belong together.
struct Figure<'a> {
    /// The file name of its sheet, without ending.
    name: String,
    title: String,
    /// Of what study, where the first map's own title does not say it.
    study: Option<String>,
    /// What the figure shows, before what the kind of map says of itself.
    detail: String,
    /// Whether the kind of map says something of itself.
    detailed: bool,
    kind: MapKind,
    /// In order; row by row where there are headings.
    panels: Vec<Panel<'a>>,
    /// Headings of rows and of columns.
    headings: Option<(Vec<String>, Vec<String>)>,
    counted: Counted<'a>,
    /// What heavy and other frames mean, where some are heavy.
    frames: Option<(String, String)>,
    /// Whether the squares of the first two maps are compared.
    squares: bool,
    cautions: Vec<String>,
}

/// Refuses kinds of map that cannot be drawn of a part of the finds: a density is of all of them, and letters name
/// patches of one map.
fn of_parts(kind: MapKind) -> Result<()> {
    match kind {
        MapKind::Cells | MapKind::Symbols | MapKind::Parishes => Ok(()),
        MapKind::Density | MapKind::Concentrations | MapKind::Ladder => {
            Err(Fault::new("sheet-not-side-by-side").with("map", kind.file_name()))
        }
    }
}

impl Figure<'_> {
    /// Draws it, on as many sheets as it needs. `style` and `paper` are names; `None` takes the study's.
    fn draw(&self, style: Option<&str>, paper: Option<&str>) -> Result<Vec<Sheet>> {
        page::Page::of(self, style, paper)?.draw()
    }
}
