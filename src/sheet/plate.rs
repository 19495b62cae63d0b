//! Sheets for the page of a report: no margin of their own, since the page has one.

use super::canvas::MM;
use super::style::Style;
use super::{BoxMm, Sheet, shore_figure_of};
use crate::analyse::ShoreProfile;
use crate::fault::Result;
use crate::study::PublicStudy;

/// What is left of the margin, so that no line stands on the picture's edge, millimetres.
const LEFT_MM: f64 = 1.0;

/// Sheets that each take this much of a page, width and height in millimetres. `draw` draws them on the paper of
/// that name.
pub fn plates(
    study: &PublicStudy,
    (width_mm, height_mm): (f64, f64),
    draw: &dyn Fn(Option<&str>) -> Result<Vec<Sheet>>,
) -> Result<Vec<Sheet>> {
    let spare = spare(study, width_mm.min(height_mm))?;
    let paper = format!("{}x{}", width_mm + 2.0 * spare, height_mm + 2.0 * spare);
    Ok(draw(Some(&paper))?.into_iter().map(|sheet| trimmed(sheet, spare)).collect())
}

/// The finds along the shore, of this width in millimetres.
pub fn shore_plate(width_mm: f64, profile: &ShoreProfile, study: &PublicStudy) -> Result<Sheet> {
    let spare = spare(study, width_mm)?;
    Ok(trimmed(shore_figure_of(width_mm + 2.0 * spare, profile, study, None)?, spare))
}

/// The margin of a sheet somewhat larger than `short_mm`, but for what is left of it, in whole millimetres.
fn spare(study: &PublicStudy, short_mm: f64) -> Result<f64> {
    let style = Style::named(&study.sheets.style)?.for_paper(short_mm);
    Ok((style.page.margin_mm - LEFT_MM).max(0.0).floor())
}

/// The sheet without `by` millimetres along each edge, where nothing but paper is.
fn trimmed(mut sheet: Sheet, by: f64) -> Sheet {
    let (width_mm, height_mm) = (sheet.width_mm - 2.0 * by, sheet.height_mm - 2.0 * by);
    let units = |mm: f64| (mm * MM).round() as i64;
    let root = format!(
        "width=\"{width_mm}mm\" height=\"{height_mm}mm\" viewBox=\"{x} {x} {} {}\"",
        units(width_mm),
        units(height_mm),
        x = units(by),
    );
    // The root's own words, as the canvas writes them.
    let Some(start) = sheet.svg.find("width=\"") else { return sheet };
    let Some(end) = sheet.svg[start..].find("viewBox=\"").and_then(|at| {
        let from = start + at + "viewBox=\"".len();
        sheet.svg[from..].find('"').map(|close| from + close + 1)
    }) else {
        return sheet;
    };
    sheet.svg.replace_range(start..end, &root);
    (sheet.width_mm, sheet.height_mm) = (width_mm, height_mm);
    let boxes = sheet.placed.iter_mut().map(|placed| &mut placed.at);
    for at in boxes.chain(sheet.maps.iter_mut().map(|map| &mut map.at)) {
        *at = BoxMm { left: at.left - by, top: at.top - by, right: at.right - by, bottom: at.bottom - by };
    }
    sheet
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_trimmed_sheet_shows_its_inside_at_the_same_size() {
        let sheet = Sheet {
            name: "a".to_owned(),
            title: "A".to_owned(),
            description: "D".to_owned(),
            width_mm: 176.0,
            height_mm: 212.0,
            placed: Vec::new(),
            maps: Vec::new(),
            svg: "<svg xmlns=\"x\" width=\"176mm\" height=\"212mm\" viewBox=\"0 0 17600 21200\" role=\"img\"><rect width=\"1\"/></svg>"
                .to_owned(),
        };
        let trimmed = trimmed(sheet, 7.0);
        assert_eq!((trimmed.width_mm, trimmed.height_mm), (162.0, 198.0));
        assert_eq!(
            trimmed.svg,
            "<svg xmlns=\"x\" width=\"162mm\" height=\"198mm\" viewBox=\"700 700 16200 19800\" role=\"img\"><rect width=\"1\"/></svg>"
        );
    }
}
