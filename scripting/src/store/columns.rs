//! What an input is called and how its values are written in files.

use railproof_engine::sweep::{Input, Plan};

/// A column's name: the input with its SI unit, such as `off_rail_m`.
pub fn column_name(input: Input) -> String {
    let name = input.name();
    let unit = match input {
        Input::Contact | Input::Start => "diamonds".to_owned(),
        Input::Lag => "table_lengths".to_owned(),
        _ => input.parameter().map_or_else(String::new, |parameter| {
            parameter.dimension.si_symbol().replace('/', "_").replace('^', "")
        }),
    };
    if unit.is_empty() { name.to_owned() } else { format!("{name}_{unit}") }
}

/// The value of one axis, numbers exactly as they are (shortest text that reads back the same).
pub(super) fn value(plan: &Plan, axis: usize, digit: usize) -> String {
    let values = &plan.axes()[axis].values;
    match values.number(digit) {
        Some(number) => number.to_string(),
        None => values.word(digit).unwrap_or_default().to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_input_has_its_own_column_without_signs() {
        let names: Vec<String> = Input::ALL.into_iter().map(column_name).collect();
        let mut unique = names.clone();
        unique.sort();
        unique.dedup();
        assert_eq!(unique.len(), names.len());
        for name in &names {
            assert!(
                name.chars().all(|letter| letter.is_ascii_lowercase()
                    || letter.is_ascii_digit()
                    || letter == '_'),
                "{name}"
            );
        }
        assert_eq!(column_name(Input::PivotDeceleration), "pivot_deceleration_rad_s2");
        assert_eq!(column_name(Input::RestitutionLoss), "restitution_loss_s_m");
        assert_eq!(column_name(Input::Contact), "contact_diamonds");
    }
}
