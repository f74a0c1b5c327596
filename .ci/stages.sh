# Read by .ci/run and .ci/deep: stages with their times, and the checks that both make.
# shellcheck shell=bash
stage="" stage_began=0 times=""

# Ends the stage before and begins the one named. A failure stops the script, told by its stage.
begin() {
  end
  stage=$1 stage_began=$SECONDS
  echo "==> $stage"
}

end() {
  if [ -n "$stage" ]; then
    local took=$((SECONDS - stage_began))
    echo "==> $stage: done in $took s"
    times="$times $stage $took s,"
    stage=""
  fi
}

tell_failure() {
  local status=$?
  if [ "$status" -ne 0 ] && [ -n "$stage" ]; then
    echo "==> FAILED in the stage '$stage', $((SECONDS - stage_began)) s after it began (status $status)" >&2
  fi
}
trap tell_failure EXIT

sources() { git ls-files '*.cpp' '*.h'; }

format_check() { sources | xargs clang-format-14 --dry-run -Werror; }

configure_tidy() {  # FOLDER ON|OFF, the files of a folder as one
  cmake -S . -B "$1" -G Ninja -DCMAKE_BUILD_TYPE=Release -DCMAKE_CXX_COMPILER=clang++-14 \
    -DHUMMOCK_TESTS=ON -DHUMMOCK_BENCH=ON -DHUMMOCK_PCH=OFF -DHUMMOCK_UNITY="$2" >"$1.tmp" || { cat "$1.tmp"; return 1; }
}

# clang-tidy over the .cpp files named on standard input; their headers are looked into with them.
tidy() {
  configure_tidy build-tidy OFF
  xargs -r -n 1 -P "$(nproc)" clang-tidy-14 -p build-tidy --quiet
}

# clang-tidy over everything that is compiled. By far most of its time is the headers, so the files of
# a folder are looked at as one: an eighth of the time. Such a file lies in the build folder, so what
# tests/.clang-tidy and viewer/.clang-tidy leave out is said here again.
tidy_all() {
  configure_tidy build-tidy-all ON
  # shellcheck disable=SC2016 # expanded inside
  sed -n 's/^ *"file": "\(.*\)",\{0,1\}$/\1/p' build-tidy-all/compile_commands.json | sort -u |
    xargs -n 1 -P "$(nproc)" bash -c '
      without=-bugprone-suspicious-include
      case $0 in
        */tests/*) without+=,-clang-analyzer-security.FloatLoopCounter,-bugprone-suspicious-missing-comma ;;
        */viewer/*) without+=,-performance-no-int-to-ptr ;;
      esac
      clang-tidy-14 -p build-tidy-all --quiet --checks="$without" \
        --header-filter=".*/(geometry|engine|viewer|tests)/.*" "$0"'
}

# Builds targets of a preset (CMakePresets.json) in its folder, build-PRESET. What follows the
# targets after "--" goes to CMake.
build_preset() {  # PRESET TARGET... -- [OPTION...]
  local preset=$1 targets=()
  shift
  while [ "$1" != -- ]; do targets+=("$1"); shift; done
  shift
  cmake --preset "$preset" "$@" >"build-$preset.tmp" || { cat "build-$preset.tmp"; return 1; }
  cmake --build "build-$preset" --target "${targets[@]}"
}

# Runs test programs of a folder, each in one process (a sanitizer takes long to start), as many at
# once as there are processors; prints the last lines of each and fails when one of them did.
run_tests() {  # FOLDER NAME...
  local folder=$1
  shift
  # shellcheck disable=SC2016 # expanded inside
  printf '%s\n' "$@" | FOLDER=$folder xargs -P "$(nproc)" -I NAME bash -c '
    log=$FOLDER/test_NAME.log
    export LSAN_OPTIONS="suppressions=$PWD/tests/fuzz/leaks.supp:print_suppressions=0"
    # Drivers of the screen are unloaded before leaks are looked for: theirs have no name then.
    case NAME in viewer*) export ASAN_OPTIONS=detect_leaks=0 ;; esac
    "$FOLDER/bin/test_NAME" --gtest_brief=1 >"$log" 2>&1 && status=0 || status=$?
    if [ "$status" -eq 0 ]; then
      echo "NAME: $(grep -E "^\[==========\].* ran|^\[  PASSED" "$log" | tail -n 1)"
    else
      echo "NAME: FAILED (status $status)"
      grep -E -A 40 "ERROR: |WARNING: ThreadSan|runtime error|^\[  FAILED" "$log" | head -n 200
    fi
    exit "$status"'
}

# Parsers, geometry, model and leap with the address and undefined-behaviour sanitizers, in the
# fuzzers' folder: the engine is compiled once for both.
parser_tests=(site ground geometry model leap)
build_parsers() { build_preset fuzz fuzzers "${parser_tests[@]/#/test_}" --; }

# The commit at which the release note before the newest was last touched. So what is "changed since
# the last release note" is all that the newest note tells of, whether it is written first or last.
# Nothing (a fresh history, a shallow clone) means that all is new.
release_base() {
  local version
  version=$(awk '/^## / && ++notes == 2 { print $2 }' CHANGELOG.md)
  if [ -n "$version" ]; then
    git log -1 --format=%H -G"^## ${version//./\\.}( |\$)" -- CHANGELOG.md
  fi
}

# Files of the kinds named that changed since then and are still there; the latest changed first.
changed() {
  local base
  base=$(release_base)
  git log --format= --name-only "${base:+$base..}HEAD" -- "$@" | awk 'NF && !seen[$0]++' |
    while IFS= read -r file; do
      if [ -f "$file" ]; then echo "$file"; fi
    done
}
