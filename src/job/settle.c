/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a record must be before it enters a job: every number in range, every outline sound, every date a date. */
#include "job/records.h"
#include "base/error.h"
#include "base/number.h"
#include "base/tolerance.h"
#include "geometry/outline.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

static gboolean refuse (GError **error, const char *path, const char *format, ...) G_GNUC_PRINTF (3, 4);

static gboolean
refuse (GError **error, const char *path, const char *format, ...)
{
  va_list args;
  va_start (args, format);
  g_autofree char *what = g_strdup_vprintf (format, args);
  va_end (args);
  g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "%s: %s", path, what);
  return FALSE;
}

static gboolean
settle_number (const SwField *field, double *value, const char *path, GError **error)
{
  char low[SW_NUMBER_BUF], high[SW_NUMBER_BUF];
  if (!isfinite (*value))
    return refuse (error, path, "is not a number");
  if (field->unit == SW_UNIT_MM)
    *value = sw_grid_round (CLAMP (*value, -1e12, 1e12));
  if (*value < field->low || *value > field->high)
    return refuse (error, path, "must lie between %s and %s %s", sw_number_write (field->low, low),
                   sw_number_write (field->high, high), sw_unit_symbol (field->unit));
  return TRUE;
}

static gboolean
settle_point (SwPoint *point, const char *path, GError **error)
{
  if (!isfinite (point->x) || !isfinite (point->y) || fabs (point->x) > SW_COORDINATE_MAX_MM || fabs (point->y) > SW_COORDINATE_MAX_MM)
    return refuse (error, path, "lies farther out than a job may reach (10 km)");
  *point = (SwPoint){ sw_grid_round (point->x), sw_grid_round (point->y) };
  return TRUE;
}

static gboolean
settle_date (const char *text, const char *path, GError **error)
{
  int year, month, day, end = 0;
  if (*text == '\0')
    return TRUE;
  if (strlen (text) == 10 && sscanf (text, "%4d-%2d-%2d%n", &year, &month, &day, &end) == 3 && end == 10 && year > 0 && month > 0 && day > 0
      && g_date_valid_dmy ((GDateDay) day, (GDateMonth) month, (GDateYear) year))
    return TRUE;
  return refuse (error, path, "\"%s\" is not a date: write YYYY-MM-DD", text);
}

static gboolean
settle_outline (const SwList *list, const char *path, GError **error)
{
  gsize where = 0;
  SwOutlineFault fault = sw_outline_check (list->items, list->n, &where);
  if (fault == SW_OUTLINE_GOOD)
    return TRUE;
  if (fault == SW_OUTLINE_FEW || fault == SW_OUTLINE_FLAT)
    return refuse (error, path, "%s", sw_outline_fault_text (fault));
  g_autofree char *at = g_strdup_printf ("%s[%" G_GSIZE_FORMAT "]", path, where);
  return refuse (error, at, "%s", sw_outline_fault_text (fault));
}

static gboolean settle_struct (const SwStruct *kind, gpointer base, const char *path, GError **error);

static gboolean
settle_list (const SwField *field, SwList *list, const char *path, GError **error)
{
  for (guint i = 0; i < list->n; i++)
    {
      g_autofree char *at = g_strdup_printf ("%s[%u]", path, i);
      if (!settle_struct (field->item, sw_list_item (list, field->item, i), at, error))
        return FALSE;
    }
  return !(field->flags & SW_FLAG_OUTLINE) || settle_outline (list, path, error);
}

static gboolean
settle_field (const SwField *field, gpointer base, const char *path, GError **error)
{
  switch (field->kind)
    {
    case SW_FIELD_BOOL:
      SW_AT (base, field, int) = SW_AT (base, field, int) != 0;
      return TRUE;
    case SW_FIELD_INT:
    case SW_FIELD_ENUM:
      {
        double whole = SW_AT (base, field, int);
        return settle_number (field, &whole, path, error);
      }
    case SW_FIELD_NUMBER:
      return settle_number (field, &SW_AT (base, field, double), path, error);
    case SW_FIELD_TEXT:
      return g_utf8_validate (SW_AT (base, field, char *), -1, NULL) || refuse (error, path, "is not UTF-8 text");
    case SW_FIELD_DATE:
      return settle_date (SW_AT (base, field, char *), path, error);
    case SW_FIELD_MONEY:
      return sw_money_is_valid (SW_AT (base, field, SwMoney)) || refuse (error, path, "is out of range");
    case SW_FIELD_POINT:
      return settle_point (&SW_AT (base, field, SwPoint), path, error);
    case SW_FIELD_LIST:
      return settle_list (field, &SW_AT (base, field, SwList), path, error);
    default:
      return TRUE;
    }
}

static gboolean
settle_struct (const SwStruct *kind, gpointer base, const char *path, GError **error)
{
  for (guint i = 0; i < kind->n_fields; i++)
    {
      const SwField *field = &kind->fields[i];
      g_autofree char *at = *path ? g_strdup_printf ("%s.%s", path, field->key) : g_strdup (field->key);
      if (!settle_field (field, base, at, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
settle_profile (const SwRecord *record, GError **error)
{
  const SwProfile *profile = (const SwProfile *) record;
  if (profile->mouth >= profile->pitch)
    return refuse (error, "mouth_mm", "must be less than the pitch: nothing is left for the rib");
  if (profile->crown >= profile->pitch)
    return refuse (error, "crown_mm", "must be less than the pitch");
  return TRUE;
}

static gboolean
settle_line (const SwRecord *record, SwPoint from, SwPoint to, GError **error)
{
  return sw_point_distance (from, to) > SW_TOUCH_MM || refuse (error, "to", "is the same place as \"from\"");
}

static gboolean
settle_gridline (const SwRecord *record, GError **error)
{
  return settle_line (record, ((const SwGridline *) record)->from, ((const SwGridline *) record)->to, error);
}

static gboolean
settle_beam (const SwRecord *record, GError **error)
{
  return settle_line (record, ((const SwBeam *) record)->from, ((const SwBeam *) record)->to, error);
}

static gboolean
settle_wall (const SwRecord *record, GError **error)
{
  return settle_line (record, ((const SwWall *) record)->from, ((const SwWall *) record)->to, error);
}

static gboolean
settle_run (const SwRecord *record, GError **error)
{
  const SwRun *run = (const SwRun *) record;
  if (run->vertices.n < 2)
    return refuse (error, "vertices", "needs at least 2 points");
  if (SW_LIST_AT (run->vertices, SwVertex, 0).level == SW_LEVEL_FALL)
    return refuse (error, "vertices[0].level", "the first point needs a level of its own");
  if (run->bore > run->od)
    return refuse (error, "bore_mm", "is greater than the outside diameter");
  if (run->socket > 0 && run->socket < run->od)
    return refuse (error, "socket_mm", "is less than the outside diameter");
  return TRUE;
}

static gboolean
settle_light (const SwRecord *record, GError **error)
{
  const SwLight *light = (const SwLight *) record;
  return light->body <= light->cut_out || refuse (error, "body_mm", "is greater than the cut-out");
}

gboolean
sw_record_settle (SwRecord *record, GError **error)
{
  static gboolean (*const own[SW_N_TABLES]) (const SwRecord *, GError **) = {
    [SW_TABLE_PROFILE] = settle_profile, [SW_TABLE_GRIDLINE] = settle_gridline, [SW_TABLE_BEAM] = settle_beam,
    [SW_TABLE_WALL] = settle_wall,       [SW_TABLE_RUN] = settle_run,           [SW_TABLE_LIGHT] = settle_light,
  };
  SwTable table = sw_record_table (record);
  if (!g_utf8_validate (record->tag, -1, NULL) || strlen (record->tag) > 80 || (*record->tag == '\0' && table != SW_TABLE_JOB))
    return refuse (error, "id", "needs a mark of at most 80 characters");
  return settle_struct (&sw_record_type (record)->body, record, "", error) && (own[table] == NULL || own[table] (record, error));
}
