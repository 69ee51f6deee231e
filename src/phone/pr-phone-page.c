/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-phone-page.h"

#include <gio/gio.h>
#include <glib/gi18n-lib.h>

#include "phone-resource.h"

#define ACCEPT \
  "image/jpeg,image/png,image/webp,image/heic,image/heif,.jpg,.jpeg,.png,.webp,.heic,.heif" /* named, or a browser converts */

/* TEXT in the page's language, as it stands in HTML. Transfer full. */
static char *
say (const PrPhonePage *page, const char *text)
{
  return g_markup_escape_text (pr_phone_say (page->words, text), -1);
}

static void
add_part (GString *html, const char *name)
{
  g_autofree char *path = g_strconcat ("/org/pritchel/Phone/", name, NULL);
  g_autoptr (GBytes) bytes = g_resource_lookup_data (pr_phone_get_resource (), path, 0, NULL);

  g_string_append_len (html, g_bytes_get_data (bytes, NULL), (gssize) g_bytes_get_size (bytes));
}

/* EXTRA: more for its head. */
static void
add_head (GString *html, const PrPhonePage *page, const char *extra)
{
  g_string_append_printf (html,
                          "<!doctype html>\n<html lang=\"%s\"><head><meta charset=\"utf-8\">"
                          "<meta name=\"viewport\" content=\"width=device-width,initial-scale=1\">%s"
                          "<title>Pritchel</title><link rel=\"icon\" href=\"data:,\"><style nonce=\"%s\">",
                          pr_phone_words_language (page->words), extra, page->nonce);
  add_part (html, "page.css");
  g_string_append (html, "</style></head>\n");
}

/* --- forms --- */

/* One control for a photo: a label that is pressed, and where there is no script the control itself and a button. MORE: what else
 * is sent; HOW: camera or several. */
static void
add_form (GString *html, const PrPhonePage *page, const char *id, const char *label, const char *more,
          const char *how, bool second)
{
  g_autofree char *words = say (page, label), *send = say (page, N_ ("Send"));

  g_string_append_printf (html,
                          "<form method=\"post\" action=\"./\" enctype=\"multipart/form-data\"%s>"
                          "<label class=\"button\" for=\"%s\">%s</label>%s"
                          "<input type=\"file\" id=\"%s\" name=\"photo\" accept=\"" ACCEPT "\" %s required>"
                          "<button>%s</button></form>\n",
                          second ? " class=\"second\"" : "", id, words, more, id, how, send);
}

/* --- what has come --- */

static void
add_photo (GString *html, const PrPhonePage *page, const PrPhoneKept *kept)
{
  static const char *const kinds[] = { "good", "usable", "again" }, *const signs[] = { "✓", "!", "↻" };
  g_autofree char *words = g_markup_escape_text (kept->look.words, -1);
  g_autofree char *id = g_strdup_printf ("again%d", kept->id);
  g_autofree char *more = g_strdup_printf ("<input type=\"hidden\" name=\"again\" value=\"%d\">", kept->id);

  g_string_append_printf (html, "<li class=\"%s\" data-key=\"%s\"><p><span class=\"sign\">%s</span>%s</p>",
                          kinds[kept->look.state], kept->key, signs[kept->look.state], words);
  if (kept->look.picture != NULL)
    g_string_append_printf (html, "<img src=\"photo/%d\" alt=\"\">", kept->id);
  add_form (html, page, id, N_ ("Take it again"), more, "capture=\"environment\"",
            kept->look.state != PR_PHONE_AGAIN);
  g_string_append (html, "</li>\n");
}

static void
add_list (GString *html, const PrPhonePage *page, const PrPhoneStore *store, const char *problem)
{
  g_autofree char *shown = problem != NULL ? g_markup_escape_text (problem, -1) : NULL;

  if (shown != NULL)
    g_string_append_printf (html, "<p class=\"problem\">%s</p>\n", shown);
  g_string_append (html, "<ol>");
  for (guint i = store->kept->len; i > 0; i--)
    add_photo (html, page, store->kept->pdata[i - 1]);
  g_string_append (html, "</ol>\n");
}

char *
pr_phone_page_list (const PrPhonePage *page, const PrPhoneStore *store, const char *problem)
{
  GString *html = g_string_new (NULL);

  add_list (html, page, store, problem);
  return g_string_free (html, FALSE);
}

/* --- pages --- */

/* What the script says. */
static void
add_body (GString *html, const PrPhonePage *page)
{
  g_autofree char *sending
      = say (page, N_ ("Sending the photo…")),
      *several = say (page, N_ ("Sending photo %1 of %2…")), *looking = say (page, N_ ("Looking at it…")),
      *lost = say (page, N_ ("The connection is lost; it is tried again. Is “From my phone” still open on "
                             "the computer?")),
      *large = say (page, N_ ("This photo is larger than 256 MB; choose a smaller one."));

  g_string_append_printf (
      html,
      "<body data-sending=\"%s\" data-several=\"%s\" data-looking=\"%s\" data-lost=\"%s\" "
      "data-large=\"%s\"><main>\n",
      sending, several, looking, lost, large);
}

char *
pr_phone_page (const PrPhonePage *page, const PrPhoneStore *store, const char *problem)
{
  GString *html = g_string_new (NULL);
  g_autofree char *title
      = say (page, page->shoe ? N_ ("Photograph the shoe") : N_ ("Photograph the tracing")),
      *how = say (page, N_ ("The whole sheet with its four corner marks, flat, from above."));

  add_head (html, page, "");
  add_body (html, page);
  g_string_append_printf (html, "<h1>%s</h1><p>%s</p>\n", title, how);
  add_form (html, page, "camera", N_ ("Take a photo"), "", "capture=\"environment\"", false);
  add_form (html, page, "pick", N_ ("Choose photos"), "", "multiple", true);
  g_string_append (html,
                   "<div id=\"now\" role=\"status\" hidden><p></p><progress max=\"1\"></progress></div>\n"
                   "<div id=\"list\" aria-live=\"polite\">");
  add_list (html, page, store, problem);
  g_string_append_printf (html, "</div></main>\n<script nonce=\"%s\">", page->nonce);
  add_part (html, "page.js");
  g_string_append (html, "</script></body></html>\n");
  return g_string_free (html, FALSE);
}

static char *
plain_page (const PrPhonePage *page, const char *extra, const char *title, const char *code,
            const char *sentence)
{
  GString *html = g_string_new (NULL);
  g_autofree char *head = say (page, title), *rest = say (page, sentence);

  add_head (html, page, extra);
  g_string_append_printf (html, "<body><main><h1>%s</h1>%s<p>%s</p></main></body></html>\n", head, code,
                          rest);
  return g_string_free (html, FALSE);
}

char *
pr_phone_page_asked (const PrPhonePage *page, const char *code)
{
  g_autofree char *shown = g_strdup_printf ("<p class=\"code\">%s</p>", code);

  return plain_page (
      page, "<meta http-equiv=\"refresh\" content=\"2\">", N_ ("Allow this phone on the computer"), shown,
      N_ ("Another phone is sending photos already. The computer asks about this one by the number "
          "above."));
}

char *
pr_phone_page_closed (const PrPhonePage *page, const char *sentence)
{
  return plain_page (page, "", "Pritchel", "", sentence);
}
