"""The JSON documents: structure, order, exact numbers."""
import json
import math
import re

import numpy
import pytest

from client_card import CARD

REAL = re.compile(r"-?\d+\.\d+(?:e[+-]?\d+)?|-?\d+e[+-]?\d+")


def names(cli, table):
    return [row["name"] for row in json.loads(cli.good("list", table, "--json"))["rows"]]


@pytest.fixture
def document(cli, card):
    return json.loads(cli.good("draft", card, "--json"))


def test_members_in_order(document):
    assert list(document) == ["format", "format_version", "edition", "style", "for_toile", "fields", "constants",
                              "toile_only", "cautions", "quantities", "checks", "pieces", "seams"]
    assert (document["format"], document["format_version"], document["edition"]) == ("tailorgeom-pattern", 2, 1)
    assert document["for_toile"] is bool(document["toile_only"])


def test_rows_are_in_the_order_of_the_tables(cli, document):
    assert list(document["fields"]) == names(cli, "fields")
    assert list(document["constants"]) == names(cli, "constants")
    assert list(document["quantities"]) == names(cli, "quantities")
    assert [check["name"] for check in document["checks"]] == names(cli, "checks")


def test_fields(cli, document):
    fields = document["fields"]
    assert all(list(field) == ["value", "origin"] for field in fields.values())
    assert fields["chest_girth"] == {"value": 1016.0, "origin": "client"}
    assert fields["buttoning"] == {"value": "two-button", "origin": "client"}
    assert fields["lapel"] == {"value": "step", "origin": "rule"}
    assert fields["front_shoulder"] == {"value": None, "origin": "none"}
    (cli.directory / "house.ini").write_text("[house]\nlapel_width = 92.5\nwaist_girth = 700\n[style]\nlapel = peak\n")
    fields = json.loads(cli.good("draft", "card.ini", "--json", "--house", "house.ini"))["fields"]
    assert fields["lapel_width"] == {"value": 92.5, "origin": "house"}
    assert fields["lapel"] == {"value": "peak", "origin": "house"}
    assert fields["waist_girth"] == {"value": 890.0, "origin": "client"}


def test_the_card_overrides_the_house_file(cli):
    (cli.directory / "house.ini").write_text("[house]\nhollow_limit = 20\nhollow_share = 0.2\nlapel_width = 90\n")
    card = cli.card(CARD + "[house]\nhollow_limit = 22\n")
    document = json.loads(cli.good("draft", card, "--json", "--house", "house.ini"))
    assert (document["constants"]["hollow_limit"], document["constants"]["hollow_share"]) == (22, 0.2)
    assert document["fields"]["lapel_width"] == {"value": 90, "origin": "house"}


def test_checks(document):
    assert document["checks"]
    for check in document["checks"]:
        assert list(check) == ["name", "value", "limit", "sense", "unit", "pass"]
        assert check["sense"] in ("at most", "at least")
        if check["value"] is None:
            assert check["pass"] is None
        else:
            over = check["value"] - check["limit"]
            within = over <= 0 if check["sense"] == "at most" else over >= 0
            assert check["pass"] is True is within, check


def test_quantities_are_numbers_or_null(document):
    assert all(value is None or math.isfinite(value) for value in document["quantities"].values())
    ease = document["fields"]["chest_ease"]["value"]
    assert document["quantities"]["finished_chest"] == pytest.approx(1016 + ease, abs=0.02)


def length(path, steps=2000):
    """Arc length by Gauss-Legendre quadrature of the derivative, with NumPy alone."""
    nodes, weights = numpy.polynomial.legendre.leggauss(64)
    total = 0.0
    for cubic in path:
        p = numpy.array(cubic)
        for low in numpy.linspace(0, 1, 9)[:-1]:
            t = (low + (nodes + 1) / 16)[:, None]
            d = 3 * ((1 - t) ** 2 * (p[1] - p[0]) + 2 * t * (1 - t) * (p[2] - p[1]) + t ** 2 * (p[3] - p[2]))
            total += float(numpy.hypot(d[:, 0], d[:, 1]) @ weights) / 16
    return total


def area(path):
    return sum(float(numpy.polynomial.polynomial.polyval(1, numpy.polynomial.polynomial.polyint(
        numpy.polynomial.polynomial.polymul(x, numpy.polynomial.polynomial.polyder(y)))))
        for x, y in (coefficients(cubic) for cubic in path))


def coefficients(cubic):
    p = numpy.array(cubic)
    power = numpy.array([p[0], 3 * (p[1] - p[0]), 3 * (p[0] - 2 * p[1] + p[2]), p[3] - 3 * p[2] + 3 * p[1] - p[0]])
    return power[:, 0], power[:, 1]


def test_pieces(document):
    names = [piece["name"] for piece in document["pieces"]]
    assert names[:7] == ["back", "sidebody", "forepart", "topsleeve", "undersleeve", "under_collar", "facing"]
    assert len(names) == len(set(names)) > 20
    for piece in document["pieces"]:
        assert list(piece) == ["name", "cut", "mirrored", "side", "cloth", "outline", "edges", "points", "marks"]
        assert piece["cut"] >= 1 and isinstance(piece["mirrored"], bool) and piece["side"] in ("both", "right", "left")
        outline = piece["outline"]
        for cubic, following in zip(outline, outline[1:] + outline[:1]):
            assert len(cubic) == 4 and all(len(point) == 2 for point in cubic)
            assert cubic[3] == pytest.approx(following[0], abs=1e-9)
        assert area(outline) > 0, "counter-clockwise"
        place = 0
        for edge in piece["edges"]:
            assert list(edge) == ["name", "length", "first", "count"]
            assert edge["first"] == place
            place += edge["count"]
            assert edge["length"] == pytest.approx(length(outline[edge["first"]:place]), rel=1e-8)
        assert place == len(outline)
        for point in piece["points"]:
            assert list(point) == ["name", "x", "y"]
        for mark in piece["marks"]:
            assert list(mark) == ["name", "kind", "path"] and mark["path"]
            assert mark["kind"] in ("notch", "grain", "button", "hole", "dart", "line", "fold")
        assert any(mark["kind"] == "grain" for mark in piece["marks"])


def test_seams(document):
    lengths = {(piece["name"], edge["name"]): edge["length"] for piece in document["pieces"] for edge in piece["edges"]}
    assert document["seams"]
    for seam in document["seams"]:
        assert list(seam) == ["name", "a", "b", "ease"]
        for side in ("a", "b"):
            assert len(seam[side]) >= 1
            for sewn in seam[side]:
                assert list(sewn) == ["piece", "edge", "from", "to"]
                whole = lengths[sewn["piece"], sewn["edge"]]
                assert all(-1e-6 <= sewn[end] <= whole + 1e-6 for end in ("from", "to"))
        a, b = (sum(abs(sewn["to"] - sewn["from"]) for sewn in seam[side]) for side in ("a", "b"))
        assert a - b == pytest.approx(seam["ease"], abs=0.06), seam["name"]


def test_numbers_read_back_as_the_same_double(cli, card):
    text = cli.good("draft", card, "--json")
    reals = REAL.findall(text)
    assert len(reals) > 500
    assert sum(len(real.strip("-0.").replace(".", "")) >= 16 for real in reals) > 100, "17 digits are written"
    resolved = dict(line.split(" = ") for line in cli.good("check", card, "--resolved").splitlines() if " = " in line)
    document = json.loads(text)
    for name, field in document["fields"].items():
        if isinstance(field["value"], float):
            assert float(resolved[name].split()[0]) == field["value"]
    for name, value in document["constants"].items():
        assert float(resolved[name].split()[0]) == value


def test_standard_input_and_file_give_the_same(cli, card):
    assert cli.good("draft", "-", "--json", input=CARD.encode()) == cli.good("draft", card, "--json")


def test_comparison(cli, card):
    document = json.loads(cli.good("compare", card, "--json"))
    assert list(document) == ["format", "format_version", "edition", "by", "rows"]
    assert (document["format"], document["by"]) == ("tailorgeom-comparison", ["buttoning"])
    assert [row["buttoning"] for row in document["rows"]] == [
        "one-button", "two-button", "three-button", "roll-by-make", "roll-by-cut", "double-four", "double-six"]
    for row in document["rows"]:
        assert list(row) == ["buttoning", "cautions", "quantities"]
        own = cli.card(CARD.replace("two-button", row["buttoning"]), "own.ini")
        assert json.loads(cli.good("draft", own, "--json"))["quantities"] == row["quantities"]


def test_lists(cli):
    for table in ("fields", "choices", "constants", "quantities", "checks"):
        document = json.loads(cli.good("list", table, "--json"))
        assert list(document) == ["format", "format_version", "edition", "table", "rows"]
        assert (document["format"], document["table"]) == ("tailorgeom-list", table)
        text = cli.good("list", table)
        for row in document["rows"]:
            assert row["meaning"] and re.search(rf"^  {row['name']} ", text, re.M)
    fields = {row["name"]: row for row in json.loads(cli.good("list", "fields", "--json"))["rows"]}
    assert fields["lapel"]["choices"] == ["step", "peak", "shawl"]
    choices = json.loads(cli.good("list", "choices", "--json"))["rows"]
    assert [row["name"] for row in choices if row["field"] == "lapel"] == ["step", "peak", "shawl"]
    assert [row["number"] for row in choices if row["field"] == "roll_class"] == [1, 2, 3]
    chest = fields["chest_girth"]
    assert (chest["low"], chest["high"], chest["rule"]) == (700, 1600, "required")
    assert (chest["section"], fields["lapel"]["section"]) == ("measures", "style")
