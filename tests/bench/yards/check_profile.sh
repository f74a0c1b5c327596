#!/bin/bash
# Where the processor's time of a check goes, by function (perf): check_profile.sh PROGRAM [SITE...]
# Without sites the shipped examples. For each its ten largest shares, and a last line `largest NAME
# SHARE`; the exit status is 1 where one function has more than a fifth.
set -eu
program=$1
shift
root=$(cd "$(dirname "$0")/../../.." && pwd)
sites=("$@")
[ ${#sites[@]} -gt 0 ] || sites=("$root"/examples/*/*.site.toml)
data=$(mktemp)
trap 'rm -f "$data"' EXIT
worst=0
for site in "${sites[@]}"; do
  HUMMOCK_ASSETS=${HUMMOCK_ASSETS:-$root/assets} HUMMOCK_UNSUPERVISED=1 \
    perf record -q -F 999 -o "$data" "$program" check "$site" >/dev/null 2>&1 || true
  echo "$(basename "$site" .site.toml)"
  shares=$(perf report -i "$data" --no-children --sort symbol --stdio 2>/dev/null |
    grep -E '^ +[0-9.]+%' | sed -E 's/^ +([0-9.]+)% +\[(.)\] /\1 \2 /' | head -10)
  echo "$shares" | cut -c1-110 | sed 's/^/  /'
  first=$(echo "$shares" | head -1)
  echo "largest $(echo "$first" | cut -d' ' -f3 | cut -c1-60) ${first%% *} %"
  awk -v s="${first%% *}" 'BEGIN { exit s > 20 }' || worst=1
done
exit $worst
