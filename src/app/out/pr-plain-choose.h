/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Asks where to, and writes the whole book there as folders of plain files. */
#pragma once
#include <gtk/gtk.h>
#include "pr-document.h"

void pr_plain_choose (GtkWindow *parent, PrDocument *doc);
