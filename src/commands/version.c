/* The program's version, in the format of the GNU coding standards (4.8.1), and the versions of its libraries: of
 * those loaded at run time, where the libraries report them. */
#include "commands/version.h"

#include "base/text.h"
#include "writing/gnuplot/render.h"

#include <config.h>
#include <csv.h>
#include <gsl/gsl_version.h>
#include <jansson.h>
#define PCRE2_CODE_UNIT_WIDTH 8
#include <pcre2.h>
#include <sqlite3.h>
#include <string.h>
#include <utf8proc.h>
#include <xxhash.h>
#if WITH_WORKBOOKS
#include <expat.h>
#include <xlsxwriter.h>
#include <zip.h>
#endif
#ifdef __GLIBC__
#include <gnu/libc-version.h>
#endif

static const char *gsl_told(struct arena *arena)
{
    (void)arena;
    return gsl_version;
}

/* "10.42 2022-12-11": the date is not part of the version. */
static const char *pcre2_told(struct arena *arena)
{
    char text[64] = "";
    if (pcre2_config(PCRE2_CONFIG_VERSION, NULL) > (int)sizeof text || pcre2_config(PCRE2_CONFIG_VERSION, text) < 0)
        return "of unknown version";
    return arena_text(arena, text, strcspn(text, " "));
}

static const char *xxhash_told(struct arena *arena)
{
    unsigned number = XXH_versionNumber();
    return arena_printf(arena, "%u.%u.%u", number / 10000, number / 100 % 100, number % 100);
}

static const char *utf8proc_told(struct arena *arena)
{
    (void)arena;
    return utf8proc_version();
}

static const char *sqlite_told(struct arena *arena)
{
    (void)arena;
    return sqlite3_libversion();
}

static const char *jansson_told(struct arena *arena)
{
    (void)arena;
    return jansson_version_str();
}

#ifdef __GLIBC__
static const char *libc_told(struct arena *arena)
{
    (void)arena;
    return gnu_get_libc_version();
}
#endif

/* These two do not report the loaded version, so the version at build time is shown. */
static const char *libcsv_told(struct arena *arena)
{
    return arena_printf(arena, "%d.%d.%d (when built)", CSV_MAJOR, CSV_MINOR, CSV_RELEASE);
}

static const char *inih_told(struct arena *arena)
{
    return arena_printf(arena, "%s (when built)", INIH_VERSION);
}

#if WITH_WORKBOOKS
static const char *zip_told(struct arena *arena)
{
    (void)arena;
    return zip_libzip_version();
}

static const char *expat_told(struct arena *arena)
{
    const XML_Expat_Version version = XML_ExpatVersionInfo();
    return arena_printf(arena, "%d.%d.%d", version.major, version.minor, version.micro);
}

static const char *xlsxwriter_told(struct arena *arena)
{
    (void)arena;
    return lxw_version();
}
#endif

static const struct
{
    const char *name;
    const char *(*told)(struct arena *arena);
    const char *use;
} libraries[] = {
    {"libcsv", libcsv_told, "CSV records"},
    {"PCRE2", pcre2_told, "load expressions"},
    {"inih", inih_told, "the gym file"},
    {"utf8proc", utf8proc_told, "letters of all scripts"},
#ifdef __GLIBC__
    {"GNU libc", libc_told, "encodings, by its iconv"},
#endif
    {"GSL", gsl_told, "curves, fits, roots"},
    {"Jansson", jansson_told, "the state of a lifter's folder"},
    {"SQLite", sqlite_told, "the team's store"},
    {"xxHash", xxhash_told, "what changed since last night"},
#if WITH_WORKBOOKS
    {"libzip", zip_told, "workbooks: the archive"},
    {"Expat", expat_told, "workbooks: what is in it"},
    {"libxlsxwriter", xlsxwriter_told, "workbooks that are written"},
#endif
};

void version_put(struct arena *arena, struct output *output)
{
    const char *gnuplot = render_find_gnuplot(arena);
    output_printf(
        output,
        "tautline %s\nCopyright (C) 2026 the authors of tautline\n"
        "Licence GPL-3.0-or-later: the GNU GPL, version 3 or later, <https://gnu.org/licenses/gpl.html>\n"
        "This is free software: you may change and pass it on. There is no warranty, as far as the law permits.\n\n",
        PACKAGE_VERSION);
    for (size_t i = 0; i < sizeof libraries / sizeof *libraries; i++) {
        const char *name_and_version = arena_printf(arena, "%s %s", libraries[i].name, libraries[i].told(arena));
        output_printf(output, "  %-26s %s\n", name_and_version, libraries[i].use);
    }
#if !WITH_WORKBOOKS
    output_text(output, "  Built without workbooks: .xlsx and .ods are neither read nor written.\n");
#endif
    output_printf(output, "  %-26s pictures: %s\n", "gnuplot",
                  gnuplot ? text_visible(arena, gnuplot) : "none on PATH, so scripts only");
}
