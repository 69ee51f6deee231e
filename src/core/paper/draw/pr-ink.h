/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Colours and lettering of everything that is drawn: pages in mm, the same drawings on a screen in
 * its pixels. A screen may hand in its own colours as a PrInk, and its own lettering. */
#pragma once
#include <cairo.h>
#include <stdbool.h>

typedef struct {
  double r, g, b, a;
} PrColour;

typedef struct {
  PrColour steel, line, deep, crease; /* the figure, its edges, nails and clips, the crease */
  PrColour wall, faint, text;         /* hoof, centre lines, words */
  PrColour draw, upset;               /* iron to be drawn, to be upset */
  PrColour ground;                    /* under words that must stand clear */
} PrInk;

/* One set for a light ground, one for a dark one. In both, words are read on every shade of draw and
 * upset: at least 4.5 : 1 (WCAG 2.1, 1.4.3). */
extern const PrInk pr_ink_light, pr_ink_dark;

/* "#rrggbb" of a colour written as 0xrrggbb. */
#define PR_RGB(hex_)                                                                    \
  {                                                                                     \
    ((hex_) >> 16 & 255) / 255.0, ((hex_) >> 8 & 255) / 255.0, ((hex_) &255) / 255.0, 1 \
  }

typedef enum { PR_LEFT, PR_MIDDLE, PR_RIGHT } PrAlign;

void pr_ink (cairo_t *cr, PrColour colour);
/* The colour between A (0) and B (1). */
PrColour pr_ink_mix (PrColour a, PrColour b, double t);
/* Lettering of SIZE, without hinting, so that it measures the same at every scale. */
void pr_text_face (cairo_t *cr, double size, bool bold);
/* The same in another FAMILY; NULL: the paper's. */
void pr_text_face_of (cairo_t *cr, const char *family, double size, bool bold);
double pr_text_width (cairo_t *cr, const char *text);
/* One line, its base line at Y, beginning, middle or end at X. */
void pr_text (cairo_t *cr, double x, double y, PrAlign align, const char *text);
/* What lies round that line, REACH wide, in the colour that CR has. */
void pr_text_halo (cairo_t *cr, double x, double y, PrAlign align, double reach, const char *text);
/* TEXT, or as much of it as WIDTH holds and dots. Transfer full. */
char *pr_text_cut (cairo_t *cr, const char *text, double width);
/* Broken between words to WIDTH (and inside a word that is longer), base line of the first at Y, LEAD apart; returns the base line
 * that the next line would have. With CR's path untouched. DRAW FALSE only measures. */
double pr_text_block (cairo_t *cr, double x, double y, double width, double lead, bool draw,
                      const char *text);
/* A context that measures lettering and draws nowhere. Transfer full. */
cairo_t *pr_text_scratch (void);
