//! From the one SVG of a sheet: a PDF for print, and the tree of shapes that dots are drawn from. Nothing is
//! looked for on the machine: no font, no clock.

use resvg::usvg;

use super::Sheet;
use super::text::FONTS;
use crate::fault::{Fault, Result};
use crate::study::PublicStudy;

/// The shapes of a sheet, its text set in the program's own font.
pub(super) fn tree(sheet: &Sheet) -> Result<usvg::Tree> {
    let options = usvg::Options {
        fontdb: FONTS.clone(),
        font_family: "DejaVu Sans".to_owned(),
        ..usvg::Options::default()
    };
    usvg::Tree::from_str(&sheet.svg, &options).map_err(|e| broken(&e))
}

/// A picture that could not be made, with the library's reason.
pub(super) fn broken(why: &dyn std::fmt::Display) -> Fault {
    Fault::new("sheet-picture").with("why", why)
}

/// A sheet as PDF: vector, fonts embedded, tagged as one figure with its description. The date in the
/// file's properties is that of the study; no clock is read.
pub fn pdf(sheet: &Sheet, study: &PublicStudy) -> Result<Vec<u8>> {
    use krilla::geom::Size;
    use krilla::metadata::{DateTime, Metadata};
    use krilla::page::PageSettings;
    use krilla::tagging::{ContentTag, Tag, TagGroup, TagTree};
    use krilla_svg::{SurfaceExt as _, SvgSettings};

    let tree = tree(sheet)?;
    let points = |mm: f64| (mm / 25.4 * 72.0) as f32;
    let (width, height) = (points(sheet.width_mm), points(sheet.height_mm));
    let size = Size::from_wh(width, height).ok_or_else(|| broken(&"no size"))?;
    let settings = PageSettings::from_wh(width, height).ok_or_else(|| broken(&"no size"))?;
    let mut document = krilla::Document::new_with(krilla::SerializeSettings::default());
    let mut page = document.start_page_with(settings);
    let mut surface = page.surface();
    let content = surface.start_tagged(ContentTag::Other);
    surface.draw_svg(&tree, size, SvgSettings::default()).ok_or_else(|| broken(&"not drawn"))?;
    surface.end_tagged();
    surface.finish();
    page.finish();
    let mut figure = TagGroup::new(Tag::Figure(Some(sheet.description.clone())));
    figure.push(content);
    let mut tags = TagTree::new();
    tags.push(figure);
    document.set_tag_tree(tags);
    let mut metadata = Metadata::new()
        .title(format!("{}: {}", study.title, sheet.title))
        .description(sheet.description.clone())
        .language(study.language.code().to_owned())
        .creator("strew".to_owned())
        .document_id(format!("strew:{}:{}:{}", study.title, study.agreement.audience, sheet.name));
    if let Some(compiler) = &study.compiler {
        metadata = metadata.authors(vec![compiler.clone()]);
    }
    if let Some(date) = study.date {
        metadata = metadata
            .creation_date(DateTime::new(date.year.clamp(0, 9999) as u16).month(date.month).day(date.day));
    }
    document.set_metadata(metadata);
    document.finish().map_err(|e| broken(&format!("{e:?}")))
}
