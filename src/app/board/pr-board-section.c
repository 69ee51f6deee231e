/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-board-section.h"

#include <glib/gi18n-lib.h>
#include "pr-colour.h"
#include "pr-section-look.h"

#define AWAY_PX 26.0 /* from the shoe's edge to the box */
#define PAD_PX 8.0
#define WORDS_PX 140.0 /* words are as wide, or the iron is wider */
#define LINE_PX 1.4

static bool
shown (const PrBoardStage *stage, const PrJob *job)
{
  return job && job->shoe && job->shoe->n_st > 1 && stage->hover_s >= 0;
}

static char *
words_of (const PrSection *section, PrUnit unit, const char *between)
{
  g_autofree char *size = pr_section_size (section, unit), *crease = pr_section_crease (section, unit);
  GString *words = g_string_new (NULL);

  if (section->nail >= 0) {
    g_string_append_printf (words, _ ("nail %d"), section->nail + 1);
    g_string_append (words, between);
  }
  g_string_append (words, size);
  if (crease)
    g_string_append_printf (words, "%s%s", between, crease);
  return g_string_free (words, FALSE);
}

char *
pr_board_section_words (const PrBoardStage *stage, const PrJob *job)
{
  g_auto (PrSection) section = { 0 };

  if (!shown (stage, job))
    return g_strdup ("");
  pr_section_at (&job->sources.plan, job->shoe, stage->hover_s, &section);
  return words_of (&section, job->unit, " · ");
}

/* --- where it stands ------------------------------------------------------------------------- */

/* A box W x H beside AT, away from FROM, so far that the whole of it is clear of AT. */
static graphene_rect_t
box_away (PrScreenPt at, PrScreenPt from, double w, double h)
{
  double dx = at.x - from.x, dy = at.y - from.y, along = MAX (hypot (dx, dy), 1e-6);
  double reach = AWAY_PX + fabs (dx / along) * w / 2 + fabs (dy / along) * h / 2;

  return GRAPHENE_RECT_INIT ((float) floor (at.x + dx / along * reach - w / 2),
                             (float) floor (at.y + dy / along * reach - h / 2), (float) w, (float) h);
}

/* The same on the centre line within the branches, as high as the cut at IN. */
static graphene_rect_t
box_within (const PrBoardStage *stage, const PrShoe *shoe, PrPt in, double w, double h)
{
  PrPt toe = shoe->st[shoe->toe_st].inner;
  PrScreenPt top = pr_board_stage_out (stage, toe), at = pr_board_stage_out (stage, pr_pt (toe.x, in.y));

  return GRAPHENE_RECT_INIT ((float) floor (at.x - w / 2),
                             (float) floor (MAX (at.y - h / 2, top.y + AWAY_PX)), (float) w, (float) h);
}

/* BOX goes the shortest way off TAKEN that ends within ALL; where there is none it stays. */
static void
keep_clear (graphene_rect_t *box, const graphene_rect_t *taken, const graphene_rect_t *all)
{
  const graphene_rect_t was = *box;
  const float w = box->size.width, h = box->size.height;
  const graphene_point_t to[] = { { taken->origin.x - w, was.origin.y },
                                  { taken->origin.x + taken->size.width, was.origin.y },
                                  { was.origin.x, taken->origin.y - h },
                                  { was.origin.x, taken->origin.y + taken->size.height } };
  float best = G_MAXFLOAT;

  if (!graphene_rect_intersection (&was, taken, NULL))
    return;
  for (size_t i = 0; i < G_N_ELEMENTS (to); i++) {
    graphene_rect_t moved = GRAPHENE_RECT_INIT (to[i].x, to[i].y, w, h);
    float way = graphene_point_distance (&was.origin, &to[i], NULL, NULL);

    if (way < best && graphene_rect_contains_rect (all, &moved)) {
      best = way;
      *box = moved;
    }
  }
}

/* Outside the shoe where there is room, and inside it where a handle's WORDS stand outside; clear of them, and of the buttons. */
static graphene_rect_t
box_beside (const PrBoardStage *stage, const PrShoe *shoe, const graphene_rect_t *words, double w, double h)
{
  graphene_rect_t buttons = pr_board_stage_buttons (stage);
  graphene_rect_t all = GRAPHENE_RECT_INIT (0, 0, (float) stage->width, (float) stage->height), box;
  PrPt outer, inner;

  pr_shoe_middle_at (shoe, stage->hover_s, &outer, &inner);
  PrScreenPt out = pr_board_stage_out (stage, outer), in = pr_board_stage_out (stage, inner);

  box = box_away (out, in, w, h);
  if (words || !graphene_rect_contains_rect (&all, &box))
    box = box_within (stage, shoe, inner, w, h);
  box.origin.x = CLAMP (box.origin.x, 0, MAX (all.size.width - box.size.width, 0));
  box.origin.y = CLAMP (box.origin.y, 0, MAX (all.size.height - box.size.height, 0));
  keep_clear (&box, &buttons, &all);
  if (words) {
    keep_clear (&box, words, &all);
    keep_clear (&box, &buttons, &all);
  }
  return box;
}

static void
draw_iron (const PrBoardStage *stage, GtkSnapshot *snapshot, const graphene_rect_t *box,
           const PrSection *section, const PrSectionRoom *room)
{
  PrInk ink = pr_colour_ink (stage->widget);
  double k = stage->view.scale;
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, box);

  cairo_translate (cr, box->origin.x + PAD_PX + k * room->left, box->origin.y + PAD_PX + k * room->up);
  cairo_scale (cr, k, k);
  pr_section_draw (cr, section, &ink, LINE_PX / k);
  cairo_destroy (cr);
}

void
pr_board_section_append (const PrBoardStage *stage, const PrJob *job, const graphene_rect_t *words_at,
                         GtkSnapshot *snapshot)
{
  g_auto (PrSection) section = { 0 };
  int wide, high;

  if (!shown (stage, job))
    return;
  pr_section_at (&job->sources.plan, job->shoe, stage->hover_s, &section);
  g_autofree char *words = words_of (&section, job->unit, "\n");
  g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (stage->widget, words);
  PrSectionRoom room = pr_section_room (&section);
  GdkRGBA text = pr_colour_of_text (stage->widget), paper = pr_colour (stage->widget, "pr_paper");
  double k = stage->view.scale;

  pango_layout_set_width (layout, (int) MAX (k * (room.left + room.right), WORDS_PX) * PANGO_SCALE);
  pango_layout_get_pixel_size (layout, &wide, &high);
  double iron = k * (room.up + room.down);
  graphene_rect_t box
      = box_beside (stage, job->shoe, words_at, MAX (k * (room.left + room.right), wide) + 2 * PAD_PX,
                    iron + high + 3 * PAD_PX);

  GskRoundedRect frame = GSK_ROUNDED_RECT_INIT (box.origin.x, box.origin.y, box.size.width, box.size.height);
  GdkRGBA line = pr_colour (stage->widget, "pr_teal");

  gtk_snapshot_append_color (snapshot, &paper, &box);
  gtk_snapshot_append_border (snapshot, &frame, (const float[4]){ 1, 1, 1, 1 },
                              (const GdkRGBA[4]){ line, line, line, line });
  draw_iron (stage, snapshot, &box, &section, &room);
  gtk_snapshot_save (snapshot);
  gtk_snapshot_translate (snapshot, &GRAPHENE_POINT_INIT (box.origin.x + (float) PAD_PX,
                                                          box.origin.y + (float) (iron + 2 * PAD_PX)));
  gtk_snapshot_append_layout (snapshot, layout, &text);
  gtk_snapshot_restore (snapshot);
}
