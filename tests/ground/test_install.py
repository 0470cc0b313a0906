"""Installing: what lands where, and a program that knows nothing but pkg-config."""
import os
import re

import pytest

import ground


@pytest.fixture(scope="module")
def installed(tmp_path_factory):
    """The build installed under a directory of its own, and an environment in which pkg-config finds it there."""
    top = tmp_path_factory.mktemp("install")
    ground.run(["meson", "install", "-C", ground.BUILD, "--no-rebuild", "--quiet"],
               env={**os.environ, "DESTDIR": str(top)})
    pc, = top.rglob("tailorgeom.pc")
    environment = {**os.environ, "PKG_CONFIG_SYSROOT_DIR": str(top), "PKG_CONFIG_PATH": str(pc.parent),
                   "LD_LIBRARY_PATH": str(pc.parent.parent)}
    return top, environment


def embed(installed, source, modules, directory, compiler="gcc", static=False):
    _, environment = installed
    ask = ["pkg-config", *(["--static"] if static else []), "--cflags", "--libs", *modules]
    flags = ground.run(ask, env=environment).split()
    program = directory / "embed"
    ground.run([*compiler.split(), ground.ROOT / "examples/embed" / source, "-o", program, *flags], env=environment)
    return ground.run([program], env=environment, cwd=directory)


def test_files(installed):
    names = {path.name for path in installed[0].rglob("*") if not path.is_dir()}
    version = re.search(r"version: '(.*)'", (ground.ROOT / "meson.build").read_text()).group(1)
    for library in ("libtailorgeom", "libtailorgeom-sheet"):
        assert {library + ".a", library + ".so", library + ".so.1", library + ".so." + version} <= names
    assert {"tailorgeom", "tailorgeom.1", "tailorgeom.pc", "tailorgeom-sheet.pc"} <= names
    assert {header.name for header in ground.HEADERS} == {name for name in names if name.endswith(".h")}


def test_man_page_and_cli(installed):
    top, environment = installed
    page, = top.rglob("tailorgeom.1")
    assert page.parent.name == "man1"
    assert page.read_text().startswith(".") and "tailorgeom" in page.read_text()
    program, = top.rglob("bin/tailorgeom")
    assert "compare" in ground.run([program, "--help"], env=environment)


@pytest.mark.parametrize("compiler", ["gcc -std=c11", "clang -std=c11", "g++ -xc++ -std=c++17",
                                      "clang++ -xc++ -std=c++17"])
def test_embed(installed, compiler, tmp_path):
    strict = compiler + " -Wall -Wextra -Wpedantic -Werror"
    assert " in" in embed(installed, "compare.c", ["tailorgeom"], tmp_path, strict)


def test_embed_static(installed, tmp_path):
    library, = installed[0].rglob("libtailorgeom.so")
    dynamic = embed(installed, "compare.c", ["tailorgeom"], tmp_path)
    library.rename(library.with_suffix(".away"))
    try:
        static = embed(installed, "compare.c", ["tailorgeom"], tmp_path, static=True)
    finally:
        library.with_suffix(".away").rename(library)
    assert static == dynamic


def test_embed_sheet(installed, tmp_path):
    embed(installed, "sheet.c", ["tailorgeom-sheet"], tmp_path)
    written = list(tmp_path.glob("*.svg"))
    assert written and written[0].read_text().startswith(("<?xml", "<svg"))


def test_readme_shows_the_example():
    source = (ground.ROOT / "examples/embed/compare.c").read_text()
    assert source[source.index("#include"):].strip() in (ground.ROOT / "README.md").read_text()
