#include "graded.h"

#include "complain.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char *name_of(int field)
{
    return tailor_table_text(tailor_field_table(), field, TAILOR_COLUMN_NAME);
}

/* What the card says of style, cloth and ease goes with every size; its measures are those of one man. */
static void take_style(const card *c, double *fields)
{
    double row[TAILOR_FIELD_COUNT];
    card_client(c, row);
    tailor_fields_clear(fields, TAILOR_FIELD_COUNT);
    for (int i = 1; i < TAILOR_FIELD_COUNT; i++)
        if (!card_assumes(c, i) && strcmp(section_of_field(i), "measures") != 0 &&
            strcmp(section_of_field(i), "figure") != 0)
            fields[i] = row[i];
}

/* A row of the table as it stands. */
static void take_row(graded *g, const sizes *t, size_t row)
{
    double fields[TAILOR_FIELD_COUNT];
    tailor_size_table_row(t->table, row, fields, TAILOR_FIELD_COUNT);
    for (int i = 1; i < TAILOR_FIELD_COUNT; i++)
        if (isnan(g->fields[i]) && !isnan(fields[i])) {
            g->fields[i] = fields[i];
            g->from[i] = FROM_TABLE;
        }
    snprintf(g->label, sizeof g->label, "%s", t->names[row]);
}

/* "chest_girth=1013", several with + between. */
static bool take_given(graded *g, const char *text)
{
    char part[SIZE_TEXT];
    for (;; text++) {
        size_t length = strcspn(text, "+"), name = strcspn(text, "=");
        if (length >= sizeof part || name >= length) {
            complain("--sizes: %s is neither a size nor a measure as chest_girth=1013", text);
            return false;
        }
        memcpy(part, text, length);
        part[length] = part[name] = '\0';
        int field = tailor_table_find(tailor_field_table(), part);
        tailor_fault fault;
        if (!field || field >= TAILOR_FIELD_COUNT) {
            int near = tailor_table_suggest(tailor_field_table(), part);
            complain("--sizes: there is no field %s%s%s%s", part, near ? ": did you mean " : "",
                     near ? name_of(near) : "", near ? "?" : "");
            return false;
        }
        if (tailor_value_read(tailor_field_table(), field, part + name + 1, &g->fields[field], &fault) != TAILOR_OK) {
            complain("--sizes: %s (typed: %s)", fault.sentence, part + name + 1);
            return false;
        }
        g->from[field] = FROM_GIVEN;
        text += length;
        if (!*text)
            return true;
    }
}

/* True when a row of the fit has this key: then nothing is found between. */
static bool is_row(const sizes *t, int fit, double key)
{
    for (size_t i = 0; i < t->rows; i++) {
        double fields[TAILOR_FIELD_COUNT];
        tailor_size_table_row(t->table, i, fields, TAILOR_FIELD_COUNT);
        if (t->fit_of[i] == fit && fields[t->fields[0]] == key)
            return true;
    }
    return false;
}

static bool take_measures(graded *g, const sizes *t, int fit, const char *text)
{
    double fields[TAILOR_FIELD_COUNT];
    tailor_fault fault;
    snprintf(g->label, sizeof g->label, "%s", text);
    if (!take_given(g, text))
        return false;
    if (tailor_size_table_at(t->table, fit, g->fields, TAILOR_FIELD_COUNT, fields, TAILOR_FIELD_COUNT, &g->beyond,
                             &fault) != TAILOR_OK) {
        complain("--sizes: %s: %s", text, fault.sentence);
        return false;
    }
    int found = g->beyond != 0 ? FROM_BEYOND : is_row(t, fit, g->fields[t->fields[0]]) ? FROM_TABLE : FROM_BETWEEN;
    for (int i = 1; i < TAILOR_FIELD_COUNT; i++)
        if (isnan(g->fields[i]) && !isnan(fields[i])) {
            g->fields[i] = fields[i];
            g->from[i] = found;
        }
    return true;
}

static graded *one_more(graded_list *all, const double *style)
{
    if (all->count == GRADED_MOST) {
        complain("more than %d sizes at a time: choose some with --sizes", GRADED_MOST);
        return NULL;
    }
    graded *g = &all->list[all->count++];
    memset(g, 0, sizeof *g);
    memcpy(g->fields, style, sizeof g->fields);
    return g;
}

static bool ask_one(graded_list *all, const sizes *t, int fit, const char *text, const double *style)
{
    long row = sizes_row(t, fit, text);
    graded *g = NULL;
    for (size_t i = 0; i < all->count; i++)
        if (strcmp(all->list[i].label, text) == 0) {
            complain("--sizes: %s stands twice", text);
            return false;
        }
    if (row < 0 && !strchr(text, '=')) {
        complain("--sizes: there is no size %s of the fit %s in this table", text, t->fits[fit - 1]);
        return false;
    }
    g = one_more(all, style);
    if (!g || row < 0)
        return g && take_measures(g, t, fit, text);
    take_row(g, t, (size_t)row);
    return true;
}

bool graded_ask(graded_list *all, const sizes *t, int fit, const char *wanted, const card *c)
{
    double style[TAILOR_FIELD_COUNT];
    *all = (graded_list){.list = malloc(GRADED_MOST * sizeof *all->list)};
    if (!all->list) {
        complain("out of memory");
        return false;
    }
    take_style(c, style);
    for (size_t i = 0; !wanted && i < t->rows; i++) {
        graded *g = t->fit_of[i] == fit ? one_more(all, style) : NULL;
        if (t->fit_of[i] == fit && !g)
            return false;
        if (g)
            take_row(g, t, i);
    }
    for (; wanted; wanted++) {
        char text[SIZE_TEXT];
        size_t length = strcspn(wanted, ",");
        if (!length || length >= sizeof text) {
            complain("--sizes takes sizes of the table, and measures as chest_girth=1013, with commas between");
            return false;
        }
        memcpy(text, wanted, length);
        text[length] = '\0';
        if (!ask_one(all, t, fit, text, style))
            return false;
        wanted += length;
        if (!*wanted)
            break;
    }
    return true;
}

bool graded_order(const double *fields, const card *c, drafted *d)
{
    card *one = malloc(sizeof *one); /* too large for a stack that others use too */
    if (!one) {
        memset(d, 0, sizeof *d);
        d->status = TAILOR_NO_MEMORY;
        snprintf(d->fault.sentence, sizeof d->fault.sentence, "out of memory");
        return false;
    }
    *one = *c;
    memcpy(one->client.value, fields, sizeof one->client.value);
    tailor_fields_clear(one->assumed.value, TAILOR_FIELD_COUNT);
    bool good = make_order(one, d);
    free(one);
    return good;
}

void graded_draft(graded_list *all, const card *c)
{
    for (size_t i = 0; i < all->count; i++) {
        graded *g = &all->list[i];
        g->good = graded_order(g->fields, c, &g->drafted);
        all->good += g->good;
        if (!g->good)
            complain("size %s: %s", g->label, g->drafted.fault.sentence);
    }
}

const tailor_pattern *graded_pattern(const graded *g) { return g->by_rules ? g->by_rules : g->drafted.pattern; }

void graded_free(graded_list *all)
{
    for (size_t i = 0; all->list && i < all->count; i++) {
        drafted_free(&all->list[i].drafted);
        tailor_pattern_free(all->list[i].by_rules);
    }
    free(all->list);
    *all = (graded_list){.list = NULL};
}
