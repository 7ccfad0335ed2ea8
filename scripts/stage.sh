#!/bin/bash
# Runs one stage of a build: on a terminal its output is shown as it comes, elsewhere it is kept
# back unless the stage fails, and one line says what was done and how long it took.
# usage: scripts/stage.sh NAME COMMAND...
set -uo pipefail
name=$1
shift
if [[ -t 1 ]]; then
  printf '== %s\n' "$name"
  exec "$@"
fi
log=$(mktemp)
trap 'rm -f "$log"' EXIT
start=$SECONDS
if "$@" >"$log" 2>&1; then
  printf '== %s: %d s\n' "$name" $((SECONDS - start))
else
  status=$?
  grep -Ev '^\[[0-9]+/[0-9]+\] |^[0-9]+ warnings? generated|__run_co_compile' "$log"
  printf '== %s failed with status %d: %s\n' "$name" "$status" "$*"
  exit "$status"
fi
