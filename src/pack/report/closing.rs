//! How it was made, what to bear in mind, how to cite it and what lies beside it.

use std::collections::BTreeSet;

use super::{CAUTIONS, capital};
use crate::pack::document::{Block, Builder};
use crate::pack::fields;
use crate::pack::finds::percent;
use crate::pack::manifest::{length, precision};
use crate::pack::readme;
use crate::pack::tables::said;
use crate::study::vocabulary::Country;
use crate::study::{Attribute, Bound, EdgeCorrection, Giving, Prominence};

pub(super) fn method(page: &mut Builder<'_>) {
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
        if surface.made.edge != EdgeCorrection::None {
            sources.insert("pack-source-diggle");
        }
        page.say(match surface.made.edge {
            EdgeCorrection::Diggle => "pack-method-edge",
            EdgeCorrection::Uniform => "pack-method-edge-uniform",
            EdgeCorrection::None => "pack-method-no-edge",
        });
        for doubt in &surface.made.doubts {
            page.say(doubt);
        }
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
    }
    if contents.gives(Giving::Concentrations) && study.agreement.precision.side_m().is_some() {
        concentrations(page, &mut sources);
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

fn concentrations(page: &mut Builder<'_>, sources: &mut BTreeSet<&'static str>) {
    let words = page.words;
    let settings = &page.contents.study.concentrations;
    match settings.bound {
        Bound::Share => {
            let share = percent(words, settings.share);
            page.say_with("pack-method-concentrations", &[("share", share.into())]);
            sources.insert("pack-source-hyndman");
        }
        Bound::Envelope { simulations, level, pointwise } => {
            let id = if pointwise { "pack-method-pointwise-envelope" } else { "pack-method-envelope" };
            page.say_with(id, &[("n", simulations.into()), ("level", percent(words, level).into())]);
            sources.extend(["pack-source-besag", "pack-source-myllymaki"]);
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
    let smallest = settings.smallest.into();
    page.say_with("pack-method-peaks", &[("prominence", prominence.into()), ("smallest", smallest)]);
    sources.extend(["pack-source-edelsbrunner", "pack-source-chazal"]);
    if settings.resamples > 0 {
        page.say_with("pack-method-firm", &[("n", settings.resamples.into())]);
        sources.insert("pack-source-hennig");
    }
}

/// What the fields of the layers mean, for whoever works on with them.
pub(super) fn fields(page: &mut Builder<'_>) {
    let contents = page.contents;
    let Some(table) = fields::table(contents, contents.gives(Giving::Finds)) else { return };
    page.section("fields", "pack-report-fields");
    page.say("pack-fields-intro");
    let rows =
        table.rows.iter().map(|row| row.iter().map(|cell| vec![said(cell, page.words)]).collect()).collect();
    page.lines(table.title, table.headings, vec![1.3, 1.5, 0.9, 4.3], rows);
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
