"""The built command line under test: TAILORGEOM_CLI names it, or TAILOR_BUILD the build directory it lies in."""
import os
import pathlib
import signal
import subprocess

import pytest

from client_card import CARD
from watched import NET

HERE = pathlib.Path(__file__).parent
# For builds with the address sanitizer, which looks for leaks at the end of every run.
os.environ.setdefault("LSAN_OPTIONS", f"suppressions={HERE / 'leaks.lsan'}:print_suppressions=0")

# A run in the background or under nohup ignores these, and so would every program it starts: the tests send them.
for ignored in (signal.SIGHUP, signal.SIGINT, signal.SIGTERM):
    if signal.getsignal(ignored) == signal.SIG_IGN:
        signal.signal(ignored, signal.SIG_DFL)


def binary():
    named = os.environ.get("TAILORGEOM_CLI")
    path = pathlib.Path(named) if named else pathlib.Path(os.environ["TAILOR_BUILD"]) / "cli" / "tailorgeom"
    assert path.is_file(), f"{path} is not there: build first"
    return path.resolve()


class Cli:
    """Runs the program in a directory of its own."""

    def __init__(self, directory):
        self.path = binary()
        self.directory = directory
        self.sanitized = b"__asan_init" in self.path.read_bytes()

    def card(self, text=CARD, name="card.ini"):
        """Writes a card (text or bytes) and returns its name."""
        (self.directory / name).write_bytes(text if isinstance(text, bytes) else text.encode())
        return name

    def __call__(self, *arguments, before=(), **options):
        options.setdefault("capture_output", True)
        options.setdefault("timeout", NET)
        options.setdefault("cwd", self.directory)
        command = [*before, str(self.path), *map(str, arguments)]
        done = subprocess.run(command, **options)
        done.out = (done.stdout or b"").decode()
        done.err = (done.stderr or b"").decode()
        return done

    def good(self, *arguments, **options):
        """Runs what must succeed without a word on standard error; returns what it printed."""
        done = self(*arguments, **options)
        assert (done.returncode, done.err) == (0, ""), (arguments, done.returncode, done.err, done.out[-2000:])
        return done.out

    def files(self, name="."):
        return sorted(path.name for path in (self.directory / name).iterdir())


def preload(directory, source):
    """Builds a library of one source, and gives the environment in which it comes before all others."""
    library = directory / source.replace(".c", ".so")
    include = HERE.parents[1] / "include"
    subprocess.run(["gcc", "-shared", "-fPIC", "-I", include, "-o", library, HERE / source, "-ldl"], check=True)
    options = ":".join(filter(None, [os.environ.get("ASAN_OPTIONS"), "verify_asan_link_order=0"]))
    return {**os.environ, "LD_PRELOAD": str(library), "ASAN_OPTIONS": options}


@pytest.fixture(scope="session")
def command_line():
    """The program for a directory that lives longer than one test."""
    return Cli


@pytest.fixture(scope="session")
def interposed(tmp_path_factory):
    """Environments in which the n-th fsync fails, or a signal comes there."""
    environment = preload(tmp_path_factory.mktemp("interpose"), "interpose.c")

    def at(nth, number=None):
        more = {} if number is None else {"INTERPOSE_SIGNAL": str(int(number))}
        return {**environment, **more, "INTERPOSE_NTH": str(nth)}
    return at


@pytest.fixture(scope="session")
def fast_clock(tmp_path_factory):
    """The environment in which the clock runs so fast that progress is told each time it may be."""
    return preload(tmp_path_factory.mktemp("clock"), "fast_clock.c")


@pytest.fixture(scope="session")
def failing_check(tmp_path_factory):
    """The environment in which the first check of every three-button coat fails."""
    return preload(tmp_path_factory.mktemp("failing"), "failing_check.c")


@pytest.fixture
def cli(tmp_path):
    return Cli(tmp_path)


@pytest.fixture
def card(cli):
    return cli.card()
