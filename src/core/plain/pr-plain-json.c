/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the book keeps in columns, as JSON. Lengths mm, masses kg, areas mm2. */
#include "pr-plain-parts.h"

#include <string.h>

#include "pr-book-diary.h"
#include "pr-book-sql.h"
#include "pr-json.h"
#include "pr-json-put.h"

bool
pr_plain_put_text (PrPlain *plain, const char *path, const char *text, GError **error)
{
  return text == NULL || pr_file_tree_add (plain->tree, path, text, strlen (text), error);
}

bool
pr_plain_put_bytes (PrPlain *plain, const char *path, GBytes *bytes, GError **error)
{
  gsize len = 0;
  const void *data = bytes != NULL ? g_bytes_get_data (bytes, &len) : NULL;

  return bytes == NULL || pr_file_tree_add (plain->tree, path, data, len, error);
}

bool
pr_plain_put_json (PrPlain *plain, const char *path, JsonBuilder *builder, GError **error)
{
  g_autoptr (JsonNode) root = json_builder_get_root (builder);
  g_autofree char *text = pr_json_text (root, true), *line = g_strconcat (text, "\n", NULL);

  return pr_plain_put_text (plain, path, line, error);
}

void
pr_plain_put_member (JsonBuilder *builder, const char *name, const char *text)
{
  bool safe = text != NULL && pr_json_is_safe (text, strlen (text));
  JsonNode *node = safe ? pr_json_parse (text, strlen (text), NULL) : NULL;

  if (node == NULL)
    return;
  json_builder_set_member_name (builder, name);
  json_builder_add_value (builder, node);
}

bool
pr_plain_horse (PrPlain *plain, const char *path, const PrBookHorse *horse, const char *last, GError **error)
{
  g_autoptr (JsonBuilder) b = json_builder_new ();
  bool due = last != NULL && pr_date_holds (last) && horse->due_days != PR_BOOK_NEVER_DUE;
  g_autofree char *day = due ? pr_book_due_day (last, horse->due_days) : NULL;

  json_builder_begin_object (b);
  pr_put_text (b, "name", horse->name);
  pr_put_text (b, "yard", horse->yard);
  pr_put_text (b, "owner", horse->owner);
  pr_put_text (b, "note", horse->note);
  pr_put_int (b, "due_days", horse->due_days);
  if (day != NULL)
    pr_put_text (b, "next_due", day);
  json_builder_end_object (b);
  return pr_plain_put_json (plain, path, b, error);
}

bool
pr_plain_visit (PrPlain *plain, const char *path, const PrBookVisit *visit, GError **error)
{
  g_autoptr (JsonBuilder) b = json_builder_new ();
  g_autoptr (sqlite3_stmt) stmt
      = pr_sql_prepare (plain->book, error, "SELECT colour, vet FROM visit WHERE id = ?", "i", visit->id);

  if (stmt == NULL || pr_sql_step (plain->book, stmt, error) < 0)
    return false;
  g_autofree char *vet = pr_sql_text (stmt, 1);
  json_builder_begin_object (b);
  pr_put_text (b, "date", visit->date);
  pr_put_text (b, "note", visit->note);
  pr_put_int (b, "colour", sqlite3_column_int (stmt, 0));
  pr_plain_put_member (b, "vet", vet);
  json_builder_end_object (b);
  return pr_plain_put_json (plain, path, b, error);
}

static void
put_forged (JsonBuilder *b, const PrBookForged *f)
{
  pr_put_text (b, "material", f->material);
  pr_put_text (b, "style_group", f->group);
  pr_put (b, "bar_width", f->bar_width);
  pr_put (b, "bar_thickness", f->bar_thick);
  pr_put (b, "cut", f->cut);
  pr_put (b, "left_over", f->leftover);
  pr_put (b, "predicted", f->predicted);
  pr_put (b, "loss", f->loss);
  pr_put (b, "bar_kg", f->bar_kg);
  pr_put (b, "shoe_kg", f->shoe_kg);
  pr_put (b, "slugs_kg", f->slugs_kg);
  pr_put (b, "left_over_kg", f->leftover_kg);
  pr_put (b, "crease_before", f->crease_before);
  pr_put (b, "crease_after", f->crease_after);
  pr_put (b, "crease_area", f->crease_area);
  pr_put (b, "whole_area", f->whole_area);
  pr_put (b, "lambda", f->lambda);
  pr_put (b, "length", f->length);
  pr_put (b, "width", f->width);
  pr_put (b, "web_toe", f->web_toe);
  pr_put (b, "web_quarter_medial", f->web_quarter[0]);
  pr_put (b, "web_quarter_lateral", f->web_quarter[1]);
  pr_put (b, "web_heel_medial", f->web_heel[0]);
  pr_put (b, "web_heel_lateral", f->web_heel[1]);
}

bool
pr_plain_attempt (PrPlain *plain, const char *path, const PrBookAttempt *attempt, GError **error)
{
  g_autoptr (JsonBuilder) b = json_builder_new ();

  json_builder_begin_object (b);
  pr_put_text (b, "date", attempt->date);
  pr_put_text (b, "note", attempt->note);
  pr_put_int (b, "minutes", attempt->minutes);
  pr_put_int (b, "heats", attempt->heats);
  pr_put (b, "off_mm", attempt->off_mm);
  put_forged (b, &attempt->forged);
  json_builder_end_object (b);
  return pr_plain_put_json (plain, path, b, error);
}
