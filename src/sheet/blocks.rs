//! What stands round the map: the heading above it, and blocks of legend and words, each measured before
//! it is drawn.

use super::canvas::{Canvas, Look, MM, Rect, Thing, Type};
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
    /// Words in small print with a rank of their own: they go before the rest of their block does.
    Lesser(u8, String),
    /// Words in small print that stand only where others went.
    LeftOut(String),
    /// A sample of what the map shows, and what it means.
    Key(Draw<'a>, String),
    /// The same, with a sample that needs a height in units.
    TallKey(f64, Draw<'a>, String),
    /// A figure of a height in units.
    Figure(f64, Draw<'a>),
}

/// The rank up to which things stay when nothing has to go.
pub(super) const ALL: u8 = u8::MAX;

/// What goes first on small paper: the greatest rank. 0 never goes.
pub(super) mod rank {
    /// Whom the base must credit, which a licence asks for: the last to go, and the first to come back.
    pub const CREDIT: u8 = 1;
    /// What the reader of a map should know to read it.
    pub const READING: u8 = 2;
    /// Numbers and cautions.
    pub const NUMBERS: u8 = 3;
    /// Datum, boundaries, doubtful pieces, who made it.
    pub const MAKING: u8 = 4;
    /// Rows set aside, years, hectares.
    pub const COLLECTING: u8 = 5;
    /// What the inset in a corner says.
    pub const AROUND: u8 = 6;
    /// The inset in the panel.
    pub const INSET: u8 = 7;
    /// The key of parish lines, roads and streams, which most readers know: it goes without a word.
    pub const LINES: u8 = 8;
}

/// Things that stay together.
pub(super) struct Block<'a> {
    /// The name of its group in the SVG.
    pub id: &'static str,
    /// 0 stays on the smallest paper; the greatest goes first.
    pub rank: u8,
    pub items: Vec<Item<'a>>,
}

/// Width of a legend sample, and the white behind it: less on small paper.
fn sample_width(style: &Style) -> f64 {
    if style.compact() { 5.0 * MM } else { 7.0 * MM }
}
fn sample_gap(style: &Style) -> f64 {
    if style.compact() { 1.4 * MM } else { 2.2 * MM }
}
/// On small paper keys with words no wider than this stand side by side.
const SHORT: f64 = 9.0 * MM;
fn row_gap(style: &Style) -> f64 {
    (style.page.margin_mm * 0.055).clamp(0.2, 0.7) * MM
}

impl<'a> Block<'a> {
    fn rank_of(&self, item: &Item<'_>) -> u8 {
        match item {
            Item::Lesser(rank, _) => self.rank.max(*rank),
            _ => self.rank,
        }
    }

    /// Every rank that something in it has.
    pub fn ranks(&self) -> impl Iterator<Item = u8> {
        self.items.iter().map(|item| self.rank_of(item))
    }

    /// Which things stay when ranks above `most` go. A heading goes with all that stands under it.
    pub fn kept(&self, most: u8) -> Vec<bool> {
        let stays = |item: &Item<'_>| match item {
            // What goes without a word needs none.
            Item::LeftOut(_) => most < rank::LINES - 1,
            _ => self.rank_of(item) <= most,
        };
        let said = self.items.iter().any(|item| !matches!(item, Item::Heading(_)) && stays(item));
        self.items.iter().map(|item| said && stays(item)).collect()
    }

    /// Whether something is not kept that does not go without a word.
    pub fn lacks(&self, kept: &[bool]) -> bool {
        let needed = |item: &Item<'_>| {
            !matches!(item, Item::LeftOut(_) | Item::Heading(_)) && self.rank_of(item) < rank::LINES
        };
        self.items.iter().zip(kept).any(|(item, kept)| !kept && needed(item))
    }

    /// Things that could come back one by one: their rank, and what comes back with each (a heading with the
    /// first thing under it).
    pub fn missing(&self, kept: &[bool]) -> Vec<(u8, Vec<usize>)> {
        let lacking = |index: &usize| !kept[*index] && !matches!(self.items[*index], Item::LeftOut(_));
        let is_heading = |index: &usize| matches!(self.items[*index], Item::Heading(_));
        // A block of one rank comes back whole.
        let whole = self.ranks().all(|rank| rank == self.rank);
        let things: Vec<usize> = (0..self.items.len()).filter(lacking).collect();
        if whole {
            return if things.is_empty() { Vec::new() } else { vec![(self.rank, things)] };
        }
        let headings = || things.iter().copied().filter(is_heading);
        let others = things.iter().copied().filter(|index| !is_heading(index));
        others.map(|index| (self.rank_of(&self.items[index]), headings().chain([index]).collect())).collect()
    }

    fn item_height(item: &Item<'_>, style: &Style, width: f64) -> f64 {
        match item {
            Item::Heading(text) => {
                let look = style.heading();
                lines_height(wrap(text, look.face, look.size_pt, width).len(), look.lead()) + 0.7 * MM
            }
            Item::Note(text) | Item::Lesser(_, text) | Item::LeftOut(text) => {
                let look = style.note();
                lines_height(wrap(text, look.face, look.size_pt, width).len(), look.lead()) + 0.5 * MM
            }
            Item::Key(_, label) => key_row(style, label, width, 0.0),
            Item::TallKey(tall, _, label) => key_row(style, label, width, *tall),
            Item::Figure(height, _) => *height,
        }
    }

    /// What stays, in rows: on small paper neighbouring keys with short words share one.
    fn rows(&self, style: &Style, width: f64, kept: &[bool]) -> Vec<Row<'_, 'a>> {
        let stays = || self.items.iter().zip(kept).filter(|(_, kept)| **kept).map(|(item, _)| item);
        // Keys of a block stand in columns as wide as the widest.
        let cell = stays().filter_map(|item| short_key(item, style)).fold(0.0, f64::max);
        let columns = ((width + sample_gap(style)) / cell.max(1.0)) as usize;
        let mut rows: Vec<Row<'_, 'a>> = Vec::new();
        for item in stays() {
            let height = Self::item_height(item, style, width);
            let cell = short_key(item, style).map(|_| cell);
            match rows.last_mut() {
                Some(row) if cell.is_some() && row.cell.is_some() && row.items.len() < columns => {
                    row.height = row.height.max(height);
                    row.items.push(item);
                }
                _ => rows.push(Row { height, cell, items: vec![item] }),
            }
        }
        rows
    }

    /// Its height in a column of a width, with what is kept of it.
    pub fn height(&self, style: &Style, width: f64, kept: &[bool]) -> f64 {
        self.rows(style, width, kept).iter().map(|row| row.height).sum()
    }

    /// Draws what is kept with its upper left corner at a point.
    pub fn draw(&self, canvas: &mut Canvas, style: &Style, (x, y): (f64, f64), width: f64, kept: &[bool]) {
        canvas.bare_group(self.id, |canvas| {
            let mut y = y;
            for row in self.rows(style, width, kept) {
                for (number, item) in row.items.iter().enumerate() {
                    let left = x + number as f64 * row.cell.unwrap_or(width);
                    draw_item(canvas, item, style, Rect::new(left, y, width, row.height));
                }
                y += row.height;
            }
        });
    }
}

/// Things side by side, and the width of each where they are several.
struct Row<'b, 'a> {
    height: f64,
    cell: Option<f64>,
    items: Vec<&'b Item<'a>>,
}

/// Width of a key with short words on small paper, with the white behind it. `None` for anything else.
fn short_key(item: &Item<'_>, style: &Style) -> Option<f64> {
    if !style.compact() {
        return None;
    }
    let (Item::Key(_, label) | Item::TallKey(_, _, label)) = item else { return None };
    let words = style.key().width(label);
    (words <= SHORT).then(|| sample_width(style) + 2.0 * sample_gap(style) + words)
}

/// Draws one thing in its row, `place` as high as the row.
fn draw_item(canvas: &mut Canvas, item: &Item<'_>, style: &Style, place: Rect) {
    let (x, y, width) = (place.x0, place.y0, place.width());
    match item {
        Item::Heading(text) => paragraph(canvas, text, &style.heading(), x, y, width),
        Item::Note(text) | Item::Lesser(_, text) | Item::LeftOut(text) => {
            paragraph(canvas, text, &style.note(), x, y, width);
        }
        Item::Key(sample, label) | Item::TallKey(_, sample, label) => {
            let look = style.key();
            let wide = sample_width(style);
            // Beside taller neighbours, in the middle of the row.
            let row = match short_key(item, style) {
                Some(_) => place.height() - row_gap(style),
                _ => if let Item::TallKey(tall, ..) = item { *tall } else { 0.0 }.max(key_height(style)),
            };
            let tall = if let Item::TallKey(tall, ..) = item { *tall } else { 0.0 }.max(key_height(style));
            let sampled = Rect::new(x, y + (row - tall) / 2.0, wide, tall);
            canvas.note(Thing::Sample, label, sampled);
            sample(canvas, sampled);
            let left = x + wide + sample_gap(style);
            let lines = wrap(label, look.face, look.size_pt, width - wide - sample_gap(style));
            let first = y + (row + look.rise()) / 2.0;
            for (index, line) in lines.iter().enumerate() {
                canvas.text(left, first + index as f64 * look.lead(), line, &look);
            }
        }
        Item::Figure(height, draw) => draw(canvas, Rect::new(x, y, width, *height)),
    }
}

/// Height of a legend row of at least `least`, with its label beside the sample.
fn key_row(style: &Style, label: &str, width: f64, least: f64) -> f64 {
    let look = style.key();
    let lines = wrap(label, look.face, look.size_pt, width - sample_width(style) - sample_gap(style)).len();
    least.max(key_height(style)) + lines_height(lines.saturating_sub(1), look.lead()) + row_gap(style)
}

fn key_height(style: &Style) -> f64 {
    if style.compact() { style.key().lead().max(3.3 * MM) } else { (style.key().lead() * 1.12).max(3.2 * MM) }
}

fn lines_height(lines: usize, lead: f64) -> f64 {
    lines as f64 * lead
}

/// Lines of text from an upper left corner down.
pub(super) fn paragraph(canvas: &mut Canvas, text: &str, look: &Type, x: f64, y: f64, width: f64) {
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
    /// The rank at which the title goes, and that of the detail.
    pub title_rank: u8,
    pub detail_rank: u8,
}

impl Heading {
    fn rows(&self, style: &Style, most: u8) -> [(Type, &str, f64); 3] {
        let title = if self.title_rank <= most { self.title.as_str() } else { "" };
        let detail = if self.detail_rank <= most { self.detail.as_str() } else { "" };
        let mut kind = style.subtitle();
        kind.ink = style.page.ink;
        [(style.title(), title, 1.0 * MM), (kind, self.kind.as_str(), 0.5 * MM), (style.note(), detail, 0.0)]
    }

    /// Its height in a column of a width, when ranks above `most` go.
    pub fn height(&self, style: &Style, width: f64, most: u8) -> f64 {
        let warning = self.warning.as_ref().map_or(0.0, |text| warning_height(text, style, width) + 3.6 * MM);
        let rows: f64 = self
            .rows(style, most)
            .iter()
            .filter(|(_, text, _)| !text.is_empty())
            .map(|(look, text, gap)| {
                lines_height(wrap(text, look.face, look.size_pt, width).len(), look.lead()) + gap
            })
            .sum();
        warning + rows + 2.2 * MM
    }

    /// Draws it with its upper left corner at a point, without ranks above `most`.
    pub fn draw(&self, canvas: &mut Canvas, style: &Style, x: f64, y: f64, width: f64, most: u8) {
        let mut y = y;
        if let Some(text) = &self.warning {
            canvas.bare_group("not-for-publication", |canvas| {
                let look = warning_type(style);
                let lines = warning_lines(text, style, width);
                let band = Rect::new(x, y, width, warning_height(text, style, width));
                canvas.note(Thing::Band, text, band);
                canvas.rect_with(band, &Look::fill(style.page.warning));
                let first = y + look.lead() * 0.75 + look.rise() / 2.0;
                for (index, line) in lines.iter().enumerate() {
                    canvas.text(x + width / 2.0, first + index as f64 * look.lead(), line, &look);
                }
            });
            y += warning_height(text, style, width) + 3.6 * MM;
        }
        canvas.bare_group("title", |canvas| {
            for (look, text, gap) in self.rows(style, most) {
                let lines = wrap(text, look.face, look.size_pt, width).len();
                paragraph(canvas, text, &look, x, y, width);
                if lines > 0 {
                    y += lines_height(lines, look.lead()) + gap;
                }
            }
        });
    }
}

fn warning_type(style: &Style) -> Type {
    let mut look = style.heading().anchored(super::canvas::Anchor::Middle);
    look.ink = style.page.paper;
    look
}

fn warning_lines(text: &str, style: &Style, width: f64) -> Vec<String> {
    let look = warning_type(style);
    wrap(text, look.face, look.size_pt, width - 2.0 * MM)
}

fn warning_height(text: &str, style: &Style, width: f64) -> f64 {
    warning_type(style).lead() * (warning_lines(text, style, width).len() as f64 + 0.5)
}
