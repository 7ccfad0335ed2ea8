#!/bin/bash
# Runs every benchmark of a folder. Standard output holds lines of the form `name: value unit`
# and nothing else; a benchmark that prints anything else is refused.
# usage: scripts/speed.sh FOLDER
set -euo pipefail
shopt -s nullglob
for benchmark in "$1"/*; do
  [[ -f $benchmark && -x $benchmark ]] || continue
  lines=$("$benchmark")
  printf '%s\n' "$lines"
  if wrong=$(grep -Evn '^[^:]+: [-+0-9.e]+( [^ ].*)?$' <<<"$lines"); then
    echo "speed: not a figure, in the output of $(basename "$benchmark"): $wrong" >&2
    exit 1
  fi
done
