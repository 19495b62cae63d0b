//! The report's first words: what there is, in figures, and the register it comes from.

use std::collections::{BTreeMap, BTreeSet};

use super::capital;
use super::gazetteer::Parishes;
use crate::analyse::{Table, Value as Cell};
use crate::exact::{Figure, ReleasedFind};
use crate::pack::Contents;
use crate::pack::document::{Block, Builder};
use crate::pack::fieldwork::percent;
use crate::pack::inline;
use crate::pack::manifest::length;
use crate::study::vocabulary::{Period, Term};
use crate::words::Words;

/// Pieces by what is shown of them.
fn totals<T: Ord + Copy>(
    contents: &Contents<'_>,
    of: impl Fn(&ReleasedFind) -> Option<T>,
) -> BTreeMap<T, Figure> {
    let keys: BTreeSet<T> = contents.published.finds().iter().filter_map(&of).collect();
    keys.into_iter().map(|key| (key, contents.published.total(|find| of(find) == Some(key)))).collect()
}

pub(super) fn summary(page: &mut Builder<'_>) {
    let (contents, words) = (page.contents, page.words);
    let published = contents.published;
    let pieces = published.pieces();
    page.section("summary", "pack-report-summary");
    if published.finds().is_empty() {
        page.say("pack-summary-nothing");
        return;
    }
    let classes = totals(contents, |find| find.class);
    // Those out of place stand in a column of their own in the tables by period, and so they do here.
    let periods = totals(contents, |find| find.period.filter(|_| !find.out_of_place));
    let out_of_place = published.total(|find| find.out_of_place);
    let in_place = published.total(|find| !find.out_of_place);
    let dated: Vec<(Period, Figure)> = periods
        .iter()
        .filter(|(period, _)| !matches!(period, Period::Undated | Period::Prehistoric))
        .map(|(period, pieces)| (*period, *pieces))
        .collect();
    // As many as the tables have with a piece: a sliver of a square is not one.
    let parishes = Parishes::of(contents)
        .map_or(0, |parishes| parishes.totals().iter().filter(|(_, pieces)| *pieces > 0).count());
    let text = words
        .say_with("pack-summary-lead", &[("pieces", pieces.into()), ("records", published.records().into())]);
    page.add(Block::Lead { text });
    let mut items = vec![
        (figure(words, pieces), words.say_with("pack-number-pieces", &[("n", pieces.into())])),
        number(words, "pack-number-records", published.records() as usize),
    ];
    let side = contents.study.agreement.precision.side_m();
    if !published.cells().is_empty() {
        items.push(number(words, "pack-number-cells", published.cells().len()));
    }
    for (id, count) in [
        ("pack-number-classes", classes.len()),
        ("pack-number-periods", dated.len()),
        ("pack-number-parishes", parishes),
    ] {
        if count > 0 {
            items.push(number(words, id, count));
        }
    }
    page.add(Block::Numbers { items });
    if !out_of_place.is_nothing() {
        let values = [("n", out_of_place.into()), ("in", in_place.into())];
        page.say_with("pack-summary-out-of-place", &values);
    }
    if !classes.is_empty() {
        let commonest = commonest(words, contents, classes.into_iter(), pieces);
        page.say_with("pack-summary-classes", &[("list", commonest.into())]);
    }
    if !periods.is_empty() {
        let undated = periods.get(&Period::Undated).copied().unwrap_or_default();
        let prehistoric = periods.get(&Period::Prehistoric).copied().unwrap_or_default();
        if !dated.is_empty() {
            let list = commonest(words, contents, dated.into_iter(), in_place);
            page.say_with("pack-summary-periods", &[("list", list.into())]);
        }
        page.say_with(
            "pack-summary-undated",
            &[
                ("share", share(words, undated, in_place).into()),
                ("prehistoric", share(words, prehistoric, in_place).into()),
            ],
        );
    }
    let by_parish = published.pieces_by_parish_only();
    if !by_parish.is_nothing() {
        page.say_with("pack-summary-by-parish", &[("n", by_parish.into())]);
    }
    match side {
        Some(side) => {
            page.say_with("pack-summary-precision", &[("side", length(words, f64::from(side)).into())])
        }
        None => page.say("pack-summary-precision-parish"),
    }
    page.say_with("pack-summary-more", &[("section", inline::section("cautions").into())]);
}

fn number(words: &Words, id: &str, count: usize) -> (String, String) {
    (words.number(count as f64, 0), words.say_with(id, &[("n", count.into())]))
}

/// A figure in the words' habit: "1,400", or from where to where it lies.
fn figure(words: &Words, figure: Figure) -> String {
    match figure.exact() {
        Some(pieces) => words.number(pieces as f64, 0),
        None => words.range(figure.least, figure.most),
    }
}

/// What share a figure is of one that holds it: "58%", or from where to where: "12–29%".
fn share(words: &Words, part: Figure, whole: Figure) -> String {
    let of = |part: u64, whole: u64| (part as f64 / whole.max(1) as f64).min(1.0);
    if let (Some(part), Some(whole)) = (part.exact(), whole.exact()) {
        return percent(words, of(part, whole));
    }
    let least = whole.most.map_or(0.0, |most| of(part.least, most));
    let most = part.most.map_or(1.0, |most| of(most, whole.least));
    let [least, most] = [(least * 100.0).floor(), (most * 100.0).ceil()].map(|share| share as u64);
    words.say_with("pack-percent", &[("n", words.range(least, Some(most)).into())])
}

/// The five commonest, with their pieces and share: "Flake (1,400; 58%), Blade (260; 11%)".
fn commonest<T: Term + Ord>(
    words: &Words,
    contents: &Contents<'_>,
    parts: impl Iterator<Item = (T, Figure)>,
    whole: Figure,
) -> String {
    let mut parts: Vec<(T, Figure)> = parts.collect();
    parts.sort_by(|a, b| b.1.near.cmp(&a.1.near).then(a.0.cmp(&b.0)));
    let told = parts.iter().take(5).map(|(term, pieces)| {
        words.say_with(
            "pack-summary-part",
            &[
                ("name", term.label(contents.study.language).into()),
                ("pieces", figure(words, *pieces).into()),
                ("share", share(words, *pieces, whole).into()),
            ],
        )
    });
    told.collect::<Vec<_>>().join(", ")
}

pub(super) fn register(page: &mut Builder<'_>) {
    let (contents, words) = (page.contents, page.words);
    let tally = contents.published.tally();
    page.section("register", "pack-report-register");
    page.say_with(
        "pack-register-rows",
        &[
            ("read", tally.read.into()),
            ("used", tally.used.into()),
            ("aside", tally.set_aside_total().into()),
        ],
    );
    if !tally.set_aside.is_empty() {
        page.say_with("pack-register-aside-intro", &[("table", inline::table("set-aside").into())]);
        let rows = tally.set_aside.iter().map(|(reason, rows)| {
            vec![Cell::Text(capital(&reason.label(contents.study.language))), Cell::Whole(*rows)]
        });
        let table = Table {
            name: "set-aside".to_owned(),
            title: words.say("pack-register-set-aside"),
            headings: vec![words.say("pack-register-reason"), words.say("pack-register-rows-heading")],
            rows: rows.collect(),
            totals: Some(vec![Cell::Text(words.say("pack-total")), Cell::Whole(tally.set_aside_total())]),
            notes: Vec::new(),
        };
        page.table(&table);
    }
    page.say("pack-register-faults");
    page.say("pack-register-bias");
}
