/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sheet seen straight from above: a raster of the photo through the camera that was found. */
#pragma once
#include "pr-photo.h"
#include "pr-tracing.h"

/* Fills the raster of TRACING anew from PHOTO with the camera it holds (used when a kept
 * tracing is opened again). */
void pr_tracing_rectify (PrTracing *tracing, const PrPhoto *photo);
