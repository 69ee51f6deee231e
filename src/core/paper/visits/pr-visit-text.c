/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-visit-text.h"

#include <glib/gi18n-lib.h>

#include "pr-forged-text.h"
#include "pr-limits.h"

/* --- a change ------------------------------------------------------------------------------ */

static void
add_places (GStrvBuilder *lines, const PrVisitChange *change, PrUnit unit)
{
  for (PrVisitPlace place = 0; place < PR_N_VISIT_PLACES; place++) {
    const PrVisitGap *gap = &change->place[place];
    g_autofree char *label = pr_visit_place_words (place);
    g_autofree char *value = gap->known ? pr_forged_signed (gap->mm, unit) : g_strdup ("–");
    g_autofree char *line = g_strdup_printf ("%s\t%s", label, value);

    g_strv_builder_add (lines, line);
  }
}

static void
add_measures (GStrvBuilder *lines, const PrVisitChange *change, PrUnit unit)
{
  for (PrVisitMeasure m = 0; m < PR_N_VISIT_MEASURES; m++) {
    if (!isfinite (change->now_mm[m]) || !isfinite (change->before_mm[m]))
      continue;
    g_autofree char *label = pr_visit_measure_words (m);
    g_autofree char *now = pr_length_text (change->now_mm[m], unit);
    g_autofree char *by = pr_forged_signed (change->now_mm[m] - change->before_mm[m], unit);
    g_autofree char *line = g_strdup_printf ("%s\t%s (%s)", label, now, by);

    g_strv_builder_add (lines, line);
  }
}

GStrv
pr_visit_lines (const PrVisitChange *change, bool shoes, PrUnit unit)
{
  g_autoptr (GStrvBuilder) lines = g_strv_builder_new ();
  const PrComparison sizes = { .size = change->size };

  if (shoes)
    return change->shoes ? pr_forged_lines (&sizes, unit) : g_strv_builder_end (lines);
  add_places (lines, change, unit);
  add_measures (lines, change, unit);
  return g_strv_builder_end (lines);
}

char *
pr_visit_caution (const PrVisitChange *change)
{
  static const char *const tells[PR_N_VISIT_LAYS] = {
    [PR_VISIT_FROG] = N_ ("Frog on frog: the gap shows what the wall has moved by all round."),
    [PR_VISIT_TOE] = N_ ("Toe on toe: the gap shows what has changed behind the toe."),
    [PR_VISIT_BEST]
    = N_ ("Best fit: even growth shows, and what changed in places; a foot that came forward as a "
          "whole does not."),
  };
  GString *out = g_string_new (_ (tells[change->lay]));

  if (change->mirrored)
    g_string_append_printf (out, " %s", _ ("One is the other side's foot, mirrored."));
  if (change->doubtful)
    g_string_append_printf (out, " %s",
                            _ ("The scale of one of them is not sure: check it before you go by this."));
  return g_string_free (out, FALSE);
}

char *
pr_visit_lay_words (PrVisitLay lay)
{
  static const char *const words[PR_N_VISIT_LAYS] = {
    [PR_VISIT_FROG] = N_ ("By the frog"),
    [PR_VISIT_TOE] = N_ ("By the toe tick"),
    [PR_VISIT_BEST] = N_ ("By the best fit"),
  };

  return g_strdup (_ (words[lay]));
}

/* --- all visits ---------------------------------------------------------------------------- */

char *
pr_visit_band_words (PrVisitMeasure measure, PrUnit unit)
{
  if (!pr_visit_measure_grows (measure))
    return NULL;
  g_autofree char *least = pr_length_brief (pr_limit ("growth.month.least")->mend, unit);
  g_autofree char *most = pr_length_brief (pr_limit ("growth.month.most")->mend, unit);
  return g_strdup_printf (_ ("Shaded: where the toe would be at most by the next visit had nobody trimmed "
                             "it. The wall grows %s to %s a "
                             "month along itself (trade pages); on the ground the toe comes forward less."),
                          least, most);
}

char *
pr_visit_cell (double mm, PrUnit unit)
{
  return isfinite (mm) ? pr_length_number (mm, unit) : g_strdup ("–");
}

char *
pr_visit_csv (const PrVisitTable *table)
{
  GString *out = g_string_new ("date,foot");
  char digits[G_ASCII_DTOSTR_BUF_SIZE];

  for (PrVisitMeasure m = 0; m < PR_N_VISIT_MEASURES; m++)
    g_string_append_printf (out, ",%s_mm", pr_visit_measure_code (m));
  g_string_append (out, "\r\n");
  for (guint i = 0; i < table->row->len; i++) {
    const PrVisitFigures *row = g_ptr_array_index (table->row, i);

    g_string_append_printf (out, "%.10s,%s", row->day > 0 ? row->date : "", pr_foot_code (table->foot));
    for (PrVisitMeasure m = 0; m < PR_N_VISIT_MEASURES; m++)
      g_string_append_printf (out, ",%s",
                              isfinite (row->mm[m])
                                  ? g_ascii_formatd (digits, sizeof digits, "%.2f", row->mm[m])
                                  : "");
    g_string_append (out, "\r\n");
  }
  return g_string_free (out, FALSE);
}
