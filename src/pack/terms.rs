//! What an office may do with what it is given: what may be published, why no more, until when; in words, from the
//! agreement alone.

use super::Contents;
use super::document::{Block, Builder};
use super::manifest::precision;
use super::report::{capital, written_date};
use crate::study::Precision;
use crate::words::Words;

/// What the recipient may publish: as agreed, or else no more than the public is shown, or nothing.
pub(super) fn may_publish(contents: &Contents<'_>) -> String {
    let words = Words::of(contents.study.language);
    let agreement = &contents.study.agreement;
    match (&agreement.may_publish, agreement.public_precision) {
        (Some(agreed), _) => agreed.clone(),
        (None, Some(public)) if !agreement.for_publication => {
            words.say_with("pack-terms-as-public", &[("precision", precision(contents, public).into())])
        }
        (None, None) if !agreement.for_publication => words.say("pack-terms-nothing"),
        _ => words.say("pack-terms-as-shown"),
    }
}

/// What the recipient is asked to do, by the ends of messages.
const ASKED: [&str; 6] = ["keep", "ask", "names", "land", "mistakes", "yours"];

/// What is asked of the recipient.
pub(super) fn asked(words: &Words) -> Vec<String> {
    ASKED.iter().map(|id| words.say(&format!("pack-terms-do-{id}"))).collect()
}

/// What the pack shows, and to what size of ground.
pub(super) fn shows(contents: &Contents<'_>) -> String {
    let agreement = &contents.study.agreement;
    let id = match agreement.precision {
        Precision::Square { side_m } if side_m <= 100 => "pack-terms-shows-closely",
        _ => "pack-terms-shows",
    };
    let values = [("precision", precision(contents, agreement.precision).into())];
    Words::of(contents.study.language).say_with(id, &values)
}

/// Who may receive it and what may be published, why no more and until when.
pub(super) fn facts(contents: &Contents<'_>) -> Vec<(String, String)> {
    let words = Words::of(contents.study.language);
    let agreement = &contents.study.agreement;
    let recipient = agreement.recipient.clone().unwrap_or_else(|| agreement.audience.clone());
    let fact = |id: &str, value: String| (words.say(&format!("pack-terms-{id}")), capital(&value));
    let date = |date: crate::units::Date| written_date(words, date);
    let none = || words.say("pack-terms-unsaid");
    vec![
        fact("who", words.say_with("pack-terms-who-told", &[("recipient", recipient.into())])),
        fact("publish", may_publish(contents)),
        fact("why", agreement.reason.clone().unwrap_or_else(|| words.say("pack-terms-why-told"))),
        fact("embargo", agreement.embargo.map_or_else(|| words.say("pack-terms-embargo-each"), date)),
        fact("review", agreement.review.map_or_else(none, date)),
        fact("edition", contents.study.edition.clone().unwrap_or_else(none)),
    ]
}

/// The part of the submission that says who may see it and what may be done with it.
pub(super) fn terms(page: &mut Builder<'_>) {
    page.section("terms", "pack-terms");
    let text = shows(page.contents);
    page.add(Block::Paragraph { text });
    let items = facts(page.contents);
    page.add(Block::Facts { items });
    let items = asked(page.words);
    page.list(items);
}
