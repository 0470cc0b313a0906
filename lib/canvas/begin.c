/* Which pieces are laid, at which angle, on which strip. */
#include <math.h>
#include <string.h>
#include "../base/fault.h"
#include "../pattern/build.h"
#include "strip.h"

/* How far the polygon that is laid may be from the curve it stands for, mm. */
static const double TOLERANCE = 0.25;
static const char HAIRCLOTH[] = "haircloth";

/* Range and rule of each choice; `whole` for those that are counted from 1. Widths: own judgement. */
static const struct {
    double low, high, rule;
    int whole;
    const char *sentence;
} choices_of[TAILOR_CANVAS_CHOICE_COUNT] = {
    [TAILOR_CANVAS_CHOICE_ANGLE] = {-90, 90, 0, 0, "the angle of the canvas is %v deg: it goes from %l to %h"},
    [TAILOR_CANVAS_CHOICE_WIDTH] = {100, 5000, 750, 0, "the cloth is %v mm wide: it may be from %l to %h mm"},
    [TAILOR_CANVAS_CHOICE_PLIES] = {1, 3, TAILOR_PLIES_SINGLE, 1,
                                    "cloth lies single, folded or in two layers: %v is none"},
    [TAILOR_CANVAS_CHOICE_SIDES] = {1, 2, TAILOR_SIDES_MIRRORED, 1, "the sides are mirrored or alike: %v is neither"},
    [TAILOR_CANVAS_CHOICE_GAP] = {0, 100, 5, 0, "the gap between pieces is %v mm: it may be from %l to %h mm"},
    [TAILOR_CANVAS_CHOICE_OVERLAP] = {5, 60, 0, 0, "parts that are joined lap over by %l to %h mm, not by %v mm"},
};
static const double HAIRCLOTH_WIDTH = 500;

static tailor_status take_choices(tailor_canvas *c, const double *given, size_t count, tailor_fault *fault)
{
    for (size_t i = 0; i < count; i++)
        if (!isnan(given[i]) && i >= TAILOR_CANVAS_CHOICE_COUNT)
            return tailor_in_fault(fault, TAILOR_BAD_ARGUMENT, NULL, 0, given[i], NAN, NAN,
                                   "there is no such choice for a lay of canvas");
    c->choices[0] = NAN;
    for (size_t i = 1; i < TAILOR_CANVAS_CHOICE_COUNT; i++) {
        const int by_rule = i >= count || isnan(given[i]);
        double value = by_rule ? choices_of[i].rule : given[i];
        if (i == TAILOR_CANVAS_CHOICE_WIDTH && by_rule && strcmp(c->cloth, HAIRCLOTH) == 0)
            value = HAIRCLOTH_WIDTH;
        const int none = i == TAILOR_CANVAS_CHOICE_OVERLAP && !(value < 0) && !(value > 0);
        const double low = choices_of[i].low, high = choices_of[i].high;
        if (isinf(value))
            return tailor_in_fault(fault, TAILOR_NOT_FINITE, NULL, 0, value, low, high,
                                   "a choice for a lay of canvas is infinite");
        if (!none && (!(value >= low && value <= high) || (choices_of[i].whole && floor(value) < value)))
            return tailor_in_fault(fault, choices_of[i].whole ? TAILOR_BAD_ARGUMENT : TAILOR_OUT_OF_RANGE, NULL, 0,
                                   value, low, high, choices_of[i].sentence);
        c->choices[i] = value;
    }
    if (tailor_in_canvas_doubled(c) && c->choices[TAILOR_CANVAS_CHOICE_SIDES] > TAILOR_SIDES_MIRRORED)
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT,
                                     "doubled canvas lies face to face and cuts mirrored pairs: lay it single for both "
                                     "sides alike");
    return TAILOR_OK;
}

/** Direction of a mark's chord; upright without the mark. */
static tailor_point mark_direction(const tailor_pattern *pattern, int piece, int number)
{
    for (int i = 0; i < tailor_piece_mark_count(pattern, piece); i++) {
        size_t count;
        const tailor_cubic *path = tailor_mark_path(pattern, piece, i, &count);
        if (tailor_mark_number(pattern, piece, i) != number || !count)
            continue;
        return (tailor_point){path[count - 1].p[3].x - path[0].p[0].x, path[count - 1].p[3].y - path[0].p[0].y};
    }
    return (tailor_point){0, 1};
}

/** The same, exact where the mark is upright or level: who lays straight wants exactly straight. */
static double degrees_of(tailor_point v)
{
    if (!(v.x < 0) && !(v.x > 0))
        return v.y < 0 ? -90 : 90;
    if (!(v.y < 0) && !(v.y > 0))
        return v.x < 0 ? 180 : 0;
    return atan2(v.y, v.x) * 180 / acos(-1);
}

/** Where the warp runs in a piece's drawing, sides mirrored. */
static double warp_of(const tailor_canvas *c, int piece, int straight)
{
    const tailor_point grain = mark_direction(c->pattern, piece, TAILOR_MARKED_GRAIN);
    double warp = degrees_of(grain);
    if (strcmp(c->cloth, HAIRCLOTH) == 0)
        warp -= 90; /* the mark is the hair, which is the weft */
    if (tailor_piece_number(c->pattern, piece) != TAILOR_PIECE_BODY_CANVAS || straight)
        return warp;
    tailor_point fold = mark_direction(c->pattern, piece, TAILOR_MARKED_BREAK_LINE);
    if (grain.x * fold.x + grain.y * fold.y < 0)
        fold = (tailor_point){-fold.x, -fold.y};
    const double leans = grain.x * fold.y - grain.y * fold.x;
    const int left = tailor_piece_side(c->pattern, piece) == TAILOR_SIDE_LEFT;
    return warp + (leans > 0 || (!(leans < 0) && !left) ? 1 : -1) * c->choices[TAILOR_CANVAS_CHOICE_ANGLE];
}

static tailor_cubic *take_cubics(tailor_canvas *c, size_t count)
{
    tailor_cubic *taken = c->cubics + c->cubic_count;
    c->cubic_count += count;
    return taken;
}

static const tailor_cubic *reflected(tailor_canvas *c, const tailor_cubic *outline, size_t count)
{
    static const double mirror[6] = {-1, 0, 0, 1, 0, 0};
    tailor_cubic *made = take_cubics(c, count);
    tailor_path_affine(outline, count, mirror, made);
    tailor_path_reverse(made, count, made);
    return made;
}

static tailor_status too_wide(const tailor_canvas *c, int piece, double across, tailor_fault *fault)
{
    const int number = tailor_piece_number(c->pattern, piece);
    const int joins = c->choices[TAILOR_CANVAS_CHOICE_OVERLAP] > 0;
    tailor_in_fault(fault, TAILOR_OUT_OF_RANGE, number ? tailor_piece_table() : NULL, number, across, NAN,
                    tailor_canvas_strip_width(c),
                    number ? "%n takes %v mm across the strip at its angle, which is %h mm wide: "
                           : "a piece takes %v mm across the strip at its angle, which is %h mm wide: ");
    tailor_in_fault_say(fault, joins ? "no single join along the warp parts it in two; take wider cloth"
                                     : "take wider cloth, open cloth that is folded, or allow joins");
    return TAILOR_OUT_OF_RANGE;
}

/** Add a shape to a lay, in two parts where it must be joined. */
static tailor_status add_shape(tailor_canvas *c, tailor_in_canvas_lay *l, tailor_in_canvas_shape shape,
                               const tailor_cubic *outline, tailor_fault *fault)
{
    const double width = tailor_canvas_strip_width(c), overlap = c->choices[TAILOR_CANVAS_CHOICE_OVERLAP];
    const double across = tailor_in_canvas_across(outline, shape.count, shape.warp);
    tailor_cubic *parts[2];
    size_t counts[2];
    if (across <= width) {
        shape.outline = outline;
        l->shapes[l->shape_count++] = shape;
        return TAILOR_OK;
    }
    parts[0] = take_cubics(c, shape.count + TAILOR_IN_PART_MORE);
    parts[1] = take_cubics(c, shape.count + TAILOR_IN_PART_MORE);
    if (!(overlap > 0) || !tailor_in_canvas_part(outline, shape.count, shape.warp, width, overlap, parts, counts))
        return too_wide(c, shape.piece, across, fault);
    for (int i = 0; i < 2; i++) {
        shape.part = i + 1;
        shape.outline = parts[i];
        shape.count = counts[i];
        l->shapes[l->shape_count++] = shape;
    }
    l->joins += shape.copies + shape.mirrored;
    return TAILOR_OK;
}

static int other_side(int side)
{
    return side == TAILOR_SIDE_BOTH ? side : TAILOR_SIDE_RIGHT + TAILOR_SIDE_LEFT - side;
}

static tailor_status add_piece(tailor_canvas *c, tailor_in_canvas_lay *l, int piece, int straight, tailor_fault *fault)
{
    const int cut = tailor_piece_copies(c->pattern, piece), mirror = tailor_piece_mirrored(c->pattern, piece);
    const int alike = c->choices[TAILOR_CANVAS_CHOICE_SIDES] > TAILOR_SIDES_MIRRORED;
    tailor_in_canvas_shape shape = {.piece = piece, .side = tailor_piece_side(c->pattern, piece)};
    const tailor_cubic *outline = tailor_piece_outline(c->pattern, piece, &shape.count);
    shape.warp = warp_of(c, piece, straight);
    shape.copies = mirror ? cut - cut / 2 : cut;
    shape.mirrored = mirror ? cut / 2 : 0;
    if (tailor_in_canvas_doubled(c) && shape.copies != shape.mirrored)
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT,
                                     "doubled canvas cuts pairs, but here a piece is cut for one side only: lay it "
                                     "single");
    if (!alike)
        return add_shape(c, l, shape, outline, fault);
    const int more = shape.mirrored;
    if (shape.side == TAILOR_SIDE_LEFT)
        shape.warp = 180 - shape.warp;
    shape.mirrored = 0;
    tailor_status status = add_shape(c, l, shape, outline, fault);
    if (status != TAILOR_OK || !more)
        return status;
    shape.copies = more;
    shape.side = other_side(shape.side);
    shape.reflected = 1;
    return add_shape(c, l, shape, reflected(c, outline, shape.count), fault);
}

static tailor_status make_lay(tailor_canvas *c, tailor_in_canvas_lay *l, int straight, uint64_t seed,
                              tailor_fault *fault)
{
    const int layers = c->choices[TAILOR_CANVAS_CHOICE_PLIES] > TAILOR_PLIES_FOLDED;
    tailor_status status = TAILOR_OK;
    for (int piece = 0; status == TAILOR_OK && piece < tailor_pattern_piece_count(c->pattern); piece++)
        if (tailor_in_canvas_is_cut(c->pattern, piece, c->cloth))
            status = add_piece(c, l, piece, straight, fault);
    if (status == TAILOR_OK) /* two layers are a folded cloth of twice the width */
        status = tailor_lay_new(c->choices[TAILOR_CANVAS_CHOICE_WIDTH] * (layers ? 2 : 1),
                                c->choices[TAILOR_CANVAS_CHOICE_GAP], TOLERANCE, tailor_in_canvas_doubled(c),
                                &c->allocator, &l->lay, fault);
    for (int i = 0; status == TAILOR_OK && i < l->shape_count; i++) {
        const tailor_in_canvas_shape *s = &l->shapes[i];
        status = tailor_lay_add(l->lay, s->outline, s->count, -s->warp, 1, s->copies, s->mirrored, fault);
    }
    if (status == TAILOR_OK)
        status = tailor_lay_begin(l->lay, seed, fault);
    if (status != TAILOR_OK) {
        tailor_lay_free(l->lay);
        l->lay = NULL;
    }
    return status;
}

/** The lay that is wanted, and the straight one, which may be the same or may not fit. */
static tailor_status make_lays(tailor_canvas *c, uint64_t seed, tailor_fault *fault)
{
    int turned = 0;
    for (int piece = 0; piece < tailor_pattern_piece_count(c->pattern); piece++)
        turned |= tailor_in_canvas_is_cut(c->pattern, piece, c->cloth) &&
                  tailor_piece_number(c->pattern, piece) == TAILOR_PIECE_BODY_CANVAS;
    const double angle = c->choices[TAILOR_CANVAS_CHOICE_ANGLE];
    c->one = !turned || (!(angle < 0) && !(angle > 0));
    tailor_status status = make_lay(c, &c->lays[0], 0, seed, fault);
    if (status != TAILOR_OK || c->one)
        return status;
    tailor_fault unseen;
    status = make_lay(c, &c->lays[1], 1, seed, &unseen);
    if (status == TAILOR_OK || status == TAILOR_OUT_OF_RANGE)
        return TAILOR_OK;
    if (fault)
        *fault = unseen;
    return status;
}

/** One block: the canvas, shapes for both lays, and all outlines that are not the pattern's own. */
static tailor_canvas *make_block(const tailor_pattern *pattern, const char *cloth, tailor_allocator allocator)
{
    size_t shapes = 0, cubics = 0;
    for (int piece = 0; piece < tailor_pattern_piece_count(pattern); piece++) {
        size_t count;
        if (!tailor_in_canvas_is_cut(pattern, piece, cloth))
            continue;
        tailor_piece_outline(pattern, piece, &count);
        shapes += 4; /* each side in two parts */
        cubics += 2 * (count + 2 * (count + TAILOR_IN_PART_MORE));
    }
    const size_t bytes =
        sizeof(tailor_canvas) + 2 * (shapes * sizeof(tailor_in_canvas_shape) + cubics * sizeof(tailor_cubic));
    tailor_canvas *made = allocator.allocate(allocator.user, bytes);
    if (!made)
        return NULL;
    memset(made, 0, bytes);
    made->allocator = allocator;
    made->pattern = pattern;
    made->cubics = (void *)(made + 1);
    made->lays[0].shapes = (void *)(made->cubics + 2 * cubics);
    made->lays[1].shapes = made->lays[0].shapes + shapes;
    return made;
}

tailor_status tailor_canvas_begin(const tailor_pattern *pattern, const char *cloth, const double *choices,
                                  size_t choice_count, uint64_t seed, const tailor_allocator *allocator,
                                  tailor_canvas **canvas, tailor_fault *fault)
{
    if (!pattern || !cloth || !canvas || (!choices && choice_count))
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT,
                                     "a lay of canvas needs a pattern, a cloth and a result");
    int first = 0;
    while (first < tailor_pattern_piece_count(pattern) && !tailor_in_canvas_is_cut(pattern, first, cloth))
        first++;
    if (first == tailor_pattern_piece_count(pattern))
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT,
                                     "no piece of this pattern is cut from that cloth: a pattern of the whole make has "
                                     "canvas and haircloth");
    tailor_canvas *made = make_block(pattern, cloth, tailor_in_allocator(allocator));
    if (!made)
        return tailor_in_fault_plain(fault, TAILOR_NO_MEMORY, "there is no memory for a lay of canvas");
    made->cloth = tailor_piece_cloth(pattern, first);
    tailor_status status = take_choices(made, choices, choice_count, fault);
    if (status == TAILOR_OK)
        status = make_lays(made, seed, fault);
    if (status != TAILOR_OK) {
        tailor_canvas_free(made);
        return status;
    }
    *canvas = made;
    return TAILOR_OK;
}
