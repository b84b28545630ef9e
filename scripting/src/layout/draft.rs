//! A layout before names and defaults have been looked up.

use super::engine::EngineChoice;
use super::picture_words::PictureWords;
use crate::profile::Sections;
use railproof_engine::aim::Sending;
use railproof_engine::rail::{Pocket, Rail, RailChoice, Reading};
use railproof_engine::units::Speed;
use railproof_engine::world::Obstacle;

/// A layout before its profile has been found.
pub(crate) struct Draft {
    pub(crate) equipment: EquipmentSource,
    pub(crate) target: Option<TargetDraft>,
    pub(crate) balls: Vec<BallDraft>,
    pub(crate) stroke: Option<StrokeDraft>,
    pub(crate) obstacles: Vec<Obstacle>,
    pub(crate) engine: EngineChoice,
    pub(crate) until_s: Option<f64>,
    pub(crate) picture: PictureWords,
}

/// Where a layout's equipment comes from.
pub(crate) enum EquipmentSource {
    /// A shipped profile's name or a path.
    Named(String),
    /// Written out in the layout.
    Inline(Box<Sections>),
}

pub(crate) struct TargetDraft {
    pub(crate) pocket: Pocket,
    pub(crate) ball: Option<String>,
}

/// A ball: where it lies and under which key that stands.
pub(crate) struct BallDraft {
    pub(crate) name: String,
    pub(crate) spot: SpotDraft,
    pub(crate) spot_key: &'static str,
    pub(crate) velocity: Option<[f64; 2]>,
    pub(crate) spin: Option<[f64; 3]>,
    pub(crate) launch: Option<LaunchDraft>,
    pub(crate) diameter_m: Option<f64>,
    pub(crate) mass_kg: Option<f64>,
}

/// A ball sent off without a stroke.
pub(crate) struct LaunchDraft {
    pub(crate) speed: Speed,
    pub(crate) heading: HeadingDraft,
    pub(crate) roll: f64,
    pub(crate) spin_side: f64,
}

pub(crate) enum SpotDraft {
    At([f64; 2]),
    Ball(String),
    Pocket(Pocket),
    OnRail { rail: Rail, number: f64, counted_from: Option<Pocket>, off_rail_m: f64 },
    OnLine { line: LineDraft, off_rail_m: f64 },
    Between { ends: Box<[SpotDraft; 2]>, share: f64 },
    Beside { ball: String, heading: Box<HeadingDraft>, ahead: bool, gap_m: f64 },
}

#[derive(Clone, Copy)]
pub(crate) struct LineDraft {
    pub(crate) rail: RailChoice,
    pub(crate) counted_from: Option<Pocket>,
    pub(crate) contact: f64,
    pub(crate) start: f64,
    pub(crate) reading: Reading,
}

pub(crate) enum HeadingDraft {
    Angle(f64),
    To(SpotDraft),
    Line(LineDraft),
}

pub(crate) enum AimDraft {
    Angle(f64),
    At(SpotDraft),
    Send { by: Sending, ball: String, heading: HeadingDraft },
}

pub(crate) struct StrokeDraft {
    pub(crate) ball: Option<String>,
    pub(crate) speed: Speed,
    pub(crate) aim: AimDraft,
    pub(crate) aim_key: &'static str,
    pub(crate) tip_side: f64,
    pub(crate) tip_height: f64,
    /// The least when it is left out.
    pub(crate) elevation_rad: Option<f64>,
    pub(crate) allow_miscue: bool,
}
