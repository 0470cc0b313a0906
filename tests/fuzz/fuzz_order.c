/* Houses, rows and typed values of any kind: what resolve accepts makes a coat or gives a reason; a coat passes its
 * checks or says which one fails, reads the same again, and of its own pattern. */
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
    check(tailor_pattern_edition(coat) == tailor_edition());
    check((unsigned)tailor_pattern_toile_only(coat) <= 1);
    for (int field = -1; field <= TAILOR_FIELD_COUNT; field++) {
        int choice = tailor_pattern_style(coat, field);
        check(choice >= 0 && (!choice || choice <= tailor_table_high(tailor_field_table(), field)));
    }
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
        tailor_stretch sewn;
        check(tailor_pattern_find_seam(coat, tailor_seam_name(coat, s)) == s && isfinite(tailor_seam_ease(coat, s)));
        for (int side = 0; side < 2; side++)
            for (int i = 0, most = tailor_seam_stretch_count(coat, s, side); i < (most ? most : 1); i++)
                check(tailor_seam_stretch(coat, s, side, i, &sewn) == TAILOR_OK && sewn.from != sewn.to);
    }
}

/* An order that resolves, altered by anything: refused in words, or an order again. */
static void alter(bytes *b, const tailor_house *house, const double *client)
{
    double deltas[TAILOR_FIELD_COUNT], altered[TAILOR_FIELD_COUNT];
    tailor_fault fault;
    tailor_fields_clear(deltas, TAILOR_FIELD_COUNT);
    for (unsigned given = bytes_small(b) % 4; given > 0; given--)
        deltas[1 + bytes_small(b) % (TAILOR_FIELD_COUNT - 1)] = (double)bytes_small(b) / 4 - 32;
    int status = tailor_order_alter(house, client, deltas, altered, TAILOR_FIELD_COUNT, &fault);
    if (status != TAILOR_OK)
        check(fault.status == status && fault.sentence[0]);
    else
        check(tailor_order_resolve(house, altered, TAILOR_FIELD_COUNT, NULL, NULL, 0, &fault) == TAILOR_OK);
}

/* Everything that a coat tells hangs together, for any number that is asked. */
static void read_coat(const tailor_coat *coat, int status)
{
    size_t count, fields;
    tailor_fault fault, again;
    const double *row = tailor_coat_quantities(coat, &count);
    int failing = 0, extent = tailor_coat_extent(coat);
    check(count == TAILOR_QUANTITY_COUNT && tailor_coat_edition(coat) > 0 && extent >= 0 && extent < 4);
    for (int i = -1; i <= TAILOR_QUANTITY_COUNT; i++) {
        double q = tailor_coat_quantity(coat, i);
        check(i < 1 || i >= TAILOR_QUANTITY_COUNT ? isnan(q) : memcmp(&q, &row[i], sizeof q) == 0);
    }
    for (int i = -1; i <= TAILOR_CHECK_COUNT; i++) {
        double value, limit;
        int passes = tailor_coat_check(coat, i, &value, &limit);
        check(abs(tailor_check_sense(i)) <= 1 && isnan(value) == (passes < 0));
        check(passes == tailor_check_passes(i, value, limit));
        failing += passes == 0;
    }
    check(tailor_coat_status(coat, &fault) == status);
    check(status == (failing ? TAILOR_CHECK_FAILED : TAILOR_OK));
    if (failing)
        check(fault.status == status && fault.table == TAILOR_TABLE_CHECK &&
              tailor_coat_check(coat, fault.index, NULL, NULL) == 0);
    row = tailor_coat_fields(coat, &fields);
    const int32_t *origins = tailor_coat_origins(coat, &count);
    check(fields == TAILOR_FIELD_COUNT && count == fields);
    for (size_t i = 0; i < fields; i++)
        check((!isnan(row[i]) || origins[i] == TAILOR_ORIGIN_NONE) && origins[i] <= TAILOR_ORIGIN_RULE);
    row = tailor_coat_constants(coat, &count);
    check(count == TAILOR_CONSTANT_COUNT && isnan(row[0]));
    const tailor_point *line = tailor_coat_section(coat, &count);
    check((line != NULL) == (count > 0) && (!line || (extent & TAILOR_EXTENT_SECTION)));
    for (size_t i = 0; i < count; i++)
        check(isfinite(line[i].x) && isfinite(line[i].y));
    for (int place = -1, before = 0; place <= tailor_coat_caution_count(coat); place++) {
        int class_ = tailor_coat_caution(coat, place, &again);
        check((class_ != 0) == (place >= 0 && place < tailor_coat_caution_count(coat)));
        if (!class_)
            continue;
        check(again.status == TAILOR_OK && again.table == TAILOR_TABLE_CAUTION && again.sentence[0]);
        check(again.index > before && tailor_table_text(tailor_caution_table(), again.index, TAILOR_COLUMN_NAME)[0]);
        before = again.index;
    }
    const int32_t *missing = tailor_coat_toile_fields(coat, &count);
    check((missing != NULL) == (count > 0));
    check((count > 0) == (tailor_coat_caution(coat, 0, &again) && again.index == TAILOR_CAUTION_TOILE_ONLY));
    check(count == 0 || tailor_pattern_toile_only(tailor_coat_pattern(coat)));
    check(count > 0 || !tailor_coat_drafted(coat) || !tailor_pattern_toile_only(tailor_coat_pattern(coat)));
    for (size_t i = 0; i < count; i++)
        check(origins[missing[i]] != TAILOR_ORIGIN_CLIENT);
    read_pattern(tailor_coat_pattern(coat));
}

static int drafted(int status) { return status == TAILOR_OK || status == TAILOR_CHECK_FAILED; }

/* Its row, cut anywhere, as an earlier version would have written it; and its own pattern, with the order's row. */
static void take_again(bytes *b, const tailor_house *house, const tailor_coat *coat)
{
    size_t count = bytes_small(b) ? TAILOR_FIELD_COUNT : bytes_small(b) % (TAILOR_FIELD_COUNT + 1);
    int32_t origins[TAILOR_FIELD_COUNT];
    tailor_coat *again = NULL;
    tailor_fault fault;
    memcpy(origins, tailor_coat_origins(coat, NULL), sizeof origins);
    if (bytes_small(b) > 250)
        origins[bytes_small(b) % TAILOR_FIELD_COUNT] = (int)bytes_small(b) - 100;
    int status = tailor_coat_again(house, tailor_coat_fields(coat, NULL), bytes_small(b) & 1 ? origins : NULL, count,
                                   tailor_coat_extent(coat), &again, &fault);
    check((again != NULL) == drafted(status) && (status == TAILOR_OK || fault.status == status));
    if (again) {
        check(tailor_coat_drafted(again) == 1);
        read_coat(again, status);
        if (count == TAILOR_FIELD_COUNT)
            check(memcmp(tailor_coat_quantities(again, NULL), tailor_coat_quantities(coat, NULL),
                         TAILOR_QUANTITY_COUNT * sizeof(double)) == 0);
    }
    tailor_coat_free(again);
    again = NULL;
    status = tailor_coat_of_pattern(house, tailor_coat_fields(coat, NULL), NULL, count, tailor_coat_pattern(coat),
                                    &again, &fault);
    check((again != NULL) == (drafted(status)) && (status == TAILOR_OK || fault.status == status));
    if (again) {
        check(tailor_coat_drafted(again) == 0 && (tailor_coat_extent(again) & TAILOR_EXTENT_SECTION));
        read_coat(again, status);
    }
    tailor_coat_free(again);
}

static tailor_house *some_house(bytes *b)
{
    double fields[TAILOR_FIELD_COUNT], own[TAILOR_CONSTANT_COUNT];
    tailor_house *house = NULL;
    tailor_fault fault;
    size_t field_count, constant_count;
    some_fields(b, tailor_field_table(), fields, TAILOR_FIELD_COUNT);
    some_fields(b, tailor_constant_table(), own, TAILOR_CONSTANT_COUNT);
    int status = tailor_house_new(fields, TAILOR_FIELD_COUNT, own, TAILOR_CONSTANT_COUNT, NULL, &house, &fault);
    check((house != NULL) == (status == TAILOR_OK));
    if (status != TAILOR_OK)
        check(fault.status == status && strstr(fault.sentence, "(in the house's values)"));
    const double *given = tailor_house_fields(house, &field_count);
    const double *constants = tailor_house_constants(house, &constant_count);
    check(!given == !house && !constants == !house);
    for (size_t i = 1; i < field_count; i++)
        check(isnan(fields[i]) ? isnan(given[i]) : given[i] == fields[i]);
    for (size_t i = 1; i < constant_count; i++)
        check(isnan(own[i]) || constants[i] == own[i]);
    return house;
}

static void draft(bytes *b)
{
    double client[TAILOR_FIELD_COUNT], row[TAILOR_FIELD_COUNT];
    int32_t origins[TAILOR_FIELD_COUNT];
    tailor_coat *coat = NULL;
    tailor_fault fault;
    some_fields(b, tailor_field_table(), client, TAILOR_FIELD_COUNT);
    if (bytes_small(b) < 250)
        client[TAILOR_FIELD_CHEST_GIRTH] = 850 + 2.0 * bytes_small(b);
    tailor_house *house = some_house(b);
    int extent = bytes_small(b) < 252 ? (int)bytes_small(b) % 4 : (int)bytes_small(b) - 128;
    int resolved = tailor_order_resolve(house, client, TAILOR_FIELD_COUNT, row, origins, TAILOR_FIELD_COUNT, &fault);
    if (resolved != TAILOR_OK)
        check(fault.status == resolved && fault.sentence[0]);
    int status = tailor_coat_new(house, client, TAILOR_FIELD_COUNT, extent, &coat, &fault);
    check((coat != NULL) == drafted(status) && (status == TAILOR_OK || (fault.status == status && fault.sentence[0])));
    if (extent < 0 || extent > 3)
        check(status == TAILOR_BAD_ARGUMENT);
    else if (resolved != TAILOR_OK)
        check(status == resolved);
    else
        check(coat || (status >= 300 && status < TAILOR_CHECK_FAILED));
    if (coat) {
        check(tailor_coat_extent(coat) == extent && tailor_coat_drafted(coat) == 1);
        check(memcmp(tailor_coat_fields(coat, NULL), row, sizeof row) == 0);
        check(memcmp(tailor_coat_origins(coat, NULL), origins, sizeof origins) == 0);
        read_coat(coat, status);
        if (!(extent & TAILOR_EXTENT_MAKE)) { /* whatever can be drafted can be made */
            tailor_coat *whole = NULL;
            status = tailor_coat_new(house, client, TAILOR_FIELD_COUNT, TAILOR_EXTENT_MAKE, &whole, &fault);
            check(whole && tailor_pattern_piece_count(tailor_coat_pattern(whole)) >
                               tailor_pattern_piece_count(tailor_coat_pattern(coat)));
            read_coat(whole, status);
            tailor_coat_free(whole);
        }
        take_again(b, house, coat);
        alter(b, house, client);
    }
    tailor_house_free(house);
    tailor_coat_free(coat);
}

/* What is read is written so that it reads back. */
static void read_value(int kind, int number, const char *text)
{
    double value, again = 0;
    char back[64];
    size_t needed;
    tailor_fault fault;
    const tailor_table *table = tailor_table_of(kind);
    if (tailor_value_read(table, number, text, &value, &fault) != TAILOR_OK) {
        check(fault.sentence[0]);
        return;
    }
    check(isfinite(value));
    if (tailor_value_write(table, number, value, TAILOR_PRINT_EXACT, back, sizeof back, &needed) != TAILOR_OK) {
        check(fabs(value) >= 1e15);
        return;
    }
    check(strlen(back) == needed && tailor_value_read(table, number, back, &again, &fault) == TAILOR_OK);
    check(again == value || (fabs(value) < 1e-14 && fabs(again - value) <= 1e-30));
    for (int print = 0; print <= 17; print++) /* rounded lengths read as what is printed */
        if (tailor_value_write(table, number, value, print, back, sizeof back, &needed) == TAILOR_OK)
            check(strlen(back) == needed && tailor_value_read(table, number, back, &again, &fault) == TAILOR_OK);
}

static void read_number(double value)
{
    char text[32];
    size_t needed;
    tailor_status status = tailor_number_write(value, text, sizeof text, &needed);
    check(status == (isfinite(value) ? TAILOR_OK : TAILOR_NOT_FINITE));
    if (status == TAILOR_OK)
        check(strlen(text) == needed && strtod(text, NULL) == value);
}

static void read_text(bytes *b)
{
    char text[300], back[64];
    double value;
    size_t needed;
    tailor_fault fault;
    int number = (int)bytes_small(b), kind = (int)bytes_small(b) % 16;
    bytes_text(b, text, sizeof text);
    if (tailor_length_read(text, &value, &fault) == TAILOR_OK) {
        check(isfinite(value));
        for (int print = 0; print <= 17; print++)
            if (tailor_length_write(value, print, back, sizeof back, &needed) == TAILOR_OK)
                check(strlen(back) + 1 == needed || strlen(back) == needed);
    } else {
        check(fault.sentence[0]);
    }
    read_value(kind, number, text);
    read_number(bytes_number(b));
    read_choices(number);
    check(tailor_table_find(tailor_quantity_table(), text) >= 0);
    check(tailor_table_suggest(tailor_field_table(), text) >= 0);
    check(tailor_status_name((int)bytes_small(b) * 5 - 100) && tailor_status_text(number));
}

static void read_tables(int number, int column)
{
    const tailor_table *const tables[] = {tailor_field_table(), tailor_constant_table(), tailor_quantity_table(),
                                          tailor_piece_table(), tailor_edge_table(),     tailor_point_table(),
                                          tailor_mark_table(),  tailor_check_table(),    tailor_caution_table(),  NULL};
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
