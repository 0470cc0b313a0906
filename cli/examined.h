/* examined: patterns that come from a file, a drawing or rules, looked at before anything is made of them. */
#ifndef CLI_EXAMINED_H
#define CLI_EXAMINED_H

#include <stdbool.h>

#include <tailorgeom/pattern.h>

/** True when the pattern can be cut. What refuses it, and cautions, go to standard error with the names of pieces,
 * edges and the rest. `source` is the file it is of, `step` the steps it was graded by; both may be NULL. `base` (NULL:
 * none) is what it was graded from. */
bool examined(const char *source, const char *step, const tailor_pattern *pattern, const tailor_pattern *base);

#endif
