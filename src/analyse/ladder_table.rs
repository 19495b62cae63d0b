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
