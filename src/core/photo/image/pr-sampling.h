/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Between pixels: the bilinear mean of the four about a place, whose middles have whole numbers. Beyond
 * the picture the value at its rim goes on. */
#pragma once
#include "pr-photo.h"

/* Of a picture of one byte a pixel, WIDTH bytes a row. */
double pr_sample_grey (const uint8_t *grey, int width, int height, double x, double y);
/* Of a map of floats, WIDTH a row. */
float pr_sample_map (const float *map, int width, int height, double x, double y);
/* Brightness (Rec. 601 weights, ITU-R BT.601) of a photo, not rounded: at a pixel, and between. */
float pr_sample_luma_pixel (const PrPhoto *photo, int x, int y);
float pr_sample_luma (const PrPhoto *photo, double x, double y);
