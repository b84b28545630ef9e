//! A pocket: its two jaws and its drop line.
//!
//! Every number is built for the corner with positive signs and then given the pocket's signs, so
//! mirrored pockets match to the bit.

use super::WorldError;
use super::surface::{JawPart, JawSide, Owner, Shape, Surface};
use crate::equipment::Equipment;
use crate::rail::{Outline, Pocket, Rail};
use crate::vector::Vec2;
use core::f64::consts::{FRAC_1_SQRT_2, PI};

/// The length by which a facing runs on behind the drop line, in ball diameters: a ball falls before its end.
const BEHIND_DROP: f64 = 1.0;

/// Where a ball falls: its centre crosses `normal`·p = `offset_m`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DropLine {
    /// Unit vector out of the table.
    pub normal: Vec2,
    /// Distance of the line from the table's centre, m.
    pub offset_m: f64,
    /// The middle of the line, m.
    pub middle: Vec2,
    /// Half its length between the facings, m.
    pub half_width_m: f64,
}

/// A pocket's solid parts and its drop line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PocketWorld {
    /// Which one.
    pub pocket: Pocket,
    /// Point and facing of the first jaw, then of the second.
    pub jaws: [Surface; 4],
    /// Where a ball falls.
    pub drop: DropLine,
}

/// One jaw in plan: the vertex where nose line and facing line would meet, and two directions.
struct Jaw {
    vertex: Vec2,
    /// Along the nose towards the pocket.
    along: Vec2,
    /// Square to the nose, out of the table.
    out: Vec2,
}

/// The length that the rounding of a jaw's point takes off its nose, m.
pub(super) fn rounding_m(equipment: &Equipment, pocket: Pocket) -> f64 {
    let (angle, radius, _) = kind(equipment, pocket);
    radius * libm::tan(0.5 * (PI - angle))
}

/// Angle, radius and shelf of the pocket's kind.
fn kind(equipment: &Equipment, pocket: Pocket) -> (f64, f64, f64) {
    let jaws = &equipment.table.jaws;
    if pocket.is_side() {
        (jaws.side_angle_rad, jaws.side_radius_m, jaws.side_shelf_m)
    } else {
        (jaws.corner_angle_rad, jaws.corner_radius_m, jaws.corner_shelf_m)
    }
}

impl PocketWorld {
    /// Builds a pocket.
    ///
    /// # Errors
    /// [`WorldError`] when the jaws leave a ball no way to the drop line, or the rounding of a point
    /// is longer than its facing.
    pub(super) fn new(
        equipment: &Equipment,
        outline: &Outline,
        pocket: Pocket,
    ) -> Result<Self, WorldError> {
        let (angle, radius_m, shelf_m) = kind(equipment, pocket);
        let turn = PI - angle;
        let (sin, cos) = (libm::sin(turn), libm::cos(turn));
        // How far one metre along a facing leads into the pocket, and towards the other facing.
        let (deep, narrow) = if pocket.is_side() {
            (sin, cos)
        } else {
            ((cos + sin) * FRAC_1_SQRT_2, (cos - sin) * FRAC_1_SQRT_2)
        };
        let diameter_m = equipment.ball.diameter_m;
        let facing_m = (shelf_m + BEHIND_DROP * diameter_m) / deep;
        let rounded_m = rounding_m(equipment, pocket);
        if rounded_m > facing_m {
            return Err(WorldError::JawRadius {
                pocket,
                radius_m,
                longest_m: radius_m * facing_m / rounded_m,
            });
        }
        let half_mouth_m = if pocket.is_side() {
            outline.half_side_m
        } else {
            0.5 * equipment.table.corner_mouth_m
        };
        // Between the facings, square to the pocket's axis, at the drop line.
        let half_width_m = half_mouth_m - shelf_m * (narrow / deep);
        // A ball's centre keeps the groove's distance from each facing, which stands askew.
        let room_m = half_width_m - equipment.groove_m() / deep;
        if room_m <= 0.0 {
            return Err(WorldError::Throat { pocket, short_m: -2.0 * room_m });
        }
        let piece = |jaw: &Jaw| -> [Shape; 2] {
            let facing = jaw.along * cos + jaw.out * sin;
            let into = jaw.out * cos - jaw.along * sin;
            let begins = jaw.vertex + facing * rounded_m;
            [
                Shape::Round {
                    centre: jaw.vertex - jaw.along * rounded_m + jaw.out * radius_m,
                    radius_m,
                    from: -jaw.out,
                    to: -into,
                },
                Shape::Straight { from: begins, to: jaw.vertex + facing * facing_m, into },
            ]
        };
        let [first, second] = jaws_of(outline, pocket);
        let [first_point, first_facing] = piece(&first);
        let [second_point, second_facing] = piece(&second);
        let surface =
            |side, part, shape| Surface { owner: Owner::Jaw { pocket, side, part }, shape };
        let (sign_x, sign_y) = pocket.signs();
        let (normal, offset_m) = if pocket.is_side() {
            (Vec2::new(0.0, sign_y), outline.half_width_m + shelf_m)
        } else {
            let reach = outline.half_length_m + outline.half_width_m - outline.corner_cut_m;
            (
                Vec2::new(sign_x * FRAC_1_SQRT_2, sign_y * FRAC_1_SQRT_2),
                reach * FRAC_1_SQRT_2 + shelf_m,
            )
        };
        let [a, b] = outline.mouth_points(pocket);
        Ok(Self {
            pocket,
            jaws: [
                surface(JawSide::First, JawPart::Point, first_point),
                surface(JawSide::First, JawPart::Facing, first_facing),
                surface(JawSide::Second, JawPart::Point, second_point),
                surface(JawSide::Second, JawPart::Facing, second_facing),
            ],
            drop: DropLine {
                normal,
                offset_m,
                middle: (a + b) * 0.5 + normal * shelf_m,
                half_width_m,
            },
        })
    }
}

/// The two jaws of a pocket: of a corner the long rail's first, of a side pocket the head's.
fn jaws_of(outline: &Outline, pocket: Pocket) -> [Jaw; 2] {
    let (sign_x, sign_y) = pocket.signs();
    let [a, b] = outline.mouth_points(pocket);
    let (along_x, along_y) = (Vec2::new(1.0, 0.0), Vec2::new(0.0, sign_y));
    if pocket.is_side() {
        return [
            Jaw { vertex: a, along: along_x, out: along_y },
            Jaw { vertex: b, along: -along_x, out: along_y },
        ];
    }
    let towards = Vec2::new(sign_x, 0.0);
    [
        Jaw { vertex: a, along: towards, out: along_y },
        Jaw { vertex: b, along: along_y, out: towards },
    ]
}

/// The pockets at the two ends of a straight nose, and the nose's line: of a long rail there are
/// two noses, one either side of the side pocket.
pub(super) fn noses() -> [(Rail, Pocket, Pocket); 6] {
    use Pocket::{FootLeft, FootRight, HeadLeft, HeadRight, SideLeft, SideRight};
    [
        (Rail::Left, HeadLeft, SideLeft),
        (Rail::Left, SideLeft, FootLeft),
        (Rail::Right, HeadRight, SideRight),
        (Rail::Right, SideRight, FootRight),
        (Rail::Head, HeadRight, HeadLeft),
        (Rail::Foot, FootRight, FootLeft),
    ]
}
