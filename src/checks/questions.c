/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/questions.h"
#include "ceiling/questions.h"
#include "checks/questions_parts.h"
#include "circuits/questions.h"
#include "drainage/questions.h"
#include "lighting/questions.h"
#include <string.h>

/* In the order in which they are shown; questions of one subject follow each other. */
static const struct
{
  const SwQuestion *questions;
  const guint *n;
} parts[] = {
  { sw_deck_questions, &sw_deck_n_questions },
  { sw_hanging_questions, &sw_hanging_n_questions },
  { sw_ceiling_questions, &sw_ceiling_n_questions },
  { sw_circuits_turn_questions, &sw_circuits_n_turn_questions },
  { sw_circuits_questions, &sw_circuits_n_questions },
  { sw_circuits_circuit_questions, &sw_circuits_n_circuit_questions },
  { sw_lighting_questions, &sw_lighting_n_questions },
  { sw_drainage_size_questions, &sw_drainage_n_size_questions },
  { sw_drainage_questions, &sw_drainage_n_questions },
  { sw_drainage_water_questions, &sw_drainage_n_water_questions },
};

guint
sw_questions_n (void)
{
  guint n = 0;
  for (gsize i = 0; i < G_N_ELEMENTS (parts); i++)
    n += *parts[i].n;
  return n;
}

const SwQuestion *
sw_questions_get (guint i)
{
  gsize part = 0;
  while (part < G_N_ELEMENTS (parts) && i >= *parts[part].n)
    i -= *parts[part++].n;
  g_assert (part < G_N_ELEMENTS (parts));
  return &parts[part].questions[i];
}

const SwQuestion *
sw_questions_find (const char *id)
{
  for (guint i = 0; i < sw_questions_n (); i++)
    if (strcmp (sw_questions_get (i)->id, id) == 0)
      return sw_questions_get (i);
  return NULL;
}
