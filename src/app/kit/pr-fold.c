/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-fold.h"

#include "pr-follower.h"
#include "pr-names.h"

#define RESULT_LINES 3 /* of what a part comes to; ours take two */

struct _PrFold {
  GtkBox parent_instance;
  GtkWidget *header, *arrow, *title, *result, *revealer, *body;
  bool unfolded;
};

enum { UNFOLDS, OPENED, N_SIGNALS };
static guint signals[N_SIGNALS];

static GtkBuildableIface *parent_buildable;

/* What comes while the template itself is built is the fold's own; the rest goes inside. */
static void
add_child (GtkBuildable *buildable, GtkBuilder *builder, GObject *child, const char *type)
{
  PrFold *fold = PR_FOLD (buildable);

  if (!fold->body) {
    parent_buildable->add_child (buildable, builder, child, type);
    return;
  }
  gtk_box_append (GTK_BOX (fold->body), GTK_WIDGET (child));
  pr_followers_rest (GTK_WIDGET (child), !fold->unfolded);
}

static void
buildable_init (GtkBuildableIface *iface)
{
  parent_buildable = g_type_interface_peek_parent (iface);
  iface->add_child = add_child;
}

G_DEFINE_FINAL_TYPE_WITH_CODE (PrFold, pr_fold, GTK_TYPE_BOX,
                               G_IMPLEMENT_INTERFACE (GTK_TYPE_BUILDABLE, buildable_init))

static void
set_unfolded (PrFold *fold, bool unfolded)
{
  if (unfolded == fold->unfolded)
    return;
  fold->unfolded = unfolded;
  pr_followers_rest (fold->body, !unfolded);
  if (unfolded)
    g_signal_emit (fold, signals[UNFOLDS], 0);
}

/* Its inside is gone once it has folded all the way. */
static void
revealed (PrFold *fold)
{
  if (!gtk_revealer_get_child_revealed (GTK_REVEALER (fold->revealer)))
    set_unfolded (fold, gtk_revealer_get_reveal_child (GTK_REVEALER (fold->revealer)));
}

bool
pr_fold_is_unfolded (PrFold *fold)
{
  return fold->unfolded;
}

void
pr_fold_set_open (PrFold *fold, bool open)
{
  if (open)
    set_unfolded (fold, true);
  gtk_revealer_set_reveal_child (GTK_REVEALER (fold->revealer), open);
  gtk_image_set_from_icon_name (GTK_IMAGE (fold->arrow), open ? "pr-open-symbolic" : "pr-folded-symbolic");
  gtk_accessible_update_state (GTK_ACCESSIBLE (fold->header), GTK_ACCESSIBLE_STATE_EXPANDED, open, -1);
}

static void
header_clicked (PrFold *fold)
{
  bool open = !gtk_revealer_get_reveal_child (GTK_REVEALER (fold->revealer));

  pr_fold_set_open (fold, open);
  if (open)
    g_signal_emit (fold, signals[OPENED], 0);
}

void
pr_fold_set_result (PrFold *fold, char *result)
{
  gtk_label_set_text (GTK_LABEL (fold->result), result);
  g_free (result);
}

static void
pr_fold_set_property (GObject *object, guint id, const GValue *value, GParamSpec *spec)
{
  PrFold *fold = PR_FOLD (object);
  const char *title = g_value_get_string (value);

  gtk_label_set_text (GTK_LABEL (fold->title), title);
  gtk_accessible_update_property (GTK_ACCESSIBLE (fold->header), GTK_ACCESSIBLE_PROPERTY_LABEL, title, -1);
}

static void
pr_fold_init (PrFold *fold)
{
  gtk_widget_init_template (GTK_WIDGET (fold));
  pr_label_cut (GTK_LABEL (fold->result), RESULT_LINES);
}

static void
pr_fold_class_init (PrFoldClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->set_property = pr_fold_set_property;
  g_object_class_install_property (G_OBJECT_CLASS (class), 1,
                                   g_param_spec_string ("title", NULL, NULL, NULL,
                                                        G_PARAM_WRITABLE | G_PARAM_STATIC_STRINGS));
  signals[UNFOLDS] = g_signal_new ("unfolds", G_TYPE_FROM_CLASS (class), G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 0);
  signals[OPENED] = g_signal_new ("opened", G_TYPE_FROM_CLASS (class), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                  G_TYPE_NONE, 0);
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "fold.ui");
  gtk_widget_class_bind_template_callback (widget_class, header_clicked);
  gtk_widget_class_bind_template_callback (widget_class, revealed);
  gtk_widget_class_bind_template_child (widget_class, PrFold, header);
  gtk_widget_class_bind_template_child (widget_class, PrFold, arrow);
  gtk_widget_class_bind_template_child (widget_class, PrFold, title);
  gtk_widget_class_bind_template_child (widget_class, PrFold, result);
  gtk_widget_class_bind_template_child (widget_class, PrFold, revealer);
  gtk_widget_class_bind_template_child (widget_class, PrFold, body);
}
