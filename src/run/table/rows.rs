//! One block of rows, from the bytes that came in to those that go out.

use super::blocks::row_end;
use super::columns::Spot;
use super::plain::PlainRows;
use super::task::{Doing, Place, Task};
use super::{Head, decoded, unwritable};
use crate::fault::Result;
use crate::words::Language;

/// What every worker is told.
pub(super) struct Work<'a> {
    task: &'a Task,
    pub(super) spot: Spot,
    /// Headings of the table as it came.
    headings: Vec<String>,
    /// How many there are.
    pub(super) width: usize,
    /// Headings of the columns added.
    added: Vec<String>,
    pub(super) separator: u8,
    language: Language,
}

/// A block that is done.
#[derive(Default)]
pub(super) struct Done {
    /// What goes out.
    pub bytes: Vec<u8>,
    /// Rows in it.
    pub read: u64,
    /// Rows of them that failed.
    pub failed: u64,
    /// Cells from which places were cut.
    pub cut: u64,
}

impl<'a> Work<'a> {
    pub(super) fn new(task: &'a Task, head: &Head, language: Language) -> Self {
        let added = task.added(&head.headings, head.spot);
        let headings = head.headings.clone();
        let width = headings.len();
        Self { task, spot: head.spot, headings, width, added, separator: head.separator, language }
    }

    /// The lines above the rows, as they go out.
    pub(super) fn headings(&self, head: &Head) -> Result<Vec<u8>> {
        let mut bytes = decoded(&head.above).into_owned().into_bytes();
        let kept = head.headings.iter().enumerate().filter(|(index, _)| !self.task.cuts(self.spot, *index));
        let mut line = self.line();
        line.write_record(kept.map(|(_, name)| name).chain(&self.added)).map_err(unwritable)?;
        bytes.extend(written(line)?);
        Ok(bytes)
    }

    /// Takes a block through.
    pub(super) fn through(&self, block: &[u8], doing: &mut Doing) -> Result<Done> {
        // Of a break of two characters the second makes an empty row, which is none.
        let mut rows = Vec::new();
        let mut rest = block;
        while !rest.is_empty() {
            let (row, after) = rest.split_at(row_end(rest, self.separator));
            let row = row.strip_suffix(b"\n").or_else(|| row.strip_suffix(b"\r")).unwrap_or(row);
            if !row.is_empty() {
                rows.push(row);
            }
            rest = after;
        }
        let plain = PlainRows::of(self, &rows, doing)?;
        let mut done =
            Done { bytes: Vec::with_capacity(block.len() * 4), read: rows.len() as u64, ..Done::default() };
        for (index, row) in rows.into_iter().enumerate() {
            if !plain.put(index, row, self.separator, doing, &mut done.bytes)? {
                let (bytes, failed) = self.one(row, doing, &mut done.cut)?;
                done.bytes.extend(bytes);
                done.failed += u64::from(failed);
            }
        }
        Ok(done)
    }

    /// One row by itself, and whether it failed; counts the cells that places were cut from.
    fn one(&self, row: &[u8], doing: &mut Doing, cut: &mut u64) -> Result<(Vec<u8>, bool)> {
        let mut record = csv::ByteRecord::new();
        super::reader(self.separator, row).read_byte_record(&mut record).map_err(super::unreadable)?;
        let mut out = self.line();
        let mut field = |cell: &[u8]| out.write_field(cell).map_err(unwritable);
        for index in 0..self.width.max(record.len()) {
            if !self.task.cuts(self.spot, index) {
                let cell = decoded(record.get(index).unwrap_or_default());
                let heading = self.headings.get(index).map_or("", String::as_str);
                match self.task.without_places(&cell, heading) {
                    Some(left) => {
                        *cut += 1;
                        field(left.as_bytes())?;
                    }
                    None => field(cell.as_bytes())?,
                }
            }
        }
        let cell = |index: usize| decoded(record.get(index).unwrap_or_default());
        let place = match self.spot {
            Spot::One(index) => Place::One(cell(index)),
            Spot::Two(first, second, pair) => Place::Two(cell(first), cell(second), pair),
        };
        let outcome = doing.row(&place);
        match &outcome {
            Ok(cells) => {
                for cell in cells {
                    field(cell.as_bytes())?;
                }
                field(b"")?;
            }
            Err(fault) => {
                for _ in 1..self.added.len() {
                    field(b"")?;
                }
                field(doing.said(fault, self.language).as_bytes())?;
            }
        }
        out.write_record(None::<&[u8]>).map_err(unwritable)?;
        Ok((written(out)?, outcome.is_err()))
    }

    pub(super) fn line(&self) -> csv::Writer<Vec<u8>> {
        csv::WriterBuilder::new()
            .delimiter(self.separator)
            .flexible(true)
            .buffer_capacity(512)
            .from_writer(Vec::new())
    }
}

/// What a writer was given.
pub(super) fn written(line: csv::Writer<Vec<u8>>) -> Result<Vec<u8>> {
    line.into_inner().map_err(|why| unwritable(why.into_error().into()))
}
