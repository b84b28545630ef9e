//! The picture of a bank that was asked for, and the page of it that is printed for a lesson.

use super::advised::is_near;
use crate::fault::Fault;
use crate::picture::{Mark, MarkKind, NumberCell, NumberTable, OtherPlay, TablePicture, TrackEnd};
use crate::playing::{Afterwards, BankFindings, BankQuestion, PlayedShot, StartTable, TabledStart};
use crate::telling::caution::Cautions;
use crate::telling::{
    BOTH_READINGS, NOT_TO_SCALE, bank_happening, bank_headline, bank_less_sure, bank_readings,
    bank_sent, bank_units, page_words, player_sentence, starts_labels, starts_note, starts_title,
    times_words,
};
use railproof_engine::bank::{BankVerdict, Launch, Outcome};
use railproof_engine::rail::{Line, Reading};
use railproof_engine::units::short_number;

/// Draws a bank.
///
/// # Errors
/// A bank that can't be played as a shot, such as one off the compliant cushion.
pub fn bank_picture(
    question: &BankQuestion,
    findings: &BankFindings,
) -> Result<TablePicture, Fault> {
    let mut picture = match drawn(question, &findings.outcome) {
        Ok(picture) => picture,
        // What is advised can still be laid on the table.
        Err(fault) => return advised_page(question, findings)?.ok_or(fault),
    };
    picture.other_play = advised(question, findings)?.map(|other| other.over(&picture));
    if picture.other_play.is_some() && findings.afterwards == Afterwards::Elsewhere {
        end_at_the_miss(&mut picture);
    }
    if picture.other_play.as_ref().is_some_and(|other| other.guide.is_some()) {
        for guide in &mut picture.guides {
            guide.labels[0] = guide.labels[0].replacen("start", "asked", 1);
        }
    }
    advise(&mut picture, question, findings);
    Ok(picture)
}

/// Leaves out where a ball goes after the rail that its miss takes it to: nobody asks.
fn end_at_the_miss(picture: &mut TablePicture) {
    let Some(missed_at) = picture.missed_at() else { return };
    let comes_there = |mark: &Mark| matches!(mark.kind, MarkKind::Rail { .. });
    for ball in &mut picture.balls {
        let Some(last) = ball.pieces.iter().position(|it| is_near(it.path.to(), missed_at)) else {
            continue;
        };
        ball.pieces.truncate(last + 1);
        ball.end = TrackEnd::Moving;
    }
    let mut rails = 0;
    picture.marks.retain(|mark| {
        rails += usize::from(comes_there(mark));
        rails <= 2
    });
}

/// A bank and nothing else, its line and its conditions under it.
fn drawn(question: &BankQuestion, outcome: &Outcome) -> Result<TablePicture, Fault> {
    let layout = question.layout(outcome);
    if outcome.verdict() == BankVerdict::NoRoom {
        let start = short_number(question.line.start, 2);
        return Err(Fault::bad_input(format!(
            "there is no bank to draw: on the line from {start} the ball would start off the cloth"
        ))
        .with_hint("take a start nearer to the pocket, or another contact"));
    }
    let played = PlayedShot::new(&layout)?;
    let conditions = played.conditions();
    let subtitle = format!("{}; {}; {conditions}", bank_readings(question), bank_sent(question));
    Ok(TablePicture { subtitle, ..played.alone(false) })
}

/// Puts the advice over a picture, and its cautions under it.
fn advise(picture: &mut TablePicture, question: &BankQuestion, findings: &BankFindings) {
    let [title, rest] = bank_headline(question, findings);
    picture.verdict = if rest.is_empty() { title.clone() } else { rest };
    picture.title = title;
    picture.notes.extend(bank_less_sure(findings));
    // The advice may be harder than the bank that is drawn.
    caution(picture, &findings.cautions(question));
}

/// Puts cautions under a picture that it does not have yet.
fn caution(picture: &mut TablePicture, cautions: &Cautions) {
    let cautions = cautions.lines().into_iter();
    let further: Vec<String> = cautions.filter(|it| !picture.notes.contains(it)).collect();
    picture.notes.extend(further);
}

/// The same as a page to print: with how often the player makes it, and a table of starts.
///
/// # Errors
/// As [`bank_picture`].
pub fn bank_page(question: &BankQuestion, findings: &BankFindings) -> Result<TablePicture, Fault> {
    let mut page = match advised_page(question, findings)? {
        Some(page) => page,
        None => bank_picture(question, findings)?,
    };
    if let Some([title, verdict]) = page_words(question, findings) {
        page = TablePicture { title, verdict, ..page };
    }
    if let Some(chance) = player_sentence(question, findings) {
        // Words that are the title already are not told again.
        page.verdict =
            if page.verdict == page.title { chance } else { format!("{} {chance}", page.verdict) };
    }
    let mut table = StartTable::of(question, bank_units(question).in_inches())?;
    if let Some(start) = findings.best_start(question) {
        let told = findings.chance.map(|chance| match chance.best {
            Some((_, best)) if start != question.line.start => best,
            _ => chance.told,
        });
        table.teach(start, told);
    }
    let (columns, rows) = starts_labels(question, &table);
    let cell = |start: &Option<TabledStart>| start.map(|start| cell(question, &start));
    let cells = table.starts.iter().map(|row| row.iter().map(cell).collect()).collect();
    page.numbers = Some(NumberTable { title: starts_title(question), columns, rows, cells });
    page.notes.insert(0, starts_note(question, &table));
    page.notes.insert(0, BOTH_READINGS.to_owned());
    page.notes.push(NOT_TO_SCALE.to_owned());
    caution(&mut page, &findings.page_cautions(question));
    Ok(page)
}

/// The bank from the start that is advised, with the one that was asked for over it, where that is another.
fn advised_page(
    question: &BankQuestion,
    findings: &BankFindings,
) -> Result<Option<TablePicture>, Fault> {
    let Some(start) = findings.best_start(question) else { return Ok(None) };
    if start == question.line.start {
        return Ok(None);
    }
    let advised = BankQuestion { line: Line { start, ..question.line }, ..question.clone() };
    let Ok(outcome) = advised.bank.play(advised.line, advised.launch) else { return Ok(None) };
    let mut page = drawn(&advised, &outcome)?;
    // One that can't be laid on the table is told and not drawn.
    page.other_play = drawn(question, &findings.outcome)
        .ok()
        .map(|asked| OtherPlay::of_asked(&asked, &bank_happening(question, findings)).over(&page));
    advise(&mut page, question, findings);
    Ok(Some(page))
}

/// A start in the reading that was asked for, and its line in the other one.
fn cell(question: &BankQuestion, start: &TabledStart) -> NumberCell {
    // The one that is told.
    let told = Line { start: (100.0 * start.line.start).round() / 100.0, ..start.line };
    let sights = told.read_as(Reading::Sight, question.bank.geometry());
    let (large, small) = match question.reading {
        Reading::Groove => (told, sights),
        Reading::Sight => (sights, told),
    };
    let [contact, at] = [small.contact, small.start].map(|number| short_number(number, 2));
    let less_sure = if start.flagged { " *" } else { "" };
    NumberCell {
        number: format!("{}{less_sure}", short_number(large.start, 2)),
        under: match start.made {
            Some(made) => format!("{contact} from {at}; {}", times_words(made)),
            None => format!("{contact} from {at}"),
        },
        marked: start.asked,
    }
}

/// The bank that is advised: from the better start, or else along the same line at the speed with the most room.
fn advised(question: &BankQuestion, findings: &BankFindings) -> Result<Option<OtherPlay>, Fault> {
    if findings.outcome.verdict() == BankVerdict::Holds {
        return Ok(None);
    }
    let start = findings.better_start(question);
    let speed_m_s = findings.holding.as_ref().map(|holding| holding.most_room.speed_m_s);
    let (line, launch) = match (start, speed_m_s) {
        (Some(start), _) => (Line { start, ..question.line }, question.launch),
        (None, Some(speed_m_s)) => (question.line, Launch { speed_m_s, ..question.launch }),
        (None, None) => return Ok(None),
    };
    let Ok(outcome) = question.bank.play(line, launch) else { return Ok(None) };
    let picture = drawn(&BankQuestion { line, launch, ..question.clone() }, &outcome)?;
    Ok(Some(OtherPlay::of_bank(&picture, start.is_some())))
}
