#!/bin/sh
# Exponents of processor seconds in corners, things and panels, an analysis at a time:
#   exponents.sh HUMMOCK [ANALYSES] [FAMILIES] [TURNS]
# The yards are written by make_families.py into a temporary folder; `check --only` is run on each
# size (the least of TURNS, 2), and what building the model takes is taken off. Prints for each
# family and analysis the seconds and log(time ratio)/log(size ratio) from size to size, where the
# smaller took 0.05 s at least: below that start-up and the clock's tick rule. "model" is the
# building itself.
set -eu
hummock=$1
analyses=${2:-"space relief dig openings entry service sight water shade burrows leap"}
families=${3:-"corners:50:400:1600 objects:50:200:800 panels:100:400:1600"}
turns=${4:-2}
here=$(cd "$(dirname "$0")" && pwd)
yards=$(mktemp -d)
trap 'rm -rf "$yards"' EXIT
python3 -B "$here/make_families.py" "$yards"

seconds() { # of the site and the analysis
  for _ in $(seq "$turns"); do
    HUMMOCK_UNSUPERVISED=1 bash -c \
      'TIMEFORMAT="%U %S"; time "$0" check "$1" --only "$2" >/dev/null 2>&1 || true' \
      "$hummock" "$1" "$2" 2>&1 | awk '{print $1 + $2}'
  done | sort -n | head -1
}

for family in $families; do
  name=${family%%:*}
  for size in $(echo "${family#*:}" | tr ':' ' '); do
    site="$yards/$name-$size.site.toml"
    for analysis in earthworks $analyses; do
      echo "$name $analysis $size $(seconds "$site" "$analysis")"
    done
  done
done | awk '
  BEGIN { print "family analysis size seconds exponent" }
  {
    whole = $4
    if ($2 == "earthworks") { model[$1, $3] = whole; $2 = "model" } else whole -= model[$1, $3]
    if (whole < 0) whole = 0
    k = $1 SUBSEP $2
    e = "-"
    if (k in size && s[k] >= 0.05 && whole > 0)
      e = sprintf("%.2f", log(whole / s[k]) / log($3 / size[k]))
    size[k] = $3
    s[k] = whole
    printf "%s %s %d %.2f %s\n", $1, $2, $3, whole, e
  }'
