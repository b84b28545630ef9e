#!/usr/bin/env bash
# A sweep on a real Slurm of one node: an array whose tasks are killed, requeued and told that time is
# up, then the merge that waited for it. The files must be those of one local run, byte for byte.
#
#   slurm.sh PROGRAM     the railproof to test; needs root and what one_node_slurm.sh names
set -euo pipefail
[[ $# == 1 ]] || { echo "usage: slurm.sh PROGRAM" >&2; exit 2; }
program=$(realpath "$1")
here=$(cd "$(dirname "$0")" && pwd)
work=$(mktemp -d)
source "$here/night.sh"

clean_up() {
  local status=$?
  if ((status != 0)); then
    tail -n 60 "$work"/cluster/*.log "$work"/logs*/*.log >&2 || true
  fi
  "$here/one_node_slurm.sh" stop "$work/cluster" || true
  rm -rf "$work"
}
trap clean_up EXIT

readonly TASKS=6

# One property of a job, such as JobState.
property() { scontrol --oneliner show job "$1" | tr ' ' '\n' | sed -n "s/^$2=//p" | head -n 1; }

# Waits until a job is in a state.
reaches() {
  local deadline=$((SECONDS + 60)) state
  until state=$(property "$1" JobState) && [[ $state == "$2" ]]; do
    case $state in
      FAILED | CANCELLED | TIMEOUT | NODE_FAIL) fail "job $1 is $state instead of $2" ;;
    esac
    ((SECONDS < deadline)) || fail "job $1 is still $state instead of $2: $(squeue)"
    sleep 0.1
  done
}

# The process of a task's sweep, once it is there; told by its whole command line.
sweep_of() {
  local deadline=$((SECONDS + 20)) process arguments
  while ((SECONDS < deadline)); do
    for process in /proc/[0-9]*; do
      mapfile -d '' -t arguments 2>/dev/null <"$process/cmdline" || continue
      if [[ ${arguments[*]} == *"sweep "*"--shard $1/$TASKS --into $into "* ]]; then
        echo "${process#/proc/}"
        return
      fi
    done
    sleep 0.05
  done
  fail "task $1 never ran"
}

# A process and its workers, which play what it is asked.
with_workers() {
  echo "$1"
  cat "/proc/$1/task/"*/children
}

# Waits until SIGTERM waits for a process that stands still.
told_to_end() {
  local deadline=$((SECONDS + 50)) waiting
  until waiting=$(sed -n 's/^ShdPnd:[[:space:]]*//p' "/proc/$1/status") && ((0x$waiting >> 14 & 1)); do
    ((SECONDS < deadline)) || fail "process $1 was not told to end"
    sleep 0.1
  done
}

# Submits the jobs; sets `array` and `merge` to their numbers.
submit() {
  local said
  said=$(bash "$work/night.sh")
  echo "$said"
  [[ $said =~ sweep:\ job\ ([0-9]+),\ $TASKS\ tasks\;\ merge:\ job\ ([0-9]+) ]] || fail "no jobs?"
  array=${BASH_REMATCH[1]} merge=${BASH_REMATCH[2]}
}

"$here/one_node_slurm.sh" start "$work/cluster" >/dev/null
export SLURM_CONF=$work/cluster/slurm.conf
say "cluster started"

play_alone
say "played alone"

into="$work/it's shared"
"$program" slurm "$plan" --into "$into" --logs "$work/logs of tasks" --tasks $TASKS \
  --partition tests --extra --comment=night --script "$work/night.sh"
submit

# Three tasks are disturbed in the middle of their work, each in another way; a disturbed task makes
# way for the next.
late=$(sweep_of 1)
killed=$(sweep_of 2)
sleep 0.5
# Task 1 stands still until Slurm, which looks every half a minute, says that a minute is left.
mapfile -t still < <(with_workers "$late" | tr ' ' '\n' | grep .)
kill -STOP "${still[@]}"
scontrol update "JobId=${array}_1" TimeLimit=1
kill -KILL "$killed"
sweep_of 3 >/dev/null
sleep 0.5
scontrol requeue "${array}_3"
say "task 2 killed, task 3 requeued"
told_to_end "$late"
kill -CONT "${still[@]}"
deadline=$((SECONDS + 20))
until [[ $(property "${array}_1" Restarts) == 1 ]]; do
  ((SECONDS < deadline)) || fail "task 1 did not go back in the queue"
  sleep 0.1
done
scontrol update "JobId=${array}_1" TimeLimit=5
say "task 1 told that time is up"

reaches "$merge" COMPLETED
for task in $(seq $TASKS); do
  restarts=$(property "${array}_$task" Restarts)
  expected=$((task <= 3))
  [[ $restarts == "$expected" ]] || fail "task $task was restarted $restarts times, not $expected"
  [[ $(property "${array}_$task" JobState) == COMPLETED ]] || fail "task $task did not complete"
done
grep -q Killed "$work/logs of tasks/sweep-2.log" || fail "the killing left no trace"
same_as_alone "$into"
say "array and merge done: the same bytes"

submit
reaches "$merge" COMPLETED
same_as_alone "$into"
say "submitted again on top of it: the same bytes"
