//! The cautions of a stroke and of a whole shot.

use super::{Caution, Cautions, STEEP_DEG};
use crate::layout::Layout;
use railproof_engine::equipment::{Ball, Equipment};
use railproof_engine::shot::{EventKind, Shot};
use railproof_engine::stroke::{Stroke, StruckBall};
use railproof_engine::units::DEGREE_RAD;

impl Cautions {
    /// Those of a stroke, and of the ball that left the tip if it did.
    pub fn of_struck(stroke: &Stroke, struck: Option<&StruckBall>) -> Self {
        Self::of_speed(stroke.speed_m_s)
            // To a millionth of a degree, so that 30° written in radians counts.
            .with(Caution::Steep, stroke.elevation_rad >= (STEEP_DEG - 1e-6) * DEGREE_RAD)
            .with(Caution::Miscue, struck.is_some_and(|struck| struck.miscue))
    }

    /// Those of a stroke on this ball, on this table with its cue.
    pub fn of_stroke(stroke: &Stroke, ball: &Ball, table: &Equipment) -> Self {
        let struck = stroke.strike(ball, &table.cue).ok();
        let jumps = struck.is_some_and(|struck| struck.jumps(table.gravity_m_s2));
        Self::of_struck(stroke, struck.as_ref())
            .and(&Self::of_table(&table.table))
            .with(Caution::Jump, jumps)
    }

    /// Those of a layout as its shot begins.
    pub fn of_layout(layout: &Layout) -> Self {
        let fastest_m_s =
            layout.balls.iter().map(|ball| ball.state.velocity.norm()).fold(0.0, f64::max);
        let stroke = layout.stroke.as_ref();
        Self::of_speed(fastest_m_s)
            .and(
                &stroke
                    .map_or_else(Self::default, |it| Self::of_struck(&it.stroke, Some(&it.struck))),
            )
            .and(&Self::of_table(&layout.equipment.table))
            .with(Caution::Jump, layout.jumps())
            .with(Caution::Obstacles, !layout.obstacles.is_empty())
    }

    /// Those of a layout that was played.
    pub fn of_shot(layout: &Layout, shot: &Shot) -> Self {
        let hops = shot.events.iter().filter_map(|event| event.kind.touch()).any(|it| it.hop);
        // Spin can send a ball off a rail or another ball faster than it came.
        let after = shot.events.iter().map(|event| match event.kind {
            EventKind::Ball(touch) => {
                touch.other_after.velocity.norm().max(event.after.velocity.norm())
            }
            _ => event.after.velocity.norm(),
        });
        Self::of_layout(layout)
            .and(&Self::of_speed(after.fold(0.0, f64::max)))
            .with(Caution::Hop, hops)
    }
}
