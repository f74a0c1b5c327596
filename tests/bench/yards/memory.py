#!/usr/bin/env python3
"""Peak memory of commands, and what the program foresaw: memory.py PROGRAM SITE... [-- COMMAND...]

COMMAND is one of those listed in COMMANDS below; without any, all of them. Prints, in MB of 10^6
bytes, `memory.SITE.COMMAND.peak_mb`, `.foreseen_mb` and `.foreseen_over_peak`; and the processor
seconds. The peak is the kernel's (maximum resident set of the process that works).
"""
import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path

COMMANDS = {
    "check": ["check", "SITE"],
    **{
        f"only-{name}": ["check", "SITE", "--only", name]
        for name in (
            "space relief leap dig openings entry shade sight water burrows houses earthworks quantities service"
        ).split()
    },
    "shade-day": ["shade", "SITE", "--step", "30", "-o", "OUT/shade"],
    "shade-seasons": ["shade", "SITE", "--seasons", "--step", "60", "-o", "OUT/shade"],
    "shade-year": ["shade", "SITE", "--year", "--step", "60", "-o", "OUT/shade"],
    "map-height": ["map", "SITE", "height", "-o", "OUT/h.tif"],
    "map-height-png": ["map", "SITE", "height", "-o", "OUT/h.png"],
    "map-demand": ["map", "SITE", "demand", "-o", "OUT/d.tif"],
    "report": ["report", "SITE", "-o", "OUT/r"],
    "report-day": ["report", "SITE", "--one-day", "-o", "OUT/r"],
    "export-glb": ["export", "SITE", "-o", "OUT/m.glb"],
    "export-stl": ["export", "SITE", "-o", "OUT/m.stl"],
}


def filled(words, site, out):
    return [w.replace("SITE", site).replace("OUT", out) for w in words]


def run(program, words):
    """Status, peak in MB, processor seconds, clock seconds, standard error."""
    start = time.time()
    with tempfile.TemporaryFile("w+") as err:
        pid = os.fork()
        if pid == 0:
            os.dup2(os.open(os.devnull, os.O_WRONLY), 1)
            os.dup2(err.fileno(), 2)
            os.environ["HUMMOCK_UNSUPERVISED"] = "1"
            os.execv(program, [program, *words])
        _, status, used = os.wait4(pid, 0)
        err.seek(0)
        text = err.read()
    return (
        os.waitstatus_to_exitcode(status),
        used.ru_maxrss * 1024 / 1e6,
        used.ru_utime + used.ru_stime,
        time.time() - start,
        text,
    )


def foreseen(program, words):
    """MB, as the program says it; None where it says nothing."""
    got = subprocess.run([program, *words, "--foresee"], capture_output=True, text=True, check=False)
    for word in got.stdout.split("\n"):
        if word.startswith("foreseen_mb "):
            return float(word.split()[1])
    return None


def main():
    words = sys.argv[1:]
    split = words.index("--") if "--" in words else len(words)
    program, sites, commands = words[0], words[1:split], words[split + 1 :] or list(COMMANDS)
    for site in sites:
        name = Path(site).name.split(".")[0]
        for command in commands:
            with tempfile.TemporaryDirectory() as out:
                line = filled(COMMANDS[command], site, out)
                told = foreseen(program, line)
                status, peak, processor, clock, err = run(program, line)
            key = f"memory.{name}.{command}"
            print(f"{key}.peak_mb {peak:.0f}")
            print(f"{key}.processor_s {processor:.1f}")
            if told is not None:
                print(f"{key}.foreseen_mb {told:.0f}")
                print(f"{key}.foreseen_over_peak {told / peak:.2f}")
            if status not in (0, 1):
                print(f"{key}.status {status}  # {err.strip()[-200:]}")
            sys.stdout.flush()


if __name__ == "__main__":
    main()
