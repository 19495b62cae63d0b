//! Finds and fieldwork as records: one row a find, with what the agreement shows of it.

use std::collections::BTreeMap;

use super::counts::Counts;
use super::layers::square;
use super::records::{Column, Datum, Kind, Record, Records};
use super::{Contents, Pack, geopackage, tables};
use crate::coordinates::Cell;
use crate::coordinates::notation::{cut_places, reference};
use crate::exact::{Details, ReleasedFind, ReleasedPlace};
use crate::fault::Result;
use crate::study::vocabulary::Term;
use crate::study::{Attribute, Cover, Kept};
use crate::words::Words;

/// Adds finds and fieldwork as CSV and GeoPackage under `folder`.
pub(super) fn add(pack: &mut Pack, contents: &Contents<'_>, folder: &str) -> Result<()> {
    let words = Words::of(contents.study.language);
    let mut all = vec![finds(contents)];
    pack.add(format!("{folder}finds.csv"), tables::csv(&all[0].table(words), contents.study));
    if let Some(fieldwork) = fieldwork(contents) {
        pack.add(format!("{folder}fieldwork.csv"), tables::csv(&fieldwork.table(words), contents.study));
        all.push(fieldwork);
    }
    pack.add(format!("{folder}finds.gpkg"), geopackage::write(&all, contents)?);
    Ok(())
}

/// Everything that may stand in a column of finds, in order, with the attribute that must be shown.
const COLUMNS: &[(&str, Kind, Option<Attribute>)] = &[
    ("number", Kind::Text, Some(Attribute::Number)),
    ("reference", Kind::Text, None),
    ("easting_m", Kind::Whole, None),
    ("northing_m", Kind::Whole, None),
    ("side_m", Kind::Whole, None),
    ("held_m", Kind::Real, Some(Attribute::Written)),
    ("uncertainty_m", Kind::Real, Some(Attribute::Written)),
    ("written_system", Kind::Text, Some(Attribute::Written)),
    ("operation", Kind::Text, Some(Attribute::Written)),
    ("parish", Kind::Text, None),
    ("parish_of_cell", Kind::Text, Some(Attribute::Parish)),
    ("class", Kind::Text, Some(Attribute::Class)),
    ("class_as_written", Kind::Text, Some(Attribute::Written)),
    ("period", Kind::Text, Some(Attribute::Period)),
    ("period_as_written", Kind::Text, Some(Attribute::Written)),
    ("pieces", Kind::Text, Some(Attribute::Count)),
    ("count_rough", Kind::Text, Some(Attribute::Written)),
    ("marks", Kind::Text, Some(Attribute::Marks)),
    ("strength", Kind::Text, Some(Attribute::Strength)),
    ("setting", Kind::Text, Some(Attribute::Setting)),
    ("standing", Kind::Text, Some(Attribute::Standing)),
    ("material", Kind::Text, Some(Attribute::Material)),
    ("length_mm", Kind::Real, Some(Attribute::Measurements)),
    ("weight_g", Kind::Real, Some(Attribute::Measurements)),
    ("date", Kind::Text, Some(Attribute::Date)),
    ("finder", Kind::Text, Some(Attribute::Finder)),
    ("looked_at_by", Kind::Text, Some(Attribute::LookedAtBy)),
    ("kept_at", Kind::Text, Some(Attribute::KeptAt)),
    ("landowner", Kind::Text, Some(Attribute::Landowner)),
    ("permission", Kind::Text, Some(Attribute::Permission)),
    ("note", Kind::Text, Some(Attribute::Note)),
];

/// The columns of what may be told of each find.
pub(super) fn columns(contents: &Contents<'_>) -> Vec<Column> {
    let show = &contents.study.agreement.show;
    let counts = Counts::of(contents);
    COLUMNS
        .iter()
        .filter(|(_, _, attribute)| attribute.is_none_or(|attribute| show.contains(&attribute)))
        .map(|(name, kind, _)| {
            // Exact where it may be: then it is a number.
            let exact = *name == "pieces" && counts.exact();
            Column::new(name, if exact { Kind::Whole } else { *kind })
        })
        .collect()
}

/// Every find that is shown, in the order of [`in_order`].
pub(super) fn finds(contents: &Contents<'_>) -> Records {
    let words = Words::of(contents.study.language);
    let columns = columns(contents);
    let mut reader = Reader::new(contents);
    let rows = in_order(contents)
        .into_iter()
        .map(|find| Record {
            shape: match find.place {
                ReleasedPlace::Cell(cell) => Some(square(cell)),
                ReleasedPlace::Parish(_) => None,
            },
            values: columns.iter().map(|column| reader.value(find, column.name)).collect(),
        })
        .collect();
    Records {
        name: "finds",
        title: words.say("pack-layer-finds"),
        caution: words.say("pack-layer-cells-caution"),
        columns,
        rows,
    }
    .marked(contents)
}

/// The finds by the register's own number where it is shown (2 before 10), those without one last;
/// otherwise in the order of the release.
pub(super) fn in_order<'a>(contents: &Contents<'a>) -> Vec<&'a ReleasedFind> {
    let mut finds: Vec<&ReleasedFind> = contents.published.finds().iter().collect();
    let number = |find: &&ReleasedFind| {
        let number = find.details.as_ref().and_then(|details| details.number.as_deref());
        (number.is_none(), natural(number.unwrap_or_default()))
    };
    finds.sort_by_cached_key(number);
    finds
}

/// A key that sorts the numbers inside a text by their value.
fn natural(text: &str) -> Vec<(u128, String)> {
    let mut key = vec![(0u128, String::new())];
    let mut in_digits = false;
    for c in text.chars() {
        if c.is_ascii_digit() != in_digits || key.len() == 1 && key[0].1.is_empty() {
            in_digits = c.is_ascii_digit();
            key.push((0, String::new()));
        }
        let last = key.len() - 1;
        match c.to_digit(10) {
            // Text sorts after figures, so figures hold a value below it.
            Some(digit) => key[last].0 = key[last].0.saturating_mul(10).saturating_add(digit.into()),
            None => {
                key[last].0 = u128::MAX;
                key[last].1.extend(c.to_lowercase());
            }
        }
    }
    // What is alike but for leading noughts still has one order.
    key.push((0, text.to_owned()));
    key
}

/// Reads values off finds, remembering what is asked again and again.
pub(super) struct Reader<'a> {
    contents: &'a Contents<'a>,
    words: &'static Words,
    counts: Counts<'a>,
    parishes: BTreeMap<Cell, Datum>,
    none: Details,
}

impl<'a> Reader<'a> {
    pub fn new(contents: &'a Contents<'a>) -> Self {
        Self {
            contents,
            words: Words::of(contents.study.language),
            counts: Counts::of(contents),
            parishes: BTreeMap::new(),
            none: Details::default(),
        }
    }

    /// The value of one column of [`COLUMNS`].
    pub fn value(&mut self, find: &ReleasedFind, column: &str) -> Datum {
        let language = self.contents.study.language;
        let label = |term: Option<&dyn Term>| Datum::text(term.map(|term| term.label(language)));
        let cell = match find.place {
            ReleasedPlace::Cell(cell) => Some(cell),
            ReleasedPlace::Parish(_) => None,
        };
        let whole = |number: Option<f64>| number.map_or(Datum::Nothing, |n| Datum::Whole(n as i64));
        if column == "parish_of_cell" {
            return cell.map_or(Datum::Nothing, |cell| self.parish_of(cell));
        }
        let more = find.details.as_deref().unwrap_or(&self.none);
        match column {
            "number" => Datum::text(more.number.as_deref()),
            "reference" => Datum::text(cell.map(|cell| reference(&self.contents.study.grid, cell))),
            "easting_m" => whole(cell.map(Cell::west_m)),
            "northing_m" => whole(cell.map(Cell::south_m)),
            "side_m" => cell.map_or(Datum::Nothing, |cell| Datum::Whole(i64::from(cell.side_m))),
            "held_m" => Datum::real(more.held_m, 1),
            "uncertainty_m" => Datum::real(more.uncertainty_m, 1),
            "written_system" => Datum::text(more.written_system.as_deref()),
            "operation" => Datum::text(more.operation.as_deref()),
            "parish" => match &find.place {
                ReleasedPlace::Parish(name) => Datum::Text(name.clone()),
                ReleasedPlace::Cell(_) => Datum::text(find.stated_parish.as_deref()),
            },
            "class" => label(find.class.as_ref().map(|term| term as &dyn Term)),
            "class_as_written" => Datum::text(more.class_as_written.as_deref()),
            "period" => label(find.period.as_ref().map(|term| term as &dyn Term)),
            "period_as_written" => Datum::text(more.period_as_written.as_deref()),
            "pieces" => self.counts.cell(u64::from(find.count)),
            "count_rough" => {
                Datum::text(more.count_is_rough.then(|| self.words.say("pack-find-count-rough")))
            }
            "marks" => {
                let seen =
                    more.marks.map(|marks| marks.list().map(|m| m.label(language)).collect::<Vec<_>>());
                Datum::text(seen.filter(|seen| !seen.is_empty()).map(|seen| seen.join("; ")))
            }
            "strength" => label(find.strength.as_ref().map(|term| term as &dyn Term)),
            "setting" => label(find.setting.as_ref().map(|term| term as &dyn Term)),
            "standing" => label(more.standing.as_ref().map(|term| term as &dyn Term)),
            "material" => Datum::text(more.material.as_deref()),
            "length_mm" => Datum::real(more.length_mm, 1),
            "weight_g" => Datum::real(more.weight_g, 1),
            "date" => Datum::text(more.date.as_deref()),
            "finder" => Datum::text(more.finder.as_deref()),
            "looked_at_by" => Datum::text(more.looked_at_by.as_deref()),
            "landowner" => Datum::text(more.landowner.as_deref()),
            "kept_at" => Datum::text(more.kept_at.as_deref()),
            "permission" => Datum::text(more.permission.as_deref()),
            "note" => Datum::text(more.note.as_deref()),
            _ => Datum::Nothing,
        }
    }

    /// The parishes that a cell lies in, the one with most of it first.
    fn parish_of(&mut self, cell: Cell) -> Datum {
        if self.contents.ground.parishes.is_empty() {
            return Datum::Nothing;
        }
        let partition = self.contents.partition;
        self.parishes
            .entry(cell)
            .or_insert_with(|| {
                let mut shares = partition.parish_shares(cell);
                shares.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(b.0)));
                let names: Vec<&str> = shares.into_iter().map(|(name, _)| name).collect();
                Datum::text((!names.is_empty()).then(|| names.join("; ")))
            })
            .clone()
    }
}

/// Fieldwork, where the agreement shows it and there is any. Places in its notes are cut out.
pub(super) fn fieldwork(contents: &Contents<'_>) -> Option<Records> {
    let words = Words::of(contents.study.language);
    let all = &contents.study.fieldwork;
    if all.is_empty() || !contents.study.agreement.show.contains(&Attribute::Fieldwork) {
        return None;
    }
    let columns = vec![
        Column::new("ground", Kind::Text),
        Column::new("walked_by", Kind::Text),
        Column::new("from", Kind::Text),
        Column::new("to", Kind::Text),
        Column::new("visits", Kind::Whole),
        Column::new("people_hours", Kind::Real),
        Column::new("hectares", Kind::Real),
        Column::new("line_spacing_m", Kind::Real),
        Column::new("cover", Kind::Text),
        Column::new("visibility", Kind::Text),
        Column::new("kept", Kind::Text),
        Column::new("note", Kind::Text),
    ];
    let rows = all.iter().map(|work| {
        let kept = match work.kept {
            Some(Kept::All) => "pack-kept-all",
            Some(Kept::Tools) => "pack-kept-tools",
            Some(Kept::Selected) => "pack-kept-selected",
            Some(Kept::Unknown) | None => "pack-kept-unknown",
        };
        let cover = match &work.cover {
            Some(Cover::Share(share)) => Some(percent(words, *share)),
            Some(Cover::Words(text)) => Some(text.clone()),
            None => None,
        };
        let values = vec![
            Datum::Text(work.ground.clone()),
            Datum::text(work.by.as_deref()),
            Datum::text(work.dates.first().map(ToString::to_string)),
            Datum::text(work.dates.last().map(ToString::to_string)),
            work.visits.map_or(Datum::Nothing, |visits| Datum::Whole(i64::from(visits))),
            Datum::real(work.people_hours, 1),
            Datum::real(work.hectares, 1),
            Datum::real(work.line_spacing.map(|spacing| spacing.metres), 0),
            Datum::text(cover),
            Datum::text(work.visibility.as_deref()),
            Datum::Text(words.say(kept)),
            Datum::text(work.note.as_deref().map(cut_places)),
        ];
        Record { shape: None, values }
    });
    let records = Records {
        name: "fieldwork",
        title: words.say("pack-layer-fieldwork"),
        caution: words.say("pack-layer-fieldwork-caution"),
        rows: rows.collect(),
        columns,
    };
    Some(records.marked(contents))
}

/// A share as a whole percentage; what is not nothing is never written as 0%.
pub(super) fn percent(words: &Words, share: f64) -> String {
    let text = match share * 100.0 {
        p if p > 0.0 && p < 0.5 => format!("<{}", words.number(1.0, 0)),
        p => words.number(p, 0),
    };
    words.say_with("pack-percent", &[("n", text.into())])
}

#[cfg(test)]
mod tests {
    use super::natural;

    #[test]
    fn numbers_inside_texts_sort_by_value() {
        let mut numbers =
            ["A10", "a2", "12", "2", "02", "2b", "", "99999999999999999999999999999999999999999"];
        numbers.sort_by_key(|text| natural(text));
        assert_eq!(
            numbers,
            ["", "02", "2", "2b", "12", "99999999999999999999999999999999999999999", "a2", "A10"]
        );
    }
}
