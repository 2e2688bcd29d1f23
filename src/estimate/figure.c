/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "estimate/figure.h"
#include "base/number.h"
#include <math.h>

gboolean
sw_figure_is_known (const SwFigureInfo *info, const SwFigure *figure)
{
  if (info->kind == SW_FIGURE_MONEY)
    return figure->known;
  return info->kind == SW_FIGURE_WORD ? figure->word != NULL : isfinite (figure->number);
}

char *
sw_figure_write (const SwFigureInfo *info, const SwFigure *figure)
{
  char money[SW_MONEY_BUF], number[SW_NUMBER_BUF];
  if (!sw_figure_is_known (info, figure))
    return g_strdup ("");
  if (info->kind == SW_FIGURE_MONEY)
    return g_strdup (sw_money_write (figure->money, money));
  return g_strdup (info->kind == SW_FIGURE_WORD ? figure->word : sw_number_write_fixed (figure->number, info->decimals, number));
}
