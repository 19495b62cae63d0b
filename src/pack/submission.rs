//! The submission for a record office: the finds at the agreed precision as CSV and GeoPackage, and a
//! sheet to print, with the fieldwork first and then each find.

use super::cover::cover;
use super::document::{Builder, Document};
use super::finds::{Reader, fieldwork, in_order};
use super::manifest::{length, precision};
use super::records::Datum;
use super::report::{CAUTIONS, byline};
use super::{Contents, Pack, fields, finds, manifest, readme};
use crate::fault::Result;
use crate::study::vocabulary::fold;
use crate::words::Words;

/// The printed sheet lists at most this many finds; the files hold them all, and the sheet says so.
const MOST_PRINTED: usize = 5_000;

/// Composes the submission for a record office: CSV, GeoPackage and a sheet to print.
pub fn submission(contents: &Contents<'_>) -> Result<Pack> {
    let mut pack = Pack { restricted: !contents.study.agreement.for_publication, ..Pack::default() };
    finds::add(&mut pack, contents, "")?;
    fields::add(&mut pack, contents, "", true);
    for edition in contents.editions() {
        super::add_sheets(&mut pack, edition, &edition.ending(contents.others.is_empty()))?;
    }
    let documents: Vec<Document> = contents.editions().map(|edition| document(edition, &pack)).collect();
    super::set(&mut pack, "submission", &documents)?;
    readme::add(&mut pack, contents, readme::Kind::Submission);
    manifest::add(&mut pack, contents, manifest::Kind::Submission)?;
    Ok(pack)
}

/// The sheet to print, for a folder that holds the files of `pack`.
fn document(contents: &Contents<'_>, pack: &Pack) -> Document {
    let mut page = Builder::new(contents);
    let words = page.words;
    let agreement = &contents.study.agreement;
    let published = contents.published;

    cover(&mut page, pack);
    page.section("places", "pack-submission-places");
    page.say_with(
        "pack-submission-summary",
        &[
            ("records", published.records().into()),
            ("pieces", published.pieces().into()),
            ("read", published.tally().read.into()),
            ("aside", published.tally().set_aside_total().into()),
        ],
    );
    page.say_with(
        "pack-submission-precision",
        &[
            ("precision", precision(contents, agreement.precision).into()),
            ("grid", crate::sheet::grid_name(&agreement.grid, words).into()),
        ],
    );
    let operations = operations(contents);
    if !operations.is_empty() {
        page.say("pack-submission-operations");
        let numbered = operations.iter().enumerate().map(|(index, told)| format!("{}. {told}", index + 1));
        page.list(if operations.len() > 1 { numbered.collect() } else { operations.clone() });
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
    add_finds(&mut page, contents, &operations);

    if !contents.sheets.is_empty() {
        page.section("maps", "pack-report-maps");
        for sheet in contents.sheets {
            page.figure(sheet);
        }
    }

    page.section("cautions", "pack-report-cautions");
    let items = CAUTIONS.iter().map(|id| words.say(id)).collect();
    page.list(items);
    let byline = byline(contents);
    page.finish("pack-submission-title", byline, true)
}

/// The operations that carried places into the agreed grid, each once.
fn operations(contents: &Contents<'_>) -> Vec<String> {
    let told = contents.published.finds().iter().filter_map(|find| find.details.as_ref()?.operation.clone());
    told.collect::<std::collections::BTreeSet<_>>().into_iter().collect()
}

/// One row a find, its values gathered under few headings so that a row fits the page.
fn add_finds(page: &mut Builder<'_>, contents: &Contents<'_>, operations: &[String]) {
    let words = page.words;
    let mut reader = Reader::new(contents);
    let mut rows = Vec::new();
    for find in in_order(contents).into_iter().take(MOST_PRINTED) {
        let mut value = |column: &str| reader.value(find, column);
        let mut say = |id: &str, column: &str| said(words, id, column, &value(column));
        // Which of several operations, by its number in the list above.
        let operation = say("", "operation").and_then(|told| {
            let number = operations.iter().position(|operation| *operation == told)? + 1;
            (operations.len() > 1)
                .then(|| words.say_with("pack-sheet-operation", &[("number", number.to_string().into())]))
        });
        let corner = [say("", "easting_m"), say("", "northing_m")];
        let corner = if let [Some(east), Some(north)] = corner {
            Some(words.say_with("pack-sheet-corner", &[("east", east.into()), ("north", north.into())]))
        } else {
            None
        };
        rows.push(vec![
            lines([say("", "number")]),
            lines([
                joined(" · ", [say("", "reference"), corner]),
                joined(
                    ", ",
                    [
                        say("pack-sheet-side", "side_m"),
                        say("pack-sheet-held", "held_m"),
                        say("pack-sheet-uncertainty", "uncertainty_m"),
                    ],
                ),
                joined("; ", [say("", "parish"), operation]),
            ]),
            lines([
                as_written(words, say("", "class"), say("", "class_as_written")),
                as_written(words, say("", "period"), say("", "period_as_written")),
            ]),
            lines([joined(", ", [say("", "pieces"), say("", "count_rough")])]),
            lines([say("", "marks"), say("pack-sheet-strength", "strength")]),
            lines([say("", "setting"), say("", "standing")]),
            lines([
                say("", "material"),
                joined(", ", [say("pack-sheet-length", "length_mm"), say("pack-sheet-weight", "weight_g")]),
            ]),
            lines([
                joined(", ", [say("", "date"), say("", "finder")]),
                say("pack-sheet-looked-at-by", "looked_at_by"),
                joined(
                    "; ",
                    [
                        say("pack-sheet-kept-at", "kept_at"),
                        say("pack-sheet-landowner", "landowner"),
                        say("pack-sheet-permission", "permission"),
                    ],
                ),
            ]),
            lines([say("", "note")]),
        ]);
    }
    let headings = ["number", "place", "what", "pieces", "marks", "lay", "measures", "people", "note"]
        .iter()
        .map(|name| words.say(&format!("pack-sheet-heading-{name}")))
        .collect();
    let widths = vec![1.0, 3.3, 2.4, 0.8, 1.9, 1.3, 1.3, 2.5, 1.5];
    page.lines("finds", words.say("pack-layer-finds"), headings, widths, rows);
}

/// A value, or a phrase that holds it as `$value`. `None` when there is nothing to say.
fn said(words: &Words, id: &str, column: &str, value: &Datum) -> Option<String> {
    let text = match (column, value) {
        (_, Datum::Nothing) => return None,
        ("side_m" | "held_m" | "uncertainty_m", Datum::Whole(n)) => length(words, *n as f64),
        ("side_m" | "held_m" | "uncertainty_m", Datum::Real(n, _)) => {
            // Under ten metres a tenth matters; above, it would say more than is known.
            length(words, if *n < 10.0 { (n * 10.0).round() / 10.0 } else { n.round() })
        }
        // Coordinates are written without grouping, as they are read out.
        (_, Datum::Whole(_)) => value.plain(),
        _ => value.said(words),
    };
    Some(if id.is_empty() { text } else { words.say_with(id, &[("value", text.into())]) })
}

/// What a find was understood as, with what was written where that says more.
fn as_written(words: &Words, term: Option<String>, written: Option<String>) -> Option<String> {
    match (term, written) {
        (Some(term), Some(written)) if fold(&term) == fold(&written) => Some(term),
        (Some(term), Some(written)) => Some(
            words.say_with("pack-sheet-as-written", &[("term", term.into()), ("written", written.into())]),
        ),
        (term, written) => term.or(written),
    }
}

fn joined<const N: usize>(between: &str, all: [Option<String>; N]) -> Option<String> {
    let parts: Vec<String> = all.into_iter().flatten().collect();
    (!parts.is_empty()).then(|| parts.join(between))
}

fn lines<const N: usize>(all: [Option<String>; N]) -> Vec<String> {
    all.into_iter().flatten().collect()
}
