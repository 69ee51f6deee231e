/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-lock-button.h"

#include <glib/gi18n-lib.h>

struct _PrLockButton {
  PrFollower parent_instance;
  guint64 locks; /* 1 << PR_LOCK_* */
  GtkWidget *toggle;
};

enum { PROP_LOCKS = 1, PROP_PART };

G_DEFINE_FINAL_TYPE (PrLockButton, pr_lock_button, PR_TYPE_FOLLOWER)

GType
pr_locks_get_type (void)
{
  static GType type;
  static const GFlagsValue values[] = {
    { 1 << PR_LOCK_TOE, "PR_LOCK_TOE", "toe" },
    { 1 << PR_LOCK_MEDIAL, "PR_LOCK_MEDIAL", "medial" },
    { 1 << PR_LOCK_LATERAL, "PR_LOCK_LATERAL", "lateral" },
    { 1 << PR_LOCK_HEEL_M, "PR_LOCK_HEEL_M", "heel-medial" },
    { 1 << PR_LOCK_HEEL_L, "PR_LOCK_HEEL_L", "heel-lateral" },
    { 1 << PR_LOCK_NAILS_M, "PR_LOCK_NAILS_M", "nails-medial" },
    { 1 << PR_LOCK_NAILS_L, "PR_LOCK_NAILS_L", "nails-lateral" },
    { 1 << PR_LOCK_CLIPS, "PR_LOCK_CLIPS", "clips" },
    { 0, NULL, NULL },
  };

  if (!type)
    type = g_flags_register_static ("PrLocks", values);
  return type;
}

static bool
locked (PrLockButton *button)
{
  const PrJob *job = pr_job_of (button);

  return job && (job->sources.plan.locks & button->locks) == button->locks;
}

/* Says what it does by its icon, its tooltip and its state, not by its colour alone. */
static void
toggled (PrLockButton *button)
{
  PrDocument *doc = pr_document_of (button);
  bool on = gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (button->toggle));

  gtk_button_set_icon_name (GTK_BUTTON (button->toggle), on ? "pr-locked-symbolic" : "pr-unlocked-symbolic");
  gtk_widget_set_tooltip_text (button->toggle, on ? _ ("Locked: stays as it is at the next fit or style")
                                                  : _ ("Free: follows the next fit or style"));
  if (pr_job_of (button) && locked (button) != on && !pr_document_editing (doc))
    pr_document_set_locks (doc, button->locks, on);
}

static void
changed (PrFollower *follower, guint what)
{
  PrLockButton *button = PR_LOCK_BUTTON (follower);

  if (what & (PR_CHANGED_PLAN | PR_CHANGED_PLACE) && pr_job_of (button))
    gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (button->toggle), locked (button));
}

static void
pr_lock_button_set_property (GObject *object, guint id, const GValue *value, GParamSpec *spec)
{
  PrLockButton *button = PR_LOCK_BUTTON (object);

  if (id == PROP_LOCKS) {
    button->locks = g_value_get_flags (value);
  } else {
    g_autofree char *spoken = g_strdup_printf (_ ("Lock %s"), g_value_get_string (value));

    gtk_accessible_update_property (GTK_ACCESSIBLE (button->toggle), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken,
                                    -1);
  }
}

static void
pr_lock_button_init (PrLockButton *button)
{
  gtk_widget_init_template (GTK_WIDGET (button));
  toggled (button);
}

static void
pr_lock_button_class_init (PrLockButtonClass *class)
{
  GObjectClass *object_class = G_OBJECT_CLASS (class);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  object_class->set_property = pr_lock_button_set_property;
  PR_FOLLOWER_CLASS (class)->changed = changed;
  g_object_class_install_property (object_class, PROP_LOCKS,
                                   g_param_spec_flags ("locks", NULL, NULL, PR_TYPE_LOCKS, 0,
                                                       G_PARAM_WRITABLE | G_PARAM_STATIC_STRINGS));
  g_object_class_install_property (object_class, PROP_PART,
                                   g_param_spec_string ("part", NULL, NULL, NULL,
                                                        G_PARAM_WRITABLE | G_PARAM_STATIC_STRINGS));
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "lock-button.ui");
  gtk_widget_class_bind_template_callback (widget_class, toggled);
  gtk_widget_class_bind_template_child (widget_class, PrLockButton, toggle);
}
