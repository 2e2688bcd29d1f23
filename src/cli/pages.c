/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/pages.h"
#include "sheets/report.h"
#include <glib/gi18n.h>
#include <string.h>

static int
put_bytes (const char *to, GBytes *bytes, GError *error)
{
  gsize length;
  if (bytes == NULL)
    return sw_cli_fail (error);
  const char *data = g_bytes_get_data (bytes, &length);
  return sw_cli_put (to, data, (gssize) length);
}

int
sw_cli_put_pages (const SwSheetPage *pages, guint n, SwPageFormat format, const char *to)
{
  GError *error = NULL;
  int result = SW_CLI_GOOD;
  if (format == SW_PAGE_PDF)
    {
      g_autoptr (GBytes) bytes = sw_page_write_pdf (pages, n, &error);
      return put_bytes (to, bytes, error);
    }
  if (n > 1 && (to == NULL || strcmp (to, "-") == 0))
    {
      g_printerr (_("soffit: the sheet has %u pages: name a file with --to, or ask for --format pdf\n"), n);
      return SW_CLI_FAILED;
    }
  for (guint i = 0; i < n && result == SW_CLI_GOOD; i++)
    {
      g_autofree char *path = to != NULL ? sw_sheets_page_path (to, i, n) : NULL;
      g_autoptr (GBytes) bytes = sw_page_write (pages[i].display, &pages[i].page, format, &error);
      result = put_bytes (path, bytes, error);
    }
  return result;
}
