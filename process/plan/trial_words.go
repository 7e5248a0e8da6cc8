package plan

import (
	"fmt"

	"borewright/process/fact"
	"borewright/process/passes"
	"borewright/process/qty"
)

// trialWords is what stops the passes of a trial as text, until what a sleeve has
// to say is a fact: it goes then, with sleeve.Trial.Why as a fact.
func trialWords(u qty.Unit, f fact.Fact) string {
	at := func(n int) string {
		if q, ok := fact.AsFigure(f.Nth(n)); ok {
			return u.Say(q)
		}
		if list := fact.AsList(f.Nth(n)); len(list) > 0 {
			return trialWords(u, list[0])
		}
		return ""
	}
	bare := func(n int) string { q, _ := fact.AsFigure(f.Nth(n)); return u.Bare(q) }
	switch f.Kind {
	case passes.NoCleanUp:
		return fmt.Sprintf("it does not clean up: the old bore reaches %s about the true axis, the limits end at %s", at(1), at(2))
	case passes.NoFeed:
		return "no feed of the machine is within the job's feed_most"
	case passes.NoRunOut:
		return fmt.Sprintf("the run-out at the closed end is %s deep, which leaves a nose radius of %s no room to cut: a smaller nose radius, or a deeper run-out (relief)", at(1), at(2))
	case passes.TooThin:
		return fmt.Sprintf("only %s is left on diameter, and the edge rubs below %s: no cut can be planned for it; hone or lap it to size, or ask whether the size found is taken", at(1), at(2))
	case passes.TooMany:
		return fmt.Sprintf("it takes %s passes, %s allowed", at(1), at(2))
	case passes.NotRound:
		return fmt.Sprintf("roundness: %s of the old shape would be left, %s asked for", at(1), at(2))
	case passes.NoOrder:
		return "no order of passes keeps every limit"
	case passes.NearestPass:
		return fmt.Sprintf("the %s pass that comes nearest (%s deep, %s a rev, %s) is stopped by %s", at(1), at(2), at(3), at(4), at(5))
	case passes.PassOfFinish:
		return "finish"
	case passes.PassOfRough:
		return "rough"
	case passes.LimitDepth:
		return fmt.Sprintf("depth of cut: %s, %s allowed %s", at(1), at(2), at(3))
	case passes.DepthByJob:
		return "by the job"
	case passes.DepthByOverhang:
		return fmt.Sprintf("for a bar %s diameters out", bare(1))
	case passes.DepthByRunOut:
		return "by the run-out at the blind end"
	case passes.LimitNose:
		return fmt.Sprintf("nose radius: a feed of %s is over %s of it", at(1), at(2))
	case passes.LimitShape:
		return fmt.Sprintf("chip: a feed of %s is over %s of the depth", at(1), at(2))
	case passes.LimitSpring:
		return fmt.Sprintf("spring: %s on diameter, %s allowed", at(1), at(2))
	case passes.LimitChip:
		return fmt.Sprintf("chip: %s thick on average, the edge rubs below %s", at(1), at(2))
	case passes.LimitRub:
		return fmt.Sprintf("chip: the edge rubs at depths below %s, this is %s", at(1), at(2))
	case passes.LimitPower:
		return fmt.Sprintf("power: %s, the spindle has %s", at(1), bare(2))
	case passes.LimitTorque:
		return fmt.Sprintf("torque: %s, the spindle has %s", at(1), bare(2))
	case passes.LimitStress:
		return fmt.Sprintf("bar stress: %s, %s allowed", at(1), bare(2))
	case passes.LimitRa:
		return fmt.Sprintf("roughness: Ra %s, %s asked for", at(1), at(2))
	case passes.LimitRoundness:
		return fmt.Sprintf("roundness: %s left of the old shape, %s asked for", at(1), at(2))
	case passes.LimitSize:
		return fmt.Sprintf("size: known to ±%s on diameter after the last measurement, ±%s is what the limits leave", at(1), at(2))
	}
	return trialReach(u, f)
}
