//! From a template and its data to a tagged PDF (PDF/UA-1), with the report's fonts.

use serde::Serialize;
use typst::foundations::{Dict, Smart};
use typst_as_lib::TypstEngine;
use typst_layout::PagedDocument;
use typst_pdf::{PdfOptions, PdfStandard, PdfStandards};

use crate::fault::{Fault, Result};
use crate::pack::print::FONTS;

/// What templates share.
const SHARED: [(&str, &str); 2] =
    [("/form.typ", include_str!("form.typ")), ("/drawings.typ", include_str!("drawings.typ"))];

/// A page as PDF. `name` is what the file's identifier is made from; pictures are SVG by their path.
pub(super) fn pdf(
    name: &str,
    template: &'static str,
    data: &impl Serialize,
    pictures: &[(String, &str)],
) -> Result<Vec<u8>> {
    let failed = |why: String| Fault::new("pack-layer").with("name", "PDF").with("why", why);
    let data = serde_json::to_vec(data).map_err(|why| failed(why.to_string()))?;
    let pictures = pictures.iter().map(|(path, svg)| (path.as_str(), svg.as_bytes()));
    let engine = TypstEngine::builder()
        .main_file(template)
        .fonts(FONTS.iter().cloned())
        .with_static_source_file_resolver(SHARED)
        .with_static_file_resolver(std::iter::once(("/document.json", data.as_slice())).chain(pictures))
        .build();
    let paged: PagedDocument =
        engine.compile_with_input(Dict::new()).output.map_err(|why| failed(why.to_string()))?;
    let options = PdfOptions {
        ident: Smart::Custom(format!("strew {name}")),
        creator: Smart::Custom(Some(format!("strew {}", env!("CARGO_PKG_VERSION")))),
        standards: PdfStandards::new(&[PdfStandard::Ua_1])
            .map_err(|why| failed(why.message().to_string()))?,
        ..PdfOptions::default()
    };
    typst_pdf::pdf(&paged, &options).map_err(|faults| {
        failed(faults.iter().map(|fault| fault.message.to_string()).collect::<Vec<_>>().join("; "))
    })
}
