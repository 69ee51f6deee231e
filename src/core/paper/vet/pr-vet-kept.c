/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-vet-kept.h"

#include <string.h>

#include "pr-json.h"
#include "pr-seen-read.h"

/* Foot frame to a sheet seen from above, y down: the other way round than pr_comparison_in, without a turn. */
static void
turn_back (PrSheetPt *p, size_t n, double sign)
{
  for (size_t i = 0; i < n; i++)
    p[i] = (PrSheetPt){ sign * p[i].x, -p[i].y };
}

static void
turn_all_back (PrSeen *seen, double sign)
{
  turn_back (seen->outer.p, seen->outer.n, sign);
  turn_back (seen->inner.p, seen->inner.n, sign);
  for (size_t i = 0; i < seen->n_opening; i++)
    turn_back (seen->opening[i].p, seen->opening[i].n, sign);
  for (size_t i = 0; i < seen->n_nail; i++)
    turn_back (&seen->nail[i].at, 1, sign);
}

bool
pr_vet_kept_read (const char *compared, PrFoot foot, PrSeen *seen, PrLay *lay)
{
  g_autoptr (JsonNode) node = pr_json_parse (compared, strlen (compared), NULL);
  const char *by = pr_json_string (pr_json_object (pr_json_is_object (node), "laid"), "by");

  *lay = PR_LAY_BEST;
  if (node == NULL || !pr_seen_from_json (seen, node, NULL))
    return false;
  if (by != NULL)
    pr_lay_parse (by, lay);
  turn_all_back (seen, pr_lateral_sign (foot, seen->face));
  return true;
}
