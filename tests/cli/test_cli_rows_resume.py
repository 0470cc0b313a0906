"""A run that is broken off, and goes on; a disk that is full; memory that does not grow."""
import fcntl
import json
import os
import random
import resource
import signal
import subprocess

import pytest

from table_of_orders import cells, table
from watched import ended, halted, place_in, until

LONG = bool(os.environ.get("TAILOR_LONG"))
ORDERS = 8_000
PART, STATE = "out.csv.part", "out.csv.state"


@pytest.fixture(scope="module")
def orders():
    return table(ORDERS)


@pytest.fixture(scope="module")
def undisturbed(orders, tmp_path_factory, command_line):
    """What comes of them when nothing disturbs."""
    cli = command_line(tmp_path_factory.mktemp("undisturbed"))
    done = cli("rows", cli.card(orders, "in.csv"))
    assert done.returncode == 1 and len(cells(done.out)) == ORDERS
    return done


@pytest.fixture
def big(cli, orders, undisturbed):
    """A table of orders in the test's own directory, and what is to come of it."""
    cli.card(orders, "in.csv")
    return undisturbed


def broken_off(cli, share, number=signal.SIGKILL, size=30_000_000, arguments=()):
    """Runs until the part has a share of the bytes it is going to have, and ends the program there."""
    part = cli.directory / PART
    ended(
        [cli.path, "rows", "in.csv", "-o", "out.csv", *arguments],
        lambda: part.exists() and part.stat().st_size >= share * size,
        number,
        [cli.directory / name for name in ("out.csv", PART, STATE)],
        cwd=cli.directory,
    )


def go_on(cli, expected, *arguments):
    done = cli("rows", "in.csv", "-o", "out.csv", "--resume", *arguments)
    assert (done.returncode, done.out, done.err) == (expected.returncode, "", expected.err)
    assert (cli.directory / "out.csv").read_text() == expected.out
    assert cli.files() == ["in.csv", "out.csv"]


def left(cli):
    """What a killed run left; it may have been writing its state anew."""
    return [name for name in cli.files() if name != STATE + ".part"]


@pytest.mark.parametrize("share", [0, 0.2, 0.6])
def test_killed_and_gone_on_with(cli, big, share):
    broken_off(cli, share, size=len(big.out))
    assert left(cli) == ["in.csv", PART, STATE] or share == 0
    part = (cli.directory / PART).read_text()
    assert big.out.startswith(part) and len(part) >= share * len(big.out)
    go_on(cli, big, "--jobs", "1")


def test_killed_again_and_again(cli, big):
    for time_ in range(1, 5):
        broken_off(
            cli,
            time_ / 6,
            size=len(big.out),
            arguments=["--resume"],
            number=random.Random(time_).choice([signal.SIGKILL, signal.SIGTERM, signal.SIGINT]),
        )
        assert left(cli) == ["in.csv", PART, STATE]
    go_on(cli, big)


def cut(cli, big, length, state=None):
    """As if the run had been ended when the part was so long."""
    if not (cli.directory / STATE).exists():
        broken_off(cli, 0.1, size=len(big.out))
    (cli.directory / PART).write_bytes(big.out.encode()[:length])
    document = json.loads((cli.directory / STATE).read_text())
    document.update(state or {"rows_done": 0, "bytes_done": 0})
    (cli.directory / STATE).write_text(json.dumps(document))


def test_torn_anywhere(cli):
    """Wherever the last line is torn it is cut, within a cell with line ends too; nothing is lost or doubled."""
    text = 'client,chest_girth\n"a\n""b"", c",1016\nd,1000\n"e\n",40\nf,1100\n'
    (cli.directory / "in.csv").write_text(text)
    expected = cli("rows", "in.csv", "--want", "half_girth_scye")
    # a state as the program writes it, taken from a run that a small limit of file size broke off
    subprocess.run(
        [cli.path, "rows", "in.csv", "-o", "out.csv"],
        cwd=cli.directory,
        capture_output=True,
        check=False,
        preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (4000, 4000)),
    )
    document = json.loads((cli.directory / STATE).read_text()) | {"want": "half_girth_scye"}
    whole = expected.out.encode()
    for length in range(len(whole) + 1):
        (cli.directory / PART).write_bytes(whole[:length])
        (cli.directory / STATE).write_text(json.dumps(document))
        done = cli("rows", "in.csv", "-o", "out.csv", "--want", "half_girth_scye", "--resume")
        assert (done.returncode, done.err) == (1, expected.err), length
        assert (cli.directory / "out.csv").read_bytes() == whole, length
        assert cli.files() == ["in.csv", "out.csv"]


def test_what_has_changed_is_not_gone_on_with(cli, big):
    cli.card("[house]\nlapel_width = 80\n", "house.ini")
    head = big.out.index("\n") + 1
    cut(cli, big, head + 5000)
    part = (cli.directory / PART).read_bytes()
    state = (cli.directory / STATE).read_text()

    def refused(why, *arguments):
        done = cli("rows", "in.csv", "-o", "out.csv", "--resume", *arguments)
        assert (done.returncode, done.out) == (1, "")
        assert (
            done.err
            == f"tailorgeom: {PART}: was begun with {why}: it cannot be gone on with; remove it to begin anew\n"
        )
        assert (cli.directory / PART).read_bytes() == part and (cli.directory / STATE).read_text() == state

    refused("another --want", "--want", "coverage_scye")
    refused("other values of the house, or other cloths", "--house", "house.ini")
    text = (cli.directory / "in.csv").read_text()
    (cli.directory / "in.csv").write_text(text.replace("0000001\n", "000001x\n", 1))
    refused("a table of orders that was another")
    (cli.directory / "in.csv").write_text(text)
    for member, value, why in [
        ("edition", 2, "another edition of the rules"),
        ("version", "0.0.9", "another version of the program"),
        ("format_version", 2, "a program that kept its state otherwise"),
    ]:
        (cli.directory / STATE).write_text(json.dumps(json.loads(state) | {member: value}))
        done = cli("rows", "in.csv", "-o", "out.csv", "--resume")
        assert done.returncode == 1 and f"was begun with {why}: it cannot" in done.err
    (cli.directory / STATE).write_text(state)
    (cli.directory / "house.ini").unlink()
    go_on(cli, big)


def test_a_part_that_is_not_what_the_state_tells_of(cli, big):
    lines = big.out.encode().splitlines(keepends=True)
    length = len(b"".join(lines[:101]))
    good = {"rows_done": 100, "bytes_done": length}
    sentence = f"tailorgeom: {PART}: is not what {STATE} tells of: remove both, and begin anew\n"
    for state, spoil in [
        (good | {"rows_done": 99}, lambda text: text),
        (good, lambda text: text[: length - 1]),
        (good, lambda text: text.replace(b"half_girth_scye", b"half_girth_SCYE", 1)),
        (good, lambda text: text[:3000] + b'x"y' + text[3003:]),
    ]:
        cut(cli, big, length + 700, state)
        (cli.directory / PART).write_bytes(spoil((cli.directory / PART).read_bytes()))
        done = cli("rows", "in.csv", "-o", "out.csv", "--resume")
        assert done.returncode == 1 and done.err.endswith(sentence), done.err
        assert cli.files() == ["in.csv", PART, STATE]
    cut(cli, big, length + 700, good)
    go_on(cli, big)


def test_nobody_writes_over_what_was_broken_off(cli, big):
    broken_off(cli, 0.3, size=len(big.out))
    before = (cli.directory / PART).read_bytes()
    done = cli("rows", "in.csv", "-o", "out.csv")
    assert (done.returncode, done.err) == (
        1,
        f"tailorgeom: {PART}: stands from a run that was broken off: go on with --resume, or remove it\n",
    )
    with open(cli.directory / PART) as held:
        fcntl.flock(held, fcntl.LOCK_EX)
        done = cli("rows", "in.csv", "-o", "out.csv", "--resume")
        assert (done.returncode, done.err) == (1, f"tailorgeom: {PART}: another run is writing it\n")
    assert (cli.directory / PART).read_bytes() == before
    state = (cli.directory / STATE).read_bytes()
    (cli.directory / STATE).unlink()
    done = cli("rows", "in.csv", "-o", "out.csv", "--resume")
    assert done.returncode == 1
    assert (
        done.err == f"tailorgeom: {STATE}: cannot be read, so {PART} cannot be gone on with; remove it to begin anew\n"
    )
    (cli.directory / STATE).write_bytes(state)
    go_on(cli, big)


def test_resume_where_nothing_was_begun(cli, big):
    go_on(cli, big)
    go_on(cli, big)  # nor after all was done


def test_the_state(cli, big):
    broken_off(cli, 0.1, size=len(big.out))
    document = json.loads((cli.directory / STATE).read_text())
    assert list(document) == [
        "format",
        "format_version",
        "edition",
        "version",
        "input_sha256",
        "want",
        "house_sha256",
        "rows_done",
        "bytes_done",
    ]
    by_others = subprocess.run(
        ["sha256sum", "in.csv"], cwd=cli.directory, capture_output=True, check=True
    ).stdout.split()[0]
    assert document["input_sha256"] == by_others.decode()
    assert document["format"] == "tailorgeom-rows-state" and document["want"].startswith("half_girth_scye,")


def test_an_older_table_stays_until_the_new_one_is_whole(cli, big):
    (cli.directory / "out.csv").write_text("yesterday's\n")
    broken_off(cli, 0.3, size=len(big.out))
    assert (cli.directory / "out.csv").read_text() == "yesterday's\n"
    go_on(cli, big)


# ---- full disks


def test_file_that_may_grow_no_further(cli, big):
    """What is done stays, and when there is room it goes on."""
    done = cli(
        "rows",
        "in.csv",
        "-o",
        "out.csv",
        preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (5_000_000, 5_000_000)),
    )
    assert done.returncode == 1
    first, second = done.err.splitlines()
    assert first == f"tailorgeom: {PART}: cannot be written: File too large"
    assert second.startswith(f"tailorgeom: {PART}: ") and second.endswith(
        " orders are done and stay there: --resume goes on"
    )
    assert (cli.directory / PART).stat().st_size == 5_000_000
    go_on(cli, big)


def test_full_disk(cli, big):
    """A real one of a megabyte where mounting is allowed, else a limit of file size."""
    disk = cli.directory / "disk"
    disk.mkdir()
    mounted = (
        subprocess.run(["mount", "-t", "tmpfs", "-o", "size=1m", "tmpfs", disk], capture_output=True).returncode == 0
    )
    try:
        done = cli(
            "rows",
            "in.csv",
            "-o",
            "disk/out.csv",
            preexec_fn=None if mounted else lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (1 << 20, 1 << 20)),
        )
        assert done.returncode == 1
        assert done.err.startswith(
            "tailorgeom: disk/out.csv.part: cannot be written: " + ("No space left" if mounted else "File too")
        )
        assert "--resume goes on" in done.err and cli.files("disk") == [PART, STATE]
        if mounted:
            subprocess.run(["mount", "-o", "remount,size=100m", disk], check=True)
        done = cli("rows", "in.csv", "-o", "disk/out.csv", "--resume")
        assert (disk / "out.csv").read_text() == big.out and cli.files("disk") == ["out.csv"]
    finally:
        if mounted:
            subprocess.run(["umount", disk], check=True)


@pytest.mark.parametrize("nth", [1, 2])
def test_disk_that_tells_late(cli, interposed, nth):
    """At the first fsync, of the state; at the second, of the table."""
    cli.card("chest_girth\n1016\n", "in.csv")
    done = cli("rows", "in.csv", "-o", "out.csv", env=interposed(nth))
    assert done.returncode == 1 and "cannot be written: No space left on device\n" in done.err
    assert cli.files() == (["in.csv"] if nth == 1 else ["in.csv", PART, STATE])
    assert cli("rows", "in.csv", "-o", "out.csv", "--resume").returncode == 0
    assert cli.files() == ["in.csv", "out.csv"]


def test_standard_output_that_cannot_be_written(cli, big):
    with open("/dev/full", "wb") as full:
        done = cli("rows", "in.csv", capture_output=False, stdout=full, stderr=subprocess.PIPE)
    assert (done.returncode, done.err) == (
        1,
        "tailorgeom: standard output: cannot be written: No space left on device\n",
    )
    done = subprocess.run(
        ["bash", "-c", f"{cli.path} rows in.csv | head -1; echo ${{PIPESTATUS[0]}}"],
        cwd=cli.directory,
        capture_output=True,
    )
    assert done.stdout.decode().splitlines()[-1] == str(128 + signal.SIGPIPE) and done.stderr == b""


def test_what_is_no_file(cli):
    cli.card("chest_girth\n1016\n", "in.csv")
    (cli.directory / "folder").mkdir()
    for path in ("/dev/full", "/dev/stdout", "folder"):
        done = cli("rows", "in.csv", "-o", path)
        assert (done.returncode, done.err) == (
            1,
            f"tailorgeom: {path}: is no regular file that could be replaced: leave -o out and send standard output "
            "there\n",
        )
    done = cli("rows", "in.csv", "-o", "nowhere/out.csv")
    assert (done.returncode, done.err) == (
        1,
        "tailorgeom: nowhere/out.csv.part: cannot be written: No such file or directory\n",
    )


@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGINT, signal.SIGKILL])
def test_ended_while_reading_a_pipe(cli, orders, number):
    """What cannot be gone on with does not stay, unless nothing could be done about it."""
    process = subprocess.Popen([cli.path, "rows", "-", "-o", "out.csv"], cwd=cli.directory, stdin=subprocess.PIPE)
    process.stdin.write(orders.encode()[:800_000])
    process.stdin.flush()
    until(process, (cli.directory / PART).exists)
    process.send_signal(number)
    process.stdin.close()
    assert process.wait() == -number
    assert cli.files() == ([PART] if number == signal.SIGKILL else [])


def test_a_table_that_changes_while_it_is_read(cli, big):
    table, part = cli.directory / "in.csv", cli.directory / PART
    process = halted(
        [cli.path, "rows", "in.csv", "-o", "out.csv", "-j", "1"],
        part.exists,
        lambda process: place_in(process, table) < table.stat().st_size - 3,
        [cli.directory / "out.csv", part, cli.directory / STATE],
        cwd=cli.directory,
    )
    with open(table, "r+b") as file:
        file.seek(-3, os.SEEK_END)
        file.write(b"xx")
    process.send_signal(signal.SIGCONT)
    said = process.communicate()[1].decode()
    assert (process.returncode, said) == (1, "tailorgeom: in.csv: has changed while it was read: begin anew\n")
    assert cli.files() == ["in.csv"]


# ---- size


def test_memory_does_not_grow_with_the_table(cli, orders):
    """20,000 orders, or a million, 1 % of them bad, in 64 MiB of address space for two workers; read back by line."""
    count = 1_000_000 if LONG else 20_000
    if cli.sanitized:  # its shadow alone is larger than any limit
        count = 2_000
    (cli.directory / "in.csv").write_text(table(count))
    most = resource.RLIM_INFINITY if cli.sanitized else 64 << 20
    done = cli(
        "rows",
        "in.csv",
        "-o",
        "out.csv",
        "--jobs",
        "2",
        timeout=3000,
        preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_AS, (most, most)),
    )
    assert done.returncode == 1
    refused = good = 0
    with open(cli.directory / "out.csv") as file:
        columns = file.readline().count(",")
        for number, line in enumerate(file):
            assert f",{number:07d}," in line
            good += line.endswith(",TAILOR_OK,\n") and line.count(",") == columns + 1
            refused += ",TAILOR_OK," not in line
    assert number + 1 == count == good + refused
    assert 0.005 * count < refused < 0.02 * count
    assert (
        done.err == f"tailorgeom: in.csv: {refused} of {count} orders refused: the columns status and message say why\n"
    )


def test_too_little_memory_is_told(cli, orders):
    if cli.sanitized:
        most = resource.RLIM_INFINITY
        jobs = "2"
    else:
        most, jobs = 40 << 20, "256"
    (cli.directory / "in.csv").write_text(orders)
    done = cli(
        "rows",
        "in.csv",
        "-o",
        "out.csv",
        "--jobs",
        jobs,
        preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_AS, (most, most)),
    )
    assert done.returncode == 1
    if not cli.sanitized and "refused" not in done.err:
        assert "out of memory" in done.err or "no thread can be started" in done.err
        assert cli.files() == ["in.csv", PART, STATE]
