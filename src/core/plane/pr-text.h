/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Text in places of fixed size. */
#pragma once
#include <glib.h>

/* FROM, or as many whole letters of it as SIZE bytes hold: a letter cut in two would be no UTF-8. */
static inline void
pr_text_copy (char *to, gsize size, const char *from)
{
  const char *end;

  g_strlcpy (to, from, size);
  if (!g_utf8_validate (to, -1, &end))
    to[end - to] = '\0';
}
