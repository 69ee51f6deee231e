/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A photo read in a process of its own, and what that took. */
#pragma once
#include <glib.h>
#include <stdbool.h>

typedef struct {
  bool ended;         /* by itself, before the watchdog */
  int width, height;  /* 0: refused */
  bool is_ours;       /* refused with an error of our own */
  char message[600];  /* of it */
  bool printed;       /* something on the terminal */
  double mb, seconds; /* the most that it, or what it started, held */
} Measured;

/* BYTES as a photo named NAME; or with NULL the file of that path. */
Measured measured_photo (const GByteArray *bytes, const char *name);
/* One sentence that says what to do, and no more. FALSE with a word on what it is instead. */
bool measured_is_sentence (const char *message, const char **instead);
