/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-section-look.h"

#include <glib/gi18n-lib.h>

#define SAME_MM 0.3    /* webs and thicknesses nearer than this are one to a smith */
#define SAME_AREA 0.02 /* share of the section's area */
#define SECOND_NAIL 1  /* its index */

/* --- drawing ------------------------------------------------------------------------------- */

static void
widen (PrSectionRoom *room, const PrPath *ring)
{
  for (size_t i = 0; i < ring->n; i++) {
    room->left = MAX (room->left, -ring->p[i].x);
    room->up = MAX (room->up, -ring->p[i].y);
    room->right = MAX (room->right, ring->p[i].x);
    room->down = MAX (room->down, ring->p[i].y);
  }
}

PrSectionRoom
pr_section_room (const PrSection *section)
{
  PrSectionRoom room = { 0 };

  widen (&room, &section->iron);
  widen (&room, &section->clip);
  return room;
}

static void
paint (cairo_t *cr, const PrPath *ring, PrColour fill, PrColour edge, double line)
{
  if (ring->n < 3)
    return;
  for (size_t i = 0; i < ring->n; i++)
    cairo_line_to (cr, ring->p[i].x, ring->p[i].y);
  cairo_close_path (cr);
  pr_ink (cr, fill);
  cairo_fill_preserve (cr);
  pr_ink (cr, edge);
  cairo_set_line_width (cr, line);
  cairo_stroke (cr);
}

void
pr_section_draw (cairo_t *cr, const PrSection *section, const PrInk *ink, double line)
{
  cairo_save (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  paint (cr, &section->iron, ink->steel, ink->line, line);
  paint (cr, &section->clip, ink->deep, ink->line, line);
  paint (cr, &section->hole, ink->ground, ink->line, line / 2);
  cairo_restore (cr);
}

/* --- words --------------------------------------------------------------------------------- */

char *
pr_section_size (const PrSection *section, PrUnit unit)
{
  return pr_section_text (section->web, section->thick, unit);
}

char *
pr_section_crease (const PrSection *section, PrUnit unit)
{
  if (!(section->crease_width > 0))
    return NULL;
  g_autofree char *wide = pr_length_number (section->crease_width, unit),
                  *deep = pr_length_text (section->crease_depth, unit);

  return g_strdup_printf (_ ("crease %s wide, %s deep"), wide, deep);
}

/* --- places -------------------------------------------------------------------------------- */

static void
place_clear (gpointer data)
{
  g_free (((PrSectionPlace *) data)->name);
}

/* Do the two branches look alike at these places? */
static bool
alike (const PrJob *job, const double s[2])
{
  g_auto (PrSection) a = { 0 }, b = { 0 };

  pr_section_at (&job->sources.plan, job->shoe, s[0], &a);
  pr_section_at (&job->sources.plan, job->shoe, s[1], &b);
  double area = pr_section_area (&a);
  return fabs (a.web - b.web) < SAME_MM && fabs (a.thick - b.thick) < SAME_MM
         && fabs (pr_section_area (&b) - area) < SAME_AREA * area;
}

static void
add (GArray *places, double s, char *name)
{
  g_array_append_val (places, ((PrSectionPlace){ s, name }));
}

/* Both branches' places S under one NAME where they are alike; a branch without one (NAN) is left out. */
static void
add_pair (GArray *places, const PrJob *job, const double s[2], const char *name)
{
  static const int order[2] = { PR_LATERAL, PR_MEDIAL };
  bool both = isfinite (s[0]) && isfinite (s[1]);

  if (both && alike (job, s)) {
    add (places, s[PR_LATERAL], g_strdup (name));
    return;
  }
  for (int i = 0; i < 2; i++)
    if (isfinite (s[order[i]]))
      /* TRANSLATORS: a place and its branch: “nail 2, lateral” */
      add (places, s[order[i]],
           g_strdup_printf (_ ("%s, %s"), name, order[i] == PR_MEDIAL ? _ ("medial") : _ ("lateral")));
}

GArray *
pr_section_places (const PrJob *job)
{
  GArray *places = g_array_new (FALSE, FALSE, sizeof (PrSectionPlace));
  const PrShoe *shoe = job->shoe;
  double nail[2], heel[2];

  g_array_set_clear_func (places, place_clear);
  if (shoe->n_st < 2)
    return places;
  for (int b = 0; b < 2; b++) {
    nail[b] = pr_section_nail (shoe, b, SECOND_NAIL);
    heel[b] = pr_section_heel (shoe, b);
  }
  add (places, pr_section_toe (shoe), g_strdup (_ ("toe")));
  add_pair (places, job, nail, _ ("nail 2"));
  add_pair (places, job, heel, _ ("heel"));
  return places;
}
