//! Map pages: frame, layers, symbols, furniture, styles. Draws what is published and nothing else.
//!
//! ```text
//! canvas, look, text, colour   a page in hundredths of a millimetre, its one font, its inks
//! placed                 the register of what a page holds, box by box
//! style, paper           looks and sizes by name
//! view                   from metres to the page; everything is cut at the frame
//! base, relief, heights  the quiet ground
//! labels, placing        names, and which of its places each takes
//! themes/                what each kind of map adds: cells, parishes, symbols, density, concentrations
//! blocks, layout         boxes for everything, and what goes first on small paper
//! furniture, north, inset, notes   frame and scale bar, the two norths, where it lies, what is said in words
//! parish                 one parish alone, for a page that is pinned up
//! plate                  sheets without a margin, for the page of a report
//! panels/                small maps side by side: a bandwidth, a class, a period, a register each
//! plot, shore            charts, by plotters on the same canvas
//! output, raster, outline  PDF; PNG and TIFF; SVG with outlined text
//! ```

mod base;
mod blocks;
mod canvas;
mod collecting;
mod colour;
mod furniture;
mod heights;
#[cfg(test)]
mod inks;
mod inset;
mod labels;
mod layout;
mod look;
mod north;
mod notes;
mod outline;
mod output;
mod page;
mod panels;
mod paper;
mod parish;
mod placed;
mod placing;
mod plate;
mod plot;
mod raster;
mod relief;
mod shapes;
mod shore;
mod style;
mod text;
mod themes;
mod view;

use crate::analyse::{Concentration, EvenTest, Surface};
use crate::coordinates::Cell;
use crate::exact::{Figure, Published};
use crate::ground::{Ground, Partition, Step};
use crate::study::PublicStudy;
use crate::study::vocabulary::{Class, Period};

pub use notes::grid as grid_name;
pub use outline::outlined;
pub use output::pdf;
pub use page::{known_looks, map};
pub use panels::{Each, by_year, compare_bandwidths, groups, pair, pieces_by_year, small_maps};
pub use parish::parish_map;
pub use placed::{BoxMm, MapFrame, Placed, Thing};
pub use plate::{plates, shore_plate};
pub use raster::{png, tiff};
pub use shore::shore_figure;
use shore::shore_figure_of;

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
    /// The box of every text, symbol, sample and figure on it, in the order drawn.
    pub placed: Vec<Placed>,
    /// The maps on it.
    pub maps: Vec<MapFrame>,
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
    /// In which squares a find would be shown, wherever it lay (`ladder`).
    Ladder,
}

/// The ground that is not shown at the smallest side.
#[derive(Debug, Clone, PartialEq)]
pub struct Ladder {
    /// The side at which all other ground is shown, metres.
    pub least_m: u32,
    /// [`Partition::steps`](crate::ground::Partition::steps).
    pub steps: Vec<(Cell, Step)>,
}

impl Ladder {
    /// That of a partition; `None` where all ground is shown alike, and where parishes are agreed and not squares.
    pub fn of(partition: &Partition<'_>, study: &PublicStudy) -> Option<Self> {
        study.agreement.precision.side_m()?;
        let (least_m, steps) = (partition.least_side_m()?, partition.steps());
        (!steps.is_empty()).then_some(Self { least_m, steps })
    }
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
    pub parishes: &'a [(String, u64)],
    /// The density surface, where the agreement gives it.
    pub surface: Option<&'a Surface>,
    /// Concentrations, where the agreement gives them.
    pub concentrations: &'a [Concentration],
    /// The finds against an even scatter, where that bounds the concentrations.
    pub even: Option<EvenTest>,
    /// The ladder of disclosed ground, where there is one.
    pub ladder: Option<&'a Ladder>,
    /// Draw these classes alone (and those under them).
    pub class: Option<Class>,
    /// Draw this period alone (and those within it).
    pub period: Option<Period>,
}

impl Scene<'_> {
    /// Pieces of the class and period that are drawn alone; all that are published where none is.
    pub fn pieces(&self) -> Figure {
        self.published.total(|find| themes::drawn(find, self))
    }
}
