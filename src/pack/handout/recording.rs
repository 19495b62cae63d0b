//! The finder's blank recording sheet: one page for one piece. Its headings in bold are headings that a
//! register is read by, so that filled sheets become a register by typing alone.

use serde::Serialize;

use super::Heading;
use super::tongues::{Named, Said, Tongues};
use super::typeset;
use crate::coordinates::System;
use crate::fault::Result;
use crate::study::vocabulary::{Class, Country, Mark, Setting, Standing, Term};
use crate::words::Words;

/// Boxes whose heading is that of a register's column.
const COLUMNS: [&str; 20] = [
    "number",
    "date",
    "finder",
    "looked-at-by",
    "parish",
    "landowner",
    "permission",
    "setting",
    "place",
    "accuracy",
    "standing",
    "marks",
    "class",
    "period",
    "count",
    "length",
    "weight",
    "material",
    "kept-at",
    "note",
];

/// Boxes that stay on paper.
const ON_PAPER: [&str; 6] = ["system", "how-got", "how-found", "sketch", "photographs", "left"];

/// Classes with an outline of their own, and the share of the row that their names need.
const DRAWN: [(Class, f64); 10] = [
    (Class::Flake, 1.0),
    (Class::Blade, 1.0),
    (Class::Core, 1.0),
    (Class::Scraper, 1.0),
    (Class::Piercer, 1.0),
    (Class::Knife, 1.0),
    (Class::Microlith, 1.0),
    (Class::LeafArrowhead, 1.3),
    (Class::BarbedTangedArrowhead, 1.75),
    (Class::Axehead, 1.0),
];

#[derive(Serialize)]
#[serde(rename_all = "kebab-case")]
struct Data {
    languages: Vec<&'static str>,
    title: Said,
    study: Option<String>,
    office: Option<String>,
    lead: Said,
    words: Named,
    headings: Named,
    hints: Named,
    views: Named,
    settings: Vec<Said>,
    systems: Vec<Said>,
    how_got: Vec<Said>,
    how_found: Vec<Said>,
    standings: Vec<Said>,
    marks: std::collections::BTreeMap<&'static str, MarkTold>,
    alt: String,
    classes: Vec<ClassDrawn>,
    photographs: Vec<Said>,
    cautions: Said,
}

#[derive(Serialize)]
struct MarkTold {
    name: Said,
    hint: Said,
}

#[derive(Serialize)]
struct ClassDrawn {
    shape: &'static str,
    share: f64,
    name: Said,
}

pub(super) fn sheet(tongues: &Tongues, heading: &Heading) -> Result<Vec<u8>> {
    typeset::pdf("recording-sheet", include_str!("recording-sheet.typ"), &data(tongues, heading), &[])
}

fn data(tongues: &Tongues, heading: &Heading) -> Data {
    let choices = |prefix: &str, names: &[&str]| -> Vec<Said> {
        names.iter().map(|name| tongues.say(&format!("pack-blank-{prefix}-{name}"))).collect()
    };
    let mut headings = tongues.named("pack-blank-column", &COLUMNS);
    headings.0.extend(tongues.named("pack-blank-box", &ON_PAPER).0);
    let hints = ["permission", "place", "accuracy", "marks", "class", "period", "sketch"];
    Data {
        languages: tongues.codes(),
        title: tongues.say("pack-blank-title"),
        study: heading.study.clone(),
        office: heading.office.clone(),
        lead: tongues.say("pack-blank-lead"),
        words: tongues.named("pack-blank", &["office"]),
        headings,
        hints: tongues.named("pack-blank-hint", &hints),
        views: tongues.named("pack-blank-view", &["bulbar", "side", "back"]),
        settings: tongues.labels(Setting::ALL.iter().copied().filter(|known| *known != Setting::Unknown)),
        systems: systems(tongues, heading),
        how_got: choices("got", &["phone", "receiver", "map", "screen"]),
        how_found: choices("found", &["surface", "section", "dug"]),
        standings: tongues.labels(Standing::ALL.iter().copied().filter(|known| *known != Standing::Unknown)),
        marks: marks(tongues),
        alt: tongues.say("pack-blank-drawing").first().map(|(_, words)| words.clone()).unwrap_or_default(),
        classes: DRAWN
            .iter()
            .map(|(class, share)| ClassDrawn {
                shape: class.name(),
                share: *share,
                name: tongues.label(class),
            })
            .collect(),
        photographs: choices("photograph", &["face", "back", "side", "scale"]),
        cautions: cautions(tongues, heading.country.unwrap_or(Country::Other)),
    }
}

/// The study's own grid first, then those that maps and phones give.
fn systems(tongues: &Tongues, heading: &Heading) -> Vec<Said> {
    let mut systems = vec![System::BritishGrid, System::Lambert93];
    if let Some(grid) = &heading.grid {
        systems.retain(|system| system != grid);
        systems.insert(0, grid.clone());
    }
    let mut all: Vec<Said> = systems
        .iter()
        .map(|system| tongues.each(|language| crate::sheet::grid_name(system, Words::of(language))))
        .map(|mut said| {
            said.dedup_by(|b, a| b.1 == a.1);
            said
        })
        .collect();
    all.push(tongues.say("pack-blank-system-degrees"));
    all.push(tongues.say("pack-blank-system-other"));
    all
}

/// The marks with what each is, in the order of the drawings.
fn marks(tongues: &Tongues) -> std::collections::BTreeMap<&'static str, MarkTold> {
    let of = |key: &'static str, name: Said| {
        (key, MarkTold { name, hint: tongues.say(&format!("pack-blank-mark-{key}")) })
    };
    [
        of("platform", tongues.label(&Mark::Platform)),
        of("bulb", tongues.label(&Mark::Bulb)),
        of("bulbar-scar", tongues.say("pack-blank-bulbar-scar")),
        of("ripples", tongues.label(&Mark::Ripples)),
        of("dorsal-ridges", tongues.say("pack-blank-dorsal-ridges")),
        of("retouch", tongues.label(&Mark::Retouch)),
    ]
    .into()
}

/// The cautions, and what the law of the country asks, in one paragraph a language.
fn cautions(tongues: &Tongues, country: Country) -> Said {
    tongues.each(|language| {
        let words = Words::of(language);
        let law = words.say(&format!("pack-law-{}", country.message().trim_start_matches("country-")));
        format!("{} {law} {}", words.say("pack-blank-cautions"), words.say("pack-law-general"))
    })
}
