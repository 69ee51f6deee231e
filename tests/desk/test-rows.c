/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The lines of the panel's template, given as the argument, name parameters of the table; two that are the branches
 * of one thing stand medial before lateral. Needs no screen. */
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>
#include <cmocka.h>
#include "pr-plan.h"

#define LEAST_ROWS 30 /* fewer: the template was not understood */

typedef struct {
  bool in_row;         /* inside a PrParamRow */
  const char *reading; /* "first" or "second" while that property's text comes */
  char *first, *second;
  int rows, pairs;
} Reader;

static const char *template;

static void
check_row (Reader *reader)
{
  const PrParam *first = reader->first ? pr_param_find (reader->first) : NULL;

  if (!first)
    fail_msg ("a line of the panel names “%s”, which is no parameter", reader->first);
  if (reader->second && !pr_param_find (reader->second))
    fail_msg ("a line of the panel names “%s”, which is no parameter", reader->second);
  if (g_str_has_suffix (reader->first, ".medial")) {
    g_autofree char *stem = g_strndup (reader->first, strlen (reader->first) - strlen (".medial"));
    g_autofree char *twin = g_strconcat (stem, ".lateral", NULL);

    assert_string_equal (reader->second, twin);
    reader->pairs++;
  }
  reader->rows++;
}

static void
start (GMarkupParseContext *context, const char *element, const char **names, const char **values,
       gpointer data, GError **error)
{
  Reader *reader = data;

  (void) context;
  (void) error;
  for (int i = 0; names[i]; i++) {
    if (g_str_equal (element, "object") && g_str_equal (names[i], "class"))
      reader->in_row = g_str_equal (values[i], "PrParamRow");
    if (reader->in_row && g_str_equal (element, "property") && g_str_equal (names[i], "name"))
      reader->reading = g_str_equal (values[i], "first")    ? "first"
                        : g_str_equal (values[i], "second") ? "second"
                                                            : NULL;
  }
}

static void
text (GMarkupParseContext *context, const char *words, gsize length, gpointer data, GError **error)
{
  Reader *reader = data;

  (void) context;
  (void) error;
  if (reader->reading)
    *(*reader->reading == 'f' ? &reader->first : &reader->second) = g_strndup (words, length);
}

static void
end (GMarkupParseContext *context, const char *element, gpointer data, GError **error)
{
  Reader *reader = data;

  (void) context;
  (void) error;
  reader->reading = NULL;
  if (!reader->in_row || !g_str_equal (element, "object"))
    return;
  check_row (reader);
  g_clear_pointer (&reader->first, g_free);
  g_clear_pointer (&reader->second, g_free);
  reader->in_row = false;
}

static void
rows_name_parameters (void **state)
{
  const GMarkupParser parser = { start, end, text, NULL, NULL };
  Reader reader = { 0 };
  GMarkupParseContext *context = g_markup_parse_context_new (&parser, 0, &reader, NULL);
  g_autoptr (GError) error = NULL;
  g_autofree char *xml = NULL;
  gsize length;

  (void) state;
  assert_true (g_file_get_contents (template, &xml, &length, &error));
  assert_true (g_markup_parse_context_parse (context, xml, (gssize) length, &error));
  assert_in_range (reader.rows, LEAST_ROWS, 1000);
  assert_in_range (reader.pairs, 5, 1000);
  g_markup_parse_context_free (context);
}

int
main (int argc, char **argv)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test (rows_name_parameters) };

  template = argc > 1 ? argv[1] : "";
  return cmocka_run_group_tests (tests, NULL, NULL);
}
