//! What every sheet says in words: the agreed precision, what is shown and what is not, cautions,
//! sources, datum, who made it and when.

use super::layout::{Block, Heading, Item, rank};
use super::themes::drawn;
use super::{MapKind, Scene, collecting};
use crate::coordinates::System;
use crate::exact::{Figure, ReleasedFind, ReleasedPlace};
use crate::study::vocabulary::Strength;
use crate::study::{Dated, LayerKind, Precision, PublicStudy};
use crate::units::Date;
use crate::words::{Value, Words};

/// How many pieces a map shows, and how many it does not.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(super) struct Shown {
    /// Pieces on the map.
    pub pieces: Figure,
    /// Pieces known by their parish alone, on no square of the map.
    pub by_parish_only: Figure,
    /// Pieces out of place that are drawn with the rest, and that tables count apart.
    pub apart: Figure,
    /// Pieces out of place, left out of a density.
    pub out_of_place: Figure,
    /// Pieces of which the release itself tells that their marks speak weakly: none for an audience that is not
    /// shown the strength of marks. As in tables, without those out of place.
    pub doubtful: Figure,
}

impl Shown {
    /// What a map of a kind shows of the finds that a scene draws, where it draws all of them.
    pub fn of(kind: MapKind, scene: &Scene<'_>) -> Self {
        let total = |wanted: &dyn Fn(&ReleasedFind) -> bool| {
            scene.published.total(|find| drawn(find, scene) && wanted(find))
        };
        let by_parish = |find: &ReleasedFind| matches!(find.place, ReleasedPlace::Parish(_));
        let counted = Self {
            doubtful: total(&|find| find.strength == Some(Strength::Weak) && !find.out_of_place),
            ..Self::default()
        };
        if kind == MapKind::Parishes {
            let apart = total(&|find| find.out_of_place);
            return Self { pieces: total(&|_| true), apart, ..counted };
        }
        let counted = Self { by_parish_only: total(&by_parish), ..counted };
        match (kind, scene.surface) {
            (MapKind::Density, Some(surface)) => {
                Self { pieces: surface.pieces_told(), out_of_place: surface.left_out_of_place, ..counted }
            }
            (MapKind::Concentrations, surface) => Self {
                pieces: total(&|find| !by_parish(find)),
                out_of_place: surface.map(|surface| surface.left_out_of_place).unwrap_or_default(),
                ..counted
            },
            _ => Self {
                pieces: total(&|find| !by_parish(find)),
                apart: total(&|find| find.out_of_place),
                ..counted
            },
        }
    }

    /// Whether one of its numbers is told from where to where it lies.
    fn ranges(&self) -> bool {
        let all = [self.pieces, self.by_parish_only, self.apart, self.out_of_place, self.doubtful];
        all.iter().any(|figure| figure.exact().is_none())
    }
}

/// The words above the map.
pub(super) fn heading(study: &PublicStudy, words: &Words, kind: &str, detail: &str) -> Heading {
    let agreement = &study.agreement;
    let warning = (!agreement.for_publication).then(|| match &agreement.recipient {
        Some(recipient) => {
            words.say_with("sheet-not-for-publication-for", &[("recipient", recipient.clone().into())])
        }
        None => words.say("sheet-not-for-publication"),
    });
    let (title, kind, detail) = (study.title.clone(), kind.to_owned(), detail.to_owned());
    Heading { warning, title, kind, detail, title_rank: 0, detail_rank: 0 }
}

/// The blocks of words under (or beside) the legend. Their ranks say what goes first on small paper: last of
/// all goes what the reader of a map must know to read it, and whom the base must credit. `shown` is what the map shows of
/// finds, if it shows any.
pub(super) fn blocks<'a>(
    scene: &Scene<'_>,
    words: &Words,
    shown: Option<Shown>,
    cautions: &[String],
) -> Vec<Block<'a>> {
    let lesser = |rank, id: &str| Item::Lesser(rank, words.say(id));
    let mut read = vec![Item::Heading(words.say("sheet-heading-cautions"))];
    read.extend(shown.map(|_| lesser(rank::READING, "sheet-no-symbol")));
    read.extend(cautions.iter().cloned().map(|caution| Item::Lesser(rank::NUMBERS, caution)));
    read.push(lesser(rank::NUMBERS, "sheet-permission"));
    read.push(lesser(rank::MAKING, "sheet-record-office"));
    let mut blocks = vec![precision_block(scene.study, words)];
    blocks.extend(shown.map(|shown| Block { id: "counts", rank: 0, items: counts(scene, words, shown) }));
    blocks.extend([
        Block { id: "cautions", rank: 0, items: read },
        Block { id: "sources", rank: 0, items: sources(scene, words) },
        Block { id: "left-out", rank: 0, items: vec![Item::LeftOut(words.say("sheet-notes-left-out"))] },
    ]);
    blocks
}

/// What the inset in a corner of the map says.
pub(super) fn around_block<'a>(words: String) -> Block<'a> {
    Block { id: "around-words", rank: 0, items: vec![Item::Lesser(rank::AROUND, words)] }
}

/// How finely places are shown, and on which datum.
pub(super) fn precision_block<'a>(study: &PublicStudy, words: &Words) -> Block<'a> {
    let mut items =
        vec![Item::Heading(words.say("sheet-heading-precision")), Item::Note(precision(study, words))];
    if study.agreement.stricter.iter().any(|rule| rule.precision != study.agreement.precision) {
        items.push(Item::Lesser(rank::READING, words.say("sheet-precision-stricter")));
    }
    items.push(Item::Lesser(rank::MAKING, datum(&study.grid, words)));
    Block { id: "precision", rank: 0, items }
}

fn counts<'a>(scene: &Scene<'_>, words: &Words, shown: Shown) -> Vec<Item<'a>> {
    let published = scene.published;
    let mut out = vec![
        Item::Heading(words.say("sheet-heading-counts")),
        Item::Lesser(rank::READING, words.say_with("sheet-shown", &[("n", shown.pieces.into())])),
    ];
    let mut add = |rank, id: &str, n: Figure| {
        if !n.is_nothing() {
            out.push(Item::Lesser(rank, words.say_with(id, &[("n", n.into())])));
        }
    };
    add(rank::NUMBERS, "sheet-by-parish-only", shown.by_parish_only);
    add(rank::NUMBERS, "sheet-apart", shown.apart);
    add(rank::NUMBERS, "sheet-out-of-place", shown.out_of_place);
    match published.withheld_pieces() {
        Some(pieces) => add(rank::NUMBERS, "sheet-withheld", Figure::certain(pieces)),
        None => {
            add(rank::NUMBERS, "sheet-withheld-places", Figure::certain(published.withheld_cells()));
        }
    }
    let besides = !(shown.apart.is_nothing() && shown.out_of_place.is_nothing());
    let doubtful_id = if besides { "sheet-doubtful-besides" } else { "sheet-doubtful" };
    add(rank::MAKING, doubtful_id, shown.doubtful);
    if published.in_bands_only() {
        let id = if shown.ranges() { "sheet-from-bands-ranges" } else { "sheet-from-bands" };
        out.push(Item::Lesser(rank::NUMBERS, words.say(id)));
    }
    let tally = published.tally();
    if tally.set_aside_total() > 0 {
        let values: [(&str, Value); 2] = [("n", tally.set_aside_total().into()), ("read", tally.read.into())];
        out.push(Item::Lesser(rank::COLLECTING, words.say_with("sheet-set-aside", &values)));
    }
    out.extend(collecting::notes(scene, words).into_iter().map(|note| Item::Lesser(rank::COLLECTING, note)));
    out
}

fn precision(study: &PublicStudy, words: &Words) -> String {
    match study.agreement.precision {
        Precision::Parish => words.say("sheet-precision-parish"),
        Precision::Square { side_m } => words.say_with(
            "sheet-precision-square",
            &[("side", side(words, side_m).into()), ("grid", grid(&study.grid, words).into())],
        ),
    }
}

/// "100 m", "1 km".
pub(super) fn side(words: &Words, side_m: u32) -> String {
    let (id, n) = if side_m >= 1000 && side_m.is_multiple_of(100) {
        let km = f64::from(side_m) / 1000.0;
        ("sheet-km", words.number(km, usize::from(!side_m.is_multiple_of(1000))))
    } else {
        ("sheet-m", words.number(f64::from(side_m), 0))
    };
    words.say_with(id, &[("n", Value::Text(n))])
}

/// The working grid's name, in words.
pub fn grid(system: &System, words: &Words) -> String {
    match system {
        System::BritishGrid => words.say("sheet-grid-british"),
        System::Lambert93 => words.say("sheet-grid-lambert-93"),
        other => words.say_with("sheet-grid-other", &[("system", other.to_string().into())]),
    }
}

fn datum(system: &System, words: &Words) -> String {
    match system {
        System::BritishGrid => words.say("sheet-datum-british"),
        System::Lambert93 => words.say("sheet-datum-lambert-93"),
        other => words.say_with("sheet-datum-other", &[("system", other.to_string().into())]),
    }
}

fn sources<'a>(scene: &Scene<'_>, words: &Words) -> Vec<Item<'a>> {
    let study = scene.study;
    let mut out = vec![Item::Heading(words.say("sheet-heading-sources"))];
    if !scene.ground.credits.is_empty() {
        let credits: Vec<String> = scene.ground.credits.iter().map(|credit| credit.said(words)).collect();
        out.push(Item::Lesser(
            rank::CREDIT,
            words.say_with("sheet-credits", &[("credits", credits.join(words.semicolon()).into())]),
        ));
    }
    out.extend(boundaries(study, words).map(|text| Item::Lesser(rank::MAKING, text)));
    out.push(Item::Lesser(rank::MAKING, made(study, words)));
    out
}

/// What kind of boundaries the parishes have, and of which year.
fn boundaries(study: &PublicStudy, words: &Words) -> Option<String> {
    let layer = study.layers.iter().find(|layer| layer.kind == LayerKind::Parishes)?;
    let dated = layer.dated.map(|dated| match dated {
        Dated::Year(year) => year.to_string(),
        Dated::Day(date) => day(date, words),
    });
    let kind = layer.boundaries.clone();
    let text = |text: Option<String>| Value::Text(text.unwrap_or_default());
    match (kind, dated) {
        (None, None) => None,
        (Some(kind), None) => Some(words.say_with("sheet-boundaries", &[("kind", kind.into())])),
        (None, dated) => Some(words.say_with("sheet-boundaries-dated", &[("date", text(dated))])),
        (kind, dated) => Some(
            words.say_with("sheet-boundaries-kind-dated", &[("kind", text(kind)), ("date", text(dated))]),
        ),
    }
}

/// Who compiled it, which edition, which day.
fn made(study: &PublicStudy, words: &Words) -> String {
    let mut parts = Vec::new();
    if let Some(compiler) = &study.compiler {
        parts.push(words.say_with("sheet-compiler", &[("name", compiler.clone().into())]));
    }
    if let Some(edition) = &study.edition {
        // "2" wants the word before it; "First edition" does not.
        let bare = edition.chars().all(|c| c.is_ascii_digit() || c == '.');
        let id = if bare { "sheet-edition" } else { "sheet-edition-named" };
        parts.push(words.say_with(id, &[("edition", edition.clone().into())]));
    }
    if let Some(date) = study.date {
        parts.push(words.say_with("sheet-dated", &[("date", day(date, words).into())]));
    }
    parts.push(words.say("sheet-made-with"));
    parts.join(" ")
}

/// A day in words: "1 October 2026", "1er octobre 2026".
pub(super) fn day(date: Date, words: &Words) -> String {
    let month = words.say_with("sheet-month", &[("month", u64::from(date.month).into())]);
    let values = [
        ("day", Value::Text(date.day.to_string())),
        ("first", Value::Text(if date.day == 1 { "yes" } else { "no" }.into())),
        ("month", month.into()),
        ("year", Value::Text(date.year.to_string())),
    ];
    // No line breaks within a date.
    words.say_with("sheet-day", &values).replace(' ', "\u{a0}")
}
