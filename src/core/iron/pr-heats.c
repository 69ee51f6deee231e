/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-heats.h"

#include <string.h>

#include "pr-heat.h"

#define WELD_FROM_C 1300.0 /* a weld takes between these: trade tutorials, read; no source for the figures */
#define WELD_TO_C 1200.0
#define BEGINS "/"

/* --- the order a person gave ---------------------------------------------------------------- */

static PrStep *
step_at (const PrHeats *heats, guint nr)
{
  return &g_array_index (heats->steps, PrStep, nr);
}

static bool
find (const GArray *steps, const char *id, guint *nr)
{
  for (*nr = 0; *nr < steps->len; ++*nr)
    if (strcmp (g_array_index (steps, PrStep, *nr).id, id) == 0)
      return true;
  return false;
}

/* How a heat comes to begin with a step. */
typedef enum { BEGIN_BY_ITSELF, BEGIN_HERE, BEGIN_NOT } Begin;

/* NR of each step in the order of WORDS; those they leave out behind the one before them, the last cold one at the end.
 * BEGINS, one a step, says what they make of it. */
static GArray *
order_of (const GArray *steps, char **words, Begin *begins)
{
  GArray *order = g_array_new (FALSE, FALSE, sizeof (guint));
  g_autofree bool *named = g_new0 (bool, steps->len + 1);
  bool begin = false;
  guint nr, at = 0;

  for (char **word = words; *word; word++) {
    if (strcmp (*word, BEGINS) == 0) {
      begin = true;
    } else if (find (steps, *word, &nr) && !named[nr]) {
      named[nr] = true;
      g_array_append_val (order, nr);
      begins[nr] = begin ? BEGIN_HERE : BEGIN_NOT;
      begin = false;
    }
  }
  for (nr = 0; nr < steps->len; nr++) {
    if (!named[nr]) {
      if (g_array_index (steps, PrStep, nr).kind == PR_STEP_LEVEL)
        at = order->len;
      g_array_insert_val (order, at, nr);
    } else
      for (at = 0; g_array_index (order, guint, at) != nr;)
        at++;
    at++;
  }
  return order;
}

/* Puts the hot steps in the order of TEXT. Transfer full: how each comes to begin a heat. */
static Begin *
arrange (PrHeats *heats, const char *text)
{
  guint n = heats->steps->len;
  g_auto (GStrv) words = g_strsplit (text, " ", -1);
  g_autofree Begin *wanted = g_new0 (Begin, n);
  g_autoptr (GArray) order = order_of (heats->steps, words, wanted);
  g_autofree PrStep *was = g_memdup2 (heats->steps->data, n * sizeof (PrStep));
  Begin *begins = g_new (Begin, n);

  for (guint i = 0; i < n; i++) {
    guint nr = g_array_index (order, guint, i);

    *step_at (heats, i) = was[nr];
    begins[i] = wanted[nr];
  }
  return begins;
}

/* --- packing --------------------------------------------------------------------------------- */

static bool
is_weld (const PrStep *step)
{
  return step->kind == PR_STEP_WELD || step->kind == PR_STEP_CLOSE;
}

static PrHeat
new_heat (const PrPlan *plan, const PrStep *step, guint first)
{
  PrHeat heat = { .zone = step->zone, .weld = is_weld (step), .first = first };

  if (plan->material != PR_MATERIAL_ALUMINIUM)
    heat.limit = heat.weld ? pr_heat_seconds (plan->stock_width, plan->stock_thick, WELD_FROM_C, WELD_TO_C)
                           : PR_HEAT_ON_ANVIL
                                 * pr_heat_seconds (plan->stock_width, plan->stock_thick, PR_HEAT_FROM_C,
                                                    PR_HEAT_TO_C);
  return heat;
}

/* Does STEP go into HEAT by itself? */
static bool
fits (const PrHeat *heat, const PrStep *step)
{
  return heat->zone == step->zone && !heat->weld && !is_weld (step)
         && (heat->limit <= 0 || heat->seconds + step->seconds <= heat->limit);
}

static void
pack (PrHeats *heats, const PrPlan *plan, const Begin *begins)
{
  PrHeat heat = { .n = 0 };

  for (guint i = 0; i < heats->steps->len; i++) {
    const PrStep *step = step_at (heats, i);

    if (step->zone == PR_ZONE_COLD)
      continue;
    Begin way = begins ? begins[i] : BEGIN_BY_ITSELF;
    bool begin = way == BEGIN_HERE || (way == BEGIN_BY_ITSELF && !fits (&heat, step));
    if (heat.n == 0 || begin) {
      if (heat.n > 0)
        g_array_append_val (heats->heats, heat);
      heat = new_heat (plan, step, i);
    }
    heat.n++;
    heat.seconds += step->seconds;
    heat.weld = heat.weld || is_weld (step);
  }
  if (heat.n > 0)
    g_array_append_val (heats->heats, heat);
}

void
pr_heats_make (PrHeats *heats, const PrPlan *plan, const PrShoe *shoe, const PrIron *iron, PrUnit unit)
{
  g_autofree Begin *begins = NULL;

  *heats = (PrHeats){ pr_steps_of (plan, shoe, iron, unit), g_array_new (FALSE, FALSE, sizeof (PrHeat)) };
  if (*plan->heats)
    begins = arrange (heats, plan->heats);
  pack (heats, plan, begins);
}

bool
pr_heat_is_too_long (const PrHeat *heat)
{
  return heat->limit > 0 && heat->seconds > heat->limit;
}

void
pr_heats_clear (PrHeats *heats)
{
  g_clear_pointer (&heats->steps, g_array_unref);
  g_clear_pointer (&heats->heats, g_array_unref);
}

guint
pr_heats_of_step (const PrHeats *heats, guint nr)
{
  guint of = 0;

  while (of < heats->heats->len) {
    const PrHeat *heat = &g_array_index (heats->heats, PrHeat, of);

    if (nr < heat->first)
      return of; /* only what comes before the first one */
    if (nr < heat->first + heat->n)
      return of + 1;
    of++;
  }
  return of + 1;
}

/* --- changing it ----------------------------------------------------------------------------- */

/* Hot steps in ORDER, a heat beginning where BEGINS says. */
static char *
in_words (const PrHeats *heats, const guint *order, const bool *begins)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < heats->steps->len; i++) {
    const PrStep *step = step_at (heats, order[i]);

    if (step->zone == PR_ZONE_COLD)
      continue;
    if (begins[i] && text->len > 0)
      g_string_append (text, " " BEGINS);
    g_string_append_printf (text, "%s%s", text->len > 0 ? " " : "", step->id);
  }
  return g_string_free (text, FALSE);
}

static void
as_it_is (const PrHeats *heats, guint *order, bool *begins)
{
  for (guint i = 0; i < heats->steps->len; i++)
    order[i] = i;
  for (guint i = 0; i < heats->heats->len; i++)
    begins[g_array_index (heats->heats, PrHeat, i).first] = true;
}

static bool
is_hot (const PrHeats *heats, guint nr)
{
  return nr < heats->steps->len && step_at (heats, nr)->zone != PR_ZONE_COLD;
}

char *
pr_heats_moved (const PrHeats *heats, guint nr, int by)
{
  guint n = heats->steps->len, other = nr + (guint) by;
  g_autofree guint *order = g_new (guint, n);
  g_autofree bool *begins = g_new0 (bool, n + 1);

  if (!is_hot (heats, nr))
    return NULL;
  as_it_is (heats, order, begins);
  if (by < 0 && begins[nr] && pr_heats_of_step (heats, nr) > 1) {
    /* into the heat before, at its end; what followed it begins this one */
    begins[nr] = false;
    begins[nr + 1] = is_hot (heats, nr + 1);
  } else if (by > 0 && begins[nr + 1] && is_hot (heats, nr + 1)) {
    begins[nr + 1] = false;
    begins[nr] = true;
  } else if (is_hot (heats, other)) {
    order[nr] = other;
    order[other] = nr;
  } else {
    return NULL;
  }
  return in_words (heats, order, begins);
}

char *
pr_heats_parted (const PrHeats *heats, guint nr)
{
  guint n = heats->steps->len;
  g_autofree guint *order = g_new (guint, n);
  g_autofree bool *begins = g_new0 (bool, n + 1);

  if (!is_hot (heats, nr) || nr == 0 || !is_hot (heats, nr - 1))
    return NULL;
  as_it_is (heats, order, begins);
  begins[nr] = !begins[nr];
  return in_words (heats, order, begins);
}
