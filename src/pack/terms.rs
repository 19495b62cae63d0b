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

/// The part of the submission that says who may see it and what may be done with it.
pub(super) fn terms(page: &mut Builder<'_>) {
    let (contents, words) = (page.contents, page.words);
    let agreement = &contents.study.agreement;
    page.section("terms", "pack-terms");
    let recipient = agreement.recipient.clone().unwrap_or_else(|| agreement.audience.clone());
    let finest = match agreement.precision {
        Precision::Square { side_m } if side_m <= 100 => "pack-terms-shows-closely",
        _ => "pack-terms-shows",
    };
    page.say_with(finest, &[("precision", precision(contents, agreement.precision).into())]);
    let fact = |id: &str, value: String| (words.say(&format!("pack-terms-{id}")), capital(&value));
    let date = |date: crate::units::Date| written_date(words, date);
    let none = || words.say("pack-terms-unsaid");
    let items = vec![
        fact("who", words.say_with("pack-terms-who-told", &[("recipient", recipient.into())])),
        fact("publish", may_publish(contents)),
        fact("why", agreement.reason.clone().unwrap_or_else(|| words.say("pack-terms-why-told"))),
        fact("embargo", agreement.embargo.map_or_else(|| words.say("pack-terms-embargo-each"), date)),
        fact("review", agreement.review.map_or_else(none, date)),
        fact("edition", contents.study.edition.clone().unwrap_or_else(none)),
    ];
    page.add(Block::Facts { items });
    let items = ["keep", "ask", "names", "land", "mistakes", "yours"];
    page.list(items.iter().map(|id| words.say(&format!("pack-terms-do-{id}"))).collect());
}
