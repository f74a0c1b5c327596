#!/usr/bin/env python3
"""Speed against the named peers, commit to commit: runs what measures.toml lists and writes the
table of tests/bench/README.md.

  table.py measure --build BUILD --before BUILD [--only NAME ...]   runs, keeps in measured.csv
  table.py write                                                    measured.csv into README.md

BUILD is a build folder with the program and the benchmarks (cmake --preset bench); --before is one
of the commit that ratios are asked against (48419df). A measure is a command for bash; {build},
{before} and {yards} in it stand for folders (the last with what make_yards.py and make_families.py
write), and a row's number is what its regular expression finds in the output. Ratios are of one
run, so that a slow hour of the machine falls on both sides.
"""
import argparse
import csv
import datetime
import os
import platform
import re
import subprocess
import sys
import tempfile
import tomllib
from pathlib import Path

HERE = Path(__file__).resolve().parent
TOP = HERE.parent.parent
KEPT = HERE / "measured.csv"
PAGE = HERE / "README.md"
COLUMNS = ["commit", "date", "machine", "name", "value"]
BEGIN, END = "<!-- table: begin -->", "<!-- table: end -->"


def measures():
    with open(HERE / "measures.toml", "rb") as file:
        return tomllib.load(file)["measure"]


def machine():
    model = platform.machine()
    for line in open("/proc/cpuinfo", encoding="utf-8"):
        if line.startswith("model name"):
            model = " ".join(line.split(":", 1)[1].split())
            break
    return f"{model}, {len(os.sched_getaffinity(0))} processors"


def commit():
    run = subprocess.run(["git", "-C", str(TOP), "rev-parse", "--short=7", "HEAD"],
                         capture_output=True, text=True, check=True)
    return run.stdout.strip()


def take(measure, folders):
    """The numbers of a measure's rows, each found in what its command prints."""
    command = measure["command"].format(**folders)
    print(f"==> {measure['name']}: {command}", file=sys.stderr)
    run = subprocess.run(["bash", "-c", command], cwd=TOP, capture_output=True, text=True,
                         check=False)
    found = {}
    for row in measure["row"]:
        match = re.search(row["find"], run.stdout)
        if not match:
            sys.exit(f"{measure['name']}: status {run.returncode}, nothing for {row['name']} in\n"
                     f"{run.stdout}\n{run.stderr}")
        found[row["name"]] = float(match[1])
    return found


def kept():
    if not KEPT.exists():
        return []
    with open(KEPT, newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


def keep(rows):
    beside = KEPT.with_suffix(".tmp")
    with open(beside, "w", newline="", encoding="utf-8") as file:
        out = csv.DictWriter(file, COLUMNS, lineterminator="\n")
        out.writeheader()
        out.writerows(rows)
    beside.replace(KEPT)


def measure_all(options):
    chosen = [m for m in measures() if not options.only or m["name"] in options.only]
    stamp = {"commit": commit(), "date": datetime.date.today().isoformat(), "machine": machine()}
    with tempfile.TemporaryDirectory() as yards:
        for maker in ("make_yards.py", "make_families.py"):
            subprocess.run([sys.executable, "-B", str(HERE / "yards" / maker), yards], check=True)
        folders = {"build": Path(options.build).resolve(), "before": Path(options.before).resolve(),
                   "yards": yards}
        for measure in chosen:
            found = take(measure, folders)
            rows = [r for r in kept() if r["commit"] != stamp["commit"] or r["name"] not in found]
            keep(rows + [stamp | {"name": n, "value": f"{v:.4g}"} for n, v in found.items()])
            for name, value in found.items():
                print(f"{name}: {value:.4g}", file=sys.stderr)


def table():
    rows = kept()
    commits = list(dict.fromkeys(r["commit"] for r in rows))
    value = {(r["commit"], r["name"]): r["value"] for r in rows}
    lines = ["| what | against | asked | " + " | ".join(commits) + " |",
             "| --- | --- | --- |" + " ---: |" * len(commits)]
    for measure in measures():
        for row in measure["row"]:
            cells = [value.get((c, row["name"]), "") for c in commits]
            lines.append("| " + " | ".join([row["name"], row["against"], row["asked"], *cells]) + " |")
    machines = {c: sorted({f"{r['date']}, {r['machine']}" for r in rows if r["commit"] == c})
                for c in commits}
    lines += [""] + [f"{c}: {'; '.join(machines[c])}." for c in commits]
    return "\n".join(lines)


def write_page():
    text = PAGE.read_text(encoding="utf-8")
    before, after = text.split(BEGIN)[0], text.split(END)[1]
    beside = PAGE.with_suffix(".tmp")
    beside.write_text(f"{before}{BEGIN}\n{table()}\n{END}{after}", encoding="utf-8")
    beside.replace(PAGE)


def main():
    parser = argparse.ArgumentParser(description=__doc__,
                                     formatter_class=argparse.RawDescriptionHelpFormatter)
    commands = parser.add_subparsers(dest="what", required=True)
    run = commands.add_parser("measure")
    run.add_argument("--build", required=True)
    run.add_argument("--before", required=True)
    run.add_argument("--only", nargs="*", default=[])
    commands.add_parser("write")
    options = parser.parse_args()
    if options.what == "measure":
        measure_all(options)
    write_page()


if __name__ == "__main__":
    main()
