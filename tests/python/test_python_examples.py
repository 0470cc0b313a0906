"""The examples run, and what they say is true."""
import csv
import re

import numpy as np
import pytest
from PIL import Image

import built
from built import tg

EXAMPLES = built.ROOT / "examples"


@pytest.fixture(scope="module")
def study(tmp_path_factory):
    out = tmp_path_factory.mktemp("study")
    command = [built.PYTHON, EXAMPLES / "fastening_study.py", "--out", out, "--chests", "37", "--statures", "33"]
    return built.run(command, timeout=900), out


def test_the_finding_is_made_of_its_numbers(study):
    told, _ = study
    chest, stature = map(float, re.search(r"average man of (\d+) mm chest and (\d+) mm stature", told).groups())
    three, two, one = map(
        float, re.search(r"covers (\d+) mm .*two buttons (\d+) and one of one button (\d+)", told).groups()
    )
    for kind, value in (("three-button", three), ("two-button", two), ("one-button", one)):
        coat = tg.draft(chest_girth=chest, stature=stature, buttoning=kind)
        assert coat.quantities["coverage_scye"] == pytest.approx(value, abs=0.5)
    least, most, median = map(
        float, re.search(r"cover ([\d.]+) to ([\d.]+) mm more than two \(median ([\d.]+)\)", told).groups()
    )
    assert least < median < most and least - 0.1 <= three - two + 1 and three - two - 1 <= most + 0.1
    assert "largest difference 0)" in told and "does nothing for coverage" in told


def test_the_table_of_the_study(study):
    told, out = study
    with open(out / "fastenings.csv", newline="") as table:
        lines = list(csv.DictReader(table))
    assert len(lines) == 5 * 5 and len(lines[0]) == 6 + 6
    by = {(line["quantity"], line["fastening"]): line for line in lines}
    for name in ("lapel_area", "vee_area", "break_angle", "coverage_scye"):
        assert by[name, "two-button"]["middle"] == by[name, "roll-by-cut"]["middle"]
    # The sensitivity of the lapel's area to its width, against two drafts of one man.
    ends = [tg.draft(chest_girth=1016, stature=1750, lapel_width=width).quantities["lapel_area"] for width in (87, 89)]
    assert float(by["lapel_area", "two-button"]["per 1 mm lapel_width"]) == pytest.approx(
        (ends[1] - ends[0]) / 2, rel=0.1
    )
    assert f"{37 * 33 * 5 + 2 * 4 * 5 * 171} orders in" in told


def test_the_plots_of_the_study(study):
    for name in ("fastenings", "more-coverage", "sensitivities"):
        pixels = np.asarray(Image.open(study[1] / f"{name}.png").convert("RGB")).astype(int)
        assert np.ptp(pixels, axis=2).max() <= 2 and 0.01 < (pixels < 128).mean() < 0.4


@pytest.fixture(scope="module")
def book(tmp_path_factory):
    """An order book, and the hash that one process gives for it."""
    directory = tmp_path_factory.mktemp("book")
    script = [built.PYTHON, EXAMPLES / "orderbook_dask.py"]
    built.run([*script, "--make", "3000", directory / "orders.csv"])
    told = built.run([*script, directory / "orders.csv", directory / "single.csv", "--single"])
    return script, directory, re.search("sha256 (.*)", told).group(1)


def test_the_order_book_is_what_rows_gives(book):
    _, directory, _ = book
    with open(directory / "orders.csv", newline="") as orders, open(directory / "single.csv", newline="") as answers:
        pairs = list(zip(csv.DictReader(orders), csv.DictReader(answers)))
    assert len(pairs) == 3000 and len({answer["status"] for _, answer in pairs}) >= 3
    for order, answer in pairs[::7] + [pair for pair in pairs if pair[1]["status"] != "0"]:
        assert (order["order"], order["client"]) == (answer["order"], answer["client"])
        fields = {name: value or None for name, value in order.items() if name not in ("order", "client")}
        try:
            coat = tg.draft(**fields)
        except tg.TailorError as error:
            assert answer["status"] == str(error.status) and answer["message"] and answer["lapel_area"] == ""
        else:
            assert answer["status"] == "0" and float(answer["lapel_area"]) == coat.quantities["lapel_area"]


@pytest.mark.parametrize("how", [[], ["--lose-a-worker", "--slow", "0.1"]], ids=["workers", "a worker is lost"])
def test_many_workers_give_the_same_bytes(book, how):
    script, directory, expected = book
    out = directory / f"out{len(how)}.csv"
    command = [*script, directory / "orders.csv", out, "--workers", "2", "--partition", "9000", *how]
    told = built.run(command, timeout=900)
    assert f"sha256 {expected}" in told and out.read_bytes() == (directory / "single.csv").read_bytes()
    assert ("killing the worker" in told) == bool(how)
    assert not list(directory.glob("*.part*"))


def test_partitions_of_any_size(book):
    """One process, but the partitions of several sizes: the same bytes joined."""
    code = """
import sys, pathlib; sys.path.insert(0, sys.argv[1])
import orderbook_dask as o
book, parts = pathlib.Path(sys.argv[2]), pathlib.Path(sys.argv[3])
header, cuts = o.partitions(book, int(sys.argv[4]))
assert sum(size for _, size in cuts) + len(header) == book.stat().st_size
for job in o.jobs(book, parts, int(sys.argv[4])):
    o.work(*job)
o.join(parts, parts / "joined")
print(len(cuts), o.sha256(parts / "joined"))
"""
    for size in (5000, 12345):
        parts = book[1] / f"parts-{size}"
        parts.mkdir()
        count, found = built.python(code, EXAMPLES, book[1] / "orders.csv", parts, size).split()
        assert int(count) > 5 and found == book[2]
