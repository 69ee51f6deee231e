/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The paper room's files in memory, before they are written. Each appends the whole file to OUT;
 * on FALSE what OUT holds is of no use. Inside the paper's rooms only. */
#pragma once
#include "pr-paper.h"

/* N (at most PR_N_SHOE_DOCS) documents of a shoe in one file, in the order of DOCS, pages counted over all of them. */
bool pr_make_pdf (const PrDoc *docs, int n, const PrJob *job, const PrPageOptions *options, GByteArray *out,
                  GError **error);
/* Both faces and the silhouette. */
bool pr_make_template_pdf (const PrJob *job, const PrPageOptions *options, GByteArray *out, GError **error);
bool pr_make_bar_pdf (const PrJob *job, const PrPageOptions *options, GByteArray *out, GError **error);
bool pr_make_card_pdf (const PrJob *job, const PrPageOptions *options, GByteArray *out, GError **error);
/* Of OPTIONS only unit, horse and date count. */
bool pr_make_template_svg (const PrJob *job, PrFace face, const PrPageOptions *options, GByteArray *out,
                           GError **error);
/* The bar and the iron after each heat, side by side. */
bool pr_make_stages_svg (const PrJob *job, GByteArray *out, GError **error);
bool pr_make_template_png (const PrJob *job, PrFace face, const PrPageOptions *options, double px_per_mm,
                           GByteArray *out, GError **error);
