//! The directories of a TIFF, as far as places need them: where the picture lies on the ground.

/// A directory's entries by tag: numbers as doubles, text as bytes.
pub(super) struct Tags<'a> {
    bytes: &'a [u8],
    big_end: bool,
    entries: Vec<(u16, u16, usize, usize)>,
}

impl<'a> Tags<'a> {
    /// The first directory of a TIFF of the classic kind.
    pub fn read(bytes: &'a [u8]) -> Option<Self> {
        let big_end = match bytes.get(..4)? {
            b"II*\0" => false,
            b"MM\0*" => true,
            _ => return None,
        };
        let mut tags = Self { bytes, big_end, entries: Vec::new() };
        let start = tags.long(4)? as usize;
        for index in 0..usize::from(tags.short(start)?) {
            let at = start + 2 + index * 12;
            let (tag, kind, count) = (tags.short(at)?, tags.short(at + 2)?, tags.long(at + 4)? as usize);
            let size = count.checked_mul(match kind {
                3 => 2,
                4 | 9 | 11 => 4,
                5 | 10 | 12 => 8,
                _ => 1,
            })?;
            let from = if size <= 4 { at + 8 } else { tags.long(at + 8)? as usize };
            tags.entries.push((tag, kind, count, from));
        }
        Some(tags)
    }

    fn part<const N: usize>(&self, at: usize) -> Option<[u8; N]> {
        self.bytes.get(at..at.checked_add(N)?)?.try_into().ok()
    }
    fn short(&self, at: usize) -> Option<u16> {
        let part = self.part(at)?;
        Some(if self.big_end { u16::from_be_bytes(part) } else { u16::from_le_bytes(part) })
    }
    fn long(&self, at: usize) -> Option<u32> {
        let part = self.part(at)?;
        Some(if self.big_end { u32::from_be_bytes(part) } else { u32::from_le_bytes(part) })
    }
    fn double(&self, at: usize) -> Option<f64> {
        let part = self.part(at)?;
        Some(if self.big_end { f64::from_be_bytes(part) } else { f64::from_le_bytes(part) })
    }

    /// The numbers of a tag; none where it is not there.
    pub fn numbers(&self, tag: u16) -> Vec<f64> {
        let Some(&(_, kind, count, from)) = self.entries.iter().find(|entry| entry.0 == tag) else {
            return Vec::new();
        };
        (0..count.min(4096))
            .map_while(|index| match kind {
                3 => self.short(from + index * 2).map(f64::from),
                4 => self.long(from + index * 4).map(f64::from),
                12 => self.double(from + index * 8),
                _ => None,
            })
            .collect()
    }
}
