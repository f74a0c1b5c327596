#!/bin/sh
# Exponents of processor seconds in corners, things and panels, an analysis at a time:
#   exponents.sh HUMMOCK [ANALYSES] [FAMILIES]
# The yards are written by make_families.py into a temporary folder; `check --only` is run on each
# size, and what the same program needs to build the model is taken off. Prints for each family and
# analysis the seconds and log(time ratio)/log(size ratio) from size to size. Below 0.05 s nothing
# is divided: start-up and the clock's tick rule there.
set -eu
hummock=$1
analyses=${2:-"space relief dig openings entry service sight water burrows quantities"}
families=${3:-"corners:50:400:1600 objects:50:200:800 panels:100:400:1600"}
here=$(cd "$(dirname "$0")" && pwd)
yards=$(mktemp -d)
trap 'rm -rf "$yards"' EXIT
python3 -B "$here/make_families.py" "$yards"

seconds() { # of the site and the analysis, the least of two turns
  for _ in 1 2; do
    HUMMOCK_UNSUPERVISED=1 bash -c \
      'TIMEFORMAT="%U %S"; time "$0" check "$1" --only "$2" >/dev/null 2>&1 || true' \
      "$hummock" "$1" "$2" 2>&1 | awk '{print $1 + $2}'
  done | sort -n | head -1
}

echo "family analysis size seconds exponent"
for family in $families; do
  name=${family%%:*}
  sizes=$(echo "${family#*:}" | tr ':' ' ')
  for analysis in $analyses; do
    last_size="" last_s=""
    for size in $sizes; do
      site="$yards/$name-$size.site.toml"
      whole=$(seconds "$site" "$analysis")
      model=$(seconds "$site" earthworks)
      awk -v f="$name" -v a="$analysis" -v n="$size" -v w="$whole" -v m="$model" \
        -v n0="${last_size:-0}" -v s0="${last_s:-0}" 'BEGIN {
          s = w - m; if (s < 0) s = 0
          e = n0 > 0 && s0 >= 0.05 && s > 0 ? sprintf("%.2f", log(s / s0) / log(n / n0)) : "-"
          printf "%s %s %d %.2f %s\n", f, a, n, s, e }'
      last_s=$(awk -v w="$whole" -v m="$model" 'BEGIN { s = w - m; print s < 0 ? 0 : s }')
      last_size=$size
    done
  done
done
