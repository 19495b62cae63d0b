//! How many rows were read, used and set aside, and why: part of every release, and so of what every
//! audience may be told.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use crate::study::vocabulary::Term;

/// Why a row could not be used. Its name is a message in `words/`, as `reason-NAME`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Reason {
    /// Neither a place nor a parish.
    NoPlace,
    /// The place could not be read.
    PlaceUnreadable,
    /// The place has two readings.
    PlaceAmbiguous,
    /// The place lies outside the system it is written in.
    PlaceOutside,
    /// The place lies far from the study's ground.
    FarAway,
    /// It lies on ground too small to be shown to this audience.
    GroundTooSmall,
    /// Told before in another way, so that telling it again would say more than was agreed.
    ToldBefore,
    /// Placed by its parish alone, and the parish is not in the layer.
    ParishUnknown,
    /// The count could not be read.
    CountUnreadable,
    /// The count is nothing or less.
    CountZero,
    /// Recorded as natural.
    Natural,
    /// A line of totals.
    TotalLine,
    /// A heading between rows (a year, a field's name).
    Heading,
    /// The row is damaged (too many cells, or an open quote).
    Damaged,
}

/// Rows read, used and set aside. `read = used + set aside`, always.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Tally {
    /// Rows read (blank lines are no rows).
    pub read: u64,
    /// Rows used.
    pub used: u64,
    /// Rows set aside, by reason.
    pub set_aside: BTreeMap<Reason, u64>,
}

impl Tally {
    /// Rows set aside, all reasons together.
    pub fn set_aside_total(&self) -> u64 {
        self.set_aside.values().sum()
    }
}

impl Reason {
    /// Its name, as in `reason-NAME`.
    pub fn name(self) -> &'static str {
        match self {
            Self::NoPlace => "no-place",
            Self::PlaceUnreadable => "place-unreadable",
            Self::PlaceAmbiguous => "place-ambiguous",
            Self::PlaceOutside => "place-outside",
            Self::FarAway => "far-away",
            Self::GroundTooSmall => "ground-too-small",
            Self::ToldBefore => "told-before",
            Self::ParishUnknown => "parish-unknown",
            Self::CountUnreadable => "count-unreadable",
            Self::CountZero => "count-zero",
            Self::Natural => "natural",
            Self::TotalLine => "total-line",
            Self::Heading => "heading",
            Self::Damaged => "damaged",
        }
    }
}

impl Term for Reason {
    fn message(&self) -> String {
        format!("reason-{}", self.name())
    }
}
