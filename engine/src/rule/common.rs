//! Rules in common use, by name. Common practice, no source.

use super::{NamedRule, Rule, RuleError};
use crate::rail::Reading;

/// All of them: seven straight ones, and equal angles.
///
/// # Errors
/// Never: their numbers are finite.
pub fn common_rules() -> Result<Vec<NamedRule>, RuleError> {
    let groove = Reading::Groove;
    let straight = [
        ("2.2 times", 2.2, 0.0, groove),
        ("twice and a third of a diamond", 2.0, 1.0 / 3.0, groove),
        ("twice through the diamonds", 2.0, 0.0, Reading::Sight),
        ("seven thirds", 7.0 / 3.0, 0.0, groove),
        ("2.25 times", 2.25, 0.0, groove),
        ("2.1 times", 2.1, 0.0, groove),
        ("twice and half a diamond", 2.0, 0.5, groove),
    ];
    let mut rules = straight
        .into_iter()
        .map(|(name, slope, offset, reading)| {
            let rule = Rule::linear(slope, offset, reading)?;
            Ok(NamedRule { name: name.to_owned(), rule })
        })
        .collect::<Result<Vec<_>, RuleError>>()?;
    rules.push(NamedRule { name: "equal angles".to_owned(), rule: Rule::mirror() });
    Ok(rules)
}
