"""Fitting notes: what they do to the card and to the coat, and that what cannot be done is refused in a sentence."""
import json
import pathlib
import random
import re
import signal
import subprocess

import pytest

from client_card import CARD

ROOT = pathlib.Path(__file__).parents[2]
DAY = "2026-03-20"


@pytest.fixture
def fit(cli, card):
    """Fits notes (a text) to the card; returns the finished process."""
    def run(notes, *more, card=card):
        (cli.directory / "notes").write_bytes(notes if isinstance(notes, bytes) else notes.encode())
        return cli("fit", card, "notes", *(more or ("--date", DAY)))
    return run


def fields(cli, card, *more):
    return {name: field["value"] for name, field in
            json.loads(cli.good("draft", card, "--json", *more))["fields"].items()}


def changed(cli, before, after):
    """What differs between the orders on two cards, exactly: {field: (before, after)}."""
    one, other = fields(cli, before), fields(cli, after)
    return {name: (one[name], other[name]) for name in one if one[name] != other[name]}


def section(text):
    return text[text.rindex("\n[fitting "):]


def test_the_card_is_copied_byte_for_byte_and_gets_a_section(cli, card, fit):
    before = (cli.directory / card).read_bytes()
    done = fit("# Tuesday\n\nlet out side seam 6 mm each\n  shorten sleeve left 10\nbreak_rise = -2 mm\n; end\n")
    assert (done.returncode, done.err) == (0, "")
    assert (cli.directory / card).read_bytes() == before
    assert (cli.directory / "card-fitting-1.ini").read_bytes() == before + b"""
[fitting 1]
date = 2026-03-20
changes = 3
# let out side seam 6 mm each
side_let_out = +6 mm
# shorten sleeve left 10
arm_length_left = -10 mm
# break_rise = -2 mm
break_rise = -2 mm
"""
    assert "\nwrote card-fitting-1.ini\n" in done.out
    assert cli.files() == ["card-fitting-1.ini", card, "notes"]
    assert changed(cli, card, "card-fitting-1.ini") == {
        "side_let_out": (0, 6), "arm_length_left": (None, 592), "break_rise": (12, 10)}


@pytest.mark.parametrize("ending, added", [(b"", b"\n\n[fitting 1]\n"), (b"\r\n", b"\r\n[fitting 1]\r\n")])
def test_the_card_s_own_ends_of_lines(cli, fit, ending, added):
    """A last line without its end gets one; a card of another system's lines stays one."""
    lines = CARD.strip().split("\n")
    text = ending.join(line.encode() for line in lines) if ending else CARD.strip().encode()
    text = b"\xef\xbb\xbf" + text + ending
    assert fit("let out waist 6", card=cli.card(text)).returncode == 0
    made = (cli.directory / "card-fitting-1.ini").read_bytes()
    assert made.startswith(text + added)
    assert made.count(b"\r") == (made.count(b"\n") if ending else 0)
    cli.good("check", "card-fitting-1.ini")


def phrases(cli):
    return json.loads(cli.good("list", "notes", "--json"))["rows"]


# Own reading of the trade's words: the field, and the sign of its change.
WORDS = {
    "let out side seam": ("side_let_out", 1), "take in waist": ("waist_ease", -1), "let out chest": ("chest_ease", 1),
    "lengthen coat": ("coat_length", 1), "shorten sleeve": ("arm_length", -1), "lower break point": ("break_rise", -1),
    "pick up back neck": ("balance", 1), "lower shoulder": ("low_shoulder", 1), "raise scye": ("scye_drop", -1),
    "pitch sleeve forward": ("arm_pitch", 1), "narrow cuff": ("cuff_width", -1), "more wrap": ("wrap", 1),
    "widen lapel": ("lapel_width", 1), "take in back waist": ("sway_back", 1), "raise gorge": ("gorge_depth", -1),
}


def test_the_phrases_mean_what_they_say(cli):
    rows = {row["phrase"]: row for row in phrases(cli)}
    assert set(WORDS) < set(rows)
    for phrase, (field, sign) in WORDS.items():
        assert (rows[phrase]["field"], rows[phrase]["factor"]) == (field, sign), phrase


def test_every_phrase_changes_its_field_by_the_amount(cli, fit):
    """Of each phrase 1 mm, on a figure that has room both ways; a double-breasted one for the wrap."""
    rows = phrases(cli)
    assert len(rows) > 50
    figure = CARD + "\n[figure]\n" + "".join(f"{name} = 4\n" for name in (
        "stoop", "neck_length", "low_shoulder", "forward_shoulder", "prominent_blades", "chest_fullness", "belly",
        "sway_back", "low_hip", "arm_pitch", "crook", "balance"))
    double = figure.replace("two-button", "double-six")
    for row in rows:
        name = cli.card(double if row["field"] == "wrap" else figure)
        (cli.directory / "after.ini").unlink(missing_ok=True)
        done = fit(row["phrase"] + " 1\n", "--date", DAY, "-o", "after.ini", card=name)
        assert (done.returncode, done.err) == (0, ""), row["phrase"]
        difference = changed(cli, name, "after.ini")
        # only a chest that nobody measured follows the back, by its rule
        assert set(difference) - {"cross_chest"} == {row["field"]}, row["phrase"]
        before, after = difference[row["field"]]
        assert after == before + row["factor"], row["phrase"]


@pytest.mark.parametrize("note, expected", [
    ("Let out the waist by 12 mm.", {"waist_ease": 12}),
    ("let out waist 1.2 cm", {"waist_ease": 12}),
    ("let out waist 1/2 in", {"waist_ease": 12.7}),
    ('let out waist 1/2"', {"waist_ease": 12.7}),
    ("let out waist +12", None),
    ("LET  OUT\tSIDE SEAMS 6mm EACH", {"side_let_out": 6}),
    ("shorten left sleeve 10", {"arm_length_left": -10}),
    ("shorten sleeve 10 right", {"arm_length_right": -10}),
    ("shorten both sleeves 10", {"arm_length": -10}),
    ("shorten the left and the right sleeve by 10", {"arm_length": -10}),
    ("10 mm lengthen coat", {"coat_length": 10}),
    ("balance = -3 mm", {"balance": -3}),
    ("balance=+3", {"balance": 3}),
    ("shoulder_slope = +1 deg", {"shoulder_slope": 1}),
    ("coat_length = +1/2 in", {"coat_length": 12.7}),
])
def test_how_a_note_may_be_written(cli, card, fit, note, expected):
    done = fit(note)
    if expected is None:  # a sign before an amount in mm reads as an addition: the same
        expected = {"waist_ease": 12}
    assert (done.returncode, done.err) == (0, "")
    difference = changed(cli, card, "card-fitting-1.ini")
    assert set(difference) == set(expected)
    for name, delta in expected.items():
        before = difference[name][0]
        if before is None:  # a side begins at the value of both
            before = fields(cli, card)[name.rsplit("_", 1)[0]]
        assert difference[name][1] == before + delta


def test_fittings_add_up_in_their_order(cli, card, fit):
    assert fit("shorten sleeve left 10\nlet out waist 6").returncode == 0
    assert fit("lengthen sleeve 4\nlet out waist 2", card="card-fitting-1.ini").returncode == 0
    assert cli.files() == ["card-fitting-1.ini", "card-fitting-2.ini", card, "notes"]
    text = (cli.directory / "card-fitting-2.ini").read_text()
    assert text.startswith((cli.directory / "card-fitting-1.ini").read_text() + "\n[fitting 2]\n")
    now = fields(cli, "card-fitting-2.ini")
    assert (now["arm_length"], now["arm_length_left"], now["arm_length_right"]) == (606, 596, None)
    assert now["waist_ease"] == fields(cli, card)["waist_ease"] + 8


def test_a_fitting_can_be_left_out_again(cli, card, fit):
    fit("let out waist 6")
    fit("lengthen coat 10", card="card-fitting-1.ini")
    text = (cli.directory / "card-fitting-2.ini").read_text()
    without = cli.card(text.replace("[fitting 1]\n", "[fitting 1]\nleft_out = yes\n"), "without.ini")
    assert set(changed(cli, card, without)) == {"coat_length"}
    assert set(changed(cli, card, "card-fitting-2.ini")) == {"coat_length", "waist_ease"}
    shown = cli.good("check", without)
    assert f"\nfitting 1, {DAY}, left out\n  waist_ease " in shown and f"\nfitting 2, {DAY}\n  coat_length " in shown
    assert shown.startswith("Mr Orrin Fallowell, order 77, fitting 2\n")
    kept = cli.card(text.replace("[fitting 1]\n", "[fitting 1]\nleft_out = no\n"), "kept.ini")
    assert changed(cli, "card-fitting-2.ini", kept) == {}


def test_every_command_takes_the_card_with_its_fittings(cli, card, fit):
    """The same coat as that of a card which says the altered values outright."""
    fit("shorten sleeve left 10\nlengthen coat 10\nlet out waist 6")
    now = fields(cli, "card-fitting-1.ini")
    plain = cli.card(CARD + f"waist_ease = {now['waist_ease']}\n[house]\n".replace("[house]\n", "")
                     + "[figure]\ncrook = 0\n", "plain.ini")
    text = (cli.directory / plain).read_text().replace("[measures]\n", "[measures]\narm_length_left = 592\n"
                                                       f"coat_length = {now['coat_length']!r}\n")
    cli.card(text, plain)

    def drafted(name):
        document = json.loads(cli.good("draft", name, "--json"))
        return document["quantities"], document["pieces"], document["checks"]
    assert drafted("card-fitting-1.ini") == drafted(plain) != drafted(card)
    assert cli.good("compare", "card-fitting-1.ini", "--json") == cli.good("compare", plain, "--json")
    resolved = cli.good("check", "card-fitting-1.ini", "--resolved")
    assert f"# Fitting 1, {DAY}, is in these values.\n" in resolved
    assert drafted(cli.card(resolved, "resolved.ini")) == drafted(plain)


def test_a_rule_does_not_carry_a_change_further(cli, card, fit):
    """The waist's ease is found from waist and chest; after a fitting it is what it was, and so much more."""
    before = fields(cli, card)
    fit("let out waist 6\nwaist_girth = +20 mm")
    now = fields(cli, "card-fitting-1.ini")
    assert now["waist_ease"] == before["waist_ease"] + 6 and now["waist_girth"] == 910


def test_a_house_and_a_resolved_card_give_the_base(cli, card, fit):
    (cli.directory / "house.ini").write_text("[house]\nlapel_width = 92\n")
    assert fit("narrow lapel 2", "--date", DAY, "--house", "house.ini", "-o", "a.ini").returncode == 0
    assert fields(cli, "a.ini", "--house", "house.ini")["lapel_width"] == 90
    resolved = cli.card(cli.good("check", card, "--resolved"), "resolved.ini")
    assert fit("narrow lapel 2", card=resolved).returncode == 0
    assert fields(cli, "resolved-fitting-1.ini")["lapel_width"] == fields(cli, card)["lapel_width"] - 2


def test_a_sleeve_measured_from_the_centre_back(cli, fit):
    """That measure stands in the place of the arm's: it is what changes, and it has no sides."""
    card = cli.card(CARD.replace("arm_length = 602", "sleeve_from_centre_back = 840"))
    assert fit("shorten sleeve 10", card=card).returncode == 0
    assert changed(cli, card, "card-fitting-1.ini") == {"sleeve_from_centre_back": (840, 830)}
    done = fit("shorten left sleeve 10", "--date", DAY, "-o", "b.ini", card=card)
    assert done.returncode == 1
    assert done.err.startswith("tailorgeom: notes:1: arm_length_left cannot be altered: sleeve_from_centre_back is "
                               "given and stands in its place: alter that, for both sides")


@pytest.mark.parametrize("notes, line, parts", [
    ("let out waste 5", 1, ["unknown note", '"let out waist"', "tailorgeom list notes"]),
    ("embroider the collar with violets 5", 1, ["unknown note; ", "tailorgeom list notes"]),
    ("let out waist", 1, ["no amount"]),
    ("let out waist -5", 1, ["has no sign", "(typed: -5)"]),
    ("let out waist 0", 1, ["more than nothing"]),
    ("let out waist 5 3 in waist 3", 1, ["two amounts"]),
    ("let out waist 5,5", 1, ["comma", "(typed: 5,5)"]),
    ("let out waist 1e1", 1, ["(typed: 1e1)"]),
    ("let out waist nan", 1, ["unknown note"]),
    ("let out left waist 5", 1, ["waist_ease, which has no sides"]),
    ("let out waist 5 each", 1, ["waist_ease, which has no sides"]),
    ("lower left shoulder 5 each", 1, ["each or both, or one side"]),
    ("let out waist 3\nlet out waist 2", 2,
     ['line 1, "let out waist 3", changes waist_ease already', "one note of both"]),
    ("let out waist 3\n\ntake in waist 2", 3, ['contradicts line 1, "let out waist 3"', "opposite"]),
    ("let out side seam 3\nlet out left side seam 2", 2, ["on one side and on both", "one for the right"]),
    ("side_let_out_left = +3\nside_let_out = +1", 2, ["on one side and on both"]),
    ("buttoning = +1", 1, ["buttoning is a choice"]),
    ("lapel_width = 85", 1, ["lapel_width has a sign: +6 mm adds"]),
    ("lapel_width = +0", 1, ["changed by nothing"]),
    ("lapel_width = +4 kg", 1, ["lapel_width", "(typed: +4 kg)"]),
    ("lapel_widht = +4", 1, ["unknown field lapel_widht: did you mean lapel_width?"]),
    ("hollow_limit = +2", 1, ["hollow_limit is a constant of the house"]),
    ("front_shoulder = +5", 1, ["front_shoulder is neither given nor assumed"]),
    ("lower break point 40", 1, ["break_rise 12 mm altered by -40 mm is -28 mm: 0 to 30 mm is allowed",
                                 "up to 12 mm would do"]),
    ("shorten coat 150", 1, ["seat_level", "is allowed", 'of "shorten coat 150", up to', "would do"]),
    ("more wrap 5", 1, ["alters nothing of this coat: leave it out", "Single-breasted"]),
    ("more stoop 29\nshorten front 20", 2, ["neck point", "measure it again", 'of "more stoop 29", up to']),
    ("", 0, ["holds no note"]),
    ("# nothing\n;\n", 0, ["holds no note"]),
    ("date = 2026-02-30\nlet out waist 5", 1, ["date is the day of the fitting"]),
    ("let out waist 5\nlet out \xff", 2, ["unknown note"]),
    (b"let out waist \xff", 1, ["is not UTF-8 text: this is not a file of notes"]),
    (b"let out waist \x00 5", 1, ["holds a NUL"]),
    ("let out waist 5 " + "x" * 175, 1, ["191 bytes"]),
    ("let out waist 5 " + "x" * 173, 1, ["188 bytes at most"]),
])
def test_notes_that_are_refused(cli, card, fit, notes, line, parts):
    done = fit(notes)
    assert (done.returncode, done.out) == (1, "")
    assert done.err.count("\n") == 1
    assert done.err.startswith(f"tailorgeom: notes:{line}: " if line else "tailorgeom: notes: ")
    for part in parts:
        assert part in done.err
    assert cli.files() == [card, "notes"] and (cli.directory / card).read_text() == CARD


def test_what_would_do_does(cli, fit):
    """The amount that the refusal names is taken, and one millimetre more is not."""
    for words in ("shorten coat", "more stoop", "take in seat", "narrow lapel", "raise left shoulder", "take in chest"):
        done = fit(f"{words} 1500\n")
        assert done.returncode == 1
        most = int(re.search(r"up to (\d+) mm would do", done.err)[1])
        assert fit(f"{words} {most + 1}\n", "--date", DAY, "-o", "x.ini").returncode == 1
        assert fit(f"{words} {most}\n", "--date", DAY, "-o", "x.ini").returncode == 0
        (cli.directory / "x.ini").unlink()


def test_notes_that_break_a_seam_are_refused(cli, card, failing_check, fit):
    """A coat that is drafted but of which a check fails: here the first check of every three-button coat."""
    (cli.directory / "notes").write_text("let out waist 4")
    name = cli.card(CARD.replace("two-button", "three-button"))
    done = cli("fit", name, "notes", "--date", DAY, env=failing_check)
    assert (done.returncode, done.out) == (1, "")
    assert done.err == f"tailorgeom: {name}: the first check does not hold\n"  # before the fitting already
    assert cli.files() == [name, "notes"]


def test_days(cli, card, fit):
    for notes, more, part in [
            ("let out waist 5", ["--house", "house"], "a fitting has a day: give --date YYYY-MM-DD"),
            ("date = 2026-03-20\nlet out waist 5", ["--date", "2026-03-21"],
             "the notes are of 2026-03-20, --date says")]:
        (cli.directory / "house").write_text("")
        done = fit(notes, *more)
        assert done.returncode == 1 and part in done.err
    assert fit("date = 2026-03-20\nlet out waist 5", "-o", "a.ini").returncode == 0
    done = fit("let out waist 5", "--date", "2026-03-19", card="a.ini")
    assert done.returncode == 1 and "would lie before [fitting 1] of 2026-03-20" in done.err
    assert fit("let out waist 1", "--date", "2026-03-20", card="a.ini").returncode == 0


def test_no_card_is_written_over(cli, card, fit):
    (cli.directory / "card-fitting-1.ini").write_text("mine")
    for more in ([], ["-o", "card-fitting-1.ini"], ["-o", card]):
        done = fit("let out waist 5", "--date", DAY, *more)
        assert done.returncode == 1 and "is there already, and no card is written over" in done.err
    assert (cli.directory / "card-fitting-1.ini").read_text() == "mine"
    assert (cli.directory / card).read_text() == CARD


@pytest.mark.parametrize("path, name", [
    ("card.ini", "card-fitting-1.ini"), ("a.b/card", "a.b/card-fitting-1"), ("card-fitting-x.ini",
                                                                         "card-fitting-x-fitting-1.ini"),
    (".card", ".card-fitting-1"), ("card-fitting-7.ini", "card-fitting-1.ini")])
def test_the_name_beside_the_card(cli, fit, path, name):
    (cli.directory / path).parent.mkdir(exist_ok=True)
    (cli.directory / path).write_text(CARD)
    assert f"\nwrote {name}\n" in fit("let out waist 5", card=path).out
    assert (cli.directory / name).is_file()


def test_standard_input(cli, card, fit):
    fit("let out waist 5")
    done = cli("fit", "-", "notes", "--date", DAY, "-o", "a.ini", input=CARD.encode())
    assert done.returncode == 0
    assert (cli.directory / "a.ini").read_text() == (cli.directory / "card-fitting-1.ini").read_text()
    done = cli("fit", card, "-", "--date", DAY, "-o", "b.ini", input=b"let out waist 5")
    assert done.returncode == 0
    assert (cli.directory / "b.ini").read_text() == (cli.directory / "a.ini").read_text()


def test_a_full_disk_and_a_signal_leave_no_half_card(cli, card, interposed):
    (cli.directory / "notes").write_text("let out waist 5")
    done = cli("fit", card, "notes", "--date", DAY, env=interposed(1))
    assert done.returncode == 1 and "card-fitting-1.ini: cannot be written: No space left" in done.err
    assert cli.files() == [card, "notes"]
    done = cli("fit", card, "notes", "--date", DAY, env=interposed(1, signal.SIGTERM))
    assert done.returncode == -signal.SIGTERM
    assert cli.files() == [card, "notes"]


FITTED = CARD + """
[fitting 1]
date = 2026-03-20
changes = 2
# let out waist 6
waist_ease = +6 mm
coat_length = +10 mm

[fitting 2]
date = 2026-03-27
changes = 1
# shorten sleeve left 10
arm_length_left = -10 mm
"""


def line_of(text, start):
    return [line.startswith(start) for line in text.split("\n")].index(True) + 1


@pytest.mark.parametrize("old, new, at, part", [
    ("[fitting 1]", "[fitting 2]", "[fitting 2]", "[fitting 2] stands where [fitting 1] is expected"),
    ("[fitting 2]", "[fitting 1]", None, "section [fitting 1] stands already on line"),
    ("[fitting 2]", "[fitting 3]", "[fitting 3]",
     "[fitting 3] stands where [fitting 2] is expected: none may be missing"),
    ("[fitting 1]", "[fitting one]", "[fitting one]", "fittings are counted: [fitting 1]"),
    ("[fitting 1]", "[fitting]", "[fitting]", "fittings are counted: [fitting 1]"),
    ("[fitting 1]", "[fitting 01]", "[fitting 01]", "fittings are counted: [fitting 1]"),
    ("[fitting 1]", "[fitting 0]", "[fitting 0]", "fittings are counted: [fitting 1]"),
    ("[fitting 1]", "[fiting 1]", "[fiting 1]", "unknown section [fiting 1]"),
    ("date = 2026-03-20\n", "", "[fitting 1]", "[fitting 1] has no date"),
    ("date = 2026-03-20", "date = 20.3.2026", "date", "date is the day of the fitting, as 2026-11-25"),
    ("date = 2026-03-20", "date = 2026-13-20", "date", "date is the day of the fitting, as 2026-11-25"),
    ("date = 2026-03-20", "date = 2026-03-28", "[fitting 2]", "[fitting 2] of 2026-03-27 lies before [fitting 1]"),
    ("changes = 2", "changes = 3", "[fitting 1]", "[fitting 1] tells of 3 changes and holds 2: the section is torn"),
    ("changes = 2", "changes = two", "changes", "changes tells how many there are"),
    ("coat_length = +10 mm\n", "", "[fitting 1]", "[fitting 1] tells of 2 changes and holds 1"),
    ("waist_ease = +6 mm\ncoat_length = +10 mm\n", "", "[fitting 1]", "[fitting 1] holds no change"),
    ("arm_length_left = -10 mm\n", "arm_length_left = -10\n", "arm_length_left",
     "a change of arm_length_left has its unit"),
    ("arm_length_left = -10 mm\n", "arm_length_left = -10 m\n", "arm_length_left", "(typed: -10 m)"),
    ("arm_length_left = -10 mm\n", "arm_length_left = 592 mm\n", "arm_length_left", "arm_length_left has a sign"),
    ("arm_length_left = -10 mm\n", "arm_length_left =", "arm_length_left", "arm_length_left has a sign"),
    ("arm_length_left = -10 mm\n", "arm_length_l", "arm_length_l", "a line is a key, an equals sign and a value"),
    ("coat_length = +10 mm", "waist_ease = +6 mm", None, "waist_ease stands already on line"),
    ("coat_length = +10 mm", "buttoning = +1", "buttoning = +1", "buttoning is a choice"),
    ("coat_length = +10 mm", "hollow_limit = +1 mm", "hollow_limit", "hollow_limit is a constant of the house"),
    ("coat_length = +10 mm", "coat_lenght = +1 mm", "coat_lenght",
     "unknown field coat_lenght: did you mean coat_length?"),
    ("coat_length = +10 mm", "coat_length = +900 mm", "coat_length", "altered by +900 mm is"),
    ("coat_length = +10 mm", "left_out = maybe\ncoat_length = +10 mm", "left_out", "left_out is yes or no"),
])
def test_cards_whose_fittings_are_torn(cli, old, new, at, part):
    text = FITTED.replace(old, new, 1)
    assert text != FITTED
    name = cli.card(text)
    sentences = set()
    for command in (["draft", name, "-o", "sheets"], ["compare", name], ["check", name], ["diff", name, name],
                    ["fit", name, "notes", "--date", "2026-04-01"]):
        (cli.directory / "notes").write_text("let out seat 3")
        done = cli(*command)
        assert (done.returncode, done.out) == (1, ""), command
        sentences.add(done.err)
    assert len(sentences) == 1 and cli.files() == [name, "notes"]
    sentence = sentences.pop()
    assert part in sentence and sentence.count("\n") == 1
    if at:
        assert sentence.startswith(f"tailorgeom: {name}:{line_of(text, at)}: ")


def test_a_card_cut_off_anywhere_in_a_fitting_is_noticed(cli):
    """At every byte from the head of the last fitting to its last unit; but not where nothing but blank is lost."""
    cli.good("check", cli.card(FITTED))
    start = FITTED.index("[fitting 2]") + 1
    for end in range(start, len(FITTED.rstrip("\n"))):
        done = cli("check", "-", input=FITTED[:end].encode())
        assert done.returncode == 1 and done.err.count("\n") == 1, FITTED[start - 1:end]


def test_a_house_s_file_has_no_fittings(cli, card):
    (cli.directory / "house.ini").write_text("[house]\nlapel_width = 90\n[fitting 1]\ndate = 2026-03-20\n")
    done = cli("check", card, "--house", "house.ini")
    assert done.returncode == 1 and done.err.startswith("tailorgeom: house.ini:3: a house's file holds no fittings")


def test_too_many_fittings(cli, fit):
    text = CARD + "".join(f"[fitting {i}]\ndate = {DAY}\nwaist_ease = {'+-'[i % 2]}1 mm\n" for i in range(2, 42))
    text = text.replace("[fitting 2]", "[fitting 1]", 1)
    for i in range(3, 42):
        text = text.replace(f"[fitting {i}]", f"[fitting {i - 1}]", 1)
    name = cli.card(text)
    cli.good("check", name)
    done = fit("let out waist 1", card=name)
    assert done.returncode == 1 and "a card holds 40 fittings at most" in done.err


def test_random_notes_are_taken_or_refused_in_a_sentence(cli, card):
    chance = random.Random(20260320)
    rows = phrases(cli)
    ends = {0: 0, 1: 0}
    for _ in range(250):
        lines = []
        for _ in range(chance.randint(1, 4)):
            words = chance.choice(rows)["phrase"].split()
            if chance.random() < 0.2:
                words.insert(chance.randrange(len(words) + 1),
                             chance.choice(["left", "right", "each", "x", "5", "=", "the"]))
            lines.append(" ".join([*words, chance.choice(["3", "1 mm", "1/4 in", "12", "", "nan", "999999", "-2"])
                                   if chance.random() < 0.3 else str(chance.randint(1, 9))]))
        (cli.directory / "after.ini").unlink(missing_ok=True)
        done = cli("fit", card, "-", "--date", DAY, "-o", "after.ini", input="\n".join(lines).encode())
        assert done.returncode in (0, 1) and done.err.count("\n") == done.returncode, (lines, done)
        if done.returncode == 0:  # what is written is a card, and a coat
            cli.good("check", "after.ini")
        assert cli.files() == (["after.ini", card] if done.returncode == 0 else [card])
        ends[done.returncode] += 1
    assert min(ends.values()) > 30


def test_the_list_of_notes(cli):
    text = cli.good("list", "notes")
    for row in phrases(cli):
        assert re.search(rf"^  {row['phrase']} +{row['field']} by ", text, re.M) and row["meaning"] in text
        assert row["provenance"]


def test_the_phrases_are_those_of_the_table():
    """The C table is written from the CSV: again would change nothing."""
    command = ["/usr/bin/python3", ROOT / "cli/generate_phrases.py", "--check"]
    assert subprocess.run(command).returncode == 0


def test_the_examples(cli):
    examples = ROOT / "examples/cards"
    out = cli.good("fit", examples / "fitted.ini", examples / "fitted-notes.txt", "-o", "third.ini")
    assert out.startswith("fitting 3, 2026-10-26\n")
    assert "left out" in cli.good("check", examples / "fitted.ini")
