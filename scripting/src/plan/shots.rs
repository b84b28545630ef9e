//! Whole shots as plain data: a layout's text, the equipment that it names, and the keys that vary in it.

use super::EQUIPMENT;
use super::shot_axes::{ShotAxis, ShotValues, digits, taken};
use crate::fault::Fault;
use crate::layout::{EngineChoice, Layout, PICTURE_KEYS, VariedLayout, check_values, read_with};
use crate::lua::WorkerFunction;
use crate::profile::find_profile;
use crate::yaml::InputText;
use railproof_engine::equipment::Equipment;
use railproof_engine::world::World;
use serde_json::json;
use std::cell::RefCell;
use std::collections::BTreeMap;
use std::path::Path;
use std::sync::Arc;

/// The thing that makes the shot of a point.
#[derive(Debug, Clone)]
enum ShotSource {
    /// A layout, some of whose keys vary.
    Layout(VariedLayout),
    /// A function of the point.
    Function(WorkerFunction),
}

/// Whole shots over keys of one layout, or over what a function takes.
#[derive(Debug, Clone)]
pub struct ShotsPlan {
    source: ShotSource,
    /// The equipment that the layout names or the function is given, by its names.
    equipment: BTreeMap<String, Equipment>,
    axes: Vec<ShotAxis>,
}

/// A fault of a plan of shots, and the place of the axis that it is about.
pub type AxisFault = (Option<usize>, Fault);

impl ShotsPlan {
    /// A layout's text, which messages call `label`; a profile's path in it is relative to `folder`.
    ///
    /// # Errors
    /// A layout that can't be played, without a pocket to judge its shot by, or for the stepped engine; an
    /// axis that names no plain value in it, or has a value that its key can't take.
    pub fn new(
        label: &str,
        text: &str,
        folder: &Path,
        axes: Vec<ShotAxis>,
    ) -> Result<Self, AxisFault> {
        let found = RefCell::new(BTreeMap::new());
        let named = |reference: &str| {
            let one = find_profile(reference, folder)?;
            found.borrow_mut().insert(reference.to_owned(), one.clone());
            Ok(one)
        };
        let varied = checked(label, text, &axes, &named)?;
        Ok(Self { source: ShotSource::Layout(varied), equipment: found.into_inner(), axes })
    }

    /// The same from the equipment that is known.
    ///
    /// # Errors
    /// As [`Self::new`].
    pub fn of_parts(
        label: &str,
        text: &str,
        equipment: BTreeMap<String, Equipment>,
        axes: Vec<ShotAxis>,
    ) -> Result<Self, AxisFault> {
        let varied = checked(label, text, &axes, &|reference| of_name(&equipment, reference))?;
        Ok(Self { source: ShotSource::Layout(varied), equipment, axes })
    }

    /// Shots that a function makes, which is given the equipment too.
    ///
    /// # Errors
    /// Axes whose names can't stand beside a row's own, in words.
    pub fn of_function(
        function: WorkerFunction,
        equipment: BTreeMap<String, Equipment>,
        axes: Vec<ShotAxis>,
    ) -> Result<Self, String> {
        if axes.is_empty() {
            return Err("nothing varies".to_owned());
        }
        for (at, axis) in axes.iter().enumerate() {
            let name = axis.name.as_str();
            let fits = |letter: char| letter.is_ascii_alphanumeric() || letter == '_';
            if !name.starts_with(|letter: char| letter.is_ascii_alphabetic())
                || !name.chars().all(fits)
                || taken().any(|own| own == name)
                || axes[..at].iter().any(|other| other.name == name)
            {
                return Err(format!("`{name}` can't name what varies"));
            }
        }
        Ok(Self { source: ShotSource::Function(function), equipment, axes })
    }

    /// The function that makes the shots, if one does.
    pub const fn function(&self) -> Option<&WorkerFunction> {
        match &self.source {
            ShotSource::Layout(_) => None,
            ShotSource::Function(function) => Some(function),
        }
    }

    /// The equipment that the layout names or the function is given, by its names.
    pub const fn equipment(&self) -> &BTreeMap<String, Equipment> {
        &self.equipment
    }

    /// The axes; the last varies fastest.
    pub fn axes(&self) -> &[ShotAxis] {
        &self.axes
    }

    /// True when the equipment is a key that varies, and so a column of its own.
    pub fn varies_equipment(&self) -> bool {
        self.axes.iter().any(|axis| axis.name == EQUIPMENT)
    }

    /// The text of the layout or of the function.
    pub fn text(&self) -> &str {
        match &self.source {
            ShotSource::Layout(varied) => &varied.source().text,
            ShotSource::Function(function) => function.text(),
        }
    }

    /// The number of points.
    pub fn size(&self) -> u128 {
        let counts = self.axes.iter().map(|axis| axis.values.len() as u128);
        counts.fold(1, u128::saturating_mul)
    }

    /// The layout of a point, and its table: the known one where it is the same.
    ///
    /// # Errors
    /// A layout that can't be; shots that a function makes.
    pub fn layout(
        &self,
        point: u64,
        known: Option<&Arc<World>>,
    ) -> Result<(Layout, Arc<World>), Fault> {
        let ShotSource::Layout(varied) = &self.source else {
            return Err(Fault::bad_input("a function makes these shots"));
        };
        let values: Vec<String> = digits(&self.axes, point)
            .into_iter()
            .zip(&self.axes)
            .map(|(digit, axis)| axis.values.written(digit))
            .collect();
        read_with(&varied.with(&values), &|reference| of_name(&self.equipment, reference), known)
    }

    /// The part of a plan that decides its shots, as JSON.
    pub(super) fn matters(&self) -> serde_json::Value {
        json!({ self.source_key(): self.text(), "equipment": self.equipment, "over": self.axes })
    }

    /// The key of a plan's file at which the text stands.
    pub(super) const fn source_key(&self) -> &'static str {
        match &self.source {
            ShotSource::Layout(_) => "layout",
            ShotSource::Function(_) => "shot",
        }
    }
}

fn of_name(known: &BTreeMap<String, Equipment>, name: &str) -> Result<Equipment, Fault> {
    known.get(name).cloned().ok_or_else(|| {
        Fault::bad_input(format!("the plan has no equipment `{name}`"))
            .with_hint("make the plan again from its scenario")
    })
}

/// The keys in the text, once the layout as it stands can be played and judged.
fn checked(
    label: &str,
    text: &str,
    axes: &[ShotAxis],
    named: &dyn Fn(&str) -> Result<Equipment, Fault>,
) -> Result<VariedLayout, AxisFault> {
    let whole = |fault| (None, fault);
    let source = InputText::new(label, text).map_err(whole)?;
    let (layout, _) = read_with(&source, named, None).map_err(whole)?;
    let varied = VariedLayout::new(source, axes.iter().map(|axis| axis.name.as_str()))?;
    let refused = |why: &str, hint: &str| {
        let fault = Fault::bad_input(why).with_hint(hint);
        Err((None, fault.at(varied.source().beginning())))
    };
    if layout.target.is_none() {
        return refused(
            "this layout has no pocket, so nothing can be said of the shot",
            "give it a `target`",
        );
    }
    if layout.engine == EngineChoice::Stepped {
        return refused(
            "a sweep of shots is played event by event",
            "take `engine` out of the layout",
        );
    }
    for (at, axis) in axes.iter().enumerate() {
        check_axis(&varied, at, axis, named).map_err(|fault| (Some(at), fault))?;
    }
    Ok(varied)
}

/// Refuses an axis with a value that its key can't take.
fn check_axis(
    varied: &VariedLayout,
    at: usize,
    axis: &ShotAxis,
    named: &dyn Fn(&str) -> Result<Equipment, Fault>,
) -> Result<(), Fault> {
    if PICTURE_KEYS.contains(&axis.name.as_str()) {
        let name = &axis.name;
        return Err(Fault::bad_input(format!(
            "`{name}` only changes the picture: no shot depends on it"
        ))
        .with_hint("vary what is played, such as [\"stroke.speed\"]"));
    }
    for place in axis.values.outermost() {
        let value = axis.values.written(place);
        check_values(&varied.with_one(at, value.clone())).map_err(|fault| {
            Fault::bad_input(format!("{value} can't stand at `{}`: {}", axis.name, fault.message))
                .with_hint(format!("the layout has `{}` there", varied.written(at)))
        })?;
    }
    match &axis.values {
        ShotValues::Words(words) if axis.name == EQUIPMENT => {
            words.iter().try_for_each(|word| named(word).map(drop))
        }
        _ => Ok(()),
    }
}
