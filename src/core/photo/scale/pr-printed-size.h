/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A printed sheet held against the paper it was printed on. A printer that fits the page into its margins
 * draws it at 94 to 98 %, and every measure taken by the print is then too large by as much. */
#pragma once
#include "pr-paper-edges.h"

/* Sets printed, trust and question of T's scale, whose camera is the fiducials'; where the print is off
 * by 0.7 % or more the verdict falls to usable and says so. With TRUST PAPER camera and size are then the
 * paper's: it is taken to be as large as its kind, to what ISO 216 lets it be cut to. TAGS: how many fiducials
 * the camera rests on; with fewer than four it reaches the edges less surely. */
void pr_printed_size_take (PrTracing *t, const PrPaperEdges *edges, int tags, PrTrust trust);
