/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The doors that take bytes, knocked at with damaged ones. A target is a C file with
 * LLVMFuzzerTestOneInput and seeds of its own; it runs under driver.c in every build, and under clang's
 * libFuzzer as meson.build says. */
#pragma once
#include <glib.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

int LLVMFuzzerTestOneInput (const uint8_t *data, size_t size);

/* Adds good inputs, and some that are bad in a way chance would not find, to SEEDS (element type
 * GBytes). */
void fuzz_seeds (GPtrArray *seeds);
void fuzz_seed (GPtrArray *seeds, const void *data, size_t size);
void fuzz_seed_text (GPtrArray *seeds, const char *text);

/* How inputs grow: changes BYTES in one to six places; OTHER is a seed to splice with. */
void fuzz_mutate (GByteArray *bytes, GRand *rand, GBytes *other);

/* What a door must keep to, else the program ends with a word on what went wrong: OK comes with no error,
 * not OK with one of ours that is a sentence, and returns OK.
 * ERROR is cleared. WITH_TEXT: the message may quote the input. */
bool fuzz_said (bool ok, GError **error, bool with_text);
void fuzz_must (bool holds, const char *what);

/* A folder of this process alone that is taken away at the end; user folders lie in it. */
const char *fuzz_folder (void);
