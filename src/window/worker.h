/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "window/tools/picture.h"

/* One thread that works pictures out. Asking again cancels what is under way; a result that is older than one handed over is
 * dropped. Each state comes twice: as soon as it can be drawn, and once more with its snags. */
typedef struct _SwWorker SwWorker;

/* Called on the main thread with a picture (borrowed) that is newer than the last one. */
typedef void (*SwWorkerDone) (SwPicture *picture, gpointer data);

SwWorker *sw_worker_new (SwWorkerDone done, gpointer data);
/* Returns at once; the thread ends by itself and hands nothing over any more. */
void sw_worker_free (SwWorker *worker);
void sw_worker_ask (SwWorker *worker, SwJob *job, guint64 generation);
gboolean sw_worker_is_busy (SwWorker *worker);
