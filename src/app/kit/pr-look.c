/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-look.h"

#include "pr-colour.h"

#define BASE "/org/pritchel/Pritchel/"

static GtkCssProvider *colours, *rules, *letters;
static bool larger_letters;
static gboolean desktop_dark;

static void
load_colours (bool dark)
{
  static int now = -1;

  if (now == dark)
    return;
  now = dark;
  gtk_css_provider_load_from_resource (colours, dark ? BASE "style-dark.css" : BASE "style-light.css");
}

/* --- how large letters are --- */

/* In pixels: the desktop may ask for letters to be scaled. */
static double
desktop_px (double *pt_px)
{
  g_autofree char *name = NULL;
  PangoFontDescription *font;
  int dpi;
  double size;

  g_object_get (gtk_settings_get_default (), "gtk-font-name", &name, "gtk-xft-dpi", &dpi, NULL);
  *pt_px = (dpi > 0 ? dpi / 1024.0 : 96.0) / 72.0;
  font = pango_font_description_from_string (name ? name : "");
  size = (double) pango_font_description_get_size (font) / PANGO_SCALE;
  if (!pango_font_description_get_size_is_absolute (font))
    size *= *pt_px;
  pango_font_description_free (font);
  return size;
}

/* Whole pixels: the toolkit (4.8) measures lines of others differently with and without a width, and warns of it. */
static void
size_letters (void)
{
  double pt_px, size = desktop_px (&pt_px);

  size = fmax (size, PR_LETTERS_LEAST_PT * pt_px) * (larger_letters ? PR_LETTERS_LARGER : 1);
  g_autofree char *css = g_strdup_printf ("window.pritchel, .pritchel popover, tooltip { font-size: %dpx; }",
                                          (int) ceil (size));

  gtk_css_provider_load_from_data (letters, css, -1);
}

void
pr_look_letters (bool larger)
{
  if (larger == larger_letters)
    return;
  larger_letters = larger;
  size_letters ();
}

/* --- all of it --- */

/* Colours of a person's own cards, which are the same by day and by night. */
static void
add_cards (GdkDisplay *display)
{
  g_autoptr (GtkCssProvider) cards = gtk_css_provider_new ();
  g_autofree char *css = pr_colour_card_css ();

  gtk_css_provider_load_from_data (cards, css, -1);
  gtk_style_context_add_provider_for_display (display, GTK_STYLE_PROVIDER (cards),
                                              GTK_STYLE_PROVIDER_PRIORITY_APPLICATION);
}

void
pr_look_start (GdkDisplay *display)
{
  g_object_get (gtk_settings_get_for_display (display), "gtk-application-prefer-dark-theme", &desktop_dark,
                NULL);
  /* a label that can be copied from is not about to be copied because its window was opened */
  g_object_set (gtk_settings_get_for_display (display), "gtk-label-select-on-focus", FALSE, NULL);
  colours = gtk_css_provider_new ();
  rules = gtk_css_provider_new ();
  letters = gtk_css_provider_new ();
  load_colours (false);
  gtk_css_provider_load_from_resource (rules, BASE "style.css");
  gtk_style_context_add_provider_for_display (display, GTK_STYLE_PROVIDER (colours),
                                              GTK_STYLE_PROVIDER_PRIORITY_APPLICATION);
  gtk_style_context_add_provider_for_display (display, GTK_STYLE_PROVIDER (rules),
                                              GTK_STYLE_PROVIDER_PRIORITY_APPLICATION);
  gtk_style_context_add_provider_for_display (display, GTK_STYLE_PROVIDER (letters),
                                              GTK_STYLE_PROVIDER_PRIORITY_APPLICATION);
  add_cards (display);
  size_letters ();
  g_signal_connect (gtk_settings_get_for_display (display), "notify::gtk-font-name",
                    G_CALLBACK (size_letters), NULL);
  g_signal_connect (gtk_settings_get_for_display (display), "notify::gtk-xft-dpi", G_CALLBACK (size_letters),
                    NULL);
}

void
pr_look_choose (const char *look)
{
  bool dark = g_str_equal (look, "dark") || (!g_str_equal (look, "light") && desktop_dark);
  GtkSettings *settings = gtk_settings_get_default ();
  gboolean now;

  g_object_get (settings, "gtk-application-prefer-dark-theme", &now, NULL);
  if (now != (gboolean) dark) /* set anew, even to the same, it has the whole theme read again */
    g_object_set (settings, "gtk-application-prefer-dark-theme", (gboolean) dark, NULL);
}

bool
pr_look_follow (GtkWidget *widget)
{
  GdkRGBA ground = pr_colour (widget, "theme_bg_color");
  bool dark;

  dark = ground.red + ground.green + ground.blue < 1.5f;
  load_colours (dark);
  return dark;
}

void
pr_look_escape_closes (GtkWindow *window)
{
  GtkEventController *keys = gtk_shortcut_controller_new ();

  gtk_shortcut_controller_add_shortcut (GTK_SHORTCUT_CONTROLLER (keys),
                                        gtk_shortcut_new (gtk_keyval_trigger_new (GDK_KEY_Escape, 0),
                                                          gtk_named_action_new ("window.close")));
  gtk_widget_add_controller (GTK_WIDGET (window), keys);
}
