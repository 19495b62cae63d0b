//! Fieldwork as records: who walked what ground, when and how, and what came of it.

use super::Contents;
use super::records::{Column, Datum, Kind, Record, Records};
use crate::coordinates::notation::cut_places;
use crate::study::{Attribute, Cover, Kept};
use crate::words::Words;

/// Fieldwork, where the agreement shows it and there is any. Places in its notes are cut out.
pub(super) fn fieldwork(contents: &Contents<'_>) -> Option<Records> {
    let words = Words::of(contents.study.language);
    let all = &contents.study.fieldwork;
    if all.is_empty() || !contents.study.agreement.show.contains(&Attribute::Fieldwork) {
        return None;
    }
    let columns = vec![
        Column::new("ground", Kind::Text),
        Column::new("walked_by", Kind::Text),
        Column::new("from", Kind::Text),
        Column::new("to", Kind::Text),
        Column::new("visits", Kind::Whole),
        Column::new("people_hours", Kind::Real),
        Column::new("method", Kind::Text),
        Column::new("line_spacing_m", Kind::Real),
        Column::new("cover", Kind::Text),
        Column::new("visibility", Kind::Text),
        Column::new("light", Kind::Text),
        Column::new("crop", Kind::Text),
        Column::new("hectares", Kind::Real),
        Column::new("picked_up", Kind::Text),
        Column::new("kept", Kind::Text),
        Column::new("left", Kind::Text),
        Column::new("note", Kind::Text),
    ];
    let free = |text: &Option<String>| Datum::text(text.as_deref().map(cut_places));
    let rows = all.iter().map(|work| {
        let kept = match work.kept {
            Some(Kept::All) => "pack-kept-all",
            Some(Kept::Tools) => "pack-kept-tools",
            Some(Kept::Selected) => "pack-kept-selected",
            Some(Kept::Unknown) | None => "pack-kept-unknown",
        };
        let cover = match &work.cover {
            Some(Cover::Share(share)) => Some(percent(words, *share)),
            Some(Cover::Words(text)) => Some(text.clone()),
            None => None,
        };
        let values = vec![
            Datum::Text(work.ground.clone()),
            Datum::text(work.by.as_deref()),
            Datum::text(work.dates.first().map(ToString::to_string)),
            Datum::text(work.dates.last().map(ToString::to_string)),
            work.visits.map_or(Datum::Nothing, |visits| Datum::Whole(i64::from(visits))),
            Datum::real(work.people_hours, 1),
            free(&work.method),
            Datum::real(work.line_spacing.map(|spacing| spacing.metres), 0),
            Datum::text(cover),
            free(&work.visibility),
            free(&work.light),
            free(&work.crop),
            Datum::real(work.hectares, 1),
            match work.pieces {
                Some(0) => Datum::Text(words.say("pack-walk-nothing")),
                Some(pieces) => Datum::Text(words.number(f64::from(pieces), 0)),
                None => Datum::Nothing,
            },
            Datum::Text(words.say(kept)),
            free(&work.left),
            Datum::text(work.note.as_deref().map(cut_places)),
        ];
        Record { shape: None, values }
    });
    let records = Records {
        name: "fieldwork",
        title: words.say("pack-layer-fieldwork"),
        caution: words.say("pack-layer-fieldwork-caution"),
        rows: rows.collect(),
        columns,
    };
    Some(records.marked(contents))
}

/// A share as a whole percentage; what is not nothing is never written as 0%.
pub(super) fn percent(words: &Words, share: f64) -> String {
    let text = match share * 100.0 {
        p if p > 0.0 && p < 0.5 => format!("<{}", words.number(1.0, 0)),
        p => words.number(p, 0),
    };
    words.say_with("pack-percent", &[("n", text.into())])
}
