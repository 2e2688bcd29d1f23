/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "job/record.h"

/* The tables of a job. Lengths in mm, angles in degrees counter-clockwise from x, levels as said at each field.
 * "0: rule set" means that a zero is looked up there. */

typedef struct
{
  SwRecord record;
  char *name, *number, *rule_set, *currency, *revision, *prepared_by, *datum_name, *pour_date, *note, *rule_overrides;
  int units;           /* SwLengths: how lengths are shown and typed; in the model they are in mm */
  double floor_level;  /* finished floor above the site datum */
  double level_line;   /* above the finished floor */
  double soffit_level; /* nominal soffit above the finished floor: z = 0 of the whole job */
} SwJobInfo;

typedef struct { SwRecord record; SwPoint from, to; } SwGridline; /* the tag is its name */

typedef enum { SW_RIB_FACE_CONCRETE, SW_RIB_FACE_STEEL, SW_RIB_FACE_BOARD } SwRibFace;
typedef enum { SW_TENDONS_UNKNOWN, SW_TENDONS_NO, SW_TENDONS_YES } SwTendons;

typedef struct
{
  SwRecord record;
  char *name;
  double pitch, mouth, crown, depth, sheet, topping; /* widths at soffit and crown, depth of the void */
  double cover, link, bar, plate_spacing;
  int rib_face, tendons;
} SwProfile;

typedef struct
{
  SwRecord record;
  char *name;
  SwList outline; /* SwPoint */
  SwId profile;
  double direction;        /* of the voids */
  double first_rib;        /* centre line of rib 0 from the outline's lowest side across the voids */
  double level;            /* soffit above the job's soffit level at the outline's corner of lowest x and y */
  double slope_x, slope_y; /* rise in mm per m */
  double closure_start, closure_end; /* from the outline to the closure, along the voids */
  double plate_first, plate_spacing; /* from the start closure; spacing 0: the profile's */
  double allowance;        /* suspended load that the engineer allows, kPa; 0 = not known */
  int first_void, first_plate; /* numbers of the first ones */
  gboolean backwards;      /* void numbers count down */
} SwBay;

/* A plate of which something is known; plates exist without one. */
typedef struct
{
  SwRecord record;
  SwId bay;
  int void_number, plate_number;
  char *released_by, *released_on, *reference, *out_on;
} SwPlate;

typedef struct { SwRecord record; SwList outline; char *note; } SwOpening;
typedef enum { SW_COLUMN_COLUMN, SW_COLUMN_SHAFT } SwColumnKind;
typedef struct { SwRecord record; SwList outline; int kind; } SwColumn;
typedef struct { SwRecord record; SwPoint from, to; double width, drop; } SwBeam; /* drop below the soffit */
typedef struct { SwRecord record; SwList outline; char *note; } SwSolidZone;

typedef enum { SW_FINISH_CLOSED, SW_FINISH_GRID, SW_FINISH_EXPOSED } SwFinish;
typedef enum { SW_DIRECTION_ACROSS, SW_DIRECTION_ALONG } SwBattenDirection; /* to the ribs */
typedef enum { SW_BOARD_GYPSUM, SW_BOARD_FIBRE_CEMENT, SW_BOARD_FIRE, SW_BOARD_MOISTURE } SwBoardKind;
typedef enum { SW_EDGE_CORNICE, SW_EDGE_SHADOW, SW_EDGE_PLAIN } SwEdgeKind;
typedef enum { SW_LIGHTS_MOVE, SW_LIGHTS_TRIM } SwLightsAtBattens; /* what gives way where a light meets a batten */
typedef enum { SW_BOARD_JOINTS_SKIM, SW_BOARD_JOINTS_TAPE, SW_BOARD_JOINTS_STRIP } SwBoardJoints;
typedef enum { SW_SHEET_CHOSEN, SW_SHEET_CHEAPEST } SwSheetChoice; /* cheapest of the price list, whose size then becomes the room's */
typedef enum { SW_USE_HABITABLE, SW_USE_SERVICE, SW_USE_ASSEMBLY } SwRoomUse;
typedef enum { SW_BATTENS_TIMBER, SW_BATTENS_STEEL } SwBattenMaterial;
typedef struct
{
  SwRecord record;
  char *name;
  SwList outline;
  int use, finish, direction, board_kind, edge, lights, joints, sheet_choice, material, grade; /* of the battens; grade 0: the rule set's first */
  double floor_offset;               /* of this room's finished floor above the job's */
  double batten_width, batten_depth; /* depth is vertical */
  double batten_centres, batten_shift; /* greatest, 0: rule set; of the grid that sheets are joined on, from its wall, less than the centres */
  double primary_depth, primary_centres; /* upper layer when battens run along the ribs */
  double board_thickness, board_length, board_width, sheet_most; /* the last: longest sheet that stair and door pass; 0: any */
  double insulation;                 /* thickness above the boards */
  double grid_drop;                  /* suspended grid below the soffit */
  double packing;                    /* between rib and batten at the lowest point of the soffit */
  double fire_minutes;               /* asked of the ceiling */
  gboolean boards_turned, battens_least; /* long side along the battens; these turn where that costs least */
  gboolean wet;                      /* boards have to stand steam and splashes */
} SwRoom;

typedef enum { SW_BULKHEAD_HUNG, SW_BULKHEAD_FRAMED } SwBulkheadFrame;
/* Where a room's ceiling hangs lower: its face `drop` below the room's, upright faces along sides that are no walls. What of the
 * outline lies outside the room does not count; where two overlap, the lower one is there. */
typedef struct
{
  SwRecord record;
  SwId room;
  SwList outline;     /* SwPoint: finished faces */
  double drop;
  int frame;          /* battens hung from the ribs; or spanning from its frame to the wall, held by no hangers */
  char *build_up, *note;
} SwBulkhead;

typedef enum { SW_WALL_BRICK, SW_WALL_BLOCK, SW_WALL_CONCRETE, SW_WALL_STUD, SW_WALL_GLASS } SwWallMaterial;
typedef enum { SW_HEAD_CEILING, SW_HEAD_RIB, SW_HEAD_CROWN, SW_HEAD_SLAB } SwWallHead;
typedef struct
{
  SwRecord record;
  SwPoint from, to; /* centre line */
  double thickness, fire_minutes, sound_db;
  int material, head;
  gboolean separating;
} SwWall;

typedef enum
{
  SW_SERVICE_WASTE, SW_SERVICE_SOIL, SW_SERVICE_RAINWATER, SW_SERVICE_CONDENSATE, SW_SERVICE_COLD, SW_SERVICE_HOT,
  SW_SERVICE_POWER, SW_SERVICE_LIGHTING, SW_SERVICE_DATA, SW_SERVICE_FIRE_ALARM, SW_SERVICE_SPRINKLER,
  SW_SERVICE_REFRIGERANT, SW_SERVICE_DUCT, SW_SERVICE_GAS, SW_N_SERVICES
} SwService;

typedef enum
{
  SW_MATERIAL_PVC, SW_MATERIAL_STEEL, SW_MATERIAL_COPPER, SW_MATERIAL_PEX, SW_MATERIAL_MULTILAYER, SW_MATERIAL_PP,
  SW_MATERIAL_CAST_IRON, SW_MATERIAL_CPVC, SW_MATERIAL_PLIABLE, SW_MATERIAL_BRASS
} SwMaterial;

/* How a vertex's `z` gives the level of the axis. */
typedef enum
{
  SW_LEVEL_VOID,    /* axis above the soffit at that place */
  SW_LEVEL_BELOW,   /* top of the tube below the soffit at that place; 0 touches the ribs */
  SW_LEVEL_TOPPING, /* axis above the crown */
  SW_LEVEL_FLOOR,   /* axis above the finished floor */
  SW_LEVEL_FALL     /* follows the run's fall from the vertex before; z is not used */
} SwLevel;

typedef struct { SwPoint at; int level; double z; } SwVertex;
typedef enum { SW_STAGE_FIRST_FIX, SW_STAGE_CAST_IN, SW_STAGE_EXISTING } SwStage;

typedef struct
{
  SwRecord record;
  char *name, *product, *contents;
  SwList vertices; /* SwVertex, 2 or more */
  SwId start, end; /* fitting, drop-in or drop; 0 for none */
  SwId circuit;
  int service, material, stage;
  double od;       /* outside diameter, or the greater side of a duct */
  double bore, socket, insulation, clearance, bend_radius; /* bore, socket, clearance, bend radius 0: rule set */
  double fall;     /* 1:n, 0 = level */
  double loading;  /* discharge or loading units carried */
} SwRun;

typedef enum
{
  SW_FITTING_BOX, SW_FITTING_BOARD, SW_FITTING_STACK, SW_FITTING_GULLY, SW_FITTING_EXIT, SW_FITTING_TEE, SW_FITTING_BEND,
  SW_FITTING_SOCKET, SW_FITTING_EYE, SW_FITTING_VALVE, SW_FITTING_HANGER, SW_FITTING_DRIVER, SW_FITTING_OTHER
} SwFittingKind;

/* A body of length × width × height about its middle; round ones have width 0 and stand upright. */
typedef struct
{
  SwRecord record;
  char *name;
  SwPoint at;
  SwId run;
  int kind, level; /* SwFittingKind; SwLevel but not fall */
  double z, length, width, height, turn;
  gboolean access; /* has to be reached after the ceiling is closed */
} SwFitting;

typedef struct
{
  SwRecord record;
  char *fixture;
  SwPoint at;
  double hole, units, drop; /* hole through the topping; discharge units; outlet axis below the crown */
} SwDropIn;

typedef struct
{
  SwRecord record;
  char *name, *protection;
  double volts, amps, cable_mm2;
  int phases, cores;
} SwCircuit;

typedef enum { SW_DROP_SWITCH, SW_DROP_SOCKET, SW_DROP_BOARD, SW_DROP_TAP, SW_DROP_OTHER } SwDropKind;
typedef struct
{
  SwRecord record;
  SwId wall, circuit;
  int kind;
  double along, height, box_depth, chase_depth; /* from the wall's start; above the finished floor */
  double units; /* loading units of a tap, the same for cold and hot */
} SwDrop;

typedef struct
{
  SwRecord record;
  char *name;
  SwPoint at;
  SwId circuit;
  double cut_out, body, recess; /* hole; body across; height above the ceiling's face */
  double driver_length, driver_width, driver_height;
  double watts, lumens, side_clearance, top_clearance; /* clearances 0: rule set */
  gboolean hood;
  gboolean trims; /* a batten in its way is cut and trimmed; else the light has to move */
} SwLight;

typedef struct { SwRecord record; SwPoint at; double length, width, turn; } SwHatch;

typedef enum { SW_THROUGH_RIB, SW_THROUGH_CLOSURE, SW_THROUGH_SOLID, SW_THROUGH_BEAM, SW_THROUGH_WALL, SW_THROUGH_TOPPING } SwThrough;
typedef enum { SW_ANSWER_OPEN, SW_ANSWER_ASKED, SW_ANSWER_ALLOWED, SW_ANSWER_CONDITIONS, SW_ANSWER_REFUSED } SwAnswer;
typedef struct
{
  SwRecord record;
  SwPoint from, to; /* ends of its axis in plan; one place for an upright one */
  SwId run;
  int through, answer;
  double z, diameter; /* axis above the soffit; hole */
  char *asked_on, *answered_by, *answered_on, *reference, *conditions;
  gboolean cast_in;
} SwSleeve;

typedef enum { SW_MEASURE_RIB, SW_MEASURE_LEVEL, SW_MEASURE_PLATE, SW_MEASURE_DEPTH, SW_MEASURE_LENGTH, SW_MEASURE_DIAGONAL, SW_MEASURE_EDGE } SwMeasureKind;
/* Edges of a rib at the soffit: "low" is the one nearer to the outline's lowest side across the voids. */
typedef enum { SW_EDGE_LOW_START = 1, SW_EDGE_HIGH_START, SW_EDGE_LOW_END, SW_EDGE_HIGH_END } SwRibEdge;
/* A value that was measured on site: centre line of rib `number` across the voids from the outline's lowest side;
 * soffit above the finished floor at `at`; plate `second` of void `number` from the start closure; depth of void
 * `number`; length of the room's wall `number`; diagonal from corner `number` to corner `second`, both from 1; edge `second` (SwRibEdge)
 * of rib `number` from the same side as its centre line, at that end. */
typedef struct
{
  SwRecord record;
  SwId of; /* bay or room */
  int kind, number, second;
  SwPoint at;
  double value;
  char *by, *on, *note;
} SwMeasure;

typedef struct
{
  SwRecord record;
  char *file, *sha256;
  SwPoint origin;     /* of the drawing's top left corner */
  double scale, turn; /* mm per unit of the drawing */
  double opacity;     /* percent */
  gboolean shown;
} SwUnderlay;

typedef enum { SW_MEMBER_BATTEN, SW_MEMBER_PRIMARY, SW_MEMBER_NOGGIN, SW_MEMBER_TRIMMER, SW_MEMBER_PERIMETER, SW_MEMBER_STUD } SwMemberKind;
/* Centre line; top above the job's z = 0. A stud stands upright: `depth` is its length, the line its width along the face. */
typedef struct { SwPoint from, to; double width, depth, top; int kind; } SwMember;
typedef struct { int piece, sheet; double length, width; gboolean cut, locked; } SwPiece; /* of the uncut piece's box; locked: laying anew leaves it */
typedef struct { int sheet; double length, width; } SwOddSheet; /* of another size than the room's */
typedef struct { int piece; SwPoint at; } SwCorner; /* the corners of each piece, in order */
typedef enum { SW_JOINT_LONG, SW_JOINT_END, SW_JOINT_MOVEMENT } SwJointKind;
typedef struct { SwPoint from, to; int kind; } SwJoint;
/* A piece of an upright face from `from` to `to`; top and height of it as it hangs. Pieces are numbered on from those of the boards. */
typedef struct { int piece, sheet; double length, width; gboolean cut; SwPoint from, to; double top; } SwFacePiece;
typedef struct { SwPoint at; double packer; int rib; } SwFixing;
typedef struct { SwPoint from, to; double width; } SwStrip; /* no screws here */
#define SW_LAID_MARK_KINDS 25
/* What the engine could not mend there, or wants to be known: kinds as SwCeilingMarkKind. */
typedef struct { SwPoint at; double value, limit; int kind; } SwLaidMark;

/* What the ceiling engine found for a room, and the hash of what it was found from. */
typedef struct
{
  SwRecord record;
  SwId room;
  char *inputs;
  SwList members, pieces, corners, joints, fixings, strips, sheets, faces, marks;
} SwLayout;

typedef enum
{
  SW_HOLD_SURVEY, SW_HOLD_SOIL_TEST, SW_HOLD_WATER_TEST, SW_HOLD_CONDUIT, SW_HOLD_CABLES, SW_HOLD_PHOTOGRAPHS, SW_HOLD_CLOSE,
  SW_HOLD_BATTENS, SW_HOLD_BOARDS, SW_HOLD_SECOND_FIX
} SwHoldKind;
typedef enum { SW_RESULT_OPEN, SW_RESULT_PASSED, SW_RESULT_FAILED } SwResult;
typedef struct { SwRecord record; SwId room; int kind, result; char *by, *on, *note; } SwHoldPoint;

typedef enum { SW_WET_AS_KIND, SW_WET_NO, SW_WET_YES } SwWetUse; /* as its kind: the rule set says */
typedef struct
{
  SwRecord record; /* the tag is the row's code, which the take-off asks for */
  char *description, *unit, *supplier; SwMoney material, labour;
  double waste, length, width, centres, field, fire_minutes, lead_days, inertia; /* percent; stock sizes; a board's own limits, 0: the rule set's; mm⁴ of a profile, 0: not known */ int wet;
} SwPrice;

/* Items of lists, for sw_list_resize and friends. */
extern const SwStruct sw_struct_point, sw_struct_vertex, sw_struct_member, sw_struct_piece, sw_struct_corner,
  sw_struct_joint, sw_struct_fixing, sw_struct_strip, sw_struct_odd_sheet, sw_struct_face_piece, sw_struct_laid_mark;

#define SW_LIST_AT(list, type, i) (((type *) (list).items)[i])
