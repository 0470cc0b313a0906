#include "drawing.h"

#include "lettering.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static void *plain_allocate(void *user, size_t bytes)
{
    (void)user;
    return malloc(bytes);
}

static void plain_release(void *user, void *memory)
{
    (void)user;
    free(memory);
}

void tailor_in_drawing_end(struct tailor_in_drawing *d)
{
    struct tailor_in_store *stores[] = {&d->items, &d->cubics, &d->text};
    for (int i = 0; i < 3; i++) {
        if (stores[i]->data)
            d->allocator.release(d->allocator.user, stores[i]->data);
        *stores[i] = (struct tailor_in_store){NULL, 0, 0};
    }
}

/** Room for `count` more of `size` bytes each, doubled when short: where they begin, NULL when memory is out. */
static void *take(struct tailor_in_drawing *d, struct tailor_in_store *store, size_t count, size_t size)
{
    if (d->failed)
        return NULL;
    if (store->room - store->count < count) {
        size_t room = 2 * store->room + count + 256;
        void *data = d->allocator.allocate(d->allocator.user, room * size);
        if (!data) {
            d->failed = 1;
            return NULL;
        }
        if (store->data) {
            memcpy(data, store->data, store->count * size);
            d->allocator.release(d->allocator.user, store->data);
        }
        store->data = data;
        store->room = room;
    }
    void *begin = (char *)store->data + store->count * size;
    store->count += count;
    return begin;
}

static void add_item(struct tailor_in_drawing *d, struct tailor_in_item item)
{
    struct tailor_in_item *place = take(d, &d->items, 1, sizeof item);
    if (place)
        *place = item;
}

size_t tailor_in_drawing_keep_text(struct tailor_in_drawing *d, const char *text)
{
    size_t first = d->text.count, bytes = tailor_in_text_clean(text, NULL);
    char *place = take(d, &d->text, bytes + 1, 1);
    if (place)
        tailor_in_text_clean(text, place);
    return first;
}

tailor_allocator tailor_in_sheet_allocator(const tailor_allocator *allocator)
{
    return allocator ? *allocator : (tailor_allocator){plain_allocate, plain_release, NULL};
}

void tailor_in_drawing_begin(struct tailor_in_drawing *d, const struct tailor_in_title *title,
                             const tailor_allocator *allocator)
{
    memset(d, 0, sizeof *d);
    d->allocator = tailor_in_sheet_allocator(allocator);
    d->line_scale = 1;
    tailor_in_drawing_entitle(d, title ? title : &(const struct tailor_in_title){"", "", "", ""});
    tailor_in_drawing_place_page(d);
}

void tailor_in_drawing_place(struct tailor_in_drawing *d, double left, double top, double scale, double x_sense)
{
    const double place[6] = {x_sense * scale, 0, 0, -scale, left, top};
    memcpy(d->place, place, sizeof place);
}

void tailor_in_drawing_place_turned(struct tailor_in_drawing *d, double left, double top, double angle)
{
    const double c = cos(angle * acos(-1) / 180), s = sin(angle * acos(-1) / 180);
    const double place[6] = {c, -s, -s, -c, left, top};
    memcpy(d->place, place, sizeof place);
}

void tailor_in_drawing_place_page(struct tailor_in_drawing *d)
{
    const double place[6] = {1, 0, 0, 1, 0, 0};
    memcpy(d->place, place, sizeof place);
}

tailor_point tailor_in_drawing_on_page(const struct tailor_in_drawing *d, tailor_point p)
{
    const double *m = d->place;
    return (tailor_point){m[0] * p.x + m[2] * p.y + m[4], m[1] * p.x + m[3] * p.y + m[5]};
}

void tailor_in_drawing_group(struct tailor_in_drawing *d, const char *id, const char *title)
{
    struct tailor_in_item item = {.kind = TAILOR_IN_GROUP};
    item.first = tailor_in_drawing_keep_text(d, title);
    item.count = tailor_in_drawing_keep_text(d, id);
    add_item(d, item);
}

void tailor_in_drawing_group_end(struct tailor_in_drawing *d)
{
    add_item(d, (struct tailor_in_item){.kind = TAILOR_IN_GROUP_END});
}

void tailor_in_drawing_path(struct tailor_in_drawing *d, int style, const tailor_cubic *path, size_t count, int closed)
{
    struct tailor_in_item item = {.kind = TAILOR_IN_PATH, .style = style, .closed = closed};
    item.first = d->cubics.count;
    item.count = count;
    tailor_cubic *place = count ? take(d, &d->cubics, count, sizeof *path) : NULL;
    if (!place)
        return;
    for (size_t i = 0; i < count; i++)
        for (int k = 0; k < 4; k++)
            place[i].p[k] = tailor_in_drawing_on_page(d, path[i].p[k]);
    add_item(d, item);
}

void tailor_in_drawing_line(struct tailor_in_drawing *d, int style, tailor_point a, tailor_point b)
{
    tailor_cubic line = tailor_cubic_line(a, b);
    tailor_in_drawing_path(d, style, &line, 1, 0);
}

void tailor_in_drawing_box(struct tailor_in_drawing *d, int style, tailor_point low, tailor_point high)
{
    const tailor_point a = {high.x, low.y}, b = {low.x, high.y};
    const tailor_cubic sides[] = {tailor_cubic_line(low, a), tailor_cubic_line(a, high), tailor_cubic_line(high, b),
                                  tailor_cubic_line(b, low)};
    tailor_in_drawing_path(d, style, sides, 4, 1);
}

void tailor_in_drawing_circle(struct tailor_in_drawing *d, int style, tailor_point centre, double radius)
{
    tailor_cubic quarter[4];
    for (int i = 0; i < 4; i++)
        quarter[i] = tailor_cubic_arc(centre, radius, 90 * i, 90 * (i + 1));
    tailor_in_drawing_path(d, style, quarter, 4, 1);
}

void tailor_in_drawing_arrow_head(struct tailor_in_drawing *d, tailor_point from, tailor_point tip, double length)
{
    double x = tip.x - from.x, y = tip.y - from.y, size = hypot(x, y);
    if (!(size > 0))
        return;
    x *= length / size;
    y *= length / size;
    const tailor_point left = {tip.x - x - y / 4, tip.y - y + x / 4}, right = {tip.x - x + y / 4, tip.y - y - x / 4};
    const tailor_cubic sides[] = {tailor_cubic_line(tip, left), tailor_cubic_line(left, right),
                                  tailor_cubic_line(right, tip)};
    tailor_in_drawing_path(d, TAILOR_IN_INK, sides, 3, 1);
}

void tailor_in_drawing_text_on_page(struct tailor_in_drawing *d, tailor_point at, struct tailor_in_lettering how,
                                    const char *text)
{
    struct tailor_in_item item = {.kind = TAILOR_IN_TEXT, .lettering = how, .at = at};
    item.first = tailor_in_drawing_keep_text(d, text);
    add_item(d, item);
}

void tailor_in_drawing_text(struct tailor_in_drawing *d, tailor_point at, struct tailor_in_lettering how,
                            const char *text)
{
    tailor_in_drawing_text_on_page(d, tailor_in_drawing_on_page(d, at), how, text);
}

struct tailor_in_moment tailor_in_drawing_now(const struct tailor_in_drawing *d)
{
    return (struct tailor_in_moment){d->items.count, d->cubics.count};
}

void tailor_in_drawing_move(struct tailor_in_drawing *d, struct tailor_in_moment from, struct tailor_in_moment to,
                            double across, double down)
{
    struct tailor_in_item *items = d->items.data;
    tailor_cubic *cubics = d->cubics.data;
    for (size_t i = from.items; i < to.items; i++) {
        items[i].at.x += across;
        items[i].at.y += down;
    }
    for (size_t i = from.cubics; i < to.cubics; i++)
        for (int k = 0; k < 4; k++) {
            cubics[i].p[k].x += across;
            cubics[i].p[k].y += down;
        }
}

const struct tailor_in_item *tailor_in_drawing_items(const struct tailor_in_drawing *d, size_t *count)
{
    *count = d->items.count;
    return d->items.data;
}

const tailor_cubic *tailor_in_drawing_cubics(const struct tailor_in_drawing *d, const struct tailor_in_item *item)
{
    return (const tailor_cubic *)d->cubics.data + item->first;
}

const char *tailor_in_drawing_string(const struct tailor_in_drawing *d, size_t first)
{
    return (const char *)d->text.data + first;
}
