/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A shoe that is to be forged again, opened as a job of its own: its photo takes the place of a tracing's, its outer edge that of
 * the foot's outline. */
#pragma once
#include "pr-document.h"
#include "pr-seen-find.h"

/* Looks in the background for the shoe in FILE and plans it as the FOOT's; it is filed under the horse "Specimens". A failure is
 * told as trouble and leaves what was there. FOOT says which branch is the lateral one and must be told. */
void pr_document_take_specimen (PrDocument *doc, GFile *file, PrFoot foot, const PrSeenOptions *how);
/* Is what is open one? */
bool pr_document_is_specimen (PrDocument *doc);
