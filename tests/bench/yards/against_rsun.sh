#!/bin/bash
# A day of sun on bare ground of 1.1 million cells at half-hour steps, here and by GRASS GIS's r.sun:
# against_rsun.sh HUMMOCK [FOLDER]
#
# Both read the same heights (our `map SITE height`). r.sun: mode 2, 0.5 h, two threads, hours of
# beam (insol_time), no sky view; it wants a projection, so the yard is laid at the equator of one
# (no turn of north there) with its latitude given; by its own sun (declination of the day, no refraction). Ours: sun
# hours with the sky view, tables, pictures and a raster of every step.
# Prints: processor and clock seconds of both, the mean hours, how many cells agree within a step,
# and the ratios. Slope and aspect, which r.sun wants ready, are made before its time is taken.
set -eu
hummock=$(realpath "$1")
folder=${2:-$(mktemp -d)}
here=$(dirname "$(realpath "$0")")
python3 "$here/make_yards.py" "$folder"
site=$folder/bare.site.toml
"$hummock" map "$site" height -o "$folder/height.tif" >/dev/null
TIMEFORMAT="%U %S %R"
ours=$({ time "$hummock" shade "$site" --date 2026-06-21 --step 30 -o "$folder/ours" >/dev/null 2>&1; } 2>&1)
cat >"$folder/rsun.sh" <<'G'
set -eu
r.in.gdal -o --quiet input="$1/height.tif" output=height
g.region raster=height
r.slope.aspect --quiet elevation=height slope=slope aspect=aspect
r.mapcalc --quiet "lat = 51.0"
r.mapcalc --quiet "long = 0.0"
TIMEFORMAT="%U %S %R"
{ time r.sun --quiet elevation=height slope=slope aspect=aspect lat=lat long=long day=172 step=0.5 \
  insol_time=hours beam_rad=beam nprocs=2 >/dev/null 2>"$1/rsun.err"; } 2>"$1/rsun.time"
r.out.gdal --quiet input=hours output="$1/rsun.tif" type=Float32 nodata=-9999 >/dev/null 2>&1
G
grass --tmp-location EPSG:32631 --exec bash "$folder/rsun.sh" "$folder" >/dev/null 2>&1
peer=$(tail -1 "$folder/rsun.time")
echo "$ours $peer" | awk '{
  printf "ours_cpu_s %.2f\nours_clock_s %.2f\nrsun_cpu_s %.2f\nrsun_clock_s %.2f\n", $1+$2, $3, $4+$5, $6
  printf "cpu_ratio %.2f\nclock_ratio %.2f\n", ($4+$5)/($1+$2), $6/$3 }'
for f in "$folder/rsun.tif" "$folder"/ours/sun-hours-*.tif; do
  gdal_translate -q -of XYZ "$f" "$f.xyz"
done
paste -d' ' "$folder/rsun.tif.xyz" "$folder"/ours/sun-hours-*.tif.xyz | awk '
  $3 > -9000 && $6 > -9000 { n++; a += $3; b += $6; d = $3 - $6; d = d < 0 ? -d : d; s += d
    half += d <= 0.51; one += d <= 1.01 }
  END { printf "cells %d\nrsun_mean_h %.3f\nours_mean_h %.3f\nmean_difference_h %.3f\n", n, a/n, b/n, s/n
    printf "within_a_step %.4f\nwithin_two_steps %.4f\n", half/n, one/n }'
