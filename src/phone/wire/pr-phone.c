/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-phone.h"

#include <gio/gio.h>
#include <glib-unix.h>
#include <glib/gi18n-lib.h>
#include <string.h>
#include <sys/socket.h>
#include <unistd.h>

#include "pr-error.h"
#include "pr-json-put.h"
#include "pr-json.h"

#define HELPER "pritchel-phone"
#define MOST_SIDE 177 /* modules of the largest QR code (ISO/IEC 18004, 5.3.1) */

struct _PrPhone {
  PrPhoneOwner owner;
  int socket; /* -1 once it has ended */
  guint watch;
  int after;  /* added to numbers of photos */
  bool freed; /* while it was being told of something */
  int telling;
};

/* --- starting it --- */

static char *
helper_path (void)
{
  g_autofree char *self = g_file_read_link ("/proc/self/exe", NULL);
  g_autofree char *folder = self != NULL ? g_path_get_dirname (self) : NULL;
  g_autofree char *beside = folder != NULL ? g_build_filename (folder, HELPER, NULL) : NULL;
  const char *told = g_getenv ("PRITCHEL_PHONE");

  if (told != NULL)
    return g_strdup (told);
  if (beside != NULL && access (beside, X_OK) == 0)
    return g_steal_pointer (&beside);
  return g_build_filename (PR_HELPER_DIR, HELPER, NULL);
}

/* Arguments as pritchel-phone takes them; element type char *. */
static GPtrArray *
arguments (const PrPhoneOrders *orders)
{
  GPtrArray *all = g_ptr_array_new_with_free_func (g_free);
  char thick[G_ASCII_DTOSTR_BUF_SIZE];

  g_ptr_array_add (all, helper_path ());
  g_ptr_array_add (all, g_strdup ("serve"));
  g_ptr_array_add (all, g_strdup (orders->address));
  g_ptr_array_add (all, g_strdup_printf ("%d", orders->minutes));
  g_ptr_array_add (all, g_strdup_printf ("%d", (int) orders->unit));
  g_ptr_array_add (all, g_strdup_printf ("%d", (int) orders->sides));
  if (orders->shoe) {
    g_ptr_array_add (all, g_strdup (g_ascii_dtostr (thick, sizeof thick, orders->how.thickness_mm)));
    g_ptr_array_add (all, g_strdup_printf ("%d", (int) orders->how.face));
    g_ptr_array_add (all, g_strdup_printf ("%d", orders->how.drawn));
  }
  g_ptr_array_add (all, NULL);
  return all;
}

static bool
start (int end, const PrPhoneOrders *orders, GError **error)
{
  g_autoptr (GSubprocessLauncher) launcher = g_subprocess_launcher_new (G_SUBPROCESS_FLAGS_NONE);
  g_autoptr (GPtrArray) args = arguments (orders);
  g_autoptr (GError) why = NULL;

  g_subprocess_launcher_take_fd (launcher, end, PR_PHONE_FD);
  g_autoptr (GSubprocess) helper
      = g_subprocess_launcher_spawnv (launcher, (const char *const *) args->pdata, &why);
  if (helper != NULL)
    return true;
  g_set_error (error, PR_ERROR, PR_ERROR_FILE,
               _ ("Photos cannot be taken from a phone: %s cannot be started; install Pritchel again."),
               HELPER);
  return false;
}

/* --- what it tells --- */

static int
int_of (JsonObject *object, const char *name)
{
  double value = 0;

  return pr_json_number (object, name, &value) && value > -1 && value < 1e9 ? (int) value : 0;
}

static const char *
text_of (JsonObject *object, const char *name)
{
  const char *text = pr_json_string (object, name);

  return text != NULL ? text : "";
}

static void
tell_open (PrPhone *phone, JsonObject *told)
{
  PrPhoneCode code = { int_of (told, "side"), text_of (told, "code") };

  if (code.side < 1 || code.side > MOST_SIDE || strlen (code.dark) != (size_t) (code.side * code.side))
    code = (PrPhoneCode){ 0, "" };
  phone->owner.open (text_of (told, "url"), &code, phone->owner.data);
}

/* What a photo is called must not come from outside, and its ending is one of these. */
static const char *
ending_of (JsonObject *told)
{
  static const char *const endings[] = { "jpg", "png", "tif", "webp", "heic", "avif" };

  for (size_t i = 0; i < G_N_ELEMENTS (endings); i++)
    if (g_str_equal (text_of (told, "ending"), endings[i]))
      return endings[i];
  return endings[0];
}

static void
tell_photo (PrPhone *phone, JsonObject *told, int file)
{
  int state = int_of (told, "state"), id = int_of (told, "id") + phone->after,
      before = int_of (told, "instead");
  g_autofree char *name = g_strdup_printf ("photo-%d.%s", id, ending_of (told));
  const PrPhonePhoto photo = { id,
                               before > 0 ? before + phone->after : 0,
                               state <= PR_PHONE_AGAIN ? (PrPhoneState) state : PR_PHONE_AGAIN,
                               text_of (told, "words"),
                               name,
                               file };

  phone->owner.photo (&photo, phone->owner.data);
}

static void
tell_end (PrPhone *phone, int why)
{
  if (why == PR_PHONE_END_IDLE)
    phone->owner.ended (_ ("Nothing has come for a while, so photos from phones are not taken any more."),
                        true, phone->owner.data);
  else
    phone->owner.ended (_ ("This computer cannot be reached at that address; choose another one."), false,
                        phone->owner.data);
}

static void
stop (PrPhone *phone)
{
  g_clear_handle_id (&phone->watch, g_source_remove);
  if (phone->socket >= 0)
    close (phone->socket);
  phone->socket = -1;
}

/* FILE is kept by the owner of a photo alone. */
static void
tell (PrPhone *phone, JsonObject *told, int file)
{
  const char *what = text_of (told, "what");
  double share = 0;

  if (g_str_equal (what, "photo") && file >= 0) {
    tell_photo (phone, told, file);
    return;
  }
  if (file >= 0)
    close (file);
  if (g_str_equal (what, "open"))
    tell_open (phone, told);
  else if (g_str_equal (what, "used"))
    phone->owner.used (phone->owner.data);
  else if (g_str_equal (what, "ask"))
    phone->owner.asked (int_of (told, "phone"), text_of (told, "code"), phone->owner.data);
  else if (g_str_equal (what, "coming") && pr_json_number (told, "share", &share))
    phone->owner.coming (CLAMP (share, 0, 1), phone->owner.data);
  else if (g_str_equal (what, "end")) {
    stop (phone);
    tell_end (phone, int_of (told, "why"));
  }
}

static void
ended_early (PrPhone *phone)
{
  stop (phone);
  phone->owner.ended (_ ("Taking photos from a phone has stopped; close this and try again."), false,
                      phone->owner.data);
}

static gboolean
readable (int fd, GIOCondition condition, gpointer data)
{
  PrPhone *phone = data;
  PrPhoneGot got = PR_PHONE_GOT;

  (void) fd;
  (void) condition;
  phone->telling++;
  while (!phone->freed && phone->socket >= 0 && got == PR_PHONE_GOT) {
    g_autoptr (JsonObject) told = NULL;
    int file;

    got = pr_phone_receive (phone->socket, &told, &file);
    if (got == PR_PHONE_GOT)
      tell (phone, told, file);
    else if (got == PR_PHONE_OVER)
      ended_early (phone);
  }
  phone->telling--;
  bool goes_on = !phone->freed && phone->socket >= 0;
  if (phone->freed)
    g_free (phone);
  return goes_on;
}

/* --- doors --- */

PrPhone *
pr_phone_new (const PrPhoneOrders *orders, const PrPhoneOwner *owner, GError **error)
{
  int ends[2];

  if (socketpair (AF_UNIX, SOCK_SEQPACKET | SOCK_CLOEXEC, 0, ends) != 0) {
    g_set_error (
        error, PR_ERROR, PR_ERROR_FILE,
        _ ("Photos cannot be taken from a phone: too much is open; close other programs and try again."));
    return NULL;
  }
  if (!start (ends[1], orders, error)) {
    close (ends[0]);
    return NULL;
  }
  PrPhone *phone = g_new0 (PrPhone, 1);
  phone->owner = *owner;
  phone->after = orders->after;
  phone->socket = ends[0];
  phone->watch = g_unix_fd_add (phone->socket, G_IO_IN | G_IO_HUP, readable, phone);
  return phone;
}

void
pr_phone_free (PrPhone *phone)
{
  if (phone == NULL)
    return;
  bool inside = phone->telling > 0;
  if (inside)
    phone->watch = 0; /* goes when the telling is over */
  stop (phone);
  phone->freed = true;
  if (!inside)
    g_free (phone);
}

void
pr_phone_answer (PrPhone *phone, int which, bool allowed)
{
  JsonBuilder *builder = pr_phone_word ("do", allowed ? "allow" : "refuse");

  pr_put_int (builder, "phone", which);
  if (phone->socket < 0 || !pr_phone_send (phone->socket, builder, -1))
    g_debug ("the phone's helper does not listen");
}
