/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a scene shows, and how it is photographed. */
#pragma once
#include <glib.h>
#include <stdbool.h>
#include "pr-sheet.h"
#include "scene-shoe.h"

typedef enum { SCENE_BENCH_WOOD, SCENE_BENCH_CONCRETE, SCENE_BENCH_RUBBER, SCENE_BENCH_PALE } SceneBench;
/* The last two are light, and are seen on a dark ground only. */
typedef enum {
  SCENE_PEN_MARKER,
  SCENE_PEN_BALLPOINT,
  SCENE_PEN_PENCIL,
  SCENE_PEN_CHALK,
  SCENE_PEN_WHITE
} ScenePen;
/* What the foot is drawn on. */
typedef enum {
  SCENE_GROUND_PAPER,
  SCENE_GROUND_CARDBOARD,
  SCENE_GROUND_SACK,
  SCENE_GROUND_SLATE,
  SCENE_GROUND_MAT,
  SCENE_GROUND_DARK_CARD
} SceneGround;

/* The foot's own shape and how its heels are drawn, where it is not the usual one; all 0: as the foot's. */
typedef struct {
  double width;       /* between the heels, share of the whole width */
  double ahead;       /* share of the length ahead of the widest line */
  double fall;        /* how late the quarter runs in: 1 straight, more is later */
  double bulb;        /* how far the bulbs reach behind the heels, share of the length */
  double cleft;       /* of the dip between them: 1 none, -1 twice as deep */
  bool round;         /* the bulbs are drawn as two circles, not as SceneOptions.soft says: */
  double step_mm;     /* they stand out beyond the heels by this, or in */
  double blend_mm;    /* the hand rounds the ring by this, one sigma */
  double pale;        /* share of the ink that is missing round the bulbs */
  double short_mm[2]; /* of the line that is not drawn at the medial and the lateral heel */
} SceneHeels;

/* What hides a part of the line: mud on the sheet, a finger, a lamp's reflection. */
typedef enum { SCENE_BARE, SCENE_MUD, SCENE_FINGER, SCENE_GLARE } SceneCover;
typedef struct {
  SceneCover what;
  double at; /* share of the line, medial heel to lateral, where its middle lies */
  double mm; /* of the line that it hides */
} SceneHidden;

typedef struct {
  guint32 seed;
  PrPaper paper;
  PrFoot foot;
  bool tags;                      /* the printed tracing sheet, or a plain one */
  int width, height;              /* of the upright photo: 3000 x 4000 */
  double tilt_deg;                /* camera off the sheet's normal */
  double tilt_dir_deg;            /* towards which side it leans */
  double turn_deg;                /* sheet turned in the picture */
  double fill;                    /* share of the picture's width the sheet takes: 0.8 */
  double k1;                      /* as in PrCamera */
  double hoof_length, hoof_width; /* mm */
  double lean_mm;                 /* lateral half fuller by this */
  ScenePen pen;
  double pen_mm;    /* width of the stroke; 0 = usual for the pen */
  double wobble_mm; /* the hand's tremor, part of the true line */
  double drawn_deg; /* the drawing turned on the sheet, clockwise from toe up */
  bool closed;      /* drawn round the bulbs */
  double soft;      /* how the wall runs into the bulbs: -1 a step out with a sharp
                                 * notch, 0 a blunt corner, 1 without any */
  bool frog, ticks, writing, dirt, shadow, folds, grid;
  double tick_deg;    /* heel ticks as wide as the line, turned from straight across,
                                 * outer end down; 0 thinner ones */
  double gap_mm;      /* a gap left in the line near a quarter; 0 none */
  double stain_mm;    /* radius of a wet cup's rim across the line; 0 none */
  const char *across; /* a word written over the line at the toe; NULL: none */
  bool note;          /* a word in another ink, standing beside the line where the gap is */
  SceneBench bench;
  double dark;             /* 0 daylight .. 1 a dim barn */
  double blur_px, noise;   /* gaussian sigma px; sigma of 255 */
  int jpeg_quality;        /* 90 */
  int orientation;         /* EXIF: the stored pixels are turned so that it is right; 1..8 */
  int sheets;              /* 1; 2 lays a second one beside; 0 none */
  double under[3];         /* a second, empty one partly below the first: moved by x, y mm and
                                 * turned by degrees; all 0: none */
  double leaf_mm[2];       /* the sheet as it is cut: width and height; 0 = as PAPER is */
  double print_x, print_y; /* the tracing sheet as its printer drew it: so many times as large, */
  double print_off[2];     /* about the paper's middle, which it missed by so much, mm */
  double half_shadow;      /* a shadow's straight edge across sheet and bench: light it takes */
  double bow_mm;   /* the sheet is raised by so much half way down it, as a sine; negative: its ends are */
  double bow_lean; /* and by so much more before, and less behind */
  bool bow_across; /* half way across instead */
  bool no_line;    /* an empty sheet */
  SceneHeels heels;
  SceneHidden hidden;
  SceneGround ground;    /* instead of paper; LEAF_MM is then its size */
  double rim_mm;         /* its rim dark for so much, as a board's cut edge is in shadow */
  bool card;             /* a bank card lies beside the line */
  double at_mm[2];       /* the drawing moved from the sheet's middle */
  double other_mm[2];    /* a second foot drawn so far from the first; 0, 0: none */
  double other_deg;      /* turned from it, clockwise */
  const SceneShoe *shoe; /* lies on the sheet; NULL: none */
  const PrPath *stroke;  /* closed lines drawn with the pen beside the foot's, sheet mm */
  size_t n_stroke;
  double focal;             /* of the photo's long side; 0 = a telephone's usual */
  double far_mm;            /* the camera's distance to the middle of the sheet; 0 = as FILL says */
  int focal35;              /* told in the file; 0: not */
  const char *horse, *date; /* written by hand with `writing`; NULL = of the scene's own */
} SceneOptions;

void scene_defaults (SceneOptions *options);
/* Of the sheet, mm. */
void scene_size (const SceneOptions *options, double *width, double *height);
