//! No two pictures of a scenario share a title.

use crate::record::{Drawing, Picture};

/// Gives a picture whose title an earlier one has already what sets it apart: the first of its conditions
/// that no such picture shares, or else the name of its file.
pub fn set_apart(earlier: &[Drawing], name: &str, picture: &mut Picture) {
    let (title, conditions) = (picture.title().to_owned(), conditions(picture));
    let alike = || earlier.iter().filter(|drawing| drawing.picture.title() == title);
    if alike().next().is_none() {
        return;
    }
    let known: Vec<String> =
        alike().flat_map(|drawing| self::conditions(&drawing.picture)).collect();
    let own = conditions.into_iter().find(|condition| !known.contains(condition));
    let candidates = own.into_iter().chain([name.to_owned()]).map(|what| with(&title, &what));
    let is_free = |title: &String| earlier.iter().all(|it| it.picture.title() != title.as_str());
    if let Some(free) = candidates.into_iter().find(is_free) {
        *picture.title_mut() = free;
    }
}

/// `Holds at any speed (contact 2).`
fn with(title: &str, what: &str) -> String {
    let bare = title.trim_end_matches('.');
    format!("{bare} ({what}){}", &title[bare.len()..])
}

/// The parts of the lines under a title.
fn conditions(picture: &Picture) -> Vec<String> {
    let lines = match picture {
        Picture::Map(it) => it.subtitles.as_slice(),
        Picture::Difference(it) => &it.subtitles,
        Picture::BeforeAfter(it) => &it.subtitles,
        Picture::Lines(it) => &it.subtitles,
        Picture::Frontier(it) => &it.subtitles,
        Picture::Table(it) => std::slice::from_ref(&it.subtitle),
        Picture::Fit(it) => &it.subtitles,
    };
    // A finding, under a title of the script's own, and what is less sure are sentences.
    let told = lines.iter().filter(|line| !line.ends_with('.'));
    told.flat_map(|line| line.split("; ")).map(str::to_owned).collect()
}
