/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-rack.h"

#include <glib/gi18n-lib.h>
#include <stdlib.h>
#include <string.h>

#include "pr-atomic-file.h"
#include "pr-error.h"
#include "pr-json.h"
#include "pr-limits.h"
#include "pr-plan.h"
#include "pr-rack-resource.h"
#include "pr-text.h"

#define SAME_MM 0.01   /* sections typed in inches and in mm are the same bar */
#define WORK_NEAR 0.01 /* two bars whose work differs by less are the same work */

static const char *
text_of (JsonObject *object, const char *name)
{
  JsonNode *node = json_object_get_member (object, name);

  return node && JSON_NODE_HOLDS_VALUE (node) ? json_node_get_string (node) : NULL;
}

/* SECTION as it is shown, and whether it is called in inches. */
static void
name_bar (PrRackBar *bar, const char *section)
{
  g_auto (GStrv) words = g_strsplit (section, " x ", 2);
  g_autofree char *name = words[0] && words[1] ? g_strjoinv (" × ", words) : g_strdup (section);

  pr_text_copy (bar->name, sizeof bar->name, name);
  bar->inch = strpbrk (section, "/\"") || strstr (section, "in");
}

/* A section no plan can have is none for the rack either. */
static bool
is_bar (const PrRackBar *bar)
{
  return pr_param_takes (pr_param_find ("stock.width"), bar->width)
         && pr_param_takes (pr_param_find ("stock.thickness"), bar->thickness);
}

static bool
read_bar (JsonNode *node, PrRackBar *bar)
{
  JsonObject *object = JSON_NODE_HOLDS_OBJECT (node) ? json_node_get_object (node) : NULL;
  const char *section = object ? text_of (object, "section") : NULL, *length, *material;

  *bar = (PrRackBar){ 0 };
  if (!section || !pr_section_parse (section, PR_UNIT_MM, &bar->width, &bar->thickness, NULL)
      || !is_bar (bar))
    return false;
  name_bar (bar, section);
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

static char *
file_name (void)
{
  return g_build_filename (g_get_user_config_dir (), "pritchel", "rack.json", NULL);
}

GArray *
pr_rack_load (GPtrArray *problems)
{
  g_autofree char *file = file_name (), *text = NULL;
  GArray *rack = NULL;
  gsize len;

  g_autoptr (GError) error = NULL;
  bool there = g_file_get_contents (file, &text, &len, &error)
               || !g_error_matches (error, G_FILE_ERROR, G_FILE_ERROR_NOENT);
  if (there) {
    rack = text ? parse (text, len) : NULL;
    if (!rack && problems)
      g_ptr_array_add (
          problems,
          g_strdup_printf (_ ("“%s” is not a rack this program can read; correct it or remove it."), file));
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

/* --- a person's own ------------------------------------------------------------------------- */

/* NULL with an error when a file that is there would be lost by writing it anew. */
static GArray *
load_to_change (GError **error)
{
  g_autoptr (GPtrArray) problems = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GArray) rack = pr_rack_load (problems);

  if (problems->len == 0)
    return g_steal_pointer (&rack);
  g_set_error_literal (error, PR_ERROR, PR_ERROR_FILE, problems->pdata[0]);
  return NULL;
}

static bool
write_all (const GArray *rack, GError **error)
{
  g_autofree char *file = file_name (), *folder = g_path_get_dirname (file);
  g_autoptr (JsonNode) root = json_node_new (JSON_NODE_OBJECT);
  JsonObject *object = json_object_new ();
  JsonArray *bars = json_array_new ();

  for (guint i = 0; i < rack->len; i++) {
    const PrRackBar *bar = &g_array_index (rack, PrRackBar, i);
    JsonObject *one = json_object_new ();
    char length[G_ASCII_DTOSTR_BUF_SIZE + 4];

    json_object_set_string_member (one, "section", bar->name);
    if (bar->length > 0) {
      g_ascii_formatd (length, sizeof length, "%.4f", bar->length);
      g_strlcat (length, " mm", sizeof length);
      json_object_set_string_member (one, "length", length);
    }
    json_object_set_string_member (one, "material",
                                   bar->material == PR_MATERIAL_ALUMINIUM ? "aluminium" : "steel");
    json_array_add_object_element (bars, one);
  }
  json_object_set_array_member (object, "bars", bars);
  json_node_take_object (root, object);
  g_autofree char *text = pr_json_text (root, true);
  g_mkdir_with_parents (folder, 0700); /* else the file tells */
  return pr_atomic_file_write (file, text, strlen (text), error);
}

/* Letters in which a section is written, so that it is read again as it was meant: the unit in it. */
static char *
spelled (const char *section, PrUnit unit)
{
  g_autofree char *trimmed = g_strstrip (g_strdup (section));
  bool tells = strpbrk (trimmed, "/\"") || strstr (trimmed, "mm") || strstr (trimmed, "in")
               || strstr (trimmed, "cm");

  return g_strconcat (trimmed, tells ? "" : unit == PR_UNIT_INCH ? " in" : " mm", NULL);
}

bool
pr_rack_keep (const char *section, const char *length, PrMaterial material, PrUnit unit, GError **error)
{
  g_autofree char *name = spelled (section, unit);
  g_autoptr (GArray) rack = NULL;
  PrRackBar bar = { .material = (int) material };

  if (!pr_section_parse (name, unit, &bar.width, &bar.thickness, error)
      || (*length && !pr_length_parse (length, unit, &bar.length, error)))
    return false;
  if (!is_bar (&bar) || strlen (name) >= sizeof bar.name) {
    g_set_error (error, PR_ERROR, PR_ERROR_INPUT,
                 _ ("“%s” is no stock a shoe can be made of; write it like 3/8 x 1 or 25 x 10 mm."), section);
    return false;
  }
  name_bar (&bar, name);
  rack = load_to_change (error);
  if (!rack)
    return false;
  if (pr_rack_find (rack, bar.width, bar.thickness, bar.material)) {
    g_set_error (error, PR_ERROR, PR_ERROR_INPUT, _ ("“%s” is on the rack already."), bar.name);
    return false;
  }
  g_array_append_val (rack, bar);
  return write_all (rack, error);
}

bool
pr_rack_drop (const PrRackBar *bar, GError **error)
{
  g_autoptr (GArray) rack = load_to_change (error);

  for (guint i = 0; rack && i < rack->len; i++) {
    const PrRackBar *one = &g_array_index (rack, PrRackBar, i);

    if (one->material != bar->material || strcmp (one->name, bar->name) != 0)
      continue;
    if (rack->len == 1) {
      g_set_error_literal (error, PR_ERROR, PR_ERROR_INPUT,
                           _ ("The last stock stays on the rack; put another on it first."));
      return false;
    }
    g_array_remove_index (rack, i);
    return write_all (rack, error);
  }
  return rack != NULL;
}

bool
pr_rack_put_back (const PrRackBar *bar, GError **error)
{
  g_autofree char *length = bar->length > 0 ? g_strdup_printf ("%.4f mm", bar->length) : g_strdup ("");

  return pr_rack_keep (bar->name, length, (PrMaterial) bar->material, PR_UNIT_MM, error);
}

/* --- ranking --------------------------------------------------------------------------------- */

#define UPSET_WEIGHS 3 /* times as much as drawing: common practice, no source */

/* Mean equivalent strain of the sections before creasing for PLAN's own bar; where iron is upset it counts three times. */
double
pr_rack_work (const PrPlan *plan, const PrShoe *shoe, const PrIron *iron)
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
  line.work = pr_rack_work (&other, shoe, &iron);
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

GArray *
pr_rack_of_unit (const GArray *rack, PrUnit unit, int material)
{
  GArray *some = g_array_new (FALSE, FALSE, sizeof (PrRackBar));

  for (guint i = 0; i < rack->len; i++) {
    const PrRackBar *bar = &g_array_index (rack, PrRackBar, i);

    if (bar->material == material && bar->inch == (unit == PR_UNIT_INCH))
      g_array_append_val (some, *bar);
  }
  if (some->len == 0)
    g_array_append_vals (some, rack->data, rack->len);
  return some;
}

const PrRackBar *
pr_rack_find (const GArray *rack, double width, double thickness, int material)
{
  for (guint i = 0; i < rack->len; i++) {
    const PrRackBar *bar = &g_array_index (rack, PrRackBar, i);

    if (bar->material == material && fabs (bar->width - width) < SAME_MM
        && fabs (bar->thickness - thickness) < SAME_MM)
      return bar;
  }
  return NULL;
}

bool
pr_rack_best (const GArray *rack, const PrHoof *hoof, const PrPlan *plan, PrRackLine *best)
{
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
                   _ ("A piece of %.0f mm is longer than a bar of %.0f mm; take longer bars."), length[i],
                   stock);
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
