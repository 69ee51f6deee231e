/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-bounds.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "pr-text.h"

typedef struct {
  double least, most;
  const char *name; /* in a sentence */
} Bound;

/* The reason stands behind each. */
static const Bound bounds[PR_N_BOUNDS] = {
  /* 0.5: a foot of 60 pixels, on which no line is found; 200: a card filling a photo of 120 megapixels has 140 */
  [PR_BOUND_PX_PER_MM] = { 0.5, 200, N_ ("pixels per mm") },
  /* at 1 the corner lies at twice its distance from the middle; a phone's wide lens has 0.1 */
  [PR_BOUND_LENS] = { -1, 1, N_ ("lens term") },
  /* a reference off by a hand's width is none */
  [PR_BOUND_RESIDUAL] = { 0, 100, N_ ("residual in mm") },
  [PR_BOUND_TILT] = { 0, 180, N_ ("tilt in degrees") },
  [PR_BOUND_UNIT] = { -1.000001, 1.000001, N_ ("part of a direction") },
  /* a printer that fits a page into its margins makes it 0.9; A3 on A4 would be 0.7 */
  [PR_BOUND_PRINT] = { 0.5, 2, N_ ("share a sheet was printed at") },
  /* no sheet is longer than 2 m */
  [PR_BOUND_SHEET] = { 1, 2000, N_ ("side of the sheet in mm") },
  /* a side of 100 000 pixels is 120 megapixels with 1 200 on the other, more than any photo has */
  [PR_BOUND_PHOTO] = { 1, 1e5, N_ ("side of the photo in pixels") },
  /* a corner of the sheet may lie outside the photo, some of its sides away */
  [PR_BOUND_PIXEL] = { -1e6, 1e6, N_ ("place in the photo in pixels") },
  /* the flat picture has at most 10 */
  [PR_BOUND_RASTER] = { 0.1, 20, N_ ("pixels per mm of the flat picture") },
  /* pixels of PR_BOUND_PIXEL, divided by what is far from 0 in a homography whose last entry is 1 */
  [PR_BOUND_CAMERA] = { -1e7, 1e7, N_ ("entry of the camera") },
  [PR_BOUND_RADIUS] = { 1, 1e6, N_ ("radius of the photo in pixels") },
  /* a crayon has 10 mm; what is allowed for it by hand may be more, but not the whole foot */
  [PR_BOUND_PEN] = { 0, 200, N_ ("width of the pen in mm") },
  [PR_BOUND_INWARD] = { -100, 100, N_ ("pen allowance in mm") },
  /* a foot lies on a sheet of at most 2 m, whose frame may begin elsewhere */
  [PR_BOUND_PLACE] = { -1e4, 1e4, N_ ("place on the sheet in mm") },
  /* no wall is thicker; what is entered is held to narrower limits where it is entered */
  [PR_BOUND_WALL] = { 0, 40, N_ ("wall in mm") },
  /* ours has one each 0.75 mm, some 600; 20 000 is one each 0.03 mm */
  [PR_BOUND_POINTS] = { 2, 2e4, N_ ("points of the outline") },
  /* one each half mm of a foot's outline */
  [PR_BOUND_DOUBTS] = { 0, 1000, N_ ("doubted stretches") },
  [PR_BOUND_DOUBT] = { 0, 1e5, N_ ("place of a doubt in mm") },
  /* json-glib calls itself for every level; nothing of ours is deeper than 6 */
  [PR_BOUND_JSON_DEPTH] = { 0, 64, N_ ("depth of the JSON") },
  /* an outline of the most points, each with all its digits, is 1 MB */
  [PR_BOUND_JSON_BYTES] = { 0, 8 << 20, N_ ("bytes of JSON") },
  /* the most points and doubts are 70 000; each value takes up to 150 bytes once it is read, so that these are 30 MB */
  [PR_BOUND_JSON_VALUES] = { 0, 2e5, N_ ("values in the JSON") },
  /* the longest registered name of a horse has some 40, with farm and number 80 */
  [PR_BOUND_NAME] = { 1, 120, N_ ("characters of a name") },
  [PR_BOUND_SENTENCE] = { 0, 500, N_ ("characters of a sentence") },
  /* five pages */
  [PR_BOUND_NOTE] = { 0, 10000, N_ ("characters of a note") },
  /* older than anybody's horse, later than this program; 4 digits, and g_date takes them all */
  [PR_BOUND_YEAR] = { 1900, 2199, N_ ("year") },
  /* 100 hours, and a heat every few minutes of them */
  [PR_BOUND_MINUTES] = { 0, 6000, N_ ("minutes") },
  [PR_BOUND_HEATS] = { 0, 1000, N_ ("heats") },
  /* -1 is never (pr-book-diary.h); nobody comes less often than once a year */
  [PR_BOUND_DUE_DAYS] = { -1, 400, N_ ("days from visit to visit") },
  /* as many as pr-card-colour.h has */
  [PR_BOUND_CARD_COLOUR] = { 0, 6, N_ ("colour of the card") },
  /* four names, a sentence and a text of two pages, each letter in its longest form */
  [PR_BOUND_VET] = { 0, 32768, N_ ("bytes of what is told the vet") },
  /* further off it is no shoe for that foot */
  [PR_BOUND_OFF] = { 0, 500, N_ ("mm off the plan") },
  /* bars are sold in 6 m */
  [PR_BOUND_BAR] = { 0, 6500, N_ ("mm of stock") },
  /* a draught horse's shoe has 2 */
  [PR_BOUND_KG] = { 0, 20, N_ ("kg") },
  [PR_BOUND_SHARE] = { 0, 1, N_ ("share") },
  /* 60 x 25 mm, and then some */
  [PR_BOUND_SECTION] = { 0, 5000, N_ ("mm² of a section") },
  /* what is read as a photo is no larger */
  [PR_BOUND_PHOTO_BYTES] = { 0, 256 << 20, N_ ("bytes of a photo") },
  /* a hundred feet with their photos; more is a book to be copied as a file */
  [PR_BOUND_SENT_BYTES] = { 0, 500e6, N_ ("bytes of a sent book") },
  /* four feet of 500 horses */
  [PR_BOUND_SENT_FEET] = { 0, 2000, N_ ("feet of a sent book") },
  /* 500 MB from the slowest stick, and then some; who waits can stop it before */
  [PR_BOUND_SENT_SECONDS] = { 0, 300, N_ ("seconds") },
  /* a working life of feet, each with a photo of 2 MB, from a slow disk */
  [PR_BOUND_WHOLE_BYTES] = { 0, 400e9, N_ ("bytes of a book") },
  [PR_BOUND_WHOLE_FEET] = { 0, 200000, N_ ("feet of a book") },
  [PR_BOUND_WHOLE_SECONDS] = { 0, 14400, N_ ("seconds") },
};

double
pr_bound_least (PrBound bound)
{
  return bounds[bound].least;
}

double
pr_bound_most (PrBound bound)
{
  return bounds[bound].most;
}

bool
pr_bound_holds (PrBound bound, double value)
{
  return value >= bounds[bound].least && value <= bounds[bound].most; /* never of a NaN */
}

double
pr_bound_clamp (PrBound bound, double value)
{
  return value >= bounds[bound].least ? MIN (value, bounds[bound].most) : bounds[bound].least;
}

char *
pr_bound_says (PrBound bound, double value)
{
  const Bound *b = &bounds[bound];

  return g_strdup_printf (_ ("%s: %g, where %g to %g can be"), _ (b->name), value, b->least, b->most);
}

/* --- text --- */

static bool
breaks (gunichar c)
{
  return c == '\n' || c == '\r' || c == '\t' || c == '\v' || c == '\f' || c == 0x85 || c == 0x2028
         || c == 0x2029 || g_unichar_isspace (c);
}

/* Nothing to see by itself. */
static bool
is_unseen (gunichar c)
{
  return breaks (c) || c == 0x200b || c == 0x200c || c == 0x200d || c == 0x2060 || c == 0x3164 || c == 0x115f
         || c == 0x1160 || g_unichar_ismark (c);
}

/* Is VALID on one line as it is, as nearly all is that is read? Ten times as quick as making it so. */
static bool
is_one_line (const char *valid)
{
  bool seen = false, blank = true; /* before its first letter none stands */

  for (const char *at = valid; *at; at = g_utf8_next_char (at)) {
    gunichar c = (guchar) *at < 0x80 ? (gunichar) *at : g_utf8_get_char (at);
    bool letter = c > ' ' && c < 0x7f;

    if (c == ' ' ? blank : !letter && (breaks (c) || pr_text_steers (c)))
      return false;
    blank = c == ' ';
    seen = seen || letter || !is_unseen (c);
  }
  return *valid == '\0' || (seen && !blank);
}

/* On one line, blanks only between words. */
static char *
one_line (const char *text)
{
  g_autofree char *valid = g_utf8_make_valid (text ? text : "", -1);
  if (is_one_line (valid))
    return g_steal_pointer (&valid);
  GString *out = g_string_new (NULL);
  bool blank = false, seen = false;

  for (const char *at = valid; *at; at = g_utf8_next_char (at)) {
    gunichar c = g_utf8_get_char (at);

    if (breaks (c)) {
      blank = out->len > 0;
      continue;
    }
    if (pr_text_steers (c))
      continue;
    if (blank)
      g_string_append_c (out, ' ');
    blank = false;
    seen |= !is_unseen (c);
    g_string_append_unichar (out, c);
  }
  return g_string_free (g_string_truncate (out, seen ? out->len : 0), FALSE);
}

static bool
may_stand_in_lines (gunichar c)
{
  return (c >= ' ' && c < 0x7f) || c == '\n' || c == '\t' || !pr_text_steers (c);
}

static char *
several_lines (const char *text)
{
  g_autofree char *valid = g_utf8_make_valid (text ? text : "", -1);
  const char *at = valid;

  while (*at && may_stand_in_lines (g_utf8_get_char (at)))
    at = g_utf8_next_char (at);
  if (!*at)
    return g_steal_pointer (&valid);
  GString *out = g_string_new_len (valid, at - valid);
  for (; *at; at = g_utf8_next_char (at))
    if (may_stand_in_lines (g_utf8_get_char (at)))
      g_string_append_unichar (out, g_utf8_get_char (at));
  return g_string_free (out, FALSE);
}

/* TEXT, which is taken over, with "…" for what is beyond MOST characters. */
static char *
cut (char *text, double most)
{
  glong keep = (glong) most - 1;

  if (strlen (text) <= (size_t) keep + 1 || g_utf8_strlen (text, -1) <= keep + 1)
    return text;
  *g_utf8_offset_to_pointer (text, keep) = '\0';
  g_autofree char *owned = text;
  return g_strconcat (g_strchomp (owned), "…", NULL);
}

char *
pr_name_clean (const char *text)
{
  return one_line (text);
}

char *
pr_name_fit (const char *text)
{
  return cut (one_line (text), pr_bound_most (PR_BOUND_NAME));
}

bool
pr_name_is_long (const char *name)
{
  return !pr_bound_holds (PR_BOUND_NAME, MAX (1, (double) g_utf8_strlen (name, -1)));
}

char *
pr_sentence_fit (const char *text)
{
  return cut (one_line (text), pr_bound_most (PR_BOUND_SENTENCE));
}

char *
pr_note_fit (const char *text)
{
  return cut (several_lines (text), pr_bound_most (PR_BOUND_NOTE));
}

/* N digits at TEXT as a number, -1 when they are none. */
static int
digits (const char *text, int n)
{
  int value = 0;

  for (int i = 0; i < n; i++) {
    if (!g_ascii_isdigit (text[i]))
      return -1;
    value = 10 * value + (text[i] - '0');
  }
  return value;
}

bool
pr_date_holds (const char *date)
{
  if (!date || strnlen (date, 10) < 10 || date[4] != '-' || date[7] != '-' || (date[10] && date[10] != 'T')
      || strnlen (date, 41) > 40)
    return false;
  int year = digits (date, 4), month = digits (date + 5, 2), day = digits (date + 8, 2);

  return pr_bound_holds (PR_BOUND_YEAR, year) && month > 0 && day > 0
         && g_date_valid_dmy ((GDateDay) day, (GDateMonth) month, (GDateYear) year);
}
