/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The card for the anvil: ten figures read at two metres, and on card and template no lettering under 9 pt. What is
 * written is recorded as it is drawn; poppler is asked as well. */
#include "paper-kit.h"

#include <string.h>

#include "pr-bar-part.h"
#include "pr-card-anvil.h"
#include "pr-card-colour.h"
#include "pr-card-title.h"
#include "pr-sheaf.h"
#include "pr-style.h"

#define PT (72 / 25.4) /* points a mm */

/* A line of lettering as drawn, page's mm. */
typedef struct {
  char *text;
  double size; /* pt */
  double x0, y0, x1, y1;
  double angle; /* of its base line */
} Said;

static GArray *said;

/* Stands before cairo's: all lettering of pages passes here, and goes no further. */
void
cairo_show_text (cairo_t *cr, const char *text)
{
  cairo_text_extents_t ink;
  cairo_matrix_t font, page;
  double x, y;

  cairo_text_extents (cr, text, &ink);
  cairo_get_font_matrix (cr, &font);
  cairo_get_matrix (cr, &page);
  cairo_get_current_point (cr, &x, &y);
  Said line
      = { .text = g_strdup (text),
          .size = hypot (font.xy * page.xx + font.yy * page.xy, font.xy * page.yx + font.yy * page.yy) * PT,
          .x0 = x + ink.x_bearing,
          .y0 = y + ink.y_bearing,
          .angle = atan2 (page.yx, page.xx) };
  line.x1 = line.x0 + ink.width;
  line.y1 = line.y0 + ink.height;
  cairo_user_to_device (cr, &line.x0, &line.y0);
  cairo_user_to_device (cr, &line.x1, &line.y1);
  g_array_append_val (said, line);
}

static void
said_clear (gpointer data)
{
  g_free (((Said *) data)->text);
}

/* What DRAW says on page PAGE of WHAT, on a surface whose device unit is 1 mm. */
static void
hear_any (gconstpointer what, int page, void (*draw) (gconstpointer what, int page, cairo_t *cr))
{
  cairo_surface_t *surface = cairo_recording_surface_create (CAIRO_CONTENT_COLOR_ALPHA, NULL);
  cairo_t *cr = cairo_create (surface);

  g_clear_pointer (&said, g_array_unref);
  said = g_array_new (FALSE, FALSE, sizeof (Said));
  g_array_set_clear_func (said, said_clear);
  draw (what, page, cr);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
}

static void
draw_page (gconstpointer pages, int page, cairo_t *cr)
{
  pr_pages_draw (pages, page, cr);
}

static void
hear (const PrPages *pages, int page)
{
  hear_any (pages, page, draw_page);
}

static void
draw_sheaf (gconstpointer sheaf, int page, cairo_t *cr)
{
  pr_sheaf_draw (sheaf, page, cr);
}

static const Said *
line_at (guint i)
{
  return &g_array_index (said, Said, i);
}

/* The line that says TEXT, NULL when none does. */
static const Said *
find (const char *text)
{
  for (guint i = 0; i < said->len; i++)
    if (g_str_equal (line_at (i)->text, text))
      return line_at (i);
  return NULL;
}

/* A page in which no line lies over another or leaves the margins. */
static void
all_stand_clear (double width, double height, double margin)
{
  for (guint i = 0; i < said->len; i++) {
    const Said *a = line_at (i);

    if (a->angle != 0)
      continue;
    if (a->x0 < margin - 0.5 || a->x1 > width - margin + 0.5 || a->y0 < margin - 0.5
        || a->y1 > height - margin + 0.5)
      fail_msg ("“%s” from %.1f, %.1f to %.1f, %.1f leaves the page", a->text, a->x0, a->y0, a->x1, a->y1);
    for (guint k = 0; k < i; k++) {
      const Said *b = line_at (k);

      if (b->angle == 0 && a->x0 < b->x1 && b->x0 < a->x1 && a->y0 < b->y1 && b->y0 < a->y1)
        fail_msg ("“%s” lies over “%s”", a->text, b->text);
    }
  }
}

static void
none_smaller_than (double pt)
{
  for (guint i = 0; i < said->len; i++)
    if (line_at (i)->size < pt)
      fail_msg ("“%s” in %.2f pt", line_at (i)->text, line_at (i)->size);
}

/* Ten figures of JOB on the first page: each once, in 22 pt at least, its name beside it. */
static void
ten_are_large (const PrJob *job, PrUnit unit)
{
  g_autoptr (GArray) full = pr_anvil_figures (job, unit, false), brief = pr_anvil_figures (job, unit, true);
  int large = 0;

  assert_int_equal (full->len, 10);
  for (guint i = 0; i < full->len; i++) {
    const PrAnvilFigure *figure = &g_array_index (full, PrAnvilFigure, i);
    const Said *line = find (figure->figure);

    if (line == NULL)
      line = find (g_array_index (brief, PrAnvilFigure, i).figure);
    if (line == NULL)
      fail_msg ("%s: %s is not there", figure->label, figure->figure);
  }
  for (guint i = 0; i < said->len; i++)
    large += line_at (i)->size >= 22 && line_at (i)->angle == 0;
  assert_int_equal (large, 10);
}

static PrJob *
job_of (const PrStyle *style, double size)
{
  return paper_job (style->feet == PR_FEET_HIND ? PR_FOOT_RH : PR_FOOT_LF, style->id, size, 0);
}

static void
card_is_read (const PrJob *job, const PrPageOptions *options)
{
  g_autoptr (PrPages) pages = pr_pages_new (PR_DOC_CARD, job, options);
  double width, height;

  assert_true (pr_pages_count (pages) > 1);
  pr_pages_size (pages, &width, &height);
  for (int page = 0; page < pr_pages_count (pages); page++) {
    hear (pages, page);
    none_smaller_than (9);
    all_stand_clear (width, height, options->margin_mm);
    if (page == 0)
      ten_are_large (job, options->unit);
  }
}

/* Every style, on small feet and large ones, in both units on all papers, with the cautions below. */
static void
test_ten_figures (void **state)
{
  static const double sizes[] = { 0.7, 1, 1.4 };
  g_autoptr (GPtrArray) styles = pr_styles_load (NULL);
  PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;

  (void) state;
  for (guint i = 0; i < styles->len; i++) {
    g_autoptr (PrJob) job = job_of (styles->pdata[i], sizes[i % 3]);

    for (int k = 0; k < 2 * PR_N_PAPERS; k++) {
      options.paper = (PrPaper) (k / 2);
      options.unit = k % 2 ? PR_UNIT_INCH : PR_UNIT_MM;
      card_is_read (job, &options);
    }
  }
}

/* Branches that differ everywhere, a bar of two pieces: the longest that a figure can be. */
static void
test_branches_differ (void **state)
{
  g_autoptr (PrJob) job = paper_job (PR_FOOT_LF, "toe-extension", 1.4, 0);
  PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;

  (void) state;
  job->sources.plan.web_quarter[PR_LATERAL] += 3.2;
  job->sources.plan.web_heel[PR_MEDIAL] -= 1.7;
  assert_true (pr_job_refresh (job, NULL));
  for (int k = 0; k < 2 * PR_N_PAPERS; k++) {
    options.paper = (PrPaper) (k / 2);
    options.unit = k % 2 ? PR_UNIT_INCH : PR_UNIT_MM;
    card_is_read (job, &options);
  }
}

/* Straight from the toe to EDGE along BRANCH's edge. */
static double
from_toe (const PrShoe *shoe, int branch, double edge)
{
  return pr_pt_dist (pr_shoe_edge_at (shoe, branch, 0, NULL, NULL),
                     pr_shoe_edge_at (shoe, branch, edge, NULL, NULL));
}

/* The figures are those of plan, shoe and iron. */
static void
test_figures_are_true (void **state)
{
  g_autoptr (PrJob) job = paper_job (PR_FOOT_LF, "plain-front", 1, 0);
  const PrPlan *plan = &job->sources.plan;
  const PrShoe *shoe = job->shoe;
  g_autoptr (GArray) ten = pr_anvil_figures (job, PR_UNIT_MM, false);
  g_autoptr (JsonNode) report = pr_report_json (job);
  JsonObject *told = json_object_get_object_member (json_node_get_object (report), "shoe");
  double nail = INFINITY;

  (void) state;
  for (size_t i = 0; i < shoe->n_nails; i++)
    if (shoe->nail[i].branch == PR_MEDIAL)
      nail = fmin (nail, from_toe (shoe, PR_MEDIAL, shoe->nail[i].edge));
  const double value[] = { ceil (job->iron.needed - 1e-6), /* a length to cut, up to the next mm */
                           plan->web_toe,
                           plan->web_quarter[PR_MEDIAL],
                           plan->web_heel[PR_MEDIAL],
                           json_object_get_double_member (told, "length_mm"),
                           json_object_get_double_member (told, "width_mm"),
                           pr_pt_dist (shoe->heel_outer[PR_MEDIAL], shoe->heel_outer[PR_LATERAL]),
                           from_toe (shoe, PR_MEDIAL, shoe->edge_length[PR_MEDIAL]),
                           from_toe (shoe, PR_LATERAL, shoe->edge_length[PR_LATERAL]),
                           nail };
  assert_int_equal (ten->len, G_N_ELEMENTS (value));
  for (guint i = 0; i < ten->len; i++) {
    /* whichever decimal mark the locale has */
    g_autofree char *figure
        = g_strdelimit (g_strdup (g_array_index (ten, PrAnvilFigure, i).figure), ",", '.');

    assert_float_equal (g_ascii_strtod (strpbrk (figure, "0123456789"), NULL), value[i], 0.0501);
  }
}

/* Template and ground on all papers, on one page and over several, and the single page of pictures. */
static void
test_template_is_read (void **state)
{
  static const double sizes[] = { 0.7, 1, 1.4, 1.8 };
  PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;

  (void) state;
  options.horse = "Bramble of the Upper Meadow by the Old Mill";
  options.date = "2026-11-28";
  options.correct_x = 1.01;
  for (size_t i = 0; i < G_N_ELEMENTS (sizes); i++) {
    g_autoptr (PrJob) job = paper_job (PR_FOOT_LF, "quarter-clipped", sizes[i], 0);
    g_autoptr (PrPages) single = pr_pages_new_single (job, PR_FACE_FOOT, &options);

    hear (single, 0);
    none_smaller_than (9);
    for (int k = 0; k < 2 * PR_N_PAPERS; k++) {
      options.paper = (PrPaper) (k / 2);
      g_autoptr (PrPages) pages = pr_pages_new (k % 2 ? PR_DOC_GROUND : PR_DOC_TEMPLATE, job, &options);

      for (int page = 0; page < pr_pages_count (pages); page++) {
        hear (pages, page);
        none_smaller_than (9);
      }
    }
  }
}

/* Horse and day stand in the title of every page; without them it is the foot and its style. */
static void
test_title (void **state)
{
  g_autoptr (PrJob) job = paper_job (PR_FOOT_LF, "quarter-clipped", 1, 0);
  PrPageOptions plain = PR_PAGE_OPTIONS_DEFAULT, named = plain;
  g_autofree char *title = pr_card_title (job, NULL, NULL);
  g_autofree char *full = pr_card_title (job, "2026-11-28", "Bramble");
  g_autofree char *rest = g_strdup (title + strlen ("near fore"));
  g_autofree char *wanted = g_strconcat ("near fore · 2026-11-28 · Bramble", rest, NULL);

  (void) state;
  assert_string_equal (full, wanted);
  named.horse = "Bramble";
  named.date = "2026-11-28";
  for (PrDoc doc = PR_DOC_TEMPLATE; doc <= PR_DOC_CARD; doc++) {
    g_autoptr (PrPages) one = pr_pages_new (doc, job, &plain);
    g_autoptr (PrPages) other = pr_pages_new (doc, job, &named);

    for (int page = 0; page < pr_pages_count (one); page++) {
      hear (one, page);
      assert_non_null (find (title));
      hear (other, page);
      assert_non_null (find (full));
    }
  }
}

/* The colour of the day's card is marked on the card's pages and named beside it, and nowhere else. */
static void
test_colour (void **state)
{
  g_autoptr (PrJob) job = paper_job (PR_FOOT_LF, "plain-front", 1, 0);
  PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;

  (void) state;
  for (int colour = 0; colour < PR_N_CARD_COLOURS; colour++)
    for (PrDoc doc = PR_DOC_TEMPLATE; doc <= PR_DOC_CARD; doc++) {
      g_autofree char *words = g_strdup_printf ("Card of the day: %s", pr_card_colour_name (colour));

      options.colour = colour;
      g_autoptr (PrPages) pages = pr_pages_new (doc, job, &options);
      for (int page = 0; page < pr_pages_count (pages); page++) {
        hear (pages, page);
        assert_int_equal (find (words) != NULL, doc == PR_DOC_CARD && colour > 0);
        if (doc == PR_DOC_CARD)
          none_smaller_than (9);
      }
    }
}

/* The same as it is printed. */
static void
test_colour_printed (void **state)
{
  g_autoptr (PrJob) job = paper_job (PR_FOOT_LF, "plain-front", 1, 0);
  g_autoptr (PrSheaf) sheaf = pr_sheaf_new_job (job);
  const PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;

  (void) state;
  pr_sheaf_set_colour (sheaf, 5);
  assert_true (pr_sheaf_lay (sheaf, &options, NULL));
  hear_any (sheaf, pr_sheaf_count (sheaf) - 1, draw_sheaf); /* the card's */
  assert_non_null (find ("Card of the day: plum"));
}

/* What JOB's bar is called wherever paper names it. */
static void
assert_called (const PrJob *job, PrUnit unit, const char *name)
{
  g_autofree char *report = pr_report_text (job, unit), *figures = pr_card_figures (job, unit),
                  *bar = pr_card_bar_figures (job, unit), *strip = pr_bar_title (job, unit, 0);
  g_autoptr (GArray) anvil = pr_anvil_figures (job, unit, false);
  const char *const text[] = { report, figures, bar, strip, g_array_index (anvil, PrAnvilFigure, 0).label };

  for (size_t i = 0; i < G_N_ELEMENTS (text); i++)
    if (!strstr (text[i], name))
      fail_msg ("“%s” does not say %s", text[i], name);
}

/* A bar is told as it was bought to whoever reads the other unit: one of 22 mm is none of 7/8 in, which takes more of it. */
static void
test_bar_by_its_name (void **state)
{
  g_autoptr (PrJob) job = paper_job (PR_FOOT_LF, "plain-front", 1, 330);

  (void) state;
  assert_true (pr_plan_set_section (&job->sources.plan, "3/8 x 7/8", PR_UNIT_INCH, NULL));
  assert_true (pr_job_refresh (job, NULL));
  g_autofree char *mm = pr_report_text (job, PR_UNIT_MM), *inch = pr_report_text (job, PR_UNIT_INCH);
  assert_non_null (strstr (mm, "Bar                   7/8 × 3/8 in, steel"));
  assert_non_null (strstr (inch, "Bar                   7/8 × 3/8 in, steel"));
  assert_called (job, PR_UNIT_MM, "7/8 × 3/8 in");
  assert_called (job, PR_UNIT_INCH, "7/8 × 3/8 in");
  assert_true (pr_plan_set_section (&job->sources.plan, "22 x 10", PR_UNIT_MM, NULL));
  assert_true (pr_job_refresh (job, NULL));
  assert_called (job, PR_UNIT_MM, "22 × 10 mm");
  assert_called (job, PR_UNIT_INCH, "22 × 10 mm");
}

/* The figures of a sum, as they are read, come to what stands below them. */
static void
test_sum_adds_up (void **state)
{
  (void) state;
  for (int i = 0; i < 24; i++) {
    g_autoptr (PrJob) job = paper_job (PR_FOOT_LF, i % 2 ? "plain-front" : "egg-bar", 0.8 + 0.02 * i, 0);
    PrUnit unit = i % 4 < 2 ? PR_UNIT_INCH : PR_UNIT_MM;
    g_autofree char *text = pr_report_text (job, unit);
    g_auto (GStrv) line = g_strsplit (strstr (text, "What the stock to cut is made of"), "\n", 16);
    double sum = 0, told = NAN;

    for (int k = 2; isnan (told); k++) {
      const char *sign = strstr (line[k], "= ") ? "= " : strstr (line[k], "+ ") ? "+ " : "− ";
      double mm;

      assert_true (pr_length_parse (strstr (line[k], sign) + strlen (sign), unit, &mm, NULL));
      assert_true (mm > 0);
      if (*sign == '=')
        told = mm;
      else
        sum += *sign == '+' ? mm : -mm;
    }
    assert_float_equal (sum, told, 1e-6);
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_bar_by_its_name),
    cmocka_unit_test (test_sum_adds_up),
    cmocka_unit_test (test_ten_figures),
    cmocka_unit_test (test_branches_differ),
    cmocka_unit_test (test_figures_are_true),
    cmocka_unit_test (test_template_is_read),
    cmocka_unit_test (test_title),
    cmocka_unit_test (test_colour),
    cmocka_unit_test (test_colour_printed),
  };
  int failed = cmocka_run_group_tests (tests, NULL, NULL);

  g_clear_pointer (&said, g_array_unref);
  return failed;
}
