/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Parts of the phone's page by themselves: forms taken apart however they are cut up, addresses in the order a phone is likeliest to
 * reach them, words of several languages at once, secrets. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
/* after those it needs */
#include <cmocka.h>
#include <glib.h>
#include <libintl.h>
#include <stdio.h>

#include "pr-phone-addresses.h"
#include "pr-phone-form.h"
#include "pr-phone-guests.h"
#include "pr-phone-token.h"
#include "pr-phone-words.h"

/* --- forms --- */

typedef struct {
  GString *told; /* what came, one after the other */
  gsize most;    /* bytes of files that are wanted */
  gsize come;
} Heard;

static bool
begin (gpointer data)
{
  g_string_append (((Heard *) data)->told, "[");
  return true;
}

static bool
bytes (const char *p, gsize n, gpointer data)
{
  Heard *heard = data;

  g_string_append_len (heard->told, p, (gssize) n);
  heard->come += n;
  return heard->come <= heard->most;
}

static bool
end (gpointer data)
{
  g_string_append (((Heard *) data)->told, "]");
  return true;
}

static void
field (const char *name, const char *value, gpointer data)
{
  g_string_append_printf (((Heard *) data)->told, "(%s=%s)", name, value);
}

/* TEXT of LEN bytes fed in pieces of STEP; what was told, transfer full. *OK: it was no fault; *WHOLE: it came to its end. */
static char *
hear (const char *text, gsize len, gsize step, bool *ok, bool *whole)
{
  Heard heard = { g_string_new (NULL), 1000, 0 };
  const PrPhoneFormOwner owner = { begin, bytes, end, field, &heard };
  g_autoptr (PrPhoneForm) form = pr_phone_form_new ("AaB03x", &owner);

  *ok = true;
  for (gsize at = 0; at < len && *ok; at += step)
    *ok = pr_phone_form_feed (form, text + at, MIN (step, len - at));
  *whole = pr_phone_form_is_whole (form);
  return g_string_free (heard.told, FALSE);
}

/* The same whichever way it is cut. */
static void
tells (const char *text, const char *told, bool good, bool all)
{
  for (gsize step = 1; step <= strlen (text); step++) {
    bool ok, whole;
    g_autofree char *got = hear (text, strlen (text), step, &ok, &whole);

    assert_int_equal (ok, good);
    assert_int_equal (whole, all);
    if (all)
      assert_string_equal (got, told);
    else /* what might have been the beginning of a boundary is held back */
      assert_true (g_str_has_prefix (told, got));
  }
}

#define FILE_HEAD                                                                            \
  "Content-Disposition: form-data; name=\"photo\"; filename=\"file1.jpg\"\r\nContent-Type: " \
  "image/jpeg\r\n\r\n"

/* As RFC 7578, 4.2 and RFC 2046, 5.1.1 have them. */
static void
test_forms (void **state)
{
  (void) state;
  tells ("--AaB03x\r\nContent-Disposition: form-data; name=\"key\"\r\n\r\n0a\r\n--AaB03x\r\n" FILE_HEAD
         "one\r\n--AaB03x--\r\n",
         "(key=0a)[one]", true, true);
  /* what stands before and behind, blanks behind a boundary, other cases, a body that looks like a boundary */
  tells ("before\r\n--AaB03x "
         "\t\r\ncontent-disposition:form-data;name=a;filename=b\r\n\r\n--AaB03\r\n-\r\n\r\n--AaB03x--behind",
         "[--AaB03\r\n-\r\n]", true, true);
  /* empty: a file, a field, where no file was chosen, a part that is not told of */
  tells ("--AaB03x\r\n" FILE_HEAD
         "\r\n--AaB03x\r\nContent-Disposition: form-data; name=\"f\"\r\n\r\n\r\n--AaB03x\r\n"
         "Content-Disposition: form-data; name=\"photo\"; "
         "filename=\"\"\r\n\r\n\r\n--AaB03x\r\n\r\nx\r\n--AaB03x--",
         "[](f=)", true, true);
  tells ("--AaB03x\r\n" FILE_HEAD "cut off", "[cut off", true, false);
  tells ("--other\r\n" FILE_HEAD "x\r\n--other--", "", true, false);
  tells ("--AaB03xy\r\n" FILE_HEAD "x", "", false, false);
}

static void
test_forms_that_are_too_much (void **state)
{
  (void) state;
  g_autoptr (GString) text = g_string_new ("--AaB03x\r\nA: ");
  bool ok, whole;

  for (int i = 0; i < PR_FORM_HEAD; i++)
    g_string_append_c (text, 'x');
  g_free (hear (text->str, text->len, 100, &ok, &whole));
  assert_false (ok);
  g_string_assign (text, "--AaB03x\r\nContent-Disposition: form-data; name=\"key\"\r\n\r\n");
  for (int i = 0; i <= PR_FORM_VALUE; i++)
    g_string_append_c (text, 'x');
  g_string_append (text, "\r\n--AaB03x--");
  g_free (hear (text->str, text->len, 7, &ok, &whole));
  assert_false (ok);
  g_string_assign (text, "--AaB03x\r\n" FILE_HEAD);
  for (int i = 0; i <= 1000; i++) /* of which the owner wants no more */
    g_string_append_c (text, 'x');
  g_string_append (text, "\r\n--AaB03x--");
  g_free (hear (text->str, text->len, 7, &ok, &whole));
  assert_false (ok);
  g_string_assign (text, "");
  for (int i = 0; i <= PR_FORM_PARTS; i++)
    g_string_append (text, "\r\n--AaB03x\r\n\r\n\r\n");
  g_free (hear (text->str, text->len, 7, &ok, &whole));
  assert_false (ok);
  assert_null (pr_phone_form_new (NULL, NULL));
  assert_null (pr_phone_form_new ("", NULL));
}

/* --- addresses --- */

static void
add (GPtrArray *all, const char *text, bool hardware, bool way_out)
{
  PrPhoneAddress *one = g_new0 (PrPhoneAddress, 1);

  one->text = g_strdup (text);
  one->interface = g_strdup ("");
  one->six = strchr (text, ':') != NULL;
  one->hardware = hardware;
  one->way_out = way_out;
  g_ptr_array_add (all, one);
}

static void
test_order_of_addresses (void **state)
{
  static const char *const order[] = { "192.0.2.1", "2001:db8::1", "192.0.2.2", "10.8.0.2", "172.17.0.1" };
  g_autoptr (GPtrArray) all = g_ptr_array_new_with_free_func ((GDestroyNotify) pr_phone_address_free);

  (void) state;
  add (all, "172.17.0.1", false, false); /* a bridge */
  add (all, "10.8.0.2", false, true);    /* a tunnel that takes everything */
  add (all, "192.0.2.2", true, false);   /* a cable to a printer */
  add (all, "2001:db8::1", true, true);
  add (all, "192.0.2.1", true, true); /* the network at home */
  pr_phone_addresses_sort (all);
  for (guint i = 0; i < all->len; i++)
    assert_string_equal (((PrPhoneAddress *) all->pdata[i])->text, order[i]);
}

/* Tables as Linux writes them. */
static void
test_way_out (void **state)
{
  static const char four[]
      = "Iface\tDestination\tGateway \tFlags\tRefCnt\tUse\tMetric\tMask\t\tMTU\tWindow\tIRTT\n"
        "wlan0\t00000000\t0101A8C0\t0003\t0\t0\t600\t00000000\t0\t0\t0\n"
        "eth0\t00000000\t0102A8C0\t0003\t0\t0\t100\t00000000\t0\t0\t0\n"
        "eth1\t0002A8C0\t00000000\t0001\t0\t0\t10\t00FFFFFF\t0\t0\t0\n"
        "bad0\t00000000\t00000000\t0200\t0\t0\t1\t00000000\t0\t0\t0\n";
  static const char six[] = "00000000000000000000000000000000 00 00000000000000000000000000000000 00 "
                            "fe800000000000000000000000000001 "
                            "00000064 00000003 00000000 00000003   wlan0\n"
                            "00000000000000000000000000000000 00 00000000000000000000000000000000 00 "
                            "00000000000000000000000000000000 "
                            "ffffffff 00000001 00000000 00200200      lo\n"
                            "20010db8000000000000000000000000 40 00000000000000000000000000000000 00 "
                            "00000000000000000000000000000000 "
                            "00000001 00000001 00000000 00000001    eth0\n";
  g_autofree char *by_four = pr_phone_way_out (four, false), *by_six = pr_phone_way_out (six, true),
                  *none = pr_phone_way_out ("", false);

  (void) state;
  assert_string_equal (by_four, "eth0");
  assert_string_equal (by_six, "wlan0");
  assert_null (none);
}

static void
test_told_addresses (void **state)
{
  (void) state;
  g_setenv ("PRITCHEL_PHONE_ADDRESS", "127.0.0.1,::1", TRUE);
  g_autoptr (GPtrArray) all = pr_phone_addresses ();
  g_unsetenv ("PRITCHEL_PHONE_ADDRESS");
  g_autoptr (GPtrArray) found = pr_phone_addresses ();

  assert_int_equal (all->len, 2);
  assert_true (((PrPhoneAddress *) all->pdata[1])->six);
  for (guint i = 0; i < found->len; i++) {
    assert_string_not_equal (((PrPhoneAddress *) found->pdata[i])->text, "127.0.0.1");
    assert_false (g_str_has_prefix (((PrPhoneAddress *) found->pdata[i])->text, "fe80"));
  }
}

/* --- words --- */

static void
test_languages (void **state)
{
  static const struct {
    const char *wanted, *got;
  } cases[] = { { "de-AT,de;q=0.9,en;q=0.8", "de" },
                { "en;q=0.1,nl;q=0.9", "nl" },
                { "EN-us", "en_US" },
                { "de_de", "de" },
                { "en-GB", "en" },
                { "xx-YY", "en" },
                { "", "en" },
                { NULL, "en" },
                { "../../../etc, de;q=0.1", "de" },
                { "*", "en" },
                { "fr;q=0, es", "es" } };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autofree char *got = pr_phone_language (cases[i].wanted);
    assert_string_equal (got, cases[i].got);
  }
}

static void
test_words (void **state)
{
  const PrPhoneWords *german = pr_phone_words_in ("de"), *plain = pr_phone_words_in ("en");

  (void) state;
  assert_string_equal (pr_phone_say (german, "near fore"), "vorn links");
  assert_string_equal (pr_phone_say (plain, "near fore"), "near fore");
  assert_string_equal (pr_phone_say (german, "nobody has said this"), "nobody has said this");
  assert_ptr_equal (german, pr_phone_words_in ("de"));
}

/* What is no catalogue has no words, and harms nobody. */
static void
test_broken_catalogues (void **state)
{
  g_autofree char *good_file
      = g_build_filename (g_getenv ("PRITCHEL_PO"), "de", "LC_MESSAGES", "pritchel.mo", NULL);
  g_autofree char *folder = g_dir_make_tmp ("pritchel-XXXXXX", NULL), *good = NULL;
  g_autoptr (GRand) chance = g_rand_new_with_seed (20261130);
  gsize len;

  (void) state;
  assert_true (g_file_get_contents (good_file, &good, &len, NULL));
  bindtextdomain ("pritchel", folder);
  for (int i = 0; i < 60; i++) {
    g_autofree char *language = g_strdup_printf ("x%c%c", 'a' + i / 26, 'a' + i % 26);
    g_autofree char *place = g_build_filename (folder, language, "LC_MESSAGES", NULL),
                    *file = g_build_filename (place, "pritchel.mo", NULL);
    g_autofree char *bad = g_memdup2 (good, len);
    gsize n = i < 20 ? (gsize) g_rand_int_range (chance, 0, 40) : len;

    for (int k = 0; k < 30; k++)
      bad[g_rand_int_range (chance, 4, 4000)] = (char) g_rand_int_range (chance, 0, 256);
    assert_int_equal (g_mkdir_with_parents (place, 0700), 0);
    assert_true (g_file_set_contents (file, bad, (gssize) n, NULL));
    assert_non_null (pr_phone_say (pr_phone_words_in (language), "near fore"));
    assert_int_equal (remove (file), 0);
    assert_int_equal (remove (place), 0);
    *strrchr (place, '/') = '\0';
    assert_int_equal (remove (place), 0);
  }
  assert_int_equal (remove (folder), 0);
  bindtextdomain ("pritchel", g_getenv ("PRITCHEL_PO"));
}

/* --- secrets --- */

static void
test_tokens (void **state)
{
  char one[PR_TOKEN_LENGTH + 1], other[PR_TOKEN_LENGTH + 1];

  (void) state;
  assert_true (PR_TOKEN_LENGTH * 5 >= 128);
  assert_true (pr_token_make (one) && pr_token_make (other));
  assert_string_not_equal (one, other);
  assert_true (pr_token_is (one, one, PR_TOKEN_LENGTH));
  assert_false (pr_token_is (one, one, PR_TOKEN_LENGTH - 1));
  assert_false (pr_token_is (one, other, PR_TOKEN_LENGTH));
  for (size_t i = 0; i < PR_TOKEN_LENGTH; i++) {
    g_strlcpy (other, one, sizeof other);
    other[i] ^= 1;
    assert_false (pr_token_is (one, other, PR_TOKEN_LENGTH));
  }
}

static void
test_guests (void **state)
{
  PrGuests guests = { 0 };
  PrGuest *first = pr_guests_add (&guests), *second = pr_guests_add (&guests);
  g_autofree char *cookie = pr_guest_cookie (second, "t"), *pair = g_strndup (cookie, strcspn (cookie, ";"));
  g_autofree char *among = g_strdup_printf ("a=b; %s ;c=d", pair),
                  *almost = g_strndup (pair, strlen (pair) - 1);

  (void) state;
  assert_int_equal (first->state, PR_GUEST_IN);
  assert_int_equal (second->state, PR_GUEST_ASKED);
  assert_ptr_equal (pr_guests_find (&guests, among), second);
  assert_null (pr_guests_find (&guests, almost));
  assert_null (pr_guests_find (&guests, NULL));
  pr_guests_answer (&guests, 2, false);
  assert_int_equal (second->state, PR_GUEST_REFUSED);
  pr_guests_answer (&guests, 2, true); /* what was said stays said */
  assert_int_equal (second->state, PR_GUEST_REFUSED);
  pr_guests_answer (&guests, 1, false);
  assert_int_equal (first->state, PR_GUEST_IN);
  pr_guests_answer (&guests, 99, true);
  for (int i = guests.n; i < PR_GUESTS_MOST; i++)
    assert_non_null (pr_guests_add (&guests));
  assert_null (pr_guests_add (&guests));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_forms),
    cmocka_unit_test (test_forms_that_are_too_much),
    cmocka_unit_test (test_order_of_addresses),
    cmocka_unit_test (test_way_out),
    cmocka_unit_test (test_told_addresses),
    cmocka_unit_test (test_languages),
    cmocka_unit_test (test_words),
    cmocka_unit_test (test_broken_catalogues),
    cmocka_unit_test (test_tokens),
    cmocka_unit_test (test_guests),
  };

  bindtextdomain ("pritchel", g_getenv ("PRITCHEL_PO"));
  return cmocka_run_group_tests (tests, NULL, NULL);
}
