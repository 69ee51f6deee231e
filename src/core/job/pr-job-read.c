/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The JSON of a tracing read back. It may come from anybody: what is not there or of another kind is as
 * absent; what is there and beyond pr-bounds.h is refused. */
#include <glib/gi18n-lib.h>
#include <string.h>

#include "pr-bounds.h"
#include "pr-error.h"
#include "pr-job-marks.h"
#include "pr-json.h"

static bool
bad (GError **error, const char *what)
{
  g_set_error (error, PR_ERROR, PR_ERROR_INPUT,
               _ ("This outline cannot be read (%s); use a file that “pritchel trace --json” wrote."), what);
  return false;
}

/* One reading: the first value that is out of bounds, as pr_bound_says has it; NULL while there is none. */
typedef struct {
  char *wrong;
} Reading;

static bool
holds (Reading *in, PrBound bound, double value)
{
  bool ok = pr_bound_holds (bound, value);

  if (!ok && !in->wrong)
    in->wrong = pr_bound_says (bound, value);
  return ok;
}

/* FALSE, VALUE untouched: it is not there, or out of bounds. */
static bool
get (Reading *in, JsonObject *object, const char *name, PrBound bound, double *value)
{
  double v;

  if (!pr_json_number (object, name, &v) || !holds (in, bound, v))
    return false;
  *value = v;
  return true;
}

static bool
number_at (Reading *in, JsonArray *array, guint i, PrBound bound, double *value)
{
  JsonNode *node = array && i < json_array_get_length (array) ? json_array_get_element (array, i) : NULL;

  return pr_json_is_number (node, value) && holds (in, bound, *value);
}

static bool
point_of (Reading *in, JsonNode *node, PrSheetPt *p)
{
  JsonArray *pair = node && JSON_NODE_HOLDS_ARRAY (node) ? json_node_get_array (node) : NULL;

  return number_at (in, pair, 0, PR_BOUND_PLACE, &p->x) && number_at (in, pair, 1, PR_BOUND_PLACE, &p->y);
}

/* The points of the list NAME. */
static PrSheetPt *
read_points (Reading *in, JsonObject *root, const char *name, size_t *n)
{
  JsonArray *array = pr_json_array (root, name);
  guint len = array ? json_array_get_length (array) : 0;

  if (len == 0 || !holds (in, PR_BOUND_POINTS, len))
    return NULL;
  g_autofree PrSheetPt *points = g_new (PrSheetPt, len);
  for (guint i = 0; i < len; i++)
    if (!point_of (in, json_array_get_element (array, i), &points[i]))
      return NULL;
  *n = len;
  return g_steal_pointer (&points);
}

/* Files written before the way round the bulbs was kept have none, and no heel that could be set on it. */
static void
read_closed (Reading *in, JsonObject *root, PrFootLine *line)
{
  JsonArray *range = pr_json_array (root, "heel_range_mm");

  line->rest = read_points (in, root, "bulbs_mm", &line->n_rest);
  for (guint e = 0; line->rest && e < 2; e++)
    if (!number_at (in, range, e, PR_BOUND_DOUBT, &line->heel_range[e]))
      line->heel_range[e] = 0;
}

static PrDrawn
drawn_of (JsonObject *object, const char *name)
{
  const char *code = pr_json_string (object, name);

  for (PrDrawn drawn = PR_DRAWN_UNSURE; code && drawn <= PR_DRAWN_SURE; drawn++)
    if (strcmp (code, pr_job_drawn_codes[drawn]) == 0)
      return drawn;
  return PR_DRAWN_NONE;
}

/* What has not all its places is none. */
static void
read_drawn (Reading *in, JsonObject *root, PrDrawnMarks *drawn)
{
  JsonObject *object = pr_json_object (root, "drawn");

  if (!object)
    return;
  if (point_of (in, json_object_get_member (object, "toe_mm"), &drawn->toe))
    drawn->tick = drawn_of (object, "tick");
  if (point_of (in, json_object_get_member (object, "frog_apex_mm"), &drawn->frog_apex)
      && point_of (in, json_object_get_member (object, "frog_edge_a_mm"), &drawn->frog[0])
      && point_of (in, json_object_get_member (object, "frog_edge_b_mm"), &drawn->frog[1]))
    drawn->frog_lines = drawn_of (object, "frog");
}

static bool
names_it (JsonArray *list, const char *name)
{
  guint n = list ? MIN (json_array_get_length (list), PR_JOB_MARKS) : 0;

  for (guint i = 0; i < n; i++) {
    JsonNode *node = json_array_get_element (list, i);

    if (JSON_NODE_HOLDS_VALUE (node) && g_strcmp0 (json_node_get_string (node), name) == 0)
      return true;
  }
  return false;
}

/* All that "by_hand_mm" places. Files written before there was one have only where the hoof put what was set by hand. */
static void
read_marks (Reading *in, JsonObject *root, PrLandmarks *marks)
{
  JsonArray *hand = pr_json_array (root, "landmarks_by_hand");
  JsonObject *exact = pr_json_object (root, "by_hand_mm");
  JsonObject *where = exact ? exact : pr_json_object (root, "landmarks");
  PrJobMark table[PR_JOB_MARKS];

  pr_job_list_marks (marks, table);
  for (size_t k = 0; where && k < PR_JOB_MARKS; k++)
    if (exact || names_it (hand, table[k].name))
      *table[k].has = point_of (in, json_object_get_member (where, table[k].name), table[k].at);
}

static bool
read_pair (Reading *in, JsonObject *object, const char *name, PrBound bound, double pair[2])
{
  JsonArray *array = pr_json_array (object, name);
  double v[2];

  if (!array || !number_at (in, array, 0, bound, &v[0]) || !number_at (in, array, 1, bound, &v[1]))
    return false;
  memcpy (pair, v, sizeof v);
  return true;
}

/* All of it, or a flat sheet. */
static void
read_bend (Reading *in, JsonObject *object, PrBend *bend)
{
  JsonArray *lift = pr_json_array (object, "lift");
  PrBend read = { 0 };
  bool whole = get (in, object, "length_mm", PR_BOUND_SHEET, &read.length)
               && read_pair (in, object, "along", PR_BOUND_UNIT, read.along)
               && get (in, object, "from_mm", PR_BOUND_PLACE, &read.from)
               && read_pair (in, object, "rise_mm", PR_BOUND_INWARD, read.rise);

  for (guint i = 0; whole && i < 3; i++)
    whole = number_at (in, lift, i, PR_BOUND_CAMERA, &read.lift[i]);
  if (whole)
    *bend = read;
}

static bool
read_camera (Reading *in, JsonObject *object, PrTracing *tracing)
{
  PrCamera *cam = &tracing->camera;
  JsonArray *h = pr_json_array (object, "h");

  for (guint i = 0; i < 9; i++)
    if (!number_at (in, h, i, PR_BOUND_CAMERA, &cam->h[i]))
      return false;
  read_bend (in, pr_json_object (object, "bend"), &cam->bend);
  get (in, object, "pen_mm", PR_BOUND_PEN, &tracing->pen_mm);
  get (in, object, "inward_mm", PR_BOUND_INWARD, &tracing->inward_mm);
  return get (in, object, "k1", PR_BOUND_LENS, &cam->k1)
         && get (in, object, "centre_x", PR_BOUND_PIXEL, &cam->centre.x)
         && get (in, object, "centre_y", PR_BOUND_PIXEL, &cam->centre.y)
         && get (in, object, "radius", PR_BOUND_RADIUS, &cam->radius)
         && get (in, object, "raster_px_per_mm", PR_BOUND_RASTER, &tracing->raster);
}

static PrVerdict
verdict_of (const char *code)
{
  for (PrVerdict v = PR_VERDICT_GOOD; v < PR_VERDICT_RETAKE; v++)
    if (code && strcmp (code, pr_verdict_code (v)) == 0)
      return v;
  return PR_VERDICT_RETAKE;
}

static bool
read_scale (Reading *in, JsonObject *object, PrScale *scale)
{
  const char *method = pr_json_string (object, "method"), *paper = pr_json_string (object, "paper");
  const char *foot = pr_json_string (object, "foot"), *why = pr_json_string (object, "why");
  double tilt = 0, turned = 0;

  scale->paper = PR_PAPER_UNKNOWN;
  if (!method || !pr_scale_method_parse (method, &scale->method))
    return false;
  if (paper)
    pr_paper_parse (paper, &scale->paper);
  if (foot)
    pr_foot_parse (foot, &scale->foot);
  scale->verdict = verdict_of (pr_json_string (object, "verdict"));
  get (in, object, "residual_mm", PR_BOUND_RESIDUAL, &scale->residual_mm);
  if (get (in, object, "tilt_deg", PR_BOUND_TILT, &tilt))
    scale->tilt = tilt * G_PI / 180;
  if (pr_json_number (object, "turned_deg", &turned) && turned >= 0 && turned < 360)
    scale->turns = (int) (turned / 90);
  scale->why = pr_sentence_fit (why);
  if (!*scale->why) {
    g_free (scale->why);
    scale->why = g_strdup (_ ("The file does not say how good the scale is."));
  }
  return get (in, object, "px_per_mm", PR_BOUND_PX_PER_MM, &scale->px_per_mm)
         && get (in, object, "width_mm", PR_BOUND_SHEET, &scale->width_mm)
         && get (in, object, "height_mm", PR_BOUND_SHEET, &scale->height_mm);
}

static void
read_doubt (Reading *in, JsonObject *root, PrFootLine *line)
{
  JsonArray *array = pr_json_array (root, "doubt");
  guint n = array ? json_array_get_length (array) : 0;

  if (!holds (in, PR_BOUND_DOUBTS, n))
    return;
  line->doubt = g_new0 (PrDoubt, n);
  for (guint i = 0; i < n; i++) {
    JsonObject *object = pr_json_is_object (json_array_get_element (array, i));
    const char *why = pr_json_string (object, "why");
    PrDoubt *doubt = &line->doubt[line->n_doubt];

    if (get (in, object, "from_mm", PR_BOUND_DOUBT, &doubt->from_mm)
        && get (in, object, "to_mm", PR_BOUND_DOUBT, &doubt->to_mm)) {
      doubt->why = why ? pr_sentence_fit (why) : NULL;
      doubt->heel = pr_json_true (object, "heel");
      line->n_doubt++;
    }
  }
}

/* What goes with the points of LINE. */
static void
read_line (Reading *in, JsonObject *object, PrFootLine *line)
{
  line->closed = pr_json_true (object, "closed");
  read_closed (in, object, line);
  read_drawn (in, object, &line->drawn);
  read_doubt (in, object, line);
}

/* Other feet on the same sheet. */
static void
read_others (Reading *in, JsonObject *root, PrTracing *tracing)
{
  JsonArray *array = pr_json_array (root, "others");
  guint n = array ? MIN (json_array_get_length (array), PR_OTHERS_MOST) : 0;

  for (guint i = 0; i < n; i++) {
    JsonObject *object = pr_json_is_object (json_array_get_element (array, i));
    PrFootLine *line = &tracing->other[tracing->n_other];

    if (!object || !(line->outline = read_points (in, object, "outline_mm", &line->n_outline)))
      continue;
    get (in, object, "pen_mm", PR_BOUND_PEN, &line->pen_mm);
    get (in, object, "inward_mm", PR_BOUND_INWARD, &line->inward_mm);
    read_line (in, object, line);
    tracing->n_other++;
  }
}

static void
read_references (Reading *in, JsonObject *scale, PrTracing *tracing)
{
  JsonArray *array = pr_json_array (scale, "points");
  guint n = array ? MIN (json_array_get_length (array), PR_REFERENCES_MOST) : 0;

  for (guint i = 0; i < n; i++) {
    JsonObject *object = pr_json_is_object (json_array_get_element (array, i));
    PrReference *r = &tracing->reference[tracing->n_reference];

    if (get (in, object, "x_px", PR_BOUND_PIXEL, &r->px.x)
        && get (in, object, "y_px", PR_BOUND_PIXEL, &r->px.y)
        && get (in, object, "off_mm", PR_BOUND_RESIDUAL, &r->off_mm)) {
      r->outlier = pr_json_true (object, "outlier");
      tracing->n_reference++;
    }
  }
}

/* Files written before there were any have the verdict's sentence alone. */
static void
read_reasons (Reading *in, JsonObject *object, PrScale *scale)
{
  JsonArray *array = pr_json_array (object, "reasons");

  for (guint i = 0; array && i < json_array_get_length (array); i++) {
    JsonObject *one = pr_json_is_object (json_array_get_element (array, i));
    g_autofree char *text = one ? pr_sentence_fit (pr_json_string (one, "text")) : NULL;
    JsonNode *place = one ? json_object_get_member (one, "at") : NULL;
    PrSheetPt at;

    size_t n = scale->n_reasons;
    if (text && *text)
      pr_scale_add_reason (scale, verdict_of (pr_json_string (one, "severity")), text,
                           place && point_of (in, place, &at) ? &at : NULL);
    if (scale->n_reasons > n)
      pr_about_parse (pr_json_string (one, "about"), &scale->reason[n].about);
  }
}

/* What was printed how, and asked about. Both numbers of where the print lies, or neither. */
static void
read_print (Reading *in, JsonObject *object, PrScale *scale)
{
  JsonObject *printed = pr_json_object (object, "printed");
  const char *trust = pr_json_string (object, "trust");

  get (in, printed, "across", PR_BOUND_PRINT, &scale->printed[0]);
  get (in, printed, "down", PR_BOUND_PRINT, &scale->printed[1]);
  if (trust)
    pr_trust_parse (trust, &scale->trust);
  scale->question = pr_question_parse (pr_json_string (object, "question"));
  if (read_pair (in, object, "print_moved_mm", PR_BOUND_PLACE, scale->moved))
    read_pair (in, object, "print_by", PR_BOUND_PRINT, scale->by);
}

/* Scale and camera, where the JSON has them whole. FALSE: it has not, and TRACING is of no use. */
static bool
read_photo (Reading *in, JsonObject *root, PrTracing *tracing)
{
  JsonObject *photo = pr_json_object (root, "photo"), *scale = pr_json_object (root, "scale");
  const char *file = pr_json_string (photo, "file");
  double w = 0, h = 0;

  if (!get (in, photo, "width_px", PR_BOUND_PHOTO, &w) || !get (in, photo, "height_px", PR_BOUND_PHOTO, &h)
      || !read_scale (in, scale, &tracing->scale)
      || !read_camera (in, pr_json_object (root, "camera"), tracing))
    return false;
  tracing->file = file ? pr_sentence_fit (file) : NULL;
  tracing->width_px = (int) w;
  tracing->height_px = (int) h;
  read_references (in, scale, tracing);
  read_reasons (in, scale, &tracing->scale);
  read_print (in, scale, &tracing->scale);
  tracing->light = pr_json_true (root, "light");
  read_others (in, root, tracing);
  return true;
}

/* An outline's scale, or the outline without one. Transfer full. */
static PrTracing *
read_tracing (Reading *in, JsonObject *root)
{
  g_autoptr (PrTracing) tracing = pr_tracing_new ();

  return read_photo (in, root, tracing) ? g_steal_pointer (&tracing) : pr_tracing_new ();
}

/* Files written before there was "wall_mm" have only what counted, entered or not; their default there
 * was not entered. */
static void
read_wall_before (JsonObject *hoof, double wall[3])
{
  static const char *const names[3] = { "wall_toe_mm", "wall_quarter_mm", "wall_heel_mm" };
  static const double usual[3] = { 11, 8, 7 };

  for (int i = 0; i < 3; i++)
    if (!pr_json_number (hoof, names[i], &wall[i]) || wall[i] == usual[i])
      wall[i] = 0;
}

/* One that cannot be was not entered. */
static void
read_wall (JsonObject *root, double wall[3])
{
  JsonObject *entered = pr_json_object (root, "wall_mm");

  if (entered)
    for (int i = 0; i < 3; i++)
      pr_json_number (entered, pr_job_wall_names[i], &wall[i]);
  else
    read_wall_before (pr_json_object (root, "hoof"), wall);
  for (int i = 0; i < 3; i++)
    if (!pr_bound_holds (PR_BOUND_WALL, wall[i]))
      wall[i] = 0;
}

/* What of a tracing is in JSON. FALSE with an error when it cannot be. */
typedef struct {
  PrTracing *tracing;
  PrLandmarks marks;
  double wall[3];
} Read;

static bool
read_all (JsonObject *root, Read *out, GError **error)
{
  Reading in = { NULL };
  size_t n = 0;
  g_autofree PrSheetPt *outline = read_points (&in, root, "outline_mm", &n);

  if (outline) {
    out->tracing = read_tracing (&in, root);
    PrFootLine line = { .outline = g_steal_pointer (&outline),
                        .n_outline = n,
                        .pen_mm = out->tracing->pen_mm,
                        .inward_mm = out->tracing->inward_mm };
    read_line (&in, root, &line);
    pr_tracing_put_line (out->tracing, &line);
    out->tracing->specimen = pr_json_true (root, "specimen");
    read_wall (root, out->wall);
    read_marks (&in, root, &out->marks);
  }
  g_autofree char *wrong = in.wrong;
  if (out->tracing && !wrong)
    return true;
  g_clear_pointer (&out->tracing, pr_tracing_free);
  return bad (error, wrong ? wrong : _ ("it has no list of points “outline_mm”"));
}

/* The object of a foot's tracing; NULL with an error. */
static JsonObject *
foot_of (JsonNode *node, GError **error)
{
  JsonObject *root = pr_json_is_object (node);

  if (!root)
    bad (error, _ ("it is not a JSON object"));
  else if (pr_json_true (root, "figure"))
    g_set_error_literal (
        error, PR_ERROR, PR_ERROR_INPUT,
        _ ("The outline in this file is not a foot's; trace a foot, or draw its outline by hand."));
  else
    return root;
  return NULL;
}

bool
pr_job_read_hoof (PrHoof *out, JsonNode *node, PrFoot foot, GError **error)
{
  JsonObject *root = foot_of (node, error);
  Read read = { 0 };

  pr_hoof_clear (out);
  if (!root || !read_all (root, &read, error))
    return false;
  bool made = pr_hoof_of_tracing (out, read.tracing, foot, &read.marks, error);
  out->stand_in = made && read.tracing->specimen;
  pr_tracing_free (read.tracing);
  return made;
}

bool
pr_job_take_trace_json (PrJob *job, JsonNode *node, GError **error)
{
  JsonObject *root = foot_of (node, error);
  const char *code = pr_json_string (root, "foot");
  PrFoot foot = PR_FOOT_ANY;
  Read read = { 0 };

  if (!root || !read_all (root, &read, error))
    return false;
  if (job->sources.foot == PR_FOOT_ANY && code && pr_foot_parse (code, &foot))
    job->sources.foot = foot;
  return pr_job_take_marked (job, read.tracing, &read.marks, read.wall, error);
}
