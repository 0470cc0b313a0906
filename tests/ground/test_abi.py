"""The ABI is kept: every library of today's soname can be replaced by today's. Each tests/abi/<version>/ has the
description and the headers of a version, written by tests/abi/keep; those of an earlier soname stay for the record,
since both can be installed side by side."""
import re

import pytest

import ground

EVERY = sorted(path for path in (ground.ROOT / "tests/abi").iterdir() if path.is_dir())
SONAME = re.search(r"soversion = '(\d+)'", (ground.ROOT / "meson.build").read_text()).group(1)
LIBRARIES = {"libtailorgeom": ground.BUILD / "lib/libtailorgeom.so",
             "libtailorgeom-sheet": ground.BUILD / "lib/sheet/libtailorgeom-sheet.so"}
# Bits of abidiff's exit code: 1 and 2 errors, 8 an incompatible change. 4 is any change, which may be an addition, but
# also another return type: what its summary calls changed or removed is a break, too.
BROKEN = 1 | 2 | 8


def soname(kept):
    return re.search(r"soname='libtailorgeom\.so\.(\d+)'", (kept / "libtailorgeom.abi").read_text()).group(1)


KEPT = [path for path in EVERY if soname(path) == SONAME]
CLIENT = ground.ROOT / "tests/abi/client.c"


def abidiff(kept, headers, library, public=ground.ROOT / "include/tailorgeom"):
    return ground.run(["sh", "-c", 'abidiff --headers-dir1 "$1" --headers-dir2 "$2" "$3" "$4"; echo "exit $?"', "sh",
                       headers, public, kept, library])


def faults(report):
    code = int(re.search(r"exit (\d+)\n$", report).group(1))
    summary = re.findall(r"changes summary: (\d+) Removed, (\d+) Changed", report)
    return bool(code & BROKEN or any(number != "0" for numbers in summary for number in numbers))


def test_versions_are_kept():
    assert {"0.1.0", "0.2.0"} <= {path.name for path in EVERY}, "run tests/abi/keep when the version is tagged"
    assert [soname(path) for path in EVERY if path.name in ("0.1.0", "0.2.0")] == ["0", "0"]


@pytest.mark.parametrize("library", LIBRARIES)
def test_nothing_incompatible(library):
    """With every version of today's soname: none until the first is tagged, when its ABI is kept."""
    for kept in KEPT:
        report = abidiff(kept / f"{library}.abi", kept / "include/tailorgeom", LIBRARIES[library])
        assert not faults(report), report


@pytest.mark.parametrize("library", LIBRARIES)
def test_another_soname_is_another_abi(library):
    """What is kept of the soname before is broken by today's, as the new soname says."""
    kept = [path for path in EVERY if soname(path) == str(int(SONAME) - 1)][-1]
    assert faults(abidiff(kept / f"{library}.abi", kept / "include/tailorgeom", LIBRARIES[library]))


@pytest.mark.parametrize("change", [
    ("double tailor_area(double);", "int tailor_area(double);", True),
    ("double tailor_area(double);", "", True),
    ("double tailor_area(double);", "double tailor_area(double); double tailor_more(double);", False)],
    ids=["type", "removed", "added"])
def test_a_break_would_be_seen(change, tmp_path):
    before, after, broken = change
    for name, text in (("before", before), ("after", after)):
        (tmp_path / name).mkdir()
        (tmp_path / name / "area.h").write_text(text + "\n")
        bodies = re.sub(r"(\w+) (tailor_\w+)\(double\);", r"\1 \2(double x) { return (\1)x; }", text)
        more = "int tailor_else(void); int tailor_else(void) { return 1; }"
        (tmp_path / name / "area.c").write_text(f'#include "area.h"\n{bodies}\n{more}\n')
        ground.run(["gcc", "-g", "-shared", "-fPIC", "-o", tmp_path / f"{name}.so", tmp_path / name / "area.c"])
    ground.run(["abidw", "--out-file", tmp_path / "before.abi", tmp_path / "before.so"])
    report = abidiff(tmp_path / "before.abi", tmp_path / "before", tmp_path / "after.so", tmp_path / "after")
    assert faults(report) == broken, report


@pytest.mark.parametrize("kept", [*KEPT, ground.ROOT], ids=lambda path: path.name if path != ground.ROOT else "today")
def test_client_of_kept_headers(kept, tmp_path):
    """Compiled against the headers of then, with arrays of every length up to what they knew."""
    program, lib = tmp_path / "client", ground.BUILD / "lib"
    ground.run(["gcc", "-std=c11", "-g", "-fsanitize=address,undefined", "-fno-sanitize-recover=all", *ground.STRICT,
                "-I", kept / "include", CLIENT, "-o", program, "-L", lib, "-ltailorgeom", f"-Wl,-rpath,{lib}"])
    assert re.fullmatch(r"\d{3,} calls\n", ground.run([program]))
