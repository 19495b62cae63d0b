//! The same finds at several bandwidths side by side: small maps of one scale and one scale of shading.

use geo::BooleanOps as _;

use super::base::{extent, ruled_unwalked};
use super::canvas::{Canvas, Look, MM, Rect, Type};
use super::layout::{Block, Heading, Item, Plan};
use super::notes::{self, Shown};
use super::paper::Paper;
use super::style::Style;
use super::text::wrap;
use super::themes::cells::unwalked_key;
use super::themes::density::{legend_items, level_text, window};
use super::view::{Extent, View, rings, round_scale};
use super::{Scene, Sheet, furniture};
use crate::analyse::{Contours, Trial, contour_levels};
use crate::fault::{Fault, Result};
use crate::study::Effort;
use crate::words::Words;

/// White between small maps.
const GAP: f64 = 4.0 * MM;
/// White between a small map and the words above it.
const UNDER_WORDS: f64 = 1.2 * MM;

/// Draws the trials from the narrowest bandwidth to the widest; the study's own has the heavier frame. All are
/// shaded by the same levels.
pub fn compare_bandwidths(trials: &[Trial], scene: &Scene<'_>) -> Result<Sheet> {
    let study = scene.study;
    let words = Words::of(study.language);
    let paper = Paper::named(&study.sheets.paper)?;
    let style = Style::named(&study.sheets.style)?.for_paper(paper.width_mm.min(paper.height_mm));
    if trials.is_empty() {
        return Err(Fault::new("sheet-no-density"));
    }
    let title = words.say("sheet-kind-of-map-bandwidths");
    let figure = Figure {
        trials,
        scene,
        words,
        style: &style,
        levels: contour_levels(trials.iter().map(|trial| &trial.surface)),
        heading: notes::heading(study, words, &title, &words.say("sheet-bandwidths-detail")),
        extent: extent(scene),
    };
    let (plan, grid) = figure.settle(paper)?;
    let mut canvas = Canvas::new(plan.page.0, plan.page.1);
    for (number, trial) in trials.iter().enumerate() {
        canvas.bare_group(&format!("panel-{}", number + 1), |canvas| {
            figure.panel(canvas, trial, grid.cell(plan.frame, number), grid.words_height);
        });
    }
    plan.draw(
        &mut canvas,
        &style,
        &figure.heading,
        &figure.blocks(&grid.view(plan.frame, figure.extent), paper),
    );
    let description = figure.description();
    Ok(canvas.sheet("bandwidths", title, description, study))
}

/// How the small maps stand in the room that there is.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Grid {
    columns: usize,
    rows: usize,
    /// Room for the words above each.
    words_height: f64,
}

impl Grid {
    /// The box of one small map with its words.
    fn cell(&self, room: Rect, number: usize) -> Rect {
        let (columns, rows) = (self.columns as f64, self.rows as f64);
        let width = (room.width() - GAP * (columns - 1.0)) / columns;
        let height = (room.height() - GAP * (rows - 1.0)) / rows;
        let (column, row) = ((number % self.columns) as f64, (number / self.columns) as f64);
        Rect::new(room.x0 + column * (width + GAP), room.y0 + row * (height + GAP), width, height)
    }

    /// The frame of a small map under its words.
    fn frame(&self, cell: Rect) -> Rect {
        Rect { y0: cell.y0 + self.words_height, ..cell }
    }

    fn view(&self, room: Rect, extent: Extent) -> View {
        View::new(self.frame(self.cell(room, 0)), extent)
    }
}

struct Figure<'a> {
    trials: &'a [Trial],
    scene: &'a Scene<'a>,
    words: &'static Words,
    style: &'a Style,
    levels: Vec<f64>,
    heading: Heading,
    extent: Extent,
}

impl<'a> Figure<'a> {
    /// Tries every number of columns and keeps the one with the largest maps.
    fn settle(&self, paper: Paper) -> Result<(Plan, Grid)> {
        let n = self.trials.len();
        let mut best: Option<(f64, Plan, Grid)> = None;
        let mut fault = None;
        for columns in 1..=n {
            let rows = n.div_ceil(columns);
            if (rows - 1) * columns >= n {
                continue;
            }
            match self.lay(paper, columns, rows) {
                Ok((plan, grid)) => {
                    let frame = grid.frame(grid.cell(plan.frame, 0));
                    if frame.width() < 20.0 * MM || frame.height() < 20.0 * MM {
                        continue;
                    }
                    let scale = round_scale(self.extent, frame);
                    if best.as_ref().is_none_or(|(least, ..)| scale < *least) {
                        best = Some((scale, plan, grid));
                    }
                }
                Err(why) => fault = Some(why),
            }
        }
        let too_small = || {
            Fault::new("sheet-paper-too-small").with("width", paper.width_mm).with("height", paper.height_mm)
        };
        best.map(|(_, plan, grid)| (plan, grid)).ok_or_else(|| fault.unwrap_or_else(too_small))
    }

    /// Lays the page for a number of columns: the words' height depends on the width, and the width on the plan.
    fn lay(&self, paper: Paper, columns: usize, rows: usize) -> Result<(Plan, Grid)> {
        // The room that the maps want together, as ground of one scale.
        let wanted = Extent {
            west_m: 0.0,
            south_m: 0.0,
            east_m: self.extent.width_m() * columns as f64,
            north_m: self.extent.height_m() * rows as f64 * 1.15,
        };
        let mut grid = Grid { columns, rows, words_height: 8.0 * MM };
        let mut view = View::new(Rect::new(0.0, 0.0, 60.0 * MM, 60.0 * MM), self.extent);
        let mut plan = Plan::best(paper, self.style, &self.heading, &self.blocks(&view, paper), wanted)?;
        for _ in 0..3 {
            let width = grid.cell(plan.frame, 0).width();
            let heights = self.trials.iter().map(|trial| self.words_height(trial, width));
            grid.words_height = heights.fold(0.0, f64::max) + UNDER_WORDS;
            view = grid.view(plan.frame, self.extent);
            plan = Plan::best(paper, self.style, &self.heading, &self.blocks(&view, paper), wanted)?;
        }
        Ok((plan, grid))
    }

    fn blocks(&self, view: &View, paper: Paper) -> Vec<Block<'a>> {
        let (style, words) = (self.style, self.words);
        let mut items = legend_items(&self.levels, self.trials[0].surface.made.effort, style, words);
        let frame = style.frame.look();
        let heavy = Look::line(style.page.ink, 1.6);
        let boxed = |look: Look| {
            Box::new(move |canvas: &mut Canvas, rect: Rect| {
                canvas.rect_with(Rect { y0: rect.y0 + 25.0, y1: rect.y1 - 25.0, ..rect }, &look);
            })
        };
        items.push(Item::Key(boxed(heavy), words.say("sheet-bandwidths-chosen")));
        items.push(Item::Key(boxed(frame), words.say("sheet-bandwidths-other")));
        let surface = &self.trials[0].surface;
        let shown = Shown {
            pieces: surface.pieces.round().max(0.0) as u64,
            by_parish_only: surface.left_out_by_parish,
            out_of_place: surface.left_out_of_place,
        };
        let cautions = ["sheet-bandwidths-caution", "sheet-density-caution", "sheet-contours-no-boundary"]
            .map(|id| words.say(id));
        let mut blocks = vec![Block { id: "legend", rank: 0, items }];
        if surface.made.effort != Effort::None {
            blocks.push(unwalked_key(style, words));
        }
        blocks.push(furniture::scale_block(*view, style, words, paper.named));
        blocks.extend(notes::blocks(self.scene, words, shown, &cautions));
        blocks
    }

    /// "Bandwidth 120 m" and how it came about.
    fn lines(&self, trial: &Trial, width: f64) -> Vec<(String, Type)> {
        let bandwidth = self.words.number(trial.surface.bandwidth_m, 0);
        let first = self.words.say_with("sheet-bandwidth", &[("bandwidth", bandwidth.into())]);
        let why = self.words.say(trial.why);
        let look = self.style.note();
        let mut lines = vec![(first, self.style.key().bold())];
        lines.extend(wrap(&why, look.face, look.size_pt, width).into_iter().map(|line| (line, look)));
        lines
    }

    fn words_height(&self, trial: &Trial, width: f64) -> f64 {
        self.lines(trial, width).iter().map(|(_, look)| look.lead()).sum()
    }

    fn panel(&self, canvas: &mut Canvas, trial: &Trial, cell: Rect, words_height: f64) {
        let (style, scene) = (self.style, self.scene);
        let frame = Rect { y0: cell.y0 + words_height, ..cell };
        // The words stand close above their map.
        let mut y = frame.y0 - UNDER_WORDS - self.words_height(trial, cell.width());
        for (text, look) in self.lines(trial, cell.width()) {
            canvas.text(cell.x0, y + look.rise(), &text, &look);
            y += look.lead();
        }
        let view = View::new(frame, self.extent);
        let land = view.polygons(&scene.ground.land);
        let has_land = !scene.ground.land.0.is_empty();
        let back = if has_land { style.sea.fill } else { style.land.fill };
        canvas.rect_with(frame, &Look::fill(back));
        canvas.rings_with(&rings(&land), &Look::fill(style.land.fill));
        if trial.surface.made.effort != Effort::None {
            let ruling = ruled_unwalked(&land, scene.ground, &view, style);
            canvas.lines_with(&ruling, &style.unwalked.line.look());
        }
        let drawn = Contours::new(&trial.surface);
        let window = window(&trial.surface, scene.ground, &view, &land);
        let mut lines = Vec::new();
        for (index, level) in self.levels.iter().enumerate() {
            let page = view.polygons(&drawn.at_least(*level));
            let page = window.as_ref().map_or(page.clone(), |window| page.intersection(window));
            canvas.rings_with(&rings(&page), &Look::fill(style.density.fills[index]));
            lines.push(rings(&page));
        }
        let contour = &style.density.contour;
        let look = Look::line(contour.ink, contour.width_pt).dashed(&contour.dash_mm);
        canvas.group("", &look, |canvas| lines.iter().for_each(|rings| canvas.rings(rings)));
        if let Some(line) = &style.land.line {
            canvas.group("", &line.look(), |canvas| canvas.lines(&view.outlines(&scene.ground.land)));
        }
        let look = if trial.chosen { Look::line(style.page.ink, 1.6) } else { style.frame.look() };
        canvas.rect_with(frame, &look);
    }

    /// What the sheet shows, for those who cannot see it.
    fn description(&self) -> String {
        let words = self.words;
        let mut parts: Vec<String> = self.heading.warning.iter().cloned().collect();
        parts.push(self.heading.detail.clone());
        for trial in self.trials {
            let peak = level_text(trial.surface.peak(), words);
            let bandwidth = words.number(trial.surface.bandwidth_m, 0);
            let values = [
                ("bandwidth", bandwidth.into()),
                ("why", words.say(trial.why).into()),
                ("peak", peak.into()),
            ];
            parts.push(words.say_with("sheet-bandwidths-one", &values));
        }
        parts.join(" ")
    }
}
