package plan

import "borewright/process/fact"

// Where in the plan something is so.
const (
	OfStation  fact.Kind = "plan.of station"  // name of the station, what is so
	OfVisit    fact.Kind = "plan.of visit"    // name of the station, title of the visit, what is so
	OfBores    fact.Kind = "plan.of bores"    // list of stations (Station), what is so
	OfTools    fact.Kind = "plan.of tools"    // name of bar and cutter, what is so
	Station    fact.Kind = "plan.station"     // name
	ForLimit   fact.Kind = "plan.for limit"   // what bound a pass; stickout over diameter, share of the depth that such a bar takes
	ForChatter fact.Kind = "plan.for chatter" // stickout over diameter, how the pass stands
	NoPlan     fact.Kind = "plan.none"        // there is no plan
)

// What stops a plan.
const (
	BarUnknown fact.Kind = "plan.bar unknown"  // why the bar cannot be worked out
	BarTooLong fact.Kind = "plan.bar too long" // stickout over diameter, the most of it
)

// What to mind, and what was found.
const (
	StandsOut       fact.Kind = "plan.stands out"   // stickout over diameter, the rule for it
	OffBearing      fact.Kind = "plan.off bearing"  // clearance
	LongCutting     fact.Kind = "plan.long cutting" // minutes in the cut, what shortens it
	Shortens        fact.Kind = "plan.shortens"     // change, minutes in all then
	NothingShortens fact.Kind = "plan.nothing shortens"
	TornEntry       fact.Kind = "plan.torn entry" // file, line
	AllFinished     fact.Kind = "plan.all finished"
)

// Rules of thumb, what the plan does, and why it leaves the rule.
const (
	RuleStandsOut    fact.Kind = "plan.rule stands out" // diameters
	RuleSpringPass   fact.Kind = "plan.rule spring pass"
	RuleQuiet        fact.Kind = "plan.rule quiet"
	RuleHone         fact.Kind = "plan.rule hone"             // land at the end of roughing, and of the last passes
	RuleRough        fact.Kind = "plan.rule rough"            // depth, least and most
	RuleRoughFeed    fact.Kind = "plan.rule rough feed"       // least and most
	RuleSemiFinish   fact.Kind = "plan.rule semi-finish"      // on diameter, least and most
	RuleCarbide      fact.Kind = "plan.rule carbide"          // on diameter, least and most
	RuleHSS          fact.Kind = "plan.rule high-speed steel" // on diameter, least and most
	RuleFinishFeed   fact.Kind = "plan.rule finish feed"      // least and most
	RuleSpeed        fact.Kind = "plan.rule speed"            // cutter material, work material, least and most, source
	HereDiameters    fact.Kind = "plan.here diameters"        // stickout over diameter
	HereSpringPasses fact.Kind = "plan.here spring passes"    // how many
	HereHoned        fact.Kind = "plan.here honed"            // before which pass, worn by then to a likely land, which it may end with
	HereNotHoned     fact.Kind = "plan.here not honed"        // likely land at the end, metres cut
	HereDamped       fact.Kind = "plan.here damped"           // damping of the bar, land of the edge, indentation force, each least and most; hardness
	HereLength       fact.Kind = "plan.here length"           // depth or feed
	HereSpeed        fact.Kind = "plan.here speed"            // cutting speed, revolutions
	ForDepth         fact.Kind = "plan.for depth"             // whether a fatter bar would pass
	FatterPasses     fact.Kind = "plan.fatter passes"         // bar
	NoFatter         fact.Kind = "plan.no fatter"             // narrowest bore
	ForPass          fact.Kind = "plan.for pass"              // number, how it stands
	ForHold          fact.Kind = "plan.for hold"
	ForLittleSpring  fact.Kind = "plan.for little spring"
	ForRehearsal     fact.Kind = "plan.for rehearsal"
	ForLightCut      fact.Kind = "plan.for light cut" // spring
	ForFewerPasses   fact.Kind = "plan.for fewer passes"
	ForThickerChip   fact.Kind = "plan.for thicker chip"
	ForSlowestSpeed  fact.Kind = "plan.for slowest speed"
)

// Rebore is the title of the only visit of a bore that gets no sleeve.
const Rebore fact.Kind = "plan.rebore"

// Parts of a work, the order of the visits and why, and what is done at the rest.
const (
	RoughTitle  fact.Kind = "plan.rough title"  // title of the work
	FinishTitle fact.Kind = "plan.finish title" // title of the work
	OrderApart  fact.Kind = "plan.order apart"  // list of stations roughed apart
	OrderNot    fact.Kind = "plan.order not"    // station, what stands on it, what would stay
	OrderFirst  fact.Kind = "plan.order first"  // station
	// OrderCarries: station, list of Station.
	OrderCarries fact.Kind = "plan.order carries"
	OrderByBore  fact.Kind = "plan.order by bore" // the job says so
	OrderWith    fact.Kind = "plan.order with"    // list of stations that are cut through at one setting
	OrderAlone   fact.Kind = "plan.order alone"   // list of stations that were to be, why they are not
	AloneOf      fact.Kind = "plan.alone of"      // station, what of it stands against one setting
	AloneStands  fact.Kind = "plan.alone stands"  // station, its next pass, station, its next pass
	AloneRough   fact.Kind = "plan.alone rough"   // station that is not roughed apart as the others are
	AloneTools   fact.Kind = "plan.alone tools"   // station, station that is cut with another bar or cutter
	AloneDone    fact.Kind = "plan.alone done"    // list of stations that are within their limits
	Waits        fact.Kind = "plan.waits"         // list of stations that were cut at a setting that others are measured of, pass
	OrderInside  fact.Kind = "plan.order inside"  // sleeves are bored in place last
	RestCasting  fact.Kind = "plan.rest casting"
	RestSweep    fact.Kind = "plan.rest sweep" // list of stations that are swept
	RestLine     fact.Kind = "plan.rest line"  // none is
	TakeTools    fact.Kind = "plan.take tools" // bar, cutter, nose to tip
	FitBush      fact.Kind = "plan.fit bush"   // station, size of the bar in it, play
	MindBush     fact.Kind = "plan.mind bush"
	OutOfBush    fact.Kind = "plan.out of bush" // station
	RestGauge    fact.Kind = "plan.rest gauge"  // list of stations roughed
)
