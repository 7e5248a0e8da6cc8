package schedule

import "borewright/process/fact"

// What bound a pass (Pass.LimitedBy). The first two hold a limit, below.
const (
	AtNextFeed     fact.Kind = "passes.at the next feed"     // the limit, the next feed up
	IfDeeper       fact.Kind = "passes.if deeper"            // the limit, how much deeper on radius
	ForWitness     fact.Kind = "passes.for witness"          // it shows the axis
	ByFinishFeed   fact.Kind = "passes.by the finish's feed" // of a semi-finish
	ByFinishSet    fact.Kind = "passes.by the finish's set"  // of a spring pass
	ByStock        fact.Kind = "passes.by the stock"         // no pass would be saved
	ByMachineFeeds fact.Kind = "passes.by the machine's feeds"
)

// The limits: what the pass would come to, what is allowed, where not said
// otherwise.
const (
	LimitDepth     fact.Kind = "passes.limit depth"     // radial depth, most, one of DepthBy
	LimitNose      fact.Kind = "passes.limit nose"      // feed, share of the nose radius allowed
	LimitShape     fact.Kind = "passes.limit shape"     // feed, share of the depth allowed
	LimitSpring    fact.Kind = "passes.limit spring"    // on diameter
	LimitChip      fact.Kind = "passes.limit chip"      // mean thickness of the chip, least that the edge cuts
	LimitMove      fact.Kind = "passes.limit move"      // by how much the cutter is opened, on diameter, least that can be set
	LimitRub       fact.Kind = "passes.limit rub"       // least depth that the edge cuts, depth
	LimitPower     fact.Kind = "passes.limit power"     // of the spindle
	LimitTorque    fact.Kind = "passes.limit torque"    // of the spindle
	LimitStress    fact.Kind = "passes.limit stress"    // in the bar
	LimitRa        fact.Kind = "passes.limit Ra"        // expected, asked for
	LimitRoundness fact.Kind = "passes.limit roundness" // left, asked for
	LimitSize      fact.Kind = "passes.limit size"      // ± in doubt, ± that the limits of size leave
	LimitSing      fact.Kind = "passes.limit sing"      // margin against chatter at the most of what damps it; half of the edge is asked for
)

// What the deepest cut comes from.
const (
	DepthByJob      fact.Kind = "passes.depth by the job"
	DepthByOverhang fact.Kind = "passes.depth by overhang" // stickout over diameter
	DepthByRunOut   fact.Kind = "passes.depth by run-out"
)

// What stops a visit.
const (
	NoCleanUp    fact.Kind = "passes.no clean-up"    // diameter that the old bore reaches, most allowed
	NoFeed       fact.Kind = "passes.no feed"        // none that the job allows
	NoRunOut     fact.Kind = "passes.no run-out"     // depth of the run-out, nose radius
	TooThin      fact.Kind = "passes.too thin"       // what is left on diameter, least that can be cut
	TooMany      fact.Kind = "passes.too many"       // passes that it takes, passes allowed
	NotRound     fact.Kind = "passes.not round"      // out-of-round left, allowed
	NoOrder      fact.Kind = "passes.no order"       // of passes keeps every limit
	NearestPass  fact.Kind = "passes.nearest pass"   // its kind, depth, feed, speed, the limit
	PassOfFinish fact.Kind = "passes.pass of finish" // a kind of pass
	PassOfRough  fact.Kind = "passes.pass of rough"
)

// Cautions of a visit.
const (
	TooFast     fact.Kind = "passes.too fast"     // title of the visit, slowest speed, cutter material
	Chatters    fact.Kind = "passes.chatters"     // list of runs of passes, margins of the worst, its frequency, cure
	OnePass     fact.Kind = "passes.one pass"     // number
	PassesTo    fact.Kind = "passes.passes to"    // first number, last number
	NoCure      fact.Kind = "passes.no cure"      // for chatter
	Cures       fact.Kind = "passes.cures"        // pass number, list of cures, each alone
	NoWitness   fact.Kind = "passes.no witness"   // too little stock for it
	OffBush     fact.Kind = "passes.off bush"     // list of runs of passes, moves in the bush, half of its clearance
	MovesLittle fact.Kind = "passes.moves little" // pass number, by how much on diameter
	Closes      fact.Kind = "passes.closes"       // pass number, by how much on diameter
)

// Stops to measure (Hold).
const (
	HoldIs          fact.Kind = "passes.hold is"           // minutes, list of what to measure, what to do with it
	GaugeEnds       fact.Kind = "passes.gauge ends"        // low, high
	GaugeWhereCut   fact.Kind = "passes.gauge where cut"   // low, high
	AgainstLimits   fact.Kind = "passes.against limits"    // low limit, high limit, Ra, roundness
	WhereMarked     fact.Kind = "passes.where marked"      // round the clock
	WallToDatum     fact.Kind = "passes.wall to datum"     // of the witness band
	LeaveSetUp      fact.Kind = "passes.leave the set-up"  // until the bore is accepted
	BandMustBeTrue  fact.Kind = "passes.band must be true" // before the next cut
	ShiftAll        fact.Kind = "passes.shift by all"      // spring planned, size expected, to the nearest
	ShiftByShare    fact.Kind = "passes.shift by share"    // spring planned, size expected, share, to the nearest
	KeepNextSetting fact.Kind = "passes.keep next setting" // spring planned
)

// The parts of the doubt of a size (SizeDoubt).
const (
	DoubtSetting     fact.Kind = "passes.doubt setting"
	DoubtGauge       fact.Kind = "passes.doubt gauge"
	DoubtTemperature fact.Kind = "passes.doubt temperature"
	DoubtSpring      fact.Kind = "passes.doubt spring"
	DoubtForce       fact.Kind = "passes.doubt force"
	DoubtTaper       fact.Kind = "passes.doubt taper"
	DoubtShape       fact.Kind = "passes.doubt shape"
	DoubtWayOut      fact.Kind = "passes.doubt way out" // it cuts or rubs
)

// Runs are rising numbers, three and more on end as one.
func Runs(n []int) []fact.Fact {
	var out []fact.Fact
	for i := 0; i < len(n); {
		j := i
		for j+1 < len(n) && n[j+1] == n[j]+1 {
			j++
		}
		if j >= i+2 {
			out = append(out, fact.New(PassesTo, fact.Count(n[i]), fact.Count(n[j])))
			i = j + 1
			continue
		}
		out = append(out, fact.New(OnePass, fact.Count(n[i])))
		i++
	}
	return out
}
