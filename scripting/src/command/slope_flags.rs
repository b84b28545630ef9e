//! The flags of the rule start = slope × contact + offset.

use super::flags::number;
use crate::fault::Fault;
use railproof_engine::rail::Reading;
use railproof_engine::rule::Rule;

/// The rule's numbers.
#[derive(Debug, Clone, clap::Args)]
pub struct SlopeArgs {
    /// The rule start = slope × contact + offset.
    #[arg(long, value_name = "NUMBER", allow_hyphen_values = true, default_value = "2.2")]
    pub slope: String,
    /// The rule's offset, in diamonds.
    #[arg(long, value_name = "NUMBER", allow_hyphen_values = true, default_value = "0")]
    pub offset: String,
}

impl SlopeArgs {
    /// The rule, its numbers read so.
    ///
    /// # Errors
    /// A [`Fault`] that names the flag.
    pub fn rule(&self, reading: Reading) -> Result<Rule, Fault> {
        let slope = number("--slope", &self.slope, None)?;
        let offset = number("--offset", &self.offset, None)?;
        Rule::linear(slope, offset, reading)
            .map_err(|error| Fault::bad_input(format!("`--slope` and `--offset`: {error}")))
    }
}
