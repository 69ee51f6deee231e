/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The JSON of a tracing: what `trace --json` prints and the book keeps. */
#include <glib/gi18n-lib.h>
#include <string.h>

#include "pr-error.h"
#include "pr-job.h"

#define MOST_POINTS 100000
/* No wall is thicker, mm: what was entered is held to narrower limits where it is entered. */
#define WALL_MOST 40.0

static const char *const wall_names[3] = { "toe", "quarter", "heel" };

static void
add_point (JsonBuilder *b, double x, double y)
{
  json_builder_begin_array (b);
  json_builder_add_double_value (b, x);
  json_builder_add_double_value (b, y);
  json_builder_end_array (b);
}

static void
put (JsonBuilder *b, const char *name, double value)
{
  json_builder_set_member_name (b, name);
  json_builder_add_double_value (b, value);
}

static void
put_text (JsonBuilder *b, const char *name, const char *value)
{
  json_builder_set_member_name (b, name);
  json_builder_add_string_value (b, value ? value : "");
}

static void
put_sheet_point (JsonBuilder *b, const char *name, PrSheetPt p)
{
  json_builder_set_member_name (b, name);
  add_point (b, p.x, p.y);
}

static void
put_references (JsonBuilder *b, const PrTracing *tracing)
{
  json_builder_set_member_name (b, "points");
  json_builder_begin_array (b);
  for (size_t i = 0; i < tracing->n_reference; i++) {
    const PrReference *r = &tracing->reference[i];
    json_builder_begin_object (b);
    put (b, "x_px", r->px.x);
    put (b, "y_px", r->px.y);
    put (b, "off_mm", r->off_mm);
    json_builder_set_member_name (b, "outlier");
    json_builder_add_boolean_value (b, r->outlier);
    json_builder_end_object (b);
  }
  json_builder_end_array (b);
}

static void
put_scale (JsonBuilder *b, const PrTracing *tracing)
{
  const PrScale *scale = &tracing->scale;

  json_builder_set_member_name (b, "scale");
  json_builder_begin_object (b);
  put_text (b, "method", pr_scale_method_code (scale->method));
  put_text (b, "paper", pr_paper_name (scale->paper));
  put_text (b, "foot", pr_foot_code (scale->foot));
  put (b, "width_mm", scale->width_mm);
  put (b, "height_mm", scale->height_mm);
  put (b, "px_per_mm", scale->px_per_mm);
  put (b, "residual_mm", scale->residual_mm);
  put (b, "tilt_deg", scale->tilt * 180 / G_PI);
  put (b, "lens_k1", tracing->camera.k1);
  put_text (b, "verdict", pr_verdict_code (scale->verdict));
  put_text (b, "why", scale->why);
  put_references (b, tracing);
  json_builder_end_object (b);
}

static void
put_camera (JsonBuilder *b, const PrTracing *tracing)
{
  const PrCamera *cam = &tracing->camera;

  json_builder_set_member_name (b, "camera");
  json_builder_begin_object (b);
  json_builder_set_member_name (b, "h");
  json_builder_begin_array (b);
  for (int i = 0; i < 9; i++)
    json_builder_add_double_value (b, cam->h[i]);
  json_builder_end_array (b);
  put (b, "k1", cam->k1);
  put (b, "centre_x", cam->centre.x);
  put (b, "centre_y", cam->centre.y);
  put (b, "radius", cam->radius);
  put (b, "raster_px_per_mm", tracing->raster);
  put (b, "pen_mm", tracing->pen_mm);
  put (b, "inward_mm", tracing->inward_mm);
  json_builder_end_object (b);
}

static void
put_doubt (JsonBuilder *b, const PrTracing *tracing)
{
  json_builder_set_member_name (b, "doubt");
  json_builder_begin_array (b);
  for (size_t i = 0; tracing && i < tracing->n_doubt; i++) {
    json_builder_begin_object (b);
    put (b, "from_mm", tracing->doubt[i].from_mm);
    put (b, "to_mm", tracing->doubt[i].to_mm);
    put_text (b, "why", tracing->doubt[i].why);
    json_builder_end_object (b);
  }
  json_builder_end_array (b);
}

static const char *const drawn_codes[] = { "none", "unsure", "sure" };

/* Where a hand drew a toe tick and a frog, as found on the photo. */
static void
put_drawn (JsonBuilder *b, const PrDrawnMarks *drawn)
{
  json_builder_set_member_name (b, "drawn");
  json_builder_begin_object (b);
  if (drawn->tick) {
    put_text (b, "tick", drawn_codes[drawn->tick]);
    put_sheet_point (b, "toe_mm", drawn->toe);
  }
  if (drawn->frog_lines) {
    put_text (b, "frog", drawn_codes[drawn->frog_lines]);
    put_sheet_point (b, "frog_apex_mm", drawn->frog_apex);
    put_sheet_point (b, "frog_edge_a_mm", drawn->frog[0]);
    put_sheet_point (b, "frog_edge_b_mm", drawn->frog[1]);
  }
  json_builder_end_object (b);
}

#define N_MARKS 6

typedef struct {
  const char *name;
  bool *has;
  PrSheetPt *at;
} Mark;

static void
list_marks (PrLandmarks *marks, Mark out[N_MARKS])
{
  const Mark table[N_MARKS] = {
    { "toe", &marks->has_toe, &marks->toe },
    { "heel_medial", &marks->has_buttress[PR_MEDIAL], &marks->buttress[PR_MEDIAL] },
    { "heel_lateral", &marks->has_buttress[PR_LATERAL], &marks->buttress[PR_LATERAL] },
    { "frog_apex", &marks->has_frog_apex, &marks->frog_apex },
    { "frog_medial", &marks->has_frog[PR_MEDIAL], &marks->frog[PR_MEDIAL] },
    { "frog_lateral", &marks->has_frog[PR_LATERAL], &marks->frog[PR_LATERAL] },
  };

  memcpy (out, table, sizeof table);
}

static void
put_landmarks (JsonBuilder *b, const PrJob *job)
{
  const PrHoof *hoof = &job->hoof;

  json_builder_set_member_name (b, "landmarks");
  json_builder_begin_object (b);
  put_sheet_point (b, "toe", pr_foot_frame_out (&hoof->frame, hoof->toe));
  put_sheet_point (b, "heel_medial", pr_foot_frame_out (&hoof->frame, hoof->buttress[PR_MEDIAL]));
  put_sheet_point (b, "heel_lateral", pr_foot_frame_out (&hoof->frame, hoof->buttress[PR_LATERAL]));
  put_sheet_point (b, "widest_medial", pr_foot_frame_out (&hoof->frame, hoof->widest[PR_MEDIAL]));
  put_sheet_point (b, "widest_lateral", pr_foot_frame_out (&hoof->frame, hoof->widest[PR_LATERAL]));
  if (hoof->has_frog_apex)
    put_sheet_point (b, "frog_apex", pr_foot_frame_out (&hoof->frame, hoof->frog_apex));
  if (hoof->has_frog[PR_MEDIAL])
    put_sheet_point (b, "frog_medial", pr_foot_frame_out (&hoof->frame, hoof->frog[PR_MEDIAL]));
  if (hoof->has_frog[PR_LATERAL])
    put_sheet_point (b, "frog_lateral", pr_foot_frame_out (&hoof->frame, hoof->frog[PR_LATERAL]));
  json_builder_end_object (b);
}

/* Those set by hand, which finding anew must not move, where the hand put them. */
static void
put_marks (JsonBuilder *b, PrLandmarks *marks)
{
  Mark table[N_MARKS];

  list_marks (marks, table);
  json_builder_set_member_name (b, "landmarks_by_hand");
  json_builder_begin_array (b);
  for (int i = 0; i < N_MARKS; i++)
    if (*table[i].has)
      json_builder_add_string_value (b, table[i].name);
  json_builder_end_array (b);
  json_builder_set_member_name (b, "by_hand_mm");
  json_builder_begin_object (b);
  for (int i = 0; i < N_MARKS; i++)
    if (*table[i].has)
      put_sheet_point (b, table[i].name, *table[i].at);
  json_builder_end_object (b);
}

/* Only what was entered: a default is made again, and may be another one in a later version. */
static void
put_wall (JsonBuilder *b, const double wall[3])
{
  json_builder_set_member_name (b, "wall_mm");
  json_builder_begin_object (b);
  for (int i = 0; i < 3; i++)
    if (wall[i] > 0)
      put (b, wall_names[i], wall[i]);
  json_builder_end_object (b);
}

static void
put_hoof (JsonBuilder *b, const PrHoof *hoof)
{
  json_builder_set_member_name (b, "hoof");
  json_builder_begin_object (b);
  put (b, "length_mm", hoof->length);
  put (b, "width_mm", hoof->width);
  put (b, "length_to_width", hoof->width > 0 ? hoof->length / hoof->width : 0);
  put (b, "width_medial_mm", hoof->width_side[PR_MEDIAL]);
  put (b, "width_lateral_mm", hoof->width_side[PR_LATERAL]);
  put (b, "toe_to_widest_mm", hoof->toe_to_widest);
  put (b, "widest_to_heels_mm", hoof->widest_to_heels);
  put (b, "heel_width_mm", hoof->heel_width);
  put_text (b, "centre_line", pr_centre_code (hoof->centre));
  put (b, "area_mm2", hoof->area);
  put (b, "perimeter_mm", hoof->perimeter);
  put (b, "lean_mm", hoof->lean);
  put (b, "wall_toe_mm", hoof->wall[0]);
  put (b, "wall_quarter_mm", hoof->wall[1]);
  put (b, "wall_heel_mm", hoof->wall[2]);
  json_builder_end_object (b);
}

JsonNode *
pr_job_trace_json (const PrJob *job)
{
  g_autoptr (JsonBuilder) b = json_builder_new ();
  const PrTracing *t = job->sources.tracing;

  json_builder_begin_object (b);
  if (pr_sources_scale (&job->sources)) {
    json_builder_set_member_name (b, "photo");
    json_builder_begin_object (b);
    put_text (b, "file", job->sources.tracing->file);
    json_builder_set_member_name (b, "width_px");
    json_builder_add_int_value (b, job->sources.tracing->width_px);
    json_builder_set_member_name (b, "height_px");
    json_builder_add_int_value (b, job->sources.tracing->height_px);
    json_builder_end_object (b);
    put_scale (b, job->sources.tracing);
    put_camera (b, job->sources.tracing);
  }
  put_text (b, "foot", pr_foot_code (job->sources.foot));
  json_builder_set_member_name (b, "outline_mm");
  json_builder_begin_array (b);
  for (size_t i = 0; t && i < t->n_outline; i++)
    add_point (b, t->outline[i].x, t->outline[i].y);
  json_builder_end_array (b);
  json_builder_set_member_name (b, "closed");
  json_builder_add_boolean_value (b, t && t->closed);
  put_doubt (b, t);
  if (t && (t->drawn.tick || t->drawn.frog_lines))
    put_drawn (b, &t->drawn);
  put_wall (b, job->sources.wall);
  if (job->hoof.outline.n) {
    PrLandmarks marks = job->sources.marks;

    put_landmarks (b, job);
    put_marks (b, &marks);
    put_hoof (b, &job->hoof);
  }
  json_builder_end_object (b);
  return json_builder_get_root (b);
}

static bool
bad (GError **error, const char *what)
{
  g_set_error (error, PR_ERROR, PR_ERROR_INPUT,
               _ ("This outline cannot be read (%s); use a file that “pritchel trace --json” wrote."), what);
  return false;
}

static bool
get (JsonObject *object, const char *name, double *value)
{
  JsonNode *node = object ? json_object_get_member (object, name) : NULL;

  if (!node || !JSON_NODE_HOLDS_VALUE (node)
      || !(json_node_get_value_type (node) == G_TYPE_DOUBLE
           || json_node_get_value_type (node) == G_TYPE_INT64))
    return false;
  *value = json_node_get_double (node);
  return isfinite (*value);
}

static const char *
get_text (JsonObject *object, const char *name)
{
  JsonNode *node = object ? json_object_get_member (object, name) : NULL;

  return node && JSON_NODE_HOLDS_VALUE (node) ? json_node_get_string (node) : NULL;
}

static JsonObject *
get_object (JsonObject *object, const char *name)
{
  JsonNode *node = object ? json_object_get_member (object, name) : NULL;

  return node && JSON_NODE_HOLDS_OBJECT (node) ? json_node_get_object (node) : NULL;
}

static JsonArray *
get_array (JsonObject *object, const char *name)
{
  JsonNode *node = object ? json_object_get_member (object, name) : NULL;

  return node && JSON_NODE_HOLDS_ARRAY (node) ? json_node_get_array (node) : NULL;
}

static bool
number_at (JsonArray *array, guint i, double *value)
{
  JsonNode *node = array && i < json_array_get_length (array) ? json_array_get_element (array, i) : NULL;

  if (!node || !JSON_NODE_HOLDS_VALUE (node) || json_node_get_value_type (node) == G_TYPE_STRING)
    return false;
  *value = json_node_get_double (node);
  return isfinite (*value);
}

static bool
point_of (JsonNode *node, PrSheetPt *p)
{
  JsonArray *pair = node && JSON_NODE_HOLDS_ARRAY (node) ? json_node_get_array (node) : NULL;

  return pair && number_at (pair, 0, &p->x) && number_at (pair, 1, &p->y);
}

static PrSheetPt *
read_outline (JsonObject *root, size_t *n)
{
  JsonArray *array = get_array (root, "outline_mm");
  guint len = array ? json_array_get_length (array) : 0;

  if (len < 2 || len > MOST_POINTS)
    return NULL;
  g_autofree PrSheetPt *points = g_new (PrSheetPt, len);
  for (guint i = 0; i < len; i++)
    if (!point_of (json_array_get_element (array, i), &points[i]))
      return NULL;
  *n = len;
  return g_steal_pointer (&points);
}

static PrDrawn
drawn_of (JsonObject *object, const char *name)
{
  const char *code = object ? get_text (object, name) : NULL;

  for (PrDrawn drawn = PR_DRAWN_UNSURE; code && drawn <= PR_DRAWN_SURE; drawn++)
    if (strcmp (code, drawn_codes[drawn]) == 0)
      return drawn;
  return PR_DRAWN_NONE;
}

/* What has not all its places is none. */
static void
read_drawn (JsonObject *root, PrDrawnMarks *drawn)
{
  JsonObject *object = get_object (root, "drawn");

  *drawn = (PrDrawnMarks){ 0 };
  if (object && point_of (json_object_get_member (object, "toe_mm"), &drawn->toe))
    drawn->tick = drawn_of (object, "tick");
  if (object && point_of (json_object_get_member (object, "frog_apex_mm"), &drawn->frog_apex)
      && point_of (json_object_get_member (object, "frog_edge_a_mm"), &drawn->frog[0])
      && point_of (json_object_get_member (object, "frog_edge_b_mm"), &drawn->frog[1]))
    drawn->frog_lines = drawn_of (object, "frog");
}

static bool
names_it (JsonArray *list, const char *name)
{
  for (guint i = 0; list && i < json_array_get_length (list); i++) {
    JsonNode *node = json_array_get_element (list, i);

    if (JSON_NODE_HOLDS_VALUE (node) && g_strcmp0 (json_node_get_string (node), name) == 0)
      return true;
  }
  return false;
}

/* All that "by_hand_mm" places. Files written before there was one have only where the hoof put what was set by hand. */
static void
read_marks (JsonObject *root, PrLandmarks *marks)
{
  JsonArray *hand = get_array (root, "landmarks_by_hand");
  JsonObject *exact = get_object (root, "by_hand_mm");
  JsonObject *where = exact ? exact : get_object (root, "landmarks");
  Mark table[N_MARKS];

  list_marks (marks, table);
  for (size_t k = 0; where && k < N_MARKS; k++)
    if (exact || names_it (hand, table[k].name))
      *table[k].has = point_of (json_object_get_member (where, table[k].name), table[k].at);
}

static bool
read_camera (JsonObject *object, PrTracing *tracing)
{
  PrCamera *cam = &tracing->camera;
  JsonArray *h = get_array (object, "h");

  for (guint i = 0; i < 9; i++)
    if (!number_at (h, i, &cam->h[i]))
      return false;
  get (object, "pen_mm", &tracing->pen_mm);
  get (object, "inward_mm", &tracing->inward_mm);
  return get (object, "k1", &cam->k1) && get (object, "centre_x", &cam->centre.x)
         && get (object, "centre_y", &cam->centre.y) && get (object, "radius", &cam->radius)
         && get (object, "raster_px_per_mm", &tracing->raster) && cam->radius > 0 && tracing->raster > 0.1
         && tracing->raster <= 20;
}

static bool
read_scale (JsonObject *object, PrScale *scale)
{
  const char *method = get_text (object, "method"), *paper = get_text (object, "paper");
  const char *foot = get_text (object, "foot"), *verdict = get_text (object, "verdict");
  double tilt = 0;

  scale->paper = PR_PAPER_UNKNOWN;
  if (!method || !pr_scale_method_parse (method, &scale->method))
    return false;
  if (paper)
    pr_paper_parse (paper, &scale->paper);
  if (foot)
    pr_foot_parse (foot, &scale->foot);
  scale->verdict = PR_VERDICT_RETAKE;
  for (PrVerdict v = PR_VERDICT_GOOD; v <= PR_VERDICT_RETAKE; v++)
    if (verdict && strcmp (verdict, pr_verdict_code (v)) == 0)
      scale->verdict = v;
  get (object, "residual_mm", &scale->residual_mm);
  if (get (object, "tilt_deg", &tilt))
    scale->tilt = tilt * G_PI / 180;
  scale->why = g_strdup (get_text (object, "why"));
  /* no sheet is longer than 2 m */
  return get (object, "px_per_mm", &scale->px_per_mm) && get (object, "width_mm", &scale->width_mm)
         && get (object, "height_mm", &scale->height_mm) && scale->width_mm > 1 && scale->width_mm < 2000
         && scale->height_mm > 1 && scale->height_mm < 2000;
}

static void
read_doubt (JsonObject *root, PrTracing *tracing)
{
  JsonArray *array = get_array (root, "doubt");
  guint n = array ? json_array_get_length (array) : 0;

  tracing->doubt = g_new0 (PrDoubt, n);
  for (guint i = 0; i < n; i++) {
    JsonNode *node = json_array_get_element (array, i);
    JsonObject *object = JSON_NODE_HOLDS_OBJECT (node) ? json_node_get_object (node) : NULL;
    PrDoubt *doubt = &tracing->doubt[tracing->n_doubt];

    if (get (object, "from_mm", &doubt->from_mm) && get (object, "to_mm", &doubt->to_mm)) {
      doubt->why = g_strdup (get_text (object, "why"));
      tracing->n_doubt++;
    }
  }
}

static void
read_references (JsonObject *scale, PrTracing *tracing)
{
  JsonArray *array = get_array (scale, "points");
  guint n = array ? MIN (json_array_get_length (array), PR_REFERENCES_MOST) : 0;

  for (guint i = 0; i < n; i++) {
    JsonNode *node = json_array_get_element (array, i);
    JsonObject *object = JSON_NODE_HOLDS_OBJECT (node) ? json_node_get_object (node) : NULL;
    PrReference *r = &tracing->reference[tracing->n_reference];

    if (get (object, "x_px", &r->px.x) && get (object, "y_px", &r->px.y)
        && get (object, "off_mm", &r->off_mm)) {
      JsonNode *outlier = json_object_get_member (object, "outlier");
      r->outlier = outlier && JSON_NODE_HOLDS_VALUE (outlier) && json_node_get_boolean (outlier);
      tracing->n_reference++;
    }
  }
}

/* Scale and camera, where the JSON has them whole. FALSE: it has not, and TRACING is of no use. */
static bool
read_photo (JsonObject *root, PrTracing *tracing)
{
  JsonObject *photo = get_object (root, "photo");
  double w = 0, h = 0;

  if (!photo || !get (photo, "width_px", &w) || !get (photo, "height_px", &h) || w < 1 || h < 1 || w > 1e5
      || h > 1e5 || !read_scale (get_object (root, "scale"), &tracing->scale)
      || !read_camera (get_object (root, "camera"), tracing))
    return false;
  tracing->file = g_strdup (get_text (photo, "file"));
  tracing->width_px = (int) w;
  tracing->height_px = (int) h;
  read_references (get_object (root, "scale"), tracing);
  read_doubt (root, tracing);
  return true;
}

/* An outline's scale, or the outline without one. Transfer full. */
static PrTracing *
read_tracing (JsonObject *root)
{
  g_autoptr (PrTracing) tracing = pr_tracing_new ();

  return read_photo (root, tracing) ? g_steal_pointer (&tracing) : pr_tracing_new ();
}

/* Files written before there was "wall_mm" have only what counted, entered or not; their default there
 * was not entered. */
static void
read_wall_before (JsonObject *hoof, double wall[3])
{
  static const char *const names[3] = { "wall_toe_mm", "wall_quarter_mm", "wall_heel_mm" };
  static const double usual[3] = { 11, 8, 7 };

  for (int i = 0; i < 3; i++)
    if (!get (hoof, names[i], &wall[i]) || wall[i] == usual[i])
      wall[i] = 0;
}

static void
read_wall (JsonObject *root, double wall[3])
{
  JsonObject *entered = get_object (root, "wall_mm");

  if (entered)
    for (int i = 0; i < 3; i++)
      get (entered, wall_names[i], &wall[i]);
  else
    read_wall_before (get_object (root, "hoof"), wall);
  for (int i = 0; i < 3; i++)
    if (!(wall[i] > 0 && wall[i] < WALL_MOST))
      wall[i] = 0;
}

static bool
is_true (JsonObject *root, const char *name)
{
  JsonNode *node = json_object_get_member (root, name);

  return node && JSON_NODE_HOLDS_VALUE (node) && json_node_get_boolean (node);
}

bool
pr_job_take_trace_json (PrJob *job, JsonNode *node, GError **error)
{
  JsonObject *root = node && JSON_NODE_HOLDS_OBJECT (node) ? json_node_get_object (node) : NULL;
  PrFoot foot = PR_FOOT_ANY;
  PrTracing *tracing;
  size_t n = 0;

  if (!root)
    return bad (error, _ ("it is not a JSON object"));
  g_autofree PrSheetPt *outline = read_outline (root, &n);
  if (!outline)
    return bad (error, _ ("it has no list of points “outline_mm”"));
  const char *code = get_text (root, "foot");
  if (job->sources.foot == PR_FOOT_ANY && code && pr_foot_parse (code, &foot))
    job->sources.foot = foot;
  tracing = read_tracing (root);
  tracing->outline = g_steal_pointer (&outline);
  tracing->n_outline = n;
  tracing->closed = is_true (root, "closed");
  read_drawn (root, &tracing->drawn);
  if (!pr_job_take_tracing (job, tracing, error))
    return false;
  memset (job->sources.wall, 0, sizeof job->sources.wall);
  read_wall (root, job->sources.wall);
  read_marks (root, &job->sources.marks);
  return pr_job_refresh_hoof (job, error);
}
