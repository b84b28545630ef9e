//! What a layout says before names and defaults have been looked up.

use super::EquipmentSource;
use railproof_engine::rail::{Pocket, Rail, RailChoice, Reading};
use railproof_engine::world::Obstacle;

/// A layout before its profile has been found.
pub(super) struct Draft {
    pub(super) equipment: EquipmentSource,
    pub(super) target: Option<TargetDraft>,
    pub(super) balls: Vec<BallDraft>,
    pub(super) stroke: Option<StrokeDraft>,
    pub(super) obstacles: Vec<Obstacle>,
    pub(super) engine: super::EngineChoice,
    pub(super) until_s: Option<f64>,
}

pub(super) struct TargetDraft {
    pub(super) pocket: Pocket,
    pub(super) ball: Option<String>,
}

/// A ball: where it lies and under which key that stands.
pub(super) struct BallDraft {
    pub(super) name: String,
    pub(super) spot: SpotDraft,
    pub(super) spot_key: &'static str,
    pub(super) velocity: Option<[f64; 2]>,
    pub(super) spin: Option<[f64; 3]>,
    pub(super) diameter_m: Option<f64>,
    pub(super) mass_kg: Option<f64>,
}

pub(super) enum SpotDraft {
    At([f64; 2]),
    Ball(String),
    Pocket(Pocket),
    OnRail { rail: Rail, number: f64, counted_from: Option<Pocket>, off_rail_m: f64 },
    OnLine { line: LineDraft, off_rail_m: f64 },
    Between { ends: Box<[SpotDraft; 2]>, share: f64 },
    Beside { ball: String, heading: Box<HeadingDraft>, ahead: bool, gap_m: f64 },
}

#[derive(Clone, Copy)]
pub(super) struct LineDraft {
    pub(super) rail: RailChoice,
    pub(super) counted_from: Option<Pocket>,
    pub(super) contact: f64,
    pub(super) start: f64,
    pub(super) reading: Reading,
}

pub(super) enum HeadingDraft {
    Angle(f64),
    To(SpotDraft),
    Line(LineDraft),
}

pub(super) enum AimDraft {
    Angle(f64),
    At(SpotDraft),
    Send { ball: String, heading: HeadingDraft },
}

pub(super) struct StrokeDraft {
    pub(super) ball: Option<String>,
    pub(super) speed_m_s: f64,
    pub(super) aim: AimDraft,
    pub(super) aim_key: &'static str,
    pub(super) side: f64,
    pub(super) height: f64,
    pub(super) elevation_rad: f64,
    pub(super) allow_miscue: bool,
}
