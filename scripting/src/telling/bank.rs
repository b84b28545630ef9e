//! The answer in the words of a coach.

use super::asked_units::AskedUnits;
use super::caution::{Cautions, FLAGGED_BANK};
use super::chance_words::{about_words, makes_words};
use super::detail::Detail;
use super::known_bank::{known_headline, known_sentences};
use super::outcome::rail_met;
use super::readings::{line_readings, past_end, through_the_diamonds, without_notes};
use super::reason;
use super::speeds::{better_speed, speeds_sentence, speeds_turned_round, starts_sentence};
use super::way_out::{nearest_banks, slope_of_bank};
use super::wording::{capital, percent};
use crate::fitting::MeasuredTable;
use crate::playing::{Afterwards, BankFindings, BankQuestion, HARDEST_M_S};
use railproof_engine::ask::KnownBank;
use railproof_engine::bank::{BankEnding, BankVerdict};
use railproof_engine::chance::SkillNumber;
use railproof_engine::rail::{Line, Reading};
use railproof_engine::rule::Rule;
use railproof_engine::units::{FOOT_M, SpeedWord, short_number};

/// A bank with less room than this just holds, m. Chosen: less than anybody places a ball.
const JUST_M: f64 = 0.006;

/// Of which table a bank's way is told where it could be many.
const IN_THE_MIDDLE: &str = "On the table in the middle of these";

/// The whole answer, one thought to a line: the advice, its reason, and the rest. In full, with every share of a miss
/// and what it was worked out by.
pub fn bank_sentences(question: &BankQuestion, findings: &BankFindings, detail: Detail) -> String {
    let mut lines = vec![bank_advice(question, findings)];
    if let (Some(known), Some(found)) = (&question.known, &findings.known) {
        lines.extend(known_sentences((found, known), findings.known_advice, bank_units(question)));
        lines.extend(of_player(question, findings, detail));
        lines.push("The reason and the speeds below are those of that table:".to_owned());
    }
    lines.extend(reasons(question, findings, detail));
    lines.extend(bank_less_sure(findings));
    // Over many tables, what the player makes stands above the words on one of them.
    if findings.known.is_none() {
        lines.extend(of_player(question, findings, detail));
    }
    lines.push(speeds(question, findings, detail));
    lines.extend(findings.slope.as_ref().map(slope_of_bank));
    let starts = findings.exact_start.zip(findings.holding_starts);
    // Of many tables each has its own.
    if let Some((exact, starts)) = starts.filter(|_| findings.known.is_none()) {
        // A player's own start stands above.
        let exact = findings.chance.is_none().then_some(exact);
        let by = if findings.chance.is_some() { ", sent exactly as asked," } else { "" };
        let sent = format!("At {}{by}", speed_words(question));
        lines.push(starts_sentence(&sent, question.line.contact, exact, starts, question.reading));
    }
    let better = findings.better_start(question);
    lines.push(format!(
        "Asked: {}{}, {}. {}",
        launch(question),
        spins(question),
        readings(question, better),
        conditions(question, detail)
    ));
    lines.extend(findings.cautions(question).lines());
    lines.extend(speed_words_remark(question));
    lines.join("\n")
}

/// What the player makes of it.
fn of_player(question: &BankQuestion, findings: &BankFindings, detail: Detail) -> Vec<String> {
    let two = if detail.is_full() { two_starts(findings) } else { None };
    player_sentence(question, findings).into_iter().chain(two).collect()
}

/// Why it misses, where the sentence names the miss.
fn reasons(question: &BankQuestion, findings: &BankFindings, detail: Detail) -> Vec<String> {
    let verdict = findings.outcome.verdict();
    if !matches!(verdict, BankVerdict::Long | BankVerdict::Short | BankVerdict::TouchesPoint(_)) {
        return Vec::new();
    }
    let units = bank_units(question);
    match &findings.why {
        Ok(why) => {
            let main = reason::because(why, question.launch.roll, units);
            let told = main.as_ref().map(|main| format!("Why: {main}."));
            let sum = (detail.is_full() || told.is_none()).then(|| reason::sum(why, units));
            told.into_iter().chain(sum).collect()
        }
        Err(why_not) => vec![reason::no_sum(why_not)],
    }
}

/// One bank at several speeds, a line each.
pub fn speeds_side_by_side(played: &[(BankQuestion, BankFindings)], detail: Detail) -> String {
    let Some((first, found)) = played.first() else { return String::new() };
    let asked = format!("{}{}, {}.", place(first), spins(first), readings(first, None));
    let mut lines = vec![capital(&asked)];
    let mut cautions = Cautions::default();
    for (question, findings) in played {
        let speed = capital(&question.speed_text);
        let m_s = short_number(question.launch.speed_m_s, 2);
        lines.push(format!("{speed} ({m_s} m/s): {}", bank_advice(question, findings)));
        lines.extend(bank_less_sure(findings).map(|it| format!("  {it}")));
        if let (Some(known), Some(found)) = (&question.known, &findings.known) {
            let told = known_sentences((found, known), findings.known_advice, bank_units(question));
            lines.extend(told.into_iter().map(|it| format!("  {it}")));
        }
        lines.extend(findings.slope.as_ref().map(|it| format!("  {}", slope_of_bank(it))));
        lines.extend(player_sentence(question, findings).map(|it| format!("  {it}")));
        cautions = cautions.and(&findings.cautions(question));
    }
    lines.push(speeds(first, found, detail));
    lines.push("`--speed medium` tells why.".to_owned());
    lines.push(conditions(first, detail));
    lines.extend(cautions.lines());
    lines.extend(speed_words_remark(first));
    lines.join("\n")
}

/// The speeds at which the line that was asked for holds.
fn speeds(question: &BankQuestion, findings: &BankFindings, detail: Detail) -> String {
    let units = bank_units(question);
    let line = as_asked(question);
    // Whoever asks for more than the hardest stroke is told how far it holds.
    let beyond = question.launch.speed_m_s > HARDEST_M_S;
    let detail = if beyond { Detail::Full } else { detail };
    let asked_m_s = question.launch.speed_m_s;
    let roomy = findings.most_room_m_s;
    speeds_sentence(&line, findings.holding.as_ref(), (asked_m_s, roomy), units, detail)
}

/// Words for a bank of which the model is less sure.
pub fn bank_less_sure(findings: &BankFindings) -> Option<String> {
    findings.outcome.flagged().then(|| format!("Less sure: it {FLAGGED_BANK}."))
}

/// What becomes of a bank as it is asked for: `goes long by 1 1/2 in at the mouth`.
pub fn bank_happening(question: &BankQuestion, findings: &BankFindings) -> String {
    happening(question, findings, findings.outcome.verdict())
}

/// The ball's distance off the rail, speed, roll and side, as a picture says them.
pub fn bank_sent(question: &BankQuestion) -> String {
    let stun = if question.launch.roll == 0.0 { ", sliding (stun)" } else { "" };
    format!("{}{stun}{}", launch(question), spins(question))
}

/// How often the player makes it, and from where most often.
pub fn player_sentence(question: &BankQuestion, findings: &BankFindings) -> Option<String> {
    let (player, chance) = question.player.as_ref().zip(findings.chance)?;
    let tables = if question.known.is_some() { " over all these tables" } else { "" };
    let reads = match question.rule {
        Some(_) => "reads contact and start by eye",
        None => "is told the line and finds its marks by eye",
    };
    let better = findings.better_for_player();
    let rest = match (better, chance.best, &question.rule) {
        (_, None, _) => "; no start number holds there".to_owned(),
        (None, _, None) => String::new(),
        (Some((start, told)), _, None) => {
            format!("; from {}, {}", short_number(start, 2), about_words(told))
        }
        (_, _, Some(_)) => {
            let from =
                |(start, told)| format!("from {}, {}", short_number(start, 2), about_words(told));
            let asked = from((question.line.start, chance.told));
            match better {
                Some(better) => format!("; told to start {}; {asked}", from(better)),
                None => format!("; told to start {asked}"),
            }
        }
    };
    let scattered = question.rule.is_some() && findings.eye_makes_more();
    let scattered =
        if scattered { " (by eye the starts scatter, and some of them go in)" } else { "" };
    let name = capital(&player.name);
    let makes = makes_words(chance.chance);
    Some(format!(
        "{name} who {reads} {makes}{tables}, touching neither point of the mouth{rest}{scattered}."
    ))
}

/// Why a person's best start is another one than the middle of the mouth; nothing where they are one.
fn two_starts(findings: &BankFindings) -> Option<String> {
    let (best, _) = findings.better_for_player()?;
    let middle = findings.better_middle(best)?;
    let why = findings.chance.and_then(|chance| chance.drawn_by).map(|spread| match spread {
        SkillNumber::Aim | SkillNumber::Cut => "the aim varies",
        SkillNumber::Speed => "the speed varies",
        SkillNumber::Side => "side comes unwanted",
        SkillNumber::ContactRead
        | SkillNumber::ContactReadOff
        | SkillNumber::StartRead
        | SkillNumber::StartReadPastEnd => "numbers are misread",
        SkillNumber::ReckonsTo => "start numbers are worked out in steps",
    });
    let why = why.map_or_else(String::new, |why| format!(", most of all because {why}"));
    Some(format!(
        "Sent exactly as asked, a ball comes through the middle of the mouth from {}; with this player's errors {} is \
         better{why}.",
        short_number(middle, 2),
        short_number(best, 2)
    ))
}

/// A remark where a word for the speed is not what it says.
fn speed_words_remark(question: &BankQuestion) -> Option<String> {
    let by_word = SpeedWord::ALL.iter().any(|word| word.name() == question.speed_text);
    let words = speeds_turned_round(question.bank.equipment()).filter(|_| by_word)?;
    Some(format!("{}.", capital(&words)))
}

/// The table and the line's rule; in full, the model too.
fn conditions(question: &BankQuestion, detail: Detail) -> String {
    let geometry = question.bank.geometry();
    let rule = question.rule.as_ref().map_or_else(|| "start given".to_owned(), Rule::name);
    let model = if detail.is_full() {
        format!("; {} rail model.", question.bank.model().name())
    } else {
        ". --full tells more.".to_owned()
    };
    format!(
        "{}; {} rail to the {} pocket; {rule}{model}",
        question.bank.equipment().name,
        geometry.rail.name(),
        geometry.pocket.name(),
    )
}

/// The units in which it was asked.
pub fn bank_units(question: &BankQuestion) -> AskedUnits {
    AskedUnits::of(&[&question.off_rail_text], &question.speed_text, question.table_in_inches)
}

/// The advice, where something is better, and what becomes of it as asked.
fn bank_advice(question: &BankQuestion, findings: &BankFindings) -> String {
    let [first, rest] = bank_headline(question, findings);
    if rest.is_empty() { first } else { format!("{first} {rest}") }
}

/// The same as a headline of one sentence, and what stands under it; that may be empty.
pub fn bank_headline(question: &BankQuestion, findings: &BankFindings) -> [String; 2] {
    if let (Some(known), Some(found)) = (&question.known, &findings.known) {
        return headline_of_many(question, findings, (found, known));
    }
    let verdict = findings.outcome.verdict();
    let happening = happening(question, findings, verdict);
    let clearance_m = findings.outcome.clearance_m().unwrap_or(0.0);
    if verdict == BankVerdict::Holds && clearance_m > JUST_M {
        return [format!("It {happening}."), String::new()];
    }
    let better = findings.better_start(question);
    if verdict == BankVerdict::Holds {
        let better = better.map(|start| format!("For more room {}.", aim(question, start)));
        return [format!("It just {happening}."), better.unwrap_or_default()];
    }
    let asked = asked_start(question);
    let start = better.map(|start| format!("{} instead of {asked}", aim(question, start)));
    let speed = better_speed_words(question, findings).map(|speed| format!("hit it {speed}"));
    let advice: Vec<String> = [start, speed].into_iter().flatten().collect();
    if advice.is_empty() {
        let contact = question.line.contact;
        let near = nearest_banks(&findings.nearest, contact, bank_units(question));
        let near = if near.is_empty() { near } else { format!("What holds: {near}.") };
        let contact = short_number(contact, 3);
        // A stretch of speeds that nobody meters is no advice, but is not kept back.
        let speed = findings.holding.as_ref().map(|it| it.most_room.speed_m_s);
        let speed = speed.filter(|speed_m_s| *speed_m_s <= HARDEST_M_S);
        return match speed.map(|speed_m_s| bank_units(question).speed(speed_m_s, f64::round)) {
            Some(speed) => [
                format!(
                    "It {happening}, and no start was found with which contact {contact} holds at this speed."
                ),
                format!("From {asked} it holds at about {speed}, with little margin of speed or room. {near}")
                    .trim_end()
                    .to_owned(),
            ],
            None => [
                format!(
                    "It {happening}, and no start or speed was found with which contact {contact} holds."
                ),
                near,
            ],
        };
    }
    let as_it_lies = findings.as_it_lies.filter(|_| findings.known.is_none()).map(|line| {
        let shown = if question.reading == Reading::Sight {
            let geometry = question.bank.geometry();
            short_number(line.read_as(Reading::Sight, geometry).contact, 2)
        } else {
            short_number(line.contact, 2)
        };
        format!("If the ball stays where it lies, aim at contact {shown}. ")
    });
    [
        format!("{}.", capital(&advice.join(", or "))),
        format!("{}As asked, it {happening}.", as_it_lies.unwrap_or_default()),
    ]
}

/// The start that was asked for.
fn asked_start(question: &BankQuestion) -> String {
    if question.reading == Reading::Sight {
        sights(question, question.line.start)
    } else {
        short_number(question.line.start, 2)
    }
}

/// As [`bank_headline`], of all tables that a table could be.
fn headline_of_many(
    question: &BankQuestion,
    findings: &BankFindings,
    of: (&KnownBank, &MeasuredTable),
) -> [String; 2] {
    let better = findings.known_advice.and_then(|advice| advice.start);
    let better = better.map(|(start, share)| (aim(question, start), share));
    let headline = known_headline(of, better, &asked_start(question));
    let happening = format!("{IN_THE_MIDDLE} it {}.", bank_happening(question, findings));
    [headline, happening]
}

/// Another start: `aim from 4.24`.
fn aim(question: &BankQuestion, start: f64) -> String {
    if question.reading == Reading::Sight {
        return format!("aim at {} through the diamonds", sights(question, start));
    }
    let line = Line::new(question.line.contact, start);
    let past = past_end(start, line, question.bank.geometry());
    format!("aim from {}{past}", short_number(start, 2))
}

/// The line that was asked for: `From 4.4`.
fn as_asked(question: &BankQuestion) -> String {
    if question.reading == Reading::Sight {
        format!("Aimed at {}", sights(question, question.line.start))
    } else {
        format!("From {}", short_number(question.line.start, 2))
    }
}

/// What a page teaches, and what becomes of the bank as it was asked for; `None` where no start is known with which it
/// goes in.
pub fn page_words(question: &BankQuestion, findings: &BankFindings) -> Option<[String; 2]> {
    let contact = short_number(question.line.contact, 3);
    let title = |start: f64| {
        if question.reading == Reading::Sight {
            return format!("Aim at {} through the diamonds.", sights(question, start));
        }
        // Where no diamond is, a note on the page says so.
        format!(
            "Contact {contact}: start from {}. Through the diamonds: {}.",
            short_number(start, 2),
            without_notes(&sights(question, start))
        )
    };
    let happening = bank_happening(question, findings);
    let less_sure = if findings.outcome.flagged() { " (less sure)" } else { "" };
    let start = findings.best_start(question)?;
    let asked = as_asked(question);
    let by = if question.rule.is_some() { "by the rule" } else { "as asked" };
    let harder = better_speed_words(question, findings)
        .map_or_else(String::new, |speed| format!("; to start there, hit it {speed}"));
    Some([title(start), format!("{asked}, {by}, it {happening}{less_sure}{harder}.")])
}

/// The speed to hit it at instead of one that breaks.
fn better_speed_words(question: &BankQuestion, findings: &BankFindings) -> Option<String> {
    let (holding, roomy) = findings.holding.as_ref().zip(findings.half_room_m_s)?;
    better_speed(holding, roomy, question.launch.speed_m_s, bank_units(question))
}

/// The line by both readings.
pub fn bank_readings(question: &BankQuestion) -> String {
    capital(&readings(question, None))
}

/// The line by both readings, and a better start as well.
fn readings(question: &BankQuestion, better: Option<f64>) -> String {
    let contact = question.line.contact;
    let start = question.line.start;
    if question.reading == Reading::Sight {
        let grooves =
            |start| format!("{} from {}", short_number(contact, 2), short_number(start, 2));
        let better = better.map_or_else(String::new, |better| {
            let sights = without_notes(&sights(question, better));
            format!(" ({} for the start at {sights})", grooves(better))
        });
        return format!(
            "contact {} through the diamonds; across the grooves that is {}{better}",
            sights(question, start),
            grooves(start)
        );
    }
    let better = better.map_or_else(String::new, |better| {
        // Of the line before it that was said.
        let sights = without_notes(&sights(question, better));
        format!(" ({sights} for the start at {})", short_number(better, 2))
    });
    let line = Line::new(contact, start);
    format!("{}{better}", line_readings(line, question.bank.geometry()))
}

/// The line from a start across the grooves, as it is read through the diamonds.
fn sights(question: &BankQuestion, start: f64) -> String {
    through_the_diamonds(Line::new(question.line.contact, start), question.bank.geometry())
}

fn place(question: &BankQuestion) -> String {
    let off_rail = question.launch.off_rail_m;
    if off_rail == 0.0 {
        "frozen to the rail".to_owned()
    } else if (off_rail - FOOT_M).abs() < 1e-9 {
        "a foot off the rail".to_owned()
    } else {
        format!("{} off the rail", question.off_rail_text)
    }
}

fn launch(question: &BankQuestion) -> String {
    let (place, speed) = (place(question), speed_words(question));
    if speed.ends_with("m/s") {
        return format!("{place} at {speed}");
    }
    let m_s = short_number(question.launch.speed_m_s, 2);
    format!("{place} at {speed} ({m_s} m/s)")
}

/// The speed as it was asked for: `medium speed`, `7 mph`.
fn speed_words(question: &BankQuestion) -> String {
    let speed = question.speed_text.trim();
    let word = if SpeedWord::ALL.iter().any(|word| word.name() == speed) { " speed" } else { "" };
    format!("{speed}{word}")
}

fn spins(question: &BankQuestion) -> String {
    let launch = &question.launch;
    let roll = match launch.roll {
        0.0 => None,
        1.0 => Some("rolling".to_owned()),
        roll if roll > 0.0 => Some(format!("with {} of its roll", percent(roll))),
        -1.0 => Some("with full draw".to_owned()),
        roll => Some(format!("with {} of full draw", percent(-roll))),
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
    let (miss_m, units) = (findings.outcome.miss_m().unwrap_or(0.0), bank_units(question));
    let met = rail_met(&question.bank, findings.outcome.ending);
    let is_asked = verdict == findings.outcome.verdict();
    let afterwards = match findings.afterwards {
        Afterwards::Drops if is_asked => ", and drops off it all the same",
        Afterwards::Rattles if is_asked => ", then rattles in the jaws and stays out",
        Afterwards::Drops | Afterwards::Rattles | Afterwards::Elsewhere => "",
    };
    let miss = || {
        let met = met.as_ref().map_or_else(String::new, |met| format!(" and meets {met}"));
        format!("{} at the mouth{met}{afterwards}", units.length(miss_m))
    };
    match verdict {
        BankVerdict::Holds => {
            let clearance = findings.outcome.clearance_m().unwrap_or(0.0);
            let way = if units.is_nothing(miss_m) {
                "dead centre".to_owned()
            } else {
                let side = if miss_m > 0.0 { "long" } else { "short" };
                format!("{} {side} of the middle", units.length(miss_m))
            };
            format!("holds: {way}, with {} to spare", units.length(clearance))
        }
        BankVerdict::TouchesPoint(direction) => format!(
            "comes to the mouth but touches its {} point, {} off the middle{afterwards}",
            direction.name(),
            units.length(miss_m)
        ),
        BankVerdict::Long => format!("goes long by {}", miss()),
        BankVerdict::Short => format!("falls short by {}", miss()),
        BankVerdict::StoppedBeforeRail => "stops before it reaches the rail".to_owned(),
        BankVerdict::StoppedBeforeMouth => match findings.outcome.ending {
            BankEnding::StoppedBeforeMouth(place) => {
                let left = units.length((geometry.mouth.midpoint - place).norm());
                format!("stops on its way from the rail, {left} from the pocket")
            }
            _ => "stops on its way from the rail to the pocket".to_owned(),
        },
        BankVerdict::OtherRail => match met {
            Some(met) => format!("meets {met} and never comes to the pocket"),
            None => "never comes to the pocket".to_owned(),
        },
        BankVerdict::OtherPocket | BankVerdict::NoRoom => left_cloth(findings.outcome.ending),
    }
}

fn left_cloth(ending: BankEnding) -> String {
    match ending {
        BankEnding::OtherPocket(pocket, _) => {
            format!("runs into the mouth of the {} pocket on its way", pocket.name())
        }
        _ => "can't be played: it would start off the cloth".to_owned(),
    }
}
