//! `map:draw_difference { of, between, x, y }`: where two values of something answer differently.

use super::PictureAxes;
use super::banks::{of_rule, picture};
use super::look::headline;
use super::map::MapLayout;
use crate::fault::Fault;
use crate::lua::options::{Options, choice, list};
use crate::picture::DifferencePicture;
use crate::record::Picture;
use crate::scenario::inputs::{NumberOf, SpeedOf, same, spoken_on};
use crate::scenario::map::Map;
use crate::scenario::point_selection::{AxisOrRules, PointSelection};
use crate::scenario::session::Session;
use crate::scenario::undrawn;
use crate::scenario::value_choice::{EquipmentName, RuleName, Word};
use crate::telling::capital;
use mlua::{Lua, Value};
use railproof_engine::sweep::Input;

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub fn draw_difference(lua: &Lua, this: &Map, argument: Value) -> mlua::Result<()> {
    const KEYS: &[&str] = &[
        "of", "between", "x", "y", "panels", "rule", "title", "subtitle", "legend", "size", "name",
    ];
    let options = Options::open(lua, "draw_difference", &argument, KEYS)?;
    let picked = of_rule(&options, &this.picked)?;
    let axes = PictureAxes::of(&picked);
    let at = axes.required(&options, "of")?;
    let of = picked.at(at);
    let (first, second) = two_places(&options, &picked, of)?;
    let layout = MapLayout::read(&options, &axes)?;
    if layout.shown().contains(&at) {
        return Err(options.complain("of", "`of` is shown as an axis or panels already").into());
    }
    let maps = [first, second].map(|place| {
        let one = picked.only(of, place);
        let drawn = picture(&options, this, &one, &PictureAxes::of(&one), &layout)?;
        Ok::<_, Fault>((picked.say(of, place), drawn))
    });
    let [first, second] = maps;
    let ((first, mut first_map), (second, second_map)) = (first?, second?);
    // What differs is said by the two names, not by the conditions.
    first_map.subtitles.retain(|line| second_map.subtitles.contains(line));
    let asked = format!("Where {first} and {second} disagree");
    let mut drawn =
        DifferencePicture::between(&asked, (&first, &first_map), (&second, &second_map))
            .map_err(|error| options.complain_of_call(error.to_string()))?;
    let (differ, all) = drawn.differing();
    let found = match differ {
        0 => format!("{first} and {second} say the same of all {all}."),
        _ => format!("{first} and {second} differ on {differ} of {all}."),
    };
    let found = capital(&found);
    (drawn.title, drawn.subtitles) = headline(&options, &found, asked, drawn.subtitles)?;
    drawn.notes = picked.telling().footer();
    Session::of(lua)?.add_drawing(&options, "difference", Picture::Difference(drawn))?;
    undrawn::strike_out(lua, this);
    Ok(())
}

/// The two values that are held against each other.
fn two_places(
    options: &Options,
    picked: &PointSelection,
    of: AxisOrRules,
) -> Result<(usize, usize), Fault> {
    let places = picked.places(of);
    let said = |place: &usize| picked.say(of, *place);
    if !options.has("between") {
        return match places {
            [first, second] => Ok((*first, *second)),
            _ => Err(options
                .complain(
                    "of",
                    format!(
                        "`{}` has {} values here; two are compared",
                        picked.name_of(of),
                        places.len()
                    ),
                )
                .with_hint("name the two: between = { …, … }")),
        };
    }
    let wanted = chosen(options, picked, of)?;
    match wanted.as_slice() {
        [Some(first), Some(second)] if first != second => Ok((*first, *second)),
        [a, b] if a.is_some() && b.is_some() => {
            Err(options.complain("between", "`between` names the same value twice"))
        }
        [_, _] => {
            let at = wanted.iter().position(Option::is_none).unwrap_or_default();
            Err(options
                .complain_of_item(
                    "between",
                    at + 1,
                    format!("`{}` does not have that value here", picked.name_of(of)),
                )
                .with_hint(format!(
                    "it has: {}",
                    places.iter().map(said).collect::<Vec<_>>().join(", ")
                )))
        }
        _ => Err(options.complain("between", "`between` takes two values")),
    }
}

fn chosen(
    options: &Options,
    picked: &PointSelection,
    of: AxisOrRules,
) -> Result<Vec<Option<usize>>, Fault> {
    let places = picked.places(of);
    let named = |words: Vec<String>, name: &dyn Fn(usize) -> String| {
        words.iter().map(|word| places.iter().copied().find(|at| name(*at) == *word)).collect()
    };
    let AxisOrRules::Axis(at) = of else {
        let words = options.required("between", list(RuleName))?;
        return Ok(named(words, &|place| picked.say(of, place)));
    };
    let text = picked.text(at);
    let tick = |place: usize| text.ticks[place].clone();
    let numbers = match (text.input, text.input.parameter()) {
        (Input::Equipment, _) => {
            return Ok(named(options.required("between", list(EquipmentName))?, &tick));
        }
        (_, None) => return Ok(named(options.required("between", list(Word))?, &tick)),
        (Input::Roll, _) if text.by_word() => {
            options.required("between", list(choice(crate::scenario::inputs::SPINS)))?
        }
        (input @ (Input::Speed | Input::Lag), _) => {
            let written =
                options.required("between", list(SpeedOf(input, spoken_on(picked.plan()))))?;
            written.into_iter().map(|one| one.si).collect()
        }
        (_, Some(parameter)) => {
            let written = options.required("between", list(NumberOf(parameter)))?;
            written.into_iter().map(|one| one.si).collect()
        }
    };
    let values = &picked.plan().axes()[at].values;
    let found = |number: &f64| {
        places
            .iter()
            .copied()
            .find(|place| values.number(*place).is_some_and(|known| same(known, *number)))
    };
    Ok(numbers.iter().map(found).collect())
}
