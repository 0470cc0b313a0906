"""The package explains itself: docstrings, help, types, tables, versions, and code in the docs that runs."""
import ast
import dataclasses
import inspect
import pydoc
import re
import tomllib
import typing

import pandas
import pytest

import built
from built import tg

SOURCES = sorted((built.BINDINGS / "tailorgeom").glob("*.py"))
PUBLIC = [getattr(tg, name) for name in tg.__all__ if callable(getattr(tg, name))]


def members(cls):
    return [
        (name, inspect.unwrap(getattr(member, "__func__", member)))
        for name, member in vars(cls).items()
        if not name.startswith("_")
        and (
            callable(member)
            or isinstance(member, (classmethod, property))
            or type(member).__name__ == "cached_property"
        )
    ]


def test_everything_has_a_docstring():
    missing = [
        thing.__name__ for thing in PUBLIC if not thing.__doc__ or thing.__doc__.startswith(thing.__name__ + "(")
    ]
    for cls in filter(inspect.isclass, PUBLIC):
        missing += [f"{cls.__name__}.{name}" for name, member in members(cls) if not inspect.getdoc(member)]
    assert missing == [] and len(PUBLIC) > 25
    for path in SOURCES:
        assert ast.get_docstring(ast.parse(path.read_text())), path.name


def test_everything_is_typed():
    bare = []
    for path in SOURCES:
        for node in ast.walk(ast.parse(path.read_text())):
            if isinstance(node, ast.FunctionDef):
                arguments = [*node.args.args, *node.args.kwonlyargs, node.args.vararg, node.args.kwarg]
                bare += [
                    f"{path.name}:{node.name}"
                    for argument in arguments
                    if argument and not argument.annotation and argument.arg not in ("self", "cls")
                ]
                bare += [f"{path.name}:{node.name}" for _ in [0] if not node.returns]
    assert bare == []
    assert (built.PACKAGE / "tailorgeom/py.typed").exists()
    for thing in PUBLIC:
        if inspect.isfunction(thing):
            assert typing.get_type_hints(thing)["return"] is not None


def test_help_reads_well():
    text = pydoc.render_doc(tg, renderer=pydoc.plaintext)
    for words in ("One idea carries it", "draft(**fields) -> Pattern", "personal data"):
        assert words in text
    for thing in (tg.draft, tg.rows, tg.Path, tg.Pattern, tg.TailorError):
        page = pydoc.render_doc(thing, renderer=pydoc.plaintext)
        assert max(map(len, inspect.getdoc(thing).splitlines())) <= 120 and len(page) > 300
    assert set(tg.__all__) <= set(dir(tg))


def test_sources_can_be_read():
    for path in [*SOURCES, *built.BINDINGS.glob("*.py"), *(built.ROOT / "examples").glob("*.py")]:
        lines = path.read_text().splitlines()
        assert len(lines) <= 500 and max(map(len, lines)) <= 120, path.name


def test_every_module_is_laid_out_by_meson():
    assert {path.name for path in SOURCES} == {path.name for path in (built.PACKAGE / "tailorgeom").glob("*.py")}
    for path in SOURCES:
        assert path.read_bytes() == (built.PACKAGE / "tailorgeom" / path.name).read_bytes()


def test_one_version():
    version = re.search(r"version: '(.*)'", (built.ROOT / "meson.build").read_text()).group(1)
    project = tomllib.loads((built.BINDINGS / "pyproject.toml").read_text())["project"]
    assert version == tg.__version__ == project["version"] == tg.library_version
    assert tg.edition == tg.draft(chest_girth=1016).edition >= 1


TABLES = {"fields": tg.fields, "constants": tg.constants, "quantities": tg.quantities}


@pytest.mark.parametrize("name", TABLES)
def test_tables_are_the_csv(name):
    """Every row and column of the tables under lib/order, read by pandas."""
    csv = pandas.read_csv(built.ROOT / f"lib/order/{name}.csv", dtype=str, keep_default_na=False)
    choices = pandas.read_csv(built.ROOT / "lib/order/choices.csv", dtype=str, keep_default_na=False)
    table = TABLES[name]()
    assert set(table) == set(csv["name"]) and len(table) == len(csv)
    for _, row in csv.iterrows():
        ours = table[row["name"]]
        for column in ("group", "term", "unit", "rule", "provenance", "meaning", "since"):
            assert getattr(ours, column) == row[column]
        assert str(ours.number) == row["number"]
        if row["unit"] != "choice":
            assert (ours.low, ours.high) == tuple(float(row[end]) if row[end] else None for end in ("low", "high"))
        else:
            mine = choices[[row["name"] in names.split() for names in choices["field"]]]
            assert ours.choices == tuple(mine["name"]) and (ours.low, ours.high) == (1, max(map(int, mine["number"])))
            for _, one in mine.iterrows():
                choice = tg.choices(row["name"])[one["name"]]
                assert (str(choice.number), choice.term, choice.meaning) == (one["number"], one["term"], one["meaning"])
                assert " ".join(choice.synonyms) == one["synonyms"]


def test_tables_read_well():
    for table in (tg.fields(), tg.constants(), tg.quantities(), tg.checks()):
        assert len(repr(table).splitlines()) == len(table) and list(table.frame().index) == list(table)
        with pytest.raises(dataclasses.FrozenInstanceError):
            next(iter(table.values())).low = 5
        with pytest.raises(TypeError):
            table["x"] = 1
    assert tg.checks()["tip_clear_least"].sense == -1 and tg.checks()["seam_error"].sense == 1
    assert len(tg.choices("chest_girth")) == 0
    assert list(tg.choices("roll_class")) == ["holds", "between", "rolls-through"]
    with pytest.raises(KeyError):
        tg.choices("chest")
    with pytest.raises(KeyError):
        tg.fields()["chest"]


def test_code_in_docstrings_runs():
    """The indented lines of the package's own docstring, one after another."""
    code = "\n".join(line.strip() for line in tg.__doc__.splitlines() if line.startswith("    "))
    assert code.count("tg.") >= 3
    space = {"pytest": pytest}
    exec(code.replace('coat.to_pdf("coat.pdf")', "coat.to_pdf()"), space)
    assert space["coat"].fields["buttoning"] == "three-button"


def test_code_in_the_readme_runs(tmp_path):
    code = re.search(r"```python\n(.*?)```", (built.ROOT / "README.md").read_text(), re.S).group(1)
    built.python(code, cwd=tmp_path)
    assert (tmp_path / "coat.pdf").read_bytes().startswith(b"%PDF")
