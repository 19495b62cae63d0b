//! Parishes shaded by classes of their count, with the count printed. Finds known by their parish alone
//! are counted here, and only here.

use std::collections::BTreeSet;

use geo::MultiPolygon;

use super::swatch;
use crate::exact::Figure;
use crate::sheet::base::{Base, Named, shared_once, two_lines};
use crate::sheet::canvas::{Canvas, Look, Rect, Type};
use crate::sheet::colour::Colour;
use crate::sheet::labels::{Form, Labels, Line, Worth};
use crate::sheet::layout::{Block, Item};
use crate::sheet::notes::Shown;
use crate::sheet::style::Style;
use crate::sheet::view::{View, rings};
use crate::sheet::{MapKind, Scene};
use crate::words::Words;

/// How many classes there are at most: as many as a style has fills.
const MOST: usize = 5;

pub(super) struct Theme<'s> {
    parishes: Vec<(&'s str, &'s MultiPolygon<f64>, u64)>,
    /// Pieces of parishes that have no shape in the layer.
    elsewhere: u64,
    shown: Shown,
    /// Whether the numbers are estimates.
    estimated: bool,
    /// Lowest count of each class.
    classes: Vec<u64>,
    /// Classes met (`None`: no pieces), on this map or one beside it.
    met: BTreeSet<Option<usize>>,
}

/// Lowest counts of the classes, from 1 up: even steps of a round size where counts are of one order,
/// powers of ten where they are not.
fn classes(counts: &[u64]) -> Vec<u64> {
    let most = counts.iter().copied().max().unwrap_or(0);
    let least = counts.iter().copied().filter(|n| *n > 0).min().unwrap_or(1);
    if most / least > 30 {
        let mut bounds: Vec<u64> = (0..20).map(|power| 10u64.pow(power)).take_while(|b| *b <= most).collect();
        let spare = bounds.len().saturating_sub(MOST);
        bounds.drain(1..=spare);
        return bounds;
    }
    let rounds = (0..18).flat_map(|power| [1u64, 2, 5].map(|lead| lead * 10u64.pow(power)));
    let step = rounds.into_iter().find(|step| most / step < MOST as u64).unwrap_or(most.max(1));
    let mut bounds: Vec<u64> = (0..=most / step).map(|n| (n * step).max(1)).collect();
    bounds.dedup();
    bounds
}

impl<'s> Theme<'s> {
    pub fn new(scene: &Scene<'s>) -> Self {
        let pieces = |name: &str| {
            let found = scene.parishes.iter().filter(|(known, _)| known == name).map(|(_, n)| n);
            found.sum::<u64>()
        };
        let parishes: Vec<_> =
            scene.ground.parishes.iter().map(|p| (p.name.as_str(), &p.shape, pieces(&p.name))).collect();
        let all: u64 = scene.parishes.iter().map(|(_, n)| n).sum();
        let placed: u64 = parishes.iter().map(|(_, _, n)| n).sum();
        let counts: Vec<u64> = parishes.iter().map(|(_, _, n)| *n).collect();
        let elsewhere = all.saturating_sub(placed);
        let mut shown = Shown::of(MapKind::Parishes, scene);
        let told = shown.pieces;
        if placed < told.least || told.most.is_some_and(|most| placed > most) {
            // Some are of no parish here: a figure of a part of the ground.
            shown.pieces = Figure::certain(placed);
        }
        let mut theme = Self {
            elsewhere,
            shown,
            estimated: scene.published.in_bands_only(),
            classes: classes(&counts),
            parishes,
            met: BTreeSet::new(),
        };
        theme.met = theme.classes_met();
        theme
    }

    /// Shaded by the same classes.
    pub fn alike(scenes: &[Scene<'s>]) -> Vec<Self> {
        let mut themes: Vec<Self> = scenes.iter().map(Self::new).collect();
        let counts: Vec<u64> =
            themes.iter().flat_map(|theme| theme.parishes.iter().map(|(_, _, n)| *n)).collect();
        let classes = classes(&counts);
        themes.iter_mut().for_each(|theme| theme.classes.clone_from(&classes));
        let met: BTreeSet<Option<usize>> = themes.iter().flat_map(Self::classes_met).collect();
        themes.iter_mut().for_each(|theme| theme.met.clone_from(&met));
        themes
    }

    fn classes_met(&self) -> BTreeSet<Option<usize>> {
        self.parishes.iter().map(|(_, _, n)| self.class_of(*n)).collect()
    }

    fn fill(&self, pieces: u64, style: &Style) -> Colour {
        self.class_of(pieces).map_or(style.counts.none, |index| style.counts.fills[index])
    }

    /// `None` for no pieces.
    fn class_of(&self, pieces: u64) -> Option<usize> {
        self.classes.iter().rposition(|from| pieces >= *from)
    }

    fn class_label(&self, index: usize, words: &Words) -> String {
        let number = |n: u64| words.number(n as f64, 0);
        let from = number(self.classes[index]);
        match self.classes.get(index + 1) {
            Some(next) if next - 1 > self.classes[index] => format!("{from}–{}", number(next - 1)),
            Some(_) => from,
            None => words.say_with("sheet-and-more", &[("from", from.into())]),
        }
    }
}

impl super::Theme for Theme<'_> {
    fn legend<'a>(&'a self, _view: &View, style: &'a Style, words: &Words) -> Vec<Block<'a>> {
        let heading =
            if self.estimated { "sheet-legend-by-parish-estimated" } else { "sheet-legend-by-parish" };
        let mut items = vec![Item::Heading(words.say(heading))];
        let line = &style.parishes;
        let key = |fill| swatch(Look::fill(fill).with_line(line.ink, line.width_pt));
        if self.met.contains(&None) {
            items.push(Item::Key(key(style.counts.none), words.say("sheet-legend-none")));
        }
        for index in 0..self.classes.len() {
            if self.met.contains(&Some(index)) {
                items.push(Item::Key(key(style.counts.fills[index]), self.class_label(index, words)));
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
        self.shown
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
        // White under the boundaries between them, so that two parishes of one shade are two.
        let shapes = self.parishes.iter().map(|(_, shape, _)| *shape);
        let casing = Look::line(style.page.paper, style.parishes.width_pt + 1.0);
        let between = base.view.lines(&shared_once(shapes, 2));
        canvas.group("boundaries", &casing, |canvas| canvas.lines(&between));
        let line = Look::line(style.parishes.ink, style.parishes.width_pt * 0.8);
        canvas.group("parishes", &line, |canvas| canvas.lines(&between));
    }

    fn over(&self, _canvas: &mut Canvas, base: &Base<'_>, labels: &mut Labels) {
        let style = base.style;
        let words = Words::of(base.language());
        for (name, shape, pieces) in &self.parishes {
            let fill = self.fill(*pieces, style);
            // Dark or light letters, whichever reads better on the parish's shade.
            let dark = fill.contrast(style.page.ink) >= fill.contrast(style.page.paper);
            let ink = if dark { style.page.ink } else { style.page.paper };
            let spots = base.spots(shape);
            if base.is_small() {
                // The shade stands; on a small map the number may go, and is counted.
                let look = Type::new(style.text.note_pt, ink).haloed(fill, 0.8);
                labels.centred(&[(words.number(*pieces as f64, 0), look)], &spots, Worth::Parish);
                continue;
            }
            // Words that reach over the boundary lie on several shades.
            let lines = |ink, halo: Colour, width_pt| {
                let named = Type::new(style.text.label_pt, ink).haloed(halo, width_pt);
                let counted = Type::new(style.text.letter_pt, ink).bold().haloed(halo, width_pt);
                let mut lines: Vec<_> = two_lines(name).into_iter().map(|line| (line, named)).collect();
                lines.push((words.number(*pieces as f64, 0), counted));
                lines
            };
            let within = lines(ink, fill, 0.8);
            let across = lines(style.page.ink, style.names.halo, 1.0);
            let page = base.view.polygons(shape);
            let inside = |lines: &[Line]| -> Vec<(f64, f64)> {
                let room = |point: &&(f64, f64)| holds(&page, Labels::room_for(lines, **point));
                spots.iter().filter(room).copied().collect()
            };
            let form =
                |lines: &[Line], points, cost, lacks| Form { lines: lines.to_vec(), points, cost, lacks };
            let number = |lines: &[Line]| lines[lines.len() - 1..].to_vec();
            let (number_within, number_across) = (number(&within), number(&across));
            // The number must stand; the name may go, and is counted.
            labels.forced_as(vec![
                form(&within, inside(&within), 0.0, 0),
                form(&across, spots.clone(), 1.0, 0),
                form(&number_within, inside(&number_within), 2.0, 1),
                form(&number_across, spots.clone(), 2.5, 1),
            ]);
        }
    }

    /// The parishes carry their own names and boundaries here; names of villages, many of them the same, would
    /// stand twice, and in every shade.
    fn covers_land(&self) -> bool {
        true
    }

    fn base_names(&self) -> Named {
        Named { parishes: false, places: false }
    }
}

/// Whether a box lies wholly inside one part of a shape on the page.
fn holds(page: &MultiPolygon<f64>, rect: Rect) -> bool {
    use geo::Contains;
    let rect = geo::Rect::new((rect.x0, rect.y0), (rect.x1, rect.y1)).to_polygon();
    page.iter().any(|part| part.contains(&rect))
}

#[cfg(test)]
mod tests {
    use super::classes;

    #[test]
    fn classes_are_round_and_few() {
        assert_eq!(classes(&[375, 780, 416, 788]), [1, 200, 400, 600]);
        assert_eq!(classes(&[2, 0, 3]), [1, 2, 3]);
        assert_eq!(classes(&[1, 40, 900, 12_000]), [1, 10, 100, 1_000, 10_000]);
        assert_eq!(classes(&[1, 5_000_000]), [1, 1_000, 10_000, 100_000, 1_000_000]);
        assert_eq!(classes(&[]), [1]);
        for n in 1..2_000 {
            let found = classes(&[n, n / 2]);
            assert!(found.len() <= 5 && found.windows(2).all(|w| w[0] < w[1]), "{n}: {found:?}");
        }
    }
}
