//! The world's surfaces as cushions, pockets and sights.

use super::subject::{marked, point};
use crate::picture::{CushionLine, CushionPiece, PocketShape, Sight, TableShape};
use railproof_engine::rail::{Pocket, Rail};
use railproof_engine::vector::Vec2;
use railproof_engine::verdict::number_along;
use railproof_engine::world::{JawPart, Owner, PocketWorld, Shape, Surface, World};

/// Wood behind the sights, as a share of their distance from the nose; only drawn.
const WOOD: f64 = 1.9;
/// Wood behind whatever stands furthest out, m; only drawn.
const WOOD_M: f64 = 0.02;

pub(super) fn shape(world: &World, target: Option<Pocket>) -> TableShape {
    let equipment = world.equipment();
    let table = &equipment.table;
    let cushions = cushions(world);
    let pockets: Vec<PocketShape> =
        world.pockets().iter().map(|it| pocket(world, it, target)).collect();
    let (half_x, half_y) = (0.5 * table.length_m, 0.5 * table.width_m);
    let out = world
        .surfaces()
        .filter(|surface| !matches!(surface.owner, Owner::Obstacle(_)))
        .flat_map(|surface| surface.shape.ends())
        .map(|end| (end.x.abs() - half_x).max(end.y.abs() - half_y))
        .fold(0.0, f64::max);
    TableShape {
        length_m: table.length_m,
        width_m: table.width_m,
        rail_m: (WOOD * table.sight_setback_m).max(out + WOOD_M),
        cushions,
        pockets,
        sights: sights(world, target),
        named: true,
    }
}

/// Each nose between its two jaws.
fn cushions(world: &World) -> Vec<CushionLine> {
    let jaws: Vec<Surface> =
        world.surfaces().filter(|it| matches!(it.owner, Owner::Jaw { .. })).collect();
    let noses = world.surfaces().filter(|it| matches!(it.owner, Owner::Nose(_)));
    noses
        .map(|nose| {
            let [from, to] = nose.shape.ends();
            let mut pieces = Vec::with_capacity(5);
            if let Some((tip, facing)) = jaw_at(&jaws, from) {
                let [begins, deep] = facing.shape.ends();
                pieces.push(line(deep, begins));
                pieces.extend(arc(&tip.shape, true));
            }
            pieces.push(line(from, to));
            if let Some((tip, facing)) = jaw_at(&jaws, to) {
                let [begins, deep] = facing.shape.ends();
                pieces.extend(arc(&tip.shape, false));
                pieces.push(line(begins, deep));
            }
            CushionLine { pieces }
        })
        .collect()
}

/// The point whose rounding begins where a nose ends, and the facing behind it.
fn jaw_at(jaws: &[Surface], nose_end: Vec2) -> Option<(Surface, Surface)> {
    let distance = |surface: &Surface| (surface.shape.ends()[0] - nose_end).norm();
    let is_part = |surface: &&Surface, wanted: JawPart| matches!(surface.owner, Owner::Jaw { part, .. } if part == wanted);
    let tip = jaws
        .iter()
        .filter(|it| is_part(it, JawPart::Point))
        .min_by(|one, other| distance(one).total_cmp(&distance(other)))?;
    let Owner::Jaw { pocket, side, .. } = tip.owner else { return None };
    let part = JawPart::Facing;
    let facing = jaws.iter().find(|it| it.owner == Owner::Jaw { pocket, side, part })?;
    Some((*tip, *facing))
}

fn line(from: Vec2, to: Vec2) -> CushionPiece {
    CushionPiece::Line { from: point(from), to: point(to) }
}

/// A rounded point from nose to facing, or back; none for a sharp one.
fn arc(shape: &Shape, back: bool) -> Option<CushionPiece> {
    let Shape::Round { centre, radius_m, from, to } = *shape else { return None };
    if radius_m <= 0.0 {
        return None;
    }
    let (from, to) = if back { (to, from) } else { (from, to) };
    let sweep_rad = from.cross(to).atan2(from.dot(to));
    Some(CushionPiece::Arc {
        centre: point(centre),
        radius_m,
        from_rad: from.y.atan2(from.x),
        sweep_rad,
    })
}

fn pocket(world: &World, pocket: &PocketWorld, target: Option<Pocket>) -> PocketShape {
    let mouth = world.outline().mouth_points(pocket.pocket);
    let across = (mouth[1] - mouth[0]).unit_or_zero() * pocket.drop.half_width_m;
    PocketShape {
        mouth: mouth.map(point),
        drop: [pocket.drop.middle - across, pocket.drop.middle + across].map(point),
        target: target == Some(pocket.pocket),
    }
}

/// The sights, none at the side pockets, numbered from the target pocket.
fn sights(world: &World, target: Option<Pocket>) -> Vec<Sight> {
    let equipment = world.equipment();
    let table = &equipment.table;
    let mut sights = Vec::with_capacity(18);
    for rail in Rail::ALL {
        let (count, diamond_m, half_m) = if rail.is_end() {
            (4, table.end_rail_diamond_m(), 0.5 * table.width_m)
        } else {
            (8, table.long_rail_diamond_m(), 0.5 * table.length_m)
        };
        let half_across_m = 0.5 * if rail.is_end() { table.length_m } else { table.width_m };
        let out = rail.outward() * (half_across_m + table.sight_setback_m);
        for index in 1..count {
            if !rail.is_end() && 2 * index == count {
                continue;
            }
            let along_m = f64::from(index) * diamond_m - half_m;
            let at =
                if rail.is_end() { Vec2::new(out.x, along_m) } else { Vec2::new(along_m, out.y) };
            let number = target.map(|pocket| number_along(equipment, rail, pocket, at));
            let number = number.zip(target).map(|(it, pocket)| marked(it.round(), pocket));
            let number = number.unwrap_or_default();
            sights.push(Sight { at: point(at), number });
        }
    }
    sights
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::profile::{parse_profile, shipped_text};

    #[test]
    fn cushions_run_from_facing_to_facing_without_a_gap() {
        let text = shipped_text("nine-foot").expect("it ships");
        let equipment = parse_profile(text, "nine-foot").expect("it is whole");
        let world = World::new(&equipment, &[]).expect("it is a table");
        let shape = shape(&world, Some(Pocket::FootRight));
        assert_eq!((shape.cushions.len(), shape.pockets.len(), shape.sights.len()), (6, 6, 18));
        for cushion in &shape.cushions {
            assert_eq!(cushion.pieces.len(), 5);
            let ends: Vec<[(f64, f64); 2]> = cushion.pieces.iter().map(ends_of).collect();
            for pair in ends.windows(2) {
                let ((ax, ay), (bx, by)) = (pair[0][1], pair[1][0]);
                assert!((ax - bx).hypot(ay - by) < 1e-12, "{pair:?}");
            }
        }
        assert_eq!(shape.pockets.iter().filter(|it| it.target).count(), 1);
        // Counted from the foot right corner: 7 sights on, less the one at the side pocket.
        let near = |x: f64, y: f64| {
            shape
                .sights
                .iter()
                .find(|it| (it.at.0 - x).abs() < 0.01 && it.at.1 * y > 0.6)
                .map(|it| it.number.as_str())
        };
        assert_eq!(near(1.27 - 0.3175, 1.0), Some("1"));
        assert_eq!(near(0.3175 - 1.27, -1.0), Some("7"));
    }

    fn ends_of(piece: &CushionPiece) -> [(f64, f64); 2] {
        match *piece {
            CushionPiece::Line { from, to } => [from, to],
            CushionPiece::Arc { centre, radius_m, from_rad, sweep_rad } => {
                [from_rad, from_rad + sweep_rad].map(|angle: f64| {
                    (centre.0 + radius_m * angle.cos(), centre.1 + radius_m * angle.sin())
                })
            }
        }
    }
}
