//! Splits a text table into rows and cells, forgivingly.
//!
//! A strict reader of comma-separated values takes a quote that is never closed, or a ditto mark left
//! bare, for the start of a cell and swallows the rows below it. Here a quote opens a cell only if it is
//! closed where a cell ends; otherwise that one line is read with its quotes as they are. Well-formed
//! tables come out as the `csv` crate reads them (a test holds that).

/// More line breaks than this inside one quoted cell means that its quote was never closed.
const BREAKS_IN_A_CELL: usize = 50;

/// The rows of a table, one at a time.
#[derive(Clone)]
pub(super) struct Records<'a> {
    text: &'a str,
    at: usize,
    row: u64,
    delimiter: u8,
    /// Cells in the row of headings, once known.
    width: Option<usize>,
}

/// One row.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Record {
    /// As a spreadsheet counts it.
    pub row: u64,
    /// A quote was opened and not closed.
    pub open_quote: bool,
}

/// What came of one cell.
enum Cell {
    /// It ends here, and the row goes on or not.
    Ended { at: usize, more: bool },
    /// Its quote is not closed.
    Open,
}

impl<'a> Records<'a> {
    pub fn new(text: &'a str, delimiter: u8) -> Self {
        Self { text, at: 0, row: 0, delimiter, width: None }
    }

    /// Goes on from where it stands, with the number of cells that a row should have.
    #[must_use]
    pub fn of_width(mut self, width: usize) -> Self {
        self.width = Some(width);
        self
    }

    /// Reads the next row into `cells`; `None` at the end.
    pub fn next(&mut self, cells: &mut Vec<String>) -> Option<Record> {
        if self.at >= self.text.len() {
            return None;
        }
        self.row += 1;
        let start = self.at;
        let whole = self.read(start, cells, true);
        let line_end = || {
            let line = &self.text.as_bytes()[start..];
            start + line.iter().position(|b| matches!(b, b'\r' | b'\n')).unwrap_or(line.len())
        };
        let Some(end) = whole else {
            self.at = self.read(start, cells, false).unwrap_or(self.text.len());
            let bare_dittos = self.width == Some(cells.len()) && quotes_stand_alone(cells);
            return Some(Record { row: self.row, open_quote: !bare_dittos });
        };
        self.at = end;
        // 12,",",3 holds two bare dittos, not one cell with a comma in it.
        if self.width.is_some_and(|width| width != cells.len()) && self.text[start..line_end()].contains('"')
        {
            let mut bare = Vec::new();
            let end = self.read(start, &mut bare, false);
            if self.width == Some(bare.len()) && quotes_stand_alone(&bare) {
                *cells = bare;
                self.at = end.unwrap_or(self.text.len());
            }
        }
        Some(Record { row: self.row, open_quote: false })
    }

    /// Where it stands now, and where it will after every so many rows: at least one place, and no place at the end
    /// of the text but that.
    pub fn parted(mut self, rows: u64) -> Vec<Self> {
        let quotes = self.text[self.at..].contains('"');
        let (mut starts, mut cells) = (vec![self.clone()], Vec::new());
        loop {
            for _ in 0..rows {
                if quotes {
                    self.next(&mut cells).is_some()
                } else {
                    self.step_over_line()
                };
            }
            if self.at >= self.text.len() {
                return starts;
            }
            starts.push(self.clone());
        }
    }

    /// Steps over a row of a text without quotes, where each line is one.
    fn step_over_line(&mut self) -> bool {
        if self.at >= self.text.len() {
            return false;
        }
        self.row += 1;
        let rest = &self.text.as_bytes()[self.at..];
        self.at = match memchr::memchr2(b'\r', b'\n', rest) {
            Some(end) if rest[end..].starts_with(b"\r\n") => self.at + end + 2,
            Some(end) => self.at + end + 1,
            None => self.text.len(),
        };
        true
    }

    /// Reads one row from `at`, and gives where the next begins; `None` when a quote stays open.
    fn read(&self, mut at: usize, cells: &mut Vec<String>, quotes: bool) -> Option<usize> {
        let mut used = 0;
        loop {
            if used == cells.len() {
                cells.push(String::new());
            }
            cells[used].clear();
            let quoted = quotes && self.text.as_bytes().get(at) == Some(&b'"');
            let cell =
                if quoted { self.quoted(at + 1, &mut cells[used]) } else { self.bare(at, &mut cells[used]) };
            used += 1;
            match cell {
                Cell::Open => return None,
                Cell::Ended { at: next, more } => {
                    at = next;
                    if !more {
                        cells.truncate(used);
                        return Some(at);
                    }
                }
            }
        }
    }

    fn bare(&self, at: usize, cell: &mut String) -> Cell {
        let rest = &self.text.as_bytes()[at..];
        let length = rest
            .iter()
            .position(|b| *b == self.delimiter || matches!(b, b'\r' | b'\n'))
            .unwrap_or(rest.len());
        cell.push_str(&self.text[at..at + length]);
        self.after(at + length)
    }

    /// Steps over a separator or the end of a line.
    fn after(&self, at: usize) -> Cell {
        let bytes = self.text.as_bytes();
        match bytes.get(at) {
            Some(b) if *b == self.delimiter => Cell::Ended { at: at + 1, more: true },
            Some(b'\r') if bytes.get(at + 1) == Some(&b'\n') => Cell::Ended { at: at + 2, more: false },
            Some(_) => Cell::Ended { at: at + 1, more: false },
            None => Cell::Ended { at, more: false },
        }
    }

    fn quoted(&self, mut at: usize, cell: &mut String) -> Cell {
        let (mut breaks, mut stray) = (0, false);
        while let Some(found) = self.text[at..].find('"') {
            let piece = &self.text[at..at + found];
            breaks += piece.bytes().filter(|b| *b == b'\n' || *b == b'\r').count();
            if breaks > BREAKS_IN_A_CELL {
                return Cell::Open;
            }
            cell.push_str(piece);
            at += found + 1;
            let rest = &self.text[at..];
            if rest.starts_with('"') {
                cell.push('"');
                at += 1;
                continue;
            }
            let spaces = rest.len() - rest.trim_start_matches(' ').len();
            let ends = match rest.as_bytes().get(spaces) {
                None | Some(b'\r' | b'\n') => true,
                Some(b) => *b == self.delimiter,
            };
            if ends {
                // A stray quote on a later line is the opening of another cell.
                return if stray && breaks > 0 { Cell::Open } else { self.after(at + spaces) };
            }
            stray = true;
            cell.push('"');
        }
        Cell::Open
    }
}

/// Whether every quote is a whole cell: a ditto mark.
fn quotes_stand_alone(cells: &[String]) -> bool {
    cells.iter().all(|cell| !cell.contains('"') || matches!(cell.trim(), "\"" | "\"\""))
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::Records;

    fn all(text: &str, width: Option<usize>) -> Vec<(u64, bool, Vec<String>)> {
        let mut records = Records::new(text, b',');
        records.width = width;
        let (mut rows, mut cells) = (Vec::new(), Vec::new());
        while let Some(record) = records.next(&mut cells) {
            rows.push((record.row, record.open_quote, cells.clone()));
        }
        rows
    }

    #[test]
    fn an_open_quote_costs_one_row() {
        let rows = all("a,b\n1,\"flake\n2,\"blade\"\n3,chip\n", Some(2));
        let bad: Vec<_> = rows.iter().filter(|row| row.1).map(|row| row.0).collect();
        assert_eq!(bad, [2]);
        assert_eq!(rows[2].2, ["2", "blade"]);
        assert_eq!(rows[3].2, ["3", "chip"]);
    }

    #[test]
    fn a_table_in_parts_is_the_same_table() {
        for text in ["1,a\n2,b\r\n\n3,c\r4,d\n5,e", "1,\"a\nb\"\n2,\",x\n3,c\n4,d\n5,e\n"] {
            let whole = all(text, Some(2));
            for rows in 1..7 {
                let mut records = Records::new(text, b',');
                records.width = Some(2);
                let starts = records.parted(rows);
                let mut found = Vec::new();
                for (number, mut part) in starts.iter().cloned().enumerate() {
                    let most = if number + 1 < starts.len() { rows } else { u64::MAX };
                    let mut cells = Vec::new();
                    for _ in 0..most {
                        let Some(record) = part.next(&mut cells) else { break };
                        found.push((record.row, record.open_quote, cells.clone()));
                    }
                }
                assert_eq!(found, whole, "{text:?} by {rows}");
            }
        }
    }

    #[test]
    fn bare_dittos_are_cells() {
        assert_eq!(all("1,\",chip\n", Some(3))[0], (1, false, vec!["1".into(), "\"".into(), "chip".into()]));
        assert_eq!(all("1,\",\",3\n", Some(4))[0].2, ["1", "\"", "\"", "3"]);
    }

    #[test]
    fn a_line_break_in_quotes_starts_no_row() {
        let rows = all("1,\"two\r\nlines\"\r\n\r\n3,x\r4,y", None);
        assert_eq!(rows[0].2[1], "two\r\nlines");
        assert_eq!(rows.iter().map(|row| row.0).collect::<Vec<_>>(), [1, 2, 3, 4]);
    }

    proptest! {
        /// The judge of well-formed tables is the csv crate.
        #[test]
        fn well_formed_tables_read_as_csv_does(
            rows in prop::collection::vec(prop::collection::vec("[a-z ,;\"\n]{0,8}", 3), 1..8)
        ) {
            let mut writer = csv::WriterBuilder::new().quote_style(csv::QuoteStyle::Always).from_writer(Vec::new());
            for row in &rows {
                writer.write_record(row).unwrap();
            }
            let text = String::from_utf8(writer.into_inner().unwrap()).unwrap();
            let read: Vec<Vec<String>> = all(&text, Some(3)).into_iter().map(|row| row.2).collect();
            prop_assert_eq!(read, rows);
        }
    }
}
