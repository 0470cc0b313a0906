/* A client and his nearest size: what to cut from, what to change on it, and what comes of it.
 *
 * The changes are written as notes of a fitting, `arm_length_left = +15 mm`, so a base size's card can be altered by
 * them. They count what the card gives of measures and figure, against the same field of the base as it is drafted: of
 * the table where it has it, else by the rules. */
#include "grade.h"

#include "cautions.h"
#include "complain.h"
#include "output.h"
#include "sheet_page.h"
#include "table_out.h"
#include "values.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <tailorgeom/sheet.h>

typedef struct base_found {
    size_t row;
    int32_t decided_by;
    double distance, off[TAILOR_FIELD_COUNT]; /* client minus row, of the table's measures */
    double change[TAILOR_FIELD_COUNT];        /* NaN where nothing changes */
    drafted base, client;
} base_found;

static const char *name_of(int field)
{
    return tailor_table_text(tailor_field_table(), field, TAILOR_COLUMN_NAME);
}

/* As it stands in notes, to a millionth. */
static void change_text(int field, double change, char text[VALUE_TEXT])
{
    change_write(field, round(change * 1e6) / 1e6, text);
}

/* What the base has there: where it has nothing for one side, what it has for both; 0 where no rule says anything. */
static double on_base(const base_found *f, int field)
{
    static const char *const sides[] = {"_left", "_right"};
    char name[VALUE_TEXT];
    if (!isnan(f->base.fields[field]))
        return f->base.fields[field];
    for (size_t i = 0; i < 2; i++) {
        size_t more = strlen(sides[i]), length = strlen(name_of(field));
        if (length <= more || length >= sizeof name || strcmp(name_of(field) + length - more, sides[i]) != 0)
            continue;
        snprintf(name, sizeof name, "%.*s", (int)(length - more), name_of(field));
        int both = tailor_table_find(tailor_field_table(), name);
        if (both && both < TAILOR_FIELD_COUNT && !isnan(f->base.fields[both]))
            return f->base.fields[both];
    }
    return 0;
}

static bool is_change(const card *c, int field)
{
    char name[VALUE_TEXT];
    const char *section = section_of_field(field);
    return !card_assumes(c, field) && (strcmp(section, "measures") == 0 || strcmp(section, "figure") == 0) &&
           !choice_name(tailor_field_table(), field, 1, name);
}

static bool find(base_found *f, const sizes *t, const card *c)
{
    double client[TAILOR_FIELD_COUNT], base[TAILOR_FIELD_COUNT];
    tailor_fault fault;
    card_client(c, client);
    if (tailor_size_table_nearest(t->table, client, TAILOR_FIELD_COUNT, &f->row, &f->decided_by, &f->distance, f->off,
                                  TAILOR_FIELD_COUNT, &fault) != TAILOR_OK) {
        card_place place = card_fault_place(c, &fault);
        complain_at(place.source, place.line, "%s", fault.sentence);
        return false;
    }
    /* The base wears the client's coat: style, cloth and ease are his, measures and figure the table's. */
    tailor_size_table_row(t->table, f->row, base, TAILOR_FIELD_COUNT);
    for (int i = 1; i < TAILOR_FIELD_COUNT; i++)
        if (strcmp(section_of_field(i), "measures") != 0 && strcmp(section_of_field(i), "figure") != 0 &&
            !isnan(client[i]))
            base[i] = client[i];
    if (!graded_order(base, c, &f->base)) {
        complain("size %s: %s", t->names[f->row], f->base.fault.sentence);
        return false;
    }
    /* What the client does not give stays as it is on the base: nobody would change it. */
    for (int i = 1; i < TAILOR_FIELD_COUNT; i++)
        if (!isnan(client[i]))
            base[i] = client[i];
    if (!graded_order(base, c, &f->client)) {
        card_place place = card_fault_place(c, &f->client.fault);
        complain_at(place.source, place.line, "the client on size %s: %s", t->names[f->row], f->client.fault.sentence);
        return false;
    }
    for (int i = 1; i < TAILOR_FIELD_COUNT; i++) {
        double change = f->client.fields[i] - on_base(f, i);
        f->change[i] = is_change(c, i) && fabs(change) >= 1e-6 ? change : NAN;
    }
    return true;
}

static void print_changes(const base_found *f, FILE *to)
{
    char text[VALUE_TEXT];
    for (int place = 0, field; (field = tailor_table_at(tailor_field_table(), place)) != 0; place++)
        if (field < TAILOR_FIELD_COUNT && !isnan(f->change[field])) {
            change_text(field, f->change[field], text);
            fprintf(to, "%s = %s\n", name_of(field), text);
        }
}

static bool print_quantities(const base_found *f, const settings *s)
{
    const tailor_table *table = tailor_quantity_table();
    const char *const heads[] = {"", "", "base", "client", "change"};
    table_out out;
    bool good = table_begin(&out, 5, 2) && table_row(&out);
    for (size_t i = 0; good && i < 5; i++)
        table_cell(&out, i, heads[i]);
    for (size_t i = 0; good && grade_quantities[i]; i++) {
        int number = tailor_table_find(table, grade_quantities[i]);
        good = table_row(&out);
        if (!good || !number || number >= TAILOR_QUANTITY_COUNT)
            continue;
        const double values[] = {f->base.quantities[number], f->client.quantities[number],
                                 f->client.quantities[number] - f->base.quantities[number]};
        table_cell(&out, 0, grade_quantities[i]);
        table_cell(&out, 1, value_unit(table, number, s->print));
        for (size_t k = 0; k < 3; k++) {
            char text[VALUE_TEXT];
            value_write(table, number, values[k], s->print, text);
            table_cell(&out, 2 + k, text);
        }
    }
    table_end(&out);
    if (!good)
        complain("out of memory");
    return good;
}

static bool print_base(const base_found *f, const sizes *t, const card *c, const settings *s)
{
    char text[VALUE_TEXT], title[4 * CARD_LINE_BYTES_MOST];
    card_title(c, title, sizeof title);
    if (title[0])
        printf("%s\n", title);
    printf("nearest in %s: size %s, fit %s, %.2f steps off\n", t->title[0] ? t->title : t->source, t->names[f->row],
           t->fits[t->fit_of[f->row] - 1], f->distance);
    printf("decided by %s", name_of(f->decided_by));
    if (!isnan(f->off[f->decided_by])) {
        change_text(f->decided_by, f->off[f->decided_by], text);
        printf(": the client's is %s off this size, and farther off the next best", text);
    }
    printf("\nto change on the base:\n");
    print_changes(f, stdout);
    bool good = print_quantities(f, s);
    cautions_print((const cautioned[]){{f->base.coat, "base"}, {f->client.coat, "client"}}, 2, false, "");
    return good;
}

static int print_json(const base_found *f, const sizes *t)
{
    json_t *document = json_document("base"), *changes = json_object();
    bool good = document && changes && json_put(document, "size", json_string(t->names[f->row])) &&
                json_put(document, "fit", json_string(t->fits[t->fit_of[f->row] - 1])) &&
                json_put(document, "decided_by", json_string(name_of(f->decided_by))) &&
                json_put(document, "distance", json_number(f->distance)) &&
                json_put(document, "base_cautions", json_cautions(&f->base)) &&
                json_put(document, "client_cautions", json_cautions(&f->client)) &&
                json_put(document, "base_quantities", json_quantities(&f->base)) &&
                json_put(document, "client_quantities", json_quantities(&f->client));
    for (int i = 1; good && i < TAILOR_FIELD_COUNT; i++)
        if (!isnan(f->change[i]))
            good = json_put(changes, name_of(i), json_number(f->change[i]));
    good = json_put(document, "changes", json_whole(changes, good)) && good;
    return json_print(json_whole(document, good));
}

/* The changes as a file of notes, which `tailorgeom fit` takes. */
static bool write_notes(output_set *set, const base_found *f, const sizes *t, const char *directory)
{
    output *file = output_open_in(set, directory, "changes.txt");
    if (!file)
        return false;
    fprintf(file->stream, "# from size %s, fit %s, to the client\n", t->names[f->row],
            t->fits[t->fit_of[f->row] - 1]);
    print_changes(f, file->stream);
    return output_close(file);
}

/* Base and client laid on one another. */
static bool write_picture(output_set *set, const base_found *f, const sizes *t, const char *directory, int print)
{
    static const struct {
        const char *name;
        int format;
    } formats[] = {{"difference.svg", TAILOR_SHEET_SVG}, {"difference.pdf", TAILOR_SHEET_PDF}};
    char size[2 * SIZE_TEXT], title[SIZE_LINE + SIZE_TEXT];
    const char *const labels[] = {size, "the client"};
    snprintf(title, sizeof title, "The client on size %s", t->names[f->row]);
    tailor_page *page = sheet_page_titled(title, print);
    bool good = page != NULL;
    snprintf(size, sizeof size, "size %s, fit %s", t->names[f->row], t->fits[t->fit_of[f->row] - 1]);
    for (size_t i = 0; good && i < 2; i++) {
        tailor_fault fault;
        output *file = output_open_in(set, directory, formats[i].name);
        sheet_page_format(page, formats[i].format);
        tailor_status status = file ? tailor_sheet_draw_overlay(f->base.pattern, f->client.pattern, labels, page,
                                                                output_write, file, &fault)
                                    : TAILOR_OK;
        good = file && output_drawn(file, status, &fault);
    }
    tailor_page_free(page);
    return good;
}

static bool write_files(const base_found *f, const sizes *t, const settings *s)
{
    output_set set = {.count = 0};
    bool good = make_directory(s->output) && write_notes(&set, f, t, s->output) &&
                write_picture(&set, f, t, s->output, s->print) && output_commit(&set);
    for (size_t i = 0; good && !s->json && i < set.count; i++)
        printf("wrote %s\n", set.files[i].path);
    output_discard(&set);
    return good;
}

int grade_base(const sizes *t, const card *c, const settings *s)
{
    base_found *f = calloc(1, sizeof *f);
    int status = EXIT_REFUSED;
    if (!f)
        complain("out of memory");
    else if (find(f, t, c)) {
        bool good = s->json ? print_json(f, t) == EXIT_DONE : print_base(f, t, c, s);
        if (good && (!s->output || write_files(f, t, s)))
            status = EXIT_DONE;
    }
    if (f) {
        drafted_free(&f->base);
        drafted_free(&f->client);
    }
    free(f);
    return status;
}
