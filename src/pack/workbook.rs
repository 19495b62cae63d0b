//! Tables as one workbook (Office Open XML, ISO/IEC 29500): typed cells, a frozen heading, a sheet of
//! notes. Text is written as text, never as a formula.

use rust_xlsxwriter::{
    DocProperties, ExcelDateTime, Format, FormatAlign, FormatBorder, Workbook, Worksheet, XlsxError,
};

use super::handling;
use super::tables::is_figures;
use crate::analyse::{Table, Value};
use crate::fault::{Fault, Result};
use crate::study::PublicStudy;
use crate::words::{Language, Words};

/// Rows of a sheet that a spreadsheet can hold.
const MOST_ROWS: usize = 1_048_576;

/// The tables as one workbook, each on its own sheet, after a sheet that says what they are.
pub fn workbook(tables: &[Table], study: &PublicStudy) -> Result<Vec<u8>> {
    write(tables, study, handling(study).as_deref())
        .map_err(|why| Fault::new("pack-layer").with("name", "tables.xlsx").with("why", why))
}

fn write(
    tables: &[Table],
    study: &PublicStudy,
    mark: Option<&str>,
) -> std::result::Result<Vec<u8>, XlsxError> {
    let words = Words::of(study.language);
    let mut workbook = Workbook::new();
    // The time of writing would otherwise be read from the clock.
    let (year, month, day) = study.date.map_or((2000, 1, 1), |date| (date.year, date.month, date.day));
    let created = ExcelDateTime::from_ymd(u16::try_from(year).unwrap_or(2000).max(1900), month, day)?;
    let mut properties =
        DocProperties::new().set_title(&study.title).set_creation_datetime(&created).set_author("strew");
    if let Some(mark) = mark {
        properties = properties.set_status(mark);
    }
    workbook.set_properties(&properties);
    let bold = Format::new().set_bold();
    let wrapped = Format::new().set_text_wrap().set_align(FormatAlign::Top);
    let notes = workbook.add_worksheet().set_name(words.say("pack-workbook-notes"))?;
    notes.set_column_width(0, 100)?;
    notes.write_string_with_format(0, 0, limited(&study.title), &bold)?;
    let mut row = 1;
    for text in mark.iter().map(|m| (*m).to_owned()).chain([words.say("pack-workbook-about")]) {
        notes.write_string_with_format(row, 0, limited(&text), &wrapped)?;
        row += 1;
    }
    let mut names = vec![words.say("pack-workbook-notes")];
    for table in tables {
        row += 1;
        notes.write_string_with_format(row, 0, limited(&table.title), &bold)?;
        for note in &table.notes {
            row += 1;
            notes.write_string_with_format(row, 0, limited(note), &wrapped)?;
        }
        row += 1;
    }
    for table in tables {
        let name = sheet_name(&table.title, &names);
        let sheet = workbook.add_worksheet().set_name(&name)?;
        fill(sheet, table, study.language, mark)?;
        names.push(name);
    }
    workbook.save_to_buffer()
}

fn fill(
    sheet: &mut Worksheet,
    table: &Table,
    language: Language,
    mark: Option<&str>,
) -> std::result::Result<(), XlsxError> {
    let words = Words::of(language);
    let head = Format::new().set_bold().set_text_wrap().set_border_bottom(FormatBorder::Thin);
    let right = head.clone().set_align(FormatAlign::Right);
    for (column, heading) in table.headings.iter().enumerate() {
        let format = if is_figures(table, column) { &right } else { &head };
        sheet.write_string_with_format(0, index(column), limited(heading), format)?;
    }
    let total = Format::new().set_bold().set_border_top(FormatBorder::Thin);
    let rows = table.rows.iter().map(|row| (row, false)).chain(table.totals.iter().map(|row| (row, true)));
    for (at, (row, is_total)) in rows.take(MOST_ROWS - 1).enumerate() {
        for (column, value) in row.iter().enumerate() {
            let format = if is_total { total.clone() } else { Format::new() };
            let (at, column) = (at as u32 + 1, index(column));
            match value {
                Value::Empty => sheet.write_blank(at, column, &format)?,
                Value::Text(text) => sheet.write_string_with_format(at, column, limited(text), &format)?,
                Value::Whole(n) => {
                    sheet.write_number_with_format(at, column, *n as f64, &format.set_num_format("#,##0"))?
                }
                Value::Number(n, decimals) => {
                    let shown = if *decimals == 0 {
                        "#,##0".to_owned()
                    } else {
                        format!("#,##0.{}", "0".repeat(*decimals))
                    };
                    sheet.write_number_with_format(at, column, *n, &format.set_num_format(shown))?
                }
            };
        }
    }
    for column in 0..table.headings.len() {
        sheet.set_column_width(index(column), width(table, column, words))?;
    }
    sheet.set_freeze_panes(1, 1)?;
    sheet.set_repeat_rows(0, 0)?;
    sheet.set_landscape().set_print_fit_to_pages(1, 0);
    sheet.set_header(format!("&L{}&R{}", header(&table.title), mark.map(header).unwrap_or_default()));
    sheet.set_footer("&C&P / &N");
    Ok(())
}

/// A width that shows most values: by the longest, within bounds.
fn width(table: &Table, column: usize, words: &Words) -> f64 {
    let values = table.rows.iter().chain(&table.totals).filter_map(|row| row.get(column));
    let longest = values.map(|value| super::tables::said(value, words).chars().count()).max();
    let heading = table.headings[column].split_whitespace().map(|w| w.chars().count()).max();
    (longest.max(heading).unwrap_or_default() as f64 + 2.0).clamp(7.0, 45.0)
}

/// A column of a sheet; a table wider than a sheet would fail on writing, with the library's reason.
fn index(column: usize) -> u16 {
    u16::try_from(column).unwrap_or(u16::MAX)
}

/// A cell holds at most 32,767 characters.
fn limited(text: &str) -> String {
    text.chars().filter(|c| *c != '\0').take(32_767).collect()
}

/// Text for a printed header, in which `&` begins a command. At most 255 characters in all.
fn header(text: &str) -> String {
    text.chars().take(80).collect::<String>().replace('&', "&&")
}

/// A sheet's name: at most 31 characters, none of `[]:*?/\`, not led or followed by an apostrophe, and
/// no two alike (case does not count).
fn sheet_name(title: &str, taken: &[String]) -> String {
    let clean: String = title
        .chars()
        .map(
            |c| if matches!(c, '[' | ']' | ':' | '*' | '?' | '/' | '\\') || c.is_control() { ' ' } else { c },
        )
        .collect();
    let clean = clean.trim_matches(|c: char| c == '\'' || c.is_whitespace());
    let clean = clean.split_whitespace().collect::<Vec<_>>().join(" ");
    let clean = if clean.is_empty() { "1".to_owned() } else { clean };
    // A name too long ends after a whole word where it has one, and says that it goes on.
    let short = |most: usize| {
        if clean.chars().count() <= most {
            return clean.clone();
        }
        let cut: String = clean.chars().take(most - 1).collect();
        let whole = cut.rsplit_once(' ').map_or(cut.as_str(), |(whole, _)| whole);
        format!("{}…", whole.trim_end_matches(|c: char| !c.is_alphanumeric()))
    };
    let free =
        |name: &String| !name.is_empty() && taken.iter().all(|t| t.to_lowercase() != name.to_lowercase());
    std::iter::once(short(31))
        .chain((2..).map(|number| format!("{} {number}", short(26))))
        .find(free)
        .unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::sheet_name;

    #[test]
    fn sheet_names_keep_the_rules() {
        let taken = ["Notes".to_owned(), "Pieces class by period".to_owned()];
        assert_eq!(sheet_name("Pieces: class by period", &taken), "Pieces class by period 2");
        assert_eq!(
            sheet_name("Pieces along the shore by class of find", &taken),
            "Pieces along the shore by…"
        );
        assert_eq!(sheet_name("'notes'", &taken), "notes 2");
        assert!(sheet_name(&"long ".repeat(20), &taken).chars().count() <= 31);
        assert_eq!(sheet_name("[]", &taken), "1");
    }
}
