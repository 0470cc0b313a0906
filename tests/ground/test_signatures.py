"""What can be guessed: a prefix names one set of numbers, and no call takes more arguments than a reader keeps in
mind."""
import os
import re

import pytest

import ground

MOST = 7  # arguments of a public function, an array with its counts and strides being one
AS_THEY_ARE = {"geom", "lay", "canvas", "cloth"}  # keep their signatures: curves, shapes and sheets come with numbers
ALLOWED = set()  # functions that others are still changing, by name
COUNT = re.compile(r"(?:^|_)(?:count|capacity|needed|found|room|bytes|stride)$|^n[pq]$")
TEXT = {header: ground.without_comments(header.read_text()) for header in ground.HEADERS}


def prefixes(texts):
    """{common prefix up to an underscore: [enumerators of each enum that has it]}"""
    found = {}
    for text in texts:
        for body in re.findall(r"\benum\b[^{;]*\{([^}]*)\}", text):
            names = re.findall(r"(?:^|,)\s*(\w+)", body)
            common = os.path.commonprefix(names) if len(names) > 1 else names[0]
            found.setdefault(common[:common.rfind("_") + 1], []).append(names)
    return found


def shared(found):
    return {prefix: enums for prefix, enums in found.items() if len(enums) > 1}


def test_a_prefix_names_one_set():
    found = prefixes(TEXT.values())
    assert shared(found) == {}
    assert len(found) > 40 and all(prefix.startswith("TAILOR_") for prefix in found)
    assert [prefix for prefix in found if prefix == "TAILOR_"] == ["TAILOR_"]  # statuses, and nothing else
    names = [name for enums in found.values() for enum in enums for name in enum]
    assert len(names) == len(set(names)) > 500


@pytest.mark.parametrize("text, prefix", [
    ("enum { TAILOR_ROLL_CLASS = 1, TAILOR_ROLL_BAND = 2 }; enum { TAILOR_ROLL_HOLDS = 1, TAILOR_ROLL_SETTLES };",
     "TAILOR_ROLL_"),
    ("enum { TAILOR_PAGE_UNITS }; typedef enum { TAILOR_PAGE_A4 = 4, TAILOR_PAGE_A3 = 3, } page;", "TAILOR_PAGE_")],
    ids=["numbers and choices", "one alone"])
def test_a_shared_prefix_would_be_seen(text, prefix):
    assert set(shared(prefixes([text]))) == {prefix}
    assert shared(prefixes([text.replace("{ " + prefix, "{ TAILOR_OTHER_", 1).split(";")[0]])) == {}


def arguments(parameters):
    """How many arguments a list of parameters is."""
    groups, open_array = 0, False
    for parameter in (" ".join(each.split()) for each in parameters.split(",")):
        pointer, name = "*" in parameter, re.search(r"(\w+)(?:\[\w*\])?$", parameter).group(1)
        if open_array and COUNT.search(name):
            continue  # of the array before it
        groups += parameter != "void"
        open_array = pointer or parameter.endswith("]")
    return groups


def functions(text):
    text = re.sub(r"(?m)^\s*#.*$", "", text)
    return re.findall(r"\bTAILOR_API\b[^;{()]*?\b(\w+)\s*\(([^)]*)\)", text)


def too_long(text):
    return {name for name, parameters in functions(text) if arguments(parameters) > MOST}


@pytest.mark.parametrize("header", [h for h in ground.HEADERS if ground.declared(h)], ids=lambda header: header.name)
def test_seven_arguments(header):
    assert {name for name, _ in functions(TEXT[header])} == set(ground.declared(header))
    if header.stem not in AS_THEY_ARE:
        assert too_long(TEXT[header]) <= ALLOWED


def test_what_is_allowed_is_still_there():
    """A function that has been shortened goes off the list."""
    assert ALLOWED <= {name for text in TEXT.values() for name in too_long(text)}


def test_arguments_are_counted():
    assert arguments("void") == 0
    assert arguments("const double *client, size_t client_count, double *fields, int32_t *origins, size_t count") == 3
    assert arguments("double mm, int print, char *text, size_t capacity, size_t *needed") == 3
    assert arguments("const tailor_cubic *p, size_t np, const tailor_cubic *q, size_t nq, double tolerance") == 3
    assert arguments("int count, int other_count") == 2  # of no array
    long = "int a, int b, const double *c, size_t c_count, double d, double e, tailor_fault *fault, int {}"
    assert too_long(f"TAILOR_API int tailor_long({long.format('f')}, int g);") == {"tailor_long"}
    assert too_long(f"TAILOR_API int tailor_fits({long.format('f')});") == set()
