/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Books as a stranger could write them on purpose: sound as files, and wrong in every way their rows can be. The
 * bytes of an input only start the chance that makes one. It is looked into and merged; every foot that came of it
 * is opened, laid flat, worked out, drawn and written. */
#include "fuzz-job-kit.h"

#include <glib/gstdio.h>
#include <sqlite3.h>
#include <string.h>

#include "pr-bar.h"
#include "pr-book-merge.h"
#include "pr-book.h"
#include "pr-bounds.h"
#include "pr-card-colour.h"
#include "pr-draw.h"
#include "pr-json.h"
#include "pr-paper.h"
#include "pr-record.h"
#include "pr-rectify.h"
#include "pr-vet-note.h"

#define FILES_ONE_IN 6 /* writing all files takes longer than all the rest */

static GRand *chance;

static int
below (int n)
{
  return g_rand_int_range (chance, 0, n);
}

static bool
one_in (int n)
{
  return below (n) == 0;
}

static const char *
any_of (const char *const *texts, size_t n)
{
  return texts[below ((int) n)];
}

/* --- what is wrong, by itself ------------------------------------------------------------- */

/* As JSON has it, and wider. */
static const char *
odd_number (void)
{
  static const char *const numbers[] = { "0",
                                         "-0.0",
                                         "-1",
                                         "1",
                                         "0.5",
                                         "200",
                                         "0.4999",
                                         "200.1",
                                         "1e12",
                                         "1e22",
                                         "1e300",
                                         "-1e300",
                                         "1e999",
                                         "-1e999",
                                         "1e-300",
                                         "5e-324",
                                         "2147483648",
                                         "9223372036854775807",
                                         "99999999999999999999999",
                                         "1e4",
                                         "-1e4",
                                         "20000",
                                         "3.0000001" };

  return any_of (numbers, G_N_ELEMENTS (numbers));
}

/* Transfer full. */
static char *
odd_text (void)
{
  static const char *const texts[] = { "",
                                       " ",
                                       "\u202edrow",
                                       "\033]0;title\a\033[2J",
                                       "two\nlines\r\nand a third",
                                       "\u2066\u2067\u2068 isolates",
                                       "فرس",
                                       "馬",
                                       "👩\u200d🌾",
                                       "<b>&amp;%s%n</b>",
                                       "a\u0301\u0301\u0301\u0301\u0301\u0301\u0301",
                                       "\u200b\u200d",
                                       "\xff\xfe\x80",
                                       "'; DROP TABLE horse; --",
                                       "../../../etc/passwd" };
  const char *text = any_of (texts, G_N_ELEMENTS (texts));
  GString *out = g_string_new (text);

  for (int n = one_in (4) ? 1 << below (18) : 0; n > 0; n--)
    g_string_append (out, n % 9 ? "x" : text);
  return g_string_free (out, FALSE);
}

static JsonNode *
odd_node (void)
{
  static const char *const texts[]
      = { "null", "true", "[]", "{}", "[[[[[[[[1]]]]]]]]", "\"14\"", "[1,2]", "\"\"" };
  g_autofree char *text = odd_text (), *valid = g_utf8_make_valid (text, -1);
  JsonNode *node;

  if (one_in (3)) {
    node = json_node_new (JSON_NODE_VALUE);
    json_node_set_string (node, valid);
    return node;
  }
  const char *plain = one_in (2) ? any_of (texts, G_N_ELEMENTS (texts)) : odd_number ();
  node = json_from_string (plain, NULL);
  return node ? node : json_node_new (JSON_NODE_NULL);
}

static JsonNode *damaged (JsonNode *node, int share);

static JsonNode *
damaged_array (JsonArray *array, int share)
{
  JsonNode *out = json_node_new (JSON_NODE_ARRAY);
  JsonArray *copy = json_array_new ();
  guint n = json_array_get_length (array);
  int times = one_in (share) ? 1 << below (8) : 1; /* far too many of the same */
  guint keep = one_in (share) ? (guint) below ((int) n + 1) : n;

  for (int t = 0; t < times; t++)
    for (guint i = 0; i < keep && json_array_get_length (copy) < 30000; i++)
      json_array_add_element (copy, damaged (json_array_get_element (array, i), share));
  json_node_take_array (out, copy);
  return out;
}

static JsonNode *
damaged_object (JsonObject *object, int share)
{
  JsonNode *out = json_node_new (JSON_NODE_OBJECT);
  JsonObject *copy = json_object_new ();
  JsonObjectIter iter;
  const char *name;
  JsonNode *node;

  json_object_iter_init (&iter, object);
  while (json_object_iter_next (&iter, &name, &node))
    if (!one_in (2 * share))
      json_object_set_member (copy, name, damaged (node, share));
  json_node_take_object (out, copy);
  return out;
}

/* A copy in which one value of SHARE or so is another. Transfer full. */
static JsonNode *
damaged (JsonNode *node, int share)
{
  if (one_in (share))
    return odd_node ();
  if (JSON_NODE_HOLDS_OBJECT (node))
    return damaged_object (json_node_get_object (node), share);
  if (JSON_NODE_HOLDS_ARRAY (node))
    return damaged_array (json_node_get_array (node), share);
  return json_node_copy (node);
}

/* --- a foot ------------------------------------------------------------------------------ */

/* Each within its range, and together what nobody would forge. */
static void
odd_plan (PrPlan *plan, int share)
{
  for (size_t i = 0; i < pr_n_params; i++) {
    const PrParam *p = &pr_params[i];
    double at = one_in (3) ? 0 : one_in (2) ? 1 : g_rand_double (chance);

    if (one_in (share))
      pr_param_set (plan, p, p->min + at * (p->max - p->min));
  }
}

static void
odd_outline (PrTracing *t)
{
  static const double sizes[] = { 1, 1, 1, 1, 0.01, 0.3, 0.7, 1.5, 3, 12, 60 };
  double size = sizes[below (G_N_ELEMENTS (sizes))], shake = one_in (4) ? g_rand_double (chance) * 8 : 0;
  double wide = one_in (5) ? 0.2 + 3 * g_rand_double (chance) : 1;

  for (size_t i = 0; i < t->n_outline; i++) {
    PrSheetPt *p = &t->outline[i];

    p->x = size * wide * p->x + shake * (g_rand_double (chance) - 0.5);
    p->y = size * p->y + shake * (g_rand_double (chance) - 0.5);
    if (one_in (300))
      *p = t->outline[below ((int) t->n_outline)];
  }
}

/* Everything a tracing may hold, most of it sound. */
static void
odd_tracing (PrTracing *t)
{
  t->file = odd_text ();
  t->width_px = 60 << below (10);
  t->height_px = 80 << below (10);
  t->raster = 0.5 + 9 * g_rand_double (chance);
  t->camera = (PrCamera){ .h = { 1, 0.1, 20, 0.2, 1, 30, 1e-5, 2e-5, 1 },
                          .k1 = g_rand_double_range (chance, -1, 1),
                          .centre = { 1500, 2000 },
                          .radius = pow (10, g_rand_double (chance) * 6) };
  t->scale = (PrScale){ .method = (PrScaleMethod) (1 + below (6)),
                        .paper = PR_PAPER_A4,
                        .width_mm = pow (10, g_rand_double (chance) * 3.3),
                        .height_mm = pow (10, g_rand_double (chance) * 3.3),
                        .px_per_mm = 0.5 * pow (10, g_rand_double (chance) * 2.6),
                        .residual_mm = 100 * g_rand_double (chance),
                        .verdict = (PrVerdict) below (3),
                        .why = odd_text () };
  t->n_doubt = one_in (3) ? (size_t) below (1000) : (size_t) below (5);
  t->doubt = g_new0 (PrDoubt, t->n_doubt);
  for (size_t i = 0; i < t->n_doubt; i++)
    t->doubt[i] = (PrDoubt){ g_rand_double (chance) * 900, g_rand_double (chance) * 900, odd_text () };
}

static PrSheetPt
somewhere (const PrTracing *t)
{
  PrSheetPt p = t->outline[below ((int) t->n_outline)];
  double off = one_in (2) ? 5 : 500;

  return (PrSheetPt){ p.x + off * (g_rand_double (chance) - 0.5),
                      p.y + off * (g_rand_double (chance) - 0.5) };
}

static void
odd_marks (PrSources *s)
{
  PrLandmarks *m = &s->marks;

  if ((m->has_toe = one_in (2)))
    m->toe = somewhere (s->tracing);
  if ((m->has_frog_apex = one_in (2)))
    m->frog_apex = somewhere (s->tracing);
  for (int side = 0; side < 2; side++) {
    if ((m->has_buttress[side] = one_in (2)))
      m->buttress[side] = somewhere (s->tracing);
    if ((m->has_frog[side] = one_in (2)))
      m->frog[side] = somewhere (s->tracing);
  }
  for (int i = 0; i < 3; i++)
    s->wall[i] = one_in (2) ? 40 * g_rand_double (chance) : 0;
}

/* Fitting it each time would take longer than all the rest. Transfer full. */
static PrJob *
sound_job (void)
{
  static PrJob *sound;

  if (sound == NULL)
    sound = fuzz_job ();
  return pr_job_copy (sound);
}

/* TRACE and PLAN as JSON; either may be no JSON at all. Transfer full. */
static void
make_foot (char **trace, char **plan)
{
  g_autoptr (PrJob) job = sound_job ();
  int share = 1 << (2 + below (9));

  if (one_in (4))
    pr_job_set_style (job, fuzz_styles ()->pdata[below ((int) fuzz_styles ()->len)], NULL);
  odd_plan (&job->sources.plan, 1 << below (8));
  odd_tracing (job->sources.tracing);
  if (one_in (2))
    odd_outline (job->sources.tracing);
  if (one_in (2))
    odd_marks (&job->sources);
  job->sources.order = one_in (3) ? odd_text () : NULL;
  g_autoptr (JsonNode) t = pr_job_trace_json (job), p = pr_job_plan_json (job);
  bool sound = one_in (2);
  g_autoptr (JsonNode) bad_t = sound ? json_node_copy (t) : damaged (t, 20 * share);
  g_autoptr (JsonNode) bad_p = sound ? json_node_copy (p) : damaged (p, share);
  *trace
      = one_in (40) ? odd_text () : json_to_string (bad_t, FALSE); /* json-glib's own, infinities and all */
  *plan = one_in (20) ? odd_text () : json_to_string (bad_p, FALSE);
}

/* --- a book ------------------------------------------------------------------------------ */

static char *
file_in (const char *name)
{
  return g_build_filename (fuzz_folder (), name, NULL);
}

static void
sql (sqlite3 *db, const char *text)
{
  char *why = NULL;

  if (sqlite3_exec (db, text, NULL, NULL, &why) != SQLITE_OK)
    fuzz_must (false, why);
}

/* A value for a column of text: as such, or of any other kind. */
static void
put_value (sqlite3_stmt *stmt, int at, const char *text)
{
  if (!one_in (30))
    sqlite3_bind_text (stmt, at, text, -1, SQLITE_TRANSIENT);
  else if (one_in (2))
    sqlite3_bind_blob (stmt, at, text, (int) strlen (text), SQLITE_TRANSIENT);
  else if (one_in (2))
    sqlite3_bind_double (stmt, at, 1e300);
  else
    sqlite3_bind_null (stmt, at);
}

/* One ? for each of the N texts. What does not go in stays out. */
static void
insert (sqlite3 *db, const char *text, const char *const *values, int n)
{
  sqlite3_stmt *stmt = NULL;

  fuzz_must (sqlite3_prepare_v2 (db, text, -1, &stmt, NULL) == SQLITE_OK, text);
  for (int i = 0; i < n; i++)
    put_value (stmt, i + 1, values[i]);
  sqlite3_step (stmt);
  sqlite3_finalize (stmt);
}

static const char *
any_date (void)
{
  static const char *const dates[]
      = { "2024-11-12", "2024-11-12", "2024-11-13", "0000-00-00", "1899-12-31",
          "2200-01-01", "9999-99-99", "",           "yesterday",  "2024-11-12T99:99",
          "\u202e2024", "-2024-1-1",  "2024-02-30" };

  return any_of (dates, G_N_ELEMENTS (dates));
}

static void
put_horse (sqlite3 *db)
{
  static const char *const told[]
      = { "{\"why\":\"short toes\",\"allowed\":{\"by\":\"A. Ostler\",\"on\":\"2024-02-30\",\"for\":[]}}",
          "{\"for\":7,\"why\":null,\"allowed\":[1,[2,[3]]]}", "{\"why\":\"\\u202e\\u0007\"}", "{{" };
  g_autofree char *name = one_in (3) ? g_strdup ("Juniper") : odd_text (), *note = odd_text ();
  const char *const horse[] = { name, one_in (2) ? "" : note, note };
  const char *const visit[] = { any_date (), note, odd_number (), one_in (3) ? note : any_of (told, 4) };

  insert (db, "INSERT INTO horse (name, yard, note) VALUES (?, ?, ?)", horse, 3);
  insert (db,
          "INSERT INTO visit (horse, date, note, colour, vet) VALUES ((SELECT max (id) FROM horse), ?, ?,"
          " CAST (? AS INTEGER), ?)",
          visit, 4);
}

/* A class and a run of the foot put last, and what the vet was asked, in JSON that is none, or is odd. */
static void
put_practice (sqlite3 *db)
{
  g_autofree char *name = odd_text (), *trace = NULL, *plan = NULL;
  make_foot (&trace, &plan);
  const char *const class[] = { one_in (2) ? "Two hours" : name, one_in (2) ? "{}" : plan };
  const char *const run[] = { any_date (), one_in (2) ? trace : name };
  const char *const vet[] = { odd_number (), one_in (2) ? plan : name };

  insert (db, "INSERT INTO class (name, spec) VALUES (?, ?)", class, 2);
  insert (db,
          "INSERT INTO run (class, foot, started, record, photo) VALUES ((SELECT max (id) FROM class),"
          " (SELECT max (id) FROM foot), ?, ?, randomblob (100))",
          run, 2);
  insert (db,
          "UPDATE visit SET colour = CAST (? AS INTEGER), vet = ? WHERE id = (SELECT max (id) FROM visit)",
          vet, 2);
}

static void
put_foot (sqlite3 *db)
{
  static const char *const codes[] = { "LF", "RF", "LH", "RH", "any", "LF" };
  g_autofree char *trace = NULL, *plan = NULL, *name = odd_text ();
  const char *const foot[] = { any_of (codes, G_N_ELEMENTS (codes)), any_date () };
  const char *const attempt[] = { any_date (), odd_number (), odd_number (), odd_number (),
                                  name,        odd_number (), odd_number (), name };

  make_foot (&trace, &plan);
  const char *const texts[] = { trace, plan, name };
  insert (db, "INSERT INTO foot (visit, foot, changed) VALUES ((SELECT max (id) FROM visit), ?, ?)", foot, 2);
  insert (db, "INSERT INTO trace VALUES ((SELECT max (id) FROM foot), ?)", texts, 1);
  insert (db, "INSERT INTO plan VALUES ((SELECT max (id) FROM foot), ?)", texts + 1, 1);
  insert (db, "INSERT INTO photo VALUES ((SELECT max (id) FROM foot), ?, randomblob (3000))", texts + 2, 1);
  insert (db,
          "INSERT INTO attempt (foot, date, minutes, heats, off_mm, note, cut_mm, shoe_kg, compared) VALUES "
          "((SELECT"
          " max (id) FROM foot), ?, CAST (? AS REAL), CAST (? AS REAL), CAST (? AS REAL), ?, CAST (? AS "
          "REAL), CAST (? AS"
          " REAL), ?)",
          attempt, 8);
}

/* What no row of ours would do. */
static void
put_oddity (sqlite3 *db)
{
  static const char *const odd[] = {
    "CREATE TRIGGER t AFTER INSERT ON horse BEGIN DELETE FROM horse; END",
    "CREATE VIEW v AS SELECT * FROM horse",
    "WITH RECURSIVE c (x) AS (SELECT 1000 UNION ALL SELECT x + 1 FROM c LIMIT 3000) INSERT INTO foot (id, "
    "visit, foot, changed) SELECT "
    "x, 1, "
    "'LF', '' FROM c",
    "PRAGMA foreign_keys = OFF; UPDATE foot SET visit = 77 WHERE id = 1",
    "PRAGMA foreign_keys = OFF; UPDATE foot SET visit = -1, id = 9223372036854775807 WHERE id = 1",
    "UPDATE photo SET bytes = zeroblob (5000000)",
    "UPDATE trace SET json = json || ' '",
    "INSERT INTO setting VALUES ('last-foot', '1')",
    "ANALYZE",
    "PRAGMA user_version = 1",
    "PRAGMA journal_mode = WAL",
    "CREATE INDEX odd ON horse (abs (id))",
    "DELETE FROM visit",
  };

  sqlite3_exec (db, any_of (odd, G_N_ELEMENTS (odd)), NULL, NULL, NULL);
}

static void
make_book (const char *file)
{
  sqlite3 *db = NULL;

  g_unlink (file);
  pr_book_close (pr_book_open (file, NULL));
  fuzz_must (sqlite3_open (file, &db) == SQLITE_OK, "no SQLite");
  sql (db, "PRAGMA synchronous = OFF; PRAGMA ignore_check_constraints = ON; PRAGMA writable_schema = ON;"
           "UPDATE sqlite_schema SET sql = replace (sql, 'STRICT', '      ');"
           "PRAGMA writable_schema = RESET; BEGIN");
  for (int horses = 1 + below (2); horses > 0; horses--) {
    put_horse (db);
    for (int feet = 1 + below (2); feet > 0; feet--)
      put_foot (db);
    put_practice (db);
  }
  sql (
      db,
      "COMMIT; PRAGMA writable_schema = ON;"
      "UPDATE sqlite_schema SET sql = replace (sql, ')       ', ') STRICT'); PRAGMA writable_schema = RESET");
  if (one_in (8))
    put_oddity (db);
  sqlite3_close (db);
}

/* --- what is done with it ------------------------------------------------------------------ */

static void
write_files (const PrJob *job)
{
  PrPageOptions page = PR_PAGE_OPTIONS_DEFAULT;
  g_autofree char *out = file_in ("out");
  GError *error = NULL;

  page.dxf = one_in (2);
  fuzz_said (pr_write_all (job, &page, out, &error), &error, true);
}

/* On the board, and on the bar below it. */
static void
draw (const PrJob *job)
{
  const PrDrawOptions options = PR_DRAW_TEMPLATE (one_in (2) ? PR_FACE_FOOT : PR_FACE_GROUND);
  const PrBarLook look = PR_BAR_LOOK_PAPER;
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, 200, 200);
  cairo_t *cr = cairo_create (surface);
  double height = 0;

  pr_draw_enter_foot (cr, job->sources.foot, options.face, 100, 100);
  pr_draw_job (cr, job, &options);
  pr_draw_bar_ink (cr, job, &look, &height);
  fuzz_must (isfinite (height) && height >= 0, "a bar without a height");
  fuzz_must (cairo_status (cr) == CAIRO_STATUS_SUCCESS, "a drawing that failed");
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
}

static void
lay_flat (PrTracing *t)
{
  g_autofree uint8_t *rgb = g_malloc0 (3 * 60 * 80);
  PrPhoto photo = { .width = 60, .height = 80, .stride = 180, .rgb = rgb };

  if (pr_tracing_has_scale (t) && one_in (60))
    pr_tracing_rectify (t, &photo);
}

static void
open_foot (PrBook *book, PrBookId id)
{
  g_autoptr (PrJob) job = pr_job_new (), again = pr_job_new ();
  PrRecord record;
  GError *error = NULL;

  if (!fuzz_said (pr_record_read (book, id, job, &record, &error), &error, true) || !record.outline)
    return;
  lay_flat (job->sources.tracing);
  if (!record.plan && !fuzz_said (pr_job_set_style (job, fuzz_styles ()->pdata[0], &error), &error, false))
    return;
  fuzz_use_job (job);
  draw (job);
  if (one_in (FILES_ONE_IN))
    write_files (job);
  /* what is kept of it can be opened again */
  fuzz_must (pr_record_keep (book, id, job, PR_PART_TRACE | PR_PART_PLAN, NULL),
             "a foot that cannot be kept");
  if (!pr_record_read (book, id, again, NULL, &error))
    fuzz_must (false, error->message);
}

/* What is told the vet is within its bounds, and what is written of it is read as the same. */
static void
read_told (const char *json)
{
  g_auto (PrVetNote) note = { 0 }, again = { 0 };

  pr_vet_note_read (&note, json);
  g_autofree char *text = pr_vet_note_json (&note);
  pr_vet_note_read (&again, text);
  g_autofree char *same = pr_vet_note_json (&again);
  fuzz_must (g_strcmp0 (text, same) == 0, "a note to the vet that is read as another");
  fuzz_must (text == NULL || pr_bound_holds (PR_BOUND_VET, (double) strlen (text)),
             "a note that is too long");
}

static void
open_feet (PrBook *book)
{
  int left = 8; /* of thousands, if need be */

  g_autoptr (GPtrArray) horses = pr_book_horses (book, NULL, NULL);
  for (guint h = 0; horses && h < horses->len; h++) {
    const PrBookHorse *horse = horses->pdata[h];
    g_autoptr (GPtrArray) visits = pr_book_visits (book, horse->id, NULL);

    fuzz_must (!pr_name_is_long (horse->name) && *horse->name, "a name that is none");
    for (guint v = 0; visits && v < visits->len; v++) {
      const PrBookVisit *visit = visits->pdata[v];
      g_autoptr (GPtrArray) feet = pr_book_feet (book, visit->id, NULL);

      fuzz_must (pr_date_holds (visit->date), "a date that is none");
      fuzz_must (visit->colour >= 0 && visit->colour < PR_N_CARD_COLOURS, "a colour that is none");
      read_told (visit->vet);
      for (guint f = 0; feet && f < feet->len && left-- > 0; f++)
        open_foot (book, ((const PrBookFoot *) feet->pdata[f])->id);
    }
  }
}

/* Once more, now that all of it meets itself: whatever is chosen, it is taken and given up again. */
static void
choose_and_undo (PrBook *book, const char *sent)
{
  g_autoptr (PrMerge) merge = pr_merge_look (book, sent, NULL, NULL);

  for (guint i = 0; merge != NULL && i < merge->feet->len; i++)
    ((PrMergeFoot *) merge->feet->pdata[i])->choice = (PrMergeChoice) below (PR_N_MERGE_CHOICES);
  for (guint i = 0; merge != NULL && i < merge->horses->len; i++)
    ((PrMergeHorse *) merge->horses->pdata[i])->choice = (PrMergeChoice) below (PR_N_MERGE_CHOICES);
  g_autoptr (PrMerged) merged = merge != NULL ? pr_merge_take (book, sent, merge, NULL, NULL) : NULL;
  if (merged != NULL)
    fuzz_must (pr_merge_undo (book, merged, NULL), "what was merged cannot be given up again");
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  g_autoptr (GBytes) bytes = g_bytes_new (data, size);
  g_autofree char *sent = file_in ("feet"), *into = file_in ("into");
  GError *error = NULL;

  chance = g_rand_new_with_seed (g_bytes_hash (bytes));
  make_book (sent);
  g_unlink (into);
  PrBook *book = pr_book_open (into, NULL);
  fuzz_must (book != NULL, "no book");
  g_autoptr (GPtrArray) list = pr_book_look_into (book, sent, NULL, &error);
  bool seen = fuzz_said (list != NULL, &error, true);
  bool taken = fuzz_said (pr_book_merge (book, sent, NULL, NULL, &error), &error, true);
  fuzz_must (seen || !taken, "merged what cannot be looked into");
  open_feet (book);
  choose_and_undo (book, sent);
  pr_book_close (book);
  g_rand_free (chance);
  return 0;
}

void
fuzz_seeds (GPtrArray *seeds)
{
  for (guint32 i = 0; i < 40; i++)
    fuzz_seed (seeds, &i, sizeof i);
}
