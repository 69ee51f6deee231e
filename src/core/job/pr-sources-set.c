/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-sources-set.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "pr-bounds.h"
#include "pr-error.h"
#include "pr-job-marks.h"

#define WALL "wall."
#define MARK "mark."
#define N_WALLS 3

static const struct {
  const char *name, *label;
} names[] = {
  { "wall.toe", N_ ("Wall thickness at the toe") },
  { "wall.quarter", N_ ("Wall thickness at the quarters") },
  { "wall.heel", N_ ("Wall thickness at the heels") },
  { "mark.toe", N_ ("Toe of the foot, x,y on the sheet in mm") },
  { "mark.heel_medial", N_ ("Buttress, medial, x,y on the sheet in mm") },
  { "mark.heel_lateral", N_ ("Buttress, lateral, x,y on the sheet in mm") },
  { "mark.frog_apex", N_ ("Apex of the frog, x,y on the sheet in mm") },
  { "mark.frog_medial", N_ ("Frog at the heels, medial edge, x,y on the sheet in mm") },
  { "mark.frog_lateral", N_ ("Frog at the heels, lateral edge, x,y on the sheet in mm") },
};

bool
pr_sources_name (size_t i, const char **name, const char **label)
{
  if (i >= G_N_ELEMENTS (names))
    return false;
  *name = names[i].name;
  *label = _ (names[i].label);
  return true;
}

bool
pr_sources_has_name (const char *name)
{
  for (size_t i = 0; i < G_N_ELEMENTS (names); i++)
    if (strcmp (name, names[i].name) == 0)
      return true;
  return false;
}

static bool
wrong (GError **error, const char *format, const char *name, const char *value)
{
  g_set_error (error, PR_ERROR, PR_ERROR_INPUT, format, name, value);
  return false;
}

static bool
set_wall (PrSources *sources, const PrHoof *hoof, const char *name, const char *value, PrUnit unit,
          GError **error)
{
  double mm = 0, least, most;

  if (*value && !pr_length_parse (value, unit, &mm, error))
    return false;
  if (mm != 0 && !pr_hoof_takes_wall (hoof, mm, &least, &most)) {
    g_autofree char *low = pr_length_text (least, unit), *high = pr_length_text (most, unit);

    g_set_error (error, PR_ERROR, PR_ERROR_INPUT,
                 _ ("%s: a wall of this foot is between %s and %s thick; measure it again."), name, low,
                 high);
    return false;
  }
  for (int i = 0; i < N_WALLS; i++)
    if (strcmp (name + strlen (WALL), pr_job_wall_names[i]) == 0)
      sources->wall[i] = mm;
  return true;
}

static bool
read_place (const char *text, PrSheetPt *at)
{
  char *end = NULL;

  at->x = g_ascii_strtod (text, &end);
  if (end == text || *end != ',')
    return false;
  text = end + 1;
  at->y = g_ascii_strtod (text, &end);
  return end != text && *end == '\0' && pr_bound_holds (PR_BOUND_PLACE, at->x)
         && pr_bound_holds (PR_BOUND_PLACE, at->y);
}

static bool
set_mark (PrSources *sources, const char *name, const char *value, GError **error)
{
  PrJobMark table[PR_JOB_MARKS];
  PrSheetPt at = { 0, 0 };

  if (*value && !read_place (value, &at))
    return wrong (error, _ ("%s cannot be at “%s”; give its place on the sheet in mm, like 104.5,150"), name,
                  value);
  pr_job_list_marks (&sources->marks, table);
  for (size_t i = 0; i < PR_JOB_MARKS; i++)
    if (strcmp (name + strlen (MARK), table[i].name) == 0) {
      *table[i].has = *value != '\0';
      *table[i].at = at;
    }
  return true;
}

bool
pr_sources_set_text (PrSources *sources, const PrHoof *hoof, const char *name, const char *value, PrUnit unit,
                     GError **error)
{
  if (!pr_sources_has_name (name))
    return wrong (error, _ ("%s cannot be measured on a foot as “%s”"), name, value);
  return g_str_has_prefix (name, WALL) ? set_wall (sources, hoof, name, value, unit, error)
                                       : set_mark (sources, name, value, error);
}
