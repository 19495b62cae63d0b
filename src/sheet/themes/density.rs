//! The density of finds, filled between contours, on land.

use geo::{BooleanOps, BoundingRect as _, Contains as _, MultiPolygon, unary_union};

use super::cells::unwalked_key;
use super::swatch;
use crate::analyse::{Contours, Surface, contour_levels};
use crate::fault::{Fault, Result};
use crate::ground::Ground;
use crate::sheet::base::Base;
use crate::sheet::canvas::{Canvas, Look, MM, Rect};
use crate::sheet::labels::Labels;
use crate::sheet::layout::{Block, Item};
use crate::sheet::notes::Shown;
use crate::sheet::style::Style;
use crate::sheet::view::{View, rings};
use crate::sheet::{MapKind, Scene};
use crate::study::Effort;
use crate::words::Words;

/// From this shade on the fills are dark.
const DARK: usize = 2;
/// Side of the net that dark ground is told to names by.
const NET: f64 = 0.8 * MM;

pub(super) struct Theme<'s> {
    surface: &'s Surface,
    ground: &'s Ground,
    levels: Vec<f64>,
    shown: Shown,
}

/// The ground of a surface on the page, which its shades are cut at: land, or walked ground where the density is
/// of that. `None` where there is no edge.
pub(in crate::sheet) fn window(
    surface: &Surface,
    ground: &Ground,
    view: &View,
    land: &MultiPolygon<f64>,
) -> Option<MultiPolygon<f64>> {
    if surface.made.effort == Effort::None {
        return (!ground.land.0.is_empty()).then(|| land.clone());
    }
    // A walked beach may lie below the mapped land.
    let walked: Vec<MultiPolygon<f64>> =
        ground.walked.iter().map(|walked| view.polygons(&walked.shape)).collect();
    Some(unary_union(walked.iter().flatten()))
}

/// The shades between levels, from the lowest up.
pub(in crate::sheet) fn legend_items<'a>(
    levels: &[f64],
    effort: Effort,
    style: &'a Style,
    words: &Words,
) -> Vec<Item<'a>> {
    let heading = match effort {
        Effort::None => "sheet-legend-density",
        Effort::Walked => "sheet-legend-density-walked",
        Effort::Covered => "sheet-legend-density-covered",
    };
    let mut items = vec![Item::Heading(words.say(heading))];
    let contour = &style.density.contour;
    for (index, level) in levels.iter().enumerate() {
        let from = level_text(*level, words);
        let label = match levels.get(index + 1) {
            Some(next) => words
                .say_with("sheet-from-to", &[("from", from.into()), ("to", level_text(*next, words).into())]),
            None => words.say_with("sheet-and-more", &[("from", from.into())]),
        };
        let look = Look::fill(style.density.fills[index]).with_line(contour.ink, contour.width_pt);
        items.push(Item::Key(swatch(look), label));
    }
    if levels.is_empty() {
        items.push(Item::Note(words.say("sheet-no-finds")));
    }
    items
}

/// A level with the decimals that it needs, and no more.
pub(in crate::sheet) fn level_text(level: f64, words: &Words) -> String {
    let decimals = (-level.log10().floor()).max(0.0) as usize;
    words.number(level, decimals)
}

impl<'s> Theme<'s> {
    pub fn new(scene: &Scene<'s>) -> Result<Self> {
        let surface = scene.surface.ok_or_else(|| Fault::new("sheet-no-density"))?;
        let shown = Shown::of(MapKind::Density, scene);
        Ok(Self { surface, ground: scene.ground, levels: contour_levels([surface]), shown })
    }

    /// Shaded by the same levels.
    pub fn alike(scenes: &[Scene<'s>]) -> Result<Vec<Self>> {
        let mut themes = scenes.iter().map(Self::new).collect::<Result<Vec<Self>>>()?;
        let levels = contour_levels(themes.iter().map(|theme| theme.surface));
        themes.iter_mut().for_each(|theme| theme.levels.clone_from(&levels));
        Ok(themes)
    }
}

impl super::Theme for Theme<'_> {
    fn legend<'a>(&'a self, _view: &View, style: &'a Style, words: &Words) -> Vec<Block<'a>> {
        let items = legend_items(&self.levels, self.surface.made.effort, style, words);
        let mut blocks = vec![Block { id: "legend", rank: 0, items }];
        if self.surface.made.effort != Effort::None {
            blocks.push(unwalked_key(style, words));
        }
        blocks
    }

    fn detail(&self, _view: &View, words: &Words) -> String {
        let bandwidth = words.number(self.surface.bandwidth_m, 0);
        let method = words.say(self.surface.bandwidth_method);
        let id = match self.surface.made.effort {
            Effort::None => "sheet-density-detail",
            Effort::Walked => "sheet-density-detail-walked",
            Effort::Covered => "sheet-density-detail-covered",
        };
        words.say_with(id, &[("bandwidth", bandwidth.into()), ("method", method.into())])
    }

    /// A density without its bandwidth says nothing.
    fn detail_rank(&self) -> u8 {
        0
    }

    fn shown(&self, _view: &View) -> Shown {
        self.shown
    }

    fn cautions(&self, _view: &View, _style: &Style, words: &Words) -> Vec<String> {
        let made = &self.surface.made;
        let left = [
            ("sheet-density-left-setting", made.left_by_setting),
            ("sheet-density-left-off-land", made.left_off_land),
            ("sheet-density-left-unwalked", made.left_unwalked),
        ];
        let left = left.into_iter().filter(|(_, n)| !n.is_nothing());
        [words.say("sheet-density-caution"), words.say("sheet-contours-no-boundary")]
            .into_iter()
            .chain(left.map(|(id, n)| words.say_with(id, &[("n", n.into())])))
            .chain(made.doubts.iter().map(|doubt| words.say(doubt)))
            .collect()
    }

    fn under(&self, canvas: &mut Canvas, base: &Base<'_>) {
        let style = &base.style.density;
        let field = Contours::new(self.surface);
        let window = window(self.surface, self.ground, &base.view, &base.land);
        let contour = Look::line(style.contour.ink, style.contour.width_pt).dashed(&style.contour.dash_mm);
        let mut lines = Vec::new();
        canvas.bare_group("density", |canvas| {
            for (index, level) in self.levels.iter().enumerate() {
                let ground = field.at_least(*level);
                let page = base.view.polygons(&ground);
                let page = window.as_ref().map_or(page.clone(), |window| page.intersection(window));
                canvas.rings_with(&rings(&page), &Look::fill(style.fills[index]));
                lines.push(rings(&page));
            }
            canvas.group("contours", &contour, |canvas| lines.iter().for_each(|rings| canvas.rings(rings)));
        });
    }

    /// Names keep off the dark shades, on which they read badly, and may lie over the light ones.
    fn over(&self, _canvas: &mut Canvas, base: &Base<'_>, labels: &mut Labels) {
        labels.fine_squares();
        let Some(dark) = self.levels.get(DARK) else { return };
        let page = base.view.polygons(&Contours::new(self.surface).at_least(*dark));
        for polygon in &page {
            let Some(bounds) = polygon.bounding_rect() else { continue };
            let steps = |length: f64| (length / NET).ceil() as usize;
            for (i, j) in
                (0..steps(bounds.width())).flat_map(|i| (0..steps(bounds.height())).map(move |j| (i, j)))
            {
                let (x, y) = (bounds.min().x + i as f64 * NET, bounds.min().y + j as f64 * NET);
                if polygon.contains(&geo::Point::new(x + NET / 2.0, y + NET / 2.0)) {
                    labels.avoid(Rect::new(x, y, NET, NET));
                }
            }
        }
    }
}
