/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "store/catalogue.h"
#include "base/paths.h"
#include "store/text_form.h"

SwJob *
sw_catalogue_load (GError **error)
{
  g_autofree char *path = sw_data_path ("catalogue.json");
  return sw_text_form_load (path, error);
}
