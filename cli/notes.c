#include "notes.h"

#include "complain.h"
#include "fittings.h"
#include "phrases.h"
#include "text_in.h"
#include "values.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char *name_of(int field)
{
    return tailor_table_text(tailor_field_table(), field, TAILOR_COLUMN_NAME);
}

/* ---- a phrase: its words, its side, its amount ------------------------------------------------------- */

typedef struct told {
    char words[CARD_LINE_BYTES_MOST + 1], amount[CARD_LINE_BYTES_MOST + 1];
    bool left, right, each; /* each: "each", "both" */
    bool amount_ended, two_amounts;
} told;

static bool is_one_of(const char *word, const char *const *list, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (strcmp(word, list[i]) == 0)
            return true;
    return false;
}
#define IS_ONE_OF(word, list) is_one_of(word, list, sizeof(list) / sizeof(list)[0])

static void append(char *text, const char *word)
{
    if (text[0])
        strcat(text, " "); /* never longer than the line they come from */
    strcat(text, word);
}

static void take_word(told *t, const char *word)
{
    static const char *const units[] = {"mm", "cm", "in", "\"", "\u2033", "\u201D", "\u201C"};
    static const char *const silent[] = {"the", "by", "a", "an", "of", "at", "and", "on"};
    static const char *const each[] = {"each", "both"};
    bool number = strchr("+-.0123456789", word[0]) != NULL;
    bool amount = number || (t->amount[0] && !t->amount_ended && IS_ONE_OF(word, units));
    if (amount) {
        t->two_amounts |= t->amount_ended;
        append(t->amount, word);
        return;
    }
    t->amount_ended |= t->amount[0] != '\0';
    if (strcmp(word, "left") == 0)
        t->left = true;
    else if (strcmp(word, "right") == 0)
        t->right = true;
    else if (IS_ONE_OF(word, each))
        t->each = true;
    else if (!IS_ONE_OF(word, silent))
        append(t->words, word);
}

/* Words in small letters; a comma or full stop at the end of one does not count. */
static void take_words(told *t, const char *line)
{
    for (const char *at = line; *at;) {
        char word[CARD_LINE_BYTES_MOST + 1];
        size_t length = strcspn(at, " \t"), kept = length;
        while (kept > 0 && strchr(",.;:", at[kept - 1]))
            kept--;
        for (size_t i = 0; i < kept; i++)
            word[i] = at[i] >= 'A' && at[i] <= 'Z' ? (char)(at[i] - 'A' + 'a') : at[i];
        word[kept] = '\0';
        if (kept > 0)
            take_word(t, word);
        at += length;
        at += strspn(at, " \t");
    }
}

static bool is_given(const card *c, int field)
{
    return !isnan(c->client.value[field]) || !isnan(c->house.value[field]) || !isnan(c->assumed.value[field]);
}

/* The field that a row of the phrases changes on this card and side, 0 when there is none; said. */
static int field_of(const card *c, const phrase_row *row, const told *t, card_place at)
{
    const bool one_side = t->left != t->right, sided = field_of_side(row->field, true) != 0;
    if (!sided && (t->left || t->right || t->each)) {
        complain_at(at.source, at.line, "%s changes %s, which has no sides: leave out left, right, each and both",
                    row->phrase, name_of(row->field));
        return 0;
    }
    if (one_side && t->each) {
        complain_at(at.source, at.line, "each or both, or one side, but not both of them");
        return 0;
    }
    if (one_side)
        return field_of_side(row->field, t->left);
    return row->instead && is_given(c, row->instead) ? row->instead : row->field;
}

static bool unknown_phrase(const told *t, card_place at)
{
    const char *near = phrase_nearest(t->words);
    complain_at(at.source, at.line, "unknown note%s%s%s; `tailorgeom list notes` shows what can be written, or "
                "write a field: break_rise = -2 mm", near ? ", perhaps \"" : "", near ? near : "", near ? "\"" : "");
    return false;
}

static bool read_amount(const told *t, int field, card_place at, double *amount)
{
    tailor_fault fault;
    if (!t->amount[0]) {
        complain_at(at.source, at.line, "the note tells no amount: write it in mm, or with its unit");
        return false;
    }
    if (tailor_value_read(tailor_field_table(), field, t->amount, amount, &fault) != TAILOR_OK) {
        complain_at(at.source, at.line, "%s (typed: %s)", fault.sentence, t->amount);
        return false;
    }
    if (*amount <= 0) {
        complain_at(at.source, at.line, "an amount is more than nothing and has no sign: the words say which way "
                    "(typed: %s)", t->amount);
        return false;
    }
    return true;
}

static bool take_phrase(const card *c, note *n)
{
    told t = {.left = false};
    double amount = 0;
    take_words(&t, n->text);
    if (t.two_amounts) {
        complain_at(n->place.source, n->place.line, "the note tells two amounts: write a line for each");
        return false;
    }
    size_t row = phrase_find(t.words), first = row;
    if (row == phrase_count)
        return unknown_phrase(&t, n->place);
    for (; phrase_same(first, row) && n->change_count < NOTE_CHANGES_MOST; row++) {
        int field = field_of(c, &phrase_table[row], &t, n->place);
        if (!field || !read_amount(&t, field, n->place, &amount))
            return false;
        n->changes[n->change_count].field = field;
        n->changes[n->change_count++].delta = amount * phrase_table[row].factor;
    }
    return true;
}

/* ---- field = +6 mm ----------------------------------------------------------------------------------- */

/* Copy a part of a line without the blanks around it. */
static void trim(const char *from, size_t length, char *to)
{
    while (length > 0 && strchr(" \t", from[0])) {
        from++;
        length--;
    }
    while (length > 0 && strchr(" \t\r", from[length - 1]))
        length--;
    memcpy(to, from, length);
    to[length] = '\0';
}

static bool take_date(notes *n, card_place at, const char *typed)
{
    if (n->date[0] || !fitting_is_date(typed)) {
        complain_at(at.source, at.line, "date is the day of the fitting, as 2026-11-25, and stands once");
        return false;
    }
    snprintf(n->date, sizeof n->date, "%.10s", typed);
    return true;
}

static bool take_field(note *n, const char *key, const char *typed)
{
    n->changes[0].field = fitting_find_field(n->place, key);
    n->change_count = 1;
    return n->changes[0].field && fitting_read_delta(n->place, n->changes[0].field, typed, false, &n->changes[0].delta);
}

/* ---- notes against each other ------------------------------------------------------------------------ */

/* How a change of one field meets a change of another: not at all, as the same field, or as both sides and one. */
enum { APART, SAME, BOTH_AND_ONE };
static int meeting(int a, int b)
{
    if (a == b)
        return SAME;
    return field_of_both_sides(a) == b || field_of_both_sides(b) == a ? BOTH_AND_ONE : APART;
}

static bool agree(const note *n, int i, const note *before, int k)
{
    const int field = n->changes[i].field, how = meeting(field, before->changes[k].field);
    const char *name = name_of(field);
    if (how == APART)
        return true;
    if (how == BOTH_AND_ONE)
        complain_at(n->place.source, n->place.line, "this note and line %d, \"%s\", change %s on one side and on both: "
                    "write a note for the left and one for the right", before->place.line, before->text, name);
    else if (n->changes[i].delta * before->changes[k].delta < 0)
        complain_at(n->place.source, n->place.line, "this note contradicts line %d, \"%s\": they change %s in opposite "
                    "ways; write what is meant in the end", before->place.line, before->text, name);
    else
        complain_at(n->place.source, n->place.line, "line %d, \"%s\", changes %s already: write one note of both",
                    before->place.line, before->text, name);
    return false;
}

static bool agrees_with_all(const notes *all, const note *n)
{
    for (size_t other = 0; other < all->count; other++)
        for (int i = 0; i < n->change_count; i++)
            for (int k = 0; k < all->list[other].change_count; k++)
                if (!agree(n, i, &all->list[other], k))
                    return false;
    return true;
}

/* ---- the file ---------------------------------------------------------------------------------------- */

static bool take_line(notes *all, const card *c, int line, const char *from, size_t length)
{
    card_place at = {all->source, line};
    char key[CARD_LINE_BYTES_MOST + 1], typed[CARD_LINE_BYTES_MOST + 1];
    while (length > 0 && from[length - 1] == '\r')
        length--;
    /* two bytes more stand before a note on the card */
    if (!ini_guard_line(at.source, line, from, length, "a file of notes"))
        return false;
    if (length + 2 > CARD_LINE_BYTES_MOST) {
        complain_at(at.source, line, "a note has %d bytes at most", CARD_LINE_BYTES_MOST - 2);
        return false;
    }
    note n = {.place = at};
    trim(from, length, n.text);
    if (!n.text[0] || n.text[0] == '#' || n.text[0] == ';')
        return true;
    const char *sign = strchr(n.text, '=');
    trim(n.text, sign ? (size_t)(sign - n.text) : 0, key);
    trim(sign ? sign + 1 : "", sign ? strlen(sign + 1) : 0, typed);
    if (sign && strcmp(key, "date") == 0)
        return take_date(all, at, typed);
    if (!(sign ? take_field(&n, key, typed) : take_phrase(c, &n)) || !agrees_with_all(all, &n))
        return false;
    if (all->count == NOTES_MOST) {
        complain_at(at.source, line, "a fitting has %d notes at most", NOTES_MOST);
        return false;
    }
    all->list[all->count++] = n;
    return true;
}

bool notes_read(notes *n, const card *c, const char *path)
{
    size_t length = 0;
    int line = 0;
    memset(n, 0, sizeof *n);
    n->source = text_source(path);
    char *text = text_read(path, &length), *at = text, *end = text ? text + length : NULL;
    bool good = text != NULL;
    if (length >= 3 && memcmp(text, "\xEF\xBB\xBF", 3) == 0) /* byte-order mark */
        at += 3;
    while (good && at < end) {
        char *stop = memchr(at, '\n', (size_t)(end - at));
        if (!stop)
            stop = end;
        good = take_line(n, c, ++line, at, (size_t)(stop - at));
        at = stop < end ? stop + 1 : end;
    }
    free(text);
    if (good && n->count == 0)
        complain_at(n->source, 0, "holds no note: nothing to alter");
    return good && n->count > 0;
}
