//! What a record office is told of a find besides, as the register states it: with names where those named
//! agreed, and without anything that could place a find more finely than agreed.

use super::Details;
use super::find::More;
use crate::coordinates::notation::cut_places;
use crate::study::Attribute;
use crate::study::vocabulary::fold;

/// Where the agreed square is larger than this, the name of a field or a parcel would tell more than the square,
/// metres. Common practice: fields and parcels are some tens to some hundreds of metres across.
pub(super) const NAMED_M: u32 = 100;

/// Tells what an attribute stands for; whether it stands for anything here. `by_name`: the agreed square is
/// no larger than what a name tells.
pub(super) fn tell(attribute: Attribute, more: &More, by_name: bool, details: &mut Details) -> bool {
    let text = |written: &Option<String>| written.as_deref().map(cut_places);
    match attribute {
        Attribute::HowFound => {
            details.how_found = text(&more.how_found);
            details.depth = text(&more.depth);
        }
        Attribute::Condition => details.condition = text(&more.condition),
        Attribute::Owner => details.owner = text(&more.owner),
        Attribute::StatedParish => details.commune_code = numbered(&more.commune_code),
        Attribute::PlaceName if by_name => details.place_name = text(&more.place_name),
        Attribute::Parcel if by_name => {
            details.section = numbered(&more.section);
            details.parcel = numbered(&more.parcel);
            details.plan_year = numbered(&more.plan_year);
        }
        Attribute::PlaceName => details.name_of_place_withheld |= more.place_name.is_some(),
        Attribute::Parcel => {
            details.name_of_place_withheld |= more.section.is_some() || more.parcel.is_some();
        }
        Attribute::Authorisation => {
            details.authorisation = numbered(&more.authorisation);
            details.declaration = numbered(&more.declaration);
        }
        Attribute::Photographs => details.photographs = more.photographs.as_deref().map(photographs),
        Attribute::KeptOrLeft => details.kept_or_left = text(&more.kept_or_left),
        Attribute::Publication => details.publication = text(&more.publication),
        Attribute::NamesConsent => details.names_consent = text(&more.names_consent),
        Attribute::Embargo => details.embargo = numbered(&more.embargo),
        _ => return false,
    }
    true
}

/// Takes names out where those named did not agree that they are held: from their own fields, and from others of
/// the row where they come again. What is silent on consent is as it was before anybody asked.
pub(super) fn withhold_names(more: &More, details: &mut Details) {
    if more.names_consent.as_deref().is_none_or(agreed) {
        return;
    }
    let named = [&more.finder, &more.looked_at_by, &more.owner, &more.landowner];
    for name in named.into_iter().flatten() {
        for text in [
            &mut details.kept_at,
            &mut details.permission,
            &mut details.note,
            &mut details.how_found,
            &mut details.examined,
            &mut details.photographs,
            &mut details.kept_or_left,
            &mut details.publication,
            &mut details.authorisation,
            &mut details.declaration,
            &mut details.names_consent,
            &mut details.embargo,
        ] {
            if let Some(told) = text.as_deref().and_then(|text| without(text, name)) {
                details.names_withheld = true;
                *text = Some(told);
            }
        }
    }
    for name in [&mut details.finder, &mut details.looked_at_by, &mut details.owner, &mut details.landowner] {
        details.names_withheld |= name.take().is_some();
    }
}

/// A text without a name, whatever its case; `None` where the name does not stand in it.
fn without(text: &str, name: &str) -> Option<String> {
    let pattern =
        regex::RegexBuilder::new(&regex::escape(name.trim())).case_insensitive(true).build().ok()?;
    // "M" would take a letter out of every word.
    let long = name.trim().chars().count() > 2;
    (long && pattern.is_match(text)).then(|| pattern.replace_all(text, "[\u{2026}]").into_owned())
}

/// Whether a cell on consent says that names may be held. What is refused, unsure or still to be asked does not;
/// a "no" is never read as a "yes".
fn agreed(written: &str) -> bool {
    const NOT: [&str; 24] = [
        "n",
        "no",
        "non",
        "not",
        "none",
        "nobody",
        "never",
        "refused",
        "refuse",
        "refusal",
        "refus",
        "declined",
        "withheld",
        "withhold",
        "anonymous",
        "anonyme",
        "pas",
        "sans",
        "jamais",
        "aucun",
        "unknown",
        "inconnu",
        "ask",
        "demander",
    ];
    let folded = fold(written);
    !written.contains(['?', '\u{2717}', '\u{2718}'])
        && !matches!(written.trim(), "0" | "-" | "\u{2013}" | "\u{2014}")
        && folded.split(' ').all(|word| !NOT.contains(&word))
}

/// A number that an office gave or a plan has. Four figures are no finer than a kilometre in any notation, five in
/// one run are half a place, and a year with a number after it is no place; anything else that reads as a place is cut.
fn numbered(written: &Option<String>) -> Option<String> {
    let written = written.as_deref()?;
    let figures: Vec<&str> = written.split(|c: char| !c.is_ascii_digit()).filter(|f| !f.is_empty()).collect();
    // A commune's code has five, alone.
    let few =
        figures.iter().map(|figures| figures.len()).sum::<usize>() <= if figures.len() == 1 { 5 } else { 4 };
    let year = |figures: &str| figures.len() == 4 && matches!(figures.get(..2), Some("18" | "19" | "20"));
    let of_a_year = match figures.as_slice() {
        [first, second] => year(first) && second.len() <= 5 || year(second) && first.len() <= 3,
        [first, month, day] => year(first) && month.len() <= 2 && day.len() <= 2,
        _ => false,
    };
    let signed = written.contains(['\u{b0}', '\'', '"']) && !written.to_lowercase().starts_with("n\u{b0}");
    if (few || of_a_year) && !signed { Some(written.to_owned()) } else { Some(cut_places(written)) }
}

/// The names of photographs. Cameras number theirs with three letters, or one and seven figures, which no
/// reference to a place has; any other name is cut where it reads as a place.
fn photographs(written: &str) -> String {
    let plain = |name: &str| {
        let stem = name
            .rsplit_once('.')
            .map_or(name, |(stem, ending)| if (3..=4).contains(&ending.len()) { stem } else { name });
        let letters = stem.chars().take_while(char::is_ascii_alphabetic).count();
        let rest = stem.get(letters..).unwrap_or_default();
        let figures = rest.strip_prefix('_').unwrap_or(rest);
        figures.chars().all(|c| c.is_ascii_digit())
            && (figures.len() <= 4
                || letters >= 3 && figures.len() <= 8
                || letters == 1 && figures.len() == 7)
    };
    let parts = written.split_inclusive([' ', ',', ';', '\n']);
    let all = parts.clone().all(|part| plain(part.trim_end_matches([' ', ',', ';', '\n', '\r'])));
    if all { written.to_owned() } else { cut_places(written) }
}

#[cfg(test)]
mod tests {
    use super::{Details, More, agreed, numbered, photographs, withhold_names};

    #[test]
    fn a_no_is_never_read_as_a_yes() {
        for yes in ["yes", "oui", "Y", "x", "given 2019", "letter of 3 May 2020", "accord \u{e9}crit", "1"] {
            assert!(agreed(yes), "{yes}");
        }
        for no in ["no", "Non", "N", "not yet", "refus\u{e9}", "declined", "?", "yes?", "ask first", "0", "-"]
        {
            assert!(!agreed(no), "{no}");
        }
    }

    #[test]
    fn names_go_from_every_field_of_the_row() {
        let some = |text: &str| Some(text.to_owned());
        let more = More { finder: some("J. Petrel"), names_consent: some("no"), ..More::default() };
        let mut details = Details {
            finder: some("J. Petrel"),
            kept_at: some("with j. petrel, Northby"),
            note: some("shown by J. Petrel"),
            ..Details::default()
        };
        withhold_names(&more, &mut details);
        assert!(details.names_withheld && !format!("{details:?}").to_lowercase().contains("petrel"));
        assert_eq!(details.kept_at.as_deref(), Some("with [\u{2026}], Northby"));
        let silent = More { finder: some("J. Petrel"), ..More::default() };
        let mut told = Details { finder: some("J. Petrel"), ..Details::default() };
        withhold_names(&silent, &mut told);
        assert!(!told.names_withheld && told.finder.is_some());
    }

    #[test]
    fn numbers_stay_and_places_go() {
        for kept in ["AB", "0123", "ZD 45", "29113", "2021/0456", "n\u{b0} 2021-117", "2020-03-05", "76/2019"]
        {
            assert_eq!(numbered(&Some(kept.to_owned())).as_deref(), Some(kept));
        }
        for cut in ["OV 52341 41733", "54.65805, 0.61377", "552341 541733", "50\u{b0}12'", "TQ 123 456"] {
            assert_ne!(numbered(&Some(cut.to_owned())).as_deref(), Some(cut));
        }
        for kept in ["IMG_2034.jpg", "P1010234.JPG, P1010235.JPG", "DSC01234; DSC01235", "12; 13"] {
            assert_eq!(photographs(kept), kept);
        }
        for cut in ["OV5234141733.jpg", "at 54.65805, 0.61377", "TQ 12345 67890.jpg"] {
            assert_ne!(photographs(cut), cut);
        }
    }
}
