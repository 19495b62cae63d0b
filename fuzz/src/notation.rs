//! libFuzzer's target: a text, read under every hint, must keep the promises of the judge.
#![no_main]

#[path = "../../tests/promises/notation_judge.rs"]
mod notation_judge;

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| {
    if let Ok(text) = std::str::from_utf8(bytes) {
        notation_judge::judge(text);
    }
});
