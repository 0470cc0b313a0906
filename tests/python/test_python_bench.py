"""The bench runs, and its peer, which is another library, finds the same numbers. Speed itself is told, not tested."""
import re

import built


def test_bench():
    told = built.run([built.PYTHON, built.ROOT / "tests/bench/bench_python.py", "600", "60"])
    assert "draft() with 12 keywords" in told and "on two threads" in told
    ratio = float(re.search(r"ratio (\d+)", told).group(1))
    assert ratio > 5
    assert float(re.search(r"differ by ([\d.]+) of the allowed", told).group(1)) < 1
