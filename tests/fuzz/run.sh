#!/bin/sh
# Builds the fuzzers in build-fuzz/ and runs each for SECONDS (30 when not given) from its seeds.
#   sh tests/fuzz/run.sh [SECONDS [NAME...]]
# Prints for each: its name, executions, and what it found. Ends with 1 when something was found;
# the input that shows it is then in build-fuzz/found/NAME/.
set -eu
seconds=${1:-30}
[ $# -gt 0 ] && shift
top=$(cd "$(dirname "$0")/../.." && pwd)
build=${HUMMOCK_FUZZ_BUILD:-$top/build-fuzz}
cmake -S "$top" -B "$build" -G Ninja -DCMAKE_BUILD_TYPE=RelWithDebInfo -DHUMMOCK_FUZZ=ON \
  -DHUMMOCK_TESTS=OFF -DHUMMOCK_VIEWER=OFF -DHUMMOCK_PCH=OFF \
  -DCMAKE_CXX_COMPILER="${HUMMOCK_CLANG:-clang++-14}" >/dev/null
cmake --build "$build" --target "${HUMMOCK_FUZZ_TARGET:-fuzzers}" >"$build/build.log" ||
  { cat "$build/build.log"; exit 1; }
status=0
for source in "$top"/tests/fuzz/fuzz_*.cpp; do
  name=$(basename "$source" .cpp)
  name=${name#fuzz_}
  if [ $# -gt 0 ]; then case " $* " in *" $name "*) ;; *) continue ;; esac; fi
  corpus=$build/corpus/$name
  found=$build/found/$name
  mkdir -p "$corpus" "$found"
  log=$build/$name.log
  result=nothing
  # Assimp and GDAL keep some memory to themselves; what grows without end is still found (-rss).
  ASAN_OPTIONS=detect_leaks=0:allocator_may_return_null=1:handle_abort=1 \
    "$build/bin/fuzz_$name" -max_total_time="$seconds" -timeout=20 -rss_limit_mb=2500 \
    -max_len=65536 -print_final_stats=1 -artifact_prefix="$found/" \
    "$corpus" "$top/tests/fuzz/seeds/$name" >"$log" 2>&1 || result="FOUND, see $found and $log"
  [ "$result" = nothing ] || status=1
  runs=$(sed -n 's/^stat::number_of_executed_units: *//p' "$log")
  echo "$name: ${runs:-0} executions in $seconds s, $result"
done
exit $status
