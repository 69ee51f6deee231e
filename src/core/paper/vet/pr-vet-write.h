/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sheet for the vet as files: the page, and both pictures apart at 1 : 1. Numbers with a point. */
#pragma once
#include "pr-paper.h"
#include "pr-vet-picture.h"

/* FALSE with an error, and OUT of no use, when it cannot be written or pr_vet_page_holds refuses it. */
bool pr_vet_pdf (const PrVetAbout *about, const PrPageOptions *options, GByteArray *out, GError **error);
/* Of OPTIONS only unit, horse and date count. */
bool pr_vet_png (const PrVetAbout *about, PrVetPicture which, const PrPageOptions *options, GByteArray *out,
                 GError **error);
/* What they are called behind a stem: "vet.pdf", "before.png", "after.png", NULL-terminated. */
const char *const *pr_vet_write_names (void);
/* All three in DIR as STEM-NAME: one set, all or none. STEM and DIR in the encoding of file names; options->stem is not read. */
bool pr_vet_write (const PrVetAbout *about, const PrPageOptions *options, const char *dir, const char *stem,
                   GError **error);
