//! The sections of a profile, read from YAML.

use super::fields::{
    BALL, BALL_CONTACT, CLOTH, CUE, CUSHION, Field, GRAVITY, LAW, MODEL, Otherwise, TABLE, word_of,
};
use crate::yaml::{
    Entries, Mapping, Quantity, Reader, Refusal, Text, Word, known_keys, read_quantity,
};
use railproof_engine::equipment::{
    Ball, BallContact, Cloth, Cue, CueShape, Cushion, FrictionLaw, Jaws, RailModel, RailTop, Table,
};
use serde::de::MapAccess;

const KEYS: [&str; 9] =
    ["name", "about", "table", "ball", "cloth", "cushion", "ball_contact", "cue", "gravity"];
const MODELS: [&str; RailModel::ALL.len()] = {
    let mut names = [""; RailModel::ALL.len()];
    let mut at = 0;
    while at < names.len() {
        names[at] = RailModel::ALL[at].name();
        at += 1;
    }
    names
};
const LAWS: [&str; FrictionLaw::ALL.len()] = {
    let mut names = [""; FrictionLaw::ALL.len()];
    let mut at = 0;
    while at < names.len() {
        names[at] = FrictionLaw::ALL[at].name();
        at += 1;
    }
    names
};

/// What a profile holds; every part is valid in itself.
#[derive(Debug, Clone, Default)]
pub(crate) struct Sections {
    pub(crate) name: Option<String>,
    pub(crate) about: Option<String>,
    pub(crate) table: Option<Table>,
    pub(crate) ball: Option<Ball>,
    pub(crate) cloth: Option<Cloth>,
    pub(crate) cushion: Option<Cushion>,
    pub(crate) ball_contact: Option<BallContact>,
    pub(crate) cue: Option<Cue>,
    pub(crate) gravity_m_s2: Option<f64>,
}

/// Reads a profile's top level.
pub(crate) struct SectionEntries {
    sections: Sections,
    /// A profile inside another file may go without a name.
    name_required: bool,
}

impl SectionEntries {
    pub(crate) fn new(name_required: bool) -> Self {
        Self { sections: Sections::default(), name_required }
    }
}

impl<'de> Entries<'de> for SectionEntries {
    type Value = Sections;

    fn what(&self) -> String {
        "a profile".to_owned()
    }

    fn check_key(&self, key: &str) -> Result<(), Refusal> {
        known_keys("a profile", key, KEYS.into_iter())
    }

    fn entry<A: MapAccess<'de>>(
        &mut self,
        key: &str,
        map: &mut A,
        reader: &Reader,
    ) -> Result<(), A::Error> {
        let into = &mut self.sections;
        match key {
            "name" => {
                let seed = Text { reader, name: "name", one_line: true };
                into.name = Some(map.next_value_seed(seed)?);
            }
            "about" => {
                let seed = Text { reader, name: "about", one_line: false };
                into.about = Some(map.next_value_seed(seed)?);
            }
            "table" => into.table = Some(table(&map.next_value_seed(fields(reader, key, &TABLE))?)),
            "ball" => into.ball = Some(ball(&map.next_value_seed(fields(reader, key, &BALL))?)),
            "cloth" => into.cloth = Some(cloth(&map.next_value_seed(fields(reader, key, &CLOTH))?)),
            "cushion" => {
                into.cushion = Some(cushion(&map.next_value_seed(fields(reader, key, &CUSHION))?));
            }
            "ball_contact" => {
                let values = map.next_value_seed(fields(reader, key, &BALL_CONTACT))?;
                into.ball_contact = Some(ball_contact(&values));
            }
            "cue" => into.cue = Some(cue(&map.next_value_seed(fields(reader, key, &CUE))?)),
            _ => {
                let seed = Quantity { reader, parameter: GRAVITY.parameter };
                into.gravity_m_s2 = Some(map.next_value_seed(seed)?);
            }
        }
        Ok(())
    }

    fn finish(self) -> Result<Sections, Refusal> {
        if self.name_required && self.sections.name.is_none() {
            return Err(Refusal::new("the profile has no `name`")
                .with_hint("begin with a line such as `name: Our table`"));
        }
        Ok(self.sections)
    }
}

/// Values of one section's fields, in SI units and in the fields' order.
struct Values<const N: usize> {
    numbers: [Option<f64>; N],
    model: RailModel,
    law: FrictionLaw,
}

impl<const N: usize> Values<N> {
    /// The value of a field that is required or has a default.
    fn get(&self, index: usize) -> f64 {
        // `finish` has refused sections where it is absent; NaN would be refused again by the
        // engine's own check.
        self.numbers[index].unwrap_or(f64::NAN)
    }
}

struct FieldEntries<'f, const N: usize> {
    section: String,
    fields: &'f [Field; N],
    values: Values<N>,
}

fn fields<'r, 'f, const N: usize>(
    reader: &'r Reader,
    section: &str,
    fields: &'f [Field; N],
) -> Mapping<'r, FieldEntries<'f, N>> {
    let values =
        Values { numbers: [None; N], model: RailModel::default(), law: FrictionLaw::default() };
    Mapping { reader, entries: FieldEntries { section: section.to_owned(), fields, values } }
}

impl<const N: usize> FieldEntries<'_, N> {
    fn title(&self) -> String {
        format!("the `{}` section", self.section)
    }

    fn word(&self) -> Option<&'static str> {
        word_of(&self.section).map(|(word, ..)| word)
    }
}

impl<'de, const N: usize> Entries<'de> for FieldEntries<'_, N> {
    type Value = Values<N>;

    fn what(&self) -> String {
        self.title()
    }

    fn check_key(&self, key: &str) -> Result<(), Refusal> {
        let names = self.fields.iter().map(|field| field.parameter.name).chain(self.word());
        known_keys(&self.title(), key, names)
    }

    fn entry<A: MapAccess<'de>>(
        &mut self,
        key: &str,
        map: &mut A,
        reader: &Reader,
    ) -> Result<(), A::Error> {
        if let Some(index) = self.fields.iter().position(|field| field.parameter.name == key) {
            let seed = Quantity { reader, parameter: self.fields[index].parameter };
            self.values.numbers[index] = Some(map.next_value_seed(seed)?);
        } else if key == MODEL {
            let seed = Word { reader, name: MODEL, words: &MODELS };
            self.values.model = RailModel::ALL[map.next_value_seed(seed)?];
        } else {
            let seed = Word { reader, name: LAW, words: &LAWS };
            self.values.law = FrictionLaw::ALL[map.next_value_seed(seed)?];
        }
        Ok(())
    }

    fn finish(mut self) -> Result<Values<N>, Refusal> {
        let mut missing = Vec::new();
        for (field, value) in self.fields.iter().zip(&mut self.values.numbers) {
            match field.otherwise {
                Otherwise::Required if value.is_none() => missing.push(field.parameter.name),
                Otherwise::Value(text) if value.is_none() => {
                    *value = Some(read_quantity(text, &field.parameter)?);
                }
                _ => {}
            }
        }
        if missing.is_empty() {
            return Ok(self.values);
        }
        Err(Refusal::new(format!("{} has no `{}`", self.title(), missing.join("` and no `"))))
    }
}

fn table(values: &Values<{ TABLE.len() }>) -> Table {
    Table {
        length_m: values.get(0),
        width_m: values.get(1),
        corner_mouth_m: values.get(2),
        side_mouth_m: values.get(3),
        sight_setback_m: values.get(4),
        jaws: Jaws {
            corner_angle_rad: values.get(5),
            side_angle_rad: values.get(6),
            corner_radius_m: values.get(7),
            side_radius_m: values.get(8),
            corner_shelf_m: values.get(9),
            side_shelf_m: values.get(10),
            contact_time_s: values.get(13),
        },
        rail_top: RailTop { height_m: values.get(11), setback_m: values.get(12) },
    }
}

fn ball(values: &Values<{ BALL.len() }>) -> Ball {
    Ball { diameter_m: values.get(0), mass_kg: values.get(1) }
}

fn cloth(values: &Values<{ CLOTH.len() }>) -> Cloth {
    Cloth {
        sliding_friction: values.get(0),
        rolling_resistance: values.get(1),
        pivot_deceleration_rad_s2: values.get(2),
    }
}

fn cushion(values: &Values<{ CUSHION.len() }>) -> Cushion {
    Cushion {
        model: values.model,
        nose_height_m: values.get(0),
        restitution: values.get(1),
        restitution_loss_s_m: values.get(2),
        restitution_floor: values.get(3),
        friction: values.get(4),
        cloth_friction: values.numbers[5],
        checked_speed_m_s: values.get(6),
        contact_time_s: values.get(7),
    }
}

fn ball_contact(values: &Values<{ BALL_CONTACT.len() }>) -> BallContact {
    BallContact {
        restitution: values.get(0),
        friction_law: values.law,
        friction_at_0_1: values.get(1),
        friction_at_1: values.get(2),
        friction_at_10: values.get(3),
        friction_far: values.get(4),
        friction_rise: values.get(5),
        friction_fall_s_m: values.get(6),
    }
}

fn cue(values: &Values<{ CUE.len() }>) -> Cue {
    Cue {
        end_mass_kg: values.get(0),
        miscue_offset: values.get(1),
        shape: CueShape {
            tip_diameter_m: values.get(2),
            butt_diameter_m: values.get(3),
            length_m: values.get(4),
        },
    }
}
