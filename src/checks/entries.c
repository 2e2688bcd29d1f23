/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "checks/entries.h"
#include "base/text.h"

#define PAIR(name) sw_check_##name##_needed, sw_check_##name##_pair
#define RECORD(name) sw_check_##name##_record
#define BODY(kind) SW_BODY_BIT (SW_BODY_##kind)
#define TABLE(table) SW_TABLE_BIT (SW_TABLE_##table)

/* What bodies of services meet. */
#define OF_BODIES(id, trade, first, second, function, title, what) \
  { { id, SW_TRADE_##trade, title, what }, first, second, PAIR (function), 0, NULL }
#define OF_RECORDS(id, trade, tables, function, title, what) \
  { { id, SW_TRADE_##trade, title, what }, 0, 0, NULL, NULL, tables, RECORD (function) }

/* One line a rule. Its order is the order of snags of one severity. Messages of the same ids stand in messages.c. */
const SwCheckEntry sw_check_entries[] = {
  OF_RECORDS ("fault", ARCHITECT, TABLE (JOB) | TABLE (RUN), fault, N_ ("Cannot be worked out"),
              N_ ("Records from which no body in space can be made.")),

  OF_RECORDS ("bay-over-bay", ARCHITECT, TABLE (BAY), bay_over, N_ ("Bay over bay"),
              N_ ("Bays lie side by side: one place belongs to one of them.")),

  OF_BODIES ("rib-clearance", PLUMBER, SW_BODIES_SERVICE, BODY (RIB), rib, N_ ("Service at a rib"),
             N_ ("Tube, socket, insulation and clearance against the underside of a rib, and services that go through one.")),
  OF_BODIES ("web-clearance", PLUMBER, SW_BODIES_SERVICE, BODY (RIB), web, N_ ("Service at the side of a void"),
             N_ ("Tube, socket, insulation and clearance against the sloping side of a void.")),
  OF_BODIES ("crown-clearance", PLUMBER, SW_BODIES_SERVICE, BODY (CROWN), crown, N_ ("Service at the crown"),
             N_ ("Services against the crown of a void and the topping.")),
  OF_BODIES ("closure", PLUMBER, SW_BODIES_SERVICE, BODY (CLOSURE), closure, N_ ("Service at a closure"),
             N_ ("A void ends at its closure: what goes on needs a sleeve.")),
  OF_BODIES ("solid-zone", PLUMBER, SW_BODIES_SERVICE, BODY (SOLID), solid, N_ ("Service at a solid zone"),
             N_ ("Solid zones carry the shear at supports: what goes through needs a sleeve.")),
  OF_RECORDS ("opening-edge", PLUMBER, TABLE (RUN), opening, N_ ("Service at an opening's edge"),
              N_ ("Distance of services in a void from the edge of an opening.")),
  OF_BODIES ("downstand", PLUMBER, SW_BODIES_SERVICE, BODY (BEAM), beam, N_ ("Service at a downstand beam"),
             N_ ("Services cross a downstand beam below it or by a sleeve.")),
  OF_BODIES ("column", PLUMBER, SW_BODIES_SERVICE, BODY (COLUMN), column, N_ ("Service at a column"),
             N_ ("Services against columns.")),
  OF_BODIES ("plate", PLUMBER, SW_BODIES_SERVICE, BODY (PLATE), plate, N_ ("Stiffener plate in the way"),
             N_ ("A plate stops a run until the engineer releases it; what is out is no obstacle.")),
  OF_BODIES ("plate-hanger", PLUMBER, BODY (FITTING), BODY (PLATE), plate_hanger, N_ ("Hanger on a plate that goes"),
             N_ ("No saddle or hanger on a plate that is released to be taken out.")),
  OF_RECORDS ("sleeve-answer", ENGINEER, TABLE (SLEEVE), sleeve_answer, N_ ("Sleeve: engineer's answer"),
              N_ ("A sleeve through the deck waits for the engineer's answer.")),
  OF_RECORDS ("sleeve-size", PLUMBER, TABLE (SLEEVE), sleeve_size, N_ ("Sleeve too small"),
              N_ ("Room between a sleeve and the pipe with its insulation.")),
  OF_RECORDS ("rib-hole", ENGINEER, TABLE (SLEEVE), rib_hole, N_ ("Hole in a rib"),
              N_ ("Size and height of a hole through a rib against what may be asked of the engineer.")),
  OF_RECORDS ("topping-conduit", ELECTRICIAN, TABLE (RUN), topping, N_ ("Conduit in the topping"),
              N_ ("Diameter of what is cast into the topping against the topping's thickness.")),

  OF_RECORDS ("ceiling-depth", PLUMBER, TABLE (RUN) | TABLE (FITTING), depth, N_ ("Service deeper than the ceiling"),
              N_ ("What hangs above a closed ceiling against the back of its boards; crossings below a rib against the brandering.")),
  OF_BODIES ("batten", PLUMBER, SW_BODIES_SERVICE, BODY (MEMBER), batten, N_ ("Service at a batten"),
             N_ ("Crossings run in the gaps between battens.")),
  OF_BODIES ("run-run", PLUMBER, SW_BODIES_SERVICE, SW_BODIES_SERVICE, runs, N_ ("Services at each other"),
             N_ ("Tubes, sockets and fittings of different runs, but where they join.")),
  OF_BODIES ("segregation", ELECTRICIAN, SW_BODIES_RUN, SW_BODIES_RUN, segregation, N_ ("Power beside data"),
             N_ ("Distance of data from power by class of cable and containment.")),
  OF_BODIES ("conduit-pipe", ELECTRICIAN, SW_BODIES_RUN, SW_BODIES_RUN, conduit_pipe, N_ ("Conduit beside a pipe"),
             N_ ("Conduits that run beside pipes of another trade keep a distance.")),
  OF_BODIES ("gas-electric", PLUMBER, SW_BODIES_SERVICE, SW_BODIES_SERVICE, gas_electric, N_ ("Gas beside electricity"),
             N_ ("Distance of gas pipes from conduits and electrical gear.")),
  OF_RECORDS ("gas-void", PLUMBER, TABLE (RUN), gas_void, N_ ("Gas in a closed void"),
              N_ ("No gas pipe in a closed void without ventilation.")),
  OF_BODIES ("copper-zinc", PLUMBER, SW_BODIES_RUN, BODY (RIB) | BODY (CROWN) | BODY (CLOSURE) | BODY (PLATE) | SW_BODIES_RUN,
             zinc, N_ ("Copper on galvanised steel"), N_ ("Bare copper and brass keep off the galvanised trough.")),
  OF_RECORDS ("over-electrical", PLUMBER, TABLE (FITTING), over_electrical,
             N_ ("Joint above electrical gear"), N_ ("No joint or valve of a wet pipe above a board, box or driver.")),
  OF_RECORDS ("sweating", PLUMBER, TABLE (RUN), sweating, N_ ("Cold pipe sweats"),
              N_ ("Insulation of cold pipes in closed voids against the dew point.")),

  OF_RECORDS ("fall", PLUMBER, TABLE (RUN), fall, N_ ("Fall of a pipe"),
              N_ ("Gradient of falling pipes: level, backwards, too flat, too steep.")),
  OF_RECORDS ("fall-out", PLUMBER, TABLE (RUN), fall_out, N_ ("Falling pipe leaves the void"),
              N_ ("Where socket and tube of a falling pipe pass the soffit.")),
  OF_RECORDS ("gravity-end", PLUMBER, TABLE (RUN), gravity_end, N_ ("Falling pipe without an end"),
              N_ ("Every gravity run ends at a stack, gully or exit, or goes on in another.")),
  OF_RECORDS ("run-start", PLUMBER, TABLE (RUN), start, N_ ("Run starts at nothing"),
              N_ ("Runs start at a thing with a name.")),

  OF_RECORDS ("wall-separating", ARCHITECT, TABLE (RUN), separating, N_ ("Service through a separating wall"),
              N_ ("What crosses a fire or sound wall needs a sleeve and stopping.")),
  OF_RECORDS ("wall-filler", ARCHITECT, TABLE (WALL), filler, N_ ("Voids open above a separating wall"),
              N_ ("A separating wall that stops below the crown leaves each void open.")),
  OF_BODIES ("wall-pass", PLUMBER, SW_BODIES_RUN, BODY (WALL), wall, N_ ("Service through a wall"),
             N_ ("Runs that need a hole in a plain wall.")),

  OF_BODIES ("light-service", ELECTRICIAN, SW_BODIES_SERVICE, BODY (LIGHT), light_service, N_ ("Service at a downlight"),
             N_ ("Services against the bodies of downlights.")),
  OF_BODIES ("light-heat", ELECTRICIAN, SW_BODIES_SERVICE, BODY (HEAT), light_heat, N_ ("Service in a downlight's heat"),
             N_ ("Services against the heat zone of downlights.")),
  OF_BODIES ("light-rib", ELECTRICIAN, BODY (LIGHT), BODY (RIB) | BODY (CLOSURE) | BODY (SOLID) | BODY (BEAM) | BODY (COLUMN),
             light_rib, N_ ("Downlight at concrete"), N_ ("Bodies of downlights against ribs, closures, solid zones, beams and columns.")),
  OF_BODIES ("light-crown", ELECTRICIAN, BODY (LIGHT), BODY (CROWN), light_crown, N_ ("Downlight at the crown"),
             N_ ("Room above a downlight for springs and driver.")),
  OF_BODIES ("light-plate", ELECTRICIAN, BODY (LIGHT), BODY (PLATE), light_plate, N_ ("Downlight at a plate"),
             N_ ("Bodies of downlights against stiffener plates.")),
  OF_BODIES ("light-batten", ELECTRICIAN, BODY (LIGHT), BODY (MEMBER), light_batten, N_ ("Downlight at a batten"),
             N_ ("The cut-out of a downlight against battens: they burn, and they carry.")),
  OF_RECORDS ("light-joint", ELECTRICIAN, TABLE (LIGHT), light_joint, N_ ("Downlight at a joint"),
              N_ ("The cut-out of a downlight against joints of boards.")),
  OF_RECORDS ("light-wall", ELECTRICIAN, TABLE (LIGHT), light_wall, N_ ("Downlight at a wall"),
              N_ ("The cut-out of a downlight against walls.")),
  OF_BODIES ("light-light", ELECTRICIAN, BODY (LIGHT), BODY (LIGHT) | BODY (HEAT), light_light, N_ ("Downlight at another"),
             N_ ("Bodies of downlights against each other and each other's heat.")),
  OF_RECORDS ("light-driver", ELECTRICIAN, TABLE (LIGHT), light_driver, N_ ("Driver larger than the cut-out"),
              N_ ("A driver goes in through the hole of its light.")),

  OF_RECORDS ("conduit-turns", ELECTRICIAN, TABLE (RUN), turns, N_ ("Too many turns between boxes"),
              N_ ("Turns of a conduit in true angles between draw points.")),
  OF_RECORDS ("conduit-length", ELECTRICIAN, TABLE (RUN), draw_length, N_ ("Long way between boxes"),
              N_ ("Length of a conduit between draw points.")),
  OF_RECORDS ("volt-drop", ELECTRICIAN, TABLE (CIRCUIT), volt_drop, N_ ("Volt drop"),
              N_ ("Volt drop at a circuit's farthest point along its runs.")),
  OF_RECORDS ("cable-rating", ELECTRICIAN, TABLE (CIRCUIT), cable_rating, N_ ("Cable too thin"),
              N_ ("What a circuit's cable carries in the air of a closed void.")),
  OF_RECORDS ("pipe-flow", PLUMBER, TABLE (RUN), pipe_flow, N_ ("Flow of a pipe"),
              N_ ("What a pipe carries at its fall, and whether water flows too fast.")),
  OF_RECORDS ("support", PLUMBER, TABLE (RUN), support, N_ ("Hangers far apart"),
              N_ ("Gaps between the hangers of a run, where they are drawn.")),
  OF_RECORDS ("hatch-reach", ARCHITECT, TABLE (FITTING), reach, N_ ("Out of a hatch's reach"),
              N_ ("Boxes, valves, eyes and drivers above a closed ceiling lie within reach of a hatch, along one void and before its plates.")),
  OF_RECORDS ("drop-in", PLUMBER, TABLE (DROP_IN), drop_in, N_ ("Drop-in over a rib"),
              N_ ("The hole of a drop-in lies wholly over a crown.")),

  OF_RECORDS ("drill-strip", ENGINEER, TABLE (LAYOUT) | TABLE (FITTING), drill, N_ ("Fixing into a rib"),
              N_ ("Fixings deeper than the cover need a safe strip between the bars.")),
  OF_RECORDS ("joint-batten", CEILING, TABLE (LAYOUT), joint, N_ ("End joint off its batten"),
              N_ ("End joints of boards lie on battens with enough bearing for both sheets.")),
  OF_RECORDS ("room-height", ARCHITECT, TABLE (ROOM), height, N_ ("Ceiling too low"),
              N_ ("Height of a room against the least one for its use; ribs count when they cover too much of the plan.")),
  OF_RECORDS ("projection", ARCHITECT, TABLE (ROOM), projection, N_ ("Rib or beam too low"),
              N_ ("No rib or beam hangs lower than the rule allows.")),
  OF_RECORDS ("ceiling-layout", CEILING, TABLE (ROOM), layout, N_ ("Ceiling not laid out"),
              N_ ("Closed rooms have a layout of battens and boards that is up to date.")),
  OF_RECORDS ("hold-point", ARCHITECT, TABLE (ROOM), hold, N_ ("Closed before the test"),
              N_ ("No room is closed while a test of its pipes is open.")),
  OF_BODIES ("unmeasured", PLUMBER, SW_BODIES_SERVICE | BODY (LIGHT), BODY (RIB) | BODY (PLATE), unmeasured,
             N_ ("Measure before cutting"), N_ ("Clearances that are smaller than what an unmeasured deck may be off.")),
};

const guint sw_check_n_entries = G_N_ELEMENTS (sw_check_entries);
