/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-feet-page.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "pr-card-draft.h"
#include "pr-feet-table.h"
#include "pr-ink.h"
#include "pr-leaf.h"

#define NAME_MM 4.2       /* a foot's name above it */
#define HEAD_ROOM_MM 12.0 /* name and style */
#define PAD_MM 3.0
#define GAP_MM 4.0
#define LINE_MM 0.35
#define N_PLACES 4

/* Those a folding rule makes easy to read back. */
static const double scales[] = { 1, 1.5, 2, 2.5, 3, 4, 5, 10, 20, 50 };

struct _PrFeetPage {
  GPtrArray *jobs; /* PrJob in the order of PrFoot; not owned */
  PrFace face;
  PrUnit unit;
  PrLeaf leaf;
  double width, height, scale;
  PrBox place[N_PLACES], table;
};

/* LF RF LH RH. */
static int
index_of (PrFoot foot)
{
  return (int) foot - (int) PR_FOOT_LF;
}

static const PrJob *
job_of (const PrFeetPage *page, PrFoot foot)
{
  for (guint i = 0; i < page->jobs->len; i++) {
    const PrJob *job = page->jobs->pdata[i];

    if (job->sources.foot == foot)
      return job;
  }
  return NULL;
}

static GPtrArray *
in_order (const GPtrArray *jobs)
{
  GPtrArray *order = g_ptr_array_new ();

  for (int foot = PR_FOOT_LF; foot < PR_N_FEET; foot++)
    for (guint i = 0; i < jobs->len; i++)
      if (((const PrJob *) jobs->pdata[i])->sources.foot == (PrFoot) foot)
        g_ptr_array_add (order, jobs->pdata[i]);
  return order;
}

/* --- laying out --- */

static double
table_height (const PrFeetPage *page, double width)
{
  cairo_t *cr = pr_text_scratch ();
  double height = pr_feet_table (cr, page->jobs, page->unit, 0, 0, width, false);

  cairo_destroy (cr);
  return height;
}

static void
lay_places (PrFeetPage *page)
{
  PrBox field = pr_leaf_field (&page->leaf);
  double table = page->jobs->len > 0 ? table_height (page, field.w) + PR_FEET_FINE_MM : 0;
  double w = (field.w - GAP_MM) / 2, h = (field.h - table - 2 * GAP_MM) / 2;

  page->table = (PrBox){ field.x, field.y + field.h - table, field.w, table };
  for (int i = 0; i < N_PLACES; i++)
    page->place[i] = (PrBox){ field.x + (i % 2) * (w + GAP_MM), field.y + (i / 2) * (h + GAP_MM), w, h };
}

/* The least at which every foot has room. */
static double
find_scale (const PrFeetPage *page)
{
  double w = page->place[0].w - 2 * PAD_MM, h = page->place[0].h - HEAD_ROOM_MM - PAD_MM, least = 0;

  for (guint i = 0; i < page->jobs->len; i++) {
    PrPt low, high;

    pr_draw_extent (page->jobs->pdata[i], &low, &high);
    least = fmax (least, fmax ((high.x - low.x) / w, (high.y - low.y) / h));
  }
  for (size_t i = 0; i < G_N_ELEMENTS (scales); i++)
    if (scales[i] >= least)
      return scales[i];
  return scales[G_N_ELEMENTS (scales) - 1];
}

/* "near fore 304 mm" for those that are there. */
static void
name_page (PrFeetPage *page, const PrPageOptions *options)
{
  const char *part[] = { options->date, options->horse };
  GString *title = g_string_new (_ ("All four feet"));
  char digits[16];

  for (gsize i = 0; i < G_N_ELEMENTS (part); i++)
    if (part[i] != NULL && *part[i] != '\0')
      g_string_append_printf (title, " · %s", part[i]);
  page->leaf.title = g_string_free (title, FALSE);
  page->leaf.face = g_strdup (pr_face_name (page->face));
  pr_card_decimal (digits, page->scale, page->scale == floor (page->scale) ? 0 : 1);
  page->leaf.figures = g_strdup_printf (_ ("All feet at the scale 1 : %s"), digits);
  page->leaf.words
      = g_strdup (page->scale == 1 ? _ ("For the eye and the rack; the templates are what is forged by.")
                                   : _ ("Not at true size: forge by the templates."));
}

PrFeetPage *
pr_feet_page_new (const GPtrArray *jobs, PrFace face, const PrPageOptions *options)
{
  PrFeetPage *page = g_new0 (PrFeetPage, 1);

  page->jobs = in_order (jobs);
  page->face = face;
  page->unit = options->unit;
  page->leaf.margin = options->margin_mm;
  page->leaf.cautions = options->cautions;
  page->leaf.correct_x = pr_correction_usable (options->correct_x) ? options->correct_x : 1;
  page->leaf.correct_y = pr_correction_usable (options->correct_y) ? options->correct_y : 1;
  pr_paper_size (options->paper, &page->width, &page->height);
  page->leaf.width = page->width / page->leaf.correct_x;
  page->leaf.height = page->height / page->leaf.correct_y;
  lay_places (page);
  page->scale = find_scale (page);
  name_page (page, options);
  return page;
}

void
pr_feet_page_free (PrFeetPage *page)
{
  if (page == NULL)
    return;
  pr_leaf_clear (&page->leaf);
  g_ptr_array_unref (page->jobs);
  g_free (page);
}

void
pr_feet_page_size (const PrFeetPage *page, double *width, double *height)
{
  *width = page->width;
  *height = page->height;
}

double
pr_feet_page_scale (const PrFeetPage *page)
{
  return page->scale;
}

PrBox
pr_feet_page_place (const PrFeetPage *page, PrFoot foot)
{
  g_return_val_if_fail (foot != PR_FOOT_ANY, (PrBox){ 0 });
  return page->place[index_of (foot)];
}

PrFoot
pr_feet_page_foot_at (const PrFeetPage *page, double x, double y)
{
  for (int foot = PR_FOOT_LF; foot < PR_N_FEET; foot++) {
    const PrBox *place = &page->place[index_of ((PrFoot) foot)];

    if (x >= place->x && x < place->x + place->w && y >= place->y && y < place->y + place->h)
      return (PrFoot) foot;
  }
  return PR_FOOT_ANY;
}

/* --- drawing --- */

static void
draw_words (cairo_t *cr, const PrBox *place, PrFoot foot, const PrJob *job)
{
  double middle = place->x + place->w / 2;
  g_autofree char *style = job != NULL ? pr_feet_style (job) : g_strdup (_ ("no shoe in this visit"));

  pr_ink (cr, pr_ink_light.text);
  pr_text_face (cr, NAME_MM, true);
  pr_text (cr, middle, place->y + NAME_MM, PR_MIDDLE, pr_foot_name (foot));
  pr_text_face (cr, PR_FEET_FINE_MM, false);
  g_autofree char *shown = pr_text_cut (cr, style, place->w);
  pr_text (cr, middle, place->y + NAME_MM + PR_FEET_FINE_MM * 1.35, PR_MIDDLE, shown);
}

static void
draw_shoe (const PrFeetPage *page, cairo_t *cr, const PrBox *place, const PrJob *job)
{
  PrDrawOptions options = PR_DRAW_TEMPLATE (page->face);
  PrPt low, high;

  pr_draw_extent (job, &low, &high);
  options.fill = true;
  options.labels = options.landmarks = false;
  options.line_mm = LINE_MM * page->scale;
  cairo_save (cr);
  cairo_translate (cr, place->x + place->w / 2, place->y + HEAD_ROOM_MM + (place->h - HEAD_ROOM_MM) / 2);
  cairo_scale (cr, 1 / page->scale, 1 / page->scale);
  pr_draw_enter_foot (cr, job->sources.foot, page->face, 0, 0);
  cairo_translate (cr, -(low.x + high.x) / 2, -(low.y + high.y) / 2);
  pr_draw_job (cr, job, &options);
  cairo_restore (cr);
}

void
pr_feet_page_draw (const PrFeetPage *page, cairo_t *cr)
{
  cairo_save (cr);
  cairo_scale (cr, page->leaf.correct_x, page->leaf.correct_y);
  pr_leaf_draw (&page->leaf, cr, 0, 1);
  for (int foot = PR_FOOT_LF; foot < PR_N_FEET; foot++) {
    const PrBox *place = &page->place[index_of ((PrFoot) foot)];
    const PrJob *job = job_of (page, (PrFoot) foot);

    draw_words (cr, place, (PrFoot) foot, job);
    if (job != NULL)
      draw_shoe (page, cr, place, job);
  }
  if (page->jobs->len > 0)
    pr_feet_table (cr, page->jobs, page->unit, page->table.x, page->table.y + PR_FEET_FINE_MM, page->table.w,
                   true);
  cairo_restore (cr);
}
