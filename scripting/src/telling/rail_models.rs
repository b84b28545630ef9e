//! The rail models that measured banks speak for.

use super::wording::count;
use crate::fitting::{FitQuestion, RailModelFit};
use railproof_engine::units::short_number;
use std::fmt::Write;

/// A ratio of chances below it tells two models not apart; H. Jeffreys 1961, *Theory of Probability*, appendix B:
/// "not worth more than a bare mention" to 3.2, strong from 10.
const APART: f64 = 10.0;
/// Greater ratios are told as such.
const GREATEST: f64 = 1000.0;
/// A pocket's mouth leaves some 3 cm to either side of its middle: half of that matters. Common practice.
const MATTERS_M: f64 = 0.015;

/// What banks say of the rail models, the likeliest first.
pub fn rail_model_sentences(question: &FitQuestion, fits: &[RailModelFit]) -> String {
    let Some(best) = fits.first() else { return String::new() };
    let banks = question.measurements.banks.len();
    if banks == 0 {
        return "No bank was measured, so no rail model is likelier than another.\n".to_owned();
    }
    let apart = |fit: &RailModelFit| {
        let error = best.error.hypot(fit.error);
        best.log_evidence - fit.log_evidence - 2.0 * error > libm::log(APART)
    };
    let (left, right): (Vec<&RailModelFit>, Vec<&RailModelFit>) =
        fits[1..].iter().partition(|fit| apart(fit));
    let mut text = if right.is_empty() {
        format!("These banks speak for the {} rail model.\n", best.model.name())
    } else {
        let names: Vec<&str> = right.iter().map(|fit| fit.model.name()).collect();
        format!(
            "{} not tell {} from {}.\n",
            count(banks as u64, "bank does", "banks do"),
            best.model.name(),
            names.join(" or ")
        )
    };
    for fit in left {
        let ratio = libm::exp(best.log_evidence - fit.log_evidence);
        let times = if ratio > GREATEST {
            format!("more than {}", short_number(GREATEST, 0))
        } else {
            format!("some {}", short_number(ratio.round(), 0))
        };
        let _ = writeln!(
            text,
            "They are {times} times as likely under it as under {}.",
            fit.model.name()
        );
    }
    text += "Model, logarithm of the banks' chance under it, the same with each bank predicted by the others, best \
             slope, and where contact 2 from 4.4 comes to from 12 in off at 3 m/s, + long:\n";
    for fit in fits {
        let place = fit.off_rail_m.map_or("nowhere".to_owned(), |place| {
            format!("{} mm", short_number(1000.0 * place.middle, 0))
        });
        let _ = writeln!(
            text,
            "  {}: {} ± {}, {}, {} ({} to {}), {place}",
            fit.model.name(),
            short_number(fit.log_evidence, 1),
            short_number(2.0 * fit.error, 1),
            short_number(fit.left_out, 1),
            short_number(fit.slope.middle, 2),
            short_number(fit.slope.ninety.0, 2),
            short_number(fit.slope.ninety.1, 2),
        );
    }
    text + &at_the_pocket(fits)
}

/// Does it matter at the pocket which of the models it is, now that each has seen the banks?
fn at_the_pocket(fits: &[RailModelFit]) -> String {
    let places = || fits.iter().filter_map(|fit| fit.off_rail_m).map(|place| place.middle);
    let (least, most) =
        places().fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), it| (a.min(it), b.max(it)));
    if most < least {
        return String::new();
    }
    let apart =
        format!("there the models are {} mm apart", short_number(1000.0 * (most - least), 0));
    if most - least > MATTERS_M {
        format!(
            "It matters at the pocket: {apart}. Measure banks off the rail to tell them apart.\n"
        )
    } else {
        format!("It hardly matters at the pocket: {apart}.\n")
    }
}
