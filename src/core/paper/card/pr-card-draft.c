/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-card-draft.h"

#include <glib/gi18n-lib.h>
#include <stdarg.h>

static void
line_free (gpointer data)
{
  PrCardLine *line = data;

  g_free (line->label);
  g_free (line->value);
  g_free (line->more);
  g_free (line);
}

PrCardDraft
pr_card_draft (const PrJob *job, PrUnit unit)
{
  return (PrCardDraft){ g_ptr_array_new_with_free_func (line_free), job, unit, false };
}

void
pr_card_add (PrCardDraft *draft, PrCardKind kind, const char *label, char *value, char *more)
{
  PrCardLine *line = g_new (PrCardLine, 1);

  *line = (PrCardLine){ kind, draft->anvil, g_strdup (label), value, more };
  g_ptr_array_add (draft->lines, line);
}

void
pr_card_head (PrCardDraft *draft, bool anvil, const char *label)
{
  draft->anvil = anvil;
  pr_card_add (draft, PR_CARD_HEAD, label, NULL, NULL);
}

void
pr_card_row (PrCardDraft *draft, const char *label, const char *format, ...)
{
  va_list args;

  va_start (args, format);
  pr_card_add (draft, PR_CARD_ROW, label, g_strdup_vprintf (format, args), NULL);
  va_end (args);
}

const char *
pr_card_decimal (char buffer[16], double value, int places)
{
  char format[8];

  g_snprintf (format, sizeof format, "%%.%df", places);
  g_snprintf (buffer, 16, format, value);
  return buffer;
}

const char *
pr_card_side (int side)
{
  return side == PR_MEDIAL ? _ ("medial") : _ ("lateral");
}
