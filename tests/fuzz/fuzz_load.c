/* A load expression, a cell of an AR column or a note. The first byte chooses; what was read must read back from its
 * canonical form. */
#include "fuzz/target.h"

#include "base/text.h"
#include "model/effect.h"
#include "model/loading.h"
#include "reading/load/note_reader.h"

#include <math.h>
#include <string.h>

const char target_name[] = "load";

#define INPUTS_A_READER 200 /* texts are remembered; patterns are dear to compile */

static struct arena *arena;
static struct loads *loads;
static struct load_reader *reader;

static void renew(void)
{
    static unsigned inputs;
    if (inputs++ % INPUTS_A_READER)
        return;
    if (reader)
        load_reader_free(reader);
    arena_free(arena);
    arena = arena_new();
    loads = loads_new(arena);
    reader = load_reader_new(arena, loads, target_gym());
}

static void check_fault(const char *text, const struct load_fault *fault)
{
    MUST(fault->message && *fault->message);
    MUST(fault->column + fault->length <= strlen(text));
}

/* Alone, so that the canonical form is judged and not what was remembered of it. */
static void check_reads_back(const struct load *load)
{
    const struct load_style canonical = {UNIT_KG, '.'};
    struct load_fault fault = {0};
    const char *printed = load_print(arena, load);
    const struct load *again = load->straight == STRAIGHT_NONE
                                   ? ar_cell_read(reader, load->ar, AR_COLUMN_ANY, false, canonical, &fault)
                                   : load_read(reader, printed, canonical, &fault);
    MUST(again);
    MUST(!strcmp(again->ar, load->ar));
    MUST(!strcmp(load_print(arena, again), printed));
}

static void weigh(const struct load *load, const char *lift)
{
    const struct gym *gym = target_gym();
    struct loading_context context = {gym, gym_lifter(gym, "Ada"), lift, 20000, 130, 70};
    struct effect effect = loading_effect(loading_make(arena, load, &context), gym);
    MUST(isnan(effect.bottom_kg) || (effect.bottom_kg >= 0 && effect.bottom_kg < 1e6));
    MUST(isnan(effect.top_kg) || (effect.top_kg >= 0 && effect.top_kg < 1e6));
    MUST(isnan(effect.mean_kg) || (effect.mean_kg >= 0 && effect.mean_kg < 1e6));
}

static void check_load(const char *text, const struct load *load, const struct load_fault *fault)
{
    if (!load) {
        check_fault(text, fault);
        return;
    }
    check_reads_back(load);
    weigh(load, "squat");
    weigh(load, "deadlift");
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    struct load_fault fault = {0};
    if (!length || memchr(bytes, 0, length) || !text_is_utf8((const char *)bytes, length))
        return 0; /* readers of logs give valid UTF-8 without NUL only */
    renew();
    struct load_style style = {*bytes & 1 ? UNIT_LB : UNIT_KG, *bytes & 2 ? ',' : '.'};
    const char *text = arena_text(arena, (const char *)bytes + 1, length - 1);
    switch (*bytes >> 2 & 7) {
    case 0:
    case 1:
    case 2:
        check_load(text, load_read(reader, text, style, &fault), &fault);
        break;
    case 3:
    case 4:
    case 5:
        check_load(text,
                   ar_cell_read(reader, text, (enum ar_column)((*bytes >> 2 & 7) - 3), *bytes >> 5 & 7, style, &fault),
                   &fault);
        break;
    default: {
        const struct note_ar *note = note_read(reader, text, style, &fault);
        if (!note)
            check_fault(text, &fault);
        else if (note->ar)
            check_load(text, note->ar, &fault);
    }
    }
    return 0;
}
