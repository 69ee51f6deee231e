/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-tracing.h"

#include <glib/gi18n-lib.h>

static const char *const methods[] = {
  [PR_SCALE_AUTO] = "auto",       [PR_SCALE_SHEET] = "sheet", [PR_SCALE_PLAIN] = "plain",
  [PR_SCALE_CARD] = "card",       [PR_SCALE_RECT] = "rect",   [PR_SCALE_RULER] = "ruler",
  [PR_SCALE_DENSITY] = "density",
};

static const struct {
  const char *code, *name;
} verdicts[] = {
  [PR_VERDICT_GOOD] = { "good", N_ ("good") },
  [PR_VERDICT_USABLE] = { "usable", N_ ("usable") },
  [PR_VERDICT_RETAKE] = { "retake", N_ ("retake") },
};

void
pr_tracing_drop_line (PrTracing *t)
{
  for (size_t i = 0; i < t->n_doubt; i++)
    g_free (t->doubt[i].why);
  g_clear_pointer (&t->doubt, g_free);
  g_clear_pointer (&t->outline, g_free);
  t->n_doubt = t->n_outline = 0;
  t->figure = t->closed = false;
}

void
pr_tracing_free (PrTracing *t)
{
  if (t == NULL)
    return;
  pr_tracing_drop_line (t);
  g_free (t->raster_rgb);
  g_free (t->scale.why);
  g_free (t->file);
  g_free (t);
}

const char *
pr_scale_method_code (PrScaleMethod method)
{
  return methods[method];
}

bool
pr_scale_method_parse (const char *code, PrScaleMethod *method)
{
  for (size_t i = 0; i < G_N_ELEMENTS (methods); i++)
    if (g_ascii_strcasecmp (code, methods[i]) == 0) {
      *method = (PrScaleMethod) i;
      return true;
    }
  return false;
}

const char *
pr_verdict_code (PrVerdict verdict)
{
  return verdicts[verdict].code;
}

const char *
pr_verdict_name (PrVerdict verdict)
{
  return _ (verdicts[verdict].name);
}
