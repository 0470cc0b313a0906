"""The lists of packages suffice: whatever the scripts, the build and the tests use belongs to a listed package or to
what a bare Debian has. What the C compilers include, the Python tests import and the scripts run is traced to the
package that owns it, and that must lie in the closure of the list."""
import ast
import functools
import os
import pathlib
import re
import shutil
import subprocess
import sys

import pytest

import ground


def listed(path):
    return [word for line in (ground.ROOT / path).read_text().splitlines() for word in line.split("#")[0].split()]


@functools.cache
def status():
    """Installed packages: what they need, who provides what, and which of them a bare Debian has."""
    needs, provides, bare = {}, {}, {"apt"}
    form = "${Package}\t${Pre-Depends}, ${Depends}\t${Provides}\t${Essential} ${Priority}\n"
    rows = ground.run(["dpkg-query", "-W", "-f", form])
    for row in rows.splitlines():
        package, depends, provided, rank = row.split("\t")
        needs[package] = [[re.sub(r"[:(\s].*", "", name.strip()) for name in choice.split("|")]
                          for choice in depends.split(",") if choice.strip()]
        for name in re.sub(r"\(.*?\)", "", provided).split(","):
            provides.setdefault(name.strip(), []).append(package)
        if "yes" in rank or "required" in rank:
            bare.add(package)
    return needs, provides, bare


@functools.cache
def closure(path):
    needs, provides, bare = status()
    have, todo = set(), [*listed(path), *bare]
    while todo:
        package = todo.pop()
        if package in have or package not in needs:
            continue
        have.add(package)
        for choice in needs[package]:
            todo += next(([name] if name in needs else provides[name][:1] for name in choice
                          if name in needs or name in provides), [])
    return have


def owners(files):
    """Which packages own each file. /usr/bin and /bin are one directory on Debian, the database knows either; an
    alternative (/usr/bin/c++) belongs to nobody, but what it points to does."""
    names = {}
    for file in map(str, files):
        for one in {file, str(pathlib.Path(file).resolve())}:
            for name in (one, one.removeprefix("/usr"), "/usr" + one):
                names.setdefault(name, set()).add(file)
    found = subprocess.run(["dpkg-query", "-S", *sorted(names)], capture_output=True, text=True).stdout
    owned = {str(file): set() for file in files}
    for line in found.splitlines():
        if line.startswith("diversion"):
            continue
        packages, name = line.rsplit(": ", 1)
        for file in names.get(name, ()):
            owned[file] |= {package.split(":")[0] for package in packages.split(", ")}
    return owned


def outside(files, path="tests/packages"):
    """Those files that no package in the closure of a list owns."""
    return sorted(file for file, packages in owners(files).items() if not packages & closure(path))


@pytest.mark.parametrize("user,code", [("0", 0), ("1000", 2)])
def test_only_what_is_missing_is_installed(user, code, tmp_path):
    """With an `id` and an `apt-get` of the test's own, which tell what they were asked."""
    (tmp_path / "list").write_text("gcc # is there\n\n# a comment\nno-such-package-a\nno-such-package-b # not there\n")
    for name, body in (("id", f"echo {user}"), ("apt-get", 'echo "apt-get $*" >&2')):
        (tmp_path / name).write_text(f"#!/bin/sh\n{body}\n")
        (tmp_path / name).chmod(0o755)
    path = f"{tmp_path}:{os.environ['PATH']}"
    command = ["sh", ground.ROOT / "examples/install-packages", tmp_path / "list"]
    text = ground.run(command, expect=code, env={**os.environ, "PATH": path})
    assert len(re.findall("apt-get (-qq )?update", text)) == 1
    assert re.search(r"apt-get .*install .*--no-install-recommends no-such-package-a no-such-package-b$", text, re.M)
    (tmp_path / "list").write_text("gcc\n")
    assert ground.run(command, env={**os.environ, "PATH": path}) == ""


def test_examples_are_a_subset():
    assert set(listed("examples/packages")) < set(listed("tests/packages"))
    for path in ("examples/packages", "tests/packages"):
        assert len(listed(path)) == len(set(listed(path)))


def test_no_package_but_the_needed_in_the_examples():
    tools = "cmocka|pytest|valgrind|abigail|clang"
    assert not [name for name in closure("examples/packages") if re.search(tools, name)]


def included(compiler, files, *flags):
    """System headers that some files include."""
    own = ["-I", ground.ROOT / "include", "-I", ground.ROOT / "tests"]
    text = ground.run([compiler, "-std=c11", "-M", *own, *flags, *files])
    return {word for word in text.split() if word.startswith("/") and not word.startswith(str(ground.ROOT))}


def pkg_flags(*modules):
    return ground.run(["pkg-config", "--cflags", *modules]).split()


@pytest.mark.parametrize("compiler", ground.COMPILERS)
def test_headers(compiler):
    product = [*ground.CORE, *ground.SHEET, *(ground.ROOT / "cli").glob("*.c")]
    tests = [path for path in (ground.ROOT / "tests").glob("*/*.c")]
    found = {"examples/packages": included(compiler, product, *pkg_flags("cairo", "jansson")),
             "tests/packages": included(compiler, product + tests, *pkg_flags("cairo", "jansson"))}
    for path, headers in found.items():
        if compiler == "clang" and path == "examples/packages":
            continue
        headers = {header for header in headers if not header.startswith("/usr/lib/gcc") or compiler == "gcc"}
        assert len(headers) > 30
        assert outside(headers, path) == []


def python_files():
    scripts = [path for path in (ground.ROOT / "tests").rglob("*") if path.is_file() and "abi/" not in str(path)
               and (path.suffix == ".py" or path.read_bytes().startswith(b"#!/usr/bin/python3"))]
    return scripts + list((ground.ROOT / "lib").rglob("*.py"))


def test_python_modules():
    names = set()
    own = {path.stem for path in python_files()}
    for path in python_files():
        for node in ast.walk(ast.parse(path.read_text())):
            if isinstance(node, ast.Import):
                names |= {alias.name.split(".")[0] for alias in node.names}
            elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
                names.add(node.module.split(".")[0])
    names -= own | set(sys.stdlib_module_names)
    assert "pytest" in names
    for name in names:
        file = ground.run(["/usr/bin/python3", "-c", f"import {name}; print({name}.__file__)"]).strip()
        assert outside([file]) == [], name


def test_modules_of_the_build():
    files = [path for depth in range(4) for path in ground.ROOT.glob("*/" * depth + "meson.build")]
    text = "".join(path.read_text() for path in files)
    modules = set(re.findall(r"dependency\('([\w+.-]+)'", text)) - {"threads"}
    assert {"cairo", "cmocka"} <= modules
    for module in modules:
        directory = ground.run(["pkg-config", "--variable=pcfiledir", module]).strip()
        path = "tests/packages" if module == "cmocka" else "examples/packages"
        assert outside([f"{directory}/{module}.pc"], path) == []
    for library in re.findall(r"find_library\('(\w+)'", text):
        file = ground.run(["gcc", f"-print-file-name=lib{library}.so"]).strip()
        assert outside([file]) == []


COMMAND = r"(?:^|[|&;(]|\bthen\b|\bdo\b|\belse\b|\bexec\b)\s*([a-z][\w./+-]*)"
SCRIPTS = ("tests/run", "examples/run", "examples/install-packages", "tests/abi/keep", ".ci/run")


def started_by_python(path):
    """First words of the lists that a Python file runs, and of the shell command in ["sh", "-c", "..."]."""
    for node in ast.walk(ast.parse(path.read_text())):
        if isinstance(node, ast.List):
            words = [word.value if isinstance(word, ast.Constant) else "" for word in node.elts[:3]]
            words = [word if isinstance(word, str) else "" for word in words]
            yield from words[:1]
            if words[:2] == ["sh", "-c"]:
                yield from " ".join(words[2:]).split()[:1]


def programs():
    """Programs that scripts start."""
    words = {"gcc", "g++", "clang", "clang++", "ninja"}
    for name in SCRIPTS:
        text = re.sub(r"(?m)(^|\s)#.*$|'[^']*'", " ", (ground.ROOT / name).read_text())
        text = re.sub(r'^\s*step "[^"]*"( quietly)?', ";", text, flags=re.M)
        words |= set(re.findall(COMMAND, text, re.M))
    for path in python_files():
        words |= set(started_by_python(path))
    return {word.split("/")[-1] for word in words if shutil.which(word)}


def test_programs():
    used = programs()
    assert {"meson", "abidiff", "valgrind", "nm", "readelf", "pkg-config", "dpkg-query", "localedef", "find"} <= used
    away = outside([f"{directory}/{word}" for word in used for directory in ("/usr/bin", "/usr/sbin")])
    assert [word for word in used if {f"/usr/bin/{word}", f"/usr/sbin/{word}"} <= set(away)] == []


def test_a_missing_package_would_be_seen():
    """cmocka.h and pytest are in the closure because the list names their packages, and for no other reason."""
    files = ["/usr/include/cmocka.h", "/usr/bin/valgrind"]
    assert outside(files) == [] and outside(files, "examples/packages") == sorted(files)
    assert owners(files)["/usr/bin/valgrind"] == {"valgrind"}
