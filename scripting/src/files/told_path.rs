//! Paths in records as the system has them: not every path is text.

/// One path.
pub(crate) mod one {
    use serde::{Deserialize, Deserializer, Serialize, Serializer};
    use std::ffi::OsString;
    use std::path::{Path, PathBuf};

    pub(crate) fn serialize<S: Serializer>(path: &Path, to: S) -> Result<S::Ok, S::Error> {
        path.as_os_str().serialize(to)
    }

    pub(crate) fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<PathBuf, D::Error> {
        OsString::deserialize(from).map(PathBuf::from)
    }
}

/// One or none.
pub(crate) mod maybe {
    use serde::{Deserialize, Deserializer, Serialize, Serializer};
    use std::ffi::OsString;
    use std::path::{Path, PathBuf};

    #[expect(clippy::ref_option, reason = "as serde hands it over")]
    pub(crate) fn serialize<S: Serializer>(
        path: &Option<PathBuf>,
        to: S,
    ) -> Result<S::Ok, S::Error> {
        path.as_deref().map(Path::as_os_str).serialize(to)
    }

    pub(crate) fn deserialize<'de, D: Deserializer<'de>>(
        from: D,
    ) -> Result<Option<PathBuf>, D::Error> {
        Ok(Option::<OsString>::deserialize(from)?.map(PathBuf::from))
    }
}

/// Several.
pub(crate) mod many {
    use serde::{Deserialize, Deserializer, Serializer};
    use std::ffi::OsString;
    use std::path::PathBuf;

    pub(crate) fn serialize<S: Serializer>(paths: &[PathBuf], to: S) -> Result<S::Ok, S::Error> {
        to.collect_seq(paths.iter().map(|path| path.as_os_str()))
    }

    pub(crate) fn deserialize<'de, D: Deserializer<'de>>(
        from: D,
    ) -> Result<Vec<PathBuf>, D::Error> {
        let paths = Vec::<OsString>::deserialize(from)?;
        Ok(paths.into_iter().map(PathBuf::from).collect())
    }
}
