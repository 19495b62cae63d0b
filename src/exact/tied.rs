//! Finds that are tied together take the strictest: what is told of one tells of the others.
//!
//! Two ties are known. Finds of one *site* are told in one place, the one that most of them have: told square by
//! square, a tight scatter would tell its centre. And where the audience is told dates, the finds of one *day* are
//! told no finer than any of them: who knows where a walk went knows where its arrowhead came from.

use std::collections::BTreeMap;

use super::register::date;
use super::releasing::{Placer, Placing};
use super::{ExactFind, ReleasedPlace};
use crate::fault::Result;
use crate::study::vocabulary::fold;
use crate::study::{Attribute, Precision};

/// Makes each find's place as coarse as that of the finds it is tied to.
pub(super) fn take_the_strictest(
    finds: &[&ExactFind],
    places: &mut [Placing],
    placer: &mut Placer<'_>,
) -> Result<()> {
    let agreement = &placer.study().agreement;
    if !agreement.protects_ground() && agreement.stricter.is_empty() {
        return Ok(());
    }
    let dates = agreement.show.contains(&Attribute::Date);
    let day = |find: &ExactFind| {
        let written = find.more.as_deref()?.date.as_deref()?;
        Some(('d', same_day(written))).filter(|_| dates)
    };
    for group in groups(finds, |find| site(find).into_iter().chain(day(find))) {
        let mut strictest = agreement.precision;
        for index in &group {
            if let (true, Ok(placed)) = (finds[*index].has_place(), &places[*index]) {
                strictest = strictest.coarser(placer.asked(finds[*index]));
                strictest = strictest.coarser(match &placed.place {
                    // What a find was given with is no reason to tell the others less.
                    ReleasedPlace::Cell(cell) if finds[*index].is_given_finer_than(cell.side_m) => {
                        Precision::Square { side_m: cell.side_m }
                    }
                    ReleasedPlace::Cell(_) => agreement.precision,
                    ReleasedPlace::Parish(_) => Precision::Parish,
                });
            }
        }
        for index in group.iter().filter(|index| finds[**index].has_place()) {
            places[*index] = placer.place_no_finer(finds[*index], strictest)?;
        }
    }
    for group in sites(finds) {
        let placed: Vec<usize> = group.into_iter().filter(|index| finds[*index].has_place()).collect();
        let mut held: BTreeMap<ReleasedPlace, usize> = BTreeMap::new();
        for index in &placed {
            if let Ok(placed) = &places[*index] {
                *held.entry(placed.place.clone()).or_default() += 1;
            }
        }
        // The first in order where several hold as many.
        let most = held.into_iter().reduce(|a, b| if b.1 > a.1 { b } else { a });
        let Some((place, _)) = most else { continue };
        for index in placed {
            if let Ok(placed) = &mut places[index] {
                placed.place.clone_from(&place);
            }
        }
    }
    Ok(())
}

/// A day in one spelling, however it was written.
fn same_day(written: &str) -> String {
    match date::read(written) {
        Some((year, month, day)) => format!("{year}-{}-{}", month.unwrap_or(0), day.unwrap_or(0)),
        None => fold(written),
    }
}

/// The finds of each site, two at least: as their numbers, in order.
pub(super) fn sites(finds: &[&ExactFind]) -> Vec<Vec<usize>> {
    groups(finds, |find| site(find).into_iter())
}

fn site(find: &ExactFind) -> Option<(char, String)> {
    let site = fold(find.more.as_deref()?.site.as_deref()?);
    (!site.is_empty()).then_some(('s', site))
}

/// Finds that share a tie, directly or through others, two at least: as their numbers, in order.
fn groups<T: Ord, I: Iterator<Item = T>>(
    finds: &[&ExactFind],
    ties: impl Fn(&ExactFind) -> I,
) -> Vec<Vec<usize>> {
    let mut above: Vec<usize> = (0..finds.len()).collect();
    let mut first: BTreeMap<T, usize> = BTreeMap::new();
    fn top(above: &mut [usize], mut index: usize) -> usize {
        while above[index] != index {
            above[index] = above[above[index]];
            index = above[index];
        }
        index
    }
    for (index, find) in finds.iter().enumerate() {
        for tie in ties(find) {
            let other = *first.entry(tie).or_insert(index);
            let (a, b) = (top(&mut above, index), top(&mut above, other));
            above[a.max(b)] = a.min(b);
        }
    }
    let mut members: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for index in 0..finds.len() {
        let top = top(&mut above, index);
        members.entry(top).or_default().push(index);
    }
    members.into_values().filter(|group| group.len() > 1).collect()
}
