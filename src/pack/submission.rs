//! The submission for a record office: the finds at the agreed precision as CSV and GeoPackage, and a
//! sheet to print, with the fieldwork first and then each find.

use super::document::{Builder, Document};
use super::finds::{Reader, fieldwork, in_order};
use super::manifest::{length, precision};
use super::records::Datum;
use super::report::{CAUTIONS, byline};
use super::{Contents, Pack, finds, manifest, readme};
use crate::fault::Result;
use crate::words::{Value, Words};

/// The printed sheet lists at most this many finds; the files hold them all, and the sheet says so.
const MOST_PRINTED: usize = 5_000;

/// Composes the submission for a record office: CSV, GeoPackage and a sheet to print.
pub fn submission(contents: &Contents<'_>) -> Result<Pack> {
    let mut pack = Pack { restricted: !contents.study.agreement.for_publication, ..Pack::default() };
    finds::add(&mut pack, contents, "")?;
    super::add_sheets(&mut pack, contents)?;
    super::set(&mut pack, "submission", &document(contents))?;
    readme::add(&mut pack, contents, readme::Kind::Submission);
    manifest::add(&mut pack, contents, manifest::Kind::Submission)?;
    Ok(pack)
}

/// The sheet to print.
fn document(contents: &Contents<'_>) -> Document {
    let mut page = Builder::new(contents);
    let words = page.words;
    let agreement = &contents.study.agreement;
    let published = contents.published;

    page.section("places", "pack-submission-places");
    page.say_with(
        "pack-submission-summary",
        &[
            ("records", published.finds().len().into()),
            ("pieces", published.pieces().into()),
            ("read", published.tally().read.into()),
            ("aside", published.tally().set_aside_total().into()),
        ],
    );
    page.say_with(
        "pack-submission-precision",
        &[
            ("precision", precision(contents, agreement.precision).into()),
            ("grid", agreement.grid.to_string().into()),
        ],
    );
    let operations = operations(contents);
    if !operations.is_empty() {
        page.say("pack-submission-operations");
        page.add(super::document::Block::List { items: operations });
    }

    page.section("fieldwork", "pack-submission-fieldwork");
    match fieldwork(contents) {
        Some(mut records) => {
            // The page itself carries the mark.
            if contents.handling().is_some() {
                records.columns.pop();
                for row in &mut records.rows {
                    row.values.pop();
                }
            }
            page.records(&records);
        }
        None => page.say("pack-submission-no-fieldwork"),
    }

    page.section("finds", "pack-submission-finds");
    if published.finds().len() > MOST_PRINTED {
        page.say_with("pack-submission-too-many", &[("n", MOST_PRINTED.into())]);
    }
    add_finds(&mut page, contents);

    if !contents.sheets.is_empty() {
        page.section("maps", "pack-report-maps");
        for sheet in contents.sheets {
            page.figure(sheet);
        }
    }

    page.section("cautions", "pack-report-cautions");
    let items = CAUTIONS.iter().map(|id| words.say(id)).collect();
    page.add(super::document::Block::List { items });
    let byline = byline(contents);
    page.finish("pack-submission-title", byline, true)
}

/// The operations that carried places into the agreed grid, each once.
fn operations(contents: &Contents<'_>) -> Vec<String> {
    let told = contents.published.finds().iter().filter_map(|find| find.details.as_ref()?.operation.clone());
    told.collect::<std::collections::BTreeSet<_>>().into_iter().collect()
}

/// One row a find, its values gathered under few headings so that a row fits the page.
fn add_finds(page: &mut Builder<'_>, contents: &Contents<'_>) {
    let words = page.words;
    let mut reader = Reader::new(contents);
    let mut rows = Vec::new();
    for find in in_order(contents).into_iter().take(MOST_PRINTED) {
        let mut value = |column: &str| reader.value(find, column);
        let mut line = |id: &str, columns: &[&str]| {
            let values: Vec<Datum> = columns.iter().map(|column| value(column)).collect();
            labelled(words, id, columns, &values)
        };
        rows.push(vec![
            lines([line("", &["number"])]),
            lines([
                line("", &["reference"]),
                line("pack-sheet-corner", &["easting_m", "northing_m"]),
                line("pack-sheet-side", &["side_m"]),
                line("pack-sheet-held", &["held_m"]),
                line("pack-sheet-uncertainty", &["uncertainty_m"]),
                line("", &["parish"]),
            ]),
            lines([
                line("", &["class"]),
                line("pack-sheet-as-written", &["class_as_written"]),
                line("", &["period"]),
                line("pack-sheet-period-as-written", &["period_as_written"]),
            ]),
            lines([line("", &["pieces"]), line("", &["count_rough"])]),
            lines([line("", &["marks"]), line("pack-sheet-strength", &["strength"])]),
            lines([line("", &["setting"]), line("", &["standing"])]),
            lines([
                line("", &["material"]),
                line("pack-sheet-length", &["length_mm"]),
                line("pack-sheet-weight", &["weight_g"]),
            ]),
            lines([
                line("", &["date"]),
                line("", &["finder"]),
                line("pack-sheet-looked-at-by", &["looked_at_by"]),
                line("pack-sheet-kept-at", &["kept_at"]),
                line("pack-sheet-permission", &["permission"]),
            ]),
            lines([line("", &["note"])]),
        ]);
    }
    let headings = ["number", "place", "what", "pieces", "marks", "lay", "measures", "people", "note"]
        .iter()
        .map(|name| words.say(&format!("pack-sheet-heading-{name}")))
        .collect();
    let widths = vec![1.1, 2.2, 2.0, 0.8, 1.7, 1.4, 1.4, 2.0, 1.7];
    page.lines(words.say("pack-layer-finds"), headings, widths, rows);
}

/// A line of a cell: its values after what they are. `None` when there is nothing to say.
fn labelled(words: &Words, id: &str, columns: &[&str], values: &[Datum]) -> Option<String> {
    if values.iter().any(|value| matches!(value, Datum::Nothing)) {
        return None;
    }
    if id.is_empty() {
        return values.first().map(|value| value.said(words));
    }
    let arguments: Vec<(&str, Value)> = columns
        .iter()
        .zip(values)
        .map(|(column, value)| {
            let text = match (*column, value) {
                // Coordinates and references are written without grouping.
                ("easting_m" | "northing_m", value) => value.plain(),
                ("side_m" | "held_m" | "uncertainty_m", Datum::Whole(n)) => length(words, *n as f64),
                ("side_m" | "held_m" | "uncertainty_m", Datum::Real(n, _)) => length(words, *n),
                (_, value) => value.said(words),
            };
            (*column, text.into())
        })
        .collect();
    Some(words.say_with(id, &arguments))
}

fn lines<const N: usize>(all: [Option<String>; N]) -> Vec<String> {
    all.into_iter().flatten().collect()
}
