/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <glib.h>

/* What a number measures: used to label, read and print it. */
typedef enum
{
  SW_UNIT_NONE,
  SW_UNIT_MM,
  SW_UNIT_DEGREE,
  SW_UNIT_FALL,    /* 1:n, kept as n; 0 means level */
  SW_UNIT_PERCENT,
  SW_UNIT_KPA,
  SW_UNIT_WATT,
  SW_UNIT_LUMEN,
  SW_UNIT_VOLT,
  SW_UNIT_AMPERE,
  SW_UNIT_CELSIUS,
  SW_UNIT_KG_M2,
  SW_UNIT_DB,
  SW_UNIT_M2,
  SW_UNIT_MINUTE,
  SW_N_UNITS
} SwUnit;

/* "mm", "°", "1:", "%", "kPa" …; the empty string for SW_UNIT_NONE. Static. */
const char *sw_unit_symbol (SwUnit unit);
