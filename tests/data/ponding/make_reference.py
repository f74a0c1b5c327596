"""Depression filling of two grounds by grey-scale reconstruction, as a reference for our tests.

Run once, its output is kept in this folder:
    /usr/bin/python3 make_reference.py          (in tests/data/ponding)
with Debian 12's python3-skimage 0.19.3-8, python3-scipy 1.10.1-2, python3-numpy 1.24.2-1.

skimage.morphology.reconstruction(method="erosion") is a different algorithm (Robinson & Whelan
2004, downhill filter) by other hands: from a marker that is the ground on the rim and its highest
value inside, it erodes down onto the ground. That is the filled ground.
  * eight: the customary 3 x 3 neighbourhood.
  * six: the edges of a grid whose cells are split from (i+1, j) to (i, j+1).
Rows in the files are south to north, as in our grids.
"""
import json

import numpy as np
from skimage.morphology import reconstruction


def filled(z, six):
    footprint = np.ones((3, 3))
    if six:  # row axis = j (northwards), column axis = i: drop (+1, +1) and (-1, -1)
        footprint[0, 0] = footprint[2, 2] = 0
    marker = np.full_like(z, z.max())
    for edge in (np.s_[0, :], np.s_[-1, :], np.s_[:, 0], np.s_[:, -1]):
        marker[edge] = z[edge]
    return reconstruction(marker, z, method="erosion", footprint=footprint)


def save(name, z):
    six, eight = filled(z, True), filled(z, False)
    with open(name, "w") as out:
        out.write(f"{z.shape[1]} {z.shape[0]}\n")
        for grid in (z, six, eight):
            for row in grid:
                out.write(" ".join(f"{v:g}" for v in row) + "\n")
    print(name, "deepest", (six - z).max(), (eight - z).max(), "sum", (six - z).sum(), (eight - z).sum())


volcano = json.load(open("../volcano.json"))
save("volcano.txt", np.array(volcano["values"], float).reshape(61, 87)[::-1])
# Invented ground: whole centimetres of noise, many pits inside pits.
rng = np.random.default_rng(14)
rough = rng.integers(0, 60, (50, 70)) + 40 * np.sin(np.arange(70) / 6.0)[None, :]
save("rough.txt", np.round(rough))
