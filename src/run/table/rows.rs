//! One block of rows, from the bytes that came in to those that go out.

use super::blocks::row_end;
use super::cells::{Cells, put};
use super::columns::Spot;
use super::plain::PlainRows;
use super::task::{Doing, Place, Task};
use super::{Head, decoded};
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
    pub(super) fn headings(&self, head: &Head) -> Vec<u8> {
        let mut out = decoded(&head.above).into_owned().into_bytes();
        let kept = self.headings.iter().enumerate().filter(|(index, _)| !self.task.cuts(self.spot, *index));
        let (last, before) =
            self.added.split_last().map_or(("", &[][..]), |(last, rest)| (last.as_str(), rest));
        for name in kept.map(|(_, name)| name).chain(before) {
            put(&mut out, name.as_bytes(), self.separator, self.separator);
        }
        put(&mut out, last.as_bytes(), self.separator, b'\n');
        out
    }

    /// Takes a block through.
    pub(super) fn through(&self, block: &[u8], doing: &mut Doing, cells: &mut Cells) -> Result<Done> {
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
                self.one(row, doing, cells, &mut done)?;
            }
        }
        Ok(done)
    }

    /// One row by itself.
    fn one(&self, row: &[u8], doing: &mut Doing, cells: &mut Cells, done: &mut Done) -> Result<()> {
        cells.read(row);
        let separator = self.separator;
        for index in 0..self.width.max(cells.len()) {
            if self.task.cuts(self.spot, index) {
                continue;
            }
            let cell = decoded(cells.get(index));
            let heading = self.headings.get(index).map_or("", String::as_str);
            match self.task.without_places(&cell, heading) {
                Some(left) => {
                    done.cut += 1;
                    put(&mut done.bytes, left.as_bytes(), separator, separator);
                }
                None => put(&mut done.bytes, cell.as_bytes(), separator, separator),
            }
        }
        let cell = |index: usize| decoded(cells.get(index));
        let place = match self.spot {
            Spot::One(index) => Place::One(cell(index)),
            Spot::Two(first, second, pair) => Place::Two(cell(first), cell(second), pair),
        };
        match doing.row(&place) {
            Ok(added) => {
                for cell in added {
                    put(&mut done.bytes, cell.as_bytes(), separator, separator);
                }
                done.bytes.push(b'\n');
            }
            Err(fault) => {
                done.failed += 1;
                done.bytes.extend(std::iter::repeat_n(separator, self.added.len() - 1));
                put(&mut done.bytes, doing.said(&fault, self.language).as_bytes(), separator, b'\n');
            }
        }
        Ok(())
    }
}
