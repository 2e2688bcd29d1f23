/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "estimate/labour.h"
#include "base/text.h"
#include <math.h>
#include <string.h>

/* What is put up, by what a day's work of it is measured in the take-off. */
static const struct
{
  const char *text;
  SwPriceKind what, by;
  const char *sizes;  /* only of needs whose size begins with one of these words; NULL: all */
  const char *output; /* row of labour.output */
  gboolean once;      /* by the boarded area, however often it is coated */
} works[] = {
  { N_ ("conduit"), SW_PRICE_CONDUIT, SW_PRICE_CONDUIT, NULL, "conduit", FALSE },
  { N_ ("copper pipe"), SW_PRICE_PIPE, SW_PRICE_PIPE, "copper-", "copper", FALSE },
  { N_ ("waste pipe"), SW_PRICE_PIPE, SW_PRICE_PIPE, "pvc- pp-", "waste-pipe", FALSE },
  { N_ ("open soffit cleaned"), SW_PRICE_CLEAN, SW_PRICE_CLEAN, NULL, "soffit-clean", FALSE },
  { N_ ("open soffit painted, all coats"), SW_PRICE_SOFFIT_COAT, SW_PRICE_SOFFIT_COAT, NULL, "paint-roller", FALSE },
  { N_ ("brandering"), SW_PRICE_BATTEN, SW_PRICE_CEILING_COAT, NULL, "battens", TRUE },
  { N_ ("boards put up"), SW_PRICE_BOARD, SW_PRICE_CEILING_COAT, NULL, "boards", TRUE },
  { N_ ("joints taped, skimmed"), SW_PRICE_SKIMMING, SW_PRICE_SKIMMING, NULL, "skim", FALSE },
  { N_ ("joints taped, filled"), SW_PRICE_JOINTING, SW_PRICE_JOINTING, NULL, "skim", FALSE },
  { N_ ("cornice"), SW_PRICE_CORNICE, SW_PRICE_CORNICE, NULL, "cornice", FALSE },
  { N_ ("boards painted, all coats"), SW_PRICE_CEILING_COAT, SW_PRICE_CEILING_COAT, NULL, "paint-roller", FALSE },
  { N_ ("suspended grid"), SW_PRICE_GRID, SW_PRICE_GRID, NULL, "grid", FALSE },
  { N_ ("lights"), SW_PRICE_LIGHT, SW_PRICE_LIGHT, NULL, "downlight", FALSE },
};

guint
sw_labour_n_works (void)
{
  return G_N_ELEMENTS (works);
}

static gboolean
is_of (const SwNeed *need, guint work)
{
  if (need->kind != works[work].by || works[work].sizes == NULL)
    return need->kind == works[work].by;
  g_auto (GStrv) starts = g_strsplit (works[work].sizes, " ", -1);
  for (guint i = 0; starts[i] != NULL; i++)
    if (g_str_has_prefix (sw_price_size (need->code), starts[i]))
      return TRUE;
  return FALSE;
}

gboolean
sw_labour_of (const SwRules *rules, const GPtrArray *needs, guint work, SwLabour *labour)
{
  SwRuleValue low, high, crew, coats;
  const char *row = works[work].output;
  *labour = (SwLabour){ .text = works[work].text, .unit = sw_price_info (works[work].by)->unit };
  for (guint i = 0; i < needs->len; i++)
    labour->amount += is_of (needs->pdata[i], work) ? sw_quantity_to_double (((const SwNeed *) needs->pdata[i])->quantity) : 0;
  if (works[work].once && sw_rules_lookup (rules, "paint.systems", "finish", "coats", &coats, NULL))
    labour->amount /= coats.value;
  if (labour->amount <= 0 || !sw_rules_lookup (rules, "labour.output", row, "low", &low, NULL) || !sw_rules_lookup (rules, "labour.output", row, "crew", &crew, NULL))
    return FALSE;
  if (!sw_rules_lookup (rules, "labour.output", row, "high", &high, NULL))
    high = low;
  double hours = crew.value * sw_rules_value (rules, "labour.rules", "day_hours").value;
  labour->output_low = low.value;
  labour->output_high = high.value;
  labour->crew = crew.value;
  labour->days_low = labour->amount / high.value;
  labour->days_high = labour->amount / low.value;
  labour->hours_low = labour->days_low * hours;
  labour->hours_high = labour->days_high * hours;
  labour->rule = high.confidence > low.confidence ? high : low;
  return TRUE;
}

gboolean
sw_labour_work_for (SwPriceKind kind, guint *work)
{
  for (*work = 0; *work < G_N_ELEMENTS (works); ++*work)
    if (works[*work].what == kind && works[*work].sizes == NULL)
      return TRUE;
  return FALSE;
}

void
sw_labour_hours (const SwRules *rules, const GPtrArray *needs, double *low, double *high)
{
  SwLabour labour;
  *low = *high = 0;
  for (guint i = 0; i < G_N_ELEMENTS (works); i++)
    if (sw_labour_of (rules, needs, i, &labour))
      {
        *low += labour.hours_low;
        *high += labour.hours_high;
      }
}
