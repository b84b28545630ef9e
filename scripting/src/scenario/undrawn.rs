//! The maps of a running scenario that it has not drawn so far.

use super::map::Map;
use mlua::Lua;
use std::sync::Arc;

#[derive(Debug, Default)]
struct UndrawnMaps(Vec<Map>);

/// Notes a map that was played.
pub fn add(lua: &Lua, map: &Map) {
    if lua.app_data_ref::<UndrawnMaps>().is_none() {
        lua.set_app_data(UndrawnMaps::default());
    }
    if let Some(mut maps) = lua.app_data_mut::<UndrawnMaps>() {
        maps.0.push(map.clone());
    }
}

/// Strikes out a map of which some or all is drawn.
pub fn strike_out(lua: &Lua, drawn: &Map) {
    if let Some(mut maps) = lua.app_data_mut::<UndrawnMaps>() {
        maps.0.retain(|map| !Arc::ptr_eq(&map.record, &drawn.record));
    }
}

/// Those that are left.
pub fn take(lua: &Lua) -> Vec<Map> {
    lua.remove_app_data::<UndrawnMaps>().map(|maps| maps.0).unwrap_or_default()
}
