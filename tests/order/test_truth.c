/* Runs tests/truth/order.truth; the form of a case stands at its head. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <tailorgeom/order.h>
#include "base/near.h"

typedef struct truth {
    char name[400], status[64];
    double client[TAILOR_FIELD_COUNT];
    int expected, refused; /* the field */
    double value, within;
    int has_within, has_because, line;
} truth;

static void begin(truth *one)
{
    memset(one, 0, sizeof *one);
    tailor_fields_clear(one->client, TAILOR_FIELD_COUNT);
}

static void broken(const truth *one, int line, const char *why)
{
    fail_msg("order.truth:%d: %s: %s", line, one->name, why);
}

/* "FIELD = VALUE", the value as in a card. */
static int read_pair(const truth *one, int line, char *pair, double *value)
{
    tailor_fault fault;
    char *equals = strstr(pair, " = ");
    int field;
    if (!equals)
        broken(one, line, "not FIELD = VALUE");
    *equals = '\0';
    field = tailor_table_find(tailor_field_table(), pair);
    if (field == 0)
        broken(one, line, "no such field");
    if (tailor_value_read(tailor_field_table(), field, equals + 3, value, &fault) != TAILOR_OK)
        broken(one, line, fault.sentence);
    return field;
}

static void read_line(truth *one, int line, char *text)
{
    double value;
    if (strncmp(text, "case ", 5) == 0 && one->name[0] == '\0') {
        snprintf(one->name, sizeof one->name, "%s", text + 5);
        one->line = line;
    } else if (strncmp(text, "given ", 6) == 0) {
        int field = read_pair(one, line, text + 6, &value);
        one->client[field] = value;
    } else if (strncmp(text, "expect refused ", 15) == 0 && !one->expected && !one->refused) {
        char field[64];
        if (sscanf(text + 15, "%63s %63s", one->status, field) != 2)
            broken(one, line, "not STATUS FIELD");
        one->refused = tailor_table_find(tailor_field_table(), field);
        if (one->refused == 0)
            broken(one, line, "no such field");
    } else if (strncmp(text, "expect ", 7) == 0 && !one->expected && !one->refused) {
        one->expected = read_pair(one, line, text + 7, &one->value);
    } else if (strncmp(text, "within ", 7) == 0) {
        one->within = strtod(text + 7, NULL);
        one->has_within = 1;
    } else if (strncmp(text, "because ", 8) == 0 && strlen(text) > 20) {
        one->has_because = 1;
    } else {
        broken(one, line, "a line that cannot be read");
    }
}

static void prove(const truth *one)
{
    double row[TAILOR_FIELD_COUNT];
    tailor_fault fault = {0};
    tailor_status status =
        tailor_order_resolve(NULL, one->client, TAILOR_FIELD_COUNT, row, NULL, TAILOR_FIELD_COUNT, &fault);
    if (one->name[0] == '\0' || !one->has_because || (!one->expected && !one->refused) ||
        one->has_within != (one->expected != 0))
        broken(one, one->line, "case, expect, within or because is missing");
    if (one->refused) {
        if (strcmp(tailor_status_name(status), one->status) != 0 || fault.index != one->refused)
            fail_msg("order.truth:%d: %s: %s: %s", one->line, one->name, tailor_status_name(status), fault.sentence);
    } else {
        if (status != TAILOR_OK)
            broken(one, one->line, fault.sentence);
        if (!(fabs(row[one->expected] - one->value) <= one->within))
            fail_msg("order.truth:%d: %s: %.9g, not %.9g: off by %.3g, allowed %.3g", one->line, one->name,
                     row[one->expected], one->value, row[one->expected] - one->value, one->within);
    }
}

static void every_case_holds(void **state)
{
    const char *root = getenv("TAILOR_SOURCE");
    char path[4096], text[400];
    truth one;
    int cases = 0, line = 0, open = 0;
    (void)state;
    assert_non_null(root);
    snprintf(path, sizeof path, "%s/tests/truth/order.truth", root);
    FILE *file = fopen(path, "r");
    assert_non_null(file);
    begin(&one);
    while (fgets(text, sizeof text, file)) {
        line++;
        text[strcspn(text, "\n")] = '\0';
        if (text[0] == '#')
            continue;
        if (text[0] != '\0') {
            read_line(&one, line, text);
            open = 1;
        } else if (open) {
            prove(&one);
            cases++;
            begin(&one);
            open = 0;
        }
    }
    fclose(file);
    if (open) {
        prove(&one);
        cases++;
    }
    print_message("# %d cases\n", cases);
    assert_true(cases >= 40);
}

int test_truth(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(every_case_holds)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
