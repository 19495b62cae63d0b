//! In each square, a symbol for each class and period met there: shape by class, colour by period, size
//! by the band of the count. Symbols stand in rows and never hide each other; those without room are
//! counted.

use std::collections::{BTreeMap, BTreeSet};

use super::{BAND_SAMPLES, band_index, by_parish_only, drawn, swatch};
use crate::coordinates::Cell;
use crate::exact::{ReleasedPlace, band};
use crate::sheet::Scene;
use crate::sheet::base::Base;
use crate::sheet::canvas::{Anchor, Canvas, MM, Rect};
use crate::sheet::labels::Labels;
use crate::sheet::layout::{Block, Draw, Item};
use crate::sheet::notes::{Shown, side};
use crate::sheet::shapes::{Era, Kind, symbol, symbol_box};
use crate::sheet::style::{Dye, Filling, Style};
use crate::sheet::view::{Extent, View};
use crate::study::{Attribute, ladder};
use crate::words::Words;

/// Squares smaller than this on paper are joined into the next larger ones that hold them whole.
const LEAST_MM: f64 = 5.0;
const GAP: f64 = 0.35 * MM;
/// Room for the number of symbols that found none.
const CORNER: (f64, f64) = (4.4 * MM, 2.6 * MM);

pub(super) struct Theme {
    cells: BTreeMap<Cell, Counts>,
    by_parish_only: u64,
    finest_m: u32,
    shows_class: bool,
    shows_period: bool,
}

type Counts = BTreeMap<(Kind, Era), u64>;

/// What is drawn at one scale.
struct Crowd {
    side_m: u32,
    squares: BTreeMap<Cell, Counts>,
    /// Squares larger than those, with their pieces.
    larger: BTreeMap<Cell, Counts>,
}

impl Crowd {
    /// The counts of every square.
    fn all(&self) -> impl Iterator<Item = &Counts> {
        self.squares.values().chain(self.larger.values())
    }
}

/// Where everything goes.
#[derive(Default)]
struct Placed {
    squares: Vec<Rect>,
    larger: Vec<Rect>,
    /// Symbols of a square, the box they stand in, and how many found no room.
    sets: Vec<(Rect, Set, usize)>,
    /// Pieces in larger squares that have no room of their own.
    in_larger: u64,
}

impl Theme {
    pub fn new(scene: &Scene<'_>) -> Self {
        let mut cells: BTreeMap<Cell, Counts> = BTreeMap::new();
        for find in scene.published.finds().iter().filter(|find| drawn(find, scene)) {
            if let ReleasedPlace::Cell(cell) = find.place {
                let key = (Kind::of(find.class), Era::of(find.period));
                *cells.entry(cell).or_default().entry(key).or_default() += u64::from(find.count);
            }
        }
        let finest_m = cells.keys().map(|cell| cell.side_m).min().unwrap_or(1000);
        let show = &scene.study.agreement.show;
        Self {
            cells,
            by_parish_only: by_parish_only(scene),
            finest_m,
            shows_class: show.contains(&Attribute::Class),
            shows_period: show.contains(&Attribute::Period),
        }
    }

    fn crowd(&self, view: &View) -> Crowd {
        let side_m = ladder(self.finest_m)
            .into_iter()
            .find(|side| view.units(f64::from(*side)) >= LEAST_MM * MM)
            .unwrap_or(self.finest_m);
        let mut crowd = Crowd { side_m, squares: BTreeMap::new(), larger: BTreeMap::new() };
        for (cell, counts) in &self.cells {
            let here = match cell.within(side_m) {
                Some(square) => crowd.squares.entry(square).or_default(),
                None => crowd.larger.entry(*cell).or_default(),
            };
            counts.iter().for_each(|(key, n)| *here.entry(*key).or_default() += n);
        }
        crowd
    }

    /// Sets every symbol. Those of a larger square stand in a part of it where no smaller square has any.
    fn place(&self, view: &View, sizes_mm: &[f64; 4]) -> Placed {
        let crowd = self.crowd(view);
        let mut placed = Placed::default();
        for (cell, counts) in &crowd.squares {
            if let Some(rect) = view.square(cell.rect()) {
                let (set, left_out) = pack(counts, rect, sizes_mm);
                placed.squares.push(rect);
                placed.sets.push((rect, set, left_out));
            }
        }
        let mut used: BTreeSet<Cell> = crowd.squares.keys().copied().collect();
        for (cell, counts) in &crowd.larger {
            let free = parts(*cell, crowd.side_m).find(|part| {
                let whole = view.square(part.rect()).is_some_and(|rect| rect.width() >= LEAST_MM * MM);
                whole && !used.contains(part)
            });
            let (Some(part), Some(outline)) = (free, view.square(cell.rect())) else {
                placed.in_larger += counts.values().sum::<u64>();
                continue;
            };
            used.insert(part);
            if let Some(rect) = view.square(part.rect()) {
                let (set, left_out) = pack(counts, rect, sizes_mm);
                placed.larger.push(outline);
                placed.sets.push((rect, set, left_out));
            }
        }
        placed
    }
}

/// The squares of a side inside a larger one, from its north-west corner. None for a side that does not
/// divide it, or for a square so large that a corner of it says nothing.
fn parts(cell: Cell, side_m: u32) -> impl Iterator<Item = Cell> {
    let times = if cell.side_m.is_multiple_of(side_m) { (cell.side_m / side_m) as i32 } else { 0 };
    let times = if times > 10 { 0 } else { times };
    (0..times).rev().flat_map(move |up| {
        (0..times).map(move |along| Cell {
            side_m,
            column: cell.column * times + along,
            row: cell.row * times + up,
        })
    })
}

/// A symbol's place in a square, and what it stands for.
type Set = Vec<(f64, f64, f64, Kind, Era)>;

/// Sets symbols in rows inside a box, the rows centred in it. Gives those that fit, and how many do not;
/// for these a corner is kept free, where their number is written.
fn pack(counts: &Counts, rect: Rect, sizes_mm: &[f64; 4]) -> (Set, usize) {
    let mut wanted: Vec<((Kind, Era), f64)> =
        counts.iter().map(|(key, n)| (*key, sizes_mm[band_index(*n)])).collect();
    // The largest first, so that rows waste no height; then by class and period.
    wanted.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
    let room = rect.grown(-0.4 * MM);
    let fit = |corner: (f64, f64)| {
        let mut rows: Vec<(f64, f64, Set)> = Vec::new();
        let (mut x, mut y, mut row) = (0.0f64, 0.0f64, Set::new());
        let (mut tall, mut left_out) = (0.0f64, 0);
        for &((kind, era), size_mm) in &wanted {
            let size = size_mm * MM;
            // The last row stops short of the corner that is kept free.
            let limit =
                |y: f64| room.width() - if y + size > room.height() - corner.1 { corner.0 } else { 0.0 };
            if x + size > limit(y) + 1.0 && !row.is_empty() {
                rows.push((x - GAP, tall, std::mem::take(&mut row)));
                y += tall + GAP;
                (x, tall) = (0.0, 0.0);
            }
            if y + size > room.height() + 1.0 || x + size > limit(y) + 1.0 {
                left_out += 1;
                continue;
            }
            row.push((x + size / 2.0, y, size_mm, kind, era));
            x += size + GAP;
            tall = tall.max(size);
        }
        if !row.is_empty() {
            rows.push((x - GAP, tall, row));
        }
        (rows, left_out)
    };
    let (mut rows, mut left_out) = fit((0.0, 0.0));
    if left_out > 0 {
        (rows, left_out) = fit(CORNER);
    }
    let used: f64 = rows.iter().map(|(_, tall, _)| tall + GAP).sum::<f64>() - GAP;
    let down = if left_out > 0 { 0.0 } else { (room.height() - used).max(0.0) / 2.0 };
    let mut set = Set::new();
    for (wide, tall, row) in rows {
        let across = if left_out > 0 { 0.0 } else { (room.width() - wide).max(0.0) / 2.0 };
        set.extend(row.into_iter().map(|(x, y, size_mm, kind, era)| {
            (room.x0 + across + x, room.y0 + down + y + tall / 2.0, size_mm, kind, era)
        }));
    }
    (set, left_out)
}

impl super::Theme for Theme {
    fn legend<'a>(&'a self, view: &View, style: &'a Style, words: &Words) -> Vec<Block<'a>> {
        let crowd = self.crowd(view);
        let keys: BTreeSet<(Kind, Era)> = crowd.all().flat_map(|c| c.keys().copied()).collect();
        let kinds: BTreeSet<Kind> = keys.iter().map(|(kind, _)| *kind).collect();
        let eras: BTreeSet<Era> = keys.iter().map(|(_, era)| *era).collect();
        let bands: BTreeSet<usize> = crowd.all().flat_map(|c| c.values()).map(|n| band_index(*n)).collect();
        if keys.is_empty() {
            let items = vec![Item::Note(words.say("sheet-no-finds"))];
            return vec![Block { id: "legend", rank: 0, items }];
        }
        let sizes = &style.symbols.sizes_mm;
        let plain = Dye { ink: style.page.quiet, filling: Filling::Solid };
        let sample = |kind: Kind, dye, size_mm: f64| -> Draw<'a> {
            Box::new(move |canvas: &mut Canvas, rect: Rect| {
                let (x, y) = ((rect.x0 + rect.x1) / 2.0, (rect.y0 + rect.y1) / 2.0);
                symbol(canvas, kind, dye, &style.symbols, x, y, size_mm);
            })
        };
        let mut by_kind = vec![Item::Heading(words.say("sheet-legend-shape"))];
        by_kind.extend(
            kinds.iter().map(|kind| Item::Key(sample(*kind, plain, sizes[1]), words.say(kind.message()))),
        );
        let mut by_era = vec![Item::Heading(words.say("sheet-legend-colour"))];
        by_era.extend(eras.iter().map(|era| {
            Item::Key(sample(Kind::Waste, era.dye(&style.periods), sizes[2]), words.say(era.message()))
        }));
        let heading = words.say_with("sheet-legend-size", &[("side", side(words, crowd.side_m).into())]);
        let mut by_size = vec![Item::Heading(heading)];
        by_size.extend(bands.iter().map(|index| {
            let size_mm = sizes[*index];
            Item::TallKey(
                size_mm * MM,
                sample(Kind::Waste, plain, size_mm),
                band(BAND_SAMPLES[*index]).to_owned(),
            )
        }));
        let mut out = Vec::new();
        if self.shows_class {
            out.push(Block { id: "legend-classes", rank: 0, items: by_kind });
        }
        // Sizes before periods: of the three blocks, these two together fill two columns best.
        if !crowd.larger.is_empty() {
            let edge = swatch(style.cells.hatch_outline.look());
            by_size.push(Item::Key(edge, words.say("sheet-legend-larger-square")));
        }
        out.push(Block { id: "legend-sizes", rank: 0, items: by_size });
        if self.shows_period {
            out.push(Block { id: "legend-periods", rank: 0, items: by_era });
        }
        out
    }

    fn detail(&self, view: &View, words: &Words) -> String {
        let crowd = self.crowd(view);
        let values =
            [("side", side(words, crowd.side_m).into()), ("finest", side(words, self.finest_m).into())];
        if crowd.side_m > self.finest_m {
            words.say_with("sheet-symbols-detail-joined", &values)
        } else {
            words.say_with("sheet-symbols-detail", &values)
        }
    }

    fn shown(&self, view: &View) -> Shown {
        let all: u64 = self.cells.values().flat_map(|counts| counts.values()).sum();
        // Which squares find room does not depend on the size of symbols.
        let in_larger = self.place(view, &[LEAST_MM; 4]).in_larger;
        Shown { pieces: all - in_larger, by_parish_only: self.by_parish_only, out_of_place: 0 }
    }

    fn cautions(&self, view: &View, style: &Style, words: &Words) -> Vec<String> {
        let placed = self.place(view, &style.symbols.sizes_mm);
        let left_out: usize = placed.sets.iter().map(|(_, _, left_out)| left_out).sum();
        let mut out = vec![words.say("sheet-symbols-caution")];
        if left_out > 0 {
            out.push(words.say_with("sheet-symbols-left-out", &[("n", left_out.into())]));
        }
        if placed.in_larger > 0 {
            out.push(words.say_with("sheet-symbols-in-larger", &[("n", placed.in_larger.into())]));
        }
        out
    }

    fn reach(&self, view: &View) -> Option<Extent> {
        let squares = self.crowd(view).squares;
        squares.keys().map(|cell| Extent::of(cell.rect())).reduce(Extent::with)
    }

    fn under(&self, _canvas: &mut Canvas, _base: &Base<'_>) {}

    fn over(&self, canvas: &mut Canvas, base: &Base<'_>, labels: &mut Labels) {
        let style = base.style;
        let placed = self.place(&base.view, &style.symbols.sizes_mm);
        let rects = |canvas: &mut Canvas, rects: &[Rect]| rects.iter().for_each(|rect| canvas.rect(*rect));
        canvas.group("squares", &style.symbols.square.look(), |canvas| rects(canvas, &placed.squares));
        canvas.group("larger-squares", &style.cells.hatch_outline.look(), |canvas| {
            rects(canvas, &placed.larger)
        });
        canvas.bare_group("symbols", |canvas| {
            for (rect, set, left_out) in placed.sets {
                for (x, y, size_mm, kind, era) in set {
                    symbol(canvas, kind, era.dye(&style.periods), &style.symbols, x, y, size_mm);
                    labels.take(symbol_box(x, y, size_mm));
                }
                if left_out > 0 {
                    let look = style.note().anchored(Anchor::End).haloed(style.names.halo, 0.8);
                    let (x, y) = (rect.x1 - 0.5 * MM, rect.y1 - 0.6 * MM);
                    let text = format!("+{left_out}");
                    let (wide, tall) = (look.width(&text), look.rise());
                    canvas.text(x, y, &text, &look);
                    labels.take(Rect::new(x - wide, y - tall, wide, tall));
                }
            }
        });
    }
}
