/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-forged-page.h"

#include <glib/gi18n-lib.h>

#include "pr-card-title.h"
#include "pr-forged-draw.h"
#include "pr-forged-text.h"
#include "pr-free-room.h"
#include "pr-leaf.h"

#define PAD_MM 13.0 /* round the drawing: figures and the letters of both sides */
#define TYPE_MM 3.3
#define FIGURE_MM 3.8
#define LETTER_MM 6.0
#define LEAD_MM 4.6
#define SCALE_MM 18.0 /* the scale of colours with its words */
#define NUMBER_MM 2.7 /* radius of a correction's number */
#define SIDES_MM 6.5
#define MOST_PLACES 6
#define FIELD_MIN_MM 60.0
#define LEADER_MM 0.15

/* Words or a number on the drawing, with the place they are of; on the plan of tiles: x right, y down. */
typedef struct {
  PrBox box;
  PrPt of;
  int number; /* of a correction, from 1; 0: words */
  char *text;
} Label;

struct _PrForgedPages {
  const PrJob *job;
  const PrComparison *c;
  PrUnit unit;
  PrLeaf leaf;
  double width, height;
  PrBox field, foot; /* of the page: the drawing's, and below it scale and sentences */
  PrPt origin;
  GArray *tile, *label;
};

static void
label_clear (gpointer data)
{
  g_free (((Label *) data)->text);
}

/* --- laying out ---------------------------------------------------------------------------- */

static PrPt
on_plan (const PrForgedPages *p, PrPt at)
{
  return pr_pt (p->origin.x + pr_lateral_sign (p->c->foot, p->c->face) * at.x, p->origin.y - at.y);
}

static void
widen (const PrFigure *figure, PrPt *low, PrPt *high)
{
  for (size_t r = 0; r < figure->n; r++)
    for (size_t i = 0; i < figure->ring[r].n; i++) {
      PrPt p = figure->ring[r].p[i];

      *low = pr_pt (MIN (low->x, p.x), MIN (low->y, p.y));
      *high = pr_pt (MAX (high->x, p.x), MAX (high->y, p.y));
    }
}

static void
plan_size (PrForgedPages *p, double *w, double *h)
{
  PrPt low = { 0, 0 }, high = { 0, 0 };

  widen (&p->job->shoe->figure, &low, &high);
  widen (&p->c->figure, &low, &high);
  bool right = pr_lateral_sign (p->c->foot, p->c->face) > 0;
  p->origin = pr_pt (PAD_MM + (right ? -low.x : high.x), PAD_MM + high.y);
  *w = high.x - low.x + 2 * PAD_MM;
  *h = high.y - low.y + 2 * PAD_MM;
}

/* What stands below the drawing, for WIDTH. */
static double
draw_words (const PrForgedPages *p, cairo_t *cr, double x, double y, double width, bool draw)
{
  g_autofree char *caution = pr_forged_caution (p->c, p->unit), *verdict = pr_forged_verdict (p->c, p->unit);

  pr_text_face (cr, TYPE_MM, true);
  if (caution != NULL)
    y = pr_text_block (cr, x, y, width, LEAD_MM, draw, caution);
  pr_text_face (cr, TYPE_MM, false);
  if (p->c->correction->len == 0)
    y = pr_text_block (cr, x, y, width, LEAD_MM, draw, verdict);
  for (guint i = 0; i < p->c->correction->len; i++) {
    g_autofree char *line
        = g_strdup_printf ("%u  %s", i + 1, g_array_index (p->c->correction, PrCorrection, i).text);

    y = pr_text_block (cr, x, y, width, LEAD_MM, draw, line);
  }
  return y;
}

static double
foot_height (const PrForgedPages *p, double width)
{
  cairo_t *cr = pr_text_scratch ();
  double height = SCALE_MM + draw_words (p, cr, 0, TYPE_MM, width, false);

  cairo_destroy (cr);
  return height;
}

static void
split_field (PrForgedPages *p)
{
  PrBox field = pr_leaf_field (&p->leaf);
  double foot = MIN (foot_height (p, field.w), field.h / 2);

  p->field = (PrBox){ field.x, field.y + SIDES_MM, field.w, MAX (field.h - foot - SIDES_MM, FIELD_MIN_MM) };
  p->foot = (PrBox){ field.x, p->field.y + p->field.h, field.w, foot };
}

/* --- labels -------------------------------------------------------------------------------- */

static void
take_box (PrFreeRoom *room, PrBox box)
{
  for (int solid = 0; solid < 2; solid++) {
    cairo_t *ink = pr_free_room_ink (room, solid);

    cairo_rectangle (ink, box.x, box.y, box.w, box.h);
    cairo_fill (ink);
  }
}

static void
add_label (PrForgedPages *p, PrFreeRoom *room, PrPt of, double w, double h, int number, char *text)
{
  Label label = { { 0, 0, w, h }, of, number, text };

  if (isinf (pr_free_room_find (room, of, w, h, NULL, &label.box))) {
    g_free (text);
    return;
  }
  g_array_append_val (p->label, label);
  take_box (room, label.box);
}

static void
lay_places (PrForgedPages *p, PrFreeRoom *room, cairo_t *scratch)
{
  const PrOffset *place[MOST_PLACES];
  size_t n = pr_forged_largest (p->c, place, MOST_PLACES);

  pr_text_face (scratch, FIGURE_MM, true);
  for (size_t i = 0; i < n; i++) {
    const PrOffset *o = place[i];
    g_autofree char *amount
        = p->unit == PR_UNIT_INCH ? pr_off_text (o->off, p->unit) : pr_length_number (fabs (o->off), p->unit);
    char *text = g_strdup_printf ("%s%s", o->off < 0 ? "−" : "+", amount);

    add_label (p, room, on_plan (p, pr_pt_along (o->at, o->out, o->off / 2)),
               pr_text_width (scratch, text) + 0.6, FIGURE_MM * 1.1, 0, text);
  }
}

static void
lay_numbers (PrForgedPages *p, PrFreeRoom *room)
{
  for (guint i = 0; i < p->c->correction->len; i++)
    add_label (p, room, on_plan (p, g_array_index (p->c->correction, PrCorrection, i).at), 2 * NUMBER_MM,
               2 * NUMBER_MM, (int) i + 1, NULL);
}

static void
side_letters (const PrForgedPages *p, PrPt at[2], double *size)
{
  PrPt low = { 0, 0 }, high = { 0, 0 };

  widen (&p->job->shoe->figure, &low, &high);
  widen (&p->c->figure, &low, &high);
  *size = LETTER_MM;
  at[PR_MEDIAL] = on_plan (p, pr_pt (low.x - 0.8 * LETTER_MM, 0));
  at[PR_LATERAL] = on_plan (p, pr_pt (high.x + 0.8 * LETTER_MM, 0));
}

static void
enter (const PrForgedPages *p, cairo_t *cr)
{
  pr_draw_enter_foot (cr, p->c->foot, p->c->face, p->origin.x, p->origin.y);
}

static void
lay_labels (PrForgedPages *p)
{
  g_autoptr (PrFreeRoom) room = pr_free_room_new (pr_tiles_all (p->tile));
  const PrForgedLook look = PR_FORGED_LOOK_PAPER (p->unit);
  cairo_t *scratch = pr_text_scratch (), *ink = pr_free_room_ink (room, false);
  PrPt letter[2];
  double size;

  cairo_save (ink);
  enter (p, ink);
  pr_draw_forged (ink, p->job, p->c, &look);
  cairo_restore (ink);
  side_letters (p, letter, &size);
  for (int b = 0; b < 2; b++)
    take_box (room, (PrBox){ letter[b].x - size / 2, letter[b].y - size / 2, size, size });
  lay_places (p, room, scratch);
  lay_numbers (p, room);
  cairo_destroy (scratch);
}

/* --- made ---------------------------------------------------------------------------------- */

static PrForgedPages *
start (const PrJob *job, const PrComparison *c, const PrPageOptions *options)
{
  PrForgedPages *p = g_new0 (PrForgedPages, 1);

  p->job = job;
  p->c = c;
  p->unit = options->unit;
  p->leaf.margin = options->margin_mm;
  p->leaf.correct_x = pr_correction_usable (options->correct_x) ? options->correct_x : 1;
  p->leaf.correct_y = pr_correction_usable (options->correct_y) ? options->correct_y : 1;
  p->leaf.title = pr_card_title (job, options->date, options->horse);
  p->leaf.figures = pr_forged_head (c, options->unit);
  p->leaf.face = g_strdup (pr_face_name (c->face));
  p->leaf.words = g_strdup (
      _ ("Filled: the shoe as forged. Thin line: the plan. Hatched: too much iron. Shown 1 : 1."));
  p->label = g_array_new (FALSE, TRUE, sizeof (Label));
  g_array_set_clear_func (p->label, label_clear);
  return p;
}

static void
lay (PrForgedPages *p, double overlap)
{
  double w, h;

  split_field (p);
  plan_size (p, &w, &h);
  p->tile = pr_tiles (w, h, p->field.w, p->field.h, CLAMP (overlap, 0, FIELD_MIN_MM / 2 - 1));
  lay_labels (p);
}

PrForgedPages *
pr_forged_pages_new (const PrJob *job, const PrComparison *c, const PrPageOptions *options)
{
  PrForgedPages *p = start (job, c, options);

  pr_paper_size (options->paper, &p->width, &p->height);
  p->leaf.width = p->width / p->leaf.correct_x;
  p->leaf.height = p->height / p->leaf.correct_y;
  lay (p, options->overlap_mm);
  return p;
}

PrForgedPages *
pr_forged_pages_new_single (const PrJob *job, const PrComparison *c, const PrPageOptions *wanted)
{
  PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;
  double w, h;

  options.unit = wanted->unit;
  options.horse = wanted->horse;
  options.date = wanted->date;
  PrForgedPages *p = start (job, c, &options);
  plan_size (p, &w, &h);
  w = MAX (w, PR_FORGED_SCALE_MM);
  pr_leaf_fit (&p->leaf, w, h + SIDES_MM + foot_height (p, w));
  p->leaf.width = p->width = ceil (p->leaf.width);
  p->leaf.height = p->height = ceil (p->leaf.height);
  lay (p, 0);
  return p;
}

void
pr_forged_pages_free (PrForgedPages *p)
{
  if (p == NULL)
    return;
  pr_leaf_clear (&p->leaf);
  g_array_unref (p->tile);
  g_array_unref (p->label);
  g_free (p);
}

int
pr_forged_pages_count (const PrForgedPages *p)
{
  return (int) p->tile->len;
}

void
pr_forged_pages_size (const PrForgedPages *p, double *width, double *height)
{
  *width = p->width;
  *height = p->height;
}

/* --- a page -------------------------------------------------------------------------------- */

static void
draw_sides (const PrForgedPages *p, cairo_t *cr)
{
  bool right = pr_lateral_sign (p->c->foot, p->c->face) > 0;
  g_autofree char *left_words = g_strdup_printf ("← %s", right ? _ ("M medial") : _ ("L lateral"));
  g_autofree char *right_words = g_strdup_printf ("%s →", right ? _ ("L lateral") : _ ("M medial"));

  pr_text_face (cr, 4, true);
  pr_ink (cr, pr_ink_light.text);
  pr_text (cr, p->field.x, p->field.y - 2.2, PR_LEFT, left_words);
  pr_text (cr, p->field.x + p->field.w, p->field.y - 2.2, PR_RIGHT, right_words);
}

static void
draw_letters (const PrForgedPages *p, cairo_t *cr)
{
  const char *const letter[2] = { C_ ("medial", "M"), C_ ("lateral", "L") };
  PrPt at[2];
  double size;

  side_letters (p, at, &size);
  pr_text_face (cr, size, true);
  pr_ink (cr, pr_ink_light.text);
  for (int b = 0; b < 2; b++)
    pr_text (cr, at[b].x, at[b].y + 0.36 * size, PR_MIDDLE, letter[b]);
}

static void
draw_number (cairo_t *cr, const Label *label)
{
  PrPt middle = { label->box.x + NUMBER_MM, label->box.y + NUMBER_MM };
  g_autofree char *text = g_strdup_printf ("%d", label->number);

  cairo_new_sub_path (cr);
  cairo_arc (cr, middle.x, middle.y, NUMBER_MM - 0.2, 0, 2 * G_PI);
  pr_ink (cr, pr_ink_light.deep);
  cairo_fill (cr);
  pr_text_face (cr, FIGURE_MM, true);
  pr_ink (cr, pr_ink_light.ground);
  pr_text (cr, middle.x, middle.y + 0.36 * FIGURE_MM, PR_MIDDLE, text);
}

static void
draw_label (cairo_t *cr, const Label *label)
{
  PrPt to = pr_box_nearest (&label->box, label->of);

  cairo_move_to (cr, to.x, to.y);
  cairo_line_to (cr, label->of.x, label->of.y);
  pr_ink (cr, pr_ink_light.text);
  cairo_set_line_width (cr, LEADER_MM);
  cairo_stroke (cr);
  if (label->number > 0) {
    draw_number (cr, label);
    return;
  }
  pr_text_face (cr, FIGURE_MM, true);
  pr_text (cr, label->box.x + label->box.w / 2, label->box.y + FIGURE_MM * 0.9, PR_MIDDLE, label->text);
}

static void
draw_arrows (const PrForgedPages *p, cairo_t *cr)
{
  pr_ink (cr, pr_ink_light.deep);
  for (guint i = 0; i < p->c->correction->len; i++) {
    const PrCorrection *one = &g_array_index (p->c->correction, PrCorrection, i);

    pr_draw_forged_arrow (cr, on_plan (p, one->at), on_plan (p, one->to), 0.5);
  }
}

static void
draw_plan (const PrForgedPages *p, cairo_t *cr)
{
  const PrForgedLook look = PR_FORGED_LOOK_PAPER (p->unit);

  cairo_save (cr);
  enter (p, cr);
  pr_draw_forged (cr, p->job, p->c, &look);
  cairo_restore (cr);
  draw_arrows (p, cr);
  draw_letters (p, cr);
  for (guint i = 0; i < p->label->len; i++)
    draw_label (cr, &g_array_index (p->label, Label, i));
}

static void
draw_foot (const PrForgedPages *p, cairo_t *cr)
{
  const PrForgedLook look = PR_FORGED_LOOK_PAPER (p->unit);

  cairo_save (cr);
  cairo_translate (cr, p->foot.x, p->foot.y + 2);
  pr_draw_forged_scale (cr, &look, p->foot.w, TYPE_MM);
  cairo_restore (cr);
  pr_ink (cr, pr_ink_light.text);
  pr_text_face (cr, TYPE_MM, false);
  pr_text (cr, p->foot.x, p->foot.y + 2 + 3.4 * TYPE_MM, PR_LEFT,
           p->unit == PR_UNIT_MM ? _ ("Off the plan, mm: + too much iron, − too little")
                                 : _ ("Off the plan, in: + too much iron, − too little"));
  draw_words (p, cr, p->foot.x, p->foot.y + SCALE_MM + TYPE_MM, p->foot.w, true);
}

/* The tile's corners and its name, where there is more than one. */
static void
draw_tile_marks (const PrForgedPages *p, const PrTile *tile, cairo_t *cr)
{
  PrBox niche = pr_leaf_niche (&p->leaf);

  if (p->tile->len < 2)
    return;
  cairo_rectangle (cr, p->field.x, p->field.y, p->field.w, p->field.h);
  pr_ink (cr, pr_ink_light.faint);
  cairo_set_line_width (cr, 0.2);
  cairo_stroke (cr);
  pr_ink (cr, pr_ink_light.text);
  pr_text_face (cr, 8, true);
  pr_text (cr, niche.x + niche.w / 2, niche.y + 6.5, PR_MIDDLE, tile->name);
}

void
pr_forged_pages_draw (const PrForgedPages *p, int page, cairo_t *cr)
{
  const PrTile *tile = &g_array_index (p->tile, PrTile, page);

  cairo_save (cr);
  cairo_scale (cr, p->leaf.correct_x, p->leaf.correct_y);
  pr_leaf_draw (&p->leaf, cr, page, pr_forged_pages_count (p));
  draw_sides (p, cr);
  draw_tile_marks (p, tile, cr);
  cairo_save (cr);
  cairo_rectangle (cr, p->field.x, p->field.y, p->field.w, p->field.h);
  cairo_clip (cr);
  cairo_translate (cr, p->field.x - tile->box.x, p->field.y - tile->box.y);
  draw_plan (p, cr);
  cairo_restore (cr);
  draw_foot (p, cr);
  cairo_restore (cr);
}
