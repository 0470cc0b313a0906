"""pip, without network, against an installed prefix: what is installed, what it links, what it refuses."""
import os
import re
import shutil

import pytest

import built

PIP = ["--no-index", "--no-build-isolation", "--no-cache-dir", "--disable-pip-version-check"]


@pytest.fixture(scope="module")
def prefix(tmp_path_factory):
    """The build under test installed as if its prefix were a directory of ours: its files copied, the .pc files set
    right."""
    top, where = tmp_path_factory.mktemp("staged"), tmp_path_factory.mktemp("prefix")
    built.run(
        ["meson", "install", "-C", built.BUILD, "--no-rebuild", "--quiet"], env={**os.environ, "DESTDIR": str(top)}
    )
    (pc,) = top.rglob("tailorgeom.pc")
    original = re.search("^prefix=(.*)$", pc.read_text(), re.M).group(1)
    shutil.copytree(top / original.lstrip("/"), where, symlinks=True, dirs_exist_ok=True)
    for path in where.rglob("*.pc"):
        path.write_text(re.sub("^prefix=.*$", f"prefix={where}", path.read_text(), flags=re.M))
    return where


def environment(prefix, **more):
    (pc,) = prefix.rglob("tailorgeom.pc")
    clean = {name: value for name, value in os.environ.items() if name not in ("PYTHONPATH", "LD_LIBRARY_PATH")}
    return {**clean, "PKG_CONFIG_PATH": str(pc.parent), **more}


@pytest.fixture(scope="module")
def source(tmp_path_factory):
    """A copy of bindings/python: pip builds in the tree that it is given."""
    copy = tmp_path_factory.mktemp("source") / "python"
    shutil.copytree(built.BINDINGS, copy, ignore=shutil.ignore_patterns("build", "*.egg-info", "__pycache__"))
    return copy


@pytest.fixture(scope="module")
def venv(prefix, source, tmp_path_factory):
    directory = tmp_path_factory.mktemp("venv")
    built.run([built.PYTHON, "-m", "venv", "--system-site-packages", directory])
    built.run([directory / "bin/pip", "install", *PIP, source], env=environment(prefix))
    return directory


def installed(venv):
    (package,) = venv.rglob("site-packages/tailorgeom")
    return package


def test_it_works_there(venv, prefix, tmp_path):
    code = (
        "import tailorgeom as tg, numpy as np; coat = tg.draft(chest_girth='40 in'); coat.to_svg('coat.svg');"
        "print(tg.__file__, tg.library_version, repr(tg.rows({'chest_girth': [1016]}, 'lapel_area')['lapel_area'][0]))"
    )
    told = built.run([venv / "bin/python", "-c", code], env=environment(prefix), cwd=tmp_path).split()
    assert told[0].startswith(str(venv)) and told[1] == built.tg.library_version
    assert float(told[2]) == built.tg.draft(chest_girth=1016).quantities["lapel_area"]
    assert (tmp_path / "coat.svg").stat().st_size > 10000
    code = "import tailorgeom as tg; print(*tg.cloths()); print(tg.draft(chest_girth=1016, canvas='hair-canvas'))"
    told = built.run([venv / "bin/python", "-c", code], env=environment(prefix), cwd=tmp_path).split("\n")
    assert told[0].split() == list(built.tg.cloths()) and "canvas_bending_weft=250.0" in told[1]


def test_what_is_installed(venv):
    package = installed(venv)
    names = {path.name.split(".cpython")[0] for path in package.iterdir() if path.name != "__pycache__"}
    assert names == {path.name for path in (built.BINDINGS / "tailorgeom").glob("*.py")} | {
        "py.typed",
        "_core",
        "_sheet",
    }
    assert next(package.parent.glob("tailorgeom-*.dist-info/METADATA")).read_text().count("Version: 0.3.0") == 1


def test_it_links_what_is_installed(venv, prefix):
    """The modules have no code of the library: they need it, and find it in the prefix."""
    for module, library in (("_core", "libtailorgeom.so.1"), ("_sheet", "libtailorgeom-sheet.so.1")):
        (file,) = installed(venv).glob(f"{module}.*.so")
        told = built.run(["readelf", "-d", file])
        assert f"[{library}]" in told and str(prefix) in told
        symbols = built.run(["nm", "-D", "--defined-only", file])
        assert not re.search(r"\btailor_(?!python)", symbols)


def test_no_c_code_of_the_library():
    assert not [path.name for path in built.BINDINGS.rglob("*.[chso]*") if path.suffix in (".c", ".h", ".so", ".o")]


def test_an_older_core_is_refused_at_build(prefix, source, tmp_path):
    for path in prefix.rglob("*.pc"):
        (tmp_path / path.name).write_text(re.sub("Version: .*", "Version: 0.0.9", path.read_text()))
    told = built.run(
        [built.PYTHON, "-m", "pip", "wheel", *PIP, "--no-deps", "-w", tmp_path / "wheels", source],
        expect=1,
        env=environment(prefix, PKG_CONFIG_PATH=str(tmp_path)),
    )
    assert "libtailorgeom 0.0.9 is installed" in told and "needs 0.3.0 or later" in told


def test_no_core_is_told_at_build(source, tmp_path):
    told = built.run(
        [built.PYTHON, "-m", "pip", "wheel", *PIP, "--no-deps", "-w", tmp_path, source],
        expect=1,
        env={**os.environ, "PKG_CONFIG_LIBDIR": str(tmp_path), "PKG_CONFIG_PATH": ""},
    )
    assert "Install libtailorgeom first" in told


VERSIONS = [("0.0.9", False), ("0.1.0", False), ("0.2.0", False), ("0.3.0", True), ("0.3.1", True)]


@pytest.mark.parametrize("version,good", VERSIONS)
def test_an_older_core_is_refused_at_import(venv, prefix, tmp_path, version, good):
    """With a library of our own before it, that tells another version."""
    source = tmp_path / "old.c"
    source.write_text(f'const char *tailor_version(void) {{ return "{version}"; }}\n')
    built.run(["gcc", "-shared", "-fPIC", source, "-o", tmp_path / "old.so"])
    told = built.run(
        [venv / "bin/python", "-c", "import tailorgeom; print(tailorgeom.library_version)"],
        expect=0 if good else 1,
        env=environment(prefix, LD_PRELOAD=str(tmp_path / "old.so")),
    )
    if good:
        assert told.strip() == version
    else:
        assert f"libtailorgeom {version} is loaded, but this Python package was built for 0.3.0" in told
