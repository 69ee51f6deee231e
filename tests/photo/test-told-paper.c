/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A paper told wrong is asked about or refused, whatever else lies in its place; one told right is not, where it can be
 * known. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <string.h>

#include "photo-kit.h"
#include "pr-limits.h"
#include "pr-width-check.h"

typedef struct {
  double width, height, foot; /* mm */
  PrPaper told;
} Case;

static void
scene_of (SceneOptions *o, const Case *c, guint32 seed)
{
  scene_of_width (o, seed, 1200);
  o->tags = false;
  o->bench = (SceneBench) (seed % 4);
  o->tilt_deg = 5 * (seed % 8);
  o->tilt_dir_deg = 53.0 * seed;
  o->turn_deg = 4.0 * (seed % 4) - 6;
  o->k1 = 0.02 * (seed % 4) - 0.03;
  o->leaf_mm[0] = c->width;
  o->leaf_mm[1] = c->height;
  o->hoof_width = c->foot;
  o->hoof_length = 1.04 * c->foot;
}

/* NULL: refused. */
static PrTracing *
traced_in (const Case *c, guint32 seed, PrFoot foot, bool sure, PrUnit unit)
{
  PrTraceOptions options = {
    .method = PR_SCALE_PLAIN, .paper = c->told, .paper_sure = sure, .foot = foot, .snap = true, .unit = unit
  };
  SceneOptions o;

  scene_of (&o, c, seed);
  g_autoptr (Scene) scene = scene_render (&o);
  g_autoptr (PrPhoto) photo = photo_taken (scene);
  g_autoptr (GError) error = NULL;
  PrTracing *t = pr_trace_photo (photo, &options, NULL, NULL, NULL, &error);
  print_message ("%g x %g, foot %g, told %s: %s\n", c->width, c->height, c->foot, pr_paper_name (c->told),
                 t ? t->scale.why : error->message);
  return t;
}

static PrTracing *
traced_as (const Case *c, guint32 seed, PrFoot foot, bool sure)
{
  return traced_in (c, seed, foot, sure, PR_UNIT_MM);
}

static PrTracing *
traced (const Case *c, guint32 seed, PrFoot foot)
{
  return traced_as (c, seed, foot, false);
}

static void
test_wrong_is_asked (void **state)
{
  static const Case cases[] = {
    /* papers of one shape */
    { 210, 297, 106, PR_PAPER_A3 },
    { 210, 297, 143, PR_PAPER_A5 },
    { 297, 420, 145, PR_PAPER_A4 },
    { 148, 210, 107, PR_PAPER_A4 },
    /* of another shape */
    { 210, 297, 128, PR_PAPER_LETTER },
    { 215.9, 279.4, 128, PR_PAPER_A4 },
    { 215.9, 355.6, 128, PR_PAPER_TABLOID },
    { 279.4, 431.8, 128, PR_PAPER_A3 },
    /* books and pads; of some the shape is within what paper is cut to of a paper's, and the size less than a half off: those
     * nobody can know (B5 told A4) */
    { 195, 300, 104, PR_PAPER_TABLOID },
    { 139.7, 215.9, 108, PR_PAPER_TABLOID },
    { 156, 234, 120, PR_PAPER_TABLOID },
    { 170, 220, 125, PR_PAPER_LETTER },
    { 203, 254, 120, PR_PAPER_LETTER },
    { 210, 330, 120, PR_PAPER_LEGAL },
  };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autoptr (PrTracing) t = traced (&cases[i], (guint32) i, PR_FOOT_ANY);
    if (t == NULL)
      continue;
    assert_int_equal (t->scale.question, PR_QUESTION_PAPER);
    assert_true (t->scale.verdict != PR_VERDICT_GOOD);
  }
}

static void
test_right_is_not (void **state)
{
  static const Case cases[] = {
    { 210, 297, 106, PR_PAPER_A4 },     { 210, 297, 128, PR_PAPER_A4 },
    { 210, 297, 144, PR_PAPER_A4 },     { 215.9, 279.4, 120, PR_PAPER_LETTER },
    { 148, 210, 112, PR_PAPER_A5 },     { 215.9, 355.6, 132, PR_PAPER_LEGAL },
    { 210.4, 296.8, 128, PR_PAPER_A4 },
  };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autoptr (PrTracing) t = traced (&cases[i], (guint32) i + 1, PR_FOOT_ANY);
    assert_non_null (t);
    assert_int_equal (t->scale.question, PR_QUESTION_NONE);
  }
}

/* Named where it is asked for, the paper is the answer, also where it is the one that was told before. */
static void
test_answered_is_not_asked_again (void **state)
{
  static const Case cases[] = {
    { 297, 420, 145, PR_PAPER_A4 },     /* of one shape */
    { 215.9, 279.4, 128, PR_PAPER_A4 }, /* of another shape */
    { 176, 250, 128, PR_PAPER_B5 },     /* right */
  };
  static const bool asked[] = { true, true, false };
  static const guint32 seed[] = { 2, 5, 4 };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    for (int sure = 0; sure < 2; sure++) {
      g_autoptr (PrTracing) t = traced_as (&cases[i], seed[i], PR_FOOT_ANY, sure);
      assert_non_null (t);
      assert_int_equal (t->scale.paper, cases[i].told);
      assert_int_equal (t->scale.question, asked[i] && !sure ? PR_QUESTION_PAPER : PR_QUESTION_NONE);
      if (i == 1) /* and its shape speaks against it still */
        assert_int_not_equal (t->scale.verdict, PR_VERDICT_GOOD);
    }
}

/* A hind foot of 102 mm is usual, a fore foot is not; what nobody said is taken as a fore foot's. */
static void
test_by_foot (void **state)
{
  static const struct {
    PrFoot foot;
    bool asked;
  } table[] = { { PR_FOOT_RH, false }, { PR_FOOT_LF, true }, { PR_FOOT_ANY, true } };
  const Case c = { 210, 297, 102, PR_PAPER_A4 };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (table); i++) {
    g_autoptr (PrTracing) t = traced (&c, 3, table[i].foot);
    assert_non_null (t);
    assert_int_equal (t->scale.question, table[i].asked ? PR_QUESTION_PAPER : PR_QUESTION_NONE);
    if (table[i].asked)
      assert_non_null (strstr (t->scale.why, "likelier is A3"));
  }
}

/* A person who reads inches is told inches: how wide the foot is, and would be on the likelier paper. */
static void
test_told_in_his_measure (void **state)
{
  static const char *const said[] = { [PR_UNIT_MM] = " mm", [PR_UNIT_INCH] = " in" };
  const Case c = { 210, 297, 102, PR_PAPER_A4 };

  (void) state;
  for (PrUnit unit = PR_UNIT_MM; unit <= PR_UNIT_INCH; unit++) {
    g_autoptr (PrTracing) t = traced_in (&c, 3, PR_FOOT_LF, false, unit);
    g_auto (GStrv) part = NULL;
    double wide = 0, then = 0;

    assert_non_null (t);
    part = g_strsplit_set (t->scale.why, "(,)",
                           -1); /* As A4 the foot is W wide | ... | ...: likelier is A3 | THEN | . */
    char *first = strstr (part[0], "is ") + 3;
    *strstr (first, " wide") = 0;
    assert_true (pr_length_parse (first, unit, &wide, NULL));
    assert_true (pr_length_parse (part[g_strv_length (part) - 2], unit, &then, NULL));
    assert_true (g_str_has_suffix (first, said[unit]));
    assert_null (strstr (t->scale.why, said[!unit]));
    assert_true (fabs (wide - c.foot) < 1.5);
    assert_true (fabs (then / wide - 420.0 / 297) < 0.02); /* A3 by ISO 216 */
  }
}

/* A foot wider than long, however it lies on the sheet: what is told is from side to side (closed form: an ellipse's axis). */
static void
test_wide_is_not_long (void **state)
{
  const double across = 128, along = 108;

  (void) state;
  for (int turn = 0; turn < 360; turn += 30) {
    g_autoptr (PrTracing) t = pr_tracing_new ();
    double c = cos (turn * G_PI / 180), s = sin (turn * G_PI / 180), wide = 0;

    t->scale.by_shape = true;
    t->scale.why = g_strdup ("Told.");
    t->n_outline = 121;
    t->outline = g_new0 (PrSheetPt, t->n_outline);
    for (size_t i = 0; i < t->n_outline; i++) { /* open at the heels */
      double a = (-60 + 2.5 * (double) i) * G_PI / 180, x = across / 2 * cos (a), y = along / 2 * sin (a);
      t->outline[i] = (PrSheetPt){ 105 + c * x - s * y, 148 + s * x + c * y };
    }
    pr_width_check_tell (t, PR_UNIT_MM);
    char *first = strstr (t->scale.why, "then ") + strlen ("then ");
    *strstr (first, " wide") = 0;
    assert_true (pr_length_parse (first, PR_UNIT_MM, &wide, NULL));
    assert_true (fabs (wide - across) < 0.6); /* told to the millimetre */
  }
}

/* No usual foot is a usual one on a paper of the next size too. */
static void
test_usual_is_less_than_a_size (void **state)
{
  (void) state;
  assert_true (pr_limit ("width.fore.most")->look / pr_limit ("width.fore.least")->look < sqrt (2));
  assert_true (pr_limit ("width.hind.most")->look / pr_limit ("width.hind.least")->look < sqrt (2));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_wrong_is_asked),
    cmocka_unit_test (test_right_is_not),
    cmocka_unit_test (test_answered_is_not_asked_again),
    cmocka_unit_test (test_by_foot),
    cmocka_unit_test (test_told_in_his_measure),
    cmocka_unit_test (test_wide_is_not_long),
    cmocka_unit_test (test_usual_is_less_than_a_size),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
