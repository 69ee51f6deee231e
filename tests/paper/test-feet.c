/* SPDX-License-Identifier: GPL-3.0-or-later */
/* All four feet on one page: each shoe at the scale that is told, in its own place, where the figure of its job says; the scale is
 * the largest that fits, and what is cut adds up. */
#include <math.h>
#include <string.h>

#include "kit.h"
#include "pr-feet-page.h"
#include "pr-feet-write.h"
#include "pr-ink.h"
#include "pr-sheaf.h"

#define PX_PER_MM 10

static const double round_ones[] = { 1, 1.5, 2, 2.5, 3, 4, 5, 10, 20, 50 };

static GPtrArray *
some (double size, guint which)
{
  GPtrArray *jobs = g_ptr_array_new_with_free_func ((GDestroyNotify) pr_job_free);

  for (int foot = PR_FOOT_RH; foot >= PR_FOOT_LF; foot--) { /* in no order */
    KitFoot shape = KIT_FOOT;
    const char *style = pr_foot_is_hind ((PrFoot) foot) ? "plain-hind"
                        : foot == PR_FOOT_LF            ? "quarter-clipped"
                                                        : "plain-front";

    shape.half_width = size * (60 + 2 * foot);
    shape.toe *= size;
    shape.back *= size;
    shape.heel *= size;
    if (which & 1u << foot)
      g_ptr_array_add (jobs, kit_styled (&shape, (PrFoot) foot, style));
  }
  return jobs;
}

#define ALL 0x1eu

static cairo_surface_t *
drawn (const PrFeetPage *page)
{
  double w, h;

  pr_feet_page_size (page, &w, &h);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int) ceil (w * PX_PER_MM),
                                                         (int) ceil (h * PX_PER_MM));
  cairo_t *cr = cairo_create (surface);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cairo_scale (cr, PX_PER_MM, PX_PER_MM);
  pr_feet_page_draw (page, cr);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  return surface;
}

static bool
is_steel (guint32 pixel)
{
  const PrColour *steel = &pr_ink_light.steel;

  return fabs ((pixel >> 16 & 255) / 255.0 - steel->r) < 0.01
         && fabs ((pixel >> 8 & 255) / 255.0 - steel->g) < 0.01
         && fabs ((pixel & 255) / 255.0 - steel->b) < 0.01;
}

#define REACH 3 /* px: dashes and letters that cross or touch it are thinner than twice that */

/* Is there iron at (X, Y), and so far round it? */
static bool
is_iron (cairo_surface_t *surface, int x, int y)
{
  static const int way[][2] = { { 0, 0 }, { REACH, 0 }, { -REACH, 0 }, { 0, REACH }, { 0, -REACH } };
  const guint8 *data = cairo_image_surface_get_data (surface);
  int stride = cairo_image_surface_get_stride (surface);
  bool is = true;

  for (size_t i = 0; i < G_N_ELEMENTS (way) && is; i++) {
    const guint8 *row = data + (gsize) (y + way[i][1]) * (gsize) stride;

    is = is_steel (((const guint32 *) (const void *) row)[x + way[i][0]]);
  }
  return is;
}

/* Of what has the colour of iron within PLACE, mm of the page; w 0: nothing has. */
static PrBox
iron_in (cairo_surface_t *surface, const PrBox *place)
{
  int low_x = 1 << 20, low_y = 1 << 20, high_x = -1, high_y = -1;

  for (int y = (int) (place->y * PX_PER_MM); y < (int) ((place->y + place->h) * PX_PER_MM); y++)
    for (int x = (int) (place->x * PX_PER_MM); x < (int) ((place->x + place->w) * PX_PER_MM); x++)
      if (is_iron (surface, x, y)) {
        low_x = MIN (low_x, x - REACH);
        low_y = MIN (low_y, y - REACH);
        high_x = MAX (high_x, x + REACH + 1);
        high_y = MAX (high_y, y + REACH + 1);
      }
  if (high_x < 0)
    return (PrBox){ 0 };
  return (PrBox){ (double) low_x / PX_PER_MM, (double) low_y / PX_PER_MM,
                  (double) (high_x - low_x) / PX_PER_MM, (double) (high_y - low_y) / PX_PER_MM };
}

/* The job's own figure, mm. */
static PrBox
figure_of (const PrJob *job)
{
  PrPt low = { INFINITY, INFINITY }, high = { -INFINITY, -INFINITY };

  for (size_t r = 0; r < job->shoe->figure.n; r++)
    for (size_t i = 0; i < job->shoe->figure.ring[r].n; i++) {
      PrPt p = job->shoe->figure.ring[r].p[i];

      low = pr_pt (fmin (low.x, p.x), fmin (low.y, p.y));
      high = pr_pt (fmax (high.x, p.x), fmax (high.y, p.y));
    }
  return (PrBox){ low.x, low.y, high.x - low.x, high.y - low.y };
}

/* The line of the edge hides half of its width on each side: 0.35 mm in all, and a pixel. */
#define EDGE_MM 0.35
#define SLACK_MM 0.25

static void
each_is_at_the_scale (void **state)
{
  static const PrPaper papers[] = { PR_PAPER_A4, PR_PAPER_A3, PR_PAPER_LETTER };
  (void) state;

  for (size_t i = 0; i < G_N_ELEMENTS (papers); i++)
    for (int face = 0; face < 2; face++) {
      PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;
      g_autoptr (GPtrArray) jobs = some (1, ALL);

      options.paper = papers[i];
      options.horse = "Pipwick";
      g_autoptr (PrFeetPage) page = pr_feet_page_new (jobs, (PrFace) face, &options);
      cairo_surface_t *surface = drawn (page);
      for (guint k = 0; k < jobs->len; k++) {
        const PrJob *job = jobs->pdata[k];
        PrBox place = pr_feet_page_place (page, job->sources.foot), iron = iron_in (surface, &place),
              figure = figure_of (job);

        NEAR (iron.w + EDGE_MM, figure.w / pr_feet_page_scale (page), SLACK_MM);
        NEAR (iron.h + EDGE_MM, figure.h / pr_feet_page_scale (page), SLACK_MM);
        assert_int_equal (pr_feet_page_foot_at (page, iron.x + iron.w / 2, iron.y + iron.h / 2),
                          job->sources.foot);
      }
      cairo_surface_destroy (surface);
    }
}

static void
near_feet_are_on_the_left_and_fore_above (void **state)
{
  const PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;
  g_autoptr (GPtrArray) jobs = some (1, ALL);
  g_autoptr (PrFeetPage) page = pr_feet_page_new (jobs, PR_FACE_FOOT, &options);
  PrBox lf = pr_feet_page_place (page, PR_FOOT_LF), rf = pr_feet_page_place (page, PR_FOOT_RF);
  PrBox lh = pr_feet_page_place (page, PR_FOOT_LH), rh = pr_feet_page_place (page, PR_FOOT_RH);

  (void) state;
  assert_true (lf.x + lf.w <= rf.x && lh.x + lh.w <= rh.x && lf.y + lf.h <= lh.y && rf.y + rf.h <= rh.y);
  assert_true (lf.x == lh.x && rf.x == rh.x && lf.y == rf.y && lh.y == rh.y);
  assert_int_equal (pr_feet_page_foot_at (page, 1, 1), PR_FOOT_ANY);
}

/* At the next larger of the round ones a foot would not have room. */
static void
the_scale_is_the_largest_that_fits (void **state)
{
  (void) state;
  for (double size = 0.5; size < 2.1; size += 0.25) {
    const PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;
    g_autoptr (GPtrArray) jobs = some (size, ALL);
    g_autoptr (PrFeetPage) page = pr_feet_page_new (jobs, PR_FACE_FOOT, &options);
    double scale = pr_feet_page_scale (page), larger = 0;
    bool fits = true, would = true, round_one = false;

    for (size_t i = 0; i < G_N_ELEMENTS (round_ones); i++) {
      round_one |= round_ones[i] == scale;
      if (round_ones[i] < scale)
        larger = round_ones[i];
    }
    assert_true (round_one);
    for (guint k = 0; k < jobs->len; k++) {
      const PrJob *job = jobs->pdata[k];
      PrBox place = pr_feet_page_place (page, job->sources.foot);
      PrPt low, high;

      pr_draw_extent (job, &low, &high);
      /* 6 mm round it across; 15 for the words above and what is below */
      fits &= (high.x - low.x) / scale <= place.w - 6 && (high.y - low.y) / scale <= place.h - 15;
      would &= larger == 0
               || ((high.x - low.x) / larger <= place.w - 6 && (high.y - low.y) / larger <= place.h - 15);
    }
    assert_true (fits);
    assert_true (larger == 0 || !would);
  }
}

static void
a_missing_foot_leaves_its_place_empty (void **state)
{
  const PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;
  g_autoptr (GPtrArray) jobs = some (1, ALL & ~(1u << PR_FOOT_RF));
  g_autoptr (PrFeetPage) page = pr_feet_page_new (jobs, PR_FACE_FOOT, &options);
  cairo_surface_t *surface = drawn (page);
  PrBox there = pr_feet_page_place (page, PR_FOOT_LF), gone = pr_feet_page_place (page, PR_FOOT_RF);

  (void) state;
  assert_int_equal (jobs->len, 3);
  assert_true (iron_in (surface, &there).w > 0);
  assert_true (iron_in (surface, &gone).w == 0);
  cairo_surface_destroy (surface);
}

/* pdftotext reads what a person reads. */
static char *
text_of (const char *file)
{
  const char *const words[] = { "pdftotext", "-layout", file, "-", NULL };
  g_autofree char *out = NULL;

  assert_true (g_spawn_sync (NULL, (char **) words, NULL, G_SPAWN_SEARCH_PATH | G_SPAWN_STDERR_TO_DEV_NULL,
                             NULL, NULL, &out, NULL, NULL, NULL));
  return g_strdup (out);
}

static void
the_card_adds_up (void **state)
{
  g_autofree char *folder = kit_folder (), *file = g_build_filename (folder, "feet.pdf", NULL);
  const PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;
  g_autoptr (GPtrArray) jobs = some (1, ALL & ~(1u << PR_FOOT_LH));
  g_autoptr (GHashTable) sums = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  (void) state;
  assert_true (pr_feet_write (jobs, PR_FACE_FOOT, &options, file, NULL));
  g_autofree char *text = text_of (file);
  for (guint i = 0; i < jobs->len; i++) {
    const PrJob *job = jobs->pdata[i];
    g_autofree char *cut = pr_iron_cut_text (&job->iron, PR_UNIT_MM);
    char *bar
        = pr_section_as_called (job->sources.plan.stock_width, job->sources.plan.stock_thick, PR_UNIT_MM);
    int before = GPOINTER_TO_INT (g_hash_table_lookup (sums, bar));

    assert_non_null (strstr (text, cut));
    assert_non_null (strstr (text, pr_foot_name (job->sources.foot)));
    g_hash_table_insert (sums, bar, GINT_TO_POINTER (before + (int) g_ascii_strtoll (cut, NULL, 10)));
  }
  GHashTableIter iter;
  gpointer bar, sum;
  g_hash_table_iter_init (&iter, sums);
  while (g_hash_table_iter_next (&iter, &bar, &sum)) {
    g_autofree char *all = g_strdup_printf ("%d mm", GPOINTER_TO_INT (sum));
    g_autofree char *line = g_strdup_printf ("Of stock %s:", (char *) bar);
    const char *at = strstr (text, line);

    assert_non_null (at);
    g_autofree char *whole = g_strndup (at, strcspn (at, "\n"));
    g_strchomp (whole);
    assert_true (g_str_has_suffix (whole, all));
  }
  assert_non_null (strstr (text, "no shoe in this visit"));
  assert_non_null (strstr (text, "1 : 2"));
  kit_folder_gone (g_steal_pointer (&folder));
}

/* The same page by way of the printer's pages, after the jobs themselves have gone. */
static void
the_sheaf_holds_its_own (void **state)
{
  PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;
  GPtrArray *jobs = some (1, ALL);
  g_autoptr (PrSheaf) sheaf = pr_feet_sheaf_new (jobs, PR_FACE_GROUND);
  double w, h;

  (void) state;
  g_ptr_array_unref (jobs);
  options.paper = PR_PAPER_A3;
  assert_true (pr_sheaf_lay (sheaf, &options, NULL));
  assert_int_equal (pr_sheaf_count (sheaf), 1);
  pr_sheaf_page_size (sheaf, 0, &w, &h);
  NEAR (w, 297, 0); /* ISO 216 */
  NEAR (h, 420, 0);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 297, 420);
  cairo_t *cr = cairo_create (surface);
  pr_sheaf_draw (sheaf, 0, cr);
  assert_int_equal (cairo_status (cr), CAIRO_STATUS_SUCCESS);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (each_is_at_the_scale),
    cmocka_unit_test (near_feet_are_on_the_left_and_fore_above),
    cmocka_unit_test (the_scale_is_the_largest_that_fits),
    cmocka_unit_test (a_missing_foot_leaves_its_place_empty),
    cmocka_unit_test (the_card_adds_up),
    cmocka_unit_test (the_sheaf_holds_its_own),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
