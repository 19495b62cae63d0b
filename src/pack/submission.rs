//! The submission for a record office: the finds at the agreed precision as CSV and GeoPackage, and a
//! sheet to print, with the fieldwork first and then each find.

use super::cover::cover;
use super::document::{Builder, Document};
use super::fieldwork::fieldwork;
use super::finds::{Reader, in_order};
use super::manifest::{length, precision};
use super::records::Datum;
use super::report::{CAUTIONS_OF_A_SUBMISSION, byline};
use super::{Contents, Pack, fields, finds, manifest, readme, terms};
use crate::exact::ReleasedFind;
use crate::fault::Result;
use crate::study::vocabulary::fold;
use crate::words::Words;

/// The printed sheet lists at most this many finds; the files hold them all, and the sheet says so.
const MOST_PRINTED: usize = 5_000;

/// Composes the submission for a record office: CSV, GeoPackage and a sheet to print.
pub fn submission(contents: &Contents<'_>) -> Result<Pack> {
    let mut pack = Pack { restricted: !contents.study.agreement.for_publication, ..Pack::default() };
    finds::add(&mut pack, contents, "")?;
    fields::add_of_finds(&mut pack, contents);
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
    terms::terms(&mut page);
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
            // That fields without finds are listed says nothing where nobody knows which they are.
            if contents.study.fieldwork.iter().all(|walk| walk.pieces.is_none()) {
                records.caution.clear();
            }
            page.say("pack-submission-extent");
            walked(&mut page);
            page.records(&records);
        }
        None => page.say("pack-submission-no-fieldwork"),
    }

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

    page.section("finds", "pack-submission-finds");
    if published.finds().len() > MOST_PRINTED {
        page.say_with("pack-submission-too-many", &[("n", MOST_PRINTED.into())]);
    }
    add_finds(&mut page, contents, &operations);

    if !contents.sheets.is_empty() {
        page.section("maps", "pack-report-maps");
        page.say("pack-maps-reading");
        for sheet in contents.sheets {
            page.figure(sheet);
        }
    }

    page.section("cautions", "pack-report-cautions");
    let items = CAUTIONS_OF_A_SUBMISSION.iter().map(|id| words.say(id)).collect();
    page.list(items);
    let byline = byline(contents);
    page.finish("pack-submission-title", byline, true)
}

/// The operations that carried places into the agreed grid, each once.
fn operations(contents: &Contents<'_>) -> Vec<String> {
    let told = contents.published.finds().iter().filter_map(|find| find.details.as_ref()?.operation.clone());
    told.collect::<std::collections::BTreeSet<_>>().into_iter().collect()
}

/// Ground walked in all, and which gave nothing.
fn walked(page: &mut Builder<'_>) {
    let walks = &page.contents.study.fieldwork;
    let hectares: f64 = walks.iter().filter_map(|walk| walk.hectares).sum();
    let blank: Vec<&str> =
        walks.iter().filter(|walk| walk.pieces == Some(0)).map(|walk| walk.ground.as_str()).collect();
    let hectares = page.words.number(hectares, 1);
    page.say_with("pack-submission-walked", &[("n", walks.len().into()), ("hectares", hectares.into())]);
    if blank.is_empty() {
        let stated = walks.iter().any(|walk| walk.pieces.is_some());
        page.say(if stated { "pack-submission-no-blank" } else { "pack-submission-blank-unsaid" });
    } else {
        let values = [("n", blank.len().into()), ("grounds", blank.join(", ").into())];
        page.say_with("pack-submission-blank", &values);
    }
}

/// The printed columns.
const PRINTED: [&str; 8] = ["number", "found", "what", "measures", "marks", "place", "people", "note"];

/// One row a find, its values gathered under few headings so that a row fits the page.
fn add_finds(page: &mut Builder<'_>, contents: &Contents<'_>, operations: &[String]) {
    let words = page.words;
    let mut reader = Reader::new(contents);
    let finds = in_order(contents);
    let mut rows: Vec<Vec<Vec<String>>> =
        finds.into_iter().take(MOST_PRINTED).map(|find| row(find, &mut reader, words, operations)).collect();
    // What no find says takes no room.
    let said: Vec<bool> = (0..PRINTED.len())
        .map(|column| rows.iter().any(|row| row.get(column).is_some_and(|cell| !cell.is_empty())))
        .collect();
    let keep = |column: usize| said.get(column).copied().unwrap_or(true) || column == 0;
    for row in &mut rows {
        let mut column = 0..;
        row.retain(|_| column.next().is_some_and(keep));
    }
    let names = PRINTED.iter().enumerate().filter(|(column, _)| keep(*column)).map(|(_, name)| *name);
    let headings: Vec<String> = names.map(|name| words.say(&format!("pack-sheet-heading-{name}"))).collect();
    let widths = widths(&rows, headings.len());
    page.lines("finds", words.say("pack-layer-finds"), headings, widths, rows);
}

/// Letters that stand side by side on the page.
const ROOM: usize = 200;

/// Each column's share of the width: what is over when every column holds its longest word goes, a little at a
/// time, to the column that it spares the most lines.
fn widths(rows: &[Vec<Vec<String>>], columns: usize) -> Vec<f64> {
    const LEAST: usize = 10;
    const LONGEST_WORD: usize = 16;
    const SAMPLE: usize = 400;
    let every = rows.len().div_ceil(SAMPLE).max(1);
    let cells = |column: usize| rows.iter().step_by(every).filter_map(move |row| row.get(column));
    let word = |cell: &Vec<String>| {
        let words = cell.iter().flat_map(|line| line.split(' '));
        words.map(|word| word.chars().count()).max().unwrap_or(0)
    };
    let lengths: Vec<Vec<Vec<usize>>> = (0..columns)
        .map(|column| {
            cells(column).map(|cell| cell.iter().map(|line| line.chars().count()).collect()).collect()
        })
        .collect();
    // A tall cell makes its whole row tall: its lines weigh more than as many in a low one.
    let cost = |column: usize, width: usize| -> usize {
        let tall = |cell: &Vec<usize>| cell.iter().map(|length| length.div_ceil(width)).sum::<usize>();
        lengths.get(column).map_or(0, |cells| cells.iter().map(tall).map(|lines| lines.pow(3)).sum())
    };
    let mut widths: Vec<usize> = (0..columns)
        .map(|column| cells(column).map(word).max().unwrap_or(0).clamp(LEAST, LONGEST_WORD))
        .collect();
    // Lines break at words, so that one letter more may spare nothing where a few more would.
    const STEPS: [usize; 3] = [2, 6, 12];
    while widths.iter().sum::<usize>() + 2 <= ROOM {
        let left = ROOM - widths.iter().sum::<usize>();
        let gain = |(column, width): (usize, &usize), step: usize| {
            let spared = cost(column, *width).saturating_sub(cost(column, width + step));
            (spared * 12 / step, std::cmp::Reverse(column), step)
        };
        let steps = STEPS.iter().filter(|step| **step <= left);
        let best = steps.flat_map(|step| widths.iter().enumerate().map(move |at| gain(at, *step))).max();
        let Some((spared, std::cmp::Reverse(column), step)) = best else { break };
        let Some(width) = widths.get_mut(column).filter(|_| spared > 0) else { break };
        *width += step;
    }
    widths.into_iter().map(|width| width as f64).collect()
}

/// The cells of one find, in the order of [`PRINTED`].
fn row(
    find: &ReleasedFind,
    reader: &mut Reader<'_>,
    words: &Words,
    operations: &[String],
) -> Vec<Vec<String>> {
    let own_embargo = find.details.as_ref().is_some_and(|details| details.embargo.is_some());
    let mut value = |column: &str| reader.value(find, column);
    let mut say = |id: &str, column: &str| said(words, id, column, &value(column));
    let told = |id: &'static str| format!("pack-sheet-{id}");
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
    let recorded = say("", "recorded_as").filter(|recorded| Some(recorded) != say("", "reference").as_ref());
    let recorded = recorded.map(|value| words.say_with("pack-sheet-recorded-as", &[("value", value.into())]));
    let plan = [
        say(&told("section"), "section"),
        say(&told("parcel"), "parcel"),
        say(&told("plan-year"), "plan_year"),
    ];
    vec![
        lines([say("", "number"), say("", "state")]),
        lines([
            joined(", ", [say("", "date"), say("", "finder")]),
            joined(", ", [say("", "how_found"), say(&told("depth"), "depth")]),
            joined(words.semicolon(), [say("", "setting"), say("", "standing")]),
        ]),
        lines([
            as_written(words, say("", "class"), say("", "class_as_written")),
            as_written(words, say("", "period"), say("", "period_as_written")),
            joined(", ", [say(&told("pieces"), "pieces"), say("", "count_rough")]),
        ]),
        lines([
            joined(" × ", [say("", "length_mm"), say("", "breadth_mm"), say("", "thickness_mm")])
                .map(|value| words.say_with("pack-sheet-length", &[("value", value.into())])),
            say("pack-sheet-weight", "weight_g"),
            say("", "material"),
            say("", "condition"),
        ]),
        lines([say("", "marks"), say("pack-sheet-strength", "strength")]),
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
            joined(words.semicolon(), [recorded, say("", "how_placed"), operation]),
            joined(words.semicolon(), [say("", "parish"), say("", "commune_code"), say("", "place_name")]),
            joined(", ", plan),
        ]),
        lines([
            joined(", ", [say("pack-sheet-looked-at-by", "looked_at_by"), say("", "examined")]),
            joined(
                words.semicolon(),
                [say("pack-sheet-kept-at", "kept_at"), say("pack-sheet-kept-or-left", "kept_or_left")],
            ),
            say("pack-sheet-owner", "owner"),
            joined(
                words.semicolon(),
                [say("pack-sheet-landowner", "landowner"), say("pack-sheet-permission", "permission")],
            ),
            say("pack-sheet-names-consent", "names_consent"),
        ]),
        lines([
            joined(
                words.semicolon(),
                [
                    say("pack-sheet-authorisation", "authorisation"),
                    say("pack-sheet-declaration", "declaration"),
                ],
            ),
            say("pack-sheet-photographs", "photographs"),
            say("pack-sheet-publication", "publication"),
            // What holds for all of them stands on a page of its own.
            own_embargo.then(|| say("pack-sheet-embargo", "embargo")).flatten(),
            say("", "note"),
        ]),
    ]
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
