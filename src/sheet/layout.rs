//! Where everything stands on the page: title above, map, and a panel of blocks beside or below it.
//!
//! Every block is measured before anything is drawn, and each way of laying the page (paper upright or
//! turned, panel beside or below, one column or several) is tried: the one with the largest map wins.
//! Nothing can overlap, because each block has a box of its own. When the paper is too small for all of
//! them and a map worth looking at, words go by their rank and the sheet says so; a page that cannot hold
//! even the indispensable is a fault.

pub(super) use super::blocks::{ALL, Block, Draw, Heading, Item, rank};
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
    panel: Panel,
    heading: Rect,
    /// For each block that is drawn: its index and its box.
    blocks: Vec<(usize, Rect)>,
    /// Of each block, what is kept, and the rank from which words of the heading go.
    kept: Vec<Vec<bool>>,
    most: u8,
}

/// A map with this share of the page is large enough not to send words away.
pub(super) const MAPS_SHARE: f64 = 0.4;
/// A smaller one keeps its words if without them it would be hardly larger: the lengths on it are this share.
const WORTH_THE_WORDS: f64 = 0.86;

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
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Panel {
    Beside(usize),
    Below(usize),
}

impl Plan {
    /// Tries every way and keeps the one with the largest map; words go until it has a share of the page.
    pub fn best(
        paper: Paper,
        style: &Style,
        heading: &Heading,
        blocks: &[Block<'_>],
        extent: Extent,
        maps_share: f64,
    ) -> Result<Self> {
        let mut ranks: Vec<u8> =
            blocks.iter().flat_map(Block::ranks).chain([heading.title_rank, heading.detail_rank]).collect();
        ranks.sort_unstable();
        ranks.dedup();
        // Everything, then everything but the highest rank, and so on.
        let steps = std::iter::once(ALL).chain(ranks.iter().rev().skip(1).copied());
        // Where nothing else went, what goes without a word went without one.
        let needed = |rank: u8| ranks.iter().any(|other| *other > rank && *other < rank::LINES);
        let steps = steps.map(|most| if most == ALL || needed(most) { most } else { rank::LINES - 1 });
        let plans: Vec<Self> =
            steps.filter_map(|most| Self::largest_map(paper, style, heading, blocks, extent, most)).collect();
        // A credit goes only where the paper would else be too small.
        let credited = |plan: &&Self| plan.most >= rank::CREDIT;
        let credited: Vec<Self> = plans.iter().filter(credited).cloned().collect();
        let plans = if credited.is_empty() { plans } else { credited };
        // What the map could be, were all gone that may go.
        if let Some(bare) = plans.last() {
            let least = round_scale(extent, bare.frame);
            let good = |plan: &Self| {
                let share = plan.frame.width() * plan.frame.height() / (plan.page.0 * plan.page.1);
                share >= maps_share || round_scale(extent, plan.frame) <= least / WORTH_THE_WORDS
            };
            let chosen = plans.iter().find(|plan| good(plan)).unwrap_or(bare);
            return Ok(chosen.clone().filled(style, heading, blocks));
        }
        Err(Fault::new("sheet-paper-too-small").with("width", paper.width_mm).with("height", paper.height_mm))
    }

    /// The plan with the largest map, of every way to lay the page, when ranks above `most` go.
    fn largest_map(
        paper: Paper,
        style: &Style,
        heading: &Heading,
        blocks: &[Block<'_>],
        extent: Extent,
        most: u8,
    ) -> Option<Self> {
        let mut best: Option<(f64, Self)> = None;
        for way in paper.ways() {
            for panel in PANELS {
                let words =
                    Words { heading, blocks, kept: blocks.iter().map(|b| b.kept(most)).collect(), most };
                let Some(plan) = Self::lay(way, panel, style, words) else { continue };
                let score = plan.score(extent);
                if best.as_ref().is_none_or(|(most, _)| score > most * 1.0001) {
                    best = Some((score, plan));
                }
            }
        }
        best.map(|(_, plan)| plan)
    }

    /// The same page with what went put back, the most important first, wherever the map loses nothing by it.
    /// Nothing takes the room of a credit that finds none.
    fn filled(self, style: &Style, heading: &Heading, blocks: &[Block<'_>]) -> Self {
        if self.most == ALL {
            return self;
        }
        let mut plan = self;
        let mut missing: Vec<(u8, usize, Vec<usize>)> = Vec::new();
        for (number, block) in blocks.iter().enumerate() {
            let back = block.missing(&plan.kept[number]);
            missing.extend(back.into_iter().map(|(rank, things)| (rank, number, things)));
        }
        missing.sort_by_key(|(rank, number, _)| (*rank, *number));
        let size = (plan.page.0 / MM, plan.page.1 / MM);
        let mut uncredited = false;
        for (rank, number, things) in missing {
            if uncredited && rank > rank::CREDIT {
                break;
            }
            let mut kept = plan.kept.clone();
            things.into_iter().for_each(|index| kept[number][index] = true);
            let words = Words { heading, blocks, kept, most: plan.most };
            match Self::lay(size, plan.panel, style, words) {
                Some(next) if next.frame.height() >= plan.frame.height() - 1.0 => plan = next,
                _ => uncredited |= rank <= rank::CREDIT,
            }
        }
        plan.all_back(style, heading, blocks)
    }

    /// Says nothing of words left out where all came back.
    fn all_back(self, style: &Style, heading: &Heading, blocks: &[Block<'_>]) -> Self {
        let lacking = blocks.iter().zip(&self.kept).any(|(block, kept)| block.lacks(kept));
        if heading.title_rank.max(heading.detail_rank) > self.most || lacking {
            return self;
        }
        let said = |(block, kept): (&Block<'_>, &Vec<bool>)| {
            let stays = |(item, kept): (&Item<'_>, &bool)| *kept && !matches!(item, Item::LeftOut(_));
            block.items.iter().zip(kept).map(stays).collect()
        };
        let kept = blocks.iter().zip(&self.kept).map(said).collect();
        let words = Words { heading, blocks, kept, most: rank::LINES - 1 };
        let size = (self.page.0 / MM, self.page.1 / MM);
        Self::lay(size, self.panel, style, words).unwrap_or(self)
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
        words: Words<'_, '_>,
    ) -> Option<Self> {
        let (heading, most) = (words.heading, words.most);
        let panel_of = Column { words: &words, style };
        let (width, height) = (width_mm * MM, height_mm * MM);
        let margin = style.page.margin_mm * MM;
        let gutter = gutter(style);
        let (left, right) = (margin + gutter, width - margin);
        let (top, bottom) = (margin, height - margin);
        let head = heading.height(style, right - left, most);
        let body = top + head;
        let (frame, blocks) = match panel {
            Panel::Beside(columns) => {
                let column = ((right - left) * 0.24).clamp(36.0 * MM, 62.0 * MM);
                let panel_width = column * columns as f64 + column_gap(style) * (columns as f64 - 1.0);
                let room = bottom - body;
                let placed = panel_of.flow(column, columns, room)?;
                let frame = Rect {
                    x0: left,
                    y0: body,
                    x1: right - panel_width - column_gap(style),
                    y1: bottom - gutter,
                };
                let x = right - panel_width;
                (frame, panel_of.set(&placed, x, body, column))
            }
            Panel::Below(columns) => {
                let n = columns as f64;
                let column = (right - left - column_gap(style) * (n - 1.0)) / n;
                let least = if width_mm < 150.0 { 29.0 } else { 40.0 };
                if columns > 1 && column < least * MM {
                    return None;
                }
                let (placed, tall) = panel_of.shortest(column, columns);
                let frame = Rect { x0: left, y0: body, x1: right, y1: bottom - tall - gutter - 3.5 * MM };
                let y = frame.y1 + gutter + 3.5 * MM;
                (frame, panel_of.set(&placed, left, y, column))
            }
        };
        let least = if style.compact() { 0.2 } else { 0.3 };
        let fits = frame.width() >= 0.33 * width && frame.height() >= least * height;
        fits.then(|| Self {
            page: (width, height),
            frame,
            heading: Rect::new(left, top, right - left, head),
            panel,
            blocks,
            kept: words.kept,
            most,
        })
    }

    /// Draws the words above the map and the panel.
    pub fn draw(&self, canvas: &mut Canvas, style: &Style, heading: &Heading, blocks: &[Block<'_>]) {
        let at = self.heading;
        heading.draw(canvas, style, at.x0, at.y0, at.width(), self.most);
        canvas.bare_group("panel", |canvas| {
            for (index, rect) in &self.blocks {
                if let (Some(block), Some(kept)) = (blocks.get(*index), self.kept.get(*index)) {
                    block.draw(canvas, style, (rect.x0, rect.y0), rect.width(), kept);
                }
            }
        });
    }

    /// Whether words went for want of room.
    pub fn left_out(&self) -> bool {
        self.most < rank::LINES - 1
    }
}

/// Room left of and under the frame for the figures of the grid.
pub(super) fn gutter(style: &Style) -> f64 {
    style.note().rise() + 2.0 * MM
}

/// What stands round a map, and what is kept of it.
pub(super) struct Words<'b, 'a> {
    heading: &'b Heading,
    blocks: &'b [Block<'a>],
    kept: Vec<Vec<bool>>,
    most: u8,
}

impl<'b, 'a> Words<'b, 'a> {
    /// All of them.
    pub fn all(heading: &'b Heading, blocks: &'b [Block<'a>]) -> Self {
        Self { heading, blocks, kept: blocks.iter().map(|block| block.kept(ALL)).collect(), most: ALL }
    }
}

/// The blocks of a panel in columns.
struct Column<'c, 'b, 'a> {
    words: &'c Words<'b, 'a>,
    style: &'c Style,
}

impl Column<'_, '_, '_> {
    /// Blocks of which anything is kept.
    fn kept(&self) -> Vec<usize> {
        let kept = |index: &usize| self.words.kept[*index].contains(&true);
        (0..self.words.blocks.len()).filter(kept).collect()
    }

    fn height(&self, index: usize, width: f64) -> f64 {
        self.words.blocks[index].height(self.style, width, &self.words.kept[index])
    }

    /// Fills columns in order up to a height. `None` when the last column runs over.
    fn flow(&self, width: f64, columns: usize, room: f64) -> Option<Vec<Vec<usize>>> {
        let mut out: Vec<Vec<usize>> = vec![Vec::new()];
        let mut used = 0.0;
        for index in self.kept() {
            let height = self.height(index, width);
            let gap = if used > 0.0 { block_gap(self.style) } else { 0.0 };
            if used + gap + height > room {
                // Too tall for a column of its own, or no column left.
                if height > room || out.len() == columns {
                    return None;
                }
                out.push(Vec::new());
                used = 0.0;
            }
            used += height + if used > 0.0 { block_gap(self.style) } else { 0.0 };
            let last = out.len() - 1;
            out[last].push(index);
        }
        Some(out)
    }

    /// Columns of the least height that hold every block in order, and that height.
    fn shortest(&self, width: f64, columns: usize) -> (Vec<Vec<usize>>, f64) {
        let kept = self.kept();
        let gap = block_gap(self.style);
        let heights: Vec<f64> = kept.iter().map(|index| self.height(*index, width)).collect();
        let all: f64 = heights.iter().sum::<f64>() + gap * heights.len() as f64;
        // Heights that a run of neighbouring blocks can have: the least that works is one of them.
        let mut candidates: Vec<f64> = Vec::new();
        for start in 0..heights.len() {
            let mut sum = -gap;
            for height in &heights[start..] {
                sum += height + gap;
                candidates.push(sum + 0.01);
            }
        }
        candidates.sort_by(f64::total_cmp);
        for room in candidates {
            if let Some(placed) = self.flow(width, columns, room) {
                return (placed, room);
            }
        }
        (vec![kept], all)
    }

    fn set(&self, placed: &[Vec<usize>], x: f64, y: f64, width: f64) -> Vec<(usize, Rect)> {
        let mut out = Vec::new();
        for (column, indices) in placed.iter().enumerate() {
            let left = x + column as f64 * (width + column_gap(self.style));
            let mut top = y;
            for &index in indices {
                let height = self.height(index, width);
                out.push((index, Rect::new(left, top, width, height)));
                top += height + block_gap(self.style);
            }
        }
        out
    }
}
