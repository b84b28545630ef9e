//! The Lua host: a fresh sandboxed virtual machine per scenario, quantities with units, strict
//! option tables, and the place in the scenario's text at which something went wrong.
//!
//! Words for tables, sweeps and rules do not live here; they are registered on the machine from
//! outside.

pub mod addresses;
mod amount_slips;
pub mod call_mends;
mod calls;
mod definition_slips;
pub mod guard;
mod host;
pub mod limits;
mod loops;
mod lost_opening;
pub mod mends;
pub mod missing_value;
mod name_use;
pub mod options;
pub mod own_names;
pub mod place;
pub mod quantity;
pub mod random;
pub mod sandbox;
mod slips;
pub mod source;
pub mod span;
pub mod start;
mod stray_names;
mod taken_names;
pub mod tokens;
mod unknown_name;
pub mod vm;
mod word_slips;
pub mod worker;

pub use host::{Host, Printed};
pub use limits::{Limits, Stopwatch};
pub use options::Options;
pub use quantity::Quantity;
pub use source::Source;
pub use start::LuaStart;
pub use tokens::plain_source;
pub use vm::ScenarioVm;
pub use worker::WorkerFunction;
