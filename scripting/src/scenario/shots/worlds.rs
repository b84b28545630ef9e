//! Tables that are built once for all the layouts on them.

use mlua::Lua;
use railproof_engine::equipment::Equipment;
use railproof_engine::world::{Obstacle, World, WorldError};
use std::cell::RefCell;
use std::sync::Arc;

/// Tables that are remembered; a sweep over more of them builds each again.
const MOST: usize = 16;

/// The tables of a scenario, the last used last.
#[derive(Debug, Default)]
struct Worlds(RefCell<Vec<Arc<World>>>);

/// The table of this equipment with these obstacles on it.
pub(super) fn world_of(
    lua: &Lua,
    equipment: &Equipment,
    obstacles: &[Obstacle],
) -> Result<Arc<World>, WorldError> {
    if lua.app_data_ref::<Worlds>().is_none() {
        lua.set_app_data(Worlds::default());
    }
    let worlds = lua.app_data_ref::<Worlds>();
    let known = worlds.as_ref().and_then(|worlds| {
        let mut kept = worlds.0.borrow_mut();
        let at = kept
            .iter()
            .position(|it| it.equipment() == equipment && it.obstacles() == obstacles)?;
        let world = kept.remove(at);
        kept.push(Arc::clone(&world));
        Some(world)
    });
    if let Some(world) = known {
        return Ok(world);
    }
    let world = Arc::new(World::new(equipment, obstacles)?);
    if let Some(worlds) = worlds {
        let mut kept = worlds.0.borrow_mut();
        if kept.len() >= MOST {
            kept.remove(0);
        }
        kept.push(Arc::clone(&world));
    }
    Ok(world)
}
