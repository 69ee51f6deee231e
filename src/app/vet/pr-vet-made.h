/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sheet for the vet of the foot that is open: the shoe forged for it, which is the one on the board, else the last one kept
 * with the foot; horse, day and note of its visit. Sees no window. */
#pragma once
#include "pr-document.h"
#include "pr-sheaf.h"
#include "pr-vet-page.h"

typedef struct {
  PrBookVisit visit; /* as the book has it */
  PrSeen kept;       /* what the last attempt kept shows */
  bool has_kept;
  PrLay lay;
  PrComparison laid; /* that on its plan */
} PrVetMade;

/* FALSE with error where the open foot's visit cannot be read. */
bool pr_vet_made_start (PrVetMade *made, PrDocument *doc, GError **error);
void pr_vet_made_clear (PrVetMade *made);
/* What the sheet is about now; good until the document's next change. */
PrVetAbout pr_vet_made_about (const PrVetMade *made, PrDocument *doc, const PrVetNote *note);
/* Its page, on the paper of the unit that is chosen; NULL while there is no shoe. ABOUT's must outlive it. Transfer full. */
PrVetPage *pr_vet_made_page (const PrVetAbout *about, PrDocument *doc);
/* For a printer, with its name. Transfer full. */
PrSheaf *pr_vet_made_sheaf (const PrVetMade *made, PrDocument *doc, const PrVetNote *note);
/* Page and pictures into folder DIR, under names that are free there. */
bool pr_vet_made_write (const PrVetMade *made, PrDocument *doc, const PrVetNote *note, const char *dir,
                        GError **error);
/* NOTE is kept with the visit: one step back where it is another than before. */
bool pr_vet_made_keep (PrVetMade *made, PrDocument *doc, const PrVetNote *note, GError **error);
