"""Sizes of a table, drafted: what is told is what a card of the same measures gives; a client's nearest size; files."""
import csv
import json
import os
import pathlib
import re
import resource
import subprocess
import sys

import numpy as np
import pytest
from scipy.interpolate import PchipInterpolator

from client_card import CARD

ROOT = pathlib.Path(__file__).resolve().parents[2]
SIZES = ROOT / "shared/sizes"
NAMES = sorted(path.stem for path in SIZES.glob("*.csv"))


def rows(name, fit):
    with open(SIZES / f"{name}.csv", newline="") as table:
        return [row for row in csv.DictReader(table) if row["fit"] == fit]


def graded(cli, *arguments):
    return json.loads(cli.good("grade", *arguments, "--json"))


def drafted(cli, measures, style=""):
    """What a card with these measures gives: the other way to the same coat."""
    lines = "\n".join(f"{name} = {value}" for name, value in measures.items())
    done = cli.good("draft", cli.card(f"[measures]\n{lines}\n{style}", "one.ini"), "--json")
    return json.loads(done)


def test_the_tables_that_are_built_in_are_those_of_the_folder():
    assert subprocess.run([sys.executable, ROOT / "cli/generate_sizes.py", "--check"]).returncode == 0


@pytest.mark.parametrize("name", NAMES)
def test_a_table_by_name_and_by_file_are_one(cli, name):
    assert graded(cli, name) == graded(cli, SIZES / f"{name}.csv")
    assert "wrote" not in cli.good("grade", name) and cli.files() == []


@pytest.mark.parametrize("fit", ["short", "regular", "long"])
def test_a_size_is_the_coat_of_its_measures(cli, fit):
    document = graded(cli, "merrow_and_vane", "--fit", fit)
    table = rows("merrow_and_vane", fit)
    assert [size["size"] for size in document["sizes"]] == [row["size"] for row in table]
    for size, row in zip(document["sizes"], table):
        style = {name: row.pop(name) for name in ("cuff_width", "lapel_width")}
        row = {name: row[name] for name in row if name not in ("size", "fit")}
        lines = "\n".join(f"{name} = {value}" for name, value in style.items())
        coat = drafted(cli, row, f"[style]\n{lines}\n")
        for name, value in coat["quantities"].items():
            assert size["quantities"][name] == pytest.approx(value, abs=0.01), name
        assert {measure["origin"] for measure in size["measures"].values()} == {"table"}


def test_between_sizes_measures_are_those_of_a_monotone_cubic(cli):
    """SciPy's PCHIP is Fritsch and Butland's too."""
    document = graded(cli, "merrow_and_vane", "--sizes", "chest_girth=1013,40,chest_girth=1100+arm_length=640")
    table = rows("merrow_and_vane", "regular")
    chests = [float(row["chest_girth"]) for row in table]
    first, row, long = document["sizes"]
    for name in ("waist_girth", "seat_girth", "neck_girth", "stature", "back_width"):
        curve = PchipInterpolator(chests, [float(line[name]) for line in table])
        assert first["measures"][name] == {"value": pytest.approx(float(curve(1013)), abs=1e-9),
                                           "origin": "interpolated"}
        assert row["measures"][name]["origin"] == "table"
    assert first["measures"]["chest_girth"] == {"value": 1013.0, "origin": "given"}
    assert long["measures"]["arm_length"] == {"value": 640.0, "origin": "given"}
    text = cli.good("grade", "merrow_and_vane", "--sizes", "chest_girth=1013,chest_girth=1016")
    assert "~ chest_girth=1013: interpolated between two sizes at its chest_girth: 9 measures" in text
    assert text.count(" ~\n") + text.count(" ~ ") >= 9 and "chest_girth=1016:" not in text


def test_beyond_the_table_is_said(cli):
    text = cli.good("grade", "merrow_and_vane", "--sizes", "chest_girth=1240")
    assert re.search(r"! chest_girth=1240: extrapolated, 0.41 of a step above the largest size", text)
    size, = graded(cli, "merrow_and_vane", "--sizes", "chest_girth=1240")["sizes"]
    assert size["beyond"] == pytest.approx(21 / 51) and size["measures"]["waist_girth"]["origin"] == "extrapolated"


def test_style_of_a_card_and_constants_of_a_house(cli):
    style = "[measures]\nchest_girth = 900\nstature = 1600\n[style]\nbuttoning = one-button\nlapel_width = 95\n"
    (cli.directory / "house.ini").write_text("[house]\ncollar_stand = 32\n")
    size, = graded(cli, "merrow_and_vane", "--sizes", "42", "--card", cli.card(style, "style.ini"), "--house",
                   "house.ini")["sizes"]
    fields = size["fields"]
    assert fields["buttoning"]["value"] == "one-button" and fields["lapel_width"]["value"] == 95
    assert fields["stature"]["value"] == 1780 and fields["chest_girth"]["value"] == 1067


def test_a_size_that_no_coat_closes_on_does_not_stop_the_others(cli):
    (cli.directory / "t.csv").write_text("size,chest_girth,waist_girth\na,1000,860\nb,1010,1500\n")
    done = cli("grade", "t.csv")
    assert done.returncode == 1 and done.err.startswith("tailorgeom: size b: ") and "finished_chest" in done.out
    assert "1110" in done.out


@pytest.mark.parametrize("text, sentence", [
    ("size,fit,chest_girth\n40,regular,1016\n38,regular,965\n", "chest_girth"),
    ("size,chest_girth,waist_girth\n38,965,800\n40,1016,790\n42,1067,830\n", "waist_girth"),
    ("size,chest_girth\n38,96\n", ":2: "),
    ("size,chest_girth\n38,965\n38,1016\n", ":3: size 38 of this fit stands already on line 2"),
    ("size,chest_grith\n38,965\n", ":1: unknown column chest_grith: did you mean chest_girth?"),
    ("size;chest_girth\n38;965\n", ":1: unknown column size;chest_girth"),
    ("size,chest_girth,chest_girth\n38,965,965\n", ":1: the column chest_girth is there twice"),
    ("size,chest_girth\n38,965,3\n", ":2: 3 cells where the header has 2"),
    ("size,chest_girth\n38,40 3/8\"\n", ":2: a quote stands inside a cell"),
    ("size,fit\n38,regular\n", ":1: there is no field among the columns"),
    ("size,chest_girth\n", "there are no sizes in it"),
    ("size,chest_girth\n,965\n", ":2: the name of a size or fit has 1 to 39 bytes"),
    ("", "the table is empty"),
])
def test_tables_that_are_refused(cli, text, sentence):
    (cli.directory / "t.csv").write_text(text)
    done = cli("grade", "t.csv")
    assert (done.returncode, done.out) == (1, "")
    assert done.err.startswith("tailorgeom: t.csv:") and sentence in done.err and done.err.count("\n") == 1


@pytest.mark.parametrize("arguments, sentence", [
    (["--sizes", "39"], "there is no size 39 of the fit regular"),
    (["--sizes", "38,38"], "38 stands twice"),
    (["--sizes", "chest_girth=1300"], "chest_girth"),
    (["--sizes", "chest_girth=13"], "chest_girth"),
    (["--sizes", "chest_grith=1013"], "did you mean chest_girth?"),
    (["--sizes", "arm_length=600"], "chest_girth"),
    (["--sizes", "38,,40"], "with commas between"),
    (["--fit", "regulra"], "did you mean regular?"),
    (["--nest", "--align", "nowhere"], "no piece has the point"),
    (["--sizes", "chest_girth=1013+,40"], "neither a size nor a measure"),
])
def test_sizes_that_are_refused(cli, arguments, sentence):
    done = cli("grade", "merrow_and_vane", *arguments)
    assert done.returncode == 1 and sentence in done.err and done.err.count("\n") == 1
    assert cli.files() == []


def test_wrong_usage_and_unknown_tables(cli):
    for arguments in (["--base"], ["--align", "nape"], ["--base", "--card", cli.card(), "--nest"]):
        assert cli("grade", "merrow_and_vane", *arguments).returncode == 2
    done = cli("grade", "merrow_and_vain")
    assert done.returncode == 1 and "did you mean merrow_and_vane?" in done.err
    assert "cannot be opened" in cli("grade", "nowhere.csv").err


# ---- a client


def test_the_nearest_size_and_what_to_change_on_it(cli):
    card = cli.card(CARD.replace("arm_length = 602", "arm_length = 602\narm_length_left = 619"))
    found = json.loads(cli.good("grade", "merrow_and_vane", "--base", "--card", card, "--json"))
    table = rows("merrow_and_vane", "regular")
    row = {name: value for name, value in table[2].items() if name not in ("size", "fit")}
    assert (found["size"], found["fit"]) == ("40", "regular")
    changes = found["changes"]
    for name, value in (("waist_girth", 890), ("seat_girth", 1010), ("arm_length", 602), ("back_width", 400)):
        assert changes.get(name, 0) == pytest.approx(value - float(row[name])), name
    assert changes["arm_length_left"] == pytest.approx(619 - float(row["arm_length"]))
    assert "neck_girth" not in changes
    text = cli.good("grade", "merrow_and_vane", "--base", "--card", card, "-o", "out")
    assert "arm_length_left = +15 mm\n" in text and "nearest in" in text and "decided by" in text
    assert cli.files("out") == ["changes.txt", "difference.pdf", "difference.svg"]
    notes = (cli.directory / "out/changes.txt").read_text().splitlines()[1:]
    assert {line.split(" = ")[0]: float(line.split(" = ")[1].split()[0]) for line in notes} == pytest.approx(changes)


def test_the_changes_are_notes_that_make_the_base_the_client(cli):
    card = cli.card(CARD.replace("buttoning = two-button", "buttoning = two-button\n[figure]\nstoop = 8"))
    found = json.loads(cli.good("grade", "merrow_and_vane", "--base", "--card", card, "--json", "-o", "."))
    row = {name: value for name, value in rows("merrow_and_vane", found["fit"])[2].items()
           if name not in ("size", "fit", "cuff_width", "lapel_width")}
    lines = "\n".join(f"{name} = {value}" for name, value in row.items())
    base = cli.card(f"[measures]\n{lines}\n[style]\nbuttoning = two-button\ncuff_width = 142\nlapel_width = 86\n",
                    "base.ini")
    cli.good("fit", base, "changes.txt", "--date", "2026-11-25", "-o", "fitted.ini")
    fitted = json.loads(cli.good("draft", "fitted.ini", "--json"))["quantities"]
    for name, value in found["client_quantities"].items():
        assert fitted[name] == pytest.approx(value, abs=1e-6), name


def test_a_client_who_is_the_size_needs_no_change(cli):
    row = {name: value for name, value in rows("merrow_and_vane", "long")[3].items()
           if name not in ("size", "fit", "cuff_width", "lapel_width")}
    card = cli.card("[measures]\n" + "\n".join(f"{name} = {value}" for name, value in row.items()) + "\n")
    found = json.loads(cli.good("grade", "merrow_and_vane", "--base", "--card", card, "--json"))
    assert (found["size"], found["fit"], found["distance"], found["changes"]) == ("42", "long", 0, {})
    assert found["base_quantities"] == found["client_quantities"]


# ---- files


def test_a_sheet_a_size_and_a_nest(cli):
    out = cli.good("grade", "merrow_and_vane", "--sizes", "38,chest_girth=1013", "-o", "sheets")
    assert cli.files("sheets") == ["38.pdf", "38.svg", "chest_girth_1013.pdf", "chest_girth_1013.svg"]
    assert out.count("wrote sheets/") == 4
    cli.good("grade", "merrow_and_vane", "--nest", "--align", "hem.start")
    assert cli.files() == ["nest.pdf", "nest.svg", "sheets"]
    text = (cli.directory / "nest.svg").read_text()
    assert "Sizes of the demo house" in text and "42, base" in text and "laid on each other at hem start" in text


def test_two_sizes_in_one_file(cli):
    (cli.directory / "t.csv").write_text("size,chest_girth\n40/1,1000\n40*1,1010\n")
    done = cli("grade", "t.csv", "-o", "out")
    assert done.returncode == 1 and "would be written to one file" in done.err and cli.files() == ["t.csv"]


@pytest.mark.parametrize("arguments", [["--nest"], ["--sizes", "40"], ["--base", "--card", "card.ini"]])
def test_what_cannot_be_written_is_told(cli, card, arguments):
    limit = lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (200, 200))  # noqa: E731
    done = cli("grade", "merrow_and_vane", *arguments, "-o", "out", preexec_fn=limit)
    assert done.returncode == 1 and done.err.endswith("cannot be written: File too large\n")
    assert cli.files("out") == []
    done = cli("grade", "merrow_and_vane", *arguments, "-o", "card.ini/out")
    assert done.returncode == 1 and done.err.startswith("tailorgeom: card.ini: cannot be made")


def test_a_full_disk(cli, card, interposed):
    done = cli("grade", "merrow_and_vane", "--nest", "-o", "out", env=interposed(1))
    assert done.returncode == 1 and "No space left on device" in done.err and cli.files("out") == []
    with open("/dev/full", "wb") as full:
        done = cli("grade", "merrow_and_vane", capture_output=False, stdout=full, stderr=subprocess.PIPE)
    assert done.returncode == 1 and "standard output: cannot be written" in done.err
