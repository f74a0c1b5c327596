#!/usr/bin/env python3
"""Writes the invented yards that speed is measured on, as site files: make_yards.py FOLDER.

hectare      100 x 100 m at 10 cm, mounds and hollows, mesh fence on posts with an overhang, 12 stones
hectare-trees  the same with 300 trees
hectare-5cm  the same ground at 5 cm: 4 million nodes
hectare-views  the hectare with two places guests look in from, in wide windows
plot-25, plot-50  25 and 50 m a side at 10 cm, as the hectare
paddock      200 x 200 m at 25 cm
ten-hectares 316 x 316 m at 25 cm, 60 stones and 40 trees, a start
top-free, top-covered  8 x 8 m, a smooth fence, and the same with a beam along it that its top lies in
million-thing, million-ground  a rock, or a survey's surface, of a million triangles
bare         105 x 105 m at 10 cm of mounds and hollows, and nothing on it but a hand-high fence
Same numbers every time: an own generator, no library's.
"""
import math
import sys
from pathlib import Path

PLACE = """format = 1
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
"""

HEAD = (
    PLACE
    + """{forms}
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
)


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


def viewings(side):
    return "".join(
        f'\n[[viewing]]\nname = "window {edge}"\nedge = {edge}\nfrom = {0.4 * side:g}\nwidth = 12\n'
        for edge in (0, 3)
    )


def write(folder, name, side, cell, tree_count, more=""):
    numbers = Numbers(7)
    text = HEAD.format(name=name, cell=cell, side=side, forms=forms(numbers, side, 14))
    text += stones(numbers, side, 12) + trees(numbers, side, tree_count) + more
    (folder / f"{name}.site.toml").write_text(text, encoding="utf-8")


def write_ten_hectares(folder):
    numbers = Numbers(11)
    side = 316
    text = HEAD.format(name="ten-hectares", cell=0.25, side=side, forms=forms(numbers, side, 40))
    text += stones(numbers, side, 60) + trees(numbers, side, 40) + "\n[leap]\nstart = [158, 158]\n"
    (folder / "ten-hectares.site.toml").write_text(text, encoding="utf-8")


SMOOTH = HEAD.replace('name = "mesh"\nedges = [0, 1, 2, 3]\nkind = "mesh"', 'name = "planks"\nedges = [0, 1, 2, 3]\nkind = "solid"')
SMOOTH = SMOOTH.replace("height = 2.44", "height = 1.6").replace("aperture = 0.025\n", "")
SMOOTH = SMOOTH.replace("overhang = {{ length = 0.9, angle = 40.0 }}\n", "")


def beams(side):
    out = []
    for k, (x, y, turn) in enumerate([(4, 0, 0), (8, 4, 90), (4, 8, 0), (0, 4, 90)]):
        at = [x * side / 8, y * side / 8]
        out.append(
            f'\n[[object]]\nname = "beam {k + 1}"\nkind = "box"\nat = {at}\nturn = {turn}\n'
            f'size = [{side - 0.3}, 0.2, 0.2]\nz = 1.5\nsurface = "smooth"\n'
        )
    return "".join(out)


def write_tops(folder):
    for name, more in [("top-free", ""), ("top-covered", beams(8))]:
        text = SMOOTH.format(name=name, cell=0.1, side=8, forms="")
        text += stones(Numbers(3), 8, 2) + more
        (folder / f"{name}.site.toml").write_text(text, encoding="utf-8")


def write_obj(path, vertices, triangles):
    with path.open("w", encoding="ascii") as f:
        f.writelines(f"v {x:.4f} {y:.4f} {z:.4f}\n" for x, y, z in vertices)
        f.writelines(f"f {a + 1} {b + 1} {c + 1}\n" for a, b, c in triangles)


def rock(count):
    """A ball with bumps, 1.2 m high, of about `count` triangles: closed, rows of equal latitude."""
    rows = round(math.sqrt(count / 4))
    round_ = 2 * rows
    vertices = [(0.0, 0.0, 1.2)]
    for r in range(1, rows):
        t = math.pi * r / rows
        for c in range(round_):
            p = 2 * math.pi * c / round_
            size = 0.6 * (1 + 0.05 * math.sin(9 * p) * math.sin(t) * math.sin(7 * t))
            vertices.append((size * math.sin(t) * math.cos(p), size * math.sin(t) * math.sin(p), 0.6 + size * math.cos(t)))
    vertices.append((0.0, 0.0, 0.0))
    last = len(vertices) - 1
    triangles = []
    at = lambda r, c: 1 + (r - 1) * round_ + c % round_
    for c in range(round_):
        triangles.append((0, at(1, c), at(1, c + 1)))
        triangles.append((last, at(rows - 1, c + 1), at(rows - 1, c)))
    for r in range(1, rows - 1):
        for c in range(round_):
            triangles.append((at(r, c), at(r + 1, c), at(r + 1, c + 1)))
            triangles.append((at(r, c), at(r + 1, c + 1), at(r, c + 1)))
    return vertices, triangles


def write_million(folder):
    vertices, triangles = rock(1_000_000)
    write_obj(folder / "rock.obj", vertices, triangles)
    text = HEAD.format(name="million-thing", cell=0.1, side=20, forms="")
    text += stones(Numbers(5), 20, 4)
    text += '\n[[object]]\nname = "rock"\nkind = "mesh"\nfile = "rock.obj"\nat = [9, 10]\n'
    (folder / "million-thing.site.toml").write_text(text, encoding="utf-8")
    # The ground as a survey of 708 x 708 points, which is a million triangles between them.
    with (folder / "survey.asc").open("w", encoding="ascii") as f:
        n = 708
        f.write(f"ncols {n}\nnrows {n}\nxllcorner -3\nyllcorner -3\ncellsize 0.05\nNODATA_value -9999\n")
        for r in range(n):
            y = (n - 1 - r) * 0.05
            f.write(" ".join(f"{0.3 * math.sin(0.4 * c * 0.05) * math.cos(0.3 * y):.3f}" for c in range(n)) + "\n")
    text = HEAD.format(name="million-ground", cell=0.05, side=29, forms="")
    text = text.replace("level = 0.0", 'raster = "survey.asc"') + stones(Numbers(5), 29, 8)
    (folder / "million-ground.site.toml").write_text(text, encoding="utf-8")


def write_bare(folder):
    numbers = Numbers(11)
    text = HEAD.format(name="bare", cell=0.1, side=105, forms=forms(numbers, 105, 40))
    text = text.replace("margin = 3.0", "margin = 0.0").replace("height = 2.44", "height = 0.1")
    text = "\n".join(line for line in text.split("\n") if not line.startswith("overhang"))
    (folder / "bare.site.toml").write_text(text, encoding="utf-8")


def main():
    if len(sys.argv) != 2 or sys.argv[1].startswith("-"):
        sys.exit(__doc__)
    folder = Path(sys.argv[1])
    folder.mkdir(parents=True, exist_ok=True)
    write(folder, "hectare", 100, 0.1, 0)
    write(folder, "hectare-trees", 100, 0.1, 300)
    write(folder, "hectare-5cm", 100, 0.05, 0)
    write(folder, "hectare-views", 100, 0.1, 0, viewings(100))
    write(folder, "plot-25", 25, 0.1, 0)
    write(folder, "plot-50", 50, 0.1, 0)
    write(folder, "paddock", 200, 0.25, 20)
    write_ten_hectares(folder)
    write_tops(folder)
    write_million(folder)
    write_bare(folder)


if __name__ == "__main__":
    main()
