"""Cloths by name: the list, one of them whole, on cards, in tables, in comparisons, from a file of one's own."""
import csv
import io
import json
import math
import os
import pathlib
import shutil
import subprocess
import sys

import pytest

ROOT = pathlib.Path(__file__).resolve().parents[2]
TABLE = list(csv.DictReader(open(ROOT / "shared/cloths.csv", encoding="utf-8")))
PROPERTIES = [row["name"] for row in csv.DictReader(open(ROOT / "lib/cloth/properties.csv", encoding="utf-8"))]
HEAD = ",".join(["name", *PROPERTIES]) + "\n"
MINE = "mine,210,8100,12100,101,0.06,31,251,9,0.52\n"
CLIENT = "[measures]\nchest_girth = 1016\n[style]\nbuttoning = three-button\n"


def fields(cli, card, *more):
    return json.loads(cli.good("draft", card, "--json", *more))["fields"]


def canvas(cli, card, *more):
    found = fields(cli, card, *more)
    return {name: found[f"canvas_{name}"]["value"] for name in PROPERTIES}


def numbers(name):
    return {key: float(row[key]) for row in TABLE if row["name"] == name for key in PROPERTIES}


# ---- the table


def test_the_generated_tables_are_those_of_the_csv():
    done = subprocess.run([sys.executable, ROOT / "cli/generate_cloths.py", "--check"])
    assert done.returncode == 0, "run cli/generate_cloths.py"


def test_a_generator_that_finds_a_mistake_writes_nothing(tmp_path):
    for name in ("cli/generate_cloths.py", "shared/cloths.csv", "lib/cloth/properties.csv"):
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        shutil.copy(ROOT / name, tmp_path / name)
    text = (tmp_path / "shared/cloths.csv").read_text()
    (tmp_path / "shared/cloths.csv").write_text(text.replace("hair-canvas,canvas,200", "hair canvas,canvas,2e2"))
    done = subprocess.run([sys.executable, tmp_path / "cli/generate_cloths.py"], capture_output=True, text=True)
    assert done.returncode == 2 and done.stderr.count("cloths.csv:7:") == 2
    assert not (tmp_path / "cli/cloth_tables.c").exists()


def test_list_has_every_cloth_in_a_line(cli):
    lines = cli.good("cloth", "list").splitlines()
    assert [line.split()[0] for line in lines[2:-1]] == [row["name"] for row in TABLE]
    for line, row in zip(lines[2:], TABLE):
        assert f" {row['weight']} " in line and f"{row['bending_warp']}/{row['bending_weft']}" in line
        assert row["source"][:40] in line
    assert all(len(line) <= 120 for line in lines)


def test_list_as_json_is_the_csv(cli):
    document = json.loads(cli.good("cloth", "list", "--json"))
    assert [document["format"], document["format_version"]] == ["tailorgeom-cloths", 1]
    for found, row in zip(document["cloths"], TABLE, strict=True):
        assert [found[key] for key in ("name", "use", "source", "from")] == [row["name"], row["use"], row["source"],
                                                                           "tailorgeom"]
        assert found["properties"] == {key: float(row[key]) for key in PROPERTIES}


# ---- one of them


def along(row, angle):
    """Stretch (Jones) and bending (Cooper) at an angle off the warp, by the formulas of the books."""
    c, s = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    e1, e2, g, v = (float(row[key]) for key in ("stretch_warp", "stretch_weft", "shear", "contraction"))
    b1, b2, bt = (float(row[key]) for key in ("bending_warp", "bending_weft", "twist"))
    stretch = 1 / (c**4 / e1 + s**4 / e2 + (1 / g - 2 * v / e1) * s * s * c * c)
    return stretch, c**4 * b1 + s**4 * b2 + 4 * bt * s * s * c * c


@pytest.mark.parametrize("row", TABLE, ids=[row["name"] for row in TABLE])
def test_show_along_its_lines(cli, row):
    document = json.loads(cli.good("cloth", "show", row["name"], "--json"))
    assert [line["angle"] for line in document["along"]] == list(range(0, 91, 15))
    finest = []
    for line in document["along"]:
        stretch, bending = along(row, line["angle"])
        length = 1000 * (bending * 1e-6 / (float(row["weight"]) * 1e-3 * 9.80665)) ** (1 / 3)
        assert line["stretch"] == pytest.approx(stretch, rel=1e-12)
        assert line["bending"] == pytest.approx(bending, rel=1e-12)
        assert line["bending_length"] == pytest.approx(length, rel=2e-4)
        assert line["overhang"] == 2 * line["bending_length"]  # ASTM D1388, BS 3356: the slope of 41.5 degrees
        finest.append(stretch)
    greatest = document["greatest_stretch"]
    assert greatest["stretch"] <= min(finest) * (1 + 1e-9)
    sweep = [along(row, i / 100)[0] for i in range(9001)]
    assert greatest["angle"] == pytest.approx(sweep.index(min(sweep)) / 100, abs=0.02)


def test_show_tells_units_and_where_the_numbers_come_from(cli):
    text = cli.good("cloth", "show", "hair-canvas")
    for name, unit in (("weight", "g/m2"), ("shear", "N/m"), ("bending_weft", "uN.m"), ("thickness", "mm")):
        assert any(line.split()[0] == name and line.split()[2] == unit for line in text.splitlines()[1:10])
    assert "no measured hair canvas was found" in text and "greatest stretch at 44.9 deg" in text
    assert all(len(line) <= 120 for line in text.splitlines())


@pytest.mark.parametrize("arguments, code, sentence", [
    (["cloth"], 2, "cloth needs list|show [NAME]"),
    (["cloth", "shew"], 2, "cloth takes list, or show and a name, not shew"),
    (["cloth", "show"], 2, "cloth show needs a name"),
    (["cloth", "list", "hair-canvas"], 2, "cloth list takes no name"),
    (["cloth", "show", "a", "b"], 2, "one [NAME] too many: b"),
    (["cloth", "show", "hair-canvs"], 1, "hair-canvs: there is no cloth of this name: did you mean hair-canvas?"),
    (["cloth", "show", "qqqqqqqq"], 1, "qqqqqqqq: there is no cloth of this name; `tailorgeom cloth list` shows them"),
    (["cloth", "list", "--cloths", "gone.csv"], 1, "gone.csv: cannot be opened: No such file or directory"),
])
def test_refusals(cli, arguments, code, sentence):
    done = cli(*arguments)
    assert (done.returncode, done.out) == (code, "")
    assert done.err.splitlines()[0].startswith(f"tailorgeom: {sentence}")


# ---- on a card


def test_a_name_fills_the_fields_of_its_place(cli):
    card = cli.card(CLIENT + "[cloth]\ncanvas = hair-canvas\ncloth = open-tweed\n")
    found = fields(cli, card)
    for place, name in (("canvas", "hair-canvas"), ("cloth", "open-tweed")):
        for key, value in numbers(name).items():
            assert found[f"{place}_{key}"] == {"value": value, "origin": "client"}
    typed = "".join(f"{place}_{key} = {value:f}\n"
                    for place, name in (("canvas", "hair-canvas"), ("cloth", "open-tweed"))
                    for key, value in numbers(name).items())
    assert fields(cli, cli.card(CLIENT + "[cloth]\n" + typed, "typed.ini")) == found


@pytest.mark.parametrize("order", [["canvas = hair-canvas", "canvas_shear = 77"],
                                   ["canvas_shear = 77", "canvas = hair-canvas"]])
def test_a_field_of_the_card_goes_before_a_name(cli, order):
    card = cli.card(CLIENT + "[cloth]\n" + "\n".join(order) + "\n")
    assert canvas(cli, card) == {**numbers("hair-canvas"), "shear": 77}


def test_the_house_may_name_it(cli):
    house = cli.card("[house]\ncanvas = linen-canvas\ncanvas_twist = 14\n", "house.ini")
    plain = cli.card(CLIENT)
    assert canvas(cli, plain, "--house", house) == {**numbers("linen-canvas"), "twist": 14}
    assert fields(cli, plain, "--house", house)["canvas_shear"]["origin"] == "house"
    own = cli.card(CLIENT + "[house]\ncanvas = soft-canvas\n", "own.ini")  # over the file's, not its fields
    assert canvas(cli, own, "--house", house) == {**numbers("soft-canvas"), "twist": 14}
    named = cli.card(CLIENT + "[cloth]\ncanvas = hair-canvas\n", "named.ini")
    assert canvas(cli, named, "--house", house) == numbers("hair-canvas")


def test_a_resolved_card_is_the_same_coat(cli):
    card = cli.card(CLIENT + "[cloth]\ncanvas = hair-canvas\n")
    again = cli.card(cli.good("check", card, "--resolved"), "again.ini")
    assert cli.good("draft", card, "--json") == cli.good("draft", again, "--json")


@pytest.mark.parametrize("lines, sentence", [
    ("[cloth]\ncanvas = hair-canvs\n",
     "card.ini:6: canvas: there is no cloth of this name: did you mean hair-canvas? (typed: hair-canvs)"),
    ("[figure]\ncanvas = hair-canvas\n", "card.ini:6: canvas stands in [figure]; it belongs in [cloth]"),
    ("[cloth]\ncanvas = hair-canvas\ncanvas = soft-canvas\n", "card.ini:7: canvas stands already on line 6"),
    ("[cloth]\ncloth = light-fusible\n", "card.ini:6: cloth_weight 65 g/m2 is too small: 180 to 700 g/m2 is allowed"),
])
def test_names_that_are_refused(cli, lines, sentence):
    done = cli("draft", cli.card(CLIENT + lines))
    assert done.returncode == 1 and done.out == ""
    assert done.err.startswith(f"tailorgeom: {sentence}")
    assert cli.files() == ["card.ini"]


# ---- a file of one's own


def test_a_file_of_ones_own(cli):
    cli.card("\ufeff" + HEAD.replace("name", "maker,name", 1).replace("\n", ",source\r\n")
             + "A,mine,210,8100,12100,101,0.06,31,251,9,0.52,\"measured: strips, 2026\"\r\n"
             + "A,hair-canvas,211,8100,12100,101,0.06,31,251,9,0.52,\r\n", "cloths.csv")
    listed = json.loads(cli.good("cloth", "list", "--json", "--cloths", "cloths.csv"))["cloths"]
    assert [one["name"] for one in listed] == ["mine", "hair-canvas", *(r["name"] for r in TABLE
                                                                        if r["name"] != "hair-canvas")]
    assert listed[0]["source"] == "measured: strips, 2026" and listed[0]["from"] == "cloths.csv"
    assert "measured: strips" in cli.good("cloth", "show", "mine", "--cloths", "cloths.csv")
    card = cli.card(CLIENT + "[cloth]\ncanvas = mine\n")
    assert canvas(cli, card, "--cloths", "cloths.csv") == listed[0]["properties"]
    assert cli("draft", card).returncode == 1
    card = cli.card(CLIENT + "[cloth]\ncanvas = hair-canvas\n")
    assert canvas(cli, card, "--cloths", "cloths.csv")["weight"] == 211
    for command in ("check", "compare", "roll"):
        assert cli.good(command, card, "--cloths", "cloths.csv")


@pytest.mark.parametrize("text, sentence", [
    ("", "holds nothing"),
    ("name,weight\nx,200\n", "1: there is no column stretch_warp"),
    (HEAD.replace("name", "nane"), "1: there is no column name"),
    (HEAD.replace("twist", "shear"), "1: column 9: shear stands already"),
    (HEAD + MINE + MINE, "3: column 1: this name stands already: mine"),
    (HEAD + MINE.replace("mine", ""), "2: column 1: a cloth has a name"),
    (HEAD + "mine,210\n", "2: 2 cells, but the header has 10"),
    (HEAD + MINE.replace("0.06", '"0,06"'),
     "2: column 6: contraction is a plain number in ratio, with a point (typed: 0,06)"),
    (HEAD + MINE.replace("8100", ""), "2: column 3: stretch_warp is a plain number in N/m, with a point"),
    (HEAD + MINE.replace("8100", "nan"), "2: column 3: stretch_warp is a plain number"),
    (HEAD + MINE.replace("8100", "1.2.3"), "2: column 3: stretch_warp is a plain number"),
    (HEAD + MINE.replace("8100", "0x10"), "2: column 3: stretch_warp is a plain number"),
    (HEAD + MINE.replace("210", "2"), "2: column 2: weight of a cloth is 2 g/m2: 20 to 2000 g/m2 is allowed"),
    (HEAD + MINE.replace("210", '2"10'), "2: column 7: a quote stands inside a cell"),
    (HEAD + '"mine', "2: column 1: a quote is opened here and never closed"),
])
def test_a_file_that_is_refused(cli, text, sentence):
    cli.card(text, "cloths.csv")
    done = cli("cloth", "list", "--cloths", "cloths.csv")
    assert (done.returncode, done.out) == (1, "")
    assert done.err.startswith(f"tailorgeom: cloths.csv:{'' if sentence[0].isdigit() else ' '}{sentence}"), done.err
    assert done.err.count("\n") == 1


# ---- in tables and comparisons


def table(text):
    return list(csv.DictReader(io.StringIO(text)))


def test_columns_of_names(cli):
    cli.card("id,canvas,chest_girth,cloth,canvas_weight\na,hair-canvas,1016,,180\nb,,1016,open-tweed,\n"
             "c,hair-canvs,1016,,\nd,,1016,light-fusible,\n", "in.csv")
    done = cli("rows", "in.csv", "--want", "break_bending,break_stretch")
    found = table(done.out)
    assert done.returncode == 1 and list(found[0]) == ["id", "break_bending", "break_stretch", "cautions", "status",
                                                          "message"]
    assert [row["status"] for row in found] == ["TAILOR_OK", "TAILOR_OK", "TAILOR_NOT_A_CHOICE", "TAILOR_OUT_OF_RANGE"]
    assert found[2]["message"] == ("there is no cloth of this name: did you mean hair-canvas? (typed: hair-canvs)")
    assert found[3]["message"].startswith("cloth_weight 65 g/m2 is too small")
    for row, lines in ((found[0], "canvas = hair-canvas\ncanvas_weight = 180\n"), (found[1], "cloth = open-tweed\n")):
        card = cli.card("[measures]\nchest_girth = 1016\n[cloth]\n" + lines)
        quantities = json.loads(cli.good("draft", card, "--json"))["quantities"]
        assert [float(row[name]) for name in ("break_bending", "break_stretch")] == \
            [quantities[name] for name in ("break_bending", "break_stretch")]


def test_columns_of_names_are_refused_when_twice(cli):
    cli.card("canvas,chest_girth,canvas\nhair-canvas,1016,\n", "in.csv")
    done = cli("rows", "in.csv")
    assert done.err == "tailorgeom: in.csv:1: column 3, canvas: there is a column of this name already\n"


def test_a_house_and_a_file_for_a_table(cli):
    cli.card(HEAD + MINE, "cloths.csv")
    house = cli.card("[house]\ncanvas = mine\n", "house.ini")
    cli.card("chest_girth\n1016\n", "in.csv")
    cli.card("chest_girth,canvas\n1016,mine\n", "named.csv")
    want = ["--want", "break_bending,roll_class", "--cloths", "cloths.csv"]
    assert cli.good("rows", "in.csv", *want, "--house", house) == cli.good("rows", "named.csv", *want)
    assert cli.good("rows", "in.csv", *want) != cli.good("rows", "named.csv", *want)


def test_resuming_with_other_cloths_is_refused(cli):
    cli.card(HEAD + MINE, "cloths.csv")
    cli.card("chest_girth,canvas\n" + "1016,mine\n" * 40000, "in.csv")
    run = ["rows", "in.csv", "--want", "break_bending", "-o", "out.csv", "--cloths", "cloths.csv"]
    process = subprocess.Popen([cli.path, *run], cwd=cli.directory)
    part = cli.directory / "out.csv.part"
    while not (cli.directory / "out.csv.state").exists() or part.stat().st_size < 5000:
        assert process.poll() is None
    process.kill()
    process.wait()
    cli.card(HEAD + MINE.replace("251", "252"), "cloths.csv")
    done = cli(*run, "--resume")
    assert done.returncode == 1 and "or other cloths" in done.err


def test_compare_by_names(cli):
    card = cli.card(CLIENT + "[cloth]\ncanvas_weight = 300\n")
    document = json.loads(cli.good("compare", card, "--by", "canvas=soft-canvas,hair-canvas", "--json"))
    assert document["by"] == ["canvas"]
    for row in document["rows"]:
        alone = cli.card(CLIENT + f"[cloth]\ncanvas = {row['canvas']}\n", "alone.ini")
        assert row["quantities"] == json.loads(cli.good("draft", alone, "--json"))["quantities"]
    assert "hair-canvas" in cli.good("compare", card, "--by", "canvas=soft-canvas,hair-canvas").splitlines()[0]
    done = cli("compare", card, "--by", "canvas=soft-canvs")
    assert done.returncode == 2 and "did you mean soft-canvas?" in done.err
    done = cli("compare", card, "--by", "cloth=light-fusible,open-tweed")
    assert done.returncode == 1 and done.err.startswith("tailorgeom: --by: light-fusible: cloth_weight 65 g/m2")


# ---- wherever it is


def test_it_works_installed_and_moved(cli, tmp_path):
    """The cloths are in the program: neither a file beside it nor the tree is needed."""
    build = pathlib.Path(os.environ.get("TAILOR_BUILD", cli.path.parents[1]))
    top = tmp_path / "top"
    subprocess.run(["meson", "install", "-C", build, "--no-rebuild", "--quiet"], check=True,
                   env={**os.environ, "DESTDIR": str(top)}, stdout=subprocess.DEVNULL)
    program, = top.rglob("bin/tailorgeom")
    library = next(top.rglob("libtailorgeom.so")).parent
    done = subprocess.run([program, "cloth", "list"], cwd=tmp_path, capture_output=True, text=True,
                          env={**os.environ, "LD_LIBRARY_PATH": str(library)})
    assert (done.returncode, done.stderr) == (0, "") and done.stdout == cli.good("cloth", "list")


@pytest.mark.parametrize("arguments", [["cloth", "list"], ["cloth", "list", "--json"], ["cloth", "show", "hair-canvas"],
                                       ["cloth", "show", "hair-canvas", "--json"]])
def test_standard_output_that_is_full(cli, arguments):
    with open("/dev/full", "wb") as full:
        done = cli(*arguments, capture_output=False, stdout=full, stderr=subprocess.PIPE)
    assert done.returncode == 1
    assert done.err == "tailorgeom: standard output: cannot be written: No space left on device\n"
