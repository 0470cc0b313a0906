/* Whole coats of every kind for the tests of facing, top collar, canvas and tapes. */
#ifndef TESTS_COAT_FRONT_MAKE_H
#define TESTS_COAT_FRONT_MAKE_H

#include "draft/making.h"

/** Fail over an order, which is printed as a card's lines. */
#define FAIL_ORDER(m, ...)                                                                                             \
    do {                                                                                                               \
        print_client(m, (m)->constants);                                                                               \
        fail_msg(__VA_ARGS__);                                                                                         \
    } while (0)

/** What a piece must be: its outline sound, its marks finite. */
static inline void look_at_piece(const struct made *m, int piece)
{
    const char *name = tailor_piece_name(m->coat, piece);
    size_t count;
    const tailor_cubic *path = tailor_piece_outline(m->coat, piece, &count);
    const char *bad = bad_outline(path, count);
    if (bad)
        FAIL_ORDER(m, "%s %s", name, bad);
    if (!(tailor_path_area(path, count) > 1000))
        FAIL_ORDER(m, "%s has an area of %g", name, tailor_path_area(path, count));
    if (tailor_piece_copies(m->coat, piece) < 1)
        FAIL_ORDER(m, "%s is cut %d times", name, tailor_piece_copies(m->coat, piece));
    for (int i = 0; i < tailor_piece_mark_count(m->coat, piece); i++) {
        path = tailor_mark_path(m->coat, piece, i, &count);
        for (size_t j = 0; j < 4 * count; j++)
            if (!(isfinite(path[j / 4].p[j % 4].x) && isfinite(path[j / 4].p[j % 4].y)))
                FAIL_ORDER(m, "%s: %s is not finite", name, tailor_mark_name(m->coat, piece, i));
    }
}

/** What to look over in a coat that could be made. */
typedef void look(const struct made *m);

/** Make many orders, and look over whatever could be drafted. Every buttoning and lapel comes alike often; with `house`
 *  the constants of facing and canvas are drawn from the whole of their ranges. How many were made. */
static inline int make_many(uint64_t seed, int orders, struct drawing how, int house, look *look_over)
{
    struct dice d = {seed};
    struct made m, net;
    double constants[TAILOR_CONSTANT_COUNT];
    const tailor_table *table = tailor_constant_table();
    int made = 0;
    for (int n = 0; n < orders; n++) {
        draw_client(&d, m.client, how);
        m.client[TAILOR_FIELD_BUTTONING] = any_value(&d, TAILOR_FIELD_BUTTONING, 1);
        m.client[TAILOR_FIELD_LAPEL] = any_value(&d, TAILOR_FIELD_LAPEL, 1);
        agree_with_itself(m.client);
        tailor_fields_clear(constants, TAILOR_CONSTANT_COUNT);
        for (int i = 1; house && i < TAILOR_CONSTANT_COUNT; i++) {
            const char *group = tailor_table_text(table, i, TAILOR_COLUMN_GROUP);
            if (strcmp(group, "facing") == 0 || strcmp(group, "canvas") == 0)
                constants[i] = between(&d, tailor_table_low(table, i), tailor_table_high(table, i));
        }
        make_whole_client(&m, constants);
        if (m.coat) {
            made++;
            look_over(&m);
        } else {
            make_client(memcpy(&net, &m, sizeof m), constants);
            if (net.coat)
                FAIL_ORDER(&m, "can be drafted, but not made: %s", m.fault.sentence);
        }
        unmake(&m);
    }
    print_message("# %d of %d orders could be drafted, and were made\n", made, orders);
    return made;
}

/** The same over men as they are, any style on them, any order at all, styles at the ends of their ranges, any house.
 */
static inline void make_of_every_kind(look *look_over)
{
    const int orders = how_many(1000, 10000);
    assert_true(make_many(31, orders, (struct drawing){1, 0, 1}, 0, look_over) > orders / 2);
    assert_true(make_many(32, orders, (struct drawing){1, 0.5, 1}, 0, look_over) > orders / 10);
    assert_true(make_many(33, orders, (struct drawing){0, 0.1, 1}, 0, look_over) > orders / 10);
    assert_true(make_many(34, orders, (struct drawing){0, 0.3, 0}, 0, look_over) > orders / 10);
    assert_true(make_many(35, orders, (struct drawing){1, 0.2, 1}, 1, look_over) > orders / 10);
}

#endif
