#!/bin/bash
# The whole check of two builds on the shipped examples, the yards beside this script and any others
# named, in turns: whole_check.sh OLD NEW [TIMES [SITE...]]
# A line for each site: processor seconds of both, their ratio, seconds of the clock of both, and the
# cores the new one kept busy (processor over clock). Others on the machine move the clock more than
# the processor; the least of TIMES (3) is told. The load at the start is told first.
set -eu
old=$1 new=$2 times=${3:-3}
shift $(($# < 3 ? $# : 3))
here=$(cd "$(dirname "$0")" && pwd)
root=$(cd "$here/../../.." && pwd)
sites=("$@")
if [ ${#sites[@]} -eq 0 ]; then
  sites=("$root"/examples/*/*.site.toml "$here"/*.site.toml)
fi
# processor and clock seconds of one run; 0 0 where it refuses the site
run() {
  HUMMOCK_UNSUPERVISED=1 bash -c \
    'TIMEFORMAT="%U %S %R"; time { "$0" check "$1" >/dev/null 2>&1; [ $? -le 1 ] || echo refused; }' \
    "$1" "$2" 2>&1 | awk '/refused/ { bad = 1; next } { print bad ? 0 : $1 + $2, bad ? 0 : $3 }'
}
least() { sort -n | head -1; }
echo "machine: $(nproc) cores, load $(cut -d' ' -f1-3 /proc/loadavg)"
printf '%-28s %9s %9s %7s %9s %9s %6s\n' site old_cpu new_cpu ratio old_clock new_clock cores
for site in "${sites[@]}"; do
  a="" b=""
  for _ in $(seq "$times"); do
    a="$a$(run "$old" "$site")
"
    b="$b$(run "$new" "$site")
"
  done
  name=$(basename "$site" .site.toml)
  oc=$(printf %s "$a" | cut -d' ' -f1 | least) ow=$(printf %s "$a" | cut -d' ' -f2 | least)
  nc=$(printf %s "$b" | cut -d' ' -f1 | least) nw=$(printf %s "$b" | cut -d' ' -f2 | least)
  awk -v s="$name" -v oc="$oc" -v nc="$nc" -v ow="$ow" -v nw="$nw" 'BEGIN {
    if (oc * nc == 0) { printf "%-28s refused\n", s; exit }
    printf "%-28s %9.3f %9.3f %7.2f %9.3f %9.3f %6.2f\n", s, oc, nc, oc / nc, ow, nw, nc / nw }'
done
