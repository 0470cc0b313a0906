"""rows(): the kinds of tables, bad rows, and both with pandas and without it."""
import numpy as np
import pandas
import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

import built
from built import tg

WANT = ["coverage_scye", "lapel_area"]
CHEST, KIND = [950.0, 1016.0, 1100.0], ["two-button", "three-button", "one-button"]
EXPECTED = np.array(
    [
        [tg.draft(chest_girth=chest, buttoning=kind).quantities[name] for name in WANT]
        for chest, kind in zip(CHEST, KIND)
    ]
)


def structured():
    table = np.zeros(3, dtype=[("chest_girth", "f4"), ("buttoning", "i2")])
    table["chest_girth"], table["buttoning"] = CHEST, [2, 3, 1]
    return table


TABLES = {
    "dict": {"chest_girth": CHEST, "buttoning": KIND},
    "dict of arrays": {"chest_girth": np.array(CHEST), "buttoning": np.array([2, 3, 1])},
    "texts": {"chest_girth": ["95 cm", "40 in", 1100], "buttoning": np.array(KIND)},
    "structured": structured(),
    "frame": pandas.DataFrame({"chest_girth": CHEST, "buttoning": KIND}, index=["a", "b", "c"]),
    "category": pandas.DataFrame({"chest_girth": CHEST, "buttoning": pandas.Categorical(KIND)}),
    "array": np.array([CHEST, [2, 3, 1]]).T,
    "whole numbers": np.array([CHEST, [2, 3, 1]]).T.astype(int),
    "lists": [[950, "two-button"], ["40 in", "three-button"], [1100, "one-button"]],
    "transposed": np.asfortranarray(np.array([CHEST, [2, 3, 1]]).T),
}


@pytest.mark.parametrize("kind", TABLES)
def test_kinds(kind):
    table = TABLES[kind]
    columns = (
        {"columns": ["chest_girth", "buttoning"]}
        if isinstance(table, list) or getattr(table, "ndim", 0) == 2 and isinstance(table, np.ndarray)
        else {}
    )
    answer = tg.rows(table, WANT, **columns)
    if columns:
        assert answer.shape == (3, 2)
        assert np.array_equal(answer, EXPECTED)
        return
    if isinstance(table, pandas.DataFrame):
        assert isinstance(answer, pandas.DataFrame) and answer.index.equals(table.index)
        assert list(answer.columns) == WANT
    elif isinstance(table, np.ndarray):
        assert answer.dtype.names == tuple(WANT)
    else:
        assert isinstance(answer, dict) and list(answer) == WANT
    assert np.array_equal(np.column_stack([answer[name] for name in WANT]), EXPECTED)


def test_all_quantities_and_one():
    table = {"chest_girth": CHEST}
    answer = tg.rows(table)
    assert list(answer) == list(tg.quantities())
    assert np.array_equal(tg.rows(table, "lapel_area")["lapel_area"], answer["lapel_area"])
    assert list(answer["coverage_scye_rolled"]) == pytest.approx([np.nan] * 3, nan_ok=True)  # two buttons have none


def test_one_value_for_all():
    answer = tg.rows({"chest_girth": "40 in", "lapel_width": [80, 90], "buttoning": "one-button"}, "button_count")
    assert answer["button_count"].tolist() == [1.0, 1.0]
    assert len(tg.rows({"chest_girth": 1016}, "lapel_area")["lapel_area"]) == 1
    assert len(tg.rows({"chest_girth": []}, "lapel_area")["lapel_area"]) == 0
    assert tg.rows(np.empty((0, 1)), WANT, columns=["chest_girth"]).shape == (0, 2)


def test_columns_picks():
    frame = pandas.DataFrame({"client": ["A", "B"], "chest_girth": [1000, 1100]})
    with pytest.raises(tg.OrderError, match="client"):
        tg.rows(frame, "lapel_area")
    assert len(tg.rows(frame, "lapel_area", columns=["chest_girth"])) == 2
    with pytest.raises(tg.CallError, match="no column 'chest'"):
        tg.rows(frame, "lapel_area", columns=["chest"])


def test_not_given_in_a_table():
    for nothing in (None, np.nan, pandas.NA):
        frame = pandas.DataFrame({"chest_girth": [1000, 1016], "buttoning": pandas.Series([nothing, 3], dtype=object)})
        assert tg.rows(frame, "button_count")["button_count"].tolist() == [2.0, 3.0]


def test_house():
    house = {"chest_ease": 90, "buttoning": 1}
    for given_house in (house, tg.House(house)):
        answer = tg.rows({"chest_girth": CHEST}, "finished_chest", house=given_house)
        assert answer["finished_chest"] == pytest.approx(np.array(CHEST) + 90, abs=0.01)
    with pytest.raises(tg.OrderError) as caught:
        tg.rows({"chest_girth": CHEST}, house={"hang": 500})
    assert caught.value.field == "hang"


BAD = {"chest_girth": [1016, 40, 1016, 1016, 1016], "buttoning": [2, 2, "purple", "two-button", 9]}


def test_the_first_bad_row_is_raised():
    with pytest.raises(tg.OrderError) as caught:
        tg.rows(BAD, WANT)
    error = caught.value
    assert error.row == 1 and error.field == "chest_girth" and error.value == 40 and error.high == 1600
    assert "row 1: " in str(error) and "3 rows of 5" in str(error) and "did you mean 40 in" in str(error)
    with pytest.raises(tg.OrderError) as caught:
        tg.rows({name: column[2:3] for name, column in BAD.items()}, WANT)
    assert caught.value.row == 0 and "rows of" not in str(caught.value)


@pytest.mark.parametrize("threads", [1, 2])
def test_bad_rows_are_kept(threads):
    more = ["status", "message", "cautions"]
    many = {name: column * 400 for name, column in BAD.items()}
    answer = tg.rows(many, WANT, on_error="keep", threads=threads)
    assert answer["status"].tolist() == [0, 204, 203, 0, 203] * 400
    good = answer["status"] == 0
    assert not np.isnan(answer["lapel_area"][good]).any() and np.isnan(answer["lapel_area"][~good]).all()
    assert [bool(message) for message in answer["message"]] == (~good).tolist()
    assert "chest_girth 40 mm" in answer["message"][1] and "buttoning" in answer["message"][2]
    frame = tg.rows(pandas.DataFrame(many), WANT, on_error="keep")
    assert frame["status"].tolist() == answer["status"].tolist() and list(frame.columns) == [*WANT, *more]
    matrix = tg.rows(np.array([[1016, 2], [40, 2]]), WANT, columns=["chest_girth", "buttoning"], on_error="keep")
    assert matrix[:, -1].tolist() == [0, 204] and np.isnan(matrix[1, :-1]).all()


@pytest.mark.parametrize(
    "call",
    [
        lambda: tg.rows({"chest_girth": CHEST}, "lapelarea"),
        lambda: tg.rows({"chest_girth": CHEST}, "\ud800?"),
        lambda: tg.rows({"chst": CHEST}),
        lambda: tg.rows([1, 2, 3]),
        lambda: tg.rows(np.ones((2, 2))),
        lambda: tg.rows(np.ones((2, 2)), columns=["chest_girth"]),
        lambda: tg.rows({"chest_girth": CHEST, "stature": [1800, 1700]}),
        lambda: tg.rows({"chest_girth": np.ones((3, 2))}),
        lambda: tg.rows({"chest_girth": CHEST}, on_error="ignore"),
        lambda: tg.rows({"chest_girth": CHEST}, threads=-1),
        lambda: tg.rows(np.array([[1000.0, 1001.0]]), columns=["chest_girth", "chest_girth"]),
    ],
)
def test_calls_refused(call):
    with pytest.raises(ValueError) as caught:
        call()
    assert len(str(caught.value)) > 20 and getattr(caught.value, "status", 100) < 900


@settings(max_examples=60, deadline=None)
@given(
    some.lists(
        some.tuples(
            some.one_of(some.floats(600, 1700), some.just(float("nan"))), some.floats(1300, 2300), some.integers(0, 6)
        ),
        max_size=8,
    ),
    some.integers(1, 3),
)
def test_rows_is_draft(orders, threads):
    matrix = np.array(orders, dtype=float).reshape(len(orders), 3)
    names = ["chest_girth", "stature", "buttoning"]
    answer = tg.rows(matrix, "lapel_area", columns=names, on_error="keep", threads=threads)
    for row, (value, status) in zip(orders, answer):
        try:
            assert tg.draft(**dict(zip(names, row))).quantities["lapel_area"] == value and status == 0
        except tg.TailorError as error:
            assert status == error.status and np.isnan(value)


WITHOUT = """
import sys
class Nothing:
    def find_spec(self, name, path=None, target=None):
        if name.split(".")[0] in ("pandas", "matplotlib"):
            raise ImportError(name)
sys.meta_path.insert(0, Nothing())
import tailorgeom as tg
answer = tg.rows({"chest_girth": [1000, 40]}, "lapel_area", on_error="keep")
assert answer["status"].tolist() == [0, 204], answer
compared = tg.compare({"chest_girth": 1016})
assert isinstance(compared.table, dict) and len(compared.table["lapel_area"]) == 7
for call in (tg.fields().frame, compared.plot):
    try:
        call()
    except ImportError as error:
        print(error)
    else:
        raise SystemExit("no ImportError")
assert "pandas" not in sys.modules and "matplotlib" not in sys.modules
"""


def test_without_pandas_and_matplotlib():
    told = built.python(WITHOUT)
    assert "needs pandas" in told and "need matplotlib" in told


def test_the_package_loads_little():
    told = built.python(
        "import tailorgeom, sys; tailorgeom.draft(chest_girth=1016); "
        "print(sorted({'pandas', 'matplotlib', 'tailorgeom._sheet'} & set(sys.modules)))"
    )
    assert told.strip() == "[]"


def test_threads_0_is_as_many_as_there_are():
    table = {"chest_girth": np.linspace(900, 1100, 2000)}
    assert np.array_equal(
        tg.rows(table, "lapel_area", threads=0)["lapel_area"], tg.rows(table, "lapel_area")["lapel_area"]
    )
