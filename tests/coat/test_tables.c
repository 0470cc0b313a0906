/* Tables by their kind: whatever a fault points into. */
#include <string.h>
#include <tailorgeom/cloth.h>
#include <tailorgeom/coat.h>
#include "base/near.h"

static void each_by_its_kind(void **state)
{
    (void)state;
    const struct {
        int kind;
        const tailor_table *table;
    } all[] = {
        {TAILOR_TABLE_NONE, NULL},
        {TAILOR_TABLE_FIELD, tailor_field_table()},
        {TAILOR_TABLE_CONSTANT, tailor_constant_table()},
        {TAILOR_TABLE_QUANTITY, tailor_quantity_table()},
        {TAILOR_TABLE_PIECE, tailor_piece_table()},
        {TAILOR_TABLE_EDGE, tailor_edge_table()},
        {TAILOR_TABLE_POINT, tailor_point_table()},
        {TAILOR_TABLE_MARK, tailor_mark_table()},
        {TAILOR_TABLE_CHECK, tailor_check_table()},
        {TAILOR_TABLE_CLOTH, tailor_cloth_table()},
        {TAILOR_TABLE_FINDING, tailor_finding_table()},
        {TAILOR_TABLE_CAUTION, tailor_caution_table()},
    };
    int known = 0;
    for (size_t i = 0; i < sizeof all / sizeof *all; i++) {
        assert_ptr_equal(tailor_table_of(all[i].kind), all[i].table);
        assert_int_equal(all[i].table != NULL, all[i].kind != TAILOR_TABLE_NONE);
    }
    for (int kind = -5; kind < 200; kind++)
        known += tailor_table_of(kind) != NULL;
    assert_int_equal(known, sizeof all / sizeof *all - 1); /* whoever adds a table adds it here */
}

/** A fault names its row through the table of its kind. */
static void a_fault_points_into_it(void **state)
{
    (void)state;
    double client[TAILOR_FIELD_COUNT];
    tailor_fault fault;
    tailor_coat *coat = NULL;
    tailor_fields_clear(client, TAILOR_FIELD_COUNT);
    client[TAILOR_FIELD_CHEST_GIRTH] = 1016;
    client[TAILOR_FIELD_LAPEL] = 9;
    assert_int_equal(tailor_coat_new(NULL, client, TAILOR_FIELD_COUNT, TAILOR_EXTENT_NET, &coat, &fault),
                     TAILOR_NOT_A_CHOICE);
    assert_string_equal(tailor_table_text(tailor_table_of(fault.table), fault.index, TAILOR_COLUMN_NAME), "lapel");
}

int test_tables(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_by_its_kind),
        cmocka_unit_test(a_fault_points_into_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
