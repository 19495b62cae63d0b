//! Which find of today's register is which find of the ledger. Numbers are the register's own and may change;
//! what a row says may change too. Where neither settles it nothing is published until the owner does.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use rayon::prelude::*;
use serde::{Deserialize, Serialize};

use super::history::Telling;
use super::short;
use crate::exact::find::ExactPlace;
use crate::exact::{ExactFind, Field};
use crate::fault::{Fault, Result};
use crate::study::KnownBy;
use crate::study::vocabulary::{Class, Period, fold};

/// What the ledger knows of a find.
#[derive(Debug, Default)]
pub(super) struct Known {
    pub marks: Marks,
    pub tellings: Vec<Arc<Telling>>,
    /// For each audience a digest of what it was told last.
    pub rows: BTreeMap<String, u64>,
}

/// What a find is known again by.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub(in crate::exact) struct Marks {
    pub(super) number: Option<String>,
    /// The number as it stands in the register, where that is not the same.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    written: Option<String>,
    /// A salted digest of what its row says.
    pub(super) row: u64,
    /// A salted digest of what an audience could know it again by.
    pub(super) traits: u64,
}

impl Marks {
    /// The number as it stood in the register.
    pub(super) fn number_as_written(&self) -> Option<&String> {
        self.written.as_ref().or(self.number.as_ref())
    }
}

/// What an audience could know a find again by, in words and as a salted digest: few, and met over and over.
type Traits = BTreeMap<(Class, Period, u32), (String, u64)>;

fn marks(find: &ExactFind, salt: &str, traits: &mut Traits) -> Marks {
    let more = find.more.as_deref();
    let text = |of: fn(&crate::exact::find::More) -> &Option<String>| {
        more.and_then(|more| of(more).as_deref()).unwrap_or("")
    };
    let written = match &find.place {
        ExactPlace::Point { written, .. } => written,
        ExactPlace::ParishOnly => "",
    };
    let digest = |text: &str| short(&format!("{salt}\n{text}"));
    let (traits, traits_digest) = traits.entry((find.class, find.period, find.count)).or_insert_with(|| {
        let text = format!("{:?}\n{:?}\n{}", find.class, find.period, find.count);
        let digest = digest(&text);
        (text, digest)
    });
    let row = format!(
        "{written}\n{}\n{traits}\n{}\n{}\n{}",
        find.parish.as_deref().unwrap_or(""),
        text(|more| &more.date),
        text(|more| &more.finder),
        text(|more| &more.class_as_written),
    );
    let number = find.number.as_deref().map(fold).filter(|number| !number.is_empty());
    let written =
        find.number.clone().filter(|written| number.as_ref().is_some_and(|number| number != written));
    Marks { number, written, row: digest(&row), traits: *traits_digest }
}

/// A row of which it is not known which find it is.
pub(in crate::exact) fn doubtful(files: &[String], find: &ExactFind, id: &'static str) -> Fault {
    let file = files.get(find.file as usize).cloned().unwrap_or_default();
    Fault::new(id).at_row(find.row).in_column(Field::Number.name()).in_file(file)
}

/// The id of each find, and what it is known by.
pub(super) fn identify(
    known: &BTreeMap<u64, Known>,
    finds: &[&ExactFind],
    files: &[String],
    salt: &str,
    known_by: Option<KnownBy>,
) -> Result<Vec<(u64, Marks)>> {
    let told: Vec<Marks> =
        finds.par_iter().map_init(Traits::new, |traits, find| marks(find, salt, traits)).collect();
    let mut ids: Vec<Option<u64>> = vec![None; finds.len()];
    // The same number and the same row: the same find. Rows alike in both are alike in all that matters, and are
    // paired in order.
    let mut before: Vec<(u64, Option<&str>, u64)> =
        known.iter().map(|(id, entry)| (entry.marks.row, entry.marks.number.as_deref(), *id)).collect();
    let each = told.iter().enumerate();
    let mut now: Vec<(u64, Option<&str>, usize)> =
        each.map(|(index, marks)| (marks.row, marks.number.as_deref(), index)).collect();
    rayon::join(|| before.par_sort_unstable(), || now.par_sort_unstable());
    let (mut taken, mut rest) = (Vec::new(), before.as_slice());
    for (row, number, index) in &now {
        while let [(of, numbered, id), others @ ..] = rest
            && (of, numbered) <= (row, number)
        {
            rest = others;
            if (of, numbered) == (row, number) {
                ids[*index] = Some(*id);
                taken.push(*id);
                break;
            }
        }
    }
    taken.sort_unstable();
    let mut free: BTreeSet<u64> =
        known.keys().copied().filter(|id| taken.binary_search(id).is_err()).collect();
    // What is left was changed, renumbered, added or taken away.
    let mut by_number: BTreeMap<&str, Vec<u64>> = BTreeMap::new();
    let mut by_row: BTreeMap<u64, Vec<u64>> = BTreeMap::new();
    let mut unnumbered: BTreeMap<u64, u64> = BTreeMap::new();
    for id in free.iter().rev() {
        let Some(entry) = known.get(id) else { continue };
        match &entry.marks.number {
            Some(number) => by_number.entry(number).or_default().push(*id),
            None => *unnumbered.entry(entry.marks.traits).or_default() += 1,
        }
        by_row.entry(entry.marks.row).or_default().push(*id);
    }
    let mut rows_of: BTreeMap<&str, usize> = BTreeMap::new();
    for (index, Marks { number, .. }) in told.iter().enumerate() {
        if let (None, Some(number)) = (ids[index], number) {
            *rows_of.entry(number).or_default() += 1;
        }
    }
    let doubtful = |index: usize, id: &'static str| doubtful(files, finds[index], id);
    // Rows that were changed and keep a number of their own come before rows that say what another said: somebody
    // who knows what a row said could else put it in above it, and take its history.
    for (index, Marks { number, row, .. }) in told.iter().enumerate() {
        let Some(number) = number.as_deref().filter(|_| ids[index].is_none()) else { continue };
        let left: Vec<u64> = by_number
            .get(number)
            .map_or_else(Vec::new, |list| list.iter().copied().filter(|id| free.contains(id)).collect());
        let alike = by_row.get(row).is_some_and(|list| list.iter().any(|id| free.contains(id)));
        if let ([id], Some(1), false) = (left.as_slice(), rows_of.get(number), alike) {
            free.remove(id);
            ids[index] = Some(*id);
        }
    }
    for (index, Marks { number, row, traits, .. }) in told.iter().enumerate() {
        if ids[index].is_some() {
            continue;
        }
        let take = |list: &mut BTreeMap<u64, Vec<u64>>, key: &u64, free: &BTreeSet<u64>| {
            let list = list.get_mut(key)?;
            list.retain(|id| free.contains(id));
            list.pop()
        };
        let numbered = number.as_deref().and_then(|number| {
            let left: Vec<u64> =
                by_number.get(number)?.iter().copied().filter(|id| free.contains(id)).collect();
            (!left.is_empty()).then_some(left)
        });
        let alike = by_row.get(row).is_some_and(|list| list.iter().any(|id| free.contains(id)));
        let found = match (&numbered, alike, known_by) {
            // One row of that number left on either side: the row was changed.
            (Some(left), false, _)
                if left.len() == 1 && rows_of.get(number.as_deref().unwrap_or("")) == Some(&1) =>
            {
                left.first().copied()
            }
            // Another find says what this row says: numbers may have been given anew.
            (Some(left), true, Some(KnownBy::Number)) if left.len() == 1 => left.first().copied(),
            (_, true, Some(KnownBy::Content)) | (None, true, _) => take(&mut by_row, row, &free),
            (Some(_), true, _) => return Err(doubtful(index, "ledger-renumbered")),
            (Some(_), false, Some(KnownBy::Content)) => None,
            (Some(_), false, _) => return Err(doubtful(index, "ledger-number-twice")),
            (None, false, Some(KnownBy::Content)) => None,
            // A row without a number that could be one of the ledger's, changed.
            (None, false, _) if number.is_none() && unnumbered.get(traits).is_some_and(|n| *n > 0) => {
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
        .zip(told)
        .map(|(id, marks)| match id {
            Some(id) => (id, marks),
            None => {
                next += 1;
                (next, marks)
            }
        })
        .collect())
}
