//! Release to published: small counts are suppressed once, for all that follows.
//!
//! An audience that is told bands is given a register of bands: finds that are alike in all that is told stand
//! together, and their number is one that the bands of their place allow. No true number of a place goes on, so
//! that no table, layer, surface or sentence made from it can tell one.
//!
//! ```text
//! place        the bands of one place, and what they leave to each of its lines
//! flow         numbers that those bands allow
//! totals       figures of the whole study that narrow no line: told exactly
//! stand_ins    numbers from bands and exact figures
//! ```

mod figure;
mod flow;
mod place;
mod stand_ins;
mod totals;

use std::collections::BTreeMap;

use rayon::prelude::*;

pub use figure::Figure;
use place::Place;
use stand_ins::stand_ins;
use totals::{Kind, Set, Totals};

use super::{Release, ReleasedFind, ReleasedPlace, Tally};
use crate::coordinates::Cell;
use crate::study::Agreement;
use crate::study::vocabulary::{Class, Period};

/// What all later stages see of a register.
#[derive(Debug, Clone, PartialEq)]
pub struct Published {
    finds: Vec<ReleasedFind>,
    cells: Vec<CellSummary>,
    tally: Tally,
    records: u64,
    withheld_pieces: Option<u64>,
    withheld_cells: u64,
    /// Numbers of rows that were told before and are no longer there.
    withdrawn: Vec<String>,
    /// What is known of the numbers; `None` where they are exact.
    bands: Option<Bands>,
}

/// Where numbers stand in for the true ones: what is told besides.
#[derive(Debug, Clone, PartialEq)]
struct Bands {
    /// The place and the group of each find.
    groups: Vec<(usize, usize)>,
    places: Vec<Place>,
    /// Kinds of finds of which some are left to other parts of the register.
    parted: Set,
    totals: Totals,
}

/// The finds of one cell together. For an audience of bands the numbers are stand-ins: their bands are those of
/// the true numbers, and no more is known.
#[derive(Debug, Clone, PartialEq)]
pub struct CellSummary {
    /// The cell.
    pub cell: Cell,
    /// Pieces, those out of place included.
    pub pieces: u64,
    /// Pieces out of place (derived, brought in).
    pub out_of_place: u64,
    /// Pieces by class (`None`: not shown).
    pub by_class: BTreeMap<Option<Class>, u64>,
    /// Pieces by period.
    pub by_period: BTreeMap<Option<Period>, u64>,
}

impl Release {
    /// What the audience may see of the numbers.
    ///
    /// Places with fewer pieces than the agreement's smallest count are withheld whole: their finds are in no
    /// cell, table or layer, and how many there are is told in one figure for the whole study. Where counts are
    /// told as bands, that smallest count is that of the next band, or the band would be narrower for it; and
    /// numbers are replaced by stand-ins.
    pub fn publish(&self, agreement: &Agreement) -> Published {
        let mut pieces: BTreeMap<&ReleasedPlace, u64> = BTreeMap::new();
        for find in &self.finds {
            *pieces.entry(&find.place).or_default() += u64::from(find.count);
        }
        let smallest = match (u64::from(agreement.smallest_count), agreement.exact_counts) {
            (smallest, true) => smallest,
            (smallest, false) => BAND_STARTS.into_iter().find(|start| *start >= smallest).unwrap_or(smallest),
        };
        let hidden = |place: &ReleasedPlace| pieces.get(place).is_some_and(|pieces| *pieces < smallest);
        let (withheld, finds): (Vec<_>, Vec<_>) =
            self.finds.iter().cloned().partition(|find| hidden(&find.place));
        let places = pieces.keys().filter(|place| hidden(place)).count() as u64;
        let withheld = withheld.iter().map(|find| u64::from(find.count)).sum();
        let published = Published {
            cells: Vec::new(),
            tally: self.tally.clone(),
            records: finds.len() as u64,
            withheld_pieces: (agreement.exact_counts || free(withheld, places, smallest)).then_some(withheld),
            withheld_cells: places,
            withdrawn: self.withdrawn.clone(),
            bands: None,
            finds,
        };
        let published = if agreement.exact_counts { published } else { published.in_bands() };
        Published { cells: summaries(&published.finds), ..published }
    }
}

/// Whether the pieces of so many places, each under the smallest count, leave each of them free to hold from one
/// to the most.
fn free(pieces: u64, places: u64, smallest: u64) -> bool {
    let most = smallest.saturating_sub(1);
    places == 0 || (pieces >= most + places - 1 && pieces + most <= 1 + places * most)
}

impl Published {
    /// The same with stand-ins for the numbers.
    fn in_bands(self) -> Self {
        // Finds alike in all but number stand together.
        let mut finds = self.finds;
        let mut counted: Vec<(ReleasedFind, u64)> = finds
            .drain(..)
            .map(|find| (ReleasedFind { count: 0, ..find.clone() }, u64::from(find.count)))
            .collect();
        counted.par_sort_by(|(a, _), (b, _)| a.by_what_is_told(b));
        let mut alike: Vec<(ReleasedFind, u64)> = Vec::new();
        for (find, pieces) in counted {
            match alike.last_mut() {
                Some((last, sum)) if *last == find => *sum += pieces,
                _ => alike.push((find, pieces)),
            }
        }
        let kind = |find: &ReleasedFind| Kind {
            by_parish: matches!(find.place, ReleasedPlace::Parish(_)),
            out_of_place: find.out_of_place,
            class: find.class,
            period: find.period,
            strength: find.strength,
            setting: find.setting,
        };
        let mut kinds: Vec<Kind> = alike.iter().map(|(find, _)| kind(find)).collect();
        kinds.sort_unstable();
        kinds.dedup();
        let each: Vec<&[(ReleasedFind, u64)]> = alike.chunk_by(|(a, _), (b, _)| a.place == b.place).collect();
        let (places, pieces): (Vec<Place>, Vec<Vec<u64>>) = each
            .par_iter()
            .map(|finds| {
                let group = |(find, pieces): &(ReleasedFind, u64)| {
                    let kind = kinds.binary_search(&kind(find)).unwrap_or_default();
                    (kind, *pieces, find.class, find.period)
                };
                let of: Vec<_> = finds.iter().map(group).collect();
                let by_parish = finds.first().is_some_and(|(find, _)| kind(find).by_parish);
                (Place::of(by_parish, &of), of.iter().map(|group| group.1).collect())
            })
            .unzip();
        let groups = each.iter().enumerate().flat_map(|(at, finds)| (0..finds.len()).map(move |g| (at, g)));
        let groups = groups.collect();
        let totals = Totals::choose(&places, &pieces, &kinds, self.records);
        let stand_ins = stand_ins(&places, &kinds, &totals).into_iter().flatten();
        let finds = alike.into_iter().zip(stand_ins).map(|((find, _), pieces)| ReleasedFind {
            count: u32::try_from(pieces).unwrap_or(u32::MAX),
            ..find
        });
        let bands = Bands { groups, places, parted: vec![false; kinds.len()], totals };
        Self { finds: finds.collect(), bands: Some(bands), ..self }
    }

    /// How many pieces some finds are, all places together. Where all pieces are told exactly, what the others can
    /// be says more of these.
    pub fn total(&self, wanted: impl Fn(&ReleasedFind) -> bool) -> Figure {
        let figure = self.told_of(&wanted);
        let whole = self.bands.as_ref().is_some_and(|bands| !bands.parted.contains(&true));
        if figure.exact().is_some() || !whole {
            return figure;
        }
        let Some(all) = self.told_of(|_| true).exact() else { return figure };
        figure.beside(self.told_of(|find| !wanted(find)), all)
    }

    fn told_of(&self, wanted: impl Fn(&ReleasedFind) -> bool) -> Figure {
        let near = self.finds.iter().filter(|find| wanted(find)).map(|find| u64::from(find.count)).sum();
        let near: u64 = near;
        let Some(bands) = &self.bands else { return Figure::certain(near) };
        // The figure of whole kinds may be told exactly; of parts of kinds it is not.
        let (mut set, mut parted): (Set, Set) = (vec![false; bands.parted.len()], bands.parted.clone());
        let mut wanted_of: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
        for (find, (place, group)) in self.finds.iter().zip(&bands.groups) {
            let kind = bands.places.get(*place).and_then(|place| place.kinds.get(*group));
            let which = if wanted(find) { &mut set } else { &mut parted };
            if let Some(kind) = kind.and_then(|kind| which.get_mut(*kind)) {
                *kind = true;
            }
            if wanted(find) {
                wanted_of.entry(*place).or_default().push(*group);
            }
        }
        let whole = set.iter().zip(&parted).all(|(wanted, other)| !(*wanted && *other));
        let by_bands = |kinds: Option<&Set>| -> place::Range {
            let ranges = wanted_of.par_iter().filter_map(|(place, groups)| {
                let place = bands.places.get(*place)?;
                let is = |group: &&usize| {
                    let kind = place.kinds.get(**group);
                    kinds.is_none_or(|kinds| kind.and_then(|kind| kinds.get(*kind)) == Some(&true))
                };
                let groups: Vec<usize> = groups.iter().filter(is).copied().collect();
                (!groups.is_empty()).then(|| place.range(&groups))
            });
            let together = |a: place::Range, b: place::Range| (a.0 + b.0, a.1.zip(b.1).map(|(a, b)| a + b));
            ranges.reduce(|| (0, Some(0)), together)
        };
        if let Some(pieces) = whole.then(|| bands.totals.exact(&set)).flatten() {
            return Figure::certain(pieces);
        }
        let (least, most) = match whole {
            true => bands.totals.within(&set, |kinds| by_bands(Some(kinds))),
            false => by_bands(None),
        };
        Figure { near: near.clamp(least, most.unwrap_or(u64::MAX).max(least)), least, most }
    }

    /// Whether numbers stand in for the true ones.
    pub fn in_bands_only(&self) -> bool {
        self.bands.is_some()
    }
}

/// The finds of each cell together, in order of cell.
fn summaries(finds: &[ReleasedFind]) -> Vec<CellSummary> {
    let mut cells: BTreeMap<Cell, CellSummary> = BTreeMap::new();
    for find in finds {
        let ReleasedPlace::Cell(cell) = find.place else { continue };
        let summary = cells.entry(cell).or_insert_with(|| CellSummary {
            cell,
            pieces: 0,
            out_of_place: 0,
            by_class: BTreeMap::new(),
            by_period: BTreeMap::new(),
        });
        let count = u64::from(find.count);
        summary.pieces += count;
        summary.out_of_place += if find.out_of_place { count } else { 0 };
        *summary.by_class.entry(find.class).or_default() += count;
        *summary.by_period.entry(find.period).or_default() += count;
    }
    cells.into_values().collect()
}

impl Published {
    /// The finds in several parts: `part` says which a find belongs to, if any. Each part is published in its
    /// turn; what was read, set aside and withheld stays that of all of them.
    pub fn parted(&self, parts: usize, part: impl Fn(&ReleasedFind) -> Option<usize>) -> Vec<Self> {
        let mut out: Vec<Self> = (0..parts).map(|_| self.empty()).collect();
        for (at, find) in self.finds.iter().enumerate() {
            let into = part(find);
            let group = self.bands.as_ref().and_then(|bands| bands.groups.get(at).copied());
            for (index, out) in out.iter_mut().enumerate() {
                if into == Some(index) {
                    out.finds.push(find.clone());
                    out.records += 1;
                }
                if let (Some(bands), Some((place, group))) = (&mut out.bands, group) {
                    if into == Some(index) {
                        bands.groups.push((place, group));
                    } else if let Some(parted) = bands
                        .places
                        .get(place)
                        .and_then(|place| place.kinds.get(group))
                        .and_then(|kind| bands.parted.get_mut(*kind))
                    {
                        *parted = true;
                    }
                }
            }
        }
        for part in &mut out {
            part.cells = summaries(&part.finds);
        }
        out
    }

    /// Every find that is shown, in order of what is told of it.
    pub fn finds(&self) -> &[ReleasedFind] {
        &self.finds
    }

    /// Every shown cell with its finds, in order of cell.
    pub fn cells(&self) -> &[CellSummary] {
        &self.cells
    }

    /// Rows read, used and set aside.
    pub fn tally(&self) -> &Tally {
        &self.tally
    }

    /// Pieces in places that hold too few to be shown. `None` where their number would tell that of one of them.
    pub fn withheld_pieces(&self) -> Option<u64> {
        self.withheld_pieces
    }

    /// Places (cells, parishes) that hold too few pieces to be shown.
    pub fn withheld_cells(&self) -> u64 {
        self.withheld_cells
    }

    /// The register's numbers of rows that this audience was given before and that are no longer in the register. Only
    /// who is shown numbers is told.
    pub fn withdrawn(&self) -> &[String] {
        &self.withdrawn
    }

    /// Rows of the register that are shown: finds alike may stand together in [`Published::finds`].
    pub fn records(&self) -> u64 {
        self.records
    }

    /// Pieces shown, by cell and by parish together.
    pub fn pieces(&self) -> Figure {
        self.total(|_| true)
    }

    /// Pieces shown by their parish alone.
    pub fn pieces_by_parish_only(&self) -> Figure {
        self.total(|find| matches!(find.place, ReleasedPlace::Parish(_)))
    }

    /// The same without finds.
    fn empty(&self) -> Self {
        let bands = self.bands.as_ref().map(|bands| Bands { groups: Vec::new(), ..bands.clone() });
        let (tally, withdrawn) = (self.tally.clone(), self.withdrawn.clone());
        Self { finds: Vec::new(), cells: Vec::new(), records: 0, bands, tally, withdrawn, ..*self }
    }
}

/// Where the bands start.
const BAND_STARTS: [u64; 4] = [1, 3, 10, 50];

/// The ends of the band that a count lies in.
fn band_ends(pieces: u64) -> place::Range {
    match pieces {
        0..=2 => (1, Some(2)),
        3..=9 => (3, Some(9)),
        10..=49 => (10, Some(49)),
        _ => (50, None),
    }
}

/// The band that a cell's count is shown as: 1–2, 3–9, 10–49, 50 and more.
pub fn band(pieces: u64) -> &'static str {
    match pieces {
        0 => "0",
        1..=2 => "1–2",
        3..=9 => "3–9",
        10..=49 => "10–49",
        _ => "50+",
    }
}
