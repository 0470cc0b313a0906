"""What check, compare and draft print for people."""
import json
import re

import pytest

from client_card import CARD

BARE = "[measures]\nchest_girth = 1016\n"


def test_check_tells_given_house_and_assumed(cli):
    (cli.directory / "house.ini").write_text("[house]\nlapel_width = 92\nhollow_limit = 20\n")
    out = cli.good("check", cli.card(), "--house", "house.ini")
    blocks = {block.splitlines()[0]: block.splitlines()[1:] for block in out.split("\n\n")}
    assert list(blocks) == ["Mr Orrin Fallowell, order 77", "checks", "given by the client", "given by the house",
                            "constants of the house", "assumed"]
    first = {title: [line.split()[0] for line in lines] for title, lines in blocks.items()}
    assert first["given by the client"] == ["stature", "chest_girth", "waist_girth", "seat_girth", "back_waist_length",
                                            "back_width", "shoulder_slope", "arm_length", "buttoning"]
    assert first["given by the house"] == ["lapel_width"]
    assert first["constants of the house"] == ["hollow_limit"]
    assert {"scye_depth", "lapel", "chest_ease"} <= set(first["assumed"])
    assert "30 + 0.1 chest_girth + 0.05 stature" in out
    assert all(len(line) <= 110 for line in out.splitlines())


def test_check_shows_every_check(cli, card):
    out = cli.good("check", card)
    rows = json.loads(cli.good("draft", card, "--json"))["checks"]
    for row in rows:
        outcome = {True: "pass", None: "-"}[row["pass"]]
        assert re.search(rf"^{row['name']}  +{outcome} ", out, re.M), row
    passing = sum(row["pass"] is True for row in rows)
    assert passing > 20
    assert f"\n{passing} pass, 0 fail\n" in out
    assert f"\n{passing} checks, all pass\n" in cli.good("draft", card)


def test_a_check_that_fails(cli, failing_check):
    """It is shown where one looks, and such a coat is not drafted."""
    card = cli.card(CARD.replace("two-button", "three-button"))
    name = json.loads(cli.good("list", "checks", "--json"))["rows"][0]["name"]
    told = "tailorgeom: card.ini: the first check does not hold\n"
    done = cli("check", card, env=failing_check)
    assert (done.returncode, done.err) == (1, told)
    assert re.search(rf"^{name}  +FAIL ", done.out, re.M) and " pass, 1 fail\n" in done.out
    for command in (["draft", card], ["draft", card, "--json"]):
        done = cli(*command, env=failing_check)
        assert (done.returncode, done.err, done.out) == (1, told, "")
    done = cli("compare", card, "--json", env=failing_check)
    assert (done.returncode, done.err) == (1, told.replace("the first", "three-button: the first"))
    assert json.loads(done.out)["rows"][2] == {
        "buttoning": "three-button", "status": "TAILOR_CHECK_FAILED", "message": "the first check does not hold"}
    assert cli.files() == [card]


def test_print_in_inches(cli, card):
    assert re.search(r"^  chest_girth +1016 mm$", cli.good("check", card), re.M)
    assert re.search(r"^  waist_girth +35 in$", cli.good("check", card, "--print", "in"), re.M)
    assert re.search(r"^  waist_girth +35 1/16 in$", cli.good("check", card, "--print", "in16"), re.M)
    assert re.search(r"^  finished_chest +44 3/8 in$", cli.good("draft", card, "--print", "in"), re.M)


@pytest.mark.parametrize("missing", ["waist_girth", "seat_girth", "back_waist_length", "arm_length", "back_width",
                                     "shoulder_slope"])
def test_for_toile_only(cli, missing):
    whole = cli.card()
    assert "toile" not in cli.good("check", whole) + cli.good("draft", whole)
    assert json.loads(cli.good("draft", whole, "--json"))["toile_only"] == []
    card = cli.card(re.sub(rf"^{missing} = .*\n", "", CARD, flags=re.M))
    sentence = f"caution: Cut a toile only: not measured: {missing}.\n"
    assert sentence in cli.good("check", card)
    assert sentence in cli.good("draft", card)
    assert b"for toile only" in (cli.directory / "pattern.svg").read_bytes()
    assert json.loads(cli.good("draft", card, "--json"))["toile_only"] == [missing]


def test_a_sleeve_from_the_centre_back_is_a_sleeve_measured(cli):
    card = cli.card(re.sub(r"^arm_length = .*$", "sleeve_from_centre_back = 840", CARD, flags=re.M))
    assert "toile" not in cli.good("check", card)


def test_a_measure_of_the_house_is_no_measure_of_the_client(cli):
    card = cli.card(CARD.replace("shoulder_slope = 21\n", "") + "[house]\nshoulder_slope = 22\n")
    assert "caution: Cut a toile only: not measured: shoulder_slope.\n" in cli.good("check", card)


@pytest.mark.parametrize("text", [CARD, BARE, CARD.replace("shoulder_slope = 21", "shoulder_slope = 20.1234567890123"),
                                  CARD + "[house]\nhollow_limit = 20.1\nlapel_width = 3 7/16 in\n",
                                  BARE.replace("1016", "43 7/16 in")])
def test_resolved_reads_back_bit_for_bit(cli, text):
    card = cli.card(text)
    resolved = cli.good("check", card, "--resolved")
    assert "[card]\nedition = 1\n" in resolved
    again = cli.card(resolved, "resolved.ini")
    assert cli.good("check", again, "--resolved") == resolved
    assert cli.good("draft", again, "--json") == cli.good("draft", card, "--json")
    assert cli.good("check", again) == cli.good("check", card)


def test_resolved_leaves_nothing_open(cli, card):
    resolved = cli.good("check", card, "--resolved")
    for table in ("fields", "constants"):
        for row in json.loads(cli.good("list", table, "--json"))["rows"]:
            assert re.search(rf"^({row['name']} = |# {row['name']}$)", resolved, re.M), row["name"]


def test_texts_of_the_client_read_back(cli):
    card = cli.card(CARD.replace("order = 77", "order =;77\ndate = 3 May = x\nnote = " + "é" * 90))
    resolved = cli.good("check", card, "--resolved")
    assert cli.good("check", cli.card(resolved, "resolved.ini"), "--resolved") == resolved
    assert "order=;77\ndate=3 May = x\nnote=" + "é" * 90 + "\n" in resolved


def test_another_edition_is_told(cli):
    done = cli("check", cli.card("[card]\nedition = 999\n" + CARD))
    assert done.returncode == 0
    assert done.err.startswith("tailorgeom: card.ini: caution: this card was filled in by edition 999 of the rules, ")


def eighths(mm):
    parts = int(mm / 25.4 * 8 + 0.5)
    whole, rest, under = parts // 8, parts % 8, 8
    while rest and rest % 2 == 0:
        rest, under = rest // 2, under // 2
    return str(whole) if not rest else f"{whole} {rest}/{under}" if whole else f"{rest}/{under}"


def test_comparison_of_the_seven_buttonings(cli, card):
    out = cli.good("compare", card)
    assert all(len(line) <= 100 for line in out.splitlines())
    assert re.search(r"^buttoning +one-button +two-button +three-button +roll-by-make +roll-by-cut$", out, re.M)
    rows = json.loads(cli.good("compare", card, "--json"))["rows"]
    for name in ("coverage_scye", "coverage_top_button"):  # in two blocks, since a line has room for five
        values = [row["quantities"][name] for row in rows]
        inches = re.findall(rf"^{name} +in +(.*)$", out, re.M)
        assert re.split("  +", "  ".join(inches)) == [eighths(value) for value in values]
        mm = " ".join(re.findall(rf"^{name} +mm +(.*)$", out, re.M)).split()
        assert [float(cell) for cell in mm] == pytest.approx(values, abs=0.0501)
    # What is the same in all stands once, below; every quantity stands somewhere.
    top, below = out.split("\nthe same in all\n")
    for name in rows[0]["quantities"]:
        if name.endswith("_right"):  # nothing of its own to tell here, where no side differs
            assert f"\n{name} " not in out
            continue
        assert (f"\n{name} " in top) != (f"\n{name} " in "\n" + below), name
    assert "\nfinished_chest " in "\n" + below
    one, two, three = (rows[i]["quantities"]["coverage_scye"] for i in range(3))
    assert one < two < three, "a higher break point covers more"


def test_comparison_by_other_values(cli, card):
    out = cli.good("compare", card, "--by", "lapel_width=80,3 1/2 in", "--by", "lapel=step,peak")
    assert re.search(r"^lapel_width +80  +80  +3 1/2 in +3 1/2 in$", out, re.M)
    assert re.search(r"^lapel +step +peak +step +peak$", out, re.M)
    by = ["--by", "lapel_width=80,3 1/2 in", "--by", "lapel=step,peak"]
    rows = json.loads(cli.good("compare", card, *by, "--json"))["rows"]
    assert [(row["lapel_width"], row["lapel"]) for row in rows] == [
        (80, "step"), (80, "peak"), (pytest.approx(88.9), "step"), (pytest.approx(88.9), "peak")]
    rows = json.loads(cli.good("compare", card, "--by", "hollow_limit=14,16", "--json"))["rows"]
    assert [row["hollow_limit"] for row in rows] == [14, 16]
    assert rows[0]["quantities"]["hollow"] <= 14.001


def test_many_values_are_printed_in_parts(cli, card):
    values = [str(80 + i) for i in range(24)]
    out = cli.good("compare", card, "--by", "lapel_width=" + ",".join(values))
    heads = re.findall(r"^lapel_width +(.*)$", out, re.M)
    assert len(heads) > 1 and " ".join(heads).split() == values
    assert all(len(line) <= 100 for line in out.splitlines())


def test_rows_that_are_refused_are_told_and_the_rest_go_on(cli, card):
    arguments = ["compare", card, "--by", "lapel_width=80,140,90"]
    done = cli(*arguments)
    assert done.returncode == 1
    assert done.err == "tailorgeom: --by: 140: lapel_width 140 mm is too large: 60 to 112 mm is allowed\n"
    assert re.search(r"^lapel_area +mm2 +\d+ +refused +\d+$", done.out, re.M)
    done = cli(*arguments, "--json", "-o", "fronts.svg")
    assert done.returncode == 1
    rows = json.loads(done.out)["rows"]
    assert rows[1] == {"lapel_width": 140, "status": "TAILOR_OUT_OF_RANGE",
                       "message": "lapel_width 140 mm is too large: 60 to 112 mm is allowed"}
    assert "quantities" in rows[0] and "quantities" in rows[2]
    assert cli.files() == sorted([card, "fronts.svg"])


def test_what_is_wrong_with_all_rows_is_told_once(cli):
    done = cli("compare", cli.card("[measures]\nchest_girth = 40\n"))
    assert (done.returncode, done.out) == (1, "")
    assert done.err.count("\n") == 1 and "card.ini:2: chest_girth 40 mm" in done.err
    rows = json.loads(cli("compare", "card.ini", "--json").stdout)["rows"]
    assert len(rows) == 7 and all(row["status"] == "TAILOR_WRONG_UNIT" for row in rows)
