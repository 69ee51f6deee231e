/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-welds.h"

#include <glib/gi18n-lib.h>

#include "pr-text.h"

static PrWeld *
add_weld (PrWelds *welds, const PrPlan *plan, const char *id, const char *name, double lap)
{
  PrWeld *weld = &welds->weld[welds->n_welds++];

  *weld = (PrWeld){ .lap = lap, .thick = PR_UPSET_TO * plan->stock_thick, .upset = (PR_UPSET_TO - 1) * lap };
  g_strlcpy (weld->id, id, sizeof weld->id);
  pr_text_copy (weld->name, sizeof weld->name, name);
  return weld;
}

static void
add_turns (PrWelds *welds, const PrIron *iron, const PrPlan *plan)
{
  static const char *const ids[] = { "turn.medial", "turn.lateral" };

  for (int b = 0; b < 2; b++) {
    PrTurn *turn = &welds->turn[welds->n_turns++];

    *turn = (PrTurn){ .at = iron->bar_at[b == PR_MEDIAL ? 0 : iron->n_st - 1],
                      .thick = PR_UPSET_TO * plan->stock_thick,
                      .upset = (PR_UPSET_TO - 1) * plan->stock_width };
    g_strlcpy (turn->id, ids[b], sizeof turn->id);
    pr_text_copy (turn->name, sizeof turn->name, b == PR_MEDIAL ? _ ("turn M") : _ ("turn L"));
  }
}

static size_t
piece_called (const PrIron *iron, const char *id)
{
  for (size_t i = 1; i < iron->n_pieces; i++)
    if (g_str_equal (iron->piece[i].id, id))
      return i;
  return 0;
}

static void
weld_heels (PrWelds *welds, const PrIron *iron, const PrPlan *plan, size_t piece)
{
  static const char *const ids[] = { "weld.heel.medial", "weld.heel.lateral" };
  double lap = PR_WELD_LAP * plan->stock_thick;

  for (int b = 0; b < 2; b++) {
    PrWeld *weld = add_weld (welds, plan, ids[b], b == PR_MEDIAL ? _ ("weld M") : _ ("weld L"), lap);

    weld->piece[1] = piece;
    weld->at[0] = b == PR_MEDIAL ? lap / 2 : iron->piece[0].length - lap / 2;
    weld->at[1] = b == PR_MEDIAL ? lap / 2 : iron->piece[piece].length - lap / 2;
  }
}

PrWelds
pr_welds_of (const PrIron *iron, const PrPlan *plan, const PrShoe *shoe)
{
  PrWelds welds = { .n_welds = 0 };
  size_t extension = piece_called (iron, "extension"), bar = piece_called (iron, "bar");

  if (extension > 0) {
    PrWeld *weld = add_weld (&welds, plan, "weld.extension", _ ("weld"), plan->ext_lap);

    weld->piece[1] = extension;
    weld->at[0] = iron->bar_at[shoe->toe_st];
    weld->at[1] = iron->piece[extension].length / 2;
  }
  if (bar > 0) {
    weld_heels (&welds, iron, plan, bar);
  } else if (plan->bar != PR_BAR_NONE) {
    PrWeld *weld = add_weld (&welds, plan, "weld.bar", _ ("weld"), PR_WELD_LAP * plan->stock_thick);

    weld->at[0] = weld->lap / 2;
    weld->at[1] = iron->piece[0].length - weld->lap / 2;
    add_turns (&welds, iron, plan);
  }
  return welds;
}
