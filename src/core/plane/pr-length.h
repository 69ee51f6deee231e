/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lengths as people type and read them. Inside everything is mm. */
#pragma once
#include <glib.h>
#include <stdbool.h>

#define PR_MM_PER_INCH 25.4 /* exact: international yard and pound agreement, 1959 */

typedef enum { PR_UNIT_MM, PR_UNIT_INCH } PrUnit;

/* Parses "95", "95 mm", "95,5 mm", "9.5cm", "3/8", "1 1/4", "12in", "12\"", "1 ft 2 in".
 * A number without a unit is in UNIT, but a fraction (3/8, 1 1/4) is always inches.
 * Comma and point are both decimal marks, whatever the locale. */
bool pr_length_parse (const char *text, PrUnit unit, double *mm, GError **error);
/* "WIDTH x THICKNESS" in either order ("3/8 x 1 1/4", "25x10", "25 × 10 mm"): the larger is
 * the width. A unit behind the last figure holds for both when the first has none. */
bool pr_section_parse (const char *text, PrUnit unit, double *width, double *thickness, GError **error);
/* "95.5 mm" (one decimal) or "3 3/4 in" (nearest 1/16, reduced), for people: with the decimal mark of
 * the user's locale. Transfer full. */
char *pr_length_text (double mm, PrUnit unit);
/* Without the unit, for table columns: "95.5", "3 3/4". Transfer full. */
char *pr_length_number (double mm, PrUnit unit);
/* A length to cut: never shorter than MM, up to the next mm or 1/16 in; in mm, so that what is cut can be added up ... */
double pr_length_cut_mm (double mm, PrUnit unit);
/* ... and as it is told: "245 mm", "9 11/16 in". Transfer full. */
char *pr_length_cut (double mm, PrUnit unit);
/* Finer, for two figures that would read the same and are not: FINER 1 "3.04 mm" or "3 1/32 in", 2 "3.041 mm" or "3 1/64 in",
 * 3 "3.0412 mm" or "3.0157 in". Transfer full. */
char *pr_length_fine (double mm, PrUnit unit, int finer);
/* The same two without an idle zero behind the decimal mark: "95 mm" where the others write "95.0 mm", for a screen
 * that shows few figures; columns keep their zeros. Transfer full. */
char *pr_length_brief (double mm, PrUnit unit);
/* In whole mm or sixteenths, for a sentence: "128 mm", "5 1/16 in". Transfer full. */
char *pr_length_rough (double mm, PrUnit unit);
char *pr_length_brief_number (double mm, PrUnit unit);
/* "25.0 × 10.0 mm", "1 × 3/8 in": width and thickness of a section in the order of the language. Transfer full. */
char *pr_section_text (double width, double thickness, PrUnit unit);
char *pr_section_brief (double width, double thickness, PrUnit unit);
/* As a bar of that section is called: in inches where both of its figures are whole sixteenths (to 0.05 mm) and are no
 * whole half mm, in mm where it is the other way about (common practice, no source); in UNIT where that does not tell.
 * Transfer full. */
char *pr_section_as_called (double width, double thickness, PrUnit unit);
