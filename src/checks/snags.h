/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "checks/snag.h"

/* Takes the array of SwSnag over and puts it in order; keeps a reference on the space. Inside the layer. */
SwSnags *sw_snags_new (SwSpace *space, GArray *snags);
void sw_snag_clear (SwSnag *snag);
