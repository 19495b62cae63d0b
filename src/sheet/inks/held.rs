//! Holds every style to what its inks must do: be told apart by everyone, and be read.
//!
//! Contrast: WCAG 2.2. Differences and kinds of sight: `sight`.

use super::super::colour::Colour;
use super::super::style::{Dye, Filling, Periods, STYLES, Style};
use super::sight::{GREY_NEED, SIGHTS, ciede2000, grey, seen};

fn told_apart(what: &str, inks: &[Colour]) {
    for (name, sight, need) in &SIGHTS {
        for (i, a) in inks.iter().enumerate() {
            for b in &inks[i + 1..] {
                let far = ciede2000(seen(*a, sight), seen(*b, sight));
                assert!(far >= *need, "{what}: {a} and {b} are {far:.1} apart in {name} sight");
            }
        }
    }
}

fn styles() -> Vec<(&'static str, Style)> {
    STYLES.iter().map(|(name, _)| (*name, Style::named(name).expect("a style reads"))).collect()
}

/// The inks of periods, in the order of the style's keys.
pub(super) fn dyes(p: &Periods) -> [Dye; 8] {
    [
        p.palaeolithic,
        p.mesolithic,
        p.mesolithic_early_neolithic,
        p.early_neolithic,
        p.neolithic,
        p.late_neolithic_early_bronze_age,
        p.bronze_age,
        p.undated,
    ]
}

/// What is shaded, with the bare ground that it must be told from.
fn ramps(style: &Style) -> [(&'static str, &[Colour], Colour); 3] {
    [
        ("bands", &style.cells.bands, style.land.fill),
        ("counts", &style.counts.fills, style.counts.none),
        ("density", &style.density.fills, style.land.fill),
    ]
}

/// Paper and five greys need more room than there is between white and black (five steps of 14.7 at most): in
/// ink the lowest of five shades is bounded by a line too.
fn bounded_by_a_line(name: &str, what: &str) -> bool {
    name == "ink" && what != "bands"
}

#[test]
fn shades_are_told_apart_and_from_bare_ground() {
    for (name, style) in styles() {
        for (what, fills, ground) in ramps(&style) {
            let mut inks = fills.to_vec();
            if bounded_by_a_line(name, what) {
                assert!(ciede2000(grey(ground), grey(fills[0])) >= 14.0, "{name} {what}");
                let line = if what == "counts" { style.parishes.ink } else { style.density.contour.ink };
                assert!(line.contrast(ground) >= 3.0 && line.contrast(fills[0]) >= 3.0, "{name} {what}");
            } else {
                inks.push(ground);
            }
            told_apart(&format!("{name} {what}"), &inks);
        }
        told_apart(&format!("{name} square with finds"), &[style.concentrations.cells, style.land.fill]);
        told_apart(&format!("{name} not walked"), &[style.unwalked.line.ink, style.land.fill]);
        for line in [&style.cells.hatch, &style.cells.hatch_outline, &style.concentrations.line] {
            told_apart(&format!("{name} lines"), &[line.ink, style.land.fill]);
        }
    }
}

#[test]
fn periods_are_told_apart() {
    for (name, style) in styles() {
        let dyes = dyes(&style.periods);
        // Periods of one filling are told apart by ink; others by their filling.
        for filling in
            [Filling::Solid, Filling::Open, Filling::Left, Filling::Lower, Filling::Dot, Filling::Ruled]
        {
            let inks: Vec<Colour> = dyes.iter().filter(|d| d.filling == filling).map(|d| d.ink).collect();
            told_apart(&format!("{name} {filling:?}"), &inks);
            let need = if name == "ink" { 15.0 } else { GREY_NEED };
            for (i, a) in inks.iter().enumerate() {
                for b in &inks[i + 1..] {
                    let far = ciede2000(grey(*a), grey(*b));
                    assert!(far >= need, "{name}: {a} and {b} are {far:.1} apart in grey");
                }
            }
            assert!(name != "ink" || filling == Filling::Solid || inks.len() <= 1);
        }
    }
}

#[test]
fn shades_darken_in_grey_too() {
    for (name, style) in styles() {
        for (what, fills, ground) in ramps(&style) {
            let mut inks = fills.to_vec();
            if !bounded_by_a_line(name, what) {
                inks.insert(0, ground);
            }
            for pair in inks.windows(2) {
                let far = ciede2000(grey(pair[0]), grey(pair[1]));
                let need = if name == "ink" { 15.0 } else { 8.0 };
                assert!(far >= need, "{name} {what}: {} and {} are {far:.1} apart in grey", pair[0], pair[1]);
                assert!(pair[0].luminance() > pair[1].luminance());
            }
        }
    }
}

/// What lies behind the finds stands back: all of it is nearer to the ground than the second shade is.
#[test]
fn the_base_is_quiet() {
    for (name, style) in styles() {
        let land = style.land.fill;
        let deepest = land.mixed(style.relief.ink, style.relief.strongest);
        for (what, ink) in [
            ("sea", style.sea.fill),
            ("beach", style.beach.fill),
            ("relief", deepest),
            ("roads", style.roads.ink),
            ("streams", style.streams.ink),
            ("water", style.water.fill),
            ("not walked", style.unwalked.line.ink),
            ("grid", style.grid.ink),
        ] {
            let (base, finds) = (ink.contrast(land), style.cells.bands[1].contrast(land));
            assert!(base < finds, "{name}: {what} has {base:.2}, the second band {finds:.2}");
        }
    }
}

#[test]
fn words_can_be_read() {
    for (name, style) in styles() {
        for (what, ink, ground) in [
            ("ink", style.page.ink, style.page.paper),
            ("quiet", style.page.quiet, style.page.paper),
            ("warning", style.page.paper, style.page.warning),
            ("places", style.names.places, style.names.halo),
            ("parishes", style.names.parishes, style.names.halo),
            ("letters", style.concentrations.letter, style.names.halo),
        ] {
            let contrast = ink.contrast(ground);
            assert!(contrast >= 4.5, "{name} {what}: {contrast:.2}");
        }
        for fill in style.counts.fills.iter().chain([&style.counts.none]) {
            let best = fill.contrast(style.page.ink).max(fill.contrast(style.page.paper));
            assert!(best >= 4.5, "{name}: a number on {fill} has {best:.2}");
        }
        let t = &style.text;
        for size in [t.title_pt, t.subtitle_pt, t.heading_pt, t.key_pt, t.note_pt, t.label_pt, t.letter_pt] {
            assert!(size >= 6.5, "{name}: text of {size} pt");
        }
    }
}

#[test]
fn no_line_is_thinner_than_print_keeps() {
    for (name, text) in STYLES {
        for (row, line) in text.lines().enumerate() {
            if let Some((_, after)) = line.split_once("width_pt = ") {
                let number: String = after.chars().take_while(|c| c.is_ascii_digit() || *c == '.').collect();
                let width: f64 = number.parse().expect("a width");
                assert!(width >= 0.25, "{name}, line {}: {width} pt", row + 1);
            }
        }
    }
}

#[test]
fn small_paper_keeps_text_legible() {
    for (_, style) in styles() {
        let small = style.for_paper(80.0);
        assert!(small.text.note_pt >= 6.5 && small.text.label_pt >= 6.5);
    }
}
