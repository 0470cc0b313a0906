"""The tree itself: one version everywhere, files small enough to read, lines that fit."""
import re

import ground

GLOBS = ("lib/**/*.[ch]", "include/**/*.h", "cli/*.[ch]", "tests/*/*.[ch]", "tests/*/*.py", "examples/**/*.c")
TEXTS = [path for pattern in GLOBS for path in ground.ROOT.glob(pattern)
         if "_tables" not in path.name and path.name != "tables.c"]  # generated: long lines of data
LINES, COLUMNS = 500, 120


def test_one_version():
    version = re.search(r"version: '(.*)'", (ground.ROOT / "meson.build").read_text()).group(1)
    base = (ground.ROOT / "include/tailorgeom/base.h").read_text()
    numbers = [re.search(rf"TAILOR_VERSION_{part} (\d+)", base).group(1) for part in ("MAJOR", "MINOR", "PATCH")]
    assert ".".join(numbers) == version
    assert version in ground.run([ground.CLI, "--version"])
    assert re.search(rf"^### {re.escape(version)}\b", (ground.ROOT / "README.md").read_text(), re.M)


def test_files_can_be_read():
    found = []
    for path in TEXTS:
        text, name = path.read_text(), path.relative_to(ground.ROOT)
        lines = text.splitlines()
        if len(lines) > LINES:
            found.append(f"{name}: {len(lines)} lines")
        found += [f"{name}:{number}: {len(line)} columns" for number, line in enumerate(lines, 1)
                  if len(line) > COLUMNS]
        if not text.endswith("\n") or "\t" in text or "\r" in text:
            found.append(f"{name}: a tab, a carriage return or no end of line")
    assert len(TEXTS) > 50 and found == []


def test_geometry_changed_is_told():
    """The list of changes keeps its rule: each version says whether geometry changed."""
    changes = (ground.ROOT / "README.md").read_text().split("## Changes", 1)[1]
    for part in re.split(r"^### ", changes, flags=re.M)[1:]:
        assert "Geometry changed" in part
