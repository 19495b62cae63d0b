//! What the published finds say: density, concentrations, tables, the shore. Sees only
//! [`Published`](crate::exact::Published), the public study and public ground.

mod bandwidth;
mod by_parish;
mod concentrations;
mod contour;
mod density;
mod frame;
pub mod kde;
mod ladder_table;
mod outcome;
mod shore;
mod shore_tables;
mod shoreline;
mod sorting;
mod spots;
mod surface_table;
mod tables;
mod trials;
mod whole;
mod window;

pub use by_parish::finds_by_parish;
pub use concentrations::{
    Concentrations, EvenTest, Over, concentration_table, concentrations, in_one_square, told_densities,
};
pub use contour::{Contours, contour_levels};
pub use density::density;
pub use ladder_table::{ladder_in_short, ladder_table};
pub use outcome::{
    Chance, Concentration, Made, Range, ShoreProfile, Stretch, Surface, Table, Value, Varying,
};
pub use shore::shore;
pub use shore_tables::{shore_by, shore_cells};
pub use surface_table::surface_table;
pub use tables::{Dimension, cross};
pub use trials::{Trial, trials, trials_table};
