//! From what people say to points.

use super::place::{at_least, on_line, on_rail};
use super::settle::settled;
use super::{Heading, LaidBall, LayError, Spot};
use crate::equipment::Ball;
use crate::motion::BallState;
use crate::shot::{ShotBall, groove_m, touching_m};
use crate::vector::Vec2;
use crate::world::{Owner, World};

/// The places of all balls. Each may be told by others, as long as no ball is told by itself.
///
/// Coordinates that overlap by no more than [`FORGIVEN_M`](super::FORGIVEN_M) are moved apart.
///
/// # Errors
/// [`LayError`] with the ball's place in the list.
pub fn lay(world: &World, balls: &[LaidBall]) -> Result<Vec<Vec2>, LayError> {
    let mut laying =
        PlaceResolver { world, balls, places: vec![None; balls.len()], open: Vec::new() };
    let mut starts = Vec::with_capacity(balls.len());
    for (index, laid) in balls.iter().enumerate() {
        let position = laying.ball(index, index)?;
        let state = BallState { position, ..BallState::default() };
        starts.push(ShotBall { state, ball: laid.ball });
    }
    Ok(settled(world, &starts)?)
}

/// A place told by balls that lie already: something to aim at. `of` is the ball it is told for.
///
/// # Errors
/// [`LayError`] where it is no place; whether anything is in the way there is not looked at.
pub fn place(
    world: &World,
    balls: &[(Ball, Vec2)],
    of: usize,
    spot: &Spot,
) -> Result<Vec2, LayError> {
    with_places(world, balls, |laying| laying.spot(of, spot))
}

/// A direction (unit vector) told from `from` by balls that lie already, as [`place`].
///
/// # Errors
/// [`LayError`] where it is no direction.
pub fn direction(
    world: &World,
    balls: &[(Ball, Vec2)],
    of: usize,
    from: Vec2,
    heading: &Heading,
) -> Result<Vec2, LayError> {
    with_places(world, balls, |laying| laying.direction(of, from, heading))
}

/// The angle from the table's x axis towards its y axis of the way from one point to another, rad;
/// `None` when they are one.
pub fn angle_rad(from: Vec2, to: Vec2) -> Option<f64> {
    let way = to - from;
    (way != Vec2::ZERO).then(|| libm::atan2(way.y, way.x))
}

fn with_places<T>(
    world: &World,
    balls: &[(Ball, Vec2)],
    ask: impl FnOnce(&mut PlaceResolver<'_>) -> Result<T, LayError>,
) -> Result<T, LayError> {
    let laid: Vec<LaidBall> = balls
        .iter()
        .map(|(ball, place)| LaidBall { ball: *ball, spot: Spot::At(*place) })
        .collect();
    let places = balls.iter().map(|(_, place)| Some(*place)).collect();
    ask(&mut PlaceResolver { world, balls: &laid, places, open: Vec::new() })
}

/// Balls being laid.
struct PlaceResolver<'a> {
    world: &'a World,
    balls: &'a [LaidBall],
    places: Vec<Option<Vec2>>,
    /// The balls that are being resolved, each told by the next.
    open: Vec<usize>,
}

impl PlaceResolver<'_> {
    /// Where a ball lies; `of` is the ball that is told by it.
    fn ball(&mut self, of: usize, index: usize) -> Result<Vec2, LayError> {
        let Some(place) = self.places.get(index) else {
            return Err(LayError::NoSuchBall { ball: of, other: index });
        };
        if let Some(place) = place {
            return Ok(*place);
        }
        if let Some(begins) = self.open.iter().position(|open| *open == index) {
            let through = self.open[begins..].to_vec();
            return Err(LayError::Circular { ball: index, through });
        }
        self.open.push(index);
        let balls = self.balls;
        let place = self.spot(index, &balls[index].spot)?;
        self.open.pop();
        self.places[index] = Some(place);
        Ok(place)
    }

    fn spot(&mut self, of: usize, spot: &Spot) -> Result<Vec2, LayError> {
        let place = match spot {
            Spot::At(place) => *place,
            Spot::Ball(other) => self.ball(of, *other)?,
            Spot::Pocket(pocket) => {
                let [a, b] = self.world.outline().mouth_points(*pocket);
                (a + b) * 0.5
            }
            Spot::OnRail { rail, number, counted_from, off_rail_m } => {
                let (ball, equipment) = (self.size(of), self.world.equipment());
                let place = on_rail(equipment, &ball, *rail, *number, *counted_from, *off_rail_m);
                if *off_rail_m == 0.0 && !self.is_frozen(&ball, place, Owner::Nose(*rail)) {
                    let (rail, number) = (*rail, *number);
                    return Err(LayError::NoCushion { ball: of, rail, number });
                }
                place
            }
            Spot::OnLine { line, off_rail_m } => {
                let ball = self.size(of);
                on_line(self.world.equipment(), (of, &ball), line, *off_rail_m)?.1
            }
            Spot::Between { one, other, share } => {
                let (one, other) = (self.spot(of, one)?, self.spot(of, other)?);
                one * (1.0 - share) + other * *share
            }
            Spot::Beside { ball, heading, ahead, gap_m } => {
                let centre = self.ball(of, *ball)?;
                let along = self.direction(of, centre, heading)?;
                let along = if *ahead { along } else { -along };
                let touching_m = touching_m(&self.size(*ball), &self.size(of));
                at_least(centre, along, touching_m + gap_m)
            }
        };
        if place.is_finite() { Ok(place) } else { Err(LayError::NotFinite { ball: of }) }
    }

    fn direction(&mut self, of: usize, from: Vec2, heading: &Heading) -> Result<Vec2, LayError> {
        let along = match heading {
            Heading::Angle(angle_rad) => {
                let (sin, cos) = libm::sincos(*angle_rad);
                Vec2::new(cos, sin)
            }
            Heading::To(spot) => (self.spot(of, spot)? - from).unit_or_zero(),
            Heading::Along(line) => {
                let ball = self.size(of);
                on_line(self.world.equipment(), (of, &ball), line, 0.0)?.0
            }
        };
        if !along.is_finite() {
            return Err(LayError::NotFinite { ball: of });
        }
        if along == Vec2::ZERO { Err(LayError::NoDirection { ball: of }) } else { Ok(along) }
    }

    fn size(&self, index: usize) -> Ball {
        self.balls.get(index).map_or(self.world.equipment().ball, |laid| laid.ball)
    }

    /// True when a ball there touches a nose of that rail.
    fn is_frozen(&self, ball: &Ball, place: Vec2, nose: Owner) -> bool {
        let equipment = self.world.equipment();
        let touches = |grown: &crate::world::CentreBoundaries| {
            grown.boundaries().any(|it| it.owner == nose && it.spans(place))
        };
        if ball.diameter_m == equipment.ball.diameter_m {
            return touches(self.world.grown());
        }
        touches(&self.world.grown_for(groove_m(equipment, ball), ball.radius_m()))
    }
}
