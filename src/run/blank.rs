//! `strew blank`: a page to fill in by hand. Works without a study; with one, prints its name, its grid and
//! the record office's. No register is opened.

use std::path::Path;

use crate::fault::Result;
use crate::pack::{self, BlankPage, Heading};
use crate::study::Study;
use crate::study::vocabulary::Country;
use crate::words::Language;

/// A page made, and the language to say so in.
pub struct Blank {
    /// The page, as PDF.
    pub pdf: Vec<u8>,
    /// The first of its languages.
    pub language: Language,
}

/// Makes a blank page in the languages asked for: those of the study, or else English. `office` is the audience
/// whose recipient is the record office.
pub fn blank(
    page: BlankPage,
    languages: &[Language],
    country: Option<Country>,
    study: Option<&Path>,
    office: &str,
) -> Result<Blank> {
    let mut heading = Heading { country, ..Heading::default() };
    let mut languages = languages.to_vec();
    if let Some(path) = study {
        let study = Study::load(path)?;
        // A study need not have an office's agreement; its title and country are every audience's.
        let named = study.audiences().find(|name| *name == office).or_else(|| study.audiences().next());
        if let Some(name) = named {
            let public = study.audience(name)?;
            heading.study = Some(public.title.clone());
            heading.from.clone_from(&public.compiler);
            heading.grid = Some(public.grid.clone());
            heading.country = country.or(Some(public.country));
            if name == office {
                heading.office.clone_from(&public.agreement.recipient);
            }
        }
        if languages.is_empty() {
            languages.push(study.language());
        }
    }
    let language = languages.first().copied().unwrap_or_default();
    Ok(Blank { pdf: pack::blank(page, &languages, &heading)?, language })
}
