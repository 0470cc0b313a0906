#include "book_names.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* The book's own files, and those beside them while it is written. */
static const char *const reserved[] = {"summary.csv", "summary.csv.part", "summary.csv.state", "summary.csv.state.part",
                                       "manifest.sha256", "manifest.sha256.part", "book.json"};
enum { RESERVED = sizeof reserved / sizeof reserved[0] };

/* ---- one name */

/* Bytes of the character there, 0 when it is none. */
static size_t utf8_bytes(const unsigned char *p)
{
    const size_t more = *p < 0x80 ? 0 : *p < 0xE0 ? 1 : *p < 0xF0 ? 2 : 3;
    if ((*p >= 0x80 && *p < 0xC2) || *p >= 0xF5 ||
        (*p == 0xE0 && p[1] < 0xA0) || (*p == 0xED && p[1] >= 0xA0) || (*p == 0xF0 && p[1] < 0x90) ||
        (*p == 0xF4 && p[1] >= 0x90))
        return 0;
    for (size_t i = 1; i <= more; i++)
        if ((p[i] & 0xC0) != 0x80)
            return 0;
    return more + 1;
}

/* In place; never longer. */
static void make_folder_name(char *name)
{
    char *to = name;
    for (const unsigned char *p = (const unsigned char *)name; *p;) {
        size_t bytes = utf8_bytes(p);
        bool c1 = bytes == 2 && p[0] == 0xC2 && p[1] < 0xA0;
        if (bytes == 0 || c1 || *p < ' ' || *p == 0x7F || strchr("/\\:*?\"<>|", *p)) {
            *to++ = '-';
            p += bytes ? bytes : 1;
            continue;
        }
        memmove(to, p, bytes);
        to += bytes;
        p += bytes;
    }
    *to = '\0';
    if (*name == '.')
        *name = '-';
    if (to > name && to[-1] == '.')
        to[-1] = '-';
}

/* The small letter of a capital, of the alphabets where that is a step: Latin, Greek, Cyrillic. */
static unsigned small_letter(unsigned c)
{
    if ((c >= 'A' && c <= 'Z') || (c >= 0xC0 && c <= 0xDE && c != 0xD7) || (c >= 0x391 && c <= 0x3A9) ||
        (c >= 0x410 && c <= 0x42F))
        return c + 32;
    if (c >= 0x400 && c <= 0x40F)
        return c + 80;
    if ((c >= 0x100 && c <= 0x137) || (c >= 0x14A && c <= 0x177) || (c >= 0x460 && c <= 0x4FF))
        return c | 1;
    return (c >= 0x139 && c <= 0x148) || (c >= 0x179 && c <= 0x17E) ? c + (c & 1) : c;
}

/* The next character of a folder's name as it is compared; 0 at the end. Only those of two bytes have small letters. */
static unsigned next_compared(const char **name)
{
    const unsigned char *p = (const unsigned char *)*name;
    unsigned c = *p;
    if (!c)
        return 0;
    *name += 1;
    if (c >= 0xC2 && c < 0xE0) {
        c = (c & 0x1F) << 6 | (p[1] & 0x3F);
        *name += 1;
    } else if (c >= 0x80) {
        return c; /* a byte of a longer one */
    }
    return small_letter(c);
}

static bool same_folder(const char *a, const char *b)
{
    unsigned of_a, of_b;
    do {
        of_a = next_compared(&a);
        of_b = next_compared(&b);
    } while (of_a == of_b && of_a);
    return of_a == of_b;
}

/* FNV-1a, a character a step. */
static uint64_t hash_of(const char *name)
{
    uint64_t hash = 14695981039346656037u;
    for (unsigned c; (c = next_compared(&name)) != 0;)
        hash = (hash ^ c) * 1099511628211u;
    return hash;
}

static bool is_reserved(const char *name)
{
    for (size_t i = 0; i < RESERVED; i++)
        if (same_folder(name, reserved[i]))
            return true;
    return false;
}

/* ---- all of them */

const char *book_folder_name(const book_names *n, size_t order) { return n->text.bytes + n->orders[order].folder; }

/* Where the name's order is, or where it may go. */
static uint32_t *find_slot(const book_names *n, const char *name)
{
    size_t at = (size_t)hash_of(name) & (n->slot_count - 1);
    while (n->slots[at] && !same_folder(name, book_folder_name(n, n->slots[at] - 1)))
        at = (at + 1) & (n->slot_count - 1);
    return &n->slots[at];
}

static bool make_room(book_names *n)
{
    if (n->count < n->room)
        return true;
    size_t room = n->room ? 2 * n->room : 1024;
    book_order *orders = room < UINT32_MAX ? realloc(n->orders, room * sizeof *orders) : NULL;
    uint32_t *before = n->slots, *slots = calloc(2 * room, sizeof *slots);
    if (orders)
        n->orders = orders;
    if (!orders || !slots) {
        free(slots);
        return false;
    }
    n->room = room;
    n->slots = slots;
    n->slot_count = 2 * room;
    free(before);
    for (size_t i = 0; i < n->count; i++)
        if (*book_folder_name(n, i)) {
            uint32_t *slot = find_slot(n, book_folder_name(n, i));
            *slot = *slot ? *slot : (uint32_t)i + 1;
        }
    return true;
}

void book_names_add(book_names *n, int line, csv_cell number)
{
    char *name = n->failed || !make_room(n) ? NULL : buffer_room(&n->text, number.length + 1);
    if (!name) {
        n->failed = true;
        return;
    }
    csv_say(number, name);
    make_folder_name(name);
    book_order *order = &n->orders[n->count++];
    *order = (book_order){.line = line, .folder = n->text.length};
    n->text.length += strlen(name) + 1;
    if (!*name)
        return;
    uint32_t *slot = find_slot(n, name);
    if (!*slot) {
        *slot = (uint32_t)n->count;
        return;
    }
    book_order *first = &n->orders[*slot - 1];
    order->other = first->line;
    if (!first->other)
        first->other = line;
}

void book_names_free(book_names *n)
{
    free(n->orders);
    free(n->slots);
    buffer_free(&n->text);
    *n = (book_names){0};
}

void book_name_trouble(const book_names *n, size_t index, char *text, size_t capacity)
{
    const book_order *order = &n->orders[index];
    const char *name = book_folder_name(n, index);
    text[0] = '\0';
    if (!*name)
        snprintf(text, capacity, "the order has no number");
    else if (strlen(name) > FOLDER_BYTES_MOST)
        snprintf(text, capacity, "the order's number has more than %d bytes and cannot name a folder",
                 FOLDER_BYTES_MOST);
    else if (is_reserved(name))
        snprintf(text, capacity, "the order's number is the name of one of the book's own files");
    else if (order->other)
        snprintf(text, capacity, "the order on line %d makes the same folder, so neither is drafted", order->other);
}
