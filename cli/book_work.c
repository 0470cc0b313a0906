/* What each thread of a book does: a line of the table into a folder, and into a line of the summary. */
#include "book.h"

#include "cautions.h"
#include "rows_work.h"

#include <math.h>
#include <sha2.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { TEXT_SHOWN = 191 };

typedef struct book_worker {
    const book *b;
    int thread;
    card card; /* of the order at hand; the house's values stay */
    drafted coat;
    card_fields house; /* as it is without a size */
    csv_cell *cells;
    buffer typed;
    book_file files[BOOK_FILES_MOST];
    size_t file_count;
} book_worker;

/* How an order went. */
typedef struct outcome {
    tailor_status status;
    char sentence[sizeof((tailor_fault *)NULL)->sentence + 40];
    const char *typed; /* "" when it is not to be shown */
} outcome;

/* A cell's text in w->typed, "" for a column that is not there. */
static const char *cell_text(book_worker *w, int role)
{
    int column = w->b->plan.role_column[role];
    w->typed.length = 0;
    if (column < 0)
        return "";
    char *text = buffer_room(&w->typed, w->cells[column].length + 1);
    if (!text)
        return "";
    csv_say(w->cells[column], text);
    return text;
}

static bool refuse(outcome *o, tailor_status status, const char *sentence)
{
    o->status = status;
    snprintf(o->sentence, sizeof o->sentence, "%s", sentence);
    return false;
}

/* A text of the card is shorter than a cell may be; what is cut off ends at a whole character. */
static void take_text(char to[TEXT_SHOWN], const char *text)
{
    size_t length = strlen(text);
    if (length >= TEXT_SHOWN)
        for (length = TEXT_SHOWN - 1; length > 0 && ((unsigned char)text[length] & 0xC0) == 0x80;)
            length--;
    memcpy(to, text, length);
    to[length] = '\0';
}

/* The size's measures stand as the house's do: below what the client has. */
static bool take_size(book_worker *w, outcome *o)
{
    char size[TEXT_SHOWN], fit[TEXT_SHOWN];
    double row[TAILOR_FIELD_COUNT];
    const char *why;
    if (!w->b->sizes.table)
        return true;
    take_text(fit, cell_text(w, ROLE_FIT));
    take_text(size, cell_text(w, ROLE_SIZE));
    if (!*size)
        return true;
    long found = sizes_find(&w->b->sizes, size, fit, &why);
    if (found < 0) {
        o->typed = w->typed.bytes;
        return refuse(o, TAILOR_NOT_A_CHOICE, why);
    }
    tailor_size_table_row(w->b->sizes.table, (size_t)found, row, TAILOR_FIELD_COUNT);
    for (int i = 1; i < TAILOR_FIELD_COUNT; i++)
        if (!isnan(row[i]))
            w->card.house.value[i] = row[i];
    return true;
}

static bool take_fields(book_worker *w, outcome *o)
{
    const rows_plan *plan = &w->b->plan;
    double order[TAILOR_FIELD_COUNT];
    tailor_fault fault;
    tailor_status status = rows_read_order(plan, w->cells, &w->typed, order, &fault);
    if (status != TAILOR_OK) {
        o->typed = w->typed.failed ? "" : w->typed.bytes;
        return refuse(o, status, fault.sentence);
    }
    for (size_t i = 0; i < plan->field_count; i++)
        w->card.client.value[plan->fields[i]] = order[i];
    return true;
}

static bool take_order(book_worker *w, uint64_t row, outcome *o)
{
    book_order order = w->b->names.orders[row];
    char why[sizeof o->sentence];
    book_name_trouble(&w->b->names, (size_t)row, why, sizeof why);
    if (*why)
        return refuse(o, order.other                                              ? TAILOR_CONTRADICTION
                         : *book_folder_name(&w->b->names, (size_t)row) ? TAILOR_BAD_ARGUMENT
                                                                        : TAILOR_MISSING, why);
    tailor_fields_clear(w->card.client.value, TAILOR_FIELD_COUNT);
    w->card.house = w->house;
    take_text(w->card.text[TEXT_NAME], cell_text(w, ROLE_NAME));
    take_text(w->card.text[TEXT_ORDER], cell_text(w, ROLE_ORDER));
    return take_size(w, o) && take_fields(w, o);
}

static bool draft(book_worker *w, outcome *o)
{
    tailor_fault fault = {0};
    if (!make_order(&w->card, &w->coat))
        return refuse(o, w->coat.status, w->coat.fault.sentence);
    tailor_status status = book_make_files(w->b, &w->card, &w->coat, w->files, &w->file_count, &fault);
    return status == TAILOR_OK || refuse(o, status, fault.sentence);
}

static void add_to_manifest(book_worker *w, const char *folder, buffer *lines)
{
    for (size_t i = 0; i < w->file_count; i++) {
        char hash[SHA256_DIGEST_STRING_LENGTH];
        SHA256Data((const uint8_t *)w->files[i].bytes.bytes, w->files[i].bytes.length, hash);
        buffer_say(lines, hash);
        buffer_say(lines, "  ");
        buffer_say(lines, folder);
        buffer_say(lines, "/");
        buffer_say(lines, w->files[i].name);
        buffer_say(lines, "\n");
    }
}

static void write_line(book_worker *w, rows_chunk *chunk, uint64_t row, const outcome *o)
{
    const rows_plan *plan = &w->b->plan;
    buffer *out = &chunk->out;
    const double *quantities = w->coat.quantities;
    bool good = o->status == TAILOR_OK;
    for (size_t column = 0; column < plan->column_count; column++) {
        buffer_add(out, w->cells[column].text, w->cells[column].length);
        buffer_say(out, ",");
    }
    if (good)
        csv_add(out, book_folder_name(&w->b->names, (size_t)row));
    buffer_say(out, ",");
    for (size_t i = 0; i < plan->wanted_count; i++) {
        double none = NAN;
        rows_write_numbers(out, good ? &quantities[plan->wanted[i]] : &none, 1);
    }
    if (good)
        cautions_write_of(out, w->coat.coat);
    buffer_say(out, ",");
    buffer_say(out, tailor_status_name(o->status));
    buffer_say(out, ",");
    if (!good) {
        char sentence[sizeof o->sentence + 24];
        snprintf(sentence, sizeof sentence, "line %d: %s", w->b->names.orders[row].line, o->sentence);
        rows_write_message(out, sentence, o->typed);
    }
    buffer_say(out, "\n");
}

/* False when memory ran out. */
static bool work_on(book_worker *w, rows_chunk *chunk, uint64_t row)
{
    outcome o = {.status = TAILOR_OK, .typed = ""};
    const char *folder = book_folder_name(&w->b->names, (size_t)row);
    memset(&w->coat, 0, sizeof w->coat);
    if (take_order(w, row, &o) && draft(w, &o)) {
        add_to_manifest(w, folder, &chunk->beside);
        buffer path = {0};
        chunk->trouble = book_write_folder(w->b->root, w->thread, folder, w->files, w->file_count, &path);
        if (chunk->trouble) {
            chunk->beside.length = 0;
            buffer_add(&chunk->beside, path.bytes, path.length);
        }
        buffer_free(&path);
    }
    if (!chunk->trouble) {
        chunk->refused += o.status != TAILOR_OK;
        write_line(w, chunk, row, &o);
    }
    drafted_free(&w->coat);
    return o.status != TAILOR_NO_MEMORY && !w->typed.failed && !chunk->out.failed && !chunk->beside.failed;
}

static bool work(void *worker, rows_chunk *chunk)
{
    book_worker *w = worker;
    const char *line = chunk->in.bytes, *end = line + chunk->in.length;
    for (size_t i = 0; i < chunk->rows && !chunk->trouble; i++) {
        csv_found found;
        csv_record(line, (size_t)(end - line), true, w->cells, w->b->plan.column_count, &found);
        line += found.used;
        if (!work_on(w, chunk, chunk->first + i))
            return false;
    }
    return true;
}

static void end(void *worker)
{
    book_worker *w = worker;
    if (!w)
        return;
    for (size_t i = 0; i < BOOK_FILES_MOST; i++)
        buffer_free(&w->files[i].bytes);
    buffer_free(&w->typed);
    free(w->cells);
    free(w);
}

static void *begin(const void *plan, int thread)
{
    const book *b = plan;
    book_worker *w = calloc(1, sizeof *w);
    if (!w)
        return NULL;
    w->b = b;
    w->thread = thread;
    w->card = b->plan.house;
    memset(w->card.text, 0, sizeof w->card.text);
    w->house = w->card.house;
    w->cells = calloc(b->plan.column_count, sizeof *w->cells);
    if (w->cells)
        return w;
    end(w);
    return NULL;
}

const rows_trade book_drafting = {begin, work, end, NULL};
