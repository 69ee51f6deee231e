/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrJob: one foot being worked on, from tracing to findings; what command line, window, bench
 * and tests share. It is the sources (pr-sources.h) and what is derived from them by pr_job_refresh. */
#pragma once
#include "pr-checks.h"
#include "pr-dividers.h"
#include "pr-fit.h"
#include "pr-heats.h"
#include "pr-rack.h"
#include "pr-sources.h"
#include "pr-style.h"

typedef struct {
  PrSources sources;
  PrUnit unit; /* for sentences */
  PrFace face; /* that is shown, for lists: what lies on its left is told first */
  /* derived; hoof, shoe, iron and findings stand only while there is an outline */
  PrHoof hoof;
  PrShoe *shoe;
  PrIron iron;
  GPtrArray *findings;
} PrJob;

PrJob *pr_job_new (void);
void pr_job_free (PrJob *job);
/* A job of its own with the same sources, all else made anew from them. Transfer full. */
PrJob *pr_job_copy (const PrJob *job);
/* Copies SOURCES in and makes all the rest anew. FALSE when nothing can be made of them; the job then has no
 * outline. A tracing without one is no error: there is just nothing derived. */
bool pr_job_take_sources (PrJob *job, const PrSources *sources, GError **error);
/* Takes the tracing over (transfer full) with its outline; the foot of the sheet's number is
 * taken when JOB has none. Landmarks are found anew. FALSE, with TRACING freed and JOB as it was, when its
 * line is no hoof's; one without a line is taken as it is. */
bool pr_job_take_tracing (PrJob *job, PrTracing *tracing, GError **error);
/* The same with the landmarks that are known, on the sheet, and, where WALL is not NULL, its thickness at toe, quarter and heel, mm,
 * 0 for each that is not known: the hoof is made once. */
bool pr_job_take_marked (PrJob *job, PrTracing *tracing, const PrLandmarks *marks, const double wall[3],
                         GError **error);
/* Can a hoof be made of TRACING's line? One without a line is not wrong. */
bool pr_job_is_hoof_line (const PrTracing *tracing, PrFoot foot, GError **error);
/* As above for a figure that is no hoof (transfer full): no landmarks, no hoof, nothing to plan on. */
void pr_job_take_figure (PrJob *job, PrTracing *tracing);
/* An outline alone, in place of the line there was; a scale stays. As above. */
bool pr_job_take_outline (PrJob *job, const PrSheetPt *outline, size_t n, bool closed, GError **error);
/* Hoof anew from outline, foot and landmarks, then all the rest. */
bool pr_job_refresh_hoof (PrJob *job, GError **error);
/* Shoe, iron and findings anew from the plan: what a drag calls. */
bool pr_job_refresh (PrJob *job, GError **error);
/* What mends FINDING, one of the job's: the word for a button, or NULL. An offer is tried on a copy before it is
 * shown (pr-offer.h), once until the next refresh. A drag, which shows none, tries none. */
const char *pr_job_offer (const PrJob *job, PrFinding *finding);
/* STYLE on PLAN for the job's foot: its shares of this width, and beside a frog that is known the branches of an open shoe
 * leave room for a foot-pick. While no bar is in hand it takes the bar of the rack that asks for the least work, among those
 * called by the job's unit. Not laid on the foot yet; the caller fits. */
void pr_job_apply_style (const PrJob *job, const PrStyle *style, PrPlan *plan);
/* The same on the job's plan, fitted, then refreshed. */
bool pr_job_set_style (PrJob *job, const PrStyle *style, GError **error);
bool pr_job_fit (PrJob *job, GError **error);
/* Another bar in hand, mm. Thickness, webs and clips that stand as the style gives them follow it (pr-style.h); what was
 * changed by hand stays. */
bool pr_job_take_bar (PrJob *job, double width, double thickness, GError **error);
/* What STYLE gives on the job's hoof when nothing is locked or was changed by hand: what each parameter
 * can be put back to. FALSE (USUAL untouched): it does not fit this hoof. */
bool pr_job_usual_plan (const PrJob *job, const PrStyle *style, PrPlan *usual);

/* The order of work, a step an entry: as reworded, else from the plan. Element type char *, transfer full. */
GPtrArray *pr_job_order (const PrJob *job);
/* The plan with what goes with it (the reworded order of work): what the book keeps. Transfer full. */
JsonNode *pr_job_plan_json (const PrJob *job);
bool pr_job_take_plan_json (PrJob *job, JsonNode *node, GError **error);

/* The members "printed" {across, down} (where the paper's cut edges tell), "trust" and "question" of a scale. */
void pr_job_put_question (JsonBuilder *builder, const PrScale *scale);
/* The member "scale" of a trace. */
void pr_job_put_scale (JsonBuilder *builder, const PrTracing *tracing);
/* The member "reasons" of a scale: [{severity, text, at}], AT on the sheet, where it has one. */
void pr_job_put_reasons (JsonBuilder *builder, const PrScale *scale);
/* The JSON of `trace --json`: outline, scale, camera, landmarks, hoof. Transfer full. */
JsonNode *pr_job_trace_json (const PrJob *job);
/* Reads that JSON back (outline, closed, landmarks; scale and camera when there, without a raster). */
bool pr_job_take_trace_json (PrJob *job, JsonNode *node, GError **error);
/* Only the hoof that JSON comes to, for a list of many feet; a twentieth of the time. OUT is cleared first; its walls are the
 * usual ones. */
bool pr_job_read_hoof (PrHoof *out, JsonNode *node, PrFoot foot, GError **error);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PrJob, pr_job_free)
