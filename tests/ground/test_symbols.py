"""What the libraries need and show: libc and libm only, no writable state, no name without its prefix. Which symbols,
and under which version: test_nodes.py."""
import re

import pytest

import ground

LIBRARIES = {
    "tailorgeom": dict(file=ground.BUILD / "lib/libtailorgeom.so.1", needed={"libc.so.6", "libm.so.6"}),
    "tailorgeom-sheet": dict(file=ground.BUILD / "lib/sheet/libtailorgeom-sheet.so.1",
                             needed={"libc.so.6", "libm.so.6", "libcairo.so.2", "libtailorgeom.so.1"}),
}
# All that the core calls in the C library. Nothing here prints, opens, exits, keeps state or reads the locale.
LIBC = set("""malloc free memcpy memmove memset memcmp strlen strcmp strncmp strchr strcspn strspn memchr
              sin cos tan asin acos atan atan2 sincos exp log pow cbrt hypot fmod floor ceil round trunc lround
              fmax fmin ldexp frexp nearbyint _GLOBAL_OFFSET_TABLE_ __stack_chk_fail""".split())


@pytest.fixture(params=LIBRARIES)
def library(request):
    return LIBRARIES[request.param]


def test_soname_and_needed(library):
    dynamic = ground.run(["readelf", "-d", library["file"]])
    assert re.findall(r"SONAME.*\[(.*)\]", dynamic) == [library["file"].name]
    assert set(re.findall(r"NEEDED.*\[(.*)\]", dynamic)) <= library["needed"]


@pytest.fixture(scope="session", params=ground.COMPILERS)
def objects(request, objects_of):
    return objects_of(request.param, ["-O2", "-fPIC"])


def symbols(objects, *options):
    """Pairs (file name, symbol) of what nm lists."""
    lines = ground.run(["nm", "-A", *options, *objects]).splitlines()
    return [(line.split(":", 1)[0].rsplit("/", 1)[1], line.split()[-1]) for line in lines]


# [Nr] Name Type Address Off Size ES Flg Lk Inf Al
SECTION = re.compile(r"^\s*\[\s*\d+\]\s+(\S+)\s+\S+\s+\S+\s+\S+\s+(\S+)\s+\S+\s+(\w*)\s+\d+\s+\d+\s+\d+$", re.M)


def test_no_writable_state(objects):
    for path in objects:
        for name, size, flags in SECTION.findall(ground.run(["readelf", "-SW", path])):
            relocated_then_read_only = name.startswith(".data.rel.ro")
            assert "W" not in flags or relocated_then_read_only or int(size, 16) == 0, f"{path.name}: {name}"


def test_calls_into_the_c_library(objects):
    own = {name for _, name in symbols(objects, "--defined-only")}
    called = {(file, name) for file, name in symbols(objects, "-u") if name not in own}
    assert called and {name for _, name in called} <= LIBC, sorted(call for call in called if call[1] not in LIBC)
    # malloc and free where the caller gave no allocator; anywhere else they go past the allocator
    assert {file for file, name in called if name in ("malloc", "free")} <= {"base_memory.o"}


def test_names_have_the_prefix(objects):
    public = ground.core_declared()
    for file, name in symbols(objects, "--defined-only", "--extern-only"):
        assert name in public or name.startswith("tailor_in_"), f"{file}: {name}"


def test_state_would_be_seen(tmp_path):
    source, bad = tmp_path / "bad.c", tmp_path / "base_bad.o"
    source.write_text("static int calls; int tailor_count(void); int tailor_count(void) { return ++calls; }\n")
    ground.run(["gcc", "-c", source, "-o", bad])
    with pytest.raises(AssertionError):
        test_no_writable_state([bad])
    with pytest.raises(AssertionError):
        test_names_have_the_prefix([bad])
