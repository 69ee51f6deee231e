/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-style-gallery.h"

#include "pr-style-picture.h"
#include "pr-ui.h"

struct _PrStyleGallery {
  GtkWindow parent_instance;
  PrDocument *doc;
  GPtrArray *waiting; /* PrStylePicture, the last first */
  guint laying;       /* source that lays the next */
  GtkFlowBox *fore, *hind;
  GtkBox *groups;
  GtkWidget *hind_group;
  GtkWidget *trouble;
};

G_DEFINE_FINAL_TYPE (PrStyleGallery, pr_style_gallery, GTK_TYPE_WINDOW)

/* One at a time, between what a person does: each takes as long as to lay a shoe. */
static gboolean
lay_next (gpointer data)
{
  PrStyleGallery *gallery = data;
  g_autoptr (PrStylePicture) picture = NULL;

  if (gallery->waiting->len == 0) {
    gallery->laying = 0;
    return G_SOURCE_REMOVE;
  }
  picture = g_object_ref (g_ptr_array_index (gallery->waiting, gallery->waiting->len - 1));
  g_ptr_array_set_size (gallery->waiting, (int) gallery->waiting->len - 1);
  pr_style_picture_take (picture, pr_document_try_style (gallery->doc, pr_style_picture_style (picture)));
  return G_SOURCE_CONTINUE;
}

static void
chosen (PrStyleGallery *gallery, GtkFlowBoxChild *child)
{
  g_autoptr (GError) error = NULL;

  if (pr_document_set_style (gallery->doc, pr_style_picture_style (PR_STYLE_PICTURE (child)), &error))
    gtk_window_close (GTK_WINDOW (gallery));
  else
    pr_tell (gallery->trouble, error->message);
}

/* Those of the open foot are laid first. */
static void
fill (PrStyleGallery *gallery)
{
  const PrJob *job = pr_document_job (gallery->doc);
  const GPtrArray *styles = pr_document_styles (gallery->doc);

  for (int suits = 0; suits < 2; suits++)
    for (guint i = styles->len; i-- > 0;) {
      const PrStyle *style = g_ptr_array_index (styles, i);
      if (pr_style_suits (style, job->sources.foot) != suits)
        continue;
      PrStylePicture *picture
          = pr_style_picture_new (style, g_str_equal (style->id, job->sources.plan.style));
      gtk_flow_box_insert (style->feet == PR_FEET_HIND ? gallery->hind : gallery->fore, GTK_WIDGET (picture),
                           0);
      g_ptr_array_add (gallery->waiting, g_object_ref (picture));
    }
  if (job->sources.foot == PR_FOOT_LH || job->sources.foot == PR_FOOT_RH)
    gtk_box_reorder_child_after (gallery->groups, gallery->hind_group, NULL);
  gallery->laying = g_idle_add (lay_next, gallery);
}

void
pr_style_gallery_show (GtkWindow *parent, PrDocument *doc)
{
  g_return_if_fail (pr_document_job (doc));
  PrStyleGallery *gallery = g_object_new (PR_TYPE_STYLE_GALLERY, "transient-for", parent, NULL);

  gallery->doc = g_object_ref (doc);
  fill (gallery);
  gtk_window_present (GTK_WINDOW (gallery));
}

static void
pr_style_gallery_dispose (GObject *object)
{
  PrStyleGallery *gallery = PR_STYLE_GALLERY (object);

  g_clear_handle_id (&gallery->laying, g_source_remove);
  g_clear_pointer (&gallery->waiting, g_ptr_array_unref);
  g_clear_object (&gallery->doc);
  G_OBJECT_CLASS (pr_style_gallery_parent_class)->dispose (object);
}

static void
pr_style_gallery_init (PrStyleGallery *gallery)
{
  gallery->waiting = g_ptr_array_new_with_free_func (g_object_unref);
  gtk_widget_init_template (GTK_WIDGET (gallery));
}

static void
pr_style_gallery_class_init (PrStyleGalleryClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = pr_style_gallery_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "style-gallery.ui");
  gtk_widget_class_bind_template_child (widget_class, PrStyleGallery, fore);
  gtk_widget_class_bind_template_child (widget_class, PrStyleGallery, hind);
  gtk_widget_class_bind_template_child (widget_class, PrStyleGallery, groups);
  gtk_widget_class_bind_template_child (widget_class, PrStyleGallery, hind_group);
  gtk_widget_class_bind_template_child (widget_class, PrStyleGallery, trouble);
  gtk_widget_class_bind_template_callback (widget_class, chosen);
}
