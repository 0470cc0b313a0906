/* tailorgeom fit: a card written anew, with a section more of what a fitting has altered. */
#define _POSIX_C_SOURCE 200809L
#include "buffer.h"
#include "cautions.h"
#include "commands.h"
#include "complain.h"
#include "fit_effect.h"
#include "fittings.h"
#include "output.h"
#include "text_in.h"
#include "values.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

/* All that one run holds; too much for a stack. */
typedef struct fit_run {
    const settings *s;
    char *text; /* the card's bytes */
    size_t length;
    card before, after, again;
    notes notes;
    drafted coat;
    buffer written; /* the bytes of the new card */
    char path[OUTPUT_PATH_MOST];
} fit_run;

static bool take_date(fit_run *r)
{
    const card_fittings *all = &r->before.fittings;
    const char *told = r->notes.date, *last = all->count > 0 ? all->list[all->count - 1].date : "";
    if (r->s->date && told[0] && strcmp(r->s->date, told) != 0)
        complain_at(r->notes.source, 0, "the notes are of %s, --date says %s: which is it?", told, r->s->date);
    else if (!r->s->date && !told[0])
        complain_at(r->notes.source, 0, "a fitting has a day: give --date YYYY-MM-DD, or the notes a line date = "
                    "YYYY-MM-DD");
    else if (strcmp(r->s->date ? r->s->date : told, last) < 0)
        complain_at(r->notes.source, 0, "the fitting of %s would lie before [fitting %d] of %s on the card",
                    r->s->date ? r->s->date : told, all->count, last);
    else if (all->count == FITTINGS_MOST)
        complain_at(r->before.source, 0, "a card holds %d fittings at most", FITTINGS_MOST);
    else {
        if (r->s->date)
            snprintf(r->notes.date, sizeof r->notes.date, "%s", r->s->date);
        return true;
    }
    return false;
}

/* The fitting noted on the card in memory, not yet applied. */
static bool note_fitting(fit_run *r)
{
    card_fittings *all = &r->before.fittings;
    int index = all->count++;
    snprintf(all->list[index].date, sizeof all->list[index].date, "%s", r->notes.date);
    all->list[index].place = (card_place){r->notes.source, 0};
    for (size_t i = 0; i < r->notes.count; i++) {
        const note *n = &r->notes.list[i];
        for (int k = 0; k < n->change_count; k++) {
            if (all->change_count == FITTING_CHANGES_MOST) {
                complain_at(r->before.source, 0, "a card holds %d changes at most", FITTING_CHANGES_MOST);
                return false;
            }
            all->changes[all->change_count++] =
                (card_change){index, n->changes[k].field, n->changes[k].delta, n->place};
        }
    }
    return true;
}

static void put(fit_run *r, const char *text)
{
    buffer_add(&r->written, text, strlen(text));
}

/* The card's own end of line, so that it stays one file. */
static const char *end_of_line(const fit_run *r)
{
    const char *stop = memchr(r->text, '\n', r->length);
    return stop && stop > r->text && stop[-1] == '\r' ? "\r\n" : "\n";
}

static void write_change(fit_run *r, int field, double delta, const char *end)
{
    char text[VALUE_TEXT];
    put(r, tailor_table_text(tailor_field_table(), field, TAILOR_COLUMN_NAME));
    put(r, " = ");
    change_write(field, delta, text);
    put(r, text);
    put(r, end);
}

static bool write_text(fit_run *r)
{
    const char *end = end_of_line(r);
    char text[80];
    int changes = 0;
    for (size_t i = 0; i < r->notes.count; i++)
        changes += r->notes.list[i].change_count;
    buffer_add(&r->written, r->text, r->length);
    if (r->length > 0 && r->text[r->length - 1] != '\n')
        put(r, end);
    snprintf(text, sizeof text, "%s[fitting %d]%sdate = ", end, r->before.fittings.count, end);
    put(r, text);
    put(r, r->notes.date);
    snprintf(text, sizeof text, "%schanges = %d%s", end, changes, end);
    put(r, text);
    for (size_t i = 0; i < r->notes.count; i++) {
        const note *n = &r->notes.list[i];
        put(r, "# ");
        put(r, n->text);
        put(r, end);
        for (int k = 0; k < n->change_count; k++)
            write_change(r, n->changes[k].field, n->changes[k].delta, end);
    }
    if (r->written.failed)
        complain("out of memory");
    else if (r->written.length > CARD_BYTES_MOST)
        complain_at(r->before.source, 0, "with this fitting the card is larger than %d KiB", CARD_BYTES_MOST / 1024);
    return !r->written.failed && r->written.length <= CARD_BYTES_MOST;
}

/* What has been written reads back as the order that was drafted, or it is not written. */
static bool reads_back(fit_run *r)
{
    if (!card_read_text(&r->again, r->path, r->written.bytes, r->written.length, r->s->house))
        return false;
    for (int i = 1; i < TAILOR_FIELD_COUNT; i++) {
        double a = r->after.client.value[i], b = r->again.client.value[i];
        if (a != b && !(isnan(a) && isnan(b))) {
            complain("%s does not read back as the value in use: please report this",
                     tailor_table_text(tailor_field_table(), i, TAILOR_COLUMN_NAME));
            return false;
        }
    }
    return true;
}

/* "larkfield.ini" -> "larkfield-fitting-1.ini" -> "larkfield-fitting-2.ini" */
static bool name_beside(fit_run *r)
{
    static const char word[] = "-fitting-";
    const char *card_path = r->s->operand, *slash = strrchr(card_path, '/'), *name = slash ? slash + 1 : card_path;
    const char *ending = strrchr(name, '.');
    if (!ending || ending == name)
        ending = name + strlen(name);
    const char *stem_end = ending;
    while (stem_end > name && stem_end[-1] >= '0' && stem_end[-1] <= '9')
        stem_end--;
    size_t before = sizeof word - 1;
    bool numbered = stem_end < ending && (size_t)(stem_end - name) > before &&
                    strncmp(stem_end - before, word, before) == 0;
    size_t stem = (size_t)((numbered ? stem_end - before : ending) - card_path);
    int wrote = r->s->output ? snprintf(r->path, sizeof r->path, "%s", r->s->output)
                             : snprintf(r->path, sizeof r->path, "%.*s%s%d%s", (int)stem, card_path, word,
                                        r->before.fittings.count + 1, ending);
    if (wrote > 0 && (size_t)wrote < sizeof r->path)
        return true;
    complain("the path of the card is too long");
    return false;
}

/* A card is a record: none is ever written over. */
static bool is_free(const char *path)
{
    struct stat found;
    if (lstat(path, &found) != 0)
        return true;
    complain_at(path, 0, "is there already, and no card is written over: name another with -o");
    return false;
}

static bool write_card(fit_run *r)
{
    output_set set = {.count = 0};
    output *file = output_open(&set, r->path);
    bool good = file && output_write(file, r->written.bytes, r->written.length) == 0;
    good = file && output_close(file) && good && is_free(r->path) && output_commit(&set);
    output_discard(&set);
    return good;
}

static void print_done(const fit_run *r)
{
    const card_fittings *all = &r->before.fittings;
    printf("fitting %d, %s\n", all->count, r->notes.date);
    for (size_t i = 0; i < all->change_count; i++) {
        const card_change *change = &all->changes[i];
        char delta[VALUE_TEXT], value[VALUE_TEXT];
        if (change->fitting != all->count - 1)
            continue;
        change_write(change->field, change->delta, delta);
        value_write(tailor_field_table(), change->field, r->after.client.value[change->field], TAILOR_PRINT_MM, value);
        printf("  %-27s %12s  to %s %s\n", tailor_table_text(tailor_field_table(), change->field, TAILOR_COLUMN_NAME),
               delta, value, value_unit(tailor_field_table(), change->field, TAILOR_PRINT_MM));
    }
    cautions_print_one(r->coat.coat, false, "");
    printf("wrote %s\n", r->path);
    printf("`tailorgeom diff %s %s` shows what it does to the coat\n", r->before.source, r->path);
}

/* The coat as it was tried on must be one. */
static bool stands_before(fit_run *r)
{
    bool good = draft_order(&r->before, &r->coat);
    if (!good)
        complain_refused(&r->before, &r->coat);
    drafted_free(&r->coat);
    return good;
}

static bool fit(fit_run *r)
{
    const settings *s = r->s;
    r->text = text_read(s->operand, &r->length);
    if (!r->text || !card_read_text(&r->before, text_source(s->operand), r->text, r->length, s->house))
        return false;
    card_caution(&r->before);
    if (!name_beside(r) || !is_free(r->path) || !stands_before(r) || !notes_read(&r->notes, &r->before, s->second) ||
        !take_date(r) || !note_fitting(r))
        return false;
    const fit_trial trial = {&r->before, &r->notes, r->before.fittings.count - 1};
    return fit_try(&trial, &r->after, &r->coat) && write_text(r) && reads_back(r) && write_card(r);
}

int run_fit(const settings *s)
{
    const bool piped = strcmp(s->operand, "-") == 0;
    if (piped && (strcmp(s->second, "-") == 0 || !s->output)) {
        complain(s->output ? "the card and the notes cannot both be standard input"
                           : "a card from standard input has no name: give the new one with -o");
        return EXIT_USAGE;
    }
    if (s->date && !fitting_is_date(s->date)) {
        complain("--date takes a day as 2026-11-25, not %s", s->date);
        return EXIT_USAGE;
    }
    if (s->house && (strcmp(s->house, s->operand) == 0 || strcmp(s->house, s->second) == 0)) {
        complain("the house's file is the card or the notes: %s", s->house);
        return EXIT_USAGE;
    }
    fit_run *r = calloc(1, sizeof *r);
    if (!r) {
        complain("out of memory");
        return EXIT_REFUSED;
    }
    r->s = s;
    bool good = fit(r);
    if (good)
        print_done(r);
    drafted_free(&r->coat);
    buffer_free(&r->written);
    free(r->text);
    free(r);
    return good ? EXIT_DONE : EXIT_REFUSED;
}
