//! Sets a document for paper: a tagged PDF (PDF/UA-1) by typst, with fonts carried in the program.

use std::sync::LazyLock;

use dejavu::sans_condensed as condensed;

use typst::foundations::{Bytes, Dict, Smart};
use typst::text::Font;
use typst_as_lib::TypstEngine;
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
    let failed = |why: String| Fault::new("pack-layer").with("name", "PDF").with("why", why);
    let data = serde_json::to_vec(&pair::data(documents)).map_err(|why| failed(why.to_string()))?;
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
    let paged: PagedDocument =
        engine.compile_with_input(Dict::new()).output.map_err(|why| failed(why.to_string()))?;
    let options = PdfOptions {
        // What the identifier is made from: nothing but what stands in the document.
        ident: Smart::Custom(format!("strew {}", named.join(" "))),
        creator: Smart::Custom(Some(format!("strew {}", env!("CARGO_PKG_VERSION")))),
        standards: PdfStandards::new(&[PdfStandard::Ua_1])
            .map_err(|why| failed(why.message().to_string()))?,
        ..PdfOptions::default()
    };
    typst_pdf::pdf(&paged, &options).map_err(|faults| {
        failed(faults.iter().map(|fault| fault.message.to_string()).collect::<Vec<_>>().join("; "))
    })
}
