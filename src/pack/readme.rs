//! `README.txt`: what is in the folder, how it was made, and what to bear in mind. Plain text, wrapped,
//! for whoever opens the folder first.

pub(super) use super::manifest::Kind;
use super::manifest::{length, precision, withheld};
use super::{Contents, Pack, terms};
use crate::study::Giving;
use crate::words::{Value, Words};

/// Columns that lines are wrapped to.
const WIDTH: usize = 78;

/// Adds the page, after every other file but the manifest is there.
pub(super) fn add(pack: &mut Pack, contents: &Contents<'_>, kind: Kind) {
    let editions: Vec<String> = contents.editions().map(|edition| page(pack, edition, kind)).collect();
    let out = editions.join(&format!("\n{}\n\n", "-".repeat(WIDTH)));
    // Windows' plain editors and all others read this ending.
    pack.add("README.txt", out.replace('\n', "\r\n"));
}

/// The page in one language.
fn page(pack: &Pack, contents: &Contents<'_>, kind: Kind) -> String {
    let words = Words::of(contents.study.language);
    let study = contents.study;
    let agreement = &study.agreement;
    let mut out = String::new();
    let mut paragraph = |text: &str, front: &str| {
        wrap(&mut out, text, front);
    };
    paragraph(&study.title, "");
    if let Some(mark) = contents.handling() {
        paragraph(&mark.to_uppercase(), "");
        paragraph(&words.say("pack-readme-handling"), "");
    }
    paragraph(
        &words.say(match kind {
            Kind::Pack => "pack-readme-pack",
            Kind::Submission => "pack-readme-submission",
        }),
        "",
    );
    let recipient = agreement.recipient.clone().unwrap_or_else(|| match agreement.for_publication {
        true => words.say("pack-places-everyone"),
        false => agreement.audience.clone(),
    });
    let made = [
        ("program", format!("{} {}", env!("CARGO_PKG_NAME"), env!("CARGO_PKG_VERSION")).into()),
        ("recipient", recipient.into()),
        ("precision", precision(contents, agreement.precision).into()),
        ("grid", crate::sheet::grid_name(&agreement.grid, words).into()),
    ];
    paragraph(&words.say_with("pack-readme-made", &made), "");

    // A report says how it was made; without one this page does, in brief.
    if kind == Kind::Pack && !contents.gives(Giving::Report) {
        methods(contents).iter().for_each(|text| paragraph(text, ""));
    }

    paragraph(&words.say("pack-readme-files"), "");
    for group in groups(pack) {
        paragraph(&format!("{} – {}", group.path, words.say(group.message)), "  ");
    }
    paragraph(&format!("MANIFEST.json – {}", words.say("pack-file-manifest")), "  ");

    if kind == Kind::Submission {
        paragraph(&words.say("pack-terms"), "");
        paragraph(&terms::shows(contents), "");
        for (name, value) in terms::facts(contents) {
            paragraph(
                &words.say_with("pack-terms-fact", &[("name", name.into()), ("value", value.into())]),
                "  - ",
            );
        }
        terms::asked(words).iter().for_each(|text| paragraph(text, "  - "));
    }
    paragraph(&words.say("pack-readme-withheld"), "");
    for kind in withheld(contents) {
        paragraph(&kind, "  - ");
    }
    if let Some(reason) = agreement.reason.as_ref().filter(|_| kind == Kind::Pack) {
        paragraph(&words.say_with("pack-readme-reason", &[("reason", reason.clone().into())]), "");
    }
    paragraph(&words.say("pack-readme-cautions"), "");
    let cautions: &[&str] = match kind {
        Kind::Pack => &super::report::CAUTIONS,
        Kind::Submission => &super::report::CAUTIONS_OF_A_SUBMISSION,
    };
    for id in cautions {
        paragraph(&words.say(id), "  - ");
    }
    if !contents.ground.credits.is_empty() {
        paragraph(&words.say("pack-readme-credits"), "");
        for credit in &contents.ground.credits {
            paragraph(&credit.said(words), "  - ");
        }
    }
    out
}

/// How places were cut and densities made, in the report's words without its sources.
fn methods(contents: &Contents<'_>) -> Vec<String> {
    let words = Words::of(contents.study.language);
    let plain = |text: String| text.replace(" .", ".");
    let sources = || ("sources", Value::from(""));
    let mut told = vec![plain(words.say_with("pack-method-cells", &[sources()]))];
    if contents.published.in_bands_only() {
        told.push(plain(words.say_with("pack-method-bands", &[sources()])));
    }
    if let Some(surface) = contents.surface {
        let values = [
            ("bandwidth", length(words, surface.bandwidth_m.round()).into()),
            ("pixel", length(words, surface.pixel_m).into()),
            sources(),
        ];
        told.push(plain(words.say_with("pack-method-density", &values)));
    }
    told
}

/// A kind of file in the pack.
pub(super) struct Group {
    pub path: String,
    pub message: &'static str,
}

/// The files of a pack by kind, in order of path.
pub(super) fn groups(pack: &Pack) -> Vec<Group> {
    group(pack.files.keys())
}

/// Says what each file is; files of one kind are one line.
pub(super) fn group<'a>(paths: impl Iterator<Item = &'a String>) -> Vec<Group> {
    let mut groups: Vec<Group> = Vec::new();
    for path in paths {
        let (shown, message) = match path.as_str() {
            "report.html" => (path.clone(), "pack-file-report-html"),
            "report.pdf" => (path.clone(), "pack-file-report-pdf"),
            "submission.html" => (path.clone(), "pack-file-submission-html"),
            "submission.pdf" => (path.clone(), "pack-file-submission-pdf"),
            "layers/cells.geojson" => (path.clone(), "pack-file-cells-geojson"),
            "layers/cells.kml" => (path.clone(), "pack-file-cells-kml"),
            "layers/concentrations.geojson" => (path.clone(), "pack-file-concentrations"),
            "layers/contours.geojson" => (path.clone(), "pack-file-contours"),
            "layers/density.tif" => (path.clone(), "pack-file-density"),
            "layers/fields.csv" | "fields.csv" => (path.clone(), "pack-file-fields"),
            "layers/strew.gpkg" => (path.clone(), "pack-file-geopackage"),
            other if other.starts_with("tables/tables") && other.ends_with(".xlsx") => {
                (path.clone(), "pack-file-workbook")
            }
            other if other.ends_with("finds.csv") => (path.clone(), "pack-file-finds-csv"),
            other if other.ends_with("finds.gpkg") => (path.clone(), "pack-file-finds-gpkg"),
            other if other.ends_with("fieldwork.csv") => (path.clone(), "pack-file-fieldwork-csv"),
            other if other.starts_with("maps/") => ("maps/".to_owned(), "pack-file-maps"),
            other if other.starts_with("tables/") => ("tables/".to_owned(), "pack-file-tables"),
            _ => continue,
        };
        if groups.iter().all(|group| group.path != shown) {
            groups.push(Group { path: shown, message });
        }
    }
    groups
}

/// Paragraphs of plain text, wrapped, with the line ends that every plain editor reads.
pub(super) fn wrapped(paragraphs: &[&str]) -> String {
    let mut out = String::new();
    paragraphs.iter().for_each(|text| wrap(&mut out, text, ""));
    out.replace('\n', "\r\n")
}

/// Appends a paragraph, its lines led by `front` (the first) or as many spaces.
fn wrap(out: &mut String, text: &str, front: &str) {
    // List items stand close; a paragraph is set off by a blank line.
    if !out.is_empty() && front.is_empty() {
        out.push('\n');
    }
    let indent = " ".repeat(front.chars().count());
    let mut line = front.to_owned();
    let mut used = false;
    for word in text.split(' ').flat_map(|word| word.split('\n')) {
        if used && line.chars().count() + 1 + word.chars().count() > WIDTH {
            out.push_str(line.trim_end());
            out.push('\n');
            line = indent.clone();
            used = false;
        }
        if used {
            line.push(' ');
        }
        line.push_str(word);
        used = true;
    }
    out.push_str(line.trim_end());
    out.push('\n');
}
