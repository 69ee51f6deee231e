/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The rectified sheet as a PNG that carries its true scale (pHYs). */
#pragma once
#include "pr-trace.h"

/* The file's bytes. Transfer full; NULL with error. */
GByteArray *cli_rectified_png (const PrTracing *tracing, GError **error);
