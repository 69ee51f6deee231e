/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The file of the document's book: what became of it (pr-book-loss.h), and the two ways on. Whatever happens to it is
 * told as PR_CHANGED_BOOK. */
#pragma once
#include "pr-document.h"

/* Looks now; for when nothing else would tell. */
void pr_document_look (PrDocument *doc);
/* Is what is changed in a file? FALSE without a book, and where it is only read. */
bool pr_document_is_kept (PrDocument *doc);
/* What became of the file, and what can be done; NULL while it is kept, and without a book. Transfer full. */
char *pr_document_loss (PrDocument *doc);
/* Is the book only read here, as another program writes in it or as nobody can? */
bool pr_document_is_reading (PrDocument *doc);
/* Is there a book that cannot be opened because it is damaged (pr-document-backup.h)? */
bool pr_document_is_damaged (PrDocument *doc);
/* What there is to say while another program writes in the book, so that it is only read here, or while something on the board
 * is not in the book yet, or where the book is damaged; NULL: none of these. What is on the board stays, and goes into the book as soon as that can be done; where
 * the other program has changed the same foot, as a foot of its own. Transfer full. */
char *pr_document_waits (PrDocument *doc);
/* Is something on the board, or was it there, that is not in the book? */
bool pr_document_has_unkept (PrDocument *doc);
/* Tries now what is tried now and then: to keep that, to follow the program that writes, and to take its place. */
void pr_document_tend (PrDocument *doc);
/* Does another book lie where it was? */
bool pr_document_has_other_book (PrDocument *doc);
/* The name to offer for a new one, beside that. Transfer full; FOLDER (transfer full) NULL: it is gone. */
char *pr_document_new_book_name (PrDocument *doc, char **folder);
/* A thread works in the book from now on, until it lets go: meanwhile no other one is taken. Any thread may let go. */
void pr_document_book_hold (PrDocument *doc);
void pr_document_book_let_go (PrDocument *doc);
/* All of it as FILE, which is the book from now on, also at the next start. */
bool pr_document_save_book (PrDocument *doc, const char *file, GError **error);
/* The other one instead; all that is in memory only is given up, undo steps too. FALSE: all is as before, and so it is
 * while a thread works in this one. */
bool pr_document_take_other_book (PrDocument *doc, GError **error);
/* The file of the book to begin with. Transfer full. MISSING (transfer full) receives the one that was to be it, if that
 * is not there, else NULL. */
char *pr_document_first_book (char **missing);
