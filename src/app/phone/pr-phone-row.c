/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-phone-row.h"

#include <unistd.h>
#include "pr-ui.h"

struct _PrPhoneRow {
  GtkBox parent_instance;
  int id;
  PrPhoneState state;
  PrReceived photo;
  GtkWidget *icon, *words, *name;
};

enum { LEFT_OUT, N_SIGNALS };
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (PrPhoneRow, pr_phone_row, GTK_TYPE_BOX)

/* Mapped and not read: they take no memory until they are looked at, and the file goes when they do. */
static GBytes *
bytes_of (int file)
{
  g_autoptr (GMappedFile) mapped = g_mapped_file_new_from_fd (file, FALSE, NULL);

  close (file);
  return mapped ? g_mapped_file_get_bytes (mapped) : NULL;
}

PrPhoneRow *
pr_phone_row_new (const PrPhonePhoto *photo)
{
  static const struct {
    const char *icon, *look;
  } states[]
      = { { "pr-fits-symbolic", "fits" }, { "pr-look-symbolic", "look" }, { "pr-mend-symbolic", "mend" } };
  PrPhoneRow *row = g_object_new (PR_TYPE_PHONE_ROW, NULL);

  row->id = photo->id;
  row->state = photo->state;
  row->photo.bytes = bytes_of (photo->file);
  row->photo.name = g_strdup (photo->name);
  gtk_image_set_from_icon_name (GTK_IMAGE (row->icon), states[photo->state].icon);
  gtk_widget_add_css_class (row->icon, states[photo->state].look);
  gtk_label_set_text (GTK_LABEL (row->words), photo->words);
  gtk_label_set_text (GTK_LABEL (row->name), photo->name);
  return row;
}

int
pr_phone_row_id (PrPhoneRow *row)
{
  return row->id;
}

bool
pr_phone_row_is_bad (PrPhoneRow *row)
{
  return row->state == PR_PHONE_AGAIN;
}

const PrReceived *
pr_phone_row_photo (PrPhoneRow *row)
{
  return row->photo.bytes ? &row->photo : NULL;
}

static void
leave_out (PrPhoneRow *row)
{
  g_signal_emit (row, signals[LEFT_OUT], 0);
}

static void
pr_phone_row_finalize (GObject *object)
{
  PrPhoneRow *row = PR_PHONE_ROW (object);

  g_clear_pointer (&row->photo.bytes, g_bytes_unref);
  g_free (row->photo.name);
  G_OBJECT_CLASS (pr_phone_row_parent_class)->finalize (object);
}

static void
pr_phone_row_init (PrPhoneRow *row)
{
  gtk_widget_init_template (GTK_WIDGET (row));
}

static void
pr_phone_row_class_init (PrPhoneRowClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->finalize = pr_phone_row_finalize;
  signals[LEFT_OUT] = g_signal_new ("left-out", G_TYPE_FROM_CLASS (class), G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                    NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "phone-row.ui");
  gtk_widget_class_bind_template_child (widget_class, PrPhoneRow, icon);
  gtk_widget_class_bind_template_child (widget_class, PrPhoneRow, words);
  gtk_widget_class_bind_template_child (widget_class, PrPhoneRow, name);
  gtk_widget_class_bind_template_callback (widget_class, leave_out);
}
