/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-card-colour.h"

#include <glib/gi18n-lib.h>

/* From light to dark by twelve and more of CIE L* each, so that no two are alike in grey; test-card-colour.c measures it. */
static const struct {
  const char *name;
  guint rgb, ink;
} colours[PR_N_CARD_COLOURS] = {
  { NC_ ("card colour", "none"), 0xffffff, 0x000000 },  { NC_ ("card colour", "straw"), 0xf3dd6d, 0x000000 },
  { NC_ ("card colour", "sky"), 0x7fbfe8, 0x000000 },   { NC_ ("card colour", "copper"), 0xd6803c, 0x000000 },
  { NC_ ("card colour", "moss"), 0x4f7a34, 0xffffff },  { NC_ ("card colour", "plum"), 0x6d2763, 0xffffff },
  { NC_ ("card colour", "night"), 0x141f3f, 0xffffff },
};

const char *
pr_card_colour_name (int colour)
{
  g_return_val_if_fail (colour >= 0 && colour < PR_N_CARD_COLOURS, NULL);
  return g_dpgettext2 (NULL, "card colour", colours[colour].name);
}

guint
pr_card_colour_rgb (int colour)
{
  g_return_val_if_fail (colour >= 0 && colour < PR_N_CARD_COLOURS, 0);
  return colours[colour].rgb;
}

guint
pr_card_colour_ink (int colour)
{
  g_return_val_if_fail (colour >= 0 && colour < PR_N_CARD_COLOURS, 0);
  return colours[colour].ink;
}
