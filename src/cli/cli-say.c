/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is told on the terminal. */
#include "cli.h"

#include <errno.h>
#include <glib/gi18n-lib.h>
#include <stdio.h>
#include <string.h>

#include "pr-atomic-file.h"
#include "pr-error.h"
#include "pr-json.h"
#include "pr-text.h"

/* A line as a terminal may have it, whatever the names in it hold. Transfer full. */
static char *
line_of (const char *format, va_list args)
{
  g_autofree char *text = g_strdup_vprintf (format, args);
  gsize len = strlen (text);

  if (len > 0 && text[len - 1] == '\n')
    text[len - 1] = '\0';
  return pr_text_plain_line (text);
}

void
cli_print (const char *format, ...)
{
  va_list args;

  va_start (args, format);
  g_autofree char *line = line_of (format, args);
  va_end (args);
  g_print ("%s\n", line);
}

void
cli_print_trouble (const char *format, ...)
{
  va_list args;

  va_start (args, format);
  g_autofree char *line = line_of (format, args);
  va_end (args);
  g_printerr ("%s\n", line);
}

static void
say (const char *prefix, GError *error, const char *tail)
{
  g_autofree char *line = g_strdelimit (g_strdup (error->message), "\r\n", ' ');

  cli_print_trouble ("%s: %s%s\n", prefix, line, tail);
  g_error_free (error);
}

int
cli_fail (GError *error)
{
  say ("pritchel", error, "");
  return CLI_FAILED;
}

int
cli_misuse (const char *command, GError *error)
{
  g_autofree char *name = command != NULL ? g_strdup_printf ("pritchel %s", command) : g_strdup ("pritchel");
  g_autofree char *tail = g_strdup_printf (_ ("; see %s --help."), name);
  size_t length = strlen (error->message);

  if (length > 0 && error->message[length - 1] == '.')
    error->message[length - 1] = 0;
  say (name, error, tail);
  return CLI_WRONG_USE;
}

bool
cli_flush (GError **error)
{
  if (fflush (stdout) == 0 && !ferror (stdout))
    return true;
  g_set_error (error, PR_ERROR, PR_ERROR_FILE,
               _ ("Standard output could not be written (%s); send it somewhere else."), g_strerror (errno));
  return false;
}

bool
cli_write_json (JsonNode *node, const char *file, GError **error)
{
  g_autofree char *text = pr_json_text (node, true);

  if (strcmp (file, "-") != 0)
    return pr_atomic_file_write (file, text, strlen (text), error);
  g_autofree char *plain = pr_text_plain_json (text);
  if (fputs (plain, stdout) >= 0)
    putchar ('\n');
  return cli_flush (error);
}
