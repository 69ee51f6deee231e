/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The order of work, from the plan: cut, scarf and weld, mark, turn, crease, punch, clip, heels. Common practice, no
 * source; the person at the anvil may reword it. */
#include <glib/gi18n-lib.h>
#include <string.h>

#include "pr-dividers.h"

typedef struct {
  GPtrArray *out;
  PrUnit unit;
} Order;

#define WORTH_TELLING 0.05 /* of strain: less is lost in turning the shoe */

static char *
len (const Order *o, double mm)
{
  return pr_length_text (mm, o->unit);
}

static void
cut (const Order *o, const PrPlan *plan, const PrIron *iron)
{
  g_autofree char *w = len (o, plan->stock_width), *t = len (o, plan->stock_thick);

  for (size_t i = 0; i < iron->n_pieces; i++) {
    g_autofree char *l = len (o, iron->piece[i].length);

    g_ptr_array_add (o->out,
                     g_strdup_printf (_ ("Cut %s of %s × %s for the %s."), l, w, t, iron->piece[i].name));
  }
}

static void
mark (const Order *o, const PrIron *iron)
{
  const PrPiece *piece = &iron->piece[0];

  for (size_t i = 0; i < piece->n_marks; i++)
    if (strcmp (piece->mark[i].id, "toe") == 0) {
      g_autofree char *l = len (o, piece->mark[i].from_end);

      g_ptr_array_add (o->out, g_strdup_printf (_ ("Centre-punch the toe %s from the medial end."), l));
    }
}

static void
draw (const Order *o, const PrIron *iron)
{
  double drawn = 0, upset = 0;

  for (size_t i = 0; i < iron->n_st; i++) {
    drawn = MAX (drawn, iron->strain[i]);
    upset = MAX (upset, -iron->strain[i]);
  }
  if (upset > WORTH_TELLING)
    g_ptr_array_add (
        o->out, g_strdup_printf (_ ("Upset where the bar map says so, by %.0f %% at most, before turning."),
                                 (exp (upset) - 1) * 100));
  if (drawn > WORTH_TELLING)
    g_ptr_array_add (o->out,
                     g_strdup_printf (_ ("Draw where the bar map says so, longer by %.0f %% at most."),
                                      (exp (drawn) - 1) * 100));
}

static void
turn (const Order *o, const PrPlan *plan, const PrShoe *shoe)
{
  static const char *const sides[] = { N_ ("medial"), N_ ("lateral") };
  double low = INFINITY, high = -INFINITY;

  g_ptr_array_add (o->out, g_strdup (_ ("Turn the toe, then both branches, to the template.")));
  for (int b = 0; b < 2; b++)
    if (plan->boxing[b].width > 0) {
      g_autofree char *w = len (o, plan->boxing[b].width), *d = len (o, plan->boxing[b].depth);

      g_ptr_array_add (o->out,
                       g_strdup_printf (_ ("Box the %s branch %s wide and %s deep."), _ (sides[b]), w, d));
    }
  for (size_t i = 0; i < shoe->outer.n; i++) {
    low = MIN (low, shoe->outer.p[i].x);
    high = MAX (high, shoe->outer.p[i].x);
  }
  g_autofree char *wide = len (o, high - low);
  g_ptr_array_add (o->out, g_strdup_printf (_ ("Look: %s across at the widest line."), wide));
}

static void
weld (const Order *o, const PrPlan *plan, const PrShoe *shoe)
{
  if (shoe->ext.present) {
    g_autofree char *a = len (o, shoe->ext.ahead), *w = len (o, shoe->ext.width),
                    *t = len (o, shoe->ext.thick);

    if (plan->ext_piece)
      g_ptr_array_add (o->out,
                       g_strdup (_ ("Scarf toe and extension piece, weld them, and dress the weld flat.")));
    g_ptr_array_add (o->out, g_strdup_printf (_ ("Forge the extension %s wide and %s thick, its front %s "
                                                 "ahead of the hoof; square it to the centre line."),
                                              w, t, a));
  }
  if (plan->bar != PR_BAR_NONE)
    g_ptr_array_add (
        o->out,
        g_strdup (
            plan->bar_piece
                ? _ ("Scarf the heels and the bar piece, weld one heel, then the other, and dress the bar.")
                : _ ("Turn the heels in, scarf and weld them into the bar, and dress it.")));
}

static void
crease (const Order *o, const PrShoe *shoe)
{
  static const char *const sides[] = { N_ ("medial"), N_ ("lateral") };

  for (size_t i = 0; i < shoe->n_creases; i++) {
    const PrCrease *c = &shoe->crease[i];
    double start = shoe->ext.present ? shoe->ext.line_edge[c->branch] : 0;
    g_autofree char *from = len (o, c->edge_from - start), *to = len (o, c->edge_to - start);
    g_autofree char *depth = len (o, c->depth);
    const char *text = shoe->ext.present
                           ? _ ("Crease the %s branch from %s to %s behind the extension line, %s deep.")
                           : _ ("Crease the %s branch from %s to %s from the toe, %s deep.");

    g_ptr_array_add (o->out, g_strdup_printf (text, _ (sides[c->branch]), from, to, depth));
  }
}

static void
punch (const Order *o, const PrShoe *shoe)
{
  static const char *const sides[] = { N_ ("medial"), N_ ("lateral") };

  for (int b = 0; b < 2; b++) {
    GString *places = g_string_new (NULL);
    double start = shoe->ext.present ? shoe->ext.line_edge[b] : 0;

    for (size_t i = 0; i < shoe->n_nails; i++)
      if (shoe->nail[i].branch == b) {
        g_autofree char *l = len (o, shoe->nail[i].edge - start);

        g_string_append_printf (places, "%s%s", places->len ? ", " : "", l);
      }
    if (places->len)
      g_ptr_array_add (
          o->out,
          g_strdup_printf (shoe->ext.present
                               ? _ ("Stamp and pritchel the %s nails at %s behind the extension line.")
                               : _ ("Stamp and pritchel the %s nails at %s from the toe."),
                           _ (sides[b]), places->str));
    g_string_free (places, TRUE);
  }
}

static void
clips (const Order *o, const PrShoe *shoe)
{
  for (size_t i = 0; i < shoe->n_clips; i++) {
    const PrClip *c = &shoe->clip[i];
    g_autofree char *base = len (o, c->base), *height = len (o, c->height), *edge = len (o, c->edge);

    if (c->edge <= 0)
      g_ptr_array_add (o->out, g_strdup_printf (_ ("Draw the toe clip, base %s, height %s."), base, height));
    else
      g_ptr_array_add (
          o->out,
          g_strdup_printf (c->branch == PR_MEDIAL
                               ? _ ("Draw the medial clip, base %s, height %s, its middle %s from the toe.")
                               : _ ("Draw the lateral clip, base %s, height %s, its middle %s from the toe."),
                           base, height, edge));
  }
}

static void
toe_and_heels (const Order *o, const PrPlan *plan)
{
  g_autofree char *m = len (o, plan->heel_past[PR_MEDIAL]), *l = len (o, plan->heel_past[PR_LATERAL]);

  if (plan->toe == PR_TOE_ROLLED) {
    g_autofree char *a = len (o, plan->toe_amount);

    g_ptr_array_add (o->out, g_strdup_printf (_ ("Roll the toe over %s."), a));
  }
  for (int b = 0; b < 2; b++)
    if (plan->seating[b].width > 0) {
      g_autofree char *w = len (o, plan->seating[b].width), *d = len (o, plan->seating[b].depth);

      g_ptr_array_add (o->out,
                       g_strdup_printf (b == PR_MEDIAL ? _ ("Seat the medial branch %s wide and %s deep.")
                                                       : _ ("Seat the lateral branch %s wide and %s deep."),
                                        w, d));
    }
  if (plan->bar == PR_BAR_NONE)
    g_ptr_array_add (
        o->out,
        g_strdup_printf (_ ("Finish the heels level, %s medial and %s lateral past the buttress."), m, l));
  g_ptr_array_add (
      o->out,
      g_strdup (_ ("Level the shoe cold, lay it on the template, then on the foot. The foot decides.")));
}

GPtrArray *
pr_order_of_work (const PrHoof *hoof, const PrPlan *plan, const PrShoe *shoe, const PrIron *iron, PrUnit unit)
{
  Order o = { g_ptr_array_new_with_free_func (g_free), unit };

  (void) hoof;
  g_ptr_array_add (o.out, g_strdup (_ ("Measure the bar in hand and the check bar on the template.")));
  cut (&o, plan, iron);
  mark (&o, iron);
  draw (&o, iron);
  turn (&o, plan, shoe);
  weld (&o, plan, shoe);
  crease (&o, shoe);
  punch (&o, shoe);
  clips (&o, shoe);
  toe_and_heels (&o, plan);
  return o.out;
}
