//! The parish sheet: one page for a parish's notice board, with its map at the agreed precision, its counts and
//! a few plain words. Its figures are those of the report's tables by parish.

use serde::Serialize;

use super::tongues::spaced;
use super::typeset;
use crate::analyse::{Table, Value};
use crate::fault::Result;
use crate::pack::Contents;
use crate::pack::manifest::precision;
use crate::pack::report::{capital, written_date};
use crate::pack::tables::said;
use crate::sheet::Sheet;
use crate::study::vocabulary::Country;
use crate::words::Words;

/// Room for the map, millimetres.
pub const MAP_MM: (f64, f64) = (182.0, 142.0);

/// Lines of a table before the rest are gathered into one.
const MOST_LINES: usize = 10;

#[derive(Serialize)]
#[serde(rename_all = "kebab-case")]
struct Data {
    language: &'static str,
    title: String,
    study: String,
    mark: Option<String>,
    lead: String,
    words: Vec<String>,
    map: Picture,
    tables: Vec<Tabled>,
    found: (String, String),
    cautions: Vec<String>,
    foot: String,
    date: Option<(i32, u8, u8)>,
}

#[derive(Serialize)]
#[serde(rename_all = "kebab-case")]
struct Picture {
    alt: String,
    width_mm: f64,
    height_mm: f64,
}

#[derive(Serialize)]
struct Tabled {
    caption: String,
    headings: (String, String),
    rows: Vec<(String, String)>,
}

/// The sheet of one parish, as PDF: one side of A4. `tables` are tables with a row a parish, each made a list
/// of what it holds of this one.
pub fn parish_sheet(contents: &Contents<'_>, parish: &str, map: &Sheet, tables: &[Table]) -> Result<Vec<u8>> {
    let study = contents.study;
    let words = Words::of(study.language);
    let say = |id: &str| spaced(study.language, words.say(id));
    let of_parish = |id: &str| spaced(study.language, words.say_with(id, &[("parish", parish.into())]));
    let row = |table: &Table| -> Option<Vec<Value>> {
        table
            .rows
            .iter()
            .find(|row| matches!(row.first(), Some(Value::Text(name)) if name == parish))
            .cloned()
    };
    let pieces = tables
        .iter()
        .find_map(|table| match row(table)?.last() {
            Some(Value::Whole(pieces)) => Some(*pieces),
            _ => None,
        })
        .unwrap_or(0);
    let lead = match pieces {
        0 => of_parish("pack-parish-none"),
        n => {
            let id =
                if contents.published.in_bands_only() { "pack-parish-about" } else { "pack-parish-lead" };
            spaced(study.language, words.say_with(id, &[("n", n.into())]))
        }
    };
    let shown =
        if contents.published.cells().is_empty() { "pack-parish-by-parish" } else { "pack-parish-squares" };
    let values = [("precision", precision(contents, study.agreement.precision).into())];
    let mut said = vec![spaced(study.language, words.say_with(shown, &values)), say("pack-parish-white")];
    if contents.published.in_bands_only() {
        said.push(say("pack-places-estimated"));
    }
    // Where every chance find is to be declared, "some finds" would say too little.
    let found_do = match study.country {
        Country::France => "pack-parish-found-do-france",
        _ => "pack-parish-found-do",
    };
    let data = Data {
        language: study.language.code(),
        title: of_parish("pack-parish-title"),
        study: study.title.clone(),
        mark: contents.handling(),
        lead,
        words: said,
        map: Picture { alt: map.description.clone(), width_mm: map.width_mm, height_mm: map.height_mm },
        tables: tables.iter().filter_map(|table| Some(tabled(table, &row(table)?, words))).collect(),
        found: (say("pack-parish-found"), say(found_do)),
        cautions: ["pack-parish-places", "pack-parish-land"].map(say).to_vec(),
        foot: foot(contents, words),
        date: study.date.map(|date| (date.year, date.month, date.day)),
    };
    let pictures = [("/map.svg".to_owned(), map.svg.as_str())];
    typeset::pdf(
        &format!("parish {} {parish}", study.title),
        include_str!("parish-sheet.typ"),
        &data,
        &pictures,
    )
}

/// One parish's line of a table as a list: periods in order of time, others the largest first, and at the end what is
/// out of place, which the table counts apart. What is nothing is left out, and the smallest are gathered where there
/// are many.
fn tabled(table: &Table, row: &[Value], words: &Words) -> Tabled {
    let last = table.headings.len().saturating_sub(1);
    let mut parts: Vec<(String, u64)> = Vec::new();
    for (heading, value) in table.headings.iter().zip(row).take(last).skip(1) {
        if let Value::Whole(pieces @ 1..) = value {
            parts.push((capital(heading), *pieces));
        }
    }
    let by = table.name.rsplit('-').next().unwrap_or_default();
    let apart = capital(&words.say("tables-out-of-place"));
    let (apart, mut parts): (Vec<_>, Vec<_>) = parts.into_iter().partition(|(name, _)| *name == apart);
    let in_time = parts.clone();
    parts.sort_by_key(|part| std::cmp::Reverse(part.1));
    let most = MOST_LINES - apart.len();
    let mut rest = Vec::new();
    if parts.len() > most {
        let pieces: u64 = parts.drain(most - 1..).map(|(_, pieces)| pieces).sum();
        rest.push((words.say("pack-parish-others"), pieces));
    }
    if by == "period" {
        parts = in_time.into_iter().filter(|part| parts.contains(part)).collect();
    }
    parts.extend(rest.into_iter().chain(apart));
    let total = row.last().map(|total| (words.say("pack-total"), said(total, words)));
    let rows = parts.into_iter().map(|(name, pieces)| (name, words.number(pieces as f64, 0))).chain(total);
    Tabled {
        caption: words.say(&format!("pack-parish-by-{by}")),
        headings: (words.say(&format!("pack-column-{by}")), words.say("pack-column-pieces")),
        rows: rows.collect(),
    }
}

/// Who made it, when, from what.
fn foot(contents: &Contents<'_>, words: &Words) -> String {
    let study = contents.study;
    let mut parts: Vec<String> = study.compiler.iter().chain(&study.edition).cloned().collect();
    parts.extend(study.date.map(|date| written_date(words, date)));
    parts.extend(contents.ground.credits.iter().map(|credit| credit.said(words)));
    parts.join(". ")
}
