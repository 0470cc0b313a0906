/* Coats to draw, and writers that keep or refuse what they are given. */
#ifndef TESTS_SHEET_COATS_H
#define TESTS_SHEET_COATS_H

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <cmocka.h>
#include <tailorgeom/sheet.h>
#include "../support/own_pattern.h"

enum { FASTENINGS = 5 };
static const char *const fastenings[FASTENINGS] = {"one-button", "two-button", "three-button", "roll-by-make",
                                                   "roll-by-cut"};

/** The coat of a man of a chest (mm) with one of the five fastenings, from 0; waist 0 stands for the rule's. */
static inline tailor_pattern *draft(double chest, double waist, int fastening)
{
    double client[TAILOR_FIELD_COUNT];
    tailor_fault fault;
    tailor_fields_clear(client, TAILOR_FIELD_COUNT);
    client[TAILOR_FIELD_CHEST_GIRTH] = chest;
    client[TAILOR_FIELD_BUTTONING] = fastening + 1;
    client[TAILOR_FIELD_MAKING] = TAILOR_MAKING_MADE_TO_MEASURE; /* else every sheet says "for toile only" */
    if (waist > 0)
        client[TAILOR_FIELD_WAIST_GIRTH] = waist;
    tailor_pattern *coat = own_pattern(client, TAILOR_EXTENT_NET, &fault);
    if (!coat)
        fail_msg("%s", fault.sentence);
    return coat;
}

/** The coat of a man of whom only the chest is known and an arm of 420 mm: for a toile only, the scye deepened. */
static inline tailor_coat *strong_arm(void)
{
    double client[TAILOR_FIELD_COUNT];
    tailor_fault fault;
    tailor_coat *coat = NULL;
    tailor_fields_clear(client, TAILOR_FIELD_COUNT);
    client[TAILOR_FIELD_CHEST_GIRTH] = 1100;
    client[TAILOR_FIELD_UPPER_ARM_GIRTH] = 420;
    if (tailor_coat_new(NULL, client, TAILOR_FIELD_COUNT, TAILOR_EXTENT_SECTION, &coat, &fault) != TAILOR_OK)
        fail_msg("%s", fault.sentence);
    return coat;
}

/** The page of this program, set anew: title, a TAILOR_PRINT_, a TAILOR_SHEET_. */
static inline tailor_page *page_of(const char *title, int units, int format)
{
    static tailor_page *page;
    assert_true(page || tailor_page_new(NULL, &page, NULL) == TAILOR_OK);
    assert_int_equal(tailor_page_set(page, TAILOR_PAGE_UNITS, units, NULL), TAILOR_OK);
    assert_int_equal(tailor_page_set(page, TAILOR_PAGE_FORMAT, format, NULL), TAILOR_OK);
    assert_int_equal(tailor_page_set_text(page, TAILOR_PAGE_TITLE, title, NULL), TAILOR_OK);
    return page;
}

/** What was written, zero-terminated; grows as needed. Call number `refuse` is refused, 0 for none. */
struct kept {
    char *data;
    size_t bytes, room;
    int calls, refuse, calls_after;
};

static inline int keep(void *user, const void *data, size_t bytes)
{
    struct kept *k = user;
    if (k->refuse && k->calls >= k->refuse)
        k->calls_after++;
    if (++k->calls == k->refuse)
        return 1;
    if (k->bytes + bytes + 1 > k->room) {
        k->room = 2 * (k->bytes + bytes + 1);
        k->data = realloc(k->data, k->room);
        assert_non_null(k->data);
    }
    memcpy(k->data + k->bytes, data, bytes);
    k->bytes += bytes;
    k->data[k->bytes] = 0;
    return 0;
}

#endif
