/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sheet for the vet, for a printer and its preview (pr-sheaf.h). */
#pragma once
#include "pr-sheaf.h"
#include "pr-vet-about.h"

/* Of copies as they stand: ABOUT's job and note, and SEEN (may be NULL) laid on that job in the way LAY; a shoe that cannot be
 * compared is left out. It does not lay out what pr_vet_page_holds refuses. Transfer full. */
PrSheaf *pr_vet_sheaf_new (const PrJob *job, const PrVetNote *note, const PrSeen *seen, PrLay lay);
