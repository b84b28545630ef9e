//! The planar bank compiled by numba, kept running beside the bench so that both are timed by turns.

use railproof_engine::bank::Bank;
use railproof_engine::impact::CushionContact;
use railproof_engine::motion::ClothMotion;
use railproof_engine::rail::Side;
use std::io::{self, BufRead, BufReader, Write};
use std::path::Path;
use std::process::{Child, ChildStdin, ChildStdout, Command, Stdio};

/// A Python that has numba, with the table told and everything compiled.
pub struct NumbaRival {
    process: Child,
    to: ChildStdin,
    from: BufReader<ChildStdout>,
    /// Its versions.
    pub versions: String,
}

const SCRIPT: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/rivals/planar_bank_numba.py");

impl NumbaRival {
    /// Starts it for `count` banks drawn from `ranges`, by the Python that `RAILPROOF_PYTHON` names
    /// or by `python3`.
    ///
    /// # Errors
    /// In words, when there is no such Python or it has no numba.
    pub fn start(bank: &Bank, ranges: &[(f64, f64); 7], count: usize) -> Result<Self, String> {
        let python = std::env::var_os("RAILPROOF_PYTHON").unwrap_or_else(|| "python3".into());
        let name = python.to_string_lossy().into_owned();
        let mut process = Command::new(python)
            .args(["-B", SCRIPT])
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .map_err(|error| format!("{name} does not start: {error}"))?;
        let pipes = process.stdin.take().zip(process.stdout.take());
        let (to, from) = pipes.ok_or("no pipes")?;
        let mut rival = Self { process, to, from: BufReader::new(from), versions: String::new() };
        rival.versions = rival
            .tell(bank, ranges, count)
            .and_then(|()| rival.answer())
            .map_err(|_| format!("{name} has no numba"))?;
        Ok(rival)
    }

    fn tell(&mut self, bank: &Bank, ranges: &[(f64, f64); 7], count: usize) -> io::Result<()> {
        let geometry = bank.geometry();
        let mouth = &geometry.mouth;
        let contact = CushionContact::new(bank.equipment());
        let cloth = ClothMotion::new(bank.equipment());
        let numbers = [
            ("radius", cloth.radius_m),
            ("sliding", cloth.sliding_deceleration_m_s2),
            ("rolling", cloth.rolling_deceleration_m_s2),
            ("pivot", cloth.pivot_deceleration_rad_s2),
            ("held", bank.equipment().cushion.contact_time_s),
            ("diamond", geometry.diamond_m),
            ("span", geometry.span_m),
            ("groove", geometry.groove_m),
            ("low_groove", geometry.low_groove_m),
            ("high_groove", geometry.high_groove_m),
            ("outward_x", mouth.outward.x),
            ("outward_y", mouth.outward.y),
            ("mouth_offset", mouth.outward.dot(mouth.midpoint)),
            ("middle_x", mouth.midpoint.x),
            ("middle_y", mouth.midpoint.y),
            ("long_x", mouth.toward_long.x),
            ("long_y", mouth.toward_long.y),
            ("half_mouth", 0.5 * mouth.width_m),
            ("restitution", contact.restitution),
            ("loss", contact.restitution_loss_s_m),
            ("floor", contact.restitution_floor),
            ("friction", contact.nose_friction),
        ];
        for (name, number) in numbers {
            writeln!(self.to, "{name} {number:?}")?;
        }
        for opening in &geometry.openings {
            let side = match opening.side {
                Side::Banked => 0,
                Side::Opposite => 1,
                Side::Low => 2,
                Side::High => 3,
            };
            let target = u8::from(opening.pocket == geometry.pocket);
            writeln!(self.to, "gap {side} {:?} {:?} {target}", opening.from_m, opening.to_m)?;
        }
        for (column, (low, high)) in ranges.iter().enumerate() {
            writeln!(self.to, "range {column} {low:?} {high:?}")?;
        }
        writeln!(self.to, "ready {count}")?;
        self.to.flush()
    }

    fn answer(&mut self) -> io::Result<String> {
        let mut line = String::new();
        if self.from.read_line(&mut line)? == 0 {
            return Err(io::ErrorKind::UnexpectedEof.into());
        }
        Ok(line.trim().to_owned())
    }

    /// Seconds for all its banks once: `drawn` makes the inputs on the way, `given` has them;
    /// with `-fast` the compiler may reorder and fuse.
    ///
    /// # Errors
    /// When the process has ended.
    pub fn seconds(&mut self, mode: &str) -> io::Result<f64> {
        writeln!(self.to, "time {mode}")?;
        self.to.flush()?;
        self.answer()?.parse().map_err(io::Error::other)
    }

    /// Its verdicts (by their place in the list of all), misses and clearances.
    ///
    /// # Errors
    /// When the process has ended or the file can't be read.
    pub fn answers(&mut self, file: &Path) -> io::Result<Vec<f64>> {
        writeln!(self.to, "write {}", file.display())?;
        self.to.flush()?;
        self.answer()?;
        let bytes = std::fs::read(file)?;
        Ok(bytes.as_chunks().0.iter().map(|chunk| f64::from_ne_bytes(*chunk)).collect())
    }
}

impl Drop for NumbaRival {
    fn drop(&mut self) {
        // It has nothing to lose; a second failure to end it would say nothing new.
        let _ = self.process.kill();
        let _ = self.process.wait();
    }
}
