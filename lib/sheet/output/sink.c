#include "write.h"

#include <string.h>

void tailor_in_sink_flush(struct tailor_in_sink *sink)
{
    if (sink->held && !sink->broken && sink->write(sink->user, sink->buffer, sink->held) != 0)
        sink->broken = 1;
    sink->held = 0;
}

void tailor_in_sink_put(struct tailor_in_sink *sink, const char *data, size_t bytes)
{
    while (bytes && !sink->broken) {
        size_t room = sizeof sink->buffer - sink->held, now = bytes < room ? bytes : room;
        memcpy(sink->buffer + sink->held, data, now);
        sink->held += now;
        data += now;
        bytes -= now;
        if (sink->held == sizeof sink->buffer)
            tailor_in_sink_flush(sink);
    }
}

void tailor_in_sink_string(struct tailor_in_sink *sink, const char *text)
{
    tailor_in_sink_put(sink, text, strlen(text));
}

void tailor_in_sink_escaped(struct tailor_in_sink *sink, const char *text)
{
    static const struct {
        char plain;
        const char *escaped;
    } table[] = {{'&', "&amp;"}, {'<', "&lt;"}, {'>', "&gt;"}, {'"', "&quot;"}, {'\'', "&#39;"}};
    for (;;) {
        size_t plain = strcspn(text, "&<>\"'");
        tailor_in_sink_put(sink, text, plain);
        text += plain;
        if (!*text)
            return;
        for (size_t i = 0; i < sizeof table / sizeof *table; i++)
            if (table[i].plain == *text)
                tailor_in_sink_string(sink, table[i].escaped);
        text++;
    }
}
