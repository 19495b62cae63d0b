//! The report: what a society hands out. Said here once, set by `html` and `print`.

mod closing;
mod gazetteer;
mod landowner;
mod parameters;
mod results;
mod summary;

use super::document::{Block, Builder, Document};
use super::manifest::{precision, rule_words, withheld};
use super::{Contents, inline};
use crate::study::Giving;
use crate::words::Words;

/// What everybody who reads a pack should bear in mind.
pub(super) const CAUTIONS: [&str; 8] = [
    "pack-caution-nighthawking",
    "pack-caution-landowner",
    "pack-caution-report",
    "pack-caution-protected",
    "pack-caution-entry",
    "pack-caution-tides",
    "pack-caution-photographs",
    "pack-caution-ask",
];

/// The same for a submission, which withholds nothing from its reader and has terms of its own.
pub(super) const CAUTIONS_OF_A_SUBMISSION: [&str; 7] = [
    "pack-caution-landowner",
    "pack-caution-report",
    "pack-caution-protected",
    "pack-caution-entry",
    "pack-caution-tides",
    "pack-caution-photographs",
    "pack-caution-ask",
];

/// The report of a pack that holds the files at `paths`.
pub(super) fn report<'a>(contents: &Contents<'_>, paths: impl Iterator<Item = &'a String>) -> Document {
    let mut page = Builder::new(contents);
    if !contents.study.agreement.landowner.is_empty() {
        landowner::sections(&mut page);
        return page.finish("pack-land-title", byline(contents), false);
    }
    summary::summary(&mut page);
    summary::register(&mut page);
    places(&mut page);
    closing::cautions(&mut page);
    results::maps(&mut page);
    results::tables(&mut page);
    if contents.gives(Giving::Concentrations) {
        results::concentrations(&mut page);
    }
    results::shore(&mut page);
    gazetteer::gazetteer(&mut page);
    closing::method(&mut page);
    closing::fields(&mut page);
    closing::glossary(&mut page);
    closing::citing(&mut page);
    closing::sources(&mut page);
    closing::files(&mut page, paths);
    let byline = byline(contents);
    page.finish("pack-report-title", byline, false)
}

/// Who compiled it, for whom, when.
pub(super) fn byline(contents: &Contents<'_>) -> Vec<String> {
    let words = Words::of(contents.study.language);
    let study = contents.study;
    let mut lines = Vec::new();
    if let Some(compiler) = &study.compiler {
        lines.push(words.say_with("pack-report-compiled-by", &[("name", compiler.clone().into())]));
    }
    if let Some(recipient) = &study.agreement.recipient {
        lines.push(words.say_with("pack-report-for", &[("recipient", recipient.clone().into())]));
    }
    if let Some(edition) = &study.edition {
        lines.push(edition.clone());
    }
    if let Some(date) = study.date {
        lines.push(written_date(words, date));
    }
    lines
}

/// A date in words: "1 October 2026".
pub(super) fn written_date(words: &Words, date: crate::units::Date) -> String {
    let month = words.say(&format!("pack-month-{}", date.month));
    // Not as numbers: a year has no thousands mark.
    words.say_with(
        "pack-date-written",
        &[
            ("day", u32::from(date.day).into()),
            ("month", month.into()),
            ("year", date.year.to_string().into()),
        ],
    )
}

fn places(page: &mut Builder<'_>) {
    let (contents, words) = (page.contents, page.words);
    let agreement = &contents.study.agreement;
    page.section("places", "pack-report-places");
    let cells = agreement.precision.side_m().is_some();
    let sources = page.cite(["pack-source-chapman", "pack-source-chapman-wieczorek"]);
    let id = if cells { "pack-places-cells" } else { "pack-places-parish" };
    page.say_with(id, &[("sources", sources.into())]);
    page.say_with("pack-places-agreed", &[("section", inline::section("method").into())]);
    if contents.gives(Giving::Maps) && cells {
        page.say("pack-maps-reading");
    }
    let names = |prefix: &str, all: Vec<&str>| {
        let all: Vec<String> = all.iter().map(|name| words.say(&format!("pack-{prefix}-{name}"))).collect();
        all.join(", ")
    };
    let recipient = agreement.recipient.clone().unwrap_or_else(|| words.say("pack-places-everyone"));
    let mut items = vec![
        (words.say("pack-fact-for"), recipient),
        (words.say("pack-fact-grid"), grid_name(contents)),
        (words.say("pack-fact-precision"), precision(contents, agreement.precision)),
    ];
    if agreement.smallest_area_m2 > 0.0 {
        let hectares = agreement.smallest_area_m2 / 1e4;
        let decimals = usize::from(hectares < 1.0) * 2;
        items.push((
            words.say("pack-fact-smallest-area"),
            format!("{}\u{a0}ha", words.number(hectares, decimals)),
        ));
    }
    if agreement.smallest_count > 1 {
        let count = u64::from(agreement.smallest_count);
        items.push((words.say("pack-fact-smallest-count"), words.number(count as f64, 0)));
    }
    for rule in &agreement.stricter {
        let what = rule_words(contents, &rule.rule);
        items.push((
            words.say_with("pack-fact-stricter", &[("what", what.into())]),
            precision(contents, rule.precision),
        ));
    }
    items.push((
        words.say("pack-fact-shown"),
        names("shown", agreement.show.iter().map(|a| a.name()).collect()),
    ));
    items.push((
        words.say("pack-fact-given"),
        names("given", agreement.give.iter().map(|g| g.name()).collect()),
    ));
    if let Some(reason) = &agreement.reason {
        items.push((words.say("pack-fact-reason"), reason.clone()));
    }
    if let Some(review) = agreement.review {
        items.push((words.say("pack-fact-review"), written_date(words, review)));
    }
    for (_, value) in &mut items {
        *value = capital(value);
    }
    page.add(Block::Facts { items });
    let text = words.say("pack-places-withheld-heading");
    page.add(Block::Heading { text });
    page.say("pack-places-withheld");
    page.list(withheld(contents));
    suppressed(page);
    page.say("pack-places-why");
}

fn suppressed(page: &mut Builder<'_>) {
    let published = page.contents.published;
    let places = published.withheld_cells();
    if places > 0 {
        match published.withheld_pieces() {
            Some(n) => page.say_with("pack-places-suppressed", &[("n", n.into()), ("places", places.into())]),
            None => page.say_with("pack-places-suppressed-alone", &[("n", places.into())]),
        }
    }
}

/// With a capital at the start, for words that stand alone.
pub(super) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// The grid in words, with its code.
fn grid_name(contents: &Contents<'_>) -> String {
    let grid = &contents.study.agreement.grid;
    let name = crate::sheet::grid_name(grid, Words::of(contents.study.language));
    grid.epsg().map_or_else(|| name.clone(), |code| format!("{name} (EPSG:{code})"))
}
