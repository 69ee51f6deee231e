/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-phone-form.h"

#include <libsoup/soup.h>
#include <string.h>

#define MOST_BOUNDARY 70 /* RFC 2046, 5.1.1 */
#define MOST_PADDING 64  /* blanks behind a boundary */

typedef enum { BEFORE, BEHIND_BOUNDARY, HEAD, FILE_PART, FIELD_PART, SKIPPED_PART, OVER, AT_FAULT } State;

struct _PrPhoneForm {
  PrPhoneFormOwner owner;
  char *boundary; /* with the line break and the dashes before it */
  gsize length;
  GByteArray *held; /* not dealt with yet */
  State state;
  int parts;
  char *name; /* of a field */
  GString *value;
};

PrPhoneForm *
pr_phone_form_new (const char *boundary, const PrPhoneFormOwner *owner)
{
  gsize length = boundary != NULL ? strlen (boundary) : 0;

  if (length < 1 || length > MOST_BOUNDARY)
    return NULL;
  PrPhoneForm *form = g_new0 (PrPhoneForm, 1);
  form->owner = *owner;
  form->boundary = g_strdup_printf ("\r\n--%s", boundary);
  form->length = length + 4;
  form->held = g_byte_array_new ();
  form->value = g_string_new (NULL);
  g_byte_array_append (form->held, (const guint8 *) "\r\n", 2); /* the first boundary has none before it */
  return form;
}

void
pr_phone_form_free (PrPhoneForm *form)
{
  g_free (form->boundary);
  g_byte_array_unref (form->held);
  g_string_free (form->value, TRUE);
  g_free (form->name);
  g_free (form);
}

static void
drop (PrPhoneForm *form, gsize n)
{
  g_byte_array_remove_range (form->held, 0, (guint) n);
}

/* --- what is in a part --- */

static State
field_goes_on (PrPhoneForm *form, gsize n)
{
  if (form->value->len + n > PR_FORM_VALUE)
    return AT_FAULT;
  g_string_append_len (form->value, (const char *) form->held->data, (gssize) n);
  return FIELD_PART;
}

/* N bytes of what is held belong to the part that is open. */
static void
part_goes_on (PrPhoneForm *form, gsize n)
{
  if (n == 0)
    return;
  if (form->state == FILE_PART && !form->owner.bytes ((const char *) form->held->data, n, form->owner.data))
    form->state = AT_FAULT;
  else if (form->state == FIELD_PART)
    form->state = field_goes_on (form, n);
  drop (form, n);
}

static void
part_ends (PrPhoneForm *form)
{
  State next = BEHIND_BOUNDARY;

  if (form->state == FILE_PART && !form->owner.end (form->owner.data))
    next = AT_FAULT;
  else if (form->state == FIELD_PART && g_utf8_validate (form->value->str, (gssize) form->value->len, NULL))
    form->owner.field (form->name, form->value->str, form->owner.data);
  form->state = next;
}

/* TRUE: there is more to be done with what is held. */
static bool
read_part (PrPhoneForm *form)
{
  const guint8 *found = memmem (form->held->data, form->held->len, form->boundary, form->length);
  gsize keep = form->length - 1;

  if (found == NULL) {
    part_goes_on (form, form->held->len > keep ? form->held->len - keep : 0);
    return false;
  }
  part_goes_on (form, (gsize) (found - form->held->data));
  if (form->state == AT_FAULT)
    return false;
  drop (form, form->length);
  part_ends (form);
  return true;
}

/* --- between parts --- */

static bool
read_behind_boundary (PrPhoneForm *form)
{
  const char *text = (const char *) form->held->data;
  const guint8 *end = memmem (text, MIN (form->held->len, MOST_PADDING), "\r\n", 2);

  if (form->held->len >= 2 && text[0] == '-' && text[1] == '-') {
    form->state = OVER;
    return false;
  }
  for (gsize i = 0; end != NULL && text + i < (const char *) end; i++)
    if (text[i] != ' ' && text[i] != '\t')
      form->state = AT_FAULT;
  if (end == NULL && form->held->len >= MOST_PADDING)
    form->state = AT_FAULT;
  if (end == NULL || form->state == AT_FAULT)
    return false;
  drop (form, (gsize) ((const char *) end
                       - text)); /* but for its line break, which may be all of an empty head's end */
  form->state = ++form->parts > PR_FORM_PARTS ? AT_FAULT : HEAD;
  return true;
}

/* What LINE, of a head, says of the part. */
static void
read_disposition (PrPhoneForm *form, const char *line, bool *file)
{
  static const char key[] = "content-disposition:";

  if (g_ascii_strncasecmp (line, key, strlen (key)) != 0)
    return;
  g_autoptr (GHashTable) params = soup_header_parse_semi_param_list (line + strlen (key));
  const char *name = g_hash_table_lookup (params, "name"),
             *of_file = g_hash_table_lookup (params, "filename");
  g_free (form->name);
  form->name = name != NULL && g_utf8_validate (name, -1, NULL) ? g_strdup (name) : NULL;
  *file = of_file != NULL && of_file[0] != '\0';
  if (of_file != NULL && !*file) /* where no file was chosen */
    g_clear_pointer (&form->name, g_free);
}

static void
begin_part (PrPhoneForm *form, const char *head)
{
  g_auto (GStrv) lines = g_strsplit (head, "\r\n", -1);
  bool file = false;

  g_clear_pointer (&form->name, g_free);
  for (int i = 0; lines[i] != NULL; i++)
    read_disposition (form, lines[i], &file);
  g_string_truncate (form->value, 0);
  form->state = file ? FILE_PART : form->name != NULL ? FIELD_PART : SKIPPED_PART;
  if (file && !form->owner.begin (form->owner.data))
    form->state = AT_FAULT;
}

static bool
read_head (PrPhoneForm *form)
{
  const guint8 *end = memmem (form->held->data, form->held->len, "\r\n\r\n", 4);
  gsize n = end != NULL ? (gsize) (end - form->held->data) : form->held->len;

  if (n > PR_FORM_HEAD || memchr (form->held->data, 0, n) != NULL) {
    form->state = AT_FAULT;
    return false;
  }
  if (end == NULL)
    return false;
  g_autofree char *head = g_strndup ((const char *) form->held->data, n);
  drop (form, n + 4);
  begin_part (form, head);
  return form->state != AT_FAULT;
}

/* --- doors --- */

bool
pr_phone_form_feed (PrPhoneForm *form, const char *bytes, gsize n)
{
  bool more = form->state != OVER && form->state != AT_FAULT;

  if (more)
    g_byte_array_append (form->held, (const guint8 *) bytes, (guint) n);
  while (more) {
    if (form->state == BEHIND_BOUNDARY)
      more = read_behind_boundary (form);
    else if (form->state == HEAD)
      more = read_head (form);
    else
      more = read_part (form);
  }
  if (form->state == OVER)
    g_byte_array_set_size (form->held, 0);
  return form->state != AT_FAULT;
}

bool
pr_phone_form_is_whole (const PrPhoneForm *form)
{
  return form->state == OVER;
}
