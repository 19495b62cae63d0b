//! Outlines of concentrations with their letters, over quiet squares.

use std::collections::{BTreeMap, BTreeSet};

use geo::BoundingRect;

use super::cells::pieces_by_cell;
use super::swatch;
use crate::analyse::{Concentration, Over, in_one_square};
use crate::coordinates::Cell;
use crate::exact::band;
use crate::fault::{Fault, Result};
use crate::sheet::base::Base;
use crate::sheet::canvas::{Canvas, Look, Rect, Type};
use crate::sheet::labels::Labels;
use crate::sheet::layout::{Block, Item};
use crate::sheet::notes::Shown;
use crate::sheet::style::Style;
use crate::sheet::view::View;
use crate::sheet::{MapKind, Scene};
use crate::study::{Bound, Precision};
use crate::words::Words;

pub(super) struct Theme<'s> {
    scene: &'s Scene<'s>,
    words: &'s Words,
    cells: BTreeMap<Cell, u64>,
    shown: Shown,
}

impl<'s> Theme<'s> {
    pub fn new(scene: &'s Scene<'s>, words: &'s Words) -> Result<Self> {
        if scene.surface.is_none() {
            return Err(Fault::new("sheet-no-density"));
        }
        Ok(Self {
            scene,
            words,
            cells: pieces_by_cell(scene),
            shown: Shown::of(MapKind::Concentrations, scene),
        })
    }

    /// What patches are called: a square of more than 100 m has no shape of ground to speak of.
    fn called(&self) -> &'static str {
        match self.scene.study.agreement.precision {
            Precision::Square { side_m } if side_m <= 100 => "concentrations",
            _ => "richer-squares",
        }
    }

    fn concentrations(&self) -> &'s [Concentration] {
        self.scene.concentrations
    }
}

impl super::Theme for Theme<'_> {
    fn legend<'a>(&'a self, _view: &View, style: &'a Style, words: &Words) -> Vec<Block<'a>> {
        let look = &style.concentrations;
        let mut items = vec![Item::Heading(words.say("sheet-heading-legend"))];
        if !self.cells.is_empty() {
            items
                .push(Item::Key(swatch(Look::fill(look.cells)), words.say("sheet-legend-square-with-finds")));
        }
        let sides: BTreeSet<u32> = self.cells.keys().map(|cell| cell.side_m).collect();
        if sides.len() > 1 {
            let edge = style.cells.hatch_outline.look();
            items.push(Item::Key(swatch(edge), words.say("sheet-legend-larger-square-with-finds")));
        }
        if self.concentrations().is_empty() {
            items.push(Item::Note(words.say(&format!("sheet-no-{}", self.called()))));
        } else {
            let sample = Box::new(move |canvas: &mut Canvas, rect: Rect| {
                let rect = Rect { y0: rect.y0 + 25.0, y1: rect.y1 - 25.0, ..rect };
                canvas.rect_with(rect, &look.line.look());
            });
            items.push(Item::Key(sample, words.say(&format!("sheet-legend-{}", self.called()))));
            for one in self.concentrations() {
                let letter = one.letter.clone();
                let kind = Type::new(style.text.key_pt, look.letter).bold();
                let sample = Box::new(move |canvas: &mut Canvas, rect: Rect| {
                    let x = (rect.x0 + rect.x1) / 2.0;
                    let look = kind.anchored(crate::sheet::canvas::Anchor::Middle);
                    canvas.text(x, rect.y0 + (rect.height() + kind.rise()) / 2.0, &letter, &look);
                });
                let banded = !self.scene.study.agreement.exact_counts
                    && in_one_square(one, self.scene.published.cells());
                let pieces = match banded {
                    true => band(one.pieces).to_owned(),
                    false => self.words.number(one.pieces as f64, 0),
                };
                let values = [
                    ("n", one.pieces.into()),
                    ("n_text", pieces.into()),
                    ("hectares", crate::words::Value::Text(self.words.number(one.hectares, 0))),
                ];
                let mut text = words.say_with("sheet-legend-one-concentration", &values);
                if let Some(firm) = one.firm() {
                    let firm = self.words.number((firm * 100.0).round(), 0);
                    text.push_str(&words.say_with("sheet-legend-firm", &[("firm", firm.into())]));
                }
                items.push(Item::Key(sample, text));
            }
        }
        vec![Block { id: "legend", rank: 0, items }]
    }

    fn detail(&self, _view: &View, words: &Words) -> String {
        let settings = &self.scene.study.concentrations;
        let bandwidth = words.number(self.scene.surface.map_or(0.0, |surface| surface.bandwidth_m), 0);
        let called = self.called();
        match (settings.bound, self.scene.even) {
            (Bound::Envelope { simulations, level, pointwise }, Some(test)) => {
                let over =
                    if test.over == Over::Walked { "patches-over-walked" } else { "patches-over-land" };
                let at_once = if pointwise { "sheet-each-square" } else { "sheet-all-squares" };
                let values = [
                    ("over", words.say(over).into()),
                    ("at_once", words.say(at_once).into()),
                    ("level", words.number(level * 100.0, usize::from(level < 0.01)).into()),
                    ("simulations", simulations.into()),
                    ("bandwidth", bandwidth.into()),
                ];
                words.say_with(&format!("sheet-{called}-detail-envelope"), &values)
            }
            _ => {
                let share = words.number(settings.share * 100.0, 0);
                let values = [("share", share.into()), ("bandwidth", bandwidth.into())];
                words.say_with(&format!("sheet-{called}-detail"), &values)
            }
        }
    }

    /// A density without its bandwidth says nothing.
    fn detail_rank(&self) -> u8 {
        0
    }

    fn shown(&self, _view: &View) -> Shown {
        self.shown
    }

    fn cautions(&self, _view: &View, _style: &Style, words: &Words) -> Vec<String> {
        let mut cautions = vec![words.say("sheet-no-site-boundary")];
        if self.concentrations().iter().any(|one| one.stays.is_some()) {
            let n = self.scene.study.concentrations.resamples;
            cautions.push(words.say_with("sheet-firm-caution", &[("n", n.into())]));
        }
        cautions
    }

    fn under(&self, canvas: &mut Canvas, base: &Base<'_>) {
        let style = base.style;
        let smallest = self.cells.keys().map(|cell| cell.side_m).min();
        let rects = |small: bool| {
            let of_side = move |cell: &&Cell| (Some(cell.side_m) == smallest) == small;
            self.cells.keys().filter(of_side).filter_map(|cell| base.view.square(cell.rect()))
        };
        let edge = style.cells.hatch_outline.look();
        canvas.group("larger-squares", &edge, |canvas| rects(false).for_each(|rect| canvas.rect(rect)));
        canvas.group("squares", &Look::fill(style.concentrations.cells), |canvas| {
            rects(true).for_each(|rect| canvas.rect(rect));
        });
    }

    fn over(&self, canvas: &mut Canvas, base: &Base<'_>, labels: &mut Labels) {
        let style = &base.style.concentrations;
        canvas.bare_group("concentrations", |canvas| {
            for look in [style.halo.look(), style.line.look()] {
                canvas.group("", &look, |canvas| {
                    for one in self.concentrations() {
                        canvas.lines(&base.view.outlines(&one.outline));
                    }
                });
            }
        });
        let look =
            Type::new(base.style.text.letter_pt, style.letter).bold().haloed(base.style.names.halo, 1.2);
        let boxes: Vec<Option<Rect>> = self
            .concentrations()
            .iter()
            .map(|one| {
                let bounds = base.view.polygons(&one.outline).bounding_rect()?;
                Some(Rect { x0: bounds.min().x, y0: bounds.min().y, x1: bounds.max().x, y1: bounds.max().y })
            })
            .collect();
        // Letters keep off every outline's box where there is room.
        boxes.iter().flatten().for_each(|rect| labels.take(*rect));
        for (one, rect) in self.concentrations().iter().zip(&boxes) {
            let Some(rect) = rect else { continue };
            let (w, h) = (look.width(&one.letter) / 2.0 + 60.0, look.lead() / 2.0);
            let (cx, cy) = ((rect.x0 + rect.x1) / 2.0, (rect.y0 + rect.y1) / 2.0);
            let points = [
                (rect.x1 + w, rect.y0 - h * 0.2),
                (rect.x0 - w, rect.y0 - h * 0.2),
                (cx, rect.y0 - h),
                (rect.x1 + w, cy),
                (rect.x0 - w, cy),
                (cx, rect.y1 + h),
                (rect.x1 + w, rect.y1 + h),
                (rect.x0 - w, rect.y1 + h),
                (cx, cy),
            ];
            labels.forced(&[(one.letter.clone(), look)], &points);
        }
    }
}
