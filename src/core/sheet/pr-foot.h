/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which foot, which face. Near is left. Files write LF RF LH RH. */
#pragma once
#include <stdbool.h>

typedef enum { PR_FOOT_ANY, PR_FOOT_LF, PR_FOOT_RF, PR_FOOT_LH, PR_FOOT_RH } PrFoot;
#define PR_N_FEET 5
typedef enum { PR_FACE_FOOT, PR_FACE_GROUND } PrFace;

const char *pr_foot_code (PrFoot foot);              /* "LF"; "any"; static */
const char *pr_foot_name (PrFoot foot);              /* "near fore", translated, as called; static */
const char *pr_foot_letters (PrFoot foot);           /* for a small place, "LF", translated; static */
bool pr_foot_parse (const char *code, PrFoot *foot); /* LF, lf, any */
bool pr_foot_is_left (PrFoot foot);                  /* FALSE for PR_FOOT_ANY */
bool pr_foot_is_hind (PrFoot foot);
PrFoot pr_foot_opposite (PrFoot foot);  /* of the same pair; ANY for ANY */
const char *pr_face_name (PrFace face); /* "foot surface" / "ground surface", translated */
/* What all names say from now on: as the language has it, or near and off, or left and right. For the main thread, before
 * and between what it shows; what runs beside it only reads. */
typedef enum { PR_SIDES_LANGUAGE, PR_SIDES_NEAR, PR_SIDES_LEFT } PrSides;
void pr_foot_call (PrSides sides);
/* +1 when the lateral side is seen on the right, -1 when on the left: foot surface of a
 * left foot, seen from above, has the lateral side on the left; the ground surface is its
 * mirror. PR_FOOT_ANY counts as right. */
int pr_lateral_sign (PrFoot foot, PrFace face);
