#include "rows_work.h"

#include "cautions.h"
#include "complain.h"
#include "values.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { TYPED_SHOWN_MOST = 60 };

bool rows_worker_begin(rows_worker *w, const rows_plan *plan)
{
    *w = (rows_worker){.plan = plan};
    w->cells = calloc(plan->column_count, sizeof *w->cells);
    w->orders = calloc(CHUNK_ROWS * plan->field_count, sizeof *w->orders);
    w->quantities = calloc(CHUNK_ROWS * plan->wanted_count, sizeof *w->quantities);
    return tailor_rows_worker_new(plan->rows, 0, 0, &w->runs, NULL) == TAILOR_OK && w->cells && w->orders &&
           w->quantities;
}

void rows_worker_free(rows_worker *w)
{
    tailor_rows_worker_free(w->runs);
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
            tailor_status status = tailor_value_read(tailor_field_table(), field, typed, &order[i], fault);
            if (status != TAILOR_OK)
                return status;
        }
        i += field > 0;
    }
    fill_cloths(plan, named, order);
    return TAILOR_OK;
}

bool rows_make_plan(rows_plan *plan)
{
    tailor_fault fault;
    bool good = card_house(&plan->house, &plan->made, &fault) == TAILOR_OK &&
                tailor_rows_new(plan->made, plan->fields, plan->field_count, plan->wanted, plan->wanted_count,
                                &plan->rows, &fault) == TAILOR_OK;
    if (!good)
        complain("%s", fault.sentence);
    return good;
}

/* The coat of this one row, for its whole sentence; of the extent that is refused in the same way. */
static void explain(const rows_plan *plan, const double *order, const tailor_verdict *verdict, tailor_fault *fault)
{
    static const int extents[] = {TAILOR_EXTENT_NET, TAILOR_EXTENT_MAKE};
    double client[TAILOR_FIELD_COUNT];
    tailor_fields_clear(client, TAILOR_FIELD_COUNT);
    for (size_t i = 0; i < plan->field_count; i++)
        client[plan->fields[i]] = order[i];
    for (size_t i = 0; i < sizeof extents / sizeof extents[0]; i++) {
        tailor_coat *coat = NULL;
        tailor_status status = tailor_coat_new(plan->made, client, TAILOR_FIELD_COUNT, extents[i], &coat, fault);
        tailor_coat_free(coat);
        if (status == verdict->status && fault->table == verdict->table && fault->index == verdict->index)
            return;
    }
    tailor_verdict_fault(verdict, fault);
}

void rows_write_numbers(buffer *out, const double *quantities, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        char *room = buffer_room(out, EXACT_TEXT + 1);
        if (!room)
            return;
        size_t length = 0; /* of a NaN: an empty cell */
        tailor_number_write(quantities[i], room, EXACT_TEXT, &length);
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

static void write_why(rows_worker *w, buffer *out, const double *order, tailor_status status,
                      const tailor_verdict *verdict)
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
        explain(w->plan, order, verdict, &fault);
        status = verdict->status;
    }
    buffer_say(out, tailor_status_name(status));
    buffer_say(out, ",");
    rows_write_message(out, fault.sentence, typed);
}

/* A line of the output: what is carried through, the quantities, cautions, status and message. `read` is how reading
 * its cells went. */
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
    if (read == TAILOR_OK && w->verdicts[row].status == TAILOR_OK) {
        cautions_write(out, w->verdicts[row].cautions);
        buffer_say(out, ",TAILOR_OK,");
    } else {
        chunk->refused++;
        buffer_say(out, ",");
        write_why(w, out, w->orders + row * plan->field_count, read, &w->verdicts[row]);
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
    if (tailor_rows_run(w->runs, w->orders, chunk->rows, w->quantities, w->verdicts, &fault) != TAILOR_OK)
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
