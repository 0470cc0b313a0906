/* tailorgeom grade: sizes of a size table, drafted, as a table, sheets or a nest; or a client and his nearest size. */
#include "grade.h"

#include "cautions.h"
#include "complain.h"
#include "output.h"
#include "table_out.h"
#include "values.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

const char *const grade_quantities[] = {"finished_chest",  "finished_waist",      "finished_seat",
                                        "finished_length", "cross_back_finished", "cross_chest_finished",
                                        "break_length",    "coverage_scye",       NULL};

/* Marks of where a measure comes from, in the order of the FROM_. */
static const char *const marks[] = {"", "", " ~", " !", " ="};

static void print_cell(table_out *t, size_t column, const tailor_table *table, int number, double value, int print,
                       int from)
{
    char text[VALUE_TEXT], cell[VALUE_TEXT + 8];
    value_write(table, number, value, print, text);
    snprintf(cell, sizeof cell, "%s%s", text, isnan(value) ? "" : marks[from]);
    table_cell(t, column, cell);
}

static bool add_head(table_out *out, const graded_list *all, const char *head)
{
    if (!table_row(out))
        return false;
    table_cell(out, 0, head);
    for (size_t k = 0; k < all->count; k++)
        table_cell(out, 2 + k, all->list[k].label);
    return true;
}

static bool add_measures(table_out *out, const graded_list *all, int print)
{
    const tailor_table *table = tailor_field_table();
    for (int place = 0, field; (field = tailor_table_at(table, place)) != 0; place++) {
        bool shown = false;
        for (size_t k = 0; field < TAILOR_FIELD_COUNT && k < all->count; k++)
            shown |= all->list[k].from[field] != FROM_NOWHERE;
        if (!shown)
            continue;
        if (!table_row(out))
            return false;
        table_cell(out, 0, tailor_table_text(table, field, TAILOR_COLUMN_NAME));
        table_cell(out, 1, value_unit(table, field, print));
        for (size_t k = 0; k < all->count; k++)
            print_cell(out, 2 + k, table, field, all->list[k].fields[field], print, all->list[k].from[field]);
    }
    return true;
}

static bool add_quantities(table_out *out, const graded_list *all, int print)
{
    const tailor_table *table = tailor_quantity_table();
    for (size_t i = 0; grade_quantities[i]; i++) {
        int number = tailor_table_find(table, grade_quantities[i]);
        if (!number || number >= TAILOR_QUANTITY_COUNT)
            continue;
        if (!table_row(out))
            return false;
        table_cell(out, 0, grade_quantities[i]);
        table_cell(out, 1, value_unit(table, number, print));
        for (size_t k = 0; k < all->count; k++)
            print_cell(out, 2 + k, table, number, all->list[k].good ? all->list[k].drafted.quantities[number] : NAN,
                       print, FROM_NOWHERE);
    }
    return true;
}

/* How each size that is no row of the table was found. */
static void print_found(const graded_list *all, const sizes *t)
{
    const char *key = tailor_table_text(tailor_field_table(), t->fields[0], TAILOR_COLUMN_NAME);
    bool given = false;
    for (size_t k = 0; k < all->count; k++) {
        const graded *g = &all->list[k];
        int between = 0, last = 0;
        for (int i = 1; i < TAILOR_FIELD_COUNT; i++) {
            given |= g->from[i] == FROM_GIVEN;
            between += g->from[i] == FROM_BETWEEN || g->from[i] == FROM_BEYOND;
            last = g->from[i] == FROM_BETWEEN ? FROM_BETWEEN : last;
        }
        if (g->beyond != 0)
            printf("! %s: extrapolated, %.2g of a step %s the %s size: nobody has measured there\n", g->label,
                   fabs(g->beyond), g->beyond > 0 ? "above" : "below", g->beyond > 0 ? "largest" : "smallest");
        else if (last)
            printf("~ %s: interpolated between two sizes at its %s: %d measures\n", g->label, key, between);
    }
    if (given)
        printf("= as asked for\n");
}

static void print_cautions(const graded_list *all)
{
    cautioned coats[GRADED_MOST];
    size_t count = 0;
    for (size_t k = 0; k < all->count; k++)
        if (all->list[k].good) {
            coats[count].coat = all->list[k].drafted.coat;
            snprintf(coats[count++].label, sizeof coats->label, "size %s", all->list[k].label);
        }
    cautions_print(coats, count, false, "");
}

static int print_table(const graded_list *all, const sizes *t, int fit, const settings *s)
{
    table_out out;
    if (t->title[0])
        printf("%s\n", t->title);
    printf("fit %s\n", t->fits[fit - 1]);
    bool good = table_begin(&out, 2 + all->count, 2) && add_head(&out, all, "size") &&
                add_measures(&out, all, s->print) && add_quantities(&out, all, s->print);
    table_end(&out);
    if (!good) {
        complain("out of memory");
        return EXIT_REFUSED;
    }
    print_found(all, t);
    print_cautions(all);
    return EXIT_DONE;
}

/* ---- JSON */

static json_t *size_object(const graded *g)
{
    static const char *const from[] = {"none", "table", "interpolated", "extrapolated", "given"};
    json_t *object = json_object(), *measures = json_object();
    bool good = object && measures;
    for (int i = 1; good && i < TAILOR_FIELD_COUNT; i++) {
        if (g->from[i] == FROM_NOWHERE)
            continue;
        json_t *measure = json_object();
        good = json_put(measure, "value", json_field_value(i, g->fields[i])) &&
               json_put(measure, "origin", json_string(from[g->from[i]]));
        good = json_put(measures, tailor_table_text(tailor_field_table(), i, TAILOR_COLUMN_NAME),
                        json_whole(measure, good));
    }
    good = good && json_put(object, "size", json_string(g->label)) &&
           json_put(object, "beyond", json_number(g->beyond));
    good = json_put(object, "measures", json_whole(measures, good)) && good;
    good = good && json_put(object, "refused", g->good ? json_null() : json_string(g->drafted.fault.sentence)) &&
           json_put(object, "fields", g->good ? json_fields(&g->drafted) : json_null()) &&
           json_put(object, "cautions", g->good ? json_cautions(&g->drafted) : json_null()) &&
           json_put(object, "quantities", g->good ? json_quantities(&g->drafted) : json_null());
    return json_whole(object, good);
}

static int print_json(const graded_list *all, const sizes *t, int fit)
{
    json_t *document = json_document("sizes"), *list = json_array();
    bool good = document && list && json_put(document, "title", json_string(t->title)) &&
                json_put(document, "source", json_string(t->source_told)) &&
                json_put(document, "provenance", json_string(t->provenance)) &&
                json_put(document, "fit", json_string(t->fits[fit - 1]));
    for (size_t k = 0; good && k < all->count; k++)
        good = json_add(list, size_object(&all->list[k]));
    good = json_put(document, "sizes", json_whole(list, good)) && good;
    return json_print(json_whole(document, good));
}

static int grade_sizes(const sizes *t, const card *c, const settings *s)
{
    graded_list all = {.list = NULL};
    int fit = sizes_fit(t, s->fit), status = EXIT_REFUSED;
    if (fit && graded_ask(&all, t, fit, s->sizes, c)) {
        graded_draft(&all, c);
        status = s->json ? print_json(&all, t, fit) : print_table(&all, t, fit, s);
        if (status == EXIT_DONE && (s->output || s->nest) && !grade_write(&all, t, s, s->json))
            status = EXIT_REFUSED;
        if (all.good < all.count)
            status = EXIT_REFUSED;
    }
    graded_free(&all);
    return status;
}

int run_grade(const settings *s)
{
    static sizes t; /* too large for a stack */
    static card c;
    if (s->base && (!s->card || s->sizes || s->nest)) {
        complain(s->card ? "--base is about one client: --sizes and --nest do not go with it"
                         : "--base needs the client's measures: --card CARD");
        return EXIT_USAGE;
    }
    if (s->align && !s->nest) {
        complain("--align tells where the sizes of a nest are laid on each other: it needs --nest");
        return EXIT_USAGE;
    }
    if (s->rules && (s->base || s->card || s->fit)) {
        complain("--rules is about a pattern file: --base, --card and --fit do not go with it");
        return EXIT_USAGE;
    }
    if (s->rules)
        return grade_by_rules(s);
    bool good = s->card ? card_read(&c, s->card, s->house) : card_read_house(&c, s->house);
    int status = !good || !sizes_read(&t, s->operand) ? EXIT_REFUSED
                 : s->base                            ? grade_base(&t, &c, s)
                                                      : grade_sizes(&t, &c, s);
    sizes_free(&t);
    return status;
}
