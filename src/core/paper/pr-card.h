/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the report says, line by line, before anyone decides how it looks: the text report prints
 * all of it, the card for the anvil its ANVIL lines in large type. Inside this room only. */
#pragma once
#include "pr-job.h"

typedef enum {
  PR_CARD_HEAD, /* LABEL opens a part */
  PR_CARD_ROW,  /* LABEL: VALUE */
  PR_CARD_MARK, /* a line of the table of marks: LABEL, VALUE from end, MORE from centre */
  PR_CARD_TEXT, /* VALUE is a sentence; LABEL, when not NULL, leads it */
} PrCardKind;

typedef struct {
  PrCardKind kind;
  bool anvil;
  char *label, *value, *more;
} PrCardLine;

/* Element type PrCardLine, transfer full. */
GPtrArray *pr_card_lines (const PrJob *job, PrUnit unit);
/* "near fore · quarter-clipped front". Transfer full. */
char *pr_card_title (const PrJob *job);
/* The figures at the head of a page, on one line. Transfer full. */
char *pr_card_figures (const PrJob *job, PrUnit unit);
/* The same for the bar's pages. Transfer full. */
char *pr_card_bar_figures (const PrJob *job, PrUnit unit);
/* Size of the figure as filled, clips left out, mm. */
void pr_card_shoe_size (const PrShoe *shoe, double *width, double *length);
