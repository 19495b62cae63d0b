//! Parishes shaded by classes of their count, with the count printed. Finds known by their parish alone
//! are counted here, and only here.

use geo::MultiPolygon;

use super::swatch;
use crate::sheet::Scene;
use crate::sheet::base::{Base, two_lines};
use crate::sheet::canvas::{Canvas, Look, Type};
use crate::sheet::colour::Colour;
use crate::sheet::labels::Labels;
use crate::sheet::layout::{Block, Item};
use crate::sheet::notes::Shown;
use crate::sheet::style::Style;
use crate::sheet::view::{View, rings};
use crate::words::Words;

/// Upper bounds of the classes of count, the last open. Fixed, so that two sheets can be compared.
const CLASSES: [u64; 5] = [10, 50, 250, 1_000, u64::MAX];

pub(super) struct Theme<'s> {
    parishes: Vec<(&'s str, &'s MultiPolygon<f64>, u64)>,
    /// Pieces of parishes that have no shape in the layer.
    elsewhere: u64,
}

/// `None` for no pieces.
fn class_of(pieces: u64) -> Option<usize> {
    (pieces > 0).then(|| CLASSES.iter().position(|bound| pieces < *bound).unwrap_or(CLASSES.len() - 1))
}

fn class_label(index: usize, words: &Words) -> String {
    let number = |n: u64| words.number(n as f64, 0);
    let from = if index == 0 { 1 } else { CLASSES[index - 1] };
    match CLASSES[index] {
        u64::MAX => words.say_with("sheet-and-more", &[("from", number(from).into())]),
        bound => format!("{}–{}", number(from), number(bound - 1)),
    }
}

impl<'s> Theme<'s> {
    pub fn new(scene: &'s Scene<'s>) -> Self {
        let pieces = |name: &str| {
            let found = scene.parishes.iter().filter(|(known, _)| known == name).map(|(_, n)| n);
            found.sum::<f64>().round().max(0.0) as u64
        };
        let parishes: Vec<_> =
            scene.ground.parishes.iter().map(|p| (p.name.as_str(), &p.shape, pieces(&p.name))).collect();
        let all: f64 = scene.parishes.iter().map(|(_, n)| n).sum();
        let placed: u64 = parishes.iter().map(|(_, _, n)| n).sum();
        Self { parishes, elsewhere: (all.round() as u64).saturating_sub(placed) }
    }

    fn fill(&self, pieces: u64, style: &Style) -> Colour {
        class_of(pieces).map_or(style.counts.none, |index| style.counts.fills[index])
    }
}

impl super::Theme for Theme<'_> {
    fn legend<'a>(&'a self, _view: &View, style: &'a Style, words: &Words) -> Vec<Block<'a>> {
        let mut items = vec![Item::Heading(words.say("sheet-legend-by-parish"))];
        let line = &style.parishes;
        let key = |fill| swatch(Look::fill(fill).with_line(line.ink, line.width_pt));
        if self.parishes.iter().any(|(_, _, n)| *n == 0) {
            items.push(Item::Key(key(style.counts.none), words.say("sheet-legend-none")));
        }
        for index in 0..CLASSES.len() {
            if self.parishes.iter().any(|(_, _, n)| class_of(*n) == Some(index)) {
                items.push(Item::Key(key(style.counts.fills[index]), class_label(index, words)));
            }
        }
        if self.parishes.is_empty() {
            items.push(Item::Note(words.say("sheet-no-parishes")));
        }
        vec![Block { id: "legend", rank: 0, items }]
    }

    fn detail(&self, _view: &View, words: &Words) -> String {
        words.say("sheet-parishes-detail")
    }

    fn shown(&self, _view: &View) -> Shown {
        Shown { pieces: self.parishes.iter().map(|(_, _, n)| n).sum(), ..Shown::default() }
    }

    fn cautions(&self, _view: &View, _style: &Style, words: &Words) -> Vec<String> {
        let mut out = vec![words.say("sheet-parishes-caution")];
        if self.elsewhere > 0 {
            out.push(words.say_with("sheet-parishes-elsewhere", &[("n", self.elsewhere.into())]));
        }
        out
    }

    fn under(&self, canvas: &mut Canvas, base: &Base<'_>) {
        use geo::BooleanOps;
        let style = base.style;
        canvas.bare_group("counts", |canvas| {
            for (_, shape, pieces) in &self.parishes {
                let fill = self.fill(*pieces, style);
                let page = base.view.polygons(shape);
                // A parish may take in sea; land alone is shaded.
                let page = if base.has_land() { page.intersection(&base.land) } else { page };
                canvas.rings_with(&rings(&page), &Look::fill(fill));
            }
        });
    }

    fn over(&self, _canvas: &mut Canvas, base: &Base<'_>, labels: &mut Labels) {
        let style = base.style;
        let words = Words::of(base.language());
        for (name, shape, pieces) in &self.parishes {
            let spots = base.spots(shape);
            let fill = self.fill(*pieces, style);
            // Dark or light letters, whichever reads better on the parish's shade.
            let dark = fill.contrast(style.page.ink) >= fill.contrast(style.page.paper);
            let ink = if dark { style.page.ink } else { style.page.paper };
            let named = Type::new(style.text.label_pt, ink).haloed(fill, 0.8);
            let counted = Type::new(style.text.letter_pt, ink).bold().haloed(fill, 0.8);
            let number = (words.number(*pieces as f64, 0), counted);
            let mut lines: Vec<_> = two_lines(name).into_iter().map(|line| (line, named)).collect();
            lines.push(number.clone());
            let left_out = labels.left_out;
            if !labels.centred(&lines, &spots) {
                // The number must stand; the name may go, and is counted.
                labels.forced(&[number], &spots);
                labels.left_out = left_out + 1;
            }
        }
    }

    fn base_names_parishes(&self) -> bool {
        false
    }
}
