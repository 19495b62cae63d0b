//! Every word in two languages: none missing, none unused in one, the same values in both.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;

use fluent_syntax::ast::{Entry, Expression, InlineExpression, Pattern, PatternElement, VariantKey};
use fluent_syntax::parser;

use strew::words::{Language, Words};

use super::common::{files, root};

fn inline(expression: &InlineExpression<String>, into: &mut BTreeSet<String>) {
    match expression {
        InlineExpression::VariableReference { id } => {
            into.insert(id.name.trim_end_matches("_text").to_owned());
        }
        InlineExpression::Placeable { expression } => walk(expression, into),
        _ => {}
    }
}

fn walk(expression: &Expression<String>, into: &mut BTreeSet<String>) {
    match expression {
        Expression::Inline(expression) => inline(expression, into),
        Expression::Select { selector, variants } => {
            inline(selector, into);
            for variant in variants {
                pattern(&variant.value, into);
            }
        }
    }
}

fn pattern(pattern: &Pattern<String>, into: &mut BTreeSet<String>) {
    for element in &pattern.elements {
        if let PatternElement::Placeable { expression } = element {
            walk(expression, into);
        }
    }
}

/// Every message of a language with the values it takes; hints as `id.hint`.
fn messages(language: &str) -> BTreeMap<String, BTreeSet<String>> {
    let mut all = BTreeMap::new();
    let folder = root().join("words").join(language);
    for file in files(&folder) {
        let text = fs::read_to_string(folder.join(&file)).unwrap();
        let resource =
            parser::parse(text).unwrap_or_else(|(_, errors)| panic!("{language}/{file:?}: {errors:?}"));
        for entry in resource.body {
            let Entry::Message(message) = entry else { continue };
            let mut values = BTreeSet::new();
            if let Some(value) = &message.value {
                pattern(value, &mut values);
            }
            let id = message.id.name;
            for attribute in message.attributes {
                let mut values = BTreeSet::new();
                pattern(&attribute.value, &mut values);
                all.insert(format!("{id}.{}", attribute.id.name), values);
            }
            assert!(all.insert(id.clone(), values).is_none(), "{language}: {id} stands twice");
        }
    }
    all
}

#[test]
fn both_languages_say_everything_with_the_same_values() {
    let (english, french) = (messages("en"), messages("fr"));
    let lacking: Vec<_> = english.keys().filter(|id| !french.contains_key(*id)).collect();
    assert!(lacking.is_empty(), "French lacks {lacking:?}");
    let lacking: Vec<_> = french.keys().filter(|id| !english.contains_key(*id)).collect();
    assert!(lacking.is_empty(), "English lacks {lacking:?}");
    for (id, values) in &english {
        // French tells the first of a month from its other days; English does not.
        let mut in_french = french[id].clone();
        if !values.contains("first") {
            in_french.remove("first");
        }
        assert_eq!(values, &in_french, "{id} takes other values in French");
    }
    assert!(english.len() > 150);
}

#[test]
fn every_fault_has_its_words_and_a_hint() {
    let english = messages("en");
    let made = regex::Regex::new(r#"Fault::new\(\s*"([a-z0-9-]+)""#).unwrap();
    for file in files(&root().join("src")) {
        let code = fs::read_to_string(root().join("src").join(&file)).unwrap();
        for found in made.captures_iter(&code) {
            assert!(english.contains_key(&found[1]), "{file:?}: the fault {} has no words", &found[1]);
            assert!(
                english.contains_key(&format!("{}.hint", &found[1])),
                "{file:?}: {} has no hint",
                &found[1]
            );
        }
    }
}

#[test]
fn the_vocabulary_is_named_in_both_languages() {
    use strew::study::vocabulary::{Class, Country, Mark, Period, Setting, Standing, Strength, Term};
    let english = messages("en");
    let mut terms: Vec<String> = Vec::new();
    terms.extend(Class::ALL.iter().map(Term::message));
    terms.extend(Period::ALL.iter().map(Term::message));
    terms.extend(Country::ALL.iter().map(Term::message));
    terms.extend(Mark::ALL.iter().map(Term::message));
    terms.extend(Setting::ALL.iter().map(Term::message));
    terms.extend(Standing::ALL.iter().map(Term::message));
    terms.extend(Strength::ALL.iter().map(Term::message));
    for term in terms {
        assert!(english.contains_key(&term), "{term} has no name");
    }
}

#[test]
fn every_message_asked_for_exists() {
    let english = messages("en");
    let asked = regex::Regex::new(r#"\.say(?:_with)?\(\s*"([a-z0-9-]+)""#).unwrap();
    for file in files(&root().join("src")) {
        let code = fs::read_to_string(root().join("src").join(&file)).unwrap();
        for found in asked.captures_iter(&code) {
            assert!(english.contains_key(&found[1]), "{file:?} asks for {}", &found[1]);
        }
    }
}

/// Messages that are said of one thing or more, never of none: the code asks first.
const NEVER_OF_NONE: &[&str] = &[
    "pack-summary-lead",
    "pack-summary-by-parish",
    "pack-summary-out-of-place",
    "pack-places-suppressed",
    "pack-concentration-size",
    "pack-concentration-size-alone",
    "pack-shore-beyond",
    "pack-shore-by-parish",
    "pack-gazetteer-intro",
    "pack-gazetteer-none",
    "pack-gazetteer-pieces",
    "pack-gazetteer-out-of-place",
    "pack-gazetteer-others",
    "sheet-by-parish-only",
    "sheet-density-left-setting",
    "sheet-density-left-off-land",
    "sheet-density-left-unwalked",
    "sheet-out-of-place",
    "sheet-withheld",
    "sheet-doubtful",
    "sheet-apart",
    "sheet-legend-classes-left-out",
    "sheet-legend-periods-left-out",
    "sheet-set-aside",
    "sheet-shore-beyond",
    "sheet-parishes-elsewhere",
    "sheet-symbols-left-out",
    "sheet-symbols-in-larger",
    "sheet-names-left-out",
    "sheet-shore-others",
];

/// A message, the value that chooses, and each category with its words.
type Choices = (String, String, Vec<(String, String)>);

/// The plural categories that a message's choices offer, by the value that chooses; `None` for other choices.
fn categories(language: &str) -> Vec<Choices> {
    let mut all = Vec::new();
    let folder = root().join("words").join(language);
    for file in files(&folder) {
        let resource = parser::parse(fs::read_to_string(folder.join(&file)).unwrap()).unwrap();
        for entry in resource.body {
            let Entry::Message(message) = entry else { continue };
            for element in message.value.iter().flat_map(|value| &value.elements) {
                let PatternElement::Placeable { expression: Expression::Select { selector, variants } } =
                    element
                else {
                    continue;
                };
                let InlineExpression::VariableReference { id } = selector else { continue };
                let told = variants.iter().map(|variant| {
                    let key = match &variant.key {
                        VariantKey::Identifier { name } => name.clone(),
                        VariantKey::NumberLiteral { value } => value.clone(),
                    };
                    let mut values = BTreeSet::new();
                    pattern(&variant.value, &mut values);
                    let said: String = variant
                        .value
                        .elements
                        .iter()
                        .map(|element| match element {
                            PatternElement::TextElement { value } => value.as_str(),
                            PatternElement::Placeable { .. } => "#",
                        })
                        .collect();
                    (key, said)
                });
                all.push((message.id.name.clone(), id.name.clone(), told.collect()));
            }
        }
    }
    all
}

#[test]
fn one_and_many_are_told_apart_in_both_languages() {
    for language in ["en", "fr"] {
        let mut plurals = 0;
        for (message, value, variants) in categories(language) {
            let has = |key: &str| variants.iter().any(|(name, _)| name == key);
            if !has("one") {
                continue;
            }
            plurals += 1;
            assert!(has("other"), "{language}: {message} has no form for many {value}");
            // In French none is singular too: "one" is not always one.
            let one = &variants.iter().find(|(name, _)| name == "one").unwrap().1;
            let says_one =
                one.to_lowercase().split_whitespace().next().is_some_and(|w| w == "un" || w == "une");
            if language == "fr" && says_one && !has("0") {
                assert!(
                    NEVER_OF_NONE.contains(&message.as_str()),
                    "{message} says \"{one}\" of none as well: give it a form for 0"
                );
            }
        }
        assert!(plurals > 30, "{language}: {plurals}");
    }
}

#[test]
fn none_one_and_two_are_said_as_each_language_says_them() {
    let said = |language, n: u32| Words::of(language).say_with("pack-number-pieces", &[("n", n.into())]);
    let english: Vec<String> = (0..3).map(|n| said(Language::English, n)).collect();
    assert_eq!(english, ["pieces", "piece", "pieces"]);
    let french: Vec<String> = (0..3).map(|n| said(Language::French, n)).collect();
    assert_eq!(french, ["pièce", "pièce", "pièces"]);
    let rows = |language, n: u32| {
        let values = [("read", n.into()), ("used", 0u32.into()), ("aside", n.into())];
        Words::of(language).say_with("pack-register-rows", &values)
    };
    for (language, n, begins) in [
        (Language::English, 0, "0 rows were read"),
        (Language::English, 1, "One row was read"),
        (Language::English, 2, "2 rows were read"),
        (Language::French, 0, "Aucune ligne n’a été lue"),
        (Language::French, 1, "Une ligne a été lue"),
        (Language::French, 2, "2 lignes ont été lues"),
    ] {
        assert!(rows(language, n).starts_with(begins), "{}", rows(language, n));
    }
}

#[test]
fn figures_are_written_as_each_language_writes_them() {
    let (english, french) = (Words::of(Language::English), Words::of(Language::French));
    assert_eq!(english.number(1_234_567.25, 1), "1,234,567.2");
    // A narrow space at which no line breaks, and a comma (Imprimerie nationale's rules; common practice).
    assert_eq!(french.number(1_234_567.25, 1), "1\u{202f}234\u{202f}567,2");
    assert_eq!(french.number(999.0, 0), "999");
    assert_eq!((english.number(-0.5, 1), french.number(-0.5, 1)), ("−0.5".to_owned(), "−0,5".to_owned()));
    assert_eq!(french.say_with("pack-percent", &[("n", "5".into())]), "5\u{a0}%");
    let all = ["a".to_owned(), "b".to_owned(), "c".to_owned()];
    assert_eq!((english.list(&all), french.list(&all)), ("a, b and c".to_owned(), "a, b et c".to_owned()));
    assert_eq!((french.list(&all[..1]), french.list(&[])), ("a".to_owned(), String::new()));
}

#[test]
fn french_uses_the_words_of_the_trade() {
    // Common practice; never what the English says word for word.
    let text = |language: &str| -> String {
        let folder = root().join("words").join(language);
        files(&folder)
            .iter()
            .map(|file| fs::read_to_string(folder.join(file)).unwrap().to_lowercase())
            .collect()
    };
    let french = text("fr");
    for word in
        ["concentration", "prospection pédestre", "talon", "nervures", "inventeur", "lieu de découverte"]
    {
        assert!(french.contains(word), "French does not say {word}");
    }
    for word in [
        "trouveur",
        "arêtes dorsales",
        "cicatrices dorsales",
        "plate-forme",
        "marche de champ",
        "éparpillement",
    ] {
        assert!(!french.contains(word), "French says {word}");
    }
}
