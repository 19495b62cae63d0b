//! Maps, tables, concentrations and the shore, as far as they are given. Each figure and table is introduced
//! before it stands there.

use crate::analyse::{Concentration, Over, Table, ladder_in_short, told_densities};
use crate::pack::Contents;
use crate::pack::counts::Counts;
use crate::pack::document::{Block, Builder};
use crate::pack::fieldwork::percent;
use crate::pack::inline;
use crate::pack::manifest::length;
use crate::sheet::Sheet;
use crate::study::vocabulary::{Class, Period};
use crate::study::{Attribute, Giving};
use crate::words::Value;

/// A parish with less of a concentration's squares than this share is told of only where it is the most.
const LEAST_SHARE: f64 = 0.05;

/// Which section a sheet or table belongs to.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Part {
    General,
    Concentrations,
    Shore,
}

fn part(name: &str) -> Part {
    if name.contains("shore") || name.contains("stretch") {
        Part::Shore
    } else if name.starts_with("concentration") {
        Part::Concentrations
    } else {
        Part::General
    }
}

/// Whether squares are so large that the pack speaks of richer squares.
pub(super) fn richer(contents: &Contents<'_>) -> bool {
    contents.published.cells().iter().map(|summary| summary.cell.side_m).min() > Some(100)
}

fn sheets<'a>(contents: &Contents<'a>, of: Part) -> Vec<&'a Sheet> {
    let given = contents.gives(Giving::Maps);
    contents.sheets.iter().filter(|sheet| given && part(&sheet.name) == of).collect()
}

fn listed<'a>(contents: &Contents<'a>, of: Part) -> Vec<&'a Table> {
    let given = contents.gives(Giving::Tables);
    contents.tables.iter().filter(|table| given && part(&table.name) == of).collect()
}

pub(super) fn maps(page: &mut Builder<'_>) {
    let mut sheets = sheets(page.contents, Part::General);
    // Where nothing is said of concentrations, their sheet still has a place.
    if !page.contents.gives(Giving::Concentrations) {
        sheets.extend(self::sheets(page.contents, Part::Concentrations));
    }
    if sheets.is_empty() {
        return;
    }
    page.section("maps", "pack-report-maps");
    for sheet in sheets {
        figure(page, sheet);
    }
}

/// A sheet with the sentence that leads to it.
fn figure(page: &mut Builder<'_>, sheet: &Sheet) {
    let words = page.words;
    let id = match sheet.name.as_str() {
        "finds-by-cell" => "pack-figure-intro-cells",
        "finds-by-parish" => "pack-figure-intro-parishes",
        "classes-and-periods" => "pack-figure-intro-symbols",
        "density" => "pack-figure-intro-density",
        "concentrations" => "pack-figure-intro-concentrations",
        "ladder" => "pack-figure-intro-ladder",
        "finds-along-the-shore" => "pack-figure-intro-shore",
        _ => "pack-figure-intro",
    };
    let bandwidth = page.contents.surface.map_or(0.0, |surface| surface.bandwidth_m.round());
    page.say_with(
        id,
        &[
            ("figure", inline::figure(&sheet.name).into()),
            ("title", sheet.title.clone().into()),
            ("section", inline::section("method").into()),
            ("bandwidth", length(words, bandwidth).into()),
        ],
    );
    page.figure(sheet);
}

pub(super) fn tables(page: &mut Builder<'_>) {
    let tables = listed(page.contents, Part::General);
    if tables.is_empty() {
        return;
    }
    page.section("tables", "pack-report-tables");
    page.say("pack-tables-reading");
    if page.contents.published.in_bands_only() {
        page.say_with("pack-tables-from-bands", &[("section", inline::section("method").into())]);
    }
    for table in tables {
        introduced(page, table);
    }
}

/// A table with the sentence that leads to it.
fn introduced(page: &mut Builder<'_>, table: &Table) {
    let id = match table.name.as_str() {
        "class-by-period" => "pack-table-intro-class-by-period",
        "parish-by-period" => "pack-table-intro-parish-by-period",
        "parish-by-class" => "pack-table-intro-parish-by-class",
        "class-by-strength" => "pack-table-intro-class-by-strength",
        "class-by-setting" => "pack-table-intro-class-by-setting",
        "concentrations" => "pack-table-intro-concentrations",
        "concentration-by-class" => "pack-table-intro-concentration-by-class",
        "concentration-by-period" => "pack-table-intro-concentration-by-period",
        "ladder" => "pack-table-intro-ladder",
        name if part(name) == Part::Shore => "pack-table-intro-shore",
        _ => "pack-table-intro",
    };
    let values =
        [("table", inline::table(&table.name).into()), ("title", table.title.trim_end_matches('.').into())];
    page.say_with(id, &values);
    match table.name.as_str() {
        "ladder" => page.table(&ladder_in_short(table, page.words)),
        _ => page.table(table),
    }
}

pub(super) fn concentrations(page: &mut Builder<'_>) {
    let (contents, words) = (page.contents, page.words);
    let richer = richer(contents);
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
    page.say("pack-concentrations-caution");
    if contents.published.in_bands_only() {
        page.say("pack-places-estimated");
    }
    for sheet in sheets(contents, Part::Concentrations) {
        figure(page, sheet);
    }
    for patch in contents.concentrations {
        let id = if richer { "pack-concentration-heading-richer" } else { "pack-concentration-heading" };
        let text = words.say_with(id, &[("letter", patch.letter.clone().into())]);
        page.add(Block::Heading { text });
        describe(page, patch);
    }
    for table in listed(contents, Part::Concentrations) {
        introduced(page, table);
    }
}

/// The parishes that a concentration's squares lie in, the most first, each with its share of them; empty where
/// the parish is not shown.
pub(super) fn parishes_of(contents: &Contents<'_>, patch: &Concentration) -> Vec<(String, f64)> {
    let study = contents.study;
    if !study.agreement.show.contains(&Attribute::Parish) && study.agreement.precision.side_m().is_some() {
        return Vec::new();
    }
    let mut shares: Vec<(String, f64)> = Vec::new();
    for cell in &patch.cells {
        for (name, share) in contents.partition.parish_shares(*cell) {
            let share = share / patch.cells.len().max(1) as f64;
            match shares.iter_mut().find(|(known, _)| known == name) {
                Some((_, sum)) => *sum += share,
                None => shares.push((name.to_owned(), share)),
            }
        }
    }
    shares.sort_by(|a, b| b.1.total_cmp(&a.1).then_with(|| a.0.cmp(&b.0)));
    let most = shares.first().map_or(0.0, |(_, share)| *share);
    shares.retain(|(_, share)| *share >= LEAST_SHARE.min(most));
    shares
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
    let mut also = |id: &str, values: &[(&str, Value)]| {
        text.push(' ');
        text.push_str(&words.say_with(id, values));
    };
    let parishes: Vec<String> = parishes_of(contents, patch).into_iter().map(|(name, _)| name).collect();
    if !parishes.is_empty() {
        let values = [("n", parishes.len().into()), ("list", words.list(&parishes).into())];
        also("pack-concentration-parishes", &values);
    }
    if let (true, Some(more)) = (patch.may_hold > 0, counts.patch(patch, patch.may_hold)) {
        also("pack-concentration-may-hold", &[("pieces", more.into())]);
    }
    if let Some([(mean, decimals), _]) = told_densities(patch, contents.published.cells(), contents.study) {
        also("pack-concentration-density", &[("density", words.number(mean, decimals).into())]);
    }
    if let Some((stays, of)) = patch.stays {
        also("pack-concentration-firm", &[("stays", stays.into()), ("of", of.into())]);
    }
    if let Some(chance) = patch.chance {
        also("pack-concentration-chance", &[("p", words.number(chance.global, 3).into())]);
    }
    for (id, present) in [
        ("pack-concentration-classes", counts.present::<Class>(&patch.by_class)),
        ("pack-concentration-periods", counts.present::<Period>(&patch.by_period)),
    ] {
        let present = present.plain();
        if !present.is_empty() {
            also(id, &[("list", present.into())]);
        }
    }
    page.add(Block::Paragraph { text });
}

pub(super) fn shore(page: &mut Builder<'_>) {
    let (contents, words) = (page.contents, page.words);
    let Some(profile) = contents.shore else { return };
    page.section("shore", "pack-report-shore");
    let source = page.cite(["pack-source-mandelbrot"]);
    page.say_with(
        "pack-shore-length",
        &[
            ("length", length(words, (profile.length_m / 100.0).round() * 100.0).into()),
            ("tolerance", length(words, profile.simplify_m).into()),
            ("within", length(words, contents.study.shore.within_m).into()),
            ("sources", source.into()),
        ],
    );
    if !profile.beyond.is_nothing() {
        page.say_with("pack-shore-beyond", &[("n", profile.beyond.into())]);
    }
    if !profile.by_parish_only.is_nothing() {
        page.say_with("pack-shore-by-parish", &[("n", profile.by_parish_only.into())]);
    }
    page.say("pack-shore-ranges");
    for sheet in sheets(contents, Part::Shore) {
        figure(page, sheet);
    }
    for table in listed(contents, Part::Shore) {
        introduced(page, table);
    }
}
