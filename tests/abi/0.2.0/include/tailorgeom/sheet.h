/* libtailorgeom: sheet -- drawing patterns. Companion library libtailorgeom-sheet (tailorgeom-sheet.pc), which adds
 * cairo.
 *
 * The sheets: the pattern, every piece at true size; the fronts of several coats side by side as worn; two drafts on
 * one another, piece by piece; a nest of sizes; the section of a roll; layouts of canvas; and the workroom's ticket, a
 * page of text. Each is composed once and then written as SVG, PDF or PNG through the caller's function; the library
 * opens no file.
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

#include <tailorgeom/canvas.h>
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

/** Draw two drafts on one another, true to size: each piece of the one laid on the same piece of the other, both at
 *  their own origin, so that what moved against the piece's axes is seen and measured. What was before is dashed, what
 *  is after is solid, outlines heavy and marks thin; a legend says so, with the labels. Below each piece stands its
 *  name and how far the two outlines are apart at most, or that it is in one draft only.
 *
 *  Pieces belong together by their name. Where one draft has "forepart" and the other "forepart_right" and
 *  "forepart_left", that of both sides is laid on each, on the left as its mirror image.
 *
 *  before, after: read only; any patterns. before_label, after_label: texts of the legend ("before the fitting"),
 *  UTF-8, cut where they would not fit; may be NULL. title: as above, without one "Two drafts overlaid". print: a
 *  TAILOR_PRINT_ for the distances. The distance is taken at six places on each curve, and rounded to what is printed.
 *
 *  Returns, memory and threads as tailor_sheet_draw_pattern(); TAILOR_BAD_ARGUMENT when a pattern is missing. Cost:
 *  some 3 ms as SVG for two coats with all pieces, more as PDF and PNG as there. @since 0.2.0 */
TAILOR_API tailor_status tailor_sheet_draw_overlay(const tailor_pattern *before, const tailor_pattern *after,
                                                   const char *before_label, const char *after_label,
                                                   const char *title, int print, int format,
                                                   tailor_sheet_writer write, void *user, tailor_fault *fault);

/** Kinds of a ticket's lines. @since 0.2.0 */
enum {
    TAILOR_TICKET_HEADING = 1, /**< a label in bold over a line; begins a section */
    TAILOR_TICKET_ROW = 2,     /**< a label, and a value beside it */
    TAILOR_TICKET_GROUP = 3,   /**< the same in bold, before rows that belong together */
    TAILOR_TICKET_TEXT = 4,    /**< one text over the width of the column: its label, else its value */
    TAILOR_TICKET_CAUTION = 5  /**< the same in bold with a bar beside it */
};

/** Set a workroom ticket: one upright page of A4 (210 by 297 mm), black on white, in letters as large as will hold all
 *  of it, from 4 mm down to 1.5 mm. It is the caller's own text, so any program can say on it what its workroom needs.
 *
 *  Lines before the first heading run over the whole page below the title; the sections after it stand in one column,
 *  or in two when that keeps the letters larger. A section of less than half a column is not broken, nor is a group
 *  with its rows; where one goes on in the other column its heading stands there again. The values of a section begin
 *  on one line. Texts are broken at blanks, but not at a no-break space (U+00A0); nothing is cut.
 *
 *  title: UTF-8; NULL and "" leave it out. kinds: `count` TAILOR_TICKET_. labels, values:
 *  `count` texts each, UTF-8 as in tailor_sheet_draw_pattern(); an array or any text may be NULL, which stands for "".
 *  count: 0 to 400. format, write, user, fault: as in tailor_sheet_draw_pattern().
 *
 *      static const int32_t kinds[] = {TAILOR_TICKET_HEADING, TAILOR_TICKET_ROW};
 *      const char *const labels[] = {"Finished measures", "chest"}, *const values[] = {NULL, "1126 mm"};
 *      tailor_sheet_draw_ticket("Order 12", kinds, labels, values, 2, TAILOR_SHEET_PDF, to_file, file, &fault);
 *
 *  Returns, memory and threads as tailor_sheet_draw_pattern(); TAILOR_BAD_ARGUMENT also for kinds that are missing or
 *  unknown (the fault's value is the line's place in the list, from 0), and for more text than one page holds (the
 *  value is the count). The page has no date and nothing that the caller did not give. Cost: some ms, and 10 ms more as
 *  PDF. @since 0.2.0 */
TAILOR_API tailor_status tailor_sheet_draw_ticket(const char *title, const int32_t *kinds, const char *const *labels,
                                                  const char *const *values, size_t count, int format,
                                                  tailor_sheet_writer write, void *user, tailor_fault *fault);

/** Draw layouts of canvas (canvas.h) one below the other at the scale 1 : 5, and beneath each whose body canvas is
 *  turned the straight one, to compare: the strip with its selvedges (or fold) and where it is cut off, a measure along
 *  it, the pieces where they are to be chalked, each with its name, the side of the wearer, the warp as an arrow and
 *  the pattern's grain mark as a broken line with the angle between the two. A table tells the length to be cut off,
 *  yield, waste, what the angle costs, and joins. On doubled canvas the ply that is seen is drawn.
 *
 *  canvases: 1 to 10 of them, read only; each one's pattern must still be there. title: as above, without one "Canvas
 *  layout". print: as above, for all lengths.
 *
 *  Returns as tailor_sheet_draw_pattern() does; TAILOR_BAD_ARGUMENT also for a count out of range and a NULL among the
 *  canvases. Cost: some milliseconds as SVG and PDF, 0.1 s as PNG. @since 0.2.0 */
TAILOR_API tailor_status tailor_sheet_draw_canvas(const tailor_canvas *const *canvases, size_t count, const char *title,
                                                  int print, int format, tailor_sheet_writer write, void *user,
                                                  tailor_fault *fault);

/** Draw the section of a lapel, three times its size: forepart, crest and lapel as one line of cloth on the chest, with
 *  dimensions of what the line tells: the height of the roll, its smallest radius, and where the edge stands off by
 *  0.2 mm or more, by how much. Black on white, with a scale bar.
 *
 *  line: line_count (3 to 10000) points in mm as tailor_roll_section() gives them: from the held forepart over the
 *  crease to the edge of the lapel, x along the chest toward the crease, y off the chest; links of about equal length,
 *  all within 1000 mm of the origin, rising off the chest after the first. Between its points the line is drawn
 *  rounded.
 *  labels: label_count (at most 12) lines of text beneath the picture, UTF-8, cut where they would not fit: what the
 *  section rests on; NULL and 0 for none. title: as above, without one "Section of the roll". print: a TAILOR_PRINT_
 *  of order.h, for the dimensions.
 *
 *  Returns as tailor_sheet_draw_pattern() does; TAILOR_BAD_ARGUMENT also for a line or labels that are not such (the
 *  fault's value is the point's place in the line, from 0, or the count). Cost: 0.1 ms as SVG, 3 ms as PDF, 0.1 s as
 *  PNG. @since 0.2.0 */
TAILOR_API tailor_status tailor_sheet_draw_section(const tailor_point *line, size_t line_count,
                                                   const char *const *labels, size_t label_count, const char *title,
                                                   int print, int format, tailor_sheet_writer write, void *user,
                                                   tailor_fault *fault);

/** Draw a nest: all sizes of each piece on one another at true size, and under each piece a table of the grade.
 *
 *  Every piece of the base is drawn once, with the piece of the same name of each other size laid on it; where a size
 *  lacks it, it is left out. The base has a heavy line; the others take turns of five kinds of thinner ones, dashed,
 *  whole, dotted, so that neighbours differ without colour; each size is named beside the corner where they lie
 *  farthest apart. Notches, darts and folds are drawn of every size; pockets, buttons and grain of the base. The table
 *  has a line for each named point, and for each beginning of an edge where no point lies: how far it goes from a size
 *  to the next, mm to the tenth, seen from where the sizes are laid on each other: dx toward the front, dy up.
 *
 *  patterns: 1 to 32, in the order of their sizes. labels: a short text a size ("40"), UTF-8; the array or any of them
 *  may be NULL. base: which of them, from 0. align: the point that the sizes are laid on each other at, as named in the
 *  pattern ("scye_front") or an end of an edge ("hem.start"), in each piece that has it; NULL, and pieces without it:
 *  nape of the back, bottom of the scye of the sidebody, front of the scye of the forepart, front pitch of the sleeves,
 *  crease of the collar at the centre back, else where the first edge begins (common practice, then own judgement).
 *  title: as above, without one "Nest of sizes". format, write, user, fault as in tailor_sheet_draw_pattern().
 *
 *  Returns as tailor_sheet_draw_pattern() does; TAILOR_BAD_ARGUMENT also for a count or base out of range, a pattern
 *  that is not there, and a point that no piece of the base has. Memory and threads as there. Cost: 1 ms as SVG for
 *  seven sizes of six pieces. @since 0.2.0 */
TAILOR_API tailor_status tailor_sheet_draw_nest(const tailor_pattern *const *patterns, const char *const *labels,
                                                size_t count, size_t base, const char *align, const char *title,
                                                int format, tailor_sheet_writer write, void *user, tailor_fault *fault);

#ifdef __cplusplus
}
#endif
#endif
