"""Results are the contract: the same bits from gcc and clang at every -O; and one command builds it all."""
import json
import os
import pathlib

import pytest

import ground

PROBE = ground.ROOT / "tests/ground/probe.c"
SHARED = ["-fPIC"]  # so that test_symbols.py takes the same objects at -O2
#: tests/run names the builds it made of these compilers: their libraries, as they are installed, are -O3. Without
#: them, and in the long run as well, -O3 is compiled here.
BUILT = {compiler: pathlib.Path(os.environ[name]) for compiler in ground.COMPILERS
         for name in [f"TAILOR_BUILT_{compiler.upper()}"] if name in os.environ}
LEVELS = {compiler: ["-O0", *(["-O1"] if ground.LONG else []), "-O2",
                     *(["-O3"] if ground.LONG or compiler not in BUILT else [])] for compiler in ground.COMPILERS}
COMPILED = [(compiler, [level]) for compiler, levels in LEVELS.items() for level in levels
            if (compiler, level) != ("gcc", "-O0")]  # the reference
if ground.LONG and {"avx2", "fma"} <= set(pathlib.Path("/proc/cpuinfo").read_text().split()):
    # Nothing is fused or reordered where the machine could. (gcc 12 makes vfmaddsub of a*b-c beside a*b+c, even
    # with -ffp-contract=off; its straight-line vectorizer is where it does so.)
    COMPILED += [("gcc", ["-O3", "-mavx2", "-mfma", "-fno-tree-slp-vectorize"]), ("clang", ["-O3", "-mavx2", "-mfma"])]


def answers(compiler, flags, core, directory):
    """What the probe prints, itself compiled as the core is: the headers hold code too."""
    ground.run([compiler, *ground.EXACT, *flags, "-I", ground.ROOT / "include", PROBE, *core, "-lm",
                "-o", directory / "probe"])
    return ground.run([directory / "probe"]).splitlines()


@pytest.fixture(scope="session")
def reference(objects_of, tmp_path_factory):
    """What all others are compared with: gcc -O0."""
    flags = ["-O0", *SHARED]
    lines = answers("gcc", flags, objects_of("gcc", flags), tmp_path_factory.mktemp("reference"))
    text = "\n".join(lines)
    assert len(lines) > 5000 and " nan" in text and "0x1." in text
    return lines


def compare(got, reference):
    assert len(got) == len(reference)
    other = [f"{a}   not   {b}" for a, b in zip(reference, got) if a != b]
    assert not other, f"{len(other)} lines differ, first:\n" + "\n".join(other[:5])


@pytest.mark.parametrize("compiler,flags", COMPILED, ids=lambda value: "".join(value))
def test_same_bits(reference, objects_of, compiler, flags, tmp_path):
    flags = [*flags, *SHARED]
    compare(answers(compiler, flags, objects_of(compiler, flags), tmp_path), reference)


@pytest.mark.parametrize("compiler", BUILT)
def test_same_bits_as_built(reference, compiler, tmp_path):
    build = BUILT[compiler]
    commands = [entry["command"] for entry in json.loads((build / "compile_commands.json").read_text())
                if "/lib/" in entry["file"]]
    assert len(commands) >= len(ground.CORE)
    for command in commands:
        assert pathlib.Path(command.split()[0]).name == compiler and " -O3 " in command
    compare(answers(compiler, ["-O3"], [build / "lib/libtailorgeom.a"], tmp_path), reference)


@pytest.mark.parametrize("compiler", ground.COMPILERS)
def test_one_command_builds_the_core(compiler, tmp_path):
    ground.run(["sh", "-c", f"{compiler} -Iinclude lib/*/*.c {PROBE} -lm -o {tmp_path}/probe"], cwd=ground.ROOT)
    assert ground.run([tmp_path / "probe"]).count("\n") > 5000
