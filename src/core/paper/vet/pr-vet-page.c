/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-vet-page.h"

#include <glib/gi18n-lib.h>

#include "pr-card-title.h"
#include "pr-error.h"
#include "pr-ink.h"
#include "pr-text.h"
#include "pr-tiles.h"
#include "pr-vet-lines.h"
#include "pr-vet-picture.h"

#define TITLE_MM 5.4
#define NAME_MM 4.2
#define HEAD_MM 3.7
#define TYPE_MM 3.2 /* the smallest: 9 pt are 3.175 mm */
#define LEAD 1.28
#define GAP_MM 1.8 /* between parts */
#define GUTTER_MM 4.0
#define CAPTION_MM 4.6
#define BAR_ROW_MM 5.0
#define LABEL_SHARE 0.21 /* of the width */
#define HOW_SHARE 0.33
#define PICTURES_LEAST_MM 38.0 /* at less, the numbers of a large foot's nails meet */
#define WIDE_LEAST_MM 200.0    /* A4 and Letter are wider and higher, A5 and B5 are not */
#define HIGH_LEAST_MM 260.0
#define CUT_SHARE 0.92

struct _PrVetPage {
  PrVetAbout about;
  PrVetPictures pictures;
  PrUnit unit;
  PrBox field;          /* within the margins */
  double width, height; /* of the paper */
  double correct_x, correct_y;
  char *title, *whom;
  char *why; /* as much of it as there is room for */
  bool cut;
  GPtrArray *measures, *shoe, *permission; /* PrCardLine */
  char *cautions;
  double picture_scale, pictures_high;
};

/* --- blocks of words ----------------------------------------------------------------------- */

/* Draws what begins with its top at Y, or only measures it; returns its lower edge. */
typedef double (*Part) (const PrVetPage *page, cairo_t *cr, double y, bool draw);

/* TEXT of one paragraph in SIZE from the top Y on; returns its lower edge. */
static double
words (const PrVetPage *page, cairo_t *cr, double y, double size, bool bold, bool draw, const char *text)
{
  pr_ink (cr, pr_ink_light.text);
  pr_text_face (cr, size, bold);
  return pr_text_block (cr, page->field.x, y + size, page->field.w, size * LEAD, draw, text) - size;
}

static double
heading (const PrVetPage *page, cairo_t *cr, double y, bool draw, const char *text)
{
  return words (page, cr, y + GAP_MM, HEAD_MM, true, draw, text) + 0.4;
}

static double
paragraphs (const PrVetPage *page, cairo_t *cr, double y, bool draw, const char *text)
{
  g_auto (GStrv) line = g_strsplit (text, "\n", -1);

  for (int i = 0; line[i] != NULL; i++)
    y = words (page, cr, y, TYPE_MM, false, draw, line[i]);
  return y;
}

/* A row of up to three columns. */
static double
row (const PrVetPage *page, cairo_t *cr, double y, bool draw, const PrCardLine *line)
{
  const char *text[3] = { line->label, line->value, line->more };
  double share[3] = { LABEL_SHARE, 1 - LABEL_SHARE - (line->more != NULL ? HOW_SHARE : 0), HOW_SHARE };
  double x = page->field.x, low = y;

  pr_ink (cr, pr_ink_light.text);
  for (int i = 0; i < 3 && text[i] != NULL; i++) {
    double wide = share[i] * page->field.w;

    pr_text_face (cr, TYPE_MM, i == 1);
    low = fmax (low, pr_text_block (cr, x, y + TYPE_MM, wide - 2, TYPE_MM * LEAD, draw, text[i]) - TYPE_MM);
    x += wide;
  }
  return low;
}

static double
rows (const PrVetPage *page, cairo_t *cr, double y, bool draw, const GPtrArray *lines)
{
  for (guint i = 0; i < lines->len; i++)
    y = row (page, cr, y, draw, lines->pdata[i]);
  return y;
}

/* --- the parts, from the top --------------------------------------------------------------- */

static double
head_part (const PrVetPage *page, cairo_t *cr, double y, bool draw)
{
  y = words (page, cr, y, TITLE_MM, true, draw, _ ("Sheet for the vet"));
  y = words (page, cr, y + 0.6, NAME_MM, true, draw, page->title);
  if (page->whom != NULL)
    y = words (page, cr, y + 0.6, TYPE_MM, false, draw, page->whom);
  if (draw) {
    cairo_rectangle (cr, page->field.x, y + 1, page->field.w, 0.25);
    pr_ink (cr, pr_ink_light.faint);
    cairo_fill (cr);
  }
  return y + 2;
}

/* Side by side, each in the middle of its half, below them the line they are measured by. */
static double
picture_part (const PrVetPage *page, cairo_t *cr, double y, bool draw)
{
  double half = (page->field.w - GUTTER_MM) / 2, w, h;

  pr_vet_pictures_size (&page->pictures, page->picture_scale, &w, &h);
  for (int i = 0; i < PR_N_VET_PICTURES && draw; i++) {
    double x = page->field.x + i * (half + GUTTER_MM);

    cairo_save (cr);
    cairo_translate (cr, x + (half - w) / 2, y);
    pr_vet_pictures_draw (&page->pictures, (PrVetPicture) i, cr, page->picture_scale);
    cairo_restore (cr);
    pr_ink (cr, pr_ink_light.text);
    pr_text_face (cr, TYPE_MM, true);
    pr_text (cr, x + half / 2, y + page->pictures_high + CAPTION_MM - 1, PR_MIDDLE,
             pr_vet_pictures_caption (&page->pictures, (PrVetPicture) i));
  }
  y += page->pictures_high + CAPTION_MM + BAR_ROW_MM;
  if (draw) {
    cairo_save (cr);
    cairo_translate (cr, page->field.x, y - 1);
    pr_vet_pictures_draw_bar (&page->pictures, cr, page->picture_scale, TYPE_MM);
    cairo_restore (cr);
  }
  return y;
}

static double
measures_part (const PrVetPage *page, cairo_t *cr, double y, bool draw)
{
  return rows (page, cr, heading (page, cr, y, draw, _ ("Measures, and how each is known")), draw,
               page->measures);
}

static double
shoe_part (const PrVetPage *page, cairo_t *cr, double y, bool draw)
{
  return rows (page, cr, heading (page, cr, y, draw, _ ("The shoe")), draw, page->shoe);
}

static double
why_part (const PrVetPage *page, cairo_t *cr, double y, bool draw)
{
  if (*page->why == '\0')
    return y;
  return paragraphs (page, cr, heading (page, cr, y, draw, _ ("Why this shoe")), draw, page->why);
}

static double
permission_part (const PrVetPage *page, cairo_t *cr, double y, bool draw)
{
  y = heading (page, cr, y, draw, _ ("The owner's permission"));
  if (page->permission->len == 0)
    return words (page, cr, y, TYPE_MM, true, draw, _ ("No permission is recorded."));
  return rows (page, cr, y, draw, page->permission);
}

static double
cautions_part (const PrVetPage *page, cairo_t *cr, double y, bool draw)
{
  if (draw) {
    cairo_rectangle (cr, page->field.x, y + GAP_MM, page->field.w, 0.25);
    pr_ink (cr, pr_ink_light.faint);
    cairo_fill (cr);
  }
  y += GAP_MM + 1.2;
  return words (page, cr, y, TYPE_MM, false, draw, page->cautions);
}

static const Part parts[]
    = { head_part, picture_part, measures_part, shoe_part, why_part, permission_part, cautions_part };

static double
all_parts (const PrVetPage *page, cairo_t *cr, bool draw)
{
  double y = page->field.y;

  for (gsize i = 0; i < G_N_ELEMENTS (parts); i++)
    y = parts[i](page, cr, y, draw);
  return y;
}

/* --- laying out ---------------------------------------------------------------------------- */

/* What is left of the page's height with pictures of none. */
static double
room_left (const PrVetPage *page)
{
  cairo_t *cr = pr_text_scratch ();
  double low = all_parts (page, cr, false);

  cairo_destroy (cr);
  return page->field.y + page->field.h - low;
}

/* TEXT without its end. */
static char *
shorter (const char *text)
{
  glong keep = (glong) ((double) g_utf8_strlen (text, -1) * CUT_SHARE) - 1;
  g_autofree char *start = g_utf8_substring (text, 0, MAX (keep, 0));

  return g_strconcat (g_strchomp (start), keep > 0 ? "…" : "", NULL);
}

/* As large as height and width allow, and never larger than the foot. */
static void
scale_pictures (PrVetPage *page, double room)
{
  double half = (page->field.w - GUTTER_MM) / 2, w;

  page->picture_scale = pr_vet_pictures_fit (&page->pictures, half, fmax (room, PICTURES_LEAST_MM));
  pr_vet_pictures_size (&page->pictures, page->picture_scale, &w, &page->pictures_high);
}

static void
lay (PrVetPage *page)
{
  double room = room_left (page);

  while (room < PICTURES_LEAST_MM && *page->why != '\0') {
    g_autofree char *whole = page->why;

    page->cut = true;
    page->why = shorter (whole);
    room = room_left (page);
  }
  scale_pictures (page, room);
}

static double
usable (double factor)
{
  return pr_correction_usable (factor) ? factor : 1;
}

PrVetPage *
pr_vet_page_new (const PrVetAbout *about, const PrPageOptions *options)
{
  PrVetPage *page = g_new0 (PrVetPage, 1);
  double margin = options->margin_mm;
  g_autofree char *whom = *about->note->vet != '\0' ? pr_text_name (about->note->vet) : NULL;

  page->about = *about;
  page->unit = options->unit;
  page->correct_x = usable (options->correct_x);
  page->correct_y = usable (options->correct_y);
  pr_paper_size (options->paper, &page->width, &page->height);
  page->field = (PrBox){ margin, margin, page->width / page->correct_x - 2 * margin,
                         page->height / page->correct_y - 2 * margin };
  page->title = pr_card_title (about->job, options->date, options->horse);
  page->whom = whom != NULL ? g_strdup_printf (_ ("For: %s"), whom) : NULL;
  page->permission = pr_vet_permission (about->note);
  page->why = g_strdup (about->note->why);
  page->measures = pr_vet_measures (about->job, options->unit);
  page->shoe = pr_vet_shoe (about, options->unit);
  page->cautions = pr_vet_cautions ();
  pr_vet_pictures_make (&page->pictures, &page->about, options->unit);
  lay (page);
  return page;
}

void
pr_vet_page_free (PrVetPage *page)
{
  if (page == NULL)
    return;
  pr_vet_pictures_clear (&page->pictures);
  g_free (page->title);
  g_free (page->whom);
  g_free (page->why);
  g_ptr_array_unref (page->measures);
  g_ptr_array_unref (page->shoe);
  g_ptr_array_unref (page->permission);
  g_free (page->cautions);
  g_free (page);
}

void
pr_vet_page_size (const PrVetPage *page, double *width, double *height)
{
  *width = page->width;
  *height = page->height;
}

void
pr_vet_page_draw (const PrVetPage *page, cairo_t *cr)
{
  cairo_save (cr);
  cairo_new_path (cr);
  cairo_scale (cr, page->correct_x, page->correct_y);
  all_parts (page, cr, true);
  cairo_restore (cr);
}

bool
pr_vet_page_holds (const PrVetPage *page, GError **error)
{
  if (page->width < WIDE_LEAST_MM || page->height < HIGH_LEAST_MM)
    g_set_error_literal (error, PR_ERROR, PR_ERROR_INPUT,
                         _ ("The sheet for the vet does not fit on so small a paper; choose A4 or Letter."));
  else if (page->cut || room_left (page) < -0.01)
    g_set_error_literal (error, PR_ERROR, PR_ERROR_INPUT,
                         _ ("Too much was written for one page; shorten it."));
  else
    return true;
  return false;
}
