/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <glib.h>

/* What the take-off can ask for. A price code is a kind's word, and for sized kinds a dash and the size: "conduit-pvc-20",
 * "board-gypsum-9.5-3000x1200". Codes are stable: price lists of users hold them. */

typedef enum { SW_BILL_CEILING, SW_BILL_PAINTING, SW_BILL_ELECTRICAL, SW_BILL_PLUMBING, SW_BILL_BUILDING, SW_N_BILLS } SwBill;

typedef enum
{
  SW_PRICE_BOARD, SW_PRICE_BATTEN, SW_PRICE_WALL_BATTEN, SW_PRICE_NOGGIN, SW_PRICE_TRIMMER, SW_PRICE_PRIMARY, SW_PRICE_STUD, SW_PRICE_BEAD, SW_PRICE_FIXING,
  SW_PRICE_LONG_FIXING, SW_PRICE_HANGER, SW_PRICE_PACKER, SW_PRICE_CLIP, SW_PRICE_SCREW, SW_PRICE_STEEL_SCREW, SW_PRICE_TAPE, SW_PRICE_COMPOUND, SW_PRICE_SKIM,
  SW_PRICE_SKIMMING, SW_PRICE_JOINTING, SW_PRICE_COVER_STRIP, SW_PRICE_MOVEMENT_JOINT, SW_PRICE_CORNICE, SW_PRICE_ADHESIVE, SW_PRICE_MITRE, SW_PRICE_SHADOW_LINE,
  SW_PRICE_INSULATION, SW_PRICE_HATCH, SW_PRICE_GRID, SW_PRICE_GRID_EDGE, SW_PRICE_GRID_HANGER,
  SW_PRICE_CLEAN, SW_PRICE_ZINC_PRIMER, SW_PRICE_ALKALI_PRIMER, SW_PRICE_FINISH, SW_PRICE_SOFFIT_COAT, SW_PRICE_CEILING_COAT,
  SW_PRICE_CONDUIT, SW_PRICE_COUPLER, SW_PRICE_CONDUIT_BEND, SW_PRICE_SADDLE, SW_PRICE_BOX, SW_PRICE_DISTRIBUTION, SW_PRICE_WIRE,
  SW_PRICE_LIGHT, SW_PRICE_HOOD, SW_PRICE_DRIVER, SW_PRICE_SWITCH, SW_PRICE_OUTLET, SW_PRICE_BOARD_POINT, SW_PRICE_POINT,
  SW_PRICE_PIPE, SW_PRICE_SOCKET, SW_PRICE_PIPE_BEND, SW_PRICE_JUNCTION, SW_PRICE_BRACKET, SW_PRICE_LAGGING, SW_PRICE_EYE,
  SW_PRICE_VALVE, SW_PRICE_DROP_IN, SW_PRICE_TAP, SW_PRICE_DUCT, SW_PRICE_DUCT_BEND, SW_PRICE_DUCT_JOINT,
  SW_PRICE_SLEEVE, SW_PRICE_FILLER, SW_PRICE_PLATE,
  SW_N_PRICES
} SwPriceKind;

/* Members of ceilings, which are cut from stock lengths of their section. */
static inline gboolean
sw_price_is_timber (SwPriceKind kind)
{
  return kind >= SW_PRICE_BATTEN && kind <= SW_PRICE_STUD;
}

typedef struct
{
  const char *word, *text; /* text: for people, untranslated */
  const char *unit;        /* "m", "m2", "no", "l", "kg" */
  SwBill bill;
  gboolean sized;
} SwPriceInfo;

const SwPriceInfo *sw_price_info (SwPriceKind kind);
/* The kind that a code belongs to; SW_N_PRICES for none. */
SwPriceKind sw_price_kind_of (const char *code);
/* Size in a code: "pvc-20"; "" for kinds without. Part of `code`. */
const char *sw_price_size (const char *code);
/* "ceiling": for files; and the trade's name for people, untranslated. Static. */
const char *sw_bill_word (SwBill bill);
const char *sw_bill_text (SwBill bill);
/* "m²" for "m2" and so on, for people. Static, or `unit` itself. */
const char *sw_price_unit_text (const char *unit);
