//! Which figures of the whole study may be told exactly beside the bands of places.
//!
//! A figure is told exactly where finds of three places are in it, and where it narrows no line of any place: for
//! each end of what a line may be by the bands of its own place alone there is another register, in which the
//! line stands at that end, every place keeps its bands and every figure told stays as it is. Pieces that one
//! place takes, others give: how many others can give or take of each kind at once, whatever else they do, is
//! worked out first, so that the question is a small linear program for each line. Figures that stand in the
//! way are told less finely, as their band, then as three bands together, then not at all. The program itself says
//! which, at the least cost, where a piece of a figure costs what it is worth to a reader (an elastic program:
//! Chinneck 2008, *Feasibility and Infeasibility in Optimization*, from memory).

use std::collections::BTreeSet;

use microlp::{ComparisonOp, OptimizationDirection, Problem};
use rayon::prelude::*;

use super::flow::Flow;
use super::place::{Place, Range};
use crate::study::vocabulary::{Class, Period, Setting, Strength};

/// What is looked at of a find in figures of the whole study.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Kind {
    pub by_parish: bool,
    pub out_of_place: bool,
    pub class: Option<Class>,
    pub period: Option<Period>,
    pub strength: Option<Strength>,
    pub setting: Option<Setting>,
}

/// Which kinds a figure counts.
pub(super) type Set = Vec<bool>;

/// Figures that are told, from where to where they lie, those of most kinds first.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Totals(Vec<(Set, (u64, u64))>);

/// A figure of fewer places is never exact.
const LEAST_PLACES: usize = 3;

/// Fifty pieces and more have no most: a line must be able to reach twice the least.
const FREE_TO: u64 = 100;

/// The last of the ways to tell a figure that is not exact.
const COARSEST: u32 = 2;

/// More than this is never asked of one group of another place.
const MOST_MOVED: u64 = 200;

/// How deep a figure stands: the whole, one attribute, two of them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Depth {
    Cross,
    One,
    Whole,
}

struct Figure {
    set: Set,
    depth: Depth,
    places: usize,
    pieces: u64,
    /// How it is told: 0 exactly, 1 as its band, 2 as three bands.
    level: u32,
}

impl Figure {
    /// From where to where it is told to lie. Bands of figures start at 1, 3 and 10, then by ones, twos and fives.
    fn told(&self) -> (u64, u64) {
        let starts =
            || [1, 3].into_iter().chain((1..18).flat_map(|ten| [1, 2, 5].map(|lead| lead * 10_u64.pow(ten))));
        let at = starts().take_while(|start| *start <= self.pieces).count();
        let start = |at: usize| starts().nth(at.saturating_sub(1)).unwrap_or(1);
        match self.level {
            0 => (self.pieces, self.pieces),
            1 => (start(at), start(at + 1) - 1),
            _ => (start(at.saturating_sub(1)), start(at + 2) - 1),
        }
    }

    /// What it costs to leave a piece of it untold: totals of classes and periods before crosses, those of many
    /// places before those of few.
    fn worth(&self) -> f64 {
        let depth = match self.depth {
            Depth::Cross => 1.0,
            Depth::One => 20.0,
            Depth::Whole => 2_000.0,
        };
        depth * self.places as f64
    }
}

impl Totals {
    /// The figure of some kinds together, where it follows from what is told exactly.
    pub fn exact(&self, set: &Set) -> Option<u64> {
        let (sum, left) = self.parts(set, false);
        left.iter().all(|left| !left).then_some(sum.0)
    }

    /// From where to where a figure lies by what is told of it and of its parts. `rest` is from where to where
    /// kinds lie of which nothing is told.
    pub fn within(&self, set: &Set, rest: impl Fn(&Set) -> Range) -> Range {
        let rest = |set: &Set| if set.iter().any(|kind| *kind) { rest(set) } else { (0, Some(0)) };
        let direct =
            self.0.iter().find(|(told, _)| told == set).map(|(_, (least, most))| (*least, Some(*most)));
        [false, true]
            .map(|bands| {
                let (sum, left) = self.parts(set, bands);
                let left = rest(&left);
                (sum.0 + left.0, left.1.map(|most| sum.1 + most))
            })
            .into_iter()
            .chain(direct)
            .fold(rest(set), |a, b| (a.0.max(b.0), [a.1, b.1].into_iter().flatten().min()))
    }

    /// Parts of a figure that are told exactly, then those told as bands if they are asked for: from where to where
    /// they lie together, and the kinds that are left.
    fn parts(&self, set: &Set, bands: bool) -> ((u64, u64), Set) {
        let exact = self.0.iter().filter(|(_, (least, most))| least == most);
        let others = self.0.iter().filter(|(_, (least, most))| bands && least != most);
        let (mut left, mut sum) = (set.clone(), (0, 0));
        for (told, (least, most)) in exact.chain(others) {
            if told.iter().zip(&left).all(|(told, left)| !told || *left) {
                left.iter_mut().zip(told).for_each(|(left, told)| *left &= !told);
                sum = (sum.0 + least, sum.1 + most);
            }
        }
        (sum, left)
    }

    /// Chooses what is told. `pieces` are the true numbers of each place's groups; `records` is the number of
    /// rows, which is told, and each of which is a piece at least.
    pub fn choose(places: &[Place], pieces: &[Vec<u64>], kinds: &[Kind], records: u64) -> Self {
        let world = World::of(places, pieces, kinds.len(), records);
        let mut told = candidates(places, kinds, &world.kinds);
        told.retain(|figure| figure.places >= LEAST_PLACES);
        let ends: Vec<(usize, usize, u64)> = (0..places.len())
            .into_par_iter()
            .flat_map_iter(|place| world.ends(place).into_iter().map(move |(line, end)| (place, line, end)))
            .collect();
        let stuck: Vec<&(usize, usize, u64)> =
            ends.par_iter().filter(|(place, line, end)| !world.reaches(*place, *line, *end, &told)).collect();
        for (place, line, end) in stuck {
            loop {
                let in_the_way = world.in_the_way(*place, *line, *end, &told);
                if !in_the_way.iter().any(|in_the_way| *in_the_way) {
                    break;
                }
                for (figure, in_the_way) in told.iter_mut().zip(in_the_way) {
                    figure.level += u32::from(in_the_way);
                }
                told.retain(|figure| figure.level <= COARSEST);
            }
        }
        let mut told: Vec<(Set, (u64, u64))> =
            told.into_iter().map(|figure| (figure.set.clone(), figure.told())).collect();
        told.sort_by_key(|(set, _)| std::cmp::Reverse(set.iter().filter(|in_it| **in_it).count()));
        Self(told)
    }
}

/// The figures that tables, sheets and sentences may ask for.
fn candidates(places: &[Place], kinds: &[Kind], pieces: &[u64]) -> Vec<Figure> {
    let mut found: Vec<Figure> = Vec::new();
    let mut seen: BTreeSet<Set> = BTreeSet::new();
    let mut add = |depth: Depth, wanted: &dyn Fn(&Kind) -> bool| {
        let set: Set = kinds.iter().map(wanted).collect();
        let holds = |place: &&Place| place.kinds.iter().any(|kind| set.get(*kind) == Some(&true));
        let count = places.iter().filter(holds).count();
        if count > 0 && seen.insert(set.clone()) {
            let pieces = pieces.iter().zip(&set).filter(|(_, in_it)| **in_it).map(|(pieces, _)| pieces).sum();
            found.push(Figure { set, depth, places: count, pieces, level: 0 });
        }
    };
    add(Depth::Whole, &|_| true);
    add(Depth::Whole, &|kind| kind.by_parish);
    add(Depth::Whole, &|kind| !kind.by_parish);
    add(Depth::One, &|kind| kind.out_of_place);
    add(Depth::One, &|kind| !kind.out_of_place);
    let attributes: [fn(&Kind) -> Option<usize>; 4] = [
        |kind| kind.class.map(|class| class as usize),
        |kind| kind.period.map(|period| period as usize),
        |kind| kind.strength.map(|strength| strength as usize),
        |kind| kind.setting.map(|setting| setting as usize),
    ];
    let values = |of: fn(&Kind) -> Option<usize>| kinds.iter().filter_map(of).collect::<BTreeSet<usize>>();
    for of in attributes {
        for value in values(of) {
            add(Depth::One, &|kind| of(kind) == Some(value));
            add(Depth::One, &|kind| of(kind) == Some(value) && !kind.out_of_place);
            add(Depth::Cross, &|kind| of(kind) == Some(value) && kind.out_of_place);
        }
    }
    let [class, others @ ..] = attributes;
    for of in others {
        for (row, column) in
            values(class).into_iter().flat_map(|row| values(of).into_iter().map(move |c| (row, c)))
        {
            add(Depth::Cross, &|kind| {
                class(kind) == Some(row) && of(kind) == Some(column) && !kind.out_of_place
            });
        }
    }
    found
}

/// All places with their true numbers.
struct World<'a> {
    places: &'a [Place],
    pieces: &'a [Vec<u64>],
    /// Pieces of each kind.
    kinds: Vec<u64>,
    /// Pieces of each group that its place can give and take, whatever its other groups give and take.
    slack: Vec<Vec<(u64, u64)>>,
    /// The same by kind, over all places.
    give: Vec<u64>,
    take: Vec<u64>,
    records: u64,
}

impl<'a> World<'a> {
    fn of(places: &'a [Place], pieces: &'a [Vec<u64>], kinds: usize, records: u64) -> Self {
        let slack: Vec<Vec<(u64, u64)>> =
            places.par_iter().zip(pieces).map(|(place, pieces)| slack(place, pieces)).collect();
        let (mut sums, mut give, mut take) = (vec![0; kinds], vec![0; kinds], vec![0; kinds]);
        for ((place, pieces), slack) in places.iter().zip(pieces).zip(&slack) {
            for ((kind, pieces), (down, up)) in place.kinds.iter().zip(pieces).zip(slack) {
                for (sums, n) in [(&mut sums, pieces), (&mut give, down), (&mut take, up)] {
                    if let Some(sum) = sums.get_mut(*kind) {
                        *sum += *n;
                    }
                }
            }
        }
        Self { places, pieces, kinds: sums, slack, give, take, records }
    }

    /// The ends that lines of a place must be able to reach, other than those that they reach by exchange.
    fn ends(&self, place: usize) -> Vec<(usize, u64)> {
        let (bands, pieces) = (&self.places[place], &self.pieces[place]);
        let (mut ends, mut flow, mut exchanged) = (Vec::new(), bands.flow.clone(), self.exchanged(place));
        for (at, line) in bands.lines.iter().enumerate() {
            let now: u64 = line.groups.iter().map(|group| pieces[*group]).sum();
            let (least, most) = flow.line(at);
            let most = match line.band.1 {
                Some(_) => most.unwrap_or(now),
                None => most.unwrap_or(u64::MAX).min(FREE_TO.max(now)),
            };
            let stuck = |end: &u64| !exchanged.reaches(at, *end);
            ends.extend([least, most].into_iter().filter(stuck).map(|end| (at, end)));
        }
        ends
    }

    /// Whether a line may stand at a number while all figures told stay as they are and each place keeps its bands.
    fn reaches(&self, place: usize, line: usize, end: u64, told: &[Figure]) -> bool {
        !self.in_the_way(place, line, end, told).into_iter().any(|in_the_way| in_the_way)
    }

    /// The numbers of a place, and how far they may move while no figure of the whole study does: each kind goes to or
    /// from its like elsewhere.
    fn exchanged(&self, place: usize) -> Flow {
        let (bands, pieces, slack) = (&self.places[place], &self.pieces[place], &self.slack[place]);
        let limits = bands.kinds.iter().enumerate().map(|(group, kind)| {
            if bands.kinds[..group].contains(kind) {
                return (pieces[group], pieces[group]);
            }
            let own = bands.kinds.iter().zip(slack).filter(|(other, _)| *other == kind);
            let (down, up) = own.fold((0, 0), |sum, (_, slack)| (sum.0 + slack.0, sum.1 + slack.1));
            let (give, take) = (self.give[*kind] - down, self.take[*kind] - up);
            (pieces[group].saturating_sub(take).max(1), pieces[group] + give)
        });
        Flow::within(&bands.lines, pieces, &limits.collect::<Vec<_>>())
    }

    /// Which figures stand in the way of a line that is to stand at a number: by a linear program over the groups
    /// of the place and the kinds of all others, in which a figure may change at its cost. All of them, where the
    /// program has no answer.
    fn in_the_way(&self, place: usize, line: usize, end: u64, told: &[Figure]) -> Vec<bool> {
        let (bands, pieces, slack) = (&self.places[place], &self.pieces[place], &self.slack[place]);
        let mut problem = Problem::new(OptimizationDirection::Minimize);
        let groups: Vec<_> =
            pieces.iter().map(|pieces| problem.add_var(0.0, (1.0 - *pieces as f64, f64::INFINITY))).collect();
        let others: Vec<_> = (0..self.kinds.len())
            .map(|kind| {
                let own = bands.kinds.iter().zip(slack).filter(|(own, _)| **own == kind);
                let (down, up) = own.fold((0, 0), |sum, (_, slack)| (sum.0 + slack.0, sum.1 + slack.1));
                let (give, take) = (self.give[kind] - down, self.take[kind] - up);
                problem.add_var(0.0, (-(give as f64), take as f64))
            })
            .collect();
        for (at, one) in bands.lines.iter().enumerate() {
            let sum: Vec<_> = one.groups.iter().map(|group| (groups[*group], 1.0)).collect();
            let now: u64 = one.groups.iter().map(|group| pieces[*group]).sum();
            if at == line {
                problem.add_constraint(&sum[..], ComparisonOp::Eq, end as f64 - now as f64);
                continue;
            }
            problem.add_constraint(&sum[..], ComparisonOp::Ge, one.band.0 as f64 - now as f64);
            if let Some(most) = one.band.1 {
                problem.add_constraint(&sum[..], ComparisonOp::Le, most as f64 - now as f64);
            }
        }
        let counted = |wanted: &dyn Fn(usize) -> bool| {
            let own = groups.iter().zip(&bands.kinds).filter(|(_, kind)| wanted(**kind));
            let rest = others.iter().enumerate().filter(|(kind, _)| wanted(*kind));
            own.map(|(group, _)| (*group, 1.0))
                .chain(rest.map(|(_, other)| (*other, 1.0)))
                .collect::<Vec<_>>()
        };
        let changes: Vec<_> = told
            .iter()
            .map(|figure| {
                [figure.worth(), figure.worth()].map(|worth| problem.add_var(worth, (0.0, f64::INFINITY)))
            })
            .collect();
        for (figure, [more, less]) in told.iter().zip(&changes) {
            let mut sum = counted(&|kind| figure.set.get(kind) == Some(&true));
            sum.extend([(*more, -1.0), (*less, 1.0)]);
            let (least, most) = figure.told();
            let now = figure.pieces as f64;
            if least == most {
                problem.add_constraint(&sum[..], ComparisonOp::Eq, 0.0);
            } else {
                problem.add_constraint(&sum[..], ComparisonOp::Ge, least as f64 - now);
                problem.add_constraint(&sum[..], ComparisonOp::Le, most as f64 - now);
            }
        }
        let all: u64 = self.kinds.iter().sum();
        problem.add_constraint(&counted(&|_| true)[..], ComparisonOp::Ge, self.records as f64 - all as f64);
        match problem.solve().map(|outcome| outcome.into_solution()) {
            Ok(Ok(solution)) => {
                let changed =
                    |[more, less]: &[_; 2]| solution.var_value(*more) + solution.var_value(*less) > 1e-6;
                changes.iter().map(changed).collect()
            }
            _ => vec![true; told.len()],
        }
    }
}

/// Pieces that each group of a place can give and take at once, and every line stays in its band: dealt out a
/// piece at a time, so that each group has its share of what the lines leave.
fn slack(place: &Place, pieces: &[u64]) -> Vec<(u64, u64)> {
    let sums: Vec<u64> =
        place.lines.iter().map(|line| line.groups.iter().map(|group| pieces[*group]).sum()).collect();
    let down: Vec<u64> = place.lines.iter().zip(&sums).map(|(line, sum)| sum - line.band.0).collect();
    let up: Vec<u64> = place
        .lines
        .iter()
        .zip(&sums)
        .map(|(line, sum)| line.band.1.map_or(u64::MAX, |most| most - sum))
        .collect();
    let mut lines_of = vec![Vec::with_capacity(3); pieces.len()];
    for (at, line) in place.lines.iter().enumerate() {
        line.groups.iter().for_each(|group| lines_of[*group].push(at));
    }
    let deal = |mut room: Vec<u64>, most: &dyn Fn(usize) -> u64| {
        let mut dealt = vec![0_u64; pieces.len()];
        loop {
            let before = dealt.iter().sum::<u64>();
            for (group, dealt) in dealt.iter_mut().enumerate() {
                if *dealt < most(group) && lines_of[group].iter().all(|line| room[*line] > 0) {
                    *dealt += 1;
                    lines_of[group].iter().for_each(|line| room[*line] -= 1);
                }
            }
            if before == dealt.iter().sum::<u64>() {
                return dealt;
            }
        }
    };
    let gives = deal(down, &|group| pieces[group].saturating_sub(1).min(MOST_MOVED));
    let takes = deal(up, &|_| MOST_MOVED);
    gives.into_iter().zip(takes).collect()
}

#[cfg(test)]
mod tests {
    use super::{Depth, Figure};

    #[test]
    fn bands_of_figures() {
        let told =
            |pieces, level| Figure { set: Vec::new(), depth: Depth::One, places: 3, pieces, level }.told();
        assert_eq!((told(103, 0), told(103, 1), told(103, 2)), ((103, 103), (100, 199), (50, 499)));
        assert_eq!((told(2, 1), told(3, 1), told(9, 2), told(10, 1)), ((1, 2), (3, 9), (1, 19), (10, 19)));
        assert_eq!((told(2359, 1), told(1, 2)), ((2000, 4999), (1, 9)));
    }
}
