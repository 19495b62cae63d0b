//! The study file: the settings as a society would write them, then every walk, blank fields included.

use std::fmt::Write;

use crate::island::Island;

const SETTINGS: &str = include_str!("study-head.toml");

pub fn text(island: &Island) -> Result<String, std::fmt::Error> {
    let mut text = SETTINGS.to_owned();
    let mut grounds: Vec<_> = island.walked.iter().collect();
    grounds.sort_by(|a, b| (a.parish, &a.name).cmp(&(b.parish, &b.name)));
    for ground in grounds {
        let walk = &ground.walk;
        let dates: Vec<String> = match (walk.days.first(), walk.days.last()) {
            (Some(first), Some(last)) if first != last => vec![day(*first), day(*last)],
            (Some(only), _) => vec![day(*only)],
            _ => Vec::new(),
        };
        writeln!(text, "\n[[fieldwork]]")?;
        writeln!(text, "ground = \"{}\"", ground.name)?;
        writeln!(text, "by = \"{}\"", walk.by)?;
        writeln!(text, "dates = [{}]", dates.join(", "))?;
        writeln!(text, "visits = {}", walk.visits)?;
        writeln!(text, "people-hours = {:.1}", walk.people_hours)?;
        writeln!(text, "line-spacing = \"{} m\"", walk.spacing_m)?;
        writeln!(text, "cover = {}", walk.share)?;
        writeln!(text, "visibility = \"{}\"", walk.visibility)?;
        writeln!(text, "kept = \"{}\"", walk.kept)?;
        writeln!(text, "hectares = {:.1}", ground.hectares)?;
    }
    Ok(text)
}

fn day(day: crate::walks::Day) -> String {
    format!("{:04}-{:02}-{:02}", day.year, day.month, day.day)
}
