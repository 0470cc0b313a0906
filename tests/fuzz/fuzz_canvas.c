/* Canvas lays with any choices, of coats with sides alike and apart: what is taken is laid without overlap and can be
 * drawn, what is refused leaves nothing behind. */
#include <tailorgeom/coat.h>
#include <tailorgeom/sheet.h>
#include "bytes.h"

const char *__lsan_default_suppressions(void);
const char *__lsan_default_suppressions(void) { return "leak:libfontconfig\n"; }

static int count_bytes(void *user, const void *data, size_t size)
{
    (void)data;
    *(size_t *)user += size;
    return 0;
}

static tailor_coat *make(double low_shoulder)
{
    double client[TAILOR_FIELD_COUNT];
    tailor_coat *coat = NULL;
    tailor_fields_clear(client, TAILOR_FIELD_COUNT);
    client[TAILOR_FIELD_CHEST_GIRTH] = 1016;
    if (low_shoulder > 0)
        client[TAILOR_FIELD_LOW_SHOULDER_RIGHT] = low_shoulder;
    check(tailor_coat_new(NULL, client, TAILOR_FIELD_COUNT, TAILOR_EXTENT_MAKE, &coat, NULL) == TAILOR_OK);
    return coat;
}

static void look_at(const tailor_canvas *c)
{
    for (int straight = 0; straight < 2; straight++) {
        const tailor_lay *lay = tailor_canvas_lay(c, straight);
        check(!lay || tailor_lay_overlap_free(lay, NULL, NULL, NAN, NULL) == TAILOR_OK);
        for (int i = 0; i < tailor_lay_place_count(lay); i++) {
            int piece, side, part;
            double warp, matrix[6];
            tailor_cubic outline[100];
            size_t needed;
            check(tailor_canvas_place(c, straight, i, &piece, &side, &part, &warp) == TAILOR_OK);
            check(piece < tailor_pattern_piece_count(tailor_canvas_pattern(c)) && isfinite(warp));
            check(tailor_canvas_matrix(c, straight, i, matrix) == TAILOR_OK && isfinite(matrix[4]));
            check(tailor_canvas_outline(c, straight, i, outline, 100, &needed) == TAILOR_OK);
            check(tailor_path_area(outline, needed) > 0);
        }
    }
    check(tailor_canvas_result(c, TAILOR_CANVAS_RESULT_LENGTH) > 0 &&
          tailor_canvas_result(c, TAILOR_CANVAS_RESULT_YIELD) < 1);
    check(tailor_canvas_choice(c, TAILOR_CANVAS_CHOICE_WIDTH) >= tailor_canvas_strip_width(c));
    check(tailor_canvas_cloth(c) != NULL);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    bytes b = {data, size};
    static tailor_coat *coats[2];
    double choices[TAILOR_CANVAS_CHOICE_COUNT];
    tailor_canvas *canvas = NULL;
    tailor_fault fault;
    for (int i = 0; i < 2; i++)
        if (!coats[i])
            coats[i] = make(15 * i);
    choices[0] = NAN;
    for (int i = 1; i < TAILOR_CANVAS_CHOICE_COUNT; i++)
        choices[i] = bytes_small(&b) % 4 ? NAN : bytes_number(&b);
    if (bytes_small(&b) % 4)
        choices[TAILOR_CANVAS_CHOICE_ANGLE] = bytes_small(&b) % 181 - 90.0;
    if (bytes_small(&b) % 2)
        choices[TAILOR_CANVAS_CHOICE_WIDTH] = 200 + 4 * bytes_small(&b);
    if (bytes_small(&b) % 2)
        choices[TAILOR_CANVAS_CHOICE_OVERLAP] = bytes_small(&b) % 64;
    if (bytes_small(&b) % 2)
        choices[TAILOR_CANVAS_CHOICE_SIDES] = 1 + bytes_small(&b) % 2;
    const char *cloth = bytes_small(&b) % 4 ? "canvas" : "haircloth";
    const tailor_pattern *coat = tailor_coat_pattern(coats[bytes_small(&b) % 2]);
    const size_t known = bytes_small(&b) % (TAILOR_CANVAS_CHOICE_COUNT + 1);
    if (tailor_canvas_begin(coat, cloth, choices, known, size, NULL, &canvas, &fault) == TAILOR_OK) {
        size_t written = 0;
        check(tailor_canvas_step(canvas, 3) == TAILOR_OK);
        look_at(canvas);
        check(tailor_sheet_draw_canvas((const tailor_canvas *const *)&canvas, 1, NULL, count_bytes, &written,
                                       &fault) == TAILOR_OK && written > 1000);
    } else
        check(canvas == NULL && fault.sentence[0] != 0);
    tailor_canvas_free(canvas);
    return 0;
}
