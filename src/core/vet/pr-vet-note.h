/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrVetNote: what a farrier writes on the sheet he takes to the vet, and who allowed it. A vet is consulted directly with the
 * owner's permission (a guild's code of 1999, read), so the sheet records who gave it, when and for what. Kept with the visit
 * as JSON: {"for", "why", "allowed": {"by", "on", "for"}}. All of it is within pr-bounds.h, whoever wrote it. */
#pragma once
#include <glib.h>
#include <stdbool.h>

/* Texts are never NULL; "": not told. */
typedef struct {
  char *vet;         /* who it is for; a name */
  char *why;         /* why this shoe; several lines, at most PR_VET_WHY_MOST letters */
  char *allowed_by;  /* the owner, or who speaks for the owner; a name */
  char *allowed_on;  /* that day, ISO 8601 */
  char *allowed_for; /* a sentence, at most PR_VET_FOR_MOST letters */
} PrVetNote;

/* More cannot be on one page. */
#define PR_VET_WHY_MOST 2000
#define PR_VET_FOR_MOST 240

void pr_vet_note_init (PrVetNote *note);
void pr_vet_note_clear (PrVetNote *note);
/* A note of its own, each text as it may be: cleaned, and cut where it is too long. What is no day is left out. Any may be NULL. */
void pr_vet_note_take (PrVetNote *note, const PrVetNote *from);
/* NOTE is overwritten, not cleared. Of JSON (may be NULL) that is damaged or of another kind what can be read is, the rest is not
 * told. */
void pr_vet_note_read (PrVetNote *note, const char *json);
/* NULL where nothing was told. Transfer full. */
char *pr_vet_note_json (const PrVetNote *note);
/* Is it recorded who allowed it, when and for what? */
bool pr_vet_note_is_allowed (const PrVetNote *note);
/* Is nothing of that recorded? */
bool pr_vet_note_is_silent (const PrVetNote *note);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (PrVetNote, pr_vet_note_clear)
