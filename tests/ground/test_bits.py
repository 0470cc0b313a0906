"""Results are the contract: the same bits from gcc and clang at every -O; and one command builds it all."""
import pathlib

import pytest

import ground

PROBE = ground.ROOT / "tests/ground/probe.c"
BUILDS = [(compiler, [level]) for compiler in ground.COMPILERS for level in ("-O0", "-O1", "-O2", "-O3")]
if {"avx2", "fma"} <= set(pathlib.Path("/proc/cpuinfo").read_text().split()):
    # Nothing is fused or reordered where the machine could. (gcc 12 makes vfmaddsub of a*b-c beside a*b+c, even
    # with -ffp-contract=off; its straight-line vectorizer is where it does so.)
    BUILDS += [("gcc", ["-O3", "-mavx2", "-mfma", "-fno-tree-slp-vectorize"]), ("clang", ["-O3", "-mavx2", "-mfma"])]


def answers(compiler, flags, directory):
    program = directory / "probe"
    ground.run([compiler, *flags, "-I", ground.ROOT / "include", *ground.CORE, PROBE, "-o", program, "-lm"])
    return ground.run([program])


@pytest.fixture(scope="session")
def reference(tmp_path_factory):
    text = answers("gcc", [*ground.EXACT, "-O0"], tmp_path_factory.mktemp("reference"))
    assert text.count("\n") > 5000 and " nan" in text and "0x1." in text
    return text.splitlines()


@pytest.mark.parametrize("compiler,flags", BUILDS, ids=lambda value: "".join(value))
def test_same_bits(reference, compiler, flags, tmp_path):
    got = answers(compiler, [*ground.EXACT, *flags], tmp_path).splitlines()
    assert len(got) == len(reference)
    other = [f"{a}   not   {b}" for a, b in zip(reference, got) if a != b]
    assert not other, f"{len(other)} lines differ, first:\n" + "\n".join(other[:5])


@pytest.mark.parametrize("compiler", ground.COMPILERS)
def test_one_command_builds_the_core(compiler, tmp_path):
    ground.run(["sh", "-c", f"{compiler} -Iinclude lib/*/*.c {PROBE} -lm -o {tmp_path}/probe"], cwd=ground.ROOT)
    assert ground.run([tmp_path / "probe"]).count("\n") > 5000
