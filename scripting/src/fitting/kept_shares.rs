//! Shares of tables, of which every table's answers are kept in a folder, so that the same question is played once.

use super::MeasuredTable;
use crate::files::{make_folder, ordinary, write_whole};
use railproof_engine::ask::{MemberShare, holding_shares, holding_tables};
use railproof_engine::bank::BankError;
use railproof_engine::column::SetUp;
use sha2::{Digest, Sha256};
use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};
use std::time::{SystemTime, UNIX_EPOCH};

/// A folder of answers.
///
/// A file holds the digest of its question, a bit for each bank on each table, and the digest of both. A file that
/// is not whole is played anew and written over. There are never more than [`KeptShares::MOST_FILES`]; the oldest goes first.
/// The question has in it which program asks, so that another build plays anew.
#[derive(Debug, Clone)]
pub struct KeptShares {
    folder: PathBuf,
    program: String,
}

/// The bytes of a digest.
const DIGEST: usize = 32;
/// The end of a file's name.
const ENDING: &str = "shares";

impl KeptShares {
    /// The most files in the folder.
    pub const MOST_FILES: usize = 32;
    /// Larger answers are not kept, bits: 2 MB a file.
    pub const MOST_BITS: usize = 1 << 24;

    /// In a folder, which is made when there is something to keep; `None` where the program can't be told from another
    /// build.
    pub fn in_folder(folder: &Path) -> Option<Self> {
        let own = fs::metadata(std::env::current_exe().ok()?).ok()?;
        let since = own.modified().ok()?.duration_since(UNIX_EPOCH).ok()?;
        let program = format!("{} {} {}", env!("CARGO_PKG_VERSION"), own.len(), since.as_nanos());
        Some(Self { folder: folder.to_owned(), program })
    }

    /// As [`holding_shares`]; what was kept is read, and what was played is kept where the disk takes it.
    ///
    /// # Errors
    /// As [`holding_shares`].
    pub fn shares(
        &self,
        known: &MeasuredTable,
        set_ups: &[SetUp],
        tick: &(dyn Fn() + Sync),
    ) -> Result<Vec<MemberShare>, BankError> {
        let MeasuredTable { table, model, ensemble, .. } = known;
        let bits = ensemble.len().saturating_mul(set_ups.len());
        if bits > Self::MOST_BITS {
            return holding_shares(table, *model, ensemble, set_ups, tick);
        }
        let question = self.question(known, set_ups);
        let path = self.path_of(&question);
        let held = if let Some(held) = read(&path, &question, bits) {
            ensemble.members().iter().for_each(|_| tick());
            held
        } else {
            let rows = holding_tables(table, *model, ensemble.members(), set_ups, tick)?;
            let held = packed(&rows);
            self.keep(&path, &question, &held);
            held
        };
        let is_set = |at: usize| held[at / 8] >> (at % 8) & 1 == 1;
        Ok((0..set_ups.len())
            .map(|bank| {
                let tables = (0..ensemble.len()).map(|member| member * set_ups.len() + bank);
                MemberShare::of(tables.map(is_set), ensemble.weights())
            })
            .collect())
    }

    /// The digest of all that decides the answers. `{:?}` writes every digit of a number.
    fn question(&self, known: &MeasuredTable, set_ups: &[SetUp]) -> [u8; DIGEST] {
        let mut digest = Sha256::new();
        digest.update(format!("{}\n{:?}\n{:?}\n", self.program, known.model, known.table));
        for member in known.ensemble.members() {
            member.place.iter().for_each(|place| digest.update(place.to_bits().to_le_bytes()));
        }
        for set_up in set_ups {
            digest.update(format!("\n{set_up:?}"));
        }
        digest.finalize().into()
    }

    fn path_of(&self, question: &[u8; DIGEST]) -> PathBuf {
        let mut name = String::new();
        for byte in &question[..8] {
            let _ = write!(name, "{byte:02x}");
        }
        self.folder.join(format!("{name}.{ENDING}"))
    }

    /// Nothing is lost where it can't be kept: it is played again.
    fn keep(&self, path: &Path, question: &[u8; DIGEST], held: &[u8]) {
        if make_folder(&self.folder).is_err() {
            return;
        }
        self.make_room(path);
        let whole = [question.as_slice(), held, &digest_of(question, held)].concat();
        let _ = write_whole(path, |out| out.write_all(&whole));
    }

    /// Removes the oldest files until one more may stand there.
    fn make_room(&self, but: &Path) {
        let Ok(entries) = fs::read_dir(&self.folder) else { return };
        let mut files: Vec<(SystemTime, PathBuf)> = entries
            .flatten()
            .map(|entry| entry.path())
            .filter(|path| path != but && path.extension().is_some_and(|it| it == ENDING))
            .filter_map(|path| Some((fs::symlink_metadata(&path).ok()?.modified().ok()?, path)))
            .collect();
        files.sort();
        let over = (files.len() + 1).saturating_sub(Self::MOST_FILES);
        for (_, path) in files.iter().take(over) {
            let _ = fs::remove_file(path);
        }
    }
}

/// What stands in a file, where it is whole and answers this question.
fn read(path: &Path, question: &[u8; DIGEST], bits: usize) -> Option<Vec<u8>> {
    let bytes = bits.div_ceil(8);
    let whole = ordinary::read_at_most(path, (bytes + 2 * DIGEST) as u64).ok()?;
    if whole.len() != bytes + 2 * DIGEST {
        return None;
    }
    let (asked, rest) = whole.split_at(DIGEST);
    let (held, digest) = rest.split_at(bytes);
    (asked == question && digest == digest_of(question, held)).then(|| held.to_vec())
}

fn digest_of(question: &[u8; DIGEST], held: &[u8]) -> [u8; DIGEST] {
    Sha256::new().chain_update(question).chain_update(held).finalize().into()
}

/// A bit for each bank on each table, table after table.
fn packed(rows: &[Vec<bool>]) -> Vec<u8> {
    let bits: Vec<bool> = rows.iter().flatten().copied().collect();
    let byte = |eight: &[bool]| {
        eight.iter().enumerate().fold(0, |byte, (at, is_set)| byte | u8::from(*is_set) << at)
    };
    bits.chunks(8).map(byte).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fitting::nine_foot;
    use railproof_engine::ensemble::Ensemble;
    use railproof_engine::equipment::RailModel;
    use railproof_engine::rail::{Line, Pocket, Rail};
    use railproof_engine::units::Speed;
    use std::sync::atomic::{AtomicUsize, Ordering};

    fn known() -> MeasuredTable {
        let mut known = MeasuredTable::wide(&nine_foot().expect("it ships"), true);
        known.model = RailModel::NoseOnly;
        known.ensemble = Ensemble::wide(101, 1);
        known
    }

    fn set_ups(count: u32) -> Vec<SetUp> {
        let bank = |at: u32| {
            let contact = 1.5 + 0.1 * f64::from(at);
            let (line, speed) = (Line::new(contact, 2.2 * contact), Speed::MetresPerSecond(3.0));
            SetUp::stun(Rail::Left, Pocket::FootRight, line, 0.0, speed)
        };
        (0..count).map(bank).collect()
    }

    fn files(folder: &Path) -> Vec<PathBuf> {
        let mut files: Vec<PathBuf> =
            fs::read_dir(folder).expect("a folder").map(|it| it.expect("a file").path()).collect();
        files.sort();
        files
    }

    #[test]
    fn what_is_kept_is_what_is_played_and_damage_is_played_anew() {
        let place = tempfile::tempdir().expect("a folder");
        let folder = place.path().join("kept");
        let kept = KeptShares::in_folder(&folder).expect("a program");
        let (known, banks) = (known(), set_ups(7));
        let ticks = AtomicUsize::new(0);
        let ask = |banks: &[SetUp]| {
            let tick = || {
                ticks.fetch_add(1, Ordering::Relaxed);
            };
            kept.shares(&known, banks, &tick).expect("banks")
        };
        let played = holding_shares(&known.table, known.model, &known.ensemble, &banks, &|| ());
        let played = played.expect("banks");
        assert!(played.iter().any(|it| it.share > 0.1 && it.share < 0.9), "{played:?}");
        assert_eq!(ask(&banks), played);
        assert_eq!(ask(&banks), played);
        assert_eq!(ticks.load(Ordering::Relaxed), 2 * known.ensemble.len());
        let [file] = files(&folder).try_into().expect("one file");
        let whole = fs::read(&file).expect("a file");
        // That it is read at all: an answer forged with its digest is believed.
        let held = vec![0; whole.len() - 2 * DIGEST];
        let question: [u8; DIGEST] = whole[..DIGEST].try_into().expect("a digest");
        let forged = [&question[..], &held, &digest_of(&question, &held)].concat();
        fs::write(&file, forged).expect("written");
        assert!(ask(&banks).iter().all(|it| it.share == 0.0));
        let mut damages = vec![Vec::new(), whole[..whole.len() - 1].to_vec(), vec![0; 3 << 20]];
        for at in (0..whole.len()).step_by(5) {
            let mut damaged = whole.clone();
            damaged[at] ^= 0x10;
            damages.push(damaged);
        }
        for damaged in damages {
            fs::write(&file, &damaged).expect("written");
            assert_eq!(ask(&banks), played);
            assert_eq!(fs::read(&file).expect("a file"), whole, "it is whole again");
        }
        // Where it can't be written the answer is the same.
        fs::remove_file(&file).expect("removed");
        fs::create_dir(&file).expect("a folder in its place");
        assert_eq!(ask(&banks), played);
    }

    #[test]
    fn another_question_has_another_file_and_files_have_a_limit() {
        let place = tempfile::tempdir().expect("a folder");
        let kept = KeptShares::in_folder(place.path()).expect("a program");
        let first = known();
        let ask = |known: &MeasuredTable, banks: &[SetUp]| {
            let _ = kept.shares(known, banks, &|| ()).expect("banks");
            files(place.path()).len()
        };
        assert_eq!(ask(&first, &set_ups(1)), 1);
        let mut other = first.clone();
        other.model = RailModel::Planar;
        assert_eq!(ask(&other, &set_ups(1)), 2);
        other = first.clone();
        other.table.cloth.pivot_deceleration_rad_s2 *= 1.0 + 1e-15;
        assert_eq!(ask(&other, &set_ups(1)), 3);
        other = first.clone();
        other.ensemble = Ensemble::wide(101, 2);
        assert_eq!(ask(&other, &set_ups(1)), 4);
        fs::write(place.path().join("notes.txt"), "mine").expect("written");
        for count in 2..60 {
            ask(&first, &set_ups(count));
        }
        assert_eq!(files(place.path()).len(), KeptShares::MOST_FILES + 1);
        assert!(place.path().join("notes.txt").exists());
        let rebuilt = KeptShares { program: "another build".to_owned(), ..kept.clone() };
        assert_ne!(rebuilt.question(&first, &[]), kept.question(&first, &[]));
    }
}
