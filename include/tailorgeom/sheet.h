/* libtailorgeom: sheet -- drawing patterns. Companion library libtailorgeom-sheet (tailorgeom-sheet.pc), which adds
 * cairo.
 *
 * Two sheets: the pattern, every piece at true size, and the fronts of several coats side by side as worn. Each is
 * composed once and then written as SVG, PDF or PNG through the caller's function; the library opens no file.
 * A pattern can also be had as DXF, pieces without a sheet.
 *
 *     static int to_file(void *user, const void *data, size_t bytes)
 *     {
 *         return fwrite(data, 1, bytes, user) != bytes;
 *     }
 *     tailor_sheet_draw_pattern(coat, "Order 12", TAILOR_PRINT_MM, TAILOR_SHEET_SVG, to_file, file, &fault);
 *
 * The same call gives the same bytes on one machine: there is no date and no chance in a sheet. Before cutting, measure
 * the test square: a printer that scales to fit the paper spoils the pattern.
 */
#ifndef TAILORGEOM_SHEET_H
#define TAILORGEOM_SHEET_H

#include <tailorgeom/coat.h>

#ifdef __cplusplus
extern "C" {
#endif

/** File formats. @since 0.1.0 */
enum {
    /** SVG 1.1: one user unit is one millimetre, width and height are in mm, coordinates are rounded to 0.001 mm.
     *  Text is text, in a common sans-serif. Every piece is a group with a title ("forepart"), and in it every layer
     *  ("forepart: outline", "marks", "labels"). For screens, plotters and further drawing. */
    TAILOR_SHEET_SVG = 1,
    /** PDF: one page of the whole size, in vectors, the font embedded; 5080 mm a side at most (ISO 32000). For
     *  printing. */
    TAILOR_SHEET_PDF = 2,
    /** PNG: 2400 pixels along the longer side, on white. For looking; not true to size. */
    TAILOR_SHEET_PNG = 3,
    /** DXF of release 12 in ASCII, mm, of a pattern only; for cutters, plotters and drawing programs. A block a piece,
     *  named like it and in its own axes, and an insert of each, apart from each other in rows. What a line is, its
     *  layer tells: "outline" (one closed polyline a piece, net), "notch", "grain", "fold", "button" (circles), "hole",
     *  "dart", "mark" (all other lines), "text" (name, side, how many, of which cloth, title). Curves are chords at
     *  most 0.01 mm away, coordinates are rounded to 0.0001 mm; `print` does not matter. These layers are this
     *  library's own; no standard of pattern exchange is followed. @since 0.2.0 */
    TAILOR_SHEET_DXF = 4
};

/** The caller's writer. It is given the file from begin to end, some thousands of bytes at a time, in memory that is
 *  good only during the call, and returns 0 when it took all of them. Anything else stops the drawing: the call
 *  returns TAILOR_WRITE_FAILED, and the writer is not called again. @since 0.1.0 */
typedef int (*tailor_sheet_writer)(void *user, const void *data, size_t bytes);

/** Draw a pattern at true size: all its pieces, net, apart from each other and with the grain upright. The sheet is as
 *  large as it must be; it is not cut into pages.
 *
 *  Pieces of one cloth stand together under a heading that says what they are cut from, how many patterns there are
 *  and how many pieces are cut from them: first "cloth", then "lining", then "canvas", then the others as they first
 *  appear in the pattern. Back, sidebody and forepart stand side by side at their common levels; in each group the
 *  other pieces follow, the tallest first.
 *
 *  Each piece is labelled with its name, the side of the wearer that it is drawn for ("left and right" for
 *  TAILOR_SIDE_BOTH), the side of the cloth that is up, how many are cut and whether half of them mirrored, of which
 *  cloth, and with the title. The label stands in the piece, smaller or slanting when it must; along a strip in one
 *  line; and where a piece is too small for that, beside it, with a line that leads to the piece. Its edges bear
 *  their names and lengths, its notches and marks their names; what has no room inside stands outside. Lines differ
 *  by weight and dash, never by colour, and a legend explains them. The heading has the title, the unit, the edition,
 *  and the test square of 100 mm.
 *
 *  pattern: read only. title: UTF-8, cut where it would not fit, on a piece after two lines; NULL and "" stand for
 *  "Coat pattern". What is not UTF-8, and characters that a file cannot hold, become U+FFFD. PDF and PNG use one font,
 *  DejaVu Sans where it is there: a script that the font lacks comes out as boxes. print: a TAILOR_PRINT_ of order.h,
 *  for the lengths of edges. format: a TAILOR_SHEET_. write, user: where the file goes. fault: may be NULL.
 *
 *  Returns TAILOR_OK, or
 *  TAILOR_BAD_ARGUMENT: no pattern, no writer, an unknown print or format, or a PDF beyond 5080 mm (the fault's value
 *      is the side); nothing was written;
 *  TAILOR_NO_MEMORY: malloc or cairo had none left;
 *  TAILOR_WRITE_FAILED: the writer refused; what it took before is no whole file, so write beside and rename;
 *  TAILOR_INTERNAL: cairo failed for another reason.
 *
 *  Memory: some 0.2 MB of malloc for a coat, 20 MB for a PNG, all given back before the return, but for a cache of
 *  the font that cairo and fontconfig keep for the process (1 MB, the same after any number of sheets). Threads: any
 *  number may draw at the same time. Cost: 0.5 ms as SVG, 6 ms as PDF, 0.2 s as PNG. @since 0.1.0 */
TAILOR_API tailor_status tailor_sheet_draw_pattern(const tailor_pattern *pattern, const char *title, int print,
                                                   int format, tailor_sheet_writer write, void *user,
                                                   tailor_fault *fault);

/** Draw the fronts of 1 to 100 coats side by side as worn, up to five in a row, all at the scale 1 : 8, with a scale
 *  bar: both foreparts, the wearer's left over the right, lapel and collar turned over the break line, buttons and
 *  holes, dart and pockets. What lies beneath is not drawn. How the collar goes round the back of the neck is drawn
 *  freely.
 *
 *  Across each left front two dimension lines run from the front of the scye to the break line (below the break
 *  point, to the front edge): on the scye line, and at the level of a three-button coat's top button. That is the
 *  coverage of the chest, tailor_fold_coverage(); it is written beside them in inches, to the eighth, and in whole
 *  mm. A hole beyond the break line is drawn where it lies on the turned lapel; a button that is covered is not
 *  drawn.
 *
 *  patterns: count of them, each with a piece "forepart" that has the edges front_seam, hem, front_edge, gorge,
 *  shoulder and scye, and the points stand_point, break_point, scye_front, centre_front_waist and top_button_level.
 *  Of its marks lapel_turned, collar_turned, dart, belly_cut, hip_pocket, breast_welt, folds, buttons and holes are
 *  drawn where they are. labels: a text a coat, UTF-8, cut where it would not fit; the array or any of them may be
 *  NULL. title: as above, without one "Fronts compared".
 *
 *  Returns as tailor_sheet_draw_pattern() does; TAILOR_BAD_ARGUMENT also for a count out of range, and for a pattern
 *  without a whole forepart (the fault's value is its place in the list, from 0). Memory: some 0.3 MB for five coats;
 *  the rest as there. Cost: 1 ms as SVG, 10 ms as PDF, 0.1 s as PNG for five coats. @since 0.1.0 */
TAILOR_API tailor_status tailor_sheet_draw_fronts(const tailor_pattern *const *patterns, const char *const *labels,
                                                  size_t count, const char *title, int format,
                                                  tailor_sheet_writer write, void *user, tailor_fault *fault);

#ifdef __cplusplus
}
#endif
#endif
