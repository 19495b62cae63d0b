//! Boxes, inks and letters: how things on the canvas look, before they are drawn.

use std::fmt::Write as _;

use super::canvas::{MM, PT};
use super::colour::Colour;
use super::text::Face;

/// A box on the page.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Rect {
    pub x0: f64,
    pub y0: f64,
    pub x1: f64,
    pub y1: f64,
}

impl Rect {
    pub fn new(x: f64, y: f64, width: f64, height: f64) -> Self {
        Self { x0: x, y0: y, x1: x + width, y1: y + height }
    }
    pub fn width(self) -> f64 {
        self.x1 - self.x0
    }
    pub fn height(self) -> f64 {
        self.y1 - self.y0
    }
    pub fn grown(self, by: f64) -> Self {
        Self { x0: self.x0 - by, y0: self.y0 - by, x1: self.x1 + by, y1: self.y1 + by }
    }
    pub fn meets(self, other: Self) -> bool {
        self.x0 < other.x1 && other.x0 < self.x1 && self.y0 < other.y1 && other.y0 < self.y1
    }
    pub fn holds(self, other: Self) -> bool {
        self.x0 <= other.x0 && self.x1 >= other.x1 && self.y0 <= other.y0 && self.y1 >= other.y1
    }
}

/// How shapes look: set on a group, or on one shape.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Look {
    fill: Option<Colour>,
    opacity: Option<f64>,
    stroke: Option<(Colour, f64)>,
    dash_mm: Vec<f64>,
}

impl Look {
    /// Filled, without outline.
    pub fn fill(fill: Colour) -> Self {
        Self { fill: Some(fill), ..Self::default() }
    }
    /// A line of a width in points, without fill.
    pub fn line(ink: Colour, width_pt: f64) -> Self {
        Self { stroke: Some((ink, width_pt)), ..Self::default() }
    }
    /// Adds an outline.
    pub fn with_line(mut self, ink: Colour, width_pt: f64) -> Self {
        self.stroke = Some((ink, width_pt));
        self
    }
    /// Dashes and gaps, millimetres.
    pub fn dashed(mut self, dash_mm: &[f64]) -> Self {
        self.dash_mm = dash_mm.to_vec();
        self
    }
    /// Lets what lies under it through.
    pub fn opacity(mut self, opacity: f64) -> Self {
        self.opacity = Some(opacity);
        self
    }

    /// As attributes of an SVG element.
    pub fn attributes(&self) -> String {
        let mut out = match self.fill {
            Some(fill) => format!(r#" fill="{fill}""#),
            None => r#" fill="none""#.to_owned(),
        };
        if let Some((ink, width_pt)) = self.stroke {
            let width = (width_pt * PT).round().max(1.0);
            let _ = write!(out, r#" stroke="{ink}" stroke-width="{width}" stroke-linejoin="round""#);
        }
        if !self.dash_mm.is_empty() {
            let dashes: Vec<String> = self.dash_mm.iter().map(|mm| (mm * MM).round().to_string()).collect();
            let _ = write!(out, r#" stroke-dasharray="{}""#, dashes.join(" "));
        }
        if let Some(opacity) = self.opacity {
            let _ = write!(out, r#" opacity="{opacity:.2}""#);
        }
        out
    }
}

/// Where a text hangs from its point.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Anchor {
    Start,
    Middle,
    End,
}

/// How a text looks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Type {
    pub size_pt: f64,
    pub face: Face,
    pub ink: Colour,
    pub anchor: Anchor,
    /// A band of this colour around the letters, and its width in points.
    pub halo: Option<(Colour, f64)>,
    /// Quarter turns anticlockwise.
    pub upright: bool,
}

impl Type {
    pub fn new(size_pt: f64, ink: Colour) -> Self {
        Self { size_pt, face: Face::Regular, ink, anchor: Anchor::Start, halo: None, upright: false }
    }
    pub fn bold(mut self) -> Self {
        self.face = Face::Bold;
        self
    }
    pub fn oblique(mut self) -> Self {
        self.face = Face::Oblique;
        self
    }
    pub fn anchored(mut self, anchor: Anchor) -> Self {
        self.anchor = anchor;
        self
    }
    pub fn haloed(mut self, ink: Colour, width_pt: f64) -> Self {
        self.halo = Some((ink, width_pt));
        self
    }
    /// Turned to read upwards.
    pub fn upright(mut self) -> Self {
        self.upright = true;
        self
    }
    pub fn width(&self, text: &str) -> f64 {
        super::text::width(text, self.face, self.size_pt)
    }
    /// The box of a line of text with its baseline at a point: as wide as its advance, as tall as its ink.
    pub fn ink_box(&self, x: f64, y: f64, text: &str) -> Rect {
        let wide = self.width(text);
        let (rise, fall) = super::text::ink(text, self.face, self.size_pt);
        let start = match self.anchor {
            Anchor::Start => 0.0,
            Anchor::Middle => -wide / 2.0,
            Anchor::End => -wide,
        };
        if self.upright {
            // Reads upwards: along the line is up the page, above it is to the left.
            Rect { x0: x - rise, x1: x + fall, y0: y - start - wide, y1: y - start }
        } else {
            Rect { x0: x + start, x1: x + start + wide, y0: y - rise, y1: y + fall }
        }
    }
    /// Height of capitals and figures above the baseline, units (DejaVu: 0.729 em).
    pub fn rise(&self) -> f64 {
        0.729 * self.size_pt * PT
    }
    /// Depth of descenders below the baseline, units (DejaVu: 0.236 em).
    pub fn fall(&self) -> f64 {
        0.236 * self.size_pt * PT
    }
    /// From one baseline to the next.
    pub fn lead(&self) -> f64 {
        1.28 * self.size_pt * PT
    }
}
