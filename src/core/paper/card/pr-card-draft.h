/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lines of the card under way, and how its parts write them. For this room, and for what is made of such lines. */
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
  bool anvil; /* on the card for the anvil too, not only in the report */
  char *label, *value, *more;
} PrCardLine;

typedef struct {
  GPtrArray *lines; /* PrCardLine */
  const PrJob *job;
  PrUnit unit;
  bool anvil; /* of the lines being added */
} PrCardDraft;

PrCardDraft pr_card_draft (const PrJob *job, PrUnit unit);
/* VALUE and MORE are taken over. */
void pr_card_add (PrCardDraft *draft, PrCardKind kind, const char *label, char *value, char *more);
void pr_card_head (PrCardDraft *draft, bool anvil, const char *label);
G_GNUC_PRINTF (3, 4)
void pr_card_row (PrCardDraft *draft, const char *label, const char *format, ...);
/* VALUE with PLACES behind its mark, in BUFFER. */
const char *pr_card_decimal (char buffer[16], double value, int places);
/* "medial", translated. */
const char *pr_card_side (int side);

/* Held by the caller's scope: LEN declares a length as text, NUM the same without its unit. */
#define PR_CARD_LEN(name_, mm_) g_autofree char *name_ = pr_length_text ((mm_), draft->unit)
#define PR_CARD_NUM(name_, mm_) g_autofree char *name_ = pr_length_number ((mm_), draft->unit)
