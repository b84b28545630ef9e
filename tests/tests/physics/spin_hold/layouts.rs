//! Layouts that once went wrong.

use super::sound;
use railproof::layout::load_layout;
use railproof::playing::PlayedShot;
use railproof_engine::world::World;
use std::path::Path;

fn plays(name: &str) {
    let file = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("tests/physics/spin_hold/reproducers")
        .join(name);
    let layout = load_layout(&file).unwrap_or_else(|fault| panic!("{fault}"));
    let world = World::new(&layout.equipment, &layout.obstacles).expect("there is such a table");
    let played = PlayedShot::new(&layout).unwrap_or_else(|fault| panic!("{fault}"));
    sound(&world, &played.shot);
    assert!(played.shot.events.len() < 200, "{} events", played.shot.events.len());
}

#[test]
fn a_ball_that_slides_along_a_box_stays_this_side_of_the_rail() {
    plays("through_an_obstacle.yaml");
}

#[test]
fn a_ball_that_rolls_into_a_wedge_stays_on_the_table() {
    plays("rolling_into_a_wedge.yaml");
}

#[test]
fn a_ball_in_a_wedge_rests_inside_nothing() {
    plays("rest_in_a_wedge.yaml");
}

#[test]
fn a_ball_in_a_wedge_takes_no_memory_without_end() {
    plays("memory_in_a_wedge.yaml");
}

#[test]
fn a_ball_that_runs_along_the_rail_into_a_box_comes_to_rest() {
    plays("along_the_rail_into_a_box.yaml");
}

#[test]
fn a_ball_in_a_slot_slides_along_it_to_rest() {
    plays("along_a_slot.yaml");
}

#[test]
fn a_ball_that_a_slot_holds_comes_to_rest() {
    plays("rest_in_a_slot.yaml");
}

#[test]
fn a_slot_may_have_two_kinds_of_wall() {
    plays("slot_of_two_kinds.yaml");
}
