//! The reply slip for people who show stones: what was seen in them, what they may do next, and a line to tear
//! off for what they consent to. Several to the page, with cut marks.

use serde::Serialize;

use super::Heading;
use super::tongues::{Named, Said, Tongues};
use super::typeset;
use crate::fault::Result;
use crate::study::vocabulary::{Country, Mark, Strength};

const WORDS: [&str; 15] = [
    "number", "date", "seen", "strength", "class", "period", "unsure", "next", "office", "tear", "consent",
    "name", "reach", "signed", "change",
];

#[derive(Serialize)]
struct Data {
    languages: Vec<&'static str>,
    title: Said,
    from: Option<String>,
    office: Option<String>,
    words: Named,
    marks: Vec<Said>,
    strengths: Vec<Said>,
    next: Vec<Said>,
    consents: Vec<Said>,
}

pub(super) fn slips(tongues: &Tongues, heading: &Heading) -> Result<Vec<u8>> {
    let all = |prefix: &str, names: &[&str]| -> Vec<Said> {
        names.iter().map(|name| tongues.say(&format!("pack-slip-{prefix}-{name}"))).collect()
    };
    let mut marks = tongues.labels([Mark::Platform, Mark::Bulb]);
    marks.push(tongues.say("pack-blank-bulbar-scar"));
    marks.push(tongues.label(&Mark::Ripples));
    marks.push(tongues.say("pack-blank-dorsal-ridges"));
    marks.push(tongues.label(&Mark::Retouch));
    marks.push(tongues.say("pack-slip-no-mark"));
    let mut strengths = tongues.labels([Strength::Strong, Strength::Moderate, Strength::Weak]);
    strengths.push(tongues.say("pack-slip-natural"));
    // Where every chance find is to be declared, "some finds" would say too little.
    let office = if heading.country == Some(Country::France) { "office-france" } else { "office" };
    let data = Data {
        languages: tongues.codes(),
        title: tongues.say("pack-slip-title"),
        from: heading.from.clone().or_else(|| heading.study.clone()),
        office: heading.office.clone(),
        words: tongues.named("pack-slip", &WORDS),
        marks,
        strengths,
        next: all("next", &["place", office, "rest"]),
        consents: all("consent", &["keep", "name", "place", "show"]),
    };
    typeset::pdf("reply-slip", include_str!("reply-slip.typ"), &data, &[])
}
