#!/bin/sh
# Installs the Debian packages of the kinds named ("build", "test", "ci"); those already there are kept.
set -eu
here=$(cd "$(dirname "$0")" && pwd)
wanted=""
for kind in "$@"; do
  wanted="$wanted $(sed -n "s/^$kind  *//p" "$here/packages.txt" | tr '\n' ' ')"
done
missing=""
for package in $wanted; do
  if ! dpkg-query -W -f='${Status}' "$package" 2>/dev/null | grep -q 'install ok installed'; then
    missing="$missing $package"
  fi
done
if [ -z "$missing" ]; then
  echo "==> all packages are installed already"
  exit 0
fi
as_root=""
if [ "$(id -u)" -ne 0 ]; then
  command -v sudo >/dev/null || { echo "run this as root, or install sudo" >&2; exit 1; }
  as_root="sudo"
fi
echo "==> installing:$missing"
$as_root apt-get update -q >/dev/null
# shellcheck disable=SC2086 # a list of words is meant
$as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y -q --no-install-recommends $missing >/dev/null
