//! Sets a document for paper: a tagged PDF (PDF/UA-1) by typst, with fonts carried in the program.

use std::sync::LazyLock;

use dejavu::sans_condensed as condensed;

use typst::diag::SourceDiagnostic;
use typst::foundations::{Bytes, Dict, Smart};
use typst::text::Font;
use typst_as_lib::{TypstAsLibError, TypstEngine};
use typst_layout::PagedDocument;
use typst_pdf::{PdfOptions, PdfStandard, PdfStandards};

use super::document::Document;
use super::pair;
use crate::fault::{Fault, Result};

/// The text face alone: the maths faces of the collection are not used here.
pub(super) static FONTS: LazyLock<Vec<Font>> = LazyLock::new(|| {
    typst_assets::fonts()
        .chain([condensed::regular(), condensed::bold(), condensed::oblique()])
        .flat_map(|bytes| Font::iter(Bytes::new(bytes)))
        .filter(|font| font.info().family.starts_with("Libertinus") || font.info().family == "DejaVu Sans")
        .collect()
});

/// The versions of a document as one PDF.
pub(super) fn pdf(documents: &[Document]) -> Result<Vec<u8>> {
    let data = serde_json::to_vec(&pair::data(documents)).map_err(|why| failed(&why))?;
    let pictures = documents.iter().flat_map(|document| {
        document.pictures.iter().map(|plate| {
            let name = pair::picture(document.language, &plate.page.name);
            (format!("/{name}.svg"), plate.page.svg.as_bytes().to_vec())
        })
    });
    let named: Vec<String> =
        documents.iter().map(|document| format!("{} {}", document.title, document.subtitle)).collect();
    let files: Vec<(String, Vec<u8>)> =
        std::iter::once(("/document.json".to_owned(), data)).chain(pictures).collect();
    let engine = TypstEngine::builder()
        .main_file(include_str!("report/page.typ"))
        .fonts(FONTS.iter().cloned())
        .with_static_file_resolver(files.iter().map(|(name, bytes)| (name.as_str(), bytes.as_slice())))
        .build();
    typeset(engine.compile_with_input(Dict::new()).output, &named.join(" "))
}

/// A document as typst set it, as a tagged PDF. `name` is what the file's identifier is made from: nothing but what
/// stands in the document.
pub(super) fn typeset(
    set: std::result::Result<PagedDocument, TypstAsLibError>,
    name: &str,
) -> Result<Vec<u8>> {
    let paged = set.map_err(|why| match &why {
        TypstAsLibError::TypstSource(faults) => failed(&said(faults)),
        TypstAsLibError::HintedString(fault) => failed(&fault.message()),
        other => failed(other),
    })?;
    let options = PdfOptions {
        ident: Smart::Custom(format!("strew {name}")),
        creator: Smart::Custom(Some(format!("strew {}", env!("CARGO_PKG_VERSION")))),
        standards: PdfStandards::new(&[PdfStandard::Ua_1]).map_err(|why| failed(&why.message()))?,
        ..PdfOptions::default()
    };
    typst_pdf::pdf(&paged, &options).map_err(|faults| failed(&said(&faults)))
}

/// The fault of a page that could not be set.
pub(super) fn failed(why: &dyn std::fmt::Display) -> Fault {
    Fault::new("pack-layer").with("name", "PDF").with("why", why)
}

/// What typst says is wrong, in its words alone.
fn said(faults: &[SourceDiagnostic]) -> String {
    faults.iter().map(|fault| fault.message.to_string()).collect::<Vec<_>>().join("; ")
}
