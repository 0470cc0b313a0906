#include "shelves.h"

#include <math.h>
#include <string.h>

static const double gap = 45, longest_shelf = 2400; /* mm */

/* ---- packing: columns on shelves, all columns of a shelf as high as its highest crate at most */

static int tallest(const struct tailor_in_crate *crates, int count)
{
    int found = -1;
    for (int i = 0; i < count; i++)
        if (!crates[i].laid && (found < 0 || crates[i].height > crates[found].height))
            found = i;
    return found;
}

/** A crate that heads a column with room for another one below, NULL when there is none. */
static struct tailor_in_crate *column_for(struct tailor_in_crate *crates, int count, const struct tailor_in_crate *next)
{
    for (int i = 0; i < count; i++)
        if (crates[i].heads && next->width <= crates[i].width &&
            crates[i].filled + gap + next->height <= crates[i].limit)
            return &crates[i];
    return NULL;
}

/** Raise a shelf: the columns on it may become as high. */
static void raise_shelf(struct tailor_in_crate *crates, int count, double top, double height)
{
    for (int i = 0; i < count; i++)
        if (crates[i].heads && crates[i].y >= top)
            crates[i].limit = top + height;
}

/** Pack crates, in their order or the tallest first, where the first shelf is taken up to `left` and so high already.
 *  size: across and down, of all. */
static void pack(struct tailor_in_crate *crates, int count, int in_order, double left, double shelf, double longest,
                 double size[2])
{
    double top = 0;
    size[0] = fmax(left - gap, 0);
    for (int i = 0; i < count; i++) {
        struct tailor_in_crate *next = &crates[in_order ? i : tallest(crates, count)];
        struct tailor_in_crate *column = column_for(crates, count, next);
        if (column) {
            next->x = column->x;
            next->y = column->filled + gap;
            column->filled = next->y + next->height;
        } else {
            if (left > 0 && left + next->width > longest) { /* a new shelf */
                top += shelf + gap;
                left = shelf = 0;
            }
            next->x = left;
            next->y = top;
            next->filled = top + next->height;
            next->heads = 1;
            left += next->width + gap;
            shelf = fmax(shelf, next->height);
            raise_shelf(crates, count, top, shelf);
        }
        next->laid = 1;
        size[0] = fmax(size[0], next->x + next->width);
    }
    size[1] = top + shelf;
}

/* ---- groups */

static const char *const first_cloths[] = {"cloth", "lining", "canvas"};
enum { FIRST_CLOTHS = sizeof first_cloths / sizeof *first_cloths };

static int rank_of(const char *cloth)
{
    int rank = 0;
    while (rank < FIRST_CLOTHS && strcmp(cloth, first_cloths[rank]) != 0)
        rank++;
    return rank;
}

int tailor_in_shelf_groups(const tailor_pattern *pattern, struct tailor_in_shelf_place *places,
                           struct tailor_in_shelf_group *groups)
{
    int count = 0;
    for (int rank = 0; rank <= FIRST_CLOTHS; rank++) {
        for (int i = 0; i < tailor_pattern_piece_count(pattern); i++) {
            const char *cloth = tailor_piece_cloth(pattern, i);
            int g = 0;
            if (rank_of(cloth) != rank)
                continue;
            while (g < count && strcmp(groups[g].name, cloth) != 0)
                g++;
            if (g == count)
                groups[count++] = (struct tailor_in_shelf_group){.name = cloth};
            groups[g].patterns++;
            groups[g].cut += tailor_piece_copies(pattern, i);
            places[i].group = g;
        }
    }
    return count;
}

/** Drafted on the common axes of the body: shares its levels with the others that are. */
static int is_of_the_body(const tailor_pattern *pattern, int piece)
{
    static const char *const names[] = {"back", "sidebody", "forepart"};
    for (int i = 0; i < 3; i++)
        if (!strcmp(tailor_piece_name(pattern, piece), names[i]))
            return 1;
    return 0;
}

/** Set the body's pieces of a group side by side at their common levels. size: where the next one would stand, and how
 *  high they are together. */
static void line_up_body(const tailor_pattern *pattern, struct tailor_in_shelf_place *places, int group, double size[2])
{
    double low = INFINITY, high = -INFINITY;
    size[0] = size[1] = 0;
    for (int turn = 0; turn < 2; turn++) {
        for (int i = 0; i < tailor_pattern_piece_count(pattern); i++) {
            struct tailor_in_shelf_place *p = &places[i];
            if (p->group != group || !is_of_the_body(pattern, i))
                continue;
            if (turn == 0) {
                low = fmin(low, p->room[1]);
                high = fmax(high, p->room[3]);
                size[1] = high - low;
            } else {
                p->x = size[0] - p->room[0];
                p->y = high;
                size[0] += p->room[2] - p->room[0] + gap;
            }
        }
    }
}

/** Arrange the pieces of a group below its heading, from its own top left corner. */
static void arrange(const tailor_pattern *pattern, struct tailor_in_shelf_place *places, int group,
                    struct tailor_in_crate *crates, double size[2])
{
    double body[2], widest = 0, highest;
    int count = 0;
    line_up_body(pattern, places, group, body);
    highest = body[1];
    for (int i = 0; i < tailor_pattern_piece_count(pattern); i++) {
        const double *room = places[i].room;
        if (places[i].group != group || is_of_the_body(pattern, i))
            continue;
        crates[count] = (struct tailor_in_crate){.width = room[2] - room[0], .height = room[3] - room[1], .what = i};
        widest = fmax(widest, crates[count].width);
        highest = fmax(highest, crates[count++].height);
    }
    /* small pieces stand in a block rather than in a long row */
    const double longest = body[0] > 0 ? longest_shelf : fmin(longest_shelf, fmax(3 * highest, widest));
    pack(crates, count, 0, body[0], body[1], longest, size);
    for (int k = 0; k < count; k++) {
        struct tailor_in_shelf_place *p = &places[crates[k].what];
        p->x = crates[k].x - p->room[0];
        p->y = crates[k].y + p->room[3];
    }
}

void tailor_in_shelves(const tailor_pattern *pattern, struct tailor_in_shelf_place *places,
                       struct tailor_in_shelf_group *groups, int count, struct tailor_in_crate *crates, double *width,
                       double *height)
{
    double size[2];
    for (int g = 0; g < count; g++) {
        arrange(pattern, places, g, crates, size);
        groups[g].width = fmax(size[0], TAILOR_IN_GROUP_WIDTH);
        groups[g].height = size[1] + TAILOR_IN_GROUP_HEADING;
    }
    for (int g = 0; g < count; g++)
        crates[g] = (struct tailor_in_crate){.width = groups[g].width, .height = groups[g].height};
    pack(crates, count, 1, 0, 0, longest_shelf, size);
    for (int g = 0; g < count; g++) {
        groups[g].x = crates[g].x;
        groups[g].y = crates[g].y;
    }
    for (int i = 0; i < tailor_pattern_piece_count(pattern); i++) {
        places[i].x += groups[places[i].group].x;
        places[i].y += groups[places[i].group].y + TAILOR_IN_GROUP_HEADING;
    }
    *width = size[0];
    *height = size[1];
}
