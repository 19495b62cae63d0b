//! Reads registers as people keep them: any usual encoding and separator, titles above the headings,
//! dittos, totals, year headings, counts in words. Every row is used or set aside with its reason.
//!
//! Rows are numbered as a spreadsheet numbers them: the first line is row 1, blank lines count, and a
//! line break inside quotes starts no new row.

mod content;
mod count;
pub(super) mod date;
mod decode;
mod field;
mod fields;
mod files;
mod headings;
mod lines;
mod marks;
mod measure;
mod parts;
mod place;
mod problem;
mod records;
mod row;
mod sniff;
mod spreadsheet;
#[cfg(test)]
mod tests;
mod waypoints;
mod years;

pub use field::Field;
pub use problem::{Doubt, Matter, Problem, Problems};
pub use sniff::{FileShape, Guess, guess};

use std::collections::{BTreeMap, BTreeSet};
use std::path::PathBuf;

use super::{ExactFind, Private, Reason, Tally, checks};
use crate::coordinates::System;
use crate::fault::{Fault, Result};
use crate::study::vocabulary::Country;
use crate::study::{Columns, Study, land_key};
use crate::units::Date;

/// Every find of a study's register files, with what was set aside and what is doubtful.
pub struct Register {
    pub(in crate::exact) finds: Vec<ExactFind>,
    /// Names of the files as shown to the owner; [`ExactFind`]s point into it.
    pub(in crate::exact) files: Vec<String>,
    pub(in crate::exact) tally: Tally,
    pub(in crate::exact) problems: Problems,
    /// Rows set aside that state whose land they are off, by name as names are compared and by reason: a landowner's copy counts
    /// those of its own land and no others.
    pub(in crate::exact) aside_by_land: BTreeMap<(String, Reason), u64>,
    shapes: Vec<FileShape>,
}

impl Register {
    /// Reads every register file of a study. Faults: a file that is not there or is no text table, one
    /// without headings, a column named in the study file that no register file has.
    pub fn read(study: &Study) -> Result<Self> {
        let context = Context::of(study)?;
        let files = files::find(&study.private.root, &study.private.files)?;
        read_files(&context, &files)
    }

    /// Rows read, used and set aside.
    pub fn tally(&self) -> &Tally {
        &self.tally
    }

    /// The heading of the first of `fields` that a file has.
    pub(in crate::exact) fn heading(&self, file: u32, fields: &[Field]) -> Option<String> {
        let columns = &self.shapes.get(file as usize)?.columns;
        let found = fields.iter().find_map(|field| columns.iter().find(|(_, taken)| *taken == Some(*field)));
        found.map(|(heading, _)| heading.clone())
    }

    /// Every row set aside and every doubt, for the register's owner.
    pub fn problems(&self) -> Private<&Problems> {
        Private::new(&self.problems)
    }

    /// The names of land that its rows are stated to be off, as first written, by name as names are compared.
    pub fn lands(&self) -> Private<BTreeMap<String, String>> {
        let mut lands = BTreeMap::new();
        for find in &self.finds {
            if let Some(land) = find.more.as_deref().and_then(|more| more.landowner.as_deref()) {
                lands.entry(land_key(land)).or_insert_with(|| land.to_owned());
            }
        }
        for (land, _) in self.aside_by_land.keys() {
            lands.entry(land.clone()).or_insert_with(|| land.clone());
        }
        Private::new(lands)
    }

    /// How each file was understood: its separator, encoding, headings and what they were taken for.
    pub fn shapes(&self) -> Private<&[FileShape]> {
        Private::new(&self.shapes)
    }
}

/// What the reader takes from the study.
pub(in crate::exact) struct Context {
    pub columns: Columns,
    /// The system of eastings and northings that say none themselves.
    pub system: System,
    /// The uncertainty of a place that states none, metres.
    pub uncertainty_m: Option<f64>,
    pub decimal_comma: Option<bool>,
    pub country: Country,
    /// The day that "in the future" is measured from.
    pub today: Option<Date>,
}

impl Context {
    fn of(study: &Study) -> Result<Self> {
        // Country and date are the same for every audience; a study has at least one.
        let name = study.audiences().next().unwrap_or("public").to_owned();
        let public = study.audience(&name)?;
        Ok(Self {
            columns: study.private.columns.clone(),
            system: study.private.system.clone(),
            uncertainty_m: study.private.uncertainty_m,
            decimal_comma: study.private.decimal_comma,
            country: public.country,
            today: public.date,
        })
    }
}

/// Reads the files (shown name, path) in order.
pub(in crate::exact) fn read_files(context: &Context, files: &[(String, PathBuf)]) -> Result<Register> {
    let mut register = Register {
        finds: Vec::new(),
        files: Vec::new(),
        tally: Tally::default(),
        problems: Problems::default(),
        aside_by_land: BTreeMap::new(),
        shapes: Vec::new(),
    };
    for (name, path) in files {
        let tables = decode::read(path).map_err(|fault| fault.in_file(name))?;
        let several = tables.len() > 1;
        let (mut read_one, mut without) = (false, None);
        for table in tables {
            let name = match table.sheet.filter(|_| several) {
                Some(sheet) => format!("{name} [{sheet}]"),
                None => name.clone(),
            };
            register.files.push(name.clone());
            match read_text(context, &table.text, &name, table.encoding, &mut register) {
                Ok(()) => read_one = true,
                // A sheet of notes beside the sheets of finds is passed over, and said to be.
                Err(fault) if several && fault.id == "register-no-headings" => {
                    pass_over(&table.text, &name, table.encoding, &mut register);
                    without = Some(fault.in_file(&name));
                }
                Err(fault) => return Err(fault.in_file(&name)),
            }
        }
        if let Some(fault) = without.filter(|_| !read_one) {
            return Err(fault);
        }
    }
    named_columns_exist(&context.columns, &register.shapes)?;
    checks::within(&mut register);
    register.problems.sort();
    Ok(register)
}

/// Reads one file's text.
fn read_text(
    context: &Context,
    text: &str,
    name: &str,
    encoding: &'static str,
    register: &mut Register,
) -> Result<()> {
    let file = (register.files.len() - 1) as u32;
    let sheet = sniff::sniff(text, &context.columns)?;
    let decimal_comma = context.decimal_comma.unwrap_or(sheet.decimal_comma);
    let mut read = parts::read(context, &sheet, file, decimal_comma, text);
    register.tally.read += read.read;
    register.tally.used += read.finds.len() as u64;
    register.finds.append(&mut read.finds);
    for (reason, rows) in read.set_aside {
        *register.tally.set_aside.entry(reason).or_default() += rows;
    }
    for (land, rows) in read.aside_by_land {
        *register.aside_by_land.entry(land).or_default() += rows;
    }
    register.problems.append(read.problems);
    let last_row = read.last_row.max(sheet.heading_row);
    register.shapes.push(sheet.shape(name, encoding, decimal_comma, last_row));
    Ok(())
}

/// Notes that a sheet has no headings of a register, and shows its owner how it begins.
fn pass_over(text: &str, name: &str, encoding: &'static str, register: &mut Register) {
    let begins: String = text.trim().lines().next().unwrap_or_default().chars().take(200).collect();
    register.problems.add(Problem {
        file: (register.files.len() - 1) as u32,
        row: 1,
        column: None,
        matter: Matter::Doubt(Doubt::SheetPassedOver),
        text: Some(begins),
        detail: None,
    });
    register.shapes.push(FileShape::passed_over(name, encoding, text.lines().count() as u64));
}

/// A column named in the study file must be in one file at least; files kept by other hands may lack it.
fn named_columns_exist(columns: &Columns, shapes: &[FileShape]) -> Result<()> {
    let headings: BTreeSet<&str> =
        shapes.iter().flat_map(|shape| shape.columns.iter().map(|(heading, _)| heading.as_str())).collect();
    for field in Field::ALL {
        let Some(wanted) = field.named_in(columns) else { continue };
        if headings.iter().any(|heading| headings::same(heading, wanted)) {
            continue;
        }
        let list = headings.iter().copied().collect::<Vec<_>>().join(", ");
        let nearest = headings
            .iter()
            .map(|heading| (strsim::jaro_winkler(&heading.to_lowercase(), &wanted.to_lowercase()), heading))
            .max_by(|a, b| a.0.total_cmp(&b.0))
            .map_or("", |(_, heading)| heading);
        return Err(Fault::new("register-no-column")
            .with("heading", wanted)
            .with("nearest", nearest)
            .with("known", list)
            .in_column(format!("register.columns.{}", field.name())));
    }
    Ok(())
}
