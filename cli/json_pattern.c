/* json_pattern: what a pattern was drafted as, its pieces and its seams, in the pattern's own order. */
#include "json_out.h"

json_t *json_style(const tailor_pattern *pattern)
{
    const tailor_table *table = tailor_field_table();
    json_t *object = json_object();
    bool good = object != NULL;
    for (int place = 0, number; good && (number = tailor_table_at(table, place)) != 0; place++) {
        int choice = tailor_pattern_style(pattern, number);
        if (choice)
            good = json_put(object, tailor_table_text(table, number, TAILOR_COLUMN_NAME),
                            json_field_value(number, choice));
    }
    return json_whole(object, good);
}

json_t *json_pattern_document(const tailor_pattern *pattern)
{
    json_t *document = json_document("pattern");
    return json_whole(document,
                      document && json_put(document, "edition", json_integer(tailor_pattern_edition(pattern))) &&
                          json_put(document, "style", json_style(pattern)) &&
                          json_put(document, "for_toile", json_boolean(tailor_pattern_toile_only(pattern))));
}

static json_t *point_pair(tailor_point p)
{
    json_t *pair = json_array();
    return json_whole(pair, json_add(pair, json_number(p.x)) && json_add(pair, json_number(p.y)));
}

/* [[[x, y] x 4] ...] */
json_t *json_path(const tailor_cubic *path, size_t count)
{
    json_t *array = json_array();
    bool good = array != NULL;
    for (size_t i = 0; good && i < count; i++) {
        json_t *cubic = json_array();
        for (size_t k = 0; good && k < 4; k++)
            good = json_add(cubic, point_pair(path[i].p[k]));
        good = json_add(array, json_whole(cubic, good));
    }
    return json_whole(array, good);
}

static json_t *edges(const tailor_pattern *pattern, int piece)
{
    json_t *array = json_array();
    bool good = array != NULL;
    size_t first = 0;
    for (int i = 0, n = tailor_piece_edge_count(pattern, piece); good && i < n; i++) {
        size_t count = 0;
        const tailor_cubic *path = tailor_edge_path(pattern, piece, i, &count);
        json_t *edge = json_object();
        good = json_put(edge, "name", json_string(tailor_edge_name(pattern, piece, i))) &&
               json_put(edge, "length", json_number(tailor_path_length(path, count))) &&
               json_put(edge, "first", json_integer((json_int_t)first)) &&
               json_put(edge, "count", json_integer((json_int_t)count));
        good = json_add(array, json_whole(edge, good));
        first += count; /* edges are runs of the outline, in its order */
    }
    return json_whole(array, good);
}

static json_t *points(const tailor_pattern *pattern, int piece)
{
    json_t *array = json_array();
    bool good = array != NULL;
    for (int i = 0, n = tailor_piece_point_count(pattern, piece); good && i < n; i++) {
        tailor_point place = tailor_point_place(pattern, piece, i);
        json_t *point = json_object();
        good = json_put(point, "name", json_string(tailor_point_name(pattern, piece, i))) &&
               json_put(point, "x", json_number(place.x)) && json_put(point, "y", json_number(place.y));
        good = json_add(array, json_whole(point, good));
    }
    return json_whole(array, good);
}

static json_t *marks(const tailor_pattern *pattern, int piece)
{
    static const char *const kinds[] = {"mark", "notch", "grain", "button", "hole", "dart", "line", "fold"};
    json_t *array = json_array();
    bool good = array != NULL;
    for (int i = 0, n = tailor_piece_mark_count(pattern, piece); good && i < n; i++) {
        size_t count = 0;
        const tailor_cubic *path = tailor_mark_path(pattern, piece, i, &count);
        int kind = tailor_mark_kind(pattern, piece, i);
        bool known = kind >= TAILOR_MARK_NOTCH && kind <= TAILOR_MARK_FOLD;
        json_t *mark = json_object();
        good = json_put(mark, "name", json_string(tailor_mark_name(pattern, piece, i))) &&
               json_put(mark, "kind", json_string(kinds[known ? kind : 0])) &&
               json_put(mark, "path", json_path(path, count));
        good = json_add(array, json_whole(mark, good));
    }
    return json_whole(array, good);
}

static json_t *piece_object(const tailor_pattern *pattern, int piece)
{
    static const char *const sides[] = {"both", "right", "left"};
    size_t count = 0;
    const tailor_cubic *outline = tailor_piece_outline(pattern, piece, &count);
    int side = tailor_piece_side(pattern, piece);
    json_t *object = json_object();
    bool good = json_put(object, "name", json_string(tailor_piece_name(pattern, piece))) &&
                json_put(object, "cut", json_integer(tailor_piece_copies(pattern, piece))) &&
                json_put(object, "mirrored", json_boolean(tailor_piece_mirrored(pattern, piece))) &&
                json_put(object, "side", json_string(sides[side >= 0 && side <= TAILOR_SIDE_LEFT ? side : 0])) &&
                json_put(object, "cloth", json_string(tailor_piece_cloth(pattern, piece))) &&
                json_put(object, "outline", json_path(outline, count)) &&
                json_put(object, "edges", edges(pattern, piece)) &&
                json_put(object, "points", points(pattern, piece)) &&
                json_put(object, "marks", marks(pattern, piece));
    return json_whole(object, good);
}

json_t *json_pieces(const tailor_pattern *pattern)
{
    json_t *array = json_array();
    bool good = array != NULL;
    for (int i = 0, n = tailor_pattern_piece_count(pattern); good && i < n; i++)
        good = json_add(array, piece_object(pattern, i));
    return json_whole(array, good);
}

static json_t *stretch_object(const tailor_pattern *pattern, const tailor_stretch *sewn)
{
    json_t *object = json_object();
    return json_whole(
        object, json_put(object, "piece", json_string(tailor_piece_name(pattern, sewn->piece))) &&
                    json_put(object, "edge", json_string(tailor_edge_name(pattern, sewn->piece, sewn->edge))) &&
                    json_put(object, "from", json_number(sewn->from)) && json_put(object, "to", json_number(sewn->to)));
}

static json_t *seam_side(const tailor_pattern *pattern, int seam, int side)
{
    json_t *array = json_array();
    bool good = array != NULL;
    tailor_stretch sewn;
    for (int i = 0; good && tailor_seam_stretch(pattern, seam, side, i, &sewn) == TAILOR_OK; i++)
        good = json_add(array, stretch_object(pattern, &sewn));
    return json_whole(array, good);
}

json_t *json_seams(const tailor_pattern *pattern)
{
    json_t *array = json_array();
    bool good = array != NULL;
    for (int i = 0, n = tailor_pattern_seam_count(pattern); good && i < n; i++) {
        json_t *seam = json_object();
        good = json_put(seam, "name", json_string(tailor_seam_name(pattern, i))) &&
               json_put(seam, "a", seam_side(pattern, i, 0)) && json_put(seam, "b", seam_side(pattern, i, 1)) &&
               json_put(seam, "ease", json_number(tailor_seam_ease(pattern, i)));
        good = json_add(array, json_whole(seam, good));
    }
    return json_whole(array, good);
}
