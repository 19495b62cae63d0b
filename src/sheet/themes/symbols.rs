//! In each square, a symbol for each class and period met there: shape by class, colour by period, size
//! by the band of the count. Symbols stand in rows and never hide each other. Where many find no room,
//! squares are joined; what is still left out is counted in its square, in the legend and in the notes.

use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

use super::joined::{AtScale, Joined, join, sides};
use super::rows::{Room, Row, pack};
use super::{BAND_SAMPLES, band_index, drawn, swatch};
use crate::coordinates::Cell;
use crate::exact::{Figure, ReleasedFind, ReleasedPlace, band};
use crate::sheet::base::Base;
use crate::sheet::canvas::{Anchor, Canvas, MM, Rect, Type};
use crate::sheet::labels::Labels;
use crate::sheet::layout::{Block, Draw, Item, rank};
use crate::sheet::notes::{Shown, side};
use crate::sheet::shapes::{Era, Kind, symbol, symbol_box};
use crate::sheet::style::{Dye, Filling, Style};
use crate::sheet::view::{Extent, View};
use crate::sheet::{MapKind, Scene};
use crate::study::Attribute;
use crate::words::Words;

/// Squares smaller than this on paper are joined into larger ones that hold them whole.
const LEAST_MM: f64 = 5.0;
/// Squares are joined further while more than this share of the symbols finds no room…
const LEFT_OUT: f64 = 0.1;
/// …but never so far that fewer than this many lie along the shorter side of the map.
const FEWEST_SQUARES: f64 = 4.0;

pub(super) type Counts = BTreeMap<(Kind, Era), u64>;

pub(super) struct Theme<'s> {
    shared: Rc<Shared<'s>>,
    mine: usize,
    shown: Shown,
}

/// What maps beside each other share.
struct Shared<'s> {
    scenes: Rc<[Scene<'s>]>,
    /// What each of them shows.
    all: Rc<[BTreeMap<Cell, Counts>]>,
    finest_m: u32,
    shows_class: bool,
    shows_period: bool,
    sizes_mm: [f64; 4],
    /// Classes that are drawn: all of them, unless the paper has no room for so long a key.
    kinds: BTreeSet<Kind>,
    /// Periods that are drawn, likewise.
    eras: BTreeSet<Era>,
    /// How the number of symbols without room is written.
    number: Type,
    settled: AtScale<Settled>,
}

/// What is drawn at one scale.
struct Settled {
    side_m: u32,
    maps: Vec<Joined<Counts>>,
}

impl Settled {
    /// The counts of every square of every map.
    fn counts(&self) -> impl Iterator<Item = &Counts> {
        self.maps.iter().flat_map(|joined| joined.squares.values().chain(joined.larger.values()))
    }
}

/// Pieces of the drawn classes and periods in each square, by symbol.
fn counted(scene: &Scene<'_>) -> BTreeMap<Cell, Counts> {
    let mut cells: BTreeMap<Cell, Counts> = BTreeMap::new();
    for find in scene.published.finds().iter().filter(|find| drawn(find, scene)) {
        if let ReleasedPlace::Cell(cell) = find.place {
            let key = (Kind::of(find.class), Era::of(find.period));
            *cells.entry(cell).or_default().entry(key).or_default() += u64::from(find.count);
        }
    }
    cells
}

/// Where everything goes on one map.
#[derive(Default)]
struct Placed {
    squares: Vec<Rect>,
    larger: Vec<Rect>,
    /// Symbols of a square, the box they stand in, and how many found no room.
    rows: Vec<(Rect, Row, usize)>,
    /// Larger squares that have no room of their own.
    no_room: BTreeSet<Cell>,
}

impl<'s> Shared<'s> {
    fn new(scenes: &[Scene<'s>], style: &Style) -> Self {
        let all: Rc<[BTreeMap<Cell, Counts>]> = scenes.iter().map(counted).collect();
        let keys = || all.iter().flat_map(|cells| cells.values()).flat_map(|counts| counts.keys());
        let kinds = keys().map(|(kind, _)| *kind).collect();
        let eras = keys().map(|(_, era)| *era).collect();
        let finest_m = all.iter().flat_map(|cells| cells.keys()).map(|cell| cell.side_m).min();
        let shows = |attribute| scenes.iter().all(|scene| scene.study.agreement.show.contains(&attribute));
        Self {
            scenes: scenes.into(),
            all,
            kinds,
            eras,
            finest_m: finest_m.unwrap_or(1_000),
            shows_class: shows(Attribute::Class),
            shows_period: shows(Attribute::Period),
            sizes_mm: style.symbols.sizes_mm,
            number: style.note().anchored(Anchor::End).haloed(style.names.halo, 0.8),
            settled: AtScale::new(),
        }
    }

    fn room(&self) -> Room<'_> {
        // As many as three figures: a square holds fewer symbols than that, whatever it holds.
        let corner = (self.number.width("+99") + 0.9 * MM, self.number.rise() + 0.9 * MM);
        Room { sizes_mm: &self.sizes_mm, corner }
    }

    /// The least side of a square on paper, units: the largest symbol, or the number, has room in it.
    fn least(&self) -> f64 {
        (LEAST_MM * MM).max(self.room().corner.0 + 0.8 * MM)
    }

    /// How many symbols find no room when squares are of a side, and how many there are.
    fn crowding(&self, maps: &[Joined<Counts>], side: f64) -> (usize, usize) {
        let square = Rect::new(0.0, 0.0, side, side);
        let room = self.room();
        let counts = maps.iter().flat_map(|joined| joined.squares.values());
        counts.fold((0, 0), |(out, all), counts| {
            let (row, _) = pack(counts, square, &room, &|key| self.draws(key));
            let drawn = counts.keys().filter(|key| self.draws(key)).count();
            let no_room = drawn.saturating_sub(row.len());
            (out + no_room, all + drawn)
        })
    }

    fn settle(&self, view: &View) -> Settled {
        let shorter = view.frame.width().min(view.frame.height());
        let mut best: Option<(usize, u32, Vec<Joined<Counts>>)> = None;
        let large_enough = |side_m: &u32| view.units(f64::from(*side_m)) >= self.least();
        for side_m in sides(self.finest_m).into_iter().filter(large_enough) {
            let side = view.units(f64::from(side_m));
            if best.is_some() && side * FEWEST_SQUARES > shorter {
                break;
            }
            let add = |sum: &mut Counts, counts: &Counts| {
                counts.iter().for_each(|(key, n)| *sum.entry(*key).or_default() += n);
            };
            let maps: Vec<Joined<Counts>> = self.all.iter().map(|cells| join(cells, side_m, add)).collect();
            let (left_out, all) = self.crowding(&maps, side);
            if best.as_ref().is_none_or(|(least, ..)| left_out < *least) {
                best = Some((left_out, side_m, maps));
            }
            if left_out as f64 <= all as f64 * LEFT_OUT {
                break;
            }
        }
        let (_, side_m, maps) = best.unwrap_or_else(|| {
            let nothing = || Joined { squares: BTreeMap::new(), larger: BTreeMap::new() };
            (0, self.finest_m, self.all.iter().map(|_| nothing()).collect())
        });
        Settled { side_m, maps }
    }

    /// Whether a class and period has a symbol here.
    fn draws(&self, (kind, era): &(Kind, Era)) -> bool {
        self.kinds.contains(kind) && self.eras.contains(era)
    }

    /// With one class fewer, the one with the fewest symbols, or at last with one period fewer; `None` where a key of
    /// fewer would say nothing.
    fn shorter(&self) -> Option<Self> {
        const FEWEST: usize = 2;
        let keys = || self.all.iter().flat_map(|cells| cells.values()).flat_map(|counts| counts.keys());
        let (mut kinds, mut eras) = (self.kinds.clone(), self.eras.clone());
        if kinds.len() > FEWEST {
            let symbols = |kind: &Kind| keys().filter(|(other, _)| other == kind).count();
            let rarest = kinds.iter().copied().min_by_key(|kind| symbols(kind))?;
            kinds.remove(&rarest);
        } else if eras.len() > FEWEST {
            let symbols = |era: &Era| keys().filter(|(_, other)| other == era).count();
            let rarest = eras.iter().copied().min_by_key(|era| symbols(era))?;
            eras.remove(&rarest);
        } else {
            return None;
        }
        let (scenes, all) = (Rc::clone(&self.scenes), Rc::clone(&self.all));
        Some(Self { scenes, all, kinds, eras, number: self.number, settled: AtScale::new(), ..*self })
    }

    /// Sets every symbol of a map. Those of a larger square stand in a part of it where no smaller square
    /// has any.
    fn place(&self, joined: &Joined<Counts>, side_m: u32, view: &View) -> Placed {
        let mut placed = Placed::default();
        let put = |placed: &mut Placed, rect: Rect, counts: &Counts| {
            let (row, left_out) = pack(counts, rect, &self.room(), &|key| self.draws(key));
            placed.rows.push((rect, row, left_out));
        };
        for (cell, counts) in &joined.squares {
            if let Some(rect) = view.square(cell.rect()) {
                placed.squares.push(rect);
                put(&mut placed, rect, counts);
            }
        }
        let mut used: BTreeSet<Cell> = joined.squares.keys().copied().collect();
        for (cell, counts) in &joined.larger {
            let whole = |part: &Cell| {
                view.square(part.rect()).filter(|rect| rect.width().min(rect.height()) >= self.least())
            };
            let free = parts(*cell, side_m)
                .filter(|part| !used.contains(part))
                .find_map(|part| whole(&part).map(|rect| (part, rect)));
            let (Some((part, rect)), Some(outline)) = (free, view.square(cell.rect())) else {
                placed.no_room.insert(*cell);
                continue;
            };
            used.insert(part);
            placed.larger.push(outline);
            put(&mut placed, rect, counts);
        }
        placed
    }
}

impl<'s> Theme<'s> {
    pub fn new(scene: &Scene<'s>, style: &Style) -> Self {
        let shared = Rc::new(Shared::new(&[*scene], style));
        Self { shared, mine: 0, shown: Shown::of(MapKind::Symbols, scene) }
    }

    /// Joined alike, with one key.
    pub fn alike(scenes: &[Scene<'s>], style: &Style) -> Vec<Self> {
        let shared = Rc::new(Shared::new(scenes, style));
        let one = |(mine, scene)| Self {
            shared: Rc::clone(&shared),
            mine,
            shown: Shown::of(MapKind::Symbols, scene),
        };
        scenes.iter().enumerate().map(one).collect()
    }

    fn settled(&self, view: &View) -> Rc<Settled> {
        self.shared.settled.get(view, || self.shared.settle(view))
    }

    /// Where everything goes on one of the maps.
    fn placed(&self, map: usize, view: &View) -> Placed {
        let settled = self.settled(view);
        self.shared.place(&settled.maps[map], settled.side_m, view)
    }

    /// Symbols without room and pieces not drawn, on all of the maps.
    fn not_drawn(&self, view: &View) -> (usize, Figure) {
        self.shared.scenes.iter().enumerate().fold(
            (0, Figure::default()),
            |(symbols, pieces), (map, scene)| {
                let placed = self.placed(map, view);
                let left_out: usize = placed.rows.iter().map(|(_, _, left_out)| left_out).sum();
                (symbols + left_out, pieces + in_squares(scene, |cell| placed.no_room.contains(&cell)))
            },
        )
    }
}

/// Pieces that a scene draws in some of its squares.
fn in_squares(scene: &Scene<'_>, which: impl Fn(Cell) -> bool) -> Figure {
    scene.published.total(|find: &ReleasedFind| match find.place {
        ReleasedPlace::Cell(cell) => drawn(find, scene) && which(cell),
        ReleasedPlace::Parish(_) => false,
    })
}

impl super::Theme for Theme<'_> {
    fn legend<'a>(&'a self, view: &View, style: &'a Style, words: &Words) -> Vec<Block<'a>> {
        let settled = self.settled(view);
        let keys: BTreeSet<(Kind, Era)> = settled.counts().flat_map(|c| c.keys().copied()).collect();
        let met: BTreeSet<Kind> = keys.iter().map(|(kind, _)| *kind).collect();
        let kinds = || met.intersection(&self.shared.kinds);
        let met_eras: BTreeSet<Era> = keys.iter().map(|(_, era)| *era).collect();
        let eras = || met_eras.intersection(&self.shared.eras);
        let bands: BTreeSet<usize> =
            settled.counts().flat_map(|c| c.values()).map(|n| band_index(*n)).collect();
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
        by_kind
            .extend(kinds().map(|kind| Item::Key(sample(*kind, plain, sizes[1]), words.say(kind.message()))));
        let left_out = met.difference(&self.shared.kinds).count();
        if left_out > 0 {
            let n = [("n", left_out.into())];
            by_kind.push(gap());
            by_kind.push(Item::Note(words.say_with("sheet-legend-classes-left-out", &n)));
        }
        let mut by_era = vec![Item::Heading(words.say("sheet-legend-colour"))];
        by_era.extend(eras().map(|era| {
            Item::Key(sample(Kind::Waste, era.dye(&style.periods), sizes[2]), words.say(era.message()))
        }));
        let left_out = met_eras.difference(&self.shared.eras).count();
        if left_out > 0 {
            let n = [("n", left_out.into())];
            by_era.push(gap());
            by_era.push(Item::Note(words.say_with("sheet-legend-periods-left-out", &n)));
        }
        let heading = words.say_with("sheet-legend-size", &[("side", side(words, settled.side_m).into())]);
        let mut by_size = vec![Item::Heading(heading)];
        by_size.extend(bands.iter().map(|index| {
            let size_mm = sizes[*index];
            Item::TallKey(
                size_mm * MM,
                sample(Kind::Waste, plain, size_mm),
                band(BAND_SAMPLES[*index]).to_owned(),
            )
        }));
        if settled.maps.iter().any(|joined| !joined.larger.is_empty()) {
            let edge = swatch(style.cells.hatch_outline.look());
            by_size.push(Item::Key(edge, words.say("sheet-legend-larger-square")));
        }
        if self.not_drawn(view).0 > 0 {
            by_size.push(gap());
            // Words, which may go where the smallest paper has no room; a sample may not.
            by_size.push(Item::Lesser(rank::CREDIT, words.say("sheet-legend-symbols-left-out")));
        }
        let mut out = Vec::new();
        if self.shared.shows_class {
            out.push(Block { id: "legend-classes", rank: 0, items: by_kind });
        }
        // Sizes before periods: of the three blocks, these two together fill two columns best.
        out.push(Block { id: "legend-sizes", rank: 0, items: by_size });
        if self.shared.shows_period {
            out.push(Block { id: "legend-periods", rank: 0, items: by_era });
        }
        out
    }

    fn detail(&self, view: &View, words: &Words) -> String {
        let (side_m, finest_m) = (self.settled(view).side_m, self.shared.finest_m);
        let values = [("side", side(words, side_m).into()), ("finest", side(words, finest_m).into())];
        if side_m > finest_m {
            words.say_with("sheet-symbols-detail-joined", &values)
        } else {
            words.say_with("sheet-symbols-detail", &values)
        }
    }

    /// A symbol stands for its whole square: that goes last but for what a map cannot be without.
    fn detail_rank(&self) -> u8 {
        rank::READING
    }

    fn shown(&self, view: &View) -> Shown {
        let no_room = self.placed(self.mine, view).no_room;
        match self.shared.scenes.get(self.mine) {
            Some(scene) if !no_room.is_empty() => {
                Shown { pieces: in_squares(scene, |cell| !no_room.contains(&cell)), ..self.shown }
            }
            _ => self.shown,
        }
    }

    fn draws_all(&self, view: &View) -> bool {
        self.placed(self.mine, view).no_room.is_empty()
    }

    fn cautions(&self, view: &View, _style: &Style, words: &Words) -> Vec<String> {
        let (symbols, pieces) = self.not_drawn(view);
        let mut out = vec![words.say("sheet-symbols-caution")];
        if symbols > 0 {
            out.push(words.say_with("sheet-symbols-left-out", &[("n", symbols.into())]));
        }
        if !pieces.is_nothing() {
            out.push(words.say_with("sheet-symbols-in-larger", &[("n", pieces.into())]));
        }
        out
    }

    fn squares(&self, view: &View) -> BTreeSet<Cell> {
        let settled = self.settled(view);
        let mine = settled.maps.get(self.mine).into_iter();
        mine.flat_map(|joined| joined.squares.keys().chain(joined.larger.keys())).copied().collect()
    }

    fn shorter(&self) -> Option<Box<dyn super::Theme + '_>> {
        let shared = Rc::new(self.shared.shorter()?);
        Some(Box::new(Self { shared, mine: self.mine, shown: self.shown }))
    }

    fn reach(&self, view: &View) -> Option<Extent> {
        let settled = self.settled(view);
        let squares = settled.maps.iter().flat_map(|joined| joined.squares.keys());
        squares.map(|cell| Extent::of(cell.rect())).reduce(Extent::with)
    }

    fn under(&self, _canvas: &mut Canvas, _base: &Base<'_>) {}

    fn over(&self, canvas: &mut Canvas, base: &Base<'_>, labels: &mut Labels) {
        let style = base.style;
        let placed = self.placed(self.mine, &base.view);
        let rects = |canvas: &mut Canvas, rects: &[Rect]| rects.iter().for_each(|rect| canvas.rect(*rect));
        canvas.group("squares", &style.symbols.square.look(), |canvas| rects(canvas, &placed.squares));
        canvas.group("larger-squares", &style.cells.hatch_outline.look(), |canvas| {
            rects(canvas, &placed.larger)
        });
        canvas.bare_group("symbols", |canvas| {
            for (rect, row, left_out) in placed.rows {
                for (x, y, size_mm, kind, era) in row {
                    symbol(canvas, kind, era.dye(&style.periods), &style.symbols, x, y, size_mm);
                    labels.take(symbol_box(x, y, size_mm));
                }
                if left_out > 0 {
                    let look = self.shared.number;
                    let (x, y) = (rect.x1 - 0.5 * MM, rect.y1 - 0.6 * MM);
                    let text = format!("+{left_out}");
                    canvas.text(x, y, &text, &look);
                    labels.take(look.ink_box(x, y, &text).grown(0.3 * MM));
                }
            }
        });
    }
}

/// White between the last key and words under it.
fn gap<'a>() -> Item<'a> {
    Item::Figure(0.3 * MM, Box::new(|_: &mut Canvas, _: Rect| {}))
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
