/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-record.h"

#include <glib/gi18n-lib.h>
#include <string.h>
#include "pr-bounds.h"
#include "pr-error.h"
#include "pr-json.h"

/* --- how the photo was asked to be traced --- */

static JsonNode *
asked_json (const PrTraceOptions *asked)
{
  g_autoptr (JsonBuilder) b = json_builder_new ();

  json_builder_begin_object (b);
  json_builder_set_member_name (b, "method");
  json_builder_add_string_value (b, pr_scale_method_code (asked->method));
  if (asked->paper != PR_PAPER_UNKNOWN) {
    json_builder_set_member_name (b, "paper");
    json_builder_add_string_value (b, pr_paper_name (asked->paper));
  }
  if (asked->paper_sure) {
    json_builder_set_member_name (b, "sure");
    json_builder_add_boolean_value (b, true);
  }
  if (asked->trust != PR_TRUST_ASK) {
    json_builder_set_member_name (b, "trust");
    json_builder_add_string_value (b, pr_trust_code (asked->trust));
  }
  json_builder_set_member_name (b, "numbers"); /* sides, pen, then the points */
  json_builder_begin_array (b);
  json_builder_add_double_value (b, asked->side_mm[0]);
  json_builder_add_double_value (b, asked->side_mm[1]);
  json_builder_add_double_value (b, asked->pen_mm);
  for (size_t i = 0; i < asked->n_points; i++) {
    json_builder_add_double_value (b, asked->point[i].x);
    json_builder_add_double_value (b, asked->point[i].y);
  }
  json_builder_end_array (b);
  json_builder_set_member_name (b, "snap");
  json_builder_add_boolean_value (b, asked->snap);
  json_builder_end_object (b);
  return json_builder_get_root (b);
}

/* Sides and pen, then a pair for each point. What cannot be was not asked. */
static void
read_numbers (JsonArray *numbers, PrTraceOptions *asked)
{
  double value[3 + 8] = { 0 }, v;
  guint n = MIN (json_array_get_length (numbers), G_N_ELEMENTS (value));

  for (guint i = 0; i < n; i++) {
    PrBound bound = i < 2 ? PR_BOUND_SHEET : i == 2 ? PR_BOUND_PEN : PR_BOUND_PIXEL;

    if (pr_json_is_number (json_array_get_element (numbers, i), &v) && pr_bound_holds (bound, v))
      value[i] = v;
  }
  asked->side_mm[0] = value[0];
  asked->side_mm[1] = value[1];
  asked->pen_mm = value[2];
  asked->n_points = n >= 11 ? 4 : n >= 7 ? 2 : 0;
  for (size_t i = 0; i < asked->n_points; i++)
    asked->point[i] = (PrPx){ value[3 + 2 * i], value[4 + 2 * i] };
}

static void
read_asked (JsonNode *trace, PrTraceOptions *options)
{
  JsonObject *asked = pr_json_object (pr_json_is_object (trace), "asked");
  const char *method = pr_json_string (asked, "method"), *paper = pr_json_string (asked, "paper");
  const char *trust = pr_json_string (asked, "trust");
  JsonArray *numbers = pr_json_array (asked, "numbers");

  *options = (PrTraceOptions) PR_TRACE_OPTIONS_DEFAULT;
  if (!asked)
    return;
  if (method)
    pr_scale_method_parse (method, &options->method);
  if (paper)
    options->paper_sure = pr_paper_parse (paper, &options->paper) && pr_json_true (asked, "sure");
  if (trust)
    pr_trust_parse (trust, &options->trust);
  options->snap = !json_object_has_member (asked, "snap") || pr_json_true (asked, "snap");
  if (numbers)
    read_numbers (numbers, options);
}

/* --- out of the book --- */

/* NULL when the part is not there or cannot be read. Transfer full. */
static JsonNode *
parse (char *text)
{
  g_autofree char *owned = text;

  return text ? pr_json_parse (text, strlen (text), NULL) : NULL;
}

static bool
has_outline (JsonNode *trace)
{
  return trace && JSON_NODE_HOLDS_OBJECT (trace)
         && json_object_has_member (json_node_get_object (trace), "outline_mm");
}

static bool
no_outline (GError **error)
{
  g_set_error_literal (error, PR_ERROR, PR_ERROR_BOOK,
                       _ ("This foot has no tracing yet; open a photo of it."));
  return false;
}

static bool
read_parts (PrBook *book, const PrBookFoot *row, PrJob *job, PrRecord *record, GError **error)
{
  g_autoptr (GError) why = NULL;
  g_autoptr (JsonNode) trace = parse (pr_book_get_trace (book, row->id, &why));
  g_autoptr (JsonNode) plan = parse (pr_book_get_plan (book, row->id, NULL));

  job->sources.foot = row->foot;
  read_asked (trace, &job->sources.asked);
  record->photo = row->has_photo;
  record->outline = has_outline (trace);
  if (!record->outline && row->has_photo) { /* what was planned waits for a line */
    record->plan = plan && pr_job_take_plan_json (job, plan, NULL);
    return true;
  }
  if (!record->outline && why) {
    g_propagate_error (error, g_steal_pointer (&why));
    return false;
  }
  if (!record->outline)
    return no_outline (error);
  if (!pr_job_take_trace_json (job, trace, error))
    return false;
  record->plan = plan && pr_job_take_plan_json (job, plan, NULL);
  return !record->plan || pr_job_refresh (job, error);
}

bool
pr_record_read (PrBook *book, PrBookId foot, PrJob *job, PrRecord *record, GError **error)
{
  g_auto (PrBookFoot) row = { 0 };
  g_auto (PrBookHorse) horse = { 0 };
  PrRecord found = { 0 };
  bool ok = pr_book_get_foot (book, foot, &row, NULL, &horse, error);

  if (ok) {
    found.visit = row.visit;
    found.horse = horse.id;
    ok = read_parts (book, &row, job, &found, error);
  }
  if (record)
    *record = found;
  return ok;
}

bool
pr_record_hoof (PrBook *book, PrBookId foot, PrHoof *out, GError **error)
{
  g_auto (PrBookFoot) row = { 0 };

  pr_hoof_clear (out);
  if (!pr_book_get_foot (book, foot, &row, NULL, NULL, error))
    return false;
  g_autoptr (JsonNode) trace = parse (pr_book_get_trace (book, foot, NULL));
  return has_outline (trace) ? pr_job_read_hoof (out, trace, row.foot, error) : no_outline (error);
}

bool
pr_record_plan (PrBook *book, PrBookId foot, PrPlan *plan)
{
  g_autoptr (JsonNode) node = parse (pr_book_get_plan (book, foot, NULL));

  pr_plan_init (plan);
  return node && pr_plan_from_json (plan, node, NULL);
}

static bool
has_parts (PrBook *book, const PrBookFoot *row, PrParts parts)
{
  g_autofree char *trace = parts & PR_PART_TRACE ? pr_book_get_trace (book, row->id, NULL) : NULL;

  return (parts & PR_PART_PHOTO && row->has_photo) || (parts & PR_PART_PLAN && row->has_plan) || trace;
}

PrBookId
pr_record_find (PrBook *book, PrBookId visit, PrFoot foot, PrParts parts)
{
  g_autoptr (GPtrArray) feet = visit ? pr_book_feet (book, visit, NULL) : NULL;

  for (guint i = 0; feet && i < feet->len; i++) {
    const PrBookFoot *row = g_ptr_array_index (feet, i);

    if (row->foot == foot && has_parts (book, row, parts))
      return row->id;
  }
  return 0;
}

PrBookId
pr_record_earlier (PrBook *book, PrBookId horse, PrBookId before, PrFoot foot)
{
  g_autoptr (GPtrArray) visits = horse ? pr_book_visits (book, horse, NULL) : NULL;
  bool older = before == 0;
  PrPlan plan;

  for (guint i = 0; visits && i < visits->len; i++) { /* newest first */
    const PrBookVisit *visit = g_ptr_array_index (visits, i);
    PrBookId id = older ? pr_record_find (book, visit->id, foot, PR_PART_PLAN) : 0;

    if (id && pr_record_plan (book, id, &plan))
      return id;
    older |= visit->id == before;
  }
  return 0;
}

/* --- into the book --- */

/* A tracing without a line has no "outline_mm": such a foot is traced again when it is opened. */
static char *
trace_text (const PrJob *job)
{
  g_autoptr (JsonNode) whole = pr_sources_has_outline (&job->sources) ? pr_job_trace_json (job) : NULL;
  g_autoptr (JsonNode) node = json_node_new (JSON_NODE_OBJECT);
  JsonObject *root = whole ? json_node_dup_object (whole) : json_object_new ();

  json_object_set_member (root, "asked", asked_json (&job->sources.asked));
  json_node_take_object (node, root);
  return pr_json_text (node, false);
}

static char *
plan_text (const PrJob *job)
{
  g_autoptr (JsonNode) node = pr_job_plan_json (job);

  return pr_json_text (node, false);
}

static bool
keep (PrBook *book, PrBookId foot, const PrJob *job, PrParts parts, GError **error)
{
  g_autofree char *trace = parts & PR_PART_TRACE ? trace_text (job) : NULL;
  g_autofree char *plan = parts & PR_PART_PLAN ? plan_text (job) : NULL;

  GBytes *photo = job->sources.photo && g_bytes_get_size (job->sources.photo) > 0 ? job->sources.photo : NULL;

  return (!(parts & PR_PART_PHOTO) || pr_book_set_photo (book, foot, photo, job->sources.photo_name, error))
         && (!trace || pr_book_set_trace (book, foot, trace, error))
         && (!plan || pr_book_set_plan (book, foot, plan, error))
         && (!(parts & PR_PART_FOOT) || pr_book_set_side (book, foot, job->sources.foot, error));
}

bool
pr_record_keep (PrBook *book, PrBookId foot, const PrJob *job, PrParts parts, GError **error)
{
  return pr_book_begin (book, error) && pr_book_end (book, keep (book, foot, job, parts, error), error);
}
