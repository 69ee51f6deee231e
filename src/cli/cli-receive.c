/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Photos from a phone, without a window. */
#include "cli.h"

#include <errno.h>
#include <glib-unix.h>
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <string.h>
#include <unistd.h>

#include "cli-receive-file.h"
#include "pr-error.h"
#include "pr-file-places.h"
#include "pr-phone-addresses.h"
#include "pr-phone.h"

#define BORDER 4 /* light modules round a QR code (ISO/IEC 18004, 5.3.8) */

typedef struct {
  char *folder, *address, *unit;
  int minutes;
  char **rest;
  PrUnit in;
} ReceiveArgs;

typedef struct {
  const ReceiveArgs *args;
  GMainLoop *loop;
  PrPhone *phone;
  GHashTable *names; /* of photos, by id: char * */
  GQueue asked;      /* numbers of phones that are asked about, the first being asked now */
  guint answers;     /* what is typed */
  int number;        /* of the next file */
  GError *error;
} Receiver;

static void
receive_args_clear (ReceiveArgs *a)
{
  g_free (a->folder);
  g_free (a->address);
  g_free (a->unit);
  g_strfreev (a->rest);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (ReceiveArgs, receive_args_clear)

static bool
read_args (ReceiveArgs *a, int argc, char **argv, GError **error)
{
  const GOptionEntry entries[]
      = { { "output", 'o', 0, G_OPTION_ARG_FILENAME, &a->folder, N_ ("Folder for the photos"), "DIR" },
          { "minutes", 'm', 0, G_OPTION_ARG_INT, &a->minutes,
            N_ ("Ends by itself when it is not used for so long"), "N" },
          { "address", 'a', 0, G_OPTION_ARG_STRING, &a->address,
            N_ ("Another of this computer's addresses, where the phone is in that network"), "ADDRESS" },
          { "unit", 'u', 0, G_OPTION_ARG_STRING, &a->unit, N_ ("mm or inch, for what is read and told"),
            "UNIT" },
          { NULL } };

  a->minutes = PR_PHONE_MINUTES;
  if (!cli_parse (argc, argv, "", _ ("Takes photos from a phone in the same network."), entries, NULL,
                  &a->rest, error)
      || !cli_read_unit (a->unit, &a->in, error))
    return false;
  if (a->folder == NULL || a->rest[0] != NULL)
    return cli_wrong (error, _ ("Say with --output in which folder the photos are to be"));
  return (a->minutes >= 1 && a->minutes <= PR_PHONE_MOST_MINUTES)
         || cli_wrong (error, _ ("Give --minutes a number from 1 to 1440"));
}

/* --- what is told --- */

static bool
is_dark (const PrPhoneCode *code, int x, int y)
{
  return x >= 0 && y >= 0 && x < code->side && y < code->side && code->dark[y * code->side + x] == '1';
}

/* Two rows of modules in a line of letters, light ones being drawn: where a terminal has colours they are set, so that light is
 * light whatever it shows otherwise. */
static void
print_code (const PrPhoneCode *code)
{
  static const char *const blocks[] = { "█", "▀", "▄", " " };
  bool colours = isatty (STDOUT_FILENO);

  if (code->side == 0 || !g_get_charset (NULL))
    return;
  for (int y = -BORDER; y < code->side + BORDER; y += 2) {
    g_autoptr (GString) line = g_string_new (colours ? "\033[97;40m" : "");
    for (int x = -BORDER; x < code->side + BORDER; x++)
      g_string_append (line, blocks[is_dark (code, x, y) * 2 + is_dark (code, x, y + 1)]);
    g_print ("%s%s\n", line->str, colours ? "\033[0m" : "");
  }
}

static void
print_others (const ReceiveArgs *args)
{
  g_autoptr (GPtrArray) all = pr_phone_addresses ();

  for (guint i = 0; i < all->len; i++) {
    const PrPhoneAddress *one = all->pdata[i];
    if (strcmp (one->text, args->address) != 0)
      cli_print (_ ("In another network: --address=%s (%s)"), one->text, one->interface);
  }
}

static void
opened (const char *url, const PrPhoneCode *code, gpointer data)
{
  Receiver *receiver = data;

  cli_print (_ ("Point the phone's camera at this code, or open the address in its browser:"));
  cli_print ("%s", url);
  print_code (code);
  print_others (receiver->args);
  cli_print (_ ("It is plain HTTP inside your own network; nothing leaves it. Ctrl-C ends it."));
}

static void
used (gpointer data)
{
  (void) data;
  cli_print (_ ("A phone has opened the page."));
}

static void
coming (double share, gpointer data)
{
  (void) share;
  (void) data;
}

static void
photo_came (const PrPhonePhoto *photo, gpointer data)
{
  Receiver *receiver = data;
  const char *before = g_hash_table_lookup (receiver->names, GINT_TO_POINTER (photo->instead));
  char *path = cli_receive_keep (photo->file, receiver->args->folder, strrchr (photo->name, '.') + 1,
                                 &receiver->number, &receiver->error);

  close (photo->file);
  if (path == NULL) {
    g_main_loop_quit (receiver->loop);
    return;
  }
  if (before != NULL)
    cli_print (_ ("%s, in place of %s: %s"), path, before, photo->words);
  else
    cli_print ("%s: %s", path, photo->words);
  g_hash_table_insert (receiver->names, GINT_TO_POINTER (photo->id), path);
}

static void
ended (const char *why, bool idle, gpointer data)
{
  Receiver *receiver = data;

  if (idle)
    cli_print ("%s", why);
  else
    g_set_error_literal (&receiver->error, PR_ERROR, PR_ERROR_FILE, why);
  g_main_loop_quit (receiver->loop);
}

/* --- another phone --- */

static void
ask_next (Receiver *receiver)
{
  if (!g_queue_is_empty (&receiver->asked))
    cli_print (_ ("May it send photos? Type y or n."));
}

static gboolean
answered (int fd, GIOCondition condition, gpointer data)
{
  Receiver *receiver = data;
  char line[64];
  ssize_t n = read (fd, line, sizeof line);

  (void) condition;
  if (n <= 0) {
    receiver->answers = 0;
    return G_SOURCE_REMOVE;
  }
  if (!g_queue_is_empty (&receiver->asked)) {
    pr_phone_answer (receiver->phone, GPOINTER_TO_INT (g_queue_pop_head (&receiver->asked)),
                     g_ascii_tolower (line[0]) == 'y');
    ask_next (receiver);
  }
  return G_SOURCE_CONTINUE;
}

static void
asked (int phone, const char *code, gpointer data)
{
  Receiver *receiver = data;

  cli_print (_ ("Another phone has opened the page; it shows the number %s."), code);
  if (receiver->answers == 0) {
    pr_phone_answer (receiver->phone, phone, false);
    cli_print (_ ("It is refused, as nobody can be asked here."));
    return;
  }
  g_queue_push_tail (&receiver->asked, GINT_TO_POINTER (phone));
  if (receiver->asked.length == 1)
    ask_next (receiver);
}

/* --- all of it --- */

static gboolean
stopped (gpointer loop)
{
  g_main_loop_quit (loop);
  return G_SOURCE_CONTINUE;
}

static bool
choose_address (ReceiveArgs *args, GError **error)
{
  g_autoptr (GPtrArray) all = pr_phone_addresses ();

  if (args->address != NULL)
    return true;
  if (all->len == 0) {
    g_set_error (error, PR_ERROR, PR_ERROR_INPUT,
                 _ ("This computer is in no network; join the one that the phone is in, and try again."));
    return false;
  }
  args->address = g_strdup (((PrPhoneAddress *) all->pdata[0])->text);
  return true;
}

static void
run (Receiver *receiver)
{
  const ReceiveArgs *args = receiver->args;
  const PrPhoneOrders orders = { .address = args->address, .minutes = args->minutes, .unit = args->in };
  const PrPhoneOwner owner = { opened, used, coming, asked, photo_came, ended, receiver };

  receiver->phone = pr_phone_new (&orders, &owner, &receiver->error);
  if (receiver->phone == NULL)
    return;
  guint signals[] = { g_unix_signal_add (SIGINT, stopped, receiver->loop),
                      g_unix_signal_add (SIGTERM, stopped, receiver->loop),
                      g_unix_signal_add (SIGHUP, stopped, receiver->loop) };
  if (isatty (STDIN_FILENO))
    receiver->answers = g_unix_fd_add (STDIN_FILENO, G_IO_IN, answered, receiver);
  g_main_loop_run (receiver->loop);
  for (size_t i = 0; i < G_N_ELEMENTS (signals); i++)
    g_source_remove (signals[i]);
  g_clear_handle_id (&receiver->answers, g_source_remove);
  pr_phone_free (receiver->phone);
}

int
cli_receive (int argc, char **argv)
{
  g_auto (ReceiveArgs) args = { 0 };
  Receiver receiver = { .args = &args, .number = 1 };
  GError *error = NULL;

  if (!read_args (&args, argc, argv, &error))
    return cli_misuse ("receive", error);
  if (!choose_address (&args, &error)
      || (g_mkdir_with_parents (args.folder, 0777) != 0 && !pr_file_fail_folder (args.folder, errno, &error)))
    return cli_fail (error);
  receiver.loop = g_main_loop_new (NULL, FALSE);
  receiver.names = g_hash_table_new_full (NULL, NULL, NULL, g_free);
  g_queue_init (&receiver.asked);
  run (&receiver);
  g_hash_table_unref (receiver.names);
  g_queue_clear (&receiver.asked);
  g_main_loop_unref (receiver.loop);
  return receiver.error != NULL ? cli_fail (receiver.error) : CLI_DONE;
}
