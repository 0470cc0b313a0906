/* tailorgeom import: outlines from an SVG file into a pattern file. */
#include "commands.h"
#include "complain.h"
#include "examined.h"
#include "json_out.h"
#include "output.h"
#include "svg_in.h"
#include "text_in.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>

static json_t *document_of(const tailor_pattern *pattern)
{
    json_t *document = json_pattern_document(pattern);
    return json_whole(document, document && json_put(document, "pieces", json_pieces(pattern)) &&
                                    json_put(document, "seams", json_seams(pattern)));
}

static int write_document(json_t *document, const char *path)
{
    output_set set = {.count = 0};
    output *file = document ? output_open(&set, path) : NULL;
    if (!document)
        complain("out of memory");
    if (file && (json_dumpf(document, file->stream, JSON_COMPACT | JSON_REAL_PRECISION(17)) != 0 ||
                 fputc('\n', file->stream) == EOF))
        file->trouble = errno ? errno : EIO;
    bool good = file && output_close(file) && output_commit(&set);
    output_discard(&set);
    json_decref(document);
    if (good)
        printf("wrote %s\n", path);
    return good ? EXIT_DONE : EXIT_REFUSED;
}

int run_import(const settings *s)
{
    size_t length = 0;
    char *text = text_read_pattern(s->operand, &length);
    tailor_pattern *pattern = text ? svg_read(text_source(s->operand), text, length) : NULL;
    int status = EXIT_REFUSED;
    if (pattern && examined(text_source(s->operand), NULL, pattern, NULL))
        status = s->output ? write_document(document_of(pattern), s->output) : json_print(document_of(pattern));
    tailor_pattern_free(pattern);
    free(text);
    return status;
}
