"""Cards that cannot be drafted: exit status 1, one sentence with file and line, and no file written."""
import os
import random

import pytest

from client_card import CARD


def refused(cli, text, *arguments):
    """Refuses the card in every command, in the same words; returns them."""
    name = cli.card(text)
    sentences = set()
    for command in (["draft", name, "-o", "sheets"], ["draft", name, "--json"], ["compare", name, "-o", "fronts.svg"],
                    ["check", name], ["check", name, "--resolved"]):
        done = cli(*command, *arguments)
        assert done.returncode == 1, command
        if command[0] != "check":
            assert done.out == "" or command[0] == "compare"
        sentences.add(done.err)
    assert cli.files() == [name] or cli.files() == sorted([name, "house.ini"])
    assert len(sentences) == 1
    sentence = sentences.pop()
    assert sentence.startswith("tailorgeom: ") and sentence.count("\n") == 1
    return sentence[len("tailorgeom: "):-1]


def with_line(key, value):
    """The card with one line changed or added, and the number of that line."""
    lines = CARD.splitlines()
    at = next((i for i, line in enumerate(lines) if line.startswith(key + " ")), lines.index("[measures]") + 1)
    lines[at:at + (lines[at].startswith(key + " "))] = [f"{key} = {value}"]
    return "\n".join(lines) + "\n", at + 1


@pytest.mark.parametrize("key, value, parts", [
    ("chest_girth", "40", ["chest_girth 40 mm", "700 to 1600 mm", "did you mean 40 in (1016 mm)?"]),
    ("chest_girth", "4000", ["chest_girth 4000 mm", "700 to 1600 mm"]),
    ("chest_girth", "nan", ["chest_girth", "700 to 1600 mm", "(typed: nan)"]),
    ("chest_girth", "inf", ["chest_girth", "700 to 1600 mm", "(typed: inf)"]),
    ("chest_girth", "-1", ["chest_girth -1 mm", "700 to 1600 mm"]),
    ("chest_girth", "1e3", ["chest_girth", "700 to 1600 mm", "(typed: 1e3)"]),
    ("chest_girth", "0x400", ["chest_girth", "700 to 1600 mm", "(typed: 0x400)"]),
    ("chest_girth", "101,6 cm", ["chest_girth", "700 to 1600 mm", "comma", "102.5 cm", "(typed: 101,6 cm)"]),
    ("chest_girth", "40 3/8", ["chest_girth", "40 3/8 in"]),
    ("chest_girth", "1016 mm wide", ["chest_girth", "(typed: 1016 mm wide)"]),
    ("chest_girth", "", ["chest_girth has no value"]),
    ("waist_girth", "1316", ["waist_girth 1316 mm", "chest_girth 1016 mm", "1216 mm is allowed"]),
    ("stature", "900", ["stature 900 mm", "1400 to 2200 mm"]),
    ("seat_level", "500", ["seat_level 500 mm", "back_waist_length 445 mm"]),
    ("front_waist_length", "740", ["front_waist_length 740 mm", "back_waist_length 445 mm"]),
    ("cross_chest", "700", ["cross_chest 700 mm", "chest_girth 1016 mm", "back_width 400 mm"]),
    ("buttoning", "four-button", ["buttoning takes one of one-button, two-button", "(typed: four-button)"]),
    ("buttoning", "2", ["buttoning takes one of one-button, two-button", "(typed: 2)"]),
])
def test_values(cli, key, value, parts):
    text, line = with_line(key, value)
    sentence = refused(cli, text)
    assert sentence.startswith(f"card.ini:{line}: ")
    for part in parts:
        assert part in sentence


def test_a_chest_is_required(cli):
    sentence = refused(cli, "[measures]\nwaist_girth = 890\n")
    assert sentence.startswith("card.ini: chest_girth is required")


@pytest.mark.parametrize("text, expected", [
    ("[measures]\nchest_girth = 1016\nchest_girth = 1016\n", "3: chest_girth stands already on line 2"),
    ("[measures]\nchest_girth = 1016\n[style]\n[measures]\n", "4: section [measures] stands already on line 1"),
    ("[client]\nname = A\nname = B\n", "3: name stands already in [client]"),
    ("[measures]\nchest_girht = 1016\n", "2: unknown key chest_girht: did you mean chest_girth in [measures]?"),
    ("[measures]\nchest = 1016\n", "2: unknown key chest: did you mean chest_girth in [measures]?"),
    ("[measures]\nlapel_widht = 88\n", "2: unknown key lapel_widht: did you mean lapel_width in [style]?"),
    ("[client]\nnmae = A\n", "2: unknown key nmae: did you mean name?"),
    ("[house]\nhollow_limits = 20\n", "2: unknown key hollow_limits: did you mean hollow_limit in [house]?"),
    ("[style]\nxyzzyplugh = 3\n", "2: unknown key xyzzyplugh in [style]: `tailorgeom list fields` shows all keys"),
    ("[mesures]\nchest_girth = 1016\n", "1: unknown section [mesures]: did you mean [measures]?"),
    ("[mesures]\n", "1: unknown section [mesures]: did you mean [measures]?"),
    ("[xyzzyplugh]\n", "1: unknown section [xyzzyplugh]"),
    ("[style]\nchest_girth = 1016\n", "2: chest_girth stands in [style]; it belongs in [measures]"),
    ("[client]\nchest_girth = 1016\n", "2: chest_girth stands in [client]; it belongs in [measures]"),
    ("[style]\nhollow_limit = 24\n", "2: hollow_limit stands in [style]; it belongs in [house]"),
    ("chest_girth = 1016\n", "1: a key stands before the first section: begin the card with [measures]"),
    ("[measures]\nchest_girth 1016\n", "2: a line is a key, an equals sign and a value: chest_girth = 1016"),
    ("[measures]\nchest_girth : 1016\n", "2: a line is a key, an equals sign and a value: chest_girth = 1016"),
    ("[measures]\n= 1016\n", "2: a line is a key, an equals sign and a value: chest_girth = 1016"),
    ("[measures] # here\n", "1: a section stands alone on its line, in brackets: [measures]"),
    ("[measures\n", "1: a section stands alone on its line, in brackets: [measures]"),
    ("[measures]\nchest_girth = 1016\n  waist_girth = 890\n", "3: the line is indented: begin it at the margin"),
    ("[measures]\n# " + "x" * 189 + "\n", "2: the line has 191 bytes, 190 are the most"),
    ("[house]\nhollow_limit = 200\n[measures]\nchest_girth = 1016\n",
     "2: hollow_limit 200 mm is too large: 12 to 34 mm is allowed (in the house's values)"),
    ("[measures]\nchest_girth = 1016\n[assumed]\nchest_girth = 1016\n", "4: chest_girth stands already on line 2"),
    ("[card]\nedition = one\n", "2: edition is one whole number, and stands once"),
    (b"[measures]\nchest_girth = 10\x0016\n", "2: byte 17 of the line holds a NUL: this is not a card"),
    (b"[measures]\n# Gr\xf6\xdfe\n", "2: byte 5 of the line is not UTF-8 text: this is not a card"),
    (b"[measures]\nname = \xc0\xaf\n", "2: byte 8 of the line is not UTF-8 text: this is not a card"),
    (b"[measures]\nname = \xed\xa0\x80\n", "2: byte 8 of the line is not UTF-8 text: this is not a card"),
    ("[client]\nname = \x1b[31m\n", "2: byte 8 of the line holds a control character: this is not a card"),
    ("[client]\nname = A\rB\n", "2: byte 9 of the line holds a control character: this is not a card"),
    ("[measures]\n".encode("utf-16"), "1: byte 1 of the line is not UTF-8 text: this is not a card"),
])
def test_malformed(cli, text, expected):
    assert refused(cli, text) == "card.ini:" + expected


def test_binary(cli):
    assert "this is not a card" in refused(cli, cli.path.read_bytes()[:200000])


def test_too_large(cli):
    line = b"# nothing but a long comment\n"
    assert refused(cli, line * (256 * 1024 // len(line) + 1)) == "card.ini: is larger than 256 KiB: this is not a card"


def test_unreadable(cli):
    for command in ("draft", "compare", "check"):
        done = cli(command, "missing.ini")
        assert (done.returncode, done.out) == (1, "")
        assert done.err == "tailorgeom: missing.ini: cannot be opened: No such file or directory\n"
        done = cli(command, ".")
        assert (done.returncode, done.err) == (1, "tailorgeom: .: cannot be read: Is a directory\n")


def test_the_house_file_is_named_where_it_is_at_fault(cli):
    (cli.directory / "house.ini").write_text("[house]\n\nlapel_width = 30\n")
    sentence = refused(cli, CARD, "--house", "house.ini")
    assert sentence.startswith("house.ini:3: lapel_width 30 mm is too small: 60 to 112 mm")
    (cli.directory / "house.ini").write_text("[house]\nlapel_widht = 90\n")
    assert refused(cli, CARD, "--house", "house.ini").startswith("house.ini:2: unknown key lapel_widht")
    (cli.directory / "house.ini").unlink()
    assert refused(cli, CARD, "--house", "house.ini") == "house.ini: cannot be opened: No such file or directory"


def test_card_and_house_cannot_both_be_standard_input(cli):
    done = cli("check", "-", "--house", "-", input=CARD.encode())
    assert done.returncode == 1 and "one and the same: standard input" in done.err


def test_what_is_allowed(cli):
    """Byte-order mark, CR LF, comments, no newline at the end, keys of ease with the figure: the same coat."""
    plain = cli.good("check", cli.card(CARD + "crook = 5\n"))
    odd = "\ufeff; a comment\r\n# another\r\n" + CARD.replace("\n", "\r\n").replace("= 890", "=890 ; close")
    odd += "[figure]\r\ncrook = 5"
    assert cli.good("check", cli.card(odd)) == plain


def damaged(chance, text):
    """The card with a few bytes exchanged, removed, doubled or made up."""
    data = bytearray(text.encode())
    for _ in range(chance.randint(1, 6)):
        at = chance.randrange(len(data))
        kind = chance.randrange(5)
        if kind == 0:
            data[at] = chance.randrange(256)
        elif kind == 1:
            del data[at:at + chance.randint(1, 12)]
        elif kind == 2:
            data[at:at] = data[at:at + chance.randint(1, 300)]
        elif kind == 3:
            data[at:at] = bytes(chance.choice(b"=[];#\n\r \t0123456789.-/,:\"") for _ in range(chance.randint(1, 8)))
        else:
            line = data.split(b"\n")
            chance.shuffle(line)
            data = bytearray(b"\n".join(line))
        data = data or bytearray(b"\n")
    return bytes(data)


def test_damaged_cards_are_refused_in_a_sentence_or_drafted(cli):
    chance = random.Random(20260302)
    refusals = 0
    for _ in range(3000 if os.environ.get("TAILOR_LONG") else 250):
        card = damaged(chance, CARD + "[house]\nhollow_limit = 24\n[card]\nedition = 1\n")
        done = cli("check", "-", "--resolved", input=card)
        assert done.returncode in (0, 1), (card, done)
        assert done.returncode == 0 or done.err.startswith("tailorgeom: standard input"), (card, done)
        assert done.err.count("\n") == done.returncode, (card, done)
        refusals += done.returncode
    assert refusals > 100
