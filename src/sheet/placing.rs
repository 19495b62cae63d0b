//! Which of its places each name takes, so that as many as can be stand and none covers another.
//!
//! First greedily, in order of importance; then by simulated annealing from there, after Christensen, Marks and
//! Shieber ("An Empirical Study of Algorithms for Point-Feature Label Placement", ACM Transactions on Graphics
//! 14(3), 1995), who found it to place more names than greedy and gradient methods do. A state never has two
//! names over each other: a name that moves onto others takes them off the map, at what they are worth. The
//! seed is fixed and the better of the two answers is kept, so that the same sheet is drawn each time.

use rand::{Rng, SeedableRng};
use rand_chacha::ChaCha8Rng;

use super::canvas::Rect;

/// A place that a name could take: its box, and what it costs to stand there, 0 for the best.
#[derive(Debug, Clone, Copy)]
pub(super) struct Candidate {
    pub rect: Rect,
    pub cost: f64,
}

/// A name, with its places from the best to the worst.
#[derive(Debug, Clone)]
pub(super) struct Wanted {
    pub candidates: Vec<Candidate>,
    /// What it costs to leave it out. Infinite for a name that must stand.
    pub worth: f64,
}

/// Temperatures: at the first, a change for the worse by 1 is taken two times in three; fifty steps down by a
/// tenth each (as Christensen, Marks and Shieber have it).
const HOT: f64 = 2.466;
const COOLING: f64 = 0.9;
const STAGES: usize = 50;
/// Moves tried at each temperature for each name.
const MOVES: usize = 20;

/// For each name the number of the place it takes; `None` for a name left out. A name that must stand and finds
/// every place taken takes its first.
pub(super) fn place(wanted: &[Wanted]) -> Vec<Option<usize>> {
    let greedy = State::greedy(wanted);
    let mut found = greedy.clone();
    found.anneal();
    found.settle();
    let best = if found.energy() < greedy.energy() { found } else { greedy };
    best.taken
}

#[derive(Clone)]
struct State<'w> {
    wanted: &'w [Wanted],
    taken: Vec<Option<usize>>,
}

impl<'w> State<'w> {
    /// Names in their order, each in the first place that is free.
    fn greedy(wanted: &'w [Wanted]) -> Self {
        let mut state = Self { wanted, taken: vec![None; wanted.len()] };
        // Those that must stand choose first.
        for must in [true, false] {
            for name in (0..wanted.len()).filter(|name| wanted[*name].worth.is_infinite() == must) {
                let free = (0..wanted[name].candidates.len()).find(|at| state.met(name, *at).is_empty());
                state.taken[name] = free;
                if must && free.is_none() {
                    state.squeeze_in(name);
                }
            }
        }
        state
    }

    /// Puts a name that must stand where others can make way for it, or else where it covers fewest of them.
    fn squeeze_in(&mut self, name: usize) {
        let places = 0..self.wanted[name].candidates.len();
        if places.clone().any(|at| self.put(name, at).is_some()) {
            return;
        }
        self.taken[name] = places.min_by_key(|at| self.met(name, *at).len());
    }

    /// Puts a name in a place. Names that it would cover go off the map, or, where they must stand, to their best
    /// free place. Gives what changed, to be undone; `None`, and nothing changed, where one of those has none.
    fn put(&mut self, name: usize, at: usize) -> Option<Vec<(usize, Option<usize>)>> {
        let off = self.met(name, at);
        let before: Vec<_> =
            off.iter().copied().chain([name]).map(|other| (other, self.taken[other])).collect();
        off.iter().for_each(|other| self.taken[*other] = None);
        self.taken[name] = Some(at);
        for other in off.into_iter().filter(|other| self.wanted[*other].worth.is_infinite()) {
            let places = 0..self.wanted[other].candidates.len();
            let free = places.filter(|at| self.met(other, *at).is_empty()).min_by(|a, b| {
                let cost = |at: usize| self.wanted[other].candidates[at].cost;
                cost(*a).total_cmp(&cost(*b))
            });
            if free.is_none() {
                self.undo(before);
                return None;
            }
            self.taken[other] = free;
        }
        Some(before)
    }

    fn undo(&mut self, before: Vec<(usize, Option<usize>)>) {
        before.into_iter().for_each(|(name, at)| self.taken[name] = at);
    }

    /// What the names in a list cost, where they stood or as they stand.
    fn cost_of(&self, names: &[(usize, Option<usize>)], before: bool) -> f64 {
        let cost = |(name, at): &(usize, Option<usize>)| {
            self.cost_at(*name, if before { *at } else { self.taken[*name] })
        };
        names.iter().map(cost).sum()
    }

    fn rect(&self, name: usize) -> Option<Rect> {
        self.taken[name].map(|at| self.wanted[name].candidates[at].rect)
    }

    /// The other names that one would cover in a place.
    fn met(&self, name: usize, at: usize) -> Vec<usize> {
        let rect = self.wanted[name].candidates[at].rect;
        (0..self.wanted.len())
            .filter(|other| *other != name && self.rect(*other).is_some_and(|taken| taken.meets(rect)))
            .collect()
    }

    fn cost(&self, name: usize) -> f64 {
        self.cost_at(name, self.taken[name])
    }

    fn cost_at(&self, name: usize, at: Option<usize>) -> f64 {
        match at {
            Some(at) => self.wanted[name].candidates[at].cost,
            // One that must stand and has no place at all changes nothing between two states.
            None if self.wanted[name].candidates.is_empty() => 0.0,
            None => self.wanted[name].worth,
        }
    }

    fn energy(&self) -> f64 {
        (0..self.wanted.len()).map(|name| self.cost(name)).sum()
    }

    fn anneal(&mut self) {
        let movable: Vec<usize> =
            (0..self.wanted.len()).filter(|name| !self.wanted[*name].candidates.is_empty()).collect();
        if movable.is_empty() {
            return;
        }
        let mut dice = ChaCha8Rng::seed_from_u64(1);
        let mut heat = HOT;
        for _ in 0..STAGES {
            for _ in 0..MOVES * movable.len() {
                let name = movable[dice.random_range(0..movable.len())];
                let at = dice.random_range(0..self.wanted[name].candidates.len());
                let luck: f64 = dice.random();
                if self.taken[name] == Some(at) {
                    continue;
                }
                let Some(before) = self.put(name, at) else { continue };
                let change = self.cost_of(&before, false) - self.cost_of(&before, true);
                if change > 0.0 && luck >= (-change / heat).exp() {
                    self.undo(before);
                }
            }
            heat *= COOLING;
        }
    }

    /// Puts every name in its best free place, those left out too, until nothing changes.
    fn settle(&mut self) {
        for _ in 0..self.wanted.len().max(1) {
            let before = self.taken.clone();
            for name in 0..self.wanted.len() {
                let better = (0..self.wanted[name].candidates.len())
                    .filter(|at| self.wanted[name].candidates[*at].cost < self.cost(name))
                    .find(|at| self.met(name, *at).is_empty());
                if better.is_some() {
                    self.taken[name] = better;
                }
            }
            if self.taken == before {
                break;
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn name(places: &[(f64, f64)], worth: f64) -> Wanted {
        let candidate = |(i, (x, y)): (usize, &(f64, f64))| Candidate {
            rect: Rect::new(*x, *y, 10.0, 4.0),
            cost: i as f64 * 0.1,
        };
        Wanted { candidates: places.iter().enumerate().map(candidate).collect(), worth }
    }

    fn apart(wanted: &[Wanted], taken: &[Option<usize>]) -> bool {
        let rects: Vec<Rect> =
            wanted.iter().zip(taken).filter_map(|(one, at)| Some(one.candidates[(*at)?].rect)).collect();
        rects.iter().enumerate().all(|(i, a)| rects[i + 1..].iter().all(|b| !a.meets(*b)))
    }

    #[test]
    fn a_name_gives_way_to_two() {
        // Greedily the first name takes the middle, and neither other finds room.
        let wanted =
            [name(&[(5.0, 0.0), (40.0, 0.0)], 1.0), name(&[(0.0, 0.0)], 1.0), name(&[(10.0, 0.0)], 1.0)];
        assert_eq!(State::greedy(&wanted).taken, [Some(0), None, None]);
        assert_eq!(place(&wanted), [Some(1), Some(0), Some(0)]);
    }

    #[test]
    fn what_must_stand_stands() {
        let wanted = [name(&[(0.0, 0.0)], 1.0), name(&[(0.0, 0.0)], 5.0), name(&[(2.0, 0.0)], f64::INFINITY)];
        assert_eq!(place(&wanted), [None, None, Some(0)]);
        assert_eq!(place(&[name(&[], 1.0)]), [None]);
        // One that must stand makes way for another that must.
        let forced = f64::INFINITY;
        let wanted = [name(&[(0.0, 0.0), (30.0, 0.0)], forced), name(&[(5.0, 0.0)], forced)];
        assert_eq!(place(&wanted), [Some(1), Some(0)]);
    }

    #[test]
    fn a_crowd_is_placed_better_than_greedily_and_never_over_each_other() {
        let mut dice = ChaCha8Rng::seed_from_u64(7);
        let (mut first, mut last) = (0, 0);
        for _ in 0..20 {
            let wanted: Vec<Wanted> = (0..60)
                .map(|_| {
                    let (x, y) = (dice.random_range(0.0..90.0), dice.random_range(0.0..45.0));
                    let around = [(0.0, -4.0), (0.0, 0.0), (-10.0, -4.0), (-10.0, 0.0)];
                    name(&around.map(|(dx, dy)| (x + dx, y + dy)), 1.0)
                })
                .collect();
            let left = |taken: &[Option<usize>]| taken.iter().filter(|at| at.is_none()).count();
            let greedy = State::greedy(&wanted);
            let found = place(&wanted);
            assert!(apart(&wanted, &greedy.taken) && apart(&wanted, &found));
            assert_eq!(found, place(&wanted));
            first += left(&greedy.taken);
            last += left(&found);
        }
        // Measured: 333 of 1,200 names left out greedily, fewer after annealing.
        assert!((last as f64) < 0.9 * first as f64, "{first} {last}");
    }
}
