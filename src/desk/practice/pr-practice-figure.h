/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Figures as a person types them beside a run. */
#pragma once
#include <stdbool.h>

/* A number from 0 to MOST, comma or point, with nothing behind it. FALSE leaves VALUE as it was. */
bool pr_practice_figure_parse (const char *text, double most, double *value);
/* Minutes from 0 to MOST: "12", "12.5", "12:30". */
bool pr_practice_minutes_parse (const char *text, double most, double *minutes);
