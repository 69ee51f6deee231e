/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sheet for the vet: one page whatever foot, shoe, paper and unit; its figures are the job's; what is not known is not told;
 * what was written too long is refused. What is written is recorded as it is drawn, and poppler reads the file. */
#include "paper-kit.h"

#include <glib/gstdio.h>
#include <math.h>
#include <string.h>

#include "pr-bounds.h"
#include "pr-card-title.h"
#include "pr-compare-json.h"
#include "pr-compare.h"
#include "pr-json.h"
#include "pr-style.h"
#include "pr-vet-kept.h"
#include "pr-vet-page.h"
#include "pr-vet-sheaf.h"
#include "pr-vet-write.h"
#include "seen.h"

#define PT (72 / 25.4) /* points a mm */

/* --- what is written, as it is drawn ------------------------------------------------------- */

typedef struct {
  char *text;
  double size;           /* pt */
  double x0, y0, x1, y1; /* page's mm */
  bool upright;
} Said;

static GArray *said;

static void
said_clear (gpointer data)
{
  g_free (((Said *) data)->text);
}

/* Stands before cairo's while a page is heard: lettering passes here, and goes no further. */
void
cairo_show_text (cairo_t *cr, const char *text)
{
  cairo_text_extents_t ink;
  cairo_matrix_t font, page;
  Said line = { 0 };

  if (said == NULL) { /* on its way into a file */
    cairo_text_path (cr, text);
    cairo_fill (cr);
    return;
  }
  cairo_text_extents (cr, text, &ink);
  cairo_get_font_matrix (cr, &font);
  cairo_get_matrix (cr, &page);
  cairo_get_current_point (cr, &line.x0, &line.y0);
  line.text = g_strdup (text);
  line.size = hypot (font.xy * page.xx + font.yy * page.xy, font.xy * page.yx + font.yy * page.yy) * PT;
  line.upright = page.yx == 0 && page.xx > 0;
  line.x0 += ink.x_bearing;
  line.y0 += ink.y_bearing;
  line.x1 = line.x0 + ink.width;
  line.y1 = line.y0 + ink.height;
  cairo_user_to_device (cr, &line.x0, &line.y0);
  cairo_user_to_device (cr, &line.x1, &line.y1);
  g_array_append_val (said, line);
}

static void
hear (const PrVetPage *page)
{
  cairo_surface_t *surface = cairo_recording_surface_create (CAIRO_CONTENT_COLOR_ALPHA, NULL);
  cairo_t *cr = cairo_create (surface);

  said = g_array_new (FALSE, FALSE, sizeof (Said));
  g_array_set_clear_func (said, said_clear);
  pr_vet_page_draw (page, cr);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
}

static void
forget (void)
{
  g_clear_pointer (&said, g_array_unref);
}

static const Said *
line_at (guint i)
{
  return &g_array_index (said, Said, i);
}

/* All that was heard, in one line. Transfer full. */
static char *
all_said (void)
{
  GString *all = g_string_new (NULL);

  for (guint i = 0; i < said->len; i++)
    g_string_append_printf (all, "%s ", line_at (i)->text);
  g_string_replace (all, "\302\240", " ", 0); /* figure and unit stay on one line */
  return g_string_free (all, FALSE);
}

/* Nothing over anything else, nothing out of the margins, nothing under 9 pt. */
static void
stands_clear (const PrVetPage *page, double margin)
{
  double width, height;

  pr_vet_page_size (page, &width, &height);
  for (guint i = 0; i < said->len; i++) {
    const Said *a = line_at (i);

    if (a->size < 9)
      fail_msg ("“%s” in %.2f pt", a->text, a->size);
    if (a->x0 < margin - 0.5 || a->x1 > width - margin + 0.5 || a->y0 < margin - 0.5
        || a->y1 > height - margin + 0.5)
      fail_msg ("“%s” from %.1f, %.1f to %.1f, %.1f leaves the page", a->text, a->x0, a->y0, a->x1, a->y1);
    for (guint k = 0; k < i; k++) {
      const Said *b = line_at (k);

      if (a->upright && b->upright && a->x0 < b->x1 && b->x0 < a->x1 && a->y0 < b->y1 && b->y0 < a->y1)
        fail_msg ("“%s” lies over “%s”", a->text, b->text);
    }
  }
}

/* --- notes --------------------------------------------------------------------------------- */

static const PrVetNote whole = {
  .vet = (char *) "Dr Wick",
  .why = (char *) "Toe brought back, as was asked for.\nThe owner reports that he forged behind on the left.",
  .allowed_by = (char *) "A. Ostler",
  .allowed_on = (char *) "2026-11-28",
  .allowed_for = (char *) "both fore feet, this tracing and its photo"
};
static const PrVetNote nothing = { (char *) "", (char *) "", (char *) "", (char *) "", (char *) "" };

static PrPageOptions
options_of (PrPaper paper, PrUnit unit)
{
  PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;

  options.paper = paper;
  options.unit = unit;
  options.horse = "Bramble";
  options.date = "2026-11-28";
  return options;
}

/* For a person to look at, where PRITCHEL_PICTURES says. */
static void
keep_for_looking (const PrVetAbout *about, const PrPageOptions *options, const char *name)
{
  const char *folder = g_getenv ("PRITCHEL_PICTURES");

  if (folder != NULL && said == NULL)
    assert_true (pr_vet_write (about, options, folder, name, NULL));
}

/* --- one page ------------------------------------------------------------------------------ */

static void
is_one_page (const PrVetAbout *about, const PrPageOptions *options)
{
  g_autoptr (PrVetPage) page = pr_vet_page_new (about, options);
  g_autoptr (GError) error = NULL;

  if (!pr_vet_page_holds (page, &error))
    fail_msg ("%s on %s: %s", about->job->sources.plan.style, pr_paper_name (options->paper), error->message);
  hear (page);
  stands_clear (page, options->margin_mm);
  forget ();
}

/* Every style on a pony's, a riding horse's and a draught horse's foot, all four feet, on all papers from Letter on. */
static void
every_shoe_is_on_one_page (void **state)
{
  static const PrPaper papers[]
      = { PR_PAPER_A4, PR_PAPER_LETTER, PR_PAPER_LEGAL, PR_PAPER_A3, PR_PAPER_TABLOID };
  static const double sizes[] = { 0.7, 1.02, 1.43 };
  static const PrFoot feet[2][2] = { { PR_FOOT_LF, PR_FOOT_RF }, { PR_FOOT_LH, PR_FOOT_RH } };
  g_autoptr (GPtrArray) styles = pr_styles_load (NULL);

  (void) state;
  for (guint i = 0; i < styles->len; i++) {
    const PrStyle *style = styles->pdata[i];
    bool hind = style->feet == PR_FEET_HIND || (style->feet != PR_FEET_FORE && i % 2);

    for (guint k = 0; k < 3; k++) { /* each paper comes to three of five styles */
      g_autoptr (PrJob) job = paper_job (feet[hind][k % 2], style->id, sizes[(i + k) % 3], 0);
      const PrVetAbout about = { job, NULL, k % 3 ? &whole : &nothing };
      const PrPageOptions options
          = options_of (papers[(i + 2 * k) % G_N_ELEMENTS (papers)], (PrUnit) ((i + k) % 2));

      is_one_page (&about, &options);
    }
  }
}

/* Pages of three sizes of foot, to look at. */
static void
sizes_to_look_at (void **state)
{
  static const struct {
    const char *name, *style;
    PrFoot foot;
    double size;
    PrPaper paper;
    PrUnit unit;
  } rows[] = { { "pony", "plain-front", PR_FOOT_LF, 0.7, PR_PAPER_A4, PR_UNIT_MM },
               { "riding", "quarter-clipped", PR_FOOT_RF, 1.02, PR_PAPER_LETTER, PR_UNIT_INCH },
               { "draught", "plain-hind", PR_FOOT_LH, 1.43, PR_PAPER_A4, PR_UNIT_MM },
               { "bar", "heart-bar", PR_FOOT_RF, 1.02, PR_PAPER_A4, PR_UNIT_MM } };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++) {
    g_autoptr (PrJob) job = paper_job (rows[i].foot, rows[i].style, rows[i].size, 0);
    const PrVetAbout about = { job, NULL, i == 2 ? &nothing : &whole };
    const PrPageOptions options = options_of (rows[i].paper, rows[i].unit);

    is_one_page (&about, &options);
    keep_for_looking (&about, &options, rows[i].name);
  }
}

/* The longest names there are, in several scripts. */
static void
long_names_keep_their_place (void **state)
{
  static const char *const bits[] = { "Bramblethorn ", "فرس الجبل ", "סוסה ", "Wwwwwwwwwwwwwwwwwwww" };
  g_autoptr (PrJob) job = paper_job (PR_FOOT_RF, "quarter-clipped", 1, 0);

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (bits); i++) {
    g_autoptr (GString) name = g_string_new (NULL);
    g_auto (PrVetNote) note = { 0 };

    for (int n = 0; n < 300; n++)
      g_string_append (name, bits[i]);
    const PrVetNote from = { name->str, (char *) "so", name->str, (char *) "2026-11-28", name->str };
    pr_vet_note_take (&note, &from);
    g_autofree char *horse = pr_name_fit (name->str);
    for (int k = 0; k < 4; k++) {
      PrPageOptions options
          = options_of (k / 2 ? PR_PAPER_LETTER : PR_PAPER_A4, k % 2 ? PR_UNIT_INCH : PR_UNIT_MM);
      const PrVetAbout about = { job, NULL, &note };

      options.horse = horse;
      is_one_page (&about, &options);
      if (k == 0)
        keep_for_looking (&about, &options, i == 1 ? "arabic" : i == 2 ? "hebrew" : "long");
    }
  }
}

/* --- what it says -------------------------------------------------------------------------- */

static char *
says (const PrJob *job, const PrComparison *forged, const PrVetNote *note, PrUnit unit)
{
  const PrVetAbout about = { job, forged, note };
  const PrPageOptions options = options_of (PR_PAPER_A4, unit);
  g_autoptr (PrVetPage) page = pr_vet_page_new (&about, &options);

  hear (page);
  char *all = all_said ();
  forget ();
  return all;
}

static void
has (const char *all, const char *words)
{
  if (strstr (all, words) == NULL)
    fail_msg ("“%s” is not in\n%s", words, all);
}

/* FORMAT has a %s for each length. */
G_GNUC_PRINTF (2, 0)
static void
has_one (const char *all, const char *format, double mm, PrUnit unit)
{
  g_autofree char *length = pr_length_text (mm, unit);
  g_autofree char *words = g_strdup_printf (format, length);

  has (all, words);
}

G_GNUC_PRINTF (2, 0)
static void
has_two (const char *all, const char *format, double first, double second, PrUnit unit)
{
  g_autofree char *one = pr_length_text (first, unit), *other = pr_length_text (second, unit);
  g_autofree char *words = g_strdup_printf (format, one, other);

  has (all, words);
}

/* The foot's toe is marked where it is, or nothing is. */
static PrJob *
job_with_toe (bool marked)
{
  PrJob *job = paper_job (PR_FOOT_LF, "plain-front", 1, 0);

  if (!marked)
    return job;
  job->sources.marks.has_toe = true;
  job->sources.marks.toe = pr_foot_frame_out (&job->hoof.frame, job->hoof.toe);
  assert_true (pr_job_refresh_hoof (job, NULL));
  assert_int_equal (job->hoof.centre, PR_CENTRE_TOE);
  return job;
}

static void
figures_are_the_jobs (void **state)
{
  (void) state;
  for (int unit = 0; unit < 2; unit++) {
    g_autoptr (PrJob) job = job_with_toe (true);
    double width, length;

    job->sources.wall[0] = 11;
    assert_true (pr_job_refresh_hoof (job, NULL));
    pr_card_shoe_size (job->shoe, &width, &length);
    g_autofree char *all = says (job, NULL, &whole, (PrUnit) unit);
    const PrHoof *hoof = &job->hoof;
    const PrPlan *plan = &job->sources.plan;
    has_two (all, "Length, width %s, %s by the outline", hoof->length, hoof->width, (PrUnit) unit);
    has_two (all, "Along the centre line %s toe to widest line, %s widest line to heels", hoof->toe_to_widest,
             hoof->widest_to_heels, (PrUnit) unit);
    has_two (all, "From the centre line %s medial, %s lateral", hoof->width_side[PR_MEDIAL],
             hoof->width_side[PR_LATERAL], (PrUnit) unit);
    has_two (all, "Halves differ lateral wider by up to %s, %s", fabs (hoof->lean), fabs (hoof->lean_at.y),
             (PrUnit) unit);
    has_two (all, "Widest line to heel %s medial, %s lateral", hoof->heel_length[PR_MEDIAL],
             hoof->heel_length[PR_LATERAL], (PrUnit) unit);
    has_one (all, "Between the heels %s heels found", hoof->heel_width, (PrUnit) unit);
    has_one (all, "Outline %s along the wall", pr_tracing_length (job->sources.tracing), (PrUnit) unit);
    has_one (all, ", heels %s in part a guess", hoof->wall[2], (PrUnit) unit);
    has_two (all, "Length, width %s, %s Web", length, width, (PrUnit) unit);
    has_two (all, "Heels past buttress medial %s, lateral %s", plan->heel_past[PR_MEDIAL],
             plan->heel_past[PR_LATERAL], (PrUnit) unit);
    has_one (all, ", heels %s Heels past", plan->thick_heel, (PrUnit) unit);
    has (all, "Nails 3 medial, 3 lateral");
    has (all, "near fore · 2026-11-28 · Bramble");
    has (all, "For: Dr Wick");
    has (all, "Toe brought back, as was asked for.");
    has (all, "by the toe mark");
    has (all, "in part a guess");
    has (all, "it does not diagnose");
    has (all, "Who may shoe is set by local law.");
    has (all, "is for the veterinary surgeon to say.");
  }
}

/* Of a centre line that is assumed no half is told. */
static void
what_is_assumed_tells_no_half (void **state)
{
  g_autoptr (PrJob) marked = job_with_toe (true), bare = job_with_toe (false);
  g_autofree char *told = says (marked, NULL, &whole, PR_UNIT_MM),
                  *assumed = says (bare, NULL, &whole, PR_UNIT_MM);

  (void) state;
  has (told, "Halves differ");
  has (told, "From the centre line");
  assert_int_equal (bare->hoof.centre, PR_CENTRE_ASSUMED);
  assert_null (strstr (assumed, "Halves differ"));
  assert_null (strstr (assumed, "From the centre line"));
  assert_null (strstr (assumed, "Widest line to heel"));
  assert_null (strstr (assumed, "wider by"));
  has (assumed, "asymmetry cannot be");
  has (assumed, "a guess, not measured");
}

static void
permission_is_told_or_its_lack (void **state)
{
  g_autoptr (PrJob) job = job_with_toe (false);
  g_autofree char *without = says (job, NULL, &nothing, PR_UNIT_MM),
                  *with = says (job, NULL, &whole, PR_UNIT_MM);

  (void) state;
  has (without, "No permission is recorded.");
  assert_null (strstr (without, "Why this shoe"));
  assert_null (strstr (with, "No permission"));
  has (with, "Allowed by A. Ostler On 2026-11-28 For both fore feet, this tracing and its photo");
  assert_null (strstr (with, "not recorded"));
  PrVetNote part = whole;
  part.allowed_on = (char *) "";
  g_autofree char *half = says (job, NULL, &part, PR_UNIT_MM);
  has (half, "On not recorded");
}

/* --- the forged shoe ----------------------------------------------------------------------- */

static PrPt
wide_at_the_heels (PrPt at)
{
  return pr_pt (at.x * (at.y < 0 ? 1 - at.y / 1500 : 1), at.y);
}

static void
the_forged_shoe_is_after (void **state)
{
  g_autoptr (PrJob) job = paper_job (PR_FOOT_RF, "plain-front", 1, 0);
  g_auto (PrSeen) seen = { 0 };
  g_auto (PrComparison) forged = { 0 };

  (void) state;
  kit_seen (job, PR_FACE_FOOT, 0.3, 140, 150, wide_at_the_heels, &seen);
  assert_true (pr_compare (&forged, job, &seen, PR_LAY_BEST, NULL));
  g_autofree char *all = says (job, &forged, &whole, PR_UNIT_MM);
  has (all, "After: the forged shoe on its plan");
  has (all, "As forged");
  const PrVetAbout about = { job, &forged, &whole };
  const PrPageOptions options = options_of (PR_PAPER_LETTER, PR_UNIT_MM);
  is_one_page (&about, &options);
  keep_for_looking (&about, &options, "forged");
  /* the same through the sheaf, of copies */
  g_autoptr (PrSheaf) sheaf = pr_vet_sheaf_new (job, &whole, &seen, PR_LAY_BEST);
  g_autoptr (GError) error = NULL;
  assert_true (pr_sheaf_lay (sheaf, &options, &error));
  assert_int_equal (pr_sheaf_count (sheaf), 1);
}

/* Kept with an attempt it is in the foot's frame; read back it lies as it lay, whichever foot, face and way. */
static void
a_kept_shoe_lies_as_it_lay (void **state)
{
  (void) state;
  for (int k = 0; k < 12; k++) {
    PrFoot foot = k % 2 ? PR_FOOT_RF : PR_FOOT_LF;
    PrFace face = k / 2 % 2 ? PR_FACE_GROUND : PR_FACE_FOOT;
    PrLay lay = (PrLay) (k / 4), read = PR_LAY_BEST;
    g_autoptr (PrJob) job = paper_job (foot, "plain-front", 1, 0);
    g_auto (PrSeen) seen = { 0 }, kept = { 0 };
    g_auto (PrComparison) was = { 0 }, now = { 0 };

    kit_seen (job, face, 0.3, 140, 150, wide_at_the_heels, &seen);
    assert_true (pr_compare (&was, job, &seen, lay, NULL));
    g_autoptr (JsonNode) node = pr_compare_json (&was, &seen, NULL);
    g_autofree char *json = pr_json_text (node, false);
    assert_true (pr_vet_kept_read (json, foot, &kept, &read));
    assert_int_equal (read, lay);
    assert_true (pr_compare (&now, job, &kept, read, NULL));
    assert_false (now.mirrored);
    /* the file has thousandths of a mm */
    assert_true (fabs (now.rms - was.rms) < 0.02);
    assert_true (fabs (now.size.width.seen - was.size.width.seen) < 0.05);
    assert_true (fabs (now.size.length.seen - was.size.length.seen) < 0.05);
    assert_true (fabs (now.sum[0].wedge[PR_LATERAL] - was.sum[0].wedge[PR_LATERAL]) < 0.1);
  }
  static const char *const none[]
      = { "", "null", "[]", "{}", "{\"seen\": 7}", "{\"seen\": {\"outer_mm\": [1]}}" };
  for (size_t i = 0; i < G_N_ELEMENTS (none); i++) {
    g_auto (PrSeen) kept = { 0 };
    PrLay lay;

    assert_false (pr_vet_kept_read (none[i], PR_FOOT_LF, &kept, &lay));
    assert_null (kept.outer.p);
  }
}

/* --- what is refused ----------------------------------------------------------------------- */

static void
too_much_is_refused (void **state)
{
  g_autoptr (PrJob) job = paper_job (PR_FOOT_LF, "quarter-clipped", 1, 0);
  g_autoptr (GString) much = g_string_new (NULL);
  g_autoptr (GByteArray) pdf = g_byte_array_new ();
  g_autoptr (GError) error = NULL;
  const PrPageOptions options = options_of (PR_PAPER_LETTER, PR_UNIT_MM);

  (void) state;
  while (much->len < PR_VET_WHY_MOST - 10)
    g_string_append (much, "reasons ");
  g_string_append (much, "end");
  PrVetNote note = whole;
  note.why = much->str;
  const PrVetAbout about = { job, NULL, &note };
  g_autoptr (PrVetPage) page = pr_vet_page_new (&about, &options);
  assert_false (pr_vet_page_holds (page, &error));
  has (error->message, "Too much was written for one page");
  hear (page); /* for the preview it is cut, and stays on the page */
  stands_clear (page, options.margin_mm);
  g_autofree char *all = all_said ();
  forget ();
  has (all, "…");
  has (all, "it does not diagnose");
  g_clear_error (&error);
  assert_false (pr_vet_pdf (&about, &options, pdf, &error));
  g_clear_error (&error);
  g_autoptr (PrSheaf) sheaf = pr_vet_sheaf_new (job, &note, NULL, PR_LAY_BEST);
  assert_false (pr_sheaf_lay (sheaf, &options, &error));
  has (error->message, "Too much was written");
}

static void
small_paper_is_refused (void **state)
{
  g_autoptr (PrJob) job = paper_job (PR_FOOT_LF, "plain-front", 1, 0);

  (void) state;
  for (int paper = 0; paper < PR_N_PAPERS; paper++) {
    const PrVetAbout about = { job, NULL, &whole };
    const PrPageOptions options = options_of ((PrPaper) paper, PR_UNIT_MM);
    g_autoptr (PrVetPage) page = pr_vet_page_new (&about, &options);
    g_autoptr (GError) error = NULL;
    double width, height;

    pr_paper_size ((PrPaper) paper, &width, &height);
    assert_int_equal (pr_vet_page_holds (page, &error), width > 200);
    if (error != NULL)
      has (error->message, "choose A4 or Letter");
  }
}

/* --- files --------------------------------------------------------------------------------- */

static guint32
four_bytes (const char *at)
{
  guint32 value;

  memcpy (&value, at, sizeof value);
  return GUINT32_FROM_BE (value);
}

static void
files_are_whole_and_true (void **state)
{
  g_autofree char *folder = g_dir_make_tmp ("pritchel-vet-XXXXXX", NULL), *info = NULL;
  g_autoptr (PrJob) job = paper_job (PR_FOOT_LF, "plain-front", 1, 0);
  const PrVetAbout about = { job, NULL, &whole };
  const PrPageOptions options = options_of (PR_PAPER_LETTER, PR_UNIT_MM);
  g_auto (PrVetPictures) pictures = { 0 };
  double width, height;

  (void) state;
  assert_true (pr_vet_write (&about, &options, folder, "bramble", NULL));
  assert_int_equal (kit_entries (folder), 3);
  pr_vet_pictures_make (&pictures, &about, PR_UNIT_MM);
  pr_vet_pictures_size (&pictures, 1, &width, &height);
  for (int i = 0; pr_vet_write_names ()[i] != NULL; i++) {
    g_autofree char *name = g_strdup_printf ("bramble-%s", pr_vet_write_names ()[i]);
    g_autofree char *file = g_build_filename (folder, name, NULL), *bytes = NULL;
    gsize size;

    assert_true (g_file_get_contents (file, &bytes, &size, NULL));
    if (i > 0) { /* PNG (ISO/IEC 15948): width in IHDR, 300 dpi in pHYs */
      const char *phys = memmem (bytes, size, "pHYs", 4);

      assert_non_null (phys);
      assert_int_equal (four_bytes (phys + 4), 11811);
      assert_true (fabs (four_bytes (bytes + 16) - ceil (width + 10) * 11.811) <= 1);
      g_unlink (file);
      continue;
    }
    const char *argv[] = { "pdfinfo", file, NULL };
    assert_true (kit_run (argv, &info));
    has (info, "Pages:           1\n");
    has (info, "612 x 792 pts (letter)");
    g_unlink (file);
  }
  g_rmdir (folder);
}

/* A dot on the photo lies in the picture where the foot's frame has it. */
static void
the_photo_lies_under_its_foot (void **state)
{
  enum { SIDE = 300, EACH = 6 };
  static const PrPt dots[] = { { 20, 40 }, { -35, -12 }, { 5, -40 } };

  (void) state;
  for (int foot = PR_FOOT_LF; foot < PR_N_FEET; foot++) {
    g_autoptr (PrJob) job
        = paper_job ((PrFoot) foot, foot >= PR_FOOT_LH ? "plain-hind" : "plain-front", 1, 0);
    PrTracing *t = job->sources.tracing;
    const int side = SIDE * EACH;

    t->raster = EACH;
    t->raster_width = t->raster_height = side;
    t->raster_rgb = g_atomic_rc_box_alloc ((gsize) side * (gsize) side * 3);
    memset (t->raster_rgb, 250, (size_t) side * (size_t) side * 3);
    for (size_t d = 0; d < G_N_ELEMENTS (dots); d++) { /* green squares of 4 mm */
      PrSheetPt p = pr_foot_frame_out (&job->hoof.frame, dots[d]);

      for (int y = -12; y < 12; y++)
        for (int x = -12; x < 12; x++) {
          uint8_t *px = t->raster_rgb
                        + 3
                              * ((size_t) (lround (p.y * EACH) + y) * (size_t) side
                                 + (size_t) (lround (p.x * EACH) + x));

          px[0] = px[2] = 0;
          px[1] = 255;
        }
    }
    const PrVetAbout about = { job, NULL, &whole };
    g_auto (PrVetPictures) pictures = { 0 };
    double w, h;
    pr_vet_pictures_make (&pictures, &about, PR_UNIT_MM);
    pr_vet_pictures_size (&pictures, 1, &w, &h);
    cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int) (4 * w), (int) (4 * h));
    cairo_t *cr = cairo_create (surface);
    cairo_scale (cr, 4, 4);
    pr_vet_pictures_draw (&pictures, PR_VET_BEFORE, cr, 1);
    cairo_destroy (cr);
    KitPicture picture = kit_surface (surface);
    double sign = pr_lateral_sign ((PrFoot) foot, PR_FACE_FOOT);
    for (size_t d = 0; d < G_N_ELEMENTS (dots); d++) {
      double sx = 0, sy = 0, n = 0,
             x0
             = 4
               * (pictures.beyond.x + (sign > 0 ? dots[d].x - pictures.low.x : pictures.high.x - dots[d].x));
      double y0 = 4 * (pictures.beyond.y + pictures.high.y - dots[d].y);

      for (int y = (int) y0 - 30; y < (int) y0 + 30; y++)
        for (int x = (int) x0 - 30; x < (int) x0 + 30; x++) {
          const uint8_t *px = picture.rgb + 3 * ((size_t) y * (size_t) picture.width + (size_t) x);
          bool green = px[1] > 200 && px[0] < 80 && px[2] < 80;

          sx += green ? x + 0.5 : 0;
          sy += green ? y + 0.5 : 0;
          n += green;
        }
      assert_true (n > 150);
      /* within a quarter mm: the square itself is on whole pixels of a sixth */
      if (hypot (sx / n - x0, sy / n - y0) > 1)
        fail_msg ("a dot is off by %.2f mm", hypot (sx / n - x0, sy / n - y0) / 4);
    }
    kit_picture_clear (&picture);
    cairo_surface_destroy (surface);
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (every_shoe_is_on_one_page),     cmocka_unit_test (sizes_to_look_at),
    cmocka_unit_test (long_names_keep_their_place),   cmocka_unit_test (figures_are_the_jobs),
    cmocka_unit_test (what_is_assumed_tells_no_half), cmocka_unit_test (permission_is_told_or_its_lack),
    cmocka_unit_test (the_forged_shoe_is_after),      cmocka_unit_test (too_much_is_refused),
    cmocka_unit_test (small_paper_is_refused),        cmocka_unit_test (files_are_whole_and_true),
    cmocka_unit_test (the_photo_lies_under_its_foot), cmocka_unit_test (a_kept_shoe_lies_as_it_lay),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
