//! What each field of the layers and of the rows means: its unit and how sure it is. Whoever works on with the
//! files needs it beside them, and the report carries the same words.

use super::records::{Column, Kind, Records};
use super::{Contents, Pack, fieldwork, finds, layers, tables};
use crate::analyse::{Table, Value};
use crate::study::Giving;
use crate::words::Words;

/// A field of one layer or file.
struct Field {
    layer: &'static str,
    name: &'static str,
    unit: String,
    meaning: String,
}

/// Adds `fields.csv` under `folder`, where there is a layer or a file of rows to speak of.
pub(super) fn add(pack: &mut Pack, contents: &Contents<'_>, folder: &str, with_finds: bool) {
    if let Some(table) = table(contents, with_finds) {
        pack.add(format!("{folder}fields.csv"), tables::csv(&table, contents.study));
    }
}

/// Adds `fields.csv` of a submission, which holds finds and fieldwork and no layers.
pub(super) fn add_of_finds(pack: &mut Pack, contents: &Contents<'_>) {
    let table = as_table(&of_finds(contents), Words::of(contents.study.language));
    pack.add("fields.csv", tables::csv(&table, contents.study));
}

/// Every field that the audience is given, one row each. `None` without layers and rows.
pub(super) fn table(contents: &Contents<'_>, with_finds: bool) -> Option<Table> {
    let fields = fields(contents, with_finds);
    (!fields.is_empty()).then(|| as_table(&fields, Words::of(contents.study.language)))
}

fn as_table(fields: &[Field], words: &Words) -> Table {
    let text = |text: &str| Value::Text(text.to_owned());
    Table {
        name: "fields".to_owned(),
        title: words.say("pack-fields-title"),
        headings: ["layer", "field", "unit", "meaning"]
            .iter()
            .map(|name| words.say(&format!("pack-fields-{name}")))
            .collect(),
        rows: fields
            .iter()
            .map(|field| vec![text(field.layer), text(field.name), text(&field.unit), text(&field.meaning)])
            .collect(),
        totals: None,
        notes: Vec::new(),
    }
}

fn of_finds(contents: &Contents<'_>) -> Vec<Field> {
    let words = Words::of(contents.study.language);
    let handling = contents.handling().map(|_| Column::new("handling", Kind::Text));
    let columns = finds::columns(contents).into_iter().chain(handling);
    let mut all: Vec<Field> = columns.map(|column| field("finds", column.name, words)).collect();
    all.extend(fieldwork::fieldwork(contents).iter().flat_map(|records| of(records, words)));
    all
}

fn fields(contents: &Contents<'_>, with_finds: bool) -> Vec<Field> {
    let words = Words::of(contents.study.language);
    let mut all = Vec::new();
    if with_finds {
        all.extend(of_finds(contents));
    }
    for records in layers::given(contents) {
        all.extend(of(&records, words));
    }
    if contents.gives(Giving::Density) && contents.surface.is_some() {
        all.push(field("density.tif", "band 1", words));
        all.push(field("contours", "pieces_per_hectare", words));
    }
    all
}

fn of(records: &Records, words: &Words) -> Vec<Field> {
    records.columns.iter().map(|column| field(records.name, column.name, words)).collect()
}

fn field(layer: &'static str, name: &'static str, words: &Words) -> Field {
    let id = name.replace(['_', ' '], "-");
    Field { layer, name, unit: unit(name, words), meaning: words.say(&format!("pack-field-{id}")) }
}

/// The unit that the end of a name states; none for words and plain counts.
fn unit(name: &str, words: &Words) -> String {
    let say = |id: &str| words.say(id);
    match name {
        "pieces" | "out_of_place" | "may_hold" | "visits" => say("pack-unit-count"),
        "per_hectare" | "greatest_density" | "band 1" | "pieces_per_hectare" => say("pack-unit-per-hectare"),
        "hectares" => "ha".to_owned(),
        "square_km" => "km²".to_owned(),
        "people_hours" => "h".to_owned(),
        "firm" | "p_global" | "p_pointwise" => "0–1".to_owned(),
        "from" | "to" | "date" | "review" | "embargo" => say("pack-unit-date"),
        name if name.ends_with("_mm") => "mm".to_owned(),
        name if name.ends_with("_g") => "g".to_owned(),
        name if name.ends_with("_m") => "m".to_owned(),
        _ => String::new(),
    }
}
