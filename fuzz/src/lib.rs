//! The notations, and what they stand on, taken from the program's own files.

pub mod coordinates;
#[path = "../../src/fault.rs"]
pub mod fault;
#[path = "../../src/words.rs"]
pub mod words;
