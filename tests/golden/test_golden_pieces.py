"""The pieces of the figures in examples/cards as they were, as geometry: places along each outline, and its area.

What tells a change of shape that no quantity shows. A difference of more than 1e-5 mm is a mistake or a change of
geometry: then it is written down in README.md under "Geometry changed", and here by

    TAILOR_BUILD=build-tests/gcc /usr/bin/python3 tests/golden/test_golden_pieces.py --keep
"""
import csv
import json
import os
import pathlib
import subprocess
import sys

import numpy as np
import pytest

HERE = pathlib.Path(__file__).parent
KEPT = HERE / "pieces"
CARDS = sorted(
    HERE.parents[1] / "examples/cards" / f"{name}.ini"
    for name in ("slim", "stout", "stooping", "low-shoulder", "very-tall", "very-short", "double-breasted", "shawl")
)
PLACES = 24


def places(outline):
    """Points at even steps of chord length along a closed path of cubics, whose control points are given, and its
    area: nothing of the library's own, so what moves is the outline."""
    t = np.linspace(0, 1, 65)[:-1, None]
    path = np.vstack([(1 - t) ** 3 * a + 3 * (1 - t) ** 2 * t * b + 3 * (1 - t) * t**2 * c + t**3 * d
                      for a, b, c, d in np.asarray(outline)])
    closed = np.vstack([path, path[:1]])
    run = np.concatenate([[0], np.cumsum(np.hypot(*np.diff(closed, axis=0).T))])
    at = np.linspace(0, run[-1], PLACES, endpoint=False)
    area = np.sum(closed[:-1, 0] * closed[1:, 1] - closed[1:, 0] * closed[:-1, 1]) / 2
    return np.column_stack([np.interp(at, run, closed[:, k]) for k in range(2)]), area


def pieces(card):
    cli = pathlib.Path(os.environ["TAILOR_BUILD"]) / "cli" / "tailorgeom"
    done = subprocess.run([cli, "draft", card, "--json"], capture_output=True, text=True, check=True)
    return {piece["name"]: places(piece["outline"]) for piece in json.loads(done.stdout)["pieces"]}


def kept(card):
    with open(KEPT / f"{card.stem}.csv", newline="") as file:
        rows = {name: np.array(numbers, float) for name, *numbers in csv.reader(file)}
    return {name: (row[1:].reshape(PLACES, 2), row[0]) for name, row in rows.items()}


def keep(card):
    KEPT.mkdir(exist_ok=True)
    with open(KEPT / f"{card.stem}.csv", "w", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        for name, (points, area) in pieces(card).items():
            writer.writerow([name, f"{area:.4f}", *(f"{value:.6f}" for value in points.ravel())])


@pytest.mark.parametrize("card", CARDS, ids=lambda card: card.stem)
def test_pieces_are_what_they_were(card):
    now, then = pieces(card), kept(card)
    assert list(now) == list(then)
    for name, (points, area) in now.items():
        assert np.abs(points - then[name][0]).max() < 1e-5, name
        assert area == pytest.approx(then[name][1], abs=1e-2), name


def test_a_moved_point_is_seen():
    """The comparison can fail: one handle moved by a tenth of a millimetre shows."""
    square = np.array([[[0, 0], [30, 0], [70, 0], [100, 0]], [[100, 0], [100, 30], [100, 70], [100, 100]],
                       [[100, 100], [70, 100], [30, 100], [0, 100]], [[0, 100], [0, 70], [0, 30], [0, 0]]], float)
    points, area = places(square)
    assert area == pytest.approx(10000)
    square[0, 1, 1] += 0.1
    moved, other = places(square)
    assert np.abs(points - moved).max() > 1e-3 and abs(area - other) > 1


if __name__ == "__main__" and sys.argv[1:] == ["--keep"]:
    for each in CARDS:
        keep(each)
