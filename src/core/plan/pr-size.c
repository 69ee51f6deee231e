/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-size.h"

#include <json-glib/json-glib.h>

#include "pr-json.h"
#include "pr-length.h"
#include "pr-limits.h"
#include "pr-params.h"
#include "pr-styles-resource.h"

/* Shares of the foot's width: common practice, no source. */
#define HEAD_SHARE 0.04       /* a nail's head is so wide */
#define LEAST_HEAD_SHARE 0.03 /* and never finer than this: below it there is no such nail */
#define HEAD_LENGTH 1.8       /* a head is so much longer than wide */
#define HEAD_DEPTH (2.0 / 3)  /* of the thickness: as deep as the crease (Lungwitz & Adams) */
#define SHANK_SHARE 0.0115
#define LEAST_SHANK_MM 2.0
/* The shank stays so far outside the white line: what a hand misses a nail line by. */
#define CLEAR_MM 0.4
#define LAST_NAIL 0.65 /* place behind which no nail stands, so no wall there counts */
#define WALL_STEPS 10

/* A clip is a half circle, so twice as wide at its base as the shoe is thick, and as high as that (Lungwitz & Adams);
 * the bounds and its thickness: common practice, no source. */
#define LEAST_BASE_MM 14.0
#define MOST_BASE_MM 26.0
#define MOST_BESIDE_CLIP 3
#define CLIP_THICK 0.27 /* mean thickness over the shoe's */

typedef struct {
  double to; /* width, mm */
  double stock_width, stock_thick;
  int nails[2];
} Size;

static Size
read_size (JsonObject *object)
{
  Size size = { .to = json_object_get_double_member (object, "to") };

  size.nails[PR_MEDIAL] = (int) json_object_get_int_member (object, "nails.count.medial");
  size.nails[PR_LATERAL] = (int) json_object_get_int_member (object, "nails.count.lateral");
  bool read = pr_section_parse (json_object_get_string_member (object, "stock"), PR_UNIT_MM,
                                &size.stock_width, &size.stock_thick, NULL);
  g_assert (read);
  return size;
}

static gpointer
load (gpointer unused)
{
  g_autoptr (GBytes) bytes
      = g_resource_lookup_data (pr_styles_get_resource (), "/pritchel/sizes.json", 0, NULL);
  gsize len;
  const char *text = g_bytes_get_data (bytes, &len);
  g_autoptr (JsonNode) root = pr_json_parse (text, len, NULL);
  JsonArray *lines = json_object_get_array_member (json_node_get_object (root), "sizes");
  GArray *sizes = g_array_new (FALSE, FALSE, sizeof (Size));

  (void) unused;
  for (guint i = 0; i < json_array_get_length (lines); i++) {
    Size size = read_size (json_array_get_object_element (lines, i));

    g_array_append_val (sizes, size);
  }
  return sizes;
}

static const Size *
size_for (double width)
{
  static GOnce once = G_ONCE_INIT;
  const GArray *sizes = g_once (&once, load, NULL);
  guint i = 0;

  while (i + 1 < sizes->len && width > g_array_index (sizes, Size, i).to)
    i++;
  return &g_array_index (sizes, Size, i);
}

double
pr_size_width (const PrHoof *hoof)
{
  return hoof && hoof->width > 0 ? hoof->width : PR_SIZE_USUAL_WIDTH;
}

/* The thinnest wall a nail of the branches may meet. */
static double
least_wall (const PrHoof *hoof)
{
  double least = INFINITY;

  for (int i = 0; i <= WALL_STEPS; i++)
    least = MIN (least, pr_hoof_wall (hoof, LAST_NAIL * i / WALL_STEPS));
  return least;
}

/* Where the rim outside the crease and the white line cannot both be had, a finer nail. */
static void
choose_nail (const PrHoof *hoof, double width, PrPlan *plan)
{
  double rim = pr_limit_share ("crease.rim", width).look, shank = MAX (LEAST_SHANK_MM, SHANK_SHARE * width);
  double head = HEAD_SHARE * width;

  if (hoof && hoof->width > 0)
    head = CLAMP (2 * (least_wall (hoof) - rim - shank / 2 - CLEAR_MM), LEAST_HEAD_SHARE * width, head);
  plan->nail_shank = shank;
  plan->nail_head_width = plan->crease_width = head;
  plan->nail_head_length = HEAD_LENGTH * head;
  plan->nail_head_depth = HEAD_DEPTH * plan->stock_thick;
}

double
pr_size_crease_depth (double thick)
{
  return MIN (2.0 / 3, 1 - pr_limit ("crease.floor")->look / thick);
}

void
pr_size_apply (const PrHoof *hoof, PrPlan *plan)
{
  double width = pr_size_width (hoof);
  const Size *size = size_for (width);

  if (!plan->stock_known) {
    plan->stock_width = size->stock_width;
    plan->stock_thick = size->stock_thick;
  }
  double thick = plan->stock_thick;
  plan->thick_toe = plan->thick_heel = plan->ext_thick = thick;
  for (int b = 0; b < 2; b++)
    plan->nails[b] = size->nails[b];
  choose_nail (hoof, width, plan);
  for (int i = 0; i < PR_MAX_CLIPS; i++) {
    plan->clip[i].base = CLAMP (2 * thick, LEAST_BASE_MM, MOST_BASE_MM);
    plan->clip[i].height = thick;
    plan->clip[i].thickness = CLIP_THICK * thick;
  }
}

void
pr_size_spare_nails (PrPlan *plan)
{
  for (int i = 0; i < PR_MAX_CLIPS; i++) {
    const PrClipPlan *clip = &plan->clip[i];

    if (clip->kind && (clip->tie != PR_CLIP_AT_PLACE || clip->place > 0))
      plan->nails[clip->branch] = MIN (plan->nails[clip->branch], MOST_BESIDE_CLIP);
  }
}
