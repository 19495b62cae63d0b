//! Markup: what stands between tags, what stands in attributes, and the whole as a drawing, since the figures of
//! its paths are places of the page.

use std::sync::LazyLock;

use regex::Regex;

use super::Form;
use super::opening::{Here, Opened};

/// Attributes whose figures are places of the page or looks.
const OF_THE_PAGE: &[&str] = &[
    "d",
    "points",
    "transform",
    "viewbox",
    "x",
    "y",
    "x1",
    "x2",
    "y1",
    "y2",
    "cx",
    "cy",
    "r",
    "rx",
    "ry",
    "dx",
    "dy",
    "width",
    "height",
    "style",
    "class",
    "href",
    "xlink:href",
    "fill",
    "stroke",
    "stroke-width",
    "stroke-dasharray",
    "stroke-miterlimit",
    "font-size",
    "gradienttransform",
    "offset",
    "opacity",
    "src",
    "srcset",
    "t",
    "s",
    "spans",
    "ht",
    "ref",
];

static TAG: LazyLock<Option<Regex>> = LazyLock::new(|| Regex::new(r#"<(?:[^<>"']|"[^"]*"|'[^']*')*>"#).ok());
static ATTRIBUTE: LazyLock<Option<Regex>> =
    LazyLock::new(|| Regex::new(r#"([A-Za-z_][\w:.-]*)\s*=\s*(?:"([^"]*)"|'([^']*)')"#).ok());
/// Coordinates that another reader takes.
static TAKEN: LazyLock<Option<Regex>> = LazyLock::new(|| {
    Regex::new(r"(?s)<(?:\w+:)?coordinates\b[^>]*>.*?</(?:\w+:)?coordinates>|<style\b.*?</style>").ok()
});

/// Whether a text is markup.
pub(super) fn is(text: &str) -> bool {
    let start = text.trim_start_matches(['\u{feff}', ' ', '\n', '\r', '\t']);
    start.starts_with('<') && start.contains('>')
}

/// Opens markup.
pub(super) fn open(opened: &mut Opened, here: &Here, text: &str) {
    let (Some(tag), Some(attribute), Some(taken)) = (TAG.as_ref(), ATTRIBUTE.as_ref(), TAKEN.as_ref()) else {
        return;
    };
    opened.layer(here, Form::Drawing, text.as_bytes().to_vec());
    let rest = taken.replace_all(text, " ");
    let [mut words, mut joined, mut runs, mut values] = [const { String::new() }; 4];
    let (mut last, mut parted) = (0, false);
    for found in tag.find_iter(&rest) {
        let between = rest.get(last..found.start()).unwrap_or("");
        words.push_str(between);
        joined.push_str(between);
        runs.push_str(between);
        let inside = found.as_str();
        if within_a_word(inside) {
            parted = true;
        } else {
            runs.push(' ');
        }
        // Cells and paragraphs end a word; a letter set bold within it does not.
        words.push(if inside.starts_with("</") { '\n' } else { ' ' });
        if inside.starts_with("<!--") || inside.starts_with("<?") || inside.starts_with("<!") {
            words.push_str(inside);
        }
        let mut own = String::new();
        for pair in attribute.captures_iter(inside) {
            let (Some(name), Some(value)) = (pair.get(1), pair.get(2).or(pair.get(3))) else { continue };
            if !OF_THE_PAGE.contains(&name.as_str().to_lowercase().as_str()) {
                own.push_str(value.as_str());
                own.push('\t');
            }
        }
        if own.bytes().any(|byte| !byte.is_ascii_whitespace()) {
            values.push_str(&own);
            values.push('\n');
        }
        last = found.end();
    }
    words.push_str(rest.get(last..).unwrap_or(""));
    joined.push_str(rest.get(last..).unwrap_or(""));
    runs.push_str(rest.get(last..).unwrap_or(""));
    if parted {
        opened.layer(here, Form::Text, runs.into_bytes());
    }
    opened.layer(here, Form::Text, words.into_bytes());
    opened.layer(here, Form::Text, values.into_bytes());
    opened.layer(here, Form::Hidden, joined.into_bytes());
}

/// Whether a tag stands within a word: letters set bold, corrected or coloured. Tags of unknown meaning do not.
fn within_a_word(tag: &str) -> bool {
    let name = tag.trim_start_matches(['<', '/']);
    let name = name.split([' ', '/', '>', '\n', '\t', '\r']).next().unwrap_or("");
    match name.split_once(':') {
        Some(("w", name)) => !matches!(name, "p" | "tc" | "tr" | "tbl" | "tab" | "br" | "cr"),
        Some(("text", name)) => matches!(name, "span" | "a" | "bookmark" | "soft-page-break"),
        Some(("a", name)) => !matches!(name, "p" | "tc" | "tr" | "tbl" | "br"),
        Some(_) => false,
        None => matches!(
            name.to_ascii_lowercase().as_str(),
            "b" | "i"
                | "em"
                | "strong"
                | "span"
                | "font"
                | "u"
                | "s"
                | "sup"
                | "sub"
                | "small"
                | "mark"
                | "code"
                | "a"
                | "wbr"
                | "r"
                | "t"
                | "rpr"
                | "sz"
                | "color"
                | "rfont"
                | "family"
                | "scheme"
                | "charset"
        ),
    }
}
