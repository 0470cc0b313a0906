"""Outlines taken from drawings, and pattern files graded by rules. What an outline encloses is asked of librsvg, which
draws the same file."""
import json
import subprocess

import numpy as np
import pytest
import shapely.geometry
from PIL import Image

from client_card import CARD

DRAWING = """<?xml version="1.0"?>
<!DOCTYPE svg>
<svg xmlns="http://www.w3.org/2000/svg" width="30cm" height="20cm" viewBox="0 0 150 100">
<title>two > pieces</title><!-- <path d="M0 0"/> -->
<style>path { fill: black } </style>
<path id="flap" d="M5,5 h80 v25 C 85,40 75,40 70,40 L15,40 Q5,40 5,30 z"/>
<g fill='black'><path
  d='M 100 5 l 40 0 0,40Z'/></g>
</svg>
"""


@pytest.fixture
def imported(cli):
    (cli.directory / "t.svg").write_text(DRAWING)
    return json.loads(cli.good("import", "t.svg"))


def ring(piece, each=200):
    t = np.linspace(0, 1, each, endpoint=False)[:, None]
    weights = (1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3
    return np.vstack([sum(w * np.array(p) for w, p in zip(weights, cubic)) for cubic in piece["outline"]])


def test_outlines_are_those_that_librsvg_draws(cli, imported):
    flap, other = imported["pieces"]
    assert (flap["name"], other["name"]) == ("flap", "piece_2")
    subprocess.run(["rsvg-convert", "-w", "1500", "-b", "white", "t.svg", "-o", "t.png"], cwd=cli.directory, check=True)
    dark = np.asarray(Image.open(cli.directory / "t.png").convert("L")) < 128
    per_mm = 1500 / 300
    for piece, columns in ((flap, slice(0, 900)), (other, slice(900, None))):
        shape = shapely.geometry.Polygon(ring(piece))
        assert shape.exterior.is_ccw and shape.is_valid
        assert dark[:, columns].sum() / per_mm**2 == pytest.approx(shape.area, rel=0.005)
    left, low, right, high = shapely.geometry.Polygon(ring(flap)).bounds
    rows, columns = np.nonzero(dark[:, :900])
    assert [left, right] == pytest.approx([columns.min() / per_mm, (columns.max() + 1) / per_mm], abs=0.3)
    assert [high, low] == pytest.approx([200 - rows.min() / per_mm, 200 - (rows.max() + 1) / per_mm], abs=0.3)


def test_edges_begin_at_corners(imported):
    flap, other = imported["pieces"]
    assert [edge["name"] for edge in other["edges"]] == ["edge_1", "edge_2", "edge_3"]
    assert [(p["name"], p["x"], p["y"]) for p in other["points"]] == [
        ("corner_1", 200, 190), ("corner_2", 280, 110), ("corner_3", 280, 190)]
    assert len(flap["edges"]) == 2  # Q and C run on into their neighbours
    for piece in (flap, other):
        for edge, point in zip(piece["edges"], piece["points"]):
            assert piece["outline"][edge["first"]][0] == [point["x"], point["y"]]


def test_a_pattern_file_is_written(cli, imported):
    assert cli.good("import", "t.svg", "-o", "t.json") == "wrote t.json\n"
    assert json.loads((cli.directory / "t.json").read_text()) == imported


@pytest.mark.parametrize("old, new, sentence", [
    ('width="30cm"', 'width="300"', ":3: the width of the svg element is in mm, cm or in"),
    ('width="30cm" ', "", ":3: the svg element needs a width"),
    ('viewBox="0 0 150 100"', 'viewBox="0 0 150"', ":3: a viewBox is four numbers"),
    ("<g fill", '<g transform="scale(2)" fill', ":7: a transform"),
    ("<g fill='black'>", "<rect width='3' height='3'/>", ":7: rect: outlines are taken from paths only"),
    ("Q5,40 5,30 z", "A 5 5 0 0 0 5 30 z", ":6: a path is made of M, L, H, V, C, Q and Z"),
    ("5,30 z", "5,30", ":6: a path is not closed"),
    ("5,30 z", "5,30 z M 1 1 L 2 2 3 1 Z", ":6: a path is one closed outline"),
    ("h80 v25", "h80 v", ":6: a number is missing"),
    ("M5,5 h80", "h80", ":6: a path is one closed outline: M stands at its beginning"),
    ('id="flap"', 'id="Flap"', ":6: "),
    ('id="flap"', 'id="piece_2"', ":7: "),
    ("40 0 0,40Z", "40 0 Z", ""),
    ("--> ", "", ""),
])
def test_drawings_that_are_refused(cli, old, new, sentence):
    assert old in DRAWING or old == "--> "
    text = DRAWING.replace(old, new, 1) if old in DRAWING else "<svg><!-- "
    (cli.directory / "t.svg").write_text(text)
    done = cli("import", "t.svg", "-o", "t.json")
    assert (done.returncode, done.out) == (1, "")
    assert done.err.startswith("tailorgeom: t.svg:") and sentence in done.err and done.err.count("\n") == 1
    assert cli.files() == ["t.svg"]


def test_no_drawing_at_all(cli):
    for text in (b"", b"<svg", b"\0", b"<path", b"<svg width='1mm' viewBox='0 0 1 1'><path d=", b"<" * 4000):
        (cli.directory / "t.svg").write_bytes(text)
        assert cli("import", "t.svg").returncode == 1
    assert "cannot be opened" in cli("import", "nowhere.svg").err
    assert cli("import").returncode == 2


def test_every_cut_of_a_drawing_ends_well(cli):
    """A file torn anywhere is refused or read, never worse."""
    for at in range(40, len(DRAWING), 7):
        (cli.directory / "t.svg").write_text(DRAWING[:at])
        done = cli("import", "t.svg")
        assert done.returncode in (0, 1) and (done.returncode == 0) == (done.err == "")


# ---- rules


RULES = "piece,point,dx,dy\nflap,corner_1,0,0\nflap,corner_2,4,0\npiece_2,corner_1,1,2\n"


@pytest.fixture
def ruled(cli, imported):
    (cli.directory / "t.json").write_text(json.dumps(imported))
    (cli.directory / "r.csv").write_text(RULES)
    return imported


def test_rules_move_the_points_that_they_name(cli, ruled):
    sizes = json.loads(cli.good("grade", "t.json", "--rules", "r.csv", "--sizes=-1,0,2.5", "--json"))["sizes"]
    for step, size in zip((-1, 0, 2.5), sizes):
        for piece, base, moves in ((0, ruled["pieces"][0], [(0, 0), (4, 0)]),
                                   (1, ruled["pieces"][1], [(1, 2)] * 3)):
            for point, old, (dx, dy) in zip(size["pieces"][piece]["points"], base["points"], moves):
                assert (point["x"], point["y"]) == pytest.approx((old["x"] + step * dx, old["y"] + step * dy), abs=1e-9)
    assert [piece["outline"] for piece in sizes[1]["pieces"]] == [piece["outline"] for piece in ruled["pieces"]]


def test_rules_of_two_axes_and_a_nest(cli, ruled):
    (cli.directory / "r.csv").write_text("piece,point,dx,dy,axis\nflap,corner_1,2,0,1\nflap,corner_1,0,3,2\n")
    size, = json.loads(cli.good("grade", "t.json", "--rules", "r.csv", "--sizes", "1:2", "--json"))["sizes"]
    old, new = (pieces[0]["points"][0] for pieces in (ruled["pieces"], size["pieces"]))
    assert (new["x"] - old["x"], new["y"] - old["y"]) == pytest.approx((2, 6))
    cli.good("grade", "t.json", "--rules", "r.csv", "--sizes", "0:0,1:0,0:1", "--nest", "-o", "out")
    assert cli.files("out") == ["nest.pdf", "nest.svg"]


def test_a_drafted_coat_by_rules_keeps_its_seams(cli):
    (cli.directory / "coat.json").write_text(cli.good("draft", cli.card(CARD), "--json"))
    rules = "piece,point,dx,dy\nback,nape,0,0\nback,shoulder_end,3,1\nback,hem.start,0,-5\n"
    (cli.directory / "r.csv").write_text(rules)
    drafted = json.loads((cli.directory / "coat.json").read_text())
    base, wide = json.loads(cli.good("grade", "coat.json", "--rules", "r.csv", "--sizes", "0,1", "--json"))["sizes"]
    assert all((size["edition"], size["style"]) == (drafted["edition"], drafted["style"]) for size in (base, wide))
    lengths = [{(p["name"], e["name"]): e["length"] for p in size["pieces"] for e in p["edges"]}
               for size in (base, wide)]
    assert lengths[1]["back", "shoulder"] > lengths[0]["back", "shoulder"] + 0.3  # shared with the other side
    shoulder, = (seam for seam in wide["seams"] if seam["name"] == "shoulder")
    first, second = (sum(abs(s["to"] - s["from"]) for s in shoulder[side]) for side in "ab")
    assert first - second == pytest.approx(8, abs=0.01)


@pytest.mark.parametrize("text, sentence", [
    ("piece,point,dx,dy\nflap,corner_1,0,0\nflap,nose,1,1\n", ":3: "),
    ("piece,point,dx,dy\nnose,corner_1,0,0\n", ":2: "),
    ("piece,point,dx,dy\nflap,corner_1,0,x\n", ":2: dx and dy are numbers"),
    ("piece,point,dx,dy\nflap,corner_1,0,0\nflap,corner_1,0,1\n", ":3: corner_1 of flap has a rule already"),
    ("piece,point,dx,dy\nflap,corner_1,0,0\nflap,edge_1.start,0,1\n", "r.csv:"),
    ("piece,point,dx\nflap,corner_1,0\n", ":1: there is no column dy"),
    ("piece,point,dx,dy,axis\nflap,corner_1,0,0,0\n", ":2: axis is a whole number from 1 to 8"),
    ("piece,point,dx,dy\nflap,corner_1,0\n", ":2: 3 cells where the header has 4"),
    ("piece,point,dx,dy\n", "there are no rules in it"),
    ("", "there are no rules in it"),
])
def test_rules_that_are_refused(cli, ruled, text, sentence):
    (cli.directory / "r.csv").write_text(text)
    done = cli("grade", "t.json", "--rules", "r.csv", "--sizes", "1")
    assert (done.returncode, done.out) == (1, "")
    assert done.err.startswith("tailorgeom: r.csv:") and sentence in done.err and done.err.count("\n") == 1


def test_steps_that_are_refused(cli, ruled):
    for steps in ("1:1", "x", "1,,2", "0x1", "1e9", ""):
        done = cli("grade", "t.json", "--rules", "r.csv", f"--sizes={steps}")
        assert done.returncode == 1 and done.err.count("\n") == 1, steps
    assert cli("grade", "t.json", "--rules", "r.csv", "--fit", "short").returncode == 2
    assert cli("grade", "t.svg", "--rules", "r.csv").returncode == 1
