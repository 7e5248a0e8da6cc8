// Package ways searches what a shop could change on a job: what would free a plan
// that something stops, and what would better one that sings, is tight or slow. A
// change is a bar, an edge, a speed, a way of setting, a sleeve, and in the end a limit;
// each says what it is, how dear it is in the shop, and which keys of the job file to
// write.
//
// What belongs here: the list of changes, in the order in which a shop would come to
// them, and the search over one, two and three of them. What does not: planning. The
// caller plans a changed job and says what came of it (Asked.Try).
package ways

import (
	"borewright/process"
	"borewright/process/fact"
	"borewright/process/field"
	"borewright/process/measured"
	"borewright/process/place"
	"borewright/process/qty"
	"borewright/process/setup"
)

// Asked is the job that a way is asked for, what is known of it, and how it is planned.
type Asked struct {
	Job     *process.Job
	Visits  []Visit           // of the plan that stands or is stopped
	Next    qty.Diameter      // the next outside of a sleeve, where the one planned does not clean up; 0: it does
	Learned *measured.Learned // nil: nothing was measured
	Shop    []place.Choice    // the shop's bars as they would do, the stiffest that pass first

	// Try plans a changed job. It is called from two goroutines at a time.
	Try func(job *process.Job, how Effort) Outcome
}

// Visit is one visit of the plan that is asked about.
type Visit struct {
	Reach *place.Reach   // nil: not worked out
	Tools *process.Tools // that it is cut with; nil: those of the job
}

// Effort is how much of a plan is worked out.
type Effort int

// From the least.
const (
	Stands  Effort = iota // whether it stands, and if so its passes
	Judged                // and what stops it if not
	Trialed               // and its chance of landing
)

// Outcome is what came of a plan, as far as one plan is judged better than another.
type Outcome struct {
	Feasible bool
	Barred   bool    // by something that no search for passes was needed for
	Stops    int     // how many things stop it
	AnyBar   bool    // one of them does, whatever the bar
	Short    float64 // by how much the nearest pass misses its limit, times, where that stops it; 0: it does not
	Passes   int
	Minutes  float64
	Noisiest setup.Stability // of all passes, by its least margin
	Chance   float64         // least chance of all visits to land on size; 0 where it was not worked out
}

// Way is what was tried and found to free or to better a plan, with what it gave.
type Way struct {
	Change fact.Fact   // what to change
	Keys   []fact.Fact // what to write into the job file
	Outcome

	// What to add to the shop's lists, where what is changed is of them.
	Bars    []process.ShopBar
	Cutters []process.ShopCutter

	units qty.Unit
}

// Describe says what documents have of it. A chance that was not worked out is left out.
func (w *Way) Describe(d *field.Desc) {
	d.Fact(&w.Change, "change")
	d.Facts(&w.Keys, "write")
	d.Is("add_to_bars", func() any { return w.Entry() }).When(func() bool { return len(w.Bars) > 0 })
	d.Is("add_to_cutters", func() any { return w.CutterEntry() }).When(func() bool { return len(w.Cutters) > 0 })
	d.Count(&w.Passes, "passes")
	d.Figure(&w.Minutes, qty.KindMinutes, "minutes")
	d.Figure(&w.Chance, qty.KindShare, "chance").Decimals(4).OmitEmpty()
	d.Table(&w.Noisiest, "chatter")
}

// Entry are the bars to add to the shop's list, as the list has them; "" where there are none.
func (w Way) Entry() (text string) {
	for _, b := range w.Bars {
		text += string(listedBar(b, w.units))
	}
	return text
}

// CutterEntry are the cutters to add to the shop's list of them.
func (w Way) CutterEntry() (text string) {
	for _, k := range w.Cutters {
		text += string(listedCutter(k, w.units))
	}
	return text
}

// Fact is a way as one fact.
func (w Way) Fact() fact.Fact {
	var keys, chance, margins fact.Arg
	var all []fact.Fact
	for _, b := range w.Bars {
		all = append(all, fact.New(AddBar, fact.Name(b.Name)))
	}
	for _, k := range w.Cutters {
		all = append(all, fact.New(AddCutter, fact.Name(k.Name)))
	}
	all = append(all, w.Keys...)
	if len(all) > 0 {
		keys = fact.List(all...)
	}
	if w.Chance > 0 {
		chance = fact.Figure(qty.KindChance.Of(w.Chance))
	}
	voice := w.Noisiest.Chatter()
	if voice != setup.Quiet {
		margins = w.Noisiest.Margins()
	}
	return fact.New(Is, w.Change, keys, fact.Count(w.Passes), fact.Figure(qty.KindWholeMinutes.Of(w.Minutes)), chance, fact.New(voice), margins)
}

// change is one thing to do about a job.
type change struct {
	what fact.Fact
	keys []key // one at least: what writes nothing changes nothing
	edit func(j *process.Job)
}

// whole is whether it is another bar as a whole, with the range that such a bar usually has.
func (c change) whole() bool { return c.plain().Kind == ToMake }

// plain is what is to be done, without the name of what it is done in the place of.
func (c change) plain() fact.Fact {
	if inner, is := c.what.Nth(2).(fact.Fact); is && c.what.Kind == Instead {
		return inner
	}
	return c.what
}

// of is the bar or the cutter, named by bores, whose entry is changed; nil: it is a change of the job.
func (c change) of() *own { return c.keys[0].of }

// takes is the entry of the list that takes the place of the one that bores name; "": a new one.
func (c change) takes() string { return c.keys[0].takes }

// key is a key of the job file and what to write there.
type key struct {
	path string
	as   fact.Fact

	of    *own   // it stands in the entry of what bores name
	takes string // another entry takes the place of that
}

func length(path string, l qty.Length) key { return figure(path, fact.Figure(qty.Plain(l))) }

func figure(path string, v fact.Arg) key {
	return key{path: path, as: fact.New(Write, fact.Name(path), v)}
}

func word(path, w string) key {
	return key{path: path, as: fact.New(WriteWord, fact.Name(path), fact.Name(w))}
}

// ofList is a key that stands in another file as the change says: nothing to write is told
// of it.
func ofList(path string) key { return key{path: path} }

// told is a key that is told to write and changes nothing that the change does not say already.
func told(k key) key { return key{as: k.as} }

func yes(path string) key { return key{path: path, as: fact.New(WriteYes, fact.Name(path))} }

// kind is changes of one kind, from the least to the most; one of them is enough.
type kind struct {
	rank    int // how dear it is in the shop
	changes []change
	graded  bool // each is more of the same than the one before
}

// How dear a kind of change is. The order is common practice, no source.
const (
	keyedIn = 1 + iota // a figure at the machine: speed, slide that feeds
	atHand             // another setting, another edge, the bar put further in
	bought             // a gauge, a head, an edge of another metal; other work on the lathe
	made               // another bar, another sleeve
	built              // a bearing beyond the work, a bar of dearer metal
	allowed = 8        // what the job allows its cuts
	loud    = 9        // a finish that sings
	granted = 10       // the customer's limits
)

// kinds are the changes that suit a job, the cheapest in the shop first.
func kinds(a *Asked) []kind {
	job := a.Job
	named, bar, bit := owns(job)
	own := a.theJob(bar)
	ofBar := func(list func(job *process.Job) []change) []change {
		if own == nil {
			return nil
		}
		return list(own.Job)
	}
	ofCutter := func(list func(job *process.Job) []change) []change {
		if len(bit) == 0 {
			return nil
		}
		return list(job)
	}
	all := []kind{
		{keyedIn, ofCutter(slower), true},
		{keyedIn, stoodOff(a), false},
		{keyedIn, byTable(job), false},
		{keyedIn, byQuill(job), false},
		{keyedIn, morePasses(job), false},
		{atHand, ofBar(shorter), true},
		{atHand, ofTheShop(a), false},
		{atHand, clearOfBottom(own), false},
		{atHand, ofCutter(smallerNose), true},
		{atHand, ofCutter(largerNose), true},
		{atHand, ofCutter(squarer), true},
		{atHand, ofCutter(keener), true},
		{atHand, ofCutter(setOtherwise), false},
		{bought, ofCutter(finerHone), false},
		{bought, ofCutter(otherEdge), false},
		{bought, finerGauge(job), true},
		{bought, fineHead(job), false},
		{bought, sleeveOtherwise(job), false},
		{bought, heldTighter(job), false},
		{bought, heldOtherwise(job), false},
		{bought, otherCompound(job), false},
		{made, thatPasses(own), false},
		{made, ofBar(fatter), true},
		{made, largerSleeve(a), false},
		{made, biggerSleeve(a), false},
		{made, otherSleeve(job), false},
		{built, ofBar(otherBar), false},
		{built, supported(job), false},
		{allowed, usualSpring(job), true},
		{allowed, moreSpring(job), false},
		{loud, singing(job), false},
		{granted, wider(job), false},
	}
	for _, n := range named {
		all = append(all, n.kinds(a)...)
	}
	out := all[:0]
	for _, k := range all {
		if len(k.changes) > 0 {
			out = append(out, k)
		}
	}
	return out
}
