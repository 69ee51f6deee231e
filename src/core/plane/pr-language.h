/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The language and number signs of whoever runs the program. */
#pragma once

/* Takes the locale of the environment, and binds the texts of this program: those beside it where it
 * is run from the folder it was built in, else those installed with it, wherever that is. Once, first
 * thing in main. */
void pr_language_start (void);
