#!/usr/bin/env python3
"""A year of sun on written yards: year.py BINARY [YARD ...]  (hectare, hectare-trees, north-yard, small)

For each yard the seconds of processor and clock, the most memory held, the steps of the year and the
suns looked at. `small` (the hectare at 80 cm) is run by every step too: how far the suns on their
grid are off, at a node in the year and in a month. Plain `yard.name value` lines.
"""
import csv
import json
import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path

HERE = Path(__file__).resolve().parent
NORTH = HERE.parents[2] / "examples" / "north-yard" / "north-yard.site.toml"
DAYS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]


def site_of(name, folder):
    if name == "north-yard":
        return NORTH
    site = folder / f"{'hectare' if name == 'small' else name}.site.toml"
    if name != "small":
        return site
    coarse = folder / "small.site.toml"
    coarse.write_text(site.read_text().replace("\ncell = 0.1\n", "\ncell = 0.8\n"))
    return coarse


def run(binary, site, out, *more):
    """Seconds of processor and clock, and MB, of one year."""
    command = [binary, "shade", str(site), "--year", "-o", str(out), *more]
    environment = dict(os.environ, HUMMOCK_UNSUPERVISED="1")
    begin = time.monotonic()
    child = subprocess.Popen(command, stdout=subprocess.DEVNULL, env=environment)
    _, status, used = os.wait4(child.pid, 0)
    if status != 0:
        sys.exit(f"{' '.join(command)}: status {status}")
    return used.ru_utime + used.ru_stime, time.monotonic() - begin, used.ru_maxrss / 1024


def one_file(folder, pattern):
    return next(folder.glob(pattern))


def hours(folder):
    """Of each node, the hours of the months (to the four digits of the table)."""
    with open(one_file(folder, "year-*.csv"), encoding="utf-8") as table:
        rows = list(csv.reader(table))
    return [[float(v) * d for v, d in zip(row[3:15], DAYS)] for row in rows[1:]]


def tell(name, **values):
    for key, value in values.items():
        print(f"{name}.{key} {value:.6g}", flush=True)


def off_by(name, grid, steps):
    nodes = list(zip(hours(grid), hours(steps)))
    year = [abs(sum(a) - sum(b)) for a, b in nodes]
    month = max(abs(a - b) / d for g, s in nodes for a, b, d in zip(g, s, DAYS))
    tell(name, off_mean_h=sum(year) / len(year), off_most_h=max(year), off_month_h_a_day=month)


def main():
    binary = sys.argv[1]
    with tempfile.TemporaryDirectory() as text:
        folder = Path(text)
        subprocess.run([sys.executable, HERE / "make_yards.py", folder], check=True)
        for name in sys.argv[2:] or ["hectare", "hectare-trees", "north-yard", "small"]:
            site, out = site_of(name, folder), folder / name
            processor, clock, held = run(binary, site, out)
            known = json.loads(one_file(out, "year-*.json").read_text())
            tell(name, processor_s=processor, clock_s=clock, held_mb=held,
                 steps=known["sun_positions"], suns=known.get("suns_looked_at", 0))
            if name != "small":
                continue
            by_steps = folder / "by-steps"
            tell(name, every_step_processor_s=run(binary, site, by_steps, "--every-step")[0])
            off_by(name, out, by_steps)


if __name__ == "__main__":
    main()
