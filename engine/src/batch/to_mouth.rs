//! From the rail to the mouth line, or to rest.

use super::crossing::FirstCrossing;
use super::impact::Rebounds;
use super::lane::{BLOCK, select};
use super::leg::{LaneBall, LaneLeg};
use super::sides::meeting;
use super::table::LaneTable;
use super::to_rail::{BlockBalls, cushion_around};
use super::ways::{LaneWays, NONE};

/// Follows the balls off the rail. One that meets no cushion, or runs off its end, is not usual.
#[inline(always)]
pub(super) fn travel(
    table: &LaneTable,
    balls: &mut BlockBalls,
    rebounds: &Rebounds,
    ways: &mut LaneWays,
) {
    for i in 0..BLOCK {
        let (from_m, to_m) = cushion_around(table, balls.x[i]);
        let x = balls.x[i] + 0.5 * (balls.vx[i] + rebounds.vx[i]) * table.held_s;
        balls.usual[i] &= (balls.x[i] >= from_m) & (x >= from_m) & (x <= to_m);
        let ball = LaneBall {
            x,
            y: table.span_m,
            vx: rebounds.vx[i],
            vy: rebounds.vy[i],
            wx: rebounds.wx[i],
            wy: rebounds.wy[i],
        };
        // A ball that does not come off the rail is on the cushion still.
        balls.usual[i] &= ball.vy < 0.0;
        let leg = LaneLeg::new(ball, table);
        ways.departure_m[i] = x;
        let outward = table.outward;
        let FirstCrossing { time_s, sure } =
            leg.first_crossing(outward.x, outward.y, table.mouth_offset_m);
        let rests_s = leg.rests_s();
        let arrives = time_s == time_s;
        // Rounding may bring the two together.
        balls.usual[i] &= sure & (!arrives | (time_s < rests_s));
        let until_s = select(arrives, time_s, rests_s);
        let (x, y) = leg.position_at(until_s);
        let steady = leg.never_turns(until_s);
        let (opposite, low, high) = (-y > 0.0, -x > -table.low_groove_m, x > table.high_groove_m);
        // A steady ball went away from the banked rail for good.
        let several =
            !steady | (y > table.span_m) | (opposite & low) | (opposite & high) | (low & high);
        let one = !several & (opposite | low | high);
        let edge = table.edges[1].or(low, &table.edges[2]).or(high, &table.edges[3]);
        let meeting = meeting(&leg, &edge, until_s, steady);
        balls.usual[i] &= !one | meeting.sure;
        ways.met[i] = if one { meeting.met } else { NONE };
        let beyond = u8::from(!steady | (y > table.span_m))
            | (u8::from(!steady | opposite) << 1)
            | (u8::from(!steady | low) << 2)
            | (u8::from(!steady | high) << 3);
        ways.sides[i] = if several { beyond } else { 0 };
        ways.steady[i] = steady;
        ways.until_s[i] = until_s;
        let (vx, vy) = leg.velocity_at(until_s);
        let speed = (vx * vx + vy * vy).sqrt();
        let per_speed = 1.0 / speed;
        let moves = speed > 0.0;
        let (way_x, way_y) =
            (select(moves, vx * per_speed, 0.0), select(moves, vy * per_speed, 0.0));
        let toward = table.toward_long;
        let squareness = (toward.x * way_y - toward.y * way_x).abs();
        let aside = (x - table.midpoint.x) * toward.x + (y - table.midpoint.y) * toward.y;
        let miss_m = aside * squareness;
        let room = table.half_mouth_m * squareness - table.groove_m;
        let none = f64::NAN;
        ways.arrives[i] = arrives;
        ways.between[i] = aside.abs() <= table.half_mouth_m;
        ways.time_s[i] = select(arrives, time_s + table.held_s, none);
        ways.speed_m_s[i] = select(arrives, speed, none);
        ways.miss_m[i] = select(arrives, miss_m, none);
        ways.clearance_long_m[i] = select(arrives, room - miss_m, none);
        ways.clearance_short_m[i] = select(arrives, room + miss_m, none);
    }
}
