/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The foot's further measures in JSON, the same in a tracing's file and in a report: where the centre line comes from,
 * the halves, heels, frog, and whether the wall is a guess. Lengths in mm, angles in degrees, differences lateral less
 * medial, places in the foot frame. */
#pragma once
#include <json-glib/json-glib.h>
#include "pr-hoof.h"

/* Members of the object that B has open. */
void pr_hoof_json_put (JsonBuilder *b, const PrHoof *hoof);
