"""Help, versions, and the exit status of wrong command lines."""
import pathlib
import re

import pytest

COMMANDS = ["draft", "compare", "check", "fit", "diff", "ticket", "rows", "canvas", "roll", "cloth", "import", "grade",
            "book", "list", "help"]
MAN = pathlib.Path(__file__).parents[2] / "cli" / "tailorgeom.1"


def options_of(help_text):
    return set(re.findall(r"^  +(?:-\w, )?(--[a-z-]+)", help_text, re.M))


def test_program_help_names_every_command(cli):
    text = cli.good("--help")
    assert text == cli.good("-h") == cli.good("help")
    assert [line.split()[0] for line in text.split("commands\n")[1].split("\n\n")[0].splitlines()] == COMMANDS
    assert all(len(line) <= 100 for line in text.splitlines())


@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_has_help(cli, command):
    text = cli.good("help", command)
    assert text == cli.good(command, "--help") == cli.good(command, "-h")
    assert text.startswith(f"usage: tailorgeom {command}")
    assert {"--help", "--version"} <= options_of(text)
    assert all(len(line) <= 110 for line in text.splitlines())


def test_options_are_those_asked_for(cli):
    expected = {
        "draft": {"--output", "--json", "--anonymous", "--house", "--cloths", "--print"},
        "compare": {"--by", "--output", "--json", "--anonymous", "--house", "--cloths", "--print"},
        "check": {"--resolved", "--house", "--cloths", "--print"},
        "fit": {"--output", "--date", "--house", "--cloths"},
        "diff": {"--output", "--json", "--anonymous", "--house", "--cloths", "--print"},
        "ticket": {"--output", "--json", "--anonymous", "--house", "--cloths", "--print"},
        "rows": {"--want", "--output", "--jobs", "--house", "--cloths", "--resume"},
        "canvas": {"--angle", "--width", "--hair-width", "--doubled", "--alike", "--gap", "--join", "--iterations",
                   "--output", "--json", "--anonymous", "--house", "--cloths", "--print"},
        "roll": {"--section", "--output", "--json", "--anonymous", "--house", "--cloths", "--print"},
        "cloth": {"--json", "--cloths"},
        "grade": {"--sizes", "--fit", "--card", "--base", "--nest", "--align", "--rules", "--output", "--json",
                  "--house", "--cloths", "--print"},
        "import": {"--output"},
        "book": {"--output", "--sheets", "--anonymous", "--sizes", "--want", "--jobs", "--house", "--cloths",
                 "--resume"},
        "list": {"--json"},
        "help": set(),
    }
    for command, options in expected.items():
        assert options_of(cli.good("help", command)) - {"--help", "--version"} == options


def test_the_manual_page_names_every_command_and_option(cli):
    manual = MAN.read_text().replace("\\-", "-")
    for command in COMMANDS:
        assert re.search(rf"^\.B {command}$", manual, re.M), command
        for option in options_of(cli.good("help", command)):
            assert re.search(rf"^\\fB(-\w\\fR, \\fB)?{option}\\fR", manual, re.M), option


def test_the_manual_page_is_of_this_version(cli):
    version = cli.good("--version").split(",")[0]
    assert MAN.read_text().splitlines()[0] == f'.TH TAILORGEOM 1 "" "{version}"'


@pytest.mark.parametrize("arguments", [["--version"], *([command, "--version"] for command in COMMANDS)])
def test_version_everywhere(cli, arguments):
    assert re.fullmatch(r"tailorgeom \d+\.\d+\.\d+, edition \d+ of the rules\n", cli.good(*arguments))


@pytest.mark.parametrize("arguments, sentence", [
    ([], "no command given"),
    (["draff", "card.ini"], "unknown command draff: did you mean draft?"),
    (["embroider"], "unknown command embroider; `tailorgeom help` lists them"),
    (["--sideways"], "unknown option --sideways"),
    (["draft"], "draft needs CARD"),
    (["draft", "a", "b"], "one CARD too many: b"),
    (["draft", "--sideways", "card.ini"], "unknown option --sideways"),
    (["draft", "-x", "card.ini"], "unknown option -x"),
    (["draft", "card.ini", "-o"], "-o needs an argument"),
    (["draft", "card.ini", "--house"], "--house needs an argument"),
    (["draft", "--print", "cm", "card.ini"], "--print takes mm, in or in16, not cm"),
    (["draft", "--resolved", "card.ini"], "unknown option --resolved"),
    (["compare", "card.ini", "-o", "fronts.bmp"], "-o fronts.bmp: the name ends in .svg, .pdf or .png"),
    (["compare", "card.ini", "--by", "lapel_width"], "--by lapel_width: write a field"),
    (["compare", "card.ini", "--by", "lapel_width="], "--by lapel_width=: write a field"),
    (["compare", "card.ini", "--by", "lapel_width=80,,90"], "--by lapel_width=80,,90: write a field"),
    (["compare", "card.ini", "--by", "lapel_wdth=80"], "--by lapel_wdth: no such field: did you mean lapel_width?"),
    (["compare", "card.ini", "--by", "lapel_width=wide"], "lapel_width (60 to 112 mm)"),
    (["compare", "card.ini", "--by", "lapel=step,swallow"], "lapel takes one of step, peak, shawl (typed: swallow)"),
    (["compare", "card.ini", "--by", "lapel=step", "--by", "lapel=peak"], "--by lapel stands twice"),
    (["fit", "card.ini"], "fit needs CARD NOTES"),
    (["fit", "card.ini", "a", "b"], "one NOTES too many: b"),
    (["fit", "card.ini", "notes", "--date", "25.11.2026"], "--date takes a day as 2026-11-25, not 25.11.2026"),
    (["fit", "-", "notes"], "a card from standard input has no name: give the new one with -o"),
    (["fit", "-", "-", "-o", "card2.ini"], "the card and the notes cannot both be standard input"),
    (["fit", "card.ini", "notes", "--house", "notes"], "the house's file is the card or the notes: notes"),
    (["diff", "card.ini"], "diff needs CARD1 CARD2"),
    (["diff", "-", "-"], "the cards cannot both be standard input"),
    (["rows"], "rows needs IN.csv"),
    (["rows", "in.csv", "--json"], "unknown option --json"),
    (["canvas", "card.ini", "--angle", "steep"], "--angle steep: "),
    (["canvas", "card.ini", "--width", "75,5 cm"], "--width 75,5 cm: "),
    (["canvas", "card.ini", "--iterations", "1e3"], "--iterations takes a number from 0 to 999999999, not 1e3"),
    (["list"], "list needs fields"),
    (["list", "field"], "no list of field: did you mean fields?"),
    (["help", "drat"], "unknown command drat: did you mean draft?"),
])
def test_wrong_usage(cli, card, arguments, sentence):
    done = cli(*arguments)
    assert done.returncode == 2
    assert done.out == ""
    assert done.err.startswith("tailorgeom: ") and sentence in done.err.splitlines()[0]
    assert cli.files() == ["card.ini"]


def test_options_may_stand_before_or_after_the_card(cli, card):
    assert cli.good("check", card, "--resolved") == cli.good("check", "--resolved", card)
