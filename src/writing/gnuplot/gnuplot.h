/* Pictures, as gnuplot scripts that are self-contained: parameters and data, then the style and the template of
 * plots/, unchanged. `gnuplot FILE` draws one anywhere and writes the picture to the current folder.
 *
 * Each template lists at its top what it needs. All text goes in through escape_gnuplot; names of variables and
 * blocks are literals of the program, never text from an input. */
#ifndef TAUTLINE_WRITING_GNUPLOT_H
#define TAUTLINE_WRITING_GNUPLOT_H

#include "base/arena.h"
#include "base/date.h"
#include "writing/output.h"

#include <stddef.h>

struct gp_script;

enum gp_picture
{
    GP_SVG,
    GP_PNG,
    GP_PDF,
    GP_DUMB /* characters, for a terminal */
};

/* `template_name` without .gp: "waves", "weeks", "curves". NULL: there is no such template. */
struct gp_script *gp_new(struct arena *arena, const char *template_name);

/* The kind of picture, and its file name without ending, which is made safe (escape_file_name). Returns the whole
 * name, owned by the arena. */
const char *gp_picture(struct gp_script *script, enum gp_picture picture, const char *file_name);

void gp_set_number(struct gp_script *script, const char *name, double value); /* NAN: NaN */
void gp_set_text(struct gp_script *script, const char *name, const char *text);

/* Opens a data block, "$WEEKS"; what follows goes into it until the next gp_block(). */
void gp_block(struct gp_script *script, const char *name);
void gp_cell_number(struct gp_script *script, double value); /* %.9g; NAN: NaN */
void gp_cell_text(struct gp_script *script, const char *text);
void gp_cell_day(struct gp_script *script, day_number day); /* 2026-01-12 */
void gp_row_end(struct gp_script *script);
void gp_part_end(struct gp_script *script); /* two blank lines: another curve follows (gnuplot's `index`) */

/* After the script of that path was drawn: gives an SVG its heading and sentence as title and description. */
void gp_describe(struct gp_script *script, struct arena *arena, const char *script_path);

void gp_write(struct gp_script *script, struct output *output);

#endif
