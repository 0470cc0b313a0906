/* Kinds of line. They differ by weight and dash, so that a sheet is as good in black and white. */
#ifndef TAILOR_IN_SHEET_STYLE_H
#define TAILOR_IN_SHEET_STYLE_H

enum {
    TAILOR_IN_OUTLINE, /* net edge of a piece */
    TAILOR_IN_MARKED,  /* pocket, welt */
    TAILOR_IN_FOLD,    /* break line, crease */
    TAILOR_IN_DART,    /* sewn or cut away */
    TAILOR_IN_LEVEL,   /* scye, waist, seat line */
    TAILOR_IN_GRAIN,
    TAILOR_IN_NOTCH,
    TAILOR_IN_BUTTON,
    TAILOR_IN_HOLE,
    TAILOR_IN_TURNED,  /* where a turned part comes to lie */
    TAILOR_IN_THIN,    /* frames, dimension lines */
    TAILOR_IN_INK,     /* filled black: arrow heads */
    TAILOR_IN_PAPER,   /* filled white, to cover what lies beneath */
    TAILOR_IN_LAPEL,   /* filled pale: the reverse that shows when turned */
    TAILOR_IN_BENEATH, /* filled a little darker: cloth seen in depth */
    TAILOR_IN_NEST,    /* sizes of a nest: this and the following take turns */
    TAILOR_IN_NEST_STYLES = 5,
    TAILOR_IN_STYLES = TAILOR_IN_NEST + TAILOR_IN_NEST_STYLES
};

/** `ink` and `fill` are greys from 0 black to 1 white, negative for none; weight and dashes in mm before line_scale. */
struct tailor_in_style {
    double weight, ink, fill;
    int dashes;
    double dash[4];
};

extern const struct tailor_in_style tailor_in_styles[TAILOR_IN_STYLES];

#endif
