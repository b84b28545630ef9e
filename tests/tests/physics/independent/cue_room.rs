//! The cue's room against brute force: the cue's underside as a cloud of points, each held against solid
//! cushions, rails, balls and boxes.

use super::marching::Draw;
use railproof_engine::elevation::{Obstruction, StandingBall, least_elevation};
use railproof_engine::stroke::Stroke;
use railproof_engine::vector::Vec2;
use railproof_engine::world::{Obstacle, World};
use railproof_tests::shipped_equipment;

/// Every solid is made larger or smaller by this, m, to allow for the cloud's gaps.
const ALLOWED_M: f64 = 0.4e-3;

struct Table {
    world: World,
    box_at: Option<(Vec2, f64, f64)>,
    others: Vec<StandingBall>,
}

impl Table {
    /// True when a point lies in something solid that is grown by `grow_m`.
    fn holds(&self, x: f64, y: f64, z: f64, grow_m: f64) -> bool {
        let equipment = self.world.equipment();
        let table = &equipment.table;
        let out = (x.abs() - 0.5 * table.length_m).max(y.abs() - 0.5 * table.width_m);
        let nose = equipment.cushion.nose_height_m;
        let share = (out / table.rail_top.setback_m).clamp(0.0, 1.0);
        let top = nose + (table.rail_top.height_m - nose) * share;
        if z < grow_m || (out > -grow_m && z < top + grow_m) {
            return true;
        }
        if let Some((middle, half, turned)) = self.box_at {
            let (sin, cos) = turned.sin_cos();
            let (dx, dy) = (x - middle.x, y - middle.y);
            let (along, across) = (dx * cos + dy * sin, dy * cos - dx * sin);
            let half = half + grow_m;
            let height = self.world.obstacles()[0].height_m + grow_m;
            if along.abs() < half && across.abs() < half && z < height {
                return true;
            }
        }
        self.others.iter().any(|ball| {
            let (dx, dy, dz) = (x - ball.position.x, y - ball.position.y, z - ball.radius_m);
            dx * dx + dy * dy + dz * dz < (ball.radius_m + grow_m).powi(2)
        })
    }

    /// True when the cue of a stroke cuts into something.
    fn is_cut(&self, from: Vec2, stroke: &Stroke, elevation_rad: f64, grow_m: f64) -> bool {
        let equipment = self.world.equipment();
        let (radius, shape) = (equipment.ball.radius_m(), equipment.cue.shape);
        let (sin, cos) = stroke.aim_rad.sin_cos();
        let (rise, level) = elevation_rad.sin_cos();
        // Backwards along the cue, to the right, and square to both.
        let back = [-cos * level, -sin * level, rise];
        let right = [sin, -cos, 0.0];
        let up = [cos * rise, sin * rise, level];
        let (b, a) = (stroke.side_offset, stroke.height_offset);
        let depth = (1.0 - a * a - b * b).sqrt();
        let ball = [from.x, from.y, radius];
        let tip =
            [0, 1, 2].map(|k| ball[k] + radius * (depth * back[k] + b * right[k] + a * up[k]));
        let steps = 5000;
        (0..=steps).any(|step| {
            let share = f64::from(step) / f64::from(steps);
            let thick = 0.5
                * (shape.tip_diameter_m + (shape.butt_diameter_m - shape.tip_diameter_m) * share);
            (0..=28).any(|round| {
                let (sin, cos) = (std::f64::consts::PI * f64::from(round) / 28.0).sin_cos();
                let [x, y, z] = [0, 1, 2].map(|k| {
                    tip[k]
                        + shape.length_m * share * back[k]
                        + thick * (cos * right[k] - sin * up[k])
                });
                self.holds(x, y, z, grow_m)
            })
        })
    }

    fn least(&self, from: Vec2, stroke: &Stroke, grow_m: f64) -> f64 {
        let (mut low, mut high) = (0.0, 80.0_f64.to_radians());
        if !self.is_cut(from, stroke, low, grow_m) {
            return low;
        }
        while high - low > 1e-4 {
            let middle = 0.5 * (low + high);
            if self.is_cut(from, stroke, middle, grow_m) { low = middle } else { high = middle }
        }
        high
    }
}

#[test]
fn the_least_elevation_is_where_a_cloud_of_points_comes_free() {
    let equipment = shipped_equipment("nine-foot");
    let ball = equipment.ball;
    let mut forced = [0; 4];
    let mut drawn = 0_u64;
    while forced[1..].iter().any(|count| *count < 12) {
        let mut draw = Draw::of(drawn);
        drawn += 1;
        assert!(drawn < 2000, "{forced:?}");
        // Away from the pockets, whose mouths the cloud does not know.
        let from = Vec2::new(
            draw.between(0.15, 0.45) * if draw.one_in(2.0) { 1.0 } else { -1.0 },
            draw.between(-0.607, 0.607),
        );
        let stroke = Stroke {
            side_offset: draw.between(-0.35, 0.35),
            height_offset: draw.between(-0.3, 0.35),
            ..Stroke::centre(3.0, draw.between(-3.2, 3.2))
        };
        let back = Vec2::new(-stroke.aim_rad.cos(), -stroke.aim_rad.sin());
        let aside = Vec2::new(-back.y, back.x) * draw.between(-0.04, 0.04);
        let behind = from + back * draw.between(0.06, 0.6) + aside;
        let bare = World::new(&equipment, &[]).unwrap();
        let fits = |at: Vec2, reach: f64| {
            at.x.abs() < 1.27 - reach
                && at.y.abs() < 0.635 - reach
                && (at - from).norm() > reach + 0.03
        };
        let table = match drawn % 3 {
            0 if fits(behind, 0.029) => {
                let one = StandingBall { number: 5, position: behind, radius_m: ball.radius_m() };
                Table { world: bare, box_at: None, others: vec![one] }
            }
            1 if fits(behind, 0.1) => {
                let (half, turned) = (0.04, draw.between(0.0, 1.5));
                let one = Obstacle {
                    height_m: draw.between(0.02, 0.12),
                    ..Obstacle::rectangle("box", behind, 2.0 * half, 2.0 * half, turned)
                };
                let world = World::new(&equipment, &[one]).unwrap();
                Table { world, box_at: Some((behind, half, turned)), others: Vec::new() }
            }
            _ => Table { world: bare, box_at: None, others: Vec::new() },
        };
        // Where the cue passes over a pocket, the cushion's nose is missing.
        let crosses = (1..60)
            .map(|step| from + back * (0.025 * f64::from(step)))
            .find(|at| at.x.abs() > 1.27 || at.y.abs() > 0.635);
        let pocket = |at: Vec2| at.x.abs() < 0.12 || at.x.abs() > 1.1;
        if crosses.is_some_and(|at| at.y.abs() > 0.6 && pocket(at))
            || crosses.is_some_and(|at| at.x.abs() > 1.27 && at.y.abs() > 0.5)
        {
            continue;
        }
        let others = table.others.iter().copied();
        let Ok(room) = least_elevation(&table.world, (&ball, from), others, &stroke, 0.0) else {
            let steep = 79.0_f64.to_radians();
            assert!(table.is_cut(from, &stroke, steep, ALLOWED_M), "case {drawn}");
            continue;
        };
        let kind = match room.over {
            None | Some(Obstruction::Cloth | Obstruction::Jaw(_)) => 0,
            Some(Obstruction::Rail(_)) => 1,
            Some(Obstruction::Ball(number)) => {
                assert_eq!(number, 5);
                2
            }
            Some(Obstruction::Obstacle(_)) => 3,
        };
        if forced[kind] >= 12 && kind != 0 {
            continue;
        }
        forced[kind] += 1;
        let range = [-ALLOWED_M, ALLOWED_M].map(|grow_m| table.least(from, &stroke, grow_m));
        assert!(
            (range[0] - 2e-4..=range[1] + 2e-4).contains(&room.least_rad),
            "case {drawn}: {} {:?} not in {range:?}",
            room.least_rad,
            room.over
        );
    }
}
