"""What the ground tests make once a run, whichever of pytest's workers asks first."""
import fcntl
import hashlib
import os

import pytest

import ground


@pytest.fixture(scope="session")
def objects_of(tmp_path_factory):
    """Objects of the core (and the sheet) by compiler and flags. A worker that finds another at it waits for it."""
    own = tmp_path_factory.getbasetemp()
    whole = (own.parent if "PYTEST_XDIST_WORKER" in os.environ else own) / "objects"
    whole.mkdir(exist_ok=True)

    def objects(compiler, flags, sheet=False):
        cairo = ground.run(["pkg-config", "--cflags", "cairo"]).split() if sheet else []
        sources = [*ground.CORE, *(ground.SHEET if sheet else [])]
        flags = [*ground.EXACT, *flags, "-I", ground.ROOT / "include", *cairo]
        key = hashlib.sha256(repr([compiler, flags, sources]).encode()).hexdigest()[:16]
        directory, done = whole / key, whole / f"{key}.done"
        with open(whole / f"{key}.lock", "w") as lock:
            fcntl.flock(lock, fcntl.LOCK_EX)
            if not done.exists():
                directory.mkdir(exist_ok=True)
                ground.compile_all(compiler, flags, sources, directory)
                done.touch()
        return sorted(directory.glob("*.o"))
    return objects
