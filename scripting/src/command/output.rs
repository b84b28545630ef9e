//! Writing to the streams: a reader that has gone away is no error, a full disk is.

use crate::cluster::quoted;
use crate::exit::Exit;
use crate::fault::{Fault, Style, tame, visible_coloured, visible_json};
use crate::files::write_whole;
use crate::picture::PictureError;
use crate::walled::ToldFault;
use std::fmt::Write as _;
use std::io::{self, ErrorKind, Write};
use std::path::{Path, PathBuf};

/// Writes text to standard output at once. When the reader has closed the pipe, the text is
/// dropped quietly. Names in it come from files of others: of codes to a terminal only those for colour are written.
///
/// # Errors
/// [`Exit::CouldNotFinish`] when it can't be written for another reason, such as a full disk.
pub fn print(text: &str) -> Result<(), Fault> {
    write_to(&mut io::stdout().lock(), &visible_coloured(text))
}

/// A value as JSON over several lines, ending with a line break. Numbers are written with as few
/// digits as bring back the same number; those that are not finite become null.
///
/// # Errors
/// [`Exit::CouldNotFinish`] when the value has no form in JSON.
pub fn to_json(value: &impl serde::Serialize) -> Result<String, Fault> {
    serde_json::to_string_pretty(value).map(|text| visible_json(&text) + "\n").map_err(|error| {
        Fault::new(Exit::CouldNotFinish, format!("the answer can't be written as JSON: {error}"))
    })
}

/// A line for each picture that was written.
pub fn pictures_written(paths: &[PathBuf]) -> String {
    let mut lines = String::new();
    for path in paths {
        let _ = writeln!(lines, "picture written: {}", tame(&path.display().to_string()));
    }
    lines
}

/// A line for a table that was written.
pub(super) fn rows_written(path: &Path) -> String {
    format!("rows written: {}\n", tame(&path.display().to_string()))
}

/// Writes a picture into a folder as SVG and as PNG.
///
/// # Errors
/// [`Exit::CouldNotFinish`] when it can't be drawn, and as of writing a file.
pub(super) fn write_both(
    folder: &Path,
    name: &str,
    svg: Result<String, PictureError>,
    png: Result<Vec<u8>, PictureError>,
) -> Result<Vec<PathBuf>, Fault> {
    let cannot =
        |error| Fault::new(Exit::CouldNotFinish, format!("the {name} can't be drawn: {error}"));
    let contents = [("svg", svg.map_err(cannot)?.into_bytes()), ("png", png.map_err(cannot)?)];
    let mut written = Vec::with_capacity(contents.len());
    for (extension, bytes) in contents {
        let path = folder.join(format!("{name}.{extension}"));
        write_whole(&path, |out| out.write_all(&bytes))?;
        written.push(path);
    }
    Ok(written)
}

fn write_to(stream: &mut impl Write, text: &str) -> Result<(), Fault> {
    match stream.write_all(text.as_bytes()).and_then(|()| stream.flush()) {
        Err(error) if error.kind() != ErrorKind::BrokenPipe => Err(Fault::new(
            Exit::CouldNotFinish,
            format!("standard output can't be written: {error}"),
        )),
        _ => Ok(()),
    }
}

/// Writes a fault to standard error. There is nowhere to report a failure to.
pub fn print_fault(fault: &Fault, style: Style) {
    let _ = io::stderr().lock().write_all(fault.render(style).as_bytes());
}

/// Writes words to standard error. There is nowhere to report a failure to.
pub(super) fn print_error(words: &str) {
    let _ = io::stderr().lock().write_all(visible_coloured(words).as_bytes());
}

/// Writes a fault of another process to standard error.
pub(super) fn print_told(fault: &ToldFault) {
    let _ = io::stderr().lock().write_all(fault.shown.as_bytes());
}

/// Tells something on standard error that is no fault.
pub fn remark(words: &str) {
    let _ = writeln!(io::stderr().lock(), "note: {}", tame(words));
}

/// A path as one word of a command line.
pub fn command_word(path: &str) -> String {
    let plain = |letter: char| letter.is_alphanumeric() || "/._-".contains(letter);
    match quoted(path, "the path") {
        Ok(quoted) if !path.chars().all(plain) => quoted,
        _ => path.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    struct Broken(ErrorKind);

    impl Write for Broken {
        fn write(&mut self, _: &[u8]) -> io::Result<usize> {
            Err(self.0.into())
        }
        fn flush(&mut self) -> io::Result<()> {
            Ok(())
        }
    }

    #[test]
    fn only_a_closed_pipe_is_quiet() {
        assert_eq!(write_to(&mut Broken(ErrorKind::BrokenPipe), "text"), Ok(()));
        let full = write_to(&mut Broken(ErrorKind::StorageFull), "text");
        assert_eq!(full.map_err(|fault| fault.exit), Err(Exit::CouldNotFinish));
    }
}
