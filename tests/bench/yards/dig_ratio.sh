#!/bin/bash
# Dig of two builds on the north yard, and the new one's growth on the square yards beside this
# script: dig_ratio.sh OLD NEW [TIMES]
# Processor seconds of `check --only dig` less those of `--only quantities`, which is the start and
# the model; the least of TIMES (5) each, in turns. Prints `dig_ratio` (20 is asked) and
# `dig_exponent`, the slope of log seconds against log length of the fence, by which stations grow
# (1.15 is allowed); bench_dig_yards prints the same against the stations themselves.
set -eu
old=$1 new=$2 times=${3:-5}
here=$(cd "$(dirname "$0")" && pwd)
root=$(cd "$here/../../.." && pwd)
seconds() {
  HUMMOCK_UNSUPERVISED=1 bash -c 'TIMEFORMAT="%U %S"; time "$0" check "$1" --only "$2" >/dev/null 2>&1 || true' \
    "$1" "$2" "$3" 2>&1 | awk '{print $1 + $2}'
}
least() { tr ' ' '\n' | grep . | sort -n | head -1; }
own() {
  local dig="" rest=""
  for _ in $(seq "$times"); do
    dig="$dig $(seconds "$1" "$2" dig)"
    rest="$rest $(seconds "$1" "$2" quantities)"
  done
  awk -v d="$(echo "$dig" | least)" -v r="$(echo "$rest" | least)" 'BEGIN { print d - r }'
}
site=$root/examples/north-yard/north-yard.site.toml
a=$(own "$old" "$site") b=$(own "$new" "$site")
echo "dig_old_s $a"
echo "dig_new_s $b"
awk -v a="$a" -v b="$b" 'BEGIN { printf "dig_ratio %.1f\n", a / b }'
for side in 12 25 50 100; do
  echo "$side $(own "$new" "$here/speed-$side.site.toml")"
done | awk '{ x = log($1); y = log($2); n++; sx += x; sy += y; xx += x * x; xy += x * y
  printf "dig_%d_m_s %s\n", $1, $2 }
  END { printf "dig_exponent %.2f\n", (n * xy - sx * sy) / (n * xx - sx * sx) }'
