package revision

import (
	"borewright/process/fact"
	"borewright/process/plan"
)

// Where a change stands (Change.Where).
const (
	InPlan        fact.Kind = "revision.in the plan"
	InJob         fact.Kind = "revision.in the job"
	InBar         fact.Kind = "revision.in the bar"
	InCutter      fact.Kind = "revision.in the cutter"
	InSleeve      fact.Kind = "revision.in the sleeve"
	InMachine     fact.Kind = "revision.in the machine"
	InMaterial    fact.Kind = "revision.in the work material"
	InLimits      fact.Kind = "revision.in the limits allowed"
	InLiningUp    fact.Kind = "revision.in lining up"
	InShop        fact.Kind = "revision.in the shop's bars"
	InNamedBar    fact.Kind = "revision.in a bar of the list"    // name, bores that it cuts
	InNamedCutter fact.Kind = "revision.in a cutter of the list" // name, bores that it cuts
	InStation     fact.Kind = "revision.in a station"            // name
	InBore        fact.Kind = "revision.in a bore"               // station
	InBoreAt      fact.Kind = "revision.in a bore at"            // number of a station without a name
	InSweep       fact.Kind = "revision.in a sweep"              // number
	InVisit       fact.Kind = "revision.in a visit"              // InBore, number
	InBoreSleeve  fact.Kind = "revision.in a bore sleeve"        // InBore
	InPass        fact.Kind = "revision.in a pass"               // InVisit, number, kind, number that it had where that was another
	InOldPass     fact.Kind = "revision.in an old pass"          // InVisit, number
	InNewPass     fact.Kind = "revision.in a new pass"           // InVisit, number
)

// The parts of a job that can be changed alone, and all of them together
// (Change.Part, Effect.Part).
const (
	WholeJob         fact.Kind = "revision.all together"
	StationsAndBores fact.Kind = "revision.stations and bores alone" // with the sweeps
	TheSleeve        fact.Kind = "revision.sleeve alone"
	TheBar           fact.Kind = "revision.bar alone"
	TheCutter        fact.Kind = "revision.cutter alone"
	TheMachine       fact.Kind = "revision.machine alone"
	TheMaterial      fact.Kind = "revision.work material alone"
	TheLimits        fact.Kind = "revision.limits alone"
)

// What is compared in one piece.
const (
	Feature   fact.Kind = "revision.feature" // of a sleeve: what, how
	HoldPoint fact.Kind = "revision.hold"    // step of the order of work
)

// inBore is the bore of a station, by its number from 0 where it has no name.
func inBore(station string, i int) fact.Fact {
	if station == "" {
		return fact.New(InBoreAt, fact.Count(i+1))
	}
	return fact.New(InBore, fact.Name(station))
}

func reasons(p *plan.Plan) []fact.Fact {
	var out []fact.Fact
	for _, r := range p.Reasons { // where in its file says nothing of the job, what would free it is for plan
		out = append(out, r.What)
	}
	return out
}
