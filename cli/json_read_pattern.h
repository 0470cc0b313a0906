/* json_read_pattern: a pattern file, as `draft --json` writes it and as other programs may, into a pattern.
 *
 *     {"format": "tailorgeom-pattern", "format_version": 2, "edition": 1, "style": {"buttoning": "three-button", ...},
 *      "for_toile": false,
 *      "pieces": [{"name": "flap", "cut": 2, "mirrored": true, "side": "right", "cloth": "cloth",
 *                  "outline": [[[x, y], [x, y], [x, y], [x, y]], ...],
 *                  "edges": [{"name": "mouth", "first": 0, "count": 1}, ...],
 *                  "points": [{"name": "tip", "x": 0, "y": 0}, ...],
 *                  "marks": [{"name": "grain", "kind": "grain", "path": [...]}, ...]}, ...],
 *      "seams": [{"name": "side", "a": [{"piece": "flap", "edge": "mouth", "from": 0, "to": 150}, ...],
 *                                 "b": [...], "ease": 0}, ...]}
 *
 * mm; an outline is closed and counter-clockwise, its edges are runs of it, in order, and together the whole of it:
 * edge i is `count` cubics from the `first`. `edition` and `style` tell what the pattern is a draft of: edition 0, or
 * none, is no draft, and a choice that is not told is not known. `for_toile` (false where it is left out) tells whether
 * the pattern is for a toile only, as its sheets say then. `cut` is 1, `mirrored` false, `side` "both" and
 * `cloth` "cloth" where they are left out; points, marks and seams may be; so may a seam's `ease` (0), and `from` or
 * `to`, or be null: the edge's end. A side of a seam is its stretches in the order of sewing. Names have 1 to 31 small
 * letters, digits and _, a letter first. Other members are ignored: what a draft tells besides (fields, quantities,
 * checks) is not a pattern's matter. */
#ifndef CLI_JSON_READ_PATTERN_H
#define CLI_JSON_READ_PATTERN_H

#include <stddef.h>

#include <tailorgeom/pattern.h>

enum { JSON_WHY = 400 };

/** The pattern, to be given back with tailor_pattern_free(); or NULL, and in `why` a sentence: where, and what. */
tailor_pattern *json_read_pattern(const char *text, size_t bytes, char why[JSON_WHY]);

#endif
