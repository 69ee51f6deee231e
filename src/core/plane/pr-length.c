/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-length.h"

#include <glib/gi18n-lib.h>
#include <locale.h>
#include <math.h>
#include <string.h>

#include "pr-error.h"

/* No bar, foot or sheet of this trade is longer: 20 m, in mm. */
#define LONGEST_MM 20000.0

typedef struct {
  double value;  /* as written */
  double mm_per; /* of its unit; 0 when none was written */
  bool fraction; /* written with a slash */
} Figure;

#define SAME_SECTION_MM 0.05 /* finer than any bar is rolled */
#define CUT_SLACK 1e-6       /* of a step: a length that is on the mark stays on it */

static const struct {
  const char *word;
  double mm;
} units[] = {
  { "mm", 1 },
  { "cm", 10 },
  { "inches", PR_MM_PER_INCH },
  { "inch", PR_MM_PER_INCH },
  { "in", PR_MM_PER_INCH },
  { "\"", PR_MM_PER_INCH },
  { "”", PR_MM_PER_INCH },
  { "″", PR_MM_PER_INCH },
  { "feet", 12 * PR_MM_PER_INCH },
  { "ft", 12 * PR_MM_PER_INCH },
  { "'", 12 * PR_MM_PER_INCH },
  { "′", 12 * PR_MM_PER_INCH },
  { "m", 1000 },
};

static void
skip_space (const char **at)
{
  while (g_unichar_isspace (g_utf8_get_char (*at)))
    *at = g_utf8_next_char (*at);
}

/* Digits with at most one comma or point. */
static bool
read_number (const char **at, double *value)
{
  char buf[24];
  size_t n = 0;
  bool digit = false, mark = false;

  for (; n + 1 < sizeof buf; n++) {
    char c = (*at)[n];

    if ((c == '.' || c == ',') && !mark) {
      mark = true;
      c = '.';
    } else if (g_ascii_isdigit (c)) {
      digit = true;
    } else {
      break;
    }
    buf[n] = c;
  }
  buf[n] = 0;
  if (!digit)
    return false;
  *value = g_ascii_strtod (buf, NULL);
  *at += n;
  return true;
}

/* "3/8" behind an optional whole number: "1 1/4", "1-1/4". */
static bool
read_figure (const char **at, Figure *fig)
{
  double whole, under;

  *fig = (Figure){ 0 };
  if (!read_number (at, &whole))
    return false;
  fig->value = whole;
  const char *next = *at;
  double over = whole;
  bool mixed = false;

  if (*next == ' ' || *next == '-') {
    next++;
    skip_space (&next);
    if (!read_number (&next, &over))
      return true;
    mixed = true;
  }
  if (*next != '/')
    return true;
  next++;
  if (!read_number (&next, &under) || under == 0)
    return false;
  fig->value = (mixed ? whole : 0) + over / under;
  fig->fraction = true;
  *at = next;
  return true;
}

static void
read_unit (const char **at, Figure *fig)
{
  const char *next = *at;

  skip_space (&next);
  for (size_t i = 0; i < G_N_ELEMENTS (units); i++) {
    size_t len = strlen (units[i].word);

    if (g_ascii_strncasecmp (next, units[i].word, len) == 0 && !g_ascii_isalpha (next[len] & 0x7f)) {
      fig->mm_per = units[i].mm;
      next += len;
      if (*next == '.')
        next++;
      *at = next;
      return;
    }
  }
}

static double
figure_mm (const Figure *fig, PrUnit unit)
{
  if (fig->mm_per > 0)
    return fig->value * fig->mm_per;
  return fig->value * (fig->fraction || unit == PR_UNIT_INCH ? PR_MM_PER_INCH : 1);
}

static bool
in_range (double mm, const char *text, GError **error)
{
  if (mm >= 0 && mm <= LONGEST_MM)
    return true;
  g_set_error (error, PR_ERROR, PR_ERROR_INPUT, _ ("“%s” is too long; give a length below 20 m."), text);
  return false;
}

static bool
not_a_length (const char *text, GError **error)
{
  g_set_error (error, PR_ERROR, PR_ERROR_INPUT,
               _ ("“%s” is not a length; write it like 95 mm, 3/8, 1 1/4 or 12in."), text);
  return false;
}

bool
pr_length_parse (const char *text, PrUnit unit, double *mm, GError **error)
{
  const char *at = text;
  Figure fig;
  double sum = 0;
  bool feet = false;

  *mm = 0;
  if (!g_utf8_validate (text, -1, NULL))
    return not_a_length ("?", error);
  skip_space (&at);
  do {
    if (!read_figure (&at, &fig))
      return not_a_length (text, error);
    read_unit (&at, &fig);
    skip_space (&at);
    sum += figure_mm (&fig, feet ? PR_UNIT_INCH : unit);
    /* only feet may be followed by inches */
    if (*at && (feet || fig.mm_per != 12 * PR_MM_PER_INCH))
      return not_a_length (text, error);
    feet = true;
  } while (*at);
  if (!in_range (sum, text, error))
    return false;
  *mm = sum;
  return true;
}

static bool
read_times (const char **at)
{
  skip_space (at);
  if (g_str_has_prefix (*at, "×"))
    *at += strlen ("×");
  else if (**at == 'x' || **at == 'X' || **at == '*')
    (*at)++;
  else
    return false;
  skip_space (at);
  return true;
}

bool
pr_section_parse (const char *text, PrUnit unit, double *width, double *thickness, GError **error)
{
  const char *at = text;
  Figure a, b = { 0 };
  bool read = g_utf8_validate (text, -1, NULL);

  if (read) {
    skip_space (&at);
    read = read_figure (&at, &a);
  }
  if (read) {
    read_unit (&at, &a);
    read = read_times (&at) && read_figure (&at, &b);
  }
  if (read) {
    read_unit (&at, &b);
    skip_space (&at);
  }
  if (!read || *at) {
    g_set_error (error, PR_ERROR, PR_ERROR_INPUT,
                 _ ("“%s” is not a stock section; write width and thickness like 25x10 or 3/8 x 1."),
                 read || g_utf8_validate (text, -1, NULL) ? text : "?");
    return false;
  }
  if (a.mm_per == 0)
    a.mm_per = b.mm_per;
  /* "3/8 x 1": one fraction makes both inches */
  if (a.mm_per == 0 && b.mm_per == 0 && (a.fraction || b.fraction))
    a.mm_per = b.mm_per = PR_MM_PER_INCH;
  double p = figure_mm (&a, unit), q = figure_mm (&b, unit);

  if (!(MIN (p, q) >= 1 && MAX (p, q) <= 200)) {
    g_set_error (error, PR_ERROR, PR_ERROR_INPUT,
                 _ ("Stock of “%s” cannot be forged into a shoe; both sides must lie between 1 and 200 mm."),
                 text);
    return false;
  }
  *width = MAX (p, q);
  *thickness = MIN (p, q);
  return true;
}

/* Whole inches and a fraction of DEN parts, reduced. */
static char *
inches (double mm, long den)
{
  long n = lround (fabs (mm) / PR_MM_PER_INCH * (double) den), whole = n / den, over = n % den;
  const char *sign = mm < 0 && n ? "-" : "";

  while (over && over % 2 == 0) {
    over /= 2;
    den /= 2;
  }
  if (!over)
    return g_strdup_printf ("%s%ld", sign, whole);
  if (!whole)
    return g_strdup_printf ("%s%ld/%ld", sign, over, den);
  return g_strdup_printf ("%s%ld %ld/%ld", sign, whole, over, den);
}

char *
pr_length_number (double mm, PrUnit unit)
{
  if (unit == PR_UNIT_MM)
    return g_strdup_printf ("%.1f", fabs (mm) < 0.05 ? 0.0 : mm);
  return inches (mm, 16);
}

static const char *
unit_word (PrUnit unit)
{
  return unit == PR_UNIT_MM ? " mm" : " in";
}

char *
pr_length_text (double mm, PrUnit unit)
{
  g_autofree char *number = pr_length_number (mm, unit);

  return g_strconcat (number, unit_word (unit), NULL);
}

double
pr_length_cut_mm (double mm, PrUnit unit)
{
  double step = unit == PR_UNIT_MM ? 1 : PR_MM_PER_INCH / 16;

  return ceil (mm / step - CUT_SLACK) * step;
}

char *
pr_length_cut (double mm, PrUnit unit)
{
  return pr_length_brief (pr_length_cut_mm (mm, unit), unit);
}

char *
pr_length_fine (double mm, PrUnit unit, int finer)
{
  g_autofree char *number = unit == PR_UNIT_MM ? g_strdup_printf ("%.*f", 1 + finer, mm)
                            : finer < 3        ? inches (mm, 16L << finer)
                                               : g_strdup_printf ("%.4f", mm / PR_MM_PER_INCH);

  return g_strconcat (number, unit_word (unit), NULL);
}

char *
pr_length_brief_number (double mm, PrUnit unit)
{
  char *number = pr_length_number (mm, unit);
  size_t len = strlen (number);

  /* what was written is looked at, not the value: so it is rounded once, and both ways of writing agree. The mark
   * is the locale's own, which may be several bytes long. */
  if (unit == PR_UNIT_MM && number[len - 1] == '0')
    number[len - 1 - strlen (localeconv ()->decimal_point)] = 0;
  return number;
}

char *
pr_length_brief (double mm, PrUnit unit)
{
  g_autofree char *number = pr_length_brief_number (mm, unit);

  return g_strconcat (number, unit_word (unit), NULL);
}

char *
pr_length_rough (double mm, PrUnit unit)
{
  return pr_length_brief (unit == PR_UNIT_MM ? round (mm) : mm, unit);
}

/* --- a section --- */

/* The unit stands once, behind the last figure: it is what THICK_TEXT has more than THICK. */
static char *
section (const char *width, const char *thick, const char *thick_text)
{
  /* TRANSLATORS: the section of a bar or a shoe, its width, then its thickness; where the trade says the thickness
   * first write %2$s × %1$s */
  g_autofree char *figures = g_strdup_printf (C_ ("section", "%s × %s"), width, thick);
  const char *suffix = g_str_has_prefix (thick_text, thick) ? thick_text + strlen (thick) : "";

  return g_strconcat (figures, suffix, NULL);
}

char *
pr_section_text (double width, double thickness, PrUnit unit)
{
  g_autofree char *w = pr_length_number (width, unit), *t = pr_length_number (thickness, unit);
  g_autofree char *text = pr_length_text (thickness, unit);

  return section (w, t, text);
}

char *
pr_section_brief (double width, double thickness, PrUnit unit)
{
  g_autofree char *w = pr_length_brief_number (width, unit), *t = pr_length_brief_number (thickness, unit);
  g_autofree char *text = pr_length_brief (thickness, unit);

  return section (w, t, text);
}

/* Are both whole numbers of STEP, to what a bar is told by? */
static bool
both_whole (double width, double thickness, double step)
{
  return fabs (remainder (width, step)) < SAME_SECTION_MM
         && fabs (remainder (thickness, step)) < SAME_SECTION_MM;
}

char *
pr_section_as_called (double width, double thickness, PrUnit unit)
{
  bool inch = both_whole (width, thickness, PR_MM_PER_INCH / 16), mm = both_whole (width, thickness, 0.5);

  return pr_section_brief (width, thickness, inch == mm ? unit : inch ? PR_UNIT_INCH : PR_UNIT_MM);
}
