/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The rectified sheet as a PNG that carries its true scale (pHYs). */
#pragma once
#include "pr-trace.h"

/* Whole or untouched. */
bool cli_write_rectified (const PrTracing *tracing, const char *file, GError **error);
