//! The answer in the words of a coach.

use super::reason;
use super::speeds::speeds_sentence;
use super::wording::{millimetres, percent};
use crate::playing::{BankFindings, BankQuestion};
use railproof_engine::bank::{BankEnding, BankVerdict};
use railproof_engine::rail::BankGeometry;
use railproof_engine::rule::Rule;
use railproof_engine::units::{FOOT_M, INCH_M, short_number};

/// The whole answer, one thought to a line.
pub fn bank_sentences(question: &BankQuestion, findings: &BankFindings) -> String {
    let verdict = findings.outcome.verdict();
    let mut lines = vec![format!(
        "{}{}, contact {} from {} {}.",
        launch(question),
        spins(question),
        short_number(question.line.contact, 3),
        short_number(question.line.start, 3),
        happening(question, findings, verdict)
    )];
    // Where the sentence names the miss.
    if matches!(verdict, BankVerdict::Long | BankVerdict::Short | BankVerdict::TouchesPoint(_)) {
        lines.push(findings.why.as_ref().map_or_else(reason::no_sum, reason::sum));
    }
    lines.push(speeds_sentence(findings.holding.as_ref(), question.launch.speed_m_s));
    lines.extend(aim(question, findings));
    lines.extend(findings.cautions(question).lines());
    let geometry = question.bank.geometry();
    let rule = question.rule.as_ref().map_or_else(|| "start given".to_owned(), Rule::name);
    lines.push(format!(
        "({}; {} rail to the {} pocket; {}; {} rail model.)",
        question.bank.equipment().name,
        geometry.rail.name(),
        geometry.pocket.name(),
        rule,
        question.bank.model().name()
    ));
    lines.join("\n")
}

fn launch(question: &BankQuestion) -> String {
    let off_rail = question.launch.off_rail_m;
    let place = if off_rail == 0.0 {
        "Frozen to the rail".to_owned()
    } else if (off_rail - FOOT_M).abs() < 1e-9 {
        "A foot off the rail".to_owned()
    } else {
        format!("{} off the rail", question.off_rail_text)
    };
    let speed = &question.speed_text;
    if speed.ends_with("m/s") {
        format!("{place} at {speed}")
    } else {
        format!("{place} at {speed} ({:.2} m/s)", question.launch.speed_m_s)
    }
}

fn spins(question: &BankQuestion) -> String {
    let launch = &question.launch;
    let roll = match launch.roll {
        0.0 => None,
        1.0 => Some("rolling".to_owned()),
        roll if roll > 0.0 => Some(format!("with {} of its roll", percent(roll))),
        roll => Some(format!("with draw, {} of the roll backwards", percent(-roll))),
    };
    let side = match launch.side {
        0.0 => None,
        side if side > 0.0 => Some(format!("with running side ({})", percent(side))),
        side => Some(format!("with reverse side ({})", percent(-side))),
    };
    let aim = (launch.aim_error_rad != 0.0).then(|| {
        let towards = if launch.aim_error_rad > 0.0 { "long" } else { "short" };
        let off = short_number(1e3 * launch.aim_error_rad.abs(), 3);
        format!("aimed {off} mrad towards {towards}")
    });
    let spins: Vec<String> = [roll, side, aim].into_iter().flatten().collect();
    if spins.is_empty() { String::new() } else { format!(", {}", spins.join(", ")) }
}

fn happening(question: &BankQuestion, findings: &BankFindings, verdict: BankVerdict) -> String {
    let geometry = question.bank.geometry();
    let miss_m = findings.outcome.miss_m().unwrap_or(0.0);
    let miss = || {
        let diamonds = miss_m.abs() / geometry.diamond_m;
        format!("{} ({diamonds:.2} diamond)", millimetres(miss_m.abs()))
    };
    match verdict {
        BankVerdict::Holds => {
            let clearance = findings.outcome.clearance_m().unwrap_or(0.0);
            format!(
                "holds: the ball passes {} the middle of the mouth and clears the nearer point by \
                 {}",
                beside(miss_m),
                millimetres(clearance)
            )
        }
        BankVerdict::TouchesPoint(direction) => format!(
            "comes to the mouth but touches its {} point, {} off the middle{}",
            direction.name(),
            miss(),
            because(question, findings)
        ),
        BankVerdict::Long => format!("goes long by {}{}", miss(), because(question, findings)),
        BankVerdict::Short => format!("falls short by {}{}", miss(), because(question, findings)),
        BankVerdict::StoppedBeforeRail => "stops before it reaches the rail".to_owned(),
        BankVerdict::StoppedBeforeMouth => match findings.outcome.ending {
            BankEnding::StoppedBeforeMouth(place) => {
                let left = (geometry.mouth.midpoint - place).norm() / INCH_M;
                format!("stops on its way from the rail, {left:.0} in from the pocket")
            }
            _ => "stops on its way from the rail to the pocket".to_owned(),
        },
        BankVerdict::OtherRail => match findings.outcome.ending {
            BankEnding::OtherRail(side, _) => format!(
                "meets the {} rail and never comes to the pocket",
                geometry.rail_of(side).name()
            ),
            _ => "never comes to the pocket".to_owned(),
        },
        BankVerdict::OtherPocket | BankVerdict::NoRoom => {
            left_cloth(geometry, findings.outcome.ending)
        }
    }
}

fn left_cloth(geometry: &BankGeometry, ending: BankEnding) -> String {
    match ending {
        BankEnding::OtherPocket(pocket, _) => {
            format!("goes into the {} pocket instead", pocket.name())
        }
        _ => format!(
            "has no room: the ball would start off the cloth of this table, whose rail is {} \
             diamonds long",
            short_number((geometry.high_groove_m - geometry.low_groove_m) / geometry.diamond_m, 3)
        ),
    }
}

/// The one or two parts that make the miss.
fn because(question: &BankQuestion, findings: &BankFindings) -> String {
    findings
        .why
        .as_ref()
        .map_or_else(|_| String::new(), |why| reason::because(why, question.launch.roll))
}

fn aim(question: &BankQuestion, findings: &BankFindings) -> Vec<String> {
    let mut lines = Vec::new();
    if let Some(margin) = findings.margin {
        lines.push(format!(
            "The aim may be off by {:.1} mrad ({:.2} diamond at the start) towards long and {:.1} \
             mrad ({:.2} diamond) towards short.",
            1e3 * margin.long_rad,
            margin.long_diamonds,
            1e3 * margin.short_rad,
            margin.short_diamonds
        ));
    }
    if let Some(start) = findings.exact_start
        && (start - question.line.start).abs() >= 0.005
    {
        lines.push(format!(
            "To send it through the middle of the mouth like this, start from {start:.2}."
        ));
    }
    lines
}

/// Where the ball passes: `12 mm long of`.
fn beside(miss_m: f64) -> String {
    if 1e3 * miss_m.abs() < 0.05 {
        return "through".to_owned();
    }
    let side = if miss_m > 0.0 { "long" } else { "short" };
    format!("{} {side} of", millimetres(miss_m.abs()))
}
