//! The folder of a sweep: `plan.json`, a file for each shard, and the files made of them at the end.

use super::count::{Reasons, count};
use super::names::{parse, start_of};
use super::notes::{NoNotes, ShardNote, read_notes};
use crate::called;
use crate::exit::Exit;
use crate::fault::Fault;
use crate::files::ordinary;
use crate::files::{Disk, UNFINISHED, publish};
use crate::plan::{SweepPlan, differences, plan_of_text, sha256, without_layout};
use rayon::prelude::*;
use std::collections::BTreeMap;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

/// The plan's file.
pub const PLAN_FILE: &str = "plan.json";
/// Where the shards are.
pub const SHARDS: &str = "shards";
/// Where points are that could not be played, when the shards hold no rows.
pub const FAILED: &str = "failed";
/// The file that is written last.
pub const MANIFEST_FILE: &str = "manifest.json";
/// The map of all shards together.
pub const MAP_FILE: &str = "map.parquet";

/// The folder of one sweep.
#[derive(Debug, Clone)]
pub struct Folder {
    path: PathBuf,
}

/// A shard that is there.
#[derive(Debug, Clone, PartialEq)]
pub struct ShardFile {
    /// Its file's name.
    pub name: String,
    /// Its file's size.
    pub bytes: u64,
    /// SHA-256 of its file.
    pub sha256: String,
    /// Its own notes, which agree with its rows.
    pub note: ShardNote,
    /// Why banks could not be played, once counted.
    pub reasons: Reasons,
}

/// Why a file is not the shard it should be.
enum ShardDefect {
    /// It was one, or was to be.
    Damaged(String),
    /// It is something else.
    Foreign(String),
    /// A folder or a pipe is where its file of failed points should be.
    Misplaced { name: String, why: String },
}

/// Names that come and go while others are at work on the folder: files not yet finished, and what a
/// network file system leaves of a file that somebody still reads.
fn is_passing(name: &str) -> bool {
    name.starts_with(UNFINISHED) || name.starts_with(".nfs")
}

/// The name of the file of a shard's points that could not be played.
pub(super) fn failed_name(shard: u64, digest: &str) -> String {
    format!("{shard:06}-{digest}.parquet")
}

/// The shards of a plan that a folder holds.
#[derive(Debug, Clone, Default)]
pub struct Inventory {
    /// Shards that are there and whole.
    pub found: BTreeMap<u64, ShardFile>,
    /// Files that are not what they should be: name and why.
    pub damaged: Vec<(String, String)>,
    /// Files that have no business there: path from the sweep's folder, and why.
    pub foreign: Vec<(String, String)>,
}

impl Inventory {
    /// Refuses a folder that holds something foreign.
    ///
    /// # Errors
    /// The foreign thing, by name.
    pub fn refuse_foreign(&self, folder: &Folder) -> Result<(), Fault> {
        let Some((name, why)) = self.foreign.first() else { return Ok(()) };
        let more = match self.foreign.len() - 1 {
            0 => String::new(),
            more => format!("; and {more} more"),
        };
        let path = folder.path().join(name);
        let told = foreign_line(&path.display().to_string(), name, why);
        let hint = if is_own_file(name) {
            "remove it and give the same sweep again, which writes its own"
        } else {
            "remove it; programs that read the folder would read it too"
        };
        Err(Fault::new(Exit::NotWhole, format!("{told}{more}")).with_hint(hint))
    }
}

/// True for the name of a file that the sweep writes beside its shards.
fn is_own_file(name: &str) -> bool {
    [PLAN_FILE, MANIFEST_FILE, MAP_FILE].contains(&name)
}

/// Why a thing of a name has no business in the folder, where messages call it `shown`.
pub(super) fn foreign_line(shown: &str, name: &str, why: &str) -> String {
    if is_own_file(name) {
        format!("`{shown}` is not the file that the sweep wrote: {why}")
    } else {
        format!("`{shown}` does not belong there: {why}")
    }
}

impl Folder {
    /// A folder of that path.
    pub fn new(path: &Path) -> Self {
        Self { path: path.to_owned() }
    }

    /// Its path.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// Where the shards are.
    pub fn shards(&self) -> PathBuf {
        self.path.join(SHARDS)
    }

    /// Where points are that could not be played.
    pub fn failed(&self) -> PathBuf {
        self.path.join(FAILED)
    }

    /// The plan that stands in the folder, if one does.
    ///
    /// # Errors
    /// When its file is there and can't be used.
    pub fn plan(&self) -> Result<Option<SweepPlan>, Fault> {
        self.plan_text()?.map(|text| self.stored_plan(&text)).transpose()
    }

    /// The plan of the folder's file. One that can't be used leaves the sweep not whole.
    fn stored_plan(&self, text: &str) -> Result<SweepPlan, Fault> {
        let label = self.path.join(PLAN_FILE).display().to_string();
        if text.trim().is_empty() {
            return Err(self.no_plan("it is empty"));
        }
        serde_json::from_str::<serde::de::IgnoredAny>(text)
            .map_err(|error| self.no_plan(&error.to_string()))?;
        plan_of_text(&label, text).map_err(|fault| Fault { exit: Exit::NotWhole, ..fault })
    }

    /// The fault of a plan's file that holds something else.
    fn no_plan(&self, why: &str) -> Fault {
        let label = self.path.join(PLAN_FILE).display().to_string();
        Fault::new(Exit::NotWhole, format!("`{label}` is not a plan: {why}")).with_hint(format!(
            "take {PLAN_FILE} out of the folder and give the same sweep again: it writes its plan"
        ))
    }

    /// The fault of a folder without a plan: a sweep that lost it, or no sweep.
    pub fn without_plan(&self) -> Fault {
        let shown = self.path.display();
        if self.shards().is_dir() {
            return Fault::new(Exit::NotWhole, format!("`{shown}` has lost its {PLAN_FILE}"))
                .with_hint(
                    "give the same sweep again, with --into and this folder: it writes its plan",
                );
        }
        Fault::bad_input(format!("`{shown}` holds no sweep: there is no {PLAN_FILE}"))
            .with_hint(called::command("sweep PLAN.json --into DIR begins one"))
    }

    /// Makes the folder ready for a plan, or refuses one that is not the plan it holds.
    ///
    /// # Errors
    /// The differences of another plan; a folder that can't be made or written.
    pub fn open(&self, plan: &SweepPlan, disk: &dyn Disk) -> Result<(), Fault> {
        let path = self.path.join(PLAN_FILE);
        self.check(plan)?;
        if !path.exists() {
            make(&self.path)?;
            publish(disk, &self.path, PLAN_FILE, &mut |out| out.write_all(plan.text().as_bytes()))
                .map_err(|error| cannot("write", &path, &error))?;
        }
        make(&self.shards())
    }

    /// Refuses a folder that holds another plan; one without a plan is fine.
    ///
    /// # Errors
    /// The differences of the other plan.
    pub fn check(&self, plan: &SweepPlan) -> Result<(), Fault> {
        self.plan_text()?.map_or(Ok(()), |text| self.same_plan(&text, plan))
    }

    /// The plan's file, once nothing in the folder is in another's place.
    fn plan_text(&self) -> Result<Option<String>, Fault> {
        Inventory { foreign: self.misplaced(), ..Inventory::default() }.refuse_foreign(self)?;
        let path = self.path.join(PLAN_FILE);
        match ordinary::read(&path).map(String::from_utf8) {
            Ok(Ok(text)) => Ok(Some(text)),
            Ok(Err(_)) => Err(self.no_plan("it is not text")),
            Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(None),
            Err(error) => Err(cannot("read", &path, &error)),
        }
    }

    /// Folders and pipes where files should be, and files where folders should be: name, and why it
    /// does not belong there.
    pub fn misplaced(&self) -> Vec<(String, String)> {
        let mut found = Vec::new();
        for name in [PLAN_FILE, MANIFEST_FILE, MAP_FILE] {
            if let Err(error) = ordinary::open(&self.path.join(name))
                && ordinary::is_misplaced(&error)
            {
                found.push((name.to_owned(), error.to_string()));
            }
        }
        for name in [SHARDS, FAILED] {
            if fs::metadata(self.path.join(name)).is_ok_and(|about| !about.is_dir()) {
                found.push((name.to_owned(), "it is not a folder".to_owned()));
            }
        }
        found
    }

    /// Takes over the whole shards of another folder that this one lacks; gives their number.
    ///
    /// # Errors
    /// The disk.
    pub fn take_from(
        &self,
        other: &Self,
        plan: &SweepPlan,
        disk: &dyn Disk,
    ) -> Result<usize, Fault> {
        let all = |_| true;
        let (own, theirs) = (self.inventory_of(plan, &all)?, other.inventory_of(plan, &all)?);
        own.refuse_foreign(self)?;
        theirs.refuse_foreign(other)?;
        let mut taken = 0;
        let copy = |folder: PathBuf, to: PathBuf, name: &str| {
            let from = folder.join(name);
            let bytes = ordinary::read(&from).map_err(|error| cannot("read", &from, &error))?;
            make(&to)?;
            publish(disk, &to, name, &mut |out| out.write_all(&bytes))
                .map_err(|error| cannot("write", &to.join(name), &error))
        };
        for (shard, found) in &theirs.found {
            if own.found.get(shard).is_some_and(|own| own.name == found.name) {
                continue;
            }
            if let Some(digest) = &found.note.failed_file {
                let name = failed_name(*shard, digest);
                copy(other.failed(), self.failed(), &name)?;
            }
            copy(other.shards(), self.shards(), &found.name)?;
            taken += 1;
        }
        for (name, why) in &theirs.damaged {
            // What is whole here needs no other.
            if !parse(name).is_some_and(|(shard, _)| own.found.contains_key(&shard)) {
                let path = other.shards().join(name);
                return Err(Fault::new(
                    Exit::NotWhole,
                    format!("`{}` is damaged: {why}", path.display()),
                )
                .with_hint("the sweep that made it, given again, plays it again"));
            }
        }
        Ok(taken)
    }

    fn same_plan(&self, text: &str, plan: &SweepPlan) -> Result<(), Fault> {
        let before: serde_json::Value =
            serde_json::from_str(text).map_err(|error| self.no_plan(&error.to_string()))?;
        if !before.is_object() {
            return Err(self.no_plan("it is not an object"));
        }
        let now = plan.decides();
        let mut then = before;
        if let (Some(now), Some(then)) = (now.as_object(), then.as_object_mut()) {
            then.retain(|key, _| now.contains_key(key));
        }
        // What a function's text looks like does not matter.
        without_layout(&mut then);
        let found = differences(&then, &now);
        if found.is_empty() {
            return self.stored_plan(text).map(drop);
        }
        Err(Fault::bad_input(format!(
            "`{}` holds another sweep; what differs: {}",
            self.path.display(),
            found.join("; ")
        ))
        .with_hint("give this one a folder of its own with --into"))
    }

    /// Looks at every shard's file, checks that it is what it was, and counts its rows.
    ///
    /// # Errors
    /// A folder that can't be read, or two whole files for one shard.
    pub fn inventory(&self, plan: &SweepPlan) -> Result<Inventory, Fault> {
        let mut inventory = self.inventory_of(plan, &|_| true)?;
        let claimed: Vec<String> = inventory
            .found
            .iter()
            .filter_map(|(shard, found)| {
                Some(failed_name(*shard, found.note.failed_file.as_ref()?))
            })
            .collect();
        let mut strays = Vec::new();
        let is_foreign = |name: &str| match parse(name) {
            // The file of a shard that is missing or damaged is judged once that is played again.
            Some((shard, _)) if shard < plan.shards() => {
                inventory.found.contains_key(&shard) && !claimed.iter().any(|claim| claim == name)
            }
            _ => !is_passing(name),
        };
        for name in listed(&self.failed())? {
            if is_foreign(&name) {
                let why = "no shard has such failed points".to_owned();
                strays.push((format!("{FAILED}/{name}"), why));
            }
        }
        inventory.foreign.extend(strays);
        Ok(inventory)
    }

    /// Looks at some of the shards' files, as [`Folder::inventory`] does at all.
    ///
    /// # Errors
    /// As [`Folder::inventory`].
    pub fn inventory_of(
        &self,
        plan: &SweepPlan,
        own: &dyn Fn(u64) -> bool,
    ) -> Result<Inventory, Fault> {
        let digest_of_plan = plan.sha256();
        let mut inventory = Inventory::default();
        let mut shards = Vec::new();
        for name in listed(&self.shards())? {
            match parse(&name) {
                Some((shard, _)) => {
                    if own(shard) {
                        shards.push(name);
                    }
                }
                None if is_passing(&name) => {}
                None => inventory.foreign.push((
                    format!("{SHARDS}/{name}"),
                    "no shard of this sweep has that name".to_owned(),
                )),
            }
        }
        let looked: Vec<(String, Result<ShardFile, ShardDefect>)> = shards
            .into_par_iter()
            .map(|name| {
                let looked = self.look(&name, plan, &digest_of_plan);
                (name, looked)
            })
            .collect();
        for (name, looked) in looked {
            match looked {
                Err(ShardDefect::Damaged(why)) => inventory.damaged.push((name, why)),
                Err(ShardDefect::Foreign(why)) => {
                    inventory.foreign.push((format!("{SHARDS}/{name}"), why));
                }
                Err(ShardDefect::Misplaced { name, why }) => inventory.foreign.push((name, why)),
                Ok(found) => {
                    let shard = found.note.shard;
                    if let Some(other) = inventory.found.insert(shard, found) {
                        return Err(Fault::new(
                            Exit::CouldNotFinish,
                            format!(
                                "shard {shard} came out in two ways: `{}` and `{name}`",
                                other.name
                            ),
                        )
                        .with_hint(
                            "both are whole, so two machines or programs computed differently; \
                             find out which is right before going on, and remove the other file",
                        ));
                    }
                }
            }
        }
        Ok(inventory)
    }

    fn look(
        &self,
        name: &str,
        plan: &SweepPlan,
        plan_sha256: &str,
    ) -> Result<ShardFile, ShardDefect> {
        let damaged = |why: &str| ShardDefect::Damaged(why.to_owned());
        let (shard, expected) = parse(name).ok_or_else(|| damaged("its name is not a shard's"))?;
        let bytes = ordinary::read(&self.shards().join(name)).map_err(|error| {
            let unfit = if ordinary::is_misplaced(&error) {
                ShardDefect::Foreign
            } else {
                ShardDefect::Damaged
            };
            unfit(error.to_string())
        })?;
        let sha256_of_file = sha256(&bytes);
        let size = bytes.len() as u64;
        let bytes = bytes::Bytes::from(bytes);
        let notes = read_notes(bytes.clone());
        if let Err(NoNotes::None) = notes {
            return Err(ShardDefect::Foreign("it is a Parquet file of another program".to_owned()));
        }
        if shard >= plan.shards() {
            return Err(match notes {
                Ok((of_plan, _)) if of_plan == plan_sha256 => {
                    damaged("it holds another shard than its name says")
                }
                _ => ShardDefect::Foreign("no shard of this sweep has that number".to_owned()),
            });
        }
        if start_of(&sha256_of_file) != expected {
            return Err(damaged("its content has changed"));
        }
        let (of_plan, note) = notes.map_err(|error| ShardDefect::Damaged(error.to_string()))?;
        if of_plan != plan_sha256 {
            return Err(ShardDefect::Foreign("it belongs to another plan".to_owned()));
        }
        let points = plan.shard(shard);
        if (note.shard, note.first_point, note.first_point.saturating_add(note.points))
            != (shard, points.start, points.end)
        {
            return Err(damaged("it holds another shard than its name says"));
        }
        let mut failed_bytes = None;
        if let Some(failed) = &note.failed_file {
            let name = failed_name(shard, failed);
            let bytes = ordinary::read(&self.failed().join(&name)).map_err(|error| {
                if ordinary::is_misplaced(&error) {
                    ShardDefect::Misplaced {
                        name: format!("{FAILED}/{name}"),
                        why: error.to_string(),
                    }
                } else {
                    damaged("its file of failed points is missing")
                }
            })?;
            if start_of(&sha256(&bytes)) != failed {
                return Err(damaged("its file of failed points has changed"));
            }
            failed_bytes = Some(bytes::Bytes::from(bytes));
        }
        let counted =
            count(plan, shard, bytes, failed_bytes, &note).map_err(ShardDefect::Damaged)?;
        if (note.rows, &note.tallies) != (counted.rows, &counted.tallies) {
            return Err(damaged("the counts in its note do not match its rows"));
        }
        Ok(ShardFile {
            name: name.to_owned(),
            bytes: size,
            sha256: sha256_of_file,
            note,
            reasons: counted.reasons,
        })
    }

    /// Takes away what an interrupted run left unfinished for some shards.
    ///
    /// # Errors
    /// When a file can't be removed.
    pub fn remove_unfinished(&self, own: &dyn Fn(u64) -> bool) -> Result<(), Fault> {
        for folder in [self.shards(), self.failed()] {
            for name in listed(&folder)? {
                let Some(rest) = name.strip_prefix(UNFINISHED) else { continue };
                let shard =
                    rest.get(..rest.find('-').unwrap_or(0)).and_then(|digits| digits.parse().ok());
                if shard.is_some_and(own) {
                    remove(&folder.join(&name))?;
                }
            }
        }
        Ok(())
    }

    /// Takes away everything unfinished, once all shards are there.
    ///
    /// # Errors
    /// When a file can't be removed.
    pub fn tidy(&self) -> Result<(), Fault> {
        self.remove_unfinished(&|_| true)?;
        for name in listed(&self.path)? {
            if name.starts_with(UNFINISHED) {
                remove(&self.path.join(&name))?;
            }
        }
        Ok(())
    }

    /// Takes away a damaged shard, to be played again.
    ///
    /// # Errors
    /// When it can't be removed.
    pub fn remove_shard(&self, name: &str) -> Result<(), Fault> {
        remove(&self.shards().join(name))
    }
}

fn remove(path: &Path) -> Result<(), Fault> {
    match fs::remove_file(path) {
        Err(error) if error.kind() != io::ErrorKind::NotFound => {
            Err(cannot("remove", path, &error))
        }
        _ => Ok(()),
    }
}

/// The names in a folder, in order; none when it is not there.
pub(super) fn listed(folder: &Path) -> Result<Vec<String>, Fault> {
    let entries = match fs::read_dir(folder) {
        Ok(entries) => entries,
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(Vec::new()),
        Err(error) => return Err(cannot("read", folder, &error)),
    };
    let mut names = Vec::new();
    for entry in entries {
        let entry = entry.map_err(|error| cannot("read", folder, &error))?;
        names.push(entry.file_name().to_string_lossy().into_owned());
    }
    names.sort();
    Ok(names)
}

pub(super) fn make(folder: &Path) -> Result<(), Fault> {
    crate::files::make_folder(folder)
}

/// A fault of the system at a path.
pub(super) fn cannot(what: &str, path: &Path, error: &io::Error) -> Fault {
    let fault =
        Fault::new(Exit::CouldNotFinish, format!("can't {what} `{}`: {error}", path.display()));
    match error.kind() {
        io::ErrorKind::StorageFull | io::ErrorKind::QuotaExceeded => fault.with_hint(
            "make room and give the same command again: it goes on with the shards that are missing",
        ),
        _ => fault,
    }
}
