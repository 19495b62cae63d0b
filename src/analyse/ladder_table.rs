//! The ladder of disclosed ground as a table: which squares are not shown at the agreed side. It is fixed by public
//! layers and the agreement, so that it tells nothing of where finds lie.

use std::collections::BTreeMap;

use super::{Table, Value};
use crate::coordinates::Cell;
use crate::coordinates::notation::reference;
use crate::ground::Partition;
use crate::study::PublicStudy;
use crate::units::Length;
use crate::words::Words;

/// Every square that is shown larger than agreed, or not as a square, and how its finds are told. `None` where
/// every square is shown as agreed.
pub fn ladder_table(partition: &Partition<'_>, study: &PublicStudy) -> Option<Table> {
    let words = Words::of(study.language);
    let smallest_m = partition.smallest_side_m()?;
    let (stepped, unshown) = (partition.stepped(), partition.unshown());
    if stepped.is_empty() && unshown.is_empty() {
        return None;
    }
    let told: BTreeMap<Cell, String> = stepped
        .into_iter()
        .map(|cell| (cell, words.say("ladder-as-one")))
        .chain(unshown.into_iter().map(|(cell, parish)| {
            let told = match parish {
                Some(parish) => words.say_with("ladder-by-parish", &[("parish", parish.to_owned().into())]),
                None => words.say("ladder-not-told"),
            };
            (cell, told)
        }))
        .collect();
    let side = |side_m: u32| Length { metres: f64::from(side_m) }.to_string();
    let rows = told.into_iter().map(|(cell, told)| {
        vec![Value::Text(reference(&study.grid, cell)), Value::Text(side(cell.side_m)), Value::Text(told)]
    });
    Some(Table {
        name: "ladder".to_owned(),
        title: words.say("ladder-title"),
        headings: ["ladder-square", "ladder-side", "ladder-told"].map(|id| words.say(id)).to_vec(),
        rows: rows.collect(),
        totals: None,
        notes: vec![words.say_with(
            "ladder-note",
            &[
                ("side", side(smallest_m).into()),
                ("hectares", words.number(study.agreement.smallest_area_m2 / 1e4, 2).into()),
            ],
        )],
    })
}

/// The same in short, for a page: how many squares of each side are told in which way. Squares of a coast run to
/// hundreds.
pub fn ladder_in_short(table: &Table, words: &Words) -> Table {
    // Rows come by side already, the smallest first.
    let mut sides: Vec<(&Value, BTreeMap<String, u64>)> = Vec::new();
    for row in &table.rows {
        let [_, side, Value::Text(told)] = row.as_slice() else { continue };
        if sides.last().is_none_or(|(last, _)| *last != side) {
            sides.push((side, BTreeMap::new()));
        }
        if let Some((_, ways)) = sides.last_mut() {
            *ways.entry(told.clone()).or_default() += 1;
        }
    }
    let rows = sides.into_iter().flat_map(|(side, ways)| {
        ways.into_iter().map(|(told, squares)| vec![side.clone(), Value::Text(told), Value::Whole(squares)])
    });
    let mut notes = table.notes.clone();
    notes.push(words.say("ladder-listed"));
    Table {
        headings: ["ladder-side", "ladder-told", "ladder-squares"].map(|id| words.say(id)).to_vec(),
        rows: rows.collect(),
        notes,
        ..table.clone()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::Language;

    #[test]
    fn in_short_every_square_is_counted_once() {
        let row = |square: &str, side: &str, told: &str| {
            [square, side, told].map(|t| Value::Text(t.into())).to_vec()
        };
        let table = Table {
            name: "ladder".to_owned(),
            title: String::new(),
            headings: Vec::new(),
            rows: vec![
                row("a", "200 m", "whole"),
                row("b", "200 m", "by parish"),
                row("c", "200 m", "whole"),
                row("d", "1 km", "whole"),
            ],
            totals: None,
            notes: Vec::new(),
        };
        let short = ladder_in_short(&table, Words::of(Language::English));
        let counted = |side: &str, told: &str, n: u64| {
            vec![Value::Text(side.into()), Value::Text(told.into()), Value::Whole(n)]
        };
        let expected = [("200 m", "by parish", 1), ("200 m", "whole", 2), ("1 km", "whole", 1)];
        assert_eq!(short.rows, expected.map(|(side, told, n)| counted(side, told, n)));
        assert_eq!((short.headings.len(), short.notes.len()), (3, 1));
    }
}
