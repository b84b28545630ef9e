# Sourced by the cluster tests: a small night's plan, its results on this machine, and comparing with
# them. The caller sets `program` and `work`.
# shellcheck shell=bash

fail() {
  printf '%s: %s\n' "${0##*/}" "$*" >&2
  exit 1
}

say() { printf '%s (%ss)\n' "$*" "$SECONDS"; }

# Makes $plan and the results of one uninterrupted local run in $alone.
play_alone() {
  plan=$work/night.json
  alone=$work/alone
  "$program" plan "$(dirname "$0")/night.lua" --out "$plan"
  "$program" sweep "$plan" --into "$alone" >"$work/alone.log" 2>&1 ||
    fail "the local run failed: $(tail "$work/alone.log")"
}

# Every file under a folder with its digest.
digests() { (cd "$1" && find . -type f -print0 | sort -z | xargs -0 sha256sum); }

# The folder holds the same files as the local run, byte for byte, and they are results.
same_as_alone() {
  [[ -f $alone/manifest.json && -n $(find "$alone/shards" -name "*.parquet") ]] || fail "no results in $alone"
  diff <(digests "$alone") <(digests "$1") ||
    fail "the files in $1 differ from those of a local run"
}
