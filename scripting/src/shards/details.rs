//! Further columns on request: every measure of a bank that the batch core does not work out in columns.
//! Each bank is played once more alone, which gives the same bits.

use super::columns::FileColumn;
use super::measure_columns::MeasuredColumns;
use railproof_engine::bank::Bank;
use railproof_engine::results::{BANK_MEASURES, BankResult};
use railproof_engine::sweep::{Plan, PlanCursor, PlayedRows};

/// The columns of these played rows; `failed` says which could not be played, and `told` which columns
/// there are already.
pub fn detail_columns<'a>(
    banks: &Plan,
    played: &PlayedRows,
    rows: &[usize],
    failed: &dyn Fn(usize) -> bool,
    told: &dyn Fn(&str) -> bool,
) -> Vec<FileColumn<'a>> {
    let mut columns =
        MeasuredColumns::new(BANK_MEASURES.iter().filter(|measure| !told(&measure.column())));
    let mut walk: Option<PlanCursor<'_>> = None;
    let mut table: Option<Bank> = None;
    for row in rows {
        let point = played.point[*row];
        let walk = walk.get_or_insert_with(|| PlanCursor::from(banks, point));
        while walk.point() < point {
            walk.step();
            if !walk.same_table() {
                table = None;
            }
        }
        if table.is_none() {
            table = banks.table(walk.values()).ok();
        }
        let alone = table.as_ref().filter(|_| !failed(*row)).and_then(|bank| {
            let inputs = &played.inputs;
            Some((bank, bank.play(inputs.line(*row), inputs.launch(*row)).ok()?))
        });
        let line = played.inputs.line(*row);
        let result = alone.as_ref().map(|(bank, outcome)| BankResult { bank, line, outcome });
        columns.push(result.as_ref());
    }
    columns.finished()
}
