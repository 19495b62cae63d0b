//! Every file that is written: tables, layers, pictures, report, submission, manifest.
//!
//! A pack is composed whole in memory, then written to a new folder beside its place and renamed, so
//! that it appears whole or not at all.
//!
//! ```text
//! records     rows with a shape, said once and written as GeoJSON, KML, GeoPackage, CSV
//! tables      tables as CSV, Markdown, HTML and a workbook
//! document    the report and the submission as headings, words, tables and figures: said once a language ...
//! pair        ... laid side by side where there are several ...
//! html, print ... and set twice, for the screen and for paper
//! sealing     the whole as one file that its recipient alone can open
//! writing     the only place where bytes meet the disk
//! ```

use std::collections::BTreeMap;

use crate::analyse::{Concentration, EvenTest, ShoreProfile, Surface, Table};
use crate::exact::Published;
use crate::fault::Result;
use crate::ground::{Ground, Partition};
use crate::sheet::Sheet;
use crate::study::{Giving, PublicStudy, SheetForm};

mod counts;
mod cover;
mod document;
mod facts;
mod fields;
mod fieldwork;
mod finds;
mod fitting;
mod geojson;
mod geopackage;
mod handout;
mod html;
mod inline;
mod kml;
mod layers;
mod manifest;
mod pair;
mod print;
mod raster;
mod readme;
mod records;
mod report;
mod sealing;
mod submission;
mod tables;
mod terms;
mod workbook;
mod writing;

pub use handout::{BlankPage, Heading, MAP_MM, blank, parish_sheet};
pub use manifest::Made;
pub use manifest::read_agreement;
pub use sealing::{Seal, size_for};
pub use submission::submission;
pub use tables::{csv, html_page, markdown};
pub use workbook::workbook;
pub use writing::{Readers, make_folder, write_file, write_new_file, write_pieces};

/// The files written for one audience: path inside the pack (with `/`) to bytes.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Pack {
    files: BTreeMap<String, Vec<u8>>,
    /// Not for publication: the files are written for their owner's eyes alone.
    restricted: bool,
}

/// Everything a pack is made from: all of it published.
#[derive(Clone, Copy)]
pub struct Contents<'a> {
    /// The public study.
    pub study: &'a PublicStudy,
    /// Public ground.
    pub ground: &'a Ground,
    /// The partition of the ground.
    pub partition: &'a Partition<'a>,
    /// Published finds.
    pub published: &'a Published,
    /// The density surface, where it could be made.
    pub surface: Option<&'a Surface>,
    /// Concentrations.
    pub concentrations: &'a [Concentration],
    /// The finds against an even scatter, where that bounds the concentrations.
    pub even: Option<EvenTest>,
    /// The shore, where the study has one.
    pub shore: Option<&'a ShoreProfile>,
    /// Tables in the order of the report.
    pub tables: &'a [Table],
    /// Sheets in the order of the report.
    pub sheets: &'a [Sheet],
    /// The same sheets drawn for the report's pages; a sheet without one is set as it is, made smaller.
    pub plates: &'a [Plate],
    /// The same in the other languages of the pack.
    pub others: &'a [Contents<'a>],
}

/// A sheet as the report shows it.
#[derive(Debug, Clone, PartialEq)]
pub struct Plate {
    /// Drawn for a column of the page.
    pub page: Sheet,
    /// Drawn for the screen of a phone, where so small a sheet can be drawn.
    pub phone: Option<Sheet>,
}

/// The sizes that plates are drawn in, the first that has room: the text of a page is so wide (in two languages,
/// half a turned page), and leaves this much height beside a heading and the caption; or else all of the page's.
/// Words keep their printed size. Millimetres.
pub fn plate_sizes(languages: usize) -> &'static [(f64, f64)] {
    if languages > 1 {
        &[(125.0, 120.0), (125.0, 134.0), (125.0, 146.0)]
    } else {
        &[(162.0, 198.0), (162.0, 218.0)]
    }
}

/// The sizes for a phone: at 360 pixels wide their words are as large as printed. The tallest are for small maps, of
/// which a phone holds two side by side.
pub const PHONE_SIZES: &[(f64, f64)] =
    &[(88.0, 150.0), (88.0, 180.0), (88.0, 220.0), (88.0, 290.0), (88.0, 380.0), (88.0, 500.0)];

impl<'a> Contents<'a> {
    /// These contents in each language of the pack.
    fn editions(&'a self) -> impl Iterator<Item = &'a Self> {
        std::iter::once(self).chain(self.others)
    }

    /// What the names of files in this language end in: nothing where it is the only one.
    fn ending(&self, alone: bool) -> String {
        if alone { String::new() } else { format!("-{}", self.study.language.code()) }
    }

    /// Whether the agreement gives files of this kind.
    fn gives(&self, giving: Giving) -> bool {
        self.study.agreement.give.contains(&giving)
    }

    /// The mark that every page and file carries when the pack may not be published.
    fn handling(&self) -> Option<String> {
        handling(self.study)
    }
}

/// "Not for publication", where it is not.
fn handling(study: &PublicStudy) -> Option<String> {
    let words = crate::words::Words::of(study.language);
    (!study.agreement.for_publication).then(|| words.say("pack-not-for-publication"))
}

impl Pack {
    /// The files, in order of path.
    pub fn files(&self) -> &BTreeMap<String, Vec<u8>> {
        &self.files
    }

    /// Adds a file.
    pub fn add(&mut self, path: impl Into<String>, bytes: impl Into<Vec<u8>>) {
        self.files.insert(path.into(), bytes.into());
    }
}

/// Composes the whole pack, giving what the agreement gives.
pub fn compose(contents: &Contents<'_>) -> Result<Pack> {
    let mut pack = Pack { restricted: !contents.study.agreement.for_publication, ..Pack::default() };
    for edition in contents.editions() {
        let ending = edition.ending(contents.others.is_empty());
        if contents.gives(Giving::Tables) {
            tables::add(&mut pack, edition, &ending)?;
        }
        if contents.gives(Giving::Maps) {
            add_sheets(&mut pack, edition, &ending)?;
        }
    }
    layers::add(&mut pack, contents)?;
    fields::add(&mut pack, contents, "layers/", contents.gives(Giving::Finds));
    if contents.gives(Giving::Finds) {
        finds::add(&mut pack, contents, "finds/")?;
    }
    if contents.gives(Giving::Report) {
        let documents: Vec<_> =
            contents.editions().map(|edition| report::report(edition, pack.files.keys())).collect();
        set(&mut pack, "report", &documents)?;
    }
    readme::add(&mut pack, contents, readme::Kind::Pack);
    manifest::add(&mut pack, contents, manifest::Kind::Pack)?;
    Ok(pack)
}

/// Sets the versions of a document for the screen and for paper, at the same time.
fn set(pack: &mut Pack, name: &str, documents: &[document::Document]) -> Result<()> {
    let (screen, paper) = rayon::join(|| html::page(documents), || print::pdf(documents));
    pack.add(format!("{name}.html"), screen?);
    pack.add(format!("{name}.pdf"), paper?);
    Ok(())
}

/// Dots an inch of a sheet for a journal's printer: what journals ask of line art.
const LINE_ART: u32 = 600;

/// Each sheet in the forms that the study asks for, drawn side by side and added in order. Text in the SVG is
/// outlined: not every machine has its font.
fn add_sheets(pack: &mut Pack, contents: &Contents<'_>, name_ending: &str) -> Result<()> {
    use rayon::prelude::*;
    let settings = &contents.study.sheets;
    let drawn: Vec<(String, Vec<u8>)> = contents
        .sheets
        .par_iter()
        .flat_map_iter(|sheet| settings.forms.iter().map(move |form| (sheet, *form)))
        .map(|(sheet, form)| {
            let bytes = match form {
                SheetForm::Svg => crate::sheet::outlined(sheet)?.into_bytes(),
                SheetForm::Png => crate::sheet::png(sheet, settings.dpi)?,
                SheetForm::Pdf => crate::sheet::pdf(sheet, contents.study)?,
                SheetForm::Tif => crate::sheet::tiff(sheet, settings.dpi.max(LINE_ART))?,
            };
            Ok((format!("maps/{}{name_ending}.{}", sheet.name, form.name()), bytes))
        })
        .collect::<Result<_>>()?;
    for (path, bytes) in drawn {
        pack.add(path, bytes);
    }
    Ok(())
}
