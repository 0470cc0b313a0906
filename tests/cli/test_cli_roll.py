"""How the lapel rolls: numbers beside what they rest on, a number only where there is one, the section drawn."""
import json
import re
import signal
import stat
import subprocess
import xml.etree.ElementTree as ElementTree

import pytest

CLIENT = "[client]\nname = Mr Orrin Fallowell\norder = 77\n[measures]\nchest_girth = 1016\n[style]\nbuttoning = {}\n{}"
SHEETS = ["section.pdf", "section.png", "section.svg"]
NUMBERS = ["break_stretch", "break_bending", "roll_height", "roll_radius", "lapel_lies", "bridle_tension",
           "buttonhole_ratio", "roll_class", "roll_distance", "roll_band"]
FITTED = NUMBERS[-3:]
SVG = "{http://www.w3.org/2000/svg}"


def order(cli, buttoning="three-button", more="[cloth]\ncanvas = hair-canvas\ncanvas_angle = 20\n", name="card.ini"):
    return cli.card(CLIENT.format(buttoning, more), name)


def document(cli, card, *more):
    return json.loads(cli.good("roll", card, "--json", *more))


def numbers(coat):
    return {one["name"]: one for one in coat["numbers"]}


def test_the_numbers_are_the_coats_quantities(cli):
    card = order(cli)
    found = document(cli, card)
    assert [found["format"], found["format_version"]] == ["tailorgeom-roll", 1]
    assert [coat["buttoning"] for coat in found["coats"]] == ["three-button", "roll-by-make", "roll-by-cut"]
    assert [coat["ordered"] for coat in found["coats"]] == [True, False, False]
    choices = {"lapel_lies": ["lies", "stands-off"], "roll_class": ["holds", "between", "rolls-through"]}
    for coat in found["coats"]:
        card = order(cli, coat["buttoning"])
        quantities = json.loads(cli.good("draft", card, "--json"))["quantities"]
        assert list(numbers(coat)) == NUMBERS
        for name, one in numbers(coat).items():
            value = one["value"]
            assert quantities[name] == (choices[name].index(value) + 1 if isinstance(value, str) else value)
            assert (one["why_not"] is None) == (value is not None)


def test_the_section_is_that_of_the_quantities(cli):
    """The line is the coat's own, which roll_height is read off."""
    for more in ("", "[cloth]\nlapel_set = 60\n",
                 "[cloth]\ncanvas = linen-canvas\ncanvas_angle = -45\nlapel_curl = -3\n",
                 "[house]\nlapel_set_band = 11\n"):
        found = document(cli, order(cli, more=more))
        of, section = numbers(found["coats"][0]), found["section"]
        assert section["crest_height"] == pytest.approx(of["roll_height"]["value"], rel=1e-12)
        assert section["crest_radius"] == pytest.approx(of["roll_radius"]["value"], rel=1e-12)
        assert ("lies" if section["lies"] else "stands-off") == of["lapel_lies"]["value"]
        line = section["line"]
        assert len(line) == 41 and line[0] == [0, 0]
        assert max(y for _, y in line) == pytest.approx(section["crest_height"], rel=1e-12)


def test_each_number_says_what_it_rests_on(cli):
    of = numbers(document(cli, order(cli))["coats"][0])
    assert of["break_stretch"]["law"] == of["bridle_tension"]["law"] == "sheets" and of["roll_height"]["law"] == "strip"
    assert {of[name]["law"] for name in FITTED} == {"fitted"}
    assert of["break_stretch"]["assumed"] == ["cloth", "padding"]
    assert of["break_stretch"]["by_name"] == ["canvas"] and of["break_stretch"]["given"] == ["canvas angle"]
    card = order(cli, more="bridle_drawn_in = 3\n[cloth]\ncanvas = hair-canvas\ncanvas_shear = 90\ncloth_weight = 300\n"
                           "bridle_stiffness = 200\n[house]\nhang_load = 1.5\n")
    found = document(cli, card)
    tension = numbers(found["coats"][0])["bridle_tension"]
    assert tension["assumed"] == ["cloth", "canvas angle", "padding"]
    assert tension["by_name"] == ["canvas"]
    assert tension["given"] == ["cloth", "canvas", "bridle", "bridle drawn in", "hang load"]
    assert found["cloths"]["cloth"] is None and found["cloths"]["canvas"]["name"] == "hair-canvas"
    text = " ".join(cli.good("roll", card).split())
    assert "assumed: cloth in part, canvas angle, padding; by name: canvas in part hair-canvas (judgement)" in text


def test_it_says_what_no_coat_has_confirmed(cli):
    text = " ".join(cli.good("roll", order(cli)).split())
    assert "a law fitted to a simulation, no real coat has confirmed it" in text
    assert text.endswith("no real coat has confirmed the millimetres.")
    assert "bias" not in text  # the study found that the angle alone does not roll a lapel
    assert re.search(r"where it turns \d+ mm (above|below) the drawn break, give or take 1[28] as above", text)


def test_lines_fit(cli):
    for buttoning in ("one-button", "three-button", "double-six"):
        lines = cli.good("roll", order(cli, buttoning)).splitlines()
        assert all(len(line) <= 110 for line in lines if not line.startswith("caution: "))  # one line each, as messages


def test_soft_bridle_rolls_through_and_says_how_far(cli):
    card = order(cli, more="bridle_drawn_in = 0\n[cloth]\nbridle_stiffness = 0\nhole_stiffness = 0\n")
    of = numbers(document(cli, card)["coats"][0])
    assert of["roll_class"]["value"] == "rolls-through" and of["roll_distance"]["value"] > 20
    mm = round(of["roll_distance"]["value"])
    assert f"{mm} mm below the drawn break, give or take {of['roll_band']['value']:.0f}\n" in cli.good("roll", card)
    assert " in below the drawn break" in cli.good("roll", card, "--print", "in")


def test_out_of_range_has_a_reason_and_no_number(cli):
    card = order(cli, more="button_spacing = 120\n")
    of = numbers(document(cli, card)["coats"][0])
    why = "the button spacing is 120 mm; the law speaks of 95 to 115 mm"
    assert {of[name]["value"] for name in FITTED} == {None} and {of[name]["why_not"] for name in FITTED} == {why}
    assert of["bridle_tension"]["value"] > 0
    text = cli.good("roll", card)
    assert f"where it turns\n    no number: {why}\n" in text and "give or take" not in text


@pytest.mark.parametrize("buttoning", ["one-button", "two-button", "roll-by-cut", "double-four"])
def test_nothing_to_roll_through(cli, buttoning):
    coats = document(cli, order(cli, buttoning))["coats"]
    of = numbers(coats[0])
    assert {of[name]["value"] for name in NUMBERS[5:]} == {None}
    assert {of[name]["why_not"] for name in NUMBERS[5:]} == {
        "the lapel breaks at the fastened button: there is nothing to roll through"}
    assert of["break_stretch"]["value"] > 0 and numbers(coats[1])["roll_class"]["value"]
    assert len({coat["buttoning"] for coat in coats}) == len(coats)


def test_an_order_that_is_refused(cli):
    done = cli("roll", order(cli, more="[cloth]\nlapel_set = 400\n"), "--section", "-o", "new")
    assert (done.returncode, done.out) == (1, "") and done.err.startswith("tailorgeom: card.ini:9: lapel_set 400 deg")
    assert cli.files() == ["card.ini"]


# ---- the section


def texts(path):
    return ["".join(node.itertext()) for node in ElementTree.parse(path).iter(f"{SVG}text")]


def test_the_section_is_drawn(cli):
    card = order(cli)
    out = cli.good("roll", card, "--section", "-o", "sheets")
    assert cli.files("sheets") == SHEETS
    for name in SHEETS:
        assert f"wrote sheets/{name}\n" in out
    section = document(cli, card)["section"]
    found = texts(cli.directory / "sheets/section.svg")
    assert "Section of the roll: Mr Orrin Fallowell, order 77 - for toile only" in found
    height, radius = (f"{round(section[name], 1):g} mm" for name in ("crest_height", "crest_radius"))
    assert {height, f"radius {radius}", "crest", "lapel", "forepart", "chest", "edge, lying on the chest"} <= set(found)
    assert any("hair-canvas (judgement)" in text for text in found)
    cli.good("roll", card, "--section")
    for name in SHEETS:
        assert (cli.directory / name).read_bytes() == (cli.directory / "sheets" / name).read_bytes()


def test_standing_off_is_dimensioned(cli):
    card = order(cli, more="lapel_width = 62\n[cloth]\ncanvas = linen-canvas\nlapel_set = 120\nlapel_curl = -5\n"
                           "chest_lean = 5\n")
    cli.good("roll", card, "--section")
    section, found = document(cli, card)["section"], texts(cli.directory / "section.svg")
    assert not section["lies"]
    assert {"stands off", "edge, standing off", f"{round(section['edge_height'], 1):g} mm"} <= set(found)


def test_black_and_white(cli):
    cli.good("roll", order(cli), "--section")
    colours = set(re.findall(r'(?:stroke|fill)="?:?([^";]+)', (cli.directory / "section.svg").read_text()))
    for colour in colours - {"none"}:
        grey = re.fullmatch(r"#(..)(..)(..)", colour)
        assert not colour.startswith("#") or (grey and len(set(grey.groups())) == 1), colours


def test_json_and_section_together(cli):
    card = order(cli)
    assert document(cli, card, "--section", "-o", "sheets") == document(cli, card)
    assert cli.files("sheets") == SHEETS


def test_json_round_trip(cli):
    card = order(cli)
    text = cli.good("roll", card, "--json")
    assert json.dumps(json.loads(text)) == json.dumps(json.loads(cli.good("roll", card, "--json")))
    height = numbers(json.loads(text)["coats"][0])["roll_height"]["value"]
    assert height == json.loads(cli.good("draft", card, "--json"))["quantities"]["roll_height"]


def test_wrong_usage(cli):
    card = order(cli)
    done = cli("roll", card, "-o", "sheets")
    assert (done.returncode, done.err) == (2, "tailorgeom: -o is where the section is drawn: add --section\n")
    assert cli("roll").returncode == 2 and cli.files() == ["card.ini"]


@pytest.mark.parametrize("nth", [1, 2, 3])
def test_full_disk(cli, interposed, nth):
    card = order(cli)
    cli.good("roll", card, "--section")
    before = {name: (cli.directory / name).read_bytes() for name in SHEETS}
    order(cli, more="[cloth]\nlapel_set = 100\n")
    done = cli("roll", card, "--section", env=interposed(nth))
    name = ["section.svg", "section.pdf", "section.png"][nth - 1]
    assert (done.returncode, done.out) == (1, "")
    assert done.err == f"tailorgeom: {name}: cannot be written: No space left on device\n"
    assert before == {name: (cli.directory / name).read_bytes() for name in SHEETS}
    done = cli("roll", card, "--section", env=interposed(nth, signal.SIGTERM))
    assert done.returncode == -signal.SIGTERM and cli.files() == sorted([card, *SHEETS])


def test_a_place_that_cannot_be_written(cli):
    card = order(cli)
    done = cli("roll", card, "--section", "-o", card)
    assert done.returncode == 1 and done.err.startswith("tailorgeom: card.ini")
    assert stat.S_ISREG((cli.directory / card).stat().st_mode)


@pytest.mark.parametrize("arguments", [["roll", "card.ini"], ["roll", "card.ini", "--json"]])
def test_standard_output_that_is_full(cli, arguments):
    order(cli)
    with open("/dev/full", "wb") as full:
        done = cli(*arguments, capture_output=False, stdout=full, stderr=subprocess.PIPE)
    assert done.returncode == 1
    assert done.err == "tailorgeom: standard output: cannot be written: No space left on device\n"
