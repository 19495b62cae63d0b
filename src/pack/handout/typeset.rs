//! From a template and its data to a tagged PDF (PDF/UA-1), with the report's fonts.

use serde::Serialize;
use typst::foundations::Dict;
use typst_as_lib::TypstEngine;

use crate::fault::Result;
use crate::pack::print::{FONTS, failed, typeset};

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
    let data = serde_json::to_vec(data).map_err(|why| failed(&why))?;
    let pictures = pictures.iter().map(|(path, svg)| (path.as_str(), svg.as_bytes()));
    let engine = TypstEngine::builder()
        .main_file(template)
        .fonts(FONTS.iter().cloned())
        .with_static_source_file_resolver(SHARED)
        .with_static_file_resolver(std::iter::once(("/document.json", data.as_slice())).chain(pictures))
        .build();
    typeset(engine.compile_with_input(Dict::new()).output, name)
}
