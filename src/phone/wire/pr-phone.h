/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrPhone: photos from a phone. Starts pritchel-phone, which serves one page to phones in this network until PrPhone is
 * freed, and hands on what comes. Neither libsoup nor a picture is known here: both are that process's, which is found as
 * PRITCHEL_PHONE tells, else beside the program that runs, else where it was installed.
 *
 * For the main thread, whose loop must run. */
#pragma once
#include "pr-foot.h"
#include "pr-length.h"
#include "pr-phone-packet.h"
#include "pr-seen-find.h"

#define PR_PHONE_MINUTES 10 /* without use, after which it stops by itself */
#define PR_PHONE_MOST_MINUTES 1440

typedef struct _PrPhone PrPhone;

typedef struct {
  const char *address; /* of pr-phone-addresses.h; it listens there and nowhere else */
  int minutes;
  PrUnit unit;   /* for what is told */
  PrSides sides; /* what feet are called */
  bool shoe;     /* a shoe lies on the sheet, as HOW says, in place of a tracing */
  PrSeenOptions how;
  int after; /* photos are numbered from the one behind this */
} PrPhoneOrders;

typedef struct {
  int id, instead; /* INSTEAD: the earlier photo that it takes the place of; 0: none */
  PrPhoneState state;
  const char *words; /* the verdict, "good: near fore, 128 mm wide" */
  const char *name;  /* of ours, "photo-3.jpg"; nothing of it is from outside */
  int file;          /* the bytes as sent, in a file without a name; whoever takes it closes it */
} PrPhonePhoto;

typedef struct {
  int side;
  const char *dark; /* SIDE x SIDE, row by row, '1' where it is dark; the light border of four is not in it */
} PrPhoneCode;

/* Any of these may free the PrPhone. */
typedef struct {
  void (*open) (const char *url, const PrPhoneCode *code, gpointer data);
  void (*used) (gpointer data);
  void (*coming) (double share, gpointer data); /* of a photo, 0..1; 0: none any more */
  /* Another phone would send; it shows CODE. pr_phone_answer. */
  void (*asked) (int phone, const char *code, gpointer data);
  void (*photo) (const PrPhonePhoto *photo, gpointer data);
  /* It has stopped by itself. WHY: a sentence; IDLE: it was not used for so long. */
  void (*ended) (const char *why, bool idle, gpointer data);
  gpointer data;
} PrPhoneOwner;

/* NULL with error. Transfer full. */
PrPhone *pr_phone_new (const PrPhoneOrders *orders, const PrPhoneOwner *owner, GError **error);
/* It stops at once, in the middle of whatever comes. */
void pr_phone_free (PrPhone *phone);
void pr_phone_answer (PrPhone *phone, int which, bool allowed);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PrPhone, pr_phone_free)
