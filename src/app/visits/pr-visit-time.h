/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrVisitTime: one foot over all visits of its horse: a measure as a plot, and all of them as a table. */
#pragma once
#include <gtk/gtk.h>
#include "pr-visit-page.h"

#define PR_TYPE_VISIT_TIME (pr_visit_time_get_type ())
G_DECLARE_FINAL_TYPE (PrVisitTime, pr_visit_time, PR, VISIT_TIME, GtkBox)

/* Shows FOOT of HORSE. FALSE with error, and nothing shown, when the book cannot be read. */
bool pr_visit_time_show (PrVisitTime *time, PrBook *book, PrBookId horse, PrFoot foot, PrUnit unit,
                         GError **error);
/* What is shown, as pages are made of it; it points into TIME, the horse is left out. */
PrVisitPages pr_visit_time_pages (PrVisitTime *time);
