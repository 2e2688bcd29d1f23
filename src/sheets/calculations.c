/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sheets/calculations.h"
#include "checks/questions.h"

guint
sw_calculations_n (void)
{
  return sw_questions_n ();
}

const SwQuestion *
sw_calculations_get (guint i)
{
  return sw_questions_get (i);
}

const SwQuestion *
sw_calculations_find (const char *id)
{
  return sw_questions_find (id);
}
