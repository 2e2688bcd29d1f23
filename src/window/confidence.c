/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/confidence.h"
#include "sheets/words.h"

const char *
sw_confidence_label (SwConfidence confidence)
{
  static const char *const labels[SW_N_CONFIDENCES] = { N_("published"), N_("common practice"), N_("derived"), N_("from memory") };
  return sw_word (labels[confidence]);
}
