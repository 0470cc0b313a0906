/* A coat of 35 pieces: cloth, lining, canvas and what else it takes, some for one side of the wearer only, some strips
 * no wider than a tape. Whether anything overlaps is asked of GEOS. With TAILOR_SHEETS set to a directory, the sheet is
 * written there for looking. */
#include "coats.h"
#include "../../lib/pattern/build.h"
#include "../../lib/sheet/layout/compose.h"
#include "../../lib/sheet/layout/lettering.h"

#include <cairo.h>
#include <geos_c.h>
#include <stdio.h>

/* Longer than a line of a label. */
static const char title[] = "Mr Ashdown Larkfield, order 12 - for toile only";

/* The seven pieces of a drafted coat come first, the two foreparts apart; then these. */
enum { DRAFTED = 7, MADE_UP = 28, PIECES = DRAFTED + MADE_UP, GROUPS = 8 };
static const struct {
    const char *name, *cloth;
    int side, cut, mirrored;
    double width, height, bulge; /* mm; how far the longer sides curve */
} made_up[MADE_UP] = {
    {"facing", "cloth", TAILOR_SIDE_RIGHT, 1, 0, 110, 720, 12},
    {"forepart_lining", "lining", TAILOR_SIDE_RIGHT, 1, 0, 230, 690, 10},
    {"facing", "cloth", TAILOR_SIDE_LEFT, 1, 0, 112, 720, 12},
    {"forepart_lining", "lining", TAILOR_SIDE_LEFT, 1, 0, 232, 690, 10},
    {"top_collar", "cloth", TAILOR_SIDE_BOTH, 1, 0, 420, 85, 8},
    {"breast_welt", "cloth", TAILOR_SIDE_LEFT, 1, 0, 115, 60, 0},
    {"flap", "cloth", TAILOR_SIDE_RIGHT, 2, 1, 165, 65, 0},
    {"jetting", "cloth", TAILOR_SIDE_BOTH, 4, 0, 190, 40, 0},
    {"vent_stay", "silesia", TAILOR_SIDE_BOTH, 2, 0, 40, 240, 0},
    {"front_canvas", "canvas", TAILOR_SIDE_RIGHT, 1, 0, 240, 700, 15},
    {"front_canvas", "canvas", TAILOR_SIDE_LEFT, 1, 0, 242, 700, 15},
    {"collar_canvas", "canvas", TAILOR_SIDE_BOTH, 2, 1, 210, 78, 10},
    {"back_lining", "lining", TAILOR_SIDE_RIGHT, 2, 1, 230, 780, 6},
    {"sidebody_lining", "lining", TAILOR_SIDE_RIGHT, 2, 1, 120, 600, 6},
    {"topsleeve_lining", "lining", TAILOR_SIDE_RIGHT, 2, 1, 230, 640, 12},
    {"undersleeve_lining", "lining", TAILOR_SIDE_RIGHT, 2, 1, 140, 600, 8},
    {"flap_lining", "lining", TAILOR_SIDE_RIGHT, 2, 1, 163, 63, 0},
    {"chest_piece", "haircloth", TAILOR_SIDE_RIGHT, 1, 0, 180, 260, 14},
    {"chest_piece", "haircloth", TAILOR_SIDE_LEFT, 1, 0, 182, 260, 14},
    {"shoulder_piece", "haircloth", TAILOR_SIDE_BOTH, 2, 1, 120, 90, 6},
    {"hip_pocket_bag", "silesia", TAILOR_SIDE_BOTH, 4, 0, 180, 210, 0},
    {"breast_pocket_bag", "silesia", TAILOR_SIDE_LEFT, 2, 0, 130, 160, 0},
    {"inside_pocket_bag", "silesia", TAILOR_SIDE_BOTH, 4, 0, 150, 190, 0},
    {"bridle", "linen", TAILOR_SIDE_RIGHT, 2, 1, 12, 500, 0},
    {"edge_tape", "linen", TAILOR_SIDE_BOTH, 2, 0, 12, 700, 3},
    {"pocket_stay", "linen", TAILOR_SIDE_BOTH, 2, 0, 220, 12, 0},
    {"button_stay", "linen", TAILOR_SIDE_LEFT, 3, 0, 25, 25, 0},
    {"wadding_for_the_shoulder", "white_domette", TAILOR_SIDE_RIGHT, 2, 1, 20, 420, 0},
};
static const char *const group_names[] = {"cloth",   "lining",    "canvas", "melton",
                                          "silesia", "haircloth", "linen",  "white domette"};

static void rename_last(tailor_pattern *p, const char *name)
{
    struct tailor_in_piece *piece = TAILOR_IN_AT(p, struct tailor_in_piece, TAILOR_IN_PIECES);
    snprintf(piece[p->count[TAILOR_IN_PIECES] - 1].name, TAILOR_IN_NAME, "%s", name);
}

/** A copy of a path, as its mirror image when `side` is the left. */
static void mirrored_copy(const tailor_cubic *path, size_t count, int side, tailor_cubic *copy)
{
    const double mirror[6] = {-1, 0, 0, 1, 0, 0};
    if (side != TAILOR_SIDE_LEFT) {
        memcpy(copy, path, count * sizeof *path);
        return;
    }
    tailor_cubic turned[64];
    assert_true(count <= 64);
    tailor_path_affine(path, count, mirror, turned);
    tailor_path_reverse(turned, count, copy);
}

static void copy_piece(tailor_pattern *p, const tailor_pattern *coat, int piece, int side, int cut)
{
    const int edges = tailor_piece_edge_count(coat, piece);
    tailor_cubic copy[64];
    size_t count;
    tailor_in_add_piece(p, tailor_piece_number(coat, piece), cut, cut > 1, side, tailor_piece_cloth(coat, piece));
    for (int i = 0; i < edges; i++) {
        const int edge = side == TAILOR_SIDE_LEFT ? edges - 1 - i : i;
        const tailor_cubic *path = tailor_edge_path(coat, piece, edge, &count);
        mirrored_copy(path, count, side, copy);
        tailor_in_add_edge(p, tailor_edge_number(coat, piece, edge), copy, count);
    }
    for (int mark = 0; mark < tailor_piece_mark_count(coat, piece); mark++) {
        const tailor_cubic *path = tailor_mark_path(coat, piece, mark, &count);
        if (side == TAILOR_SIDE_RIGHT && cut == 1 && tailor_mark_number(coat, piece, mark) == TAILOR_MARKED_BREAST_WELT)
            continue; /* the left front only has one */
        mirrored_copy(path, count, side, copy);
        tailor_in_add_mark(p, tailor_mark_number(coat, piece, mark), tailor_mark_kind(coat, piece, mark), copy, count);
    }
}

/** A sheet of four edges, its longer ones curved by `bulge`; grain upright, a notch on the front edge. */
static void add_made_up(tailor_pattern *p, int which)
{
    static const int edges[] = {TAILOR_EDGE_HEM, TAILOR_EDGE_FRONT_EDGE, TAILOR_EDGE_SHOULDER, TAILOR_EDGE_CENTRE_BACK};
    const double w = made_up[which].width, h = made_up[which].height, b = made_up[which].bulge;
    const int left = made_up[which].side == TAILOR_SIDE_LEFT;
    const tailor_point corner[] = {{0, 0}, {w, 0}, {w, h}, {0, h}};
    tailor_in_add_piece(p, TAILOR_PIECE_BACK, made_up[which].cut, made_up[which].mirrored, made_up[which].side,
                        made_up[which].cloth);
    rename_last(p, made_up[which].name);
    for (int i = 0; i < 4; i++) {
        const int edge = left ? 3 - i : i, high = h > w;
        tailor_cubic side = tailor_cubic_line(corner[edge], corner[(edge + 1) % 4]), copy;
        for (int k = 1; k < 3; k++) {
            side.p[k].x += high && edge % 2 ? b : 0;
            side.p[k].y += !high && edge % 2 == 0 ? b : 0;
        }
        mirrored_copy(&side, 1, made_up[which].side, &copy);
        tailor_in_add_edge(p, edges[edge], &copy, 1);
    }
    const double sense = left ? -1 : 1;
    const tailor_cubic grain =
        tailor_cubic_line((tailor_point){sense * w / 3, h * 0.2}, (tailor_point){sense * w / 3, h * 0.8});
    tailor_in_add_mark(p, TAILOR_MARKED_GRAIN, TAILOR_MARK_GRAIN, &grain, 1);
    if (w < 60 || h < 60)
        return;
    const tailor_cubic notch =
        tailor_cubic_line((tailor_point){sense * w, h / 4}, (tailor_point){sense * (w - 5), h / 4});
    tailor_in_add_mark(p, TAILOR_MARKED_NOTCH_WAIST_FRONT, TAILOR_MARK_NOTCH, &notch, 1);
}

static tailor_pattern *many_pieces(void)
{
    const int capacity[TAILOR_IN_ARRAYS] = {PIECES, 300, 0, 400, 0, 0, 2000};
    tailor_pattern *coat = draft(1016, 0, 1);
    tailor_pattern *p =
        tailor_in_pattern_begin(malloc(tailor_in_pattern_bytes(capacity)), capacity, tailor_in_allocator(NULL));
    for (int i = 0; i < tailor_pattern_piece_count(coat); i++) {
        const int apart = tailor_piece_number(coat, i) == TAILOR_PIECE_FOREPART;
        if (p->count[TAILOR_IN_PIECES] + apart >= DRAFTED)
            break; /* of a later draft's pieces only the first */
        copy_piece(p, coat, i, TAILOR_SIDE_RIGHT, apart ? 1 : 2);
        if (apart)
            copy_piece(p, coat, i, TAILOR_SIDE_LEFT, 1);
    }
    assert_int_equal(p->count[TAILOR_IN_PIECES], DRAFTED);
    for (int i = 0; i < MADE_UP; i++)
        add_made_up(p, i);
    assert_int_equal(tailor_in_pattern_end(p), TAILOR_OK);
    tailor_pattern_free(coat);
    return p;
}

/* ---- what is drawn, read from the drawing */

enum { MOST = 1000 };
static struct tailor_in_drawing drawing;
static tailor_pattern *pattern;
static GEOSGeometry *outlines[PIECES], *texts[MOST], *lines[MOST];
static const char *words[MOST];
static cairo_t *cairo;
static int outline_count, text_count, line_count, owner[MOST], first_text[PIECES + 1];

static GEOSGeometry *line_of(const tailor_cubic *path, size_t count, int ring)
{
    enum { STEPS = 24 };
    GEOSCoordSequence *places = GEOSCoordSeq_create((unsigned)count * STEPS + 1, 2);
    for (size_t i = 0; i <= count * STEPS; i++) {
        tailor_point p = i < count * STEPS ? tailor_cubic_point(&path[i / STEPS], (double)(i % STEPS) / STEPS)
                                           : path[count - 1].p[3];
        if (ring && i == count * STEPS)
            p = path[0].p[0];
        GEOSCoordSeq_setXY(places, (unsigned)i, p.x, p.y);
    }
    return ring ? GEOSGeom_createPolygon(GEOSGeom_createLinearRing(places), NULL, 0)
                : GEOSGeom_createLineString(places);
}

/** From base line to capitals, as wide as cairo finds it. */
static GEOSGeometry *box_of(const struct tailor_in_item *item, const char *text)
{
    const struct tailor_in_lettering *how = &item->lettering;
    const double turn = how->angle * acos(-1) / 180;
    cairo_text_extents_t extents;
    cairo_select_font_face(cairo, "DejaVu Sans", CAIRO_FONT_SLANT_NORMAL,
                           how->bold ? CAIRO_FONT_WEIGHT_BOLD : CAIRO_FONT_WEIGHT_NORMAL);
    cairo_set_font_size(cairo, 100);
    cairo_text_extents(cairo, text, &extents);
    const double wide = extents.x_advance * how->size / 100;
    const double x[] = {-how->anchor * wide, (1 - how->anchor) * wide}, y[] = {-0.7 * how->size, 0};
    GEOSCoordSequence *places = GEOSCoordSeq_create(5, 2);
    for (unsigned i = 0; i < 5; i++) {
        const double along = x[i % 4 == 1 || i % 4 == 2], down = y[i % 4 > 1];
        GEOSCoordSeq_setXY(places, i, item->at.x + along * cos(turn) - down * sin(turn),
                           item->at.y + along * sin(turn) + down * cos(turn));
    }
    return GEOSGeom_createPolygon(GEOSGeom_createLinearRing(places), NULL, 0);
}

static int begin(void **state)
{
    size_t count;
    int depth = 0, piece = -1;
    (void)state;
    initGEOS(NULL, NULL);
    cairo_surface_t *surface = cairo_image_surface_create(CAIRO_FORMAT_A8, 1, 1);
    cairo = cairo_create(surface);
    cairo_surface_destroy(surface);
    pattern = many_pieces();
    tailor_in_drawing_begin(&drawing, &(const struct tailor_in_title){"", "", title, ""}, NULL);
    tailor_in_compose_pattern(&drawing, pattern, TAILOR_PRINT_MM);
    const struct tailor_in_item *item = tailor_in_drawing_items(&drawing, &count);
    for (size_t i = 0; i < count; i++, item++) {
        if (item->kind == TAILOR_IN_GROUP) {
            depth++;
        } else if (item->kind == TAILOR_IN_GROUP_END) {
            depth--;
        } else if (item->kind == TAILOR_IN_TEXT) {
            assert_true(text_count < MOST);
            words[text_count] = tailor_in_drawing_string(&drawing, item->first);
            if (!*words[text_count])
                continue;
            owner[text_count] = depth == 2 ? piece : -1; /* deeper than headings: within a layer of a piece */
            texts[text_count] = box_of(item, words[text_count]);
            text_count++;
        } else if (item->style == TAILOR_IN_OUTLINE && item->closed) {
            assert_true(++piece < PIECES);
            first_text[piece] = text_count;
            outlines[outline_count++] = line_of(tailor_in_drawing_cubics(&drawing, item), item->count, 1);
            lines[line_count++] = line_of(tailor_in_drawing_cubics(&drawing, item), item->count, 0);
        } else {
            assert_true(line_count < MOST);
            lines[line_count++] = line_of(tailor_in_drawing_cubics(&drawing, item), item->count, 0);
        }
    }
    return 0;
}

static int end(void **state)
{
    (void)state;
    for (int i = 0; i < outline_count; i++)
        GEOSGeom_destroy(outlines[i]);
    for (int i = 0; i < text_count; i++)
        GEOSGeom_destroy(texts[i]);
    for (int i = 0; i < line_count; i++)
        GEOSGeom_destroy(lines[i]);
    tailor_in_drawing_end(&drawing);
    tailor_pattern_free(pattern);
    cairo_destroy(cairo);
    finishGEOS();
    return 0;
}

static void pieces_lie_apart(void **state)
{
    (void)state;
    assert_int_equal(outline_count, PIECES);
    for (int i = 0; i < PIECES; i++) {
        assert_true(GEOSisValid(outlines[i]) == 1);
        for (int k = 0; k < i; k++) {
            double apart;
            assert_int_equal(GEOSDistance(outlines[i], outlines[k], &apart), 1);
            if (!(apart > 25))
                fail_msg("%s and %s", tailor_piece_name(pattern, i), tailor_piece_name(pattern, k));
        }
    }
}

static void texts_overlap_nothing(void **state)
{
    (void)state;
    assert_true(text_count > 10 * PIECES);
    for (int i = 0; i < text_count; i++) {
        for (int k = 0; k < i; k++)
            if (GEOSIntersects(texts[i], texts[k]) != 0)
                fail_msg("\"%s\" and \"%s\"", words[i], words[k]);
        for (int k = 0; k < line_count; k++)
            if (GEOSIntersects(texts[i], lines[k]) != 0)
                fail_msg("\"%s\" of piece %d and a line", words[i], owner[i]);
        double bounds[4]; /* within the page */
        GEOSGeom_getXMin(texts[i], &bounds[0]);
        GEOSGeom_getYMin(texts[i], &bounds[1]);
        GEOSGeom_getXMax(texts[i], &bounds[2]);
        GEOSGeom_getYMax(texts[i], &bounds[3]);
        assert_true(bounds[0] > 0 && bounds[1] > 0 && bounds[2] < drawing.width && bounds[3] < drawing.height);
    }
}

static int says(int piece, const char *text)
{
    for (int i = 0; i < text_count; i++)
        if (owner[i] == piece && !strcmp(words[i], text))
            return 1;
    return 0;
}

/** Whether the title is said whole, in two lines. */
static int says_title(int piece)
{
    for (int i = 0; i + 1 < text_count; i++) {
        char both[128];
        snprintf(both, sizeof both, "%s %s", words[i], words[i + 1]);
        if (owner[i] == piece && owner[i + 1] == piece && !strcmp(both, title))
            return 1;
    }
    return 0;
}

static void every_label_is_whole(void **state)
{
    static const char *const sides[] = {"wearer's left and right, face up", "wearer's right, face up",
                                        "wearer's left, face up"};
    (void)state;
    for (int i = 0; i < PIECES; i++) {
        char name[64], cut[64], cloth[64];
        const int number = tailor_piece_copies(pattern, i);
        tailor_in_words(tailor_piece_name(pattern, i), "", name, sizeof name);
        tailor_in_words(tailor_piece_cloth(pattern, i), "", cloth, sizeof cloth);
        snprintf(cut, sizeof cut,
                 tailor_piece_mirrored(pattern, i) ? "cut %d, mirrored"
                 : number > 1                      ? "cut %d, not mirrored"
                                                   : "cut %d",
                 number);
        if (!says(i, name) || !says(i, sides[tailor_piece_side(pattern, i)]) || !says(i, cut) || !says(i, cloth) ||
            !says_title(i))
            fail_msg("%s", name);
    }
}

/** The name of a piece stands in it or beside it, nearer to it than to any other. */
static void every_label_is_at_its_piece(void **state)
{
    int inside = 0;
    (void)state;
    for (int i = 0; i < PIECES; i++) {
        char name[64];
        double own, other;
        int t = first_text[i];
        tailor_in_words(tailor_piece_name(pattern, i), "", name, sizeof name);
        while (strcmp(words[t], name) != 0)
            t++;
        assert_int_equal(owner[t], i);
        assert_int_equal(GEOSDistance(texts[t], outlines[i], &own), 1);
        inside += GEOSContains(outlines[i], texts[t]) == 1;
        assert_true(own < 40);
        for (int k = 0; k < PIECES; k++) {
            assert_int_equal(GEOSDistance(texts[t], outlines[k], &other), 1);
            assert_true(k == i || own < other);
        }
    }
    assert_true(inside >= PIECES - 5); /* tapes and the like have it beside them */
}

static void one_cloth_stands_together(void **state)
{
    int found = 0;
    const char *seen[GROUPS];
    (void)state;
    for (int i = 0; i < text_count; i++) /* headings come with the number of their patterns */
        if (owner[i] < 0 && i + 1 < text_count && strstr(words[i + 1], " to cut")) {
            assert_true(found < GROUPS);
            seen[found++] = words[i];
        }
    assert_int_equal(found, GROUPS);
    for (int g = 0; g < GROUPS; g++)
        assert_string_equal(seen[g], group_names[g]);
    /* the hull of a group's pieces keeps clear of the pieces of all others */
    for (int i = 0; i < PIECES; i++) {
        double box[4] = {INFINITY, INFINITY, -INFINITY, -INFINITY};
        for (int k = 0; k < PIECES; k++) {
            double x[2], y[2];
            if (strcmp(tailor_piece_cloth(pattern, i), tailor_piece_cloth(pattern, k)) != 0)
                continue;
            GEOSGeom_getXMin(outlines[k], &x[0]);
            GEOSGeom_getXMax(outlines[k], &x[1]);
            GEOSGeom_getYMin(outlines[k], &y[0]);
            GEOSGeom_getYMax(outlines[k], &y[1]);
            box[0] = fmin(box[0], x[0]);
            box[1] = fmin(box[1], y[0]);
            box[2] = fmax(box[2], x[1]);
            box[3] = fmax(box[3], y[1]);
        }
        GEOSGeometry *hull = GEOSGeom_createRectangle(box[0], box[1], box[2], box[3]);
        for (int k = 0; k < PIECES; k++)
            if (strcmp(tailor_piece_cloth(pattern, i), tailor_piece_cloth(pattern, k)) != 0)
                assert_int_equal(GEOSIntersects(hull, outlines[k]), 0);
        GEOSGeom_destroy(hull);
    }
}

static void it_can_be_written(void **state)
{
    const char *directory = getenv("TAILOR_SHEETS");
    struct kept kept = {0};
    (void)state;
    assert_int_equal(tailor_sheet_draw_pattern(pattern, page_of(title, TAILOR_PRINT_MM, TAILOR_SHEET_PDF), keep, &kept,
                                               NULL),
                     TAILOR_OK); /* within what a PDF page may be */
    free(kept.data);
    kept = (struct kept){0};
    assert_int_equal(tailor_sheet_draw_pattern(pattern, page_of(title, TAILOR_PRINT_MM, TAILOR_SHEET_SVG), keep, &kept,
                                               NULL),
                     TAILOR_OK);
    /* ids are unique, though names are not */
    for (const char *id = strstr(kept.data, "<g id=\""); id; id = strstr(id + 1, "<g id=\"")) {
        const size_t bytes = strcspn(id + 7, "\"") + 8;
        for (const char *other = strstr(id + 1, "<g id=\""); other; other = strstr(other + 1, "<g id=\""))
            assert_true(strncmp(id, other, 7 + bytes) != 0);
    }
    if (directory) {
        char path[512];
        snprintf(path, sizeof path, "%s/many.svg", directory);
        FILE *file = fopen(path, "wb");
        assert_non_null(file);
        assert_int_equal(fwrite(kept.data, 1, kept.bytes, file), kept.bytes);
        assert_int_equal(fclose(file), 0);
    }
    free(kept.data);
}

int test_many(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(pieces_lie_apart),          cmocka_unit_test(texts_overlap_nothing),
        cmocka_unit_test(every_label_is_whole),      cmocka_unit_test(every_label_is_at_its_piece),
        cmocka_unit_test(one_cloth_stands_together), cmocka_unit_test(it_can_be_written),
    };
    return cmocka_run_group_tests(tests, begin, end);
}
