/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/tools/typed.h"
#include "base/number.h"
#include "base/text.h"
#include <string.h>

static const char *const labels[SW_N_TYPED] = {
  [SW_TYPED_LENGTH] = N_("Length"),          [SW_TYPED_ANGLE] = N_("Angle"),      [SW_TYPED_X] = N_("x"),
  [SW_TYPED_Y] = N_("y"),                    [SW_TYPED_ALONG_X] = N_("Along x"),  [SW_TYPED_ALONG_Y] = N_("Along y"),
  [SW_TYPED_LEVEL] = N_("Level"),            [SW_TYPED_VALUE] = N_("Measured"),
};

void
sw_typed_clear (SwTyped *typed)
{
  for (int i = 0; i < SW_N_TYPED; i++)
    typed->text[i][0] = 0;
  typed->active = -1;
}

static gboolean
is_offered (const SwTyped *typed, int field)
{
  return (typed->offered & SW_TYPED_BIT (field)) != 0;
}

void
sw_typed_offer (SwTyped *typed, guint fields)
{
  typed->offered = fields;
  for (int i = 0; i < SW_N_TYPED; i++)
    if (!is_offered (typed, i))
      typed->text[i][0] = 0;
  if (typed->active >= 0 && !is_offered (typed, typed->active))
    typed->active = -1;
}

static int
first_offered (const SwTyped *typed)
{
  for (int i = 0; i < SW_N_TYPED; i++)
    if (is_offered (typed, i))
      return i;
  return -1;
}

gboolean
sw_typed_add (SwTyped *typed, gunichar character)
{
  static const char begins[] = "0123456789.,(-", goes_on[] = "0123456789.,()+-*/ mcinft'\"";
  if (character == 0 || character > 127 || strchr (typed->active < 0 ? begins : goes_on, (int) character) == NULL)
    return FALSE;
  if (typed->active < 0)
    typed->active = first_offered (typed);
  if (typed->active < 0)
    return FALSE;
  char *text = typed->text[typed->active];
  gsize length = strlen (text);
  if (length + 1 < sizeof typed->text[0])
    {
      text[length] = (char) character;
      text[length + 1] = 0;
    }
  return TRUE;
}

gboolean
sw_typed_erase (SwTyped *typed)
{
  if (typed->active < 0)
    return FALSE;
  char *text = typed->text[typed->active];
  gsize length = strlen (text);
  if (length > 0)
    text[length - 1] = 0;
  if (sw_typed_is_empty (typed))
    typed->active = -1;
  return TRUE;
}

gboolean
sw_typed_next (SwTyped *typed, gboolean back)
{
  int step = back ? SW_N_TYPED - 1 : 1, start = typed->active;
  if (typed->offered == 0)
    return FALSE;
  if (start < 0)
    {
      typed->active = first_offered (typed);
      return TRUE;
    }
  for (int i = (start + step) % SW_N_TYPED; i != start; i = (i + step) % SW_N_TYPED)
    if (is_offered (typed, i))
      {
        typed->active = i;
        return TRUE;
      }
  return TRUE;
}

gboolean
sw_typed_is_empty (const SwTyped *typed)
{
  for (int i = 0; i < SW_N_TYPED; i++)
    if (typed->text[i][0] != 0)
      return FALSE;
  return TRUE;
}

gboolean
sw_typed_value (const SwTyped *typed, SwTypedField field, double *value, gboolean *wrong)
{
  const char *text = typed->text[field];
  if (wrong != NULL)
    *wrong = FALSE;
  if (*text == 0)
    return FALSE;
  gboolean good = sw_length_read (text, field == SW_TYPED_ANGLE ? SW_LENGTHS_MM : typed->lengths, value, NULL);
  if (!good && wrong != NULL)
    *wrong = TRUE;
  return good;
}

int
sw_typed_fault (const SwTyped *typed)
{
  double value;
  gboolean wrong;
  for (int i = 0; i < SW_N_TYPED; i++)
    if (!sw_typed_value (typed, i, &value, &wrong) && wrong)
      return i;
  return -1;
}

const char *
sw_typed_label (SwTypedField field)
{
  return labels[field];
}

/* Length and angle about the anchor: what is not typed is the pointer's. */
static SwPoint
resolve_polar (const SwTyped *typed, SwPoint pointer, SwPoint anchor)
{
  double length, angle;
  SwPoint way = sw_point_sub (pointer, anchor);
  gboolean has_length = sw_typed_value (typed, SW_TYPED_LENGTH, &length, NULL);
  gboolean has_angle = sw_typed_value (typed, SW_TYPED_ANGLE, &angle, NULL);
  if (!has_length && !has_angle)
    return pointer;
  SwPoint direction = { 1, 0 };
  if (has_angle)
    direction = (SwPoint){ cos (angle * G_PI / 180), sin (angle * G_PI / 180) };
  else if (sw_point_length (way) > 0)
    direction = sw_point_scale (way, 1 / sw_point_length (way));
  if (!has_length)
    length = MAX (sw_point_dot (way, direction), 0);
  return sw_point_add (anchor, sw_point_scale (direction, length));
}

SwPoint
sw_typed_resolve (const SwTyped *typed, SwPoint pointer, const SwPoint *anchor)
{
  double value;
  SwPoint at = pointer;
  if (anchor != NULL)
    at = resolve_polar (typed, at, *anchor);
  if (sw_typed_value (typed, SW_TYPED_X, &value, NULL))
    at.x = value;
  if (sw_typed_value (typed, SW_TYPED_Y, &value, NULL))
    at.y = value;
  if (anchor != NULL && sw_typed_value (typed, SW_TYPED_ALONG_X, &value, NULL))
    at.x = anchor->x + (value < 0 || pointer.x >= anchor->x ? value : -value);
  if (anchor != NULL && sw_typed_value (typed, SW_TYPED_ALONG_Y, &value, NULL))
    at.y = anchor->y + (value < 0 || pointer.y >= anchor->y ? value : -value);
  return at;
}
