#!/usr/bin/env python3
"""Efficiency on several processors: threads.py PROGRAM SITE [ANALYSES [TURNS]]

Runs `check SITE --only ANALYSIS` (leap, shade, sight, relief unless told otherwise) on 1, 2, 4, 8
and 16 processors, as far as this machine has them, and prints for each count n the clock seconds,
the efficiency t1 / (n * tn), and whether the results as JSON are the same bytes as on one. The
clock counts only when nothing else runs: of TURNS turns (5) the one with the least of others'
work is taken, and how much that was is printed (share of the processors; below 0.05 is quiet).
Where it is not quiet, `alone_s` is what the clock would have shown: every few milliseconds it is
counted how many threads wanted to run, and the processor time they got since is divided by that
(at most n); `efficiency_alone` is from these. Reading the site and building the model are part of
it, as a user waits for them too.
"""
import hashlib
import os
import sys
import tempfile
import time
from pathlib import Path

COUNTS = [1, 2, 4, 8, 16]
QUIET = 0.05


def processor_name():
    for line in Path("/proc/cpuinfo").read_text(encoding="utf-8").split("\n"):
        if line.startswith("model name"):
            return line.split(":", 1)[1].strip()
    return "unknown"


def busy_seconds():
    """Of all processors since the start, by everybody."""
    fields = [int(f) for f in Path("/proc/stat").read_text(encoding="utf-8").split("\n")[0].split()[1:]]
    user, nice, system, _idle, _wait, irq, soft, steal = fields[:8]
    return (user + nice + system + irq + soft + steal) / os.sysconf("SC_CLK_TCK")


def threads_of(pid):
    """Processor seconds of each thread so far, and how many want to run now."""
    used, wanting = {}, 0
    try:
        for task in os.listdir(f"/proc/{pid}/task"):
            base = f"/proc/{pid}/task/{task}"
            with open(f"{base}/schedstat", encoding="ascii") as f:
                used[task] = int(f.read().split()[0]) * 1e-9
            with open(f"{base}/stat", encoding="ascii") as f:
                wanting += f.read().rsplit(")", 1)[1].split()[0] == "R"
    except (FileNotFoundError, ProcessLookupError, IndexError):
        pass
    return used, wanting


class Alone:
    """Seconds a process would have taken with its processors to itself."""

    def __init__(self, pid, count):
        self.pid, self.count, self.seconds, self.seen = pid, count, 0.0, 0.0
        self.used, self.wanting = {}, 1

    def sample(self):
        used, wanting = threads_of(self.pid)
        got = sum(max(0.0, t - self.used.get(task, 0.0)) for task, t in used.items())
        self.seconds += got / min(self.count, max(1, (self.wanting + wanting) / 2))
        self.seen += got
        self.used, self.wanting = {**self.used, **used}, max(1, wanting)

    def total(self, processor):
        """What no sample saw counts as if one thread did it."""
        return self.seconds + max(0.0, processor - self.seen)


def run(program, words, processors):
    """Clock seconds, processor seconds, others' share of the processors, seconds if alone."""
    before, start = busy_seconds(), time.monotonic()
    pid = os.fork()
    if pid == 0:
        os.sched_setaffinity(0, processors)
        null = os.open(os.devnull, os.O_WRONLY)
        os.dup2(null, 1)
        os.dup2(null, 2)
        os.environ["HUMMOCK_UNSUPERVISED"] = "1"
        os.execv(program, [program, *words])
    alone = Alone(pid, len(processors))
    while True:
        done, status, used = os.wait4(pid, os.WNOHANG)
        if done:
            break
        alone.sample()
        time.sleep(0.003)
    clock = time.monotonic() - start
    if os.waitstatus_to_exitcode(status) not in (0, 1):
        sys.exit(f"{' '.join(words)}: status {os.waitstatus_to_exitcode(status)}")
    own = used.ru_utime + used.ru_stime
    others = max(0.0, busy_seconds() - before - own) / (clock * os.cpu_count())
    return clock, own, others, alone.total(own)


def best_of(program, words, processors, turns):
    return min((run(program, words, processors) for _ in range(turns)), key=lambda t: (round(t[2], 2), t[0]))


def measure(program, site, analysis, turns, have):
    first = None
    for n in [c for c in COUNTS if c <= len(have)]:
        with tempfile.TemporaryDirectory() as folder:
            out = Path(folder) / "r.json"
            words = ["check", site, "--only", analysis, "--json", str(out)]
            clock, own, others, alone = best_of(program, words, set(have[:n]), turns)
            digest = hashlib.sha256(out.read_bytes()).hexdigest()
        first = first or (clock, alone, digest)
        key = f"threads.{Path(site).name.split('.')[0]}.{analysis}.{n}"
        note = "" if others < QUIET else "  # not quiet: the clock was shared"
        print(f"{key}.clock_s {clock:.3f}{note}")
        print(f"{key}.processor_s {own:.3f}")
        print(f"{key}.others_share {others:.2f}")
        print(f"{key}.efficiency {first[0] / (n * clock):.2f}{note}")
        print(f"{key}.alone_s {alone:.3f}")
        print(f"{key}.efficiency_alone {first[1] / (n * alone):.2f}")
        print(f"{key}.same_bytes {int(digest == first[2])}")
        sys.stdout.flush()


def main():
    program, site = sys.argv[1:3]
    analyses = (sys.argv[3] if len(sys.argv) > 3 else "leap,shade,sight,relief").split(",")
    turns = int(sys.argv[4]) if len(sys.argv) > 4 else 5
    have = sorted(os.sched_getaffinity(0))
    print(f"threads.processor {processor_name()}")
    print(f"threads.processors {len(have)}")
    missing = [str(c) for c in COUNTS if c > len(have)]
    if missing:
        print(f"# this machine has {len(have)} processors: {', '.join(missing)} not measured")
    for analysis in analyses:
        measure(program, site, analysis, turns, have)


if __name__ == "__main__":
    main()
