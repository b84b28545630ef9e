//! A table's numbers laid out for lanes.

use super::lane::select;
use crate::bank::Bank;
use crate::equipment::RailModel;
use crate::impact::CushionContact;
use crate::rail::{BankGeometry, Side};
use crate::vector::Vec2;

/// Most openings on one side: a corner at either end and a side pocket between.
pub(super) const OPENINGS: usize = 3;

/// A stretch of a side without cushion.
#[derive(Clone, Copy)]
pub(super) struct SideGap {
    pub(super) from_m: f64,
    pub(super) to_m: f64,
    /// The target pocket opens here.
    pub(super) target: bool,
}

/// A side of the table: the line n·p = `offset_m` of its groove, n along one axis, and its gaps.
#[derive(Clone, Copy)]
pub(super) struct TableSide {
    pub(super) normal: Vec2,
    pub(super) offset_m: f64,
    pub(super) gaps: [SideGap; OPENINGS],
}

impl TableSide {
    /// The other one on a condition.
    #[inline(always)]
    pub(super) fn or(&self, condition: bool, other: &Self) -> Self {
        let mut edge = *self;
        edge.normal.x = select(condition, other.normal.x, self.normal.x);
        edge.normal.y = select(condition, other.normal.y, self.normal.y);
        edge.offset_m = select(condition, other.offset_m, self.offset_m);
        for (gap, other) in edge.gaps.iter_mut().zip(&other.gaps) {
            gap.from_m = select(condition, other.from_m, gap.from_m);
            gap.to_m = select(condition, other.to_m, gap.to_m);
            gap.target = (condition & other.target) | (!condition & gap.target);
        }
        edge
    }
}

/// The numbers of a bank's table that the lanes read.
pub(super) struct LaneTable {
    pub(super) model: RailModel,
    pub(super) contact: CushionContact,
    pub(super) radius_m: f64,
    pub(super) sliding_m_s2: f64,
    pub(super) rolling_m_s2: f64,
    pub(super) pivot_rad_s2: f64,
    /// Time of the slide per speed of slip.
    pub(super) slide_per_slip_s2_m: f64,
    /// Time of the roll per speed.
    pub(super) roll_per_speed_s2_m: f64,
    pub(super) held_s: f64,
    pub(super) diamond_m: f64,
    pub(super) span_m: f64,
    pub(super) groove_m: f64,
    pub(super) low_groove_m: f64,
    pub(super) high_groove_m: f64,
    pub(super) outward: Vec2,
    /// outward·p on the mouth line, m.
    pub(super) mouth_offset_m: f64,
    pub(super) midpoint: Vec2,
    pub(super) toward_long: Vec2,
    pub(super) half_mouth_m: f64,
    /// Banks from negative contact numbers are mirror images.
    pub(super) mirrors: bool,
    /// Banked, opposite, low, high.
    pub(super) edges: [TableSide; 4],
}

/// Slower cloths leave times that lanes do not follow.
const LEAST_DECELERATION_M_S2: f64 = 1e-6;

impl LaneTable {
    /// `None` where banks are played one by one: a model that is stepped, a cloth that slows
    /// nothing.
    pub(super) fn new(bank: &Bank) -> Option<Self> {
        let cloth = bank.cloth();
        let geometry = bank.geometry();
        let (sliding, rolling) = (cloth.sliding_deceleration_m_s2, cloth.rolling_deceleration_m_s2);
        let slows = sliding >= LEAST_DECELERATION_M_S2 && rolling >= LEAST_DECELERATION_M_S2;
        if bank.model() == RailModel::Compliant || !slows {
            return None;
        }
        let mouth = &geometry.mouth;
        Some(Self {
            model: bank.model(),
            contact: *bank.contact(),
            radius_m: cloth.radius_m,
            sliding_m_s2: sliding,
            rolling_m_s2: rolling,
            pivot_rad_s2: cloth.pivot_deceleration_rad_s2,
            slide_per_slip_s2_m: 2.0 / 7.0 / sliding,
            roll_per_speed_s2_m: 1.0 / rolling,
            held_s: bank.equipment().cushion.contact_time_s,
            diamond_m: geometry.diamond_m,
            span_m: geometry.span_m,
            groove_m: geometry.groove_m,
            low_groove_m: geometry.low_groove_m,
            high_groove_m: geometry.high_groove_m,
            outward: mouth.outward,
            mouth_offset_m: mouth.outward.dot(mouth.midpoint),
            midpoint: mouth.midpoint,
            toward_long: mouth.toward_long,
            half_mouth_m: 0.5 * mouth.width_m,
            mirrors: geometry.pocket.is_side() && !geometry.rail.is_end(),
            edges: [
                edge(geometry, Side::Banked, Vec2::new(0.0, 1.0), geometry.span_m)?,
                edge(geometry, Side::Opposite, Vec2::new(0.0, -1.0), 0.0)?,
                edge(geometry, Side::Low, Vec2::new(-1.0, 0.0), -geometry.low_groove_m)?,
                edge(geometry, Side::High, Vec2::new(1.0, 0.0), geometry.high_groove_m)?,
            ],
        })
    }
}

fn edge(geometry: &BankGeometry, side: Side, normal: Vec2, offset_m: f64) -> Option<TableSide> {
    // Nothing lies in a gap at infinity.
    let nowhere = SideGap { from_m: f64::INFINITY, to_m: f64::INFINITY, target: false };
    let mut gaps = [nowhere; OPENINGS];
    let openings = geometry.openings.iter().filter(|opening| opening.side == side);
    for (index, opening) in openings.enumerate() {
        *gaps.get_mut(index)? = SideGap {
            from_m: opening.from_m,
            to_m: opening.to_m,
            target: opening.pocket == geometry.pocket,
        };
    }
    Some(TableSide { normal, offset_m, gaps })
}
