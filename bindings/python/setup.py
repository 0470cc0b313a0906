"""Builds the package against the libraries that are installed; no C code of theirs is in it. Without network:

    pip install --no-index --no-build-isolation bindings/python

pkg-config finds libtailorgeom and libtailorgeom-sheet (PKG_CONFIG_PATH for a prefix of your own). What it says of
library directories is kept in the modules, so that they find there what they were built with.
"""
import pathlib
import subprocess
import sys
import tomllib

import setuptools

HERE = pathlib.Path(__file__).resolve().parent
sys.path.insert(0, str(HERE))  # an isolated build does not look here by itself
import cffi_build  # noqa: E402

NEEDED = tomllib.loads((HERE / "pyproject.toml").read_text())["project"]["version"]


def ask(*words):
    try:
        return subprocess.run(["pkg-config", *words], check=True, capture_output=True, text=True).stdout.strip()
    except FileNotFoundError:
        sys.exit("pkg-config is missing (Debian: pkg-config): it tells where libtailorgeom is installed")
    except subprocess.CalledProcessError as error:
        sys.exit(
            f"{error.stderr.strip()}\nInstall libtailorgeom first (meson install), or set PKG_CONFIG_PATH to where its "
            "tailorgeom.pc is"
        )


def installed(module):
    """Where a module's headers and library are; refuses one older than this package."""
    found = ask("--modversion", module)
    if [int(part) for part in found.split(".")] < [int(part) for part in NEEDED.split(".")]:
        sys.exit(
            f"lib{module} {found} is installed in {ask('--variable=prefix', module)}, but this package needs "
            f"{NEEDED} or later: install that first"
        )
    directories = [word[2:] for word in ask("--libs-only-L", module).split()]
    return {
        "include_dirs": [word[2:] for word in ask("--cflags-only-I", module).split()],
        "libraries": [word[2:] for word in ask("--libs-only-l", module).split()],
        "library_dirs": directories,
        "runtime_library_dirs": directories,
    }


def extension(make, module):
    return make(**installed(module)).distutils_extension(str(HERE / "build"), verbose=False)


setuptools.setup(
    ext_modules=[extension(cffi_build.core, "tailorgeom"), extension(cffi_build.sheet, "tailorgeom-sheet")]
)
