//! Names of people as a file of lines holds them.

/// Names come from people; a tab or a line break in one would break the file.
pub(super) fn tame(name: &str) -> String {
    let plain: String =
        name.chars().map(|letter| if letter.is_control() { ' ' } else { letter }).collect();
    plain.trim().to_owned()
}
