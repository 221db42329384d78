#include "commands/pictures/pictures_parts.h"

#include "base/names.h"
#include "base/number.h"
#include "base/pounds.h"
#include "base/text.h"
#include "writing/escape.h"

#include <math.h>
#include <string.h>

/* --- a picture --------------------------------------------------------------------------------------------------- */

/* On a page, a heading above says whose picture it is. */
static char *title_of(struct arena *arena, const struct picture_of *of, bool for_page)
{
    const char *who = *of->lifter && !for_page ? arena_printf(arena, "%s: ", of->lifter) : "";
    char *title = arena_printf(arena, "%s%s%s%s", who, of->lift, *of->lift && *of->what ? ", " : "", of->what);
    if (!*who && !*of->lift && *title >= 'a' && *title <= 'z')
        *title = (char)(*title - 'a' + 'A');
    return title;
}

/* A file name that no other picture has, whatever the lifter and lift are called. */
static const char *file_name(struct pictures *pictures, const struct picture_of *of)
{
    struct arena *arena = pictures->session->arena;
    const char *whole = arena_printf(arena, "%s%s%s%s%s", of->lifter, *of->lifter ? "-" : "", of->lift,
                                     *of->lift ? "-" : "", of->file);
    const char *wanted = escape_file_name(arena, text_fold(arena, whole));
    const char *name = wanted;
    uint32_t number;
    for (int copy = 2; names_find(pictures->used, name, strlen(name), &number); copy++)
        name = arena_printf(arena, "%s-%d", wanted, copy);
    names_add(pictures->used, name, strlen(name));
    return name;
}

/* No line of a sentence may begin with a unit: a blank between a number and its unit does not break. */
static const char *unbroken(struct arena *arena, const char *sentence)
{
    static const char *const units[] = {"kg", "lb", "%", "reps", "waves", "wave"};
    struct output *output = output_to_memory(arena);
    for (const char *at = sentence; *at; at++) {
        bool between = *at == ' ' && at > sentence && at[-1] >= '0' && at[-1] <= '9', unit = false;
        for (size_t i = 0; between && i < sizeof units / sizeof *units; i++)
            unit = unit || text_starts(at + 1, units[i]);
        if (unit)
            output_text(output, "\u00A0");
        else
            output_put(output, at, 1);
    }
    size_t length;
    return output_memory(output, &length);
}

struct drawn picture_begin(struct pictures *pictures, const struct picture_of *of)
{
    const struct picture_style *style = &pictures->style;
    struct picture *picture = LIST_ADD(pictures->session->arena, &pictures->list);
    struct gp_script *script = gp_new(pictures->session->arena, of->template_name);
    *picture = (struct picture){.theme = of->theme,
                                .lifter = of->lifter,
                                .lift = of->lift,
                                .focus = of->focus,
                                .name = file_name(pictures, of),
                                .title = title_of(pictures->session->arena, of, style->for_page),
                                .sentence = of->sentence,
                                .script = script};
    gp_picture(script, style->kind, picture->name);
    gp_set_text(script, "unit", mass_unit_name(pictures->session->unit));
    gp_set_text(script, "heading", style->for_page ? "" : picture->title);
    gp_set_text(script, "sentence", style->for_page ? "" : unbroken(pictures->session->arena, picture->sentence));
    if (style->width) {
        gp_set_number(script, "width", style->width);
        gp_set_number(script, "height", style->height);
    }
    return (struct drawn){pictures, picture, script};
}

/* --- what it draws --------------------------------------------------------------------------------------------------
 */

void data_titles(struct drawn *drawn, const char *const *titles, size_t count)
{
    const struct session *session = drawn->pictures->session;
    const char **renamed = ARENA_ARRAY(session->arena, const char *, count);
    for (size_t i = 0; i < count; i++)
        renamed[i] = name_in_unit(session->arena, titles[i], session->unit);
    drawn->picture->data.titles = renamed;
    drawn->picture->data.columns = count;
}

void only_text(struct drawn *drawn, const char *text)
{
    if (drawn->pictures->style.for_page)
        *LIST_ADD(drawn->pictures->session->arena, &drawn->picture->data.cells) = text;
}

static void show_number(struct drawn *drawn, double value, int decimals, const char *sign)
{
    char buffer[64];
    if (!drawn->pictures->style.for_page)
        return;
    if (!isfinite(value)) {
        only_text(drawn, "");
        return;
    }
    number_fixed(buffer, sizeof buffer, value, decimals);
    only_text(drawn, arena_printf(drawn->pictures->session->arena, "%s%s", buffer, sign));
}

double picture_load(const struct pictures *pictures, double kg)
{
    return kg_to(kg, pictures->session->unit);
}

const char *picture_load_words(const struct pictures *pictures, double kg)
{
    char text[64];
    number_fixed(text, sizeof text, picture_load(pictures, kg), 1);
    return arena_printf(pictures->session->arena, "%s %s", text, mass_unit_name(pictures->session->unit));
}

const char *picture_gear(const struct pictures *pictures, const char *ar)
{
    return load_in_unit(pictures->session->arena, ar, pictures->session->unit);
}

const char *picture_day_words(const struct pictures *pictures, day_number day)
{
    char text[16];
    date_print_words(text, day);
    return arena_copy(pictures->session->arena, text);
}

#define CHANGE_CHARS 30

/* Is it the first word alone, a number, that differs ("2 chains/side" and "3 chains/side")? */
static bool differ_in_count(const char *a, const char *b)
{
    size_t in_a = strspn(a, "0123456789"), in_b = strspn(b, "0123456789");
    return in_a && in_b && a[in_a] == ' ' && !strcmp(a + in_a, b + in_b);
}

const char *setup_change_words(const struct pictures *pictures, const struct wave_week *from,
                               const struct wave_week *to)
{
    struct arena *arena = pictures->session->arena;
    const char *before = *from->ar ? picture_gear(pictures, from->ar) : "straight";
    const char *after = *to->ar ? picture_gear(pictures, to->ar) : "straight";
    if (differ_in_count(before, after))
        before = arena_text(arena, before, strspn(before, "0123456789"));
    const char *words = arena_printf(arena, "%s \u2192 %s", before, after);
    return text_width(words) <= CHANGE_CHARS ? words
                                             : text_cut(arena, arena_printf(arena, "\u2192 %s", after), CHANGE_CHARS);
}

void only_load(struct drawn *drawn, double kg, int decimals)
{
    show_number(drawn, picture_load(drawn->pictures, kg), decimals, "");
}

void both_day(struct drawn *drawn, day_number day)
{
    char text[16];
    date_print(text, day);
    gp_cell_day(drawn->script, day);
    only_text(drawn, arena_copy(drawn->pictures->session->arena, text));
}

void both_text(struct drawn *drawn, const char *text)
{
    gp_cell_text(drawn->script, text);
    only_text(drawn, text);
}

void both_number(struct drawn *drawn, double value, int decimals)
{
    gp_cell_number(drawn->script, value);
    show_number(drawn, value, decimals, "");
}

void both_load(struct drawn *drawn, double kg, int decimals)
{
    both_number(drawn, picture_load(drawn->pictures, kg), decimals);
}

void both_share(struct drawn *drawn, double fraction, int decimals)
{
    gp_cell_number(drawn->script, fraction);
    show_number(drawn, 100 * fraction, decimals, " %");
}

void both_end(struct drawn *drawn)
{
    gp_row_end(drawn->script);
}
