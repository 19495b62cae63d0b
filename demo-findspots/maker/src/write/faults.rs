//! The list of planted faults: which file, which row, what the keeper did, what `check` should say.

use std::fmt::Write;

use crate::finds::Written;

pub fn text(registers: &[Written]) -> Result<String, std::fmt::Error> {
    let mut text = "\
# Every fault planted in the registers of demo-findspots/hernsey. Written by the maker; do not edit.
# row: as a spreadsheet counts it. found-as: set-aside:REASON or doubt:NAME, as `strew check` reports it.
"
    .to_owned();
    for register in registers {
        for fault in &register.faults {
            writeln!(text, "\n[[fault]]")?;
            writeln!(text, "file = \"{}\"", register.name)?;
            writeln!(text, "row = {}", fault.row)?;
            writeln!(text, "kind = \"{}\"", fault.kind)?;
            writeln!(text, "found-as = \"{}\"", fault.found_as)?;
        }
    }
    Ok(text)
}
