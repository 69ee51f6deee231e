/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-rack.h"

#include <glib/gi18n-lib.h>
#include <stdlib.h>
#include <string.h>

#include "pr-error.h"
#include "pr-json.h"
#include "pr-limits.h"
#include "pr-plan.h"
#include "pr-rack-resource.h"

#define WORK_NEAR 0.01 /* two bars whose work differs by less are the same work */

static const char *
text_of (JsonObject *object, const char *name)
{
  JsonNode *node = json_object_get_member (object, name);

  return node && JSON_NODE_HOLDS_VALUE (node) ? json_node_get_string (node) : NULL;
}

static bool
read_bar (JsonNode *node, PrRackBar *bar)
{
  JsonObject *object = JSON_NODE_HOLDS_OBJECT (node) ? json_node_get_object (node) : NULL;
  const char *section = object ? text_of (object, "section") : NULL, *length, *material;

  *bar = (PrRackBar){ 0 };
  /* a section no plan can have is none for the rack either */
  if (!section || !pr_section_parse (section, PR_UNIT_MM, &bar->width, &bar->thickness, NULL)
      || !pr_param_takes (pr_param_find ("stock.width"), bar->width)
      || !pr_param_takes (pr_param_find ("stock.thickness"), bar->thickness))
    return false;
  length = text_of (object, "length");
  material = text_of (object, "material");
  if (length && !pr_length_parse (length, PR_UNIT_MM, &bar->length, NULL))
    return false;
  bar->material = g_strcmp0 (material, "aluminium") == 0 ? PR_MATERIAL_ALUMINIUM : PR_MATERIAL_STEEL;
  return true;
}

/* NULL when the text is no rack. */
static GArray *
parse (const char *text, gsize len)
{
  g_autoptr (JsonNode) root = pr_json_parse (text, len, NULL);
  g_autoptr (GArray) rack = g_array_new (FALSE, FALSE, sizeof (PrRackBar));

  JsonNode *list = NULL;

  if (root && JSON_NODE_HOLDS_OBJECT (root))
    list = json_object_get_member (json_node_get_object (root), "bars");
  if (!list || !JSON_NODE_HOLDS_ARRAY (list))
    return NULL;
  JsonArray *bars = json_node_get_array (list);
  for (guint i = 0; i < json_array_get_length (bars); i++) {
    PrRackBar bar;

    if (!read_bar (json_array_get_element (bars, i), &bar))
      return NULL;
    g_array_append_val (rack, bar);
  }
  return rack->len ? g_steal_pointer (&rack) : NULL;
}

GArray *
pr_rack_load (GPtrArray *problems)
{
  g_autofree char *file = g_build_filename (g_get_user_config_dir (), "pritchel", "rack.json", NULL),
                  *text = NULL;
  GArray *rack = NULL;
  gsize len;

  if (g_file_get_contents (file, &text, &len, NULL)) {
    rack = parse (text, len);
    if (!rack && problems)
      g_ptr_array_add (
          problems,
          g_strdup_printf (_ ("“%s” is not a rack of bars this program can read; mend it or take it away."),
                           file));
  }
  if (!rack) {
    g_autoptr (GBytes) bytes
        = g_resource_lookup_data (pr_rack_get_resource (), "/pritchel/rack.json", 0, NULL);
    const char *own = g_bytes_get_data (bytes, &len);

    rack = parse (own, len);
  }
  g_assert (rack);
  return rack;
}

#define UPSET_WEIGHS 3 /* times as much as drawing: common practice, no source */

/* Mean equivalent strain of the sections before creasing for PLAN's own bar; where iron is upset it counts three times. */
static double
mean_strain (const PrPlan *plan, const PrShoe *shoe, const PrIron *iron)
{
  double work = 0, total = 0;

  for (size_t i = 0; i + 1 < shoe->n_st; i++) {
    const PrStation *st = &shoe->st[i];
    /* bevels change the section too: the web counts as wide as the iron left in it */
    double ew = log (iron->rows.section[i] / st->thick / plan->stock_width),
           et = log (st->thick / plan->stock_thick);
    double el = -(ew + et);

    work += st->volume_next * sqrt (2.0 / 3 * (ew * ew + et * et + el * el)) * (el < 0 ? UPSET_WEIGHS : 1);
    total += st->volume_next;
  }
  return total > 0 ? work / total : 0;
}

static PrRackLine
rate (const PrRackBar *bar, const PrHoof *hoof, const PrPlan *plan, const PrShoe *shoe)
{
  g_auto (PrIron) iron = { 0 };
  PrRackLine line = { .bar = *bar };
  PrPlan other = *plan;

  other.stock_width = bar->width;
  other.stock_thick = bar->thickness;
  pr_iron_plan (&iron, hoof, &other, shoe);
  line.needed = iron.needed;
  line.work = mean_strain (&other, shoe, &iron);
  for (size_t i = 0; i < iron.n_st; i++) {
    line.drawn = MAX (line.drawn, iron.strain[i]);
    line.upset = MAX (line.upset, -iron.strain[i]);
  }
  if (bar->length > 0) {
    line.shoes = (size_t) (bar->length / iron.needed);
    line.waste = 1 - (double) line.shoes * iron.needed / bar->length;
  }
  return line;
}

static int
by_work (gconstpointer a, gconstpointer b)
{
  const PrRackLine *p = a, *q = b;

  /* of the same work, the one that wastes less */
  if (fabs (p->work - q->work) > WORK_NEAR)
    return p->work < q->work ? -1 : 1;
  return (p->waste > q->waste) - (p->waste < q->waste);
}

GArray *
pr_rack_rank (const GArray *rack, const PrHoof *hoof, const PrPlan *plan, const PrShoe *shoe)
{
  GArray *lines = g_array_new (FALSE, FALSE, sizeof (PrRackLine));

  for (guint i = 0; i < rack->len; i++) {
    const PrRackBar *bar = &g_array_index (rack, PrRackBar, i);

    if (bar->material != plan->material)
      continue;
    PrRackLine line = rate (bar, hoof, plan, shoe);
    g_array_append_val (lines, line);
  }
  g_array_sort (lines, by_work);
  return lines;
}

bool
pr_rack_best (const PrHoof *hoof, const PrPlan *plan, PrRackLine *best)
{
  g_autoptr (GArray) rack = pr_rack_load (NULL);
  g_autoptr (PrShoe) shoe = pr_shoe_new ();

  if (!pr_shoe_build (shoe, hoof, plan, NULL))
    return false;
  g_autoptr (GArray) lines = pr_rack_rank (rack, hoof, plan, shoe);
  for (guint i = 0; i < lines->len; i++) {
    *best = g_array_index (lines, PrRackLine, i);
    if (best->upset <= pr_limit ("iron.upset")->look)
      return true;
  }
  return false;
}

typedef struct {
  double length;
  size_t item;
} Length;

static int
longest_first (const void *a, const void *b)
{
  const Length *p = a, *q = b;

  if (p->length != q->length)
    return p->length > q->length ? -1 : 1;
  return (p->item > q->item) - (p->item < q->item);
}

size_t
pr_cut_list (const double *length, size_t n, double stock, double kerf, PrCut *cut, GError **error)
{
  g_autofree Length *order = g_new (Length, n + 1);
  g_autofree double *used = g_new0 (double, n + 1);
  size_t bars = 0;

  for (size_t i = 0; i < n; i++) {
    order[i] = (Length){ length[i], i };
    if (!(length[i] > 0) || length[i] > stock) {
      g_set_error (error, PR_ERROR, PR_ERROR_INPUT,
                   _ ("A piece of %.0f mm does not come out of a bar of %.0f mm; take a longer bar."),
                   length[i], stock);
      return 0;
    }
  }
  qsort (order, n, sizeof *order, longest_first);
  for (size_t i = 0; i < n; i++) {
    size_t bar = 0;

    /* a bar in use costs a cut before the next piece */
    while (bar < bars && used[bar] + kerf + order[i].length > stock + 1e-9)
      bar++;
    if (bar == bars)
      bars++;
    cut[i] = (PrCut){ order[i].item, bar, used[bar] > 0 ? used[bar] + kerf : 0 };
    used[bar] = cut[i].at + order[i].length;
  }
  return bars;
}
