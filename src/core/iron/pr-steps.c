/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-steps.h"

#include <glib/gi18n-lib.h>
#include <stdarg.h>
#include <string.h>

#define WORTH_TELLING 0.05 /* of strain: less is lost in turning the shoe */
#define SHORT_LEAST_MM 0.5 /* less is not told */
#define TOE_ZONE 0.3  /* of a branch from the toe: what is hot with the toe; common practice, no source */
#define UPSET_TIMES 3 /* as in the rack */
/* seconds: common practice, no source */
#define SCARF_S 6.0
#define CORNER_S 6.0
#define WELD_S 6.0
#define DRESS_S 8.0
#define TURN_TOE_S 8.0
#define TURN_BRANCH_S 5.0
#define TURN_HEEL_S 5.0
#define CREASE_S 0.05 /* a mm */
#define NAIL_S 1.5
#define CLIP_S 5.0
#define BEVEL_S 4.0
#define TOE_SHAPE_S 6.0
#define HEELS_S 5.0

typedef struct {
  GArray *out;
  const PrPlan *plan;
  const PrShoe *shoe;
  const PrIron *iron;
  PrUnit unit;
} Work;

static const char *const sides[] = { N_ ("medial"), N_ ("lateral") };
static const char *const side_ids[] = { "medial", "lateral" };

const char *
pr_zone_name (PrZone zone)
{
  static const char *const names[PR_N_ZONES] = {
    [PR_ZONE_COLD] = N_ ("cold"),
    [PR_ZONE_TOE] = N_ ("toe"),
    [PR_ZONE_MEDIAL] = N_ ("medial branch"),
    [PR_ZONE_LATERAL] = N_ ("lateral branch"),
    [PR_ZONE_HEELS] = NC_ ("of the shoe", "heels"),
    [PR_ZONE_EXTENSION] = N_ ("toe extension"),
    [PR_ZONE_BAR] = N_ ("heel bar"),
  };

  return zone == PR_ZONE_HEELS ? g_dpgettext2 (GETTEXT_PACKAGE, "of the shoe", names[zone]) : _ (names[zone]);
}

const char *
pr_zone_id (PrZone zone)
{
  static const char *const ids[PR_N_ZONES] = {
    [PR_ZONE_COLD] = "cold",       [PR_ZONE_TOE] = "toe",     [PR_ZONE_MEDIAL] = "medial",
    [PR_ZONE_LATERAL] = "lateral", [PR_ZONE_HEELS] = "heels", [PR_ZONE_EXTENSION] = "extension",
    [PR_ZONE_BAR] = "bar",
  };

  return ids[zone];
}

char *
pr_step_words (const PrStep *step)
{
  /* Translators: a step of the work, then what to look at once it is done */
  return step->look ? g_strdup_printf (_ ("%s Check: %s"), step->text, step->look) : g_strdup (step->text);
}

/* --- writing them down --------------------------------------------------------------------- */

static void
step_clear (gpointer data)
{
  PrStep *step = data;

  g_free (step->text);
  g_free (step->look);
}

static char *
len (const Work *w, double mm)
{
  return pr_length_text (mm, w->unit);
}

/* TEXT is taken over. */
/* What is looked at after a step of KIND; NULL: something of its own, or nothing. */
static const char *
look_at (PrStepKind kind)
{
  switch (kind) {
  case PR_STEP_SCARF:
    return _ ("The scarfs lie close on each other, no scale between them.");
  case PR_STEP_WELD:
    return _ ("The seam is closed all along.");
  case PR_STEP_TURN:
  case PR_STEP_TOE:
    return _ ("It lies on the template.");
  case PR_STEP_TURN_HEEL:
    return _ ("Both ends meet on the centre line.");
  case PR_STEP_PUNCH:
    return _ ("A nail sinks in up to its head.");
  case PR_STEP_CLIP:
    return _ ("It stands square to the foot surface.");
  case PR_STEP_BOX:
  case PR_STEP_SEAT:
    return _ ("The bevel runs evenly to its end.");
  case PR_STEP_EXTEND:
    return _ ("Its sides are level with each other.");
  default:
    return NULL;
  }
}

static PrStep *
add (const Work *w, PrStepKind kind, PrZone zone, const char *id, double seconds, char *text)
{
  PrStep step = { .kind = kind,
                  .branch = -1,
                  .zone = zone,
                  .seconds = seconds,
                  .text = text,
                  .look = g_strdup (look_at (kind)) };

  if (zone == PR_ZONE_MEDIAL || zone == PR_ZONE_LATERAL)
    step.branch = zone == PR_ZONE_MEDIAL ? PR_MEDIAL : PR_LATERAL;
  g_strlcpy (step.id, id, sizeof step.id);
  g_array_append_val (w->out, step);
  return &g_array_index (w->out, PrStep, w->out->len - 1);
}

static PrStep *
add_branch (const Work *w, PrStepKind kind, int b, const char *id, double seconds, char *text)
{
  g_autofree char *full = g_strdup_printf ("%s.%s", id, side_ids[b]);

  return add (w, kind, b == PR_MEDIAL ? PR_ZONE_MEDIAL : PR_ZONE_LATERAL, full, seconds, text);
}

/* --- before the fire ----------------------------------------------------------------------- */

static void
cut (const Work *w)
{
  g_autofree char *stock = pr_section_as_called (w->plan->stock_width, w->plan->stock_thick, w->unit);

  add (w, PR_STEP_CUT, PR_ZONE_COLD, "measure", 0,
       g_strdup (_ ("Measure the stock in hand and the check line on the template.")));
  for (size_t i = 0; i < w->iron->n_pieces; i++) {
    g_autofree char *l = pr_length_cut (w->iron->piece[i].length, w->unit);
    g_autofree char *id = g_strconcat ("cut.", w->iron->piece[i].id, NULL);

    add (w, PR_STEP_CUT, PR_ZONE_COLD, id, 0,
         g_strdup_printf (_ ("Cut %s of %s for the %s."), l, stock, w->iron->piece[i].name));
  }
}

static void
mark (const Work *w)
{
  const PrPiece *piece = &w->iron->piece[0];

  for (size_t i = 0; i < piece->n_marks; i++)
    if (strcmp (piece->mark[i].id, "toe") == 0) {
      g_autofree char *l = len (w, piece->mark[i].from_end);

      add (w, PR_STEP_MARK, PR_ZONE_COLD, "mark", 0,
           g_strdup_printf (_ ("Centre-punch the toe %s from the medial end."), l));
    }
}

/* --- welds --------------------------------------------------------------------------------- */

/* Upset and scarf of ZONE for the joint JOINT. */
static void
prepare (const Work *w, const PrWeld *joint, PrZone zone, const char *part)
{
  g_autofree char *thick = len (w, joint->thick), *lap = len (w, joint->lap);
  g_autofree char *scarf = g_strconcat ("scarf.", part, NULL), *upset = g_strconcat ("upset.", part, NULL);

  add (w, PR_STEP_SCARF, zone, scarf, SCARF_S,
       g_strdup_printf (_ ("Scarf the %s over a lap of %s, half as thick at its end."), pr_zone_name (zone),
                        lap));
  add (w, PR_STEP_UPSET, zone, upset, CORNER_S,
       g_strdup_printf (_ ("Thicken the corners of the %s to %s before the weld."), pr_zone_name (zone),
                        thick));
}

static void
close_and_dress (const Work *w, PrZone zone, const char *part, const char *look)
{
  g_autofree char *close = g_strconcat ("close.", part, NULL), *dress = g_strconcat ("dress.", part, NULL);

  add (w, PR_STEP_CLOSE, zone, close, WELD_S,
       g_strdup (_ ("In a second welding heat close the corners of the weld.")))
      ->look
      = g_strdup (_ ("No seam shows anywhere round the joint."));
  add (w, PR_STEP_DRESS, zone, dress, DRESS_S, g_strdup (_ ("Dress the weld flat and to thickness.")))->look
      = g_strdup (look);
}

static const PrWeld *
joint_called (const Work *w, const char *id)
{
  for (size_t i = 0; i < w->iron->welds.n_welds; i++)
    if (strcmp (w->iron->welds.weld[i].id, id) == 0)
      return &w->iron->welds.weld[i];
  return NULL;
}

static void
extend (const Work *w, PrZone zone)
{
  g_autofree char *a = len (w, w->shoe->ext.ahead), *wide = len (w, w->shoe->ext.width),
                  *t = len (w, w->shoe->ext.thick);

  add (w, PR_STEP_EXTEND, zone, "extend", TOE_SHAPE_S,
       g_strdup_printf (_ ("Forge the extension %s wide and %s thick, its front %s ahead of the foot; square "
                           "it to the centre line."),
                        wide, t, a));
}

static void
weld_extension (const Work *w)
{
  const PrWeld *joint = joint_called (w, "weld.extension");

  if (!joint)
    return;
  prepare (w, joint, PR_ZONE_TOE, "toe");
  prepare (w, joint, PR_ZONE_EXTENSION, "extension");
  add (w, PR_STEP_WELD, PR_ZONE_EXTENSION, "weld.extension", WELD_S,
       g_strdup (_ ("Weld the extension to the toe, in a heat of its own.")));
  close_and_dress (w, PR_ZONE_EXTENSION, "extension", _ ("Length and width, once the weld is dressed."));
  extend (w, PR_ZONE_EXTENSION);
}

/* A bar at the heels, its welds with it. */
static void
bar (const Work *w)
{
  const PrWeld *own = joint_called (w, "weld.bar"), *heel = joint_called (w, "weld.heel.medial");

  if (own) {
    prepare (w, own, PR_ZONE_HEELS, "heels");
    for (int b = 0; b < 2; b++)
      add_branch (w, PR_STEP_TURN_HEEL, b, "heel.in", TURN_HEEL_S,
                  g_strdup_printf (_ ("Upset the %s heel's corner and turn it in at its mark."),
                                   _ (sides[b])));
    add (w, PR_STEP_WELD, PR_ZONE_BAR, "weld.bar", WELD_S,
         g_strdup (_ ("Lay one scarf on the other and weld the heel bar, in a heat of its own.")));
  }
  if (heel) {
    prepare (w, heel, PR_ZONE_HEELS, "heels");
    prepare (w, heel, PR_ZONE_BAR, "bar");
    for (int b = 0; b < 2; b++) {
      g_autofree char *id = g_strconcat ("weld.heel.", side_ids[b], NULL);

      add (w, PR_STEP_WELD, PR_ZONE_BAR, id, WELD_S,
           g_strdup_printf (_ ("Weld the heel bar to the %s heel, in a heat of its own."), _ (sides[b])));
    }
  }
  if (own || heel)
    close_and_dress (w, PR_ZONE_BAR, "bar", _ ("Length and width, once the weld is dressed."));
}

/* --- drawing, turning ---------------------------------------------------------------------- */

/* Is the toe by itself to be drawn or upset? Else what changes beside it goes with the branches. */
static bool
toe_changes (const Work *w)
{
  return fabs (w->iron->strain[w->shoe->toe_st]) >= WORTH_TELLING;
}

static PrZone
zone_of (const Work *w, const PrStation *st)
{
  if (fabs (st->place) < TOE_ZONE && toe_changes (w))
    return PR_ZONE_TOE;
  return st->branch == PR_MEDIAL ? PR_ZONE_MEDIAL : PR_ZONE_LATERAL;
}

/* Seconds for what ZONE is drawn and upset by; *MOST its largest strain, signed. */
static double
drawing (const Work *w, PrZone zone, double *most)
{
  double seconds = 0;

  *most = 0;
  for (size_t i = 0; i + 1 < w->iron->n_st; i++) {
    double e = w->iron->strain[i], bar_mm = w->iron->bar_at[i + 1] - w->iron->bar_at[i];

    if (zone_of (w, &w->shoe->st[i]) != zone)
      continue;
    seconds += PR_DRAW_S * fabs (expm1 (e)) * bar_mm * (e < 0 ? UPSET_TIMES : 1);
    if (fabs (e) > fabs (*most))
      *most = e;
  }
  return seconds;
}

/* Draws or upsets ZONE to the section at middle line S, where that is worth telling. */
static void
draw (const Work *w, PrZone zone, double s, int branch)
{
  double most, seconds = drawing (w, zone, &most), t;
  size_t i = pr_shoe_station_at (w->shoe, s, &t);
  double thick = w->shoe->st[i].thick + t * (w->shoe->st[i + 1].thick - w->shoe->st[i].thick);
  g_autofree char *to = pr_section_text (pr_rows_web_at (&w->iron->rows, w->shoe, s), thick, w->unit);

  if (fabs (most) < WORTH_TELLING)
    return;
  if (zone == PR_ZONE_TOE)
    add (w, PR_STEP_DRAW, zone, "draw.toe", seconds,
         g_strdup_printf (most > 0 ? _ ("Draw the toe to %s.") : _ ("Upset the toe to %s."), to));
  else
    add_branch (w, PR_STEP_DRAW, branch, "draw", seconds,
                g_strdup_printf (most > 0 ? _ ("Draw the %s branch evenly to %s at the heel.")
                                          : _ ("Upset the %s branch evenly to %s at the heel."),
                                 _ (sides[branch]), to));
}

static void
toe (const Work *w)
{
  draw (w, PR_ZONE_TOE, w->shoe->st[w->shoe->toe_st].s, 0);
  add (w, PR_STEP_TURN, PR_ZONE_TOE, "turn.toe", TURN_TOE_S, g_strdup (_ ("Turn the toe to the template.")));
  if (w->shoe->ext.present && !joint_called (w, "weld.extension"))
    extend (w, PR_ZONE_TOE);
}

static void
turn (const Work *w, int b)
{
  double less = w->iron->rows.lengthens[b] + w->iron->rows.bevel_lengthens[b];
  const PrShoe *shoe = w->shoe;

  draw (w, b == PR_MEDIAL ? PR_ZONE_MEDIAL : PR_ZONE_LATERAL, b == PR_MEDIAL ? 0 : shoe->st[shoe->n_st - 1].s,
        b);
  PrStep *step = add_branch (w, PR_STEP_TURN, b, "turn", TURN_BRANCH_S,
                             g_strdup_printf (_ ("Turn the %s branch to the template."), _ (sides[b])));
  if (less > SHORT_LEAST_MM) {
    g_autofree char *l = len (w, less);

    g_free (step->look);
    step->look = g_strdup_printf (_ ("Its heel ends %s short until it is creased."), l);
  }
}

/* --- crease, nails, clips, bevels ---------------------------------------------------------- */

/* EDGE of branch B as dividers step it off: the only measure of it there is on the anvil. */
static char *
straight (const Work *w, int b, double edge)
{
  return len (w, pr_shoe_edge_straight (w->shoe, b, edge));
}

/* The same without its unit, where more of the kind follow. */
static char *
straight_number (const Work *w, int b, double edge)
{
  return pr_length_number (pr_shoe_edge_straight (w->shoe, b, edge), w->unit);
}

static void
crease (const Work *w, int b)
{
  for (size_t i = 0; i < w->shoe->n_creases; i++) {
    const PrCrease *c = &w->shoe->crease[i];

    if (c->branch != b)
      continue;
    g_autofree char *from = straight_number (w, b, c->edge_from), *to = straight (w, b, c->edge_to);
    g_autofree char *depth = len (w, c->depth);
    const char *text
        = w->shoe->ext.present
              ? _ ("Crease the %s branch from %s to %s with dividers from the extension line, %s deep.")
              : _ ("Crease the %s branch from %s to %s with dividers from the toe, %s deep.");
    add_branch (w, PR_STEP_CREASE, b, "crease", CREASE_S * (c->edge_to - c->edge_from),
                g_strdup_printf (text, _ (sides[b]), from, to, depth))
        ->look
        = g_strdup (_ ("The fuller makes it longer and curls it in: open it to the template again."));
  }
}

static void
punch (const Work *w, int b)
{
  g_autoptr (GString) places = g_string_new (NULL);
  int n = 0, count = 0;

  for (size_t i = 0; i < w->shoe->n_nails; i++)
    count += w->shoe->nail[i].branch == b;
  for (size_t i = 0; i < w->shoe->n_nails; i++)
    if (w->shoe->nail[i].branch == b) {
      double edge = w->shoe->nail[i].edge;
      g_autofree char *l = ++n < count ? straight_number (w, b, edge) : straight (w, b, edge);

      g_string_append_printf (places, "%s%s", n > 1 ? ", " : "", l);
    }
  if (n > 0)
    add_branch (w, PR_STEP_PUNCH, b, "punch", NAIL_S * n,
                g_strdup_printf (
                    w->shoe->ext.present
                        ? _ ("Stamp and pritchel the %s nails at %s with dividers from the extension line.")
                        : _ ("Stamp and pritchel the %s nails at %s with dividers from the toe."),
                    _ (sides[b]), places->str));
}

static void
clip (const Work *w, const PrClip *c)
{
  g_autofree char *base = len (w, c->base), *height = len (w, c->height);
  g_autofree char *at = straight (w, c->branch, c->edge);
  g_autofree char *id = g_strdup_printf ("clip.%d", c->plan_index + 1);

  if (c->edge <= 0) {
    add (w, PR_STEP_CLIP, PR_ZONE_TOE, id, CLIP_S,
         g_strdup_printf (_ ("Draw the toe clip, base %s, height %s."), base, height));
    return;
  }
  add (w, PR_STEP_CLIP, c->branch == PR_MEDIAL ? PR_ZONE_MEDIAL : PR_ZONE_LATERAL, id, CLIP_S,
       g_strdup_printf (
           w->shoe->ext.present
               ? _ ("Draw the %s clip, base %s, height %s, its middle %s with dividers from the extension "
                    "line.")
               : _ ("Draw the %s clip, base %s, height %s, its middle %s with dividers from the toe."),
           _ (sides[c->branch]), base, height, at));
}

static void
clips (const Work *w, int b)
{
  for (size_t i = 0; i < w->shoe->n_clips; i++)
    if (w->shoe->clip[i].edge > 0 && w->shoe->clip[i].branch == b)
      clip (w, &w->shoe->clip[i]);
}

static void
bevels (const Work *w, int b)
{
  const PrBevel *box = &w->plan->boxing[b], *seat = &w->plan->seating[b];

  if (box->width > 0) {
    g_autofree char *wide = len (w, box->width), *deep = len (w, box->depth);

    add_branch (w, PR_STEP_BOX, b, "box", w->plan->bevels_ground ? 0 : BEVEL_S,
                g_strdup_printf (_ ("Box the %s branch %s wide and %s deep."), _ (sides[b]), wide, deep));
  }
  if (seat->width > 0) {
    g_autofree char *wide = len (w, seat->width), *deep = len (w, seat->depth);

    add_branch (w, PR_STEP_SEAT, b, "seat", w->plan->bevels_ground ? 0 : BEVEL_S,
                g_strdup_printf (b == PR_MEDIAL ? _ ("Seat the medial branch %s wide and %s deep.")
                                                : _ ("Seat the lateral branch %s wide and %s deep."),
                                 wide, deep));
  }
}

/* --- toe, heels, the end ------------------------------------------------------------------- */

static void
shape_toe (const Work *w)
{
  g_autofree char *amount = len (w, w->plan->toe_amount);
  const char *text = w->plan->toe == PR_TOE_ROLLED    ? _ ("Roll the toe over %s.")
                     : w->plan->toe == PR_TOE_SQUARED ? _ ("Square the toe, %s behind its fit.")
                                                      : NULL;

  if (text)
    add (w, PR_STEP_TOE, PR_ZONE_TOE, "toe", TOE_SHAPE_S, g_strdup_printf (text, amount));
  for (size_t i = 0; i < w->shoe->n_clips; i++)
    if (w->shoe->clip[i].edge <= 0)
      clip (w, &w->shoe->clip[i]);
}

static void
heels (const Work *w)
{
  double low = INFINITY, high = -INFINITY;

  for (size_t i = 0; i < w->shoe->outer.n; i++) {
    low = MIN (low, w->shoe->outer.p[i].x);
    high = MAX (high, w->shoe->outer.p[i].x);
  }
  g_autofree char *wide = len (w, high - low), *m = len (w, w->plan->heel_past[PR_MEDIAL]),
                  *l = len (w, w->plan->heel_past[PR_LATERAL]);
  if (w->plan->bar == PR_BAR_NONE)
    add (w, PR_STEP_HEELS, PR_ZONE_HEELS, "heels", HEELS_S,
         w->shoe->stand_in
             ? g_strdup (_ ("Finish the heels level, as the template has them."))
             : g_strdup_printf (_ ("Finish the heels level, %s medial and %s lateral past the buttress."), m,
                                l))
        ->look
        = g_strdup_printf (_ ("The width at the widest line is %s."), wide);
  add (w, PR_STEP_LEVEL, PR_ZONE_COLD, "level", 0,
       g_strdup (_ ("Level the shoe cold, lay it on the template, then on the foot. The foot decides.")));
}

static void
crease_to_bevels (const Work *w, int b)
{
  crease (w, b);
  punch (w, b);
  clips (w, b);
  bevels (w, b);
}

GArray *
pr_steps_of (const PrPlan *plan, const PrShoe *shoe, const PrIron *iron, PrUnit unit)
{
  Work w = { g_array_new (FALSE, FALSE, sizeof (PrStep)), plan, shoe, iron, unit };
  bool welded = plan->bar != PR_BAR_NONE; /* before it is creased, both branches turned */

  g_array_set_clear_func (w.out, step_clear);
  cut (&w);
  mark (&w);
  weld_extension (&w);
  toe (&w);
  for (int b = 0; b < 2; b++) {
    turn (&w, b);
    if (!welded)
      crease_to_bevels (&w, b);
  }
  bar (&w);
  for (int b = 0; b < 2 && welded; b++)
    crease_to_bevels (&w, b);
  shape_toe (&w);
  heels (&w);
  return w.out;
}
