/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-merge-item.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>
#include "pr-book-diary.h"
#include "pr-json.h"
#include "pr-params.h"
#include "pr-settings.h"
#include "pr-text.h"
#include "pr-words.h"

#define MOST_FIGURES 5     /* told of two plans; more are counted */
#define LEAST_UNLIKE 0.005 /* of a length, mm: less is not read */

struct _PrMergeItem {
  GObject parent_instance;
  PrMergeHorse *horse; /* or FOOT */
  PrMergeFoot *foot;
  PrJob *job[2]; /* while MADE */
  bool made[2];
};

G_DEFINE_FINAL_TYPE (PrMergeItem, pr_merge_item, G_TYPE_OBJECT)

PrMergeItem *
pr_merge_item_new (PrMergeHorse *horse, PrMergeFoot *foot)
{
  PrMergeItem *item = g_object_new (PR_TYPE_MERGE_ITEM, NULL);

  item->horse = horse;
  item->foot = foot;
  return item;
}

bool
pr_merge_item_is_foot (PrMergeItem *item)
{
  return item->foot != NULL;
}

char *
pr_merge_item_title (PrMergeItem *item)
{
  if (item->horse)
    return pr_text_name (item->horse->says[0].name);
  g_autofree char *date = pr_words_date (item->foot->date), *horse = pr_text_name (item->foot->horse);
  return g_strdup_printf ("%s, %s, %s", horse, pr_foot_name (item->foot->foot), date);
}

/* --- what is there to be drawn --- */

static JsonNode *
parsed (const char *text)
{
  return text ? pr_json_parse (text, strlen (text), NULL) : NULL;
}

/* As the book reads a foot, without its photo. */
static PrJob *
job_of (const PrMergeFoot *foot, const PrMergeSide *side)
{
  g_autoptr (PrJob) job = pr_job_new ();
  g_autoptr (JsonNode) trace = parsed (side->trace), plan = parsed (side->plan);

  job->sources.foot = foot->foot;
  if (!trace || !pr_job_take_trace_json (job, trace, NULL))
    return NULL;
  job->sources.foot = foot->foot;
  if (plan && pr_job_take_plan_json (job, plan, NULL))
    pr_job_refresh_hoof (job, NULL);
  return job->sources.tracing ? g_steal_pointer (&job) : NULL;
}

const PrJob *
pr_merge_item_job (PrMergeItem *item, int side)
{
  if (item->foot && !item->made[side])
    item->job[side] = job_of (item->foot, &item->foot->side[side]);
  item->made[side] = true;
  return item->job[side];
}

/* --- in words --- */

static void
add_line (GString *text, const char *line)
{
  g_autofree char *fit = pr_text_name_brief (line, 160);

  if (*line)
    g_string_append_printf (text, "%s%s", text->len > 0 ? "\n" : "", fit);
}

static char *
horse_says (const PrBookHorse *horse)
{
  GString *text = g_string_new (NULL);
  g_autofree char *owner = *horse->owner ? g_strdup_printf (_ ("Owner: %s"), horse->owner) : g_strdup ("");
  g_autofree char *due
      = horse->due_days == PR_BOOK_NEVER_DUE ? g_strdup (_ ("Never due"))
        : horse->due_days > 0
            ? g_strdup_printf (ngettext ("Due after %d day", "Due after %d days", (gulong) horse->due_days),
                               horse->due_days)
            : g_strdup ("");

  add_line (text, owner);
  add_line (text, due);
  add_line (text, horse->note);
  if (text->len == 0)
    g_string_append (text, _ ("Nothing written down"));
  return g_string_free (text, FALSE);
}

/* Where the edge's points lie tells nobody anything. */
static bool
is_told (const PrParam *param)
{
  return (param->kind == PR_PARAM_LENGTH && g_strcmp0 (param->group, "edge") != 0)
         || param->kind == PR_PARAM_COUNT;
}

/* The figures that are unlike, as this side has them. */
static void
add_unlike (GString *text, const PrPlan *mine, const PrPlan *other)
{
  guint told = 0, more = 0;

  for (size_t i = 0; i < pr_n_params; i++) {
    const PrParam *param = &pr_params[i];
    double value = pr_param_get (mine, param);

    if (fabs (value - pr_param_get (other, param)) < LEAST_UNLIKE)
      continue;
    if (!is_told (param) || told == MOST_FIGURES) {
      more++;
      continue;
    }
    g_autofree char *label = pr_param_label (param);
    g_autofree char *figure = param->kind == PR_PARAM_COUNT ? g_strdup_printf ("%.0f", value)
                                                            : pr_words_length (value, pr_settings_unit ());
    g_autofree char *line = g_strdup_printf ("%s: %s", label, figure);
    add_line (text, line);
    told++;
  }
  g_autofree char *rest = g_strdup_printf (ngettext ("and %u more", "and %u more", more), more);
  add_line (text, more > 0 ? rest : "");
}

/* What the other side has otherwise, as WHICH has it. */
static void
add_differences (GString *text, PrMergeItem *item, int which)
{
  const PrMergeSide *side = &item->foot->side[which], *other = &item->foot->side[1 - which];
  const PrJob *job = pr_merge_item_job (item, which), *beside = pr_merge_item_job (item, 1 - which);

  if (job && beside && side->plan && other->plan)
    add_unlike (text, &job->sources.plan, &beside->sources.plan);
  if (side->trace && other->trace && !g_str_equal (side->trace, other->trace))
    add_line (text, _ ("Another outline or marks"));
}

static char *
foot_says (PrMergeItem *item, int which)
{
  const PrMergeSide *side = &item->foot->side[which];
  const PrJob *job = pr_merge_item_job (item, which);
  GString *text = g_string_new (NULL);
  g_autofree char *moment = pr_words_moment (side->changed ? side->changed : "");
  g_autofree char *when = g_strdup_printf (_ ("Changed %s"), moment);
  g_autofree char *tries
      = g_strdup_printf (ngettext ("%u shoe forged", "%u shoes forged", side->attempts), side->attempts);

  if (side->plan && job) {
    g_autoptr (GPtrArray) styles = pr_styles_load (NULL);
    const PrStyle *style = pr_styles_find (styles, job->sources.plan.style);

    add_line (text, style ? style->name : job->sources.plan.style);
  }
  add_line (text, !side->plan ? _ ("No shoe") : "");
  add_line (text, !side->photo        ? _ ("No photo")
                  : side->other_photo ? _ ("Another photo")
                                      : _ ("The same photo"));
  add_line (text, side->attempts > 0 ? tries : "");
  add_differences (text, item, which);
  add_line (text, when);
  return g_string_free (text, FALSE);
}

char *
pr_merge_item_says (PrMergeItem *item, int side)
{
  return item->horse ? horse_says (&item->horse->says[side]) : foot_says (item, side);
}

/* --- the answer --- */

PrMergeChoice
pr_merge_item_choice (PrMergeItem *item)
{
  return item->horse ? item->horse->choice : item->foot->choice;
}

void
pr_merge_item_choose (PrMergeItem *item, PrMergeChoice choice)
{
  if (item->horse)
    item->horse->choice = choice;
  else
    item->foot->choice = choice;
}

static void
pr_merge_item_finalize (GObject *object)
{
  PrMergeItem *item = PR_MERGE_ITEM (object);

  for (int side = 0; side < 2; side++)
    g_clear_pointer (&item->job[side], pr_job_free);
  G_OBJECT_CLASS (pr_merge_item_parent_class)->finalize (object);
}

static void
pr_merge_item_init (PrMergeItem *item)
{
}

static void
pr_merge_item_class_init (PrMergeItemClass *class)
{
  G_OBJECT_CLASS (class)->finalize = pr_merge_item_finalize;
}
