/* Rows and typed values of any kind: what resolve accepts, validate accepts, and the draft completes or gives a reason;
 * a drafted coat passes its checks or says which one fails. */
#include <tailorgeom/coat.h>
#include "bytes.h"

/* A row in which few fields are given: values in range, or any number at all. */
static void some_fields(bytes *b, const tailor_table *table, double *row, int count)
{
    tailor_fields_clear(row, (size_t)count);
    for (unsigned given = bytes_small(b) % 12; given > 0; given--) {
        int number = (int)(bytes_small(b) << 8 | bytes_small(b)) % count;
        double low = tailor_table_low(table, number), high = tailor_table_high(table, number);
        unsigned place = bytes_small(b);
        if (number == 0)
            continue;
        if (place == 255)
            row[number] = bytes_number(b);
        else if (tailor_table_choices(table, number))
            row[number] = 1 + place % 5;
        else
            row[number] = low + (high - low) * place / 254.0;
    }
}

/* A field's choices are a table: each found by its name, each a value that the field may have. */
static void read_choices(int field)
{
    const tailor_table *choices = tailor_choice_table(field);
    check(choices == tailor_table_choices(tailor_field_table(), field));
    for (int place = 0, number; (number = tailor_table_at(choices, place)) != 0; place++)
        check(tailor_table_find(choices, tailor_table_text(choices, number, TAILOR_COLUMN_NAME)) == number);
}

static void read_pattern(const tailor_pattern *coat)
{
    size_t count;
    for (int p = 0; p < tailor_pattern_piece_count(coat); p++) {
        check(tailor_pattern_find_piece(coat, tailor_piece_name(coat, p)) == p);
        /* A piece of one side alone is named after its row and its side. */
        const char *row = tailor_table_text(tailor_piece_table(), tailor_piece_number(coat, p), TAILOR_COLUMN_NAME);
        check(row[0] && strncmp(tailor_piece_name(coat, p), row, strlen(row)) == 0);
        check(tailor_piece_copies(coat, p) > 0 && tailor_piece_mirrored(coat, p) >= 0 &&
              tailor_piece_side(coat, p) >= 0);
        check(tailor_piece_cloth(coat, p) && tailor_piece_outline(coat, p, &count) && count > 2);
        for (int e = 0; e < tailor_piece_edge_count(coat, p); e++) {
            check(tailor_piece_find_edge(coat, p, tailor_edge_name(coat, p, e)) == e);
            check(tailor_edge_number(coat, p, e) >= 0 && tailor_edge_path(coat, p, e, &count) && count > 0);
        }
        for (int i = 0; i < tailor_piece_point_count(coat, p); i++) {
            check(tailor_piece_find_point(coat, p, tailor_point_name(coat, p, i)) == i);
            check(tailor_point_number(coat, p, i) >= 0 && isfinite(tailor_point_place(coat, p, i).x));
        }
        for (int i = 0; i < tailor_piece_mark_count(coat, p); i++) {
            check(tailor_piece_find_mark(coat, p, tailor_mark_name(coat, p, i)) == i);
            check(tailor_mark_number(coat, p, i) >= 0 && tailor_mark_kind(coat, p, i) > 0);
            check(tailor_mark_path(coat, p, i, &count) && count > 0);
        }
    }
    for (int s = 0; s < tailor_pattern_seam_count(coat); s++) {
        int piece, edge;
        double from, to;
        check(tailor_pattern_find_seam(coat, tailor_seam_name(coat, s)) == s && isfinite(tailor_seam_ease(coat, s)));
        for (int side = 0; side < 2; side++)
            check(tailor_seam_edge(coat, s, side, &piece, &edge, &from, &to) == TAILOR_OK && from != to);
    }
}

/* An order that resolves, altered by anything: refused in words, or an order again. */
static void alter(bytes *b, const double *client, const double *house)
{
    double deltas[TAILOR_FIELD_COUNT], altered[TAILOR_FIELD_COUNT];
    tailor_fault fault;
    tailor_fields_clear(deltas, TAILOR_FIELD_COUNT);
    for (unsigned given = bytes_small(b) % 4; given > 0; given--)
        deltas[1 + bytes_small(b) % (TAILOR_FIELD_COUNT - 1)] = (double)bytes_small(b) / 4 - 32;
    int status = tailor_order_alter(client, TAILOR_FIELD_COUNT, house, TAILOR_FIELD_COUNT, deltas, TAILOR_FIELD_COUNT,
                                    altered, TAILOR_FIELD_COUNT, &fault);
    if (status != TAILOR_OK)
        check(fault.status == status && fault.sentence[0]);
    else
        check(tailor_order_resolve(altered, TAILOR_FIELD_COUNT, house, TAILOR_FIELD_COUNT, NULL, 0, NULL, 0, NULL, 0,
                                   NULL, 0, &fault) == TAILOR_OK);
}

static void draft(bytes *b)
{
    double client[TAILOR_FIELD_COUNT], house[TAILOR_FIELD_COUNT], own[TAILOR_CONSTANT_COUNT];
    double row[TAILOR_FIELD_COUNT], constants[TAILOR_CONSTANT_COUNT], quantities[TAILOR_QUANTITY_COUNT];
    double values[TAILOR_CHECK_COUNT], limits[TAILOR_CHECK_COUNT];
    int32_t origins[TAILOR_FIELD_COUNT];
    tailor_pattern *coat = NULL;
    tailor_fault fault;
    some_fields(b, tailor_field_table(), client, TAILOR_FIELD_COUNT);
    if (bytes_small(b) < 250)
        client[TAILOR_FIELD_CHEST_GIRTH] = 850 + 2.0 * bytes_small(b);
    some_fields(b, tailor_field_table(), house, TAILOR_FIELD_COUNT);
    some_fields(b, tailor_constant_table(), own, TAILOR_CONSTANT_COUNT);
    int status =
        tailor_order_resolve(client, TAILOR_FIELD_COUNT, house, TAILOR_FIELD_COUNT, own, TAILOR_CONSTANT_COUNT, row,
                             TAILOR_FIELD_COUNT, origins, TAILOR_FIELD_COUNT, constants, TAILOR_CONSTANT_COUNT, &fault);
    if (status != TAILOR_OK) {
        check(fault.status == status && fault.sentence[0]);
        return;
    }
    check(tailor_order_validate(row, TAILOR_FIELD_COUNT, constants, TAILOR_CONSTANT_COUNT, &fault) == TAILOR_OK);
    status = tailor_coat_draft(row, TAILOR_FIELD_COUNT, constants, TAILOR_CONSTANT_COUNT, NULL, &coat, &fault);
    if (status != TAILOR_OK) {
        check(status >= 300 && status <= TAILOR_CHECK_FAILED && fault.status == status && fault.sentence[0] && !coat);
        return;
    }
    read_pattern(coat);
    tailor_pattern *whole = NULL; /* whatever can be drafted can be made */
    check(tailor_coat_make(row, TAILOR_FIELD_COUNT, constants, TAILOR_CONSTANT_COUNT, NULL, &whole, &fault) ==
          TAILOR_OK);
    check(tailor_pattern_piece_count(whole) > tailor_pattern_piece_count(coat));
    read_pattern(whole);
    tailor_pattern_free(whole);
    alter(b, client, house);
    status = tailor_coat_measure(coat, row, TAILOR_FIELD_COUNT, constants, TAILOR_CONSTANT_COUNT, quantities,
                                 TAILOR_QUANTITY_COUNT, values, limits, TAILOR_CHECK_COUNT, &fault);
    int failing = 0;
    for (int i = 1; i < TAILOR_CHECK_COUNT; i++) {
        check(abs(tailor_check_sense(i)) <= 1);
        failing += tailor_check_passes(i, values[i], limits[i]) == 0;
    }
    check(status == (failing ? TAILOR_CHECK_FAILED : TAILOR_OK));
    if (failing)
        check(fault.table == TAILOR_TABLE_CHECK &&
              tailor_check_passes(fault.index, values[fault.index], limits[fault.index]) == 0);
    tailor_pattern_free(coat);
}

static void read_text(bytes *b)
{
    char text[300], back[64];
    double value;
    size_t needed;
    tailor_fault fault;
    int number = (int)bytes_small(b);
    bytes_text(b, text, sizeof text);
    if (tailor_length_read(text, &value, &fault) == TAILOR_OK) {
        check(isfinite(value));
        for (int print = 0; print <= 17; print++)
            if (tailor_length_write(value, print, back, sizeof back, &needed) == TAILOR_OK)
                check(strlen(back) + 1 == needed || strlen(back) == needed);
    } else {
        check(fault.sentence[0]);
    }
    check(tailor_field_read(number, text, &value, &fault) != TAILOR_OK || isfinite(value));
    check(tailor_constant_read(number, text, &value, &fault) != TAILOR_OK || isfinite(value));
    read_choices(number);
    check(tailor_table_find(tailor_quantity_table(), text) >= 0);
    check(tailor_table_suggest(tailor_field_table(), text) >= 0);
    check(tailor_status_name((int)bytes_small(b) * 5 - 100) && tailor_status_text(number));
}

static void read_tables(int number, int column)
{
    const tailor_table *const tables[] = {tailor_field_table(), tailor_constant_table(), tailor_quantity_table(),
                                          tailor_piece_table(), tailor_edge_table(),     tailor_point_table(),
                                          tailor_mark_table(),  tailor_check_table(),    NULL};
    for (size_t i = 0; i < sizeof tables / sizeof *tables; i++) {
        int row = tailor_table_at(tables[i], number);
        check(row >= 0 && row <= tailor_table_size(tables[i]));
        check(tailor_table_text(tables[i], number, column) != NULL);
        check(!(tailor_table_low(tables[i], number) > tailor_table_high(tables[i], number)));
        if (row)
            check(tailor_table_find(tables[i], tailor_table_text(tables[i], row, TAILOR_COLUMN_NAME)) == row);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    bytes b = {data, size};
    read_tables((int)bytes_small(&b) * 5 - 300, (int)bytes_small(&b) - 100);
    read_text(&b);
    draft(&b);
    return 0;
}
