/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Share of the light from the mouth that falls on the crown, for a long trough (crossed strings); lengths in one unit. */
double sw_trough_crown_share (double mouth, double crown, double depth);
/* What the mouth of a long trough gives back of the light that enters it evenly, its faces reflecting `reflectance`: exchange
 * between crown and sides to the end. */
double sw_trough_reflectance (double mouth, double crown, double depth, double reflectance);
