//! Sets a document for the screen: one HTML page that needs nothing but itself.

use minijinja::{Environment, UndefinedBehavior, context};

use super::document::Document;
use crate::fault::{Fault, Result};

/// The document as a page. Pictures are carried inside it.
pub(super) fn page(document: &Document) -> Result<Vec<u8>> {
    let failed =
        |why: minijinja::Error| Fault::new("pack-layer").with("name", "report.html").with("why", why);
    let mut environment = Environment::new();
    environment.set_undefined_behavior(UndefinedBehavior::Strict);
    environment.set_trim_blocks(true);
    environment.set_lstrip_blocks(true);
    environment.add_template("page.html", include_str!("report/page.html")).map_err(failed)?;
    let mut pictures = std::collections::BTreeMap::new();
    for sheet in &document.pictures {
        pictures.insert(sheet.name.as_str(), data_uri(&crate::sheet::outlined(sheet)?));
    }
    let style = include_str!("report/page.css");
    let template = environment.get_template("page.html").map_err(failed)?;
    let html = template.render(context! { document => document.data(), pictures, style }).map_err(failed)?;
    Ok(html.into_bytes())
}

/// A picture as an address that holds it. Not set into the page itself: the identifiers of several
/// pictures would meet there. Not base64: what is written in the picture stays open to a search.
fn data_uri(svg: &str) -> String {
    let mut out = String::with_capacity(svg.len() + svg.len() / 4);
    out.push_str("data:image/svg+xml;charset=utf-8,");
    for c in svg.chars() {
        match c {
            '%' => out.push_str("%25"),
            '#' => out.push_str("%23"),
            '<' => out.push_str("%3C"),
            '>' => out.push_str("%3E"),
            '&' => out.push_str("%26"),
            // The picture's own quotes may be of either kind inside the attribute's.
            '"' => out.push_str("%22"),
            '\'' => out.push_str("%27"),
            '\n' | '\r' | '\t' => out.push(' '),
            c => out.push(c),
        }
    }
    out
}
