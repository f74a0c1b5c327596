#!/usr/bin/env python3
"""Writes families of invented yards that grow in one thing, as site files: make_families.py FOLDER.

corners-N   a wavy round yard of 60 m with N corners (50, 400, 1600), 50 cm cells
objects-N   100 x 100 m with N things on a jittered lattice (50, 200, 800), 50 cm cells
panels-N    10 m wide, with N panels of 2 m round it (100, 400, 1600, 6400), 50 cm cells
things-500  a hectare at 25 cm with 500 things, three burrows and the sun of a place
big-ground  625 x 625 m at 10 cm, 39 million nodes, a bare mesh fence
Same numbers every time: the generator of make_yards.py.
"""
import math
import sys
from pathlib import Path

from make_yards import PLACE, Numbers

HEAD = (
    PLACE
    + """soil_depth = 2.0

[[ground.form]]
kind = "mound"
at = [{middle_x}, {middle_y}]
radius = 4.0
height = 0.6

[boundary]
outline = {outline}

[[boundary.section]]
name = "mesh"
edges = {edges}
kind = "mesh"
height = 2.44
fit = "raked"
panel = 2.0
buried = 0.4
joint_gap = 0.02
overhang = {{ length = 0.9, angle = 40.0 }}
aperture = 0.025
"""
)

WAYS = """
[[boundary.gate]]
name = "gate"
edge = 0
from = 4.0
width = 1.0
height = 2.0
under_gap = 0.03
side_gap = 0.02
vestibule = { depth = 2.0, second_gate = true, roofed = true }

[[boundary.drain]]
name = "drain"
edge = 0
from = 8.5
width = 0.3
height = 0.2

[[viewing]]
name = "bench"
edge = 0
from = 11.0
width = 6.0
"""


def head(name, outline, cell):
    n = len(outline)
    middle = [round(sum(p[k] for p in outline) / n, 2) for k in range(2)]
    return HEAD.format(
        name=name,
        cell=cell,
        outline=outline,
        edges=list(range(n)),
        middle_x=middle[0],
        middle_y=middle[1],
    )


def round_outline(corners):
    out = []
    for k in range(corners):
        a = 2 * math.pi * k / corners
        r = 30.0 + 2.0 * math.cos(5 * a)
        out.append([round(r * math.cos(a), 4), round(r * math.sin(a), 4)])
    return out


def rectangle(x, y):
    return [[0, 0], [x, 0], [x, y], [0, y]]


def thing(numbers, k, at):
    kind = ("boulder", "box", "log", "post", "platform", "tree")[k % 6]
    text = f'\n[[object]]\nname = "thing {k + 1}"\nkind = "{kind}"\nat = {at}\n'
    wide = numbers.between(0.4, 1.0)
    tall = numbers.between(0.3, 0.9)
    turn = f"turn = {numbers.between(0, 180):.1f}\n"
    if kind == "tree":
        return (
            text + f"trunk = [{0.2 * wide:.2f}, {2 + tall:.2f}]\n"
            f'crown = {{ shape = "ellipsoid", size = [{2 * wide:.2f}, {2 * wide:.2f}, '
            f"{2 * tall:.2f}], base = 2.0, leaf_area_density = 0.9 }}\n"
        )
    sizes = {
        "boulder": (wide, 0.8 * wide, tall),
        "box": (wide, wide, tall),
        "log": (2 * wide, 0.3, 0.3),
        "post": (0.15, 0.15, 1 + tall),
        "platform": (wide, wide, tall),
    }
    text += "size = [" + ", ".join(f"{s:.2f}" for s in sizes[kind]) + "]\n"
    return text + (f"seed = {k + 1}\n" if kind == "boulder" else "") + turn


def things(numbers, side, count):
    row = math.ceil(math.sqrt(count))
    step = (side - 8.0) / row
    out = []
    for k in range(count):
        jitter = [numbers.between(0.25, 0.75) * step for _ in range(2)]
        at = [round(4 + (k % row) * step + jitter[0], 2), round(4 + (k // row) * step + jitter[1], 2)]
        out.append(thing(numbers, k, at))
    return "".join(out)


BURROWS = """
[[burrow]]
name = "burrow {n}"
mouth = [{x}, 50.0]
path = [[{x}, 52.0]]
depth = 0.8
diameter = 0.25
"""


def save(folder, name, text):
    (folder / f"{name}.site.toml").write_text(text, encoding="utf-8")


def main():
    if len(sys.argv) != 2 or sys.argv[1].startswith("-"):
        sys.exit(__doc__)
    folder = Path(sys.argv[1])
    folder.mkdir(parents=True, exist_ok=True)
    for n in (50, 400, 1600):
        name = f"corners-{n}"
        save(folder, name, head(name, round_outline(n), 0.5))
    for n in (50, 200, 800):
        name = f"objects-{n}"
        save(folder, name, head(name, rectangle(100, 100), 0.5) + WAYS + things(Numbers(11), 100, n))
    for n in (100, 400, 1600, 6400):
        name = f"panels-{n}"
        save(folder, name, head(name, rectangle(n - 10, 10), 0.5) + WAYS)
    burrows = "".join(BURROWS.format(n=k + 1, x=30.0 + 20.0 * k) for k in range(3))
    hectare = head("things-500", rectangle(100, 100), 0.25) + WAYS
    save(folder, "things-500", hectare + things(Numbers(13), 100, 500) + burrows)
    save(folder, "big-ground", head("big-ground", rectangle(619, 619), 0.1))


if __name__ == "__main__":
    main()
