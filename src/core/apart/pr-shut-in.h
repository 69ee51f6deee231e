/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A process that looks at what strangers sent, shut in before it reads any of it: what a picture could make of it has no file but
 * the three standard ones, no new rights, at most 2 GiB of data, leaves no dump, and ends with its parent. For the main
 * thread, once. */
#pragma once
#include <sys/resource.h>

/* MOST_CPU seconds of processor time; no file it writes is longer than MOST_FILE bytes. */
void pr_shut_in (rlim_t most_cpu, rlim_t most_file);
