/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What people and strangers write does not change the width of the window: names of 1 to 120 letters, in four
 * scripts, as horse, style, photo, reason of a scale, and in every sentence that is told. Run under each language;
 * argument: the folder with the translations. */
#include "../desk/desk-kit.h"

#include <libintl.h>
#include <locale.h>
#include "pr-document-private.h"
#include "pr-fold.h"
#include "pr-look.h"
#include "pr-names.h"
#include "pr-sent-dialog.h"
#include "pr-text.h"
#include "pr-toast.h"
#include "pr-window.h"

#define WIDTH 1280
#define HEIGHT 720

static GtkApplication *app;

static const struct {
  const char *script, *letters;
} scripts[] = {
  { "Latin", "Bramble of the Upper Meadow, by Thistledown " },
  { "Latin, one word", "Donaudampfschifffahrtsgesellschaft" },
  { "Arabic", "نجمة الصباح الجميلة " },
  { "Arabic, one word", "مستشفياتهم" },
  { "Chinese", "青山绿水马蹄铁" },
  { "emoji", "🐴🧲🔥" },
};
static const int lengths[] = { 1, 20, 50, 120 };

/* N letters of LETTERS, over and over. Transfer full. */
static char *
name_of (const char *letters, int n)
{
  GString *name = g_string_new (NULL);
  const char *at = letters;

  for (int i = 0; i < n; i++) {
    g_string_append_unichar (name, g_utf8_get_char (at));
    at = g_utf8_next_char (at);
    if (!*at)
      at = letters;
  }
  /* no blank at its end, which would be taken off */
  if (name->str[name->len - 1] == ' ')
    name->str[name->len - 1] = '.';
  return g_string_free (name, FALSE);
}

static void
settle (void)
{
  for (int i = 0; i < 20; i++) {
    while (g_main_context_iteration (NULL, FALSE))
      ;
    g_usleep (2000);
  }
}

/* The first widget in ROOT whose class is called CLASS, NULL none. */
static GtkWidget *
find (GtkWidget *root, const char *class)
{
  GtkWidget *found = g_str_equal (G_OBJECT_TYPE_NAME (root), class) ? root : NULL;

  for (GtkWidget *child = gtk_widget_get_first_child (root); child && !found;
       child = gtk_widget_get_next_sibling (child))
    found = find (child, class);
  return found;
}

static void
unfold (GtkWidget *root)
{
  if (PR_IS_FOLD (root))
    pr_fold_set_open (PR_FOLD (root), true);
  for (GtkWidget *child = gtk_widget_get_first_child (root); child;
       child = gtk_widget_get_next_sibling (child))
    unfold (child);
}

typedef struct {
  int width, height; /* least, px; the height at WIDTH */
  int book, panel;   /* as wide as they are, px */
} Least;

static Least
least_of (GtkWidget *window)
{
  Least least = { .book = gtk_widget_get_width (find (window, "PrBookPane")),
                  .panel = gtk_widget_get_width (find (window, "PrPanel")) };

  gtk_widget_measure (window, GTK_ORIENTATION_HORIZONTAL, -1, &least.width, NULL, NULL, NULL);
  gtk_widget_measure (window, GTK_ORIENTATION_VERTICAL, MAX (WIDTH, least.width), &least.height, NULL, NULL,
                      NULL);
  return least;
}

/* NAME stands wherever a name can stand. */
static void
call_everything (Desk *desk, GtkWidget *window, const char *name)
{
  g_autofree char *sentence = g_strdup_printf ("%s could not be read; %s is not a photo.", name, name);
  PrJob *job = (PrJob *) pr_document_job (desk->doc);
  g_autoptr (GError) error = NULL;

  assert_true (pr_document_rename_horse (desk->doc, desk->horse, name, &error));
  g_free (job->sources.photo_name);
  job->sources.photo_name = g_strdup (name);
  g_free (job->sources.tracing->scale.why);
  job->sources.tracing->scale.why = g_strdup (sentence);
  if (g_unichar_isalpha (g_utf8_get_char (name))) /* a style is kept under letters */
    assert_true (pr_document_keep_style (desk->doc, name, &error));
  pr_document_trouble (desk->doc, sentence);
  pr_document_done (desk->doc, sentence);
  settle ();
}

static GtkWidget *
window_on (Desk *desk)
{
  GtkWidget *window = pr_window_new (app, desk->doc, false);

  gtk_window_set_default_size (GTK_WINDOW (window), WIDTH, HEIGHT);
  gtk_window_present (GTK_WINDOW (window));
  desk_open (desk, desk->near);
  settle ();
  unfold (window);
  settle ();
  return window;
}

static void
test_window_keeps_its_width (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  GtkWidget *window = window_on (desk);
  int width = gtk_widget_get_width (window);
  Least usual;

  (void) state;
  call_everything (desk, window, "Bess");
  usual = least_of (window);
  print_message ("%s: at least %d x %d, book %d, panel %d\n", g_getenv ("LANGUAGE"), usual.width,
                 usual.height, usual.book, usual.panel);
  assert_true (usual.width <= WIDTH);
  for (size_t k = 0; k < G_N_ELEMENTS (scripts); k++)
    for (size_t i = 0; i < G_N_ELEMENTS (lengths); i++) {
      g_autofree char *name = name_of (scripts[k].letters, lengths[i]);

      call_everything (desk, window, name);
      Least now = least_of (window);
      if (now.width != usual.width || now.height > HEIGHT || now.book != usual.book
          || now.panel != usual.panel)
        fail_msg ("%s, %d letters: the window is at least %d x %d, its book %d and panel %d wide",
                  scripts[k].script, lengths[i], now.width, now.height, now.book, now.panel);
      assert_int_equal (gtk_widget_get_width (window), width);
    }
  gtk_window_destroy (GTK_WINDOW (window));
}

/* The whole of what is cut can be read: each label that is cut answers the pointer with it. */
static void
test_whole_in_tooltip (void **state)
{
  GtkWidget *label = gtk_label_new (NULL), *window = gtk_window_new ();
  g_autofree char *name = name_of (scripts[2].letters, 120);
  GtkTooltip *tip = g_object_new (GTK_TYPE_TOOLTIP, NULL);
  gboolean told = FALSE;

  (void) state;
  pr_label_cut (GTK_LABEL (label), 1);
  gtk_label_set_text (GTK_LABEL (label), name);
  gtk_window_set_child (GTK_WINDOW (window), label);
  gtk_window_set_default_size (GTK_WINDOW (window), 120, 40);
  gtk_window_present (GTK_WINDOW (window));
  settle ();
  assert_true (pango_layout_is_ellipsized (gtk_label_get_layout (GTK_LABEL (label))));
  g_signal_emit_by_name (label, "query-tooltip", 1, 1, FALSE, tip, &told);
  assert_true (told);
  gtk_label_set_text (GTK_LABEL (label), "short");
  settle ();
  g_signal_emit_by_name (label, "query-tooltip", 1, 1, FALSE, tip, &told);
  assert_false (told);
  gtk_window_destroy (GTK_WINDOW (window));
  g_object_unref (tip);
}

/* What asks about a sent foot fits the screen, whoever it is of. */
static void
test_sent_foot (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  GtkWidget *window = window_on (desk);
  g_autofree char *path = g_build_filename (desk->folder, "sent.pritchel", NULL);
  g_autoptr (GFile) file = g_file_new_for_path (path);

  (void) state;
  for (size_t k = 0; k < G_N_ELEMENTS (scripts); k++) {
    g_autofree char *name = name_of (scripts[k].letters, 120);

    assert_true (pr_document_rename_horse (desk->doc, desk->horse, name, NULL));
    assert_true (pr_book_send_foot (desk->book, desk->near, path, NULL));
    GtkWidget *dialog = GTK_WIDGET (pr_sent_dialog_new (GTK_WINDOW (window), desk->doc, file, false));
    while (
        !gtk_widget_get_sensitive (gtk_dialog_get_widget_for_response (GTK_DIALOG (dialog), GTK_RESPONSE_OK)))
      g_main_context_iteration (NULL, TRUE); /* it is being read */
    settle ();
    if (gtk_widget_get_width (dialog) > WIDTH * 3 / 4 || gtk_widget_get_height (dialog) > HEIGHT * 3 / 4)
      fail_msg ("%s: the question is %d x %d", scripts[k].script, gtk_widget_get_width (dialog),
                gtk_widget_get_height (dialog));
    gtk_window_destroy (GTK_WINDOW (dialog));
  }
  gtk_window_destroy (GTK_WINDOW (window));
}

/* A name from right to left does not turn what stands round it, and what looks like markup is shown. */
static void
test_title (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  GtkWidget *window = window_on (desk);
  static const char *const odd[] = { "<b>A & B</b>", "_Under_line", "نجمة" };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (odd); i++) {
    g_autofree char *shown = pr_text_name (odd[i]);

    assert_true (pr_document_rename_horse (desk->doc, desk->horse, odd[i], NULL));
    settle ();
    const char *title = gtk_window_get_title (GTK_WINDOW (window));
    assert_true (g_str_has_prefix (title, shown));
    g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (window, title);
    assert_int_equal (pango_layout_get_direction (layout, 0), PANGO_DIRECTION_LTR);
  }
  gtk_window_destroy (GTK_WINDOW (window));
}

int
main (int argc, char **argv)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_window_keeps_its_width),
    cmocka_unit_test (test_whole_in_tooltip),
    cmocka_unit_test (test_sent_foot),
    cmocka_unit_test (test_title),
  };
  const char *language = g_getenv ("LANGUAGE");
  char *home = kit_folder ();

  g_setenv ("XDG_DATA_HOME", home, TRUE); /* styles are kept there */
  setlocale (LC_ALL, "");
  bindtextdomain (GETTEXT_PACKAGE, argc > 1 ? argv[1] : "");
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  if (!gtk_init_check ())
    return 77; /* no display: left out */
  if (g_strcmp0 (language, "en") != 0)
    assert_string_not_equal (dgettext (GETTEXT_PACKAGE, "Centre lines"),
                             "Centre lines"); /* the language is there */
  g_object_set (gtk_settings_get_default (), "gtk-enable-animations", FALSE, NULL);
  app = gtk_application_new ("org.pritchel.Names", G_APPLICATION_NON_UNIQUE);
  g_application_register (G_APPLICATION (app), NULL, NULL);
  pr_look_start (gdk_display_get_default ());
  int failed = cmocka_run_group_tests (tests, NULL, NULL);
  g_object_unref (app);
  kit_folder_gone (home);
  return failed;
}
