/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-silhouette.h"

#include "pr-draw.h"
#include "pr-ink.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define CUT_MM 4.0 /* from the shoe's edge to the line it is cut out along */
#define CUT_LINE_MM 0.3
#define CUT_DASH_MM 3.0
#define FRAME_MM 0.5       /* round a nail's hole, which would be lost in the white of the crease */
#define WORDS_MM 3.5       /* beside the line; 9 pt are 3.175 mm */
#define LETTER_OF_WEB 0.55 /* M and L, white on the iron: their size in the web's width ... */
#define LETTER_MOST_MM 16.0
#define LETTER_ROOM 0.75 /* ... which is left out where the web is less than the least type and some room */
#define APART_MM 2.0     /* between one's words and another's */
#define ROW_COST 4.0     /* mm away that another row of words is worth */
#define ASCENT 0.93      /* of the lettering's size, as pr-dimensions.c has it */
#define DESCENT 0.24

typedef struct {
  double x, y, size; /* middle of the base line */
  char *text;
  bool white;
} Words;

struct _PrSilhouette {
  const PrJob *job; /* not owned */
  PrPt origin;
  PrFigure cut; /* foot frame */
  GArray *words;
  PrPt leader[2]; /* on the plan */
};

static void
words_clear (gpointer data)
{
  g_free (((Words *) data)->text);
}

void
pr_silhouette_free (PrSilhouette *figure)
{
  if (figure == NULL)
    return;
  pr_figure_clear (&figure->cut);
  g_array_unref (figure->words);
  g_free (figure);
}

/* --- drawing ----------------------------------------------------------------------------- */

static void
add_figure (cairo_t *cr, const PrFigure *figure)
{
  for (size_t i = 0; i < figure->n; i++) {
    for (size_t k = 0; k < figure->ring[i].n; k++)
      (k == 0 ? cairo_move_to : cairo_line_to) (cr, figure->ring[i].p[k].x, figure->ring[i].p[k].y);
    cairo_close_path (cr);
  }
}

static void
draw_iron (cairo_t *cr, const PrShoe *shoe)
{
  cairo_set_fill_rule (cr, CAIRO_FILL_RULE_EVEN_ODD);
  add_figure (cr, &shoe->figure);
  cairo_fill (cr);
  for (size_t i = 0; i < shoe->n_clips; i++) {
    const PrFigure clip = { (PrPath *) &shoe->clip[i].ring, 1 };

    add_figure (cr, &clip);
    cairo_fill (cr);
  }
}

static void
draw_holes (cairo_t *cr, const PrShoe *shoe)
{
  for (size_t i = 0; i < shoe->n_nails; i++) {
    const PrNail *nail = &shoe->nail[i];

    cairo_save (cr);
    cairo_translate (cr, nail->at.x, nail->at.y);
    cairo_rotate (cr, atan2 (nail->along.y, nail->along.x));
    cairo_rectangle (cr, -nail->head_length / 2, -nail->head_width / 2, nail->head_length, nail->head_width);
    pr_ink (cr, pr_ink_light.ground);
    cairo_fill_preserve (cr);
    cairo_set_line_width (cr, FRAME_MM);
    cairo_set_source_rgb (cr, 0, 0, 0);
    cairo_stroke (cr);
    cairo_restore (cr);
  }
}

static void
draw_creases (cairo_t *cr, const PrShoe *shoe)
{
  pr_ink (cr, pr_ink_light.ground);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  for (size_t i = 0; i < shoe->n_creases; i++) {
    for (size_t k = 0; k < shoe->crease[i].middle.n; k++)
      cairo_line_to (cr, shoe->crease[i].middle.p[k].x, shoe->crease[i].middle.p[k].y);
    cairo_set_line_width (cr, shoe->crease[i].width);
    cairo_stroke (cr);
  }
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
}

static void
draw_cut (cairo_t *cr, const PrFigure *cut)
{
  const double dash[2] = { CUT_DASH_MM, CUT_DASH_MM * 0.6 };

  add_figure (cr, cut);
  cairo_set_dash (cr, dash, 2, 0);
  cairo_set_line_width (cr, CUT_LINE_MM);
  cairo_stroke (cr);
  cairo_set_dash (cr, NULL, 0, 0);
}

static void
draw_figure (const PrSilhouette *figure, cairo_t *cr)
{
  cairo_save (cr);
  cairo_new_path (cr);
  pr_draw_enter_foot (cr, figure->job->sources.foot, PR_FACE_GROUND, figure->origin.x, figure->origin.y);
  cairo_set_source_rgb (cr, 0, 0, 0);
  draw_cut (cr, &figure->cut);
  draw_iron (cr, figure->job->shoe);
  draw_creases (cr, figure->job->shoe);
  draw_holes (cr, figure->job->shoe);
  cairo_restore (cr);
}

void
pr_silhouette_draw (const PrSilhouette *figure, cairo_t *cr)
{
  cairo_save (cr);
  draw_figure (figure, cr);
  for (guint i = 0; i < figure->words->len; i++) {
    const Words *words = &g_array_index (figure->words, Words, i);

    pr_ink (cr, words->white ? pr_ink_light.ground : (PrColour){ 0, 0, 0, 1 });
    pr_text_face (cr, words->size, words->size > WORDS_MM);
    pr_text (cr, words->x, words->y, PR_MIDDLE, words->text);
  }
  cairo_set_source_rgb (cr, 0, 0, 0);
  cairo_set_line_width (cr, CUT_LINE_MM);
  cairo_move_to (cr, figure->leader[0].x, figure->leader[0].y);
  cairo_line_to (cr, figure->leader[1].x, figure->leader[1].y);
  cairo_stroke (cr);
  cairo_restore (cr);
}

/* --- words ------------------------------------------------------------------------------- */

static PrPt
on_plan (const PrSilhouette *figure, PrPt p)
{
  return pr_pt (figure->origin.x + pr_lateral_sign (figure->job->sources.foot, PR_FACE_GROUND) * p.x,
                figure->origin.y - p.y);
}

static void
add_words (PrSilhouette *figure, double x, double y, double size, bool white, const char *text)
{
  Words words = { x, y, size, g_strdup (text), white };

  g_array_append_val (figure->words, words);
}

/* TEXT of SIZE in as many as ROWS rows, nearest to AT; returns what is said against it, and its place and rows. */
static double
find_rows (PrFreeRoom *room, PrPt at, double size, const char *text, int rows, PrBox *box, char **row)
{
  cairo_t *scratch = pr_text_scratch ();
  const char *space = rows > 1 ? strchr (text, ' ') : NULL;
  double w;

  pr_text_face (scratch, size, size > WORDS_MM);
  row[0] = space ? g_strndup (text, (gsize) (space - text)) : g_strdup (text);
  row[1] = space ? g_strdup (space + 1) : NULL;
  w = pr_text_width (scratch, row[0]);
  if (row[1] != NULL)
    w = fmax (w, pr_text_width (scratch, row[1]));
  cairo_destroy (scratch);
  return pr_free_room_find (room, at, w, (ASCENT + DESCENT) * size * (row[1] ? 2 : 1), NULL, box);
}

/* TEXT where it is nearest to AT, in one row or in two; *TO is then the point of it that is the nearest. FALSE: no room. */
static bool
lay_words (PrSilhouette *figure, PrFreeRoom *room, PrPt at, double size, const char *text, PrPt *to)
{
  char *best[2] = { NULL, NULL };
  PrBox place = { 0 };
  double least = INFINITY;

  for (int rows = 1; rows <= 2; rows++) {
    char *row[2];
    PrBox box;
    double cost = find_rows (room, at, size, text, rows, &box, row) + rows * ROW_COST;
    bool better = cost < least;

    for (int i = 0; i < 2; i++) {
      g_free (better ? best[i] : row[i]);
      best[i] = better ? row[i] : best[i];
    }
    if (better) {
      least = cost;
      place = box;
    }
  }
  for (int i = 0; i < 2; i++) {
    if (best[i] != NULL)
      add_words (figure, place.x + place.w / 2, place.y + (ASCENT + i * (ASCENT + DESCENT)) * size, size,
                 false, best[i]);
    g_free (best[i]);
  }
  if (isinf (least))
    return false;
  cairo_rectangle (pr_free_room_ink (room, false), place.x - APART_MM, place.y - APART_MM,
                   place.w + 2 * APART_MM, place.h + 2 * APART_MM);
  cairo_fill (pr_free_room_ink (room, false));
  *to = pr_box_nearest (&place, at);
  return true;
}

/* M and L stand on the iron between the crease's end and the heel, so that they are still there when the rest is cut away;
 * beside it where the web is too narrow for them. */
static void
lay_letter (PrSilhouette *figure, PrFreeRoom *room, int branch)
{
  const PrShoe *shoe = figure->job->shoe;
  const char *text = branch == PR_MEDIAL ? C_ ("medial", "M") : C_ ("lateral", "L");
  double end = fmin (1, shoe->edge_length[branch] / shoe->edge_buttress[branch]), from = 0.5;

  for (size_t i = 0; i < shoe->n_creases; i++)
    if (shoe->crease[i].branch == branch)
      from = fmax (from, shoe->crease[i].place_to);
  for (size_t i = 0; i < shoe->n_nails; i++)
    if (shoe->nail[i].branch == branch)
      from = fmax (from, shoe->nail[i].place);
  double edge = pr_shoe_place_to_edge (shoe, branch, (fmin (from, end) + end) / 2), t;
  double s = pr_shoe_edge_to_s (shoe, branch, edge);
  PrPt outer, middle = pr_shoe_middle_at (shoe, s, &outer, NULL), to;
  size_t i = pr_shoe_station_at (shoe, s, &t);
  double web = shoe->st[i].web, size = CLAMP (web * LETTER_OF_WEB, PR_SILHOUETTE_TYPE_MM, LETTER_MOST_MM);

  if (size > web * LETTER_ROOM) {
    lay_words (figure, room, on_plan (figure, outer), PR_SILHOUETTE_TYPE_MM, text, &to);
    return;
  }
  middle = on_plan (figure, middle);
  /* 0.36 of the size is half the height of capitals */
  add_words (figure, middle.x, middle.y + 0.36 * size, size, true, text);
}

/* The right end of the line on the plan: there the outside is. */
static PrPt
right_end (const PrSilhouette *figure)
{
  PrPt end = figure->origin;

  for (size_t i = 0; i < figure->cut.n; i++)
    for (size_t k = 0; k < figure->cut.ring[i].n; k++) {
      PrPt p = on_plan (figure, figure->cut.ring[i].p[k]);

      if ((i == 0 && k == 0) || p.x > end.x)
        end = p;
    }
  return end;
}

void
pr_silhouette_lay (PrSilhouette *figure, PrFreeRoom *room)
{
  PrPt end = right_end (figure), to;

  for (int branch = 0; branch < 2 && figure->job->sources.foot != PR_FOOT_ANY; branch++)
    lay_letter (figure, room, branch);
  lay_words (figure, room, figure->origin, PR_SILHOUETTE_TYPE_MM, pr_face_name (PR_FACE_GROUND), &to);
  figure->leader[0] = figure->leader[1] = end;
  if (lay_words (figure, room, end, WORDS_MM, _ ("cut out here"), &to))
    figure->leader[1] = to;
}

/* --- all of it --------------------------------------------------------------------------- */

static void
make_cut (PrSilhouette *figure)
{
  const PrShoe *shoe = figure->job->shoe;

  pr_figure_copy (&figure->cut, &shoe->figure);
  for (size_t i = 0; i < shoe->n_clips; i++) {
    g_auto (PrFigure) clip = { 0 }, both = { 0 };

    if (pr_figure_from_ring (&clip, &shoe->clip[i].ring) && pr_figure_union (&both, &figure->cut, &clip))
      pr_figure_copy (&figure->cut, &both);
  }
  pr_figure_grow (&figure->cut, &figure->cut, CUT_MM);
}

PrSilhouette *
pr_silhouette_new (const PrJob *job, PrPt origin, PrFreeRoom *room)
{
  if (job->shoe == NULL || job->shoe->n_st < 2)
    return NULL;
  PrSilhouette *figure = g_new0 (PrSilhouette, 1);

  figure->job = job;
  figure->origin = origin;
  figure->words = g_array_new (FALSE, FALSE, sizeof (Words));
  g_array_set_clear_func (figure->words, words_clear);
  make_cut (figure);
  draw_figure (figure, pr_free_room_ink (room, false));
  return figure;
}
