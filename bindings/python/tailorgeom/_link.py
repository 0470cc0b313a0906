"""The loaded C library: the one place that knows where `ffi` and `lib` come from, and whether they fit."""
from __future__ import annotations

from typing import Any

import numpy as np

from ._core import ffi, lib

__all__ = ["BUILT_FOR", "VERSION", "cubics_in", "doubles_in", "ffi", "lib", "new_cubics", "text"]


def text(pointer: Any) -> str:
    """A C string."""
    return ffi.string(pointer).decode()


def older(version: str, needed: tuple[int, ...]) -> bool:
    """Whether a version like "0.1.0" comes before the needed one."""
    return tuple(int(part) for part in version.split(".")[:3]) < needed


BUILT_FOR = (lib.TAILOR_VERSION_MAJOR, lib.TAILOR_VERSION_MINOR, lib.TAILOR_VERSION_PATCH)
VERSION = text(lib.tailor_version())
if older(VERSION, BUILT_FOR):
    raise ImportError(
        f"libtailorgeom {VERSION} is loaded, but this Python package was built for "
        f"{'.'.join(map(str, BUILT_FOR))}: install that libtailorgeom or a later one, or build the package anew"
    )


def doubles_in(array: np.ndarray) -> Any:
    """An array of float64, contiguous, as a `double *` that C may write to."""
    return ffi.from_buffer("double[]", array)


def cubics_in(array: np.ndarray) -> Any:
    """An array of shape (n, 4, 2) as a `tailor_cubic *`."""
    return ffi.from_buffer("tailor_cubic[]", array)


def points_in(array: np.ndarray) -> Any:
    """An array of shape (n, 2) as a `tailor_point *`."""
    return ffi.from_buffer("tailor_point[]", array)


def new_cubics(pointer: Any, count: int) -> np.ndarray:
    """A copy of C's cubics that nobody can write to, (count, 4, 2)."""
    if count == 0:
        return np.empty((0, 4, 2))
    array = np.frombuffer(bytes(ffi.buffer(pointer, 64 * count)), dtype=np.float64)
    return array.reshape(count, 4, 2)
