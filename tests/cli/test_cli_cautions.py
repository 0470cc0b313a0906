"""What a cutter should know of a coat stands wherever one looks, in the same words, and weighs the same."""
import csv
import json

import pytest

from client_card import CARD

ARM = CARD.replace("shoulder_slope = 21\n", "shoulder_slope = 21\nupper_arm_girth = {}\n")
SLIGHT, STRONG = ARM.format(345), ARM.format(366)  # under and over the 8 mm from which a deeper scye is a caution


def found(cli, card):
    return json.loads(cli.good("draft", card, "--json"))["cautions"]


def told(text, word="caution"):
    return [line.removeprefix(f"{word}: ") for line in text.splitlines() if line.startswith(f"{word}: ")]


def test_a_coat_without_any(cli, card):
    (cli.directory / "in.csv").write_text("chest_girth,making\n1016,made-to-measure\n")
    assert found(cli, card) == []
    for command in ("draft", "check", "compare", "roll", "ticket"):
        assert "caution" not in cli.good(command, card) and "note: " not in cli.good(command, card), command
    assert cli.good("rows", "in.csv", "--want", "coverage_scye").splitlines()[1].split(",")[1:] == ["", "TAILOR_OK", ""]


def test_members(cli):
    """The value is the coat's own quantity."""
    card = cli.card(STRONG.replace("waist_girth = 890\n", ""))
    toile, scye = found(cli, card)
    assert list(toile) == ["caution", "class", "value", "sentence"]
    assert (toile["caution"], toile["class"], toile["value"]) == ("toile_only", "caution", 1)
    assert (scye["caution"], scye["class"]) == ("scye_deepened", "caution")
    quantities = json.loads(cli.good("draft", card, "--json"))["quantities"]
    assert scye["value"] == quantities["scye_deepened"] > 8


@pytest.mark.parametrize("command", [
    ["draft"], ["check"], ["canvas", "--iterations", "2"], ["compare", "--by", "lapel_width=84,90"], ["roll"]])
def test_the_terminal(cli, command):
    card = cli.card(STRONG)
    sentences = [one["sentence"] for one in found(cli, card)]
    assert len(sentences) == 1
    assert told(cli.good(command[0], card, *command[1:])) == sentences


def test_the_sheets(cli):
    """Of pattern, section and ticket: beneath the heading, once each; what is merely worth knowing is not there."""
    for text in (STRONG.replace("waist_girth = 890\n", ""), SLIGHT):
        card = cli.card(text)
        cautions = found(cli, card)
        cli.good("draft", card)
        cli.good("roll", card, "--section")
        cli.good("ticket", card, "-o", "ticket.svg")
        for name in ("pattern.svg", "section.svg"):
            sheet = (cli.directory / name).read_text()
            for one in cautions:
                assert sheet.count(f">{one['sentence']}</text>") == (one["class"] == "caution"), (name, one)
        ticket = (cli.directory / "ticket.svg").read_text()
        assert ticket.count("The scye is ") == 1 and ticket.count("not measured: ") == len(cautions) - 1
    assert [one["class"] for one in cautions] == ["told"]


def test_worth_knowing(cli):
    """In check and ticket alone on paper; in JSON everywhere."""
    card = cli.card(SLIGHT)
    [scye] = found(cli, card)
    assert scye["class"] == "told" and 0 < scye["value"] < 8
    check = cli.good("check", card)
    assert (told(check, "note"), told(check)) == ([scye["sentence"]], [])
    assert "scye is" not in cli.good("draft", card) + cli.good("compare", card) + cli.good("roll", card)
    ticket = json.loads(cli.good("ticket", card, "--json"))
    assert ticket["cautions"] == [scye] and ticket["notes"][1:] == [scye["sentence"]]


def test_the_ticket_has_them_with_its_own(cli):
    card = cli.card(STRONG + "closing = right-over-left\n")
    [scye] = found(cli, card)
    own = "Closes right over left: the holes are in the right front."
    lines = cli.good("ticket", card).replace("\n  ", " ").splitlines()
    assert [line[2:] for line in lines if line.startswith("! ")] == [scye["sentence"], own]
    assert json.loads(cli.good("ticket", card, "--json"))["cautions"] == [
        scye, {"caution": None, "class": "caution", "value": None, "sentence": own}]


def test_of_several_coats_what_is_common_is_said_once(cli):
    card = cli.card(STRONG)
    [scye] = found(cli, card)
    both = told(cli.good("compare", card, "--by", "upper_arm_girth=345,360,366"))
    assert [line.split(": ")[0] for line in both] == ["360", "366"] and both[1] == f"366: {scye['sentence']}"
    rows = json.loads(cli.good("compare", card, "--by", "upper_arm_girth=345,366", "--json"))["rows"]
    assert [row["cautions"][0]["class"] for row in rows] == ["told", "caution"] and rows[1]["cautions"] == [scye]


def test_two_cards(cli, card):
    other = cli.card(STRONG, "other.ini")
    [scye] = found(cli, other)
    assert told(cli.good("diff", card, other)) == [f"after: {scye['sentence']}"]
    assert told(cli.good("diff", other, other)) == [scye["sentence"]]
    document = json.loads(cli.good("diff", card, other, "--json"))
    assert (document["cautions_before"], document["cautions_after"]) == ([], [scye])


def test_a_fitting_tells_what_the_new_coat_has(cli, card):
    (cli.directory / "notes").write_text("upper_arm_girth = +40 mm\n")
    out = cli.good("fit", card, "notes", "--date", "2026-03-20")
    assert told(out) == [one["sentence"] for one in found(cli, "card-fitting-1.ini")] != []


def test_roll_and_canvas_in_json(cli):
    card = cli.card(STRONG)
    cautions = found(cli, card)
    assert json.loads(cli.good("canvas", card, "--iterations", "2", "--json"))["cautions"] == cautions
    coats = json.loads(cli.good("roll", card, "--json"))["coats"]
    assert len(coats) == 3 and all(coat["cautions"] == cautions for coat in coats)


def test_sizes(cli):
    document = json.loads(cli.good("grade", "merrow_and_vane", "--json"))
    lines = told(cli.good("grade", "merrow_and_vane"))
    sentences = {f"size {size['size']}: {one['sentence']}" for size in document["sizes"] for one in size["cautions"]}
    common = {line for line in lines if not line.startswith("size ")}
    assert sentences and {line for line in lines if line.startswith("size ")} == {
        line for line in sentences if line.split(": ", 1)[1] not in common}
    base = json.loads(cli.good("grade", "ansur2_men", "--base", "--card", cli.card(STRONG), "--json"))
    out = told(cli.good("grade", "ansur2_men", "--base", "--card", "card.ini"))
    assert out == [f"{whose}: {one['sentence']}" for whose in ("base", "client") for one in base[f"{whose}_cautions"]]


def test_tables(cli):
    """Names of the class caution alone, in rows and in the summary of a book."""
    head = "order,chest_girth,waist_girth,seat_girth,back_waist_length,arm_length,back_width,shoulder_slope"
    whole = "1016,890,1010,445,602,400,21"
    lines = [f"a,{whole},345", f"b,{whole},366", "c,1016,,,,,,,366", "d,1016,,,,,,,", "e,,,,,,,,366"]
    expected = ["", "scye_deepened", "toile_only scye_deepened", "toile_only", ""]
    (cli.directory / "in.csv").write_text("\n".join([head + ",upper_arm_girth", *lines]) + "\n")
    rows = list(csv.DictReader(cli("rows", "in.csv").out.splitlines()))
    assert [row["cautions"] for row in rows] == expected and rows[4]["status"] == "TAILOR_MISSING"
    cli("book", "in.csv", "-o", "out", "--sheets", "svg")
    with open(cli.directory / "out/summary.csv", newline="") as file:
        assert [row["cautions"] for row in csv.DictReader(file)] == expected
    for row in rows[:4]:
        written = json.loads((cli.directory / "out" / row["order"] / "pattern.json").read_text())["cautions"]
        assert " ".join(one["caution"] for one in written if one["class"] == "caution") == row["cautions"]


def test_a_column_of_that_name_is_the_output_s(cli):
    (cli.directory / "in.csv").write_text("chest_girth,cautions\n1016,\n")
    done = cli("rows", "in.csv")
    assert (done.returncode, done.err) == (
        1, "tailorgeom: in.csv:1: column 2, cautions: the output has a column of this name: rename this one\n")


def test_what_a_resolved_card_assumed_is_not_measured(cli):
    card = cli.card("[measures]\nchest_girth = 1016\n")
    cli.card(cli.good("check", card, "--resolved"), "resolved.ini")
    assert found(cli, "resolved.ini") == found(cli, card) != []
