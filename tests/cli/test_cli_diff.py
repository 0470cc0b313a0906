"""What differs between two cards: the table, the JSON, and the overlay as an independent reader of SVG sees it."""
import json
import re
import xml.etree.ElementTree as tree

import pytest

from client_card import CARD

SHEETS = ["overlay.pdf", "overlay.png", "overlay.svg"]
SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture
def other(cli):
    return cli.card(CARD + "lapel_width = 84\n[figure]\nlow_hip_left = 6\n[house]\nhollow_limit = 22\n", "other.ini")


def draft(cli, card):
    return json.loads(cli.good("draft", card, "--json"))


def rows(text, heading):
    """Lines of one part of the table: {name: cells}."""
    part = re.search(rf"^{heading} .*\n((?:\S.*\n)+)", text, re.M)
    return {line.split()[0]: line.split()[1:] for line in part[1].splitlines()} if part else {}


def test_nothing_differs(cli, card):
    cli.card(CARD, "same.ini")
    out = cli.good("diff", card, "same.ini")
    title = "(Mr Orrin Fallowell, order 77)"
    assert out == f"before: card.ini {title}\nafter:  same.ini {title}\n\nnothing differs\n"
    document = json.loads(cli.good("diff", card, "same.ini", "--json"))
    assert (document["format"], document["format_version"]) == ("tailorgeom-difference", 1)
    assert list(document)[3:] == ["fields", "constants", "quantities", "cautions_before", "cautions_after",
                                  "pieces_only_before", "pieces_only_after"]
    assert not any(document[name] for name in list(document)[3:])


def test_the_table_is_what_two_drafts_say(cli, card, other):
    out = cli.good("diff", card, other)
    assert all(len(line) <= 100 for line in out.splitlines())
    assert rows(out, "fields") == {
        "low_hip_left": ["mm", "0", "6", "+6"], "lapel_width": ["mm", "88", "84", "-4"]}
    assert rows(out, "constants")["hollow_limit"][2] == "22"
    before, after = draft(cli, card)["quantities"], draft(cli, other)["quantities"]
    told = rows(out, "quantities")
    for name, value in before.items():
        other_value = after[name]
        if value is None or other_value is None:
            assert (name in told) == (value is not other_value), name
            continue
        cells = told.get(name)
        if cells is None:
            unit = 1 if abs(value) > 3000 else 0.051  # areas are printed without decimals
            assert abs(value - other_value) < unit, name
        elif cells[0] == "mm":
            assert [float(cell) for cell in cells[1:]] == pytest.approx(
                [value, other_value, other_value - value], abs=0.0501), name
    assert "lapel_area" in told and "finished_chest" not in told


def test_json_is_exact(cli, card, other):
    document = json.loads(cli.good("diff", card, other, "--json"))
    before, after = draft(cli, card), draft(cli, other)
    assert document["fields"] == {
        "low_hip_left": {"before": 0, "after": 6, "difference": 6},
        "lapel_width": {"before": 88, "after": 84, "difference": -4}}
    for table in ("constants", "quantities"):
        names = [name for name, value in before[table].items() if value != after[table][name]]
        assert list(document[table]) == names
        for name, row in document[table].items():
            assert (row["before"], row["after"]) == (before[table][name], after[table][name])
            if row["before"] is not None and row["after"] is not None:
                assert row["difference"] == row["after"] - row["before"]
    assert "forepart" in document["pieces_only_before"]
    assert {"forepart_right", "forepart_left"} <= set(document["pieces_only_after"])


def test_choices_and_inches(cli, card):
    cli.card(CARD.replace("two-button", "three-button").replace("stature = 1780", "stature = 71 in"), "three.ini")
    out = cli.good("diff", card, "three.ini", "--print", "in")
    assert rows(out, "fields")["buttoning"] == ["two-button", "three-button"]
    assert re.search(r"^stature +in +70 1/8 +71 +\+7/8$", out, re.M)


def test_a_refused_card_is_told_and_nothing_written(cli, card):
    bad = cli.card(CARD.replace("stature = 1780", "stature = 900"), "bad.ini")
    for one, two in ((card, bad), (bad, card)):
        done = cli("diff", one, two, "-o", "sheets")
        assert (done.returncode, done.out) == (1, "")
        assert done.err.startswith("tailorgeom: bad.ini:9: stature 900 mm") and done.err.count("\n") == 1
    assert cli("diff", bad, bad).err.count("\n") == 2  # each for itself
    assert cli.files() == ["bad.ini", card]
    assert cli("diff", card, "missing.ini").err.startswith("tailorgeom: missing.ini: cannot be opened")


def test_the_overlay_is_written_whole(cli, card, other):
    out = cli.good("diff", card, other, "-o", "over/lay")
    assert cli.files("over/lay") == SHEETS
    assert out.endswith("\nwrote over/lay/overlay.svg\nwrote over/lay/overlay.pdf\nwrote over/lay/overlay.png\n")
    document = cli.good("diff", card, other, "--json", "-o", "again")
    assert document == cli.good("diff", card, other, "--json")
    for name in SHEETS:
        assert (cli.directory / "again" / name).read_bytes() == (cli.directory / "over/lay" / name).read_bytes()


def test_a_full_disk_leaves_no_half_overlay(cli, card, other, interposed):
    for nth in (1, 2, 3):
        done = cli("diff", card, other, "-o", "sheets", env=interposed(nth))
        assert (done.returncode, done.out) == (1, "") and "cannot be written: No space left" in done.err
        assert cli.files("sheets") == []


def groups_of(path):
    return {group.get("id"): group for group in tree.parse(path).iter(SVG + "g") if group.get("id")}


def texts(group):
    return [text.text for text in group.iter(SVG + "text")]


def numbers(path):
    return [float(number) for number in re.findall(r"-?\d+\.?\d*", path.get("d"))]


def test_pieces_lie_on_one_another(cli, card):
    """Of a coat lengthened by 10 the two backs differ at the hem by 10, and in nothing above the seat."""
    long = draft(cli, card)["fields"]["coat_length"]["value"] + 10
    cli.card(CARD.replace("[measures]\n", f"[measures]\ncoat_length = {long!r}\n"), "long.ini")
    cli.good("diff", card, "long.ini", "-o", "sheets")
    groups = groups_of(cli.directory / "sheets/overlay.svg")
    outline = {word: numbers(groups[f"back-{word}"].find(SVG + "path")) for word in ("before", "after")}
    lowest = {word: max(row[1::2]) for word, row in outline.items()}
    assert lowest["after"] - lowest["before"] == pytest.approx(10, abs=0.1)  # the hem's lowest handle
    assert min(outline["after"][1::2]) == min(outline["before"][1::2])
    assert texts(groups["heading"])[1:3] == ["before, dashed: card.ini", "after, solid: long.ini"]
    notes = {texts(group)[0]: texts(group)[1] for name, group in groups.items() if name.startswith("pair-")}
    assert re.fullmatch(r"outlines up to 1[0-4](\.\d)? mm apart", notes["back"])
    assert notes["under collar"] == "outline as before"


def test_before_is_dashed_and_after_is_solid(cli, card, other):
    cli.good("diff", card, other, "-o", "sheets")
    groups = groups_of(cli.directory / "sheets/overlay.svg")

    def dashes(element, inherited=None):
        own = element.get("stroke-dasharray", inherited)
        if element.tag == SVG + "path":
            yield own
        for child in element:
            yield from dashes(child, own)
    before = [name for name in groups if re.search(r"-before(-mirrored)?$", name)]
    after = [name for name in groups if re.search(r"-after(-mirrored)?$", name)]
    assert len(before) > 5 and len(after) > 5
    for name in before:
        assert None not in set(dashes(groups[name])), name
    for name in after:
        assert set(dashes(groups[name])) == {None}, name


@pytest.mark.parametrize("swapped", [False, True])
def test_sides_are_laid_on_the_piece_of_both(cli, card, other, swapped):
    """A low left hip makes two foreparts of one: the one is laid on each, on the left as its mirror image."""
    cards = [other, card] if swapped else [card, other]
    both, sides = ("after", "before") if swapped else ("before", "after")
    cli.good("diff", *cards, "-o", "sheets")
    pairs = [group for name, group in groups_of(cli.directory / "sheets/overlay.svg").items()
             if name.startswith("pair-")]
    found = {}
    for group in pairs:
        names = [child.get("id") for child in group if child.tag == SVG + "g"]
        found[texts(group)[0]] = set(names)
        assert len(names) == 2 or texts(group)[1].startswith("only ")
    assert found["forepart right"] == {f"forepart-{both}", f"forepart_right-{sides}"}
    assert found["forepart left"] == {f"forepart-{both}-mirrored", f"forepart_left-{sides}"}
    assert "forepart" not in found


def test_a_piece_in_one_draft_only_is_noted(cli, card):
    cli.card(CARD + "hip_pockets = none\n", "plain.ini")
    cli.good("diff", card, "plain.ini", "-o", "sheets")
    notes = [texts(group) for name, group in groups_of(cli.directory / "sheets/overlay.svg").items()
             if name.startswith("pair-")]
    document = json.loads(cli.good("diff", card, "plain.ini", "--json"))
    only = [name for name, note in notes if note == "only before"]
    assert only and sorted(only) == sorted(name.replace("_", " ") for name in document["pieces_only_before"])
    cli.good("diff", "plain.ini", card, "-o", "sheets")
    assert sum(texts(group)[1:] == ["only after"] for name, group in
               groups_of(cli.directory / "sheets/overlay.svg").items() if name.startswith("pair-")) == len(only)
