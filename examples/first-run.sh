#!/bin/sh
# Installs what is needed, builds a release, and runs the main job on an example site: prints the
# findings and writes the report's figures, maps and a mesh into the folder it names at the end.
# May be run twice. On 2 cores from nothing: see README.
set -eu
top=$(cd "$(dirname "$0")/.." && pwd)
cd "$top"
echo "==> 1/3 packages"
sh .setup/install.sh build
echo "==> 2/3 building a release in build/ (the slow step: some files take a minute each)"
# The tests need more packages, so they are set aside, also when build/ was last set up for them.
cmake -S . -B build -G Ninja -DCMAKE_BUILD_TYPE=Release -DHUMMOCK_TESTS=OFF -DHUMMOCK_BENCH=OFF \
  >build-configure.tmp 2>&1 ||
  { cat build-configure.tmp; rm -f build-configure.tmp; exit 1; }
rm -f build-configure.tmp
cmake --build build --target hummock hummock-view
echo "==> 3/3 the main job on examples/north-yard"
out=build/first-run
site=examples/north-yard/north-yard.site.toml
status=0
mkdir -p "$out"
build/bin/hummock check "$site" --json "$out/check.json" || status=$?
if [ "$status" -gt 1 ]; then exit "$status"; fi
build/bin/hummock report "$site" -o "$out/report"
build/bin/hummock export "$site" -o "$out/model.glb"
echo "==> done: $top/$out holds check.json, model.glb and report/report.html"
