#!/bin/bash
# A day of sun, and the four days of the seasons, of two builds: day.sh OLD NEW SITE
# `shade` with all it writes, at its own steps for the day and half-hour steps for the seasons. Prints
# "name value" lines: processor seconds of both and their ratio; one turn each, one after the other.
set -eu
old=$1 new=$2 site=$3
name=$(basename "$site" .site.toml)
out=$(mktemp -d)
trap 'rm -rf "$out"' EXIT
export HUMMOCK_UNSUPERVISED=1 TIMEFORMAT="%U %S"
seconds() { # of a program with its arguments
  { time "$@" --out "$out/files" >/dev/null 2>&1; } 2>&1 | awk '{ print $1 + $2 }'
  rm -rf "$out/files"
}
pair() { # NAME ARGUMENTS of `shade SITE`
  local what=$1 a b
  shift
  a=$(seconds "$old" shade "$site" "$@")
  b=$(seconds "$new" shade "$site" "$@")
  awk -v n="$what.$name" -v a="$a" -v b="$b" \
    'BEGIN { printf "%s.old_s %.2f\n%s.new_s %.2f\n%s.ratio %.2f\n", n, a, n, b, n, a / b }'
}
pair day --date 2026-06-21
pair seasons --seasons --step 30
