"""tailorgeom canvas: the table, the layout sheet, JSON, what is refused, and what Ctrl-C leaves."""
import json
import re
import resource
import signal
import subprocess

import pytest

from test_cli_files import assert_whole, bound_by_permissions
from watched import Terminal

SHEETS = ["canvas.pdf", "canvas.png", "canvas.svg"]
FEW = ["--iterations", "50"]


def numbers(out):
    """{cloth: words of its line}"""
    return {line.split()[0]: line.split() for line in out.splitlines() if line.startswith(("canvas ", "haircloth "))}


def test_table_and_three_whole_sheets(cli, card):
    out = cli.good("canvas", card, "--angle", "20", *FEW, "-o", "sheets/of/today")
    assert cli.files("sheets/of/today") == SHEETS
    for name in SHEETS:
        assert_whole(cli.directory / "sheets/of/today" / name)
        assert f"wrote sheets/of/today/{name}\n" in out
    assert out.startswith("Mr Orrin Fallowell, order 77\n")
    table = numbers(out)
    assert table["canvas"][1:3] == ["750", "20"] and table["haircloth"][1:3] == ["500", "-"]
    assert "the best found in 50 iterations" in out


def test_it_writes_here_by_default_and_the_same_again(cli, card):
    cli.good("canvas", card, *FEW)
    assert cli.files() == sorted([card, *SHEETS])
    first = {name: (cli.directory / name).read_bytes() for name in SHEETS}
    cli.good("canvas", card, *FEW)
    assert first == {name: (cli.directory / name).read_bytes() for name in SHEETS}


def test_json_tells_what_the_table_tells(cli, card):
    arguments = ["canvas", card, "--angle", "20", "--width", "80 cm", *FEW]
    document = json.loads(cli.good(*arguments, "--json"))
    assert cli.files() == [card]  # no file unless asked
    assert document["format"] == "tailorgeom-canvas" and document["iterations"] == 50
    canvas, haircloth = document["lays"]
    assert (canvas["cloth"], haircloth["cloth"]) == ("canvas", "haircloth")
    assert (canvas["angle"], canvas["width"], canvas["plies"], canvas["sides"]) == (20, 800, "single", "mirrored")
    table = numbers(cli.good(*arguments))
    assert float(table["canvas"][3]) == pytest.approx(canvas["cloth_length"] + 0.05, abs=0.06)
    assert float(table["canvas"][7]) == pytest.approx(canvas["straight_length"], abs=0.06)
    assert canvas["extra"] == canvas["cloth_length"] - canvas["straight_length"]
    assert sorted((place["piece"], place["side"]) for place in canvas["places"]) == [
        ("body_canvas", "left"), ("body_canvas", "right"), ("collar_canvas", "left"), ("collar_canvas", "right")]
    end = max(x for place in canvas["places"] for cubic in place["outline"] for x, _ in (cubic[0], cubic[3]))
    assert end <= canvas["length"] + 1e-3
    cli.good(*arguments, "--json", "-o", "sheets")
    assert cli.files("sheets") == SHEETS


def test_the_angle_of_the_order(cli, card):
    """--angle stands in place of the card's canvas_angle."""
    slanting = cli.card((cli.directory / card).read_text() + "\n[cloth]\ncanvas_angle = 15\n", "slanting.ini")
    assert numbers(cli.good("canvas", slanting, *FEW))["canvas"][2] == "15"
    assert numbers(cli.good("canvas", slanting, *FEW, "--angle=-10"))["canvas"][2] == "-10"
    assert json.loads(cli.good("canvas", slanting, *FEW, "--json")) == {
        **json.loads(cli.good("canvas", card, *FEW, "--angle", "15", "--json"))}


def test_doubled_alike_and_joined(cli, card):
    folded = json.loads(cli.good("canvas", card, *FEW, "--doubled", "--width", "1500", "--json"))["lays"][0]
    assert folded["strip_width"] == 750 and len(folded["places"]) == 2
    alike = json.loads(cli.good("canvas", card, *FEW, "--alike", "--angle", "20", "--json"))["lays"]
    assert [lay["sides"] for lay in alike] == ["alike", "mirrored"]
    joined = json.loads(cli.good("canvas", card, *FEW, "--angle", "45", "--width", "500", "--join", "3/4 in", "--json"))
    assert joined["lays"][0]["overlap"] == pytest.approx(19.05) and joined["lays"][0]["joins"] == 2


@pytest.mark.parametrize("arguments, sentence", [
    (["--angle", "45", "--width", "500"], "canvas: body_canvas takes "),
    (["--width", "5000000"], "canvas: the cloth is 5000000 mm wide: it may be from 100 to 5000 mm"),
    (["--hair-width", "150"], "haircloth: chest_piece takes "),
    (["--gap", "101"], "canvas: the gap between pieces is 101 mm"),
    (["--join", "1"], "canvas: parts that are joined lap over by 5 to 60 mm, not by 1 mm"),
    (["--doubled", "--alike"], "canvas: doubled canvas lies face to face"),
])
def test_refusals(cli, card, arguments, sentence):
    done = cli("canvas", card, *FEW, *arguments)
    assert done.returncode == 1 and done.out == ""
    assert done.err.startswith(f"tailorgeom: {card}: {sentence}") and done.err.count("\n") == 1
    assert cli.files() == [card]


def test_an_order_that_is_refused(cli):
    card = cli.card("[measures]\nchest_girth = 40\n")
    done = cli("canvas", card)
    assert done.returncode == 1 and f"tailorgeom: {card}:2: " in done.err
    assert cli.files() == [card]


def test_angle_out_of_range_is_told(cli, card):
    done = cli("canvas", card, "--angle", "120")
    assert done.returncode in (1, 2) and "120" in done.err and "90" in done.err
    assert cli.files() == [card]


# ---- files


def test_directory_that_cannot_be_written(cli, card):
    shut = cli.directory / "shut"
    shut.mkdir()
    shut.chmod(0o555)
    done = cli("canvas", card, *FEW, "-o", "shut", preexec_fn=bound_by_permissions)
    assert (done.returncode, done.err) == (1, "tailorgeom: shut/canvas.svg: cannot be written: Permission denied\n")
    assert cli.files("shut") == [] and done.out == ""


def test_the_empty_directory_name(cli, card):
    done = cli("canvas", card, *FEW, "-o", "")
    assert (done.returncode, done.err) == (1, "tailorgeom: the empty path: cannot be made: No such file or directory\n")


@pytest.mark.parametrize("nth", [1, 2, 3])
def test_full_disk_noticed_late(cli, card, interposed, nth):
    cli.good("canvas", card, *FEW)
    before = {name: (cli.directory / name).read_bytes() for name in SHEETS}
    done = cli("canvas", card, *FEW, "--angle", "20", env=interposed(nth))
    name = ["canvas.svg", "canvas.pdf", "canvas.png"][nth - 1]
    assert (done.returncode, done.err) == (1, f"tailorgeom: {name}: cannot be written: No space left on device\n")
    assert before == {name: (cli.directory / name).read_bytes() for name in SHEETS}
    assert cli.files() == sorted([card, *SHEETS])


def test_file_that_may_grow_no_further(cli, card):
    done = cli("canvas", card, *FEW, preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (2000, 2000)))
    assert done.returncode == 1 and done.err.endswith("cannot be written: File too large\n")
    assert cli.files() == [card]


@pytest.mark.parametrize("more", [[], ["--json"]])
def test_standard_output_that_cannot_be_written(cli, card, more):
    with open("/dev/full", "wb") as full:
        done = cli("canvas", card, *FEW, *more, capture_output=False, stdout=full, stderr=subprocess.PIPE)
    assert done.returncode == 1
    assert done.err == "tailorgeom: standard output: cannot be written: No space left on device\n"


# ---- progress and Ctrl-C


def searching(cli, card):
    """A search without end that has got somewhere: it says so on its terminal."""
    terminal = Terminal()
    command = [cli.path, "canvas", card, "--angle", "45", "--iterations", "999999999"]
    run = terminal.start(command, cwd=cli.directory, text=True, stdout=subprocess.PIPE)
    terminal.until(b" of 999999999 iterations, canvas ")
    return run, terminal


def test_ctrl_c_leaves_the_best_so_far(cli, card):
    run, terminal = searching(cli, card)
    run.send_signal(signal.SIGINT)
    out = run.communicate()[0]
    assert run.returncode == 1
    line = terminal.rest().decode().split("\r\x1b[K")[-1]  # progress is cleared before it
    assert line.startswith("tailorgeom: stopped after ") and line.endswith(": what follows is the best so far\r\n")
    assert line.count("\n") == 1
    assert "canvas" in numbers(out) and cli.files() == sorted([card, *SHEETS])
    for name in SHEETS:
        assert_whole(cli.directory / name)
    made = int(line.split("after ")[1].split()[0])
    assert made > 0 and f"the best found in {made} iterations" in out
    if made < 5000:  # as good as the same number of iterations asked for
        again = cli.good("canvas", card, "--angle", "45", "--iterations", made, "-o", "again")
        assert numbers(again) == numbers(out)


def test_other_signals_leave_nothing(cli, card):
    run, terminal = searching(cli, card)
    run.send_signal(signal.SIGTERM)
    run.communicate()
    terminal.rest()
    assert run.returncode == -signal.SIGTERM and cli.files() == [card]


def test_progress_on_a_terminal_only(cli, card, fast_clock):
    command = ["canvas", card, "--angle", "45", *FEW]
    terminal = Terminal()
    run = terminal.start([cli.path, *command], cwd=cli.directory, stdout=subprocess.DEVNULL, env=fast_clock)
    told = terminal.rest()
    assert run.wait() == 0
    lines = re.findall(r"\r(\d+) of 50 iterations, canvas \d+ mm, haircloth \d+ mm[^\r]*\x1b\[K", told.decode())
    assert lines == ["20", "40", "50"]
    assert told.endswith(b"\r\x1b[K")  # and the line is cleared
    cli.good(*command, env=fast_clock)
