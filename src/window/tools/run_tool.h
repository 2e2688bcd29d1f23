/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "window/tools/tool.h"

/* Takes the run that is being drawn under the ribs to the void at `to`; for tools of class pipe and conduit. */
gboolean sw_run_tool_cross (SwTool *tool, SwPoint to, GError **error);
