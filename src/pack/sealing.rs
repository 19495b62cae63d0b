//! Sealing: a whole pack as one file that its recipient alone can open. The open format age v1
//! (age-encryption.org/v1), round a ZIP that is made in memory: nothing of the pack meets the disk unsealed.
//!
//! A sealed file still tells its length, and that of a pack tells roughly how many finds there are. So the ZIP is
//! filled up to one of a few sizes before it is sealed: eight to a doubling, as the padding of Nikitin, Barman,
//! Lueks, Underwood, Hubaux and Ford (Reducing metadata leakage from encrypted files and communication with
//! PURBs, Proceedings on Privacy Enhancing Technologies 2019 (4), algorithm 1) does with more of them.
//!
//! age draws a fresh key for each file: sealed bytes differ each time, and what is inside does not.

use std::io::{Cursor, Write as _};

use age::secrecy::{ExposeSecret as _, SecretString};
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, DateTime, ZipWriter};

use super::{Pack, readme};
use crate::fault::{Fault, Result};
use crate::words::{Language, Words};

/// The folder that the ZIP holds.
const FOLDER: &str = "submission/";

/// Says how the file was sealed.
const TOLD: &str = "SEALED.txt";

/// Fills the ZIP up to its size.
const FILL: &str = "padding.bin";

/// No ZIP is smaller than this, bytes.
const LEAST: u64 = 1 << 16;

/// How hard a passphrase is to try, as a power of two of rounds (RFC 7914's N): about a second and 256 MB each.
/// Fixed, so that no machine's speed is told.
const WORK: u8 = 18;

/// A passphrase shorter than this is soon guessed, characters. Common practice: several words drawn by chance.
const SHORTEST: usize = 16;

/// Who can open a sealed pack.
pub struct Seal(Kind);

enum Kind {
    Keys(Vec<age::x25519::Recipient>),
    Passphrase(SecretString),
}

impl Seal {
    /// For the holders of keys, each written `age1…`. A secret key is refused and not repeated.
    pub fn to_keys<'a>(keys: impl IntoIterator<Item = &'a str>) -> Result<Self> {
        let keys: Vec<age::x25519::Recipient> = keys.into_iter().map(key).collect::<Result<_>>()?;
        if keys.is_empty() {
            return Err(Fault::new("pack-seal-nobody"));
        }
        Ok(Self(Kind::Keys(keys)))
    }

    /// For whoever knows a passphrase.
    pub fn with_passphrase(passphrase: String) -> Result<Self> {
        let passphrase = SecretString::from(passphrase);
        if passphrase.expose_secret().trim().chars().count() < SHORTEST {
            return Err(Fault::new("pack-seal-passphrase-short").with("least", SHORTEST));
        }
        Ok(Self(Kind::Passphrase(passphrase)))
    }

    /// How many keys open it; `None` for a passphrase.
    pub fn keys(&self) -> Option<usize> {
        match &self.0 {
            Kind::Keys(keys) => Some(keys.len()),
            Kind::Passphrase(_) => None,
        }
    }

    /// What the recipient needs to know to open the file, in the words of a language.
    pub fn how_to_open(&self, language: Language) -> String {
        let with = match &self.0 {
            Kind::Keys(_) => "pack-seal-open-key",
            Kind::Passphrase(_) => "pack-seal-open-passphrase",
        };
        let words = Words::of(language);
        format!("{} {}", words.say(with), words.say("pack-seal-open-zip"))
    }

    fn encrypt(&self, bytes: &[u8]) -> std::result::Result<Vec<u8>, String> {
        let encryptor = match &self.0 {
            Kind::Keys(keys) => {
                age::Encryptor::with_recipients(keys.iter().map(|key| key as &dyn age::Recipient))
            }
            Kind::Passphrase(passphrase) => {
                let mut recipient = age::scrypt::Recipient::new(passphrase.clone());
                recipient.set_work_factor(WORK);
                age::Encryptor::with_recipients(std::iter::once(&recipient as &dyn age::Recipient))
            }
        };
        let encryptor = encryptor.map_err(|why| why.to_string())?;
        let mut sealed = Vec::with_capacity(bytes.len() + bytes.len() / 1024 + 1024);
        let mut writer = encryptor.wrap_output(&mut sealed).map_err(|why| why.to_string())?;
        writer.write_all(bytes).map_err(|why| why.to_string())?;
        writer.finish().map_err(|why| why.to_string())?;
        Ok(sealed)
    }
}

/// One key.
fn key(text: &str) -> Result<age::x25519::Recipient> {
    let text = text.trim();
    if text.to_ascii_uppercase().starts_with("AGE-SECRET-KEY-") {
        return Err(Fault::new("pack-seal-secret-key"));
    }
    text.parse().map_err(|_| Fault::new("pack-seal-key").with("key", text))
}

impl Pack {
    /// The pack as one sealed file. Its files stand inside as they would in a folder, byte for byte.
    pub fn sealed(&self, seal: &Seal, language: Language) -> Result<Vec<u8>> {
        let failed = |why: String| Fault::new("pack-seal-failed").with("why", why);
        let zip = self.zip(seal, language).map_err(|why| failed(why.to_string()))?;
        let size = zip.len() as u64;
        if size != size_for(size) {
            return Err(failed(format!("{size} B")));
        }
        seal.encrypt(&zip).map_err(failed)
    }

    /// The same bytes for the same pack: sorted names, one time, one mode.
    fn zip(&self, seal: &Seal, language: Language) -> zip::result::ZipResult<Vec<u8>> {
        let options = SimpleFileOptions::default()
            .last_modified_time(DateTime::default())
            .unix_permissions(0o600)
            .compression_method(CompressionMethod::Deflated);
        let words = Words::of(language);
        let (open, told) = (seal.how_to_open(language), words.say("pack-seal-told"));
        let paragraphs: Vec<&str> = std::iter::once(open.as_str()).chain(told.lines()).collect();
        let told = readme::wrapped(&paragraphs).into_bytes();
        let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
        let files = self.files().iter().map(|(path, bytes)| (path.as_str(), bytes.as_slice()));
        for (path, bytes) in files.chain([(TOLD, told.as_slice())]) {
            zip.start_file(format!("{FOLDER}{path}"), options)?;
            zip.write_all(bytes)?;
        }
        let all = zip.finish()?.into_inner();
        let filled = |fill: u64| -> zip::result::ZipResult<Vec<u8>> {
            let mut zip = ZipWriter::new_append(Cursor::new(all.clone()))?;
            zip.start_file(format!("{FOLDER}{FILL}"), options.compression_method(CompressionMethod::Stored))?;
            std::io::copy(&mut std::io::Read::take(std::io::repeat(0), fill), &mut zip)?;
            Ok(zip.finish()?.into_inner())
        };
        let bare = filled(0)?.len() as u64;
        filled(size_for(bare).saturating_sub(bare))
    }
}

/// The size that something of `length` bytes is filled up to: the next of eight to a doubling, so that no more
/// than an eighth is added above the least size.
pub fn size_for(length: u64) -> u64 {
    let length = length.max(LEAST);
    let step = 1_u64 << (length.ilog2() - 3);
    length.div_ceil(step).saturating_mul(step)
}

#[cfg(test)]
mod tests {
    use super::{LEAST, size_for};

    #[test]
    fn eight_sizes_to_a_doubling_and_no_more_than_an_eighth_added() {
        assert_eq!(size_for(0), LEAST);
        assert_eq!(size_for((1 << 20) + 1), (1 << 20) + (1 << 17));
        let mut sizes = std::collections::BTreeSet::new();
        for length in (LEAST..8 * LEAST).step_by(97) {
            let size = size_for(length);
            assert!(size >= length && size_for(size) == size, "{length}");
            assert!((size - length) * 8 <= length, "{length} becomes {size}");
            sizes.insert(size);
        }
        assert_eq!(sizes.len(), 25);
    }
}
