/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-dimensions.h"

#include "pr-card-anvil.h"
#include "pr-card-title.h"
#include "pr-draw.h"
#include "pr-ink.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define LINE_MM 0.2
#define DASH_MM 1.6
#define ARROW_MM 2.0     /* long, and 0.4 of it wide either way */
#define SHAFT_MM 3.0     /* of the arrows at the edges of a web ... */
#define SHAFT_SHARE 0.25 /* ... and what they take of it at most, so that nails stay clear */
#define DOT_MM 0.7
#define TICK_OUT_MM 2.5 /* of a crease's end, beyond the shoe's edge */
#define TICK_IN_MM 1.0  /* and beyond the crease */
#define LEADER_MIN_MM 1.2
#define ASCENT 0.93 /* of the lettering's size: the font's own, as other programs count it too */
#define DESCENT 0.24
#define BEHIND_FIRST_MM 4.5 /* from the drawing to the line over the heels, to the one over the width */
#define BEHIND_SECOND_MM 12.5
#define BESIDE_MM 10.5      /* from it to the line over the length: past the letters M and L ... */
#define BESIDE_MOST_MM 25.0 /* ... and where there is room past what is measured there */
#define OFF_LINE_MM 1.3     /* from a line to its words */
#define APART_MM 1.6        /* between two figures' words, so that none is read with the other */
#define LAYOUT_COST 3.0     /* mm of leader that another row of words is worth */

typedef struct {
  PrPt from, to;
  bool head[2]; /* an arrow's at either end */
} DimLine;

typedef struct {
  double x, y, size; /* base line's beginning */
  bool bold, upright;
  char *text;
} DimText;

struct _PrDimensions {
  GArray *line; /* DimLine */
  GArray *text; /* DimText */
  GArray *dot;  /* PrPt */
  PrPath lap;   /* dashed */
  int n, left_out;
};

/* What the figures are made with. */
typedef struct {
  PrDimensions *out;
  const PrJob *job;
  const PrShoe *shoe;
  PrUnit unit;
  int sign;
  PrPt origin;
  PrFreeRoom *room;
  cairo_t *scratch;
} Draft;

static void
text_clear (gpointer data)
{
  g_free (((DimText *) data)->text);
}

void
pr_dimensions_free (PrDimensions *dims)
{
  if (dims == NULL)
    return;
  g_array_unref (dims->line);
  g_array_unref (dims->text);
  g_array_unref (dims->dot);
  pr_path_clear (&dims->lap);
  g_free (dims);
}

int
pr_dimensions_count (const PrDimensions *dims, int *left_out)
{
  *left_out = dims->left_out;
  return dims->n;
}

/* --- drawing ----------------------------------------------------------------------------- */

static void
add_head (cairo_t *cr, PrPt at, PrPt from)
{
  PrPt back = pr_pt_unit (pr_pt_sub (from, at)), foot = pr_pt_along (at, back, ARROW_MM),
       side = pr_pt_scale (pr_pt_left (back), ARROW_MM * 0.2);

  cairo_move_to (cr, at.x, at.y);
  cairo_line_to (cr, foot.x + side.x, foot.y + side.y);
  cairo_line_to (cr, foot.x - side.x, foot.y - side.y);
  cairo_close_path (cr);
}

static void
draw_line (cairo_t *cr, const DimLine *line)
{
  cairo_set_line_width (cr, LINE_MM);
  cairo_move_to (cr, line->from.x, line->from.y);
  cairo_line_to (cr, line->to.x, line->to.y);
  cairo_stroke (cr);
  if (line->head[0])
    add_head (cr, line->from, line->to);
  if (line->head[1])
    add_head (cr, line->to, line->from);
  cairo_fill (cr);
}

static void
draw_lap (cairo_t *cr, const PrPath *lap)
{
  const double dash[2] = { DASH_MM, DASH_MM * 0.7 };

  for (size_t i = 0; i < lap->n; i++)
    cairo_line_to (cr, lap->p[i].x, lap->p[i].y);
  cairo_set_line_width (cr, 2 * LINE_MM);
  cairo_set_dash (cr, dash, 2, 0);
  cairo_stroke (cr);
  cairo_set_dash (cr, NULL, 0, 0);
}

static void
draw_dot (cairo_t *cr, PrPt at)
{
  cairo_new_sub_path (cr);
  cairo_arc (cr, at.x, at.y, DOT_MM, 0, 2 * G_PI);
  cairo_fill (cr);
}

static void
draw_text (cairo_t *cr, const DimText *text)
{
  cairo_save (cr);
  cairo_translate (cr, text->x, text->y);
  if (text->upright)
    cairo_rotate (cr, -G_PI / 2);
  pr_text_face (cr, text->size, text->bold);
  pr_text (cr, 0, 0, PR_LEFT, text->text);
  cairo_restore (cr);
}

void
pr_dimensions_draw (const PrDimensions *dims, cairo_t *cr)
{
  cairo_save (cr);
  cairo_new_path (cr);
  pr_ink (cr, pr_ink_light.text);
  for (guint i = 0; i < dims->line->len; i++)
    draw_line (cr, &g_array_index (dims->line, DimLine, i));
  draw_lap (cr, &dims->lap);
  for (guint i = 0; i < dims->dot->len; i++)
    draw_dot (cr, g_array_index (dims->dot, PrPt, i));
  for (guint i = 0; i < dims->text->len; i++)
    draw_text (cr, &g_array_index (dims->text, DimText, i));
  cairo_restore (cr);
}

/* --- laying lines ------------------------------------------------------------------------ */

static PrPt
on_plan (const Draft *draft, PrPt p)
{
  return pr_pt (draft->origin.x + draft->sign * p.x, draft->origin.y - p.y);
}

static void
lay_line (const Draft *draft, DimLine line)
{
  g_array_append_val (draft->out->line, line);
  draw_line (pr_free_room_ink (draft->room, false), &line);
}

static void
lay_dot (const Draft *draft, PrPt at)
{
  for (guint i = 0; i < draft->out->dot->len; i++)
    if (pr_pt_dist (g_array_index (draft->out->dot, PrPt, i), at) < DOT_MM)
      return;
  g_array_append_val (draft->out->dot, at);
  draw_dot (pr_free_room_ink (draft->room, false), at);
}

/* --- laying words ------------------------------------------------------------------------ */

#define MOST_ROWS 4

/* A figure and what it is of, in rows: 0 side by side, then stacked, the words in more rows each time. */
typedef struct {
  char *row[MOST_ROWS]; /* the figure first, then words; owned */
  int n;
  bool beside; /* the second row goes on behind the figure */
  double w, h;
} Layout;

static void
layout_clear (Layout *layout)
{
  for (int i = 0; i < layout->n; i++)
    g_free (layout->row[i]);
  *layout = (Layout){ 0 };
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Layout, layout_clear)

static double
row_width (const Draft *draft, const char *row, bool figure)
{
  pr_text_face (draft->scratch, figure ? PR_DIM_FIGURE_MM : PR_DIM_WORDS_MM, figure);
  return pr_text_width (draft->scratch, row);
}

/* WORDS in ROWS of about the same length, broken between words, behind what LAYOUT has. FALSE when they cannot be. */
static bool
break_words (Layout *layout, const char *words, int rows)
{
  g_auto (GStrv) word = g_strsplit (words, " ", -1);
  int n = (int) g_strv_length (word), at = 0;
  double share = (double) g_utf8_strlen (words, -1) / rows;

  if (n < rows)
    return false;
  for (int row = 0; row < rows; row++) {
    g_autoptr (GString) text = g_string_new (NULL);

    while (at < n
           && (text->len == 0 || row == rows - 1
               || (g_utf8_strlen (text->str, -1) + g_utf8_strlen (word[at], -1) / 2.0 < share
                   && n - at > rows - 1 - row)))
      g_string_append_printf (text, "%s%s", text->len > 0 ? " " : "", word[at++]);
    layout->row[layout->n++] = g_strdup (text->str);
  }
  return true;
}

/* Layout number K of FIGURE and WORDS (either may be NULL); FALSE when there is none. */
static bool
make_layout (const Draft *draft, const char *figure, const char *words, int k, Layout *layout)
{
  const double high = ASCENT + DESCENT;
  int rows = k == 0 ? 1 : k;

  if (figure == NULL) {
    if (k > 0)
      return false;
  } else
    layout->row[layout->n++] = g_strdup (figure);
  if (words == NULL ? k > 0 : !break_words (layout, words, rows))
    return false;
  layout->beside = figure != NULL && words != NULL && k == 0;
  for (int i = 0; i < layout->n; i++) {
    bool bold = i == 0 && figure != NULL;
    double w = row_width (draft, layout->row[i], bold),
           h = high * (bold ? PR_DIM_FIGURE_MM : PR_DIM_WORDS_MM);

    layout->w = layout->beside ? layout->w + (i > 0 ? PR_DIM_WORDS_MM / 2 : 0) + w : fmax (layout->w, w);
    layout->h = layout->beside ? fmax (layout->h, h) : layout->h + h;
  }
  return true;
}

static void
lay_text (const Draft *draft, double x, double y, bool bold, bool upright, const char *row)
{
  DimText text = { x, y, bold ? PR_DIM_FIGURE_MM : PR_DIM_WORDS_MM, bold, upright, g_strdup (row) };

  g_array_append_val (draft->out->text, text);
}

/* The rows of LAYOUT in BOX, to the left or the right or in the middle as ALIGN says. */
static void
lay_rows (const Draft *draft, const Layout *layout, bool has_figure, const PrBox *box, bool upright,
          PrAlign align)
{
  double x = 0, y = 0;

  for (int i = 0; i < layout->n; i++) {
    bool bold = has_figure && i == 0;
    double size = bold ? PR_DIM_FIGURE_MM : PR_DIM_WORDS_MM, w = row_width (draft, layout->row[i], bold);
    double left = layout->beside ? x : (layout->w - w) * (align == PR_MIDDLE ? 0.5 : align == PR_RIGHT);
    double base = layout->beside ? ASCENT * PR_DIM_FIGURE_MM : y + ASCENT * size;

    if (upright)
      lay_text (draft, box->x + base, box->y + box->h - left, bold, true, layout->row[i]);
    else
      lay_text (draft, box->x + left, box->y + base, bold, false, layout->row[i]);
    x += w + PR_DIM_WORDS_MM / 2;
    y += (ASCENT + DESCENT) * size;
  }
  for (int solid = 0; solid < 2; solid++) {
    cairo_t *ink = pr_free_room_ink (draft->room, solid);
    double apart = solid ? 0 : APART_MM;

    cairo_rectangle (ink, box->x - apart, box->y - apart, box->w + 2 * apart, box->h + 2 * apart);
    cairo_fill (ink);
  }
}

/* FIGURE and WORDS at the best place for AT, with a leader. */
static void
lay_label (const Draft *draft, PrPt at, const char *figure, const char *words)
{
  g_auto (Layout) best = { 0 };
  double least = INFINITY;
  PrBox place = { 0 };

  draft->out->n++;
  for (int k = 0; k < MOST_ROWS; k++) {
    g_auto (Layout) layout = { 0 };
    PrBox box;

    if (!make_layout (draft, figure, words, k, &layout))
      continue;
    double cost = k * LAYOUT_COST + pr_free_room_find (draft->room, at, layout.w, layout.h, NULL, &box);
    if (cost >= least)
      continue;
    least = cost;
    place = box;
    layout_clear (&best);
    best = layout;
    layout = (Layout){ 0 };
  }
  if (isinf (least)) {
    draft->out->left_out++;
    return;
  }
  PrPt to = pr_box_nearest (&place, at);
  if (pr_pt_dist (at, to) > LEADER_MIN_MM)
    lay_line (draft, (DimLine){ .from = at, .to = to });
  PrAlign align = to.x >= place.x + place.w - 1e-9 ? PR_RIGHT : to.x <= place.x + 1e-9 ? PR_LEFT : PR_MIDDLE;
  lay_rows (draft, &best, figure != NULL, &place, false, align);
}

/* A line with two heads from A to B, level or UPRIGHT, and its words beside it, as near its middle as there is room. */
static void
lay_span (const Draft *draft, PrPt a, PrPt b, bool upright, double mm, const char *words)
{
  g_autofree char *figure = pr_length_brief (mm, draft->unit);
  g_auto (Layout) layout = { 0 };
  PrPt middle = pr_pt_lerp (a, b, 0.5);
  PrBox room = pr_free_room_box (draft->room), box;

  lay_line (draft, (DimLine){ .from = a, .to = b, .head = { true, true } });
  make_layout (draft, figure, words, 0, &layout);
  double w = upright ? layout.h : layout.w, h = upright ? layout.w : layout.h;
  PrBox band = upright ? (PrBox){ middle.x + OFF_LINE_MM, room.y, w, room.h }
                       : (PrBox){ room.x, middle.y + OFF_LINE_MM, room.w, h };
  PrPt at = upright ? pr_pt (band.x + w / 2, middle.y) : pr_pt (middle.x, band.y + h / 2);

  if (isinf (pr_free_room_find (draft->room, at, w, h, &band, &box))) {
    lay_label (draft, middle, figure, words);
    return;
  }
  draft->out->n++;
  lay_rows (draft, &layout, true, &box, upright, PR_LEFT);
}

/* --- the whole shoe ---------------------------------------------------------------------- */

/* The points of the figure that are furthest left, right, ahead and behind on the plan. */
static void
far_points (const Draft *draft, PrPt far[4])
{
  for (size_t i = 0; i < draft->shoe->figure.n; i++)
    for (size_t k = 0; k < draft->shoe->figure.ring[i].n; k++) {
      PrPt p = on_plan (draft, draft->shoe->figure.ring[i].p[k]);
      bool first = i == 0 && k == 0;

      far[0] = first || p.x < far[0].x ? p : far[0];
      far[1] = first || p.x > far[1].x ? p : far[1];
      far[2] = first || p.y < far[2].y ? p : far[2];
      far[3] = first || p.y > far[3].y ? p : far[3];
    }
}

/* A thin line from AT, which is measured, to END on the line of the measure and a little beyond. */
static void
lay_witness (const Draft *draft, PrPt at, PrPt end)
{
  PrPt dir = pr_pt_unit (pr_pt_sub (end, at));

  lay_line (draft, (DimLine){ .from = pr_pt_along (at, dir, 0.8), .to = pr_pt_along (end, dir, 0.8) });
}

static void
lay_whole (const Draft *draft)
{
  PrPt low, high, far[4] = { 0 };
  double width, length;

  far_points (draft, far);
  pr_draw_extent (draft->job, &low, &high);
  pr_card_shoe_size (draft->shoe, &width, &length);
  double first = draft->origin.y - low.y + BEHIND_FIRST_MM,
         second = draft->origin.y - low.y + BEHIND_SECOND_MM;
  PrBox room = pr_free_room_box (draft->room);
  double side = draft->origin.x + (draft->sign > 0 ? high.x : -low.x);
  double right
      = side + CLAMP (room.x + room.w - side - PR_DIM_BESIDE_MM + BESIDE_MM, BESIDE_MM, BESIDE_MOST_MM);
  PrPt heel[2];

  for (int b = 0; b < 2; b++)
    heel[b] = on_plan (draft, draft->shoe->heel_outer[b]);
  for (int b = 0; b < 2; b++)
    lay_witness (draft, heel[b], pr_pt (heel[b].x, first));
  for (int i = 0; i < 2; i++) {
    lay_witness (draft, far[i], pr_pt (far[i].x, second));
    lay_witness (draft, far[2 + i], pr_pt (right, far[2 + i].y));
  }
  lay_span (draft, pr_pt (heel[0].x, first), pr_pt (heel[1].x, first), false,
            pr_pt_dist (draft->shoe->heel_outer[0], draft->shoe->heel_outer[1]), _ ("Heel to heel, outside"));
  lay_span (draft, pr_pt (far[0].x, second), pr_pt (far[1].x, second), false, width, _ ("Shoe's width"));
  lay_span (draft, pr_pt (right, far[2].y), pr_pt (right, far[3].y), true, length, _ ("Shoe's length"));
}

/* --- webs -------------------------------------------------------------------------------- */

/* The web at S: an arrow to each of its edges from within, and the figure behind the inner one. */
static void
lay_web (const Draft *draft, double s)
{
  PrPt outer, inner;
  double t;
  size_t i = pr_shoe_station_at (draft->shoe, s, &t);
  double web = draft->shoe->st[i].web + t * (draft->shoe->st[i + 1].web - draft->shoe->st[i].web);

  pr_shoe_middle_at (draft->shoe, s, &outer, &inner);
  outer = on_plan (draft, outer);
  inner = on_plan (draft, inner);
  PrPt in = pr_pt_unit (pr_pt_sub (inner, outer));
  double shaft = fmin (SHAFT_MM, SHAFT_SHARE * pr_pt_dist (inner, outer));
  g_autofree char *figure = pr_length_brief_number (web, draft->unit);
  g_autofree char *left
      = pr_length_brief_number (pr_rows_web_at (&draft->job->iron.rows, draft->shoe, s), draft->unit);
  /* Translators: of a web, beside its finished width: what the hammer leaves before the crease is made */
  g_autofree char *words = g_strdup_printf (_ ("(%s before creasing)"), left);

  lay_line (draft, (DimLine){ .from = pr_pt_along (outer, in, shaft), .to = outer, .head = { false, true } });
  lay_line (draft,
            (DimLine){ .from = pr_pt_along (inner, in, -shaft), .to = inner, .head = { false, true } });
  lay_label (draft, inner, figure, g_str_equal (figure, left) ? NULL : words);
}

static void
lay_webs (const Draft *draft)
{
  g_autoptr (GArray) places = pr_rows_places (&draft->job->iron.rows, draft->shoe);

  for (int b = 0; b < 2; b++)
    lay_web (draft,
             pr_shoe_edge_to_s (draft->shoe, b, pr_shoe_place_to_edge (draft->shoe, b, PR_QUARTER_PLACE)));
  for (guint i = 0; i < places->len; i++) {
    const PrRowPlace *place = &g_array_index (places, PrRowPlace, i);

    if (g_str_equal (place->id, "toe") || g_str_has_prefix (place->id, "heel."))
      lay_web (draft, place->s);
  }
}

/* --- steps of the dividers --------------------------------------------------------------- */

static void
lay_crease_end (const Draft *draft, const PrDivider *step, bool from_line)
{
  bool ends = g_str_has_prefix (step->id, "crease.to");
  const char *words = from_line ? (ends ? _ ("Line to end of crease") : _ ("Line to crease"))
                                : (ends ? _ ("Toe to end of crease") : _ ("Toe to crease"));
  g_autofree char *figure = pr_length_brief_number (step->straight, draft->unit),
                  *none = pr_length_brief_number (0, draft->unit);
  double start = from_line ? draft->shoe->ext.line_edge[step->branch] : 0;
  PrPt out, at = pr_shoe_edge_at (draft->shoe, step->branch, step->edge + start, NULL, &out);
  double in = draft->job->sources.plan.crease_width + TICK_IN_MM;

  for (size_t i = 0; i < draft->shoe->n_creases; i++) {
    const PrCrease *crease = &draft->shoe->crease[i];

    if (crease->branch == step->branch && crease->middle.n > 0)
      in = crease->width / 2 + TICK_IN_MM + pr_path_nearest (&crease->middle, at, NULL, NULL);
  }
  /* one that begins where it is measured from has nothing to measure */
  if (g_str_equal (figure, none))
    return;
  PrPt head = on_plan (draft, pr_pt_along (at, out, TICK_OUT_MM));
  lay_line (draft, (DimLine){ .from = on_plan (draft, pr_pt_along (at, out, -in)), .to = head });
  lay_label (draft, head, figure, words);
}

static const char *
heel_words (int branch, bool from_line)
{
  if (from_line)
    return branch == PR_MEDIAL ? _ ("Extension line to medial heel") : _ ("Extension line to lateral heel");
  return branch == PR_MEDIAL ? _ ("Toe to medial heel") : _ ("Toe to lateral heel");
}

/* From the toe, or from the extension line: to both ends of the crease, to the heel. */
static void
lay_steps (const Draft *draft, int branch)
{
  bool line = false;
  g_autoptr (GArray) steps = pr_dividers (draft->shoe, branch, &line);
  double start = line ? draft->shoe->ext.line_edge[branch] : 0;

  lay_dot (draft, on_plan (draft, pr_shoe_edge_at (draft->shoe, branch, start, NULL, NULL)));
  for (guint i = 0; i < steps->len; i++) {
    const PrDivider *step = &g_array_index (steps, PrDivider, i);
    g_autofree char *figure = pr_length_brief_number (step->straight, draft->unit);

    if (g_str_has_prefix (step->id, "crease."))
      lay_crease_end (draft, step, line);
    if (!g_str_has_prefix (step->id, "heel."))
      continue;
    lay_dot (draft, on_plan (draft, step->at));
    lay_label (draft, on_plan (draft, step->at), figure, heel_words (branch, line));
  }
}

/* --- welds ------------------------------------------------------------------------------- */

/* How far an extension of its own lies under the toe: a dashed line along the edge. */
static void
lay_lap (const Draft *draft)
{
  const PrShoe *shoe = draft->shoe;
  const PrPlan *plan = &draft->job->sources.plan;
  double from = shoe->edge_length[PR_MEDIAL] - shoe->ext.line_edge[PR_MEDIAL];
  double to = shoe->edge_length[PR_MEDIAL] + shoe->ext.line_edge[PR_LATERAL];
  PrPath *lap = &draft->out->lap;

  for (size_t i = 0; i < shoe->n_st; i++) {
    const PrStation *st = &shoe->st[i];

    if (st->edge >= from && st->edge <= to)
      pr_path_add (lap, on_plan (draft, pr_pt_along (st->outer, st->cut, fmin (plan->ext_lap, st->web))));
  }
  if (lap->n < 2)
    return;
  draw_lap (pr_free_room_ink (draft->room, false), lap);
  lay_label (draft, pr_path_at (lap, pr_path_length (lap) / 4, NULL), NULL,
             C_ ("of two pieces, on a drawing", "lap"));
}

static void
lay_welds (const Draft *draft)
{
  const PrPlan *plan = &draft->job->sources.plan;

  if (draft->shoe->ext.present && plan->ext_piece && plan->ext_lap > 0)
    lay_lap (draft);
  for (int b = 0; b < 2 && plan->bar_piece; b++) {
    const PrPath *weld = &draft->shoe->weld[b];

    if (weld->n > 1)
      lay_label (draft, on_plan (draft, pr_path_at (weld, pr_path_length (weld) / 2, NULL)), NULL,
                 C_ ("of two pieces, on a drawing", "weld"));
  }
}

/* --- all of them ------------------------------------------------------------------------- */

PrDimensions *
pr_dimensions_new (const PrJob *job, PrFace face, PrUnit unit, PrPt origin, PrFreeRoom *room)
{
  if (job->shoe == NULL || job->shoe->n_st < 2)
    return NULL;
  PrDimensions *dims = g_new0 (PrDimensions, 1);
  const Draft draft = { dims,   job,  job->shoe,         unit, pr_lateral_sign (job->sources.foot, face),
                        origin, room, pr_text_scratch () };

  dims->line = g_array_new (FALSE, FALSE, sizeof (DimLine));
  dims->text = g_array_new (FALSE, FALSE, sizeof (DimText));
  dims->dot = g_array_new (FALSE, FALSE, sizeof (PrPt));
  g_array_set_clear_func (dims->text, text_clear);
  lay_whole (&draft);
  lay_webs (&draft);
  for (int b = 0; b < 2; b++)
    lay_steps (&draft, b);
  lay_welds (&draft);
  cairo_destroy (draft.scratch);
  return dims;
}
