/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-colour.h"

#include <glib/gi18n-lib.h>
#include "pr-card-colour.h"

static const GdkRGBA grey = { 0.5f, 0.5f, 0.5f, 1 };

GdkRGBA
pr_colour (GtkWidget *widget, const char *name)
{
  GdkRGBA found;

  return gtk_style_context_lookup_color (gtk_widget_get_style_context (widget), name, &found) ? found : grey;
}

GdkRGBA
pr_colour_of_text (GtkWidget *widget)
{
  GdkRGBA found;

  gtk_style_context_get_color (gtk_widget_get_style_context (widget), &found);
  return found;
}

void
pr_colour_use (cairo_t *cr, GtkWidget *widget, const char *name)
{
  GdkRGBA colour = pr_colour (widget, name);

  gdk_cairo_set_source_rgba (cr, &colour);
}

static PrColour
as_ink (GdkRGBA c)
{
  return (PrColour){ c.red, c.green, c.blue, c.alpha };
}

bool
pr_colour_is_dark (GtkWidget *widget)
{
  GdkRGBA text = pr_colour (widget, "pr_ink");

  return text.red + text.green + text.blue > 1.5f;
}

PrInk
pr_colour_ink (GtkWidget *widget)
{
  PrInk ink = pr_colour_is_dark (widget) ? pr_ink_dark : pr_ink_light;

  ink.text = ink.line = as_ink (pr_colour (widget, "pr_ink"));
  ink.faint = as_ink (pr_colour (widget, "pr_soft"));
  ink.ground = as_ink (pr_colour (widget, "pr_deep"));
  return ink;
}

/* "card-1", static. */
static const char *
card_class (int colour)
{
  static const char *const names[] = { "card-0", "card-1", "card-2", "card-3", "card-4", "card-5", "card-6" };

  G_STATIC_ASSERT (G_N_ELEMENTS (names) == PR_N_CARD_COLOURS);
  return names[colour];
}

void
pr_colour_card (GtkWidget *label, int colour)
{
  g_autofree char *spoken = g_strdup_printf (_ ("Card of the day: %s"), pr_card_colour_name (colour));

  for (int i = 0; i < PR_N_CARD_COLOURS; i++)
    gtk_widget_remove_css_class (label, card_class (i));
  gtk_widget_add_css_class (label, card_class (colour));
  gtk_label_set_text (GTK_LABEL (label), pr_card_colour_name (colour));
  gtk_widget_set_tooltip_text (label, spoken);
  gtk_accessible_update_property (GTK_ACCESSIBLE (label), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
  gtk_widget_set_visible (label, colour > 0);
}

char *
pr_colour_card_css (void)
{
  GString *css = g_string_new (NULL);

  for (int i = 0; i < PR_N_CARD_COLOURS; i++)
    g_string_append_printf (css, ".pritchel label.%s { background: #%06x; color: #%06x; }\n", card_class (i),
                            pr_card_colour_rgb (i), pr_card_colour_ink (i));
  return g_string_free (css, FALSE);
}
