//! A short entry for each parish, in words: pieces, classes, periods, concentrations, fieldwork. It says again
//! what the tables, the outlines and the shown fieldwork say, and nothing else.

use std::collections::BTreeSet;

use geo::Centroid as _;

use crate::analyse::{Dimension, Table, Value as Cell, cross};
use crate::exact::{ReleasedPlace, band};
use crate::pack::Contents;
use crate::pack::document::{Block, Builder};
use crate::pack::inline;
use crate::study::vocabulary::fold;
use crate::study::{Attribute, Giving};
use crate::words::Words;

/// Pieces by parish and what they are, as the tables tell them.
pub(super) struct Parishes {
    tables: Vec<Table>,
    unknown: String,
    out_of_place: String,
}

impl Parishes {
    /// `None` where the audience is not shown the parish of a square, or no layer gives it.
    pub fn of(contents: &Contents<'_>) -> Option<Self> {
        let study = contents.study;
        let shows = |attribute| study.agreement.show.contains(&attribute);
        let told = shows(Attribute::Parish) || study.agreement.precision.side_m().is_none();
        if !told || contents.ground.parishes.is_empty() {
            return None;
        }
        let dimensions = [(Attribute::Class, Dimension::Class), (Attribute::Period, Dimension::Period)];
        let tables: Vec<Table> = dimensions
            .into_iter()
            .filter(|(attribute, _)| shows(*attribute))
            .map(|(_, columns)| {
                let found = contents.concentrations;
                cross(contents.published, study, contents.partition, found, Dimension::Parish, columns)
            })
            .collect();
        let words = Words::of(study.language);
        Some(Self {
            tables,
            unknown: words.say("tables-parish-unknown"),
            out_of_place: words.say("tables-out-of-place"),
        })
    }

    /// Pieces of each parish, in order of name: the last column of the first table.
    pub fn totals(&self) -> Vec<(String, u64)> {
        let rows = self.tables.first().map_or(&[][..], |table| &table.rows);
        let mut totals: Vec<(String, u64)> = rows
            .iter()
            .filter_map(|row| match (row.first()?, row.last()?) {
                (Cell::Text(name), Cell::Whole(pieces)) if *name != self.unknown => {
                    Some((name.clone(), *pieces))
                }
                _ => None,
            })
            .collect();
        totals.sort_by_cached_key(|(name, _)| (fold(name), name.clone()));
        totals
    }

    /// What the columns of one table say of a parish: heading and pieces, where there are any.
    fn line(&self, table: &Table, parish: &str) -> Vec<(String, u64)> {
        let is_it = |row: &&Vec<Cell>| matches!(row.first(), Some(Cell::Text(name)) if name == parish);
        let Some(row) = table.rows.iter().find(is_it) else { return Vec::new() };
        let columns = table.headings.len().saturating_sub(1);
        (1..columns)
            .filter_map(|column| match (table.headings.get(column)?, row.get(column)?) {
                (heading, Cell::Whole(pieces)) if *pieces > 0 => Some((heading.clone(), *pieces)),
                _ => None,
            })
            .collect()
    }
}

/// Adds the section, where there is anything to say.
pub(super) fn gazetteer(page: &mut Builder<'_>) {
    let (contents, words) = (page.contents, page.words);
    let Some(parishes) = Parishes::of(contents) else { return };
    let totals = parishes.totals();
    let (with, without): (Vec<_>, Vec<_>) = totals.into_iter().partition(|(_, pieces)| *pieces > 0);
    if with.is_empty() {
        return;
    }
    page.section("gazetteer", "pack-report-gazetteer");
    let text = words.say_with("pack-gazetteer-intro", &[("n", with.len().into())]);
    page.add(Block::Paragraph { text });
    if contents.published.in_bands_only() {
        page.say("pack-places-estimated");
    }
    let items = with
        .into_iter()
        .map(|(parish, pieces)| {
            let text = entry(contents, words, &parishes, &parish, pieces);
            (parish, text)
        })
        .collect();
    page.add(Block::Entries { items });
    if !without.is_empty() {
        let names: Vec<String> = without.into_iter().map(|(name, _)| name).collect();
        let values = [("n", names.len().into()), ("list", words.list(&names).into())];
        page.say_with("pack-gazetteer-none", &values);
    }
}

fn entry(
    contents: &Contents<'_>,
    words: &'static Words,
    parishes: &Parishes,
    parish: &str,
    pieces: u64,
) -> String {
    let counted = contents.study.agreement.show.contains(&Attribute::Count);
    let places = places(contents, parish);
    // A parish whose finds all lie in one square is told as that square is.
    let banded = !contents.study.agreement.exact_counts && places <= 1;
    let figure = |pieces: u64| if banded { band(pieces).to_owned() } else { words.number(pieces as f64, 0) };
    let part = |(name, pieces): &(String, u64)| match counted {
        true => words.say_with(
            "pack-gazetteer-part",
            &[("name", name.clone().into()), ("pieces", figure(*pieces).into())],
        ),
        false => name.clone(),
    };
    let mut said: Vec<String> = Vec::new();
    if counted {
        let values = [("n", pieces.into()), ("pieces", figure(pieces).into())];
        said.push(words.say_with("pack-gazetteer-pieces", &values));
    }
    let ids = [(Attribute::Class, "pack-gazetteer-classes"), (Attribute::Period, "pack-gazetteer-periods")];
    let shown = ids.iter().filter(|(attribute, _)| contents.study.agreement.show.contains(attribute));
    let mut aside = 0;
    for (table, (_, id)) in parishes.tables.iter().zip(shown) {
        let (out, line): (Vec<_>, Vec<_>) =
            parishes.line(table, parish).into_iter().partition(|(name, _)| *name == parishes.out_of_place);
        aside = aside.max(out.first().map_or(0, |(_, pieces)| *pieces));
        if !line.is_empty() {
            let list = words.list(&shortened(words, line, counted && !banded, &part, &figure));
            said.push(words.say_with(id, &[("list", list.into())]));
        }
    }
    if aside > 0 && counted {
        let values = [("n", aside.into()), ("pieces", figure(aside).into())];
        said.push(words.say_with("pack-gazetteer-out-of-place", &values));
    }
    said.extend(concentrations(contents, words, parish));
    said.extend(fieldwork(contents, words, parish));
    said.join(" ")
}

/// As many classes or periods as an entry names; what is beyond is told together.
const MOST_NAMED: usize = 8;

/// The most numerous, the rest in one: in order of the vocabulary where an order would tell what bands hide.
fn shortened(
    words: &Words,
    mut line: Vec<(String, u64)>,
    by_number: bool,
    part: &dyn Fn(&(String, u64)) -> String,
    figure: &dyn Fn(u64) -> String,
) -> Vec<String> {
    if !by_number {
        return line.iter().map(part).collect();
    }
    line.sort_by_key(|(_, pieces)| std::cmp::Reverse(*pieces));
    // One alone is named as shortly as it is counted.
    let cut = if line.len() > MOST_NAMED + 1 { MOST_NAMED } else { line.len() };
    let rest = line.split_off(cut);
    let mut told: Vec<String> = line.iter().map(part).collect();
    if !rest.is_empty() {
        let pieces = rest.iter().map(|(_, pieces)| pieces).sum();
        let values = [("n", rest.len().into()), ("pieces", figure(pieces).into())];
        told.push(words.say_with("pack-gazetteer-others", &values));
    }
    told
}

/// In how many places of the release the finds lie that count in a parish.
fn places(contents: &Contents<'_>, parish: &str) -> usize {
    let of_finds = contents.published.finds().iter().map(|find| &find.place).filter(|place| match place {
        ReleasedPlace::Cell(cell) => {
            contents.partition.parish_shares(*cell).iter().any(|(name, _)| *name == parish)
        }
        // The parish alone is no square.
        ReleasedPlace::Parish(_) => false,
    });
    of_finds.collect::<BTreeSet<_>>().len()
}

/// The concentrations that lie in a parish, whole or in part.
fn concentrations(contents: &Contents<'_>, words: &Words, parish: &str) -> Option<String> {
    if !contents.gives(Giving::Concentrations) {
        return None;
    }
    let letters: Vec<String> = contents
        .concentrations
        .iter()
        .filter(|patch| super::results::parishes_of(contents, patch).iter().any(|(name, _)| name == parish))
        .map(|patch| patch.letter.clone())
        .collect();
    let values = [
        ("n", letters.len().into()),
        ("list", words.list(&letters).into()),
        ("section", inline::section("concentrations").into()),
    ];
    let id = if super::results::richer(contents) {
        "pack-gazetteer-richer-squares"
    } else {
        "pack-gazetteer-concentrations"
    };
    (!letters.is_empty()).then(|| words.say_with(id, &values))
}

/// The ground that was walked in a parish, where fieldwork is shown and a public layer tells where it lies.
fn fieldwork(contents: &Contents<'_>, words: &Words, parish: &str) -> Option<String> {
    let walked = |name: &str| {
        contents
            .ground
            .walked
            .iter()
            .find(|ground| ground.name.as_deref().is_some_and(|known| fold(known) == fold(name)))
    };
    let names: Vec<String> = contents
        .study
        .fieldwork
        .iter()
        .filter(|work| {
            let at = walked(&work.ground).and_then(|ground| ground.shape.centroid());
            at.and_then(|at| contents.partition.parish_at(at.x(), at.y())) == Some(parish)
        })
        .map(|work| match work.hectares {
            Some(hectares) => words.say_with(
                "pack-gazetteer-field",
                &[("name", work.ground.clone().into()), ("hectares", words.number(hectares, 1).into())],
            ),
            None => work.ground.clone(),
        })
        .collect();
    (!names.is_empty())
        .then(|| words.say_with("pack-gazetteer-fieldwork", &[("list", words.list(&names).into())]))
}
