/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-marking.h"

#include <glib/gi18n-lib.h>

static void
set_reason (PrMarking *marking, const PrTake *take)
{
  char *why = g_strdup (take->why ? take->why : _ ("Mark something whose size is known."));

  g_free (marking->why);
  marking->why = why;
  marking->options = take->options;
}

PrMarking *
pr_marking_new (PrTake *take)
{
  PrMarking *marking = g_new0 (PrMarking, 1);

  marking->take = take;
  marking->photo = take->photo;
  set_reason (marking, take);
  return marking;
}

void
pr_marking_free (PrMarking *marking)
{
  if (!marking)
    return;
  pr_take_free (marking->take);
  g_free (marking->why);
  g_free (marking);
}

bool
pr_marking_goes_on (PrMarking *marking, const PrTake *take)
{
  if (marking->take->bytes != take->bytes)
    return false;
  set_reason (marking, take);
  return true;
}
