/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "checks/check.h"

/* The functions that the table in entries.c names. Each looks at one rule. */

#define SW_CHECK_PAIR(name) \
  double sw_check_##name##_needed (const SwCheckRun *run, const SwBody *first, const SwBody *second); \
  void sw_check_##name##_pair (SwCheckRun *run, const SwCheckPair *pair)
#define SW_CHECK_RECORD(name) void sw_check_##name##_record (SwCheckRun *run, const SwRecord *record)

/* bays.c */
SW_CHECK_RECORD (bay_over);

/* deck.c */
SW_CHECK_PAIR (rib);
SW_CHECK_PAIR (web);
SW_CHECK_PAIR (crown);
SW_CHECK_PAIR (closure);
SW_CHECK_PAIR (solid);
SW_CHECK_PAIR (beam);
SW_CHECK_PAIR (column);
SW_CHECK_PAIR (plate);
SW_CHECK_PAIR (plate_hanger);
SW_CHECK_PAIR (unmeasured);
SW_CHECK_RECORD (opening);
SW_CHECK_RECORD (sleeve_answer);
SW_CHECK_RECORD (sleeve_size);
SW_CHECK_RECORD (rib_hole);
SW_CHECK_RECORD (topping);

/* ceiling.c */
SW_CHECK_PAIR (batten);
SW_CHECK_RECORD (depth);
SW_CHECK_RECORD (joint);
SW_CHECK_RECORD (laid);
SW_CHECK_RECORD (board);
SW_CHECK_RECORD (grid);
SW_CHECK_RECORD (drill);
SW_CHECK_RECORD (layout);
SW_CHECK_RECORD (suspended);
SW_CHECK_RECORD (bulkhead);
SW_CHECK_RECORD (height);
SW_CHECK_RECORD (projection);

/* runs.c */
SW_CHECK_PAIR (runs);
SW_CHECK_PAIR (segregation);
SW_CHECK_PAIR (conduit_pipe);
SW_CHECK_PAIR (gas_electric);
SW_CHECK_RECORD (gas_void);
SW_CHECK_PAIR (zinc);
SW_CHECK_RECORD (drip);
SW_CHECK_RECORD (over_electrical);
SW_CHECK_RECORD (bend);
SW_CHECK_RECORD (wall_drop);
SW_CHECK_RECORD (drop_set);
SW_CHECK_RECORD (chase);
SW_CHECK_RECORD (sweating);

/* lights.c */
SW_CHECK_PAIR (light_service);
SW_CHECK_PAIR (light_heat);
SW_CHECK_PAIR (light_rib);
SW_CHECK_PAIR (light_crown);
SW_CHECK_PAIR (light_plate);
SW_CHECK_PAIR (light_batten);
SW_CHECK_PAIR (light_light);
SW_CHECK_RECORD (light_joint);
SW_CHECK_RECORD (light_hatch);
SW_CHECK_RECORD (light_wall);
SW_CHECK_RECORD (light_driver);
SW_CHECK_RECORD (light_hood);

/* circuits.c */
SW_CHECK_RECORD (volt_drop);
SW_CHECK_RECORD (cable_rating);
SW_CHECK_RECORD (circuit_load);
SW_CHECK_RECORD (pipe_flow);

/* falls.c */
SW_CHECK_RECORD (fall);
SW_CHECK_RECORD (fall_out);
SW_CHECK_RECORD (gravity_end);
SW_CHECK_RECORD (start);

/* walls.c */
SW_CHECK_PAIR (wall);
SW_CHECK_RECORD (separating);
SW_CHECK_RECORD (filler);

/* access.c */
SW_CHECK_RECORD (reach);
SW_CHECK_RECORD (drop_in);
SW_CHECK_RECORD (outlet);

/* conduit.c */
SW_CHECK_RECORD (turns);
SW_CHECK_RECORD (draw_length);
SW_CHECK_RECORD (conduit_fill);
SW_CHECK_RECORD (expansion);
SW_CHECK_RECORD (support);

/* records.c */
SW_CHECK_RECORD (fault);
SW_CHECK_RECORD (hold);
SW_CHECK_RECORD (closing);
SW_CHECK_RECORD (room_wall);

/* Greatest distance between power and data that the job's rules can ask for; 0 when it has not both. */
double sw_check_segregation_reach (const SwCheckRun *run);
