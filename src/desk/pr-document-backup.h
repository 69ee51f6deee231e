/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Backups of the document's book, and the book put back from one. */
#pragma once
#include "pr-book-backup.h"
#include "pr-document.h"

/* Where those lie that are made by themselves, beside the book FILE. Transfer full. */
char *pr_backup_folder (const char *file);
/* Makes the one of today there, unless it is there or the book is empty, bit by bit while nothing else is to be done, and keeps the newest
 * PR_BOOK_BACKUPS. What goes wrong is told as trouble. */
void pr_document_backup_today (PrDocument *doc);
/* A name to offer: "pritchel-book-2026-11-30.pritchel". Transfer full. */
char *pr_document_backup_name (void);
/* Begins to write all of it as FILE, bit by bit: pr_document_busy tells how far it is, pr_document_stop_errand stops it, and it says
 * "said" or "trouble". FALSE with error when it cannot begin. */
bool pr_document_backup (PrDocument *doc, const char *file, GError **error);
/* BACKUP in one line: "30 November 2026: 12 horses, 40 visits, 120 feet". Transfer full. */
char *pr_document_backup_words (const PrBookBackup *backup);
/* What the book would be and what would go, in one sentence. Transfer full; NULL with error: FILE is no backup. */
char *pr_document_restore_question (PrDocument *doc, const char *file, GError **error);
/* Begins in the same way to make the book what FILE holds. What it was, with what is changed meanwhile, is kept beside the other
 * backups first, and it is said where; the board is empty then, and undo steps are over. Trouble or stopped: the book is as it
 * was. */
bool pr_document_restore (PrDocument *doc, const char *file, GError **error);

/* --- a damaged book --- */

/* FILE cannot be opened as the book because it is damaged; DOC has none. */
void pr_document_set_damaged (PrDocument *doc, const char *file);
/* What can still be read of it as a new book beside it, which is the book from now on, also at the next start. How much that was, in a
 * sentence (transfer full); NULL: all is as before. */
char *pr_document_recover (PrDocument *doc, GError **error);
/* What is done with the whole book is to stop; nothing is changed then. */
void pr_document_stop_errand (PrDocument *doc);
