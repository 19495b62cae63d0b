//! Where everything stands on the page: title above, map, and a panel of blocks beside or below it.
//!
//! Every block is measured before anything is drawn, and each way of laying the page (paper upright or
//! turned, panel beside or below, one column or several) is tried: the one with the largest map wins.
//! Nothing can overlap, because each block has a box of its own. When the paper is too small for all of
//! them, blocks go by their rank, and a page that cannot hold even the indispensable is a fault.

use super::canvas::{Canvas, MM, Rect};
use super::paper::Paper;
use super::style::Style;
use super::text::wrap;
use super::view::{Extent, round_scale};
use crate::fault::{Fault, Result};

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
/// White between blocks, and between rows of a legend: less on small paper.
fn block_gap(style: &Style) -> f64 {
    (style.page.margin_mm * 0.33).clamp(2.0, 4.2) * MM
}
fn row_gap(style: &Style) -> f64 {
    (style.page.margin_mm * 0.055).clamp(0.2, 0.7) * MM
}
/// White between columns: less on small paper.
fn column_gap(style: &Style) -> f64 {
    (style.page.margin_mm * 0.64).clamp(3.0, 8.0) * MM
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

    fn height(&self, style: &Style, width: f64) -> f64 {
        self.items.iter().map(|item| Self::item_height(item, style, width)).sum()
    }

    fn draw(&self, canvas: &mut Canvas, style: &Style, x: f64, y: f64, width: f64) {
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

    fn height(&self, style: &Style, width: f64) -> f64 {
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

    fn draw(&self, canvas: &mut Canvas, style: &Style, x: f64, y: f64, width: f64) {
        let mut y = y;
        if let Some(text) = &self.warning {
            canvas.bare_group("not-for-publication", |canvas| {
                let height = warning_height(style);
                canvas.rect_with(Rect::new(x, y, width, height), &super::canvas::Look::fill(style.page.warning));
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

/// A page laid out: boxes for everything.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Plan {
    /// Width and height of the page, units.
    pub page: (f64, f64),
    /// The map's frame.
    pub frame: Rect,
    heading: Rect,
    /// For each block that is drawn: its index and its box.
    blocks: Vec<(usize, Rect)>,
    /// Blocks that found no room.
    pub left_out: usize,
}

const PANELS: [Panel; 7] = [
    Panel::Below(1),
    Panel::Below(2),
    Panel::Below(3),
    Panel::Below(4),
    Panel::Below(5),
    Panel::Beside(1),
    Panel::Beside(2),
];

/// Where the panel goes, and in how many columns.
#[derive(Debug, Clone, Copy)]
pub(super) enum Panel {
    Beside(usize),
    Below(usize),
}

impl Plan {
    /// Tries every way and keeps the one with the largest map.
    pub fn best(
        paper: Paper,
        style: &Style,
        heading: &Heading,
        blocks: &[Block<'_>],
        extent: Extent,
    ) -> Result<Self> {
        let ranks: std::collections::BTreeSet<u8> = blocks.iter().map(|block| block.rank).collect();
        for most in ranks.into_iter().rev() {
            let kept: Vec<usize> = (0..blocks.len()).filter(|i| blocks[*i].rank <= most).collect();
            let mut best: Option<(f64, Self)> = None;
            for way in paper.ways() {
                for panel in PANELS {
                    let Some(plan) = Self::lay(way, panel, style, heading, blocks, &kept) else { continue };
                    let score = plan.score(extent);
                    if best.as_ref().is_none_or(|(most, _)| score > most * 1.0001) {
                        best = Some((score, plan));
                    }
                }
            }
            if let Some((_, mut plan)) = best {
                plan.left_out = blocks.len() - kept.len();
                return Ok(plan);
            }
        }
        Err(Fault::new("sheet-paper-too-small")
            .with("width", paper.width_mm)
            .with("height", paper.height_mm))
    }

    /// A large map is good; a frame that is mostly empty round the ground is not.
    fn score(&self, extent: Extent) -> f64 {
        let aspect = self.frame.width() / self.frame.height();
        let wanted = extent.width_m() / extent.height_m();
        let fit = (aspect / wanted).min(wanted / aspect);
        fit.powf(0.3) / round_scale(extent, self.frame)
    }

    /// Lays the page one way. `None` when the blocks do not fit or leave the map too little room.
    pub fn lay(
        (width_mm, height_mm): (f64, f64),
        panel: Panel,
        style: &Style,
        heading: &Heading,
        blocks: &[Block<'_>],
        kept: &[usize],
    ) -> Option<Self> {
        let (width, height) = (width_mm * MM, height_mm * MM);
        let margin = style.page.margin_mm * MM;
        let gutter = gutter(style);
        let (left, right) = (margin + gutter, width - margin);
        let (top, bottom) = (margin, height - margin);
        let head = heading.height(style, right - left);
        let body = top + head;
        let (frame, blocks) = match panel {
            Panel::Beside(columns) => {
                let column = ((right - left) * 0.24).clamp(36.0 * MM, 62.0 * MM);
                let panel_width = column * columns as f64 + column_gap(style) * (columns as f64 - 1.0);
                let room = bottom - body;
                let placed = flow(blocks, kept, style, column, columns, room)?;
                let frame = Rect { x0: left, y0: body, x1: right - panel_width - column_gap(style), y1: bottom - gutter };
                let x = right - panel_width;
                (frame, set(&placed, blocks, style, x, body, column))
            }
            Panel::Below(columns) => {
                let n = columns as f64;
                let column = (right - left - column_gap(style) * (n - 1.0)) / n;
                let least = if width_mm < 150.0 { 29.0 } else { 40.0 };
                if columns > 1 && column < least * MM {
                    return None;
                }
                let placed = shortest(blocks, kept, style, column, columns);
                let tall = placed.1;
                let frame = Rect { x0: left, y0: body, x1: right, y1: bottom - tall - gutter - 3.5 * MM };
                let y = frame.y1 + gutter + 3.5 * MM;
                (frame, set(&placed.0, blocks, style, left, y, column))
            }
        };
        let fits = frame.width() >= 0.33 * width && frame.height() >= 0.30 * height;
        fits.then(|| Self {
            page: (width, height),
            frame,
            heading: Rect::new(left, top, right - left, head),
            blocks,
            left_out: 0,
        })
    }

    /// Draws the words above the map and the panel.
    pub fn draw(&self, canvas: &mut Canvas, style: &Style, heading: &Heading, blocks: &[Block<'_>]) {
        heading.draw(canvas, style, self.heading.x0, self.heading.y0, self.heading.width());
        canvas.bare_group("panel", |canvas| {
            for (index, rect) in &self.blocks {
                blocks[*index].draw(canvas, style, rect.x0, rect.y0, rect.width());
            }
        });
    }
}

/// Room left of and under the frame for the figures of the grid.
pub(super) fn gutter(style: &Style) -> f64 {
    style.note().rise() + 2.0 * MM
}

/// Fills columns in order up to a height. `None` when the last column runs over.
fn flow(
    blocks: &[Block<'_>],
    kept: &[usize],
    style: &Style,
    width: f64,
    columns: usize,
    room: f64,
) -> Option<Vec<Vec<usize>>> {
    let mut out: Vec<Vec<usize>> = vec![Vec::new()];
    let mut used = 0.0;
    for &index in kept {
        let height = blocks[index].height(style, width);
        let gap = if used > 0.0 { block_gap(style) } else { 0.0 };
        if used + gap + height > room {
            if used == 0.0 || out.len() == columns {
                return None;
            }
            out.push(Vec::new());
            used = 0.0;
        }
        used += height + if used > 0.0 { block_gap(style) } else { 0.0 };
        let last = out.len() - 1;
        out[last].push(index);
    }
    Some(out)
}

/// Columns of the least height that hold every block in order, and that height.
fn shortest(
    blocks: &[Block<'_>],
    kept: &[usize],
    style: &Style,
    width: f64,
    columns: usize,
) -> (Vec<Vec<usize>>, f64) {
    let heights: Vec<f64> = kept.iter().map(|i| blocks[*i].height(style, width)).collect();
    let all: f64 = heights.iter().sum::<f64>() + block_gap(style) * heights.len() as f64;
    // Heights that a run of neighbouring blocks can have: the least that works is one of them.
    let mut candidates: Vec<f64> = Vec::new();
    for start in 0..heights.len() {
        let mut sum = -block_gap(style);
        for height in &heights[start..] {
            sum += height + block_gap(style);
            candidates.push(sum + 0.01);
        }
    }
    candidates.sort_by(f64::total_cmp);
    for room in candidates {
        if let Some(placed) = flow(blocks, kept, style, width, columns, room) {
            return (placed, room);
        }
    }
    (vec![kept.to_vec()], all)
}

fn set(
    placed: &[Vec<usize>],
    blocks: &[Block<'_>],
    style: &Style,
    x: f64,
    y: f64,
    width: f64,
) -> Vec<(usize, Rect)> {
    let mut out = Vec::new();
    for (column, indices) in placed.iter().enumerate() {
        let left = x + column as f64 * (width + column_gap(style));
        let mut top = y;
        for &index in indices {
            let height = blocks[index].height(style, width);
            out.push((index, Rect::new(left, top, width, height)));
            top += height + block_gap(style);
        }
    }
    out
}
