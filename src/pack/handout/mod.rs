//! Hand-outs: single pages to fill in by hand or to pin up, in one language or in two at once. Said here, set
//! by typst as tagged PDF.
//!
//! ```text
//! tongues     a saying in each of the page's languages
//! recording   the finder's blank recording sheet
//! parish      one parish's page for a notice board
//! slip        the reply slip for people who show stones
//! typeset     from a template and its data to PDF
//! *.typ       looks alone
//! ```

mod parish;
mod recording;
mod slip;
mod tongues;
mod typeset;

use crate::coordinates::System;
use crate::fault::Result;
use crate::study::vocabulary::Country;
use crate::words::Language;

use tongues::Tongues;

pub use parish::{MAP_MM, parish_sheet};

/// A page to fill in by hand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BlankPage {
    /// One sheet for one piece, or for like pieces from one spot.
    RecordingSheet,
    /// Slips for people who show stones, several to the page.
    ReplySlip,
}

impl BlankPage {
    /// The name of its file without ending, the same in every language.
    pub fn file_name(self) -> &'static str {
        match self {
            Self::RecordingSheet => "recording-sheet",
            Self::ReplySlip => "reply-slip",
        }
    }
}

/// What a study prints at the head of a blank page. All of it may be left out.
#[derive(Debug, Clone, Default)]
pub struct Heading {
    /// The study's title.
    pub study: Option<String>,
    /// Who hands the page out.
    pub from: Option<String>,
    /// The record office.
    pub office: Option<String>,
    /// The study's grid.
    pub grid: Option<System>,
    /// Whose law the cautions speak of; of no country's when absent.
    pub country: Option<Country>,
}

/// A page to fill in, as PDF: one sheet of A4, the same bytes for the same heading. Speaks each of the
/// languages once, in order; no language is English.
pub fn blank(page: BlankPage, languages: &[Language], heading: &Heading) -> Result<Vec<u8>> {
    let tongues = Tongues::of(languages);
    match page {
        BlankPage::RecordingSheet => recording::sheet(&tongues, heading),
        BlankPage::ReplySlip => slip::slips(&tongues, heading),
    }
}
