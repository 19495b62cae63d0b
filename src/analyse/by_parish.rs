//! Pieces by parish, worked out once for the map, the layer, the tables and the words: whole numbers of finds of each
//! kind in each parish, so that figures of parishes agree wherever they are told, however they are parted.
//!
//! Pieces in a square that several parishes share are parted among them by area. For an audience of bands the pieces of
//! each kind are estimates, brought to the figures of the whole study first: those that are exact are met, those that
//! are ranges kept within them.

use std::collections::{BTreeMap, BTreeSet};

use super::sorting::{Group, groups, parishes};
use super::whole::whole;
use crate::exact::{Figure, Published, ReleasedFind};
use crate::ground::Partition;
use crate::study::vocabulary::{Class, Period, Setting, Strength};

/// What tables look at of a find.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct Kind {
    out_of_place: bool,
    class: Option<Class>,
    period: Option<Period>,
    strength: Option<Strength>,
    setting: Option<Setting>,
}

impl Kind {
    fn of(find: &ReleasedFind) -> Self {
        let ReleasedFind { out_of_place, class, period, strength, setting, .. } = *find;
        Self { out_of_place, class, period, strength, setting }
    }
}

/// Finds of one kind in one parish.
pub(super) struct InParish<'a> {
    /// One find of the kind: what it is, and not where.
    pub find: &'a ReleasedFind,
    /// The parish; `None` where no parish reaches their squares.
    pub parish: Option<String>,
    pub pieces: u64,
}

/// Kinds of finds, and their pieces in each parish.
struct Shared<'a> {
    kinds: Vec<(Kind, &'a ReleasedFind)>,
    parishes: Vec<Option<String>>,
    /// A line a kind.
    pieces: Vec<Vec<f64>>,
}

/// Whole numbers of each kind in each parish. Those of a kind add up to the pieces of that kind, and those of a parish
/// to less than a piece more or less than its share.
pub(super) fn by_parish<'a>(published: &'a Published, partition: &Partition<'_>) -> Vec<InParish<'a>> {
    let mut shared = Shared::of(published, partition);
    if published.in_bands_only() {
        shared.fit(published);
    }
    let counts = whole(&shared.pieces);
    let parts = shared.kinds.iter().zip(counts).flat_map(|((_, find), line)| {
        let of = |(parish, pieces): (&Option<String>, u64)| InParish { find, parish: parish.clone(), pieces };
        shared.parishes.iter().zip(line).filter(|(_, pieces)| *pieces > 0).map(of).collect::<Vec<_>>()
    });
    parts.collect()
}

/// Pieces by parish: those in cells shared by area, and those shown by their parish alone. In order of name; parishes
/// without finds included. Pieces whose cell no parish reaches are in none.
pub fn finds_by_parish(published: &Published, partition: &Partition<'_>) -> Vec<(String, u64)> {
    let names = partition.parish_names().into_iter().map(|name| (name.to_owned(), 0));
    let mut counts: BTreeMap<String, u64> = names.collect();
    for part in by_parish(published, partition) {
        if let Some(parish) = part.parish {
            *counts.entry(parish).or_default() += part.pieces;
        }
    }
    counts.into_iter().collect()
}

impl<'a> Shared<'a> {
    fn of(published: &'a Published, partition: &Partition<'_>) -> Self {
        let mut shares: BTreeMap<Kind, (&ReleasedFind, BTreeMap<Option<String>, f64>)> = BTreeMap::new();
        for Group { find, pieces } in groups(published) {
            let (_, line) = shares.entry(Kind::of(find)).or_insert_with(|| (find, BTreeMap::new()));
            for (parish, share) in parishes(find, partition) {
                *line.entry(parish).or_default() += pieces as f64 * share;
            }
        }
        let all: BTreeSet<&Option<String>> = shares.values().flat_map(|(_, line)| line.keys()).collect();
        let all: Vec<Option<String>> = all.into_iter().cloned().collect();
        let line = |line: &BTreeMap<Option<String>, f64>| {
            all.iter().map(|parish| line.get(parish).copied().unwrap_or(0.0)).collect()
        };
        Self {
            pieces: shares.values().map(|(_, shares)| line(shares)).collect(),
            kinds: shares.iter().map(|(kind, (find, _))| (*kind, *find)).collect(),
            parishes: all,
        }
    }

    fn totals(&self) -> Vec<f64> {
        self.pieces.iter().map(|line| line.iter().sum()).collect()
    }

    /// Brings the pieces of each kind to a whole number, and those of all, of each class, period, strength and setting
    /// to their figures.
    fn fit(&mut self, published: &Published) {
        let margins = self.margins(published);
        let mut totals = self.totals();
        rake(&mut totals, &margins);
        // Whole numbers of class by period first, then of what each has of the rest: both keep the sums.
        let by_period = |kind: &Kind| (kind.out_of_place, kind.period);
        let by_class = |kind: &Kind| (kind.out_of_place, kind.class);
        let crossed = self.rounded(&totals, &by_class, &by_period);
        for ((was, now), total) in crossed.iter().zip(&mut totals) {
            *total *= if *was > 0.0 { *now as f64 / was } else { 0.0 };
        }
        let by_both = |kind: &Kind| (kind.out_of_place, kind.class, kind.period);
        let by_rest = |kind: &Kind| (kind.strength, kind.setting);
        let counts = self.rounded(&totals, &by_both, &by_rest);
        for ((line, total), (_, count)) in self.pieces.iter_mut().zip(&totals).zip(counts) {
            let sum: f64 = line.iter().sum();
            let wanted = if *total > 0.0 { count as f64 } else { 0.0 };
            if sum > 0.0 {
                line.iter_mut().for_each(|pieces| *pieces *= wanted / sum);
            }
        }
    }

    /// A table of some totals, rounded: for each kind what its place in the table was, and what it is now.
    fn rounded<R: Ord, C: Ord>(
        &self,
        totals: &[f64],
        row: &dyn Fn(&Kind) -> R,
        column: &dyn Fn(&Kind) -> C,
    ) -> Vec<(f64, u64)> {
        let rows: BTreeSet<R> = self.kinds.iter().map(|(kind, _)| row(kind)).collect();
        let columns: BTreeSet<C> = self.kinds.iter().map(|(kind, _)| column(kind)).collect();
        let at = |kind: &Kind| {
            let (row, column) = (row(kind), column(kind));
            (rows.range(..row).count(), columns.range(..column).count())
        };
        let mut table = vec![vec![0.0; columns.len()]; rows.len()];
        for ((kind, _), total) in self.kinds.iter().zip(totals) {
            let (row, column) = at(kind);
            table[row][column] += total;
        }
        let now = whole(&table);
        let places = self.kinds.iter().map(|(kind, _)| at(kind));
        places.map(|(row, column)| (table[row][column], now[row][column])).collect()
    }

    /// What is told of the whole study: which kinds each figure counts.
    fn margins(&self, published: &Published) -> Vec<(Vec<usize>, Figure)> {
        let mut margins = Vec::new();
        let mut add = |wanted: &dyn Fn(&Kind) -> bool| {
            let kinds = self.kinds.iter().enumerate().filter(|(_, (kind, _))| wanted(kind));
            let kinds: Vec<usize> = kinds.map(|(index, _)| index).collect();
            if !kinds.is_empty() {
                margins.push((kinds, published.total(|find| wanted(&Kind::of(find)))));
            }
        };
        let classes: BTreeSet<Option<Class>> = self.kinds.iter().map(|(kind, _)| kind.class).collect();
        classes.iter().for_each(|class| add(&|kind| kind.class == *class));
        self.add_terms(&mut add, |kind| kind.class);
        self.add_terms(&mut add, |kind| kind.period);
        self.add_terms(&mut add, |kind| kind.strength);
        self.add_terms(&mut add, |kind| kind.setting);
        add(&|kind| kind.out_of_place);
        add(&|_| true);
        margins
    }

    /// The finds in place of each class, or of each period, and so on: the columns of tables.
    fn add_terms<T: Ord + Copy>(&self, add: &mut Adding<'_>, term: impl Fn(&Kind) -> Option<T>) {
        let terms: BTreeSet<Option<T>> = self.kinds.iter().map(|(kind, _)| term(kind)).collect();
        terms.iter().for_each(|known| add(&|kind| !kind.out_of_place && term(kind) == *known));
    }
}

/// Takes a figure in, by the kinds that it counts.
type Adding<'a> = dyn FnMut(&dyn Fn(&Kind) -> bool) + 'a;

/// Most rounds of raking.
const ROUNDS: usize = 2_000;

/// Scales totals until each figure holds of those that it counts (raking: Deming and Stephan 1940, *Annals of
/// Mathematical Statistics* 11). The true register meets all figures at once, so that there is something to find.
pub(super) fn rake(totals: &mut [f64], margins: &[(Vec<usize>, Figure)]) {
    for _ in 0..ROUNDS {
        let mut worst = 0.0_f64;
        for (kinds, figure) in margins {
            let sum: f64 = kinds.iter().filter_map(|kind| totals.get(*kind)).sum();
            let most = figure.most.map_or(f64::INFINITY, |most| most as f64);
            let wanted = sum.clamp(figure.least as f64, most.max(figure.least as f64));
            if sum > 0.0 {
                worst = worst.max((wanted - sum).abs());
                for kind in kinds {
                    if let Some(total) = totals.get_mut(*kind) {
                        *total *= wanted / sum;
                    }
                }
            }
        }
        if worst < 1e-8 {
            return;
        }
    }
}
