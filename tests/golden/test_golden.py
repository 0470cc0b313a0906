"""Quantities of a few orders as they were: what tells a change of the draft from a change of the code.

A difference of more than 1e-6 is either a mistake or a change of geometry. The second is written down: in README.md
under "Geometry changed", with the largest movement, and here by

    TAILOR_BUILD=build-tests/gcc /usr/bin/python3 tests/golden/test_golden.py --keep
"""
import csv
import json
import os
import pathlib
import subprocess
import sys

import pytest

HERE = pathlib.Path(__file__).parent
CARDS = sorted(HERE.glob("*.ini"))


def quantities(card):
    cli = pathlib.Path(os.environ["TAILOR_BUILD"]) / "cli" / "tailorgeom"
    done = subprocess.run([cli, "draft", card, "--json"], capture_output=True, text=True, check=True)
    return json.loads(done.stdout)["quantities"]


def kept(card):
    with open(card.with_suffix(".csv"), newline="") as file:
        return {name: float(value) if value else None for name, value in csv.reader(file)}


def keep(card):
    with open(card.with_suffix(".csv"), "w", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        for name, value in quantities(card).items():
            writer.writerow([name, "" if value is None else repr(value)])


@pytest.mark.parametrize("card", CARDS, ids=lambda card: card.stem)
def test_quantities_are_what_they_were(card):
    now, then = quantities(card), kept(card)
    moved = {name: (then.get(name), value) for name, value in now.items()
             if (value is None) != (then.get(name) is None)
             or value is not None and abs(value - then[name]) > 1e-6 * max(1, abs(value) / 1000)}
    assert moved == {} and set(now) == set(then)


if __name__ == "__main__" and sys.argv[1:] == ["--keep"]:
    for each in CARDS:
        keep(each)
