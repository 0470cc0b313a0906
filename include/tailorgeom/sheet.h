/* libtailorgeom: sheet -- drawing patterns. Companion library libtailorgeom-sheet (tailorgeom-sheet.pc), which adds
 * cairo.
 *
 * The sheets: the pattern, every piece at true size; the fronts of several coats side by side as worn; two drafts on
 * one another, piece by piece; a nest of sizes; the section of a roll; layouts of canvas; and the workroom's ticket, a
 * page of text. Each is composed once and then written as SVG, PDF or PNG through the caller's function; the library
 * opens no file. A pattern can also be had as DXF, pieces without a sheet. How a drawing is set, and whose it is, says
 * a page:
 *
 *     static int to_file(void *user, const void *data, size_t bytes)
 *     {
 *         return fwrite(data, 1, bytes, user) != bytes;
 *     }
 *     tailor_page *page = NULL;
 *     tailor_page_new(NULL, &page, &fault);
 *     tailor_page_set(page, TAILOR_PAGE_FORMAT, TAILOR_SHEET_PDF, &fault);
 *     tailor_page_set_text(page, TAILOR_PAGE_TITLE, "order 12", &fault);
 *     tailor_sheet_draw_coat(coat, page, to_file, file, &fault);
 *     tailor_page_free(page);
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

/* ---- the page: how a drawing is set, and whose it is */

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
     *  most 0.01 mm away, coordinates are rounded to 0.0001 mm; the page's units are ignored. These layers are this
     *  library's own; no standard of pattern exchange is followed. @since 0.2.0 */
    TAILOR_SHEET_DXF = 4
};

/** What a page says, by number: pinned, never reused. What does not concern a sheet is ignored by it. @since 0.3.0 */
enum {
    TAILOR_PAGE_FORMAT = 1,    /**< number: a TAILOR_SHEET_; TAILOR_SHEET_SVG unless set */
    TAILOR_PAGE_UNITS = 2,     /**< number: a TAILOR_PRINT_ of order.h, for lengths in words; TAILOR_PRINT_MM */
    TAILOR_PAGE_ANONYMOUS = 3, /**< number: 1 leaves the client off; 0 */
    TAILOR_PAGE_CLIENT = 4,    /**< text: whose coat it is, "Mr O. Fallowell" */
    TAILOR_PAGE_TITLE = 5,     /**< text: which coat it is, "order 12, fitting 2" */
    TAILOR_PAGE_ALIGN = 6      /**< text: where a nest's sizes are laid on each other, see tailor_sheet_draw_nest() */
};

/** How a drawing is set. Opaque. It is made by tailor_page_new() and serves any number of drawings; many threads may
 *  draw with one page at the same time while nobody sets it.
 *
 *  Client and title, with a comma between, head the sheet and stand on every piece, so that pieces of two clients are
 *  not mixed up when they are cut apart; they are the file's title too. With neither, a sheet is headed by what it is
 *  ("Coat pattern"). They are UTF-8, of any length, and cut where they would not fit, the client first. Where a pattern
 *  that is drawn is for a toile only (tailor_pattern_toile_only()), or the page's coat is, "for toile only" stands
 *  behind them and is never cut off; no call is needed for it, and none prevents it. An anonymous page leaves the
 *  client off all of it, heading, pieces and file, and keeps the title: for a sheet that goes to an outworker, who must
 *  tell one order from another and need not know whose it is. Texts that come with a call, such as labels and the lines
 *  of a ticket, are drawn as they are.
 *
 *  Every call below that takes a page accepts NULL for it: a page of which nothing is set. @since 0.3.0 */
typedef struct tailor_page tailor_page;

/** Make a page of which nothing is set.
 *
 *  allocator: where the page and the drawings that are set on it take their memory; NULL stands for malloc and free. It
 *  must outlive the page, and be fit for threads if several draw with it. cairo, for PDF and PNG, takes its memory by
 *  itself. page: on success the caller's, to be given back with tailor_page_free().
 *
 *  TAILOR_BAD_ARGUMENT when `page` is NULL; TAILOR_NO_MEMORY. Cost: one allocation. @since 0.3.0 */
TAILOR_API tailor_status tailor_page_new(const tailor_allocator *allocator, tailor_page **page, tailor_fault *fault);

/** Give a page back. NULL is allowed. @since 0.3.0 */
TAILOR_API void tailor_page_free(tailor_page *page);

/** Set a number of a page: `setting` is a TAILOR_PAGE_ that is a number.
 *
 *  TAILOR_BAD_ARGUMENT for no page, for a setting that this library does not know or that is a text, and for a value
 *  that the setting does not have (the fault's value, low and high); the sentence names the values it has. The page
 *  stays as it was then. Cost: some instructions. @since 0.3.0 */
TAILOR_API tailor_status tailor_page_set(tailor_page *page, int setting, double value, tailor_fault *fault);

/** Set a text of a page: `setting` is a TAILOR_PAGE_ that is a text. The page keeps a copy; NULL and "" unset it. What
 *  is not UTF-8, and characters that a file cannot hold, are drawn as U+FFFD.
 *
 *  TAILOR_BAD_ARGUMENT for no page and for a setting that this library does not know or that is a number;
 *  TAILOR_NO_MEMORY. The page stays as it was then. Cost: an allocation. @since 0.3.0 */
TAILOR_API tailor_status tailor_page_set_text(tailor_page *page, int setting, const char *text, tailor_fault *fault);

/** A number of a page, as it was set or as it is when it is not; NaN for a setting that is unknown or a text. So a
 *  program can ask, with a NULL page, whether the library that runs knows a setting. @since 0.3.0 */
TAILOR_API double tailor_page_value(const tailor_page *page, int setting);

/** A text of a page, "" where it is not set; NULL for a setting that is unknown or a number. It belongs to the page,
 *  and is valid until that text is set again. @since 0.3.0 */
TAILOR_API const char *tailor_page_text(const tailor_page *page, int setting);

/** Say whose coat it is that is drawn on a page: for a ticket and the section of a roll, which see no pattern. They
 *  say "for toile only" then, and beneath the heading stands the sentence of each of the coat's cautions of class
 *  TAILOR_CAUTION_CLASS_CAUTION, in a line of its own that is cut where it would not fit (on a ticket broken into
 *  lines). So they do on a pattern sheet; on all other sheets the words stand alone.
 *
 *  coat: read only; what the page needs is copied, so the coat may go before it. NULL: no coat any more.
 *
 *  TAILOR_CHECK_FAILED, with the coat's own fault, for a coat whose check failed: nothing should be cut from it.
 *  TAILOR_BAD_ARGUMENT for no page; TAILOR_NO_MEMORY. The page stays as it was then. Cost: an allocation where there
 *  are cautions. @since 0.3.0 */
TAILOR_API tailor_status tailor_page_set_coat(tailor_page *page, const tailor_coat *coat, tailor_fault *fault);

/* ---- the sheets */

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
 *  cloth, and with the page's client and title. The label stands in the piece, smaller or slanting when it must; along
 *  a strip in one line; and where a piece is too small for that, beside it, with a line that leads to the piece. Its
 *  edges have their names and lengths, its notches and marks their names; what has no room inside stands outside. Lines
 *  differ by weight and dash, never by colour, and a legend explains them. The heading has client and title, the unit,
 *  the edition, and the test square of 100 mm.
 *
 *  pattern: read only. page: NULL allowed; its units are those of the edges' lengths. PDF and PNG use one font, DejaVu
 *  Sans if it is installed: a script that the font lacks comes out as boxes. write, user: where the file goes. fault:
 *  may be NULL.
 *
 *  Returns TAILOR_OK, or
 *  TAILOR_BAD_ARGUMENT: no pattern, no writer, or a PDF beyond 5080 mm (the fault's value is the side); nothing was
 *      written;
 *  TAILOR_NO_MEMORY: the allocator or cairo had none left;
 *  TAILOR_WRITE_FAILED: the writer refused; what it took before is no whole file, so write beside and rename;
 *  TAILOR_INTERNAL: cairo failed for another reason.
 *
 *  Memory: some 0.2 MB for a coat, 20 MB for a PNG, all given back before the return, except for a cache of the font
 *  that cairo and fontconfig keep for the process (1 MB, the same after any number of sheets). Threads: any number may
 *  draw at the same time. Cost: 0.5 ms as SVG, 6 ms as PDF, 0.2 s as PNG. @since 0.1.0 */
TAILOR_API tailor_status tailor_sheet_draw_pattern(const tailor_pattern *pattern, const tailor_page *page,
                                                   tailor_writer write, void *user, tailor_fault *fault);

/** Draw a coat's pattern, as tailor_sheet_draw_pattern() does, on the page as tailor_page_set_coat() would set it for
 *  this coat: its cautions stand beneath the heading. As DXF, which has no heading, the words "for toile only" alone.
 *
 *  coat: read only. page: NULL allowed; a coat that is set on it counts for nothing here.
 *
 *  Returns as there; TAILOR_CHECK_FAILED, with the coat's own fault, for a coat whose check failed: its pattern can be
 *  looked at with tailor_sheet_draw_pattern(), but nothing should be cut from it. TAILOR_BAD_ARGUMENT also for no coat.
 *  Nothing is written then. @since 0.3.0 */
TAILOR_API tailor_status tailor_sheet_draw_coat(const tailor_coat *coat, const tailor_page *page, tailor_writer write,
                                                void *user, tailor_fault *fault);

/** Draw the fronts of 1 to 100 coats side by side as worn, up to five in a row, all at the scale 1 : 8, with a scale
 *  bar: both foreparts, the wearer's left over the right, lapel and collar turned over the break line, buttons and
 *  holes, dart and pockets. What lies beneath is not drawn. How the collar goes round the back of the neck is drawn
 *  freely.
 *
 *  Across each left front two dimension lines run from the front of the scye to the break line (below the break point,
 *  to the front edge): on the scye line, and at the level of a three-button coat's top button. That is the coverage of
 *  the chest, tailor_fold_coverage(); it is written beside them in inches, to the eighth, and in whole mm, whatever the
 *  page's units. A hole beyond the break line is drawn where it lies on the turned lapel; a button that is covered is
 *  not drawn.
 *
 *  patterns: count of them, each with a piece "forepart" that has the edges front_seam, hem, front_edge, gorge,
 *  shoulder and scye, and the points stand_point, break_point, scye_front, centre_front_waist and top_button_level.
 *  Of its marks lapel_turned, collar_turned, dart, belly_cut, hip_pocket, breast_welt, folds, buttons and holes are
 *  drawn where they are. labels: a text a coat, UTF-8, cut where it would not fit; the array or any of them may be
 *  NULL. page: NULL allowed; without client and title the sheet is headed "Fronts compared".
 *
 *  Returns as tailor_sheet_draw_pattern() does; TAILOR_BAD_ARGUMENT also for a page in DXF, a count out of range, and a
 *  pattern without a whole forepart (the fault's value is its place in the list, from 0). Memory: some 0.3 MB for five
 *  coats; the rest as there. Cost: 1 ms as SVG, 10 ms as PDF, 0.1 s as PNG for five coats. @since 0.1.0 */
TAILOR_API tailor_status tailor_sheet_draw_fronts(const tailor_pattern *const *patterns, const char *const *labels,
                                                  size_t count, const tailor_page *page, tailor_writer write,
                                                  void *user, tailor_fault *fault);

/** Draw two drafts on one another, true to size: each piece of the one laid on the same piece of the other, both at
 *  their own origin, so that what moved against the piece's axes is seen and measured. What was before is dashed, what
 *  is after is solid, outlines heavy and marks thin; a legend says so, with the labels. Below each piece stands its
 *  name and how far the two outlines are apart at most, or that it is in one draft only.
 *
 *  Pieces belong together by their name. Where one draft has "forepart" and the other "forepart_right" and
 *  "forepart_left", that of both sides is laid on each, on the left as its mirror image.
 *
 *  before, after: read only; any patterns. labels: two texts of the legend, of before and after ("before the fitting"),
 *  UTF-8, cut where they would not fit; the array or any of them may be NULL. page: NULL allowed; its units are those
 *  of the distances; without client and title the sheet is headed "Two drafts overlaid". The distance is taken at six
 *  places on each curve, and rounded to what is printed.
 *
 *  Returns, memory and threads as tailor_sheet_draw_pattern(); TAILOR_BAD_ARGUMENT when a pattern is missing, and for a
 *  page in DXF. Cost: some 3 ms as SVG for two coats with all pieces, more as PDF and PNG as there. @since 0.2.0 */
TAILOR_API tailor_status tailor_sheet_draw_overlay(const tailor_pattern *before, const tailor_pattern *after,
                                                   const char *const labels[2], const tailor_page *page,
                                                   tailor_writer write, void *user, tailor_fault *fault);

/** Set a workroom ticket: one upright page of A4 (210 by 297 mm), black on white, in letters as large as will hold all
 *  of it, from 4 mm down to 1.5 mm. It is the caller's own text, so any program can say on it what its workroom needs.
 *
 *  Headings are bold over a line, groups bold, cautions bold with a bar beside them. Lines before the first heading run
 *  over the whole page below client and title; the sections after it stand in one column, or in two when that keeps the
 *  letters larger. A section of less than half a column is not broken, nor is a group with its rows; where one goes on
 *  in the other column its heading stands there again. The values of a section begin on one line. A line's rank sets it
 *  in, a letter's size a rank. Its basis follows in smaller letters, after the value where there is room, else below
 *  it. Texts are broken at blanks, but not at a no-break space (U+00A0); nothing is cut.
 *
 *  lines: 0 to 400 of them (tailor_line of base.h). page: NULL allowed; without client and title the lines stand alone;
 *  its units are ignored, since the lines are texts. write, user, fault: as in tailor_sheet_draw_pattern().
 *
 *      const tailor_line lines[] = {{TAILOR_LINE_HEADING, 0, "Finished measures", NULL, NULL},
 *                                   {TAILOR_LINE_ROW, 0, "chest", "1126 mm", "1016 mm measured"}};
 *      tailor_sheet_draw_ticket(lines, 2, page, to_file, file, &fault);
 *
 *  Returns, memory and threads as tailor_sheet_draw_pattern(); TAILOR_BAD_ARGUMENT also for lines that are missing or
 *  have an unknown kind or rank (the fault's value is the line's place in the list, from 0), for more text than one
 *  page holds (the value is the count), and for a page in DXF. The page has no date and nothing that the caller did not
 *  give. Cost: some ms, and 10 ms more as PDF. @since 0.2.0 */
TAILOR_API tailor_status tailor_sheet_draw_ticket(const tailor_line *lines, size_t count, const tailor_page *page,
                                                  tailor_writer write, void *user, tailor_fault *fault);

/** Draw layouts of canvas (canvas.h) one below the other at the scale 1 : 5, and beneath each whose body canvas is
 *  turned the straight one, to compare: the strip with its selvedges (or fold) and where it is cut off, a measure along
 *  it, the pieces where they are to be chalked, each with its name, the side of the wearer, the warp as an arrow and
 *  the pattern's grain mark as a broken line with the angle between the two. A table tells the length to be cut off,
 *  yield, waste, what the angle costs, and joins. On doubled canvas the ply that is seen is drawn.
 *
 *  canvases: 1 to 10 of them, read only; each one's pattern must still be there. page: NULL allowed; its units are
 *  those of all lengths; without client and title the sheet is headed "Canvas layout".
 *
 *  Returns as tailor_sheet_draw_pattern() does; TAILOR_BAD_ARGUMENT also for a count out of range, a NULL among the
 *  canvases, and a page in DXF. Cost: some milliseconds as SVG and PDF, 0.1 s as PNG. @since 0.2.0 */
TAILOR_API tailor_status tailor_sheet_draw_canvas(const tailor_canvas *const *canvases, size_t count,
                                                  const tailor_page *page, tailor_writer write, void *user,
                                                  tailor_fault *fault);

/** Draw the section of a lapel, three times its size: forepart, crest and lapel as one line of cloth on the chest, with
 *  dimensions of what the line tells: the height of the roll, its smallest radius, and where the edge stands off by
 *  0.2 mm or more, by how much. Black on white, with a scale bar.
 *
 *  line: line_count (3 to 10000) points in mm as tailor_roll_section() gives them: from the held forepart over the
 *  crease to the edge of the lapel, x along the chest toward the crease, y off the chest; links of about equal length,
 *  all within 1000 mm of the origin, rising off the chest after the first. Between its points the line is drawn
 *  rounded. labels: label_count (at most 12) lines of text beneath the picture, UTF-8, cut where they would not fit:
 *  what the section rests on; NULL and 0 for none. page: NULL allowed; its units are those of the dimensions; the sheet
 *  is headed "Section of the roll", and then client and title.
 *
 *  Returns as tailor_sheet_draw_pattern() does; TAILOR_BAD_ARGUMENT also for a line or labels that are not such (the
 *  fault's value is the point's place in the line, from 0, or the count), and for a page in DXF. Cost: 0.1 ms as SVG,
 *  3 ms as PDF, 0.1 s as PNG. @since 0.2.0 */
TAILOR_API tailor_status tailor_sheet_draw_section(const tailor_point *line, size_t line_count,
                                                   const char *const *labels, size_t label_count,
                                                   const tailor_page *page, tailor_writer write, void *user,
                                                   tailor_fault *fault);

/** Draw a nest: all sizes of each piece on one another at true size, and under each piece a table of the grade.
 *
 *  Every piece of the base is drawn once, with the piece of the same name of each other size laid on it; where a size
 *  lacks it, it is left out. The base has a heavy line; the others take turns of five kinds of thinner ones, dashed,
 *  whole, dotted, so that neighbours differ without colour; each size is named beside the corner where they lie
 *  farthest apart. Notches, darts and folds are drawn of every size; pockets, buttons and grain of the base. The table
 *  has a line for each named point, and for each beginning of an edge where no point lies: how far it goes from a size
 *  to the next, mm to the tenth whatever the page's units, seen from where the sizes are laid on each other: dx toward
 *  the front, dy up.
 *
 *  patterns: 1 to 32, in the order of their sizes. labels: a short text a size ("40"), UTF-8; the array or any of them
 *  may be NULL. base: which of them, from 0. page: NULL allowed; without client and title the sheet is headed "Nest of
 *  sizes". Its align is the point that the sizes are laid on each other at, as named in the pattern ("scye_front") or
 *  an end of an edge ("hem.start"), in each piece that has it; where it is not set, and in pieces without it: nape of
 *  the back, bottom of the scye of the sidebody, front of the scye of the forepart, front pitch of the sleeves, crease
 *  of the collar at the centre back, else where the first edge begins (common practice, then own judgement).
 *
 *  Returns as tailor_sheet_draw_pattern() does; TAILOR_BAD_ARGUMENT also for a count or base out of range, a pattern
 *  that is not there, a point to align at that no piece of the base has, and a page in DXF. Memory and threads as
 *  there. Cost: 1 ms as SVG for seven sizes of six pieces. @since 0.2.0 */
TAILOR_API tailor_status tailor_sheet_draw_nest(const tailor_pattern *const *patterns, const char *const *labels,
                                                size_t count, size_t base, const tailor_page *page,
                                                tailor_writer write, void *user, tailor_fault *fault);

#ifdef __cplusplus
}
#endif
#endif
