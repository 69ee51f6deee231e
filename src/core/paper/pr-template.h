/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The paper room's files in memory, before they are written. Each appends the whole file to OUT;
 * on FALSE what OUT holds is of no use. Inside this room only. */
#pragma once
#include "pr-paper.h"

bool pr_make_template_pdf (const PrJob *job, const PrPageOptions *options, GByteArray *out, GError **error);
bool pr_make_template_svg (const PrJob *job, PrFace face, GByteArray *out, GError **error);
bool pr_make_template_png (const PrJob *job, PrFace face, double px_per_mm, GByteArray *out, GError **error);
bool pr_make_bar_pdf (const PrJob *job, const PrPageOptions *options, GByteArray *out, GError **error);
