/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A photo looked at in a process of its own, which may take its time and memory, crash, or be ended, without the server's being
 * touched. One after the other, in the order they were asked for. */
#pragma once
#include <glib.h>
#include "pr-phone-packet.h"

typedef struct {
  bool photo;         /* it is one that can be read */
  const char *ending; /* of a file's name, by the bytes; static */
  PrPhoneState state;
  char *words;     /* the verdict, or why it cannot be read */
  GBytes *picture; /* JPEG; NULL: none */
} PrPhoneLook;

void pr_phone_look_clear (PrPhoneLook *look);

/* LOOK's words and picture are the callback's to take. */
typedef void (*PrPhoneLooked) (PrPhoneLook *look, gpointer data);

typedef struct _PrPhoneLooks PrPhoneLooks;

/* ORDERS: arguments of every judge, NULL-terminated, copied. Transfer full. */
PrPhoneLooks *pr_phone_looks_new (char **orders);
/* What is under way is ended, and nobody is told any more. */
void pr_phone_looks_free (PrPhoneLooks *looks);
/* FILE is copied. LANGUAGE: to tell in; NULL: this process's own. */
void pr_phone_look (PrPhoneLooks *looks, int file, const char *language, PrPhoneLooked looked, gpointer data);
