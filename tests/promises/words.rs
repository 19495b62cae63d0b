//! Every word in two languages: none missing, none unused in one, the same values in both.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;

use fluent_syntax::ast::{Entry, Expression, InlineExpression, Pattern, PatternElement};
use fluent_syntax::parser;

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
