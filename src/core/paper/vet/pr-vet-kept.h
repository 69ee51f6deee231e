/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The forged shoe of an attempt that is kept in the book, to be laid on its plan once more. */
#pragma once
#include "pr-compare-data.h"

/* From COMPARED, JSON as pr_compare_json writes it, of foot FOOT: what was seen, and how it lay. SEEN must be empty, and stays so on
 * FALSE: there is nothing that can be read. It may come from anybody. */
bool pr_vet_kept_read (const char *compared, PrFoot foot, PrSeen *seen, PrLay *lay);
