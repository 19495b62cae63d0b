//! Spreadsheets as a person sees them: row by row, each cell with what it shows. Their files are opened one by one as
//! well; there a cell's words may stand far from its place.

use std::io::Cursor;

use calamine::{Data, Reader, open_workbook_auto_from_rs};

use super::opening::{Here, Opened};

/// Opens the sheets of a workbook; nothing where these bytes are none.
pub(super) fn open(opened: &mut Opened, here: &Here, bytes: &[u8]) {
    let has = |name: &[u8]| memchr::memmem::find(bytes, name).is_some();
    if !(has(b"xl/workbook.") || has(b"application/vnd.oasis.opendocument.spreadsheet")) || opened.left() == 0
    {
        return;
    }
    let Ok(mut workbook) = open_workbook_auto_from_rs(Cursor::new(bytes)) else { return };
    for name in workbook.sheet_names() {
        let Ok(range) = workbook.worksheet_range(&name) else { continue };
        let mut text = String::new();
        for row in range.rows() {
            let cells: Vec<String> = row.iter().map(shown).collect();
            text.push_str(&cells.join("\t"));
            text.push('\n');
        }
        if opened.afford(here, text.len()) {
            opened.table(&here.inside(&name), &text);
        }
    }
}

fn shown(cell: &Data) -> String {
    match cell {
        Data::Empty | Data::Error(_) => String::new(),
        Data::String(text) => text.replace(['\t', '\n', '\r'], " "),
        other => other.to_string(),
    }
}
