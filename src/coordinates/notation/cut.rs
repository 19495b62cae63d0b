//! Cuts places out of free text.
//!
//! Cutting is greedy on purpose: a few figures too many cost a reader little, one place too few costs
//! the findspot. A count, a year or a measure with its unit stays.

use std::sync::LazyLock;

use regex::Regex;

/// What stands where a place was.
const GONE: &str = "[…]";

/// Every form cut, in order: the longer and surer first.
const FORMS: &[&str] = &[
    // Web and location addresses.
    r"(?i)\b(?:https?://|www\.|geo:|ftp://)\S+",
    r"(?i)\b[\w-]+(?:\.[\w-]+)*\.(?:com|org|net|uk|fr|ie|eu|io|gov|info|app|gl|be|page|link|co)(?:/\S*)?\b",
    // Postcodes: Britain's (whole or outward with a digit after), Ireland's.
    r"(?i)\b(?:GIR\s?0AA|[A-Z]{1,2}\d[A-Z\d]?\s*\d[A-Z]{2})\b",
    r"\b[A-Z]\d[\dW]\s?[A-Z\d]{4}\b",
    // Cells of the European grid, and runs of signed figures.
    r"(?i)\b(?:CRS\d+RES)?\d{1,3}k?mN\d+E\d+\b",
    r"[+-]\d{2,6}(?:\.\d+)?[+-]\d{3,7}(?:\.\d+)?(?:[+-]\d+(?:\.\d+)?)?/?",
    // Three words with points between, with or without the slashes in front.
    r"/{0,3}\b\p{Ll}{3,}[.·。]\p{Ll}{3,}[.·。]\p{Ll}{3,}\b",
    // EPSG codes and named systems with what follows.
    r"(?i)\b(?:epsg[: ]?\d{4,6}|lambert[ -]?93|osgb[ -]?36|wgs[ -]?84|utm|mgrs)\b[\s:;,]*[-+]?\d[\d\s.,;/-]*",
    // Military and UTM references: zone, band, square, figures.
    r"\b\d{1,2}\s?[C-HJ-NP-X]\s?[A-HJ-NP-Z]{2}\s?\d{2,5}\s?\d{2,5}\b",
    r"(?i)\b\d{1,2}[C-HJ-NP-X][A-HJ-NP-Z]{2}\d{4,10}\b",
    r"(?i)\b\d{1,2}\s?[NSC-HJ-NP-X]\s+\d{5,7}\s+\d{6,8}\b",
    // Degrees, minutes and seconds in figures with letters, before or after.
    r#"(?i)\b[NS]\s?\d{1,2}(?:[\s:-]+\d{1,2}(?:[.,]\d+)?){1,2}\D{1,4}[EWO]\s?\d{1,3}(?:[\s:-]+\d{1,2}(?:[.,]\d+)?){1,2}"#,
    r"(?i)\b\d{1,2}(?:[\s:-]+\d{1,2}(?:[.,]\d+)?){1,2}\s*[NS]\b\W*\d{1,3}(?:[\s:-]+\d{1,2}(?:[.,]\d+)?){1,2}\s*[EWO]\b",
    r"(?i)[-+]?\b\d{1,3}d\s?\d{1,2}(?:[.,]\d+)?(?:m\s?(?:\d{1,2}(?:[.,]\d+)?s?)?)?(?:\s*[NSEWO])?\b",
    // Degrees with a sign, a word or a hemisphere letter.
    r#"(?i)(?:\b(?:lat(?:itude)?|lon(?:g(?:itude)?)?|lng)\b[.:=\s]*)?(?:\b[NSEWO]\s*)?[-+−]?\d{1,3}(?:[.,]\d+)?\s*(?:°|º|˚|\bdeg(?:rees|rés)?\b|(?:d|deg)\b)\s*(?:\d{1,2}(?:[.,]\d+)?\s*(?:['′’´]{1,2}|m(?:in)?\b)?\s*)?(?:\d{1,2}(?:[.,]\d+)?\s*(?:["″”]|['′’]{1,2}|s(?:ec)?\b)?\s*)?(?:[NSEWO]\b|(?:north|south|east|west|nord|sud|est|ouest)\b)?"#,
    r"(?i)\b(?:lat(?:itude)?|lon(?:g(?:itude)?)?|lng)\b[.:=\s]*[-+−]?\d{1,3}(?:[.,]\d+)?(?:\s+\d{1,2}(?:[.,]\d+)?){0,2}(?:\s*[NSEWO]\b)?",
    r"(?i)\b\d{1,3}[.,]\d{2,}\s*[NSEWO]\b",
    r"(?i)\b[NSEWO]\s?\d{1,3}[.,]\d{2,}\b",
    // Minutes and seconds left over.
    r#"\b\d{1,2}(?:[.,]\d+)?\s*['′’]\s*\d{1,2}(?:[.,]\d+)?\s*["″”](?:\s*[NSEWO]\b)?"#,
    // Decimal pairs, points or commas.
    r"[-+−]?\b\d{1,3}\.\d{2,}\s*[,;/|\s]\s*[-+−]?\d{1,3}\.\d{2,}\b",
    r"[-+−]?\b\d{1,3},\d{2,}\s*[,;/|\s]\s*[-+−]?\d{1,3},\d{2,}\b",
    // A lone decimal of four places or more is finer than any measure of a stone.
    r"[-+−]?\b\d{1,3}[.,]\d{4,}\b",
    // References with letters, two (Britain) or one (Ireland): any spacing.
    r"(?i)\b[A-HJ-Z]\s?[A-HJ-Z]\s?\d{2}[A-Z]\b",
    r"\b[A-HJ-Z]\s?[A-HJ-Z]\s?[:.-]?\s?(?:\d[\s/.,-]?){4,12}\b",
    r"(?i)\b[A-HJ-Z]{2}(?:\d\s?){4,12}\b",
    r"(?i)\b[A-HJ-Z]{2}\s\d{2,6}[\s/,-]\d{2,6}\b",
    r"(?i)\b[A-HJ-Z]\s?[A-HJ-Z]\s?\d[\s/-]\d\b",
    r"\b[A-HJ-Z]{2}\s?\d{2}\b",
    r"\b[A-HJ-Z]\s?\d{2,5}[\s/,-]?\d{2,5}\b",
    // Eastings and northings with labels.
    r"(?i)\b(?:e(?:asting)?s?|x)\b[:=\s]*\d[\d ,.']{3,}\d[,;\s]*(?:n(?:orthing)?s?|y)\b[:=\s]*\d[\d ,.']{3,}\d",
    r"(?i)\b\d{4,7}(?:[.,]\d+)?\s*m?\s*[EN]\b[,;\s]*\d{4,7}(?:[.,]\d+)?\s*m?\s*[EN]\b",
    // Pairs of three to seven figures.
    r"\b\d{4,7}(?:[.,]\d+)?\s*(?:[,;/|:x×-]|\s|and|et)\s*\d{4,7}(?:[.,]\d+)?\b",
    r"\b\d{1,3}(?:[ \u{a0}\u{202f}.,']\d{3}){1,2}\s*[,;/|\s]\s*\d{1,3}(?:[ \u{a0}\u{202f}.,']\d{3}){1,2}\b",
    r"\b\d{3}\s*[/ ]\s*\d{3}\b",
    // A run of six figures or more, and labelled ones.
    r"\b\d{6,}\b",
    r"(?i)\b(?:ngr|grid\s?ref(?:erence)?|gr|coord(?:inate|onnée)s?|gps)\b[.:=\s]*(?:[A-Z]{0,2}\s?\d[\d\s.,;/-]*\d)",
    // France's and other postcodes of five figures, with the place that follows.
    r"\b(?:[A-Z]{1,2}-)?\d{5}\b(?:\s+\p{Lu}[\p{L}'’-]+)?",
    // Short location codes: eight signs of their alphabet, a plus, two or three more.
    r"(?i)\b[23456789CFGHJMPQRVWX]{4,8}\+[23456789CFGHJMPQRVWX]{2,3}\b",
];

static PATTERNS: LazyLock<Vec<Regex>> =
    LazyLock::new(|| FORMS.iter().filter_map(|form| Regex::new(form).ok()).collect());

/// A note with everything that reads as a place cut out and replaced by `[…]`: references with letters,
/// degrees, pairs of figures, postcodes, web addresses and three-word forms.
pub fn cut_places(text: &str) -> String {
    let mut text = text.to_owned();
    for pattern in PATTERNS.iter() {
        if pattern.is_match(&text) {
            text = pattern.replace_all(&text, GONE).into_owned();
        }
    }
    // Two places beside one another leave one mark.
    while text.contains("[…] […]") || text.contains("[…], […]") || text.contains("[…][…]") {
        text = text.replace("[…] […]", GONE).replace("[…], […]", GONE).replace("[…][…]", GONE);
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_pattern_compiles() {
        for form in FORMS {
            assert!(Regex::new(form).is_ok(), "{:?}", Regex::new(form));
        }
    }

    #[test]
    fn places_go() {
        for place in [
            "OV 523 412",
            "OV523412",
            "ov 5234 4123",
            "OV 52 41",
            "OV52344123",
            "OV 52341 41234",
            "SP39A",
            "O V 523 412",
            "O 159 346",
            "52.65801, 1.71607",
            "52,65801 1,71607",
            "52.65801 -1.71607",
            "52°39'28.8\"N 1°42'57.8\"E",
            "52° 39.48' N, 1° 42.96' E",
            "N 52 39.48 E 1 42.96",
            "52d39m28s N 1d42m57s W",
            "52 39 28 N 1 42 57 W",
            "651409 313177",
            "651409, 313177",
            "E 651409 N 313177",
            "651 409 313 177",
            "652760 6861000",
            "5234 4123",
            "523 412",
            "523/412",
            "EPSG:2154 652760 6861000",
            "NR29 5AB",
            "ZZ1 1AA",
            "https://example.org/x?q=1",
            "maps.example.com/abc",
            "filled.count.soap",
            "///filled.count.soap",
            "31UDQ4825111932",
            "30N 699582 5709431",
            "geo:52.6,1.7",
            "9C3W9QCJ+2VX",
            "Lat: 52.658 Long: 1.716",
            "52.658N 1.716E",
            "1,71607",
        ] {
            let note = format!("flake from the field, {place}, with cortex");
            let cut = cut_places(&note);
            assert!(cut.contains(GONE), "{note} -> {cut}");
            assert!(!cut.chars().any(|c| c.is_ascii_digit()), "{note} -> {cut}");
            assert!(cut.starts_with("flake from the field") && cut.ends_with("with cortex"), "{cut}");
        }
    }

    #[test]
    fn other_figures_stay() {
        for note in [
            "32 mm long, 14.5 g, found 12 May 1998 with 3 others",
            "2 flakes, 1 core; platform 12 x 8 mm",
            "retouched on both edges (see drawing 14)",
            "long de 32,5 mm, trouvé en 1998",
            "in spoil 0.5 m deep, 20% cortex",
        ] {
            assert_eq!(cut_places(note), note);
        }
    }
}
