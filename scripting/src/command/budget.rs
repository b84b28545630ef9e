//! Flags for what scripts and files of others may take and see, and the file that has them for every run.

use super::threads::Threads;
use crate::fault::{Fault, Place, nearest};
use crate::files::ordinary;
use crate::walled::Means;
use crate::walls::{Budget, Stop, bytes_of_text, duration_of_text};
use std::path::{Path, PathBuf};
use std::time::Duration;

const HEADING: &str = "Walls around scripts and files of others";

/// What work may take and see.
#[derive(Debug, Clone, Default, clap::Args)]
#[command(next_help_heading = HEADING)]
pub struct BudgetFlags {
    /// The most time of a scenario, or of a whole command: "90 s", "2 h"; 10 min unless given, and no limit for
    /// sweeps, fits and searches for rules.
    #[arg(long, value_name = "TIME", value_parser = duration_of_text)]
    pub time: Option<Duration>,
    /// The most memory: "512 MiB", "8 GiB"; 4 GiB unless given.
    #[arg(long, value_name = "AMOUNT", value_parser = memory)]
    pub memory: Option<u64>,
    /// The most bytes in a file that is written; 4 GiB unless given, and no limit for a sweep.
    #[arg(long, value_name = "AMOUNT", value_parser = output)]
    pub output_size: Option<u64>,
    /// A folder that may be read beside the file's own; can be given several times.
    #[arg(long, value_name = "DIR")]
    pub read: Vec<PathBuf>,
    /// A YAML file with time, memory, output_size and read, for every run; flags go before it.
    #[arg(long, value_name = "FILE", env = "RAILPROOF_LIMITS")]
    pub limits: Option<PathBuf>,
    /// Do everything in this process, without walls of the system.
    #[arg(long)]
    pub no_walls: bool,
}

fn memory(text: &str) -> Result<u64, String> {
    bytes_of_text(text, true)
}

fn output(text: &str) -> Result<u64, String> {
    bytes_of_text(text, false)
}

/// The keys of the file.
const KEYS: [&str; 4] = ["time", "memory", "output_size", "read"];
/// No such file is longer.
const LONGEST: u64 = 1 << 16;

impl BudgetFlags {
    /// What a worker may take and see.
    ///
    /// # Errors
    /// The file of limits can't be read or is wrong.
    pub(super) fn means(
        &self,
        usual: Budget,
        threads: Threads,
        stop: Stop,
    ) -> Result<Means, Fault> {
        let file = self.limits.as_deref().map(read_limits).transpose()?.unwrap_or_default();
        for folder in &self.read {
            if !folder.is_dir() {
                let message = format!("--read: there is no folder `{}`", folder.display());
                return Err(Fault::bad_input(message));
            }
        }
        let budget = Budget {
            time: self.time.or(file.time).or(usual.time),
            memory: self.memory.or(file.memory).unwrap_or(usual.memory),
            output: self.output_size.or(file.output_size).unwrap_or(usual.output),
        };
        let reads = [self.read.clone(), file.read].concat();
        Ok(Means { budget, reads, threads: threads.number(), stop })
    }
}

fn read_limits(path: &Path) -> Result<BudgetFlags, Fault> {
    let cannot = |why: String| {
        Fault::bad_input(format!("can't read the limits `{}`: {why}", path.display()))
    };
    let bytes = ordinary::read_at_most(path, LONGEST).map_err(|error| cannot(error.to_string()))?;
    let text = String::from_utf8(bytes).map_err(|_| cannot("it is not UTF-8 text".to_owned()))?;
    let label = path.display().to_string();
    let at = |line: usize| Place::line(label.as_str(), text.as_str().into(), line);
    let entries: serde_yaml::Mapping = serde_yaml::from_str(&text).map_err(|error| {
        let line = error.location().map_or(1, |place| place.line());
        Fault::bad_input("the limits must be a list of names and values").at(at(line))
    })?;
    let mut limits = BudgetFlags::default();
    for (key, value) in entries {
        let key = key.as_str().unwrap_or_default().to_owned();
        let line =
            1 + text.lines().position(|line| line.trim_start().starts_with(&key)).unwrap_or(0);
        let wrong = |why: String| Fault::bad_input(format!("`{key}`: {why}")).at(at(line));
        let word =
            || value.as_str().ok_or_else(|| wrong("write it as text, with its unit".to_owned()));
        match key.as_str() {
            "time" => limits.time = Some(duration_of_text(word()?).map_err(wrong)?),
            "memory" => limits.memory = Some(memory(word()?).map_err(wrong)?),
            "output_size" => limits.output_size = Some(output(word()?).map_err(wrong)?),
            "read" => {
                let list = value.as_sequence().map_or_else(|| vec![value.clone()], Clone::clone);
                for folder in &list {
                    let folder = folder.as_str().map(PathBuf::from).filter(|it| it.is_dir());
                    let folder = folder.ok_or_else(|| wrong("there is no such folder".to_owned()));
                    limits.read.push(folder?);
                }
            }
            _ => {
                let fault = wrong("there is no such limit".to_owned());
                return Err(match nearest(&key, KEYS) {
                    Some(near) => fault.with_hint(format!("did you mean `{near}`?")),
                    None => fault.with_hint(format!("there are {}", KEYS.join(", "))),
                });
            }
        }
    }
    Ok(limits)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn limits_of(text: &str) -> Result<BudgetFlags, Fault> {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("limits.yaml");
        std::fs::write(&path, text).unwrap();
        read_limits(&path)
    }

    #[test]
    fn a_file_has_what_the_flags_have() {
        let read =
            limits_of("time: 90 s\nmemory: 512 MiB\noutput_size: 1 GiB\nread: [.]\n").unwrap();
        assert_eq!(read.time, Some(Duration::from_secs(90)));
        assert_eq!((read.memory, read.output_size), (Some(512 << 20), Some(1 << 30)));
        assert_eq!(read.read, [PathBuf::from(".")]);
    }

    #[test]
    fn what_is_wrong_is_told_at_its_line() {
        for (text, words) in [
            ("time: 90 s\nmemroy: 1 GiB\n", "did you mean `memory`"),
            ("time: 90\n", "with its unit"),
            ("time: soon\n", "give a time such as"),
            ("read: nowhere\n", "no such folder"),
            ("- time\n", "must be a list of names"),
        ] {
            let fault = limits_of(text).unwrap_err();
            assert!(fault.to_string().contains(words), "{fault}");
            assert!(fault.place.is_some(), "{fault}");
        }
    }
}
