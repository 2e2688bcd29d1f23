/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writes a job with values of its own in every field, as text:  sample-job SEED RECORDS-A-TABLE */
#include "../store/sample.h"
#include "store/text_form.h"
#include <glib.h>

int
main (int argc, char **argv)
{
  if (argc != 3)
    return 2;
  g_autoptr (SwJob) job = sw_sample_job (g_ascii_strtoull (argv[1], NULL, 10), (guint) g_ascii_strtoull (argv[2], NULL, 10));
  g_autofree char *text = sw_text_form_write (job);
  g_print ("%s", text);
  return 0;
}
