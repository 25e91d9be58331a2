/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-plan.h"

const char *
cav_caution_get_sentence (CavCaution caution)
{
  switch (caution)
    {
    case CAV_CAUTION_THIN_WALL:
      return "A wall thinner than 2 mm stands beside this cut: feed slowly, it can break out.";
    case CAV_CAUTION_SMALL_RAIL:
      return "The rail is smaller than 20 x 20 mm: use a hold-down and a push block, or mill it "
             "on a wider piece.";
    case CAV_CAUTION_SHORT_RAIL:
      return "A rail is shorter than 300 mm: mill two or more in one length and cut them apart "
             "afterwards.";
    case CAV_CAUTION_LARGE_CUTTER:
      return "The cutter is wider than 25 mm: table only, turn the speed down.";
    case CAV_CAUTION_COVING:
      return "No guard or riving knife can be used across the blade: clamp the angled fence where "
             "the turning blade presses the rail to it, use push blocks, shallow passes and a "
             "slow feed; put the guard back afterwards.";
    case CAV_CAUTION_HIDDEN_BLADE:
      return "The tool does not come out of the wood: keep hands away from where it runs and "
             "comes out at the end; put guard and riving knife back afterwards.";
    case CAV_CAUTION_ALTERNATE:
      return "This blade's teeth leave ridges in the bottom of a kerf: scrape them, or use a "
             "flat-toothed blade.";
    case CAV_CAUTION_FEATHERBOARD:
      return "The rail would tip away from the fence: set a featherboard ahead of the tool to "
             "hold it there.";
    case CAV_CAUTION_SACRIFICIAL:
      return "The tool stands partly in the fence: screw a sacrificial wooden fence on first.";
    case CAV_CAUTION_SEVERS:
      return "A piece comes off: keep it free beyond the tool, never between tool and fence; "
             "stand aside, use a push block.";
    default:
      return "";
    }
}

const char *
cav_measure_get_label (CavMeasure measure)
{
  switch (measure)
    {
    case CAV_MEASURE_FENCE_TO_TOOTH:
      return "fence to near tooth";
    case CAV_MEASURE_BLADE_IN_FENCE:
      return "blade shows beyond fence";
    case CAV_MEASURE_FENCE_TO_MIDDLE:
      return "fence to middle of cove";
    case CAV_MEASURE_CUTTER_SHOWS:
      return "cutter shows beyond fence";
    case CAV_MEASURE_FENCE_TO_CUTTER:
      return "fence to cutter";
    default:
      return "";
    }
}
