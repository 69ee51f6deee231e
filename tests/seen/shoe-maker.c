/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Not a test:  shoe-maker KIND SEED OUT.jpg   a photo of a shoe, to be looked at. */
#include <stdio.h>
#include <stdlib.h>
#include "shoe-scenes.h"

int
main (int argc, char **argv)
{
  g_auto (ShoeScene) s = { 0 };

  if (argc != 4)
    return 2;
  shoe_scene_make (&s, shoe_kind (argv[1]), (guint32) atoi (argv[2]));
  gint64 t0 = g_get_monotonic_time ();
  g_autoptr (Scene) scene = scene_render (&s.options);
  gsize len;
  const char *data = g_bytes_get_data (scene->jpeg, &len);
  printf ("%d ms, tilt %.0f, %.1f mm thick, %s\n", (int) ((g_get_monotonic_time () - t0) / 1000),
          s.options.tilt_deg, s.shoe.thick, pr_face_name (s.face));
  return g_file_set_contents (argv[3], data, (gssize) len, NULL) ? 0 : 1;
}
