/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Inside of this room only: what the files hold, and the one walk through the book that writes them. */
#pragma once
#include <json-glib/json-glib.h>
#include "pr-file-tree.h"
#include "pr-plain.h"

typedef struct {
  PrBook *book;
  PrFileTree *tree;
  const PrPageOptions *options;
  GString *index;
  GHashTable *feet; /* PrBookId to the folder of that foot */
} PrPlain;

/* A foot and where it hangs; all transfer none. */
typedef struct {
  const PrBookHorse *horse;
  const PrBookVisit *visit;
  const PrBookFoot *foot;
  const char *folder; /* in the tree */
} PrPlainFoot;

/* What was written of it. */
typedef struct {
  char *style;  /* NULL: no plan */
  bool damaged; /* something had to be left out */
  bool photo, trace, plan, report;
  guint attempts;
} PrPlainWritten;

/* --- pr-plain-foot.c --- */
/* FALSE with error when it cannot be written; what cannot be read is left out. */
bool pr_plain_foot (PrPlain *plain, const PrPlainFoot *foot, PrPlainWritten *written, GError **error);
/* "jpg", by the bytes. Static. */
const char *pr_plain_suffix (GBytes *photo);

/* --- pr-plain-index.c --- */
void pr_plain_index_head (GString *index);
void pr_plain_index_add (GString *index, const PrPlainFoot *foot, const PrPlainWritten *written);

/* --- pr-plain-json.c --- */
/* LAST: the day of the newest visit, NULL: none. */
bool pr_plain_horse (PrPlain *plain, const char *path, const PrBookHorse *horse, const char *last,
                     GError **error);
bool pr_plain_visit (PrPlain *plain, const char *path, const PrBookVisit *visit, GError **error);
bool pr_plain_attempt (PrPlain *plain, const char *path, const PrBookAttempt *attempt, GError **error);
bool pr_plain_put_json (PrPlain *plain, const char *path, JsonBuilder *builder, GError **error);
/* Text of the book, as it is. NULL writes nothing. */
bool pr_plain_put_text (PrPlain *plain, const char *path, const char *text, GError **error);
bool pr_plain_put_bytes (PrPlain *plain, const char *path, GBytes *bytes, GError **error);
/* A member that is JSON in the book; nothing where TEXT (may be NULL) is none. */
void pr_plain_put_member (JsonBuilder *builder, const char *name, const char *text);

/* --- pr-plain-practice.c --- */
/* Classes and runs; nothing where there are none. */
bool pr_plain_practice (PrPlain *plain, GError **error);
