//! What every sheet says in words: the agreed precision, what is shown and what is not, cautions,
//! sources, datum, who made it and when.

use super::Scene;
use super::layout::{Block, Heading, Item};
use crate::coordinates::System;
use crate::study::{Precision, PublicStudy};
use crate::units::Date;
use crate::words::{Value, Words};

/// How many pieces a map shows, and how many it does not.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(super) struct Shown {
    /// Pieces on the map.
    pub pieces: u64,
    /// Pieces known by their parish alone, on no square of the map.
    pub by_parish_only: u64,
    /// Pieces out of place, left out of a density.
    pub out_of_place: u64,
}

/// The words above the map.
pub(super) fn heading(study: &PublicStudy, words: &Words, kind: &str, detail: &str) -> Heading {
    let agreement = &study.agreement;
    let warning = (!agreement.for_publication).then(|| match &agreement.recipient {
        Some(recipient) => {
            words.say_with("sheet-not-for-publication-for", &[("recipient", recipient.clone().into())])
        }
        None => words.say("sheet-not-for-publication"),
    });
    Heading { warning, title: study.title.clone(), kind: kind.to_owned(), detail: detail.to_owned() }
}

/// The blocks of words under (or beside) the legend.
pub(super) fn blocks<'a>(
    scene: &Scene<'_>,
    words: &Words,
    shown: Shown,
    cautions: &[String],
) -> Vec<Block<'a>> {
    let mut read =
        vec![Item::Heading(words.say("sheet-heading-cautions")), Item::Note(words.say("sheet-no-symbol"))];
    read.extend(cautions.iter().cloned().map(Item::Note));
    read.push(Item::Note(words.say("sheet-permission")));
    let mut out = vec![
        precision_block(scene.study, words),
        Block { id: "counts", rank: 1, items: counts(scene, words, shown) },
        Block { id: "cautions", rank: 1, items: read },
    ];
    out.push(Block { id: "sources", rank: 2, items: sources(scene, words) });
    out
}

/// How finely places are shown.
pub(super) fn precision_block<'a>(study: &PublicStudy, words: &Words) -> Block<'a> {
    let mut items =
        vec![Item::Heading(words.say("sheet-heading-precision")), Item::Note(precision(study, words))];
    if study.agreement.stricter.iter().any(|rule| rule.precision != study.agreement.precision) {
        items.push(Item::Note(words.say("sheet-precision-stricter")));
    }
    Block { id: "precision", rank: 0, items }
}

fn counts<'a>(scene: &Scene<'_>, words: &Words, shown: Shown) -> Vec<Item<'a>> {
    let published = scene.published;
    let mut out = vec![
        Item::Heading(words.say("sheet-heading-counts")),
        Item::Note(words.say_with("sheet-shown", &[("n", shown.pieces.into())])),
    ];
    let mut add = |id: &str, n: u64| {
        if n > 0 {
            out.push(Item::Note(words.say_with(id, &[("n", n.into())])));
        }
    };
    add("sheet-by-parish-only", shown.by_parish_only);
    add("sheet-out-of-place", shown.out_of_place);
    add("sheet-withheld", published.withheld_pieces());
    let tally = published.tally();
    if tally.set_aside_total() > 0 {
        let values: [(&str, Value); 2] = [("n", tally.set_aside_total().into()), ("read", tally.read.into())];
        out.push(Item::Note(words.say_with("sheet-set-aside", &values)));
    }
    out
}

fn precision(study: &PublicStudy, words: &Words) -> String {
    match study.agreement.precision {
        Precision::Parish => words.say("sheet-precision-parish"),
        Precision::Square { side_m } => words.say_with(
            "sheet-precision-square",
            &[("side", side(words, side_m).into()), ("grid", grid(&study.grid, words).into())],
        ),
    }
}

/// "100 m", "1 km".
pub(super) fn side(words: &Words, side_m: u32) -> String {
    let (id, n) = if side_m >= 1000 && side_m.is_multiple_of(100) {
        let km = f64::from(side_m) / 1000.0;
        ("sheet-km", words.number(km, usize::from(!side_m.is_multiple_of(1000))))
    } else {
        ("sheet-m", words.number(f64::from(side_m), 0))
    };
    words.say_with(id, &[("n", Value::Text(n))])
}

/// The working grid's name, in words.
pub fn grid(system: &System, words: &Words) -> String {
    match system {
        System::BritishGrid => words.say("sheet-grid-british"),
        System::Lambert93 => words.say("sheet-grid-lambert-93"),
        other => words.say_with("sheet-grid-other", &[("system", other.to_string().into())]),
    }
}

fn datum(system: &System, words: &Words) -> String {
    match system {
        System::BritishGrid => words.say("sheet-datum-british"),
        System::Lambert93 => words.say("sheet-datum-lambert-93"),
        other => words.say_with("sheet-datum-other", &[("system", other.to_string().into())]),
    }
}

fn sources<'a>(scene: &Scene<'_>, words: &Words) -> Vec<Item<'a>> {
    let study = scene.study;
    let mut out =
        vec![Item::Heading(words.say("sheet-heading-sources")), Item::Note(datum(&study.grid, words))];
    if !scene.ground.credits.is_empty() {
        let credits = scene.ground.credits.join("; ");
        out.push(Item::Note(words.say_with("sheet-credits", &[("credits", credits.into())])));
    }
    out.push(Item::Note(made(study, words)));
    out
}

/// Who compiled it, which edition, which day.
fn made(study: &PublicStudy, words: &Words) -> String {
    let mut parts = Vec::new();
    if let Some(compiler) = &study.compiler {
        parts.push(words.say_with("sheet-compiler", &[("name", compiler.clone().into())]));
    }
    if let Some(edition) = &study.edition {
        // "2" wants the word before it; "First edition" does not.
        let bare = edition.chars().all(|c| c.is_ascii_digit() || c == '.');
        let id = if bare { "sheet-edition" } else { "sheet-edition-named" };
        parts.push(words.say_with(id, &[("edition", edition.clone().into())]));
    }
    if let Some(date) = study.date {
        parts.push(words.say_with("sheet-dated", &[("date", day(date, words).into())]));
    }
    parts.push(words.say("sheet-made-with"));
    parts.join(" ")
}

/// A day in words.
pub(super) fn day(date: Date, words: &Words) -> String {
    let month = words.say_with("sheet-month", &[("month", u64::from(date.month).into())]);
    words.say_with(
        "sheet-day",
        &[
            ("day", Value::Text(date.day.to_string())),
            ("first", Value::Text(if date.day == 1 { "yes" } else { "no" }.into())),
            ("month", month.into()),
            ("year", Value::Text(date.year.to_string())),
        ],
    )
}
