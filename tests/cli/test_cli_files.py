"""Files are written whole or not at all, and every failure to write is told."""
import ctypes
import os
import resource
import shutil
import signal
import stat
import subprocess

import pytest

SHEETS = ["pattern.pdf", "pattern.png", "pattern.svg"]
MAGIC = {".svg": b"<?xml", ".pdf": b"%PDF-", ".png": b"\x89PNG\r\n"}


def assert_whole(path):
    data = path.read_bytes()
    assert data.startswith(MAGIC[path.suffix])
    assert data.rstrip().endswith({".svg": b"</svg>", ".pdf": b"%%EOF", ".png": b"IEND\xaeB`\x82"}[path.suffix])


def test_draft_writes_three_whole_sheets(cli, card):
    out = cli.good("draft", card, "-o", "sheets/of/today")
    directory = cli.directory / "sheets/of/today"
    assert cli.files(directory) == SHEETS
    for name in SHEETS:
        assert_whole(directory / name)
        assert f"wrote sheets/of/today/{name}\n" in out
    assert cli.good("draft", card, "-o", directory) != ""  # over the old ones
    assert cli.files(directory) == SHEETS


def test_draft_writes_here_by_default(cli, card):
    cli.good("draft", card)
    assert cli.files() == sorted([card, *SHEETS])


def test_same_bytes_each_time(cli, card):
    cli.good("draft", card, "-o", "a")
    cli.good("draft", card, "-o", "b/")
    for name in SHEETS:
        assert (cli.directory / "a" / name).read_bytes() == (cli.directory / "b" / name).read_bytes()


def test_json_writes_no_file_unless_asked(cli, card):
    document = cli.good("draft", card, "--json")
    assert cli.files() == [card]
    assert cli.good("draft", card, "--json", "-o", "sheets") == document
    assert cli.files("sheets") == SHEETS


@pytest.mark.parametrize("name", ["fronts.svg", "fronts.pdf", "fronts.PNG"])
def test_compare_draws_by_the_ending(cli, card, name):
    table = cli.good("compare", card)
    assert cli.good("compare", card, "-o", name) == table + f"wrote {name}\n"
    path = cli.directory / name
    assert path.read_bytes().startswith(MAGIC[path.suffix.lower()])
    assert cli.files() == sorted([card, name])


def test_new_files_have_the_usual_permissions(cli, card):
    cli.good("draft", card, preexec_fn=lambda: os.umask(0o027))
    assert {stat.S_IMODE((cli.directory / name).stat().st_mode) for name in SHEETS} == {0o640}


def bound_by_permissions():
    """Root does not notice permissions: give that up, for the program only."""
    for capability in (1, 2):  # CAP_DAC_OVERRIDE, CAP_DAC_READ_SEARCH; 24 is PR_CAPBSET_DROP
        ctypes.CDLL(None).prctl(24, capability, 0, 0, 0)


def test_directory_that_cannot_be_written(cli, card):
    shut = cli.directory / "shut"
    shut.mkdir()
    shut.chmod(0o555)
    for arguments, path in [(["draft", card, "-o", "shut"], "shut/pattern.svg"),
                            (["draft", card, "-o", "shut/sheets"], "shut/sheets"),
                            (["compare", card, "-o", "shut/fronts.svg"], "shut/fronts.svg")]:
        done = cli(*arguments, preexec_fn=bound_by_permissions)
        assert done.returncode == 1
        assert done.err.startswith(f"tailorgeom: {path}: cannot be ") and done.err.endswith(": Permission denied\n")
    assert cli.files("shut") == []


@pytest.mark.parametrize("directory, sentence", [
    ("card.ini", "card.ini/pattern.svg: cannot be written: Not a directory"),
    ("card.ini/sheets", "card.ini: cannot be made: File exists"),
    ("", "the empty path: cannot be made: No such file or directory"),
    ("x" * 300, "x" * 300 + ": cannot be made: File name too long"),
])
def test_what_is_no_directory(cli, card, directory, sentence):
    done = cli("draft", card, "-o", directory)
    assert done.returncode == 1
    assert sentence.split(": ")[-1] in done.err or "File exists" in done.err
    assert done.err.startswith("tailorgeom: ") and done.err.count("\n") == 1
    assert cli.files() == [card]


def test_a_directory_in_the_place_of_a_file(cli, card):
    (cli.directory / "fronts.svg").mkdir()
    done = cli("compare", card, "-o", "fronts.svg")
    assert (done.returncode, done.err) == (1, "tailorgeom: fronts.svg: cannot be put in its place: Is a directory\n")
    assert cli.files() == [card, "fronts.svg"]


@pytest.mark.parametrize("arguments", [["draft", "card.ini", "-o", "."], ["compare", "card.ini", "-o", "fronts.pdf"]])
def test_file_that_may_grow_no_further(cli, card, arguments):
    done = cli(*arguments, preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (2000, 2000)))
    assert done.returncode == 1
    assert done.err.endswith("cannot be written: File too large\n") and done.err.count("\n") == 1
    assert cli.files() == [card]


@pytest.mark.parametrize("nth", [1, 2, 3])
def test_full_disk_noticed_late(cli, card, interposed, nth):
    """A disk may tell that it is full only when the data is brought to it. The old sheets stay as they were."""
    cli.good("draft", card)
    before = {name: (cli.directory / name).read_bytes() for name in SHEETS}
    cli.card((cli.directory / card).read_text().replace("890", "900"))
    done = cli("draft", card, env=interposed(nth))
    name = ["pattern.svg", "pattern.pdf", "pattern.png"][nth - 1]
    assert (done.returncode, done.err) == (1, f"tailorgeom: {name}: cannot be written: No space left on device\n")
    assert before == {name: (cli.directory / name).read_bytes() for name in SHEETS}
    assert cli.files() == sorted([card, *SHEETS])


def test_full_disk(cli, card, interposed):
    """A real one of 8 KiB where mounting is allowed; else one that is full at the first fsync."""
    disk = cli.directory / "disk"
    disk.mkdir()
    mount = subprocess.run(["mount", "-t", "tmpfs", "-o", "size=8k", "tmpfs", disk], capture_output=True)
    mounted = mount.returncode == 0
    try:
        for arguments in (["draft", card, "-o", "disk"], ["compare", card, "-o", "disk/fronts.svg"]):
            done = cli(*arguments, env=None if mounted else interposed(1))
            assert done.returncode == 1
            assert done.err.startswith("tailorgeom: disk/") and done.err.endswith(": No space left on device\n")
            assert cli.files("disk") == []
    finally:
        if mounted:
            subprocess.run(["umount", disk], check=True)


@pytest.mark.parametrize("nth", [1, 2, 3])
@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGINT, signal.SIGHUP, signal.SIGPIPE])
def test_signal_during_a_write_leaves_nothing(cli, card, interposed, nth, number):
    done = cli("draft", card, env=interposed(nth, number))
    assert done.returncode == -number
    assert cli.files() == [card]


@pytest.mark.parametrize("nth", [1, 2, 3])
def test_kill_during_a_write_leaves_no_final_file(cli, card, interposed, nth):
    done = cli("draft", card, env=interposed(nth, signal.SIGKILL))
    assert done.returncode == -signal.SIGKILL
    left = [name for name in cli.files() if name != card]
    assert len(left) == nth and all(name.endswith(".part") for name in left)


def test_a_card_that_is_refused_makes_no_directory(cli):
    done = cli("draft", cli.card("[measures]\nchest_girth = 40\n"), "-o", "sheets")
    assert done.returncode == 1
    assert cli.files() == ["card.ini"]


@pytest.mark.parametrize("arguments", [["--help"], ["--version"], ["help", "draft"], ["list", "fields"],
                                       ["list", "quantities", "--json"], ["check", "card.ini"],
                                       ["check", "card.ini", "--resolved"], ["compare", "card.ini"],
                                       ["compare", "card.ini", "--json"], ["draft", "card.ini", "--json"],
                                       ["draft", "card.ini", "-o", "sheets"]])
def test_standard_output_that_cannot_be_written(cli, card, arguments):
    with open("/dev/full", "wb") as full:
        done = cli(*arguments, capture_output=False, stdout=full, stderr=subprocess.PIPE)
    assert done.returncode == 1
    assert done.err == "tailorgeom: standard output: cannot be written: No space left on device\n"


def test_closed_streams(cli, card):
    """A stream that the caller closed is not mistaken for the next file that is opened."""
    done = cli("list", "fields", preexec_fn=lambda: os.close(1))
    assert (done.returncode, done.err) == (1, "tailorgeom: standard output: cannot be written: Bad file descriptor\n")
    done = cli("draft", card, "-o", "sheets", preexec_fn=lambda: (os.close(1), os.close(2)))
    assert done.returncode == 1
    for name in SHEETS:
        assert_whole(cli.directory / "sheets" / name)
    done = cli("check", "-", preexec_fn=lambda: os.close(0))
    assert (done.returncode, done.err) == (1, "tailorgeom: standard input: cannot be read: Bad file descriptor\n")


def test_no_temporary_files_elsewhere(cli, card):
    empty = cli.directory / "empty"
    empty.mkdir()
    cli.good("draft", card, "-o", "sheets", env={**os.environ, "TMPDIR": str(empty)})
    assert cli.files("empty") == []
    shutil.rmtree(cli.directory / "sheets")
    assert cli.files() == [card, "empty"]
