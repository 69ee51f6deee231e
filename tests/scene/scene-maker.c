/* SPDX-License-Identifier: GPL-3.0-or-later */
/* scene-maker OUT.jpg OUT.json [key=value ...]: a photo and the truth about it. The keys are the
 * fields of SceneOptions; paper, foot, pen and bench go by name. */
#include <json-glib/json-glib.h>
#include <stdio.h>
#include <string.h>
#include "scene.h"

typedef enum { KEY_INT, KEY_REAL, KEY_YES } KeyKind;

#define KEY(name_, kind_)                               \
  {                                                     \
#name_, kind_, G_STRUCT_OFFSET(SceneOptions, name_) \
  }

static const struct {
  const char *name;
  KeyKind kind;
  gsize at;
} keys[] = {
  KEY (seed, KEY_INT),         KEY (width, KEY_INT),         KEY (height, KEY_INT),
  KEY (sheets, KEY_INT),       KEY (jpeg_quality, KEY_INT),  KEY (orientation, KEY_INT),
  KEY (tilt_deg, KEY_REAL),    KEY (tilt_dir_deg, KEY_REAL), KEY (turn_deg, KEY_REAL),
  KEY (fill, KEY_REAL),        KEY (k1, KEY_REAL),           KEY (hoof_length, KEY_REAL),
  KEY (hoof_width, KEY_REAL),  KEY (lean_mm, KEY_REAL),      KEY (pen_mm, KEY_REAL),
  KEY (wobble_mm, KEY_REAL),   KEY (gap_mm, KEY_REAL),       KEY (drawn_deg, KEY_REAL),
  KEY (soft, KEY_REAL),        KEY (tick_deg, KEY_REAL),     KEY (dark, KEY_REAL),
  KEY (blur_px, KEY_REAL),     KEY (noise, KEY_REAL),        KEY (tags, KEY_YES),
  KEY (closed, KEY_YES),       KEY (frog, KEY_YES),          KEY (ticks, KEY_YES),
  KEY (writing, KEY_YES),      KEY (dirt, KEY_YES),          KEY (shadow, KEY_YES),
  KEY (folds, KEY_YES),        KEY (grid, KEY_YES),          KEY (no_line, KEY_YES),
  KEY (bow_mm, KEY_REAL),      KEY (bow_lean, KEY_REAL),     KEY (bow_across, KEY_YES),
  KEY (print_x, KEY_REAL),     KEY (print_y, KEY_REAL),      KEY (half_shadow, KEY_REAL),
  KEY (stain_mm, KEY_REAL),    KEY (note, KEY_YES),          KEY (rim_mm, KEY_REAL),
  KEY (card, KEY_YES),         KEY (at_mm[0], KEY_REAL),     KEY (at_mm[1], KEY_REAL),
  KEY (other_mm[0], KEY_REAL), KEY (other_mm[1], KEY_REAL),  KEY (other_deg, KEY_REAL),
  KEY (leaf_mm[0], KEY_REAL),  KEY (leaf_mm[1], KEY_REAL),
};

static const char *const pens[] = { "marker", "ballpoint", "pencil", "chalk", "white", NULL };
static const char *const grounds[] = { "paper", "cardboard", "sack", "slate", "mat", "dark-card", NULL };
static const char *const benches[] = { "wood", "concrete", "rubber", "pale", NULL };

static bool
choose (const char *const *names, const char *value, int *which)
{
  for (int i = 0; names[i]; i++)
    if (strcmp (names[i], value) == 0) {
      *which = i;
      return true;
    }
  return false;
}

static bool
set_named (SceneOptions *o, const char *key, const char *value)
{
  int which;

  if (strcmp (key, "paper") == 0)
    return pr_paper_parse (value, &o->paper);
  if (strcmp (key, "foot") == 0)
    return pr_foot_parse (value, &o->foot);
  if (strcmp (key, "pen") == 0 && choose (pens, value, &which))
    return o->pen = (ScenePen) which, true;
  if (strcmp (key, "bench") == 0 && choose (benches, value, &which))
    return o->bench = (SceneBench) which, true;
  if (strcmp (key, "ground") == 0 && choose (grounds, value, &which))
    return o->ground = (SceneGround) which, true;
  if (strcmp (key, "horse") == 0)
    return o->horse = value, true;
  if (strcmp (key, "date") == 0)
    return o->date = value, true;
  return false;
}

static bool
set_key (SceneOptions *o, const char *key, const char *value)
{
  for (gsize i = 0; i < G_N_ELEMENTS (keys); i++) {
    gpointer at = (char *) o + keys[i].at;
    if (strcmp (keys[i].name, key) != 0)
      continue;
    if (keys[i].kind == KEY_INT)
      *(int *) at = (int) g_ascii_strtoll (value, NULL, 10);
    else if (keys[i].kind == KEY_REAL)
      *(double *) at = g_ascii_strtod (value, NULL);
    else
      *(bool *) at = g_ascii_strtoll (value, NULL, 10) != 0;
    return true;
  }
  return set_named (o, key, value);
}

static void
add_point (JsonBuilder *b, double x, double y)
{
  json_builder_begin_array (b);
  json_builder_add_double_value (b, x);
  json_builder_add_double_value (b, y);
  json_builder_end_array (b);
}

static void
add_camera (JsonBuilder *b, const PrCamera *cam)
{
  json_builder_set_member_name (b, "camera");
  json_builder_begin_object (b);
  json_builder_set_member_name (b, "h");
  json_builder_begin_array (b);
  for (int i = 0; i < 9; i++)
    json_builder_add_double_value (b, cam->h[i]);
  json_builder_end_array (b);
  json_builder_set_member_name (b, "k1");
  json_builder_add_double_value (b, cam->k1);
  json_builder_set_member_name (b, "centre");
  add_point (b, cam->centre.x, cam->centre.y);
  json_builder_set_member_name (b, "radius");
  json_builder_add_double_value (b, cam->radius);
  json_builder_end_object (b);
}

static void
add_options (JsonBuilder *b, const SceneOptions *o)
{
  json_builder_set_member_name (b, "options");
  json_builder_begin_object (b);
  json_builder_set_member_name (b, "paper");
  json_builder_add_string_value (b, pr_paper_name (o->paper));
  json_builder_set_member_name (b, "foot");
  json_builder_add_string_value (b, pr_foot_code (o->foot));
  json_builder_set_member_name (b, "pen");
  json_builder_add_string_value (b, pens[o->pen]);
  json_builder_set_member_name (b, "bench");
  json_builder_add_string_value (b, benches[o->bench]);
  for (gsize i = 0; i < G_N_ELEMENTS (keys); i++) {
    gconstpointer at = (const char *) o + keys[i].at;
    json_builder_set_member_name (b, keys[i].name);
    if (keys[i].kind == KEY_INT)
      json_builder_add_int_value (b, *(const int *) at);
    else if (keys[i].kind == KEY_REAL)
      json_builder_add_double_value (b, *(const double *) at);
    else
      json_builder_add_boolean_value (b, *(const bool *) at);
  }
  json_builder_end_object (b);
}

static void
add_line (JsonBuilder *b, const Scene *scene)
{
  json_builder_set_member_name (b, "line");
  json_builder_begin_array (b);
  for (size_t i = 0; i < scene->n_line; i++)
    add_point (b, scene->line[i].x, scene->line[i].y);
  json_builder_end_array (b);
  json_builder_set_member_name (b, "toe");
  add_point (b, scene->toe.x, scene->toe.y);
  json_builder_set_member_name (b, "heels");
  json_builder_begin_array (b);
  for (int i = 0; i < 2; i++)
    add_point (b, scene->heel[i].x, scene->heel[i].y);
  json_builder_end_array (b);
}

static bool
write_truth (const Scene *scene, const SceneOptions *o, const char *file, GError **error)
{
  g_autoptr (JsonBuilder) b = json_builder_new ();
  g_autoptr (JsonGenerator) gen = json_generator_new ();

  json_builder_begin_object (b);
  add_options (b, o);
  add_camera (b, &scene->camera);
  add_line (b, scene);
  json_builder_end_object (b);
  g_autoptr (JsonNode) root = json_builder_get_root (b);
  json_generator_set_root (gen, root);
  return json_generator_to_file (gen, file, error);
}

static bool
read_arguments (SceneOptions *o, int n, char **args)
{
  for (int i = 0; i < n; i++) {
    char *eq = strchr (args[i], '=');
    g_autofree char *key = eq ? g_strndup (args[i], (gsize) (eq - args[i])) : NULL;
    if (!eq || !set_key (o, key, eq + 1)) {
      fprintf (stderr, "scene-maker: cannot use \"%s\"\n", args[i]);
      return false;
    }
  }
  return true;
}

int
main (int argc, char **argv)
{
  SceneOptions o;
  g_autoptr (GError) error = NULL;
  gsize len;

  scene_defaults (&o);
  if (argc < 3 || !read_arguments (&o, argc - 3, argv + 3)) {
    fprintf (stderr, "use: scene-maker OUT.jpg OUT.json [key=value ...]\n");
    return 2;
  }
  g_autoptr (Scene) scene = scene_render (&o);
  const char *data = g_bytes_get_data (scene->jpeg, &len);
  if (!g_file_set_contents (argv[1], data, (gssize) len, &error)
      || !write_truth (scene, &o, argv[2], &error)) {
    fprintf (stderr, "scene-maker: %s\n", error->message);
    return 1;
  }
  return 0;
}
