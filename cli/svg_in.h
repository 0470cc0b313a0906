/* svg_in: outlines from an SVG file, as far as they are plain.
 *
 * Every path is a piece: its id is the piece's name, `piece_3` where it has none. It is one closed outline of M, L, H,
 * V, C, Q and Z, capital or small; at its corners, where it turns by more than 10 degrees, it is cut into edges,
 * `edge_1` and so on, and each corner is a named point, `corner_1` where edge_1 begins. The size of a unit comes from
 * the width, which is in mm, cm or in, and the viewBox. What would need more than that (transforms, arcs, other shapes)
 * is refused; what draws no outline is passed over. y is turned to run up, and outlines to run counter-clockwise. */
#ifndef CLI_SVG_IN_H
#define CLI_SVG_IN_H

#include <stdbool.h>
#include <stddef.h>
#include <tailorgeom/pattern.h>

/** The pattern, to be given back with tailor_pattern_free(); NULL when it was refused; said. */
tailor_pattern *svg_read(const char *source, const char *text, size_t bytes);

#endif
