//! What each kind of map adds to the quiet base: its legend, its notes, and its drawing.

pub(super) mod cells;
mod concentrations;
pub(super) mod density;
mod joined;
mod ladder;
mod parishes;
mod rows;
mod squares;
mod symbols;

use std::collections::BTreeSet;

use super::base::{Base, Named};
use super::canvas::{Canvas, Look, Rect};
use super::labels::Labels;
use super::layout::{Block, rank};
use super::notes::Shown;
use super::style::Style;
use super::view::{Extent, View};
use super::{MapKind, Scene};
use crate::coordinates::Cell;
use crate::exact::ReleasedFind;
use crate::fault::{Fault, Result};
use crate::words::Words;

/// One kind of map.
pub(super) trait Theme {
    /// Blocks of the legend at this scale.
    fn legend<'a>(&'a self, view: &View, style: &'a Style, words: &Words) -> Vec<Block<'a>>;
    /// One line on what is shown, at this scale.
    fn detail(&self, view: &View, words: &Words) -> String;
    /// The rank at which that line goes on small paper: 0 where the map cannot be read without it.
    fn detail_rank(&self) -> u8 {
        rank::NUMBERS
    }
    /// How much is shown, at this scale.
    fn shown(&self, view: &View) -> Shown;
    /// Whether it shows finds: of ground alone, none are counted.
    fn of_finds(&self) -> bool {
        true
    }
    /// Whether it shades the land all over, so that no shape of the land is seen under it.
    fn covers_land(&self) -> bool {
        false
    }
    /// Whether all pieces of its scene that could be drawn are, at this scale.
    fn draws_all(&self, _view: &View) -> bool {
        true
    }
    /// Cautions of its own, and things left out that must be counted, at this scale.
    fn cautions(&self, view: &View, style: &Style, words: &Words) -> Vec<String>;
    /// What lies under the lines of the base.
    fn under(&self, canvas: &mut Canvas, base: &Base<'_>);
    /// What lies over them; words go into `labels`.
    fn over(&self, canvas: &mut Canvas, base: &Base<'_>, labels: &mut Labels);
    /// The squares that it draws finds in, at this scale; none where it draws none.
    fn squares(&self, _view: &View) -> BTreeSet<Cell> {
        BTreeSet::new()
    }
    /// The same with a shorter key, for paper that has no room for this one; `None` where there is none.
    fn shorter(&self) -> Option<Box<dyn Theme + '_>> {
        None
    }
    /// Ground that it needs to show besides that of the scene, at this scale.
    fn reach(&self, _view: &View) -> Option<Extent> {
        None
    }
    /// What of the ground is the base's to name, and the parishes to bound.
    fn base_names(&self) -> Named {
        Named { parishes: true, places: true }
    }
}

/// The theme of a kind of map.
pub(super) fn theme<'s>(
    kind: MapKind,
    scene: &'s Scene<'s>,
    style: &Style,
    words: &'s Words,
) -> Result<Box<dyn Theme + 's>> {
    Ok(match kind {
        MapKind::Cells => Box::new(cells::Theme::new(scene)),
        MapKind::Parishes => Box::new(parishes::Theme::new(scene)),
        MapKind::Symbols => Box::new(symbols::Theme::new(scene, style)),
        MapKind::Density => Box::new(density::Theme::new(scene)?),
        MapKind::Concentrations => Box::new(concentrations::Theme::new(scene, words)?),
        MapKind::Ladder => Box::new(ladder::Theme::new(scene)?),
    })
}

/// The themes of small maps of one kind side by side. They share one key: squares are joined alike, shades and
/// sizes mean the same, and the legend of any of them serves all.
pub(super) fn alike<'s>(
    kind: MapKind,
    scenes: &[Scene<'s>],
    style: &Style,
) -> Result<Vec<Box<dyn Theme + 's>>> {
    fn boxed<'s, T: Theme + 's>(themes: Vec<T>) -> Vec<Box<dyn Theme + 's>> {
        themes.into_iter().map(|theme| Box::new(theme) as Box<dyn Theme + 's>).collect()
    }
    match kind {
        MapKind::Cells => Ok(boxed(squares::Theme::alike(scenes))),
        MapKind::Parishes => Ok(boxed(parishes::Theme::alike(scenes))),
        MapKind::Symbols => Ok(boxed(symbols::Theme::alike(scenes, style))),
        MapKind::Density => Ok(boxed(density::Theme::alike(scenes)?)),
        // Letters name patches of one map, and the ground is the same on every one.
        MapKind::Concentrations | MapKind::Ladder => {
            Err(Fault::new("sheet-not-side-by-side").with("map", kind.file_name()))
        }
    }
}

/// Whether a find is of the class and period that the scene draws alone.
pub(super) fn drawn(find: &ReleasedFind, scene: &Scene<'_>) -> bool {
    let class = scene.class.is_none_or(|wanted| find.class.is_some_and(|class| class.is(wanted)));
    let country = scene.study.country;
    let period =
        scene.period.is_none_or(|wanted| find.period.is_some_and(|period| period.is(wanted, country)));
    class && period
}

/// The band of a count as an index, from 0 for 1–2 to 3 for 50 and more: the same bands as
/// [`crate::exact::band`].
fn band_index(pieces: u64) -> usize {
    match pieces {
        0..=2 => 0,
        3..=9 => 1,
        10..=49 => 2,
        _ => 3,
    }
}

/// A count that stands in each band, to name the band by.
const BAND_SAMPLES: [u64; 4] = [1, 3, 10, 50];

/// A filled box for the legend.
fn swatch<'a>(look: Look) -> super::layout::Draw<'a> {
    Box::new(move |canvas, rect| {
        let inset = Rect { y0: rect.y0 + 15.0, y1: rect.y1 - 15.0, ..rect };
        canvas.rect_with(inset, &look);
    })
}
