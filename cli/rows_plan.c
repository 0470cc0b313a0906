#include "rows_plan.h"

#include "complain.h"

#include <stdlib.h>
#include <string.h>

static const char cautions_name[] = "cautions", status_name[] = "status", message_name[] = "message";

static const char *quantity_name(int number)
{
    return tailor_table_text(tailor_quantity_table(), number, TAILOR_COLUMN_NAME);
}

/* ---- --want */

static void want_all(rows_plan *plan)
{
    for (int place = 0, number; (number = tailor_table_at(tailor_quantity_table(), place)) != 0; place++)
        if (number < TAILOR_QUANTITY_COUNT) /* a newer library may have more */
            plan->wanted[plan->wanted_count++] = number;
}

static bool want_one(rows_plan *plan, const char *name)
{
    const tailor_table *table = tailor_quantity_table();
    int number = tailor_table_find(table, name);
    if (!number || number >= TAILOR_QUANTITY_COUNT) {
        int near = tailor_table_suggest(table, name);
        complain("--want %s: no such quantity%s%s%s", name,
                 near ? ": did you mean " : "; `tailorgeom list quantities` shows them",
                 near ? quantity_name(near) : "", near ? "?" : "");
        return false;
    }
    for (size_t i = 0; i < plan->wanted_count; i++)
        if (plan->wanted[i] == number) {
            complain("--want: %s stands twice", name);
            return false;
        }
    plan->wanted[plan->wanted_count++] = number;
    return true;
}

static bool want(rows_plan *plan, const char *names)
{
    char name[64];
    if (!names || strcmp(names, "all") == 0) {
        want_all(plan);
        return true;
    }
    for (;; names++) {
        size_t length = strcspn(names, ",");
        if (length == 0 || length >= sizeof name) {
            complain("--want takes names of quantities with commas between, or all");
            return false;
        }
        memcpy(name, names, length);
        name[length] = '\0';
        if (!want_one(plan, name))
            return false;
        names += length;
        if (!*names)
            return true;
    }
}

void rows_plan_wanted(const rows_plan *plan, buffer *names)
{
    for (size_t i = 0; i < plan->wanted_count; i++) {
        buffer_say(names, i ? "," : "");
        buffer_say(names, quantity_name(plan->wanted[i]));
    }
}

bool rows_plan_hash_house(const rows_plan *plan, char text[CSV_HASH_TEXT])
{
    SHA2_CTX hash;
    buffer own = {0};
    cloths_bytes(&own);
    const card *house = &plan->house;
    SHA256Init(&hash);
    SHA256Update(&hash, (const uint8_t *)house->house.value, sizeof house->house.value);
    SHA256Update(&hash, (const uint8_t *)house->constants.value, sizeof house->constants.value);
    SHA256Update(&hash, (const uint8_t *)own.bytes, own.length);
    SHA256End(&hash, text);
    bool good = !own.failed;
    buffer_free(&own);
    return good;
}

int rows_plan_begin(rows_plan *plan, const settings *s)
{
    memset(plan, 0, sizeof *plan);
    if (!want(plan, s->want)) {
        complain("see `tailorgeom help rows`");
        return EXIT_USAGE;
    }
    return card_read_house(&plan->house, s->house) ? EXIT_DONE : EXIT_REFUSED;
}

/* ---- the header */

typedef struct heading {
    rows_plan *plan;
    const char *source;
    int line, column; /* column from 1 */
    const char *name;
} heading;

static bool refuse(const heading *h, const char *why)
{
    complain_at(h->source, h->line, "column %d, %s: %s", h->column, h->name, why);
    return false;
}

static void add_to_head(rows_plan *plan, csv_cell cell)
{
    buffer_add(&plan->head, cell.text, cell.length);
    buffer_say(&plan->head, ",");
}

static bool take_field(const heading *h, int field, csv_cell cell)
{
    rows_plan *plan = h->plan;
    for (size_t i = 0; i < plan->field_count; i++)
        if (plan->fields[i] == field)
            return refuse(h, "this field has a column already");
    plan->field_of[h->column - 1] = field;
    if (plan->extra)
        add_to_head(plan, cell);
    plan->fields[plan->field_count++] = field;
    return true;
}

/* A column of names of cloths: each fills the fields of its place that have no column, or an empty cell in it. */
static bool take_names(const heading *h, int place, csv_cell cell)
{
    if (h->plan->has_names[place])
        return refuse(h, "there is a column of this name already");
    h->plan->has_names[place] = true;
    h->plan->field_of[h->column - 1] = CLOTH_COLUMN - place;
    if (h->plan->extra)
        add_to_head(h->plan, cell);
    return true;
}

static void find_slots(rows_plan *plan)
{
    for (int place = 0; place < CLOTH_PLACES; place++)
        for (int property = 1; plan->has_names[place] && property < TAILOR_CLOTH_COUNT; property++) {
            size_t slot = 0;
            int field = cloth_field(place, property);
            while (slot < plan->field_count && plan->fields[slot] != field)
                slot++;
            if (slot == plan->field_count)
                plan->fields[plan->field_count++] = field;
            plan->slots[place][property] = slot;
        }
}

/* A name that the output gives to a column of its own. */
static bool is_taken(const rows_plan *plan, const char *name)
{
    for (size_t i = 0; i < plan->wanted_count; i++)
        if (strcmp(quantity_name(plan->wanted[i]), name) == 0)
            return true;
    if (plan->extra && strcmp(name, plan->extra) == 0)
        return true;
    return strcmp(name, cautions_name) == 0 || strcmp(name, status_name) == 0 || strcmp(name, message_name) == 0;
}

/* Only capitals, blanks and hyphens away from it: meant, and not to be carried through as a remark. */
static bool is_spelling(const char *name, const char *field)
{
    for (;; name++, field++) {
        char letter = *name >= 'A' && *name <= 'Z'   ? (char)(*name - 'A' + 'a')
                      : *name == ' ' || *name == '-' ? '_'
                                                     : *name;
        if (letter != *field || !letter)
            return letter == *field;
    }
}

static bool take_carried(const heading *h, csv_cell cell)
{
    int near = tailor_table_suggest(tailor_field_table(), h->name);
    const char *field = tailor_table_text(tailor_field_table(), near, TAILOR_COLUMN_NAME);
    if (tailor_table_find(tailor_constant_table(), h->name))
        return refuse(h, "this is a constant of the house, the same for all orders: give it in a file with --house");
    if (is_taken(h->plan, h->name))
        return refuse(h, "the output has a column of this name: rename this one");
    if (near && is_spelling(h->name, field)) {
        complain_at(h->source, h->line, "column %d, %s: a field is written %s", h->column, h->name, field);
        return false;
    }
    if (near)
        complain_at(h->source, h->line, "caution: column %d, %s, is no field and is carried through: did you mean %s?",
                    h->column, h->name, field);
    add_to_head(h->plan, cell);
    return true;
}

/* True when the column is one of the roles; `*good`: and it may be. */
static bool take_role(const heading *h, csv_cell cell, bool *good)
{
    rows_plan *plan = h->plan;
    for (size_t i = 0; plan->roles && i < ROLES_MOST; i++) {
        if (!plan->roles[i] || strcmp(plan->roles[i], h->name) != 0)
            continue;
        *good = plan->role_column[i] < 0 || refuse(h, "there is such a column already");
        plan->role_column[i] = h->column - 1;
        add_to_head(plan, cell);
        return true;
    }
    return false;
}

static bool take_column(heading *h, csv_cell cell)
{
    char *name = malloc(cell.length + 1);
    if (!name) {
        complain("out of memory");
        return false;
    }
    csv_say(cell, name);
    h->name = name;
    int field = tailor_table_find(tailor_field_table(), name);
    int place = cloth_place_of(name);
    bool good = true;
    if (!take_role(h, cell, &good))
        good = place < CLOTH_PLACES                    ? take_names(h, place, cell)
               : field && field < TAILOR_FIELD_COUNT ? take_field(h, field, cell)
                                                     : take_carried(h, cell);
    free(name);
    return good;
}

/* One column only, and in it what other programs put between columns. */
static bool is_otherwise_separated(const char *source, const csv_line *header, size_t columns)
{
    static const struct {
        char mark;
        const char *name;
    } marks[] = {{';', "semicolons"}, {'\t', "tabs"}};
    for (size_t i = 0; columns == 1 && i < sizeof marks / sizeof marks[0]; i++)
        if (memchr(header->text, marks[i].mark, header->length)) {
            complain_at(
                source, header->line,
                "the columns are separated by %s: save the table with commas between them, and points in its numbers",
                marks[i].name);
            return true;
        }
    return false;
}

static bool take_columns(rows_plan *plan, const char *source, const csv_line *header, const csv_cell *cells)
{
    heading h = {.plan = plan, .source = source, .line = header->line};
    for (size_t i = 0; i < plan->column_count; i++) {
        h.column = (int)i + 1;
        if (!take_column(&h, cells[i]))
            return false;
    }
    find_slots(plan);
    if (plan->field_count == 0 && !plan->fieldless) {
        complain_at(source, header->line,
                    "no column is a field: the first line names them, as `tailorgeom list fields` shows");
        return false;
    }
    if (plan->extra) {
        buffer_say(&plan->head, plan->extra);
        buffer_say(&plan->head, ",");
    }
    rows_plan_wanted(plan, &plan->head);
    buffer_say(&plan->head, ",cautions,status,message\n");
    if (plan->head.failed)
        complain("out of memory");
    return !plan->head.failed;
}

bool rows_plan_header(rows_plan *plan, const char *source, const csv_line *header)
{
    csv_found found;
    csv_record(header->text, header->length, true, NULL, 0, &found);
    if (is_otherwise_separated(source, header, found.cells))
        return false;
    csv_cell *cells = calloc(found.cells, sizeof *cells);
    plan->field_of = calloc(found.cells, sizeof *plan->field_of);
    plan->column_count = found.cells;
    for (size_t i = 0; i < ROLES_MOST; i++)
        plan->role_column[i] = -1;
    bool good = cells && plan->field_of;
    if (!good)
        complain("out of memory");
    csv_record(header->text, header->length, true, cells, cells ? found.cells : 0, &found);
    good = good && take_columns(plan, source, header, cells);
    free(cells);
    return good;
}

void rows_plan_free(rows_plan *plan)
{
    free(plan->field_of);
    plan->field_of = NULL;
    buffer_free(&plan->head);
    tailor_rows_free(plan->rows);
    tailor_house_free(plan->made);
}
