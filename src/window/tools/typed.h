/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "base/length.h"
#include "geometry/point.h"

/* What is typed while drawing: digits begin the first field that the tool offers, Tab goes to the next, tape arithmetic
 * works in all of them. What is typed holds; what is not follows the pointer. */
typedef enum
{
  SW_TYPED_LENGTH,
  SW_TYPED_ANGLE, /* degrees counter-clockwise from x */
  SW_TYPED_X,
  SW_TYPED_Y,
  SW_TYPED_ALONG_X, /* sides of a rectangle */
  SW_TYPED_ALONG_Y,
  SW_TYPED_LEVEL,
  SW_TYPED_VALUE, /* of a measurement, or a known distance */
  SW_N_TYPED
} SwTypedField;
#define SW_TYPED_BIT(field) (1u << (field))
#define SW_TYPED_POLAR (SW_TYPED_BIT (SW_TYPED_LENGTH) | SW_TYPED_BIT (SW_TYPED_ANGLE))
#define SW_TYPED_PLACE (SW_TYPED_BIT (SW_TYPED_X) | SW_TYPED_BIT (SW_TYPED_Y))
#define SW_TYPED_SIDES (SW_TYPED_BIT (SW_TYPED_ALONG_X) | SW_TYPED_BIT (SW_TYPED_ALONG_Y))

typedef struct
{
  guint offered; /* bits */
  int active;    /* SwTypedField, −1 when nothing is typed */
  SwLengths lengths; /* of what is typed; angles are plain numbers */
  char text[SW_N_TYPED][48];
} SwTyped;

void sw_typed_clear (SwTyped *typed);
/* Which fields the tool takes now; what is typed in others is dropped. */
void sw_typed_offer (SwTyped *typed, guint fields);
/* TRUE when the character was taken. The first one must begin a number. */
gboolean sw_typed_add (SwTyped *typed, gunichar character);
gboolean sw_typed_erase (SwTyped *typed); /* the last character; FALSE when there is none */
/* To the next (or the previous) field that is offered. FALSE when none is. */
gboolean sw_typed_next (SwTyped *typed, gboolean back);
gboolean sw_typed_is_empty (const SwTyped *typed);
/* FALSE when the field is empty or cannot be read; *wrong says the latter. */
gboolean sw_typed_value (const SwTyped *typed, SwTypedField field, double *value, gboolean *wrong);
/* The first field that cannot be read, −1 when all can. */
int sw_typed_fault (const SwTyped *typed);
/* Untranslated. */
const char *sw_typed_label (SwTypedField field);

/* The place that pointer and typed values give together; `anchor` is NULL before the first place. */
SwPoint sw_typed_resolve (const SwTyped *typed, SwPoint pointer, const SwPoint *anchor);
