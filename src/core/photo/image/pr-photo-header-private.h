/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The formats one by one, for pr-photo-header.c: each is called with the bytes of its own format and fills in
 * what they tell. */
#pragma once
#include "pr-photo-header.h"
#include "pr-photo-raw.h"

void pr_photo_read_jpeg (PrPhotoHeader *head, const PrRaw *raw);
void pr_photo_read_png (PrPhotoHeader *head, const PrRaw *raw);
void pr_photo_read_webp (PrPhotoHeader *head, const PrRaw *raw);
void pr_photo_read_boxes (PrPhotoHeader *head, const PrRaw *raw);
/* RAW's byte order is set by it. EXIF: a block inside another picture, of which only by_camera and focal35 count. */
void pr_photo_read_tiff (PrPhotoHeader *head, PrRaw raw, bool exif);
/* PER_MM: how many mm the unit of X and Y (px per unit) has. */
void pr_photo_set_density (PrPhotoHeader *head, double x, double y, double mm);
