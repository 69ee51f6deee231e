/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-sheet.h"

#include <glib.h>

static const struct {
  const char *name;
  double width, height;
} papers[PR_N_PAPERS] = {
  [PR_PAPER_A4] = { "A4", 210, 297 },           [PR_PAPER_LETTER] = { "Letter", 215.9, 279.4 },
  [PR_PAPER_A3] = { "A3", 297, 420 },           [PR_PAPER_TABLOID] = { "Tabloid", 279.4, 431.8 },
  [PR_PAPER_LEGAL] = { "Legal", 215.9, 355.6 }, [PR_PAPER_A5] = { "A5", 148, 210 },
  [PR_PAPER_B5] = { "B5", 176, 250 },           [PR_PAPER_C5] = { "C5", 162, 229 },
};

const char *
pr_paper_name (PrPaper paper)
{
  return paper < PR_N_PAPERS ? papers[paper].name : "unknown";
}

bool
pr_paper_parse (const char *name, PrPaper *paper)
{
  for (int i = 0; i < PR_N_PAPERS; i++)
    if (g_ascii_strcasecmp (name, papers[i].name) == 0) {
      *paper = (PrPaper) i;
      return true;
    }
  return false;
}

void
pr_paper_size (PrPaper paper, double *width, double *height)
{
  g_assert (paper < PR_N_PAPERS);
  *width = papers[paper].width;
  *height = papers[paper].height;
}

int
pr_tag_id (PrPaper paper, PrFoot foot, int corner)
{
  g_assert (paper < PR_N_SHEET_PAPERS && corner >= 0 && corner < 4);
  return PR_TAG_BASE + ((int) paper * PR_N_FEET + (int) foot) * 4 + corner;
}

bool
pr_tag_parse (int id, PrPaper *paper, PrFoot *foot, int *corner)
{
  int n = id - PR_TAG_BASE;

  if (n < 0 || n >= PR_N_SHEET_PAPERS * PR_N_FEET * 4)
    return false;
  *corner = n % 4;
  *foot = (PrFoot) (n / 4 % PR_N_FEET);
  *paper = (PrPaper) (n / 4 / PR_N_FEET);
  return true;
}

void
pr_tag_corners (PrPaper paper, int corner, PrSheetPt out[4])
{
  double width, height;

  pr_paper_size (paper, &width, &height);
  bool right = corner == 1 || corner == 2, low = corner >= 2;
  double x = right ? width - PR_TAG_MARGIN_MM - PR_TAG_MM : PR_TAG_MARGIN_MM;
  double y = low ? height - PR_TAG_MARGIN_MM - PR_TAG_MM : PR_TAG_MARGIN_MM;

  out[0] = (PrSheetPt){ x, y };
  out[1] = (PrSheetPt){ x + PR_TAG_MM, y };
  out[2] = (PrSheetPt){ x + PR_TAG_MM, y + PR_TAG_MM };
  out[3] = (PrSheetPt){ x, y + PR_TAG_MM };
}

/* Middle of the bars down the edges, from the edge: beyond what printers leave blank, and
 * outside any foot. */
#define BAR_EDGE_MM 8.0
/* Blank strip between a bar's middle and the field. */
#define BAR_CLEAR_MM 5.0

void
pr_sheet_field (PrPaper paper, PrSheetPt *low, PrSheetPt *high)
{
  double width, height, band = PR_TAG_MARGIN_MM + PR_TAG_MM + PR_TAG_MM / 8;

  pr_paper_size (paper, &width, &height);
  *low = (PrSheetPt){ BAR_EDGE_MM + BAR_CLEAR_MM, band };
  *high = (PrSheetPt){ width - BAR_EDGE_MM - BAR_CLEAR_MM, height - band };
}

void
pr_sheet_bar (PrPaper paper, int bar, PrSheetPt *from, PrSheetPt *to)
{
  double width, height, length = bar % 2 ? 4 * 25.4 : 100;

  g_assert (bar >= 0 && bar < PR_SHEET_BARS);
  pr_paper_size (paper, &width, &height);
  if (bar < 2) {
    double y = height - (bar == 0 ? 24.5 : 14);
    *from = (PrSheetPt){ (width - length) / 2, y };
    *to = (PrSheetPt){ (width + length) / 2, y };
  } else {
    double x = bar == 2 ? BAR_EDGE_MM : width - BAR_EDGE_MM;
    *from = (PrSheetPt){ x, (height - length) / 2 };
    *to = (PrSheetPt){ x, (height + length) / 2 };
  }
}
