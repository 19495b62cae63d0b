//! Where everything stands on the page: title above, map, and a panel of blocks beside or below it.
//!
//! Every block is measured before anything is drawn, and each way of laying the page (paper upright or
//! turned, panel beside or below, one column or several) is tried: the one with the largest map wins.
//! Nothing can overlap, because each block has a box of its own. When the paper is too small for all of
//! them, blocks go by their rank, and a page that cannot hold even the indispensable is a fault.

pub(super) use super::blocks::{Block, Draw, Heading, Item};
use super::canvas::{Canvas, MM, Rect};
use super::paper::Paper;
use super::style::Style;
use super::view::{Extent, round_scale};
use crate::fault::{Fault, Result};

/// White between blocks, and between rows of a legend: less on small paper.
fn block_gap(style: &Style) -> f64 {
    (style.page.margin_mm * 0.33).clamp(2.0, 4.2) * MM
}
/// White between columns: less on small paper.
fn column_gap(style: &Style) -> f64 {
    (style.page.margin_mm * 0.64).clamp(3.0, 8.0) * MM
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
        Err(Fault::new("sheet-paper-too-small").with("width", paper.width_mm).with("height", paper.height_mm))
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
                let frame = Rect {
                    x0: left,
                    y0: body,
                    x1: right - panel_width - column_gap(style),
                    y1: bottom - gutter,
                };
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
