#!/usr/bin/env python3
"""Writes the invented yards that speed is measured on, as site files: make_yards.py FOLDER.

hectare      100 x 100 m at 10 cm, mounds and hollows, mesh fence on posts with an overhang, 12 stones
hectare-trees  the same with 300 trees
paddock      200 x 200 m at 25 cm
bare         105 x 105 m at 10 cm of mounds and hollows, and nothing on it but a hand-high fence
Same numbers every time: an own generator, no library's.
"""
import sys
from pathlib import Path

HEAD = """format = 1
name = "{name}"
animals = 6
species = "corsac"

[place]
latitude = 51.0
longitude = 0.0
time_zone = "+00:00"

[ground]
level = 0.0
cell = {cell}
margin = 3.0
{forms}
[boundary]
outline = [[0, 0], [{side}, 0], [{side}, {side}], [0, {side}]]

[[boundary.section]]
name = "mesh"
edges = [0, 1, 2, 3]
kind = "mesh"
height = 2.44
fit = "raked"
panel = 2.0
overhang = {{ length = 0.9, angle = 40.0 }}
aperture = 0.025
"""


class Numbers:
    """A linear congruential generator (constants from memory: Knuth's MMIX)."""

    def __init__(self, seed):
        self.state = seed

    def between(self, lo, hi):
        self.state = (self.state * 6364136223846793005 + 1442695040888963407) % 2**64
        return lo + (hi - lo) * (self.state >> 11) / 2**53


def forms(numbers, side, count):
    out = []
    for k in range(count):
        at = [round(numbers.between(0.1, 0.9) * side, 2) for _ in range(2)]
        kind = "mound" if k % 2 == 0 else "hollow"
        size = "height" if kind == "mound" else "depth"
        out.append(
            f'[[ground.form]]\nkind = "{kind}"\nat = {at}\n'
            f"radius = {numbers.between(3, 12):.2f}\n{size} = {numbers.between(0.2, 1.2):.2f}\n"
        )
    return "\n".join(out)


def stones(numbers, side, count):
    out = []
    for k in range(count):
        at = [round(numbers.between(4, side - 4), 2) for _ in range(2)]
        size = [round(numbers.between(0.5, 1.6), 2) for _ in range(3)]
        out.append(
            f'\n[[object]]\nname = "stone {k + 1}"\nkind = "boulder"\nat = {at}\nsize = {size}\n'
            f"seed = {k + 1}\n"
        )
    return "".join(out)


def trees(numbers, side, count):
    out = []
    for k in range(count):
        at = [round(numbers.between(5, side - 5), 2) for _ in range(2)]
        wide = numbers.between(2.5, 5.0)
        out.append(
            f'\n[[object]]\nname = "tree {k + 1}"\nkind = "tree"\nat = {at}\n'
            f"trunk = [{numbers.between(0.15, 0.4):.2f}, {numbers.between(3, 6):.2f}]\n"
            f'crown = {{ shape = "ellipsoid", size = [{wide:.2f}, {wide:.2f}, '
            f"{numbers.between(3, 5):.2f}], base = 2.0, leaf_area_density = 0.9 }}\n"
        )
    return "".join(out)


def write(folder, name, side, cell, tree_count):
    numbers = Numbers(7)
    text = HEAD.format(name=name, cell=cell, side=side, forms=forms(numbers, side, 14))
    text += stones(numbers, side, 12) + trees(numbers, side, tree_count)
    (folder / f"{name}.site.toml").write_text(text, encoding="utf-8")


def write_bare(folder):
    numbers = Numbers(11)
    text = HEAD.format(name="bare", cell=0.1, side=105, forms=forms(numbers, 105, 40))
    text = text.replace("margin = 3.0", "margin = 0.0").replace("height = 2.44", "height = 0.1")
    text = "\n".join(line for line in text.split("\n") if not line.startswith("overhang"))
    (folder / "bare.site.toml").write_text(text, encoding="utf-8")


def main():
    folder = Path(sys.argv[1])
    folder.mkdir(parents=True, exist_ok=True)
    write(folder, "hectare", 100, 0.1, 0)
    write(folder, "hectare-trees", 100, 0.1, 300)
    write(folder, "paddock", 200, 0.25, 20)
    write_bare(folder)


if __name__ == "__main__":
    main()
