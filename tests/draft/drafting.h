/* Coats for tests: an order in a few words, resolved, drafted and measured; and dice that fall alike on every machine.
 */
#ifndef TESTS_COAT_DRAFTING_H
#define TESTS_COAT_DRAFTING_H

#include <stdlib.h>
#include <string.h>
#include <tailorgeom/coat.h>
#include "support/agree.h"
#include "support/close.h"

#define INCH 25.4

/* ---- orders */

struct given {
    int field;
    double value;
};

/* Some fields of an order: ORDER({TAILOR_FIELD_CHEST_GIRTH, 1016}, {TAILOR_FIELD_CROOK, 10}). */
#define ORDER(...) ((const struct given[]){__VA_ARGS__, {0, 0}})

/** An order and what became of it: `status` and `fault` of making its coat. `object` and `coat`, its pieces, are NULL
 *  unless it was drafted; a coat whose checks fail is there, measured, with TAILOR_CHECK_FAILED. Of an order that is
 *  refused, `row` is there if it could be resolved. */
struct made {
    double client[TAILOR_FIELD_COUNT], row[TAILOR_FIELD_COUNT], constants[TAILOR_CONSTANT_COUNT];
    tailor_coat *object;
    const tailor_pattern *coat;
    double q[TAILOR_QUANTITY_COUNT], value[TAILOR_CHECK_COUNT], limit[TAILOR_CHECK_COUNT];
    tailor_status status;
    tailor_fault fault;
};

/** A house of these constants (NULL: the defaults) and no fields. */
static inline tailor_house *house_of(const double *constants)
{
    tailor_house *house = NULL;
    tailor_fault fault;
    if (tailor_house_new(NULL, 0, constants, constants ? TAILOR_CONSTANT_COUNT : 0, NULL, &house, &fault) != TAILOR_OK)
        fail_msg("%s", fault.sentence);
    return house;
}

/** Quantities and checks of a coat into m. */
static inline void read_measures(struct made *m, const tailor_coat *coat)
{
    memcpy(m->q, tailor_coat_quantities(coat, NULL), sizeof m->q);
    for (int check = 0; check < TAILOR_CHECK_COUNT; check++)
        tailor_coat_check(coat, check, &m->value[check], &m->limit[check]);
}

/** Make the coat of m->client, of this extent, with house constants if not NULL. It is the caller's to unmake. */
static inline tailor_status make_extent(struct made *m, const double *constants, int extent)
{
    tailor_house *house = house_of(constants);
    m->object = NULL;
    m->coat = NULL;
    memset(&m->fault, 0, sizeof m->fault);
    memcpy(m->constants, tailor_house_constants(house, NULL), sizeof m->constants);
    m->status = tailor_coat_new(house, m->client, TAILOR_FIELD_COUNT, extent, &m->object, &m->fault);
    if (!m->object)
        tailor_order_resolve(house, m->client, TAILOR_FIELD_COUNT, m->row, NULL, TAILOR_FIELD_COUNT, NULL);
    tailor_house_free(house); /* a coat needs its house no more */
    if (m->object) {
        m->coat = tailor_coat_pattern(m->object);
        memcpy(m->row, tailor_coat_fields(m->object, NULL), sizeof m->row);
        read_measures(m, m->object);
    }
    return m->status;
}

/** The net coat with every quantity that it can have. */
static inline tailor_status make_client(struct made *m, const double *constants)
{
    return make_extent(m, constants, TAILOR_EXTENT_SECTION);
}

/** Measure m->coat, whatever pattern that is by now, as the coat of m->row and m->constants. */
static inline tailor_status measure_of(struct made *m)
{
    tailor_house *house = house_of(m->constants);
    tailor_coat *measured = NULL;
    tailor_status status =
        tailor_coat_of_pattern(house, m->row, NULL, TAILOR_FIELD_COUNT, m->coat, &measured, &m->fault);
    if (measured)
        read_measures(m, measured);
    tailor_coat_free(measured);
    tailor_house_free(house);
    return status;
}

static inline tailor_status make(struct made *m, const struct given *order)
{
    tailor_fields_clear(m->client, TAILOR_FIELD_COUNT);
    for (; order->field; order++)
        m->client[order->field] = order->value;
    return make_client(m, NULL);
}

/** make, and the test fails unless the coat is drafted with all its checks passing. */
static inline void must_make(struct made *m, const struct given *order)
{
    if (make(m, order) != TAILOR_OK)
        fail_msg("%s: %s", tailor_status_name(m->status), m->fault.sentence);
}

static inline void unmake(struct made *m)
{
    tailor_coat_free(m->object);
    m->object = NULL;
    m->coat = NULL;
}

/* ---- reading a coat by the numbers of the tables */

static inline int piece_of(const tailor_pattern *coat, int number)
{
    for (int i = 0; i < tailor_pattern_piece_count(coat); i++)
        if (tailor_piece_number(coat, i) == number)
            return i;
    fail_msg("no piece %s", tailor_table_text(tailor_piece_table(), number, TAILOR_COLUMN_NAME));
    return -1;
}

static inline const tailor_cubic *edge_of(const tailor_pattern *coat, int piece_number, int edge_number, size_t *count)
{
    const int piece = piece_of(coat, piece_number);
    for (int i = 0; i < tailor_piece_edge_count(coat, piece); i++)
        if (tailor_edge_number(coat, piece, i) == edge_number)
            return tailor_edge_path(coat, piece, i, count);
    fail_msg("no edge %s", tailor_table_text(tailor_edge_table(), edge_number, TAILOR_COLUMN_NAME));
    return NULL;
}

static inline tailor_point point_of(const tailor_pattern *coat, int piece_number, int point_number)
{
    const int piece = piece_of(coat, piece_number);
    for (int i = 0; i < tailor_piece_point_count(coat, piece); i++)
        if (tailor_point_number(coat, piece, i) == point_number)
            return tailor_point_place(coat, piece, i);
    fail_msg("no point %s", tailor_table_text(tailor_point_table(), point_number, TAILOR_COLUMN_NAME));
    return (tailor_point){0, 0};
}

static inline double edge_length(const tailor_pattern *coat, int piece_number, int edge_number)
{
    size_t count;
    const tailor_cubic *path = edge_of(coat, piece_number, edge_number, &count);
    return tailor_path_length(path, count);
}

/** A mark's path; NULL when the piece has none of that number. */
static inline const tailor_cubic *mark_of(const tailor_pattern *coat, int piece_number, int mark_number, size_t *count)
{
    const int piece = piece_of(coat, piece_number);
    for (int i = 0; i < tailor_piece_mark_count(coat, piece); i++)
        if (tailor_mark_number(coat, piece, i) == mark_number)
            return tailor_mark_path(coat, piece, i, count);
    *count = 0;
    return NULL;
}

#define EDGE(m, piece, edge, count) edge_of((m)->coat, TAILOR_PIECE_##piece, TAILOR_EDGE_##edge, count)
#define LENGTH(m, piece, edge) edge_length((m)->coat, TAILOR_PIECE_##piece, TAILOR_EDGE_##edge)
#define POINT(m, piece, point) point_of((m)->coat, TAILOR_PIECE_##piece, TAILOR_POINT_##point)

static inline double apart(tailor_point a, tailor_point b) { return hypot(b.x - a.x, b.y - a.y); }

/* ---- dice: splitmix64 (Steele, Lea and Flood, 2014) */

struct dice {
    uint64_t state;
};

/** Even in 0 .. 1, 1 excluded. */
static inline double even(struct dice *d)
{
    uint64_t z = d->state += UINT64_C(0x9E3779B97F4A7C15);
    z = (z ^ (z >> 30)) * UINT64_C(0xBF58476D1CE4E5B9);
    z = (z ^ (z >> 27)) * UINT64_C(0x94D049BB133111EB);
    return (double)((z ^ (z >> 31)) >> 11) * 0x1p-53;
}

static inline double between(struct dice *d, double low, double high) { return low + (high - low) * even(d); }

/** A normal deviate, none beyond `most` standard deviations. */
static inline double normal(struct dice *d, double most)
{
    for (;;) {
        const double radius = sqrt(-2 * log(1 - even(d))), z = radius * cos(6.283185307179586 * even(d));
        if (fabs(z) <= most)
            return z;
    }
}

/** A value of a field: any choice, or a number from the middle `part` of its range. */
static inline double any_value(struct dice *d, int field, double part)
{
    const tailor_table *table = tailor_field_table();
    const double low = tailor_table_low(table, field), high = tailor_table_high(table, field);
    if (tailor_table_choices(table, field))
        return 1 + floor(even(d) * high);
    const double aside = (1 - part) / 2 * (high - low);
    return between(d, low + aside, high - aside);
}

/** 1 if the field belongs to the body's measures, 0 if to ease, cloth or style. */
static inline int is_measure(int field)
{
    return strcmp(tailor_table_text(tailor_field_table(), field, TAILOR_COLUMN_GROUP), "measures") == 0;
}

/** Usual or long run: tests/run sets TAILOR_LONG for the latter. */
static inline int how_many(int usual, int in_long_run) { return getenv("TAILOR_LONG") ? in_long_run : usual; }

#endif
