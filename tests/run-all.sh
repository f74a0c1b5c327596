#!/bin/sh
# Installs what is needed, builds everything with its tests, and runs them. May be run twice.
set -eu
top=$(cd "$(dirname "$0")/.." && pwd)
cd "$top"
echo "==> 1/3 packages"
sh .setup/install.sh build test
echo "==> 2/3 building the program and its tests in build/"
cmake -S . -B build -G Ninja -DCMAKE_BUILD_TYPE=Release -DHUMMOCK_TESTS=ON >build-configure.tmp 2>&1 ||
  { cat build-configure.tmp; rm -f build-configure.tmp; exit 1; }
rm -f build-configure.tmp
cmake --build build
echo "==> 3/3 running the tests"
ctest --test-dir build --output-on-failure -j "$(nproc)"
