/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is measured or marked on a foot, by name and as typed: "wall.toe" "11", "mark.frog_apex" "104.5,150".
 * A mark's place is on the sheet, mm from its upper left corner; an empty value takes it back. */
#pragma once
#include "pr-sources.h"

/* Is NAME of this kind, and no parameter of the plan? */
bool pr_sources_has_name (const char *name);
/* Sets it in SOURCES alone: hoof and all the rest are to be made anew (pr_job_refresh_hoof). HOOF, which may be NULL,
 * is the foot that a wall must fit. FALSE with an error that says what would do, and nothing changed. */
bool pr_sources_set_text (PrSources *sources, const PrHoof *hoof, const char *name, const char *value,
                          PrUnit unit, GError **error);
/* All there are, with what each is, translated: "wall.toe", "Wall thickness at the toe". I from 0; FALSE: no more. */
bool pr_sources_name (size_t i, const char **name, const char **label);
