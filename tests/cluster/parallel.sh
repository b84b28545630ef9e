#!/usr/bin/env bash
# A sweep in four shares under GNU parallel, merged: the same files as one local run.
#
#   parallel.sh PROGRAM     the railproof to test
set -euo pipefail
[[ $# == 1 ]] || { echo "usage: parallel.sh PROGRAM" >&2; exit 2; }
program=$(realpath "$1")
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
source "$(dirname "$0")/night.sh"
command -v parallel >/dev/null || fail "GNU parallel is missing"

play_alone
say "played alone"

export program plan into="$work/it's shared"
parallel --will-cite --jobs 2 --halt now,fail=1 \
  '"$program" sweep "$plan" --shard {}/4 --into "$into" --threads 1' ::: 4 2 1 3 \
  >"$work/parallel.log" 2>&1 || fail "a share failed: $(tail "$work/parallel.log")"
"$program" merge "$into"
same_as_alone "$into"
say "four shares under GNU parallel: the same bytes"

# Once more over what is there.
parallel --will-cite '"$program" sweep "$plan" --shard {}/4 --into "$into"' ::: 1 2 3 4 \
  >"$work/parallel.log" 2>&1 || fail "a share failed on top: $(tail "$work/parallel.log")"
"$program" merge "$into"
same_as_alone "$into"
say "again on top of them: the same bytes"
