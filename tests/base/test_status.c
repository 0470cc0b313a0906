/* Status numbers, names and texts are pinned; version and edition. */
#include <stdio.h>
#include <string.h>
#include <tailorgeom/base.h>
#include "near.h"

typedef struct {
    int number;
    const char *name;
} pinned;

/* The numbers as released: a row may be added, none may change. */
static const pinned all[] = {
    {0, "TAILOR_OK"},
    {100, "TAILOR_BAD_ARGUMENT"}, {101, "TAILOR_UNKNOWN_FIELD"}, {102, "TAILOR_TOO_SMALL"},
    {110, "TAILOR_NO_MEMORY"}, {120, "TAILOR_WRITE_FAILED"},
    {200, "TAILOR_MISSING"}, {201, "TAILOR_NOT_FINITE"}, {202, "TAILOR_OUT_OF_RANGE"}, {203, "TAILOR_NOT_A_CHOICE"},
    {204, "TAILOR_WRONG_UNIT"}, {205, "TAILOR_CONTRADICTION"}, {206, "TAILOR_BAD_LENGTH"},
    {300, "TAILOR_FRAME_UNSOLVED"}, {301, "TAILOR_WAIST_UNSOLVED"}, {302, "TAILOR_SHOULDER_UNSOLVED"},
    {303, "TAILOR_SCYE_UNSOLVED"}, {304, "TAILOR_FRONT_UNSOLVED"}, {305, "TAILOR_SLEEVE_UNSOLVED"},
    {306, "TAILOR_COLLAR_UNSOLVED"}, {350, "TAILOR_CHECK_FAILED"},
    {400, "TAILOR_DEGENERATE"}, {401, "TAILOR_NO_SOLUTION"}, {402, "TAILOR_OVERLAP"}, {403, "TAILOR_NOT_CONVERGED"},
    {404, "TAILOR_UNSOUND"},
    {900, "TAILOR_INTERNAL"},
};
enum { COUNT = sizeof all / sizeof all[0] };

static void names_are_pinned(void **state)
{
    (void)state;
    for (int i = 0; i < COUNT; i++)
        assert_string_equal(tailor_status_name(all[i].number), all[i].name);
}

static void every_other_number_is_unknown(void **state)
{
    (void)state;
    for (int number = -2000; number <= 2000; number++) {
        int known = 0;
        for (int i = 0; i < COUNT; i++)
            known |= all[i].number == number;
        assert_int_equal(known, strcmp(tailor_status_name(number), "TAILOR_UNKNOWN_STATUS") != 0);
    }
    assert_string_equal(tailor_status_name(INT32_MAX), "TAILOR_UNKNOWN_STATUS");
}

static void texts_say_something_of_their_own(void **state)
{
    (void)state;
    for (int i = 0; i < COUNT; i++) {
        const char *text = tailor_status_text(all[i].number);
        assert_true(strlen(text) >= 4 && strlen(text) < 80 && text[strlen(text) - 1] != '.');
        for (int j = 0; j < i; j++)
            assert_string_not_equal(text, tailor_status_text(all[j].number));
        assert_string_not_equal(text, tailor_status_text(7));
    }
}

static void version_is_that_of_the_header(void **state)
{
    char text[32];
    (void)state;
    snprintf(text, sizeof text, "%d.%d.%d", TAILOR_VERSION_MAJOR, TAILOR_VERSION_MINOR, TAILOR_VERSION_PATCH);
    assert_string_equal(tailor_version(), text);
    assert_int_equal(tailor_edition(), 1);
}

int test_status(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(names_are_pinned),
        cmocka_unit_test(every_other_number_is_unknown),
        cmocka_unit_test(texts_say_something_of_their_own),
        cmocka_unit_test(version_is_that_of_the_header),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
