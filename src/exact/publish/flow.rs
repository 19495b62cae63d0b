//! Numbers that the bands of one place allow, as a flow.
//!
//! Every group of a place has a class and a period. A piece goes from the source by its class, its group and its
//! period to the sink and back; a line is an arc, and its band is what may flow there. Flows have whole numbers, and
//! the least or the most of some groups is found by turning pieces round ways on which they gain (cycle cancelling:
//! Klein 1967, from memory). The judge in the tests is a linear program.

use std::collections::BTreeMap;

use super::place::{Line, Name, Range};

/// A flow that keeps to the bands.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Flow {
    nodes: usize,
    /// Lines first, in their order; then finds of no line; then groups.
    arcs: Vec<Arc>,
    lines: usize,
    /// The arc of each group.
    groups: Vec<usize>,
}

#[derive(Debug, Clone, PartialEq)]
struct Arc {
    from: usize,
    to: usize,
    least: u64,
    most: u64,
    now: u64,
}

/// How each node was come to, if it was: by which arc, forth or back.
type By = Vec<Option<(usize, bool)>>;

const NO_MOST: u64 = u64::MAX;
const SOURCE: usize = 0;
const SINK: usize = 1;
/// Groups of no class, and of no period.
const CLASSLESS: usize = 2;
const UNDATED: usize = 3;
/// The node of a class or period is its line's number after this.
const FIRST_LINE: usize = 4;

/// The nodes of each group's class and period.
fn ends(lines: &[Line], groups: usize) -> Vec<(usize, usize)> {
    let mut ends = vec![(CLASSLESS, UNDATED); groups];
    for (line, node) in lines.iter().zip(FIRST_LINE..) {
        for group in &line.groups {
            match line.name {
                Name::All => {}
                Name::Class(_) => ends[*group].0 = node,
                Name::Period(_) => ends[*group].1 = node,
            }
        }
    }
    ends
}

impl Flow {
    /// A flow that these lines allow over so many groups. The lines are all pieces, classes and periods.
    pub fn of(lines: &[Line], groups: usize) -> Self {
        let mut flow = Self::lines(lines, &vec![1; groups]);
        // Groups of one class and one period have an arc together.
        let mut held: BTreeMap<(usize, usize), usize> = BTreeMap::new();
        for (from, to) in ends(lines, groups) {
            let at = *held.entry((from, to)).or_insert(flow.arcs.len());
            if at == flow.arcs.len() {
                flow.arcs.push(Arc { from, to, least: 0, most: NO_MOST, now: 0 });
            }
            // Every group has a piece at least.
            flow.arcs[at].least += 1;
            flow.arcs[at].now += 1;
            flow.groups.push(at);
        }
        for line in 0..lines.len() {
            let (least, most) = (flow.arcs[line].least, flow.arcs[line].most);
            flow.bring(line, least, most);
        }
        flow
    }

    /// A flow that stands at the pieces of each group, which the lines allow; each group keeps within its limits too.
    pub fn within(lines: &[Line], pieces: &[u64], limits: &[(u64, u64)]) -> Self {
        let mut flow = Self::lines(lines, pieces);
        for (((from, to), now), (least, most)) in
            ends(lines, pieces.len()).into_iter().zip(pieces).zip(limits)
        {
            flow.groups.push(flow.arcs.len());
            flow.arcs.push(Arc { from, to, least: *least, most: *most, now: *now });
        }
        flow
    }

    /// The arcs of lines, with these pieces in each group.
    fn lines(lines: &[Line], pieces: &[u64]) -> Self {
        let sum = |groups: &[usize]| groups.iter().map(|group| pieces[*group]).sum::<u64>();
        let mut arcs: Vec<Arc> = lines
            .iter()
            .zip(FIRST_LINE..)
            .map(|(line, node)| {
                let (from, to) = match line.name {
                    Name::All => (SINK, SOURCE),
                    Name::Class(_) => (SOURCE, node),
                    Name::Period(_) => (node, SINK),
                };
                let most = line.band.1.unwrap_or(NO_MOST);
                Arc { from, to, least: line.band.0, most, now: sum(&line.groups) }
            })
            .collect();
        let ends = ends(lines, pieces.len());
        let of = |is: &dyn Fn(&(usize, usize)) -> bool| {
            ends.iter().zip(pieces).filter(|(ends, _)| is(ends)).map(|(_, pieces)| pieces).sum()
        };
        let classless = of(&|ends| ends.0 == CLASSLESS);
        let undated = of(&|ends| ends.1 == UNDATED);
        arcs.push(Arc { from: SOURCE, to: CLASSLESS, least: 0, most: NO_MOST, now: classless });
        arcs.push(Arc { from: UNDATED, to: SINK, least: 0, most: NO_MOST, now: undated });
        Self { nodes: FIRST_LINE + lines.len(), arcs, lines: lines.len(), groups: Vec::new() }
    }

    /// The least and the most of a line.
    pub fn line(&mut self, line: usize) -> Range {
        self.push(line, false, NO_MOST);
        let least = self.arcs[line].now;
        if self.endless(|at| at == line) {
            return (least, None);
        }
        self.push(line, true, NO_MOST);
        (least, Some(self.arcs[line].now))
    }

    /// Whether a line can stand at a number. It stands there after, or as near as it can.
    pub fn reaches(&mut self, line: usize, pieces: u64) -> bool {
        self.bring(line, pieces, pieces);
        self.arcs[line].now == pieces
    }

    /// The least and the most that some groups can have together.
    pub fn range(&self, wanted: &[usize]) -> Range {
        let mut flow = self.clone();
        let mut held = vec![0_u64; flow.arcs.len()];
        for group in wanted {
            held[self.groups[*group]] += 1;
        }
        let mut counts = vec![false; flow.arcs.len()];
        for (at, held) in held.into_iter().enumerate() {
            let rest = flow.arcs[at].least - held.min(flow.arcs[at].least);
            if held > 0 && rest > 0 {
                // The other groups of the arc have an arc of their own.
                let arc = Arc { least: rest, now: rest, ..flow.arcs[at].clone() };
                flow.arcs[at].least = held;
                flow.arcs[at].now -= rest;
                flow.arcs.push(arc);
                counts.push(false);
            }
            counts[at] = held > 0;
        }
        flow.ends(&counts)
    }

    /// Holds a line at a number within its range.
    pub fn hold(&mut self, line: usize, pieces: u64) {
        self.bring(line, pieces, pieces);
        self.arcs[line].least = pieces;
        self.arcs[line].most = pieces;
    }

    /// Numbers for each group: those of one class and one period share alike.
    pub fn filled(&self) -> Vec<u64> {
        let mut left: BTreeMap<usize, (u64, u64)> = BTreeMap::new();
        for at in &self.groups {
            left.entry(*at).or_insert((self.arcs[*at].now, 0)).1 += 1;
        }
        let share = |at: &usize| {
            let (pieces, groups) = left.entry(*at).or_insert((1, 1));
            let share = pieces.div_ceil(*groups);
            *pieces -= share;
            *groups -= 1;
            share
        };
        self.groups.iter().map(share).collect()
    }

    /// The least and the most that some arcs carry together.
    fn ends(&mut self, counts: &[bool]) -> Range {
        let carried = |flow: &Self| -> u64 {
            flow.arcs.iter().zip(counts).filter(|(_, counts)| **counts).map(|(arc, _)| arc.now).sum()
        };
        let gain: Vec<i64> = counts.iter().map(|counts| i64::from(*counts)).collect();
        let loss: Vec<i64> = gain.iter().map(|gain| -gain).collect();
        while let Some(way) = self.way(&loss) {
            self.turn(&way, NO_MOST);
        }
        let least = carried(self);
        if self.endless(|at| counts[at]) {
            return (least, None);
        }
        while let Some(way) = self.way(&gain) {
            self.turn(&way, NO_MOST);
        }
        (least, Some(carried(self)))
    }

    /// Whether some way all round by one of these arcs has no end: by a class, a group, a period and all pieces.
    fn endless(&self, counts: impl Fn(usize) -> bool) -> bool {
        let lines = 0..self.lines + 2;
        (lines.end..self.arcs.len()).any(|group| {
            let class = lines.clone().find(|line| self.arcs[*line].to == self.arcs[group].from);
            let period = lines.clone().find(|line| self.arcs[*line].from == self.arcs[group].to);
            let way = || [Some(0), class, Some(group), period].into_iter().flatten();
            way().all(|at| self.arcs[at].most == NO_MOST) && way().any(&counts)
        })
    }

    /// Brings an arc to where it may lie, as far as the others allow.
    fn bring(&mut self, at: usize, least: u64, most: u64) {
        let now = self.arcs[at].now;
        self.push(at, true, least.saturating_sub(now));
        self.push(at, false, now.saturating_sub(most));
    }

    /// Carries more by an arc, or less, as far as the others allow and no more than asked for.
    fn push(&mut self, at: usize, up: bool, asked: u64) {
        // One room for all searches: a study of many places makes a million of them.
        let (mut left, mut by) = (asked, By::new());
        while left > 0
            && let Some(way) = self.way_by(at, up, &mut by)
        {
            left -= self.turn(&way, left);
        }
    }

    /// Turns as many pieces as can go, and no more than asked for, round one way. Arcs out of their bounds never go
    /// further out.
    fn turn(&mut self, way: &[(usize, bool)], asked: u64) -> u64 {
        let room = |(at, forth): &(usize, bool)| {
            let arc = &self.arcs[*at];
            if *forth { arc.most - arc.now } else { arc.now - arc.least }
        };
        let pieces = way.iter().map(room).min().unwrap_or(0).min(asked);
        for (at, forth) in way {
            let now = &mut self.arcs[*at].now;
            *now = if *forth { *now + pieces } else { *now - pieces };
        }
        pieces
    }

    /// Whether more can go by an arc, forth or back.
    fn free(&self, at: usize, forth: bool) -> bool {
        let arc = &self.arcs[at];
        if forth { arc.now < arc.most } else { arc.now > arc.least }
    }

    /// A closed way by one arc, forth or back.
    fn way_by(&self, at: usize, forth: bool, by: &mut By) -> Option<Vec<(usize, bool)>> {
        if !self.free(at, forth) {
            return None;
        }
        let arc = &self.arcs[at];
        let (start, goal) = if forth { (arc.to, arc.from) } else { (arc.from, arc.to) };
        by.clear();
        by.resize(self.nodes, None);
        by[start] = Some((at, forth));
        let mut farther = true;
        while farther && by[goal].is_none() {
            farther = false;
            for (other, arc) in self.arcs.iter().enumerate() {
                // Forth from where the search was, or back to where it was not.
                let forth = by[arc.from].is_some();
                if forth != by[arc.to].is_some() && other != at && self.free(other, forth) {
                    by[if forth { arc.to } else { arc.from }] = Some((other, forth));
                    farther = true;
                }
            }
        }
        self.round(by, goal)
    }

    /// A closed way with a gain, arc by arc, forth or back (Bellman 1958 and Ford 1956, for the longest way).
    fn way(&self, gain: &[i64]) -> Option<Vec<(usize, bool)>> {
        let mut best = vec![0_i64; self.nodes];
        let mut by: By = vec![None; self.nodes];
        for _ in 0..=self.nodes {
            let mut better = false;
            for (at, arc) in self.arcs.iter().enumerate() {
                if self.free(at, true) && best[arc.from] + gain[at] > best[arc.to] {
                    best[arc.to] = best[arc.from] + gain[at];
                    by[arc.to] = Some((at, true));
                    better = true;
                }
                if self.free(at, false) && best[arc.to] - gain[at] > best[arc.from] {
                    best[arc.from] = best[arc.to] - gain[at];
                    by[arc.from] = Some((at, false));
                    better = true;
                }
            }
            if !better {
                return None;
            }
            let round = (0..self.nodes).find_map(|node| self.round(&by, node));
            if round.is_some() {
                return round;
            }
        }
        None
    }

    /// The way back from a node to itself.
    fn round(&self, by: &By, node: usize) -> Option<Vec<(usize, bool)>> {
        let mut way = Vec::new();
        let mut here = node;
        for _ in 0..self.nodes {
            let (at, forth) = by[here]?;
            way.push((at, forth));
            here = if forth { self.arcs[at].from } else { self.arcs[at].to };
            if here == node {
                return Some(way);
            }
        }
        None
    }
}

#[cfg(test)]
mod tests {
    use microlp::{ComparisonOp, OptimizationDirection, Problem};
    use rand::Rng;
    use rand::SeedableRng;
    use rand_chacha::ChaCha8Rng;

    use super::super::place::{Place, Range};
    use crate::study::vocabulary::{Class, Period};

    /// The slow way: a linear program for each end.
    fn judged(place: &Place, wanted: &[usize], held: &[(usize, u64)]) -> Range {
        let end = |direction| {
            let mut problem = Problem::new(direction);
            let groups: Vec<_> = (0..place.kinds.len())
                .map(|group| {
                    problem.add_var(f64::from(u8::from(wanted.contains(&group))), (1.0, f64::INFINITY))
                })
                .collect();
            for (at, line) in place.lines.iter().enumerate() {
                let sum: Vec<_> = line.groups.iter().map(|group| (groups[*group], 1.0)).collect();
                let held = held.iter().find(|held| held.0 == at).map(|held| (held.1, Some(held.1)));
                let (least, most) = held.unwrap_or(line.band);
                problem.add_constraint(&sum[..], ComparisonOp::Ge, least as f64);
                if let Some(most) = most {
                    problem.add_constraint(&sum[..], ComparisonOp::Le, most as f64);
                }
            }
            let solution = problem.solve().ok()?.into_solution().ok()?;
            Some(solution.objective().round() as u64)
        };
        (end(OptimizationDirection::Minimize).unwrap(), end(OptimizationDirection::Maximize))
    }

    #[test]
    fn the_ends_are_those_of_a_linear_program() {
        let mut random = ChaCha8Rng::seed_from_u64(20_261_126);
        let classes = [None, Some(Class::Flake), Some(Class::Blade), Some(Class::Core), Some(Class::Scraper)];
        let periods = [None, Some(Period::Mesolithic), Some(Period::Neolithic), Some(Period::BronzeAge)];
        let (mut asked, mut endless) = (0, 0);
        for _ in 0..400 {
            let groups: Vec<_> = (0..random.random_range(1..14_usize))
                .map(|_| {
                    let pieces = [1, 1, 2, 4, 9, 12, 60][random.random_range(0..7_usize)];
                    let (class, period) = (random.random_range(0..5_usize), random.random_range(0..4_usize));
                    (0, pieces, classes[class], periods[period])
                })
                .collect();
            let place = Place::of(false, &groups);
            let mut flow = place.flow.clone();
            let mut held = Vec::new();
            for (at, line) in place.lines.iter().enumerate() {
                let range = flow.line(at);
                assert_eq!(range, judged(&place, &line.groups, &held), "{groups:?} line {at}, held {held:?}");
                let mut moved = flow.clone();
                for (pieces, can) in [
                    (Some(range.0), true),
                    (range.1, true),
                    (range.0.checked_sub(1), false),
                    (range.1.map(|most| most + 1), false),
                ] {
                    assert!(
                        pieces.is_none_or(|pieces| moved.reaches(at, pieces) == can),
                        "{groups:?} line {at}"
                    );
                }
                let (least, most) = (range.0, range.1.unwrap_or(range.0 + 80));
                let wanted: Vec<usize> = (0..groups.len()).filter(|_| random.random_bool(0.4)).collect();
                let range = flow.range(&wanted);
                assert_eq!(range, judged(&place, &wanted, &held), "{groups:?} groups {wanted:?}");
                (asked, endless) = (asked + 2, endless + usize::from(range.1.is_none()));
                if random.random_bool(0.7) {
                    let pieces = random.random_range(least..=most);
                    flow.hold(at, pieces);
                    held.push((at, pieces));
                }
                let filled = flow.filled();
                for (at, line) in place.lines.iter().enumerate() {
                    let sum: u64 = line.groups.iter().map(|group| filled[*group]).sum();
                    let within = line.band.0 <= sum && line.band.1.is_none_or(|most| sum <= most);
                    assert!(within, "{groups:?}: line {at} is filled with {sum}");
                    assert!(held.iter().all(|(line, pieces)| *line != at || *pieces == sum));
                }
                assert!(filled.iter().all(|pieces| *pieces >= 1));
            }
        }
        assert!(asked > 4000 && endless > 100, "{asked} asked, {endless} without an end");
    }
}
