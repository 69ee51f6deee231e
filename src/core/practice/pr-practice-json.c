/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A run as it is kept, and read again. */
#include <math.h>
#include <string.h>

#include "pr-bounds.h"
#include "pr-json-put.h"
#include "pr-json.h"
#include "pr-practice-run.h"

#define MOST_US \
  9e15 /* microseconds until the year 2255; whole numbers are exact in JSON up to 9.007e15 (RFC 8259, 6) */
#define MOST_SCORE 10.0

static const char *const kind_codes[PR_N_PRESSED] = { "start", "heat", "step", "stop" };
static const char *const measured_codes[PR_N_MEASURED]
    = { NULL, "shape_mm", "section_mm", "nails_mm", "clips_mm", "heels_mm", "over_share" };

/* --- written --- */

static void
put_pressed (JsonBuilder *b, const PrPracticeRun *run)
{
  pr_begin_list (b, "pressed");
  for (guint i = 0; i < run->pressed->len; i++) {
    const PrPressed *p = &g_array_index (run->pressed, PrPressed, i);

    json_builder_begin_object (b);
    pr_put_text (b, "kind", kind_codes[p->kind]);
    pr_put_int (b, "mono_us", p->at.mono);
    if (p->at.boot >= 0)
      pr_put_int (b, "boot_us", p->at.boot);
    pr_put_int (b, "wall_us", p->at.wall);
    pr_put_text (b, "start", p->at.start);
    json_builder_end_object (b);
  }
  json_builder_end_array (b);
}

static void
put_scores (JsonBuilder *b, const PrPracticeRun *run)
{
  pr_begin_list (b, "scores");
  for (guint i = 0; i < run->scores->len; i++) {
    const PrPracticeScore *s = &g_array_index (run->scores, PrPracticeScore, i);

    json_builder_begin_object (b);
    if (s->value >= 0)
      pr_put (b, "value", s->value);
    if (s->measured)
      pr_put_bool (b, "measured", true);
    json_builder_end_object (b);
  }
  json_builder_end_array (b);
}

static void
put_measured (JsonBuilder *b, const PrPracticeMeasured *m)
{
  if (m->attempt == 0)
    return;
  pr_begin (b, "measured");
  pr_put_int (b, "attempt", m->attempt);
  if (m->off >= 0)
    pr_put_fine (b, "off_mm", m->off);
  for (int i = 1; i < PR_N_MEASURED; i++)
    if (m->by[i] >= 0)
      pr_put_fine (b, measured_codes[i], m->by[i]);
  json_builder_end_object (b);
}

char *
pr_practice_run_text (const PrPracticeRun *run)
{
  g_autoptr (JsonBuilder) b = json_builder_new ();

  json_builder_begin_object (b);
  pr_begin (b, "class");
  pr_practice_class_put (b, run->as);
  json_builder_end_object (b);
  pr_begin_list (b, "steps");
  for (guint i = 0; i < run->steps->len; i++)
    json_builder_add_string_value (b, run->steps->pdata[i]);
  json_builder_end_array (b);
  put_pressed (b, run);
  pr_put_int (b, "after", run->after);
  pr_put_bool (b, "broken", run->broken);
  if (run->unfinished)
    pr_put_bool (b, "unfinished", true);
  pr_put (b, "told_minutes", run->told_minutes);
  pr_put_fine (b, "leftover_mm", run->leftover);
  pr_put_text (b, "note", run->note);
  pr_put_text (b, "judge", run->judge);
  put_scores (b, run);
  put_measured (b, &run->measured);
  json_builder_end_object (b);
  g_autoptr (JsonNode) root = json_builder_get_root (b);
  return pr_json_text (root, false);
}

/* --- read --- */

static gint64
read_us (JsonObject *object, const char *name, gint64 otherwise)
{
  double value;

  return pr_json_number (object, name, &value) && value >= 0 && value <= MOST_US ? (gint64) value : otherwise;
}

static PrPressedKind
kind_of (const char *code)
{
  for (int i = 0; i < PR_N_PRESSED; i++)
    if (g_strcmp0 (kind_codes[i], code) == 0)
      return (PrPressedKind) i;
  return PR_N_PRESSED;
}

/* By the same door as what is pressed now: an order that cannot be is left out. */
static void
read_pressed (PrPracticeRun *run, JsonArray *list)
{
  guint n = list != NULL ? MIN (json_array_get_length (list), PR_PRACTICE_MOST_PRESSED + 1) : 0;

  for (guint i = 0; i < n; i++) {
    JsonObject *one = pr_json_is_object (json_array_get_element (list, i));
    PrPressedKind kind = kind_of (pr_json_string (one, "kind"));
    PrPracticeMoment at = { .mono = read_us (one, "mono_us", 0),
                            .boot = read_us (one, "boot_us", -1),
                            .wall = read_us (one, "wall_us", 0) };
    const char *start = pr_json_string (one, "start");

    if (start != NULL && strlen (start) < sizeof at.start)
      g_strlcpy (at.start, start, sizeof at.start);
    if (kind != PR_N_PRESSED)
      pr_practice_press (run, kind, &at);
  }
}

static void
read_steps (PrPracticeRun *run, JsonArray *list)
{
  guint n = list != NULL ? MIN (json_array_get_length (list), PR_PRACTICE_MOST_STEPS) : 0;

  for (guint i = 0; i < n; i++) {
    JsonNode *one = json_array_get_element (list, i);
    const char *text = JSON_NODE_HOLDS_VALUE (one) ? json_node_get_string (one) : NULL;

    if (text != NULL)
      g_ptr_array_add (run->steps, pr_sentence_fit (text));
  }
}

static void
read_scores (PrPracticeRun *run, JsonArray *list)
{
  guint n = list != NULL ? MIN (json_array_get_length (list), run->scores->len) : 0;

  for (guint i = 0; i < n; i++) {
    JsonObject *one = pr_json_is_object (json_array_get_element (list, i));
    double value;

    if (pr_json_number (one, "value", &value) && value >= 0 && value <= MOST_SCORE)
      g_array_index (run->scores, PrPracticeScore, i)
          = (PrPracticeScore){ value, pr_json_true (one, "measured") };
  }
}

/* OTHERWISE where it is not there or out of BOUND. */
static double
bounded (JsonObject *object, const char *name, PrBound bound, double otherwise)
{
  double value;

  return pr_json_number (object, name, &value) && pr_bound_holds (bound, value) ? value : otherwise;
}

static void
read_measured (PrPracticeMeasured *m, JsonObject *object)
{
  m->attempt = read_us (object, "attempt", 0);
  m->off = bounded (object, "off_mm", PR_BOUND_OFF, -1);
  for (int i = 1; i < PR_N_MEASURED; i++)
    m->by[i] = bounded (object, measured_codes[i], PR_BOUND_OFF, -1);
}

PrPracticeRun *
pr_practice_run_read (const char *text, GError **error)
{
  g_autoptr (JsonNode) root = pr_json_parse (text, strlen (text), error);
  JsonObject *object = root != NULL ? pr_json_is_object (root) : NULL;

  if (root == NULL)
    return NULL;
  g_autoptr (PrPracticeClass) as = pr_practice_class_read (pr_json_object (object, "class"));
  PrPracticeRun *run = pr_practice_run_new (as);
  read_steps (run, pr_json_array (object, "steps"));
  read_pressed (run, pr_json_array (object, "pressed"));
  run->after = read_us (object, "after", 0);
  run->broken = pr_json_true (object, "broken");
  run->unfinished = pr_json_true (object, "unfinished");
  run->told_minutes = bounded (object, "told_minutes", PR_BOUND_MINUTES, 0);
  run->leftover = bounded (object, "leftover_mm", PR_BOUND_BAR, 0);
  g_free (run->note);
  run->note = pr_note_fit (pr_json_string (object, "note"));
  g_free (run->judge);
  run->judge = pr_name_fit (pr_json_string (object, "judge"));
  read_scores (run, pr_json_array (object, "scores"));
  read_measured (&run->measured, pr_json_object (object, "measured"));
  return run;
}
