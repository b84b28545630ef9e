//! A ball on the cloth: slide, roll, pivot and rest in closed form (Coriolis 1835).

mod path;
mod roots;
mod state;

pub use path::{ClothMotion, Path, Phase, Segment};
pub use roots::first_root_in;
pub use state::BallState;
