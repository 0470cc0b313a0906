#include "rows_work.h"

#include "complain.h"
#include "exact.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { TYPED_SHOWN_MOST = 60 };

bool rows_worker_begin(rows_worker *w, const rows_plan *plan)
{
    *w = (rows_worker){.plan = plan};
    w->workspace = malloc(tailor_rows_workspace_bytes());
    w->cells = calloc(plan->column_count, sizeof *w->cells);
    w->orders = calloc(CHUNK_ROWS * plan->field_count, sizeof *w->orders);
    w->quantities = calloc(CHUNK_ROWS * plan->wanted_count, sizeof *w->quantities);
    return w->workspace && w->cells && w->orders && w->quantities;
}

void rows_worker_free(rows_worker *w)
{
    free(w->workspace);
    free(w->cells);
    free(w->orders);
    free(w->quantities);
    buffer_free(&w->typed);
}

/* The next line of the chunk into the worker's cells; returns where the one after begins. */
static const char *read_line(rows_worker *w, const char *line, const char *end)
{
    csv_found found;
    csv_record(line, (size_t)(end - line), true, w->cells, w->plan->column_count, &found);
    return line + found.used;
}

static tailor_status unknown_cloth(const char *typed, tailor_fault *fault)
{
    *fault = (tailor_fault){.status = TAILOR_NOT_A_CHOICE};
    cloths_unknown(typed, fault->sentence);
    return TAILOR_NOT_A_CHOICE;
}

/* What the order does not give itself is its cloths'. */
static void fill_cloths(const rows_plan *plan, const cloth_row *const named[CLOTH_PLACES], double *order)
{
    for (int place = 0; place < CLOTH_PLACES; place++)
        for (int property = 1; named[place] && property < TAILOR_CLOTH_COUNT; property++) {
            double *field = &order[plan->slots[place][property]];
            *field = isnan(*field) ? named[place]->properties[property] : *field;
        }
}

tailor_status rows_read_order(const rows_plan *plan, const csv_cell *cells, buffer *typed_in, double *order,
                              tailor_fault *fault)
{
    const cloth_row *named[CLOTH_PLACES] = {NULL};
    tailor_fields_clear(order, plan->field_count);
    for (size_t column = 0, i = 0; column < plan->column_count; column++) {
        int field = plan->field_of[column];
        if (!field)
            continue;
        csv_cell cell = cells[column];
        typed_in->length = 0;
        char *typed = buffer_room(typed_in, cell.length + 1);
        if (!typed)
            return TAILOR_NO_MEMORY;
        bool given = csv_say(cell, typed) > 0;
        if (given && field < 0 && !(named[CLOTH_COLUMN - field] = cloths_find(typed)))
            return unknown_cloth(typed, fault);
        if (given && field > 0) {
            tailor_status status = tailor_field_read(field, typed, &order[i], fault);
            if (status != TAILOR_OK)
                return status;
        }
        i += field > 0;
    }
    fill_cloths(plan, named, order);
    return TAILOR_OK;
}

static tailor_status measure(rows_worker *w, size_t rows, tailor_fault *fault)
{
    const rows_plan *p = w->plan;
    return tailor_rows_measure(p->fields, p->field_count, w->orders, rows, p->field_count, p->house.house.value,
                               TAILOR_FIELD_COUNT, p->house.constants.value, TAILOR_CONSTANT_COUNT, p->wanted,
                               p->wanted_count, w->quantities, p->wanted_count, w->statuses, NULL, w->workspace,
                               tailor_rows_workspace_bytes(), fault);
}

/* One order of nobody: does the library take the house? */
bool rows_check_house(const rows_plan *plan, const char *source)
{
    rows_worker worker;
    tailor_fault fault = {0};
    bool good = rows_worker_begin(&worker, plan);
    if (!good)
        complain("out of memory");
    if (good && measure(&worker, 0, &fault) != TAILOR_OK) {
        card_place place = card_fault_place(&plan->house, &fault);
        complain_at(place.source ? place.source : source, place.line, "%s", fault.sentence);
        good = false;
    }
    rows_worker_free(&worker);
    return good;
}

/* The order again, by the scalar calls, for the sake of its whole sentence. */
static void explain(const rows_plan *plan, const double *order, tailor_fault *fault)
{
    double client[TAILOR_FIELD_COUNT], fields[TAILOR_FIELD_COUNT], constants[TAILOR_CONSTANT_COUNT];
    tailor_pattern *coat = NULL;
    tailor_fields_clear(client, TAILOR_FIELD_COUNT);
    for (size_t i = 0; i < plan->field_count; i++)
        client[plan->fields[i]] = order[i];
    tailor_status status = tailor_order_resolve(client, TAILOR_FIELD_COUNT, plan->house.house.value, TAILOR_FIELD_COUNT,
                                                plan->house.constants.value, TAILOR_CONSTANT_COUNT, fields,
                                                TAILOR_FIELD_COUNT, NULL, 0, constants, TAILOR_CONSTANT_COUNT, fault);
    if (status == TAILOR_OK)
        status = tailor_coat_draft(fields, TAILOR_FIELD_COUNT, constants, TAILOR_CONSTANT_COUNT, NULL, &coat, fault);
    if (status == TAILOR_OK)
        tailor_coat_measure(coat, fields, TAILOR_FIELD_COUNT, constants, TAILOR_CONSTANT_COUNT, NULL, 0, NULL, NULL, 0,
                            fault);
    tailor_pattern_free(coat);
}

void rows_write_numbers(buffer *out, const double *quantities, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        char *room = buffer_room(out, EXACT_TEXT + 1);
        if (!room)
            return;
        size_t length = isnan(quantities[i]) ? 0 : exact_number(quantities[i], room);
        room[length] = ',';
        out->length += length + 1;
    }
}

void rows_write_message(buffer *out, const char *sentence, const char *typed)
{
    char message[sizeof((tailor_fault *)NULL)->sentence + 2 * TYPED_SHOWN_MOST];
    if (strlen(typed) > TYPED_SHOWN_MOST)
        typed = "";
    snprintf(message, sizeof message, "%s%s%s%s", sentence, *typed ? " (typed: " : "", typed, *typed ? ")" : "");
    csv_add(out, message);
}

static void write_why(rows_worker *w, buffer *out, const double *order, tailor_status status, int32_t measured)
{
    tailor_fault fault = {0};
    const char *typed = "";
    if (status != TAILOR_OK) {
        double spare[TAILOR_FIELD_COUNT];
        rows_read_order(w->plan, w->cells, &w->typed, spare, &fault);
        if (w->typed.failed)
            return;
        typed = w->typed.bytes;
    } else {
        explain(w->plan, order, &fault);
        status = measured;
    }
    buffer_say(out, tailor_status_name(status));
    buffer_say(out, ",");
    rows_write_message(out, fault.sentence, typed);
}

/* A line of the output: what is carried through, the quantities, status and message. `read` is how reading its cells
 * went. */
static void write_line(rows_worker *w, rows_chunk *chunk, size_t row, tailor_status read)
{
    const rows_plan *plan = w->plan;
    buffer *out = &chunk->out;
    for (size_t column = 0; column < plan->column_count; column++) {
        if (plan->field_of[column])
            continue;
        buffer_add(out, w->cells[column].text, w->cells[column].length);
        buffer_say(out, ",");
    }
    rows_write_numbers(out, w->quantities + row * plan->wanted_count, plan->wanted_count);
    if (read == TAILOR_OK && w->statuses[row] == TAILOR_OK) {
        buffer_say(out, "TAILOR_OK,");
    } else {
        chunk->refused++;
        write_why(w, out, w->orders + row * plan->field_count, read, w->statuses[row]);
    }
    buffer_say(out, "\n");
}

bool rows_work(rows_worker *w, rows_chunk *chunk)
{
    const rows_plan *plan = w->plan;
    const char *line = chunk->in.bytes, *end = line + chunk->in.length;
    tailor_status read[CHUNK_ROWS];
    tailor_fault fault;
    for (size_t row = 0; row < chunk->rows; row++) {
        double *order = w->orders + row * plan->field_count;
        line = read_line(w, line, end);
        read[row] = rows_read_order(plan, w->cells, &w->typed, order, &fault);
        if (read[row] != TAILOR_OK)
            tailor_fields_clear(order, plan->field_count);
    }
    if (measure(w, chunk->rows, &fault) != TAILOR_OK)
        return false;
    line = chunk->in.bytes;
    for (size_t row = 0; row < chunk->rows; row++) {
        line = read_line(w, line, end);
        if (read[row] != TAILOR_OK) /* whatever the house may have made of a line without its client */
            tailor_fields_clear(w->quantities + row * plan->wanted_count, plan->wanted_count);
        write_line(w, chunk, row, read[row]);
    }
    return !chunk->out.failed && !w->typed.failed;
}

static void *begin(const void *plan, int thread)
{
    rows_worker *w = malloc(sizeof *w);
    (void)thread;
    if (!w || rows_worker_begin(w, plan))
        return w;
    rows_worker_free(w);
    free(w);
    return NULL;
}

static bool work(void *worker, rows_chunk *chunk) { return rows_work(worker, chunk); }

static void end(void *worker)
{
    if (worker)
        rows_worker_free(worker);
    free(worker);
}

const rows_trade rows_measuring = {begin, work, end, NULL};
