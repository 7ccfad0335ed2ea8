#!/bin/bash
# Runs checks that take longer, one after the other and each to its end even where one before it
# fails; the last line says whether all held, and how long it took.
# usage: scripts/deep.sh CHECK...        each a target of the Makefile
set -uo pipefail

took() { printf '%d min %02d s' $(($1 / 60)) $(($1 % 60)); }

failed=()
for check in "$@"; do
  begin=$SECONDS
  if ${MAKE:-make} "$check"; then
    echo "== deep: $check held ($(took $((SECONDS - begin))))"
  else
    echo "== deep: $check failed ($(took $((SECONDS - begin))))"
    failed+=("$check")
  fi
done
if ((${#failed[@]} > 0)); then
  echo "deep: failed: ${failed[*]} ($(took "$SECONDS") on $(nproc) cores)"
  exit 1
fi
echo "deep: all $# checks held ($(took "$SECONDS") on $(nproc) cores)"
