//! What stands round the map: the heading above it, and blocks of legend and words, each measured before
//! it is drawn.

use super::canvas::{Canvas, MM, Rect};
use super::style::Style;
use super::text::wrap;

/// Draws a sample or a figure in its box.
pub(super) type Draw<'a> = Box<dyn Fn(&mut Canvas, Rect) + 'a>;

/// One thing in a block.
pub(super) enum Item<'a> {
    /// A heading.
    Heading(String),
    /// Words in small print.
    Note(String),
    /// A sample of what the map shows, and what it means.
    Key(Draw<'a>, String),
    /// The same, with a sample that needs a height in units.
    TallKey(f64, Draw<'a>, String),
    /// A figure of a height in units.
    Figure(f64, Draw<'a>),
}

/// Things that stay together.
pub(super) struct Block<'a> {
    /// The name of its group in the SVG.
    pub id: &'static str,
    /// 0 stays on the smallest paper; the greatest goes first.
    pub rank: u8,
    pub items: Vec<Item<'a>>,
}

/// Width of a legend sample.
pub(super) const SAMPLE: f64 = 7.0 * MM;
const SAMPLE_GAP: f64 = 2.2 * MM;
fn row_gap(style: &Style) -> f64 {
    (style.page.margin_mm * 0.055).clamp(0.2, 0.7) * MM
}

impl Block<'_> {
    fn item_height(item: &Item<'_>, style: &Style, width: f64) -> f64 {
        match item {
            Item::Heading(text) => {
                let look = style.heading();
                lines_height(wrap(text, look.face, look.size_pt, width).len(), look.lead()) + 0.7 * MM
            }
            Item::Note(text) => {
                let look = style.note();
                lines_height(wrap(text, look.face, look.size_pt, width).len(), look.lead()) + 0.5 * MM
            }
            Item::Key(_, label) => key_row(style, label, width, 0.0),
            Item::TallKey(tall, _, label) => key_row(style, label, width, *tall),
            Item::Figure(height, _) => *height,
        }
    }

    /// Its height in a column of a width.
    pub fn height(&self, style: &Style, width: f64) -> f64 {
        self.items.iter().map(|item| Self::item_height(item, style, width)).sum()
    }

    /// Draws it with its upper left corner at a point.
    pub fn draw(&self, canvas: &mut Canvas, style: &Style, x: f64, y: f64, width: f64) {
        canvas.bare_group(self.id, |canvas| {
            let mut y = y;
            for item in &self.items {
                let height = Self::item_height(item, style, width);
                match item {
                    Item::Heading(text) => paragraph(canvas, text, &style.heading(), x, y, width),
                    Item::Note(text) => paragraph(canvas, text, &style.note(), x, y, width),
                    Item::Key(sample, label) | Item::TallKey(_, sample, label) => {
                        let look = style.key();
                        let row = if let Item::TallKey(tall, ..) = item { *tall } else { 0.0 };
                        let row = row.max(key_height(style));
                        sample(canvas, Rect::new(x, y, SAMPLE, row));
                        let left = x + SAMPLE + SAMPLE_GAP;
                        let lines = wrap(label, look.face, look.size_pt, width - SAMPLE - SAMPLE_GAP);
                        let first = y + (row + look.rise()) / 2.0;
                        for (index, line) in lines.iter().enumerate() {
                            canvas.text(left, first + index as f64 * look.lead(), line, &look);
                        }
                    }
                    Item::Figure(height, draw) => draw(canvas, Rect::new(x, y, width, *height)),
                }
                y += height;
            }
        });
    }
}

/// Height of a legend row of at least `least`, with its label beside the sample.
fn key_row(style: &Style, label: &str, width: f64, least: f64) -> f64 {
    let look = style.key();
    let lines = wrap(label, look.face, look.size_pt, width - SAMPLE - SAMPLE_GAP).len();
    least.max(key_height(style)) + lines_height(lines.saturating_sub(1), look.lead()) + row_gap(style)
}

fn key_height(style: &Style) -> f64 {
    (style.key().lead() * 1.12).max(3.2 * MM)
}

fn lines_height(lines: usize, lead: f64) -> f64 {
    lines as f64 * lead
}

fn paragraph(canvas: &mut Canvas, text: &str, look: &super::canvas::Type, x: f64, y: f64, width: f64) {
    for (index, line) in wrap(text, look.face, look.size_pt, width).iter().enumerate() {
        canvas.text(x, y + look.rise() + index as f64 * look.lead(), line, look);
    }
}

/// The words above the map.
pub(super) struct Heading {
    /// The mark that a sheet is not for publication.
    pub warning: Option<String>,
    pub title: String,
    pub kind: String,
    pub detail: String,
}

impl Heading {
    fn rows(&self, style: &Style) -> [(super::canvas::Type, &str, f64); 3] {
        let mut kind = style.subtitle();
        kind.ink = style.page.ink;
        [
            (style.title(), self.title.as_str(), 1.0 * MM),
            (kind, self.kind.as_str(), 0.5 * MM),
            (style.note(), self.detail.as_str(), 0.0),
        ]
    }

    /// Its height in a column of a width.
    pub fn height(&self, style: &Style, width: f64) -> f64 {
        let warning = if self.warning.is_some() { warning_height(style) + 3.6 * MM } else { 0.0 };
        let rows: f64 = self
            .rows(style)
            .iter()
            .filter(|(_, text, _)| !text.is_empty())
            .map(|(look, text, gap)| {
                lines_height(wrap(text, look.face, look.size_pt, width).len(), look.lead()) + gap
            })
            .sum();
        warning + rows + 2.2 * MM
    }

    /// Draws it with its upper left corner at a point.
    pub fn draw(&self, canvas: &mut Canvas, style: &Style, x: f64, y: f64, width: f64) {
        let mut y = y;
        if let Some(text) = &self.warning {
            canvas.bare_group("not-for-publication", |canvas| {
                let height = warning_height(style);
                canvas.rect_with(
                    Rect::new(x, y, width, height),
                    &super::canvas::Look::fill(style.page.warning),
                );
                let look = warning_type(style);
                canvas.text(x + width / 2.0, y + (height + look.rise()) / 2.0, text, &look);
            });
            y += warning_height(style) + 3.6 * MM;
        }
        canvas.bare_group("title", |canvas| {
            for (look, text, gap) in self.rows(style) {
                let lines = wrap(text, look.face, look.size_pt, width).len();
                paragraph(canvas, text, &look, x, y, width);
                if lines > 0 {
                    y += lines_height(lines, look.lead()) + gap;
                }
            }
        });
    }
}

fn warning_type(style: &Style) -> super::canvas::Type {
    let mut look = style.heading().anchored(super::canvas::Anchor::Middle);
    look.ink = style.page.paper;
    look
}

fn warning_height(style: &Style) -> f64 {
    warning_type(style).lead() * 1.5
}
