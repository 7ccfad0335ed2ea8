#!/bin/bash
# clang-format over every source of ours. usage: scripts/format.sh write | check
set -euo pipefail
cd "$(dirname "$0")/.."
folders=()
for folder in src apps tests speed; do
  [[ -d $folder ]] && folders+=("$folder")
done
mapfile -d '' sources < <(find "${folders[@]}" \( -name '*.cpp' -o -name '*.hpp' \) -print0 | sort -z)

if [[ $1 == write ]]; then
  clang-format -i "${sources[@]}"
  exit
fi
astray=0
for source in "${sources[@]}"; do
  if ! clang-format "$source" | cmp --silent "$source" -; then
    echo "$source: not as clang-format writes it (make format)"
    astray=1
  fi
done
exit "$astray"
