//! Finds that are tied together take the strictest: what is told of one tells of the others.
//!
//! Two ties are known. Finds of one *site* are told in one place, the one that most of them have: told square by
//! square, a tight scatter would tell its centre. And where the audience is told dates, the finds of one *day* are
//! told no finer than any of them: who knows where a walk went knows where its arrowhead came from. Where that day was
//! told before, more finely than a find that comes to it now may be told, the tie is cut instead: that find's date is not
//! told.

use std::collections::BTreeMap;

use super::register::date;
use super::releasing::{Placer, Placing};
use super::{ExactFind, ReleasedPlace};
use crate::fault::Result;
use crate::study::vocabulary::fold;
use crate::study::{Attribute, Precision};

/// Makes each find's place as coarse as that of the finds it is tied to. `told_before` is the finest that the
/// audience was told of a find before.
pub(super) fn take_the_strictest(
    finds: &[&ExactFind],
    places: &mut [Placing],
    placer: &mut Placer<'_>,
    told_before: &dyn Fn(usize) -> Option<Precision>,
) -> Result<()> {
    let agreement = &placer.study().agreement;
    if !agreement.protects_ground() && agreement.stricter.is_empty() {
        return Ok(());
    }
    let dates = agreement.show.contains(&Attribute::Date);
    let days: Vec<Option<String>> = finds
        .iter()
        .map(|find| find.more.as_deref()?.date.as_deref().filter(|_| dates).map(same_day))
        .collect();
    // How finely a find may be told for its own sake.
    let own = |places: &[Placing], index: usize| {
        let Ok(placed) = &places[index] else { return agreement.precision };
        placer.asked(finds[index]).coarser(match &placed.place {
            // What a find was given with is no reason to tell the others less.
            ReleasedPlace::Cell(cell) if finds[index].is_given_finer_than(cell.side_m) => {
                Precision::Square { side_m: cell.side_m }
            }
            ReleasedPlace::Cell(_) => agreement.precision,
            ReleasedPlace::Parish(_) => Precision::Parish,
        })
    };
    let mut day_before: BTreeMap<&str, Precision> = BTreeMap::new();
    for (index, day) in days.iter().enumerate() {
        let Some(day) = day else { continue };
        if let Some(told) = told_before(index) {
            day_before
                .entry(day)
                .and_modify(|finest| {
                    if finest.coarser(told) == *finest {
                        *finest = told;
                    }
                })
                .or_insert(told);
        }
    }
    let undated: Vec<bool> = days
        .iter()
        .enumerate()
        .map(|(index, day)| {
            let Some(told) = day.as_deref().and_then(|day| day_before.get(day)) else { return false };
            let coarser = |precision: Precision| precision.coarser(*told) != *told;
            coarser(own(places, index)) && told_before(index).is_none_or(coarser)
        })
        .collect();
    let tie = |index: usize| {
        let day = days[index].clone().filter(|_| !undated[index]).map(|day| ('d', day));
        site(finds[index]).into_iter().chain(day)
    };
    let tied = groups(finds.len(), tie);
    let strictest_of: Vec<Precision> = tied
        .iter()
        .map(|group| {
            let placed = group.iter().filter(|index| finds[**index].has_place());
            placed.fold(agreement.precision, |least, index| least.coarser(own(places, *index)))
        })
        .collect();
    for (group, strictest) in tied.iter().zip(strictest_of) {
        for index in group.iter().filter(|index| finds[**index].has_place()) {
            places[*index] = placer.place_no_finer(finds[*index], strictest)?;
        }
    }
    for (index, _) in undated.iter().enumerate().filter(|(_, undated)| **undated) {
        if let Ok(placed) = &mut places[index] {
            placed.dated = false;
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
    groups(finds.len(), |index| site(finds[index]).into_iter())
}

fn site(find: &ExactFind) -> Option<(char, String)> {
    let site = fold(find.more.as_deref()?.site.as_deref()?);
    (!site.is_empty()).then_some(('s', site))
}

/// Finds that share a tie, directly or through others, two at least: as their numbers, in order.
fn groups<T: Ord, I: Iterator<Item = T>>(finds: usize, ties: impl Fn(usize) -> I) -> Vec<Vec<usize>> {
    let mut above: Vec<usize> = (0..finds).collect();
    let mut first: BTreeMap<T, usize> = BTreeMap::new();
    fn top(above: &mut [usize], mut index: usize) -> usize {
        while above[index] != index {
            above[index] = above[above[index]];
            index = above[index];
        }
        index
    }
    for index in 0..finds {
        for tie in ties(index) {
            let other = *first.entry(tie).or_insert(index);
            let (a, b) = (top(&mut above, index), top(&mut above, other));
            above[a.max(b)] = a.min(b);
        }
    }
    let mut members: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for index in 0..finds {
        let top = top(&mut above, index);
        // The first of a group stands at its top, and comes before the others.
        if top != index {
            members.entry(top).or_insert_with(|| vec![top]).push(index);
        }
    }
    members.into_values().collect()
}
