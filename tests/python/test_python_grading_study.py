"""The study of grading methods runs, and what it says is what other ways of measuring find."""
import csv
import re

import numpy as np
import pytest
import shapely.affinity
import shapely.geometry
import shapely.ops
from PIL import Image

import built
from built import tg

STUDY = built.ROOT / "examples/grading_study.py"
SIZES = tg.read_sizes(built.ROOT / "shared/sizes/merrow_and_vane.csv")


@pytest.fixture(scope="module")
def study(tmp_path_factory):
    out = tmp_path_factory.mktemp("study")
    told = built.run([built.PYTHON, STUDY, "--out", out, "--steps", "13"], timeout=900)
    with open(out / "grading.csv", newline="") as table:
        lines = list(csv.DictReader(table))
    return told, out, lines


def of(lines, method):
    return {float(line["chest_girth"]): line for line in lines if line["method"] == method}


def test_at_the_base_nothing_is_off(study):
    for method in ("proportion", "points", "curves"):
        line = of(study[2], method)[1067.0]
        assert all(abs(float(line[name])) < 1e-3 for name in ("seams", "crown", "chest", "waist", "seat", "points"))


def test_the_methods_come_in_the_order_that_they_are_said_to(study):
    worst = {method: {name: max(abs(float(line[name])) for line in of(study[2], method).values())
                      for name in ("seams", "crown", "points")} for method in ("proportion", "points", "curves")}
    for name in ("seams", "crown"):
        assert worst["proportion"][name] > 3 * worst["points"][name] > 9 * worst["curves"][name]
    assert worst["proportion"]["points"] > 2 * worst["points"]["points"]


def test_seams_of_a_scaled_coat_by_geos(study):
    """The largest size by proportion: an independent length of the same curves."""
    line = of(study[2], "proportion")[1219.0]
    base, redraft = SIZES.size("42").draft(), SIZES.size("48").draft()
    by = np.array([1219 / 1067, 1795 / 1780])
    off = {}
    for name, seam in base.seams.items():
        length = []
        for side, in seam.stretches:  # one each
            path = base.pieces[side.piece].edges[side.edge].path
            t = np.linspace(0, 1, 400)[:, None]
            weights = (1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3
            points = np.vstack([sum(w * p for w, p in zip(weights, c)) for c in path.cubics])
            share = sorted((side.start / path.length, side.stop / path.length))
            part = shapely.ops.substring(shapely.geometry.LineString(points), *share, normalized=True)
            length.append(shapely.affinity.scale(part, *by, origin=(0, 0)).length)
        other = redraft.seams[name].lengths
        off[name] = length[0] - length[1] - (other[0] - other[1])
    crown = off.pop("crown_front") + off.pop("crown_back")
    assert float(line["crown"]) == pytest.approx(crown, abs=0.05)
    assert float(line["seams"]) == pytest.approx(max(off.values(), key=abs), abs=0.05)


def test_the_finding_is_made_of_its_numbers(study):
    told, _, lines = study
    seams, crown = map(float, re.search(r"up to ([\d.]+) mm in a seam, ([\d.]+) mm in the crown", told).groups())
    proportion = of(lines, "proportion").values()
    assert seams == pytest.approx(max(abs(float(line["seams"])) for line in proportion), abs=0.051)
    assert crown == pytest.approx(max(abs(float(line["crown"])) for line in proportion), abs=0.051)
    bend = float(re.search(r"The table alone bends away by ([\d.]+) mm", told).group(1))
    rows = {size: SIZES.size(size) for size in SIZES.sizes}
    line = {name: rows["42"][name] + (rows["44"][name] - rows["42"][name]) * (1219 - 1067) / 51
            for name in ("waist_girth", "seat_girth")}
    ends = max(abs(line[name] - rows["48"][name]) for name in line)
    assert bend >= ends - 0.051


def test_the_plot_and_the_same_bytes_again(study, tmp_path):
    pixels = np.asarray(Image.open(study[1] / "grading.png").convert("RGB")).astype(int)
    assert np.ptp(pixels, axis=2).max() <= 2 and 0.005 < (pixels < 128).mean() < 0.4
    built.run([built.PYTHON, STUDY, "--out", tmp_path, "--steps", "13"], timeout=900)
    for name in ("grading.csv", "grading.png"):
        assert (tmp_path / name).read_bytes() == (study[1] / name).read_bytes()
