package schedule

import "borewright/process/fact"

// What bound a pass (Pass.LimitedBy). The first two hold a limit, below.
const (
	AtNextFeed     fact.Kind = "schedule.at the next feed"     // the limit, the next feed up
	IfDeeper       fact.Kind = "schedule.if deeper"            // the limit, how much deeper on radius
	ByDepth        fact.Kind = "schedule.by depth"             // most depth, one of DepthBy: LimitDepth of a pass that could be no deeper
	ForWitness     fact.Kind = "schedule.for witness"          // it shows the axis: depths of its band
	ByFinishFeed   fact.Kind = "schedule.by the finish's feed" // of a semi-finish
	ByFinishSet    fact.Kind = "schedule.by the finish's set"  // of a spring pass
	ByStock        fact.Kind = "schedule.by the stock"         // no pass would be saved
	ByQuiet        fact.Kind = "schedule.by quiet"             // feed
	ByMachineFeeds fact.Kind = "schedule.by the machine's feeds"
)

// The limits: what the pass would come to, what is allowed, where not said
// otherwise.
const (
	LimitDepth     fact.Kind = "schedule.limit depth"     // radial depth, most, one of DepthBy
	LimitNose      fact.Kind = "schedule.limit nose"      // feed, share of the nose radius allowed
	LimitSpring    fact.Kind = "schedule.limit spring"    // on diameter
	LimitStays     fact.Kind = "schedule.limit stays"     // by how much its size may be out, on diameter, how much can be spared
	LimitChip      fact.Kind = "schedule.limit chip"      // mean thickness of the chip, least that the edge cuts; of a pass that is stopped, why
	LimitMove      fact.Kind = "schedule.limit move"      // by how much the cutter is opened, on diameter, least that can be set
	LimitRub       fact.Kind = "schedule.limit rub"       // least depth that the edge cuts, depth; of a pass that is stopped, why
	LimitPower     fact.Kind = "schedule.limit power"     // of the spindle
	LimitTorque    fact.Kind = "schedule.limit torque"    // of the spindle
	LimitStress    fact.Kind = "schedule.limit stress"    // in the bar
	LimitRa        fact.Kind = "schedule.limit Ra"        // expected, asked for; of a pass that is stopped, why
	LimitRoundness fact.Kind = "schedule.limit roundness" // out of round, asked for
	LimitSize      fact.Kind = "schedule.limit size"      // ± in doubt, ± that the limits of size leave
	LimitSing      fact.Kind = "schedule.limit sing"      // margin against chatter at the most of what damps it; half of the edge is asked for
)

// Why a pass that is stopped is too rough or too thin, and what would be enough, each
// alone: not there where nothing would.
const (
	RaByMarks  fact.Kind = "schedule.Ra by marks"  // of nose and feed: feed at most, nose radius at least
	RaByHone   fact.Kind = "schedule.Ra by hone"   // rounding of the edge, rounding at most
	RaByMetal  fact.Kind = "schedule.Ra by metal"  // metal, cutter material, list of RaWith
	RaWith     fact.Kind = "schedule.Ra with"      // class of cutter, least Ra with it
	RaWithToo  fact.Kind = "schedule.Ra with too"  // the same of another that is told after one
	ThinByHone fact.Kind = "schedule.thin by hone" // rounding of the edge, rounding at most
)

// What the deepest cut comes from.
const (
	DepthByJob      fact.Kind = "schedule.depth by the job"
	DepthByOverhang fact.Kind = "schedule.depth by overhang" // stickout over diameter
	DepthByRunOut   fact.Kind = "schedule.depth by run-out"
)

// What stands against one setting for several bores.
const (
	TogetherThin fact.Kind = "schedule.together, thin" // one of them is not cut by a pass that the others need
	TogetherPast fact.Kind = "schedule.together, past" // kind of pass, the limit
	TogetherMiss fact.Kind = "schedule.together, miss" // least and most that the gauge may say, limits of size
)

// What stops a visit.
const (
	NoCleanUp    fact.Kind = "schedule.no clean-up"    // diameter that the old bore reaches, most allowed
	NoFeed       fact.Kind = "schedule.no feed"        // none that the job allows
	NoRunOut     fact.Kind = "schedule.no run-out"     // depth of the run-out, nose radius
	TooThin      fact.Kind = "schedule.too thin"       // what is left on diameter, least that can be cut
	ThinForTwo   fact.Kind = "schedule.thin for two"   // what is to be cut, on diameter, least that two cuts take
	TooMany      fact.Kind = "schedule.too many"       // passes that it takes, passes allowed
	NotRound     fact.Kind = "schedule.not round"      // out-of-round left of the old shape, allowed, what the spindle makes
	TurnsOut     fact.Kind = "schedule.turns out"      // out of round by the spindle alone, allowed
	JournalsOut  fact.Kind = "schedule.journals out"   // out of round by a line bar's journals and bearings alone, allowed
	NoOrder      fact.Kind = "schedule.no order"       // of passes keeps every limit
	NearestPass  fact.Kind = "schedule.nearest pass"   // its kind, depth, feed, speed, the limit
	PassOfFinish fact.Kind = "schedule.pass of finish" // a kind of pass
	PassOfRough  fact.Kind = "schedule.pass of rough"
)

// Cautions of a visit.
const (
	TooFast     fact.Kind = "schedule.too fast"     // title of the visit, slowest speed, cutter material
	Chatters    fact.Kind = "schedule.chatters"     // list of runs of passes, margins of the worst, its frequency, cure
	OnePass     fact.Kind = "schedule.one pass"     // number
	PassesTo    fact.Kind = "schedule.passes to"    // first number, last number
	NoCure      fact.Kind = "schedule.no cure"      // for chatter
	Cures       fact.Kind = "schedule.cures"        // pass number, list of cures, each alone
	NoWitness   fact.Kind = "schedule.no witness"   // too little stock for it
	OffBush     fact.Kind = "schedule.off bush"     // list of runs of passes, moves in the bush, half of its clearance
	BuildsUp    fact.Kind = "schedule.builds up"    // list of runs of passes, their slowest cutting speed, cutter material
	MovesLittle fact.Kind = "schedule.moves little" // pass number, by how much on diameter
	SpringsMore fact.Kind = "schedule.springs more" // pass number, its spring, the most allowed
	PastLimit   fact.Kind = "schedule.past limit"   // pass number, the limit that it is past by more than rounding
	Closes      fact.Kind = "schedule.closes"       // pass number, by how much on diameter
)

// Stops to measure (Hold).
const (
	HoldIs         fact.Kind = "schedule.hold is"           // minutes, list of what to measure, what to do with it
	GaugeEnds      fact.Kind = "schedule.gauge ends"        // low, high
	GaugeWhereCut  fact.Kind = "schedule.gauge where cut"   // low, high, most across where it is bare
	AgainstLimits  fact.Kind = "schedule.against limits"    // low limit, high limit, Ra, roundness
	WhereMarked    fact.Kind = "schedule.where marked"      // round the clock
	WallToDatum    fact.Kind = "schedule.wall to datum"     // of the witness band
	GaugeRested    fact.Kind = "schedule.gauge rested"      // after roughing apart: gauged again when the casting has rested
	LeaveSetUp     fact.Kind = "schedule.leave the set-up"  // until the bore is accepted
	BandMustBeTrue fact.Kind = "schedule.band must be true" // before the next cut
	ShiftAll       fact.Kind = "schedule.shift by all"      // spring planned, size expected, to the nearest
	ShiftByShare   fact.Kind = "schedule.shift by share"    // spring planned, size expected, share, to the nearest
	// Shift: what the bore should come to, the share of the difference, the step: the same on the sheet, which says it in a line
	Shift           fact.Kind = "schedule.shift"
	HalfGraduation  fact.Kind = "schedule.half graduation"   // of the dial that the cutter is set by
	ShiftMiddle     fact.Kind = "schedule.shift middle"      // of bores of one setting: spring planned, share, to the nearest
	RestedAll       fact.Kind = "schedule.rested all"        // the same of all bores of a setting
	KeepNextSetting fact.Kind = "schedule.keep next setting" // spring planned
)

// Honing the edge, or changing the bit.
const (
	HoneFirst  fact.Kind = "schedule.hone first"  // before a pass: likely land if not, smaller on diameter if not, SetAnew or nothing
	HoneDull   fact.Kind = "schedule.hone dull"   // land that the pass, and those that go with it, may end with
	HoneLimit  fact.Kind = "schedule.hone limit"  // a pass that would not keep a limit, the limit
	HoneBreaks fact.Kind = "schedule.hone breaks" // the same, of the limit its name alone
	HonePays   fact.Kind = "schedule.hone pays"   // a keen edge saves more than honing takes
	SetAnew    fact.Kind = "schedule.set anew"    // over the bar: honing takes the tip back
)

// The parts of the doubt of a size (SizeDoubt).
const (
	DoubtSetting     fact.Kind = "schedule.doubt setting"
	DoubtGauge       fact.Kind = "schedule.doubt gauge"
	DoubtTemperature fact.Kind = "schedule.doubt temperature"
	DoubtSpring      fact.Kind = "schedule.doubt spring"
	DoubtForce       fact.Kind = "schedule.doubt force"
	DoubtTaper       fact.Kind = "schedule.doubt taper"
	DoubtShape       fact.Kind = "schedule.doubt shape"
	DoubtWear        fact.Kind = "schedule.doubt wear"    // how far the edge is worn
	DoubtWayOut      fact.Kind = "schedule.doubt way out" // it cuts or rubs
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
