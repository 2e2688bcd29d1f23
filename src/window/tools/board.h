/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "estimate/price_kinds.h"
#include "job/desk.h"
#include "window/tools/ceiling_draft.h"
#include "window/tools/snap.h"
#include "window/tools/typed.h"

/* The drawing board: what is picked, which tool is in hand, what is typed, and the draft beside the job. No toolkit: the
 * window passes pointer and keys in world mm and shows what the board says; tests do the same. Main thread only. */
typedef struct _SwBoard SwBoard;
typedef struct _SwToolClass SwToolClass;

/* Where a tool is found and what it is called. */
typedef struct
{
  const char *id;          /* "run", in action names */
  const char *label;       /* untranslated */
  const char *hint;        /* untranslated: what to do first */
  guint sites;             /* bits of SwSite */
  SwTable table;           /* of what it makes; SW_N_TABLES for none */
  char key;                /* letter that takes it in hand while no field is typed in; a capital: with Shift; 0 for none */
  gboolean outlines;       /* draws rectangles, or corners one by one */
} SwToolRow;

/* In the order of the site. */
typedef enum
{
  SW_SITE_MEASURE, SW_SITE_DECK, SW_SITE_PIPES, SW_SITE_CONDUITS, SW_SITE_LIGHTS, SW_SITE_BRANDERING, SW_SITE_BOARDS, SW_SITE_PRICE,
  SW_N_SITES
} SwSite;
#define SW_SITE_BIT(site) (1u << (site))
#define SW_SITES_ALL ((1u << SW_N_SITES) - 1)

typedef enum
{
  SW_BOARD_LIVE = 1 << 0,   /* the live layer */
  SW_BOARD_PICKED = 1 << 1,
  SW_BOARD_TOOL = 1 << 2,   /* tool, template or what is typed */
  SW_BOARD_SAYS = 1 << 3,   /* the line under the plan */
  SW_BOARD_FAULT = 1 << 4   /* an edit failed: sw_board_fault */
} SwBoardChange;
typedef void (*SwBoardWatch) (SwBoard *board, guint changes, gpointer data);

/* The desk is borrowed and must outlive the board. */
SwBoard *sw_board_new (SwDesk *desk);
void sw_board_free (SwBoard *board);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwBoard, sw_board_free)
void sw_board_watch (SwBoard *board, SwBoardWatch watch, gpointer data);
void sw_board_unwatch (SwBoard *board, SwBoardWatch watch, gpointer data);

SwDesk *sw_board_desk (SwBoard *board);
SwJob *sw_board_job (SwBoard *board);
/* The last picture; NULL at first. */
void sw_board_set_picture (SwBoard *board, SwPicture *picture);
const SwPicture *sw_board_picture (SwBoard *board);
/* How many mm a pixel is (for tolerances), which layers cannot be picked or come last, whether pointers catch. */
void sw_board_set_view (SwBoard *board, double mm_per_px, guint64 hidden_layers, guint64 faded_layers);
double sw_board_px (SwBoard *board, double px);
void sw_board_set_snaps (SwBoard *board, gboolean on);

/* Tools: all of them, in the order of the tool row. */
guint sw_board_n_tools (void);
const SwToolRow *sw_board_tool_row (guint i);
gboolean sw_board_use (SwBoard *board, const char *id);
const SwToolRow *sw_board_tool (SwBoard *board);
/* What the tool in hand makes next: free to be changed by the inspector (then call sw_board_template_changed). NULL for none. */
SwRecord *sw_board_template (SwBoard *board);
void sw_board_template_changed (SwBoard *board);
/* Corners one by one instead of rectangles. */
void sw_board_set_polygons (SwBoard *board, gboolean on);
gboolean sw_board_polygons (SwBoard *board);

/* Events. */
typedef struct { gboolean shift, control; guint clicks; } SwBoardMods;
void sw_board_motion (SwBoard *board, SwPoint world, SwBoardMods mods);
void sw_board_press (SwBoard *board, SwPoint world, SwBoardMods mods);
void sw_board_release (SwBoard *board, SwPoint world, SwBoardMods mods);
void sw_board_leave (SwBoard *board);
/* TRUE when it was used. */
gboolean sw_board_type (SwBoard *board, gunichar character);
gboolean sw_board_tab (SwBoard *board, gboolean back);
gboolean sw_board_backspace (SwBoard *board);
void sw_board_enter (SwBoard *board);  /* accepts what is typed, else finishes or clicks at the crosshair */
void sw_board_escape (SwBoard *board); /* drops what is typed, else the draft, else the tool, else what is picked */
/* A gesture was taken away: drops its draft only. */
void sw_board_cancel (SwBoard *board);
/* The tool takes typed values now. */
gboolean sw_board_is_drawing (SwBoard *board);
/* Where the pointer or the crosshair is, whatever catches it. FALSE when it is outside. */
gboolean sw_board_raw_cursor (SwBoard *board, SwPoint *at);
/* Moves the crosshair by whole steps and shows it. */
void sw_board_nudge (SwBoard *board, int right, int up, double step_mm);
gboolean sw_board_has_cursor (SwBoard *board, SwPoint *at);

/* Takes the run being drawn under the ribs to where the pointer is; without one, takes the crossing tool in hand. */
gboolean sw_board_cross_here (SwBoard *board);

/* Picking. */
guint sw_board_n_picked (SwBoard *board);
SwId sw_board_picked (SwBoard *board, guint i);
gboolean sw_board_is_picked (SwBoard *board, SwId id);
void sw_board_pick (SwBoard *board, SwId id, gboolean add); /* 0: none */
void sw_board_pick_many (SwBoard *board, const SwId *ids, guint n);
/* Picks what a line of the take-off counts and lights, in picked layouts, the pieces that it counts: `size` is that of its price code.
 * Until something else is picked. How many pieces are lit. */
guint sw_board_light (SwBoard *board, SwPriceKind kind, const char *size, const SwId *ids, guint n);
/* All that is drawn on these layers. */
void sw_board_pick_layers (SwBoard *board, guint64 layers);
/* Things under a place, the uppermost first; at most `most`. In steps that are about rooms, a room lies under all its floor. */
guint sw_board_things_at (SwBoard *board, SwPoint world, SwId *ids, guint most);
/* The same, a room only where something is drawn of it: what a drag takes hold of. */
guint sw_board_drawn_at (SwBoard *board, SwPoint world, SwId *ids, guint most);

/* Edits of what is picked. */
gboolean sw_board_delete (SwBoard *board);
gboolean sw_board_move (SwBoard *board, SwPoint by);
/* Copies, `by` away, and picks the copies. */
gboolean sw_board_copy (SwBoard *board, SwPoint by);

/* What is shown: draft, hover, what is picked, snaps. Sealed; the caller's. */
SwDisplay *sw_board_live (SwBoard *board);
/* For the line under the plan; borrowed until the next change. */
const char *sw_board_says (SwBoard *board);
const SwTyped *sw_board_typed (SwBoard *board);
/* A length as the job shows them; returns `buf`. */
const char *sw_board_length (SwBoard *board, double mm, SwLengthStyle style, char buf[SW_LENGTH_BUF]);
const GError *sw_board_fault (SwBoard *board);
/* The draft as records, for a section at the pointer; NULL elements never. Borrowed. */
const GPtrArray *sw_board_drafts (SwBoard *board);
/* The draft while something is dragged or drawn, NULL while the pointer merely hovers with a tool in hand. `serial` is
 * another one whenever the draft was set anew. Borrowed. */
const GPtrArray *sw_board_draft_under_way (SwBoard *board, guint *serial);
/* Battens and boards of the room that is dragged or drawn, as far as they are known; NULL for none. */
const SwCeilingDraft *sw_board_ceiling (SwBoard *board);
/* Whether a draft lacks a clearance. */
gboolean sw_board_is_short (SwBoard *board, SwId draft);
