/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What people type: lengths, sections, names of papers and feet, parameters. */
#include "fuzz.h"

#include <math.h>
#include <string.h>

#include "pr-length.h"
#include "pr-plan.h"
#include "pr-sheet.h"
#include "pr-trace.h"

static void
length (const char *text, PrUnit unit)
{
  GError *error = NULL;
  double mm = NAN, back = NAN;

  if (!fuzz_said (pr_length_parse (text, unit, &mm, &error), &error, true))
    return;
  fuzz_must (isfinite (mm), "a length that is no number");
  for (PrUnit as = PR_UNIT_MM; as <= PR_UNIT_INCH; as++) {
    g_autofree char *said = pr_length_text (mm, as), *number = pr_length_number (mm, as);

    fuzz_must (g_str_has_prefix (said, number), "number and text of a length differ");
    if (fabs (mm) > 1e5)
      continue;
    fuzz_must (pr_length_parse (said, unit, &back, NULL), said);
    fuzz_must (fabs (back - mm) <= (as == PR_UNIT_MM ? 0.0501 : 25.4 / 32 + 1e-6), said);
  }
}

static void
section (const char *text, PrUnit unit)
{
  GError *error = NULL;
  double width = NAN, thick = NAN;

  if (fuzz_said (pr_section_parse (text, unit, &width, &thick, &error), &error, true))
    fuzz_must (isfinite (width) && width >= thick && thick > 0, "a section that is none");
}

static void
parameter (char *text, PrUnit unit)
{
  char *equals = strchr (text, '=');
  GError *error = NULL;
  PrPlan plan, before;

  if (equals == NULL)
    return;
  *equals = '\0';
  pr_plan_init (&plan);
  before = plan;
  if (!fuzz_said (pr_plan_set_text (&plan, text, equals + 1, unit, &error), &error, true))
    fuzz_must (pr_plan_equal (&plan, &before), "refused, and yet the plan has changed");
  for (size_t i = 0; i < pr_n_params; i++) {
    double v = pr_param_get (&plan, &pr_params[i]);
    fuzz_must (v >= pr_params[i].min && v <= pr_params[i].max, pr_params[i].name);
  }
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  g_autofree char *text = size <= 4096 ? g_strndup ((const char *) data, size) : NULL;
  PrPaper paper;
  PrFoot foot;
  PrScaleMethod method;

  if (text == NULL)
    return 0;
  for (PrUnit unit = PR_UNIT_MM; unit <= PR_UNIT_INCH; unit++) {
    g_autofree char *copy = g_strdup (text);
    length (text, unit);
    section (text, unit);
    parameter (copy, unit);
  }
  (void) pr_paper_parse (text, &paper);
  (void) pr_foot_parse (text, &foot);
  (void) pr_scale_method_parse (text, &method);
  return 0;
}

void
fuzz_seeds (GPtrArray *seeds)
{
  static const char *const texts[] = {
    "95",
    "95 mm",
    "95,5 mm",
    "9.5cm",
    "3/8",
    "1 1/4",
    "12in",
    "12\"",
    "1 ft 2 in",
    "1 ft 2 3/4 in",
    "-3",
    "1e3",
    "3/8 x 1",
    "3/8 x 1 1/4",
    "25x10",
    "25 \xc3\x97 10 mm",
    "1in x 10mm",
    "web.toe=24",
    "web.toe=15/16",
    "crease.depth=66 %",
    "bar=egg",
    "extension.piece=yes",
    "nails.count=4",
    "nails.pitch=3",
    "web.quarter=22,5 mm",
    "a4",
    "Tabloid",
    "LF",
    "any",
    "density",
    "0x10",
    "1e400",
    "nan",
    "inf",
    "1/0",
    "999999999999999999999999 mm",
    "1 2 3 4",
    "",
    " ",
    "1\xc2\xa0"
    "1/4",
    "\xc2\xbd in",
  };

  for (size_t i = 0; i < G_N_ELEMENTS (texts); i++)
    fuzz_seed_text (seeds, texts[i]);
}
