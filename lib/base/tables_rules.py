"""What cells say that other tables have to prove: rules of defaults, and when a check has to hold."""
import re

from tables_read import (CAUTIONS, CHECKS, FIELDS, NUMBER, PIECES, QUANTITIES, TRAITS, TRAITS_OF, check_default)

TERM = re.compile(r"\s*([+-]?)\s*(\d+(?:\.\d+)?)?\s*([a-z][a-z0-9_]*)?")
CALL = re.compile(r"call\s+([a-z][a-z0-9_]*)\s*\(([a-z0-9_,\s]*)\)$")
MOST_TERMS = 4  # TAILOR_IN_MOST_TERMS in lib/order/form.h
NEEDS = {"": "0", "make": "TAILOR_IN_NEEDS_MAKE", "section": "TAILOR_IN_NEEDS_SECTION"}


class Rule:
    """constant + sum of factor * field, or a call with the values of `fields`."""

    def __init__(self, row):
        self.row, self.constant, self.terms, self.call = row, "0", [], None
        text = row["rule"]
        if text.startswith("call"):
            match = CALL.match(text)
            if not match:
                raise ValueError("a call is written `call NAME(field, field)`, naming the fields it is given")
            self.call = match.group(1)
            self.terms = [("0", name.strip()) for name in match.group(2).split(",") if name.strip()]
        else:
            self.read_form(text)
        if len(self.terms) > MOST_TERMS:
            raise ValueError(f"more than {MOST_TERMS} fields in one rule")
        if len(set(self.fields())) != len(self.terms):
            raise ValueError("a field stands twice in the rule")

    def fields(self):
        return [name for _, name in self.terms]

    def read_form(self, text):
        place, numbers = 0, 0
        while place < len(text):
            match = TERM.match(text, place)
            sign, factor, name = match.groups()
            if not (factor or name) or (place > 0 and not sign):
                raise ValueError(f"not a linear form, from {text[place:]!r} on")
            minus = "-" if sign == "-" else ""
            if name:
                self.terms.append((minus + (factor or "1"), name))
            else:
                numbers += 1
                self.constant = minus + factor
            place = match.end()
        if numbers > 1 or (numbers == 0 and not self.terms):
            raise ValueError("a linear form has one number, then its fields")


def make_rules(mistakes):
    """All rules of the fields in an order in which each rule's fields come before it."""
    rules, known = {}, {row["name"]: row for row in FIELDS.rows}
    for row in FIELDS.rows:
        if row["rule"] in ("", "required"):
            continue
        wrong = mistakes.of(FIELDS, row)
        try:
            rule = Rule(row)
        except ValueError as error:
            wrong(f"rule {row['rule']!r}: {error}")
            continue
        unknown = [name for name in rule.fields() if name not in known]
        for name in unknown:
            wrong(f"the rule names {name!r}, which is no field")
        for name in rule.fields():
            if name in known and known[name]["rule"] == "":
                wrong(f"the rule names {name}, which may stay not given")
        if not rule.terms and not rule.call:
            check_default(row, rule.constant, wrong)
            if row.get("choices") and all(one["number"] != float(rule.constant) for one in row["choices"].rows):
                wrong(f"the default {rule.constant} is the number of no choice")
        if not unknown:
            rules[row["name"]] = rule
    resolved = {row["name"] for row in FIELDS.rows if row["name"] not in rules}
    ordered, waiting = [], list(rules.values())
    while waiting:
        ready = [rule for rule in waiting if resolved.issuperset(rule.fields())]
        if not ready:
            for rule in waiting:
                mistakes.of(FIELDS, rule.row)("its rule leads back to itself, or to one that does")
            return []
        ordered += ready
        resolved.update(rule.row["name"] for rule in ready)
        waiting = [rule for rule in waiting if rule.row["name"] not in resolved]
    return ordered


# ---- quantities: what they need, and what they are where the two sides are not alike

def check_quantities(mistakes):
    for row in QUANTITIES.rows:
        wrong = mistakes.of(QUANTITIES, row)
        if row["needs"] not in NEEDS:
            wrong(f"needs {row['needs']!r} is not one of {', '.join(word for word in NEEDS if word)}, or empty")
        side, _, name = row["side"].partition(" ")
        if side not in ("left", "sum", "mean", "twin") or bool(name) != (side == "twin"):
            wrong(f"side {row['side']!r} is none of left, sum, mean, twin NAME")
        elif name:
            left = QUANTITIES.named(name)
            if not left or left["side"] != "left":
                wrong(f"side names {name!r}, which is no quantity of the left")
            elif left["unit"] != row["unit"] or left["needs"] != row["needs"]:
                wrong(f"a twin has the unit and the needs of {name}")


# ---- when a check has to hold

class Wrong(Exception):
    """What is wrong with a condition."""


def row_of(table, name, what):
    row = table.named(name)
    if not row:
        raise Wrong(f"no {what} is named {name!r}")
    return row


def number_of(text):
    if not NUMBER.match(text):
        raise Wrong(f"{text!r} is not a plain decimal number")
    return text if "." in text else text + ".0"


def given(field):
    return FIELDS.constant(row_of(FIELDS, field, "field")), "0", "0.0"


def choice(field, name):
    row = row_of(FIELDS, field, "field")
    if not row.get("choices") or all(one["name"] != name for one in row["choices"].rows):
        raise Wrong(f"{field} has no choice {name!r}")
    return FIELDS.constant(row), f"TAILOR_{field.upper()}_{name.upper().replace('-', '_')}", "0.0"


def trait(name, value):
    fields = [field for field, traits in TRAITS_OF.items() if name in traits]
    if len(fields) != 1:
        raise Wrong(f"{name!r} is no trait of the choices of one field")
    if TRAITS[name] and value not in TRAITS[name]:
        raise Wrong(f"{value!r} is not one of {' '.join(TRAITS[name])}")
    than = f"TAILOR_IN_{name.upper()}_{value.upper()}" if TRAITS[name] else number_of(value)
    return f"TAILOR_FIELD_{fields[0].upper()}", f"TAILOR_IN_TRAIT_{name.upper()}", than


def above(quantity, number):
    return QUANTITIES.constant(row_of(QUANTITIES, quantity, "quantity")), "0", number_of(number)


def piece(name):
    return PIECES.constant(row_of(PIECES, name, "piece")), "0", "0.0"


WHEN = {"always": (0, lambda: ("0", "0", "0.0")), "sides": (0, lambda: ("0", "0", "0.0")), "given": (1, given),
        "choice": (2, choice), "trait": (2, trait), "above": (2, above), "piece": (1, piece)}


def make_when(row, wrong):
    """A check's condition as C: kind, number, which of its choices or traits, and than what."""
    kind, *words = row["when"].split(" ")
    if kind not in WHEN or len(words) != WHEN[kind][0]:
        wrong(f"when {row['when']!r} is none of always; given FIELD; choice FIELD NAME; trait NAME VALUE; sides; "
              "above QUANTITY NUMBER; piece NAME")
        return ""
    try:
        number, which, than = WHEN[kind][1](*words)
    except Wrong as error:
        wrong(f"when {row['when']!r}: {error}")
        return ""
    return f"{{TAILOR_IN_WHEN_{kind.upper()}, {number}, {which}, {than}}}"


def check_checks(mistakes):
    for row in CHECKS.rows:
        wrong = mistakes.of(CHECKS, row)
        if row["field"] and not FIELDS.named(row["field"]):
            wrong(f"no field is named {row['field']!r}")
        if row["sense"] not in ("at_most", "at_least"):
            wrong("sense must be at_most or at_least")
        row["as_c"] = make_when(row, wrong)


# ---- cautions

def check_cautions(mistakes):
    for row in CAUTIONS.rows:
        wrong = mistakes.of(CAUTIONS, row)
        if row["field"] and not FIELDS.named(row["field"]):
            wrong(f"no field is named {row['field']!r}")
        if row["quantity"] and not QUANTITIES.named(row["quantity"]):
            wrong(f"no quantity is named {row['quantity']!r}")
        if bool(row["quantity"]) != bool(row["told"] or row["caution"]):
            wrong("bounds belong to a quantity, and a quantity needs one")
        for column in ("told", "caution"):
            if row[column] and not NUMBER.match(row[column]):
                wrong(f"{column} {row[column]!r} is not a number")
        if row["number"] > 128:
            wrong("a caution is one of 128 bits")
