//! Maps, tables, concentrations and the shore, as far as they are given.

use crate::analyse::{Concentration, Over, Table, told_densities};
use crate::pack::counts::Counts;
use crate::pack::document::{Block, Builder};
use crate::pack::finds::percent;
use crate::pack::manifest::length;
use crate::sheet::Sheet;
use crate::study::Giving;
use crate::study::vocabulary::{Class, Period};
use crate::words::Value;

/// Whether a sheet or table belongs to the section on the shore.
fn of_shore(name: &str) -> bool {
    name.contains("shore") || name.contains("stretch")
}

pub(super) fn maps(page: &mut Builder<'_>) {
    let contents = page.contents;
    let sheets: Vec<&Sheet> = contents.sheets.iter().filter(|sheet| !of_shore(&sheet.name)).collect();
    if sheets.is_empty() || !contents.gives(Giving::Maps) {
        return;
    }
    page.section("maps", "pack-report-maps");
    page.say("pack-maps-reading");
    for sheet in sheets {
        page.figure(sheet);
    }
}

pub(super) fn tables(page: &mut Builder<'_>) {
    let contents = page.contents;
    let tables: Vec<&Table> = contents.tables.iter().filter(|table| !of_shore(&table.name)).collect();
    if tables.is_empty() || !contents.gives(Giving::Tables) {
        return;
    }
    page.section("tables", "pack-report-tables");
    page.say("pack-tables-reading");
    for table in tables {
        page.table(table);
    }
}

pub(super) fn concentrations(page: &mut Builder<'_>) {
    let (contents, words) = (page.contents, page.words);
    let richer = contents.published.cells().iter().map(|summary| summary.cell.side_m).min() > Some(100);
    let (heading, intro) = if richer {
        ("pack-report-richer-squares", "pack-concentrations-richer")
    } else {
        ("pack-report-concentrations", "pack-concentrations-intro")
    };
    page.section("concentrations", heading);
    if contents.concentrations.is_empty() {
        page.say("pack-concentrations-none");
        return;
    }
    match contents.even {
        Some(test) => {
            let over = words.say(if test.over == Over::Walked {
                "patches-over-walked"
            } else {
                "patches-over-land"
            });
            let p = words.number(test.p, 3);
            page.say_with("pack-concentrations-envelope", &[("over", over.into()), ("p", p.into())]);
        }
        None => {
            let share = percent(words, contents.study.concentrations.share);
            page.say_with(intro, &[("share", share.into())]);
        }
    }
    for patch in contents.concentrations {
        let id = if richer { "pack-concentration-heading-richer" } else { "pack-concentration-heading" };
        let text = words.say_with(id, &[("letter", patch.letter.clone().into())]);
        page.add(Block::Heading { text });
        describe(page, patch);
    }
    page.say("pack-concentrations-caution");
}

/// One concentration in sentences.
fn describe(page: &mut Builder<'_>, patch: &Concentration) {
    let (contents, words) = (page.contents, page.words);
    let counts = Counts::of(contents);
    let decimals = usize::from(patch.hectares < 100.0);
    let mut values: Vec<(&str, Value)> = vec![
        ("hectares", words.number(patch.hectares, decimals).into()),
        ("cells", patch.cells.len().into()),
    ];
    let id = match counts.patch(patch, patch.pieces) {
        Some(pieces) => {
            values.push(("pieces", pieces.into()));
            "pack-concentration-size"
        }
        None => "pack-concentration-size-alone",
    };
    let mut text = words.say_with(id, &values);
    if let (true, Some(more)) = (patch.may_hold > 0, counts.patch(patch, patch.may_hold)) {
        text.push(' ');
        text.push_str(&words.say_with("pack-concentration-may-hold", &[("pieces", more.into())]));
    }
    if let Some([(mean, decimals), _]) = told_densities(patch, contents.published.cells(), contents.study) {
        let mean = words.number(mean, decimals);
        text.push(' ');
        text.push_str(&words.say_with("pack-concentration-density", &[("density", mean.into())]));
    }
    if let Some((stays, of)) = patch.stays {
        text.push(' ');
        let values = [("stays", stays.into()), ("of", of.into())];
        text.push_str(&words.say_with("pack-concentration-firm", &values));
    }
    if let Some(chance) = patch.chance {
        text.push(' ');
        let p = words.number(chance.global, 3);
        text.push_str(&words.say_with("pack-concentration-chance", &[("p", p.into())]));
    }
    for (id, present) in [
        ("pack-concentration-classes", counts.present::<Class>(&patch.by_class)),
        ("pack-concentration-periods", counts.present::<Period>(&patch.by_period)),
    ] {
        let present = present.plain();
        if !present.is_empty() {
            text.push(' ');
            text.push_str(&words.say_with(id, &[("list", present.into())]));
        }
    }
    page.add(Block::Paragraph { text });
}

pub(super) fn shore(page: &mut Builder<'_>) {
    let (contents, words) = (page.contents, page.words);
    let Some(profile) = contents.shore else { return };
    page.section("shore", "pack-report-shore");
    page.say_with(
        "pack-shore-length",
        &[
            ("length", length(words, (profile.length_m / 100.0).round() * 100.0).into()),
            ("tolerance", length(words, profile.simplify_m).into()),
            ("within", length(words, contents.study.shore.within_m).into()),
        ],
    );
    if profile.beyond > 0 {
        page.say_with("pack-shore-beyond", &[("n", profile.beyond.into())]);
    }
    if profile.by_parish_only > 0 {
        page.say_with("pack-shore-by-parish", &[("n", profile.by_parish_only.into())]);
    }
    page.say("pack-shore-ranges");
    if contents.gives(Giving::Maps) {
        for sheet in contents.sheets.iter().filter(|sheet| of_shore(&sheet.name)) {
            page.figure(sheet);
        }
    }
    if contents.gives(Giving::Tables) {
        for table in contents.tables.iter().filter(|table| of_shore(&table.name)) {
            page.table(table);
        }
    }
}
