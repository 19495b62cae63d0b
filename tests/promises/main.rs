//! The promises of the program, one module each.

mod coordinates;
