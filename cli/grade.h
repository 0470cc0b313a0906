/* grade: what the parts of `tailorgeom grade` share. */
#ifndef CLI_GRADE_H
#define CLI_GRADE_H

#include "commands.h"
#include "graded.h"
#include "json_out.h"

/** Sheets of all sizes that drafted, and with --nest instead one nest, into the directory of -o. False when something
 *  could not be written; said. Says what was written, unless quiet. */
bool grade_write(const graded_list *all, const sizes *t, const settings *s, bool quiet);

/** The size nearest to the client on the card, what has to be changed on it, and what comes of it. An exit status. */
int grade_base(const sizes *t, const card *c, const settings *s);

/** Grade a pattern file by --rules. An exit status. */
int grade_by_rules(const settings *s);

/** The quantities that a cutter looks at first; ends with NULL. */
extern const char *const grade_quantities[];

#endif
