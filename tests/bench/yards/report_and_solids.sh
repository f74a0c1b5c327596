#!/bin/sh
# Processor seconds of two builds for the report, the printed solid, and a hectare with 500 things:
#   report_and_solids.sh OLD NEW [SITE]
# Prints "name value" lines. The report's own part is its seconds less those of the check, which it
# begins with. The least of two turns, in turns. The new build's files are compared on one processor
# and on all, and its printed solid with the old one's.
set -eu
old=$1 new=$2 site=${3:-examples/north-yard/north-yard.site.toml}
here=$(cd "$(dirname "$0")" && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
python3 -B "$here/make_families.py" "$work"
export HUMMOCK_UNSUPERVISED=1

seconds() { # of a command
  bash -c 'TIMEFORMAT="%U %S"; time "$@" >/dev/null 2>&1 || true' _ "$@" 2>&1 |
    awk '{print $1 + $2}'
}
pair() { # NAME, then what follows the program's name; OUT stands for a place to write
  name=$1
  shift
  for turn in 1 2; do
    for which in old new; do
      program=$old
      [ "$which" = old ] || program=$new
      arguments=$(echo "$*" | sed "s|OUT|$work/$which|g")
      # shellcheck disable=SC2086 # words are meant
      echo "$which $turn $(seconds "$program" $arguments)"
    done
  done | awk -v name="$name" '
    !($1 in least) || $3 < least[$1] { least[$1] = $3 }
    END {
      printf "%s_old_s %.2f\n%s_new_s %.2f\n", name, least["old"], name, least["new"]
      printf "%s_ratio %.2f\n", name, least["old"] / least["new"]
    }'
}

pair check check "$site" | tee "$work/check"
pair report report "$site" --out OUT-report | tee "$work/report"
cat "$work/check" "$work/report" | awk '{ v[$1] = $2 } END {
  printf "report_less_check_old_s %.2f\nreport_less_check_new_s %.2f\n",
    v["report_old_s"] - v["check_old_s"], v["report_new_s"] - v["check_new_s"] }'
pair stl export "$site" --out OUT.stl
echo "stl_same_bytes $(cmp -s "$work/old.stl" "$work/new.stl" && echo 1 || echo 0)"
taskset -c 0 "$new" report "$site" --out "$work/one" >/dev/null
echo "report_same_bytes_on_one_processor $(diff -rq "$work/one" "$work/new-report" >/dev/null && echo 1 || echo 0)"
for analysis in space shade burrows; do
  pair "things_500_$analysis" check "$work/things-500.site.toml" --only "$analysis"
done
