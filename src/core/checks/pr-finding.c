/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-finding.h"

#include <glib/gi18n-lib.h>

PrFinding *
pr_finding_new (const char *id, PrGroup group, PrState state, double value, double limit, const char *unit,
                const char *source, char *text)
{
  PrFinding *finding = g_new0 (PrFinding, 1);

  finding->id = id;
  finding->group = group;
  finding->state = state;
  finding->value = value;
  finding->limit = limit;
  g_strlcpy (finding->unit, unit, sizeof finding->unit);
  finding->source = g_strdup (source);
  finding->text = text;
  return finding;
}

void
pr_finding_at (PrFinding *finding, PrPt p)
{
  finding->has_at = true;
  finding->at = p;
}

void
pr_finding_free (gpointer data)
{
  PrFinding *finding = data;

  g_free (finding->text);
  g_free (finding->source);
  g_free (finding);
}

PrState
pr_above (double value, const PrLimit *limit)
{
  return value > limit->mend ? PR_MEND : value > limit->look + limit->slack ? PR_LOOK : PR_FITS;
}

PrState
pr_below (double value, const PrLimit *limit)
{
  return value < limit->mend ? PR_MEND : value < limit->look - limit->slack ? PR_LOOK : PR_FITS;
}

const char *
pr_state_code (PrState state)
{
  static const char *const codes[] = { "fits", "look", "mend" };

  return codes[state];
}

const char *
pr_state_name (PrState state)
{
  static const char *const names[] = { N_ ("fits"), N_ ("check"), N_ ("fix") };

  return _ (names[state]);
}

const char *
pr_group_code (PrGroup group)
{
  static const char *const codes[PR_N_GROUPS] = { "heels", "nails", "shape", "iron", "photo" };

  return codes[group];
}

const char *
pr_group_name (PrGroup group)
{
  static const char *const names[PR_N_GROUPS]
      = { N_ ("heels"), N_ ("nails"), N_ ("shape"), N_ ("stock"), N_ ("photo") };

  return _ (names[group]);
}
