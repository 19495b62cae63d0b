//! Which find of today's register is which find of the ledger. Numbers are the register's own and may change;
//! what a row says may change too. Where neither settles it nothing is published until the owner does.

use std::collections::{BTreeMap, BTreeSet};

use super::history::Telling;
use super::short;
use crate::exact::find::ExactPlace;
use crate::exact::{ExactFind, Field};
use crate::fault::{Fault, Result};
use crate::study::KnownBy;
use crate::study::vocabulary::fold;

/// What the ledger knows of a find.
#[derive(Debug, Default)]
pub(super) struct Known {
    pub number: Option<String>,
    /// A salted digest of what its row says.
    pub mark: String,
    /// A salted digest of what an audience could know it again by.
    pub traits: String,
    pub tellings: Vec<Telling>,
    /// For each audience a digest of what it was told last.
    pub rows: BTreeMap<String, String>,
}

/// A find's number, and digests of its row and of its traits.
pub(super) fn marks(find: &ExactFind, salt: &str) -> (Option<String>, String, String) {
    let more = find.more.as_deref();
    let text = |of: fn(&crate::exact::find::More) -> &Option<String>| {
        more.and_then(|more| of(more).as_deref()).unwrap_or("")
    };
    let written = match &find.place {
        ExactPlace::Point { written, .. } => written,
        ExactPlace::ParishOnly => "",
    };
    let traits = format!("{:?}\n{:?}\n{}", find.class, find.period, find.count);
    let row = format!(
        "{written}\n{}\n{traits}\n{}\n{}\n{}",
        find.parish.as_deref().unwrap_or(""),
        text(|more| &more.date),
        text(|more| &more.finder),
        text(|more| &more.class_as_written),
    );
    let number = find.number.as_deref().map(fold).filter(|number| !number.is_empty());
    (number, short(&format!("{salt}\n{row}")), short(&format!("{salt}\n{traits}")))
}

/// The id of each find, and whether it is new.
pub(super) fn identify(
    known: &BTreeMap<u64, Known>,
    finds: &[&ExactFind],
    files: &[String],
    salt: &str,
    known_by: Option<KnownBy>,
) -> Result<Vec<(u64, bool)>> {
    let told: Vec<_> = finds.iter().map(|find| marks(find, salt)).collect();
    let mut ids: Vec<Option<u64>> = vec![None; finds.len()];
    let mut free: BTreeSet<u64> = known.keys().copied().collect();
    // The same number and the same row: the same find. Rows alike in both are alike in all that matters.
    let mut both: BTreeMap<(Option<&str>, &str), Vec<u64>> = BTreeMap::new();
    for (id, entry) in known.iter().rev() {
        both.entry((entry.number.as_deref(), &entry.mark)).or_default().push(*id);
    }
    for (index, (number, mark, _)) in told.iter().enumerate() {
        if let Some(id) = both.get_mut(&(number.as_deref(), mark.as_str())).and_then(Vec::pop) {
            ids[index] = Some(id);
            free.remove(&id);
        }
    }
    // What is left was changed, renumbered, added or taken away.
    let mut by_number: BTreeMap<&str, Vec<u64>> = BTreeMap::new();
    let mut by_mark: BTreeMap<&str, Vec<u64>> = BTreeMap::new();
    let mut unnumbered: BTreeMap<&str, u64> = BTreeMap::new();
    for id in free.iter().rev() {
        let Some(entry) = known.get(id) else { continue };
        match &entry.number {
            Some(number) => by_number.entry(number).or_default().push(*id),
            None => *unnumbered.entry(&entry.traits).or_default() += 1,
        }
        by_mark.entry(&entry.mark).or_default().push(*id);
    }
    let mut rows_of: BTreeMap<&str, usize> = BTreeMap::new();
    for (index, (number, _, _)) in told.iter().enumerate() {
        if let (None, Some(number)) = (ids[index], number) {
            *rows_of.entry(number).or_default() += 1;
        }
    }
    let doubtful = |index: usize, id: &'static str| {
        let find = finds[index];
        let file = files.get(find.file as usize).cloned().unwrap_or_default();
        Fault::new(id).at_row(find.row).in_column(Field::Number.name()).in_file(file)
    };
    // Rows that were changed and keep a number of their own come before rows that say what another said: somebody
    // who knows what a row said could else put it in above it, and take its history.
    for (index, (number, mark, _)) in told.iter().enumerate() {
        let Some(number) = number.as_deref().filter(|_| ids[index].is_none()) else { continue };
        let left: Vec<u64> = by_number
            .get(number)
            .map_or_else(Vec::new, |list| list.iter().copied().filter(|id| free.contains(id)).collect());
        let alike = by_mark.get(mark.as_str()).is_some_and(|list| list.iter().any(|id| free.contains(id)));
        if let ([id], Some(1), false) = (left.as_slice(), rows_of.get(number), alike) {
            free.remove(id);
            ids[index] = Some(*id);
        }
    }
    for (index, (number, mark, traits)) in told.iter().enumerate() {
        if ids[index].is_some() {
            continue;
        }
        let take = |list: &mut BTreeMap<&str, Vec<u64>>, key: &str, free: &BTreeSet<u64>| {
            let list = list.get_mut(key)?;
            list.retain(|id| free.contains(id));
            list.pop()
        };
        let numbered = number.as_deref().and_then(|number| {
            let left: Vec<u64> =
                by_number.get(number)?.iter().copied().filter(|id| free.contains(id)).collect();
            (!left.is_empty()).then_some(left)
        });
        let alike = by_mark.get(mark.as_str()).is_some_and(|list| list.iter().any(|id| free.contains(id)));
        let found = match (&numbered, alike, known_by) {
            // One row of that number left on either side: the row was changed.
            (Some(left), false, _)
                if left.len() == 1 && rows_of.get(number.as_deref().unwrap_or("")) == Some(&1) =>
            {
                left.first().copied()
            }
            // Another find says what this row says: numbers may have been given anew.
            (Some(left), true, Some(KnownBy::Number)) if left.len() == 1 => left.first().copied(),
            (_, true, Some(KnownBy::Content)) | (None, true, _) => take(&mut by_mark, mark, &free),
            (Some(_), true, _) => return Err(doubtful(index, "ledger-renumbered")),
            (Some(_), false, Some(KnownBy::Content)) => None,
            (Some(_), false, _) => return Err(doubtful(index, "ledger-number-twice")),
            (None, false, Some(KnownBy::Content)) => None,
            // A row without a number that could be one of the ledger's, changed.
            (None, false, _)
                if number.is_none() && unnumbered.get(traits.as_str()).is_some_and(|n| *n > 0) =>
            {
                return Err(doubtful(index, "ledger-unnumbered"));
            }
            (None, false, _) => None,
        };
        if let Some(id) = found {
            free.remove(&id);
            ids[index] = Some(id);
        }
    }
    let mut next = known.keys().last().copied().unwrap_or(0);
    Ok(ids
        .into_iter()
        .map(|id| match id {
            Some(id) => (id, false),
            None => {
                next += 1;
                (next, true)
            }
        })
        .collect())
}
