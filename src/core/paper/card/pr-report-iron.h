/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The report's members "iron", and "dividers", "order" and "heats". Inside this room only. */
#pragma once
#include <json-glib/json-glib.h>
#include "pr-job.h"

/* Planned anew, for names that do not change with the language. */
void pr_report_put_iron (JsonBuilder *b, const PrJob *job);
/* Of a shoe that is built. */
void pr_report_put_work (JsonBuilder *b, const PrJob *job);
