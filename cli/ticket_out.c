/* ticket_out: a ticket as text that fits a narrow terminal, and as JSON. */
#include "json_out.h"
#include "ticket.h"
#include "values.h"

#include <math.h>
#include <stdio.h>
#include <string.h>
#include <tailorgeom/sheet.h>

enum { TEXT_WIDTH = 80, LABEL_WIDTH = 30, INDENT = 2 };

static const char *text_of(const ticket *t, const ticket_line *line) { return t->texts.bytes + line->text; }

/* Characters, not bytes: what follows the first byte of one in UTF-8 begins with the bits 10. */
static int width_of(const char *text, size_t bytes)
{
    int width = 0;
    for (size_t i = 0; i < bytes; i++)
        width += ((unsigned char)text[i] & 0xC0) != 0x80;
    return width;
}

/* A text with common blanks only, into a buffer of its own; NULL when memory is out. */
static const char *plain(buffer *b, const char *text)
{
    static const char blank[] = TICKET_BLANK;
    b->length = 0;
    for (const char *next; (next = strstr(text, blank)) != NULL; text = next + sizeof blank - 1) {
        buffer_add(b, text, (size_t)(next - text));
        buffer_add(b, " ", 1);
    }
    buffer_add(b, text, strlen(text) + 1);
    return b->failed ? NULL : b->bytes;
}

static json_t *plain_string(const char *text)
{
    buffer b = {0};
    const char *same = plain(&b, text);
    json_t *string = same ? json_string(same) : NULL;
    buffer_free(&b);
    return string;
}

static void print_word(const char *word, size_t bytes)
{
    static const char blank[] = TICKET_BLANK;
    for (size_t i = 0; i < bytes; i++)
        if (strncmp(word + i, blank, sizeof blank - 1) == 0) {
            putchar(' ');
            i += sizeof blank - 2;
        } else
            putchar(word[i]);
}

/* Words one after another, in lines that go on below their beginning; a word that is too long stands alone. */
static void print_words(const char *text, int indent)
{
    int at = indent;
    for (const char *word = text + strspn(text, " "); *word;) {
        size_t bytes = strcspn(word, " ");
        int width = width_of(word, bytes);
        if (at > indent && at + 1 + width > TEXT_WIDTH) {
            printf("\n%*s", indent, "");
            at = indent;
        } else if (at > indent) {
            putchar(' ');
            at++;
        }
        print_word(word, bytes);
        at += width;
        word += bytes;
        word += strspn(word, " ");
    }
    putchar('\n');
}

static void print_label(const char *label, int indent)
{
    int rest = LABEL_WIDTH - indent - width_of(label, strlen(label));
    printf("%*s%s%*s ", indent, "", label, rest > 0 ? rest : 0, "");
}

static void print_line(const ticket *t, const ticket_line *line, int indent)
{
    switch (line->kind) {
    case TAILOR_LINE_HEADING: printf("\n%s\n", line->label); break;
    case TAILOR_LINE_TEXT:
        printf("%*s", indent, "");
        print_words(text_of(t, line), indent);
        break;
    case TAILOR_LINE_CAUTION:
        printf("! ");
        print_words(text_of(t, line), 2);
        break;
    default:
        print_label(line->label, line->kind == TAILOR_LINE_GROUP ? INDENT / 2 : INDENT);
        print_words(text_of(t, line), LABEL_WIDTH + 1);
    }
}

void ticket_print(const ticket *t, const char *title)
{
    if (title)
        print_words(title, 0);
    int indent = 0;
    for (size_t i = 0; i < t->count; i++) {
        print_line(t, &t->lines[i], indent);
        if (t->lines[i].kind == TAILOR_LINE_HEADING)
            indent = INDENT;
    }
}

/* {"quantities": {"finished_chest": 1126.0}}: what a line was written from. */
static bool put_values(const ticket *t, const ticket_line *line, json_t *object)
{
    bool good = true;
    for (int table = 0; good && table < TICKET_TABLES; table++) {
        json_t *row = json_object();
        for (size_t i = line->first_value; good && i < line->first_value + line->value_count; i++) {
            ticket_value at = t->values[i];
            double value = ticket_value_at(t, at);
            if (at.table == table)
                good = json_put(row, tailor_table_text(ticket_table(table), at.number, TAILOR_COLUMN_NAME),
                                table == TICKET_FIELDS ? json_field_value(at.number, value) : json_number(value));
        }
        row = json_whole(row, good && row);
        if (row && !json_object_size(row))
            json_decref(row);
        else
            good = json_put(object, ticket_table_name(table), row);
    }
    return good;
}

static json_t *line_object(const ticket *t, const ticket_line *line)
{
    json_t *object = json_object();
    bool good = object != NULL;
    if (line->label[0])
        good = json_put(object, "label", json_string(line->label));
    good = good && json_put(object, "text", plain_string(text_of(t, line))) && put_values(t, line, object);
    return json_whole(object, good);
}

/* Texts before the first heading. */
static json_t *notes(const ticket *t)
{
    json_t *array = json_array();
    bool good = array != NULL;
    for (size_t i = 0; good && i < t->count && t->lines[i].kind != TAILOR_LINE_HEADING; i++)
        if (t->lines[i].kind == TAILOR_LINE_TEXT)
            good = json_add(array, plain_string(text_of(t, &t->lines[i])));
    return json_whole(array, good);
}

/* The coat's, then what only the ticket knows. */
static json_t *cautions(const ticket *t)
{
    int coats = 0;
    for (int i = 0, weight; (weight = tailor_coat_caution(t->d->coat, i, NULL)) != 0; i++)
        coats += weight == TAILOR_CAUTION_CLASS_CAUTION;
    json_t *array = json_cautions(t->d);
    bool good = array != NULL;
    for (size_t i = 0; good && i < t->count && t->lines[i].kind != TAILOR_LINE_HEADING; i++) {
        if (t->lines[i].kind != TAILOR_LINE_CAUTION || coats-- > 0)
            continue;
        buffer text = {0};
        const char *same = plain(&text, text_of(t, &t->lines[i]));
        good = same && json_add(array, json_caution(NULL, TAILOR_CAUTION_CLASS_CAUTION, NAN, same));
        buffer_free(&text);
    }
    return json_whole(array, good);
}

/* From one heading to the next; `i` moves on. */
static json_t *section(const ticket *t, size_t *i)
{
    json_t *object = json_object(), *lines = json_array();
    bool good = object && lines && json_put(object, "heading", json_string(t->lines[*i].label));
    for (++*i; good && *i < t->count && t->lines[*i].kind != TAILOR_LINE_HEADING; ++*i)
        good = json_add(lines, line_object(t, &t->lines[*i]));
    good = json_put(object, "lines", json_whole(lines, good && lines)) && good;
    return json_whole(object, good);
}

static json_t *sections(const ticket *t)
{
    json_t *array = json_array();
    bool good = array != NULL;
    size_t i = 0;
    while (i < t->count && t->lines[i].kind != TAILOR_LINE_HEADING)
        i++;
    while (good && i < t->count)
        good = json_add(array, section(t, &i));
    return json_whole(array, good);
}

static json_t *pieces(const tailor_pattern *p)
{
    static const char *const sides[] = {"both", "right", "left"};
    json_t *array = json_array();
    bool good = array != NULL;
    for (int i = 0; good && i < tailor_pattern_piece_count(p); i++) {
        json_t *piece = json_object();
        int side = tailor_piece_side(p, i), mirrored = tailor_piece_mirrored(p, i);
        good = json_put(piece, "name", json_string(tailor_piece_name(p, i))) &&
               json_put(piece, "cloth", json_string(tailor_piece_cloth(p, i))) &&
               json_put(piece, "cut", json_integer(tailor_piece_copies(p, i))) &&
               json_put(piece, "mirrored", json_boolean(mirrored)) &&
               json_put(piece, "side", json_string(sides[mirrored || side < 0 || side > 2 ? 0 : side]));
        good = json_add(array, json_whole(piece, good));
    }
    return json_whole(array, good);
}

static json_t *name_or_null(const char *const *names, int count, int index)
{
    return index > 0 && index < count ? json_string(names[index]) : json_null();
}

static json_t *holes(const ticket *t)
{
    static const char *const faces[] = {"", "out", "in", "both"}, *const shows[] = {"", "good", "reverse"};
    ticket_hole list[TICKET_HOLES_MOST];
    size_t count = ticket_holes(t, list);
    json_t *array = json_array();
    bool good = array != NULL;
    for (size_t i = 0; good && i < count; i++) {
        json_t *hole = json_object();
        good = json_put(hole, "number", json_integer(list[i].number)) &&
               json_put(hole, "face", name_or_null(faces, 4, list[i].face)) &&
               json_put(hole, "face_given", json_boolean(list[i].given)) &&
               json_put(hole, "length", json_number(list[i].length)) &&
               json_put(hole, "from_edge", json_number(list[i].to_edge)) &&
               json_put(hole, "shows", name_or_null(shows, 3, list[i].shows)) &&
               json_put(hole, "shows_rolled", name_or_null(shows, 3, list[i].shows_rolled));
        good = json_add(array, json_whole(hole, good));
    }
    return json_whole(array, good);
}

json_t *ticket_json(const ticket *t, const char *title)
{
    json_t *document = json_document("ticket");
    bool good = document && json_put(document, "version", json_string(tailor_version())) &&
                json_put(document, "title", title ? json_string(title) : json_null()) &&
                json_put(document, "toile_only", json_toile(t->d)) &&
                json_put(document, "notes", notes(t)) &&
                json_put(document, "cautions", cautions(t)) &&
                json_put(document, "sections", sections(t)) && json_put(document, "holes", holes(t)) &&
                json_put(document, "pieces", pieces(t->d->pattern));
    return json_whole(document, good);
}
