/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-practice-class.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "pr-bounds.h"
#include "pr-json-put.h"
#include "pr-json.h"
#include "pr-practice-resource.h"

#define S_PER_MIN 60

static const char *const by_codes[PR_N_MEASURED]
    = { "", "shape", "section", "nails", "clips", "heels", "time" };

static void
clear_criterion (gpointer criterion)
{
  g_free (((PrPracticeCriterion *) criterion)->name);
}

PrPracticeClass *
pr_practice_class_new (void)
{
  PrPracticeClass *class = g_new0 (PrPracticeClass, 1);

  class->name = g_strdup ("");
  class->make = g_strdup ("");
  class->code = g_strdup ("");
  class->source = g_strdup ("");
  class->shoes = 1;
  class->criteria = g_array_new (FALSE, FALSE, sizeof (PrPracticeCriterion));
  g_array_set_clear_func (class->criteria, clear_criterion);
  return class;
}

void
pr_practice_class_free (PrPracticeClass *class)
{
  if (class == NULL)
    return;
  g_free (class->name);
  g_free (class->make);
  g_free (class->code);
  g_free (class->source);
  g_array_unref (class->criteria);
  g_free (class);
}

void
pr_practice_class_add (PrPracticeClass *class, const char *name, int weight, PrMeasuredBy by)
{
  PrPracticeCriterion criterion = { pr_name_fit (name), CLAMP (weight, 0, PR_PRACTICE_MOST_WEIGHT), by };

  g_array_append_val (class->criteria, criterion);
}

/* TEXT is taken over. */
static void
put_in (char **place, char *text)
{
  g_free (*place);
  *place = text;
}

PrPracticeClass *
pr_practice_class_copy (const PrPracticeClass *class)
{
  PrPracticeClass *copy = pr_practice_class_new ();

  copy->id = class->id;
  put_in (&copy->name, g_strdup (class->name));
  put_in (&copy->make, g_strdup (class->make));
  put_in (&copy->code, g_strdup (class->code));
  put_in (&copy->source, g_strdup (class->source));
  copy->seconds = class->seconds;
  copy->heats = class->heats;
  copy->shoes = class->shoes;
  copy->striker = class->striker;
  for (guint i = 0; i < class->criteria->len; i++) {
    const PrPracticeCriterion *c = &g_array_index (class->criteria, PrPracticeCriterion, i);
    pr_practice_class_add (copy, c->name, c->weight, c->by);
  }
  return copy;
}

/* --- as it reads here --- */

const char *
pr_practice_text (const PrPracticeClass *class, const char *text)
{
  return *class->code != '\0' && *text != '\0' ? _ (text) : text;
}

void
pr_practice_class_own (PrPracticeClass *class)
{
  put_in (&class->name, g_strdup (pr_practice_text (class, class->name)));
  put_in (&class->make, g_strdup (pr_practice_text (class, class->make)));
  for (guint i = 0; i < class->criteria->len; i++) {
    PrPracticeCriterion *c = &g_array_index (class->criteria, PrPracticeCriterion, i);
    put_in (&c->name, g_strdup (pr_practice_text (class, c->name)));
  }
  put_in (&class->code, g_strdup (""));
  put_in (&class->source, g_strdup (""));
}

/* --- JSON --- */

void
pr_practice_class_put (JsonBuilder *b, const PrPracticeClass *class)
{
  pr_put_text (b, "name", class->name);
  pr_put_text (b, "make", class->make);
  pr_put_text (b, "code", class->code);
  pr_put_text (b, "source", class->source);
  pr_put_int (b, "seconds", class->seconds);
  pr_put_int (b, "heats", class->heats);
  pr_put_int (b, "shoes", class->shoes);
  pr_put_bool (b, "striker", class->striker);
  pr_begin_list (b, "criteria");
  for (guint i = 0; i < class->criteria->len; i++) {
    const PrPracticeCriterion *c = &g_array_index (class->criteria, PrPracticeCriterion, i);

    json_builder_begin_object (b);
    pr_put_text (b, "name", c->name);
    pr_put_int (b, "weight", c->weight);
    pr_put_text (b, "measured", by_codes[c->by]);
    json_builder_end_object (b);
  }
  json_builder_end_array (b);
}

/* A whole number from LEAST to MOST; what is not there is LEAST. */
static int
whole (JsonObject *object, const char *name, int least, int most)
{
  double value = least;

  return pr_json_number (object, name, &value) && value >= least ? (int) MIN (value, most) : least;
}

static PrMeasuredBy
by_of (const char *code)
{
  for (int i = 0; i < PR_N_MEASURED; i++)
    if (g_strcmp0 (by_codes[i], code) == 0)
      return (PrMeasuredBy) i;
  return PR_MEASURED_NOT;
}

static void
read_criteria (PrPracticeClass *class, JsonArray *list)
{
  guint n = list != NULL ? MIN (json_array_get_length (list), PR_PRACTICE_MOST_CRITERIA) : 0;

  for (guint i = 0; i < n; i++) {
    JsonObject *one = pr_json_is_object (json_array_get_element (list, i));
    g_autofree char *name = pr_name_fit (pr_json_string (one, "name"));

    if (*name != '\0')
      pr_practice_class_add (class, name, whole (one, "weight", 0, PR_PRACTICE_MOST_WEIGHT),
                             by_of (pr_json_string (one, "measured")));
  }
}

PrPracticeClass *
pr_practice_class_read (JsonObject *object)
{
  PrPracticeClass *class = pr_practice_class_new ();

  put_in (&class->name, pr_name_fit (pr_json_string (object, "name")));
  put_in (&class->make, pr_sentence_fit (pr_json_string (object, "make")));
  put_in (&class->code, pr_name_fit (pr_json_string (object, "code")));
  put_in (&class->source, pr_sentence_fit (pr_json_string (object, "source")));
  class->seconds = whole (object, "seconds", 0, (int) pr_bound_most (PR_BOUND_MINUTES) * S_PER_MIN);
  class->heats = whole (object, "heats", 0, (int) pr_bound_most (PR_BOUND_HEATS));
  class->shoes = whole (object, "shoes", 1, PR_PRACTICE_MOST_SHOES);
  class->striker = pr_json_true (object, "striker");
  read_criteria (class, pr_json_array (object, "criteria"));
  return class;
}

GPtrArray *
pr_practice_shipped (void)
{
  g_autoptr (GBytes) bytes
      = g_resource_lookup_data (pr_practice_get_resource (), "/pritchel/practice.json", 0, NULL);
  gsize len;
  const char *text = g_bytes_get_data (bytes, &len);
  g_autoptr (JsonNode) root = pr_json_parse (text, len, NULL);
  JsonArray *list = pr_json_array (pr_json_is_object (root), "classes");
  GPtrArray *classes = g_ptr_array_new_with_free_func ((GDestroyNotify) pr_practice_class_free);

  for (guint i = 0; i < json_array_get_length (list); i++)
    g_ptr_array_add (classes, pr_practice_class_read (json_array_get_object_element (list, i)));
  return classes;
}
