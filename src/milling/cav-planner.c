/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-planner.h"

#include "milling/cav-feed.h"
#include "milling/cav-parallel.h"
#include "milling/cav-plan-finish.h"
#include "milling/cav-plan-private.h"
#include "milling/cav-proof.h"
#include "milling/cav-question.h"
#include "milling/cav-retrace.h"
#include "milling/cav-search.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

/* How often the proof may send the search back. */
#define MOST_REPAIRS 12

/* clang-format off */
G_DEFINE_QUARK (cav-milling-error, cav_milling_error)
/* clang-format on */

static CavPlan *
begin_plan (const CavQuestion *question, const CavSearch *search)
{
  double inside = question->mirrored ? search->outside : search->inside;
  g_autoptr (CavRegion) profile
      = cav_region_transformed (question->asked->profile, cav_transform_translation (inside, 0));

  return cav_plan_begin (question->asked, profile, inside,
                         search->inside + search->outside - inside);
}

static CavSetup *
get_setup (CavPlan *plan, const CavTask *task, int config_index, int *last_config)
{
  const CavConfig *config = cav_task_config (task, config_index);
  const CavTool *tool = cav_task_tool (task, config->tool);
  CavSetup *setup;

  if (*last_config == config_index)
    return g_ptr_array_index (plan->setups, plan->setups->len - 1);
  setup = cav_setup_new (config->machine, tool->blade != NULL ? tool->blade->id : tool->cutter->id);
  setup->tilt = config->tilt;
  setup->angle = config->angle;
  g_ptr_array_add (plan->setups, setup);
  *last_config = config_index;
  return setup;
}

typedef struct
{
  const CavQuestion *question;
  const CavTask *task;
} Reach;

/* TRUE where some candidate sweeps a place. */
static gboolean
is_reached (gpointer data, CavPoint place)
{
  const Reach *reach = data;
  const CavTask *task = reach->task;

  place = cav_question_get_place (reach->question, place, task->blank.width);
  for (guint i = 0; i < task->candidates->len; i++)
    if (cav_sweep_rows_contain (&cav_task_candidate (task, i)->sweep,
                                (int)floor (place.y / CAV_ROW_HEIGHT),
                                (gint32)lround (place.x * CAV_MICRONS)))
      return TRUE;
  return FALSE;
}

/* What the proof refused. */
typedef struct
{
  guint64 rail;
  int candidate;
  CavFence fence;
  const char *rule;
} Refusal;

/* One item as it is fed: what the proof has to know of it. */
typedef struct
{
  guint64 rail; /* before it */
  int config;
  CavSide down;
  int n;
  CavFeed feeds[CAV_FEEDS_MAX];
} Split;

/* One pass that is proved. */
typedef struct
{
  int item;
  CavProofStep step;
  const char *rule; /* that it breaks */
} Proved;

/*
 * Feeds are split in one job, and what they leave is worked out in another, which follows as they
 * come; either then judges the passes that are ready. Which rule is broken first does not depend on
 * who judges what.
 */
typedef struct
{
  const CavQuestion *question;
  CavSearch *search;
  CavPlan *plan;
  CavProof proof;
  Split splits[CAV_SEQUENCE_MAX];
  /* Under the mutex: */
  GMutex mutex;
  GCond more;
  int n_split;
  GPtrArray *proved;   /* Proved, in the order of the work */
  guint n_judged;      /* of them are judged or being judged */
  gboolean is_cutting; /* more may come */
} Proving;

static void
proved_free (gpointer data)
{
  Proved *proved = data;

  cav_proof_step_clear (&proved->step);
  g_free (proved);
}

static void
split_items (Proving *proving)
{
  CavSearch *search = proving->search;
  CavTask *task = search->task;
  const CavRail *rail = cav_rail_store_get_blank (search->store), *next;

  for (int i = 0; i < search->sequence.n; i++)
    {
      CavItem item = search->sequence.items[i];
      const CavCandidate *c = cav_task_candidate (task, item.candidate);
      Split *split = &proving->splits[i];

      split->rail = rail->key;
      split->config = c->config;
      split->down = c->down;
      split->n
          = cav_feed_split (search->store, task, rail, item.candidate, item.fence, split->feeds);
      /* Splitting has asked for many rails: this one may have to be made again. */
      cav_rail_store_step (search->store, rail, cav_task_candidate (task, item.candidate), &next);
      rail = next != NULL ? next : rail;
      g_mutex_lock (&proving->mutex);
      proving->n_split = i + 1;
      g_cond_broadcast (&proving->more);
      g_mutex_unlock (&proving->mutex);
    }
}

/* Judges passes as they come, until no more do. */
static void
judge_passes (Proving *proving)
{
  for (;;)
    {
      Proved *proved = NULL;

      g_mutex_lock (&proving->mutex);
      while (proving->is_cutting && proving->n_judged == proving->proved->len)
        g_cond_wait (&proving->more, &proving->mutex);
      if (proving->n_judged < proving->proved->len)
        proved = g_ptr_array_index (proving->proved, proving->n_judged++);
      g_mutex_unlock (&proving->mutex);
      if (proved == NULL)
        return;
      proved->rule = cav_proof_judge_pass (&proving->proof, &proved->step);
    }
}

static void
set_cutting (Proving *proving, gboolean is_cutting)
{
  g_mutex_lock (&proving->mutex);
  proving->is_cutting = is_cutting;
  g_cond_broadcast (&proving->more);
  g_mutex_unlock (&proving->mutex);
}

/* Works out what a pass leaves; it is then ready to be judged. */
static gboolean
cut_pass (Proving *proving, CavSetup *setup, CavPass *pass, int item)
{
  Proved *proved = g_new0 (Proved, 1);
  gboolean cut;

  proved->item = item;
  cut = cav_proof_start_pass (&proving->proof, setup, pass, &proved->step);
  if (cut)
    cav_proof_finish_pass (&proving->proof, &proved->step);
  g_mutex_lock (&proving->mutex);
  g_ptr_array_add (proving->proved, proved);
  g_cond_broadcast (&proving->more);
  g_mutex_unlock (&proving->mutex);
  return cut;
}

static gboolean
cut_item (Proving *proving, CavSetup *setup, int item)
{
  const Split *split = &proving->splits[item];
  CavFence fence = proving->search->sequence.items[item].fence;

  for (int i = 0; i < split->n; i++)
    {
      CavPass *pass = cav_pass_new ();

      pass->down = cav_question_get_side (proving->question, split->down);
      pass->against
          = cav_question_get_side (proving->question, cav_fence_get_side (split->down, fence));
      pass->fence = split->feeds[i].fence;
      pass->height = split->feeds[i].height;
      g_ptr_array_add (setup->passes, pass);
      if (!cut_pass (proving, setup, pass, item))
        return FALSE;
    }
  return split->n > 0;
}

/* All of it, one after the other, and what is left over in the end: all items are split by then, so
 * that nobody adds candidates any more. */
static void
cut_items (Proving *proving)
{
  Reach reach = { proving->question, proving->search->task };
  int last_config = -1;
  gboolean cut = TRUE;

  for (int i = 0; i < proving->search->sequence.n && cut; i++)
    {
      const Split *split = &proving->splits[i];

      g_mutex_lock (&proving->mutex);
      while (proving->n_split <= i)
        g_cond_wait (&proving->more, &proving->mutex);
      g_mutex_unlock (&proving->mutex);
      cut = cut_item (proving,
                      get_setup (proving->plan, proving->search->task, split->config, &last_config),
                      i);
    }
  set_cutting (proving, FALSE);
  if (cut)
    cav_plan_measure_leftover (proving->plan, proving->proof.rail, is_reached, &reach);
}

/* The split comes first, so that one processor can do both; it judges what is ready by then. */
static void
prove_job (gpointer data, int job)
{
  Proving *proving = data;

  if (job == 0)
    split_items (proving);
  else
    {
      set_cutting (proving, TRUE);
      cut_items (proving);
    }
  judge_passes (proving);
}

/* What was refused first. FALSE where nothing was. */
static gboolean
find_refusal (const Proving *proving, Refusal *out_refusal)
{
  const CavSequence *sequence = &proving->search->sequence;
  int at = -1;
  const char *rule = NULL;

  for (guint i = 0; i < proving->proved->len && at < 0; i++)
    {
      const Proved *proved = g_ptr_array_index (proving->proved, i);

      if (proved->rule != NULL)
        {
          at = proved->item;
          rule = proved->rule;
        }
    }
  /* An item that no feeds were found for. */
  for (int i = 0; i < proving->n_split && at < 0; i++)
    if (proving->splits[i].n == 0)
      {
        at = i;
        rule = "bite";
      }
  if (at >= 0)
    *out_refusal = (Refusal){ proving->splits[at].rail, sequence->items[at].candidate,
                              sequence->items[at].fence, rule };
  return at >= 0;
}

static void
finish_plan (Proving *proving)
{
  CavPlan *plan = proving->plan;

  for (guint i = 0; i < proving->proved->len; i++)
    plan->gouge
        = fmax (plan->gouge, ((Proved *)g_ptr_array_index (proving->proved, i))->step.gouge);
  cav_plan_finish (plan);
}

/* The plan of a sequence, proved; NULL with what was refused. */
static CavPlan *
prove (const CavQuestion *question, CavSearch *search, Refusal *refusal)
{
  CavTask *task = search->task;
  CavPoint seed = cav_rail_store_get_seed (search->store);
  g_autoptr (CavPlan) plan = begin_plan (question, search);
  g_autofree Proving *proving = g_new0 (Proving, 1);
  CavOutcome outcome;
  gboolean refused;

  cav_greedy_order (search->prices, &search->sequence);
  cav_sequence_evaluate (search->store, task, &search->sequence, &outcome);
  cav_sequence_settle (&search->sequence, &outcome);
  proving->question = question;
  proving->search = search;
  proving->plan = plan;
  proving->proved = g_ptr_array_new_with_free_func (proved_free);
  seed = cav_question_get_place (question, seed, plan->blank.width);
  cav_proof_init (&proving->proof, &plan->blank, plan->profile, question->asked->shop, seed);
  g_mutex_init (&proving->mutex);
  g_cond_init (&proving->more);
  cav_parallel_run (2, prove_job, proving);
  g_mutex_clear (&proving->mutex);
  g_cond_clear (&proving->more);
  refused = find_refusal (proving, refusal);
  if (!refused)
    finish_plan (proving);
  cav_proof_clear (&proving->proof);
  g_ptr_array_unref (proving->proved);
  return refused ? NULL : g_steal_pointer (&plan);
}

/* Keeps what was refused out of further sequences: from this rail and fence, or altogether where
 * the rail has nothing to do with it. */
static void
exclude (CavSearch *search, const Refusal *refusal)
{
  CavCandidate *candidate = cav_task_candidate (search->task, refusal->candidate);

  g_debug ("refused: %s after %.2f minutes", refusal->rule, cav_search_get_minutes (search));
  if (g_str_equal (refusal->rule, "gouge") || g_str_equal (refusal->rule, "bite"))
    candidate->banned = TRUE;
  cav_rail_store_forbid (search->store, refusal->rail, candidate, refusal->fence);
}

/* Proves, and sends the search back with what was refused as long as that happens. */
static CavPlan *
prove_or_repair (const CavQuestion *question, CavSearch *search)
{
  Refusal refusal = { 0 };

  for (guint32 repair = 0; !cav_task_is_cancelled (search->task); repair++)
    {
      CavPlan *plan = prove (question, search, &refusal);

      if (plan != NULL || repair > MOST_REPAIRS + CAV_SEQUENCE_MAX)
        return plan;
      exclude (search, &refusal);
      /* After so many attempts the rest just has to stand without it. */
      if (repair >= MOST_REPAIRS)
        continue;
      cav_search_repair (search, repair);
    }
  return NULL;
}

/* One way to a plan: a search, and what was proved of it. */
typedef struct
{
  CavSearch *search;
  CavPlan *plan; /* NULL where nothing could be proved */
  double cost;   /* minutes, with the prices of what the limits do not want */
} Attempt;

static void
attempt_clear (Attempt *attempt)
{
  g_clear_pointer (&attempt->search, cav_search_free);
  g_clear_pointer (&attempt->plan, cav_plan_unref);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Attempt, attempt_clear)

static Attempt
attempt_plan (const CavQuestion *question, CavEffort effort, const CavSearch *known)
{
  CavPlanRequest request = question->seen;
  Attempt attempt = { NULL, NULL, G_MAXDOUBLE };

  request.effort = effort;
  attempt.search = cav_search_run (&request, known);
  attempt.plan = prove_or_repair (question, attempt.search);
  if (attempt.plan != NULL)
    attempt.cost = attempt.plan->minutes + cav_search_get_penalty (attempt.search);
  return attempt;
}

CavPlan *
cav_planner_plan (const CavPlanRequest *request, GError **error)
{
  g_auto (Attempt) quick = { 0 }, last = { 0 };
  g_auto (CavQuestion) question = { 0 };
  g_autoptr (CavPlan) plan = NULL;

  g_return_val_if_fail (request != NULL && request->profile != NULL && request->shop != NULL, NULL);

  if (!cav_plan_request_check (request, error))
    return NULL;
  cav_question_init (&question, request);
  quick = attempt_plan (&question, CAV_EFFORT_QUICK, NULL);
  /* A thorough plan begins with the quick one, and is never dearer. */
  if (request->effort == CAV_EFFORT_THOROUGH && !cav_task_is_cancelled (quick.search->task))
    last = attempt_plan (&question, CAV_EFFORT_THOROUGH, quick.search);
  if (cav_task_is_cancelled (quick.search->task))
    {
      g_set_error_literal (error, CAV_MILLING_ERROR, CAV_MILLING_ERROR_CANCELLED,
                           _ ("planning was cancelled"));
      return NULL;
    }
  if (last.plan != NULL && last.cost < quick.cost)
    plan = g_steal_pointer (&last.plan);
  else
    plan
        = quick.plan != NULL ? g_steal_pointer (&quick.plan) : begin_plan (&question, quick.search);
  cav_plan_add_findings (plan);
  return cav_planner_prefer_known (request, g_steal_pointer (&plan));
}
