//! `railproof bank … --seen long`: why a bank that was played and watched missed.

use super::{BankArgs, KnownBy};
use crate::answer::MissAnswer;
use crate::called;
use crate::command::flags::word;
use crate::command::output::{print, to_json};
use crate::exit::Exit;
use crate::fault::Fault;
use crate::fitting::{MeasuredTable, MissFindings};
use crate::measured::{Sent, parse_seen};
use crate::playing::BankQuestion;
use crate::telling::{bank_units, known_tables, missed_sentences};
use railproof_engine::bank::exact_start;
use railproof_engine::evidence::MeasuredBank;
use railproof_engine::units::short_number;

impl BankArgs {
    /// Tells the odds of the causes, by the measured table or by what is known of one that nobody measured.
    ///
    /// # Errors
    /// A [`Fault`] that names the flag, or an output that can't be written.
    pub(super) fn tell_why_missed(&self, seen: &str) -> Result<Exit, Fault> {
        let args = self;
        let known_by = match args.table {
            Some(_) => None,
            None => Some(args.known_by.unwrap_or(KnownBy::Practice)),
        };
        let asked = BankArgs { known_by, ..args.clone() };
        let questions = asked.questions()?;
        let [BankQuestion { bank, known: Some(known), .. }] = questions.as_slice() else {
            return Err(Fault::bad_input("`--seen` takes one speed and one table"));
        };
        let sent: Sent = word("--sent", &args.sent)?;
        let measured = MeasuredBank {
            set_up: questions[0].set_up(),
            seen: parse_seen(seen, "--seen", &known.table, bank.geometry())?,
            scatter: sent.scatter(),
            repeats: 1,
        };
        let missed = MissFindings::of(known, measured)
            .map_err(|error| Fault::bad_input(format!("this table has no such bank: {error}")))?;
        let question = &questions[0];
        let units = bank_units(question);
        let text = if args.json {
            to_json(&MissAnswer::new(known, &missed, units))?
        } else {
            missed_sentences(&known.table, &missed, units) + &better(question) + &told_of(known)
        };
        print(&text)?;
        Ok(Exit::Held)
    }
}

/// The start from which it goes in.
fn better(question: &BankQuestion) -> String {
    match exact_start(&question.bank, question.line.contact, question.launch) {
        Ok(start) => format!(
            "Sent exactly from {}, it goes in on the middle one of these tables.\n",
            short_number(start, 2)
        ),
        Err(_) => String::new(),
    }
}

/// Which tables it was told of, and how they become one's own.
fn told_of(known: &MeasuredTable) -> String {
    let own = match known.banks() {
        0 => format!(
            " `{}` prints a file for banks of your own, which tell more.",
            called::command("fit --template")
        ),
        _ => String::new(),
    };
    format!("Told of {} {}.{own}\n", known.ensemble.len(), known_tables(known))
}
