#!/bin/bash
# Runs every fuzz target for its share of the time. What it finds lies in BUILD/findings, what it
# learned in BUILD/learned, to go on from next time.
# usage: scripts/fuzz.sh BUILD SECONDS
set -euo pipefail
build=$1
seconds=$2
shopt -s nullglob
targets=("$build"/fuzz/*_fuzz)
if ((${#targets[@]} == 0)); then
  echo "fuzz: no targets"
  exit 0
fi
share=$((seconds / ${#targets[@]}))
export ASAN_OPTIONS=detect_leaks=1 UBSAN_OPTIONS=print_stacktrace=1
failed=0
for target in "${targets[@]}"; do
  name=$(basename "$target" _fuzz)
  learned=$build/learned/$name
  findings=$build/findings/$name
  mkdir -p "$learned" "$findings"
  seeds=()
  [[ -d tests/fuzz/corpus/$name ]] && seeds=("tests/fuzz/corpus/$name")
  words=()
  [[ -f tests/fuzz/$name.dict ]] && words=("-dict=tests/fuzz/$name.dict")
  log=$build/$name.log
  if "$target" -max_total_time="$share" -timeout=10 -rss_limit_mb=2048 -print_final_stats=1 \
      -artifact_prefix="$findings/" "${words[@]}" "$learned" "${seeds[@]}" >"$log" 2>&1; then
    runs=$(sed -n 's/^stat::number_of_executed_units: *//p' "$log")
    echo "== fuzz $name: $share s, $runs inputs, nothing found"
  else
    tail -n 60 "$log"
    echo "== fuzz $name: a finding, kept in $findings"
    failed=1
  fi
done
exit "$failed"
