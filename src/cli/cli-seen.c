/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A real shoe, from a photo or from the JSON that `trace --shoe` writes. */
#include "cli.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "pr-error.h"
#include "pr-limits.h"
#include "pr-photo.h"
#include "pr-seen-find.h"
#include "pr-seen-json.h"
#include "pr-seen-read.h"

void
cli_seen_args_clear (CliSeenArgs *args)
{
  g_free (args->thickness);
  g_free (args->face);
  memset (args, 0, sizeof *args);
}

static bool
read_face (const char *text, PrFace *face, GError **error)
{
  *face = PR_FACE_GROUND;
  return text == NULL || pr_seen_face_parse (text, face)
         || cli_wrong (error, _ ("“%s” is no face of a shoe; use ground or foot"), text);
}

static bool
read_thickness (const char *text, PrUnit unit, double *mm, GError **error)
{
  double least, most;

  if (text == NULL)
    return true;
  if (!pr_length_parse (text, unit, mm, error))
    return false;
  if (pr_limit_takes ("compare.thickness", *mm, &least, &most))
    return true;
  g_autofree char *low = pr_length_text (least, unit), *high = pr_length_text (most, unit);
  return cli_wrong (error, _ ("No shoe is %s thick; give a thickness from %s to %s"), text, low, high);
}

bool
cli_read_seen_args (CliSeenArgs *args, PrUnit unit, GError **error)
{
  return read_face (args->face, &args->up, error)
         && read_thickness (args->thickness, unit, &args->thick, error);
}

bool
cli_read_shoe_args (CliSeenArgs *args, bool shoe, PrUnit unit, PrSeenOptions *out, GError **error)
{
  bool told = args->thickness != NULL && args->face != NULL;

  if (!shoe && (args->thickness != NULL || args->face != NULL || args->drawn))
    return cli_wrong (error, _ ("--thickness, --face and --drawn are for --shoe"));
  if (!read_face (args->face, &args->up, error))
    return false;
  if (shoe && !args->drawn && !told)
    return cli_wrong (error, _ ("Give the shoe's --thickness and which --face is up"));
  if (told && !pr_length_parse (args->thickness, unit, &args->thick, error))
    return false;
  *out = (PrSeenOptions){ .thickness_mm = args->thick, .face = args->up, .drawn = args->drawn };
  return true;
}

static bool
find_seen (PrSeen *seen, const char *file, const CliSeenArgs *args, const PrTraceOptions *options,
           double thickness, PrTracing **tracing, GError **error)
{
  const PrSeenOptions how = { .thickness_mm = thickness, .face = args->up, .drawn = args->drawn };
  g_autoptr (PrPhoto) photo = pr_photo_read (file, error);

  return photo != NULL && pr_seen_find (seen, tracing, photo, options, &how, NULL, error);
}

bool
cli_seen_read (PrSeen *seen, const char *file, const CliSeenArgs *args, const PrTraceOptions *options,
               double usual, PrTracing **tracing, GError **error)
{
  if (!cli_is_json (file))
    return find_seen (seen, file, args, options, args->thick > 0 ? args->thick : usual, tracing, error);
  g_autoptr (JsonNode) node = cli_json_read (file, error);
  if (node == NULL || !pr_seen_from_json (seen, node, error))
    return false;
  if (args->face != NULL)
    seen->face = args->up;
  if (args->thick > 0)
    seen->thickness_mm = args->thick;
  seen->drawn |= args->drawn;
  return true;
}
