//! What each command does, as a short list of steps. The only caller of every stage.

mod analyses;
mod audit;
mod blank;
mod check;
pub mod coarsen;
pub mod convert;
pub mod ledger;
pub mod licences;
mod maps;
mod new;
mod observe;
mod open;
mod parish;
mod photographs;
mod seal;
pub mod square;
pub mod table;
mod target;

pub use analyses::{Analysis, one_analysis};
pub use audit::{Audited, Found, Rebuilt, Shut, audit};
pub use blank::{Blank, blank};
pub use check::{Checked, check};
pub use maps::{Wanted, empty_maps, maps, pair_of_maps};
pub use new::{NewStudy, new_study};
pub use observe::{Worked, one_table, pack, submission, work};
pub use open::{Opened, Progress, open, release};
pub use parish::{ParishSheet, parish_sheets};
pub use photographs::{Photographs, photographs};
pub use seal::{seal_by_file, seal_to};
pub use target::Target;
