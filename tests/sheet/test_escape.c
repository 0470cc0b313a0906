/* The sink and its escaping: what is put in comes out whole, with XML's five characters escaped, in blocks that fit. */
#include "coats.h"
#include "../../lib/sheet/output/write.h"

static struct tailor_in_sink sink_to(struct kept *kept)
{
    struct tailor_in_sink sink = {.write = keep, .user = kept};
    return sink;
}

static const struct {
    const char *text, *escaped;
} escapes[] = {
    {"", ""},
    {"plain \xC3\xA9", "plain \xC3\xA9"},
    {"<", "&lt;"},
    {"a & b", "a &amp; b"},
    {"&amp;", "&amp;amp;"},
    {"]]>", "]]&gt;"},
    {"\"40 3/8\"\"", "&quot;40 3/8&quot;&quot;"},
    {"it's", "it&#39;s"},
    {"</title><script>", "&lt;/title&gt;&lt;script&gt;"},
};

static void five_characters_are_escaped(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof escapes / sizeof *escapes; i++) {
        struct kept kept = {0};
        struct tailor_in_sink sink = sink_to(&kept);
        tailor_in_sink_escaped(&sink, escapes[i].text);
        tailor_in_sink_string(&sink, ".");
        tailor_in_sink_flush(&sink);
        assert_int_equal(kept.bytes, strlen(escapes[i].escaped) + 1);
        assert_memory_equal(kept.data, escapes[i].escaped, kept.bytes - 1);
        free(kept.data);
    }
}

static void blocks_join_to_the_whole(void **state)
{
    struct kept kept = {0};
    struct tailor_in_sink sink = sink_to(&kept);
    static char text[10000];
    (void)state;
    for (size_t i = 0; i < sizeof text; i++)
        text[i] = (char)('a' + i % 26);
    for (size_t i = 0; i < sizeof text; i += 125)
        tailor_in_sink_put(&sink, text + i, 125);
    assert_true(kept.bytes < sizeof text);
    tailor_in_sink_flush(&sink);
    tailor_in_sink_flush(&sink); /* nothing is left */
    assert_int_equal(kept.bytes, sizeof text);
    assert_memory_equal(kept.data, text, sizeof text);
    tailor_in_sink_put(&sink, text, sizeof text); /* longer than the buffer at once */
    tailor_in_sink_flush(&sink);
    assert_int_equal(kept.bytes, 2 * sizeof text);
    assert_memory_equal(kept.data + sizeof text, text, sizeof text);
    free(kept.data);
}

static void a_refusal_ends_it(void **state)
{
    struct kept kept = {.refuse = 2};
    struct tailor_in_sink sink = sink_to(&kept);
    static char text[50000];
    (void)state;
    memset(text, 'x', sizeof text);
    tailor_in_sink_put(&sink, text, sizeof text);
    tailor_in_sink_put(&sink, text, sizeof text);
    tailor_in_sink_flush(&sink);
    assert_true(sink.broken);
    assert_int_equal(kept.calls, 2);
    assert_true(kept.bytes < sizeof text);
    free(kept.data);
}

int test_escape(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(five_characters_are_escaped),
        cmocka_unit_test(blocks_join_to_the_whole),
        cmocka_unit_test(a_refusal_ends_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
