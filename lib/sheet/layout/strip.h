/* A strip of canvas with its pieces, drawn to scale. */
#ifndef TAILOR_IN_SHEET_STRIP_H
#define TAILOR_IN_SHEET_STRIP_H

#include "drawing.h"

#include <tailorgeom/canvas.h>

/** The scale of the picture. */
#define TAILOR_IN_STRIP_SCALE (1 / 5.0)

/** A length to be cut off: rounded up to the mm, or to the fraction of an inch that is printed. */
void tailor_in_cut_words(double length, int print, char words[48]);

/** Draw a lay with its upper left corner there on the page; ids of its groups begin with `name`. */
void tailor_in_draw_strip(struct tailor_in_drawing *d, const tailor_canvas *canvas, int straight, tailor_point corner,
                          const char *name, int print);

#endif
