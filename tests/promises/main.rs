//! What the program promises, one file a promise. One test crate: each links the whole program.
#![allow(
    clippy::disallowed_methods,
    clippy::disallowed_types,
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    clippy::print_stderr,
    // Published figures stand as they are printed; a pattern made twice costs a test nothing.
    clippy::inconsistent_digit_grouping,
    clippy::regex_creation_in_loops
)]

mod adequacy;
mod alone;
mod analysis;
mod analysis_tables;
mod attacks;
mod audit;
mod audit_odd;
mod audit_plants;
mod canary;
mod common;
mod concentrations;
mod convert;
mod convert_squares;
mod convert_tables;
mod coordinates;
mod demo;
mod factoring;
mod gigs;
mod ground;
mod handouts;
mod histories;
mod house;
mod island;
mod island_finds;
mod islands;
mod kernel_density;
mod ladder_map;
mod licences;
mod map_kinds;
mod notation_judge;
mod notation_storm;
mod pack;
mod pack_layers;
mod pack_made;
mod pack_on_disk;
mod pack_tables;
mod parish_figures;
mod photographs;
mod published_examples;
mod publishing;
mod reference_coordinates;
mod reference_density;
mod register;
mod report_pages;
mod sealing;
mod sheet_files;
mod sheets;
mod sheets_boxes;
mod sheets_words;
mod shore;
mod slips;
mod study_file;
mod submission;
mod wall;
mod words;
