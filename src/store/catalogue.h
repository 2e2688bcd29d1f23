/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "job/job.h"

/* The invented profiles and prices that a new job starts from (data/catalogue.json, data/prices.csv), as a job that holds nothing
 * else. The caller's. */
SwJob *sw_catalogue_load (GError **error);
