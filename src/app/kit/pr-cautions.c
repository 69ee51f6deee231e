/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-cautions.h"

#include <glib/gi18n-lib.h>
#include "pr-look.h"

const char *
pr_cautions (void)
{
  return _ ("A planning aid only; it does not diagnose. Therapeutic shoes are made under a "
            "veterinary surgeon's direction. Who may shoe is set by local law (Great Britain: "
            "Farriers (Registration) Act 1975, s. 16).\n\n"
            "Trim first, trace after. Nails belong in the wall: a nail inside the white line "
            "lames. Wear eye protection at anvil and grinder; put no galvanised stock in the "
            "fire; see to air for hoof smoke and flux fumes, and to a handler for the horse.\n\n"
            "Measure the bar in hand, and the check bar on the printed page. The foot decides.");
}

typedef struct {
  const char *title, *text;
} Part;

static const Part parts[] = {
  { N_ ("The tracing"),
    N_ ("Print a tracing sheet at 100 %. Stand the trimmed foot on it, toe to the arrow, and draw "
        "round the wall with the pen held upright. Photograph the whole sheet from above with all "
        "four square marks in the picture. Whatever lies higher than the sheet looks larger than "
        "it is: at half a metre, a card's thickness of 0.8 mm is 0.15 %.") },
  { N_ ("The shoe"),
    N_ ("Open the photo: the scale is taken from the sheet, the hoof line is found, and a plain "
        "shoe is laid on it. Take hold of a handle and drag; hold Ctrl and the other branch "
        "follows, hold Shift and nothing catches. Escape puts a drag back. With the keyboard: Tab "
        "goes round the shoe, arrows move by 0.5 mm, with Shift 0.1, with Ctrl 5.") },
  { N_ ("What to look at"),
    N_ ("The chips above the board tell what fits and what needs a look. Click one to read why, "
        "and where the rule comes from; click a finding to see its place.") },
  { N_ ("The iron"),
    N_ ("The bar along the bottom is the shoe laid straight: where to mark it, where to draw and "
        "where to upset. Type its section as you would say it, 3/8 x 1 or 25 x 10. Point at the "
        "shoe to see its place on the bar, and the other way round.") },
  { N_ ("Paper"),
    N_ ("Print the template at 100 %, on any paper: what does not fit goes over several pages. "
        "Hold a rule to the check bar before you trust it. Where a printer is a little off, measure it "
        "once (menu, Measure this printer): all it prints from then on is put right and says so.") },
  { N_ ("The book"),
    N_ ("Everything is kept as you change it, horse by horse and visit by visit. There is nothing "
        "to save. Take out, Send this foot writes one foot as a file for a colleague; who opens that "
        "file is asked whether to take it in.") },
};

static GtkWidget *
paragraph (const char *text, const char *class)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 64);
  if (class)
    gtk_widget_add_css_class (label, class);
  return label;
}

void
pr_help_show (GtkWindow *parent)
{
  GtkWidget *window = gtk_window_new (), *scroller = gtk_scrolled_window_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);

  gtk_widget_add_css_class (window, "pritchel");
  gtk_widget_add_css_class (box, "help");
  for (size_t i = 0; i < G_N_ELEMENTS (parts); i++) {
    gtk_box_append (GTK_BOX (box), paragraph (_ (parts[i].title), "head"));
    gtk_box_append (GTK_BOX (box), paragraph (_ (parts[i].text), NULL));
  }
  gtk_box_append (GTK_BOX (box), paragraph (_ ("Law and cautions"), "head"));
  gtk_box_append (GTK_BOX (box), paragraph (pr_cautions (), NULL));
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), box);
  gtk_window_set_child (GTK_WINDOW (window), scroller);
  gtk_window_set_title (GTK_WINDOW (window), _ ("Help"));
  gtk_window_set_default_size (GTK_WINDOW (window), 620, 640);
  gtk_window_set_transient_for (GTK_WINDOW (window), parent);
  pr_look_escape_closes (GTK_WINDOW (window));
  gtk_window_present (GTK_WINDOW (window));
}

void
pr_about_show (GtkWindow *parent)
{
  g_autofree char *what
      = g_strconcat (_ ("Plans a hand-forged horseshoe on the tracing of the foot it is for."), "\n\n",
                     pr_cautions (), NULL);

  GtkWidget *dialog
      = g_object_new (GTK_TYPE_ABOUT_DIALOG, "program-name", "Pritchel", "version", PR_VERSION,
                      "logo-icon-name", "org.pritchel.Pritchel", "license-type", GTK_LICENSE_GPL_3_0,
                      "comments", what, "transient-for", parent, "modal", TRUE, NULL);

  gtk_widget_add_css_class (dialog, "pritchel");
  gtk_window_present (GTK_WINDOW (dialog));
}
