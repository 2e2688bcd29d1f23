/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Scales the plan picture that lies under the plan: two places of it and the distance between them that is known. The first
 * place stays where it is. */
#include "window/tools/board_data.h"
#include "sheets/words.h"
#include "base/number.h"

typedef struct
{
  SwTool tool;
  int n; /* places that stand */
  SwPoint a, b;
} Scale;

static const SwUnderlay *
shown_underlay (SwBoard *board)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_board_job (board), SW_TABLE_UNDERLAY); (record = sw_job_iter_next (&i)) != NULL;)
    if (((const SwUnderlay *) record)->shown)
      return (const SwUnderlay *) record;
  return NULL;
}

static void
scale_set (Scale *scale, int n)
{
  char drawn[SW_LENGTH_BUF];
  scale->n = n;
  sw_board_set_anchor (scale->tool.board, n == 1 ? &scale->a : NULL);
  sw_board_offer (scale->tool.board, n == 2 ? SW_TYPED_BIT (SW_TYPED_VALUE) : 0);
  if (n == 2)
    sw_board_say (scale->tool.board, g_strdup_printf (_("Drawn %s apart: type the true distance, then Enter"),
                                                      sw_board_length (scale->tool.board, sw_point_distance (scale->a, scale->b), SW_LENGTH_UNIT, drawn)));
  else
    sw_board_say (scale->tool.board, n == 1 ? g_strdup (_("Click the second place")) : NULL);
}

static void
scale_motion (SwTool *tool, const SwToolEvent *event)
{
  if (((Scale *) tool)->n == 1)
    ((Scale *) tool)->b = event->raw;
}

static gboolean
apply (Scale *scale, double true_mm)
{
  SwBoard *board = scale->tool.board;
  const SwUnderlay *underlay = shown_underlay (board);
  double drawn = sw_point_distance (scale->a, scale->b);
  if (underlay == NULL || drawn <= 0 || true_mm <= 0)
    return FALSE;
  double k = true_mm / drawn;
  SwUnderlay *copy = (SwUnderlay *) sw_record_copy (&underlay->record);
  GPtrArray *records = g_ptr_array_new ();
  copy->scale *= k;
  copy->origin = sw_point_add (scale->a, sw_point_scale (sw_point_sub (underlay->origin, scale->a), k));
  g_ptr_array_add (records, copy);
  return sw_board_put_all (board, _("Scale the plan picture"), records);
}

static void
scale_press (SwTool *tool, const SwToolEvent *event)
{
  Scale *scale = (Scale *) tool;
  double value;
  if (shown_underlay (tool->board) == NULL)
    {
      sw_board_say (tool->board, g_strdup (_("There is no plan picture under the plan")));
      return;
    }
  if (scale->n == 2)
    {
      if (sw_typed_value (sw_board_typed (tool->board), SW_TYPED_VALUE, &value, NULL) && apply (scale, value))
        scale_set (scale, 0);
      return;
    }
  if (scale->n == 0)
    scale->a = event->raw;
  scale->b = event->raw;
  if (scale->n == 0 || sw_point_distance (scale->a, scale->b) > 0)
    scale_set (scale, scale->n + 1);
}

static gboolean
scale_drop (SwTool *tool)
{
  gboolean had = ((Scale *) tool)->n > 0;
  scale_set ((Scale *) tool, 0);
  return had;
}

static void
scale_draw (SwTool *tool, SwDisplay *live)
{
  Scale *scale = (Scale *) tool;
  static const SwStroke line = { .role = SW_ROLE_DRAFT, .width = 2, .unit = SW_SIZE_PX, .round = TRUE };
  if (scale->n == 0)
    return;
  double reach = sw_board_px (tool->board, 6);
  sw_display_add_line (live, scale->a, scale->b, &line);
  sw_display_add_circle (live, scale->a, reach, NULL, &line);
  sw_display_add_circle (live, scale->b, reach, NULL, &line);
}

const SwToolClass sw_tool_scale = {
  .row = { "scale", N_("Scale picture"), N_("Click two places of the plan picture whose distance you know"), SW_SITE_BIT (SW_SITE_MEASURE),
           SW_N_TABLES, 'j' },
  .size = sizeof (Scale), .press = scale_press, .motion = scale_motion, .drop = scale_drop, .draw = scale_draw,
};
