//! `[sheets]` and `[tables]`: how what is written looks, checked, with every default filled in.

use super::file::{SheetsSection, TablesSection};
use super::load::{names, unknown_word};
use super::settings::{SheetForm, SheetSettings, TableSettings};
use crate::fault::{Fault, Result};

pub(super) fn sheets(section: SheetsSection) -> Result<SheetSettings> {
    let dpi = section.dpi.unwrap_or(300);
    if !(72..=1200).contains(&dpi) {
        return Err(Fault::new("study-dpi").with("value", dpi).in_column("sheets.dpi"));
    }
    let forms = match &section.forms {
        Some(words) if words.is_empty() => {
            return Err(Fault::new("study-list-empty").with("key", "forms").in_column("sheets.forms"));
        }
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

pub(super) fn tables(section: &TablesSection) -> Result<TableSettings> {
    Ok(TableSettings { decimal_comma: decimal_comma("tables.decimal", section.decimal.as_deref())? })
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
