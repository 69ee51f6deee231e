/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-error.h"

G_DEFINE_QUARK (pr - error - quark, pr_error)
