"""Each public header stands on its own, is warning-free as C11 and as C++17, and can be read."""
import pytest

import ground

LANGUAGES = {"gcc": ("c", "c11"), "clang": ("c", "c11"), "g++": ("c++", "c++17"), "clang++": ("c++", "c++17")}


@pytest.mark.parametrize("header", ground.HEADERS, ids=lambda header: header.name)
@pytest.mark.parametrize("compiler", LANGUAGES)
def test_header_alone(header, compiler):
    language, standard = LANGUAGES[compiler]
    twice = f"#include <tailorgeom/{header.name}>\n" * 2
    ground.run([compiler, "-x", language, "-std=" + standard, *ground.STRICT, "-fsyntax-only",
                "-I", ground.ROOT / "include", "-"], input=twice)


@pytest.mark.parametrize("header", ground.HEADERS, ids=lambda header: header.name)
def test_header_is_installed_and_guarded(header):
    text = header.read_text()
    guard = f"TAILORGEOM_{header.stem.upper()}_H"
    assert f"#ifndef {guard}\n#define {guard}\n" in text
    if ground.declared(header):
        assert 'extern "C"' in text


@pytest.mark.parametrize("header", [h for h in ground.HEADERS if ground.declared(h)], ids=lambda header: header.name)
def test_every_function_is_documented(header):
    """A comment that begins with /** stands before every function, and each block of them says since when."""
    lines = header.read_text().splitlines()
    bare = []
    for number, line in enumerate(lines):
        if not line.startswith("TAILOR_API"):
            continue
        above = number - 1
        while above >= 0 and (lines[above].startswith("TAILOR_API") or lines[above].startswith("    ")):
            above -= 1  # functions declared together share the comment above them
        if not lines[above].rstrip().endswith("*/"):
            bare.append(line)
            continue
        end = above
        while "/*" not in lines[above]:
            above -= 1
        if "@since" not in "\n".join(lines[above:end + 1]):
            bare.append(line)
    assert bare == []
