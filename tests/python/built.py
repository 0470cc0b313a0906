"""The Python package of the build under test: TAILOR_BUILD names the build directory."""
import importlib
import os
import pathlib
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parents[2]
BUILD = pathlib.Path(os.environ.get("TAILOR_BUILD", ROOT / "build-tests/gcc"))
PACKAGE = BUILD / "bindings/python"
CLI = BUILD / "cli/tailorgeom"
BINDINGS = ROOT / "bindings/python"
ENVIRONMENT = {**os.environ, "PYTHONPATH": str(PACKAGE), "PYTHONDONTWRITEBYTECODE": "1", "MPLBACKEND": "agg"}
PYTHON = "/usr/bin/python3"

os.environ.setdefault("MPLBACKEND", "agg")
sys.path.insert(0, str(PACKAGE))
tg = importlib.import_module("tailorgeom")
assert pathlib.Path(tg.__file__).parent == PACKAGE / "tailorgeom", tg.__file__

#: Orders that all draft: chest, stature and buttoning over a wide range.
REGULAR = {"chest_girth": 1016.0}


def run(command, expect=0, **options):
    """Runs a program; its output comes back as text. Anything but the expected exit code fails the test."""
    options.setdefault("env", ENVIRONMENT)
    done = subprocess.run(
        [str(word) for word in command], stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, **options
    )
    assert done.returncode == expect, f"exit {done.returncode} from {' '.join(map(str, command))}\n{done.stdout}"
    return done.stdout


def python(code, *arguments, expect=0, **options):
    """Runs a few lines in an interpreter of their own, with the built package."""
    return run([PYTHON, "-c", code, *arguments], expect, **options)
