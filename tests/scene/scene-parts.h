/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the files of the scene maker share. Sheet mm throughout; the texture of a sheet has
 * RES texels per mm and texel i covers i/RES .. (i+1)/RES, its centre at (i + 0.5)/RES. */
#pragma once
#include <cairo.h>
#include <gio/gio.h>
#include "pr-camera.h"
#include "scene-options.h"

/* --- chance: the same numbers on every machine ------------------------------------------ */

typedef struct {
  guint64 state;
} Chance;

Chance chance_new (guint32 seed, guint32 stream);
double chance_unit (Chance *c); /* 0 .. 1 */
double chance_span (Chance *c, double low, double high);
double chance_normal (Chance *c); /* mean 0, sigma 1 */

/* Value noise in -1..1, smooth at the scale of one unit, repeating after PERIOD units. */
double noise_at (guint32 seed, double x, double y, int period);
/* The same at N places, each coordinate within a period of nought. */
void noise_along (guint32 seed, const double *x, const double *y, int n, int period, double *out);

/* A wavering of unit RMS along a length: sines of wavelengths between SHORT and LONG mm. */
#define WAVER_TERMS 7
typedef struct {
  double amp[WAVER_TERMS], freq[WAVER_TERMS], phase[WAVER_TERMS];
} Waver;
void waver_set (Waver *w, Chance *c, double shortest, double longest);
double waver_at (const Waver *w, double s);

/* --- ink -------------------------------------------------------------------------------- */

typedef struct {
  int width, height;
  double res;
  guint8 *cover;   /* how much ink lies on each texel */
  double turn;     /* all strokes are turned by this, radians clockwise, */
  PrSheetPt about; /* about this point */
} Ink;

typedef struct {
  double width; /* mm */
  double dark;  /* 0 .. 1 */
  double vary;  /* share by which width and darkness waver along the stroke */
  double grain; /* share of the paper left bare by a pencil */
  guint32 seed;
} Nib;

PrSheetPt ink_turned (const Ink *ink, PrSheetPt p);
/* Draws the polyline; its middle is exactly the middle of the stroke. Inside GAP (arc lengths;
 * may be NULL) nothing is drawn. */
typedef struct {
  double from, to;
} Gap;
void ink_stroke (Ink *ink, const PrSheetPt *p, size_t n, const Nib *nib, const Gap *gap);
/* Smooth stroke through few points (Catmull-Rom), with a hand's slight wavering. */
void ink_curve (Ink *ink, const PrSheetPt *p, size_t n, const Nib *nib, Chance *c);
/* Handwriting with its base line from AT along ANGLE, SIZE = height of a capital, mm. */
void ink_write (Ink *ink, const char *text, PrSheetPt at, double angle, double size, const Nib *nib,
                Chance *c);

/* --- the hoof --------------------------------------------------------------------------- */

typedef struct {
  PrSheetPt *line; /* medial to lateral heel, <= 0.5 mm apart */
  size_t n;
  PrSheetPt toe, heel[2];
  PrSheetPt *bulbs; /* lateral to medial heel round the bulbs; NULL when open */
  size_t n_bulbs;
  PrSheetPt frog[3]; /* medial base, apex, lateral base */
  double side;       /* +1: lateral side to the right */
  PrSheetPt middle;  /* of the widest line */
} HoofLine;

void hoof_line_make (HoofLine *hoof, const SceneOptions *o, PrSheetPt middle, Chance *c);
void hoof_line_clear (HoofLine *hoof);

/* --- surfaces --------------------------------------------------------------------------- */

/* Four bytes a texel, so that one is taken at once: red, green, blue, and one that tells nothing. */
#define TEXEL 4

typedef struct _Bench Bench;

/* A bench is made in square tiles. */
#define BENCH_TILE 64  /* side, texels */
#define BENCH_TILES 25 /* of them along a side at most */

typedef struct {
  int width, height; /* texels */
  double res;        /* texels per mm */
  double width_mm, height_mm;
  guint8 *rgbx;
  Bench *bench; /* of a bench: what fills its tiles as they are asked for; NULL for a sheet */
  gint *made;   /* and which tiles are there */
} Texture;

/* The sheet with all that is on it. Fills HOOF, and OTHER when a second foot is drawn. */
void texture_sheet (Texture *t, HoofLine *hoof, HoofLine *other, const SceneOptions *o, double res);

/* The grain of what is drawn on: SIDE by SIDE texels that repeat, to be added to RGB. Transfer full. */
typedef struct {
  double rgb[3];
  int side;
  gint8 *grain;
} Ground;
void ground_make (Ground *ground, const SceneOptions *o, double res);
void ground_clear (Ground *ground);
/* Lays a bank card on T, and darkens its rim. */
void ground_lay (Texture *t, const SceneOptions *o);
/* The card's sides cross here, clockwise. */
void ground_card (const SceneOptions *o, PrSheetPt corner[4]);
/* What the sheet lies on, for a photo of PX_PER_MM; continues mirrored at its edges. The sheet hides
 * most of it, so a texel is there only once it was asked for. */
void texture_bench (Texture *t, const SceneOptions *o, double px_per_mm);
/* Texels (X, Y) to (X + 1, Y + 1) of a bench are there from now on. From any thread. */
void bench_need (const Texture *t, int x, int y);
void bench_free (Bench *bench);
void texture_clear (Texture *t);

/* --- camera and picture ----------------------------------------------------------------- */

/* A sheet that bows: where a point of it lies along the plane, and how high. Of a telephone's camera (camera_place). */
#define BOW_STEPS 2048
typedef struct {
  bool bent;
  int way;       /* 0: along x, 1: along y */
  double length; /* mm */
  double high, lean;
  double flat[BOW_STEPS + 1]; /* where on the plane, by where on the sheet */
  double lift[3];             /* a mm towards the camera, beside the columns of h */
} Bow;

void bow_make (Bow *bow, const SceneOptions *o, const PrCamera *cam);
/* Where on the sheet the ideal pixel Q shows it. */
void bow_meet (const Bow *bow, const double h[9], double qx, double qy, double p[2]);

void camera_place (PrCamera *cam, const SceneOptions *o, double width_mm, double height_mm);
PrPx camera_project (const PrCamera *cam, PrSheetPt p);
/* Where the camera's pinhole is: sheet mm, and how high above the sheet. */
void camera_stand (const PrCamera *cam, const SceneOptions *o, double at[3]);

/* A shoe made ready to be looked at from the pinhole AT. Transfer full. */
typedef struct _Iron Iron;
Iron *iron_new (const SceneShoe *shoe, const double at[3]);
void iron_free (Iron *iron);
/* RGB (0..255) is what a pixel shows of the sheet about the point P, which moves by PX and PY from pixel to pixel; it
 * becomes what it shows of iron and shadow. */
void iron_over (const Iron *iron, const double p[2], const double px[2], const double py[2], float rgb[3]);
/* What the face looks like: W by H texels, RES a mm, the first about LOW, in units of so many levels. Transfer full. */
#define SKIN_UNIT 1.6
guint8 *iron_skin (const SceneShoe *shoe, PrPt low, int w, int h, double res);

#define LIGHT_STEP 16 /* photo pixels to one of the map */
typedef struct {
  int width, height;
  float *map;
} Light;
void light_make (Light *light, const SceneOptions *o);
/* The light on N pixels from (X, Y) on, X a multiple of LIGHT_STEP; LIT has room for N rounded up to one. */
void light_along (const Light *light, int x, int y, int n, float *lit);
void light_clear (Light *light);

typedef struct {
  const Texture *sheet[2]; /* NULL: none */
  double second[4];        /* second sheet: x, y of its corner on the first, cos, sin */
  const Texture *bench;
  PrSheetPt glare; /* a lamp's reflection about here, nothing but white over GLARE_MM; 0: none */
  double glare_mm;
  const Iron *iron; /* NULL: none */
} Stage;

#define SPAN 64     /* pixels of a row that are reckoned together; a multiple of LIGHT_STEP */
#define BLUR_MAX 16 /* half width of the widest blur kernel, pixels */
typedef struct {
  int width;
  guint32 seed;
  int reach; /* the blur's half width, pixels */
  float kernel[2 * BLUR_MAX + 1];
  Light light;
  float *noise;
  double sigma, black, tint[3];
  PrPx glare; /* middle of a reflection */
  double glare_px;
} Sensor;
void sensor_make (Sensor *s, const PrCamera *cam, const SceneOptions *o, const Stage *stage);
void sensor_clear (Sensor *s);
/* The optics' blur along ROW, 3 floats a pixel; SPARE has room for it and 6 * BLUR_MAX more. */
void sensor_across (const Sensor *s, float *row, float *spare);
/* And down the 2 * reach + 1 ROWS, into OUT. */
void sensor_down (const Sensor *s, const float *const *rows, float *out);
/* Row Y of the photo: its light, and the noise. */
void sensor_row (const Sensor *s, int y, const float *row, guint8 *out);

/* The upright photo, 3 bytes a pixel, transfer full. */
guint8 *picture_take (const PrCamera *cam, const SceneOptions *o, const Stage *stage);
GBytes *picture_jpeg (const guint8 *rgb, const SceneOptions *o);
