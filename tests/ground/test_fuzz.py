"""Every public function is in the table of fuzz targets, every target runs; `tests/run long` runs them longer."""
import pytest

import ground

FUZZ = ground.ROOT / "tests/fuzz"
TABLE = dict(line.split(None, 1) for line in (FUZZ / "table.txt").read_text().splitlines()
             if line.strip() and not line.startswith("#"))
TARGETS = {path.stem.removeprefix("fuzz_"): path for path in sorted(FUZZ.glob("fuzz_*.c"))}
SANITIZE = ["-g", "-O1", "-fno-sanitize-recover=all"]
RUNS = {"canvas": 60, "fold": 20000, "grade": 20000, "lay": 500, "sheet": 60}  # any other: 2000
LONGER = 100


def test_every_public_function_is_in_the_table():
    assert set(TABLE) == ground.core_declared() | ground.sheet_declared()


def test_the_table_is_true():
    for name, target in TABLE.items():
        if target.startswith("-"):
            assert len(target) > 5, f"{name}: no reason"
        else:
            assert f"{name}(" in TARGETS[target].read_text(), f"{name} is not called by {TARGETS[target].name}"
    assert {target for target in TABLE.values() if not target.startswith("-")} == set(TARGETS)


@pytest.fixture(scope="session")
def objects(objects_of):
    sanitize = [*SANITIZE, "-fsanitize=fuzzer-no-link,address,undefined,float-cast-overflow"]
    return objects_of("clang", sanitize, sheet=True)


@pytest.mark.parametrize("target", TARGETS)
def test_target(target, objects, tmp_path):
    program = tmp_path / target
    ground.run(["clang", *ground.EXACT, *ground.STRICT, *SANITIZE,
                "-fsanitize=fuzzer,address,undefined,float-cast-overflow", "-I", ground.ROOT / "include",
                TARGETS[target], *objects, "-o", program, "-lcairo", "-lm"])
    runs = RUNS.get(target, 2000) * (LONGER if ground.LONG else 1)
    (tmp_path / "corpus").mkdir()
    text = ground.run([program, f"-runs={runs}", "-seed=1", "-max_len=1024", "-len_control=0", "-timeout=600",
                       "-rss_limit_mb=4000", tmp_path / "corpus"], cwd=tmp_path)
    assert f"Done {runs} runs" in text
