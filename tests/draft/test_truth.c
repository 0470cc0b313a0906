/* Runs tests/truth/coat.truth; the form of a case stands at its head. */
#include "draft/drafting.h"
#include "support/truth.c"

static size_t cases;

/** The number behind a prefix such as "house ": 0 when the key has another prefix, or names no row. */
static int row_after(const char *key, const char *prefix, const tailor_table *table)
{
    const size_t length = strlen(prefix);
    return strncmp(key, prefix, length) == 0 ? tailor_table_find(table, key + length) : 0;
}

struct order {
    double client[TAILOR_FIELD_COUNT], house[TAILOR_CONSTANT_COUNT], more[TAILOR_FIELD_COUNT];
};

static void read_order(const truth_case *one, struct order *order)
{
    tailor_fields_clear(order->client, TAILOR_FIELD_COUNT);
    tailor_fields_clear(order->house, TAILOR_CONSTANT_COUNT);
    tailor_fields_clear(order->more, TAILOR_FIELD_COUNT);
    for (size_t i = 0; i < one->given_count; i++) {
        const truth_pair *given = &one->given[i];
        const int field = tailor_table_find(tailor_field_table(), given->key);
        const int constant = row_after(given->key, "house ", tailor_constant_table());
        const int more = row_after(given->key, "more ", tailor_field_table());
        tailor_fault fault = {0};
        tailor_status status = TAILOR_UNKNOWN_FIELD;
        if (field)
            status = tailor_value_read(tailor_field_table(), field, given->text, &order->client[field], &fault);
        else if (constant)
            status = tailor_value_read(tailor_constant_table(), constant, given->text, &order->house[constant], &fault);
        else if (more)
            status = tailor_value_read(tailor_field_table(), more, given->text, &order->more[more], &fault);
        if (status != TAILOR_OK)
            truth_broken(one,
                         fault.sentence[0] ? fault.sentence : "a given that is no field, house constant or more FIELD");
    }
}

/** Draft the order of a case, or with `grown` the one that has more of something; the case fails when it is refused. */
static void draft_case(const truth_case *one, const struct order *order, int grown, struct made *m)
{
    for (int field = 0; field < TAILOR_FIELD_COUNT; field++)
        m->client[field] = order->client[field] + (grown && !isnan(order->more[field]) ? order->more[field] : 0);
    if (make_client(m, order->house) != TAILOR_OK)
        truth_broken(one, m->fault.sentence);
}

/** "PIECE.POINT.x" or ".y", also of a mark's first point; "PIECE.MARK.length". */
static int read_place(const struct made *m, const char *text, double *value)
{
    char piece_name[64], name[64], what[64];
    if (sscanf(text, "%63[a-z_].%63[a-z_0-9].%63s", piece_name, name, what) != 3)
        return 0;
    const int piece = tailor_pattern_find_piece(m->coat, piece_name);
    const int point = tailor_piece_find_point(m->coat, piece, name),
              mark = tailor_piece_find_mark(m->coat, piece, name);
    size_t count;
    const tailor_cubic *path = tailor_mark_path(m->coat, piece, mark, &count);
    const tailor_point place = path ? path[0].p[0] : tailor_point_place(m->coat, piece, point);
    if (strcmp(what, "length") == 0 && path)
        *value = tailor_path_length(path, count);
    else if (strcmp(what, "x") == 0)
        *value = place.x;
    else if (strcmp(what, "y") == 0)
        *value = place.y;
    return !isnan(*value);
}

static double term(const truth_case *one, const struct made *m, const char *text)
{
    double value = NAN;
    const int quantity = tailor_table_find(tailor_quantity_table(), text);
    const int field = row_after(text, "field ", tailor_field_table());
    if (quantity)
        value = m->q[quantity];
    else if (field)
        value = m->row[field];
    else if (!read_place(m, text, &value))
        truth_broken(one, "an expect that is no quantity, field, point or mark");
    return value;
}

/** Terms, with " - " or " + " between them. */
static double expression(const truth_case *one, const struct made *m, const char *text)
{
    double sum = 0;
    for (double sign = 1;;) {
        const char *minus = strstr(text, " - "), *plus = strstr(text, " + ");
        const char *end = minus && (!plus || minus < plus) ? minus : plus;
        char part[128];
        snprintf(part, sizeof part, "%.*s", end ? (int)(end - text) : (int)strlen(text), text);
        sum += sign * term(one, m, part);
        if (!end)
            return sum;
        sign = end == minus ? -1 : 1;
        text = end + 3;
    }
}

/** A number, or a length with its unit. */
static double expected_value(const truth_case *one, const char *text)
{
    double value;
    tailor_fault fault;
    if (tailor_length_read(text, &value, &fault) != TAILOR_OK)
        truth_broken(one, fault.sentence);
    return value;
}

static void prove(const truth_case *one)
{
    static struct made m, grown;
    static struct order order;
    int grows = 0;
    read_order(one, &order);
    draft_case(one, &order, 0, &m);
    for (size_t i = 0; i < one->expect_count; i++)
        grows |= strncmp(one->expect[i].key, "growth of ", 10) == 0;
    if (grows)
        draft_case(one, &order, 1, &grown);
    for (size_t i = 0; i < one->expect_count; i++) {
        const truth_pair *expect = &one->expect[i];
        const int growth = strncmp(expect->key, "growth of ", 10) == 0;
        const char *what = expect->key + (growth ? 10 : 0);
        double value = expression(one, &m, what);
        if (growth)
            value = expression(one, &grown, what) - value;
        const double wanted = expected_value(one, expect->text);
        if (isnan(expect->within))
            truth_broken(one, "an expect without its within");
        if (!(fabs(value - wanted) <= expect->within))
            fail_msg("%s:%d: case %s: %s is %.6f, not %.6f: off by %.3g, allowed %.3g", one->file, one->line, one->name,
                     expect->key, value, wanted, value - wanted, expect->within);
    }
    unmake(&m);
    if (grows)
        unmake(&grown);
}

static void every_case_holds(void **state)
{
    (void)state;
    cases = truth_run("coat.truth", prove);
    print_message("# %zu cases\n", cases);
    assert_true(cases >= 25);
}

int test_truth(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(every_case_holds)};
    return cmocka_run_group_tests_name("coat truth", tests, NULL, NULL);
}
