/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The report of a job: the card's lines as text for people, and all figures as JSON for programs. */
#pragma once
#include <json-glib/json-glib.h>
#include "pr-job.h"

/* Transfer full. */
char *pr_report_text (const PrJob *job, PrUnit unit);
/* Transfer full. */
JsonNode *pr_report_json (const PrJob *job);
