//! What an audience of bands is told of one place: the band of all its pieces, and of each class and period in it.

use super::flow::Flow;
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
    /// Numbers that the lines allow.
    pub flow: Flow,
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
        let lines: Vec<Line> = lines.collect();
        let flow = Flow::of(&lines, groups.len());
        Self { by_parish, kinds: groups.iter().map(|group| group.0).collect(), lines, flow }
    }

    /// The least and the most pieces that some groups can have together, by the bands of this place alone.
    pub fn range(&self, wanted: &[usize]) -> Range {
        self.flow.range(wanted)
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
        assert_eq!(place.range(&[0, 1]), (11, Some(49)));
        assert_eq!(place.range(&[0]), (10, Some(48)));
        assert_eq!(place.range(&[1]), (1, Some(2)));
        let mut held = place.flow.clone();
        held.hold(0, 20);
        assert_eq!(held.range(&[0]), (18, Some(19)));
        held.hold(1, 18);
        assert_eq!(held.filled(), [18, 2]);
        // Fifty and more have no most, nor has any part of them that is fifty and more.
        let rich = Place::of(false, &[(0, 70, flake, None), (1, 5, blade, Some(Period::Neolithic))]);
        assert_eq!(rich.range(&[0, 1]), (53, None));
        assert_eq!(rich.range(&[1]), (3, Some(9)));
        assert_eq!(Place::of(false, &[(0, 2, flake, None)]).range(&[0]), (1, Some(2)));
    }
}
