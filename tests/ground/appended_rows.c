/* Some coats by the names of the tables' rows, every number as it is in memory: the same program is built with the
 * library and with one whose tables have rows appended, and its output compared (test_appended_rows.py).
 *
 *     appended_rows                  orders of all kinds
 *     appended_rows BUTTONING        one coat of that buttoning, 1 if the library has no such choice
 */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include <tailorgeom/coat.h>

static void put_path(const char *what, const char *name, const tailor_cubic *path, size_t count)
{
    printf("%s %s", what, name);
    for (size_t i = 0; i < count; i++)
        for (int k = 0; k < 4; k++)
            printf(" %a %a", path[i].p[k].x, path[i].p[k].y);
    putchar('\n');
}

static void put_row(const char *what, const tailor_table *table, const double *row, size_t count)
{
    for (int place = 0, number; (number = tailor_table_at(table, place)) != 0; place++)
        printf("%s %s %a\n", what, tailor_table_text(table, number, TAILOR_COLUMN_NAME),
               (size_t)number < count ? row[number] : (double)NAN);
}

static void put_pieces(const tailor_pattern *p)
{
    size_t count;
    for (int i = 0; i < tailor_pattern_piece_count(p); i++) {
        const tailor_cubic *path = tailor_piece_outline(p, i, &count);
        put_path("piece", tailor_piece_name(p, i), path, count);
        for (int k = 0; k < tailor_piece_edge_count(p, i); k++) {
            path = tailor_edge_path(p, i, k, &count);
            put_path("edge", tailor_edge_name(p, i, k), path, count);
        }
        for (int k = 0; k < tailor_piece_mark_count(p, i); k++) {
            path = tailor_mark_path(p, i, k, &count);
            put_path("mark", tailor_mark_name(p, i, k), path, count);
        }
    }
}

static void put_coat(const double *client, int extent)
{
    tailor_coat *coat = NULL;
    tailor_fault fault = {0};
    size_t count;
    tailor_status status = tailor_coat_new(NULL, client, TAILOR_FIELD_COUNT, extent, &coat, &fault);
    printf("status %s %s\n", tailor_status_name(status), fault.sentence);
    if (!coat)
        return;
    const double *row = tailor_coat_fields(coat, &count);
    put_row("field", tailor_field_table(), row, count);
    row = tailor_coat_quantities(coat, &count);
    put_row("quantity", tailor_quantity_table(), row, count);
    for (int place = 0, check; (check = tailor_table_at(tailor_check_table(), place)) != 0; place++) {
        double value, limit;
        int holds = tailor_coat_check(coat, check, &value, &limit);
        printf("check %s %d %a %a\n", tailor_table_text(tailor_check_table(), check, TAILOR_COLUMN_NAME), holds, value,
               limit);
    }
    put_pieces(tailor_coat_pattern(coat));
    tailor_coat_free(coat);
}

/* Numbers of choices by name, since nothing here may rest on their order. */
static double choice(int field, const char *name)
{
    return tailor_table_find(tailor_choice_table(field), name);
}

int main(int argc, char **argv)
{
    static const char *const buttonings[] = {"one-button", "two-button", "three-button", "roll-by-make", "roll-by-cut",
                                             "double-four", "double-six"};
    static const char *const lapels[] = {"step", "peak", "shawl"};
    double client[TAILOR_FIELD_COUNT];
    tailor_fields_clear(client, TAILOR_FIELD_COUNT);
    client[TAILOR_FIELD_CHEST_GIRTH] = 1016;
    if (argc > 1) {
        client[TAILOR_FIELD_BUTTONING] = choice(TAILOR_FIELD_BUTTONING, argv[1]);
        if (client[TAILOR_FIELD_BUTTONING] == 0)
            return 1;
        put_coat(client, TAILOR_EXTENT_MAKE | TAILOR_EXTENT_SECTION);
        return 0;
    }
    for (int i = 0; i < 42; i++) { /* every buttoning with every lapel, net and made */
        printf("order %d\n", i);
        client[TAILOR_FIELD_CHEST_GIRTH] = 960 + 11 * (i % 13);
        client[TAILOR_FIELD_BUTTONING] = choice(TAILOR_FIELD_BUTTONING, buttonings[i % 7]);
        client[TAILOR_FIELD_LAPEL] = choice(TAILOR_FIELD_LAPEL, lapels[i / 7 % 3]);
        client[TAILOR_FIELD_LOW_SHOULDER_LEFT] = i % 4 == 1 ? 6 : NAN; /* unlike sides */
        client[TAILOR_FIELD_LOW_HIP_RIGHT] = i % 5 == 2 ? 5 : NAN;
        client[TAILOR_FIELD_BELLY_GIRTH] = i % 6 == 3 ? 1000 : NAN;
        client[TAILOR_FIELD_OVER_SHOULDER] = i % 7 == 4 ? 480 : NAN;
        client[TAILOR_FIELD_CUFF_BUTTONS] = i % 3 ? NAN : choice(TAILOR_FIELD_CUFF_BUTTONS, "five");
        put_coat(client, i < 21 ? TAILOR_EXTENT_NET : TAILOR_EXTENT_MAKE | TAILOR_EXTENT_SECTION);
    }
    return 0;
}
