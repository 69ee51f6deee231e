/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-work.h"

#include <stdint.h>
#include <sys/mman.h>
#include <unistd.h>

/* More threads than this wait for memory and not for arithmetic. */
#define THREADS_MOST 4

typedef struct {
  PrWorkPart run;
  gpointer data;
  int n;
  int next; /* atomic */
} Work;

static gpointer
take_parts (gpointer data)
{
  Work *work = data;
  int part;

  while ((part = g_atomic_int_add (&work->next, 1)) < work->n)
    work->run (work->data, part);
  return NULL;
}

void
pr_work_large (gpointer p, size_t n)
{
  uintptr_t page = (uintptr_t) sysconf (_SC_PAGESIZE), from = ((uintptr_t) p + page - 1) / page * page;
  uintptr_t to = ((uintptr_t) p + n) / page * page;

  if (to > from)
    (void) madvise ((void *) from, to - from, MADV_HUGEPAGE);
}

float *
pr_work_floats (size_t n)
{
  float *p = g_new0 (float, n);

  pr_work_large (p, n * sizeof *p);
  return p;
}

void
pr_work_share (PrWorkPart run, gpointer data, int n)
{
  Work work = { run, data, n, 0 };
  GThread *thread[THREADS_MOST];
  int others = MIN (MIN ((int) g_get_num_processors (), THREADS_MOST), n) - 1, started = 0;

  for (int i = 0; i < others; i++) {
    thread[started] = g_thread_try_new ("pixels", take_parts, &work, NULL);
    started += thread[started] != NULL;
  }
  take_parts (&work);
  for (int i = 0; i < started; i++)
    g_thread_join (thread[i]);
}
