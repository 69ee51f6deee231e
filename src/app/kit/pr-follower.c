/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-follower.h"

#define DRAG_MS 60 /* words are read no faster; the board, which follows each move, needs the time */

typedef struct {
  PrDocument *doc;
  bool inside;  /* takes the document of the follower around it */
  bool rests;   /* nobody sees it */
  guint missed; /* of PrChanged: what it was not told of meanwhile */
  guint later;  /* the timer that tells it, while a handle is dragged */
} PrFollowerPrivate;

G_DEFINE_ABSTRACT_TYPE_WITH_PRIVATE (PrFollower, pr_follower, GTK_TYPE_BOX)

static GParamSpec *document_property;

static PrFollowerPrivate *
private_of (gpointer follower)
{
  return pr_follower_get_instance_private (follower);
}

/* What it was not told of is told now, with WHAT. */
static void
tell (PrFollower *follower, guint what)
{
  PrFollowerPrivate *own = private_of (follower);

  what |= own->missed;
  own->missed = 0;
  g_clear_handle_id (&own->later, g_source_remove);
  if (what)
    PR_FOLLOWER_GET_CLASS (follower)->changed (follower, what);
}

static gboolean
tell_later (gpointer follower)
{
  private_of (follower)->later = 0;
  tell (follower, 0);
  return G_SOURCE_REMOVE;
}

static void
document_changed (PrFollower *follower, guint what)
{
  PrFollowerPrivate *own = private_of (follower);
  bool dragging
      = own->doc && pr_document_editing (own->doc) && !(what & ~(guint) (PR_CHANGED_PLAN | PR_CHANGED_HOOF));

  if (!own->rests && !dragging) {
    tell (follower, what);
    return;
  }
  own->missed |= what;
  if (!own->rests && !own->later)
    own->later = g_timeout_add (DRAG_MS, tell_later, follower);
}

static void
set_rests (PrFollower *follower, bool rests)
{
  PrFollowerPrivate *own = private_of (follower);

  own->rests = rests;
  if (!rests)
    tell (follower, 0);
}

void
pr_followers_rest (GtkWidget *root, bool rest)
{
  if (PR_IS_FOLLOWER (root))
    set_rests (PR_FOLLOWER (root), rest);
  for (GtkWidget *child = gtk_widget_get_first_child (root); child;
       child = gtk_widget_get_next_sibling (child))
    pr_followers_rest (child, rest);
}

void
pr_follower_set_document (PrFollower *follower, PrDocument *doc)
{
  PrFollowerPrivate *own = private_of (follower);

  g_return_if_fail (!own->doc || own->doc == doc);
  if (!g_set_object (&own->doc, doc))
    return;
  g_signal_connect_object (doc, "changed", G_CALLBACK (document_changed), follower, G_CONNECT_SWAPPED);
  g_object_notify_by_pspec (G_OBJECT (follower), document_property);
  document_changed (follower, PR_CHANGED_ALL);
}

PrDocument *
pr_document_of (gpointer widget)
{
  GtkWidget *follower = gtk_widget_get_ancestor (widget, PR_TYPE_FOLLOWER);

  return follower ? private_of (follower)->doc : NULL;
}

const PrJob *
pr_job_of (gpointer widget)
{
  PrDocument *doc = pr_document_of (widget);

  return doc ? pr_document_job (doc) : NULL;
}

/* --- the class --- */

static void
pr_follower_root (GtkWidget *widget)
{
  GtkWidget *around = gtk_widget_get_ancestor (gtk_widget_get_parent (widget), PR_TYPE_FOLLOWER);

  if (around && !private_of (widget)->inside)
    g_object_bind_property (around, "document", widget, "document", G_BINDING_SYNC_CREATE);
  private_of (widget)->inside |= around != NULL;
  GTK_WIDGET_CLASS (pr_follower_parent_class)->root (widget);
}

static void
pr_follower_set_property (GObject *object, guint id, const GValue *value, GParamSpec *spec)
{
  if (g_value_get_object (value))
    pr_follower_set_document (PR_FOLLOWER (object), g_value_get_object (value));
}

static void
pr_follower_get_property (GObject *object, guint id, GValue *value, GParamSpec *spec)
{
  g_value_set_object (value, private_of (object)->doc);
}

static void
pr_follower_dispose (GObject *object)
{
  g_clear_handle_id (&private_of (object)->later, g_source_remove);
  g_clear_object (&private_of (object)->doc);
  G_OBJECT_CLASS (pr_follower_parent_class)->dispose (object);
}

static void
follow_nothing (PrFollower *follower, guint what)
{
}

static void
pr_follower_init (PrFollower *follower)
{
}

static void
pr_follower_class_init (PrFollowerClass *class)
{
  GObjectClass *object_class = G_OBJECT_CLASS (class);

  object_class->set_property = pr_follower_set_property;
  object_class->get_property = pr_follower_get_property;
  object_class->dispose = pr_follower_dispose;
  GTK_WIDGET_CLASS (class)->root = pr_follower_root;
  class->changed = follow_nothing;
  document_property = g_param_spec_object ("document", NULL, NULL, PR_TYPE_DOCUMENT,
                                           G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_property (object_class, 1, document_property);
}
