//! The numbers of a piece of equipment: the one list from which profiles, scripts, sweeps, files and
//! help take their names, meanings and ranges.

use super::{
    Ball, BallContact, Cloth, Cue, CueShape, Cushion, Equipment, Jaws, RailTop, SpokenSpeeds, Table,
};
use super::{OutOfRange, Parameter};
use crate::units::column_name;

/// The part of the equipment that a number belongs to; a section of a profile.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Section {
    /// The playing surface, its pockets and rails.
    Table,
    /// The object ball.
    Ball,
    /// The cloth.
    Cloth,
    /// The cushions.
    Cushion,
    /// Contact between balls.
    BallContact,
    /// The cue.
    Cue,
    /// The speeds that words stand for.
    Speeds,
    /// Beside the sections.
    Whole,
}

impl Section {
    /// The sections that hold several numbers, in the order of a profile.
    pub const ALL: [Self; 7] = [
        Self::Table,
        Self::Ball,
        Self::Cloth,
        Self::Cushion,
        Self::BallContact,
        Self::Cue,
        Self::Speeds,
    ];

    /// Its key in a profile.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Table => "table",
            Self::Ball => "ball",
            Self::Cloth => "cloth",
            Self::Cushion => "cushion",
            Self::BallContact => "ball_contact",
            Self::Cue => "cue",
            Self::Speeds => "speeds",
            Self::Whole => "",
        }
    }

    /// Puts this section of one piece of equipment in place of another's.
    pub fn copy(self, from: &Equipment, into: &mut Equipment) {
        match self {
            Self::Table => into.table = from.table,
            Self::Ball => into.ball = from.ball,
            Self::Cloth => into.cloth = from.cloth,
            Self::Cushion => into.cushion = from.cushion,
            Self::BallContact => into.ball_contact = from.ball_contact,
            Self::Cue => into.cue = from.cue,
            Self::Speeds => into.speeds = from.speeds,
            Self::Whole => into.gravity_m_s2 = from.gravity_m_s2,
        }
    }

    /// Its numbers.
    pub fn numbers(self) -> impl Iterator<Item = EquipmentNumber> + Clone {
        EquipmentNumber::all().filter(move |number| number.section() == self)
    }
}

/// One number of an [`Equipment`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct EquipmentNumber(u8);

/// The name, range and meaning of a number.
struct NumberEntry {
    section: Section,
    /// The name in scripts, sweeps and files. In its section of a profile it may be shorter.
    name: &'static str,
    /// In a word or two, as the names of changed equipment say it.
    title: &'static str,
    /// Meaning, as pictures and files say it.
    meaning: &'static str,
    /// Its key in a profile, kind and range.
    parameter: Parameter,
    /// The words for its absence, where it may be left out altogether.
    without: Option<&'static str>,
    /// True for a number that the bank of a lone ball depends on: a sweep can vary it.
    is_swept: bool,
    get: fn(&Equipment) -> f64,
    set: fn(&mut Equipment, f64),
}

macro_rules! entry {
    ($section:ident $name:literal, $title:literal, $meaning:literal, $parameter:expr, $($field:ident).+ $(, $swept:ident)?) => {
        NumberEntry {
            section: Section::$section,
            name: $name,
            title: $title,
            meaning: $meaning,
            parameter: $parameter,
            without: None,
            is_swept: entry!(@swept $($swept)?),
            get: |equipment| equipment.$($field).+,
            set: |equipment, value| equipment.$($field).+ = value,
        }
    };
    (@swept swept) => { true };
    (@swept) => { false };
}

#[rustfmt::skip]
const NUMBERS: [NumberEntry; 43] = [
    entry!(Table "table_length", "playing length", "playing length, nose to nose", Table::LENGTH, table.length_m),
    entry!(Table "table_width", "playing width", "playing width, nose to nose", Table::WIDTH, table.width_m),
    entry!(Table "corner_mouth", "corner mouth", "corner mouth", Table::CORNER_MOUTH, table.corner_mouth_m, swept),
    entry!(Table "side_mouth", "side mouth", "side mouth", Table::SIDE_MOUTH, table.side_mouth_m, swept),
    entry!(Table "sight_setback", "sights behind the nose", "distance of the sights behind the nose", Table::SIGHT_SETBACK, table.sight_setback_m),
    entry!(Table "corner_angle", "corner cut", "cut angle at a corner", Jaws::CORNER_ANGLE, table.jaws.corner_angle_rad),
    entry!(Table "side_angle", "side cut", "cut angle at a side pocket", Jaws::SIDE_ANGLE, table.jaws.side_angle_rad),
    entry!(Table "corner_radius", "corner point radius", "radius of a corner's points", Jaws::CORNER_RADIUS, table.jaws.corner_radius_m),
    entry!(Table "side_radius", "side point radius", "radius of a side pocket's points", Jaws::SIDE_RADIUS, table.jaws.side_radius_m),
    entry!(Table "corner_shelf", "corner shelf", "drop line of a corner behind its mouth", Jaws::CORNER_SHELF, table.jaws.corner_shelf_m),
    entry!(Table "side_shelf", "side shelf", "drop line of a side pocket behind its mouth", Jaws::SIDE_SHELF, table.jaws.side_shelf_m),
    entry!(Table "rail_height", "rail height", "height of the rails over the cloth", RailTop::HEIGHT, table.rail_top.height_m),
    entry!(Table "rail_setback", "rail setback", "distance of the rails' highest line behind the nose", RailTop::SETBACK, table.rail_top.setback_m),
    entry!(Table "jaw_contact_time", "jaw contact time", "contact time with a jaw", Jaws::CONTACT_TIME, table.jaws.contact_time_s),
    entry!(Ball "ball_diameter", "ball diameter", "ball diameter", Ball::DIAMETER, ball.diameter_m, swept),
    entry!(Ball "ball_mass", "ball mass", "ball mass", Ball::MASS, ball.mass_kg),
    entry!(Cloth "sliding_friction", "sliding friction", "sliding friction of the cloth", Cloth::SLIDING_FRICTION, cloth.sliding_friction, swept),
    entry!(Cloth "rolling_resistance", "rolling resistance", "rolling resistance of the cloth", Cloth::ROLLING_RESISTANCE, cloth.rolling_resistance, swept),
    entry!(Cloth "pivot_deceleration", "pivot deceleration", "pivot deceleration", Cloth::PIVOT_DECELERATION, cloth.pivot_deceleration_rad_s2, swept),
    entry!(Cushion "nose_height", "nose height", "nose height", Cushion::NOSE_HEIGHT, cushion.nose_height_m, swept),
    entry!(Cushion "restitution", "restitution", "restitution at vanishing speed", Cushion::RESTITUTION, cushion.restitution, swept),
    entry!(Cushion "restitution_loss", "restitution loss", "loss of restitution with speed", Cushion::RESTITUTION_LOSS, cushion.restitution_loss_s_m, swept),
    entry!(Cushion "restitution_floor", "restitution floor", "restitution never falls below this", Cushion::RESTITUTION_FLOOR, cushion.restitution_floor),
    entry!(Cushion "nose_friction", "nose friction", "friction at the nose", Cushion::NOSE_FRICTION, cushion.nose_friction, swept),
    NumberEntry {
        section: Section::Cushion,
        name: "impact_cloth_friction",
        title: "cloth friction in the impact",
        meaning: "cloth friction during the impact",
        parameter: Cushion::IMPACT_CLOTH_FRICTION,
        without: Some("the cloth's sliding_friction"),
        is_swept: true,
        get: Equipment::impact_cloth_friction,
        set: |equipment, value| equipment.cushion.impact_cloth_friction = Some(value),
    },
    entry!(Cushion "checked_speed", "checked speed", "speed square to the rail up to which the model was checked", Cushion::CHECKED_SPEED, cushion.checked_speed_m_s),
    entry!(Cushion "contact_time", "contact time", "contact time", Cushion::CONTACT_TIME, cushion.contact_time_s, swept),
    entry!(BallContact "ball_restitution", "restitution between balls", "restitution between balls", BallContact::RESTITUTION, ball_contact.restitution),
    entry!(BallContact "ball_friction_at_0_1", "ball friction at 0.1 m/s", "log-linear law: friction between balls at a slip of 0.1 m/s", BallContact::FRICTION_AT_0_1, ball_contact.friction_at_0_1),
    entry!(BallContact "ball_friction_at_1", "ball friction at 1 m/s", "log-linear law: friction between balls at a slip of 1 m/s", BallContact::FRICTION_AT_1, ball_contact.friction_at_1),
    entry!(BallContact "ball_friction_at_10", "ball friction at 10 m/s", "log-linear law: friction between balls at a slip of 10 m/s", BallContact::FRICTION_AT_10, ball_contact.friction_at_10),
    entry!(BallContact "ball_friction_far", "ball friction at high slip", "exponential law: friction between balls at high slip", BallContact::FRICTION_FAR, ball_contact.friction_far),
    entry!(BallContact "ball_friction_rise", "rise of ball friction", "exponential law: friction at vanishing slip above that", BallContact::FRICTION_RISE, ball_contact.friction_rise),
    entry!(BallContact "ball_friction_fall", "fall of ball friction", "exponential law: rate at which that falls with slip", BallContact::FRICTION_FALL, ball_contact.friction_fall_s_m),
    entry!(Cue "cue_end_mass", "end mass of the cue", "effective mass of the cue's end", Cue::END_MASS, cue.end_mass_kg),
    entry!(Cue "miscue_offset", "miscue offset", "tip offset at which the tip slips off, as a share of the radius", Cue::MISCUE_OFFSET, cue.miscue_offset),
    entry!(Cue "tip_diameter", "tip diameter", "diameter of the tip", CueShape::TIP_DIAMETER, cue.shape.tip_diameter_m),
    entry!(Cue "butt_diameter", "butt diameter", "diameter of the butt", CueShape::BUTT_DIAMETER, cue.shape.butt_diameter_m),
    entry!(Cue "cue_length", "cue length", "length of the cue", CueShape::LENGTH, cue.shape.length_m),
    entry!(Speeds "speed_soft", "soft speed", "the speed that the word soft stands for", SpokenSpeeds::SOFT, speeds.soft_m_s),
    entry!(Speeds "speed_medium", "medium speed", "the speed that the word medium stands for", SpokenSpeeds::MEDIUM, speeds.medium_m_s),
    entry!(Speeds "speed_firm", "firm speed", "the speed that the word firm stands for", SpokenSpeeds::FIRM, speeds.firm_m_s),
    entry!(Whole "gravity", "gravity", "gravity", Equipment::GRAVITY, gravity_m_s2, swept),
];

impl EquipmentNumber {
    /// All of them, in the order of a profile.
    pub fn all() -> impl Iterator<Item = Self> + Clone {
        (0..NUMBERS.len()).filter_map(|at| u8::try_from(at).ok().map(Self))
    }

    /// The number of this name.
    pub fn named(name: &str) -> Option<Self> {
        Self::all().find(|number| number.name() == name)
    }

    const fn entry(self) -> &'static NumberEntry {
        &NUMBERS[self.0 as usize]
    }

    /// The section that it belongs to.
    pub const fn section(self) -> Section {
        self.entry().section
    }

    /// The name in scripts, sweeps and files.
    pub const fn name(self) -> &'static str {
        self.entry().name
    }

    /// The name with its SI unit, such as `ball_diameter_m`: a column of a file, a key of JSON.
    pub fn column(self) -> String {
        column_name(self.name(), self.parameter().dimension)
    }

    /// In a word or two.
    pub const fn title(self) -> &'static str {
        self.entry().title
    }

    /// Meaning, in a few words.
    pub const fn meaning(self) -> &'static str {
        self.entry().meaning
    }

    /// Its key in its section of a profile, kind of quantity and range.
    pub const fn parameter(self) -> Parameter {
        self.entry().parameter
    }

    /// The words for its absence, where it may be left out altogether.
    pub const fn without(self) -> Option<&'static str> {
        self.entry().without
    }

    /// The value that is usual, SI; nothing where each piece of equipment has its own.
    pub fn usual(self) -> Option<f64> {
        Some(self.get(&Equipment::unset())).filter(|value| value.is_finite())
    }

    /// True for a number that the bank of a lone ball depends on: a sweep can vary it.
    pub const fn is_swept(self) -> bool {
        self.entry().is_swept
    }

    /// Its value, SI.
    pub fn get(self, equipment: &Equipment) -> f64 {
        (self.entry().get)(equipment)
    }

    /// Sets it, SI.
    pub fn set(self, equipment: &mut Equipment, value: f64) {
        (self.entry().set)(equipment, value);
    }

    /// Checks the value that equipment has.
    pub(super) fn check(self, equipment: &Equipment) -> Result<f64, OutOfRange> {
        self.entry().parameter.check(self.get(equipment))
    }
}

impl Equipment {
    /// Equipment with its usual numbers, the others not yet numbers; for readers that set them.
    pub fn unset() -> Self {
        const NONE: f64 = f64::NAN;
        Self {
            name: String::new(),
            table: Table {
                length_m: NONE,
                width_m: NONE,
                corner_mouth_m: NONE,
                side_mouth_m: NONE,
                sight_setback_m: NONE,
                jaws: Jaws::USUAL,
                rail_top: RailTop::USUAL,
            },
            ball: Ball { diameter_m: NONE, mass_kg: NONE },
            cloth: Cloth {
                sliding_friction: NONE,
                rolling_resistance: NONE,
                pivot_deceleration_rad_s2: NONE,
            },
            cushion: Cushion {
                rail_model: super::RailModel::default(),
                nose_height_m: NONE,
                restitution: NONE,
                restitution_loss_s_m: NONE,
                restitution_floor: Cushion::USUAL_RESTITUTION_FLOOR,
                nose_friction: NONE,
                impact_cloth_friction: None,
                checked_speed_m_s: Cushion::USUAL_CHECKED_SPEED_M_S,
                contact_time_s: Cushion::USUAL_CONTACT_TIME_S,
            },
            ball_contact: BallContact::USUAL,
            cue: Cue::USUAL,
            speeds: SpokenSpeeds::USUAL,
            gravity_m_s2: Self::USUAL_GRAVITY_M_S2,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn names_and_columns_are_unique_and_plain() {
        let names: BTreeSet<&str> = EquipmentNumber::all().map(EquipmentNumber::name).collect();
        let columns: BTreeSet<String> =
            EquipmentNumber::all().map(EquipmentNumber::column).collect();
        assert_eq!((names.len(), columns.len()), (NUMBERS.len(), NUMBERS.len()));
        let plain =
            |letter: char| letter.is_ascii_lowercase() || letter.is_ascii_digit() || letter == '_';
        assert!(columns.iter().all(|name| name.chars().all(plain)), "{columns:?}");
    }

    #[test]
    fn a_number_that_is_set_is_the_number_that_is_read_and_no_other() {
        for number in EquipmentNumber::all() {
            let mut equipment = Equipment::unset();
            let before: Vec<u64> =
                EquipmentNumber::all().map(|one| one.get(&equipment).to_bits()).collect();
            number.set(&mut equipment, 0.123);
            for (other, before) in EquipmentNumber::all().zip(before) {
                // Cloth friction of the impact follows sliding friction until it is set.
                let follows = number.name() == "sliding_friction" && other.without().is_some();
                let now = other.get(&equipment).to_bits();
                assert_eq!(
                    now != before,
                    other == number || follows,
                    "{} {}",
                    number.name(),
                    other.name()
                );
            }
        }
    }
}
