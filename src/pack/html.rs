//! Sets a document for the screen: one HTML page that needs nothing but itself.

use std::collections::BTreeMap;

use minijinja::{Environment, UndefinedBehavior, context};
use serde::Serialize;

use super::document::Document;
use super::pair;
use crate::fault::{Fault, Result};

/// A picture as the page shows it.
#[derive(Serialize)]
struct Picture {
    address: String,
    /// The same drawn for a phone, where there is one.
    phone: Option<Drawn>,
}

/// A picture with its size in the pixels of a page (96 to the inch).
#[derive(Serialize)]
struct Drawn {
    address: String,
    width: u32,
    height: u32,
}

/// The versions of a document as one page. Pictures are carried inside it.
pub(super) fn page(documents: &[Document]) -> Result<Vec<u8>> {
    let failed =
        |why: minijinja::Error| Fault::new("pack-layer").with("name", "report.html").with("why", why);
    let mut environment = Environment::new();
    environment.set_undefined_behavior(UndefinedBehavior::SemiStrict);
    environment.set_trim_blocks(true);
    environment.set_lstrip_blocks(true);
    environment.add_template("page.html", include_str!("report/page.html")).map_err(failed)?;
    let mut pictures = BTreeMap::new();
    for document in documents {
        for plate in &document.pictures {
            let pixels = |mm: f64| (mm * 96.0 / 25.4).round() as u32;
            let phone = match &plate.phone {
                Some(sheet) => Some(Drawn {
                    address: data_uri(&crate::sheet::outlined(sheet)?),
                    width: pixels(sheet.width_mm),
                    height: pixels(sheet.height_mm),
                }),
                None => None,
            };
            let address = data_uri(&crate::sheet::outlined(&plate.page)?);
            pictures.insert(pair::picture(document.language, &plate.page.name), Picture { address, phone });
        }
    }
    let style = include_str!("report/page.css");
    let template = environment.get_template("page.html").map_err(failed)?;
    let document = pair::data(documents);
    let html = template.render(context! { document, pictures, style }).map_err(failed)?;
    Ok(html.trim_start().as_bytes().to_vec())
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
            '\\' | '^' | '`' | '{' | '|' | '}' | '[' | ']' => out.push_str(&format!("%{:02X}", u32::from(c))),
            // RFC 3986 has no spaces in an address, and a list of pictures would end at one.
            ' ' | '\n' | '\r' | '\t' => out.push_str("%20"),
            c => out.push(c),
        }
    }
    out
}
