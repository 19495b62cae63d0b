//! The report: what a society hands out. Said here once, set by `html` and `print`.

use std::collections::{BTreeMap, BTreeSet};

use super::counts::Counts;
use super::document::{Block, Builder, Document};
use super::finds::percent;
use super::manifest::{length, precision, rule_words, withheld};
use super::{Contents, readme};
use crate::analyse::{Concentration, Table, Value as Cell};
use crate::sheet::Sheet;
use crate::study::vocabulary::{Class, Country, Period, Term};
use crate::study::{Attribute, Giving};
use crate::words::{Value, Words};

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

/// The report of a pack that holds the files at `paths`.
pub(super) fn report<'a>(contents: &Contents<'_>, paths: impl Iterator<Item = &'a String>) -> Document {
    let mut page = Builder::new(contents);
    summary(&mut page);
    register(&mut page);
    places(&mut page);
    maps(&mut page);
    tables(&mut page);
    if contents.gives(Giving::Concentrations) {
        concentrations(&mut page);
    }
    shore(&mut page);
    method(&mut page);
    cautions(&mut page);
    citing(&mut page);
    files(&mut page, paths);
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

/// Pieces by what is shown of them.
fn totals<T: Ord + Copy>(
    contents: &Contents<'_>,
    of: impl Fn(&crate::exact::ReleasedFind) -> Option<T>,
) -> BTreeMap<T, u64> {
    let mut totals = BTreeMap::new();
    for find in contents.published.finds() {
        if let Some(key) = of(find) {
            *totals.entry(key).or_insert(0) += u64::from(find.count);
        }
    }
    totals
}

fn summary(page: &mut Builder<'_>) {
    let (contents, words) = (page.contents, page.words);
    let published = contents.published;
    let show = &contents.study.agreement.show;
    let pieces = published.pieces();
    page.section("summary", "pack-report-summary");
    if published.finds().is_empty() {
        page.say("pack-summary-nothing");
        return;
    }
    let classes = totals(contents, |find| find.class);
    let periods = totals(contents, |find| find.period);
    let dated: Vec<(&Period, &u64)> = periods
        .iter()
        .filter(|(period, _)| !matches!(period, Period::Undated | Period::Prehistoric))
        .collect();
    let parishes = if show.contains(&Attribute::Parish) && !contents.ground.parishes.is_empty() {
        crate::analyse::finds_by_parish(published, contents.partition)
            .into_iter()
            .filter(|(_, pieces)| *pieces > 0.0)
            .count()
    } else {
        0
    };
    let text = words.say_with(
        "pack-summary-lead",
        &[("pieces", pieces.into()), ("records", published.finds().len().into())],
    );
    page.add(Block::Lead { text });
    let mut items = vec![
        (words.number(pieces as f64, 0), words.say_with("pack-number-pieces", &[("n", pieces.into())])),
        number(words, "pack-number-records", published.finds().len()),
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
    if !classes.is_empty() {
        let commonest = commonest(words, contents, classes.into_iter(), pieces);
        page.say_with("pack-summary-classes", &[("list", commonest.into())]);
    }
    if !periods.is_empty() {
        let in_time: u64 = dated.iter().map(|(_, pieces)| **pieces).sum();
        let undated = periods.get(&Period::Undated).copied().unwrap_or_default();
        let prehistoric = periods.get(&Period::Prehistoric).copied().unwrap_or_default();
        if in_time > 0 {
            let list = commonest(words, contents, dated.into_iter().map(|(p, n)| (*p, *n)), pieces);
            page.say_with("pack-summary-periods", &[("list", list.into())]);
        }
        page.say_with(
            "pack-summary-undated",
            &[
                ("share", percent(words, undated as f64 / pieces as f64).into()),
                ("prehistoric", percent(words, prehistoric as f64 / pieces as f64).into()),
            ],
        );
    }
    let by_parish = published.pieces_by_parish_only();
    if by_parish > 0 {
        page.say_with("pack-summary-by-parish", &[("n", by_parish.into())]);
    }
    let out_of_place: u64 = totals(contents, |find| find.out_of_place.then_some(())).values().sum();
    if out_of_place > 0 {
        page.say_with("pack-summary-out-of-place", &[("n", out_of_place.into())]);
    }
    match side {
        Some(side) => {
            page.say_with("pack-summary-precision", &[("side", length(words, f64::from(side)).into())])
        }
        None => page.say("pack-summary-precision-parish"),
    }
}

fn number(words: &Words, id: &str, count: usize) -> (String, String) {
    (words.number(count as f64, 0), words.say_with(id, &[("n", count.into())]))
}

/// The five commonest, with their pieces and share: "Flake (1,400; 58%), Blade (260; 11%)".
fn commonest<T: Term + Ord>(
    words: &Words,
    contents: &Contents<'_>,
    parts: impl Iterator<Item = (T, u64)>,
    whole: u64,
) -> String {
    let mut parts: Vec<(T, u64)> = parts.collect();
    parts.sort_by(|a, b| b.1.cmp(&a.1).then(a.0.cmp(&b.0)));
    let told = parts.iter().take(5).map(|(term, pieces)| {
        words.say_with(
            "pack-summary-part",
            &[
                ("name", term.label(contents.study.language).into()),
                ("pieces", words.number(*pieces as f64, 0).into()),
                ("share", percent(words, *pieces as f64 / whole.max(1) as f64).into()),
            ],
        )
    });
    told.collect::<Vec<_>>().join(", ")
}

fn register(page: &mut Builder<'_>) {
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

fn places(page: &mut Builder<'_>) {
    let (contents, words) = (page.contents, page.words);
    let agreement = &contents.study.agreement;
    page.section("places", "pack-report-places");
    page.say(if agreement.precision.side_m().is_some() { "pack-places-cells" } else { "pack-places-parish" });
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
    let published = contents.published;
    if published.withheld_pieces() > 0 {
        page.say_with(
            "pack-places-suppressed",
            &[("n", published.withheld_pieces().into()), ("places", published.withheld_cells().into())],
        );
    }
    page.say("pack-places-why");
}

/// With a capital at the start, for words that stand alone.
pub(super) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// The grid in words, with its code.
fn grid_name(contents: &Contents<'_>) -> String {
    let grid = &contents.study.agreement.grid;
    let name = grid.to_string();
    match grid.epsg() {
        Some(code) if !name.starts_with("EPSG") => format!("{name} (EPSG:{code})"),
        _ => name,
    }
}

/// Whether a sheet or table belongs to the section on the shore.
fn of_shore(name: &str) -> bool {
    name.contains("shore") || name.contains("stretch")
}

fn maps(page: &mut Builder<'_>) {
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

fn tables(page: &mut Builder<'_>) {
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

fn concentrations(page: &mut Builder<'_>) {
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
    page.say_with(intro, &[("share", percent(words, contents.study.concentrations.share).into())]);
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

fn shore(page: &mut Builder<'_>) {
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

fn method(page: &mut Builder<'_>) {
    let (contents, words) = (page.contents, page.words);
    let study = contents.study;
    page.section("method", "pack-report-method");
    page.say("pack-method-cells");
    let mut sources = BTreeSet::from(["pack-source-chapman", "pack-source-chapman-wieczorek"]);
    if !contents.ground.parishes.is_empty() {
        page.say("pack-method-parishes");
    }
    if let Some(surface) = contents.surface {
        page.say_with(
            "pack-method-density",
            &[
                ("bandwidth", length(words, surface.bandwidth_m.round()).into()),
                ("pixel", length(words, surface.pixel_m).into()),
            ],
        );
        page.say(if study.density.edge_correction && !contents.ground.land.0.is_empty() {
            sources.insert("pack-source-diggle");
            "pack-method-edge"
        } else {
            "pack-method-no-edge"
        });
        page.say_with(
            "pack-method-left-out",
            &[("place", surface.left_out_of_place.into()), ("parish", surface.left_out_by_parish.into())],
        );
        let items = vec![
            (words.say("pack-fact-kernel"), capital(&words.say("pack-method-kernel"))),
            (words.say("pack-fact-bandwidth"), length(words, surface.bandwidth_m.round())),
            (words.say("pack-fact-bandwidth-choice"), capital(&words.say(surface.bandwidth_method))),
            (words.say("pack-fact-pixel"), length(words, surface.pixel_m)),
            (words.say("pack-fact-density-pieces"), words.number(surface.pieces, 0)),
        ];
        page.add(Block::Facts { items });
        sources.extend(["pack-source-silverman", "pack-source-scott", "pack-source-beardah"]);
        if contents.gives(Giving::Concentrations) {
            page.say_with(
                "pack-method-concentrations",
                &[
                    ("share", percent(words, study.concentrations.share).into()),
                    ("smallest", study.concentrations.smallest.into()),
                ],
            );
            sources.insert("pack-source-hyndman");
        }
    }
    if let Some(profile) = contents.shore {
        page.say_with(
            "pack-method-shore",
            &[
                ("tolerance", length(words, profile.simplify_m).into()),
                ("stretch", length(words, study.shore.stretch_m).into()),
            ],
        );
        sources.insert("pack-source-mandelbrot");
    }
    page.say("pack-method-periods");
    if study.agreement.show.contains(&Attribute::Strength) {
        page.say("pack-method-strength");
    }
    let text = words.say("pack-method-sources");
    page.add(Block::Heading { text });
    page.list(sources.into_iter().map(|id| words.say(id)).collect());
}

fn cautions(page: &mut Builder<'_>) {
    let words = page.words;
    page.section("cautions", "pack-report-cautions");
    page.list(CAUTIONS.iter().map(|id| words.say(id)).collect());
    page.say(match page.contents.study.country {
        Country::EnglandWales => "pack-law-england-wales",
        Country::Scotland => "pack-law-scotland",
        Country::Ireland => "pack-law-ireland",
        Country::France => "pack-law-france",
        Country::Other => "pack-law-other",
    });
    page.say("pack-law-general");
}

fn citing(page: &mut Builder<'_>) {
    let (contents, words) = (page.contents, page.words);
    let study = contents.study;
    page.section("citing", "pack-report-citing");
    let mut text = match &study.compiler {
        Some(compiler) => format!("{}. ", compiler.trim_end_matches('.')),
        None => String::new(),
    };
    if let Some(date) = study.date {
        text.push_str(&format!("{}. ", date.year));
    }
    text.push_str(&format!("{}. ", study.title.trim_end_matches('.')));
    if let Some(edition) = &study.edition {
        text.push_str(&format!("{}. ", edition.trim_end_matches('.')));
    }
    text.push_str(&words.say_with(
        "pack-citing-made",
        &[
            ("version", env!("CARGO_PKG_VERSION").into()),
            ("precision", precision(contents, study.agreement.precision).into()),
        ],
    ));
    page.add(Block::Paragraph { text });
    if !contents.ground.credits.is_empty() {
        page.say("pack-citing-credits");
        page.list(contents.ground.credits.clone());
    }
}

fn files<'a>(page: &mut Builder<'_>, paths: impl Iterator<Item = &'a String>) {
    let words = page.words;
    page.section("files", "pack-report-files");
    let mut items: Vec<(String, String)> =
        readme::group(paths).into_iter().map(|group| (group.path, words.say(group.message))).collect();
    for (path, id) in [
        ("report.html", "pack-file-report-html"),
        ("report.pdf", "pack-file-report-pdf"),
        ("MANIFEST.json", "pack-file-manifest"),
        ("README.txt", "pack-file-readme"),
    ] {
        items.push((path.to_owned(), words.say(id)));
    }
    page.add(Block::Facts { items });
}
