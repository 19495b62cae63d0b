//! How it was made, what to bear in mind, what words mean, how to cite it, what it rests on, and what lies beside
//! it.

use super::{CAUTIONS, parameters};
use crate::pack::document::{Block, Builder};
use crate::pack::fields;
use crate::pack::fieldwork::percent;
use crate::pack::manifest::{length, precision};
use crate::pack::tables::said;
use crate::pack::{inline, readme};
use crate::study::vocabulary::Country;
use crate::study::{Attribute, Bandwidth, Bound, EdgeCorrection, Giving, Prominence};

pub(super) fn method(page: &mut Builder<'_>) {
    let (contents, words) = (page.contents, page.words);
    let study = contents.study;
    page.section("method", "pack-report-method");
    page.say_with("pack-method-intro", &[("table", inline::table(parameters::NAME).into())]);
    let sources = page.cite(["pack-source-chapman", "pack-source-chapman-wieczorek"]);
    page.say_with("pack-method-cells", &[("sources", sources.into())]);
    if !contents.ground.parishes.is_empty() {
        page.say("pack-method-parishes");
    }
    if contents.surface.is_some() {
        density(page);
    }
    if contents.gives(Giving::Concentrations) && study.agreement.precision.side_m().is_some() {
        concentrations(page);
    }
    if let Some(profile) = contents.shore {
        let sources = page.cite(["pack-source-mandelbrot"]);
        page.say_with(
            "pack-method-shore",
            &[
                ("tolerance", length(words, profile.simplify_m).into()),
                ("stretch", length(words, study.shore.stretch_m).into()),
                ("sources", sources.into()),
            ],
        );
    }
    if page.contents.published.in_bands_only() {
        let sources = page.cite(["pack-source-hundepool", "pack-source-wong"]);
        page.say_with("pack-method-bands", &[("sources", sources.into())]);
    }
    page.say("pack-method-periods");
    if study.agreement.show.contains(&Attribute::Strength) {
        page.say("pack-method-strength");
    }
    parameters::parameters(page);
}

fn density(page: &mut Builder<'_>) {
    let (contents, words) = (page.contents, page.words);
    let Some(surface) = contents.surface else { return };
    let kernel = page.cite(["pack-source-silverman", "pack-source-beardah"]);
    page.say_with(
        "pack-method-density",
        &[
            ("bandwidth", length(words, surface.bandwidth_m.round()).into()),
            ("pixel", length(words, surface.pixel_m).into()),
            ("sources", kernel.into()),
        ],
    );
    match contents.study.density.bandwidth {
        Bandwidth::Fixed(_) | Bandwidth::Along { .. } | Bandwidth::Bearing { .. } => {}
        chosen => {
            let source = page.cite([match chosen {
                Bandwidth::PlugIn | Bandwidth::PlugInFull => "pack-source-wand",
                Bandwidth::LeastSquares => "pack-source-bowman",
                Bandwidth::Likelihood => "pack-source-loader",
                Bandwidth::Diggle => "pack-source-diggle",
                _ => "pack-source-scott",
            }]);
            let how = words.say(surface.bandwidth_method);
            page.say_with("pack-method-bandwidth", &[("how", how.into()), ("sources", source.into())]);
        }
    }
    if surface.made.varying.is_some() {
        let source = page.cite(["pack-source-abramson"]);
        page.say_with("pack-method-adaptive", &[("sources", source.into())]);
    }
    match surface.made.edge {
        EdgeCorrection::Diggle => {
            let source = page.cite(["pack-source-jones", "pack-source-diggle"]);
            page.say_with("pack-method-edge", &[("sources", source.into())]);
        }
        EdgeCorrection::Uniform => {
            let source = page.cite(["pack-source-diggle"]);
            page.say_with("pack-method-edge-uniform", &[("sources", source.into())]);
        }
        EdgeCorrection::None => page.say("pack-method-no-edge"),
    }
    for doubt in &surface.made.doubts {
        page.say(doubt);
    }
    page.say_with(
        "pack-method-left-out",
        &[("place", surface.left_out_of_place.into()), ("parish", surface.left_out_by_parish.into())],
    );
}

fn concentrations(page: &mut Builder<'_>) {
    let words = page.words;
    let settings = &page.contents.study.concentrations;
    match settings.bound {
        Bound::Share => {
            let share = percent(words, settings.share);
            let sources = page.cite(["pack-source-hyndman"]);
            page.say_with(
                "pack-method-concentrations",
                &[("share", share.into()), ("sources", sources.into())],
            );
        }
        Bound::Envelope { simulations, level, pointwise } => {
            let id = if pointwise { "pack-method-pointwise-envelope" } else { "pack-method-envelope" };
            let sources = page.cite(["pack-source-besag", "pack-source-myllymaki"]);
            let values = [
                ("n", simulations.into()),
                ("level", percent(words, level).into()),
                ("sources", sources.into()),
            ];
            page.say_with(id, &values);
        }
    }
    let prominence = match settings.prominence {
        Prominence::OfPeak(share) => {
            words.say_with("pack-method-prominence-share", &[("share", percent(words, share).into())])
        }
        Prominence::PerHectare(pieces) => {
            let pieces = words.number(pieces, 1);
            words.say_with("pack-method-prominence-pieces", &[("pieces", pieces.into())])
        }
    };
    let sources = page.cite(["pack-source-edelsbrunner", "pack-source-chazal"]);
    page.say_with(
        "pack-method-peaks",
        &[
            ("prominence", prominence.into()),
            ("smallest", settings.smallest.into()),
            ("sources", sources.into()),
        ],
    );
    if settings.resamples > 0 {
        let sources = page.cite(["pack-source-hennig"]);
        page.say_with("pack-method-firm", &[("n", settings.resamples.into()), ("sources", sources.into())]);
    }
}

/// What the fields of the layers mean, for whoever works on with them.
pub(super) fn fields(page: &mut Builder<'_>) {
    let contents = page.contents;
    let Some(table) = fields::table(contents, contents.gives(Giving::Finds)) else { return };
    page.section("fields", "pack-report-fields");
    page.say_with("pack-fields-intro", &[("table", inline::table("fields").into())]);
    let rows =
        table.rows.iter().map(|row| row.iter().map(|cell| vec![said(cell, page.words)]).collect()).collect();
    page.lines("fields", table.title, table.headings, vec![1.3, 1.5, 0.9, 4.3], rows);
}

/// What the words of the report mean here: a few, and only those that it uses.
pub(super) fn glossary(page: &mut Builder<'_>) {
    let (contents, words) = (page.contents, page.words);
    let show = &contents.study.agreement.show;
    let squares = contents.study.agreement.precision.side_m().is_some();
    let mut names = vec!["piece", "record"];
    if squares {
        names.extend(["square", "band"]);
    }
    names.push("in-place");
    if show.contains(&Attribute::Strength) {
        names.push("strength");
    }
    if contents.surface.is_some() {
        names.push("bandwidth");
    }
    if contents.gives(Giving::Concentrations) && squares {
        names.push("concentration");
    }
    page.section("words", "pack-report-words");
    let items = names.iter().map(|name| {
        (words.say(&format!("pack-word-{name}")), words.say(&format!("pack-word-{name}-meaning")))
    });
    page.add(Block::Entries { items: items.collect() });
}

/// What the method rests on.
pub(super) fn sources(page: &mut Builder<'_>) {
    let items = page.sources();
    page.section("sources", "pack-method-sources");
    page.say("pack-sources-intro");
    page.add(Block::Sources { items });
}

pub(super) fn cautions(page: &mut Builder<'_>) {
    these_cautions(page, &CAUTIONS);
}

/// Some of the cautions, and what the law of the country asks.
pub(super) fn these_cautions(page: &mut Builder<'_>, ids: &[&str]) {
    let words = page.words;
    page.section("cautions", "pack-report-cautions");
    page.list(ids.iter().map(|id| words.say(id)).collect());
    page.say(match page.contents.study.country {
        Country::EnglandWales => "pack-law-england-wales",
        Country::Scotland => "pack-law-scotland",
        Country::Ireland => "pack-law-ireland",
        Country::France => "pack-law-france",
        Country::Other => "pack-law-other",
    });
    page.say("pack-law-general");
}

pub(super) fn citing(page: &mut Builder<'_>) {
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
        page.list(contents.ground.credits.iter().map(|credit| credit.said(words)).collect());
    }
}

pub(super) fn files<'a>(page: &mut Builder<'_>, paths: impl Iterator<Item = &'a String>) {
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
