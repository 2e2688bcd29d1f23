/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sheets/calculations.h"
#include "ceiling/questions.h"
#include "checks/questions.h"
#include <string.h>

guint
sw_calculations_n (void)
{
  return sw_questions_n () + sw_ceiling_n_questions;
}

const SwQuestion *
sw_calculations_get (guint i)
{
  g_assert (i < sw_calculations_n ());
  return i < sw_questions_n () ? sw_questions_get (i) : &sw_ceiling_questions[i - sw_questions_n ()];
}

const SwQuestion *
sw_calculations_find (const char *id)
{
  for (guint i = 0; i < sw_calculations_n (); i++)
    if (strcmp (sw_calculations_get (i)->id, id) == 0)
      return sw_calculations_get (i);
  return NULL;
}
