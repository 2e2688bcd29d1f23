/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "store/catalogue.h"
#include "base/paths.h"
#include "store/price_list.h"
#include "store/text_form.h"

SwJob *
sw_catalogue_load (GError **error)
{
  g_autofree char *path = sw_data_path ("catalogue.json");
  g_autoptr (SwJob) profiles = sw_text_form_load (path, error);
  return profiles != NULL ? sw_price_list_or_default (profiles, error) : NULL;
}
