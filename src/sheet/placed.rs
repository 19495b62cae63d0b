//! The register of what a page holds: the box of every text, symbol, sample and figure, kept by the canvas as
//! it draws. Drawing reads nothing here; a test does, to hold that nothing overlaps and nothing is clipped.

use super::canvas::{MM, Rect};

/// A box on a page: millimetres from its upper left corner, right and down.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BoxMm {
    /// Left edge.
    pub left: f64,
    /// Upper edge.
    pub top: f64,
    /// Right edge.
    pub right: f64,
    /// Lower edge.
    pub bottom: f64,
}

impl BoxMm {
    pub(super) fn of(rect: Rect) -> Self {
        Self { left: rect.x0 / MM, top: rect.y0 / MM, right: rect.x1 / MM, bottom: rect.y1 / MM }
    }
    /// Width, millimetres.
    pub fn width(self) -> f64 {
        self.right - self.left
    }
    /// Height, millimetres.
    pub fn height(self) -> f64 {
        self.bottom - self.top
    }
    /// Whether two boxes share ground; an edge in common does not count.
    pub fn meets(self, other: Self) -> bool {
        self.left < other.right
            && other.left < self.right
            && self.top < other.bottom
            && other.top < self.bottom
    }
    /// Whether another box lies wholly inside this one.
    pub fn holds(self, other: Self) -> bool {
        self.left <= other.left
            && self.right >= other.right
            && self.top <= other.top
            && self.bottom >= other.bottom
    }
    /// This box with its edges moved outwards by millimetres.
    pub fn grown(self, by: f64) -> Self {
        Self { left: self.left - by, top: self.top - by, right: self.right + by, bottom: self.bottom + by }
    }
}

/// What a box holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Thing {
    /// A line of text; its name is the text. As wide as its advance, as tall as its ink.
    Text,
    /// A symbol of finds, or the mark of a place.
    Symbol,
    /// A square of the agreed grid as drawn (those too small for an outline are not kept one by one).
    Square,
    /// A sample in the legend.
    Sample,
    /// A figure of the furniture: scale bar, arrow, inset.
    Figure,
    /// The mark that a sheet is not for publication.
    Band,
}

/// One thing on a page.
#[derive(Debug, Clone, PartialEq)]
pub struct Placed {
    /// What it is.
    pub thing: Thing,
    /// The text, or the name of the symbol or figure.
    pub name: String,
    /// The named groups that it stands in, from the outermost: `panel/legend`.
    pub group: String,
    /// Its box.
    pub at: BoxMm,
    /// The map whose frame it belongs in: its place in [`super::Sheet::maps`]. `None` outside any map.
    pub map: Option<usize>,
}

/// One map on a page.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MapFrame {
    /// Its frame.
    pub at: BoxMm,
    /// Metres on the ground for a millimetre on the page.
    pub metres_per_mm: f64,
}

/// What the canvas has drawn so far.
#[derive(Default)]
pub(super) struct Register {
    groups: Vec<String>,
    map: Option<usize>,
    pub placed: Vec<Placed>,
    pub maps: Vec<MapFrame>,
}

impl Register {
    pub fn enter(&mut self, group: &str) {
        self.groups.push(group.to_owned());
    }

    pub fn leave(&mut self) {
        self.groups.pop();
    }

    /// What follows belongs in the frame of a map, until [`Self::close_map`].
    pub fn open_map(&mut self, frame: Rect, unit_m: f64) {
        self.map = Some(self.maps.len());
        self.maps.push(MapFrame { at: BoxMm::of(frame), metres_per_mm: unit_m * MM });
    }

    pub fn close_map(&mut self) {
        self.map = None;
    }

    pub fn note(&mut self, thing: Thing, name: &str, rect: Rect) {
        let named = self.groups.iter().map(String::as_str).filter(|group| !group.is_empty());
        self.placed.push(Placed {
            thing,
            name: name.to_owned(),
            group: named.collect::<Vec<_>>().join("/"),
            at: BoxMm::of(rect),
            map: self.map,
        });
    }
}
