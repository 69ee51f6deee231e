/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What plan and check share: the plan the arguments ask for. */
#include "cli.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "pr-error.h"
#include "pr-own-nails.h"
#include "pr-sources-set.h"

void
cli_plan_args_clear (CliPlanArgs *args)
{
  g_free (args->foot);
  g_free (args->style);
  g_free (args->nails);
  g_free (args->bar);
  g_free (args->given);
  g_free (args->unit);
  g_strfreev (args->set);
  memset (args, 0, sizeof *args);
}

/* Of all that is set, what is measured or marked on the foot itself. ANY (may be NULL): was there any? */
static bool
apply_to_foot (PrJob *job, char **set, bool known, bool *any, GError **error)
{
  for (size_t i = 0; set != NULL && set[i] != NULL; i++) {
    const char *equals = strchr (set[i], '=');
    g_autofree char *name
        = equals ? g_strstrip (g_strndup (set[i], (gsize) (equals - set[i]))) : g_strdup ("");

    if (!pr_sources_has_name (name))
      continue;
    if (!pr_sources_set_text (&job->sources, known ? &job->hoof : NULL, name, equals + 1, job->unit, error))
      return false;
    if (any)
      *any = true;
  }
  return true;
}

static bool
foot_as_set (PrJob *job, char **set, GError **error)
{
  bool any = false;

  return apply_to_foot (job, set, true, &any, error) && (!any || pr_job_refresh_hoof (job, error));
}

static bool
apply_sets (PrPlan *plan, char **set, PrUnit unit, GError **error)
{
  for (size_t i = 0; set != NULL && set[i] != NULL; i++) {
    const char *equals = strchr (set[i], '=');
    if (equals == NULL || equals == set[i])
      return cli_wrong (error, _ ("“%s” sets nothing; write it like web.toe=24"), set[i]);
    g_autofree char *name = g_strndup (set[i], (gsize) (equals - set[i]));
    if (!pr_sources_has_name (g_strstrip (name)) && !pr_plan_set_text (plan, name, equals + 1, unit, error))
      return false;
  }
  return true;
}

static bool
apply_style (PrJob *job, const char *id, GError **error)
{
  g_autoptr (GPtrArray) styles = pr_styles_load (NULL);
  const char *wanted = id != NULL ? id : pr_foot_is_hind (job->sources.foot) ? "plain-hind" : "plain-front";
  const PrStyle *style = pr_styles_find (styles, wanted);

  if (style != NULL) {
    pr_job_apply_style (job, style, &job->sources.plan);
    return true;
  }
  g_autoptr (GString) ids = g_string_new (NULL);
  for (guint i = 0; i < styles->len; i++)
    g_string_append_printf (ids, "%s%s", i > 0 ? ", " : "", ((PrStyle *) styles->pdata[i])->id);
  return cli_wrong (error, _ ("There is no style “%s”; use one of %s"), wanted, ids->str);
}

static bool
apply_nails (PrPlan *plan, const char *name, GError **error)
{
  g_autofree char *problem = NULL;
  g_autoptr (GPtrArray) nails = name ? pr_own_nails_load (&problem) : NULL;

  if (!name)
    return true;
  if (problem)
    return cli_wrong (error, "%s", problem);
  const PrOwnNail *nail = pr_own_nails_find (nails, name);
  if (nail) {
    pr_own_nail_use (nail, plan);
    return true;
  }
  g_autoptr (GString) names = g_string_new (NULL);
  for (guint i = 0; i < nails->len; i++)
    g_string_append_printf (names, "%s%s", i > 0 ? ", " : "", ((PrOwnNail *) nails->pdata[i])->name);
  return nails->len > 0
             ? cli_wrong (error, _ ("There are no nails of your own called “%s”; use one of %s"), name,
                          names->str)
             : cli_wrong (error,
                          _ ("No nails of your own are saved yet; save some in the window, under Nailing"));
}

static bool
apply_bar (PrPlan *plan, const CliPlanArgs *args, PrUnit unit, GError **error)
{
  if (args->bar != NULL && !pr_plan_set_section (plan, args->bar, unit, error))
    return false;
  if (args->given == NULL)
    return true;
  if (!pr_length_parse (args->given, unit, &plan->given, error))
    return false;
  return plan->given > 0
         || cli_wrong (error, _ ("--given %s is no length of stock; measure the stock in hand"), args->given);
}

bool
cli_plan_begin (PrJob *job, const CliPlanArgs *args, GError **error)
{
  return cli_read_unit (args->unit, &job->unit, error)
         && cli_read_foot (args->foot, &job->sources.foot, error)
         && apply_nails (&job->sources.plan, args->nails, error)
         && apply_bar (&job->sources.plan, args, job->unit, error) && apply_style (job, args->style, error)
         && apply_to_foot (job, args->set, false, NULL, error)
         && apply_sets (&job->sources.plan, args->set, job->unit, error);
}

bool
cli_plan_finish (PrJob *job, const CliPlanArgs *args, GError **error)
{
  /* only now is the foot known: its size, and by the sheet's number whether it is a hind one */
  return foot_as_set (job, args->set, error) && apply_style (job, args->style, error)
         && apply_sets (&job->sources.plan, args->set, job->unit, error) && pr_job_fit (job, error)
         && apply_sets (&job->sources.plan, args->set, job->unit, error) && pr_job_refresh (job, error);
}

int
cli_list_styles (void)
{
  g_autoptr (GPtrArray) problems = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GPtrArray) styles = pr_styles_load (problems);

  for (guint i = 0; i < styles->len; i++) {
    const PrStyle *style = g_ptr_array_index (styles, i);
    cli_print ("%-28s %s\n", style->id, style->name);
    if (style->purpose != NULL && *style->purpose != 0)
      cli_print ("%-28s %s\n", "", style->purpose);
    if (style->caution != NULL && *style->caution != 0)
      cli_print ("%-28s %s\n", "", style->caution);
  }
  for (guint i = 0; i < problems->len; i++)
    cli_print_trouble ("pritchel: %s\n", (const char *) g_ptr_array_index (problems, i));
  return CLI_DONE;
}

/* "0 to 60 mm", "none, straight, egg, heart" ... */
static char *
range_text (const PrParam *p)
{
  static const char *const units[] = {
    [PR_PARAM_LENGTH] = " mm", [PR_PARAM_SHARE] = "", [PR_PARAM_PLACE] = "",
    [PR_PARAM_ANGLE] = "°",    [PR_PARAM_COUNT] = "",
  };
  double scale = p->kind == PR_PARAM_ANGLE ? 180 / G_PI : 1;
  char low[G_ASCII_DTOSTR_BUF_SIZE], high[G_ASCII_DTOSTR_BUF_SIZE];

  if (p->kind == PR_PARAM_CHOICE)
    return g_strjoinv (", ", (char **) p->choices);
  if (p->kind == PR_PARAM_SWITCH)
    return g_strdup ("yes, no");
  g_ascii_formatd (low, sizeof low, "%.4g", p->min * scale);
  g_ascii_formatd (high, sizeof high, "%.4g", p->max * scale);
  return g_strdup_printf (_ ("%s to %s%s"), low, high, units[p->kind]);
}

int
cli_list_params (void)
{
  const char *name, *what;

  for (size_t i = 0; i < pr_n_params; i++) {
    g_autofree char *range = range_text (&pr_params[i]);
    g_autofree char *label = pr_param_label (&pr_params[i]);
    cli_print ("%-28s %s (%s)\n", pr_params[i].name, label, range);
  }
  for (size_t i = 0; pr_sources_name (i, &name, &what); i++)
    cli_print ("%-28s %s\n", name, what);
  return CLI_DONE;
}

bool
cli_plan_set (PrJob *job, const CliPlanArgs *args, GError **error)
{
  return apply_bar (&job->sources.plan, args, job->unit, error)
         && apply_sets (&job->sources.plan, args->set, job->unit, error) && pr_job_refresh (job, error);
}
