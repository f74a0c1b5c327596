#!/bin/sh
# Builds the fuzzers in build-fuzz/ and runs each for SECONDS (30 when not given) from its seeds,
# as many at once as there are processors (HUMMOCK_FUZZ_JOBS for another number).
#   sh tests/fuzz/run.sh [SECONDS [NAME...]]
# One execution may take 20 s of the clock, of `rasters` 60 (HUMMOCK_FUZZ_TIMEOUT for another number than
# 20, on a busy machine).
# Prints for each: its name, executions, the seconds of a processor it had, and what it found. Ends
# with 1 when something was found; the input that shows it is then in build-fuzz/found/NAME/, and the
# last words of the fuzzer and the input (8 kB of it) are printed.
#
# `meshes` goes through Assimp, which is not ours and has faults of its own; in the program it runs
# in a process that may die. So that fuzzer goes on after a crash; each input that it kept is run
# again, and only one whose trace meets our code before Assimp's is a finding. The rest is counted.
set -eu
top=$(cd "$(dirname "$0")/../.." && pwd)
build=${HUMMOCK_FUZZ_BUILD:-$top/build-fuzz}
jobs=${HUMMOCK_FUZZ_JOBS:-$(nproc)}
# Leaks are looked for too. What allocates 2.5 GB at once or in all is a finding.
export ASAN_OPTIONS="allocator_may_return_null=1:handle_abort=1:detect_leaks=1"
export LSAN_OPTIONS="suppressions=$top/tests/fuzz/leaks.supp:print_suppressions=0"
export UBSAN_OPTIONS="print_stacktrace=1"

run_one() {  # NAME SECONDS: the fuzzer itself; its words go into a log
  keys="" patience=${HUMMOCK_FUZZ_TIMEOUT:-20}
  case $1 in
    site | species) keys=-dict=$build/keys.dict ;;
    rasters) patience=$((3 * patience)) ;;  # 100 million pixels that are all there: 8 to 24 s seen
  esac
  # shellcheck disable=SC2086 # none or several words are meant
  "$build/bin/fuzz_$1" -max_total_time="$2" -timeout="$patience" -rss_limit_mb=2500 -max_len=65536 \
    -print_final_stats=1 -artifact_prefix="$build/found/$1/" $keys ${3:-} \
    "$build/corpus/$1" "$top/tests/fuzz/seeds/$1" >"$build/$1.log" 2>&1
}

# Runs what the fuzzer kept once more: ours when the topmost frame of the two is ours.
sort_found() {  # NAME: prints how many are ours and how many Assimp's
  ours=0 theirs=0
  for file in "$build/found/$1"/*-*; do
    case $file in */slow-unit-*) continue ;; esac  # only slow, on a busy machine
    [ -f "$file" ] || continue
    trace=$("$build/bin/fuzz_$1" -timeout=20 -rss_limit_mb=2500 "$file" 2>&1) && continue
    first=$(echo "$trace" | grep -o -m 1 -e 'libassimp' -e 'hummock::' || true)
    if [ "$first" = libassimp ]; then theirs=$((theirs + 1)); else ours=$((ours + 1)); fi
  done
  echo "$ours $theirs"
}

executions() {  # NAME: from the last words of a fuzzer, or of one that starts others
  sed -n -e 's/^stat::number_of_executed_units: *//p' -e 's/^#\([0-9][0-9]*\): cov.*/\1/p' \
    "$build/$1.log" | tail -n 1
}

# What is left of a machine that is gone: the last words, and the smallest input as text.
show_found() {  # NAME
  grep -E '^SUMMARY|^==[0-9]+== *ERROR|ERROR: |runtime error' "$build/$1.log" | head -n 5
  tail -n 40 "$build/$1.log"
  # shellcheck disable=SC2012 # the names are the fuzzer's
  file=$(ls -Sr "$build/found/$1" 2>/dev/null | head -n 1)
  [ -z "$file" ] && return
  echo "$1: $file, base64:"
  head -c 8192 "$build/found/$1/$file" | base64
}

fuzz() {  # NAME SECONDS
  mkdir -p "$build/corpus/$1" "$build/found/$1"
  rm -f "$build/found/$1"/*
  status=0 result="nothing found"
  if [ "$1" = meshes ]; then
    run_one "$1" "$2" "-fork=1 -ignore_crashes=1 -ignore_timeouts=1 -ignore_ooms=1" || true
    found=$(sort_found "$1")
    [ "${found% *}" = 0 ] || status=1
    result="${found% *} found, ${found#* } more in Assimp itself"
    [ -n "$(executions "$1")" ] || status=1
  else
    run_one "$1" "$2" || status=1
  fi
  [ "$status" = 0 ] || result="FOUND ($result), see $build/$1.log"
  times >"$build/$1.times"  # not in a pipe: of this shell's children
  had=$(awk 'NR == 2 { split($1, u, /[ms]/); split($2, s, /[ms]/)
                       printf "%.0f", 60 * (u[1] + s[1]) + u[2] + s[2] }' "$build/$1.times")
  runs=$(executions "$1")
  echo "$1: ${runs:-0} executions in $2 s ($had s of a processor), $result"
  [ "$status" = 0 ] || show_found "$1"
  return "$status"
}

seconds=${1:-30}
[ $# -gt 0 ] && shift
if [ $# -eq 0 ]; then
  for source in "$top"/tests/fuzz/fuzz_*.cpp; do
    name=$(basename "$source" .cpp)
    set -- "$@" "${name#fuzz_}"
  done
fi
if [ -z "${HUMMOCK_FUZZ_BUILT:-}" ]; then  # set by who has just built them
  mkdir -p "$build"
  (cd "$top" && cmake --preset fuzz -B "$build") >"$build/configure.log" 2>&1 ||
    { cat "$build/configure.log"; exit 1; }
  cmake --build "$build" --target "${HUMMOCK_FUZZ_TARGET:-fuzzers}" >"$build/build.log" 2>&1 ||
    { cat "$build/build.log"; exit 1; }
fi
# Words that the mutations of a site or species file are made with: every key there is.
# shellcheck disable=SC2016 # a mark of the page, not the shell's
sed -n 's/^| `\([a-z_]*\)` .*/"\1"/p' "$top/examples/SITE-FILE.md" | sort -u >"$build/keys.dict"
failed=0 running=0 started=""
for name in "$@"; do
  (fuzz "$name" "$seconds") &
  started="$started $!"
  running=$((running + 1))
  if [ "$running" -ge "$jobs" ]; then
    for one in $started; do wait "$one" || failed=1; done
    running=0 started=""
  fi
done
for one in $started; do wait "$one" || failed=1; done
exit $failed
