/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/units.h"

const char *
sw_unit_symbol (SwUnit unit)
{
  static const char *const symbols[SW_N_UNITS] = { "", "mm", "°", "1:", "%", "kPa", "W", "lm", "V", "A", "°C", "kg/m²", "dB", "m²", "min" };
  g_assert ((int) unit >= 0 && unit < SW_N_UNITS);
  return symbols[unit];
}
