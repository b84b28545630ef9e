//! One bank against another.

use super::way::{AttributionSide, RailMeeting, RailValues, RailWays, attribute};
use super::{Attribution, Cause, NotAttributed};
use crate::bank::{Bank, Outcome};
use crate::equipment::{Cushion, Equipment, RailModel};

/// The miss of a bank as a sum over what differs from another one: the line, roll, side,
/// restitution, carry and bend, and the table where there are two. The remainder is the other's miss.
/// Also gives the number of impacts that were played to find it.
///
/// # Errors
/// [`NotAttributed`] when a ball never comes to the mouth line, by itself or with some causes as the
/// other bank has them, for the compliant model, and for banks of different rails or models.
pub fn of_difference(
    (table, outcome): (&Bank, &Outcome),
    (other_table, other): (&Bank, &Outcome),
) -> Result<(Attribution, u64), NotAttributed> {
    if [table.model(), other_table.model()].contains(&RailModel::Compliant) {
        return Err(NotAttributed::Compliant);
    }
    let (ours, theirs) = (table.geometry(), other_table.geometry());
    if table.model() != other_table.model()
        || ours.rail != theirs.rail
        || ours.pocket != theirs.pocket
    {
        return Err(NotAttributed::NotAlike);
    }
    let (miss_m, here) = met(table, outcome)?;
    let (other_miss_m, there) = met(other_table, other)?;
    // Banks from either side of a side pocket are not alike.
    if mirrored(table, outcome) != mirrored(other_table, other) {
        return Err(NotAttributed::NotAlike);
    }
    let differs = !here.meeting.same(&there.meeting);
    let ways = RailWays {
        turns: vec![(Cause::Line, differs, [here.incidence_rad, there.incidence_rad])],
        meeting: &|acting| Some(if acting.is_empty() { there.meeting } else { here.meeting }),
        tables: tables_differ(table.equipment(), other_table.equipment()),
    };
    let actual = AttributionSide { table, values: here.values };
    let reference = AttributionSide { table: other_table, values: there.values };
    attribute(miss_m, Some(other_miss_m), (&actual, &reference), here.speed_m_s, &ways)
}

struct RailRecord {
    meeting: RailMeeting,
    values: RailValues,
    speed_m_s: f64,
    incidence_rad: f64,
}

fn mirrored(table: &Bank, outcome: &Outcome) -> bool {
    let geometry = table.geometry();
    geometry.pocket.is_side() && !geometry.rail.is_end() && {
        let contact = outcome.at_rail.map_or(0.0, |at_rail| at_rail.contact);
        contact < 0.0
    }
}

fn met(table: &Bank, outcome: &Outcome) -> Result<(f64, RailRecord), NotAttributed> {
    let (Some(miss_m), Some(at_rail), Some(rebound)) =
        (outcome.miss_m(), outcome.at_rail, outcome.rebound)
    else {
        return Err(NotAttributed::NoMiss);
    };
    let own = at_rail.state;
    let state = if mirrored(table, outcome) { own.mirrored() } else { own };
    let met = RailRecord {
        meeting: RailMeeting { along_m: state.position.x, way: state.velocity.unit_or_zero() },
        values: RailValues::at_rail(table, &state, rebound.restitution),
        speed_m_s: state.velocity.norm(),
        incidence_rad: at_rail.incidence_rad(),
    };
    Ok((miss_m, met))
}

/// Whether two tables differ in what no other cause has a number for.
fn tables_differ(one: &Equipment, other: &Equipment) -> bool {
    let plain = |equipment: &Equipment| {
        let mut plain = equipment.clone();
        plain.cushion = Cushion {
            restitution: 0.0,
            restitution_loss_s_m: 0.0,
            restitution_floor: 0.0,
            impact_cloth_friction: Some(equipment.impact_cloth_friction()),
            contact_time_s: 0.0,
            ..plain.cushion
        };
        plain.cloth.sliding_friction = 0.0;
        plain.cloth.rolling_resistance = 0.0;
        plain.cloth.pivot_deceleration_rad_s2 = 0.0;
        plain
    };
    plain(one) != plain(other)
}
