/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-rows.h"

#include <glib/gi18n-lib.h>

#include "pr-number-order.h"
#include "pr-shoe-places.h"
#include "pr-text.h"

/* A stretch before creasing and before its bevels. */
typedef struct {
  double section; /* mm2 */
  double crease,
      bevel; /* its length over the finished one's: what creasing gives, and what hammered bevels give */
} Before;

/* Of finished section AREA, out of which CREASE and BEVEL mm2 have been taken. */
static Before
before (const PrPlan *plan, double area, double crease, double bevel)
{
  /* what is ground off in the end is iron until then */
  double worked = plan->bevels_ground ? area + bevel : area;
  double kept = 1 - plan->crease_along * crease / MAX (worked + crease, 1e-9), section = worked / kept;

  if (plan->bevels_ground)
    return (Before){ section, kept, 1 };
  return (Before){ section + bevel, kept, section / MAX (section + bevel, 1e-9) };
}

static double
bevels_of (const PrStation *st)
{
  return st->boxing_area + st->seating_area;
}

void
pr_rows_clear (PrRows *rows)
{
  g_free (rows->blank);
  g_free (rows->section);
  *rows = (PrRows){ 0 };
}

void
pr_rows_make (PrRows *rows, const PrPlan *plan, const PrShoe *shoe)
{
  *rows = (PrRows){ .n = shoe->n_st,
                    .blank = g_renew (double, rows->blank, shoe->n_st),
                    .section = g_renew (double, rows->section, shoe->n_st) };

  for (size_t i = 0; i < shoe->n_st; i++) {
    const PrStation *st = &shoe->st[i], *last = st - 1;

    rows->section[i] = before (plan, st->area, st->crease_area, bevels_of (st)).section;
    rows->widens = MAX (rows->widens, st->crease_area > 0 ? st->web - rows->section[i] / st->thick : 0);
    if (i == 0) {
      rows->blank[0] = 0;
      continue;
    }
    const Before mean = before (plan, (st->area + last->area) / 2, (st->crease_area + last->crease_area) / 2,
                                (bevels_of (st) + bevels_of (last)) / 2);
    double ds = st->s - last->s;
    int branch = i > shoe->toe_st ? PR_LATERAL : PR_MEDIAL;

    rows->blank[i] = rows->blank[i - 1] + ds * mean.crease * mean.bevel;
    rows->lengthens[branch] += ds * (1 - mean.crease);
    rows->bevel_lengthens[branch] += ds * mean.crease * (1 - mean.bevel);
  }
}

/* --- from one place to the other ------------------------------------------------------------- */

static double
mix (const double *values, size_t i, double t)
{
  return values[i] + t * (values[i + 1] - values[i]);
}

double
pr_rows_blank_of (const PrRows *rows, const PrShoe *shoe, double s)
{
  double t;
  size_t i = pr_shoe_station_at (shoe, s, &t);

  return mix (rows->blank, i, t);
}

double
pr_rows_finished_of (const PrRows *rows, const PrShoe *shoe, double blank)
{
  double t;
  size_t i = pr_rising_find (rows->blank, rows->n, blank, &t);

  return shoe->st[i].s + t * (shoe->st[i + 1].s - shoe->st[i].s);
}

static double
thick_at (const PrShoe *shoe, size_t i, double t)
{
  return shoe->st[i].thick + t * (shoe->st[i + 1].thick - shoe->st[i].thick);
}

double
pr_rows_web_at (const PrRows *rows, const PrShoe *shoe, double s)
{
  double t;
  size_t i = pr_shoe_station_at (shoe, s, &t);

  return mix (rows->section, i, t) / thick_at (shoe, i, t);
}

/* --- places --------------------------------------------------------------------------------- */

typedef struct {
  GArray *out;
  const PrRows *rows;
  const PrShoe *shoe;
} List;

static void
add (const List *list, int branch, double edge, const char *id, const char *name)
{
  static const char *const sides[] = { "medial", "lateral" };
  PrRowPlace place = { .branch = branch, .s = pr_shoe_edge_to_s (list->shoe, branch, edge) };
  double toe = list->rows->blank[list->shoe->toe_st], t;
  size_t i = pr_shoe_station_at (list->shoe, place.s, &t);

  g_snprintf (place.id, sizeof place.id, edge > 0 ? "%s.%s" : "%s", id, sides[branch]);
  pr_text_copy (place.name, sizeof place.name, name);
  place.place = fabs (pr_rows_blank_of (list->rows, list->shoe, place.s) - toe);
  place.web = pr_rows_web_at (list->rows, list->shoe, place.s);
  place.thick = thick_at (list->shoe, i, t);
  g_array_append_val (list->out, place);
}

static void
add_branch (const List *list, int b)
{
  const PrShoe *shoe = list->shoe;
  const PrCrease *crease = NULL;

  for (size_t i = 0; i < shoe->n_creases; i++)
    if (shoe->crease[i].branch == b)
      crease = &shoe->crease[i];
  if (crease)
    add (list, b, crease->edge_from, "crease.from", _ ("crease begins"));
  for (size_t i = 0; i < shoe->n_nails; i++) {
    const PrNail *nail = &shoe->nail[i];
    g_autofree char *id = g_strdup_printf ("nail.%d", nail->index + 1),
                    *name = g_strdup_printf (_ ("nail %d"), nail->index + 1);

    if (nail->branch == b)
      add (list, b, nail->edge, id, name);
  }
  if (crease)
    add (list, b, crease->edge_to, "crease.to", _ ("crease ends"));
  add (list, b, pr_shoe_place_to_edge (shoe, b, MIN (1, shoe->edge_length[b] / shoe->edge_buttress[b])),
       "heel", _ ("heel"));
}

GArray *
pr_rows_places (const PrRows *rows, const PrShoe *shoe)
{
  const List list = { g_array_new (FALSE, FALSE, sizeof (PrRowPlace)), rows, shoe };

  if (rows->n < 2)
    return list.out;
  add (&list, PR_LATERAL, 0, "toe", _ ("toe"));
  add_branch (&list, PR_MEDIAL);
  add_branch (&list, PR_LATERAL);
  return list.out;
}
