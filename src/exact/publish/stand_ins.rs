//! Numbers that stand in for the true ones where an audience is told bands: worked out from the bands of places and
//! from the figures told exactly, and from nothing else.

use rayon::prelude::*;

use super::flow::Flow;
use super::place::{Name, Place, Range};
use super::totals::{Kind, Set, Totals};

/// A number for each group of each place. Line by line (all pieces, then each class, then each period), each
/// place takes the middle of what its bands and the lines before leave, and where the figure of the whole study
/// is told, the places together are brought to it as far as their bands allow.
pub(super) fn stand_ins(places: &[Place], kinds: &[Kind], totals: &Totals) -> Vec<Vec<u64>> {
    let mut flows: Vec<Flow> = places.iter().map(|place| place.flow.clone()).collect();
    let mut names: Vec<Name> =
        places.iter().flat_map(|place| place.lines.iter().map(|line| line.name)).collect();
    names.sort_unstable();
    names.dedup();
    for name in names {
        // Squares and parishes apart where that is told; together otherwise.
        let of = |by_parish: Option<bool>| -> Set {
            let apart = |kind: &Kind| by_parish.is_none_or(|wanted| kind.by_parish == wanted);
            kinds.iter().map(|kind| apart(kind) && counted(name, kind)).collect()
        };
        let within = |part: Option<bool>| totals.within(&of(part), |_| (0, None));
        let exact = |(least, most): Range| most == Some(least);
        let (whole, parts) = (within(None), [Some(false), Some(true)].map(|part| (part, within(part))));
        let parts = match exact(whole) && !parts.iter().all(|(_, told)| exact(*told)) {
            true => vec![(None, whole)],
            false => parts.to_vec(),
        };
        for (part, told) in parts {
            let mut lines: Vec<(&mut Flow, usize, Range)> = places
                .par_iter()
                .zip(&mut flows)
                .filter(|(place, _)| part.is_none_or(|part| part == place.by_parish))
                .filter_map(|(place, flow)| {
                    let line = place.lines.iter().position(|line| line.name == name)?;
                    let range = flow.line(line);
                    Some((flow, line, range))
                })
                .collect();
            let ranges: Vec<Range> = lines.iter().map(|(_, _, range)| *range).collect();
            let shared = shared(&ranges, told);
            lines.par_iter_mut().zip(shared).for_each(|((flow, line, _), pieces)| flow.hold(*line, pieces));
        }
    }
    flows.par_iter().map(Flow::filled).collect()
}

fn counted(name: Name, kind: &Kind) -> bool {
    match name {
        Name::All => true,
        Name::Class(class) => kind.class == Some(class),
        Name::Period(period) => kind.period == Some(period),
    }
}

/// The middle of each range, their sum brought to where it is told to lie: what is over goes to ranges without an end, or
/// else to all by the room that they have.
fn shared(ranges: &[Range], told: Range) -> Vec<u64> {
    let middle = |(least, most): &Range| match most {
        Some(most) => ((*least as f64 * *most as f64).sqrt().round() as u64).clamp(*least, *most),
        None => least + least / 2,
    };
    let mut shared: Vec<u64> = ranges.iter().map(middle).collect();
    let sum: u64 = shared.iter().sum();
    let told = sum.max(told.0).min(told.1.unwrap_or(u64::MAX));
    let (up, need) = (told > sum, told.abs_diff(sum));
    let open = ranges.iter().any(|(_, most)| most.is_none());
    let room: Vec<u64> = ranges
        .iter()
        .zip(&shared)
        .map(|((least, most), now)| match (up, most) {
            (false, _) => now - least,
            (true, Some(most)) if !open => most - now,
            (true, Some(_)) => 0,
            // Each of those without an end has as much room as is asked for.
            (true, None) => need,
        })
        .collect();
    let whole: u64 = room.iter().sum();
    let need = need.min(whole);
    let mut left = need;
    for (now, room) in shared.iter_mut().zip(&room) {
        let part = u128::from(need) * u128::from(*room) / u128::from(whole.max(1));
        let part = part as u64;
        *now = if up { *now + part } else { *now - part };
        left -= part;
    }
    for (now, (least, most)) in shared.iter_mut().zip(ranges) {
        let free =
            if up { most.is_none_or(|most| *now < most) && (!open || most.is_none()) } else { *now > *least };
        if left > 0 && free {
            *now = if up { *now + 1 } else { *now - 1 };
            left -= 1;
        }
    }
    shared
}

#[cfg(test)]
mod tests {
    use super::shared;

    #[test]
    fn middles_are_brought_to_the_sum() {
        let ranges = [(1, Some(2)), (3, Some(9)), (10, Some(49))];
        assert_eq!(shared(&ranges, (0, None)), [1, 5, 22]);
        assert_eq!(shared(&ranges, (20, Some(99))), [1, 5, 22], "within what is told");
        for told in 14..=60 {
            let shared = shared(&ranges, (told, Some(told)));
            assert_eq!(shared.iter().sum::<u64>(), told, "{shared:?}");
            assert!(shared.iter().zip(ranges).all(|(n, (least, most))| *n >= least && Some(*n) <= most));
        }
        assert_eq!(shared(&ranges, (500, Some(500))), [2, 9, 49], "as far as the bands allow");
        assert_eq!(shared(&[(1, Some(2)), (50, None), (50, None)], (302, Some(302))), [1, 151, 150]);
    }
}
