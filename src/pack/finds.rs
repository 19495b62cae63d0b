//! Finds as records: one row a find, with what the agreement shows of it.

use std::collections::BTreeMap;

use super::counts::Counts;
use super::layers::square;
use super::records::{Column, Datum, Kind, Record, Records};
use super::{Contents, Pack, fieldwork, geopackage, tables, terms};
use crate::coordinates::notation::reference;
use crate::coordinates::{Cell, Converter, System};
use crate::exact::{Details, ReleasedFind, ReleasedPlace};
use crate::fault::Result;
use crate::study::Attribute;
use crate::study::vocabulary::Term;
use crate::words::Words;

/// Adds finds and fieldwork as CSV and GeoPackage under `folder`.
pub(super) fn add(pack: &mut Pack, contents: &Contents<'_>, folder: &str) -> Result<()> {
    let words = Words::of(contents.study.language);
    let mut all = vec![finds(contents)];
    pack.add(format!("{folder}finds.csv"), tables::csv(&all[0].table(words), contents.study));
    if let Some(fieldwork) = fieldwork::fieldwork(contents) {
        pack.add(format!("{folder}fieldwork.csv"), tables::csv(&fieldwork.table(words), contents.study));
        all.push(fieldwork);
    }
    pack.add(format!("{folder}finds.gpkg"), geopackage::write(&all, contents)?);
    Ok(())
}

/// Everything that may stand in a column of finds, in the order in which an office enters it, with the attribute that must be shown.
const COLUMNS: &[(&str, Kind, Option<Attribute>)] = &[
    ("number", Kind::Text, Some(Attribute::Number)),
    ("state", Kind::Text, Some(Attribute::Number)),
    ("how_found", Kind::Text, Some(Attribute::HowFound)),
    ("depth", Kind::Text, Some(Attribute::HowFound)),
    ("date", Kind::Text, Some(Attribute::Date)),
    ("finder", Kind::Text, Some(Attribute::Finder)),
    ("class", Kind::Text, Some(Attribute::Class)),
    ("class_as_written", Kind::Text, Some(Attribute::Written)),
    ("period", Kind::Text, Some(Attribute::Period)),
    ("period_as_written", Kind::Text, Some(Attribute::Written)),
    ("pieces", Kind::Text, Some(Attribute::Count)),
    ("count_rough", Kind::Text, Some(Attribute::Written)),
    ("length_mm", Kind::Real, Some(Attribute::Measurements)),
    ("breadth_mm", Kind::Real, Some(Attribute::Measurements)),
    ("thickness_mm", Kind::Real, Some(Attribute::Measurements)),
    ("weight_g", Kind::Real, Some(Attribute::Measurements)),
    ("material", Kind::Text, Some(Attribute::Material)),
    ("condition", Kind::Text, Some(Attribute::Condition)),
    ("marks", Kind::Text, Some(Attribute::Marks)),
    ("strength", Kind::Text, Some(Attribute::Strength)),
    ("looked_at_by", Kind::Text, Some(Attribute::LookedAtBy)),
    ("examined", Kind::Text, Some(Attribute::LookedAtBy)),
    ("kept_at", Kind::Text, Some(Attribute::KeptAt)),
    ("owner", Kind::Text, Some(Attribute::Owner)),
    ("landowner", Kind::Text, Some(Attribute::Landowner)),
    ("permission", Kind::Text, Some(Attribute::Permission)),
    ("reference", Kind::Text, None),
    ("easting_m", Kind::Whole, None),
    ("northing_m", Kind::Whole, None),
    ("side_m", Kind::Whole, None),
    ("held_m", Kind::Real, Some(Attribute::Written)),
    ("uncertainty_m", Kind::Real, Some(Attribute::Written)),
    ("grid", Kind::Text, Some(Attribute::Written)),
    ("written_system", Kind::Text, Some(Attribute::Written)),
    ("recorded_as", Kind::Text, Some(Attribute::Written)),
    ("how_placed", Kind::Text, Some(Attribute::Written)),
    ("operation", Kind::Text, Some(Attribute::Written)),
    ("parish", Kind::Text, None),
    ("parish_of_cell", Kind::Text, Some(Attribute::Parish)),
    ("place_name", Kind::Text, Some(Attribute::PlaceName)),
    ("commune_code", Kind::Text, Some(Attribute::StatedParish)),
    ("section", Kind::Text, Some(Attribute::Parcel)),
    ("parcel", Kind::Text, Some(Attribute::Parcel)),
    ("plan_year", Kind::Text, Some(Attribute::Parcel)),
    ("setting", Kind::Text, Some(Attribute::Setting)),
    ("standing", Kind::Text, Some(Attribute::Standing)),
    ("authorisation", Kind::Text, Some(Attribute::Authorisation)),
    ("declaration", Kind::Text, Some(Attribute::Authorisation)),
    ("photographs", Kind::Text, Some(Attribute::Photographs)),
    ("kept_or_left", Kind::Text, Some(Attribute::KeptOrLeft)),
    ("publication", Kind::Text, Some(Attribute::Publication)),
    ("names_consent", Kind::Text, Some(Attribute::NamesConsent)),
    ("may_publish", Kind::Text, Some(Attribute::Embargo)),
    ("why_no_more", Kind::Text, Some(Attribute::Embargo)),
    ("review", Kind::Text, Some(Attribute::Embargo)),
    ("embargo", Kind::Text, Some(Attribute::Embargo)),
    ("edition", Kind::Text, Some(Attribute::Embargo)),
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
        .chain(withdrawn(contents).into_iter().map(|number| gone(&columns, number, words)))
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

/// Rows that this audience was given before and that are no longer in the register, by their number.
pub(super) fn withdrawn<'a>(contents: &Contents<'a>) -> Vec<&'a str> {
    let mut numbers: Vec<&str> = contents.published.withdrawn().iter().map(String::as_str).collect();
    numbers.sort_by_cached_key(|number| natural(number));
    numbers
}

/// The row of one that is withdrawn: its number and that it is so. No more of it is kept.
fn gone(columns: &[Column], number: &str, words: &Words) -> Record {
    let values = columns.iter().map(|column| match column.name {
        "number" => Datum::Text(number.to_owned()),
        "state" => Datum::Text(words.say("pack-state-withdrawn")),
        _ => Datum::Nothing,
    });
    Record { shape: None, values: values.collect() }
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
    converters: BTreeMap<String, Option<Converter>>,
    none: Details,
}

impl<'a> Reader<'a> {
    pub fn new(contents: &'a Contents<'a>) -> Self {
        Self {
            contents,
            words: Words::of(contents.study.language),
            counts: Counts::of(contents),
            parishes: BTreeMap::new(),
            converters: BTreeMap::new(),
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
            "state" => {
                Datum::text(more.state.map(|state| self.words.say(&format!("pack-state-{}", state.name()))))
            }
            "how_found" => Datum::text(more.how_found.as_deref()),
            "depth" => Datum::text(more.depth.as_deref()),
            "breadth_mm" => Datum::real(more.breadth_mm, 1),
            "thickness_mm" => Datum::real(more.thickness_mm, 1),
            "condition" => Datum::text(more.condition.as_deref()),
            "examined" => Datum::text(more.examined.as_deref()),
            "owner" => Datum::text(more.owner.as_deref()),
            "grid" => Datum::text(cell.map(|_| self.contents.study.grid.to_string())),
            "recorded_as" => {
                let system = more.written_system.clone();
                self.recorded_as(cell, system.as_deref())
            }
            "how_placed" => Datum::text(more.how_placed.as_deref()),
            "place_name" => Datum::text(more.place_name.as_deref()),
            "commune_code" => Datum::text(more.commune_code.as_deref()),
            "section" => Datum::text(more.section.as_deref()),
            "parcel" => Datum::text(more.parcel.as_deref()),
            "plan_year" => Datum::text(more.plan_year.as_deref()),
            "authorisation" => Datum::text(more.authorisation.as_deref()),
            "declaration" => Datum::text(more.declaration.as_deref()),
            "photographs" => Datum::text(more.photographs.as_deref()),
            "kept_or_left" => Datum::text(more.kept_or_left.as_deref()),
            "publication" => Datum::text(more.publication.as_deref()),
            "names_consent" => Datum::text(more.names_consent.as_deref()),
            "embargo" => {
                let all = self.contents.study.agreement.embargo.map(|date| date.to_string());
                Datum::text(more.embargo.clone().or(all))
            }
            "may_publish" => Datum::Text(terms::may_publish(self.contents)),
            "why_no_more" => Datum::text(self.contents.study.agreement.reason.as_deref()),
            "review" => Datum::text(self.contents.study.agreement.review.map(|date| date.to_string())),
            "edition" => Datum::text(self.contents.study.edition.as_deref()),
            _ => Datum::Nothing,
        }
    }

    /// The square in the system that the place was recorded in: its reference, or its centre. Worked out from the
    /// square alone: the recorded figures, cut in their own grid, would leave a patch smaller than agreed where the
    /// two squares cross.
    fn recorded_as(&mut self, cell: Option<Cell>, system: Option<&str>) -> Datum {
        let (Some(cell), Some(name)) = (cell, system) else { return Datum::Nothing };
        let grid = &self.contents.study.grid;
        let Ok(system) = name.parse::<System>() else { return Datum::Nothing };
        if system == *grid {
            return Datum::Text(reference(grid, cell));
        }
        let converter =
            self.converters.entry(name.to_owned()).or_insert_with(|| Converter::new(grid, &system).ok());
        let told = if system == System::Wgs84 { "WGS84" } else { name };
        let side_m = f64::from(cell.side_m);
        let centre = (cell.west_m() + side_m / 2.0, cell.south_m() + side_m / 2.0);
        let Some(Ok((x, y))) = converter.as_ref().map(|way| way.convert_xy(centre.0, centre.1)) else {
            return Datum::Nothing;
        };
        Datum::Text(if system.in_degrees() {
            // A tenth of a degree is some eleven kilometres: as many decimals as stay within the square.
            let decimals = (111_320.0 / side_m).log10().ceil().clamp(0.0, 6.0) as usize;
            format!("{y:.decimals$}, {x:.decimals$} ({told})")
        } else {
            let step = (side_m / 10.0).max(1.0);
            format!("E {:.0} N {:.0} ({told})", (x / step).round() * step, (y / step).round() * step)
        })
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
