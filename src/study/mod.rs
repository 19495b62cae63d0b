//! What a person set: the study file, the agreement with each audience, the vocabulary of classes and
//! periods, and the settings of each stage.
//!
//! A study is two types. [`PublicStudy`] passes the wall: it is all that the stages after `exact` see.
//! [`PrivateStudy`] names files, columns, the ledger and layers that are not public, and stays with the
//! register's owner.

mod agreement;
mod concentrations;
mod density;
mod file;
mod load;
mod mistyped;
mod outputs;
mod precision;
mod settings;
pub mod vocabulary;

pub use agreement::{Agreement, Attribute, Giving, Stricter, StricterRule, land_key};
pub use file::{Columns, Cover, Fieldwork, Kept};
pub use load::Study;
pub use precision::{Precision, ladder};
pub use settings::{
    Bandwidth, Bound, ConcentrationSettings, Dated, DensitySettings, EdgeCorrection, Effort, KnownBy,
    LayerKind, LayerSpec, PrivateStudy, Prominence, PublicStudy, SheetForm, SheetSettings, ShoreSettings,
    TableSettings,
};
