//! A figure of small maps, laid and drawn.

use std::ops::Add;

use super::grid::{Division, Grid, Order, UNDER_WORDS};
use super::{Counted, Figure, Panel};
use crate::exact;
use crate::fault::{Fault, Result};
use crate::sheet::base::{self, Base, GroundLine, extent};
use crate::sheet::canvas::{Canvas, Look, MM, Rect, Type};
use crate::sheet::labels::Labels;
use crate::sheet::layout::{Block, Heading, Item, MAPS_SHARE, Plan, rank};
use crate::sheet::notes::{self, Shown};
use crate::sheet::paper::Paper;
use crate::sheet::style::Style;
use crate::sheet::text::wrap;
use crate::sheet::themes::{Theme, alike};
use crate::sheet::view::{Extent, View, round_scale};
use crate::sheet::{MapKind, Scene, Sheet, furniture};
use crate::words::Words;

/// A side of a small map is never shorter than this, millimetres; on small paper than the second.
const LEAST_MM: (f64, f64) = (30.0, 22.0);
/// In a size given in millimetres, small maps may have this share of it before they take a second sheet.
const MOSTLY_MAPS: f64 = 0.62;
/// Heavy frames, points.
const HEAVY_PT: f64 = 1.6;

/// A figure with all that it is drawn with.
pub(super) struct Page<'a> {
    figure: &'a Figure<'a>,
    themes: Vec<Box<dyn Theme + 'a>>,
    words: &'static Words,
    paper: Paper,
    style: Style,
    order: Order,
    extent: Extent,
    /// Lines of the ground that the maps draw.
    lines: Vec<GroundLine>,
}

/// A page laid out.
struct Laid {
    plan: Plan,
    grid: Grid,
    view: View,
    /// What the words were measured for.
    measured: View,
    extent: Extent,
}

impl<'a> Page<'a> {
    pub fn of(figure: &'a Figure<'a>, style: Option<&str>, paper: Option<&str>) -> Result<Self> {
        let Some(first) = figure.panels.first() else {
            return Err(Fault::new("sheet-nothing-side-by-side"));
        };
        let study = first.scene.study;
        let paper = Paper::named(paper.unwrap_or(&study.sheets.paper))?;
        let style = Style::named(style.unwrap_or(&study.sheets.style))?;
        let style = style.for_paper(paper.width_mm.min(paper.height_mm));
        let scenes: Vec<_> = figure.panels.iter().map(|panel| panel.scene).collect();
        let themes = alike(figure.kind, &scenes, &style)?;
        let all = scenes.iter().map(extent).reduce(Extent::with).unwrap_or_else(|| extent(&first.scene));
        let mut lines = base::lines_drawn(&first.scene, themes[0].base_names(), all);
        lines.retain(|line| *line == GroundLine::Parishes);
        Ok(Self {
            figure,
            themes,
            words: Words::of(study.language),
            paper,
            style,
            order: match &figure.headings {
                Some((rows, columns)) => Order::Table { rows: rows.len(), columns: columns.len() },
                None => Order::List(figure.panels.len()),
            },
            extent: all,
            lines,
        })
    }

    /// On as few sheets as leave each map large enough; of the ways to stand on those, the one with the largest
    /// maps.
    pub fn draw(&self) -> Result<Vec<Sheet>> {
        let mut fault = None;
        // A figure is best on one sheet: words that would cost it a second go.
        let shares: &[f64] = if self.paper.named { &[MAPS_SHARE] } else { &[MAPS_SHARE, MOSTLY_MAPS] };
        let sheets = 1..=self.order.most_sheets();
        for (sheets, share) in sheets.flat_map(|sheets| shares.iter().map(move |share| (sheets, *share))) {
            let mut best: Option<(f64, Division, Laid)> = None;
            for division in self.order.divisions(sheets) {
                match self.lay(division, sheets, share) {
                    Ok(laid) if self.legible(&laid.view) => {
                        let scale = round_scale(laid.extent, laid.view.frame);
                        if best.as_ref().is_none_or(|(least, ..)| scale < *least) {
                            best = Some((scale, division, laid));
                        }
                    }
                    Ok(_) => {}
                    Err(why) => fault = Some(why),
                }
            }
            if let Some((_, division, laid)) = best {
                let spread = self.order.sheets(division);
                return Ok((0..sheets).map(|sheet| self.sheet(&laid, sheet, &spread)).collect());
            }
        }
        Err(fault.unwrap_or_else(|| self.too_small()))
    }

    fn too_small(&self) -> Fault {
        let (width, height) = (self.paper.width_mm, self.paper.height_mm);
        Fault::new("sheet-paper-too-small").with("width", width).with("height", height)
    }

    fn legible(&self, view: &View) -> bool {
        let short = self.paper.width_mm.min(self.paper.height_mm);
        let least = if short < 150.0 { LEAST_MM.1 } else { LEAST_MM.0 };
        view.frame.width() >= least * MM && view.frame.height() >= least * MM
    }

    /// Lays the page for a number of maps across and down: the words' height depends on the width, the width on
    /// the plan, and the plan on the key, which depends on the scale. A few rounds settle it.
    fn lay(&self, division: Division, sheets: usize, share: f64) -> Result<Laid> {
        let Division { columns, rows } = division;
        let mut grid = Grid { columns, rows, words_height: 8.0 * MM, head_height: 0.0, side_width: 0.0 };
        if self.figure.headings.is_some() {
            grid.side_width = self.style.key().lead() * 2.0 + 0.6 * MM;
        }
        let mut extent = self.extent;
        let mut view = View::new(Rect::new(0.0, 0.0, 60.0 * MM, 60.0 * MM), extent);
        let mut plan = self.plan(&view, &grid, extent, sheets, share)?;
        let mut finest = 0.0;
        for round in 0..12 {
            let before = (plan.clone(), view);
            // A key that comes and goes with the scale must come to rest: the scale is then not made finer again.
            if round >= 4 {
                finest = before.1.unit_m;
            }
            self.measure_words(&mut grid, plan.frame);
            let frame = grid.frame(grid.cell(plan.frame, 0));
            if frame.width().min(frame.height()) < LEAST_MM.1 / 2.0 * MM {
                // Far too small already: no rounds will mend it.
                return Err(self.too_small());
            }
            view = grid.view(plan.frame, 0, extent);
            for reach in self.themes.iter().filter_map(|theme| theme.reach(&view)) {
                extent = extent.with(reach);
            }
            view = grid.view(plan.frame, 0, extent).no_finer_than(finest, extent);
            plan = self.plan(&view, &grid, extent, sheets, share)?;
            if before == (plan.clone(), view) {
                break;
            }
        }
        // The words are drawn as they were measured, for a view of the same scale as that of the maps.
        let measured = view;
        view = grid.view(plan.frame, 0, extent).no_finer_than(measured.unit_m, extent);
        if view.unit_m > measured.unit_m {
            return Err(self.too_small());
        }
        Ok(Laid { plan, grid, view, measured, extent })
    }

    fn measure_words(&self, grid: &mut Grid, room: Rect) {
        let width = grid.cell(room, 0).width();
        let tall = |lines: Vec<(String, Type)>| lines.iter().map(|(_, look)| look.lead()).sum::<f64>();
        let heights = self.figure.panels.iter().map(|panel| tall(self.lines(panel, width)));
        grid.words_height = heights.fold(0.0, f64::max) + UNDER_WORDS;
        if let Some((_, columns)) = &self.figure.headings {
            let heights = columns.iter().map(|name| tall(self.heading_lines(name, width)));
            grid.head_height = heights.fold(0.0, f64::max) + UNDER_WORDS;
        }
    }

    fn plan(&self, view: &View, grid: &Grid, extent: Extent, sheets: usize, share: f64) -> Result<Plan> {
        let heading = self.heading(view, sheets, sheets);
        Plan::best(self.paper, &self.style, &heading, &self.blocks(view), grid.wanted(extent), share)
    }

    fn heading(&self, view: &View, number: usize, sheets: usize) -> Heading {
        let mut detail = self.figure.detail.clone();
        if self.figure.detailed {
            detail = format!("{detail} {}", self.themes[0].detail(view, self.words));
        }
        let study = self.figure.panels[0].scene.study;
        let mut heading = notes::heading(study, self.words, &self.title(number, sheets), detail.trim());
        if let Some(title) = &self.figure.study {
            heading.title.clone_from(title);
        }
        // As for a single map: a journal's figure has its title in the caption.
        heading.title_rank = if self.paper.named { 0 } else { rank::READING };
        heading.detail_rank = self.themes[0].detail_rank();
        heading
    }

    fn title(&self, number: usize, sheets: usize) -> String {
        let title = self.figure.title.clone();
        if sheets == 1 {
            return title;
        }
        let values = [("kind", title.into()), ("n", number.into()), ("of", sheets.into())];
        self.words.say_with("sheet-number-of", &values)
    }

    fn blocks(&self, view: &View) -> Vec<Block<'_>> {
        let (style, words, figure) = (&self.style, self.words, self.figure);
        let mut blocks = self.themes[0].legend(view, style, words);
        if let (Some((chosen, other)), Some(legend)) = (&figure.frames, blocks.first_mut()) {
            let boxed = |look: Look| {
                Box::new(move |canvas: &mut Canvas, rect: Rect| {
                    canvas.rect_with(Rect { y0: rect.y0 + 25.0, y1: rect.y1 - 25.0, ..rect }, &look);
                })
            };
            legend.items.push(Item::Key(boxed(Look::line(style.page.ink, HEAVY_PT)), chosen.clone()));
            legend.items.push(Item::Key(boxed(style.frame.look()), other.clone()));
        }
        blocks.extend(base::lines_key(&self.lines, style, words));
        blocks.push(furniture::scale_block(*view, style, words, self.paper.named));
        let mut cautions = figure.cautions.clone();
        cautions.extend(self.themes[0].cautions(view, style, words));
        cautions.extend(self.squares_compared(view));
        let all = match &figure.counted {
            Counted::Together(whole) => self.together(whole, view),
            Counted::Once | Counted::Each => self.themes[0].shown(view),
        };
        let of = |panel: &Panel<'_>, shown| notes::blocks(&panel.scene, words, Some(shown), &cautions);
        let mut notes = of(&figure.panels[0], all);
        if matches!(figure.counted, Counted::Each) {
            for (panel, theme) in figure.panels.iter().zip(&self.themes).skip(1) {
                let theirs = of(panel, theme.shown(view));
                add_release(&mut notes, theirs, figure.panels[0].name.as_str(), &panel.name);
            }
        }
        blocks.extend(notes);
        blocks
    }

    /// How much all maps show, of finds that were published together: where each shows all of its own, what is told
    /// of the whole.
    fn together(&self, whole: &Scene<'_>, view: &View) -> Shown {
        let shown = Shown::of(self.figure.kind, whole);
        match self.themes.iter().all(|theme| theme.draws_all(view)) {
            true => shown,
            false => Shown {
                pieces: self
                    .themes
                    .iter()
                    .map(|theme| theme.shown(view).pieces)
                    .fold(exact::Figure::default(), Add::add),
                ..shown
            },
        }
    }

    /// In how many squares the first two maps both have finds, and in how many one alone: all that banded counts can
    /// truly say of a difference. Of the squares as they are drawn, which may be joined. Nothing where the maps are
    /// not of squares.
    fn squares_compared(&self, view: &View) -> Option<String> {
        let (figure, words) = (self.figure, self.words);
        let [first, second] = self.themes.get(..2)? else { return None };
        if !figure.squares || figure.kind == MapKind::Parishes {
            return None;
        }
        let (mut a, mut b) = (first.squares(view), second.squares(view));
        if a.is_empty() && b.is_empty() {
            // A density draws none, and is made of those that were published.
            let cells =
                |panel: &Panel<'_>| panel.scene.published.cells().iter().map(|one| one.cell).collect();
            (a, b) = (cells(&figure.panels[0]), cells(&figure.panels[1]));
        }
        let both = a.intersection(&b).count();
        let number = |n: usize| words.number(n as f64, 0).into();
        let values =
            [("both", number(both)), ("first", number(a.len() - both)), ("second", number(b.len() - both))];
        Some(words.say_with("sheet-pair-squares", &values))
    }

    /// The words above a small map.
    fn lines(&self, panel: &Panel<'_>, width: f64) -> Vec<(String, Type)> {
        let mut lines = self.heading_lines(&panel.name, width);
        let look = self.style.note();
        let note = wrap(&panel.note, look.face, look.size_pt, width);
        lines.extend(note.into_iter().map(|line| (line, look)));
        lines.retain(|(line, _)| !line.is_empty());
        lines
    }

    fn heading_lines(&self, name: &str, width: f64) -> Vec<(String, Type)> {
        let look = self.style.key().bold();
        wrap(name, look.face, look.size_pt, width).into_iter().map(|line| (line, look)).collect()
    }

    fn sheet(&self, laid: &Laid, number: usize, spread: &[Vec<Option<usize>>]) -> Sheet {
        let (figure, sheets) = (self.figure, spread.len());
        let slots = &spread[number];
        let mut canvas = Canvas::new(laid.plan.page.0, laid.plan.page.1);
        self.headings(&mut canvas, laid, slots);
        for (slot, index) in slots.iter().enumerate() {
            if let Some(index) = index {
                self.panel(&mut canvas, laid, slot, *index);
            }
        }
        let heading = self.heading(&laid.view, number + 1, sheets);
        laid.plan.draw(&mut canvas, &self.style, &heading, &self.blocks(&laid.measured));
        let mut told: Vec<String> = heading.warning.iter().cloned().collect();
        told.push(heading.detail.clone());
        told.extend(slots.iter().flatten().map(|index| figure.panels[*index].told.clone()));
        if laid.plan.left_out() {
            told.push(self.words.say("sheet-notes-left-out"));
        }
        let name = if sheets == 1 { figure.name.clone() } else { format!("{}-{}", figure.name, number + 1) };
        let study = figure.panels[0].scene.study;
        canvas.sheet(&name, self.title(number + 1, sheets), told.join(" "), study)
    }

    fn panel(&self, canvas: &mut Canvas, laid: &Laid, slot: usize, index: usize) {
        let panel = &self.figure.panels[index];
        let cell = laid.grid.cell(laid.plan.frame, slot);
        let lines = self.lines(panel, cell.width());
        let view = laid.grid.view(laid.plan.frame, slot, laid.extent);
        let view = view.no_finer_than(laid.view.unit_m, laid.extent);
        // The words stand close above their map.
        let mut y = view.frame.y0 - UNDER_WORDS - lines.iter().map(|(_, look)| look.lead()).sum::<f64>();
        for (text, look) in lines {
            canvas.text(cell.x0, y + look.rise(), &text, &look);
            y += look.lead();
        }
        let base = Base::small(&panel.scene, &self.style, view);
        let mut labels = Labels::new(view.frame);
        let theme = &self.themes[index];
        canvas.one_of_several_maps(&format!("map-{}", slot + 1), &view, |canvas| {
            let named = theme.base_names();
            // The ground of one study is drawn once a sheet.
            if std::ptr::eq(panel.scene.ground, self.figure.panels[0].scene.ground) {
                canvas.shared("ground", view.frame, |canvas| base.under(canvas));
                theme.under(canvas, &base);
                canvas.shared("ground-lines", view.frame, |canvas| base.over(canvas, named));
            } else {
                base.under(canvas);
                theme.under(canvas, &base);
                base.over(canvas, named);
            }
            theme.over(canvas, &base, &mut labels);
            labels.draw(canvas);
        });
        let heavy = Look::line(self.style.page.ink, HEAVY_PT);
        canvas.rect_with(view.frame, &if panel.chosen { heavy } else { self.style.frame.look() });
    }

    /// Headings of columns above them, of rows left of them, reading upwards.
    fn headings(&self, canvas: &mut Canvas, laid: &Laid, slots: &[Option<usize>]) {
        let Some((rows, columns)) = &self.figure.headings else { return };
        canvas.bare_group("headings", |canvas| {
            for (slot, index) in slots.iter().enumerate() {
                let Some(index) = *index else { continue };
                let cell = laid.grid.cell(laid.plan.frame, slot);
                let (row, column) = (index / columns.len(), index % columns.len());
                if slot < laid.grid.columns {
                    let lines = self.heading_lines(&columns[column], cell.width());
                    let mut y = cell.y0 - UNDER_WORDS - lines.iter().map(|(_, l)| l.lead()).sum::<f64>();
                    for (text, look) in lines {
                        canvas.text(cell.x0, y + look.rise(), &text, &look);
                        y += look.lead();
                    }
                }
                if slot.is_multiple_of(laid.grid.columns) {
                    let frame = laid.grid.frame(cell);
                    let lines = self.heading_lines(&rows[row], frame.height());
                    for (line, (text, look)) in lines.into_iter().take(2).enumerate() {
                        let x = laid.plan.frame.x0 + look.rise() + line as f64 * look.lead();
                        canvas.text(x, frame.y1, &text, &look.upright());
                    }
                }
            }
        });
    }
}

/// Adds what the notes of another release say: its numbers under its name, and sources that the first lacks.
fn add_release<'a>(notes: &mut [Block<'a>], other: Vec<Block<'a>>, first_name: &str, name: &str) {
    for (mine, theirs) in notes.iter_mut().zip(other) {
        match mine.id {
            "counts" => {
                if mine.items.iter().filter(|item| matches!(item, Item::Heading(_))).count() == 1 {
                    mine.items.insert(1, Item::Lesser(rank::READING, format!("{first_name}:")));
                }
                mine.items.push(Item::Lesser(rank::READING, format!("{name}:")));
                mine.items.extend(theirs.items.into_iter().filter(|item| !matches!(item, Item::Heading(_))));
            }
            "sources" => {
                for item in theirs.items {
                    let known = |mine: &Item<'_>| match (mine, &item) {
                        (Item::Note(a) | Item::Lesser(_, a), Item::Note(b) | Item::Lesser(_, b))
                        | (Item::Heading(a), Item::Heading(b)) => a == b,
                        _ => false,
                    };
                    if !mine.items.iter().any(known) {
                        mine.items.push(item);
                    }
                }
            }
            _ => {}
        }
    }
}
