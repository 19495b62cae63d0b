//! What an audience of bands is told of one place: the band of all its pieces, and of each class and period in it.

use microlp::{ComparisonOp, OptimizationDirection, Problem, Variable};

use crate::study::vocabulary::{Class, Period};

/// The least and the most that a number may be; no most where none is told.
pub(super) type Range = (u64, Option<u64>);

/// What a line counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Name {
    /// All pieces of the place.
    All,
    /// Those of a class.
    Class(Class),
    /// Those of a period.
    Period(Period),
}

/// A figure of a place that is told as a band.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Line {
    pub name: Name,
    /// The groups that it counts.
    pub groups: Vec<usize>,
    pub band: Range,
}

/// One place with its groups of finds alike. It holds no number but the ends of bands.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Place {
    /// A parish alone, and no square.
    pub by_parish: bool,
    /// What kind of finds each group is, as an index into the kinds of the study.
    pub kinds: Vec<usize>,
    /// All pieces first, then classes, then periods.
    pub lines: Vec<Line>,
}

impl Place {
    /// The place of groups with these pieces, classes and periods. The true numbers are not kept.
    pub fn of(by_parish: bool, groups: &[(usize, u64, Option<Class>, Option<Period>)]) -> Self {
        let every = || groups.iter().enumerate();
        let mut names = vec![Name::All];
        let mut classes: Vec<Name> = groups.iter().filter_map(|group| group.2.map(Name::Class)).collect();
        let mut periods: Vec<Name> = groups.iter().filter_map(|group| group.3.map(Name::Period)).collect();
        for terms in [&mut classes, &mut periods] {
            terms.sort_unstable();
            terms.dedup();
            names.append(terms);
        }
        let lines = names.into_iter().map(|name| {
            let counts = |group: &(usize, u64, Option<Class>, Option<Period>)| match name {
                Name::All => true,
                Name::Class(class) => group.2 == Some(class),
                Name::Period(period) => group.3 == Some(period),
            };
            let groups = every().filter(|(_, group)| counts(group));
            let pieces = groups.clone().map(|(_, group)| group.1).sum();
            Line { name, groups: groups.map(|(index, _)| index).collect(), band: super::band_ends(pieces) }
        });
        Self { by_parish, kinds: groups.iter().map(|group| group.0).collect(), lines: lines.collect() }
    }

    /// What no number of a line can pass by its own band and those of the lines that cross it: not always reached.
    pub fn bounds(&self, line: usize) -> Range {
        let Some(one) = self.lines.get(line) else { return (0, None) };
        let among = |groups: &[usize], of: &Line| {
            groups.iter().filter(|group| of.groups.contains(group)).count() as u64
        };
        let (mut least, mut most) = (one.band.0.max(one.groups.len() as u64), one.band.1);
        let mut narrow = |low: Option<u64>, high: Option<u64>| {
            least = least.max(low.unwrap_or(0));
            most = [most, high].into_iter().flatten().min();
        };
        // Lines of one kind (all pieces, classes, periods) part the groups; finds without a class are in no line.
        let kinds: [fn(Name) -> bool; 3] = [
            |name| name == Name::All,
            |name| matches!(name, Name::Class(_)),
            |name| matches!(name, Name::Period(_)),
        ];
        for is in kinds {
            let others: Vec<&Line> = self.lines.iter().filter(|other| is(other.name)).collect();
            let held: u64 = others.iter().map(|other| among(&one.groups, other)).sum();
            if held < one.groups.len() as u64 {
                continue;
            }
            // Every other line holds a piece at least of each of its other groups.
            let rest = |other: &&&Line| (other.groups.len() as u64) - among(&one.groups, other);
            let meeting = others.iter().filter(|other| among(&one.groups, other) > 0);
            let high =
                meeting.clone().map(|other| other.band.1.map(|most| most.saturating_sub(rest(&other))));
            narrow(None, high.sum());
            // A line all of whose groups are the line's own is part of it.
            let inside = meeting.filter(|other| rest(other) == 0);
            narrow(Some(inside.map(|other| other.band.0).sum()), None);
        }
        if let Some(all) = self.lines.first().filter(|_| line > 0) {
            let of_kind = kinds.into_iter().find(|is| is(one.name));
            let others = || {
                self.lines
                    .iter()
                    .enumerate()
                    .filter(|(at, other)| *at != line && of_kind.is_some_and(|is| is(other.name)))
            };
            let parted = others().map(|(_, other)| other.groups.len()).sum::<usize>() + one.groups.len()
                == all.groups.len();
            if parted {
                let least_of_others: u64 =
                    others().map(|(_, other)| other.band.0.max(other.groups.len() as u64)).sum();
                let most_of_others: Option<u64> = others().map(|(_, other)| other.band.1).sum();
                narrow(
                    most_of_others.map(|most| all.band.0.saturating_sub(most)),
                    all.band.1.map(|most| most.saturating_sub(least_of_others)),
                );
            }
        }
        (least, most)
    }

    /// The least and the most pieces that `wanted` groups can have together, by the bands of this place alone
    /// and with the lines of `fixed` at those numbers.
    pub fn range(&self, wanted: &[usize], fixed: &[(usize, u64)]) -> Range {
        if let ([_], [_]) = (self.kinds.as_slice(), wanted) {
            let ends = self.lines.iter().map(|line| line.band);
            let ends = ends.chain(fixed.iter().map(|(_, pieces)| (*pieces, Some(*pieces))));
            let narrower = |a: Range, b: Range| (a.0.max(b.0), [a.1, b.1].into_iter().flatten().min());
            return ends.fold((1, None), narrower);
        }
        let end = |direction| {
            let (problem, _) = self.problem(direction, wanted, fixed);
            problem.solve().ok()?.into_solution().ok().map(|solution| solution.objective())
        };
        let least = end(OptimizationDirection::Minimize)
            .map_or(wanted.len() as u64, |least| least.round().max(0.0) as u64);
        let bounded = fixed.iter().any(|(line, _)| self.counts_all(*line, wanted))
            || self
                .lines
                .iter()
                .enumerate()
                .any(|(at, line)| line.band.1.is_some() && self.counts_all(at, wanted))
            || self.covered(wanted, fixed);
        let most = bounded.then(|| end(OptimizationDirection::Maximize)).flatten();
        (least, most.map(|most| most.round().max(0.0) as u64))
    }

    /// Numbers for each group that the bands of this place allow, with these lines at these numbers.
    pub fn filled(&self, fixed: &[(usize, u64)]) -> Option<Vec<u64>> {
        let all: Vec<usize> = (0..self.kinds.len()).collect();
        let (problem, groups) = self.problem(OptimizationDirection::Minimize, &all, fixed);
        let solution = problem.solve().ok()?.into_solution().ok()?;
        Some(groups.iter().map(|group| solution.var_value(*group).round().max(1.0) as u64).collect())
    }

    /// Whether a line counts all of some groups.
    fn counts_all(&self, line: usize, wanted: &[usize]) -> bool {
        self.lines.get(line).is_some_and(|line| wanted.iter().all(|group| line.groups.contains(group)))
    }

    /// Whether each of some groups is counted by a line that has a most.
    fn covered(&self, wanted: &[usize], fixed: &[(usize, u64)]) -> bool {
        let ended = |(at, line): (usize, &Line), group: &usize| {
            line.groups.contains(group)
                && (line.band.1.is_some() || fixed.iter().any(|(fixed, _)| *fixed == at))
        };
        wanted.iter().all(|group| self.lines.iter().enumerate().any(|line| ended(line, group)))
    }

    /// The bands as a linear program. Lines nest within all pieces, by class and by period: its corners are
    /// whole numbers (two nested families of sets make a totally unimodular matrix: Schrijver 2003,
    /// *Combinatorial Optimization*, §41, from memory).
    fn problem(
        &self,
        direction: OptimizationDirection,
        wanted: &[usize],
        fixed: &[(usize, u64)],
    ) -> (Problem, Vec<Variable>) {
        let mut problem = Problem::new(direction);
        let groups: Vec<Variable> = (0..self.kinds.len())
            .map(|group| problem.add_var(f64::from(u8::from(wanted.contains(&group))), (1.0, f64::INFINITY)))
            .collect();
        for (at, line) in self.lines.iter().enumerate() {
            let sum: Vec<(Variable, f64)> =
                line.groups.iter().filter_map(|group| Some((*groups.get(*group)?, 1.0))).collect();
            if let Some((_, pieces)) = fixed.iter().find(|(fixed, _)| *fixed == at) {
                problem.add_constraint(&sum[..], ComparisonOp::Eq, *pieces as f64);
                continue;
            }
            problem.add_constraint(&sum[..], ComparisonOp::Ge, line.band.0 as f64);
            if let Some(most) = line.band.1 {
                problem.add_constraint(&sum[..], ComparisonOp::Le, most as f64);
            }
        }
        (problem, groups)
    }
}

#[cfg(test)]
mod tests {
    use super::Place;
    use crate::study::vocabulary::{Class, Period};

    #[test]
    fn ranges_by_hand() {
        let (flake, blade) = (Some(Class::Flake), Some(Class::Blade));
        // Ten flakes and one blade of no stated period: all 10 to 49, flakes 10 to 49, blades 1 or 2.
        let place = Place::of(false, &[(0, 10, flake, None), (1, 1, blade, None)]);
        assert_eq!(place.range(&[0, 1], &[]), (11, Some(49)));
        assert_eq!(place.range(&[0], &[]), (10, Some(48)));
        assert_eq!(place.range(&[1], &[]), (1, Some(2)));
        assert_eq!(place.range(&[0], &[(0, 20)]), (18, Some(19)));
        assert_eq!(place.filled(&[(0, 20), (1, 18)]), Some(vec![18, 2]));
        // Fifty and more have no most, nor has any part of them that is fifty and more.
        let rich = Place::of(false, &[(0, 70, flake, None), (1, 5, blade, Some(Period::Neolithic))]);
        assert_eq!(rich.range(&[0, 1], &[]), (53, None));
        assert_eq!(rich.range(&[1], &[]), (3, Some(9)));
        assert_eq!(Place::of(false, &[(0, 2, flake, None)]).range(&[0], &[]), (1, Some(2)));
    }
}
