#!/bin/bash
# Line coverage of src/: a table by folder, and failure below LEAST percent of lines.
# usage: scripts/coverage.sh BUILD LEAST
set -euo pipefail
build=$1
least=$2
gcovr --root . --filter 'src/' --object-directory "$build" --exclude-unreachable-branches \
  --exclude-throw-branches --csv "$build/coverage.csv" --txt "$build/coverage.txt" \
  "$build" >/dev/null
awk -F, -v least="$least" '
  NR == 1 { next }
  {
    split($1, path, "/")
    folder = path[2]
    lines[folder] += $2; reached[folder] += $3
    all_lines += $2; all_reached += $3
  }
  END {
    for (folder in lines)
      printf "  %-12s %6d lines %6.1f %%\n", folder, lines[folder], 100 * reached[folder] / lines[folder] | "sort"
    close("sort")
    total = all_lines ? 100 * all_reached / all_lines : 0
    printf "== coverage: %.1f %% of %d lines (at least %s %%)\n", total, all_lines, least
    exit total < least
  }' "$build/coverage.csv"
