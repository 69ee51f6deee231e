/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-card.h"

#include <glib/gi18n-lib.h>
#include <stdarg.h>
#include <string.h>

/* Lines under way. */
typedef struct {
  GPtrArray *lines;
  const PrJob *job;
  PrUnit unit;
  bool anvil; /* of the lines being added */
} Card;

static void
line_free (gpointer data)
{
  PrCardLine *line = data;

  g_free (line->label);
  g_free (line->value);
  g_free (line->more);
  g_free (line);
}

/* VALUE and MORE are taken over. */
static void
add (Card *card, PrCardKind kind, const char *label, char *value, char *more)
{
  PrCardLine *line = g_new (PrCardLine, 1);

  *line = (PrCardLine){ kind, card->anvil, g_strdup (label), value, more };
  g_ptr_array_add (card->lines, line);
}

static void
head (Card *card, bool anvil, const char *label)
{
  card->anvil = anvil;
  add (card, PR_CARD_HEAD, label, NULL, NULL);
}

G_GNUC_PRINTF (3, 4) static void row (Card *card, const char *label, const char *format, ...)
{
  va_list args;

  va_start (args, format);
  add (card, PR_CARD_ROW, label, g_strdup_vprintf (format, args), NULL);
  va_end (args);
}

/* --- figures ----------------------------------------------------------------------------- */

/* Held by the caller's scope: LEN declares a length as text, NUM the same without its unit. */
#define LEN(name_, mm_) g_autofree char *name_ = pr_length_text ((mm_), card->unit)
#define NUM(name_, mm_) g_autofree char *name_ = pr_length_number ((mm_), card->unit)

static const char *
decimal (char buffer[16], double value, int places)
{
  char format[8];

  g_snprintf (format, sizeof format, "%%.%df", places);
  g_snprintf (buffer, 16, format, value);
  return buffer;
}

static const char *
side_name (int side)
{
  return side == PR_MEDIAL ? _ ("medial") : _ ("lateral");
}

void
pr_card_shoe_size (const PrShoe *shoe, double *width, double *length)
{
  PrPt low = { INFINITY, INFINITY }, high = { -INFINITY, -INFINITY };

  for (size_t i = 0; shoe != NULL && i < shoe->figure.n; i++)
    for (size_t k = 0; k < shoe->figure.ring[i].n; k++) {
      PrPt p = shoe->figure.ring[i].p[k];

      low = pr_pt (fmin (low.x, p.x), fmin (low.y, p.y));
      high = pr_pt (fmax (high.x, p.x), fmax (high.y, p.y));
    }
  *width = fmax (high.x - low.x, 0);
  *length = fmax (high.y - low.y, 0);
}

static char *
style_name (const PrJob *job)
{
  g_autoptr (GPtrArray) styles = pr_styles_load (NULL);
  const PrStyle *style = styles != NULL ? pr_styles_find (styles, job->plan.style) : NULL;

  return g_strdup (style != NULL ? style->name : job->plan.style);
}

char *
pr_card_title (const PrJob *job)
{
  g_autofree char *style = style_name (job);
  const char *foot = pr_foot_name (job->foot);

  return *style != '\0' ? g_strdup_printf ("%s · %s", foot, style) : g_strdup (foot);
}

char *
pr_card_figures (const PrJob *job, PrUnit unit)
{
  const Card own = { .unit = unit }, *card = &own;
  double shoe_width, shoe_length;

  pr_card_shoe_size (job->shoe, &shoe_width, &shoe_length);
  NUM (length, job->hoof.length);
  LEN (width, job->hoof.width);
  NUM (long_, shoe_length);
  LEN (wide, shoe_width);
  NUM (web, job->plan.stock_width);
  LEN (thick, job->plan.stock_thick);
  LEN (needed, job->iron.needed);
  return g_strdup_printf (_ ("Hoof %s × %s · shoe %s × %s · bar %s × %s, %s needed"), length, width, long_,
                          wide, web, thick, needed);
}

char *
pr_card_bar_figures (const PrJob *job, PrUnit unit)
{
  const Card own = { .unit = unit }, *card = &own;
  const PrIron *iron = &job->iron;

  NUM (web, job->plan.stock_width);
  LEN (thick, job->plan.stock_thick);
  LEN (needed, iron->needed);
  LEN (given, iron->given);
  LEN (spare, fabs (iron->spare));
  if (iron->given <= 0)
    return g_strdup_printf (_ ("Bar %s × %s · %s needed"), web, thick, needed);
  return g_strdup_printf (iron->spare < 0 ? _ ("Bar %s × %s · %s needed, %s given, %s missing")
                                          : _ ("Bar %s × %s · %s needed, %s given, %s left over"),
                          web, thick, needed, given, spare);
}

/* --- foot -------------------------------------------------------------------------------- */

static const char *
method_name (PrScaleMethod method)
{
  static const char *const names[] = {
    [PR_SCALE_AUTO] = N_ ("automatic"),
    [PR_SCALE_SHEET] = N_ ("printed tracing sheet"),
    [PR_SCALE_PLAIN] = N_ ("plain sheet"),
    [PR_SCALE_CARD] = N_ ("card"),
    [PR_SCALE_RECT] = N_ ("rectangle of known sides"),
    [PR_SCALE_RULER] = N_ ("ruler"),
    [PR_SCALE_DENSITY] = N_ ("the scan's density"),
  };

  return method <= PR_SCALE_DENSITY ? _ (names[method]) : "";
}

static void
add_scale (Card *card)
{
  const PrScale *scale = pr_sources_scale (&card->job->sources);
  char px[16], residual[16], tilt[16];

  head (card, false, _ ("Scale"));
  if (scale == NULL) {
    row (card, _ ("From"), "%s", _ ("an outline in mm, without a photo"));
    return;
  }
  bool paper = scale->paper < PR_N_PAPERS;

  row (card, _ ("From"), "%s%s%s", method_name (scale->method), paper ? ", " : "",
       paper ? pr_paper_name (scale->paper) : "");
  row (card, _ ("Fineness"), _ ("%s px per mm, residual %s mm, tilt %s°"), decimal (px, scale->px_per_mm, 1),
       decimal (residual, scale->residual_mm, 2), decimal (tilt, scale->tilt * 180 / G_PI, 0));
  row (card, _ ("Verdict"), "%s%s%s", pr_verdict_name (scale->verdict),
       scale->why != NULL && *scale->why != '\0' ? ": " : "", scale->why != NULL ? scale->why : "");
}

static void
add_hoof (Card *card)
{
  const PrHoof *hoof = &card->job->hoof;
  char ratio[16];

  LEN (length, hoof->length);
  LEN (width, hoof->width);
  LEN (medial, hoof->width_side[PR_MEDIAL]);
  LEN (lateral, hoof->width_side[PR_LATERAL]);
  LEN (fore, hoof->toe_to_widest);
  LEN (aft, hoof->widest_to_heels);
  LEN (heels, hoof->heel_width);
  LEN (round, hoof->perimeter);
  LEN (lean, fabs (hoof->lean));
  head (card, true, _ ("Hoof"));
  row (card, _ ("Length, width"), _ ("%s, %s"), length, width);
  card->anvil = false;
  row (card, _ ("Length to width"), "%s",
       decimal (ratio, hoof->width > 0 ? hoof->length / hoof->width : 0, 2));
  row (card, _ ("From the centre line"), _ ("%s medial, %s lateral"), medial, lateral);
  row (card, _ ("Along the centre line"), _ ("%s toe to widest line, %s widest line to heels"), fore, aft);
  row (card, _ ("Between the heels"), "%s", heels);
  row (card, _ ("Round the wall"), "%s", round);
  row (card, _ ("Halves differ"), _ ("by up to %s"), lean);
}

/* --- shoe -------------------------------------------------------------------------------- */

static const char *
toe_name (int toe)
{
  return toe == PR_TOE_ROLLED     ? _ ("rolled")
         : toe == PR_TOE_SQUARED  ? _ ("squared")
         : toe == PR_TOE_SET_BACK ? _ ("set back")
                                  : _ ("plain");
}

static const char *
bar_name (int bar)
{
  return bar == PR_BAR_STRAIGHT ? _ ("straight bar")
         : bar == PR_BAR_EGG    ? _ ("egg bar")
         : bar == PR_BAR_HEART  ? _ ("heart bar")
                                : "";
}

static void
add_web (Card *card)
{
  const PrPlan *plan = &card->job->plan;
  double width, length;

  pr_card_shoe_size (card->job->shoe, &width, &length);
  LEN (long_, length);
  LEN (wide, width);
  NUM (toe, plan->web_toe);
  NUM (medial_quarter, plan->web_quarter[PR_MEDIAL]);
  NUM (lateral_quarter, plan->web_quarter[PR_LATERAL]);
  NUM (medial_heel, plan->web_heel[PR_MEDIAL]);
  LEN (lateral_heel, plan->web_heel[PR_LATERAL]);
  NUM (thick_toe, plan->thick_toe);
  LEN (thick_heel, plan->thick_heel);
  row (card, _ ("Length, width"), _ ("%s, %s"), long_, wide);
  row (card, _ ("Web"), _ ("toe %s, quarters %s and %s, heels %s and %s"), toe, medial_quarter,
       lateral_quarter, medial_heel, lateral_heel);
  row (card, _ ("Thickness"), _ ("toe %s, heels %s"), thick_toe, thick_heel);
}

static void
add_heels (Card *card)
{
  const PrPlan *plan = &card->job->plan;

  LEN (medial, plan->heel_past[PR_MEDIAL]);
  LEN (lateral, plan->heel_past[PR_LATERAL]);
  LEN (fit, plan->fit_heel);
  row (card, _ ("Heels past buttress"), _ ("medial %s, lateral %s"), medial, lateral);
  row (card, _ ("Heels cut"), "%s",
       plan->heel_cut == PR_HEEL_CUT_CENTRE ? _ ("square to the centre line") : _ ("square to the branch"));
  row (card, _ ("Fit at the heels"), _ ("%s outside the wall"), fit);
}

/* What is special about the shoe: only what it has. */
static void
add_specials (Card *card)
{
  const PrPlan *plan = &card->job->plan;
  const PrExtension *ext = &card->job->shoe->ext;

  if (plan->toe != PR_TOE_PLAIN) {
    LEN (amount, plan->toe_amount);
    row (card, _ ("Toe"), "%s, %s", toe_name (plan->toe), amount);
  }
  if (ext->present) {
    LEN (ahead, ext->ahead);
    LEN (width, ext->width);
    LEN (thick, ext->thick);
    row (card, _ ("Toe extension"), _ ("%s ahead of the hoof, %s wide, %s thick"), ahead, width, thick);
  }
  if (plan->bar != PR_BAR_NONE) {
    LEN (web, plan->bar_web);
    LEN (back, plan->bar_set_back);
    row (card, _ ("Bar"), _ ("%s, %s wide, set back %s"), bar_name (plan->bar), web, back);
  }
}

static void
add_creases (Card *card)
{
  const PrShoe *shoe = card->job->shoe;

  for (size_t i = 0; i < shoe->n_creases; i++) {
    const PrCrease *crease = &shoe->crease[i];
    g_autofree char *label = g_strdup_printf (_ ("Crease, %s"), side_name (crease->branch));

    NUM (from, crease->edge_from);
    LEN (to, crease->edge_to);
    NUM (width, crease->width);
    LEN (depth, crease->depth);
    row (card, label, _ ("%s to %s from the toe along the edge; %s wide, %s deep"), from, to, width, depth);
  }
}

static void
add_nails (Card *card, int side)
{
  const PrShoe *shoe = card->job->shoe;
  g_autoptr (GString) edge = g_string_new (NULL);
  g_autofree char *label = g_strdup_printf (_ ("Nails, %s"), side_name (side));
  double inset[2] = { 0, 0 };
  int n = 0;

  for (size_t i = 0; i < shoe->n_nails; i++) {
    const PrNail *nail = &shoe->nail[i];

    if (nail->branch != side)
      continue;
    NUM (along, nail->edge);
    g_string_append_printf (edge, "%s%s", n > 0 ? ", " : "", along);
    inset[n > 0] = nail->inset;
    n++;
  }
  if (n == 0) {
    row (card, label, "%s", _ ("none"));
    return;
  }
  NUM (first, inset[0]);
  LEN (last, inset[n > 1]);
  row (card, label, _ ("%d at %s from the toe along the edge"), n, edge->str);
  row (card, "", n > 1 ? _ ("from the edge: %s to %s") : _ ("from the edge: %s"), n > 1 ? first : last, last);
}

static void
add_clips (Card *card)
{
  const PrShoe *shoe = card->job->shoe;

  for (size_t i = 0; i < shoe->n_clips; i++) {
    const PrClip *clip = &shoe->clip[i];
    bool toe = clip->edge_from < 0 && clip->edge_to > 0;
    g_autofree char *label
        = toe ? g_strdup (_ ("Toe clip")) : g_strdup_printf (_ ("Clip, %s"), side_name (clip->branch));

    NUM (base, clip->base);
    NUM (high, clip->height);
    LEN (thick, clip->thickness);
    LEN (at, clip->edge);
    LEN (step, pr_pt_dist (pr_shoe_edge_at (shoe, clip->branch, 0, NULL, NULL), clip->at));
    if (toe)
      row (card, label, _ ("base %s, height %s, thickness %s"), base, high, thick);
    else
      row (card, label, _ ("base %s, height %s, thickness %s; middle %s along the edge, dividers %s"), base,
           high, thick, at, step);
  }
}

static void
add_shoe (Card *card)
{
  head (card, true, _ ("Shoe"));
  add_web (card);
  add_heels (card);
  if (card->job->shoe == NULL || card->job->shoe->n_st < 2)
    return;
  add_specials (card);
  add_creases (card);
  add_nails (card, PR_MEDIAL);
  add_nails (card, PR_LATERAL);
  add_clips (card);
  if (!card->job->shoe->simple && card->job->shoe->trouble[0] != '\0')
    add (card, PR_CARD_TEXT, _ ("look"), g_strdup (card->job->shoe->trouble), NULL);
}

/* Every mark of a branch as a smith steps it off. */
static void
add_dividers (Card *card, int side)
{
  bool from_line = false;
  g_autoptr (GArray) steps = pr_dividers (card->job->shoe, side, &from_line);
  g_autofree char *label = g_strdup_printf (from_line ? _ ("Dividers from the extension line, %s branch")
                                                      : _ ("Dividers from the toe, %s branch"),
                                            side_name (side));

  head (card, true, label);
  add (card, PR_CARD_MARK, _ ("mark"), g_strdup (C_ ("distance from mark to mark", "straight")),
       g_strdup (_ ("step")));
  for (guint i = 0; i < steps->len; i++) {
    const PrDivider *step = &g_array_index (steps, PrDivider, i);

    add (card, PR_CARD_MARK, step->name, pr_length_number (step->straight, card->unit),
         pr_length_number (step->step, card->unit));
  }
}

static void
add_order (Card *card)
{
  g_autoptr (GPtrArray) steps = pr_job_order (card->job);

  head (card, true, _ ("Order of work"));
  for (guint i = 0; i < steps->len; i++) {
    g_autofree char *number = g_strdup_printf ("%u", i + 1);

    add (card, PR_CARD_TEXT, number, g_strdup (steps->pdata[i]), NULL);
  }
}

/* --- iron -------------------------------------------------------------------------------- */

/* A mark's name, with the side where its id tells one and the name does not. Transfer full. */
static char *
mark_label (const PrMark *mark)
{
  int side = g_str_has_suffix (mark->id, ".medial")    ? PR_MEDIAL
             : g_str_has_suffix (mark->id, ".lateral") ? PR_LATERAL
                                                       : -1;
  const char *letter = side == PR_MEDIAL ? C_ ("medial", "M") : C_ ("lateral", "L");

  if (side < 0 || g_str_has_suffix (mark->name, letter) || strstr (mark->name, side_name (side)) != NULL)
    return g_strdup (mark->name);
  return g_strdup_printf ("%s %s", mark->name, letter);
}

static void
add_marks (Card *card, const PrPiece *piece)
{
  add (card, PR_CARD_MARK, _ ("mark"), g_strdup (_ ("from end")), g_strdup (_ ("from centre")));
  for (size_t i = 0; i < piece->n_marks; i++) {
    const PrMark *mark = &piece->mark[i];

    g_autofree char *label = mark_label (mark);
    add (card, PR_CARD_MARK, label, pr_length_number (mark->from_end, card->unit),
         pr_length_number (mark->from_centre, card->unit));
  }
}

static void
add_balance (Card *card)
{
  const PrIron *iron = &card->job->iron;

  LEN (needed, iron->needed);
  row (card, _ ("Needed"), _ ("%s, losses included"), needed);
  if (iron->given > 0) {
    LEN (given, iron->given);
    LEN (spare, fabs (iron->spare));
    row (card, _ ("Given"), "%s", given);
    row (card, iron->spare < 0 ? _ ("Missing") : _ ("Left over"), "%s", spare);
  }
}

/* What the three lengths say about the work. */
static void
add_rules (Card *card)
{
  const PrIron *iron = &card->job->iron;
  double shoe_piece = iron->n_pieces > 0 ? iron->piece[0].length : iron->needed;
  double more = shoe_piece > 0 ? (iron->middle_line / shoe_piece - 1) * 100 : 0;
  char share[16];

  LEN (line, iron->middle_line);
  LEN (rule, iron->hand_rule);
  LEN (apart, fabs (iron->middle_line - iron->hand_rule));
  row (card, _ ("Middle line"), _ ("%s, the string round the middle of the web"), line);
  row (card, "",
       more >= 0 ? _ ("%s %% longer than the bar that is cut: the iron is drawn")
                 : _ ("%s %% shorter than the bar that is cut: the iron is upset"),
       decimal (share, fabs (more), 1));
  row (card, _ ("Hand rule"), _ ("%s, hoof length + hoof width"), rule);
  row (card, "",
       iron->middle_line >= iron->hand_rule
           ? _ ("%s short of the middle line: cut by it, that much would have to be drawn")
           : _ ("%s longer than the middle line: cut by it, that much would have to be upset"),
       apart);
}

static void
add_mass (Card *card)
{
  const PrIron *iron = &card->job->iron;
  char mass[16], work[16];
  bool inch = card->unit == PR_UNIT_INCH;

  /* 1 oz avoirdupois = 0.028349523125 kg exactly (international pound, 1959) */
  row (card, _ ("Mass"), inch ? _ ("%s oz") : _ ("%s g"),
       inch ? decimal (mass, iron->mass / 0.028349523125, 1) : decimal (mass, iron->mass * 1000, 0));
  row (card, _ ("Work"), _ ("sections change by %s %% on the mean"),
       decimal (work, iron->mean_abs_strain * 100, 1));
}

static void
add_iron (Card *card)
{
  const PrIron *iron = &card->job->iron;
  const PrPlan *plan = &card->job->plan;
  char loss[16];

  NUM (web, plan->stock_width);
  LEN (thick, plan->stock_thick);
  head (card, true, _ ("Iron"));
  row (card, C_ ("iron as bought", "Bar"), "%s × %s, %s", web, thick,
       plan->material == PR_MATERIAL_ALUMINIUM ? _ ("aluminium") : _ ("steel"));
  for (size_t i = 0; i < iron->n_pieces; i++) {
    LEN (length, iron->piece[i].length);
    LEN (weld, iron->piece[i].allowance);

    if (iron->n_pieces > 1)
      row (card, iron->piece[i].name, "%s", length);
    if (iron->piece[i].allowance > 0)
      row (card, iron->n_pieces > 1 ? "" : _ ("Welds"), _ ("%s of it for welds (common practice, no source)"),
           weld);
  }
  add_balance (card);
  add_mass (card);
  card->anvil = false;
  row (card, _ ("Losses"), _ ("%s %% to scale and grinding (published figures run from 0.6 to 7.5 %%)"),
       decimal (loss, plan->loss * 100, 1));
  add_rules (card);
  for (size_t i = 0; i < iron->n_pieces; i++) {
    g_autofree char *label = g_strdup_printf (_ ("Marks on the bar: %s"), iron->piece[i].name);

    if (iron->piece[i].n_marks == 0)
      continue;
    head (card, true, label);
    add_marks (card, &iron->piece[i]);
  }
}

/* --- findings, cautions ------------------------------------------------------------------ */

static void
add_finding (Card *card, const PrFinding *finding)
{
  bool source = finding->source != NULL && *finding->source != '\0';

  card->anvil = finding->state != PR_FITS;
  g_autofree char *offer
      = finding->offer ? g_strdup_printf (_ (" Offered: %s."), finding->offer) : g_strdup ("");
  g_autofree char *from = source ? g_strdup_printf (_ (" Source: %s."), finding->source) : g_strdup ("");
  add (card, PR_CARD_TEXT, pr_state_name (finding->state), g_strconcat (finding->text, offer, from, NULL),
       NULL);
}

/* Worst first. */
static void
add_findings (Card *card)
{
  const GPtrArray *findings = card->job->findings;
  bool all_fits = true;

  head (card, true, _ ("Look at before lighting the fire"));
  for (int state = PR_MEND; state >= PR_FITS; state--)
    for (guint i = 0; findings != NULL && i < findings->len; i++) {
      const PrFinding *finding = g_ptr_array_index (findings, i);

      if ((int) finding->state != state)
        continue;
      all_fits = all_fits && finding->state == PR_FITS;
      add_finding (card, finding);
    }
  card->anvil = true;
  if (all_fits)
    add (card, PR_CARD_TEXT, NULL, g_strdup (_ ("Nothing: all that was checked fits.")), NULL);
}

static void
add_cautions (Card *card)
{
  static const char *const cautions[] = {
    N_ ("Planning aid only; it does not diagnose. Therapeutic shoes under a veterinary surgeon's "
        "direction. Who may shoe is set by local law."),
    N_ ("Trim first, trace after. Nails belong in the wall: a nail inside the white line lames."),
    N_ ("Eye protection at anvil and grinder; no galvanised stock in the fire; air for hoof smoke "
        "and flux fumes; a handler for the horse."),
    N_ ("Measure the bar in hand and the printed check bar. The foot decides."),
  };

  head (card, false, _ ("Cautions"));
  for (gsize i = 0; i < G_N_ELEMENTS (cautions); i++)
    add (card, PR_CARD_TEXT, NULL, g_strdup (_ (cautions[i])), NULL);
}

GPtrArray *
pr_card_lines (const PrJob *job, PrUnit unit)
{
  Card card = { g_ptr_array_new_with_free_func (line_free), job, unit, false };

  add_scale (&card);
  add_hoof (&card);
  add_shoe (&card);
  add_iron (&card);
  if (job->shoe != NULL && job->shoe->n_st > 1) {
    add_dividers (&card, PR_MEDIAL);
    add_dividers (&card, PR_LATERAL);
    add_order (&card);
  }
  add_findings (&card);
  add_cautions (&card);
  return card.lines;
}
