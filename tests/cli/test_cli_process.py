"""The program as a process: memory, locale, what it links, how long it takes."""
import os
import pathlib
import subprocess

import pytest

HERE = pathlib.Path(__file__).parent
RUNS = [["--help"], ["list", "fields"], ["list", "checks", "--json"], ["check", "card.ini"],
        ["check", "card.ini", "--resolved"], ["compare", "card.ini"], ["compare", "card.ini", "--json"],
        ["compare", "card.ini", "-o", "fronts.svg"], ["draft", "card.ini", "--json"],
        ["draft", "card.ini", "-o", "sheets"],
        ["canvas", "card.ini", "--iterations", "5", "-o", "sheets"]]
REFUSALS = [["draft"], ["draft", "missing.ini"], ["compare", "bad.ini"], ["compare", "bad.ini", "--json"],
            ["compare", "card.ini", "--by", "lapel_width=80,140"], ["check", "malformed.ini"],
            ["draft", "card.ini", "-o", "card.ini/x"], ["canvas", "card.ini", "--width", "300"]]


@pytest.mark.parametrize("arguments", RUNS + REFUSALS, ids=" ".join)
def test_no_memory_error_and_no_leak(cli, card, arguments):
    """Under valgrind; a build with the address sanitizer looks for itself, and its leak check ends with status 23."""
    cli.card("[measures]\nchest_girth = 40\n", "bad.ini")
    cli.card("[measures]\nchest_girth = 1016\nchest_girth = 1016\n", "malformed.ini")
    before = ["valgrind", "-q", "--error-exitcode=99", "--leak-check=full", "--show-leak-kinds=definite,indirect",
              "--errors-for-leak-kinds=definite,indirect", f"--suppressions={HERE / 'leaks.valgrind'}"]
    done = cli(*arguments, before=[] if cli.sanitized else before)
    assert done.returncode == (0 if arguments in RUNS else 2 if arguments == ["draft"] else 1), done.err
    assert "ERROR" not in done.err and "==" not in done.err, done.err


def test_a_locale_with_a_decimal_comma_changes_nothing(cli, card):
    subprocess.run(["localedef", "-i", "de_DE", "-f", "UTF-8", cli.directory / "de_DE.utf8"],
                   check=True, capture_output=True)
    comma = {**os.environ, "LOCPATH": str(cli.directory), "LC_ALL": "de_DE.utf8", "LANG": "de_DE.utf8"}
    told = subprocess.run(["/usr/bin/python3", "-c", "import locale; locale.setlocale(locale.LC_ALL, ''); "
                           "print(locale.localeconv()['decimal_point'])"], env=comma, capture_output=True, check=True)
    assert told.stdout == b",\n", "the locale works"
    for arguments in RUNS:
        plain = cli.good(*arguments, env={**os.environ, "LC_ALL": "C"})
        assert cli.good(*arguments, env=comma) == plain
    for text in ("chest_girth = 101,6 cm", "chest_girth = 101.6 cm"):
        card = cli.card(f"[measures]\n{text}\n")
        assert cli("check", card, env=comma).returncode == ("," in text)


def imported(cli):
    return subprocess.run(["nm", "-D", "--undefined-only", cli.path], capture_output=True, check=True, text=True).stdout


def test_it_never_sets_a_locale(cli):
    symbols = imported(cli)
    assert "fflush" in symbols and "setlocale" not in symbols


def test_it_uses_only_public_symbols_of_the_library(cli):
    symbols = imported(cli)
    assert "tailor_order_resolve" in symbols and "tailor_in_" not in symbols
