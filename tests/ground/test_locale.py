"""A comma locale in the host changes nothing in the libraries. (The CLI: tests/cli.)"""
import os
import subprocess

import pytest

import ground


@pytest.fixture(scope="module")
def comma(tmp_path_factory):
    """A German locale, made for this test."""
    directory = tmp_path_factory.mktemp("locale")
    ground.run(["localedef", "-i", "de_DE", "-f", "UTF-8", directory / "de_DE.UTF-8"])
    return directory


@pytest.fixture(scope="module")
def host(tmp_path_factory):
    program = tmp_path_factory.mktemp("host") / "host"
    lib = ground.BUILD / "lib"
    ground.run(["gcc", "-std=c11", *ground.STRICT, "-I", ground.ROOT / "include", ground.ROOT / "tests/ground/host.c",
                "-o", program, "-L", lib, "-L", lib / "sheet", "-ltailorgeom-sheet", "-ltailorgeom",
                f"-Wl,-rpath,{lib}:{lib}/sheet"])
    return program


def in_locale(command, name, directory):
    environment = {**os.environ, "LOCPATH": str(directory), "LC_ALL": name}
    done = subprocess.run([str(word) for word in command], env=environment, capture_output=True)
    assert done.returncode == 0, done.stderr.decode()
    return done


def test_libraries(host, comma):
    plain = in_locale([host, "C"], "C", comma)
    german = in_locale([host, "de_DE.UTF-8"], "de_DE.UTF-8", comma)
    assert plain.stderr == b"decimal point .\n" and german.stderr == b"decimal point ,\n"
    assert german.stdout == plain.stdout
    assert b"<svg" in plain.stdout
