//! The next banks worth measuring on a table, for a stated purpose.

use super::MeasuredTable;
use super::asked::{asked, evenly};
use crate::fault::Fault;
use railproof_engine::ask::{CredibleInterval, best_slopes};
use railproof_engine::bank::BankError;
use railproof_engine::column::SetUp;
use railproof_engine::ensemble::{Ensemble, MemberNumber};
use railproof_engine::equipment::Equipment;
use railproof_engine::planning::{
    PlannedBank, PlayedCandidates, either_cushion, places, usual_numbers,
};
use railproof_engine::units::Speed;

/// Banks of a plan.
const NEXT: usize = 6;
/// Players who try both cushions.
const PLAYERS: usize = 256;

/// What the next banks are measured for.
#[derive(Debug, Clone)]
pub enum NextPurpose {
    /// The rule's slope, and where balls from off the rail come to.
    Usual,
    /// Where this bank comes to.
    Settle(SetUp),
    /// Which of two cushions the table has.
    TellApart(Box<TwoCushions>),
}

/// Two cushions on the same table, each with the name by which it was asked for.
#[derive(Debug, Clone)]
pub struct TwoCushions {
    /// The table with each.
    pub tables: [Equipment; 2],
    /// Their names.
    pub names: [String; 2],
}

impl TwoCushions {
    /// Of two tables.
    ///
    /// # Errors
    /// A [`Fault`] where both have the same cushion.
    pub fn new(tables: [Equipment; 2], names: [String; 2]) -> Result<Self, Fault> {
        let [one, other] = &tables;
        let same =
            MemberNumber::CUSHION.into_iter().all(|it| it.value_on(one) == it.value_on(other));
        if same {
            let [one, other] = &names;
            return Err(Fault::bad_input(format!(
                "`{one}` and `{other}` are the same cushion in all that a bank shows"
            ))
            .with_hint(
                "name two that differ in restitution, friction, nose height or contact time",
            ));
        }
        Ok(Self { tables, names })
    }
}

/// The next banks, in the order in which they are to be measured.
#[derive(Debug, Clone)]
pub struct NextBanks {
    /// What they are for.
    pub purpose: NextPurpose,
    /// Each with what is left of today's doubt after it.
    pub banks: Vec<(SetUp, PlannedBank)>,
    /// Where the bank that is to be settled comes to, as it is known today, m.
    pub today_m: Option<CredibleInterval>,
}

impl NextBanks {
    /// Of a table as it is known.
    ///
    /// # Errors
    /// [`BankError`] for a table without the banks.
    pub fn of(known: &MeasuredTable, purpose: NextPurpose) -> Result<Self, BankError> {
        let some = asked(known);
        match purpose {
            NextPurpose::Usual => {
                let slopes = best_slopes(&known.table, known.model, &some)?.slopes;
                Self::usual(known, &some, &slopes)
            }
            NextPurpose::Settle(bank) => Self::to_settle(known, &some, bank),
            NextPurpose::TellApart(cushions) => {
                Self::to_tell_apart(known, &evenly(&some, PLAYERS), cushions)
            }
        }
    }

    /// For the usual purpose, where the slopes of these members are known already.
    pub(super) fn usual(
        known: &MeasuredTable,
        some: &Ensemble,
        slopes: &[f64],
    ) -> Result<Self, BankError> {
        let (table, model, members) = (&known.table, known.model, some.members());
        let played = PlayedCandidates::of(table, model, members, &[])?;
        let banks = played.next(&usual_numbers(table, model, members, slopes)?, NEXT);
        Ok(Self { purpose: NextPurpose::Usual, banks, today_m: None })
    }

    fn to_settle(known: &MeasuredTable, some: &Ensemble, bank: SetUp) -> Result<Self, BankError> {
        let (table, model, members) = (&known.table, known.model, some.members());
        // Nobody sends a speed in metres a second, so such a bank isn't measured itself.
        let itself = [bank];
        let before = if matches!(bank.speed, Speed::Word(_)) { &itself[..] } else { &[] };
        let played = PlayedCandidates::of(table, model, members, before)?;
        let wanted = places(table, model, members, &[bank])?;
        let today_m = CredibleInterval::of(&wanted[0].values, some.weights());
        let banks = played.next(&wanted, NEXT);
        Ok(Self { purpose: NextPurpose::Settle(bank), banks, today_m })
    }

    fn to_tell_apart(
        known: &MeasuredTable,
        players: &Ensemble,
        cushions: Box<TwoCushions>,
    ) -> Result<Self, BankError> {
        let [one, other] = &cushions.tables;
        let (members, which) = either_cushion(players.members(), [one, other]);
        let played = PlayedCandidates::of(&known.table, known.model, &members, &[])?;
        let banks = played.next(&[which], NEXT);
        Ok(Self { purpose: NextPurpose::TellApart(cushions), banks, today_m: None })
    }
}
