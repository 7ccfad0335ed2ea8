#!/bin/sh
# Installs the packages named in packages/<list>.txt; says nothing when all are there.
# usage: scripts/setup.sh LIST...        as root, or as a user who may use sudo
set -eu
cd "$(dirname "$0")/.."

wanted=""
for list in "$@"; do
  # Node.js often comes from elsewhere; Debian's is taken where there is none.
  if [ "$list" = web ] && { [ ! -e web/package.json ] ||
    { command -v node && command -v npm; } >/dev/null; }; then
    continue
  fi
  wanted="$wanted $(sed 's/#.*//' "packages/$list.txt")"
done

if ! command -v apt-get >/dev/null || ! command -v dpkg-query >/dev/null; then
  echo "setup: this is not a Debian system; install what matches these packages:" $wanted >&2
  exit 1
fi

missing=""
for package in $wanted; do
  case "$(dpkg-query -W -f '${db:Status-Status} ' "$package" 2>/dev/null)" in
    installed*) ;;
    *) missing="$missing $package" ;;
  esac
done
[ -n "$missing" ] || exit 0

as_root=""
if [ "$(id -u)" -ne 0 ]; then
  if ! command -v sudo >/dev/null; then
    echo "setup: not root and no sudo; have an administrator run: apt-get install$missing" >&2
    exit 1
  fi
  as_root="sudo"
fi

log=$(mktemp)
trap 'rm -f "$log"' EXIT
echo "Installing:$missing" >&2
apt() {
  $as_root env DEBIAN_FRONTEND=noninteractive apt-get --quiet \
    -o DPkg::Lock::Timeout=300 -o Acquire::Retries=3 -o Dpkg::Use-Pty=0 "$@"
}
if ! { apt update && apt install --yes --no-install-recommends $missing; } >"$log" 2>&1; then
  cat "$log" >&2
  echo "setup: apt-get failed (above); it tried to install:$missing" >&2
  exit 1
fi
