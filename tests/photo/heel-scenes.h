/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Scenes of feet of many shapes whose heels are drawn in many ways: what is known of the heels is theirs. */
#pragma once
#include "scene.h"

typedef enum {
  HEELS_SMOOTH,  /* closed, the wall runs into the bulbs without a corner */
  HEELS_CORNER,  /* closed, a blunt corner where the bulbs begin */
  HEELS_STEPPED, /* closed, the bulbs stand out beyond the heels */
  HEELS_CLEFT,   /* closed, with a deep dip between the bulbs, the hand rounding all */
  HEELS_FAINT,   /* closed, the bulbs drawn with little ink */
  HEELS_TICKED,  /* closed, each of these, with a tick across each heel */
  HEELS_OPEN,    /* open, of every shape */
  HEELS_SHORT,   /* open, short and wide behind the widest line */
  HEELS_PARTIAL, /* open, and a part of the line not drawn at one heel or both */
  HEELS_MUD,     /* open, a part up to a third of a branch hidden */
  HEELS_FINGER,
  HEELS_GLARE,
  N_HEELS
} HeelsKind;

extern const char *const heels_names[N_HEELS];

void heels_scene (HeelsKind kind, guint32 seed, int width, SceneOptions *o);
