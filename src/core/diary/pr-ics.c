/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-ics.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define FOLD 75 /* octets of a line without its end (RFC 5545, 3.1) */

/* VALUE as TEXT is written (3.3.11). Transfer full. */
static char *
escaped (const char *value)
{
  GString *out = g_string_new (NULL);

  for (const char *c = value; *c; c++) {
    if (*c == '\\' || *c == ';' || *c == ',')
      g_string_append_c (out, '\\');
    if (*c == '\n')
      g_string_append (out, "\\n");
    else if (*c != '\r')
      g_string_append_c (out, *c);
  }
  return g_string_free (out, FALSE);
}

/* A line goes on after CRLF and a blank, which counts as the first octet of the next. */
static void
add_line (GString *out, const char *line)
{
  size_t taken = 0;

  for (const char *c = line; *c; c = g_utf8_next_char (c)) {
    size_t n = (size_t) (g_utf8_next_char (c) - c);

    if (taken + n > FOLD) {
      g_string_append (out, "\r\n ");
      taken = 1;
    }
    g_string_append_len (out, c, (gssize) n);
    taken += n;
  }
  g_string_append (out, "\r\n");
}

static void
add_text (GString *out, const char *name, const char *value)
{
  g_autofree char *text = escaped (value), *line = g_strconcat (name, ":", text, NULL);

  if (*value)
    add_line (out, line);
}

/* "2026-12-11" as 20261211. */
static void
add_day (GString *out, const char *name, const char *date)
{
  g_autofree char *line = g_strdup_printf ("%s;VALUE=DATE:%.4s%.2s%.2s", name, date, date + 5, date + 8);

  add_line (out, line);
}

static void
add_event (GString *out, const PrBookDue *due, const char *book, const char *stamp)
{
  const PrBookHorse *horse = &due->horse;
  g_autofree char *uid = g_strdup_printf ("UID:horse-%" G_GINT64_FORMAT "@%s", horse->id, book);
  g_autofree char *title = g_strdup_printf (_ ("%s: next shoeing"), horse->name);
  g_autoptr (GString) more = g_string_new (NULL);

  g_string_append_printf (more, _ ("Last visit %s."), due->last);
  if (*horse->owner)
    g_string_append_printf (more, "\n%s", horse->owner);
  if (*horse->note)
    g_string_append_printf (more, "\n%s", horse->note);
  add_line (out, "BEGIN:VEVENT");
  add_line (out, uid);
  add_line (out, stamp);
  add_day (out, "DTSTART", due->due);
  add_text (out, "SUMMARY", title);
  add_text (out, "LOCATION", horse->yard);
  add_text (out, "DESCRIPTION", more->str);
  add_line (out, "TRANSP:TRANSPARENT");
  add_line (out, "END:VEVENT");
}

char *
pr_ics_due (const GPtrArray *due, const char *book, GDateTime *now)
{
  g_autoptr (GDateTime) utc = g_date_time_to_utc (now);
  g_autofree char *stamp = g_date_time_format (utc, "DTSTAMP:%Y%m%dT%H%M%SZ");
  GString *out = g_string_new (NULL);

  add_line (out, "BEGIN:VCALENDAR");
  add_line (out, "VERSION:2.0");
  add_line (out, "PRODID:-//Pritchel//EN");
  for (guint i = 0; i < due->len; i++)
    add_event (out, due->pdata[i], book, stamp);
  add_line (out, "END:VCALENDAR");
  return g_string_free (out, FALSE);
}
