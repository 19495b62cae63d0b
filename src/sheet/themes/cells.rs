//! Squares shaded by the band of their count; squares larger than the smallest side hatched, so that a
//! large square with few finds does not shout down small ones with many.

use std::collections::{BTreeMap, BTreeSet};

use super::{BAND_SAMPLES, band_index, drawn, swatch};
use crate::coordinates::Cell;
use crate::exact::{ReleasedPlace, band};
use crate::sheet::base::Base;
use crate::sheet::canvas::{Canvas, Look, MM, PT, Rect, Thing, Xy, xy};
use crate::sheet::labels::Labels;
use crate::sheet::layout::{Block, Item, rank};
use crate::sheet::notes::{Shown, side};
use crate::sheet::shapes::hatching;
use crate::sheet::style::Style;
use crate::sheet::view::View;
use crate::sheet::{MapKind, Scene};
use crate::words::Words;

/// Squares under this on paper have no outline.
const FINE: f64 = 0.9 * MM;
/// More squares than this are one shape a band: a third of the bytes.
const MANY: usize = 250;
/// On a small map hatching is set closer, so that the thinnest stands at most this share of the smallest hatched
/// square apart: four lines and more cross each…
const THINNEST: f64 = 0.3;
/// …but never closer than this share of what the style says, where lines of the thickest would run together.
const CLOSEST: f64 = 0.4;

pub(super) struct Theme {
    cells: BTreeMap<Cell, u64>,
    shown: Shown,
    walked_known: bool,
    key: Key,
}

/// What the legend tells of: maps side by side share one.
#[derive(Clone, Default)]
pub(super) struct Key {
    smallest: Option<u32>,
    /// Sides, and the bands met in each.
    bands: BTreeMap<u32, BTreeSet<usize>>,
}

impl Key {
    pub fn add(&mut self, cells: &BTreeMap<Cell, u64>) {
        for (cell, pieces) in cells {
            self.bands.entry(cell.side_m).or_default().insert(band_index(*pieces));
        }
        self.smallest = self.bands.keys().next().copied();
    }
}

/// Pieces of the drawn classes and periods in each cell.
pub(super) fn pieces_by_cell(scene: &Scene<'_>) -> BTreeMap<Cell, u64> {
    let mut cells = BTreeMap::new();
    for find in scene.published.finds().iter().filter(|find| drawn(find, scene)) {
        if let ReleasedPlace::Cell(cell) = find.place {
            *cells.entry(cell).or_default() += u64::from(find.count);
        }
    }
    cells
}

impl Theme {
    pub fn new(scene: &Scene<'_>) -> Self {
        let cells = pieces_by_cell(scene);
        let mut key = Key::default();
        key.add(&cells);
        Self::of(cells, key, Shown::of(MapKind::Cells, scene), scene)
    }

    pub fn of(cells: BTreeMap<Cell, u64>, key: Key, shown: Shown, scene: &Scene<'_>) -> Self {
        let walked_known = !scene.ground.walked.is_empty() && !scene.ground.land.0.is_empty();
        Self { cells, shown, walked_known, key }
    }

    fn smallest(&self) -> Option<u32> {
        self.key.smallest
    }

    /// How far apart the hatching of each band stands at this scale, millimetres: one for map and key.
    fn spacings_mm(&self, view: &View, style: &Style) -> [f64; 4] {
        let spacings = style.cells.hatch_spacing_mm;
        let least = self.key.bands.keys().nth(1).map(|side_m| view.units(f64::from(*side_m)) / MM);
        let closer = least.map_or(1.0, |side_mm| (THINNEST * side_mm / spacings[0]).clamp(CLOSEST, 1.0));
        spacings.map(|spacing| spacing * closer)
    }

    /// Squares too small for an outline: runs of one band are drawn as one shape, a band as one path, so
    /// that a map of many thousand squares stays a small file.
    fn fine_squares(&self, canvas: &mut Canvas, view: &View, style: &Style) {
        let smallest = self.smallest();
        let mut runs: [Vec<Vec<Xy>>; 4] = Default::default();
        let mut run: Option<(Cell, Cell, usize)> = None;
        let mut finish = |run: Option<(Cell, Cell, usize)>| {
            let Some((first, last, index)) = run else { return };
            let corners = ((first.west_m(), first.south_m()), (last.east_m(), last.north_m()));
            if let Some(r) = view.square(geo::Rect::new(corners.0, corners.1)) {
                runs[index].push(ring(r));
            }
        };
        // Cells come column by column, from the south up.
        for (cell, pieces) in self.cells.iter().filter(|(cell, _)| Some(cell.side_m) == smallest) {
            let index = band_index(*pieces);
            run = match run {
                Some((first, last, i))
                    if i == index && last.column == cell.column && last.row + 1 == cell.row =>
                {
                    Some((first, *cell, i))
                }
                before => {
                    finish(before);
                    Some((*cell, *cell, index))
                }
            };
        }
        finish(run);
        canvas.bare_group("squares", |canvas| {
            for (index, rings) in runs.iter().enumerate() {
                canvas.rings_with(rings, &Look::fill(style.cells.bands[index]));
            }
        });
    }

    /// A legend of the sides and bands of a key.
    pub fn blocks<'a>(&self, key: &Key, view: &View, style: &'a Style, words: &Words) -> Vec<Block<'a>> {
        let mut out = Vec::new();
        let smallest = self.smallest();
        let spacings_mm = self.spacings_mm(view, style);
        for (side_m, bands) in &key.bands {
            let side_m = *side_m;
            let values = [("side", side(words, side_m).into())];
            let mut items = vec![Item::Heading(words.say_with("sheet-legend-pieces-in", &values))];
            for index in bands.iter().copied() {
                let label = band(BAND_SAMPLES[index]).to_owned();
                if Some(side_m) == smallest {
                    let outline = &style.cells.outline;
                    let look = Look::fill(style.cells.bands[index]).with_line(outline.ink, outline.width_pt);
                    items.push(Item::Key(swatch(look), label));
                } else {
                    items.push(Item::Key(
                        Box::new(move |canvas, rect| {
                            let rect = Rect { y0: rect.y0 + 15.0, y1: rect.y1 - 15.0, ..rect };
                            hatched(canvas, style, &[(rect, index)], &spacings_mm);
                            edged(canvas, style, &[(rect, index)]);
                        }),
                        label,
                    ));
                }
            }
            out.push(Block { id: "legend", rank: 0, items });
        }
        if key.bands.is_empty() {
            let items = vec![Item::Note(words.say("sheet-no-finds"))];
            out.push(Block { id: "legend", rank: 0, items });
        }
        if self.walked_known {
            out.push(unwalked_key(style, words));
        }
        out
    }
}

impl super::Theme for Theme {
    fn legend<'a>(&'a self, view: &View, style: &'a Style, words: &Words) -> Vec<Block<'a>> {
        // On a map of a part of the ground, of the squares that are drawn there.
        let drawn = |(cell, pieces): (&Cell, &u64)| view.square(cell.rect()).map(|_| (*cell, *pieces));
        let mut key = Key::default();
        key.add(&self.cells.iter().filter_map(drawn).collect());
        self.blocks(&key, view, style, words)
    }

    fn detail(&self, _view: &View, words: &Words) -> String {
        words.say("sheet-cells-detail")
    }

    fn shown(&self, _view: &View) -> Shown {
        self.shown
    }

    fn cautions(&self, _view: &View, _style: &Style, _words: &Words) -> Vec<String> {
        Vec::new()
    }

    fn under(&self, canvas: &mut Canvas, base: &Base<'_>) {
        let (view, style) = (&base.view, base.style);
        let smallest = self.smallest();
        let outline = &style.cells.outline;
        let small: Vec<(Rect, usize)> = self
            .cells
            .iter()
            .filter(|(cell, _)| Some(cell.side_m) == smallest)
            .filter_map(|(cell, pieces)| Some((view.square(cell.rect())?, band_index(*pieces))))
            .collect();
        let larger = self.cells.iter().filter(|(cell, _)| Some(cell.side_m) != smallest);
        let larger: Vec<(Rect, usize)> = larger
            .filter_map(|(cell, pieces)| Some((view.square(cell.rect())?, band_index(*pieces))))
            .collect();
        let spacings_mm = self.spacings_mm(view, style);
        canvas.bare_group("larger-squares", |canvas| hatched(canvas, style, &larger, &spacings_mm));
        // Small squares cover hatching and never the edges of the square that it fills.
        let edges = |canvas: &mut Canvas| {
            canvas.bare_group("larger-square-edges", |canvas| edged(canvas, style, &larger));
        };
        if smallest.is_some_and(|side_m| view.units(f64::from(side_m)) < FINE) {
            self.fine_squares(canvas, view, style);
            return edges(canvas);
        }
        canvas.group("squares", &Look::line(outline.ink, outline.width_pt), |canvas| {
            for index in 0..4 {
                canvas.group_with("", &format!(r#" fill="{}""#, style.cells.bands[index]), |canvas| {
                    let of_band: Vec<Rect> =
                        small.iter().filter(|(_, i)| *i == index).map(|(rect, _)| *rect).collect();
                    of_band.iter().for_each(|rect| canvas.note(Thing::Square, "square", *rect));
                    if small.len() > MANY {
                        canvas.rings(&of_band.into_iter().map(ring).collect::<Vec<_>>());
                    } else {
                        of_band.into_iter().for_each(|rect| canvas.rect(rect));
                    }
                });
            }
        });
        edges(canvas);
    }

    fn over(&self, _canvas: &mut Canvas, base: &Base<'_>, labels: &mut Labels) {
        let smallest = self.smallest();
        if smallest.is_some_and(|side_m| base.view.units(f64::from(side_m)) < FINE) {
            labels.fine_squares();
        }
        let small = self.cells.keys().filter(|cell| Some(cell.side_m) == smallest);
        small.filter_map(|cell| base.view.square(cell.rect())).for_each(|rect| labels.avoid(rect));
    }
}

/// The key of ground that was not walked.
pub(in crate::sheet) fn unwalked_key<'a>(style: &'a Style, words: &Words) -> Block<'a> {
    let spacing = style.unwalked.spacing_mm;
    let sample = Box::new(move |canvas: &mut Canvas, rect: Rect| {
        let rect = Rect { y0: rect.y0 + 15.0, y1: rect.y1 - 15.0, ..rect };
        canvas.rect_with(rect, &Look::fill(style.land.fill));
        canvas.lines_with(&hatching(&[rect], spacing), &style.unwalked.line.look());
    });
    Block {
        id: "legend",
        rank: rank::READING,
        items: vec![Item::Key(sample, words.say("sheet-legend-unwalked"))],
    }
}

/// Hatching by band.
fn hatched(canvas: &mut Canvas, style: &Style, squares: &[(Rect, usize)], spacings_mm: &[f64; 4]) {
    canvas.group("", &style.cells.hatch.look(), |canvas| {
        for (index, spacing_mm) in spacings_mm.iter().enumerate() {
            let of_band = squares.iter().filter(|(_, band)| *band == index).map(|(rect, _)| *rect);
            canvas.lines(&hatching(&of_band.collect::<Vec<_>>(), *spacing_mm));
        }
    });
}

/// The edges of hatched squares.
fn edged(canvas: &mut Canvas, style: &Style, squares: &[(Rect, usize)]) {
    let edge = &style.cells.hatch_outline;
    canvas.group("", &edge.look(), |canvas| {
        let edges = squares.iter().map(|(rect, _)| rect.grown(-edge.width_pt * PT / 2.0));
        if squares.len() > MANY {
            canvas.rings(&edges.map(ring).collect::<Vec<_>>());
        } else {
            edges.for_each(|rect| canvas.rect(rect));
        }
    });
}

/// A square as a ring, for many in one shape.
fn ring(r: Rect) -> Vec<Xy> {
    vec![xy(r.x0, r.y0), xy(r.x1, r.y0), xy(r.x1, r.y1), xy(r.x0, r.y1)]
}
