#!/usr/bin/env python3
"""Write the public enum headers and the C tables from the CSV tables, which are the only place to edit.

    /usr/bin/python3 lib/base/generate_tables.py           write what changed
    /usr/bin/python3 lib/base/generate_tables.py --check   write nothing; exit 1 if anything would change

Exit 2, and nothing written, when a table holds a mistake: every mistake is told with its file and line.
Only the standard library is used. A CSV that does not exist is an empty table.

Rules of defaults (column `rule` of fields.csv):
    (empty)                                 stays not given
    required                                the order is refused without it
    150.2 + 0.2338 chest_girth - back_width a linear form: one number, then fields, each with an optional factor
    call NAME(field, field)                 the C function tailor_in_NAME of lib/order/defaults.c, which is given
                                            the values of exactly these fields, in this order

Choices (choices.csv): the rows of one `field` are the choices of that field or quantity; where several take the same
ones, `field` holds all their names, separated by spaces. People see them in the order of the file. `synonyms` are read
but never written. What the code asks of a choice is a trait, a column of its own, and never its number.

Quantities (`needs`, `side` of quantities.csv): `needs` says what has to be made for it besides the net draft: make or
section. `side` says what it is where the two sides are not alike: the left's; the sum or the mean of what each side
gives; or, twin NAME, what the right side gives for the quantity NAME.

Checks (`when` of checks.csv): the coats that have the check.
    always                  every coat
    given FIELD             where the order gives the field
    choice FIELD NAME       where that choice is ordered
    trait NAME VALUE        where the choice ordered has that trait
    sides                   where left and right are not alike
    above QUANTITY NUMBER   where the quantity is greater
    piece NAME              where the pattern has the piece
A check that is not measured where it has to be, or measured where it has not, fails.

Pieces and edges: `net` is yes for those of the net draft, which measuring looks at, and empty for those that only the
make has; a piece's `fold` is yes where it is half of what is cut, on the fold of the cloth. A point's `outline` is yes
where it lies on the outline of every piece of the net draft that has it. A finding's `refuses` is yes where a pattern
cannot be cut for it, and its limit is its low or its high.
"""
import argparse
import sys

sys.dont_write_bytecode = True  # the tree stays as it is

import tables_read as reading  # noqa: E402
import tables_rules as rules  # noqa: E402
import tables_write as writing  # noqa: E402


def generate():
    mistakes = reading.Mistakes()
    for table in reading.ORDER + reading.PATTERN + [reading.CLOTH, reading.CAUTIONS]:
        reading.read(table, mistakes)
    choices = reading.read_choices(mistakes)
    rules.check_quantities(mistakes)
    rules.check_checks(mistakes)
    rules.check_cautions(mistakes)
    defaults = rules.make_rules(mistakes)
    if mistakes:
        return mistakes, {}
    order_includes = ["<math.h>", "<tailorgeom/order.h>", '"../base/table.h"', '"defaults.h"', '"form.h"',
                      '"quantity.h"', '"traits.h"']
    pattern_includes = ["<math.h>", "<tailorgeom/pattern.h>", "<tailorgeom/order_tables.h>", '"../base/table.h"',
                        '"../order/traits.h"', '"net.h"', '"when.h"']
    cloth_includes = ["<math.h>", "<tailorgeom/cloth.h>", '"../base/table.h"']
    coat_includes = ["<math.h>", "<tailorgeom/coat.h>", '"../base/table.h"', '"cautions.h"']
    return mistakes, {
        "include/tailorgeom/order_tables.h":
            writing.header("order_tables", "fields, house constants, quantities and choices.", reading.ORDER,
                           writing.choice_enums()),
        "include/tailorgeom/pattern_tables.h":
            writing.header("pattern_tables", "pieces, edges, points, marks, checks and findings.", reading.PATTERN),
        "include/tailorgeom/cloth_tables.h":
            writing.header("cloth_tables", "properties of a sheet of cloth.", [reading.CLOTH]),
        "include/tailorgeom/coat_tables.h":
            writing.header("coat_tables", "cautions of a coat.", [reading.CAUTIONS]),
        "lib/order/tables.c":
            writing.c_file(order_includes, reading.ORDER, writing.c_quantities() + writing.c_rules(defaults),
                           writing.c_choices(choices)),
        "lib/pattern/tables.c":
            writing.c_file(pattern_includes, reading.PATTERN,
                           writing.c_when(reading.CHECKS) + writing.c_net() +
                           writing.c_flags(reading.POINTS, "outline", "outline_point") +
                           writing.c_flags(reading.FINDINGS, "refuses", "finding_refuses")),
        "lib/pattern/net_tables.h": writing.net_header(),
        "lib/cloth/tables.c": writing.c_file(cloth_includes, [reading.CLOTH]),
        "lib/coat/tables.c": writing.c_file(coat_includes, [reading.CAUTIONS], writing.c_cautions()),
    }


def main():
    parser = argparse.ArgumentParser(description="Write enum headers and C tables from the CSV tables.")
    parser.add_argument("--check", action="store_true", help="write nothing; exit 1 if a file would change")
    check = parser.parse_args().check
    mistakes, files = generate()
    for mistake in mistakes:
        print(mistake, file=sys.stderr)
    if mistakes:
        return 2
    changed = 0
    for name, text in files.items():
        path = reading.ROOT / name
        if path.exists() and path.read_bytes() == text.encode():
            continue
        changed += 1
        if check:
            print(f"{name}: differs from what the tables give; run lib/base/generate_tables.py", file=sys.stderr)
        else:
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(text.encode())
            print(f"wrote {name}")
    return 1 if check and changed else 0


if __name__ == "__main__":
    sys.exit(main())
