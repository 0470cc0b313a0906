"""What the ground tests share: where things are, which compilers and flags, and how a program is run."""
import concurrent.futures
import os
import pathlib
import re
import subprocess

ROOT = pathlib.Path(__file__).resolve().parents[2]
BUILD = pathlib.Path(os.environ.get("TAILOR_BUILD", ROOT / "build-tests/gcc"))
LONG = "TAILOR_LONG" in os.environ
CLI = BUILD / "cli/tailorgeom"

CORES = len(os.sched_getaffinity(0))
COMPILERS = ["gcc", "clang"]
STRICT = "-Wall -Wextra -Wpedantic -Wconversion -Wshadow -Werror".split()
EXACT = "-std=c11 -ffp-contract=off -fno-math-errno -fvisibility=hidden".split()
HEADERS = sorted((ROOT / "include/tailorgeom").glob("*.h"))
CORE = sorted((ROOT / "lib").glob("*/*.c"))
SHEET = sorted((ROOT / "lib/sheet").glob("*/*.c"))


def run(command, expect=0, **options):
    """Runs a program; its output comes back as text. Anything but the expected exit code fails the test."""
    done = subprocess.run([str(word) for word in command], stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
                          text=True, **options)
    assert done.returncode == expect, f"exit {done.returncode} from {' '.join(map(str, command))}\n{done.stdout}"
    return done.stdout


def compile_all(compiler, flags, sources, directory):
    """Objects of sources, compiled into a directory on all cores, as paths."""
    objects = [directory / (source.parent.name + "_" + source.stem + ".o") for source in sources]
    with concurrent.futures.ThreadPoolExecutor(CORES) as pool:
        list(pool.map(lambda source, target: run([compiler, *flags, "-c", source, "-o", target]), sources, objects))
    return objects


def without_comments(text):
    return re.sub(r"/\*.*?\*/|//[^\n]*", " ", text, flags=re.S)


def declared(header):
    """Names of the functions that a header declares with TAILOR_API."""
    text = re.sub(r"(?m)^\s*#.*$", "", without_comments(header.read_text()))
    return re.findall(r"\bTAILOR_API\b[^;{()]*?\b(\w+)\s*\(", text)


def core_declared():
    return {name for header in HEADERS if header.stem != "sheet" for name in declared(header)}


def sheet_declared():
    return set(declared(ROOT / "include/tailorgeom/sheet.h"))


def since(text):
    """{function: version} of a header: what the comment before each block of functions says last."""
    found, told = {}, None
    for comment, name in re.findall(r"(/\*\*(?!<).*?\*/)|\bTAILOR_API\b[^;{()]*?\b(\w+)\s*\(",
                                    re.sub(r"(?m)^\s*#.*$", "", text), re.S):
        told = re.findall(r"@since (\d+\.\d+)", comment) if comment else told
        if name:
            found[name] = told[-1] if told else None
    return found
