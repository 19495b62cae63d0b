//! Shaded squares on small maps: as on a single map, joined until they are large enough to be seen.

use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

use super::cells::{self, Key, pieces_by_cell};
use super::joined::{AtScale, join, sides, wider};
use crate::coordinates::Cell;
use crate::sheet::base::Base;
use crate::sheet::canvas::{Canvas, MM};
use crate::sheet::labels::Labels;
use crate::sheet::layout::Block;
use crate::sheet::notes::{Shown, side};
use crate::sheet::style::Style;
use crate::sheet::view::{Extent, View};
use crate::sheet::{MapKind, Scene};
use crate::words::Words;

/// Smaller squares than this on paper are joined.
const LEAST_MM: f64 = 1.2;

pub(super) struct Theme<'s> {
    /// The squares of every map beside this one, and which are its own.
    all: Rc<[BTreeMap<Cell, u64>]>,
    mine: usize,
    shown: Shown,
    scene: Scene<'s>,
    settled: Rc<AtScale<Settled>>,
}

/// What is drawn at one scale, on all of the maps.
struct Settled {
    side_m: u32,
    maps: Vec<BTreeMap<Cell, u64>>,
    key: Key,
}

impl<'s> Theme<'s> {
    pub fn alike(scenes: &[Scene<'s>]) -> Vec<Self> {
        let all: Rc<[BTreeMap<Cell, u64>]> = scenes.iter().map(pieces_by_cell).collect();
        let settled = Rc::new(AtScale::new());
        let one = |(mine, scene): (usize, &Scene<'s>)| Self {
            all: Rc::clone(&all),
            mine,
            shown: Shown::of(MapKind::Cells, scene),
            scene: *scene,
            settled: Rc::clone(&settled),
        };
        scenes.iter().enumerate().map(one).collect()
    }

    fn finest_m(&self) -> u32 {
        self.all.iter().flat_map(|cells| cells.keys()).map(|cell| cell.side_m).min().unwrap_or(1_000)
    }

    fn settled(&self, view: &View) -> Rc<Settled> {
        self.settled.get(view, || {
            let sides = sides(self.finest_m());
            let seen = |side: &&u32| view.units(f64::from(**side)) >= LEAST_MM * MM;
            let side_m = sides.iter().find(seen).or(sides.last()).copied().unwrap_or(1_000);
            let mut key = Key::default();
            let joined = self.all.iter().map(|cells| {
                let mut joined = join(cells, side_m, |sum, n| *sum += n);
                // A finer one that does not fit into those is joined further.
                for (cell, n) in joined.larger {
                    let square = cell.within(wider(cell.side_m, side_m)).unwrap_or(cell);
                    *joined.squares.entry(square).or_default() += n;
                }
                key.add(&joined.squares);
                joined.squares
            });
            let maps = joined.collect();
            Settled { side_m, maps, key }
        })
    }

    /// This map as if its joined squares had been its own.
    fn at(&self, view: &View) -> cells::Theme {
        let settled = self.settled(view);
        cells::Theme::of(settled.maps[self.mine].clone(), settled.key.clone(), self.shown, &self.scene)
    }
}

impl super::Theme for Theme<'_> {
    fn legend<'a>(&'a self, view: &View, style: &'a Style, words: &Words) -> Vec<Block<'a>> {
        self.at(view).blocks(&self.settled(view).key, view, style, words)
    }

    fn detail(&self, view: &View, words: &Words) -> String {
        let (finest_m, side_m) = (self.finest_m(), self.settled(view).side_m);
        let joined = |id: &str, from_m: u32, to_m: u32| {
            words.say_with(id, &[("side", side(words, to_m).into()), ("finest", side(words, from_m).into())])
        };
        let mut said = vec![words.say("sheet-cells-detail")];
        if side_m > finest_m {
            said.push(joined("sheet-squares-joined", finest_m, side_m));
        }
        let own: BTreeSet<u32> =
            self.all.iter().flat_map(|cells| cells.keys()).map(|cell| cell.side_m).collect();
        let across = own.range(..side_m).filter(|own_m| !side_m.is_multiple_of(**own_m));
        said.extend(
            across.map(|own_m| joined("sheet-squares-joined-further", *own_m, wider(*own_m, side_m))),
        );
        said.join(" ")
    }

    /// Squares that are not those agreed say so on every paper.
    fn detail_rank(&self) -> u8 {
        0
    }

    fn shown(&self, _view: &View) -> Shown {
        self.shown
    }

    fn cautions(&self, _view: &View, _style: &Style, _words: &Words) -> Vec<String> {
        Vec::new()
    }

    fn under(&self, canvas: &mut Canvas, base: &Base<'_>) {
        self.at(&base.view).under(canvas, base);
    }

    fn over(&self, canvas: &mut Canvas, base: &Base<'_>, labels: &mut Labels) {
        self.at(&base.view).over(canvas, base, labels);
    }

    fn squares(&self, view: &View) -> BTreeSet<Cell> {
        self.settled(view).maps[self.mine].keys().copied().collect()
    }

    fn reach(&self, view: &View) -> Option<Extent> {
        let settled = self.settled(view);
        let cells = settled.maps.iter().flat_map(|cells| cells.keys());
        cells.map(|cell| Extent::of(cell.rect())).reduce(Extent::with)
    }
}
