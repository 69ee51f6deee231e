/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-colour.h"

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

PrInk
pr_colour_ink (GtkWidget *widget)
{
  GdkRGBA text = pr_colour (widget, "pr_ink");
  bool dark = text.red + text.green + text.blue > 1.5f; /* light words stand on a dark ground */
  PrInk ink = dark ? pr_ink_dark : pr_ink_light;

  ink.text = ink.line = as_ink (text);
  ink.faint = as_ink (pr_colour (widget, "pr_soft"));
  ink.ground = as_ink (pr_colour (widget, "pr_deep"));
  return ink;
}
