//! Where a ball's way crosses a pocket's mouth line.

use crate::equipment::Equipment;
use crate::motion::{BallState, ClothMotion, Path};
use crate::rail::{Outline, Pocket, Rail};
use crate::shot::{Event, EventKind, Shot};
use crate::vector::Vec2;
use crate::world::World;

/// A ball's way at a pocket's mouth line, extended past any rail that it meets first.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PocketArrival {
    /// The rail it came off last, if any.
    pub last_rail: Option<Rail>,
    /// When, s since it came off that rail or began; of the extended way.
    pub after_s: f64,
    /// The state there.
    pub state: BallState,
    /// Miss of the mouth's middle, square to the path, m: positive is long, or, of a ball that came
    /// off no rail, to the right of its path.
    pub miss_m: f64,
    /// Room left to the long (right) mouth point, m; negative when it would touch it.
    pub clearance_long_m: f64,
    /// Room left to the short (left) mouth point, m.
    pub clearance_short_m: f64,
}

/// Where the ball's way, from the last rail that it came off on its way to the pocket, crosses the
/// pocket's mouth line; `None` when it never does. A touch of a rail that the pocket opens into, near
/// the pocket, is the end of the way.
pub fn arrival(world: &World, shot: &Shot, ball: usize, pocket: Pocket) -> Option<PocketArrival> {
    let (last_rail, state) = last_departure(world, shot, ball, pocket)?;
    arrival_of(world.equipment(), world.outline(), state, last_rail, pocket)
}

/// Where the free motion that follows from `state` crosses the pocket's mouth line.
pub fn arrival_of(
    equipment: &Equipment,
    outline: &Outline,
    state: BallState,
    last_rail: Option<Rail>,
    pocket: Pocket,
) -> Option<PocketArrival> {
    let path = Path::new(state, ClothMotion::new(equipment));
    let (normal, reach) = outline.mouth_line(pocket);
    let after_s = path.first_crossing(normal, reach, 0.0)?;
    let at = path.state_at(after_s);
    let [a, b] = outline.mouth_points(pocket);
    let across = (b - a).unit_or_zero();
    let travel = at.velocity.unit_or_zero();
    let toward_long = long_side(last_rail, across, travel);
    let squareness = across.cross(travel).abs();
    let miss_m = (at.position - (a + b) * 0.5).dot(toward_long) * squareness;
    let room = 0.5 * (b - a).norm() * squareness - equipment.groove_m();
    Some(PocketArrival {
        last_rail,
        after_s,
        state: at,
        miss_m,
        clearance_long_m: room - miss_m,
        clearance_short_m: room + miss_m,
    })
}

/// Unit vector along the mouth line towards its long end: the end further along the rail that the
/// ball came off, in its direction of travel; for a mouth square to that rail the end further from
/// it. Without a rail: the right-hand end, seen along the travel.
fn long_side(last_rail: Option<Rail>, across: Vec2, travel: Vec2) -> Vec2 {
    let further = |sense: f64| if sense < 0.0 { -across } else { across };
    let Some(rail) = last_rail else { return further(-travel.cross(across)) };
    let along = if rail.is_end() { Vec2::new(0.0, 1.0) } else { Vec2::new(1.0, 0.0) };
    let share = across.dot(along);
    if share.abs() < 1e-9 {
        return further(-across.dot(rail.outward()));
    }
    further(share * travel.dot(along))
}

/// True for places that count as the pocket's neighbourhood: within half the way to the side pockets.
pub(super) fn near(world: &World, pocket: Pocket, place: Vec2) -> bool {
    let outline = world.outline();
    let [a, b] = outline.mouth_points(pocket);
    (place - (a + b) * 0.5).norm() < 0.5 * outline.half_length_m
}

/// True for a touch of a rail that the pocket opens into, near the pocket.
pub(super) fn beside(world: &World, pocket: Pocket, rail: Rail, place: Vec2) -> bool {
    let opens_into = world.outline().gaps(pocket).any(|gap| gap.rail == rail);
    opens_into && near(world, pocket, place)
}

/// The number of rails that a ball banks off before it comes to the pocket's neighbourhood, touches of one rail in a
/// row as one.
pub fn rails_before(world: &World, shot: &Shot, ball: usize, pocket: Pocket) -> usize {
    let mut rails: Vec<Rail> = on_the_way(world, shot, ball, pocket)
        .filter_map(|event| match event.kind {
            EventKind::Cushion(touch) => Some(touch.rail),
            _ => None,
        })
        .collect();
    rails.dedup();
    rails.len()
}

/// What happens to a ball until it comes to the pocket's neighbourhood.
fn on_the_way<'a>(
    world: &World,
    shot: &'a Shot,
    ball: usize,
    pocket: Pocket,
) -> impl Iterator<Item = &'a Event> {
    shot.events_of(ball).take_while(move |event| match event.kind {
        EventKind::Cushion(touch) => !beside(world, pocket, touch.rail, event.before.position),
        EventKind::Jaw { pocket: of, .. } => of != pocket,
        _ => true,
    })
}

/// The last rail the ball was banked off before it came to the pocket's neighbourhood, and its state
/// as it went on from there.
fn last_departure(
    world: &World,
    shot: &Shot,
    ball: usize,
    pocket: Pocket,
) -> Option<(Option<Rail>, BallState)> {
    let mut last: Option<(Option<Rail>, BallState)> = None;
    for event in on_the_way(world, shot, ball, pocket) {
        match event.kind {
            EventKind::Start => last = Some((None, event.after)),
            EventKind::Cushion(touch) => last = Some((Some(touch.rail), event.after)),
            EventKind::Leave => {
                if let Some((rail, _)) = last {
                    last = Some((rail, event.after));
                }
            }
            EventKind::Ball(_) => {
                if let Some((rail, _)) = last {
                    last = Some((rail, event.after_of(ball)));
                }
            }
            EventKind::Jaw { .. } | EventKind::Obstacle { .. } => {
                if let Some((rail, _)) = last {
                    last = Some((rail, event.after));
                }
            }
            EventKind::Roll
            | EventKind::Pivot
            | EventKind::Hop
            | EventKind::Stop
            | EventKind::Drop(_) => {}
        }
    }
    last
}
