/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-vet-note.h"

#include <string.h>

#include "pr-bounds.h"
#include "pr-json-put.h"
#include "pr-json.h"

void
pr_vet_note_clear (PrVetNote *note)
{
  g_free (note->vet);
  g_free (note->why);
  g_free (note->allowed_by);
  g_free (note->allowed_on);
  g_free (note->allowed_for);
  *note = (PrVetNote){ 0 };
}

/* TEXT, which is taken over, without blanks at its ends, and with dots for what is beyond MOST letters. Transfer full. */
static char *
fit (char *text, glong most)
{
  g_autofree char *owned = g_strstrip (text);

  if (g_utf8_strlen (owned, -1) <= most)
    return g_steal_pointer (&owned);
  *g_utf8_offset_to_pointer (owned, most - 1) = '\0';
  return g_strconcat (g_strchomp (owned), "…", NULL);
}

void
pr_vet_note_take (PrVetNote *note, const PrVetNote *from)
{
  *note = (PrVetNote){
    .vet = pr_name_fit (from->vet),
    .why = fit (pr_note_fit (from->why), PR_VET_WHY_MOST),
    .allowed_by = pr_name_fit (from->allowed_by),
    .allowed_on
    = pr_date_holds (from->allowed_on) ? g_strndup (from->allowed_on, strlen ("2024-11-30")) : g_strdup (""),
    .allowed_for = fit (pr_sentence_fit (from->allowed_for), PR_VET_FOR_MOST),
  };
}

void
pr_vet_note_init (PrVetNote *note)
{
  const PrVetNote nothing = { 0 };

  pr_vet_note_take (note, &nothing);
}

void
pr_vet_note_read (PrVetNote *note, const char *json)
{
  g_autoptr (JsonNode) node = json != NULL && pr_bound_holds (PR_BOUND_VET, (double) strlen (json))
                                  ? pr_json_parse (json, strlen (json), NULL)
                                  : NULL;
  JsonObject *root = pr_json_is_object (node), *allowed = pr_json_object (root, "allowed");
  const PrVetNote told = {
    .vet = (char *) pr_json_string (root, "for"),
    .why = (char *) pr_json_string (root, "why"),
    .allowed_by = (char *) pr_json_string (allowed, "by"),
    .allowed_on = (char *) pr_json_string (allowed, "on"),
    .allowed_for = (char *) pr_json_string (allowed, "for"),
  };

  pr_vet_note_take (note, &told);
}

static bool
says_nothing (const PrVetNote *note)
{
  return *note->vet == 0 && *note->why == 0 && *note->allowed_by == 0 && *note->allowed_on == 0
         && *note->allowed_for == 0;
}

char *
pr_vet_note_json (const PrVetNote *note)
{
  g_autoptr (JsonBuilder) b = json_builder_new ();

  if (says_nothing (note))
    return NULL;
  json_builder_begin_object (b);
  pr_put_text (b, "for", note->vet);
  pr_put_text (b, "why", note->why);
  pr_begin (b, "allowed");
  pr_put_text (b, "by", note->allowed_by);
  pr_put_text (b, "on", note->allowed_on);
  pr_put_text (b, "for", note->allowed_for);
  json_builder_end_object (b);
  json_builder_end_object (b);
  g_autoptr (JsonNode) node = json_builder_get_root (b);
  return pr_json_text (node, false);
}

bool
pr_vet_note_is_allowed (const PrVetNote *note)
{
  return *note->allowed_by != 0 && *note->allowed_on != 0 && *note->allowed_for != 0;
}

bool
pr_vet_note_is_silent (const PrVetNote *note)
{
  return *note->allowed_by == 0 && *note->allowed_on == 0 && *note->allowed_for == 0;
}
