//! `[sheets]` and `[tables]`: how what is written looks, checked, with every default filled in.

use super::file::{SheetsSection, TablesSection};
use super::load::{names, unknown_word};
use super::settings::{SheetForm, SheetSettings, TableSettings};
use crate::fault::{Fault, Result};
use crate::words::Language;

pub(super) fn sheets(section: SheetsSection) -> Result<SheetSettings> {
    let dpi = section.dpi.unwrap_or(300);
    if !(72..=1200).contains(&dpi) {
        return Err(Fault::new("study-dpi").with("value", dpi).in_column("sheets.dpi"));
    }
    let forms = match &section.forms {
        Some(words) => names("sheets.forms", words, SheetForm::ALL, SheetForm::name)?,
        None => [SheetForm::Svg, SheetForm::Png, SheetForm::Pdf].into(),
    };
    Ok(SheetSettings {
        style: section.style.unwrap_or_else(|| "colour".to_owned()),
        paper: section.paper.unwrap_or_else(|| "a4".to_owned()),
        dpi,
        forms,
    })
}

/// Spreadsheets split columns where the language of the machine has it: French ones at semicolons.
pub(super) fn tables(section: &TablesSection, language: Language) -> Result<TableSettings> {
    let stated = decimal_comma("tables.decimal", section.decimal.as_deref())?;
    Ok(TableSettings { decimal_comma: stated.unwrap_or(language == Language::French) })
}

/// Whether a comma parts the decimals, where the key says.
pub(super) fn decimal_comma(key: &str, word: Option<&str>) -> Result<Option<bool>> {
    match word {
        None => Ok(None),
        Some("," | "comma") => Ok(Some(true)),
        Some("." | "point") => Ok(Some(false)),
        Some(other) => Err(unknown_word("study-unknown-word", key, other, &["comma", "point"])),
    }
}
