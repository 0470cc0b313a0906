"""Orders over the whole range, sound and unsound, for tests and benches: every one of them a dict of fields."""
import numpy as np

from built import tg

CHOICES = {name: field.choices for name, field in tg.fields().items() if field.choices}


def orders(count, seed=1, bad=0.0):
    """Chests of 850 to 1300 on statures of 1600 to 2000, each with some other fields near what the rule gives; a share
    of them beyond their ranges."""
    chance = np.random.default_rng(seed)
    found = []
    for _ in range(count):
        order = {
            "chest_girth": float(chance.uniform(850, 1300)),
            "stature": float(chance.uniform(1600, 2000)),
            "buttoning": int(chance.integers(1, 8)),
            "lapel": int(chance.integers(1, 3)),
        }
        ruled = tg.draft(**{**order, "buttoning": 2, "lapel": 1}, checks="keep").fields
        for name in chance.choice(
            [
                "waist_girth",
                "seat_girth",
                "back_width",
                "shoulder_slope",
                "lapel_width",
                "gorge_slope",
                "coat_length",
                "collar_stand",
            ],
            3,
            replace=False,
        ):
            order[name] = float(ruled[name] * chance.uniform(0.98, 1.02))
        if chance.random() < bad:
            order[str(chance.choice(["chest_girth", "stature", "lapel_width"]))] = float(
                chance.choice([5.0, 1e6, np.inf])
            )
        found.append(order)
    return found


def columns(found):
    """A list of orders as a dict of columns, NaN for what an order does not give."""
    names = list(dict.fromkeys(name for order in found for name in order))
    return {name: np.array([order.get(name, np.nan) for order in found]) for name in names}
