/* A path walked once: the few points on the page between which it is straight enough, with the length up to each. */
#ifndef TAILOR_IN_SHEET_TRAIL_H
#define TAILOR_IN_SHEET_TRAIL_H

#include <tailorgeom/sheet.h>

enum { TAILOR_IN_TRAIL = 256 };

struct tailor_in_trail {
    int count;
    tailor_point at[TAILOR_IN_TRAIL];
    double length[TAILOR_IN_TRAIL];
};

/** Chords into which a cubic is cut so that none lies more than about 0.1 mm off it: 1 to 64. */
int tailor_in_chords(const tailor_cubic *c);

/** Walk a path taken to the page through `place`, as in tailor_path_affine(). A path of very many cubics is walked by
 *  points of it only. */
void tailor_in_trail_walk(struct tailor_in_trail *t, const double place[6], const tailor_cubic *path, size_t count);
double tailor_in_trail_length(const struct tailor_in_trail *t);
/** First point of the trail, from 1, that is not nearer to its begin than a length. */
int tailor_in_trail_after(const struct tailor_in_trail *t, double length);
/** Place at a length from the begin, 0 to the whole. */
tailor_point tailor_in_trail_point(const struct tailor_in_trail *t, double length);

#endif
