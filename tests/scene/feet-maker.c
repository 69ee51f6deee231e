/* SPDX-License-Identifier: GPL-3.0-or-later */
/* feet-maker FOLDER [bare]: each foot of the table as FOLDER/NAME.json, an outline as `pritchel plan` takes it.
 * The landmarks are marked in it, unless it is to be bare; under "truth" stands what is known of the foot all the same,
 * landmarks on the sheet as they are in truth. */
#include "scene-feet.h"

#include <json-glib/json-glib.h>
#include <string.h>

#define N_MARKS 6

typedef struct {
  const char *name;
  PrPt at;
} Mark;

static void
add_point (JsonBuilder *b, const SceneFoot *foot, PrPt p)
{
  PrSheetPt at = scene_foot_on_sheet (foot, p);

  json_builder_begin_array (b);
  json_builder_add_double_value (b, at.x);
  json_builder_add_double_value (b, at.y);
  json_builder_end_array (b);
}

static void
put (JsonBuilder *b, const char *name, double value)
{
  json_builder_set_member_name (b, name);
  json_builder_add_double_value (b, value);
}

static void
put_outline (JsonBuilder *b, const SceneFoot *foot, const PrPath *outline)
{
  json_builder_set_member_name (b, "outline_mm");
  json_builder_begin_array (b);
  for (size_t i = 0; i < outline->n; i++)
    add_point (b, foot, outline->p[i]);
  json_builder_end_array (b);
  json_builder_set_member_name (b, "closed");
  json_builder_add_boolean_value (b, FALSE);
}

static void
put_points (JsonBuilder *b, const SceneFoot *foot, const char *name, const Mark marks[N_MARKS])
{
  json_builder_set_member_name (b, name);
  json_builder_begin_object (b);
  for (int i = 0; i < N_MARKS; i++) {
    json_builder_set_member_name (b, marks[i].name);
    add_point (b, foot, marks[i].at);
  }
  json_builder_end_object (b);
}

static void
put_names (JsonBuilder *b, const Mark marks[N_MARKS])
{
  json_builder_set_member_name (b, "landmarks_by_hand");
  json_builder_begin_array (b);
  for (int i = 0; i < N_MARKS; i++)
    json_builder_add_string_value (b, marks[i].name);
  json_builder_end_array (b);
}

static void
put_truth (JsonBuilder *b, const SceneFoot *foot, const Mark marks[N_MARKS])
{
  json_builder_set_member_name (b, "truth");
  json_builder_begin_object (b);
  put (b, "width_mm", foot->width);
  put (b, "length_mm", foot->length);
  put (b, "ahead", foot->ahead);
  put (b, "heels", foot->heels);
  put (b, "point", foot->point);
  put (b, "flare_medial_mm", foot->flare[0]);
  put (b, "flare_lateral_mm", foot->flare[1]);
  put (b, "uneven_mm", foot->uneven);
  put (b, "toe_over_mm", foot->toe_over);
  put (b, "heel_back_mm", foot->heel_back);
  put_points (b, foot, "marks_mm", marks);
  json_builder_end_object (b);
}

static JsonNode *
foot_json (const SceneFoot *foot, bool bare)
{
  g_auto (SceneFootLine) line = { 0 };
  g_autoptr (JsonBuilder) b = json_builder_new ();

  scene_foot_line (foot, &line);
  const Mark marks[N_MARKS] = { { "toe", line.toe },
                                { "heel_medial", line.buttress[0] },
                                { "heel_lateral", line.buttress[1] },
                                { "frog_apex", line.frog_apex },
                                { "frog_medial", line.frog[0] },
                                { "frog_lateral", line.frog[1] } };
  json_builder_begin_object (b);
  json_builder_set_member_name (b, "foot");
  json_builder_add_string_value (b, pr_foot_code (foot->foot));
  put_outline (b, foot, &line.outline);
  if (!bare) {
    put_names (b, marks);
    put_points (b, foot, "by_hand_mm", marks);
  }
  put_truth (b, foot, marks);
  json_builder_end_object (b);
  return json_builder_get_root (b);
}

static bool
write_foot (const char *folder, const SceneFoot *foot, bool bare)
{
  g_autoptr (JsonGenerator) generator = json_generator_new ();
  g_autoptr (JsonNode) node = foot_json (foot, bare);
  g_autoptr (GError) error = NULL;
  g_autofree char *name = g_strconcat (foot->name, ".json", NULL),
                  *file = g_build_filename (folder, name, NULL);

  json_generator_set_root (generator, node);
  if (!json_generator_to_file (generator, file, &error))
    g_printerr ("%s: %s\n", file, error->message);
  return error == NULL;
}

int
main (int argc, char **argv)
{
  bool bare = argc == 3 && strcmp (argv[2], "bare") == 0;
  size_t n;
  const SceneFoot *feet = scene_feet (&n);

  if (argc != 2 && !bare) {
    g_printerr ("use: feet-maker FOLDER [bare]\n");
    return 2;
  }
  for (size_t i = 0; i < n; i++)
    if (!write_foot (argv[1], &feet[i], bare))
      return 1;
  return 0;
}
