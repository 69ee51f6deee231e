/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-layers.h"

#include <glib/gi18n-lib.h>
#include "pr-settings.h"
#include "pr-words.h"

#define SETTING "layers"

/* A layer is known by one word: in the setting, and to the template. */
static const struct {
  const char *word;
  size_t offset;
} layers[] = {
  { "grid", offsetof (PrBoardLayers, grid) },
  { "hoof", offsetof (PrBoardLayers, hoof) },
  { "centre-lines", offsetof (PrBoardLayers, centre_lines) },
  { "fill", offsetof (PrBoardLayers, fill) },
  { "crease", offsetof (PrBoardLayers, crease) },
  { "nails", offsetof (PrBoardLayers, nails) },
  { "clips", offsetof (PrBoardLayers, clips) },
  { "section", offsetof (PrBoardLayers, section) },
  { "strain", offsetof (PrBoardLayers, strain) },
  { "ghost", offsetof (PrBoardLayers, ghost) },
};

/* What can be faded, by its word in the setting, and to the template with "-strength" behind it. */
static const struct {
  const char *word;
  size_t offset;
} fades[] = {
  { "photo", offsetof (PrBoardLayers, photo) },
  { "tracing", offsetof (PrBoardLayers, tracing) },
  { "shoe", offsetof (PrBoardLayers, shoe) },
};

struct _PrLayers {
  GtkPopover parent_instance;
  PrBoard *board; /* lives as long as the window, and the popover goes with it; NULL before it is told */
  GtkAdjustment *strength[G_N_ELEMENTS (fades)];
};

G_DEFINE_FINAL_TYPE (PrLayers, pr_layers, GTK_TYPE_POPOVER)

static bool *
shown (PrBoardLayers *show, size_t i)
{
  return (bool *) ((char *) show + layers[i].offset);
}

static double *
strength (PrBoardLayers *show, size_t i)
{
  return (double *) ((char *) show + fades[i].offset);
}

/* --- the setting: "grid=1 hoof=0 ... photo=0.80 tracing=1.00 shoe=0.50" --- */

static char *
to_text (PrBoardLayers *show)
{
  GString *text = g_string_new (NULL);
  char digits[G_ASCII_DTOSTR_BUF_SIZE];

  for (size_t i = 0; i < G_N_ELEMENTS (layers); i++)
    g_string_append_printf (text, "%s=%d ", layers[i].word, *shown (show, i));
  for (size_t i = 0; i < G_N_ELEMENTS (fades); i++)
    g_string_append_printf (text, "%s=%s ", fades[i].word,
                            g_ascii_formatd (digits, sizeof digits, "%.2f", *strength (show, i)));
  return g_string_free (text, FALSE);
}

/* Is WORD "NAME=..."? */
static bool
is_of (const char *word, const char *name)
{
  size_t n = strlen (name);

  return strncmp (word, name, n) == 0 && word[n] == '=';
}

static void
take_word (const PrLayers *self, PrBoardLayers *show, const char *word)
{
  const char *value = strchr (word, '=');
  double number = value ? g_ascii_strtod (value + 1, NULL) : 1;

  for (size_t i = 0; i < G_N_ELEMENTS (layers); i++)
    if (is_of (word, layers[i].word))
      *shown (show, i) = value[1] == '1';
  for (size_t i = 0; i < G_N_ELEMENTS (fades); i++)
    if (is_of (word, fades[i].word))
      *strength (show, i) = isfinite (number) ? CLAMP (number, gtk_adjustment_get_lower (self->strength[i]),
                                                       gtk_adjustment_get_upper (self->strength[i]))
                                              : 1;
}

/* --- controls --- */

static GtkCheckButton *
check_of (PrLayers *self, size_t i)
{
  return GTK_CHECK_BUTTON (gtk_widget_get_template_child (GTK_WIDGET (self), PR_TYPE_LAYERS, layers[i].word));
}

static void
changed (PrLayers *self)
{
  PrBoardLayers show;
  g_autofree char *text = NULL;

  if (!self->board)
    return;
  show = *pr_board_layers (self->board);
  for (size_t i = 0; i < G_N_ELEMENTS (layers); i++)
    *shown (&show, i) = gtk_check_button_get_active (check_of (self, i));
  for (size_t i = 0; i < G_N_ELEMENTS (fades); i++)
    *strength (&show, i) = gtk_adjustment_get_value (self->strength[i]);
  pr_board_set_layers (self->board, &show);
  text = to_text (&show);
  pr_settings_keep (SETTING, g_variant_new_string (text));
}

/* The visit before goes by its day, and is there only where there is one. */
static void
name_ghost (PrLayers *self)
{
  GtkWidget *check = GTK_WIDGET (check_of (self, G_N_ELEMENTS (layers) - 1));
  const char *day = self->board ? pr_board_ghost_day (self->board) : NULL;
  g_autofree char *date = day ? pr_words_date (day) : NULL;
  g_autofree char *label = date ? g_strdup_printf (_ ("Visit of %s"), date) : NULL;
  g_autofree char *words = date ? pr_board_ghost_words (self->board) : NULL;

  gtk_check_button_set_label (GTK_CHECK_BUTTON (check), label);
  gtk_widget_set_tooltip_text (check, words);
  gtk_widget_set_visible (check, date != NULL);
}

/* What the board shows as it is, and what was kept of it. */
static PrBoardLayers
kept (const PrLayers *self, PrBoard *board)
{
  g_autofree char *text = pr_settings_string (SETTING);
  g_auto (GStrv) words = g_strsplit (text, " ", -1);
  PrBoardLayers show = *pr_board_layers (board);

  for (int i = 0; words[i]; i++)
    take_word (self, &show, words[i]);
  return show;
}

void
pr_layers_attach (GtkMenuButton *button, PrBoard *board)
{
  PrLayers *self = g_object_new (PR_TYPE_LAYERS, NULL);
  PrBoardLayers show = kept (self, board);

  for (size_t i = 0; i < G_N_ELEMENTS (layers); i++)
    gtk_check_button_set_active (check_of (self, i), *shown (&show, i));
  for (size_t i = 0; i < G_N_ELEMENTS (fades); i++)
    gtk_adjustment_set_value (self->strength[i], *strength (&show, i));
  pr_board_set_layers (board, &show);
  self->board = board;
  gtk_menu_button_set_direction (button, GTK_ARROW_UP);
  gtk_menu_button_set_popover (button, GTK_WIDGET (self));
}

/* --- the widget --- */

static void
pr_layers_init (PrLayers *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

static void
pr_layers_class_init (PrLayersClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  gtk_widget_class_set_template_from_resource (widget_class, "/org/pritchel/Pritchel/ui/layers.ui");
  for (size_t i = 0; i < G_N_ELEMENTS (fades); i++) {
    g_autofree char *name = g_strconcat (fades[i].word, "-strength", NULL);

    gtk_widget_class_bind_template_child_full (widget_class, name, FALSE,
                                               (gssize) (G_STRUCT_OFFSET (PrLayers, strength)
                                                         + (glong) (i * sizeof (GtkAdjustment *))));
  }
  for (size_t i = 0; i < G_N_ELEMENTS (layers); i++)
    gtk_widget_class_bind_template_child_full (widget_class, layers[i].word, FALSE, 0);
  gtk_widget_class_bind_template_callback (widget_class, changed);
  gtk_widget_class_bind_template_callback (widget_class, name_ghost);
}
