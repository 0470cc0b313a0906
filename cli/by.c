#include "by.h"

#include "complain.h"
#include "values.h"

#include <stdio.h>
#include <string.h>

const char *by_name(const by_axis *axis)
{
    return axis->table ? tailor_table_text(axis->table, axis->number, TAILOR_COLUMN_NAME) : cloth_places[axis->number];
}

static tailor_status read_value(const by_axis *axis, const char *typed, double *value, tailor_fault *fault)
{
    if (!axis->table) { /* its place in the list stands for a cloth */
        size_t place = 0;
        while (place < cloths_count() && strcmp(cloths_at(place)->name, typed) != 0)
            place++;
        *value = (double)place;
        if (place < cloths_count())
            return TAILOR_OK;
        *fault = (tailor_fault){.status = TAILOR_NOT_A_CHOICE};
        cloths_unknown(typed, fault->sentence);
        return TAILOR_NOT_A_CHOICE;
    }
    return tailor_value_read(axis->table, axis->number, typed, value, fault);
}

static int wrong(const char *by)
{
    complain("--by %s: write a field, an equals sign and values with commas between: lapel_width=80,88", by);
    return EXIT_USAGE;
}

static int find_axis(by_axis *axis, const char *name)
{
    axis->table = NULL;
    axis->number = cloth_place_of(name);
    if (axis->number < CLOTH_PLACES)
        return EXIT_DONE;
    axis->table = tailor_field_table();
    axis->number = tailor_table_find(axis->table, name);
    if (!axis->number) {
        axis->table = tailor_constant_table();
        axis->number = tailor_table_find(axis->table, name);
    }
    if (axis->number)
        return EXIT_DONE;
    int near = tailor_table_suggest(tailor_field_table(), name);
    complain("--by %s: no such field%s%s%s", name, near ? ": did you mean " : "; `tailorgeom list fields` shows them",
             near ? tailor_table_text(tailor_field_table(), near, TAILOR_COLUMN_NAME) : "", near ? "?" : "");
    return EXIT_USAGE;
}

static int read_axis(by_axis *axis, const char *by)
{
    char name[BY_TEXT * 2];
    const char *at = strchr(by, '=');
    if (!at || at == by || (size_t)(at - by) >= sizeof name)
        return wrong(by);
    memcpy(name, by, (size_t)(at - by));
    name[at - by] = '\0';
    int end = find_axis(axis, name);
    if (end != EXIT_DONE)
        return end;
    do {
        at++;
        size_t length = strcspn(at, ",");
        char *label = axis->labels[axis->count];
        tailor_fault fault;
        if (axis->count == BY_VALUES_MOST || length == 0 || length >= BY_TEXT)
            return wrong(by);
        memcpy(label, at, length);
        label[length] = '\0';
        if (read_value(axis, label, &axis->values[axis->count], &fault) != TAILOR_OK) {
            complain("--by: %s (typed: %s)", fault.sentence, label);
            return EXIT_USAGE;
        }
        axis->count++;
        at += length;
    } while (*at == ',');
    return EXIT_DONE;
}

/* Default: every buttoning there is, in the order of its choices. */
static void buttonings(by_axis *axis)
{
    const tailor_table *choices = tailor_choice_table(TAILOR_FIELD_BUTTONING);
    axis->table = tailor_field_table();
    axis->number = TAILOR_FIELD_BUTTONING;
    for (int choice; axis->count < BY_VALUES_MOST; axis->count++) {
        if ((choice = tailor_table_at(choices, (int)axis->count)) == 0)
            break;
        axis->values[axis->count] = choice;
        snprintf(axis->labels[axis->count], BY_TEXT, "%.*s", BY_TEXT - 1,
                 tailor_table_text(choices, choice, TAILOR_COLUMN_NAME));
    }
}

int by_read(by_plan *plan, const settings *s)
{
    memset(plan, 0, sizeof *plan);
    plan->row_count = 1;
    plan->axis_count = s->by_count ? s->by_count : 1;
    if (!s->by_count)
        buttonings(&plan->axes[0]);
    for (size_t i = 0; i < plan->axis_count; i++) {
        int end = i < s->by_count ? read_axis(&plan->axes[i], s->by[i]) : EXIT_DONE;
        if (end != EXIT_DONE)
            return end;
        for (size_t k = 0; k < i; k++) {
            if (plan->axes[k].table == plan->axes[i].table && plan->axes[k].number == plan->axes[i].number) {
                complain("--by %s stands twice: give all its values in one", by_name(&plan->axes[i]));
                return EXIT_USAGE;
            }
        }
        plan->row_count *= plan->axes[i].count;
        if (plan->row_count > BY_ROWS_MOST) {
            complain("the values of --by make more than %d coats", BY_ROWS_MOST);
            return EXIT_USAGE;
        }
    }
    return EXIT_DONE;
}

size_t by_choice(const by_plan *plan, size_t row, size_t axis)
{
    for (size_t i = plan->axis_count - 1; i > axis; i--)
        row /= plan->axes[i].count;
    return row % plan->axes[axis].count;
}

/* All numbers of the cloth, whatever the card gives itself: it is the cloth that is exchanged. */
static void take_cloth(int place, const cloth_row *row, card *c)
{
    for (int property = 1; property < TAILOR_CLOTH_COUNT; property++)
        c->client.value[cloth_field(place, property)] = row->properties[property];
    c->client.cloth[place] = row;
}

void by_apply(const by_plan *plan, size_t row, card *c)
{
    for (size_t i = 0; i < plan->axis_count; i++) {
        const by_axis *axis = &plan->axes[i];
        if (!axis->table) {
            take_cloth(axis->number, cloths_at((size_t)axis->values[by_choice(plan, row, i)]), c);
            continue;
        }
        bool is_field = axis->table == tailor_field_table();
        (is_field ? c->client.value : c->constants.value)[axis->number] = axis->values[by_choice(plan, row, i)];
    }
}

void by_label(const by_plan *plan, size_t row, char *text, size_t capacity)
{
    size_t used = 0;
    text[0] = '\0';
    for (size_t i = 0; i < plan->axis_count && used < capacity; i++) {
        const by_axis *axis = &plan->axes[i];
        const char *value = axis->labels[by_choice(plan, row, i)];
        int wrote = snprintf(text + used, capacity - used, "%s%s", i ? ", " : "", value);
        used += wrote > 0 ? (size_t)wrote : 0;
    }
}

bool by_has(const by_plan *plan, const tailor_fault *fault)
{
    for (size_t i = 0; i < plan->axis_count; i++) {
        const by_axis *axis = &plan->axes[i];
        if (!axis->table && fault->table == TAILOR_TABLE_FIELD && cloth_place_of_field(fault->index) == axis->number)
            return true;
        int table = !axis->table                           ? -1
                    : axis->table == tailor_field_table() ? TAILOR_TABLE_FIELD
                                                          : TAILOR_TABLE_CONSTANT;
        if (fault->table == table && fault->index == axis->number)
            return true;
    }
    return false;
}
