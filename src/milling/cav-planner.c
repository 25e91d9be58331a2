/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-planner.h"

#include "milling/cav-feed.h"
#include "milling/cav-leftover.h"
#include "milling/cav-plan-private.h"
#include "milling/cav-price.h"
#include "milling/cav-proof.h"

#include <math.h>
#include <string.h>

/* Annealing: runs side by side, from hot first, then once more from the best of them. */
#define TRIALS 24000
#define RUNS 4
#define HOT 1.6
#define WARM 0.6
#define REPAIR_TRIALS 6000
/* How often the proof may send the search back. */
#define MOST_REPAIRS 12
/* A carrier has to save this much, minutes. */
#define CARRIER_GAIN 1.0
/* Room that a carrier needs at the fence beside the kerf. */
#define CARRIER_ROOM 22.0

G_DEFINE_QUARK (cav - milling - error - quark, cav_milling_error)

/* Everything that belongs to one blank. */
typedef struct
{
  CavTask *task;
  CavRailStore *store;
  CavPrices *prices;
  CavSequence sequence;
  CavRegion *profile;
  CavBlank blank;
  double inside;
  double outside;
} Attempt;

static void
attempt_free (Attempt *attempt)
{
  if (attempt == NULL)
    return;
  cav_prices_free (attempt->prices);
  cav_rail_store_free (attempt->store);
  cav_task_free (attempt->task);
  g_clear_pointer (&attempt->profile, cav_region_unref);
  g_free (attempt);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Attempt, attempt_free)

static Attempt *
attempt_new (const CavPlanRequest *request, double inside, double outside)
{
  Attempt *attempt = g_new0 (Attempt, 1);

  attempt->inside = inside;
  attempt->outside = outside;
  attempt->blank = request->blank;
  attempt->blank.width += inside + outside;
  attempt->profile
      = cav_region_transformed (request->profile, cav_transform_translation (inside, 0));
  attempt->task = cav_task_new (request, &attempt->blank, attempt->profile);
  cav_reach_collect (attempt->task);
  attempt->store = cav_rail_store_new (attempt->task);
  attempt->prices = cav_prices_new (attempt->task, attempt->store);
  return attempt;
}

static double
get_minutes (Attempt *attempt)
{
  CavOutcome outcome;

  cav_sequence_evaluate (attempt->store, attempt->task, &attempt->sequence, &outcome);
  return outcome.minutes;
}

/* TRUE where a wider blank is worth trying: always when there is time, else only where this one
 * leaves more than the limit. */
static gboolean
wants_carrier (Attempt *attempt)
{
  CavOutcome outcome;

  cav_sequence_evaluate (attempt->store, attempt->task, &attempt->sequence, &outcome);
  return attempt->task->thorough || outcome.over > 0;
}

static void
search_quickly (Attempt *attempt)
{
  cav_greedy_extend (attempt->prices, &attempt->sequence);
  cav_greedy_prune (attempt->prices, &attempt->sequence);
}

/* A placement that stands for itself, whatever the indices of an attempt. */
typedef struct
{
  CavMachine machine;
  int tool;
  double turn;
  CavSide down;
  CavFence fence;
  double distance;
  double height;
} Placement;

static void
export_sequence (const Attempt *attempt, Placement *out_placements)
{
  for (int i = 0; i < attempt->sequence.n; i++)
    {
      const CavItem *item = &attempt->sequence.items[i];
      const CavCandidate *c = cav_task_candidate (attempt->task, item->candidate);
      const CavConfig *config = cav_task_config (attempt->task, c->config);

      out_placements[i] = (Placement){ config->machine, config->tool, config->tilt + config->angle,
                                       c->down,         item->fence,  c->fence[item->fence],
                                       c->height };
    }
}

static void
import_sequence (Attempt *attempt, const Placement *placements, int n)
{
  attempt->sequence.n = 0;
  for (int i = 0; i < n; i++)
    {
      const Placement *p = &placements[i];
      int config = cav_task_add_config (attempt->task, p->machine, p->tool, p->turn);
      int candidate
          = cav_task_place (attempt->task, config, p->down, p->fence, p->distance, p->height);

      if (candidate >= 0)
        cav_sequence_insert (&attempt->sequence, attempt->sequence.n,
                             (CavItem){ candidate, p->fence });
    }
}

/* One run of annealing, in a thread and with an attempt of its own: what it finds depends on its
 * number alone. */
typedef struct
{
  const CavPlanRequest *request;
  double inside;
  double outside;
  guint32 number;
  double hot;
  int n;
  Placement placements[CAV_SEQUENCE_MAX];
  double minutes;
} Run;

static gpointer
run_annealing (gpointer data)
{
  Run *run = data;
  g_autoptr (Attempt) attempt = attempt_new (run->request, run->inside, run->outside);

  import_sequence (attempt, run->placements, run->n);
  cav_anneal (attempt->prices, &attempt->sequence, TRIALS, run->hot, run->number);
  cav_greedy_prune (attempt->prices, &attempt->sequence);
  cav_polish (attempt->prices, &attempt->sequence);
  run->n = attempt->sequence.n;
  export_sequence (attempt, run->placements);
  run->minutes = get_minutes (attempt);
  return NULL;
}

/* Several runs of annealing from the same beginning; the best one stays. */
static void
anneal_side_by_side (const CavPlanRequest *request, Attempt *attempt, double hot, guint32 first)
{
  g_autofree Run *runs = g_new0 (Run, RUNS);
  GThread *threads[RUNS];
  double best = get_minutes (attempt);

  for (guint32 i = 0; i < RUNS; i++)
    {
      runs[i].request = request;
      runs[i].inside = attempt->inside;
      runs[i].outside = attempt->outside;
      runs[i].number = first + i;
      runs[i].hot = hot;
      runs[i].n = attempt->sequence.n;
      export_sequence (attempt, runs[i].placements);
      threads[i] = g_thread_new ("planner", run_annealing, &runs[i]);
    }
  for (guint32 i = 0; i < RUNS; i++)
    {
      g_thread_join (threads[i]);
      if (runs[i].minutes < best - 1e-9)
        {
          best = runs[i].minutes;
          import_sequence (attempt, runs[i].placements, runs[i].n);
        }
    }
}

static void
search_thoroughly (const CavPlanRequest *request, Attempt *attempt)
{
  anneal_side_by_side (request, attempt, HOT, 1);
  anneal_side_by_side (request, attempt, WARM, 1 + RUNS);
  cav_greedy_order (attempt->prices, &attempt->sequence);
  cav_polish (attempt->prices, &attempt->sequence);
  cav_greedy_prune (attempt->prices, &attempt->sequence);
}

static CavPlan *
begin_plan (const CavPlanRequest *request, const Attempt *attempt)
{
  CavPlan *plan = cav_plan_new ();

  plan->blank = attempt->blank;
  plan->carrier_inside = attempt->inside;
  plan->carrier_outside = attempt->outside;
  plan->profile = cav_region_ref (attempt->profile);
  plan->shop = cav_shop_copy (request->shop);
  plan->rails = request->rails;
  plan->length = request->length;
  return plan;
}

/* Minutes of the setups, turns and moves, by the table of the model. */
static void
count_minutes (CavPlan *plan)
{
  const CavRates *rates = &plan->shop->rates;
  double metres = plan->length / 1000;
  const char *blade = NULL, *cutter = NULL;

  plan->minutes_setups = plan->minutes_passes = 0;
  for (guint i = 0; i < plan->setups->len; i++)
    {
      CavSetup *setup = g_ptr_array_index (plan->setups, i);
      double feed = rates->metre * metres + rates->rail * plan->rails;

      if (setup->machine == CAV_MACHINE_ROUTER)
        {
          setup->tool_stays = g_strcmp0 (cutter, setup->tool) == 0;
          setup->minutes = setup->tool_stays ? rates->router_return : rates->router_setup;
          cutter = setup->tool;
        }
      else
        {
          setup->tool_stays = g_strcmp0 (blade, setup->tool) == 0;
          setup->minutes = setup->machine == CAV_MACHINE_COVE ? rates->cove_setup
                           : fabs (setup->tilt) > 1e-9        ? rates->tilt_setup
                                                              : rates->saw_setup;
          if (setup->machine == CAV_MACHINE_COVE)
            {
              setup->minutes += rates->scrape_metre * metres;
              feed = rates->cove_metre * metres + rates->rail * plan->rails;
            }
          if (blade != NULL && !setup->tool_stays)
            setup->minutes += rates->blade_change;
          blade = setup->tool;
        }
      plan->minutes_setups += setup->minutes;
      plan->minutes_passes += setup->passes->len * feed;
      for (guint j = 1; j < setup->passes->len; j++)
        {
          const CavPass *before = g_ptr_array_index (setup->passes, j - 1);
          const CavPass *pass = g_ptr_array_index (setup->passes, j);

          if (before->down != pass->down || before->against != pass->against)
            plan->minutes_setups += rates->turn;
          if (fabs (before->fence - pass->fence) > 1e-6
              || fabs (before->height - pass->height) > 1e-6)
            plan->minutes_setups += rates->move;
        }
    }
  plan->minutes = plan->minutes_setups + plan->minutes_passes + plan->minutes_hand;
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

/* TRUE where some candidate sweeps a place. */
static gboolean
is_reached (gpointer data, CavPoint place)
{
  const CavTask *task = data;

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

/* Does the feeds of one item. */
static gboolean
prove_item (Attempt *attempt,
            CavProof *proof,
            CavSetup *setup,
            const CavRail *rail,
            const CavItem *item,
            Refusal *refusal)
{
  CavTask *task = attempt->task;
  CavSide down = cav_task_candidate (task, item->candidate)->down;
  CavFeed feeds[CAV_FEEDS_MAX];
  int n = cav_feed_split (attempt->store, task, rail, item->candidate, item->fence, feeds);

  refusal->rule = "bite";
  for (int i = 0; i < n; i++)
    {
      CavPass *pass = cav_pass_new ();

      pass->down = down;
      pass->against = cav_fence_get_side (down, item->fence);
      pass->fence = feeds[i].fence;
      pass->height = feeds[i].height;
      g_ptr_array_add (setup->passes, pass);
      if (!cav_proof_do_pass (proof, setup, pass, &refusal->rule))
        return FALSE;
    }
  return n > 0;
}

/* The plan of a sequence, proved; NULL with what was refused. */
static CavPlan *
prove (const CavPlanRequest *request, Attempt *attempt, Refusal *refusal)
{
  CavTask *task = attempt->task;
  g_autoptr (CavPlan) plan = begin_plan (request, attempt);
  const CavRail *rail = cav_rail_store_get_blank (attempt->store), *next;
  CavPoint seed = cav_rail_store_get_seed (attempt->store);
  CavOutcome outcome;
  CavProof proof;
  gboolean proved = TRUE;
  int last_config = -1;

  cav_greedy_order (attempt->prices, &attempt->sequence);
  cav_sequence_evaluate (attempt->store, task, &attempt->sequence, &outcome);
  cav_sequence_settle (&attempt->sequence, &outcome);
  cav_proof_init (&proof, &attempt->blank, attempt->profile, request->shop, seed);
  for (int i = 0; i < attempt->sequence.n && proved; i++)
    {
      CavItem item = attempt->sequence.items[i];
      const CavCandidate *c = cav_task_candidate (task, item.candidate);
      CavSetup *setup = get_setup (plan, task, c->config, &last_config);

      *refusal = (Refusal){ rail->key, item.candidate, item.fence, NULL };
      proved = prove_item (attempt, &proof, setup, rail, &item, refusal);
      /* Splitting has asked for many rails: this one may have to be made again. */
      cav_rail_store_step (attempt->store, rail, cav_task_candidate (task, item.candidate), &next);
      rail = next != NULL ? next : rail;
    }
  if (proved)
    {
      for (guint i = 0; i < plan->setups->len; i++)
        {
          CavSetup *setup = g_ptr_array_index (plan->setups, i);

          for (guint j = 0; j < setup->passes->len; j++)
            {
              CavPass *pass = g_ptr_array_index (setup->passes, j);

              if (request->length / request->rails < 300)
                pass->cautions |= CAV_CAUTION_SHORT_RAIL;
            }
        }
      plan->gouge = proof.gouge;
      cav_leftover_measure (plan, proof.rail, is_reached, task);
      count_minutes (plan);
      plan->usable = TRUE;
    }
  cav_proof_clear (&proof);
  return proved ? g_steal_pointer (&plan) : NULL;
}

/* Keeps what was refused out of further sequences: from this rail and fence, or altogether where
 * the rail has nothing to do with it. */
static void
exclude (Attempt *attempt, const Refusal *refusal)
{
  CavCandidate *candidate = cav_task_candidate (attempt->task, refusal->candidate);

  g_debug ("refused: %s after %.2f minutes", refusal->rule, get_minutes (attempt));
  if (g_str_equal (refusal->rule, "gouge") || g_str_equal (refusal->rule, "bite"))
    candidate->banned = TRUE;
  cav_rail_store_forbid (attempt->store, refusal->rail, candidate, refusal->fence);
}

/* Proves, and sends the search back with what was refused as long as that happens. */
static CavPlan *
prove_or_repair (const CavPlanRequest *request, Attempt *attempt)
{
  Refusal refusal;

  for (guint32 repair = 0; !cav_task_is_cancelled (attempt->task); repair++)
    {
      CavPlan *plan = prove (request, attempt, &refusal);

      if (plan != NULL || repair > MOST_REPAIRS + CAV_SEQUENCE_MAX)
        return plan;
      exclude (attempt, &refusal);
      /* After so many attempts the rest just has to stand without it. */
      if (repair >= MOST_REPAIRS)
        continue;
      cav_greedy_extend (attempt->prices, &attempt->sequence);
      if (request->effort == CAV_EFFORT_THOROUGH)
        cav_anneal (attempt->prices, &attempt->sequence, REPAIR_TRIALS, WARM, 100 + repair);
      cav_greedy_prune (attempt->prices, &attempt->sequence);
    }
  return NULL;
}

static double
get_widest_kerf (const CavShop *shop)
{
  double kerf = 0;

  for (guint i = 0; i < shop->blades->len; i++)
    kerf = fmax (kerf, ((const CavBlade *)g_ptr_array_index (shop->blades, i))->kerf);
  return kerf;
}

/* A wider blank, where that is cheaper or the only way. */
static Attempt *
find_carrier (const CavPlanRequest *request, double minutes)
{
  double kerf = get_widest_kerf (request->shop), width;
  Attempt *best = NULL;

  width = cav_snap (kerf + CARRIER_ROOM, request->shop->limits.step);
  if (kerf <= 0 || !request->shop->has_saw || width > request->shop->limits.carrier + 1e-9
      || request->blank.width + width > CAV_BLANK_MAX)
    return NULL;
  for (int side = 0; side < 2; side++)
    {
      g_autoptr (Attempt) attempt
          = attempt_new (request, side == 0 ? 0 : width, side == 0 ? width : 0);
      double cost;

      search_quickly (attempt);
      cost = get_minutes (attempt);
      if (cost > minutes - CARRIER_GAIN || cav_task_is_cancelled (attempt->task))
        continue;
      minutes = cost + CARRIER_GAIN;
      attempt_free (best);
      best = g_steal_pointer (&attempt);
    }
  return best;
}

static gboolean
check_request (const CavPlanRequest *request, GError **error)
{
  const CavBlank *blank = &request->blank;
  const char *wrong = NULL;

  if (!(blank->width > 0.1 && blank->thickness > 0.1 && blank->width <= CAV_BLANK_MAX
        && blank->thickness <= CAV_BLANK_MAX))
    wrong = "the blank's width and thickness must lie between 0.1 and 500 mm";
  else if (request->rails < 1 || request->rails > 10000)
    wrong = "the number of rails must lie between 1 and 10000";
  else if (!(request->length > 0 && request->length <= 1e7))
    wrong = "the rails' total length must be above 0";
  else if (cav_region_is_empty (request->profile))
    wrong = "the profile is empty: cuts take the whole blank away";
  else if (cav_region_get_piece_count (request->profile) != 1)
    wrong = "the profile is in pieces: make the cuts smaller until it holds together";
  else
    {
      CavBox box = cav_region_get_bounds (request->profile);

      if (box.x0 < -1e-6 || box.y0 < -1e-6 || box.x1 > blank->width + 1e-6
          || box.y1 > blank->thickness + 1e-6)
        wrong = "the profile stands out of the blank: make the blank larger";
    }
  if (wrong != NULL)
    g_set_error_literal (error, CAV_MILLING_ERROR, CAV_MILLING_ERROR_INPUT, wrong);
  return wrong == NULL;
}

static void
add_findings (CavPlan *plan)
{
  for (guint i = 0; i < plan->places->len; i++)
    {
      const CavLeftoverPlace *place = g_ptr_array_index (plan->places, i);
      CavFinding *finding = cav_finding_new (CAV_FINDING_CAUTION, "leftover", "%s", place->advice);

      /* Places are in the prepared blank; findings speak of the blank as drawn. */
      cav_finding_set_place (finding,
                             CAV_POINT (place->place.x - plan->carrier_inside, place->place.y));
      g_ptr_array_add (plan->findings, finding);
    }
  if (plan->shop->blades->len == 0 && plan->shop->cutters->len == 0)
    g_ptr_array_add (plan->findings,
                     cav_finding_new (CAV_FINDING_WRONG, "no-tools",
                                      "The shop has no tools, so nothing can be milled: add a "
                                      "blade or a cutter."));
}

CavPlan *
cav_planner_plan (const CavPlanRequest *request, GError **error)
{
  g_autoptr (Attempt) attempt = NULL;
  g_autoptr (CavPlan) plan = NULL;
  Attempt *wider = NULL;

  g_return_val_if_fail (request != NULL && request->profile != NULL && request->shop != NULL, NULL);

  if (!check_request (request, error))
    return NULL;
  attempt = attempt_new (request, 0, 0);
  search_quickly (attempt);
  if (request->effort == CAV_EFFORT_THOROUGH)
    search_thoroughly (request, attempt);
  if (wants_carrier (attempt))
    wider = find_carrier (request, get_minutes (attempt));
  if (wider != NULL)
    {
      attempt_free (attempt);
      attempt = wider;
      if (request->effort == CAV_EFFORT_THOROUGH)
        search_thoroughly (request, attempt);
    }
  plan = prove_or_repair (request, attempt);
  if (cav_task_is_cancelled (attempt->task))
    {
      g_set_error_literal (error, CAV_MILLING_ERROR, CAV_MILLING_ERROR_CANCELLED,
                           "planning was cancelled");
      return NULL;
    }
  if (plan == NULL)
    plan = begin_plan (request, attempt);
  add_findings (plan);
  return g_steal_pointer (&plan);
}
