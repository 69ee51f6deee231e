/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-layers.h"

#include <glib/gi18n-lib.h>
#include "pr-settings.h"

#define SETTING "layers"

static const struct {
  const char *key, *label;
  size_t offset;
} layers[] = {
  { "grid", N_ ("Grid"), offsetof (PrBoardLayers, grid) },
  { "hoof", N_ ("Hoof"), offsetof (PrBoardLayers, hoof) },
  { "centre-lines", N_ ("Centre lines"), offsetof (PrBoardLayers, centre_lines) },
  { "fill", N_ ("Shoe filled"), offsetof (PrBoardLayers, fill) },
  { "crease", N_ ("Crease"), offsetof (PrBoardLayers, crease) },
  { "nails", N_ ("Nails"), offsetof (PrBoardLayers, nails) },
  { "clips", N_ ("Clips"), offsetof (PrBoardLayers, clips) },
  { "strain", N_ ("Draw and upset as colour"), offsetof (PrBoardLayers, strain) },
};

typedef struct {
  PrBoard *board;
  GtkWidget *check[G_N_ELEMENTS (layers)], *strength;
} Layers;

static bool *
shown (PrBoardLayers *show, size_t i)
{
  return (bool *) ((char *) show + layers[i].offset);
}

/* --- the setting: "grid=1 hoof=0 ... photo=0.80" --- */

static char *
to_text (PrBoardLayers *show)
{
  GString *text = g_string_new (NULL);
  char digits[G_ASCII_DTOSTR_BUF_SIZE];

  for (size_t i = 0; i < G_N_ELEMENTS (layers); i++)
    g_string_append_printf (text, "%s=%d ", layers[i].key, *shown (show, i));
  g_string_append_printf (text, "photo=%s", g_ascii_formatd (digits, sizeof digits, "%.2f", show->photo));
  return g_string_free (text, FALSE);
}

static void
take_word (PrBoardLayers *show, const char *word)
{
  const char *value = strchr (word, '=');
  double photo = value ? g_ascii_strtod (value + 1, NULL) : 1;

  for (size_t i = 0; value && i < G_N_ELEMENTS (layers); i++)
    if (strlen (layers[i].key) == (size_t) (value - word) && g_str_has_prefix (word, layers[i].key))
      *shown (show, i) = value[1] == '1';
  if (value && g_str_has_prefix (word, "photo="))
    show->photo = isfinite (photo) ? CLAMP (photo, 0.1, 1) : 1;
}

/* --- controls --- */

static void
changed (Layers *l)
{
  PrBoardLayers show = *pr_board_layers (l->board);
  g_autofree char *text = NULL;

  for (size_t i = 0; i < G_N_ELEMENTS (layers); i++)
    *shown (&show, i) = gtk_check_button_get_active (GTK_CHECK_BUTTON (l->check[i]));
  show.photo = gtk_range_get_value (GTK_RANGE (l->strength));
  pr_board_set_layers (l->board, &show);
  text = to_text (&show);
  pr_settings_keep (SETTING, g_variant_new_string (text));
}

static GtkWidget *
strength_new (Layers *l, double photo)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0),
            *label = gtk_label_new (_ ("Strength of the photo"));

  l->strength = gtk_scale_new_with_range (GTK_ORIENTATION_HORIZONTAL, 0.1, 1, 0.05);
  gtk_scale_set_draw_value (GTK_SCALE (l->strength), FALSE);
  gtk_widget_set_size_request (l->strength, 190, -1);
  gtk_range_set_value (GTK_RANGE (l->strength), photo);
  gtk_accessible_update_property (GTK_ACCESSIBLE (l->strength), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Strength of the photo"), -1);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, "hint");
  gtk_box_append (GTK_BOX (box), label);
  gtk_box_append (GTK_BOX (box), l->strength);
  return box;
}

static GtkWidget *
content (Layers *l)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2),
            *photo = gtk_check_button_new_with_label (_ ("Photo"));
  PrBoardLayers show = *pr_board_layers (l->board);

  gtk_actionable_set_action_name (GTK_ACTIONABLE (photo), "win.photo");
  gtk_box_append (GTK_BOX (box), photo);
  gtk_box_append (GTK_BOX (box), strength_new (l, show.photo));
  for (size_t i = 0; i < G_N_ELEMENTS (layers); i++) {
    l->check[i] = gtk_check_button_new_with_label (_ (layers[i].label));
    gtk_check_button_set_active (GTK_CHECK_BUTTON (l->check[i]), *shown (&show, i));
    gtk_box_append (GTK_BOX (box), l->check[i]);
  }
  for (size_t i = 0; i < G_N_ELEMENTS (layers); i++)
    g_signal_connect_swapped (l->check[i], "toggled", G_CALLBACK (changed), l);
  g_signal_connect_swapped (l->strength, "value-changed", G_CALLBACK (changed), l);
  return box;
}

static void
restore (Layers *l)
{
  g_autofree char *text = pr_settings_string (SETTING);
  g_auto (GStrv) words = g_strsplit (text, " ", -1);
  PrBoardLayers show = *pr_board_layers (l->board);

  for (int i = 0; words[i]; i++)
    take_word (&show, words[i]);
  pr_board_set_layers (l->board, &show);
}

void
pr_layers_attach (GtkMenuButton *button, PrBoard *board)
{
  Layers *l = g_new0 (Layers, 1);
  GtkWidget *popover = gtk_popover_new ();

  l->board = board; /* lives as long as the window, and the popover goes with it */
  restore (l);
  gtk_popover_set_child (GTK_POPOVER (popover), content (l));
  gtk_popover_set_has_arrow (GTK_POPOVER (popover), FALSE);
  gtk_widget_add_css_class (popover, "layers");
  g_object_set_data_full (G_OBJECT (popover), "pr-layers", l, g_free);
  gtk_menu_button_set_direction (button, GTK_ARROW_UP);
  gtk_menu_button_set_popover (button, popover);
}
