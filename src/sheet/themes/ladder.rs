//! The ladder of disclosed ground: in which squares a find would be shown, wherever it lay. Drawn from public ground and
//! the agreement; no find is asked.

use std::collections::{BTreeMap, BTreeSet};

use geo::{BooleanOps, MultiPolygon, unary_union};

use super::swatch;
use crate::coordinates::Cell;
use crate::fault::{Fault, Result};
use crate::ground::Step;
use crate::sheet::Scene;
use crate::sheet::base::{Base, Named};
use crate::sheet::canvas::{Canvas, Look, Rect};
use crate::sheet::labels::Labels;
use crate::sheet::layout::{Block, Item};
use crate::sheet::notes::{Shown, side};
use crate::sheet::shapes::hatching;
use crate::sheet::style::Style;
use crate::sheet::view::{View, rings};
use crate::words::Words;

/// Sides are told apart by as many shades; larger ones share the last.
const MOST: usize = 4;
/// Hatching of ground that is told by its parish, millimetres.
const SPACING_MM: f64 = 1.1;

pub(super) struct Theme<'s> {
    steps: &'s [(Cell, Step)],
    least_m: u32,
    agreed_m: Option<u32>,
    /// Sides met, the smallest first.
    sides: Vec<u32>,
}

impl<'s> Theme<'s> {
    pub fn new(scene: &Scene<'s>) -> Result<Self> {
        let ladder = scene.ladder.ok_or_else(|| Fault::new("sheet-no-ladder"))?;
        let met = ladder.steps.iter().filter_map(|(_, step)| match step {
            Step::Square(side_m) => Some(*side_m),
            Step::Parish | Step::Nowhere => None,
        });
        let sides: BTreeSet<u32> = met.chain([ladder.least_m]).collect();
        Ok(Self {
            steps: &ladder.steps,
            least_m: ladder.least_m,
            agreed_m: scene.study.agreement.precision.side_m(),
            sides: sides.into_iter().collect(),
        })
    }

    fn shade(&self, side_m: u32) -> usize {
        self.sides.iter().position(|known| *known == side_m).unwrap_or(0).min(MOST - 1)
    }

    fn met(&self, wanted: Step) -> bool {
        self.steps.iter().any(|(_, step)| *step == wanted)
    }
}

/// The look of each shade. Beside the agreed squares, which are the ground's most, larger ones are darker.
fn fill(style: &Style, shade: usize) -> Look {
    Look::fill(style.counts.fills.get(shade).copied().unwrap_or(style.counts.none))
}

fn box_of(rect: Rect) -> Rect {
    Rect { y0: rect.y0 + 15.0, y1: rect.y1 - 15.0, ..rect }
}

impl super::Theme for Theme<'_> {
    fn legend<'a>(&'a self, _view: &View, style: &'a Style, words: &Words) -> Vec<Block<'a>> {
        let mut items = vec![Item::Heading(words.say("sheet-legend-ladder"))];
        let edge = &style.cells.outline;
        for (index, side_m) in self.sides.iter().enumerate().take(MOST) {
            let id = match (index + 1 == MOST && self.sides.len() > MOST, Some(*side_m) == self.agreed_m) {
                (true, _) => "sheet-legend-ladder-more",
                (false, true) => "sheet-legend-ladder-square-agreed",
                (false, false) => "sheet-legend-ladder-square",
            };
            let look = fill(style, index).with_line(edge.ink, edge.width_pt);
            items.push(Item::Key(swatch(look), words.say_with(id, &[("side", side(words, *side_m).into())])));
        }
        if self.met(Step::Parish) {
            let sample = move |canvas: &mut Canvas, rect: Rect| parish(canvas, style, &[box_of(rect)]);
            items.push(Item::Key(Box::new(sample), words.say("sheet-legend-ladder-parish")));
        }
        if self.met(Step::Nowhere) {
            let sample = move |canvas: &mut Canvas, rect: Rect| nowhere(canvas, style, &[box_of(rect)]);
            items.push(Item::Key(Box::new(sample), words.say("sheet-legend-ladder-nowhere")));
        }
        vec![Block { id: "legend", rank: 0, items }]
    }

    fn detail(&self, _view: &View, words: &Words) -> String {
        words.say("sheet-ladder-detail")
    }

    fn shown(&self, _view: &View) -> Shown {
        Shown::default()
    }

    fn of_finds(&self) -> bool {
        false
    }

    fn cautions(&self, _view: &View, _style: &Style, words: &Words) -> Vec<String> {
        vec![words.say("sheet-ladder-caution")]
    }

    fn under(&self, canvas: &mut Canvas, base: &Base<'_>) {
        let (view, style) = (&base.view, base.style);
        let on_land = |canvas: &mut Canvas, squares: Vec<Rect>, look: &Look| {
            let shapes: Vec<_> =
                squares.iter().map(|r| geo::Rect::new((r.x0, r.y0), (r.x1, r.y1)).to_polygon()).collect();
            let shape: MultiPolygon<f64> = unary_union(&shapes);
            let shape = if base.has_land() { shape.intersection(&base.land) } else { shape };
            canvas.rings_with(&rings(&shape), look);
        };
        canvas.bare_group("ladder", |canvas| {
            on_land(canvas, vec![view.frame], &fill(style, self.shade(self.least_m)));
            // Runs of one kind are one shape: later ones lie over earlier ones.
            for run in self.steps.chunk_by(|(_, a), (_, b)| a == b) {
                let squares: Vec<Rect> =
                    run.iter().filter_map(|(cell, _)| view.square(cell.rect())).collect();
                match run.first().map(|(_, step)| *step) {
                    Some(Step::Square(side_m)) => {
                        on_land(canvas, squares.clone(), &fill(style, self.shade(side_m)));
                    }
                    Some(Step::Parish) => parish(canvas, style, &squares),
                    Some(Step::Nowhere) => nowhere(canvas, style, &squares),
                    None => {}
                }
            }
            // Squares of the ladder may lie mostly in the sea: their edges say where they are.
            let mut edges: BTreeMap<(i64, i64, i64, i64), Rect> = BTreeMap::new();
            for rect in self.steps.iter().filter_map(|(cell, _)| view.square(cell.rect())) {
                let key = [rect.x0, rect.y0, rect.x1, rect.y1].map(|value| value.round() as i64);
                edges.insert((key[0], key[1], key[2], key[3]), rect);
            }
            let ring = |r: &Rect| geo::Rect::new((r.x0, r.y0), (r.x1, r.y1)).to_polygon();
            let shapes: Vec<geo::Polygon<f64>> = edges.values().map(ring).collect();
            canvas.group("ladder-edges", &style.cells.hatch_outline.look(), |canvas| {
                canvas.rings(&rings(&MultiPolygon::new(shapes)));
            });
        });
    }

    fn over(&self, _canvas: &mut Canvas, _base: &Base<'_>, _labels: &mut Labels) {}

    fn covers_land(&self) -> bool {
        true
    }

    fn base_names(&self) -> Named {
        Named { parishes: true, places: true }
    }
}

/// Ground told by its parish: hatched.
fn parish(canvas: &mut Canvas, style: &Style, squares: &[Rect]) {
    canvas.group("by-parish", &Look::fill(style.counts.none), |canvas| {
        squares.iter().for_each(|rect| canvas.rect(*rect));
    });
    canvas.lines_with(&hatching(squares, SPACING_MM), &style.cells.hatch.look());
}

/// Ground that is not shown: bare.
fn nowhere(canvas: &mut Canvas, style: &Style, squares: &[Rect]) {
    let edge = &style.cells.outline;
    let look = Look::fill(style.counts.none).with_line(edge.ink, edge.width_pt);
    canvas.group("not-shown", &look, |canvas| squares.iter().for_each(|rect| canvas.rect(*rect)));
}
