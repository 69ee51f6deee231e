/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrSources: all that a person and his photo give for one foot, and nothing that follows from it. Only
 * this is stored, sent, copied and undone; hoof, shoe, iron and findings are made from it (pr-job.h).
 *
 * Each fact has one place: the outline and its doubts are the tracing's, a wall's thickness is here only
 * when somebody entered it. A copy is cheap (some kilobytes): the photo's bytes and the flat picture are
 * shared, counted by references, and never written. Plain data, for one thread at a time. */
#pragma once
#include "pr-hoof.h"
#include "pr-plan.h"

typedef struct {
  GBytes *photo;        /* the file as taken; empty: there is none; NULL: not looked at yet */
  char *photo_name;     /* its name, with PHOTO */
  PrTraceOptions asked; /* how the photo was asked to be traced; its steps_dir is NULL */
  PrTracing *tracing;   /* NULL only before there is a photo or an outline */
  PrFoot foot;
  PrLandmarks marks; /* those set by hand */
  double wall[3];    /* toe, quarter, heel as entered, mm; 0: not entered, the hoof's default counts */
  PrPlan plan;
  char *order; /* order of work as reworded by hand, a step a line; NULL: as the plan gives it */
} PrSources;

/* Bits of what two sources differ in, as the book keeps it apart. */
typedef enum {
  PR_PART_PHOTO = 1 << 0,
  PR_PART_TRACE = 1 << 1, /* scale, outline, doubts, landmarks, walls, and how the photo was traced */
  PR_PART_FOOT = 1 << 2,
  PR_PART_PLAN = 1 << 3, /* plan and order of work */
} PrParts;

/* An empty one: no tracing, plan at its normal values. */
void pr_sources_init (PrSources *sources);
void pr_sources_clear (PrSources *sources);
/* TO is overwritten, not cleared: it must be empty or new. */
void pr_sources_copy (PrSources *to, const PrSources *from);
/* A copy on the heap; pr_sources_free frees it. Transfer full. */
PrSources *pr_sources_dup (const PrSources *from);
void pr_sources_free (PrSources *sources);
/* 0: they are equal. Where one has not looked at its photo, its photo counts as the other's. */
PrParts pr_sources_differ (const PrSources *a, const PrSources *b);
/* Has it a line to make a hoof from? */
bool pr_sources_has_outline (const PrSources *sources);
/* Is its outline a shoe's, which is to be forged again? There is no foot then. */
bool pr_sources_is_specimen (const PrSources *sources);
/* The scale its photo gave, or NULL: an outline without a photo has none. Transfer none. */
const PrScale *pr_sources_scale (const PrSources *sources);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (PrSources, pr_sources_clear)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PrSources, pr_sources_free)
