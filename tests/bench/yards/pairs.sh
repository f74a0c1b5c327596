#!/bin/sh
# CPU seconds of two builds on the same site, in turns: pairs.sh OLD NEW SITE ANALYSES [TIMES]
# A machine with others on it moves the clock, and caches; the least of several turns is told.
set -eu
old=$1 new=$2 site=$3 only=$4 times=${5:-3}
seconds() {
  HUMMOCK_UNSUPERVISED=1 bash -c 'TIMEFORMAT="%U %S"; time "$0" check "$1" --only "$2" >/dev/null 2>&1 || true' \
    "$1" "$site" "$only" 2>&1 | awk '{print $1 + $2}'
}
least() { sort -n | head -1; }
a="" b=""
for _ in $(seq "$times"); do
  a="$a $(seconds "$old")"
  b="$b $(seconds "$new")"
done
old_s=$(echo "$a" | tr ' ' '\n' | grep . | least)
new_s=$(echo "$b" | tr ' ' '\n' | grep . | least)
echo "$site $only: old $old_s s, new $new_s s, ratio $(awk "BEGIN { printf \"%.2f\", $old_s / $new_s }")"
