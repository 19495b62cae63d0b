//! The notices of everything that is inside the binary and asks for one: data, fonts, libraries, packages.
//!
//! `docs/licences/gather.py` makes the lists from the sources, and says how they are written.

use std::io::Read;

use crate::coordinates::{NTF_LICENCE, OSTN15_LICENCE};
use crate::fault::{Fault, Result};

/// Parts of one kind, with the texts that they share.
#[derive(Debug, Clone)]
pub struct Group {
    /// Its heading, as a message of `words/run.ftl`.
    pub heading: &'static str,
    /// Its parts, in alphabetical order or that of weight.
    pub parts: Vec<Part>,
    /// Texts, which parts name by their number from 1.
    pub texts: Vec<String>,
}

/// Something inside the binary.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Part {
    /// Its name, with its version where it has one.
    pub name: String,
    /// Its licence, as an SPDX expression or in words.
    pub licence: String,
    /// The texts that hold for it, by number.
    pub texts: Vec<usize>,
    /// Who holds the rights, line by line, where the texts do not say.
    pub holders: Vec<String>,
}

/// Every notice, by kind.
pub fn licences() -> Result<Vec<Group>> {
    let data = |name: &str, licence: &str, text| Part {
        name: name.to_owned(),
        licence: licence.to_owned(),
        texts: vec![text],
        holders: Vec::new(),
    };
    let data = Group {
        heading: "licences-data",
        parts: vec![data("OSTN15", "BSD-2-Clause", 1), data("ntf_r93.gsb", "Licence Ouverte 2.0", 2)],
        texts: vec![OSTN15_LICENCE.trim_end().to_owned(), NTF_LICENCE.trim_end().to_owned()],
    };
    Ok(vec![
        data,
        packed("licences-fonts", include_bytes!(concat!(env!("OUT_DIR"), "/fonts.bin")))?,
        packed("licences-libraries", include_bytes!(concat!(env!("OUT_DIR"), "/libraries.bin")))?,
        packed("licences-crates", include_bytes!(concat!(env!("OUT_DIR"), "/crates.bin")))?,
    ])
}

fn packed(heading: &'static str, packed: &[u8]) -> Result<Group> {
    let damaged = || Fault::new("licences-damaged");
    let mut text = String::new();
    flate2::read::ZlibDecoder::new(packed).read_to_string(&mut text).map_err(|_| damaged())?;
    let (parts, texts) = read(&text).ok_or_else(damaged)?;
    Ok(Group { heading, parts, texts })
}

/// Reads a list: lines of parts, then texts, each under its number.
fn read(list: &str) -> Option<(Vec<Part>, Vec<String>)> {
    let mut sections = list.split("\n[text ");
    let parts = sections.next()?.lines().filter(|line| !line.is_empty() && !line.starts_with('#'));
    let parts: Vec<Part> = parts.map(part).collect::<Option<_>>()?;
    let mut texts = Vec::new();
    for section in sections {
        let (number, text) = section.split_once("]\n")?;
        if number.parse() != Ok(texts.len() + 1) {
            return None;
        }
        texts.push(text.trim_end().to_owned());
    }
    let known = |part: &Part| part.texts.iter().all(|number| (1..=texts.len()).contains(number));
    parts.iter().all(known).then_some((parts, texts))
}

fn part(line: &str) -> Option<Part> {
    let mut fields = line.splitn(4, " | ");
    let (name, licence) = (fields.next()?.to_owned(), fields.next()?.to_owned());
    let numbers = fields.next()?.split_whitespace().map(|number| number.parse().ok());
    let texts = numbers.collect::<Option<_>>()?;
    let holders = fields.next().unwrap_or_default().split(" / ").map(|holder| holder.trim().to_owned());
    Some(Part { name, licence, texts, holders: holders.filter(|holder| !holder.is_empty()).collect() })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lists_are_read_whole() {
        let list = "# head\n\na 1 | MIT | 2 | Copyright A / Copyright B\nb | none |  | \n\n[text 1]\nx\n\n[text 2]\ny\nz\n";
        let (parts, texts) = read(list).unwrap();
        assert_eq!(texts, ["x", "y\nz"]);
        assert_eq!((parts[0].texts.as_slice(), parts[0].holders.len()), (&[2][..], 2));
        assert_eq!((parts[1].name.as_str(), parts[1].texts.len(), parts[1].holders.len()), ("b", 0, 0));
        assert!(read("a 1 | MIT | 3 | \n\n[text 1]\nx\n").is_none());
    }

    #[test]
    fn every_list_inside_is_sound() {
        let groups = licences().unwrap();
        assert_eq!(groups.len(), 4);
        assert!(groups.iter().all(|group| !group.parts.is_empty() && !group.texts.is_empty()));
    }
}
