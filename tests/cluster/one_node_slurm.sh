#!/usr/bin/env bash
# A whole Slurm cluster of one node as plain processes of the caller, for tests.
#
#   one_node_slurm.sh start FOLDER    configure and start it in a new folder; prints what to export
#   one_node_slurm.sh stop FOLDER     end every job and process that was started there
#
# Needs root (slurmd starts jobs as their owner) and Debian's slurmctld, slurmd, slurm-client and
# munge. The node says that it has two cores, whatever it has. No service manager, no accounting database, nothing under /etc: key, sockets, states and
# logs are in FOLDER, and the processes listen on this machine's loopback address only.
set -euo pipefail

fail() { printf 'one_node_slurm.sh: %s\n' "$*" >&2; exit 1; }

# Waits until a command succeeds, for as long as FOLDER's daemons may take to come up.
until_done() {
  local deadline=$((SECONDS + 20))
  until "$@" >/dev/null 2>&1; do
    ((SECONDS < deadline)) || return 1
    sleep 0.1
  done
}

# Ports that nothing listens on now, from below the range that outgoing connections are given.
free_ports() {
  local wanted=$1 port
  for ((port = 21000 + RANDOM % 8000; wanted > 0; port++)); do
    if ! (: <"/dev/tcp/127.0.0.1/$port") 2>/dev/null; then
      echo "$port"
      ((wanted--)) || true
    fi
  done
}

# A daemon in the background with its process id kept in a file.
daemon() {
  local name=$1
  shift
  "$@" </dev/null >>"$folder/$name.out" 2>&1 &
  echo $! >"$folder/$name.started"
}

start() {
  [[ $(id -u) == 0 ]] || fail "must run as root"
  for tool in munged slurmctld slurmd scontrol; do
    command -v "$tool" >/dev/null || fail "$tool is missing"
  done
  mkdir "$folder"
  # munged trusts no folder that others can write to.
  chmod 755 "$folder"
  mkdir "$folder"/{state,spool,munge}
  local host ports
  host=$(uname -n)
  host=${host%%.*}
  mapfile -t ports < <(free_ports 2)

  dd if=/dev/urandom of="$folder/munge/key" bs=128 count=1 status=none
  chmod 600 "$folder/munge/key"
  daemon munged munged --foreground --force --num-threads=2 \
    --key-file="$folder/munge/key" --socket="$folder/munge/socket" \
    --seed-file="$folder/munge/seed" --pid-file="$folder/munge/pid" \
    --log-file="$folder/munge/log"
  until_done munge --socket="$folder/munge/socket" --no-input || fail "munged did not start"

  cat >"$folder/slurm.conf" <<END
ClusterName=onenode
SlurmctldHost=$host(127.0.0.1)
SlurmUser=root
SlurmdUser=root
AuthType=auth/munge
CredType=cred/munge
AuthInfo=socket=$folder/munge/socket,cred_expire=5
SlurmctldPort=${ports[0]}
SlurmdPort=${ports[1]}
CommunicationParameters=NoInAddrAny
SlurmctldPidFile=$folder/slurmctld.pid
SlurmdPidFile=$folder/slurmd.pid
SlurmctldLogFile=$folder/slurmctld.log
SlurmdLogFile=$folder/slurmd.log
StateSaveLocation=$folder/state
SlurmdSpoolDir=$folder/spool
ProctrackType=proctrack/linuxproc
TaskPlugin=task/none
JobAcctGatherType=jobacct_gather/none
AccountingStorageType=accounting_storage/none
JobCompType=jobcomp/none
SwitchType=switch/none
MpiDefault=none
SelectType=select/cons_tres
SelectTypeParameters=CR_CPU
SchedulerType=sched/backfill
SchedulerParameters=sched_min_interval=100000,batch_sched_delay=0,sched_interval=1,bf_interval=1,defer_batch=0
ReturnToService=2
KillWait=2
MinJobAge=3600
JobRequeue=1
SlurmdParameters=config_overrides
NodeName=$host NodeAddr=127.0.0.1 CPUs=2 State=UNKNOWN
PartitionName=tests Nodes=$host Default=YES MaxTime=60 State=UP
END
  export SLURM_CONF=$folder/slurm.conf
  daemon slurmctld slurmctld -D -c -f "$SLURM_CONF"
  until_done scontrol ping || fail "slurmctld did not start: $(tail -3 "$folder/slurmctld.log")"
  daemon slurmd slurmd -D -f "$SLURM_CONF"
  until_done node_is_idle "$host" || fail "slurmd did not start: $(tail -3 "$folder/slurmd.log")"
  printf 'export SLURM_CONF=%q\n' "$SLURM_CONF"
}

node_is_idle() { [[ $(sinfo --noheader --nodes="$1" --format=%T) == idle ]]; }

stop() {
  [[ -f $folder/slurm.conf ]] || return 0
  export SLURM_CONF=$folder/slurm.conf
  # Jobs first: their processes are slurmd's to end.
  if timeout 5 scancel --user=root 2>/dev/null; then
    until_done no_jobs || true
  fi
  local name pid
  for name in slurmd slurmctld munged; do
    [[ -f $folder/$name.started ]] || continue
    pid=$(<"$folder/$name.started")
    kill "$pid" 2>/dev/null || continue
    until_done gone "$pid" || kill -KILL "$pid" 2>/dev/null || true
  done
}

no_jobs() { [[ -z $(squeue --noheader) ]]; }

gone() { ! kill -0 "$1" 2>/dev/null; }

[[ $# == 2 ]] || fail "usage: one_node_slurm.sh start|stop FOLDER"
folder=$(realpath --canonicalize-missing "$2")
case $1 in
  start) start ;;
  stop) stop ;;
  *) fail "start or stop?" ;;
esac
