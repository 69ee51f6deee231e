/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-forged-text.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "pr-card-title.h"
#include "pr-check.h"
#include "pr-forged-draw.h"
#include "pr-language.h"

#define LABEL_COLUMNS 42
#define FIGURE_COLUMNS 12
#define MOST_PLACES 6
#define MOST_DOUBTS 3
#define LEAST_TOLD_MM 0.05                  /* half of the last digit */
#define LEAST_TOLD_IN (PR_MM_PER_INCH / 64) /* or of a thirty-second */
#define WEDGE_IN 1.016                      /* 4 in are so many times 100 mm */

/* --- sentences ----------------------------------------------------------------------------- */

char *
pr_forged_verdict (const PrComparison *c, PrUnit unit)
{
  g_autofree char *most
      = pr_off_text (MAX (fabs (c->sum[PR_SEEN_OUTER].max), fabs (c->sum[PR_SEEN_INNER].max)), unit);

  if (c->correction->len > 0)
    return g_strdup (g_array_index (c->correction, PrCorrection, 0).text);
  if (c->state == PR_FITS)
    return g_strdup_printf (_ ("As planned: nowhere more than %s off."), most);
  return g_strdup_printf (_ ("As planned but for single places, up to %s off."), most);
}

char *
pr_forged_head (const PrComparison *c, PrUnit unit)
{
  g_autofree char *length = pr_length_number (c->size.length.seen, unit);
  g_autofree char *width = pr_length_text (c->size.width.seen, unit);
  g_autofree char *long_ = pr_length_number (c->size.length.plan, unit);
  g_autofree char *wide = pr_length_text (c->size.width.plan, unit);
  g_autofree char *outer = pr_off_text (c->sum[PR_SEEN_OUTER].mean_abs, unit);
  g_autofree char *inner = pr_off_text (c->sum[PR_SEEN_INNER].mean_abs, unit);

  return g_strdup_printf (
      _ ("Forged %s × %s · planned %s × %s · edges off in the mean %s outside, %s inside"), length, width,
      long_, wide, outer, inner);
}

static void
caution (GString *out, const char *sentence)
{
  g_string_append_printf (out, "%s%s", out->len > 0 ? " " : "", sentence);
}

char *
pr_forged_caution (const PrComparison *c, PrUnit unit)
{
  GString *out = g_string_new (NULL);

  if (c->mirrored)
    caution (out, _ ("It fits better as its mirror: the other face is up, or it is the other foot's."));
  else if (c->coarse) {
    g_autofree char *coarse = pr_length_text (pr_limit ("compare.coarse")->mend, unit);
    g_autofree char *text = g_strdup_printf (_ ("The thickness was not told: the photo shows the shoe too "
                                                "large, and nothing finer than %s counts."),
                                             coarse);

    caution (out, text);
  }
  if (c->sheet_foot != PR_FOOT_ANY && c->sheet_foot != c->foot) {
    g_autofree char *text = g_strdup_printf (_ ("The shoe lies on a sheet for the %s and the plan is for the "
                                                "%s: check that it is the right shoe."),
                                             pr_foot_name (c->sheet_foot), pr_foot_name (c->foot));

    caution (out, text);
  }
  return g_string_free (out, out->len == 0);
}

static PrPt
point_along (const PrComparison *c, const PrSeenRing *ring, double along)
{
  for (size_t i = 0; i + 1 < ring->n; i++) {
    PrPt a = pr_comparison_in (c, ring->p[i]), b = pr_comparison_in (c, ring->p[i + 1]);
    double side = pr_pt_dist (a, b);

    if (along <= side)
      return side > 0 ? pr_pt_lerp (a, b, along / side) : a;
    along -= side;
  }
  return ring->n > 0 ? pr_comparison_in (c, ring->p[ring->n - 1]) : pr_pt (0, 0);
}

/* The planned place nearest to the middle of DOUBT; over the edge's first point where it leads over that, which is near enough. */
static const PrOffset *
place_of (const PrComparison *c, const PrSeen *seen, const PrSeenDoubt *doubt)
{
  const PrSeenRing *ring = doubt->edge == PR_SEEN_OUTER       ? &seen->outer
                           : doubt->opening < seen->n_opening ? &seen->opening[doubt->opening]
                                                              : &seen->inner;
  double middle = doubt->from_mm <= doubt->to_mm ? (doubt->from_mm + doubt->to_mm) / 2 : doubt->to_mm / 2;
  PrPt at = point_along (c, ring, middle);
  const PrOffset *best = NULL;

  for (guint i = 0; i < c->offset->len; i++) {
    const PrOffset *o = &g_array_index (c->offset, PrOffset, i);

    if (o->edge == doubt->edge && (best == NULL || pr_pt_dist (o->at, at) < pr_pt_dist (best->at, at)))
      best = o;
  }
  return best;
}

static char *
place_words (const PrOffset *o, PrUnit unit)
{
  g_autofree char *from = pr_length_text (o->place, unit);

  /* Translators: "outer edge, medial, 120.5 mm from the toe" */
  return g_strdup_printf (_ ("%s, %s, %s from the toe"),
                          o->edge == PR_SEEN_OUTER ? _ ("outer edge") : _ ("inner edge"),
                          pr_side_word (o->branch), from);
}

/* Places of one cause stand together before it. */
char *
pr_forged_doubts (const PrComparison *c, const PrSeen *seen, PrUnit unit)
{
  GString *out = g_string_new (NULL);
  size_t n = MIN (seen->n_doubt, MOST_DOUBTS);

  for (size_t i = 0; i < n; i++) {
    const PrOffset *o = place_of (c, seen, &seen->doubt[i]);
    g_autofree char *place = o != NULL ? place_words (o, unit) : g_strdup ("");

    g_string_append (out, place);
    if (i + 1 < n && strcmp (seen->doubt[i].why, seen->doubt[i + 1].why) == 0)
      g_string_append (out, "; ");
    else
      g_string_append_printf (out, "%s%s%s", *place ? ": " : "", seen->doubt[i].why, i + 1 < n ? "\n" : "");
  }
  return g_string_free (out, out->len == 0);
}

/* --- lines --------------------------------------------------------------------------------- */

static void
pad (GString *out, const char *text, long columns, bool right)
{
  long n = g_utf8_strlen (text, -1);

  for (long i = n; right && i < columns; i++)
    g_string_append_c (out, ' ');
  g_string_append (out, text);
  if (!right && n >= columns) /* longer than its column in some language */
    g_string_append_c (out, ' ');
  for (long i = n; !right && i < columns; i++)
    g_string_append_c (out, ' ');
}

static void
rule (GString *out, const char *text, char mark)
{
  g_string_append_printf (out, "%s\n", text);
  for (long n = g_utf8_strlen (text, -1); n > 0; n--)
    g_string_append_c (out, mark);
  g_string_append_c (out, '\n');
}

char *
pr_forged_signed (double mm, PrUnit unit)
{
  g_autofree char *amount = pr_off_text (mm, unit);
  double least = unit == PR_UNIT_INCH ? LEAST_TOLD_IN : LEAST_TOLD_MM;
  const char *sign = fabs (mm) < least ? "±" : mm < 0 ? "−" : "+";

  return g_strdup_printf ("%s%s", sign, amount);
}

/* A length as it stands in a row, with the minus of the column beside it; "–" for none. Transfer full. */
static char *
figure_text (double mm, PrUnit unit)
{
  if (!isfinite (mm))
    return g_strdup ("–");
  g_autofree char *amount = pr_length_text (fabs (mm), unit);
  return g_strdup_printf ("%s%s", mm < 0 ? "−" : "", amount);
}

/* The three columns of a row. Transfer full. */
static void
columns_of (const PrTwo *two, PrUnit unit, char **plan, char **seen, char **off)
{
  bool both = isfinite (two->plan) && isfinite (two->seen);

  *plan = figure_text (two->plan, unit);
  *seen = figure_text (two->seen, unit);
  *off = both ? pr_forged_signed (two->seen - two->plan, unit) : g_strdup ("–");
}

static void
put_row (const char *label, const PrTwo *two, PrUnit unit, gpointer out)
{
  g_autofree char *plan = NULL, *seen = NULL, *off = NULL;

  columns_of (two, unit, &plan, &seen, &off);
  pad (out, label, LABEL_COLUMNS, false);
  pad (out, plan, FIGURE_COLUMNS, true);
  pad (out, seen, FIGURE_COLUMNS, true);
  pad (out, off, FIGURE_COLUMNS, true);
  g_string_append_c (out, '\n');
}

static void
add_line (const char *label, const PrTwo *two, PrUnit unit, gpointer lines)
{
  g_autofree char *plan = NULL, *seen = NULL, *off = NULL;

  columns_of (two, unit, &plan, &seen, &off);
  g_autofree char *line = g_strdup_printf ("%s\t%s (%s)", label, seen, off);
  g_strv_builder_add (lines, line);
}

typedef void (*TellRow) (const char *label, const PrTwo *two, PrUnit unit, gpointer data);

typedef struct {
  TellRow tell;
  PrUnit unit;
  gpointer data;
} Rows;

static void
row (const Rows *rows, const char *label, const PrTwo *two)
{
  if (isfinite (two->seen)) /* what could not be measured is not told */
    rows->tell (label, two, rows->unit, rows->data);
}

static void
row_of (const Rows *rows, const char *label, int branch, const PrTwo *two)
{
  g_autofree char *both = g_strdup_printf ("%s, %s", label, pr_side_word (branch));

  row (rows, both, two);
}

static void
each_size (const PrSizes *s, const Rows *rows)
{
  static const char *const heel[] = { N_ ("Toe to medial heel"), N_ ("Toe to lateral heel") };
  g_autofree char *ahead = pr_length_text (PR_HEEL_AHEAD_MM, rows->unit);
  g_autofree char *at_heel = g_strdup_printf (_ ("Web %s ahead of the heel"), ahead);
  g_autofree char *from = pr_length_text (s->across_at.seen, rows->unit);
  /* Translators: of the two branches, each from the toe along its outer edge */
  g_autofree char *across = g_strdup_printf (_ ("Middle to middle, %s from the toe"), from);

  row (rows, _ ("Length"), &s->length);
  row (rows, _ ("Width"), &s->width);
  row (rows, _ ("Widest place behind the toe"), &s->widest);
  row (rows, _ ("Heel to heel, inside"), &s->heel_gap);
  row (rows, _ ("Heel to heel, outside"), &s->heel_width);
  row (rows, across, &s->across);
  for (int b = 0; b < 2; b++)
    row_of (rows, _ ("Branch outside its place"), b, &s->branch_out[b]);
  for (int b = 0; b < 2; b++)
    row_of (rows, _ ("Heel outside its place"), b, &s->heel_out[b]);
  for (int b = 0; b < 2; b++)
    row (rows, _ (heel[b]), &s->toe_to_heel[b]);
  for (int b = 0; b < 2; b++)
    row_of (rows, _ ("Branch along its outer edge"), b, &s->along_edge[b]);
  for (PrWebAt at = 0; at < PR_N_WEBS; at++)
    if (at == PR_WEB_TOE)
      row (rows, _ ("Web at the toe"), &s->web[at]);
    else
      row_of (rows, at <= PR_WEB_QUARTER_L ? _ ("Web at the quarter") : at_heel, pr_web_branch (at),
              &s->web[at]);
  for (int b = 0; b < 2; b++)
    row_of (rows, _ ("Heel behind the buttress"), b, &s->heel_past[b]);
}

GStrv
pr_forged_lines (const PrComparison *c, PrUnit unit)
{
  g_autoptr (GStrvBuilder) lines = g_strv_builder_new ();
  const Rows rows = { add_line, unit, lines };

  each_size (&c->size, &rows);
  return g_strv_builder_end (lines);
}

static void
put_sizes (GString *out, const PrComparison *c, PrUnit unit)
{
  const Rows rows = { put_row, unit, out };

  rule (out, _ ("Figures"), '-');
  pad (out, "", LABEL_COLUMNS, false);
  pad (out, _ ("planned"), FIGURE_COLUMNS, true);
  pad (out, _ ("forged"), FIGURE_COLUMNS, true);
  pad (out, _ ("difference"), FIGURE_COLUMNS, true);
  g_string_append_c (out, '\n');
  each_size (&c->size, &rows);
}

static void
put_branches (GString *out, const PrComparison *c, PrUnit unit)
{
  static const char *const edge[] = { N_ ("Outer edge"), N_ ("Inner edge") };

  g_string_append_c (out, '\n');
  rule (out, _ ("Along the branches: + too much iron, − too little"), '-');
  for (int e = 0; e < 2; e++)
    for (int b = 0; b < 2; b++) {
      g_autofree char *label = g_strdup_printf ("%s, %s", _ (edge[e]), pr_side_word (b));
      g_autofree char *parallel = pr_forged_signed (c->sum[e].parallel[b], unit);
      g_autofree char *wedge
          = pr_forged_signed (c->sum[e].wedge[b] * (unit == PR_UNIT_INCH ? WEDGE_IN : 1), unit);

      pad (out, label, LABEL_COLUMNS, false);
      g_string_append_printf (out,
                              unit == PR_UNIT_INCH
                                  ? _ ("%s all along, and %s more on 4 in towards the heel")
                                  : _ ("%s all along, and %s more on 100 mm towards the heel"),
                              parallel, wedge);
      g_string_append_c (out, '\n');
    }
}

static void
put_places (GString *out, const PrComparison *c, PrUnit unit)
{
  const PrOffset *place[MOST_PLACES];
  size_t n = pr_forged_largest (c, place, MOST_PLACES);

  if (n == 0)
    return;
  g_string_append_c (out, '\n');
  rule (out, _ ("Where it is out most"), '-');
  for (size_t i = 0; i < n; i++) {
    const PrOffset *o = place[i];
    g_autofree char *off = pr_forged_signed (o->off, unit), *from = pr_length_text (o->place, unit);
    const char *edge = o->edge == PR_SEEN_OUTER ? _ ("outer edge") : _ ("inner edge");

    g_string_append_printf (out, _ ("- %s at the %s, %s, %s from the toe along the edge"), off, edge,
                            pr_side_word (o->branch), from);
    g_string_append_c (out, '\n');
  }
}

static void
put_nails (GString *out, const PrComparison *c, PrUnit unit)
{
  if (c->nail->len > 0) {
    g_string_append_c (out, '\n');
    rule (out, _ ("Nails"), '-');
  }
  for (guint i = 0; i < c->nail->len; i++) {
    const PrNailOff *nail = &g_array_index (c->nail, PrNailOff, i);
    g_autofree char *along = pr_forged_signed (nail->along, unit),
                    *across = pr_forged_signed (nail->out, unit);

    g_string_append_printf (out, _ ("- nail %d %s: %s towards the heel, %s outward"), nail->index + 1,
                            pr_side_word (nail->branch), along, across);
    g_string_append_c (out, '\n');
  }
}

char *
pr_forged_text (const PrJob *job, const PrComparison *c, PrUnit unit)
{
  PR_PLAIN_NUMBERS;
  GString *out = g_string_new (NULL);
  g_autofree char *title = pr_card_title (job, NULL, NULL);
  g_autofree char *verdict = pr_forged_verdict (c, unit), *caution = pr_forged_caution (c, unit);

  rule (out, title, '=');
  if (caution != NULL)
    g_string_append_printf (out, "%s\n", caution);
  if (c->correction->len == 0)
    g_string_append_printf (out, "%s\n", verdict);
  for (guint i = 0; i < c->correction->len; i++) {
    const PrCorrection *one = &g_array_index (c->correction, PrCorrection, i);

    g_string_append_printf (out, "%u. %s [%s]\n", i + 1, one->text, pr_state_name (one->state));
  }
  g_string_append_c (out, '\n');
  put_sizes (out, c, unit);
  put_branches (out, c, unit);
  put_places (out, c, unit);
  put_nails (out, c, unit);
  return g_string_free (out, FALSE);
}
