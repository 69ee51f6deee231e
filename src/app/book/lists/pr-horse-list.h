/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrHorseList: the horses of the book as a list view wants them: a GListModel of the names of those that are sought (of
 * GtkStringObject, made when asked for), and a GtkSelectionModel in which the horse that is open is selected.
 * Nothing else can select one: a pointer passing over the rows, or the arrow keys, open no horse. */
#pragma once
#include <gtk/gtk.h>
#include <stdbool.h>
#include "pr-roster.h"

#define PR_TYPE_HORSE_LIST (pr_horse_list_get_type ())
G_DECLARE_FINAL_TYPE (PrHorseList, pr_horse_list, PR, HORSE_LIST, GObject)

PrHorseList *pr_horse_list_new (void);
/* The horses as BOOK has them now, and of them those that TYPED is looked for in, as by the next. TRUE when other ones are listed than
 * before. With an error they are as they were. */
bool pr_horse_list_read (PrHorseList *list, PrBook *book, const char *typed, GError **error);
bool pr_horse_list_seek (PrHorseList *list, const char *typed);
/* The one that is open; 0: none. TRUE when that is another one than before. */
bool pr_horse_list_choose (PrHorseList *list, PrBookId horse);
/* Where it stands; FALSE when it is not among them. */
bool pr_horse_list_chosen (PrHorseList *list, guint *position);
/* Transfer none, good until they are read again. */
const PrBookHorse *pr_horse_list_at (PrHorseList *list, guint position);
/* The one that is open, sought or not; NULL: none. The same. */
const PrBookHorse *pr_horse_list_open (PrHorseList *list);
bool pr_horse_list_is_empty (PrHorseList *list);
/* Only so many as a first look can show are listed at first, and again when others are sought: a list view makes a row for each
 * of its first 200, which at each letter takes longer than typing it. This lists some more, which takes some milliseconds: once
 * a frame, as long as it returns TRUE. */
bool pr_horse_list_show_more (PrHorseList *list);
