//! A landowner's copy: what came off that land, where it is kept, and what the finders ask. Short, since it is
//! read by somebody who did not ask for a report.

use std::collections::BTreeSet;

use super::{capital, closing, written_date};
use crate::analyse::{Table, Value as Cell};
use crate::exact::{Figure, ReleasedFind};
use crate::pack::Contents;
use crate::pack::document::{Block, Builder};
use crate::pack::finds::{Reader, in_order};
use crate::pack::manifest::precision;
use crate::study::Attribute;
use crate::units::Date;
use crate::words::Words;

/// The list names at most this many finds; the tables count them all.
const MOST_LISTED: usize = 300;

/// Columns of the list, as far as they are shown.
const LISTED: [(&str, Attribute); 6] = [
    ("number", Attribute::Number),
    ("class", Attribute::Class),
    ("period", Attribute::Period),
    ("pieces", Attribute::Count),
    ("date", Attribute::Date),
    ("kept_at", Attribute::KeptAt),
];

pub(super) fn sections(page: &mut Builder<'_>) {
    found(page);
    if !page.contents.published.finds().is_empty() {
        maps(page);
        kept(page);
    }
    thanks(page);
    closing::these_cautions(page, &CAUTIONS);
    list(page);
}

/// What somebody should bear in mind on whose land things were found.
const CAUTIONS: [&str; 5] = [
    "pack-caution-nighthawking",
    "pack-caution-report",
    "pack-caution-protected",
    "pack-caution-photographs",
    "pack-caution-ask",
];

fn found(page: &mut Builder<'_>) {
    let (contents, words) = (page.contents, page.words);
    let published = contents.published;
    let land = contents.study.agreement.landowner.first().cloned().unwrap_or_default();
    page.section("found", "pack-land-found");
    if published.finds().is_empty() {
        page.say_with("pack-land-nothing", &[("land", land.into())]);
        return;
    }
    let text = words.say_with(
        "pack-land-lead",
        &[
            ("pieces", published.pieces().into()),
            ("records", published.records().into()),
            ("land", land.into()),
        ],
    );
    page.add(Block::Lead { text });
    page.say("pack-land-what");
    if let Some(table) = contents.tables.first() {
        page.table(table);
    }
}

/// One line a find, last: whoever wants them looks there.
fn list(page: &mut Builder<'_>) {
    let (contents, words) = (page.contents, page.words);
    let show = &contents.study.agreement.show;
    let columns: Vec<&str> =
        LISTED.iter().filter(|(_, attribute)| show.contains(attribute)).map(|(column, _)| *column).collect();
    if columns.is_empty() || contents.published.finds().is_empty() {
        return;
    }
    // What comes before is to be sent back.
    page.add(Block::NewPage);
    page.section("list", "pack-land-list");
    let mut reader = Reader::new(contents);
    let rows = in_order(contents).into_iter().take(MOST_LISTED).map(|find| {
        let mut said = |column: &&str| {
            let value = reader.value(find, column).said(words);
            if *column == "date" { day_said(&value, words) } else { capital(&value) }
        };
        columns.iter().map(|column| Cell::Text(said(column))).collect()
    });
    let table = Table {
        name: "off-this-land".to_owned(),
        title: words.say("pack-land-list"),
        headings: columns
            .iter()
            .map(|column| words.say(&format!("pack-column-{}", column.replace('_', "-"))))
            .collect(),
        rows: rows.collect(),
        totals: None,
        notes: if contents.published.finds().len() > MOST_LISTED {
            vec![words.say_with("pack-land-list-cut", &[("n", MOST_LISTED.into())])]
        } else {
            Vec::new()
        },
    };
    page.table(&table);
}

/// A date as its readers write it, where the register has a day (2024-03-05) or a month (2024-03); else as it stands.
fn day_said(written: &str, words: &Words) -> String {
    let written = written.trim();
    let month = || {
        let Date { year, month, .. } = format!("{written}-01").parse().ok()?;
        Some(format!("{}\u{a0}{year}", words.say(&format!("pack-month-{month}"))))
    };
    let day = written.parse().ok().map(|date| written_date(words, date));
    day.or_else(month).unwrap_or_else(|| written.to_owned())
}

fn maps(page: &mut Builder<'_>) {
    let contents = page.contents;
    if contents.sheets.is_empty() {
        return;
    }
    page.section("maps", "pack-report-maps");
    let precision = precision(contents, contents.study.agreement.precision);
    page.say_with("pack-land-map", &[("precision", precision.into())]);
    for sheet in contents.sheets.iter().take(2) {
        page.figure(sheet);
    }
}

/// Where the pieces are kept.
fn kept(page: &mut Builder<'_>) {
    let (contents, words) = (page.contents, page.words);
    if !contents.study.agreement.show.contains(&Attribute::KeptAt) {
        return;
    }
    page.section("kept", "pack-land-kept");
    page.say("pack-land-kept-where");
    let items = places_kept(contents)
        .into_iter()
        .map(|(place, pieces)| {
            let place = place.unwrap_or_else(|| words.say("pack-land-kept-unknown"));
            (capital(&place), words.say_with("pack-land-pieces", &[("n", pieces.into())]))
        })
        .collect();
    page.add(Block::Facts { items });
}

/// Pieces by where they are kept; those of which nothing is stated last.
fn places_kept(contents: &Contents<'_>) -> Vec<(Option<String>, Figure)> {
    let kept = |find: &ReleasedFind| {
        let place = find.details.as_ref().and_then(|details| details.kept_at.clone());
        (place.is_none(), place)
    };
    let published = contents.published;
    let places: BTreeSet<(bool, Option<String>)> = published.finds().iter().map(kept).collect();
    let pieces = |place: (bool, Option<String>)| {
        let total = published.total(|find| kept(find) == place);
        (place.1, total)
    };
    places.into_iter().map(pieces).collect()
}

/// Thanks, and what the finders ask, to be answered on the page.
fn thanks(page: &mut Builder<'_>) {
    let words = page.words;
    page.section("asked", "pack-land-asked");
    page.say("pack-land-thanks");
    let to = page.contents.study.compiler.clone().unwrap_or_else(|| words.say("pack-land-ask-giver"));
    page.say_with("pack-land-ask", &[("to", to.into())]);
    let asked = ["record", "show", "name", "walk", "see"];
    let items = asked.iter().map(|name| words.say(&format!("pack-land-ask-{name}")));
    page.add(Block::Ticks { items: items.collect() });
    page.say("pack-land-unsaid");
    let lines = ["name", "reach", "signed", "date"];
    let items = lines.iter().map(|name| (capital(&words.say(&format!("pack-slip-{name}"))), String::new()));
    page.add(Block::Facts { items: items.collect() });
}
