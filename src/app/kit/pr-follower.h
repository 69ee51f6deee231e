/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrFollower: a part of the window that follows the document. Whoever builds the outermost one sets its property
 * "document"; a follower inside another takes that one's once it is in the window. */
#pragma once
#include <gtk/gtk.h>
#include "pr-document.h"
#include "pr-ui.h"

#define PR_TYPE_FOLLOWER (pr_follower_get_type ())
G_DECLARE_DERIVABLE_TYPE (PrFollower, pr_follower, PR, FOLLOWER, GtkBox)

struct _PrFollowerClass {
  GtkBoxClass parent_class;
  /* WHAT: of PrChanged; all of it once, when the document is there. While a handle is dragged only every now and then, and at the
   * drag's end. */
  void (*changed) (PrFollower *follower, guint what);
};

/* Once. */
void pr_follower_set_document (PrFollower *follower, PrDocument *doc);
/* All followers that ROOT is or holds are told of nothing while they REST, and then at once of all that has changed meanwhile: for
 * what nobody sees. One that is made while they rest does not. */
void pr_followers_rest (GtkWidget *root, bool rest);
/* Of the follower that WIDGET is or lies in; NULL before it has any. Transfer none. */
PrDocument *pr_document_of (gpointer widget);
/* Its job; NULL while no foot is open. */
const PrJob *pr_job_of (gpointer widget);
