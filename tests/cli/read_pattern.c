/* A pattern file on standard input, read and written again as its pieces and seams; or why it cannot be. */
#include "../../cli/json_out.h"
#include "../../cli/json_read_pattern.h"

#include <stdio.h>
#include <stdlib.h>

int main(void)
{
    size_t room = 1 << 22, bytes;
    char *text = malloc(room), why[JSON_WHY] = "";
    if (!text)
        return 2;
    bytes = fread(text, 1, room, stdin);
    tailor_pattern *pattern = json_read_pattern(text, bytes, why);
    free(text);
    if (!pattern)
        return fprintf(stderr, "%s\n", why), 1;
    json_t *document = json_pattern_document(pattern);
    if (!json_put(document, "pieces", json_pieces(pattern)) || !json_put(document, "seams", json_seams(pattern)))
        return 2;
    int status = json_print(document);
    tailor_pattern_free(pattern);
    return status;
}
