//! The submission's first page: what the office needs to log it before anybody reads on, and a receipt to send
//! back.

use super::Pack;
use super::document::{Block, Builder};
use super::finds::withdrawn;
use super::manifest::{length, precision};
use super::report::{capital, written_date};
use crate::exact::{Details, ReleasedPlace, RowState};
use crate::study::Attribute;

/// Says who sends what to whom. `pack` holds the files written so far.
pub(super) fn cover(page: &mut Builder<'_>, pack: &Pack) {
    let words = page.words;
    page.section("cover", "pack-cover");
    let fact = |id: &str, value: String| (words.say(&format!("pack-cover-{id}")), value);
    let items = vec![
        fact("from", from(page)),
        fact("records", records(page)),
        fact("state", state(page)),
        fact("grid", grid(page)),
        fact("precision", given_and_held(page)),
        fact("consent", consent(page)),
        fact("names", names(page)),
        fact("folder", folder(page, pack)),
    ];
    page.add(Block::Facts { items });
    blanks(page, &["contact"]);
    page.add(Block::Cut { text: words.say("pack-cover-cut") });
    receipt(page);
    page.add(Block::NewPage);
}

/// The compiler, with the edition and the day.
fn from(page: &Builder<'_>) -> String {
    let study = page.contents.study;
    let parts: Vec<String> = study.compiler.iter().cloned().chain(from_edition(page)).collect();
    parts.join(page.words.semicolon())
}

/// The edition with its day, as the receipt repeats it.
fn from_edition(page: &Builder<'_>) -> Option<String> {
    let study = page.contents.study;
    let date = study.date.map(|date| written_date(page.words, date));
    let parts: Vec<String> = study.edition.iter().cloned().chain(date).collect();
    (!parts.is_empty()).then(|| parts.join(page.words.semicolon()))
}

fn records(page: &Builder<'_>) -> String {
    let published = page.contents.published;
    let by_parish =
        published.finds().iter().filter(|find| matches!(find.place, ReleasedPlace::Parish(_))).count();
    page.words.say_with(
        "pack-cover-records-told",
        &[
            ("records", published.records().into()),
            ("pieces", published.pieces().into()),
            ("parish", by_parish.into()),
            ("read", published.tally().read.into()),
            ("aside", published.tally().set_aside_total().into()),
        ],
    )
}

fn grid(page: &Builder<'_>) -> String {
    let grid = &page.contents.study.agreement.grid;
    let name = capital(&crate::sheet::grid_name(grid, page.words));
    grid.epsg().map_or_else(|| name.clone(), |code| format!("{name} (EPSG:{code})"))
}

/// The precision of the squares given, and the finest and coarsest that the register holds.
fn given_and_held(page: &Builder<'_>) -> String {
    let (contents, words) = (page.contents, page.words);
    let given = capital(&precision(contents, contents.study.agreement.precision));
    let held = contents.published.finds().iter().filter_map(|find| find.details.as_ref()?.held_m);
    let (least, most) = held.fold((f64::INFINITY, 0.0_f64), |(a, b), side| (a.min(side), b.max(side)));
    if most <= 0.0 {
        return given;
    }
    let values = [
        ("given", given.into()),
        ("least", length(words, least).into()),
        ("most", length(words, most).into()),
    ];
    words.say_with("pack-cover-precision-told", &values)
}

/// How many records state a permission; what finders and landowners agreed to is not in a register.
fn consent(page: &Builder<'_>) -> String {
    let (contents, words) = (page.contents, page.words);
    if !contents.study.agreement.show.contains(&Attribute::Permission) {
        return words.say("pack-cover-consent-unshown");
    }
    let finds = contents.published.finds();
    let stated = |find: &&crate::exact::ReleasedFind| {
        find.details.as_ref().is_some_and(|details| details.permission.is_some())
    };
    let n = finds.iter().filter(stated).count();
    words.say_with("pack-cover-consent-told", &[("n", n.into()), ("records", finds.len().into())])
}

/// The cover names as many rows that are withdrawn; the table of finds names all.
const MOST_LISTED: usize = 60;

/// How many records are new, amended, withdrawn and unchanged, where the ledger tells.
fn state(page: &Builder<'_>) -> String {
    let (contents, words) = (page.contents, page.words);
    let states: Vec<RowState> =
        contents.published.finds().iter().filter_map(|find| find.details.as_ref()?.state).collect();
    let gone = withdrawn(contents);
    if states.is_empty() && gone.is_empty() {
        return words.say("pack-cover-state-told");
    }
    let count = |state: RowState| {
        let told = states.iter().filter(|other| **other == state).count();
        told + if state == RowState::Withdrawn { gone.len() } else { 0 }
    };
    let values = RowState::ALL.map(|state| (state.name(), count(state).into()));
    let counted = words.say_with("pack-cover-state-counted", &values);
    if gone.is_empty() {
        return counted;
    }
    let list: Vec<String> = gone.iter().take(MOST_LISTED).map(|number| (*number).to_owned()).collect();
    let mut told = vec![words.say_with("pack-cover-withdrawn", &[("list", words.list(&list).into())])];
    if gone.len() > MOST_LISTED {
        let n = gone.len() - MOST_LISTED;
        told.push(words.say_with("pack-cover-withdrawn-more", &[("n", n.into())]));
    }
    format!("{counted} {}", told.join(" "))
}

/// Whether names may be held, and how many records have theirs taken out.
fn names(page: &Builder<'_>) -> String {
    let (contents, words) = (page.contents, page.words);
    let count = |asked: fn(&Details) -> bool| {
        let details = contents.published.finds().iter().filter_map(|find| find.details.as_deref());
        details.filter(|details| asked(details)).count()
    };
    let stated = count(|details| details.names_consent.is_some());
    let withheld = count(|details| details.names_withheld);
    let mut told = match stated {
        0 => words.say("pack-cover-names-unsaid"),
        _ => {
            let values = [("stated", stated.into()), ("withheld", withheld.into())];
            words.say_with("pack-cover-names-told", &values)
        }
    };
    let places = count(|details| details.name_of_place_withheld);
    if places > 0 {
        told = format!("{told} {}", words.say_with("pack-cover-places-withheld", &[("n", places.into())]));
    }
    told
}

/// The files of rows with their rows, then the others by name.
fn folder(page: &Builder<'_>, pack: &Pack) -> String {
    let (contents, words) = (page.contents, page.words);
    let rows = |name: &str| match name {
        "finds.csv" => Some(contents.published.finds().len() + contents.published.withdrawn().len()),
        "fieldwork.csv" => Some(contents.study.fieldwork.len()),
        _ => None,
    };
    let mut told: Vec<String> = Vec::new();
    let mut maps = 0_usize;
    for path in pack.files().keys() {
        match rows(path) {
            Some(n) => {
                let values = [("file", path.clone().into()), ("n", n.into())];
                told.push(words.say_with("pack-cover-file-rows", &values));
            }
            None if path.starts_with("maps/") => maps += 1,
            None => told.push(path.clone()),
        }
    }
    if maps > 0 {
        told.push(words.say_with("pack-cover-file-maps", &[("n", maps.into())]));
    }
    told.extend(["submission.html", "submission.pdf", "README.txt", "MANIFEST.json"].map(str::to_owned));
    told.join(words.semicolon())
}

/// Names with room to write.
fn blanks(page: &mut Builder<'_>, names: &[&str]) {
    let words = page.words;
    let items = names.iter().map(|name| (words.say(&format!("pack-cover-{name}")), String::new()));
    page.add(Block::Facts { items: items.collect() });
}

/// What comes back to the sender.
fn receipt(page: &mut Builder<'_>) {
    let (contents, words) = (page.contents, page.words);
    let study = contents.study;
    let text = words.say("pack-cover-receipt");
    page.add(Block::Heading { text });
    let recipient = study.agreement.recipient.clone().unwrap_or_else(|| study.agreement.audience.clone());
    let edition = from_edition(page);
    let sender = study.compiler.clone().unwrap_or_else(|| study.title.clone());
    page.say_with(
        "pack-cover-receipt-told",
        &[
            ("recipient", recipient.into()),
            ("sender", sender.into()),
            ("title", study.title.clone().into()),
            ("records", contents.published.records().into()),
            ("edition", edition.map_or_else(String::new, |edition| format!(", {edition}")).into()),
        ],
    );
    blanks(page, &["received", "reference", "questions"]);
}
