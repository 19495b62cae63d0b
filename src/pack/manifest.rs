//! `MANIFEST.json`: what is in the pack, how it was agreed, and what kinds of thing were withheld.
//!
//! No clock, no host, no path of the machine: the same pack has the same manifest everywhere.

use std::collections::BTreeSet;

use serde::{Deserialize, Serialize};
use serde_json::{Value, json};
use sha2::{Digest as _, Sha256};

use super::{Contents, Pack};
use crate::exact::{Figure, ReleasedPlace};
use crate::fault::{Fault, Result};
use crate::study::vocabulary::Term as _;
use crate::study::{Attribute, StricterRule};

/// The manifest's name in every pack.
pub(super) const NAME: &str = "MANIFEST.json";

/// What a written folder is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(super) enum Kind {
    /// A pack for an audience.
    Pack,
    /// A submission for a record office.
    Submission,
}

/// A file of the pack.
#[derive(Debug, Serialize, Deserialize)]
struct Listed {
    path: String,
    size: u64,
    sha256: String,
}

/// Adds the manifest, which lists every file but itself.
pub(super) fn add(pack: &mut Pack, contents: &Contents<'_>, kind: Kind) -> Result<()> {
    let (study, published) = (contents.study, contents.published);
    let agreement = &study.agreement;
    let language = study.language;
    let names = |all: &[&str]| -> Value { all.to_vec().into() };
    let tally = published.tally();
    let set_aside: serde_json::Map<String, Value> =
        tally.set_aside.iter().map(|(reason, rows)| (reason.name().to_owned(), json!(rows))).collect();
    let files: Vec<Listed> = pack
        .files
        .iter()
        .map(|(path, bytes)| Listed {
            path: path.clone(),
            size: bytes.len() as u64,
            sha256: hex(&Sha256::digest(bytes)),
        })
        .collect();
    let manifest = json!({
        "made_by": { "program": env!("CARGO_PKG_NAME"), "version": env!("CARGO_PKG_VERSION") },
        "kind": kind,
        "title": study.title,
        "language": language.code(),
        "languages": contents.editions().map(|edition| edition.study.language.code()).collect::<Vec<_>>(),
        "date": study.date.map(|date| date.to_string()),
        "handling": contents.handling(),
        "audience": agreement.audience,
        "recipient": agreement.recipient,
        "agreement": {
            "grid": agreement.grid.to_string(),
            "epsg": agreement.grid.epsg(),
            "precision": agreement.precision.to_string(),
            "smallest_area_m2": agreement.smallest_area_m2,
            "smallest_count": agreement.smallest_count,
            "shown": names(&agreement.show.iter().map(|a| a.name()).collect::<Vec<_>>()),
            "given": names(&agreement.give.iter().map(|g| g.name()).collect::<Vec<_>>()),
            "stricter": agreement.stricter.iter().map(|rule| {
                json!({ "rule": rule_words(contents, &rule.rule), "precision": rule.precision.to_string() })
            }).collect::<Vec<_>>(),
            "reason": agreement.reason,
            "review": agreement.review.map(|date| date.to_string()),
            "for_publication": agreement.for_publication,
            "smallest_places": agreement.smallest_places,
            "counts": if agreement.exact_counts { "exact" } else { "bands" },
        },
        // The same, for another copy of the study to take in.
        "as_agreed": agreement,
        "rows": {
            "read": tally.read,
            "used": tally.used,
            "set_aside": set_aside,
        },
        "pieces": {
            "shown": figure(published.total(|_| true)),
            "by_parish_alone": figure(published.total(|find| matches!(find.place, ReleasedPlace::Parish(_)))),
            "in_places_too_small_to_show": published.withheld_pieces(),
        },
        "cells": published.cells().len(),
        "withheld": withheld(contents),
        "files": files,
    });
    let mut bytes = serde_json::to_vec_pretty(&manifest)
        .map_err(|why| Fault::new("pack-layer").with("name", NAME).with("why", why))?;
    bytes.push(b'\n');
    pack.add(NAME, bytes);
    Ok(())
}

/// A figure as a number where it is exact, else in words.
fn figure(figure: Figure) -> Value {
    figure.exact().map_or_else(|| json!(figure.text()), |pieces| json!(pieces))
}

/// What a manifest of ours says of its pack.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Made {
    /// The audience it was made for.
    pub audience: String,
    /// Whether it is a submission for a record office.
    pub submission: bool,
}

impl Made {
    /// The manifest's name in every pack.
    pub const NAME: &'static str = NAME;

    /// What a manifest says; `None` when it is none of ours.
    pub fn read(bytes: &[u8]) -> Option<Self> {
        #[derive(Deserialize)]
        struct Manifest {
            audience: String,
            kind: Kind,
        }
        read_listed(bytes)?;
        let Manifest { audience, kind } = serde_json::from_slice(bytes).ok()?;
        Some(Self { audience, submission: kind == Kind::Submission })
    }
}

/// The files that an earlier pack's manifest lists; `None` when it is no manifest of ours.
pub(super) fn read_listed(bytes: &[u8]) -> Option<BTreeSet<String>> {
    #[derive(Deserialize)]
    struct MadeBy {
        program: String,
    }
    #[derive(Deserialize)]
    struct Manifest {
        made_by: MadeBy,
        #[serde(rename = "kind")]
        _kind: Kind,
        files: Vec<Listed>,
    }
    let manifest: Manifest = serde_json::from_slice(bytes).ok()?;
    (manifest.made_by.program == env!("CARGO_PKG_NAME"))
        .then(|| manifest.files.into_iter().map(|file| file.path).collect())
}

/// The agreement that a pack was made under; `None` when it is no manifest of ours.
pub fn read_agreement(bytes: &[u8]) -> Option<crate::study::Agreement> {
    #[derive(Deserialize)]
    struct Manifest {
        as_agreed: crate::study::Agreement,
    }
    read_listed(bytes)?;
    serde_json::from_slice::<Manifest>(bytes).ok().map(|manifest| manifest.as_agreed)
}

/// The kinds of thing that the audience is not told, in words.
pub(super) fn withheld(contents: &Contents<'_>) -> Vec<String> {
    let agreement = &contents.study.agreement;
    let words = crate::words::Words::of(contents.study.language);
    let mut kinds = vec![match agreement.precision.side_m() {
        Some(_) => words.say_with(
            "pack-withheld-finer",
            &[("precision", precision(contents, agreement.precision).into())],
        ),
        None => words.say("pack-withheld-finer-parish"),
    }];
    if !agreement.exact_counts && agreement.show.contains(&Attribute::Count) {
        kinds.push(words.say("pack-withheld-exact-counts"));
    }
    kinds.extend(
        Attribute::ALL
            .iter()
            // A parish as stated says nothing that the parish of the cell does not, to one who sees it.
            .filter(|attribute| !agreement.show.contains(*attribute))
            .map(|attribute| words.say(&format!("pack-withheld-{}", attribute.name()))),
    );
    kinds
}

/// A precision in words: "squares of 1 km", "the parish".
pub(super) fn precision(contents: &Contents<'_>, precision: crate::study::Precision) -> String {
    let words = crate::words::Words::of(contents.study.language);
    match precision.side_m() {
        None => words.say("pack-precision-parish"),
        Some(side_m) => {
            let side = length(words, f64::from(side_m));
            words.say_with("pack-precision-squares", &[("side", side.into())])
        }
    }
}

/// A length in words: "250 m", "2 km", "1.5 km".
pub(super) fn length(words: &crate::words::Words, metres: f64) -> String {
    if metres >= 1_000.0 {
        let km = metres / 1_000.0;
        let decimals = [0, 1, 2]
            .into_iter()
            .find(|d| ((km * 10f64.powi(*d)).round() / 10f64.powi(*d) - km).abs() < 1e-9);
        format!("{}\u{a0}km", words.number(km, decimals.unwrap_or(2) as usize))
    } else {
        let decimals = usize::from(metres < 10.0 && metres.fract() != 0.0);
        format!("{}\u{a0}m", words.number(metres, decimals))
    }
}

/// What a stricter rule keys on, in words.
pub(super) fn rule_words(contents: &Contents<'_>, rule: &StricterRule) -> String {
    let language = contents.study.language;
    let words = crate::words::Words::of(language);
    match rule {
        StricterRule::Class(all) => list(all.iter().map(|c| c.label(language))),
        StricterRule::Period(all) => list(all.iter().map(|p| p.label(language))),
        StricterRule::Setting(all) => list(all.iter().map(|s| s.label(language))),
        StricterRule::Near { distance_m, .. } => {
            words.say_with("pack-stricter-near", &[("distance", length(words, *distance_m).into())])
        }
    }
}

fn list(labels: impl Iterator<Item = String>) -> String {
    labels.collect::<Vec<_>>().join(", ")
}

fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}
