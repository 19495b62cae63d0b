//! Registers kept in a spreadsheet's own file: each sheet becomes a text table with the same rows and columns, so
//! that everything after reads it as it reads CSV.

use std::io::Cursor;

use calamine::{Data, ExcelDateTime, Range, Reader, open_workbook_auto_from_rs};

use super::decode::TextTable;
use crate::fault::{Fault, Result};

/// How a spreadsheet's file begins: a ZIP archive (XLSX, ODS), or the older binary form (XLS).
const BEGINNINGS: [&[u8]; 2] = [b"PK\x03\x04", b"\xD0\xCF\x11\xE0"];

/// Whether a file of this ending is a spreadsheet's own.
pub(super) fn is_spreadsheet(ending: &str) -> bool {
    matches!(ending, "xlsx" | "xlsm" | "xlsb" | "xls" | "ods")
}

/// Every sheet that holds anything, in order. Formulas give the value that the spreadsheet last worked out.
pub(super) fn tables(bytes: Vec<u8>) -> Result<Vec<TextTable>> {
    if !BEGINNINGS.iter().any(|beginning| bytes.starts_with(beginning)) {
        return Err(Fault::new("register-no-spreadsheet"));
    }
    let damaged = |why: calamine::Error| Fault::new("register-spreadsheet").with("why", why);
    let mut workbook = open_workbook_auto_from_rs(Cursor::new(bytes)).map_err(damaged)?;
    let mut out = Vec::new();
    for name in workbook.sheet_names() {
        let range = workbook.worksheet_range(&name).map_err(damaged)?;
        let text = text(&range)?;
        if !text.trim().is_empty() {
            out.push(TextTable { sheet: Some(name), text, encoding: "spreadsheet" });
        }
    }
    if out.is_empty() {
        return Err(Fault::new("register-empty"));
    }
    Ok(out)
}

/// A sheet as CSV. Blank rows and columns before the first cell are kept, so that rows count as in the spreadsheet.
fn text(range: &Range<Data>) -> Result<String> {
    let (above, before) = range.start().unwrap_or((0, 0));
    let broken = |why: &dyn std::fmt::Display| Fault::new("register-spreadsheet").with("why", why);
    let mut writer = csv::WriterBuilder::new().flexible(true).from_writer(Vec::new());
    let mut cells: Vec<String> = Vec::new();
    for row in range.rows() {
        cells.clear();
        cells.resize(before as usize, String::new());
        cells.extend(row.iter().map(cell));
        writer.write_record(&cells).map_err(|why| broken(&why))?;
    }
    let written = writer.into_inner().map_err(|why| broken(&why))?;
    let written = String::from_utf8(written).map_err(|why| broken(&why))?;
    Ok("\n".repeat(above as usize) + &written)
}

/// A cell as a person would have typed it into a text table.
fn cell(data: &Data) -> String {
    match data {
        Data::Empty => String::new(),
        // A line break inside a cell stays inside it: the writer puts quotes round it.
        Data::String(text) | Data::DateTimeIso(text) | Data::DurationIso(text) => text.clone(),
        Data::Int(number) => number.to_string(),
        // The shortest figures that give the same number: 52.5, and 3 for 3.0.
        Data::Float(number) => number.to_string(),
        Data::Bool(yes) => yes.to_string(),
        Data::DateTime(moment) => day(moment),
        Data::Error(error) => error.to_string(),
    }
}

/// A date as year, month and day; a moment that is no date as its bare number.
fn day(moment: &ExcelDateTime) -> String {
    let number = moment.as_f64();
    if !moment.is_datetime() || number < 1.0 {
        return number.to_string();
    }
    let (year, month, day, ..) = moment.to_ymd_hms_milli();
    format!("{year:04}-{month:02}-{day:02}")
}

#[cfg(test)]
mod tests {
    use rust_xlsxwriter::{ExcelDateTime, Format, Workbook};

    /// Rows and columns stay where they are, and cells read as they were typed.
    #[test]
    fn a_sheet_reads_as_it_was_typed() {
        let mut workbook = Workbook::new();
        workbook.add_worksheet();
        let sheet = workbook.add_worksheet().set_name("Walks").unwrap();
        let date = Format::new().set_num_format("dd/mm/yyyy");
        for (column, heading) in ["No", "Grid ref", "Class", "Length", "Date", "Note"].iter().enumerate() {
            sheet.write_string(2, column as u16 + 1, *heading).unwrap();
        }
        sheet.write_number(4, 1, 7.0).unwrap();
        sheet.write_string(4, 2, "OV 523 417").unwrap();
        sheet.write_string(4, 3, "scraper, \"thumbnail\"").unwrap();
        sheet.write_number(4, 4, 31.5).unwrap();
        let when = ExcelDateTime::from_ymd(2024, 3, 5).unwrap();
        sheet.write_datetime_with_format(4, 5, &when, &date).unwrap();
        sheet.write_string(4, 6, "two\nlines").unwrap();
        let tables = super::tables(workbook.save_to_buffer().unwrap()).unwrap();
        assert_eq!(tables.len(), 1, "an empty sheet is no table");
        assert_eq!(tables[0].sheet.as_deref(), Some("Walks"));
        let expected = "\n\n,No,Grid ref,Class,Length,Date,Note\n,,,,,,\n\
                        ,7,OV 523 417,\"scraper, \"\"thumbnail\"\"\",31.5,2024-03-05,\"two\nlines\"\n";
        assert_eq!(tables[0].text, expected);
    }

    #[test]
    fn what_is_no_spreadsheet_says_so() {
        assert_eq!(
            super::tables(b"No,Grid ref\n".to_vec()).map(|_| ()).unwrap_err().id,
            "register-no-spreadsheet"
        );
        assert_eq!(
            super::tables(b"PK\x03\x04rest".to_vec()).map(|_| ()).unwrap_err().id,
            "register-spreadsheet"
        );
    }
}
